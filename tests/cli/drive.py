"""Drives a program at a pseudo-terminal of 24 lines of 80 columns (SIZE=50x20: of 20 lines of
50), as a person would.

usage: drive.py KEYS PROGRAM ARGUMENT...

KEYS are words with blanks between them: each is typed as it stands once the screen
is quiet; <enter>, <esc>, <ctrl-c>, <ctrl-u>, <space>, <term> (SIGTERM) are keys; <50x20> gives the
terminal another size; _ in a word is typed as a blank. Prints every screen, "=====" between two, then "exit N", then how
many keys were pressed and how many answers they were: a line typed with its Enter is one, and
so is any other key. A screen that would not fit is an error.
"""
import fcntl
import os
import pty
import re
import select
import signal
import struct
import sys
import termios
import time

COLUMNS, ROWS = map(int, os.environ.get("SIZE", "80x24").split("x"))
KEYS = {"<enter>": b"\r", "<esc>": b"\x1b", "<ctrl-c>": b"\x03", "<space>": b" ", "<ctrl-u>": b"\x15"}


def read_quiet(fd):
    data = b""
    patience = 5.0
    while select.select([fd], [], [], patience)[0]:
        try:
            more = os.read(fd, 65536)
        except OSError:
            break
        if not more:
            break
        data += more
        patience = 0.15
    return data


def resize(fd, columns, rows):
    fcntl.ioctl(fd, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))


def screens(data):
    text = data.decode("utf-8", "replace")
    for part in text.split("\x1b[H\x1b[2J"):
        part = re.sub(r"\x1b\[[0-9;]*m", "", part)
        for sign in ("\x1b[?1049h", "\a", "\r"):
            part = part.replace(sign, "")
        part = part.replace("\x1b[?1049l", "\n=====\n")
        yield part


def answers(keys):
    """A word of typing belongs to the Enter behind it."""
    typed = sum(1 for key, after in zip(keys, keys[1:]) if key not in KEYS and after == "<enter>")
    return len(keys) - typed


def ended(pid):
    """Its status; a program that still waits for a key after the last one is ended."""
    for _ in range(100):
        done, status = os.waitpid(pid, os.WNOHANG)
        if done:
            return status
        time.sleep(0.05)
    os.kill(pid, signal.SIGKILL)
    return os.waitpid(pid, 0)[1]


def main():
    keys, command = sys.argv[1].split(), sys.argv[2:]
    pid, fd = pty.fork()
    if pid == 0:
        resize(0, COLUMNS, ROWS)  # before the program looks
        os.environ["TERM"] = "xterm"
        # As a person's shell has it; a run in the background of a script comes with it ignored.
        signal.signal(signal.SIGINT, signal.SIG_DFL)
        os.execvp(command[0], command)
    data, parts = read_quiet(fd), []
    columns, rows = COLUMNS, ROWS
    for key in keys:
        size = re.fullmatch(r"<(\d+)x(\d+)>", key)
        if size:
            parts.append((columns, rows, data))
            data = b""
            columns, rows = map(int, size.groups())
            resize(fd, columns, rows)
        elif key == "<term>":
            os.kill(pid, signal.SIGTERM)
        else:
            os.write(fd, KEYS.get(key, key.replace("_", " ").encode()))
        data += read_quiet(fd)
    data += read_quiet(fd)
    status = ended(pid)
    code = os.WEXITSTATUS(status) if os.WIFEXITED(status) else 128 + os.WTERMSIG(status)
    for columns, rows, data in parts + [(columns, rows, data)]:
        for screen in screens(data):
            page = screen.split("\n=====\n")[0].split("\n")
            if len(page) > rows or any(len(line) > columns for line in page):
                print(f"TOO BIG FOR {columns}x{rows}")
            print(screen)
            print("=====")
    print("exit", code)
    print("keys", sum(1 if key in KEYS else len(key) for key in keys), "answers", answers(keys))


main()
