"""What the office does for those who are apart: the page for a phone, a meeting in a folder
with nothing new, and reading an authority's time stamps anew, each against a program that does
the like. Prints a line each; the times are the least processor time of ROUNDS turns, taken by
turns so that all see the same machine.

usage: apart.py PROGRAM [ROUNDS]       from the top of the checkout
"""
import os
import signal
import subprocess
import sys
import tempfile
import time

program, rounds = os.path.abspath(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 30
top = os.getcwd()
STAMPS = 20


def demo_book(folder):
    subprocess.run(["sh", f"{top}/sample-data/demo.sh", f"{folder}/demo"], check=True,
                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, env={**os.environ, "MISTFOLD": program})
    return next(os.path.join(d, f) for d, _, files in os.walk(f"{folder}/demo") for f in files if f.endswith(".book"))


def quiet(*command):
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL)


def stamped(folder):
    """A book of STAMPS time stamps by an authority of our own on 127.0.0.1, and the head that 0.tsr is of."""
    book, head = f"{folder}/stamped.book", ""
    server = subprocess.Popen([sys.executable, f"{top}/tests/cli/tsa.py", folder],
                              stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        while not os.path.exists(f"{folder}/tsa/url"):
            assert server.poll() is None
            time.sleep(0.1)
        url = open(f"{folder}/tsa/url").read().strip() + "good"
        quiet(program, "--book", book, "book", "new", "--no-key", "--device", "t")
        quiet(program, "--book", book, "person", "add", "--id", "rosa", "--name", "Rosa Muestra")
        for n in range(STAMPS):
            quiet(program, "--book", book, "person", "add", "--id", f"p{n}", "--name", f"Person {n}")
            head = head or subprocess.check_output([program, "--book", book, "book", "head"], text=True).split()[0]
            quiet(program, "--book", book, "book", "stamp", "--tsa", url, "--tsa-roots", f"{folder}/tsa/root.pem",
                  "--out", f"{folder}/{n}.tsr")
    finally:
        server.send_signal(signal.SIGTERM)
        server.wait()
    return book, head


def busy(command):
    nowhere = os.open("/dev/null", os.O_WRONLY)
    silent = [(os.POSIX_SPAWN_DUP2, nowhere, 1), (os.POSIX_SPAWN_DUP2, nowhere, 2)]
    _, status, used = os.wait4(os.posix_spawnp(command[0], command, os.environ, file_actions=silent), 0)
    os.close(nowhere)
    assert os.waitstatus_to_exitcode(status) == 0 or "gate" in command, command  # 1 = no
    return used.ru_utime + used.ru_stime


def least(commands):
    times = [1e9] * len(commands)
    for _ in range(rounds):
        times = [min(t, busy(c)) for t, c in zip(times, commands)]
    return [t * 1000 for t in times]


def main():
    os.environ.update(MISTFOLD_BY="rosa", XDG_CONFIG_HOME="/nonexistent", MISTFOLD_TSA_WAIT="5", no_proxy="*")
    os.environ.pop("MISTFOLD_BOOK", None)
    with tempfile.TemporaryDirectory(dir=os.environ.get("BENCH_FOLDER")) as folder:
        book = demo_book(folder)
        stamps, head = stamped(folder)
        os.mkdir(f"{folder}/meeting")
        sync = [program, "--quiet", "--book", book, "sync", f"folder:{folder}/meeting"]
        quiet(*sync)
        page, meet, gate, check, bare, openssl = least([
            [program, "--quiet", "--book", book, "field", "page", "J-1926", "--out", f"{folder}/page.html"],
            sync,
            [program, "--quiet", "--book", book, "gate", "J-1926", "demo"],
            [program, "--book", stamps, "book", "check", "--tsa-roots", f"{folder}/tsa/root.pem"],
            [program, "--version"],
            ["openssl", "ts", "-verify", "-in", f"{folder}/0.tsr", "-digest", head,
             "-CAfile", f"{folder}/tsa/root.pem"]])
        size = os.path.getsize(f"{folder}/page.html") / 1024
        each = (check - bare) / STAMPS
        print(f"phone page of a job: {page:.1f} ms, a gate of it {gate:.1f} ms: ratio {page / gate:.2f}; {size:.0f} KiB")
        print(f"folder with nothing new: {meet:.1f} ms, a gate {gate:.1f} ms: ratio {meet / gate:.2f}")
        print(f"a time stamp checked: {each:.2f} ms, openssl ts -verify {openssl:.2f} ms: ratio {each / openssl:.2f}")


if __name__ == "__main__":
    main()
