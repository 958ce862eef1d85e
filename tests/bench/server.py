#!/usr/bin/env python3
"""What a server where devices meet costs: 32 crews and an office with ROWS entries among them.

  server.py PROGRAM ROWS

Each crew hands out its chain, 30 of them at once; a new office takes all of it over and makes
each hash anew; then a day's work of 100 entries goes over. The server is one of the bench's own
(tests/support/pg.sh) with PostgreSQL's defaults. Prints a line each."""
import os
import shutil
import subprocess
import sys
import tempfile
import time

program, rows = os.path.abspath(sys.argv[1]), int(sys.argv[2])
here = os.path.dirname(os.path.abspath(__file__))
kit = os.path.join(here, "..", "support", "pg.sh")
CREWS = 32
os.environ.update(MISTFOLD_QUIET="1", MISTFOLD_BY="rosa", XDG_CONFIG_HOME="/nonexistent", PGPORT="5488",
                  PG_OPTIONS="-c fsync=on -c synchronous_commit=on -c shared_buffers=128MB -c max_wal_size=1GB")


def ask(*words):
    done = subprocess.run(words, capture_output=True, text=True)
    if done.returncode:
        sys.exit(f"{words}: {done.returncode}\n{done.stdout}{done.stderr}")
    return done.stdout.strip()


socket = ask("sh", kit, "start", str(os.getpid()))
binaries = ask("sh", kit, "bin")
maker = os.path.join(os.path.dirname(program), "tests/bench/bench")
folder = tempfile.mkdtemp(prefix="bench-server-", dir=os.environ.get("BENCH_FOLDER", os.path.abspath("build")))
os.chdir(folder)


def sql(text):
    return ask(binaries + "/psql", "-XqAt", "-v", "ON_ERROR_STOP=1", "-h", socket, "-U", "admin", "firm",
               "-c", text)


def mistfold(book, *words, good=(0, 1)):
    """(seconds by the clock, MiB at the most, what it printed, its processor seconds)"""
    begin = time.perf_counter()
    child = subprocess.Popen([program, "--book", f"{book}.book", *words], stdout=subprocess.PIPE,
                             stderr=subprocess.STDOUT)
    text = child.stdout.read().decode()
    _, status, used = os.wait4(child.pid, 0)
    took = time.perf_counter() - begin
    if os.waitstatus_to_exitcode(status) not in good:
        sys.exit(f"{book} {words}: {text}")
    return took, used.ru_maxrss / 1024, text, used.ru_utime + used.ru_stime


def sync(book, *words):
    return mistfold(book, "sync", f"postgresql://{book}@/firm?host={socket}", *words)


def of_server():
    """Processor seconds of the connections that ended."""
    pid = open(f"{socket}/data/postmaster.pid").readline().strip()
    fields = open(f"/proc/{pid}/stat").read().rsplit(")", 1)[1].split()
    return (int(fields[13]) + int(fields[14])) / os.sysconf("SC_CLK_TCK")


def login(device):
    sql(f"CREATE ROLE {device} LOGIN IN ROLE mistfold_device; INSERT INTO mistfold.device VALUES"
        f" (1, '{device}', '{device}', false)")


def jobs(book, first, count):
    """Ten entries each."""
    ask(maker, f"{book}.book", str(count), "add", str(first))


def prepare():
    ask(binaries + "/createdb", "-h", socket, "-U", "admin", "firm")
    sql(ask(program, "sync", "--init"))
    sql("INSERT INTO mistfold.firm (name) VALUES ('Example')")
    login("office")
    mistfold("office", "book", "new", "--device", "office")
    jobs("office", 0, 1)
    for i in range(CREWS):
        login(f"crew{i}")
        mistfold("office", "book", "copy", f"crew{i}.book", "--device", f"crew{i}")
        jobs(f"crew{i}", 1000000 * (i + 1), rows // CREWS // 10)


def push():
    sync("office")
    time.sleep(1)
    before = of_server()
    alone = [sync(f"crew{i}") for i in range(2)]
    time.sleep(1)  # until the connections have ended
    used = (of_server() - before) / 2
    begin = time.perf_counter()
    crews = [subprocess.Popen([program, "--book", f"crew{i}.book", "sync",
                               f"postgresql://crew{i}@/firm?host={socket}"], stdout=subprocess.DEVNULL)
             for i in range(2, CREWS)]
    bad = [crew for crew in crews if crew.wait() not in (0, 1)]
    together = time.perf_counter() - begin
    there = int(sql("SELECT count(*) FROM mistfold.entry WHERE kind = 'house'"))
    lost = rows // CREWS // 10 * CREWS + 1 - there
    best, each = min(alone, key=lambda s: s[0]), rows // CREWS
    print(f"push of {each} entries: {best[0] / each * 1e6:.1f} ms a thousand (processor"
          f" {best[3] / each * 1e6:.1f} ms, the server's {used / each * 1e6:.1f} ms), peak {best[1]:.1f} MiB; 30 at once:"
          f" {together / 30 / each * 1e6:.1f} ms a thousand, {len(bad)} failed, {lost} lost")


def pull():
    names = ",".join(f"crew{i}" for i in range(CREWS))
    before = of_server()
    took, peak, _, cpu = sync("office", "--accept", names)
    time.sleep(1)
    used = of_server() - before
    size = int(sql("SELECT pg_total_relation_size('mistfold.entry')")) / 1e6
    print(f"pull of all {rows} entries: {took:.1f} s (processor {cpu:.1f} s, the server's {used:.1f} s),"
          f" peak {peak:.1f} MiB; the table {size:.0f} MB")
    sync("crew0")
    best = []
    for i in range(3):
        jobs("crew0", 900000000 + 1000 * i, 10)
        best.append((sync("crew0"), sync("office")))
    idle = min((sync("office") for _ in range(3)), key=lambda s: s[0])
    went, came = (min((b[i] for b in best), key=lambda s: s[0]) for i in (0, 1))
    print(f"delta of 100 entries in {rows}: {(came[0] - idle[0]) * 1000:.0f} ms pulled,"
          f" {(went[0] - idle[0]) * 1000:.0f} ms pushed, beside {idle[0] * 1000:.0f} ms with nothing new")


try:
    prepare()
    push()
    pull()
finally:
    ask("sh", kit, "stop", socket)
    os.chdir("/")
    shutil.rmtree(folder)
