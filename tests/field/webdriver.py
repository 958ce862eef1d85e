"""A small client of W3C WebDriver, by the standard library alone: what the tests of the field page
ask of a browser. chromedriver is the other end; it and its browser end with the session."""
import atexit
import base64
import json
import re
import subprocess
import time
import urllib.error
import urllib.request

ELEMENT = "element-6066-11e4-a52e-4f735466cecf"  # W3C WebDriver, 12.1: the web element identifier


class Failed(Exception):
    pass


class Browser:
    def __init__(self, profile, width=390, height=844, dark=False):
        self.session, self.profile = None, profile
        self.driver = subprocess.Popen(["chromedriver", "--port=0"], stdout=subprocess.PIPE,
                                       stderr=subprocess.DEVNULL, text=True)
        atexit.register(self.close)  # also where a test fails
        self.port = self.port_told()
        args = ["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
                "--user-data-dir=" + profile, "--window-size=%d,%d" % (width, height)]
        if dark:
            args.append("--force-dark-mode")
        wanted = {"browserName": "chrome", "goog:chromeOptions": {
            "args": args, "mobileEmulation": {"deviceMetrics": {
                "width": width, "height": height, "pixelRatio": 1, "touch": True, "mobile": True}}},
            "goog:loggingPrefs": {"browser": "ALL"}}
        self.session = self._patient("POST", "/session",
                                     {"capabilities": {"alwaysMatch": wanted}})["sessionId"]

    def port_told(self):
        for line in self.driver.stdout:
            told = re.search(r"on port (\d+)", line)
            if told and "successfully" in line:
                return int(told.group(1))
        raise Failed("chromedriver does not say its port")

    def _patient(self, *request):
        for _ in range(100):
            try:
                return self.call(*request)
            except (ConnectionError, urllib.error.URLError):
                time.sleep(0.1)
        raise Failed("chromedriver does not answer")

    def call(self, method, path, body=None):
        if self.session is not None:
            path = "/session/" + self.session + path
        data = None if method != "POST" else json.dumps(body or {}).encode()
        ask = urllib.request.Request("http://127.0.0.1:%d%s" % (self.port, path), data, method=method,
                                     headers={"Content-Type": "application/json"})
        try:
            with urllib.request.urlopen(ask, timeout=120) as reply:
                return json.load(reply)["value"]
        except urllib.error.HTTPError as fault:
            raise Failed(json.load(fault)["value"]["message"].splitlines()[0]) from None

    def close(self):
        """The session first, then the driver that this test started."""
        if self.driver is None:
            return
        try:
            if self.session is not None:
                self.call("DELETE", "")
        except (Failed, OSError):
            pass
        self.driver.terminate()
        self.driver.wait()
        self.driver = None

    def kill(self):
        """The browser of this session and its driver, without a word."""
        pid = self.cdp_browser_pid()
        subprocess.run(["kill", "-9", str(pid)], check=True)
        self.driver.kill()
        self.driver.wait()
        self.driver = None
        end = time.time() + 20
        while time.time() < end and subprocess.run(["pgrep", "-f", self.profile], check=False,
                                                   stdout=subprocess.DEVNULL).returncode == 0:
            time.sleep(0.05)  # its store is another one's when the last of it is gone

    def cdp_browser_pid(self):
        for line in subprocess.run(["ps", "-o", "pid=,ppid=", "-e"], check=True, text=True,
                                   stdout=subprocess.PIPE).stdout.splitlines():
            pid, parent = map(int, line.split())
            if parent == self.driver.pid:
                return pid
        raise Failed("no browser under the driver")

    # ---- the page ---------------------------------------------------------------------------

    def cdp(self, cmd, **params):
        return self.call("POST", "/goog/cdp/execute", {"cmd": cmd, "params": params})

    def go(self, url):
        self.call("POST", "/url", {"url": url})

    def js(self, script, *args):
        return self.call("POST", "/execute/sync", {"script": script, "args": list(args)})

    def wait(self, script, *args, seconds=20):
        end = time.time() + seconds
        while time.time() < end:
            got = self.js("return " + script, *args)
            if got:
                return got
            time.sleep(0.05)
        raise Failed("never true: %s\n%s" % (script, self.text()))

    def text(self):
        return self.js("return document.body.innerText")

    def title(self):
        return self.js("return document.querySelector('h1') ? document.querySelector('h1').innerText : ''")

    def press(self, words, inside="body"):
        """The button of exactly these words, or of a line that begins with them."""
        script = ("[...document.querySelectorAll(arguments[1] + ' button')].find(b => b.innerText.trim() === "
                  "arguments[0] || (b.querySelector('span') && b.querySelector('span').innerText.trim() === arguments[0]))")
        self.wait(script + " && true", words, inside)
        self.js(script + ".click()", words, inside)

    def fill(self, label, value, inside="body"):
        script = ("const l = [...document.querySelectorAll(arguments[1] + ' label')].find(l => "
                  "l.innerText.startsWith(arguments[0])); const i = document.getElementById(l.htmlFor);"
                  "i.value = arguments[2]; i.dispatchEvent(new Event('input')); return i.value")
        got = self.js(script, label, inside, value)
        if got != value:
            raise Failed("%s took %r, not %r" % (label, got, value))

    def picture(self, path):
        with open(path, "wb") as out:
            out.write(base64.b64decode(self.call("GET", "/screenshot")))

    def whole_picture(self, path):
        size = self.cdp("Page.getLayoutMetrics")["cssContentSize"]
        shot = self.cdp("Page.captureScreenshot", captureBeyondViewport=True, clip={
            "x": 0, "y": 0, "width": size["width"], "height": min(size["height"], 6000), "scale": 1})
        with open(path, "wb") as out:
            out.write(base64.b64decode(shot["data"]))

    def complaints(self):
        return [m["message"] for m in self.call("POST", "/se/log", {"type": "browser"})]
