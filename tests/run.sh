#!/bin/sh
# Runs every test program named as an argument and closes with one summary line.
# Fails when a program fails, when one crashes, and when nothing was run.
# RUN_UNDER puts a tool such as valgrind before each program.
set -u
XDG_CONFIG_HOME=/nonexistent # the settings of whoever runs the tests are no part of them
export XDG_CONFIG_HOME
passed=0 failed=0
log=$(mktemp)
trap 'rm -f "$log"' EXIT
for program in "$@"; do
    name=${program##*/tests/}
    # shellcheck disable=SC2086 # RUN_UNDER is a command with its options
    CMOCKA_MESSAGE_OUTPUT=STDOUT ${RUN_UNDER:-} "$program" >"$log" 2>&1
    status=$?
    ok=$(grep -c '^\[       OK \]' "$log")
    bad=$(grep -c '^\[  FAILED  \] [^0-9]' "$log")
    if [ "$status" -ne 0 ] || [ "$ok" -eq 0 ]; then
        cat "$log"
        [ "$bad" -gt 0 ] || bad=1
        echo "FAILED $name (status $status)"
    else
        printf '%-40s %4d ok\n' "$name" "$ok"
    fi
    passed=$((passed + ok)) failed=$((failed + bad))
done
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
