#!/bin/sh
# Taking over another book's entries against copying the same rows with sqlite3: the
# merge hashes each entry, and follows its chain. Prints one line.
#   sh tests/bench/merge.sh PROGRAM [ROWS]
set -eu
program=$1
rows=${2:-20000}
folder=$(mktemp -d "${BENCH_FOLDER:-build}/bench-merge-XXXXXX")
trap 'rm -r "$folder"' EXIT
export MISTFOLD_BY=rosa
"$program" --book "$folder/ours.book" book new --no-key --device office >/dev/null
"$program" --book "$folder/ours.book" job open --id J-1 --address "12 Sample Lane" --building dwelling \
    --owner-occupied no --work window-replacement --description bench --start 2026-09-14 >/dev/null
"$program" --book "$folder/ours.book" book copy --no-key "$folder/theirs.book" --device truck >/dev/null
awk -v n="$rows" 'BEGIN { print "id,type,side,substrate"
    for (i = 0; i < n; i++) printf "c%d,wall,interior,plaster\n", i }' >"$folder/rows.csv"
"$program" --book "$folder/theirs.book" component import J-1 "$folder/rows.csv" >/dev/null
python3 - "$program" "$folder" "$rows" <<'PY'
import os, subprocess, sys, time
program, folder, rows = sys.argv[1], sys.argv[2], int(sys.argv[3])
def took(command):
    begin = time.perf_counter()
    child = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(child.pid, 0)
    assert status == 0, command
    return time.perf_counter() - begin, used.ru_maxrss / 1024
ours, peak = took([program, "--book", f"{folder}/ours.book", "book", "merge", f"{folder}/theirs.book"])
plain, _ = took(["sqlite3", f"{folder}/plain.db", "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;"
                 "CREATE TABLE entry (device TEXT, seq INTEGER, logged_at TEXT, who TEXT, kind TEXT, job TEXT,"
                 " body TEXT, prev TEXT, hash TEXT, PRIMARY KEY (device, seq)); CREATE INDEX j ON entry (job);"
                 f"ATTACH '{folder}/theirs.book' AS t; INSERT INTO entry SELECT * FROM t.entry;"
                 "CREATE TABLE component AS SELECT * FROM t.component"])
print(f"merge of {rows} entries: {ours:.2f} s, sqlite3 copy of the rows {plain:.2f} s: "
      f"ratio {ours / plain:.1f}; peak memory {peak:.1f} MiB")
PY
