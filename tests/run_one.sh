#!/bin/sh
# Runs one test program for run.sh: its line, or all it said when it failed, in one piece.
#   sh run_one.sh FOLDER PROGRAM       leaves FOLDER/*.count: tests passed, tests failed
set -u
program=$2 name=${2##*/tests/}
log=$(mktemp "$1/XXXXXX") || exit 1 # a process number comes again in a long run
# shellcheck disable=SC2086 # RUN_UNDER is a command with its options
CMOCKA_MESSAGE_OUTPUT=STDOUT ${RUN_UNDER:-} "$program" >"$log" 2>&1
status=$?
ok=$(grep -c '^\[       OK \]' "$log")
bad=$(grep -c '^\[  FAILED  \] [^0-9]' "$log")
if [ "$status" -ne 0 ] || [ "$ok" -eq 0 ]; then
    [ "$bad" -gt 0 ] || bad=1
    echo "FAILED $name (status $status)" >>"$log"
    cat "$log"
else
    printf '%-40s %4d ok\n' "$name" "$ok"
fi
echo "$ok $bad" >"$log.count"
