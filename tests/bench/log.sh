#!/bin/sh
# One durable entry by the program against one durable row by the sqlite3 program: both
# start, open their file, write, sync and end. By turns, so that both see the same
# machine and disk; the middle one of all times counts. Prints one line.
#   sh tests/bench/log.sh PROGRAM [TIMES]
set -eu
program=$1
times=${2:-41}
folder=$(mktemp -d "${BENCH_FOLDER:-build}/bench-log-XXXXXX")
trap 'rm -r "$folder"' EXIT
export MISTFOLD_BOOK="$folder/log.book" MISTFOLD_BY=rosa
"$program" book new --no-key --device bench >/dev/null
"$program" job open --id J-1 --address "12 Sample Lane" --building dwelling --owner-occupied no \
    --work window-replacement --description bench --start 2026-09-14 >/dev/null
sqlite3 "$folder/plain.db" "PRAGMA journal_mode=WAL; CREATE TABLE entry (device TEXT, seq INTEGER,
    body TEXT, hash TEXT, PRIMARY KEY (device, seq)); CREATE TABLE component (entry TEXT PRIMARY KEY,
    id TEXT, type TEXT, side TEXT, substrate TEXT);" >/dev/null
python3 - "$program" "$folder/plain.db" "$times" <<'PY'
import subprocess, sys, time
program, plain, times = sys.argv[1], sys.argv[2], int(sys.argv[3])
def took(command):
    begin = time.perf_counter()
    subprocess.run(command, stdout=subprocess.DEVNULL, check=True)
    return time.perf_counter() - begin
ours, theirs = [], []
for i in range(times):
    ours.append(took([program, "component", "add", "J-1", "--id", f"c{i}", "--type", "wall",
                      "--side", "interior", "--substrate", "plaster"]))
    theirs.append(took(["sqlite3", plain, "PRAGMA synchronous=FULL; BEGIN IMMEDIATE; "
                        f"INSERT INTO entry VALUES ('bench', {i}, '{'x' * 200}', '{'0' * 64}'); "
                        f"INSERT INTO component VALUES ('bench/{i}', 'c{i}', 'wall', 'interior', "
                        "'plaster'); COMMIT;"]))
a, b = sorted(ours)[times // 2] * 1000, sorted(theirs)[times // 2] * 1000
print(f"one entry logged: {a:.1f} ms, sqlite3 insert {b:.1f} ms: ratio {a / b:.2f}")
PY
