#!/bin/sh
# Runs the targets of tests/fuzz under libFuzzer, two at a time.
#   sh tests/fuzz/fuzz.sh PROGRAM SECONDS [TARGET...]       (all targets by default)
# What it makes up is kept in build/fuzz/corpus/, what it finds in build/fuzz/found/.
# FUZZ_SEED=1 makes up the same bytes in the same order every time. Ends with one line
# a target; fails when one found something or tried nothing.
set -u
program=$1 seconds=$2
shift 2
here=$(dirname "$0")
out=build/fuzz
[ $# -gt 0 ] || set -- $(cd "$here/seeds" && ls)
# Without these most of the time goes into filling and holding freed memory.
options=detect_leaks=1:allocator_may_return_null=1:quarantine_size_mb=16:max_malloc_fill_size=0
mkdir -p "$out/log" "$out/found"
rm -f "$out"/log/*.state
# Fields and choices of every kind of entry, as they are now.
grep -oh '"[a-z][a-z0-9_-]*"' src/core/kind*.inc src/core/kind*.c | sort -u >"$out/kinds"

# Words that the target knows: what is made up of them gets further than letters do.
words_of() {
    echo "# $1: libFuzzer wants a line here even of those that have no words"
    case $1 in
    schema) cat "$here/dict/schema" ;;
    pdf | attach) cat "$here/dict/pdf" ;;
    later) cat "$here/dict/pdf" "$here/dict/later" ;;
    json) cat "$here/dict/json" ;;
    request) cat "$here/dict/request" ;;
    record) cat "$here/dict/json" "$out/kinds" ;;
    intake | lists | values | entries) cat "$out/kinds" ;;
    esac
}

run_one() {
    target=$1
    mkdir -p "$out/corpus/$target" "$out/found/$target"
    longest=65536 limit=10
    case $target in # books are long; a key's many rounds take seconds and are meant to
    book) longest=300000 limit=60 ;;
    schema | draw) limit=60 ;; # a text of a hundred pages takes seconds here
    pdf | attach | record) longest=400000 ;;
    key) limit=30 ;;
    esac
    words_of "$target" >"$out/log/$target.words"
    FUZZ_TARGET=$target ASAN_OPTIONS=$options "$program" \
        -max_total_time="$seconds" -timeout="$limit" -rss_limit_mb=3072 -max_len="$longest" \
        -seed="${FUZZ_SEED:-0}" -print_final_stats=1 -verbosity=0 \
        -dict="$out/log/$target.words" -artifact_prefix="$out/found/$target/" \
        "$out/corpus/$target" "$here/seeds/$target" >"$out/log/$target" 2>&1
    status=$?
    tries=$(awk '/stat::number_of_executed_units/ { print $2 }' "$out/log/$target")
    memory=$(awk '/stat::peak_rss_mb/ { print $2 }' "$out/log/$target")
    verdict=ok
    [ "$status" -eq 0 ] || verdict="FOUND SOMETHING, see $out/log/$target"
    [ "${tries:-0}" -gt 0 ] || verdict="TRIED NOTHING, see $out/log/$target"
    printf '%-10s %9s tries in %s s, %s MiB: %s\n' "$target" "${tries:-0}" "$seconds" "${memory:-?}" "$verdict"
    [ "$verdict" = ok ] && return
    : >"$out/log/$target.state"
    # Where it is found by a machine that is gone afterwards, this is all there is of it.
    grep -E '^ *#[0-9]|^==|ERROR|SUMMARY|^MS:|Test unit' "$out/log/$target" | head -n 40 | cut -c 1-160
}

started=$(date +%s)
while [ $# -gt 0 ]; do
    run_one "$1" &
    first=$!
    shift
    if [ $# -gt 0 ]; then
        run_one "$1"
        shift
    fi
    wait "$first"
done
echo "fuzz: $(($(date +%s) - started)) s"
! ls "$out"/log/*.state >/dev/null 2>&1
