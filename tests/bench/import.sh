#!/bin/sh
# How long a long export takes to be read in, against `sqlite3 .import` of the same
# file, and how much memory. All data is made here and means nothing.
#   MISTFOLD=path sh tests/bench/import.sh [ROWS]        (1,000,000 by default)
#
# The goal is 1.5 times, at most 3. `sqlite3 .import` writes a row of text a line, about 85
# bytes, once and without an index. The book checks each row as it checks a single entry,
# writes about 440 bytes with two indexes, hashes every entry, reads it back before the commit
# and hashes it again (docs/speed.md).
set -eu
rows=${1:-1000000}
mf=${MISTFOLD:-build/release/mistfold}
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
MISTFOLD_BOOK=$dir/bench.book
MISTFOLD_BY=rosa
MISTFOLD_QUIET=yes
export MISTFOLD_BOOK MISTFOLD_BY MISTFOLD_QUIET

"$mf" book new --no-key --device bench >/dev/null
"$mf" person add --id rosa --name "Rosa Muestra" >/dev/null
"$mf" certificate add --holder rosa --discipline inspector --number I-1 --issuer "Agency (invented)" \
    --issued 2024-01-01 --expires 2029-01-01 >/dev/null
"$mf" instrument add --serial X-100 --film 1.02 --cal-low 0.8 --cal-high 1.2 >/dev/null
"$mf" job open --id J-1 --address "12 Sample Lane" --building dwelling --owner-occupied no \
    --work window-replacement --description bench --start 2026-09-14 >/dev/null
"$mf" opening add J-1 --id W01 --kind window --room kitchen --elevation north >/dev/null
for type in sash interior-sill apron stop; do
    "$mf" component add J-1 --id "W01.$type" --opening W01 --type $type --side interior \
        --substrate wood >/dev/null
done
awk -v n="$rows" 'BEGIN {
    print "Number,Instrument,Operator,Date,Time,Opening,Component,Side,Substrate,Color,Result,Unit"
    split("sash interior-sill apron stop", part, " ")
    for (i = 0; i < n; i++)
        printf "%d,X-100,rosa,2026-08-12,%02d:%02d,W01,%s,interior,wood,white,%.1f,mg/cm2\n", i + 1,
            8 + int(i / 60) % 10, i % 60, part[i % 4 + 1], (i % 50) / 10
}' >"$dir/long.csv"

# Prints elapsed seconds, processor seconds and peak memory in KiB of a command.
measure() {
    python3 - "$@" <<'PY'
import resource, subprocess, sys, time
start = time.monotonic()
done = subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(f"{time.monotonic() - start:.3f} {used.ru_utime + used.ru_stime:.3f} {used.ru_maxrss}")
sys.exit(done.returncode)
PY
}
ours=$(measure "$mf" test import J-1 "$dir/long.csv")
plain=$(measure sqlite3 "$dir/plain.db" ".mode csv" ".import $dir/long.csv t")
got=$(sqlite3 "$MISTFOLD_BOOK" "SELECT count(*) FROM reading")
[ "$got" = "$rows" ] || { echo "$got readings are in the book, not $rows"; exit 1; }
# shellcheck disable=SC2086 # three numbers each
set -- $ours $plain
awk -v n="$rows" -v a="$1" -v ac="$2" -v k="$3" -v b="$4" -v bc="$5" 'BEGIN {
    printf "import of %d readings: %.1f s (processor %.1f s), sqlite3 .import %.1f s (%.1f s): " \
        "ratio %.1f (processor %.1f, goal 1.5, at most 3); peak memory %.1f MiB of 64\n",
        n, a, ac, b, bc, a / b, ac / bc, k / 1024
    if (k >= 64 * 1024) { print "more than 64 MiB"; exit 1 }
}'
