"""Runs the commands of a guide and compares what they print with what stands there.

usage: guide.py GUIDE SAMPLE-DATA [--write]      (MISTFOLD = the program)

A block of indented lines begins with "$ COMMAND"; the lines up to the next command
are its output. "# keys: ..." after a walk are the keys pressed (drive.py); the screen
before it is left is its output. The line "<!-- book: sample -->" of the guide says
which book it begins with: none, areas (the sample job before its containment) or
sample (the whole sample job). A line "<!-- server -->" has it begin with a PostgreSQL server of
its own (pg.sh). --write puts the output of now into the guide.
"""
import os
import re
import subprocess
import sys
import tempfile

HERE = os.path.dirname(os.path.abspath(__file__))
PROGRAM = os.environ["MISTFOLD"]


def prepare(book, sample, folder):
    if book == "none":
        return
    script = open(os.path.join(sample, "demo.sh"), encoding="utf-8").read()
    if book == "areas":
        script = script.split('say "The crew walks the containment list')[0]
    script = script.replace('$(cd "$(dirname "$0")" && pwd)', sample)
    subprocess.run(["sh", "-c", script, "demo", folder + "/out"], check=True, cwd=folder,
                   stdout=subprocess.DEVNULL)
    os.rename(folder + "/out/demo.book", folder + "/firm.book")
    os.rename(folder + "/out/demo.book.office.key", folder + "/firm.book.office.key")
    os.rename(folder + "/out", folder + "/papers")


def run(command, folder):
    keys = re.search(r" *# keys: (.*)$", command)
    if keys:
        words = command[:keys.start()].split()[1:]
        done = subprocess.run(["python3", HERE + "/drive.py", keys.group(1) + " q", PROGRAM] + words,
                              cwd=folder, capture_output=True, text=True)
        screen = done.stdout.split("=====\n")[-3]
        text = re.sub(r"\d{4}-\d\d-\d\d \d\d:\d\d", "2026-09-14 07:40", screen)
    else:
        done = subprocess.run(["sh", "-c", 'mistfold() { "$MISTFOLD" "$@"; }\n' + command], cwd=folder,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
        text = done.stdout
    return [line.rstrip() for line in text.rstrip("\n").split("\n")] if text.strip() else []


def serve():
    """A server on a socket that psql and libpq find by themselves, as an administrator's."""
    kit = os.path.join(HERE, "..", "support", "pg.sh")

    def ask(*words):
        done = subprocess.run(["sh", kit, *words], capture_output=True, text=True)
        if done.returncode:
            sys.exit(done.stderr)
        return done.stdout.strip()
    os.environ.update(PGPORT="5432", PGUSER="admin", LC_ALL="C.UTF-8")
    os.environ["PGHOST"] = ask("start", str(os.getpid()))
    os.environ["PATH"] = ask("bin") + ":" + os.environ["PATH"]
    return lambda: ask("stop", os.environ["PGHOST"])


def main():
    path, sample = sys.argv[1], os.path.abspath(sys.argv[2])
    lines = open(path, encoding="utf-8").read().split("\n")
    folder = tempfile.mkdtemp()
    os.environ.update(MISTFOLD_BOOK="firm.book", MISTFOLD_BY="rosa", XDG_CONFIG_HOME=folder)
    prepare(re.search(r"<!-- book: (\w+) -->", "\n".join(lines)).group(1), sample, folder)
    os.environ.pop("MISTFOLD_QUIET", None)
    end = serve() if "<!-- server -->" in lines else lambda: None
    out, at, wrong, n = [], 0, 0, 0
    while at < len(lines):
        out.append(lines[at])
        at += 1
        if not out[-1].startswith("    $ "):
            continue
        command = out[-1][6:]
        while command.endswith("\\"):
            command = command[:-1] + lines[at].strip()
            out.append(lines[at])
            at += 1
        expected = []
        while at < len(lines) and (lines[at].startswith("    ") or
                                   (lines[at] == "" and at + 1 < len(lines) and
                                    lines[at + 1].startswith("    "))):
            if lines[at].startswith("    $ "):
                break
            expected.append(lines[at][4:])
            at += 1
        while expected and expected[-1] == "":
            expected.pop()
            at -= 1
        actual = run(command, folder)
        n += 1
        if actual != expected:
            wrong += 1
            if "--write" not in sys.argv:
                print("$", command, "\nprints\n" + "\n".join(actual), "\nnot\n" + "\n".join(expected))
        out += [("    " + line).rstrip() for line in actual]
        if at < len(lines) and lines[at].startswith("    $ "):
            out.append("")
        elif at < len(lines) and lines[at] == "" and out[-1] != "":
            pass
    end()
    if "--write" in sys.argv:
        text = "\n".join(out)
        open(path, "w", encoding="utf-8").write(text)
        return 0
    print(n, "commands,", wrong, "wrong")
    return 1 if wrong else 0


sys.exit(main())
