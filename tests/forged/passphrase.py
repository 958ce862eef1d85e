"""A process that has read a passphrase leaves no core file, and does not keep it.

usage: passphrase.py PROGRAM, in a folder of make.sh
"""
import os
import resource
import signal
import subprocess
import sys
import time

SECRET = open("secret", "rb").read().strip()


def rests(pid):
    """Waits until the process waits: asleep, and no time of the processor used for a while."""
    before = None
    for _ in range(60):
        time.sleep(0.5)
        words = open(f"/proc/{pid}/stat").read().rsplit(")", 1)[1].split()
        now = words[0], words[11], words[12]
        if now == before and now[0] == "S":
            return
        before = now


def dies(command, **more):
    """Whether a core was dumped of the process, ended while it waits."""
    process = subprocess.Popen(command, **more)
    rests(process.pid)
    process.send_signal(signal.SIGSEGV)
    _, status = os.waitpid(process.pid, 0)
    return os.WIFSIGNALED(status) and os.WCOREDUMP(status)


def core():
    resource.setrlimit(resource.RLIMIT_CORE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
    if not dies(["sleep", "9"]):
        print("not tried here: this system dumps no core of anything", file=sys.stderr)
    ends = os.pipe()
    print("a core of one that asks for a passphrase:",
          dies([sys.argv[1], "key", "show", "k.p12", "--passphrase-fd", str(ends[0])], pass_fds=[ends[0]]))


MOST = 1 << 30  # larger spans are the shadow of a sanitizer, terabytes that hold no letter


def memory(pid):
    for line in open(f"/proc/{pid}/maps"):
        span, mode = line.split()[:2]
        begin, end = (int(part, 16) for part in span.split("-"))
        if "r" in mode and "[v" not in line and end - begin < MOST:
            with open(f"/proc/{pid}/mem", "rb") as mem:
                mem.seek(begin)
                try:
                    yield mem.read(end - begin)
                except OSError:  # a span that is reserved and not backed
                    continue


def kept():
    """The paper goes to a pipe that nobody reads yet: the key was opened before."""
    os.mkfifo("pipe")
    with open("secret", "rb") as secret:
        fd = secret.fileno()
        process = subprocess.Popen([sys.argv[1], "paper", "record", "J", "--out", "pipe", "--key", "k.p12",
                                    "--passphrase-fd", str(fd)], pass_fds=[fd], stdout=subprocess.DEVNULL)
        rests(process.pid)
    try:
        wide = "\0".join(SECRET.decode()).encode()  # as PKCS #12 wants it, two bytes a letter
        found = any(SECRET in part or wide in part for part in memory(process.pid))
        print("it waits:", process.poll() is None, "- the passphrase is in its memory:", found)
    except PermissionError:
        print("it waits: True - the passphrase is in its memory: False")
        print("not tried here: its memory is closed to us", file=sys.stderr)
    process.kill()
    process.wait()


core()
kept()
