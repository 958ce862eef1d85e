#!/bin/sh
# How long a long export takes to be read in, against `sqlite3 .import` of the same
# file, and how much memory. All data is made here and means nothing.
#   MISTFOLD=path sh tests/bench/import.sh [ROWS]        (1,000,000 by default)
set -eu
rows=${1:-1000000}
mf=${MISTFOLD:-build/release/mistfold}
dir=$(mktemp -d)
trap 'rm -rf "$dir"' EXIT
MISTFOLD_BOOK=$dir/bench.book
MISTFOLD_BY=rosa
export MISTFOLD_BOOK MISTFOLD_BY

"$mf" book new --device bench >/dev/null
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
    print "Number,Instrument,Operator,Date,Time,Opening,Component,Side,Substrate,Colour,Result,Unit"
    split("sash interior-sill apron stop", part, " ")
    for (i = 0; i < n; i++)
        printf "%d,X-100,rosa,2026-08-12,%02d:%02d,W01,%s,interior,wood,white,%.1f,mg/cm2\n", i + 1,
            8 + int(i / 60) % 10, i % 60, part[i % 4 + 1], (i % 50) / 10
}' >"$dir/long.csv"

clock() { date +%s.%N; }
start=$(clock)
"$mf" test import J-1 "$dir/long.csv" >/dev/null 2>&1 &
pid=$!
peak=0
while kill -0 $pid 2>/dev/null; do
    now=$(awk '/^VmHWM/ {print $2}' /proc/$pid/status 2>/dev/null || echo)
    [ -z "$now" ] || [ "$now" -le "$peak" ] || peak=$now
    sleep 0.2
done
wait $pid
middle=$(clock)
sqlite3 "$dir/plain.db" ".mode csv" ".import $dir/long.csv t"
end=$(clock)
awk -v n="$rows" -v a="$start" -v b="$middle" -v c="$end" -v k="$peak" 'BEGIN {
    printf "rows %d: mistfold %.1f s, sqlite3 .import %.1f s, ratio %.1f; peak memory %.1f MiB\n", n,
        b - a, c - b, (b - a) / (c - b), k / 1024
    if (k >= 64 * 1024) { print "more than 64 MiB"; exit 1 }
}'
