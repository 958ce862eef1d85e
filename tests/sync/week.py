#!/usr/bin/env python3
"""A week of a firm: offices and crews that log, meet at a folder when they can, and lose things.

  week.py PROGRAM SEED OFFICES CREWS DAYS

The folder is kept the same on every computer by a service that brings files late, in any order
and again; each device sees its own copy of it. Planted are: a device that is lost with all it
had not handed out, a clock that goes a day ahead, a book put back from a backup, a file torn on
its way, a file altered in the folder. In the end everything is delivered: every book that is left
has the same head and gives the same answers, every entry that was handed out is in all of them,
and each planted fault was named. The same seed makes the same week. Everything is invented."""
import json
import os
import random
import shutil
import subprocess
import sys

PROGRAM, SEED, OFFICES, CREWS, DAYS = sys.argv[1], *map(int, sys.argv[2:6])
chance = random.Random(SEED)
names = [f"office{i}" for i in range(1, OFFICES + 1)] + [f"crew{i}" for i in range(1, CREWS + 1)]
os.environ.update(MISTFOLD_QUIET="1", XDG_CONFIG_HOME="/nonexistent")
logged, named = {}, set()  # openings that somebody acknowledged, by device; faults that were told
lost = None
CLOCK = os.path.join(os.environ["MF_BUILD"], "tests/preload/clock.so")


def run(book, *words, good=(0,)):
    done = subprocess.run([PROGRAM, "--book", f"{book}.book", "--by", "rosa", *words],
                          capture_output=True, text=True)
    if done.returncode not in good:
        sys.exit(f"seed {SEED}: {book} {' '.join(words)}: {done.returncode}\n"
                 f"{done.stdout}{done.stderr}")
    return done


# ---- the service that carries the folder -----------------------------------------------------

def files(folder):
    return sorted(os.path.join(where[len(folder) + 1:], name) for where, _, all in os.walk(folder)
                  for name in all if not name.startswith("."))


def carry(source, target, share):
    """Brings a part of the files, in any order; now and then the same one again."""
    for name in files(source):
        there = os.path.join(target, name)
        if chance.random() > share or (os.path.exists(there) and chance.random() > 0.05):
            continue
        os.makedirs(os.path.dirname(there), exist_ok=True)
        shutil.copy2(os.path.join(source, name), there + ".part")
        os.replace(there + ".part", there)


def meet(name, share=0.7):
    """Up and down with the service around a sync."""
    carry("cloud", f"at-{name}", share)
    done = run(name, "sync", f"folder:at-{name}", good=(0, 1, 3))
    carry(f"at-{name}", "cloud", share)
    for word in ("damaged", "refused", "forked", "waits", "gone", "replaced"):
        if any(line.startswith(word) for line in done.stdout.splitlines()):
            named.add(word)
    if "which is still to come" in done.stdout:
        named.add("clock")
    return done


# ---- what happens in a week ---------------------------------------------------------------------

def log(name):
    what = f"{name}-{len(logged.setdefault(name, []))}"
    run(name, "opening", "add", "J-7", "--id", what, "--kind", "window", "--room", "hall",
        "--elevation", "north")
    logged[name].append(what)


def begin():
    first = names[0]
    os.mkdir("cloud")
    run(first, "book", "new", "--device", first)
    run(first, "firm", "add", "--name", "Example Windows", "--address", "1 Sample St")
    run(first, "person", "add", "--id", "rosa", "--name", "Rosa Example")
    run(first, "job", "open", "--id", "J-7", "--address", "12 Sample Lane", "--building", "dwelling",
        "--owner-occupied", "no", "--work", "window-replacement", "--description", "12 windows",
        "--start", "2026-09-14")
    for name in names[1:]:
        run(first, "book", "copy", f"{name}.book", "--device", name)
    for name in names:
        os.mkdir(f"at-{name}")
        meet(name, 1)
    carry("cloud", f"at-{first}", 1)
    run(first, "sync", f"folder:at-{first}", "--accept", ",".join(names[1:]))
    carry(f"at-{first}", "cloud", 1)
    for name in names:
        meet(name, 1)


def tear():
    """A file that has not arrived whole at one of them; the service brings it again later."""
    name = chance.choice([n for n in names if n != lost])
    own = [f for f in files(f"at-{name}") if f.endswith(".entries")]
    path = os.path.join(f"at-{name}", chance.choice(own))
    os.truncate(path, os.path.getsize(path) // 2)
    if "damaged" not in named and "replaced" not in named:
        done = run(name, "sync", f"folder:at-{name}", good=(0, 1, 3))
        if "its bytes are not those" not in done.stdout:
            sys.exit(f"seed {SEED}: a torn file was not named:\n{done.stdout}")
        named.add("torn")


def alter():
    """Somebody changes a letter of a file for all."""
    path = os.path.join("cloud", chance.choice([f for f in files("cloud") if f.endswith("entries")]))
    text = open(path, "rb").read().replace(b"hall", b"bath").replace(b"Rosa", b"Eva!")
    keep = open(path, "rb").read()
    open(path, "wb").write(text if text != keep else keep + b"x")
    who = names[0]
    shutil.copy2(path, os.path.join(f"at-{who}", path[len("cloud/"):]))
    done = run(who, "sync", f"folder:at-{who}", good=(0, 1, 3))
    if "its bytes are not those" not in done.stdout:
        sys.exit(f"seed {SEED}: an altered file was not named:\n{done.stdout}")
    named.add("altered")


def put_back(name, day):
    """The book is that of a backup; the folder has what it handed out since."""
    for suffix in ("", "-wal", "-shm"):
        if os.path.exists(f"{name}.book{suffix}"):
            os.remove(f"{name}.book{suffix}")
    shutil.copy2("backup.book", f"{name}.book")
    carry("cloud", f"at-{name}", 1)
    done = run(name, "sync", f"folder:at-{name}", good=(3,))
    if "under the name of this very device" not in done.stdout:
        sys.exit(f"seed {SEED}: a book that was put back was not told:\n{done.stdout}")
    named.add("put back")
    run(name, "sync", f"folder:at-{name}", "--adopt", f"put back on day {day}", good=(0, 1, 3))


def wrong_clock(name):
    """Logged by a clock that is two days ahead: it comes in as it was logged, and is told."""
    # A sanitizer wants to be the first library, and does not mind the clock before it.
    os.environ.update(LD_PRELOAD=CLOCK, CLOCK_AHEAD="172800", ASAN_OPTIONS="verify_asan_link_order=0")
    log(name)
    del os.environ["LD_PRELOAD"], os.environ["ASAN_OPTIONS"]
    meet(name, 1)
    meet(names[0], 1)


def week():
    global lost
    crews = names[OFFICES:]
    offline = {name: chance.randrange(0, DAYS + 1) for name in crews}
    for day in range(DAYS):
        for name in names:
            if name == lost:
                continue
            for _ in range(chance.randrange(1, 4)):
                log(name)
            if offline.get(name) != day:
                meet(name, chance.choice([0.3, 0.7, 1]))
        if day == 1:
            meet(crews[0], 1)
            run(crews[0], "book", "backup", "backup.book")
            log(crews[0])
            meet(crews[0], 1)
            put_back(crews[0], day)
            tear()
        if day == DAYS - 1:
            wrong_clock(crews[0])
        if day == DAYS - 2:
            handed = len(logged[crews[-1]])
            meet(crews[-1], 1)
            log(crews[-1])
            lost = crews[-1]
            logged[lost] = logged[lost][:handed]  # what was never handed out is gone with it
            alter()


# ---- and in the end --------------------------------------------------------------------------------

def end():
    alive = [name for name in names if name != lost]
    for _ in range(4):
        for name in alive:
            carry("cloud", f"at-{name}", 1)
            run(name, "sync", f"folder:at-{name}", good=(0, 1, 3))
            carry(f"at-{name}", "cloud", 1)
    heads = {run(name, "book", "head").stdout.splitlines()[0] for name in alive}
    if len(heads) != 1:
        sys.exit(f"seed {SEED}: {len(heads)} heads in the end\n" + "".join(
            name + "\n" + run(name, "sync", f"folder:at-{name}", "--status", good=(0, 1, 3)).stdout
            for name in alive))
    answers = {run(name, "audit", "J-7", "--json", good=(0, 1)).stdout for name in alive}
    openings = {run(name, "opening", "list", "J-7", "--json").stdout for name in alive}
    if len(answers) != 1 or len(openings) != 1:
        sys.exit(f"seed {SEED}: {len(answers)} answers, {len(openings)} lists of openings")
    for name in alive:
        run(name, "book", "check")
    there = openings.pop()
    for name, all in logged.items():
        for what in all:
            if f'"{what}"' not in there:
                sys.exit(f"seed {SEED}: {what}, which {name} handed out, is lost")
    if not {"put back", "altered", "clock"} <= named or not named & {"torn", "damaged", "replaced"}:
        sys.exit(f"seed {SEED}: not every fault was named: {named}")
    print(f"{len(alive)} books, {sum(map(len, logged.values()))} openings, told:",
          ", ".join(sorted(named)))


begin()
week()
end()
