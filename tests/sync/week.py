#!/usr/bin/env python3
"""A week of a firm: offices and crews that log, meet at a place when they can, and lose things.

  week.py PROGRAM SEED OFFICES CREWS DAYS folder|server

The place is a folder, or a server (PG and PG_BIN say where it is, pg_kit.sh prepared it). The
folder is kept the same on every computer by a service that brings files late, in any order and
again; each device sees its own copy of it. Planted are: a device that is lost with all it had not
handed out, a clock that goes a day ahead, a book put back from a backup, a file torn on its way, a
file altered in the folder. At a server: an entry that an administrator altered and put right again,
the whole server put back to an earlier day, logins that were shut out. In the end everything is
delivered: every book that is left has the same head and gives the same answers, every entry that
was handed out is in all of them, and each planted fault was named. The same seed makes the same
week. Everything is invented."""
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


# ---- the places ------------------------------------------------------------------------------------

def files(folder):
    return sorted(os.path.join(where[len(folder) + 1:], name) for where, _, all in os.walk(folder)
                  for name in all if not name.startswith("."))


class Folder:
    """A service carries the folder between the computers."""
    name = "folder"

    def start(self):
        os.mkdir("cloud")

    def add(self, name):
        os.mkdir(f"at-{name}")

    def address(self, name):
        return f"folder:at-{name}"

    def carry(self, source, target, share):
        """Brings a part of the files, in any order; now and then the same one again."""
        for name in files(source):
            there = os.path.join(target, name)
            if chance.random() > share or (os.path.exists(there) and chance.random() > 0.05):
                continue
            os.makedirs(os.path.dirname(there), exist_ok=True)
            shutil.copy2(os.path.join(source, name), there + ".part")
            os.replace(there + ".part", there)

    def bring(self, name, share=1.0):
        self.carry("cloud", f"at-{name}", share)

    def take(self, name, share=1.0):
        self.carry(f"at-{name}", "cloud", share)

    def lose(self, name):
        pass

    def spoil(self):
        """A file that has not arrived whole at one of them; the service brings it again later."""
        name = chance.choice([n for n in names if n != lost])
        own = [f for f in files(f"at-{name}") if f.endswith(".entries")]
        path = os.path.join(f"at-{name}", chance.choice(own))
        os.truncate(path, os.path.getsize(path) // 2)
        if "damaged" not in named and "replaced" not in named:
            done = sync(name)
            if "its bytes are not those" not in done.stdout:
                sys.exit(f"seed {SEED}: a torn file was not named:\n{done.stdout}")
            named.add("spoilt")

    def alter(self):
        """Somebody changes a letter of a file for all."""
        path = os.path.join("cloud",
                            chance.choice([f for f in files("cloud") if f.endswith("entries")]))
        keep = open(path, "rb").read()
        text = keep.replace(b"hall", b"bath").replace(b"Rosa", b"Eva!")
        open(path, "wb").write(text if text != keep else keep + b"x")
        who = names[0]
        shutil.copy2(path, os.path.join(f"at-{who}", path[len("cloud/"):]))
        done = sync(who)
        if "its bytes are not those" not in done.stdout:
            sys.exit(f"seed {SEED}: an altered file was not named:\n{done.stdout}")
        named.add("altered")


class Server:
    """One for all; nothing arrives late, but an administrator may do anything."""
    name = "server"

    def sql(self, text, database="firm"):
        done = subprocess.run([os.environ["PG_BIN"] + "/psql", "-XqAt", "-v", "ON_ERROR_STOP=1", "-h",
                               os.environ["PG"], "-U", "admin", database, "-c", text],
                              capture_output=True, text=True)
        if done.returncode:
            sys.exit(f"seed {SEED}: {text}: {done.stderr}")
        return done.stdout.strip()

    def copy(self, source, target):
        self.sql(f"DROP DATABASE IF EXISTS {target} WITH (FORCE)", "postgres")
        self.sql(f"CREATE DATABASE {target} TEMPLATE {source}", "postgres")

    def start(self):
        self.copy("store", "firm")

    def add(self, name):
        relay = "true" if name == names[0] else "false"
        self.sql(f"DO $$ BEGIN IF to_regrole('{name}') IS NULL THEN CREATE ROLE {name} LOGIN IN ROLE"
                 " mistfold_device; END IF; END $$;"
                 f"INSERT INTO mistfold.device VALUES (1, '{name}', '{name}', {relay})"
                 f" ON CONFLICT (firm, device) DO UPDATE SET login = '{name}', relay = {relay}")

    def address(self, name):
        return f"postgresql://{name}@/firm?host={os.environ['PG']}"

    def bring(self, name, share=1.0):
        pass

    def take(self, name, share=1.0):
        pass

    def lose(self, name):
        self.sql(f"UPDATE mistfold.device SET login = NULL WHERE device = '{name}'")
        done = run(name, "sync", self.address(name), good=(3,))
        if "this login is no device of a firm" not in done.stderr:
            sys.exit(f"seed {SEED}: a login that was shut out was let in: {done.stderr}")

    def spoil(self):
        """The whole server is put back to an earlier state."""
        self.copy("firm", "kept")
        for name in names[:2]:
            log(name)
            meet(name)
        self.copy("kept", "firm")
        done = sync(names[0])
        if not any(line.startswith("gone") for line in done.stdout.splitlines()):
            sys.exit(f"seed {SEED}: a server that was put back was not told:\n{done.stdout}")
        named.add("spoilt")
        self.sql("DROP DATABASE kept WITH (FORCE)", "postgres")

    def alter(self):
        """An administrator changes an entry, and has to put it right again."""
        device, seq = chance.choice(self.sql("SELECT device, seq FROM mistfold.entry WHERE kind = 'opening'"
                                             " ORDER BY 1, 2").splitlines()).split("|")
        turn = ("SET session_replication_role = replica; UPDATE mistfold.entry SET body = replace(body,"
                f" '%s', '%s') WHERE device = '{device}' AND seq = {seq}")
        self.sql(turn % ("hall", "bath"))
        done = run(names[0], "sync", self.address(names[0]), "--status", good=(3,))
        if "its bytes are not those" not in done.stdout:
            sys.exit(f"seed {SEED}: an altered entry was not named:\n{done.stdout}")
        self.sql(turn % ("bath", "hall"))
        named.add("altered")


place = {"folder": Folder, "server": Server}[sys.argv[6]]()


def sync(name, *words, good=(0, 1, 3)):
    return run(name, "sync", place.address(name), *words, good=good)


def meet(name, share=1.0):
    """Up and down with the service around a sync."""
    place.bring(name, share)
    done = sync(name)
    place.take(name, share)
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
    place.start()
    run(first, "book", "new", "--device", first)
    run(first, "firm", "add", "--name", "Example Windows", "--address", "1 Sample St")
    run(first, "person", "add", "--id", "rosa", "--name", "Rosa Example")
    run(first, "job", "open", "--id", "J-7", "--address", "12 Sample Lane", "--building", "dwelling",
        "--owner-occupied", "no", "--work", "window-replacement", "--description", "12 windows",
        "--start", "2026-09-14")
    for name in names[1:]:
        run(first, "book", "copy", f"{name}.book", "--device", name)
    for name in names:
        place.add(name)
        meet(name)
    place.bring(first)
    sync(first, "--accept", ",".join(names[1:]), good=(0,))
    place.take(first)
    for name in names:
        meet(name)


def put_back(name, day):
    """The book is that of a backup; the folder has what it handed out since."""
    for suffix in ("", "-wal", "-shm"):
        if os.path.exists(f"{name}.book{suffix}"):
            os.remove(f"{name}.book{suffix}")
    shutil.copy2("backup.book", f"{name}.book")
    place.bring(name)
    done = sync(name, good=(3,))
    if "under the name of this very device" not in done.stdout:
        sys.exit(f"seed {SEED}: a book that was put back was not told:\n{done.stdout}")
    named.add("put back")
    sync(name, "--adopt", f"put back on day {day}")


def wrong_clock(name):
    """Logged by a clock that is two days ahead: it comes in as it was logged, and is told."""
    # A sanitizer wants to be the first library, and does not mind the clock before it.
    os.environ.update(LD_PRELOAD=CLOCK, CLOCK_AHEAD="172800", ASAN_OPTIONS="verify_asan_link_order=0")
    log(name)
    del os.environ["LD_PRELOAD"], os.environ["ASAN_OPTIONS"]
    meet(name)
    meet(names[0])


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
            meet(crews[0])
            run(crews[0], "book", "backup", "backup.book")
            log(crews[0])
            meet(crews[0])
            put_back(crews[0], day)
            place.spoil()
        if day == DAYS - 1:
            wrong_clock(crews[0])
        if day == DAYS - 2:
            handed = len(logged[crews[-1]])
            meet(crews[-1])
            log(crews[-1])
            lost = crews[-1]
            logged[lost] = logged[lost][:handed]  # what was never handed out is gone with it
            place.lose(lost)
            place.alter()


# ---- and in the end --------------------------------------------------------------------------------

def end():
    alive = [name for name in names if name != lost]
    for _ in range(4):
        for name in alive:
            place.bring(name)
            sync(name)
            place.take(name)
    heads = {run(name, "book", "head").stdout.splitlines()[0] for name in alive}
    if len(heads) != 1:
        sys.exit(f"seed {SEED}: {len(heads)} heads in the end\n" + "".join(
            name + "\n" + sync(name, "--status").stdout
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
    if not {"put back", "altered", "clock"} <= named or not named & {"spoilt", "damaged", "replaced"}:
        sys.exit(f"seed {SEED}: not every fault was named: {named}")
    print(f"{len(alive)} books, {sum(map(len, logged.values()))} openings, told:",
          ", ".join(sorted(named)))


begin()
week()
end()
