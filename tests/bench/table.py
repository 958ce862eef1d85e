"""Runs the benches and lays what they say out as one table: what of ours, against
which reference in the same run, how many times it, the goal, the peak of memory.

usage: table.py BUILD JOBS ROWS      from the top of the checkout, after a build

A row is (what, command, pattern, goal). The pattern is looked for in what the command
prints; its groups are named ours, base, ratio and, where the bench tells it, peak (MiB).
Without that the peak is the largest process of the bench. A bench that is not there, or
prints no such line, is said so: nothing is left out in silence.
"""
import os
import re
import subprocess
import sys

build, jobs, rows = sys.argv[1], sys.argv[2], sys.argv[3]
program = os.path.abspath(f"{build}/mistfold")
os.makedirs("build/bench", exist_ok=True)
os.environ.update(MISTFOLD=program, BENCH_FOLDER=os.path.abspath("build"), XDG_CONFIG_HOME="/nonexistent")
HERE = "tests/bench"


def pattern(text):
    """<ours>, <base>, <ratio>, <peak> stand for numbers; a blank for any blanks."""
    text = re.escape(text).replace(r"\ ", r"\s+").replace(r"\.\.\.", ".*?")
    return re.compile(re.sub(r"<(\w+)>", r"(?P<\1>[\\d.]+)", text), re.S)


BOOK = [f"{build}/tests/bench/bench", "build/bench", jobs, "check"]
PAPER = ["sh", f"{HERE}/paper.sh", f"{build}/tests/bench/paper_speed"]
IMPORT = ["sh", f"{HERE}/import.sh", rows]
APART = ["python3", "-B", f"{HERE}/apart.py", program]
SERVER = ["python3", "-B", f"{HERE}/server.py", program, rows]
ROWS = [
    (f"reading in {rows} readings / sqlite3 .import, cpu s", IMPORT,
     ["import of ... readings: ... (processor <ours> s), sqlite3 .import ... (<base> s): ..."
      " (processor <ratio>, ... memory <peak> MiB"], "3"),
    ("the same by the clock, s", IMPORT,
     ["import of ... readings: <ours> s ... sqlite3 .import <base> s ... ratio <ratio> ... memory <peak> MiB"], ""),
    ("one durable entry / sqlite3 insert, ms", ["sh", f"{HERE}/log.sh", program],
     ["one entry logged: <ours> ms, sqlite3 insert <base> ms: ratio <ratio>"], "2"),
    ("merge of 20000 entries / sqlite3 copy, s", ["sh", f"{HERE}/merge.sh", program],
     ["merge of ... entries: <ours> s, sqlite3 ... <base> s: ratio <ratio>; peak memory <peak> MiB"], ""),
    ("start-up, --version / sqlite3 query, ms", ["sh", f"{HERE}/startup.sh", program],
     ["start-up against sqlite3 <base> ms: version <ours> ms (<ratio>)"], "1.5"),
    ("start-up, a gate / sqlite3 query, ms", ["sh", f"{HERE}/startup.sh", program],
     ["start-up against sqlite3 <base> ms: ... gate <ours> ms (<ratio>)"], "1.5"),
    ("record pages a second / bare libharu", PAPER,
     ["ours <ours> pages ... bare libharu <base> pages a second, ours is <ratio> of it ... peak memory <peak> MiB"], ">= 0.7"),
    ("record pages a second / reportlab, laid", PAPER,
     ["ours <ours> pages ... (no goal: ... reportlab <base> pages a second, ours is <ratio> times it: it lays ..."
      " peak memory <peak> MiB"], ">= 20"),
    ("audit of 2,000 readings, us", [f"{build}/tests/bench/bench_audit", "1000"],
     ["audit <ours> us"], "1000 us"),
    ("audit of 32,000 readings, us", [f"{build}/tests/bench/bench_audit", "1000"], ["many <ours> us"], ""),
    ("phone page of a job / a gate of it, cpu ms", APART,
     ["phone page of a job: <ours> ms, a gate of it <base> ms: ratio <ratio>"], "2"),
    ("sync by a folder, nothing new / a gate, cpu ms", APART,
     ["folder with nothing new: <ours> ms, a gate <base> ms: ratio <ratio>"], "1.5"),
    ("a time stamp checked / openssl ts -verify, cpu ms", APART,
     ["a time stamp checked: <ours> ms, openssl ts -verify <base> ms: ratio <ratio>"], "1"),
    (f"gate, book of {jobs} jobs / of 10, ms", BOOK,
     ["open it and ask a gate <base> <ours> <ratio>"], "1.3"),
    (f"check and audit of a job, {jobs} / 10, ms", BOOK,
     ["open it, check and audit a job <base> <ours> <ratio>"], "1.3"),
    (f"due list, {jobs} / 10 jobs, ms", BOOK, ["due list (open jobs: 1 in 1000) <base> <ours> <ratio>"], "50 ms"),
    ("push to a server, ms for 1000 entries", SERVER, ["push of ... entries: <ours> ms a thousand"], "50 ms"),
    ("the same, 30 devices at once", SERVER,
     ["30 at once: <ours> ms a thousand, 0 failed, 0 lost"], "50 ms"),
    (f"pull of all {rows} entries from it, s", SERVER,
     ["pull of all ... entries: <ours> s ... peak <peak> MiB"], f"{int(rows) * 6e-5:g} s"),
    (f"100 new entries beside {rows}, pulled, ms", SERVER,
     ["delta of 100 entries in ...: <ours> ms pulled, ... beside <base> ms"], "50 ms"),
    (f"check of the whole book of {jobs} / hashing it, s", BOOK,
     ["check of ... entries: <ours> s; hashing the file: <base> s; <ratio> times"], "4"),
    (f"check of the whole book of {jobs} / sha256sum(1), s", BOOK,
     ["check of the same: <ours> s; sha256sum(1): <base> s; <ratio> times"], "4"),
]

said = {}


def run(command):
    """(exit status, what it printed, MiB of its largest process), once for each command."""
    key = tuple(command)
    if key not in said:
        script = next((word for word in command if word.startswith(HERE)), command[0])
        if not os.path.exists(script):
            said[key] = (None, f"{script} is not there", 0)
        else:
            child = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
            text = child.stdout.read().decode(errors="replace")
            _, status, used = os.wait4(child.pid, 0)
            said[key] = (os.waitstatus_to_exitcode(status), text, used.ru_maxrss / 1024)
    return said[key]


def machine():
    names = [line.split(":", 1)[1].strip() for line in open("/proc/cpuinfo") if line.startswith("model name")]
    date = subprocess.run(["date", "-u", "+%Y-%m-%d"], capture_output=True, text=True).stdout.strip()
    load = os.getloadavg()[0]
    return f"{names[0] if names else 'unknown'}, {os.cpu_count()} cores, load {load:.1f}, {date}"


def is_missed(group, goal):
    """">= 20" and "1.5" are of the ratio, "50 ms" is of ours."""
    if goal.startswith(">="):
        return float(group["ratio"]) < float(goal[2:])
    if " " in goal:
        return float(group["ours"]) > float(goal.split()[0])
    return goal != "" and float(group["ratio"]) > float(goal)


def main():
    failed, notes = False, []
    print(f"machine: {machine()}\n")
    print(f"{'what / reference':54} {'ours':>10} {'reference':>10} {'ratio':>7}  {'goal':8} {'peak MiB':>8}")
    for what, command, patterns, goal in ROWS:
        status, text, peak = run(command)
        found = next((m for m in (pattern(p).search(text) for p in patterns) if m), None)
        if status is None or found is None:
            print(f"{what:54} not measured")
            note = text.strip().splitlines()[-1:] or ["it printed nothing"]
            notes.append(f"{what}: {note[0]}")
            failed = failed or status not in (None, 0)
            continue
        group = {"base": "", "ratio": "", "peak": f"{peak:.1f}", **found.groupdict()}
        print(f"{what:54} {group['ours']:>10} {group['base']:>10} {group['ratio']:>7}  {goal:8} {group['peak']:>8}"
              f"{'  MISSED' if is_missed(group, goal) else ''}")
        failed = failed or status != 0
    for note in notes:
        print(f"not measured: {note}")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
