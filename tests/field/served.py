"""The page as a served book gives it, in a browser, headless: served.py FOLDER, with MISTFOLD the
program and SAMPLE the sample data. An invitation is opened, something is logged, the office is not
there, then takes it; the page opens without it; the invitation is withdrawn."""
import atexit
import os
import re
import subprocess
import sys
import time

import page
from webdriver import Browser, Failed

want, run = page.want, page.run


class Served(page.Page):
    """A browser in which the address of an invitation is opened."""

    def __init__(self, url):
        self.b = Browser(os.path.join(page.FOLDER, "profile"))
        self.open_at(url, "Who is here?")

    def open_at(self, url, title):
        self.b.go(url)
        self.b.wait("document.querySelector('h1') && document.querySelector('h1').innerText === arguments[0]", title)

    def where(self):
        return self.b.js("return location.pathname + location.hash")

    def alert(self):
        return self.b.wait("document.querySelector('[role=alert]').innerText")


def serve(port=0):
    env = dict(os.environ, MISTFOLD_BOOK=os.path.join(page.FOLDER, "half", "demo.book"))
    server = subprocess.Popen([page.PROGRAM, "field", "serve", "--port", str(port)], env=env,
                              stdout=subprocess.PIPE, text=True)
    atexit.register(server.kill)  # also where a test fails
    first = re.match(r"serving (http://localhost:(\d+));", server.stdout.readline())
    want(first, "it does not say where it serves")
    return server, first.group(1), int(first.group(2))


def end(server):
    server.terminate()
    want(server.wait(10) == 0, "the server did not end well")


def blocked(p):
    """What its policy kept from being run or fetched."""
    return [said for said in p.b.complaints()
            if "Content Security Policy" in said or "Content-Security-Policy" in said]


def whole():
    server, base, port = serve()
    said = run("field", "invite", page.JOB, "--person", "rosa", "--url", base)
    url, entry = re.search(r"http://\S+#\S+", said).group(), re.search(r"invitation (\S+),", said).group(1)
    p = Served(url)
    try:
        want(p.where() == "/field/" + page.JOB, "the token stays in the address: " + p.where())
        p.begin()
        p.list("A1", "contain")
        p.tick("signs")
        p.contents()
        p.b.js("go(send)")
        p.sheet("Send")
        end(server)
        p.b.press("Hand it over to the office now")
        want("cannot be reached" in p.alert(), p.alert())
        p.open_at(base + "/field/" + page.JOB, "Contents")  # from what the browser keeps
        want(p.count() == 1, "what was logged is not there")
        server, _, _ = serve(port)
        p.b.js("go(send)")
        p.sheet("Send")
        p.b.press("Hand it over to the office now")
        p.b.wait("document.getElementById('b-unsent').textContent === '0'")
        want("tick" in run("entry", "list", page.JOB), "the book does not have it")
        run("book", "check")
        p.open_at(url, "Contents")  # the address again: the same page, with what was logged on it
        want(p.count() == 1, "the address of the invitation replaced the page")
        p.b.js("go(send)")
        p.b.press("Get the newest page")
        p.b.wait("document.querySelector('h1') && document.querySelector('h1').innerText === 'Who is here?'")
        want(p.count() == 0, "it is not the newest page")
        p.begin()
        run("entry", "withdraw", entry, "--reason", "phone lost")
        p.b.js("go(send)")
        p.b.press("Hand it over to the office now")
        want("withdrawn" in p.alert(), p.alert())
        want(blocked(p) == [], str(blocked(p)))
    finally:
        p.b.close()
        if server.poll() is None:
            end(server)


if __name__ == "__main__":
    page.FOLDER = os.path.abspath(sys.argv[1])
    os.makedirs(page.FOLDER, exist_ok=True)
    page.make_book()
    try:
        whole()
    except Failed as fault:
        sys.exit("served.py: %s" % fault)
