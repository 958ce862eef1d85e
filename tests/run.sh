#!/bin/sh
# Runs every test program named as an argument and closes with one summary line.
# Fails when a program fails, when one crashes, and when nothing was run. Each has folders of
# its own, so several run side by side: one a processor, or RUN_JOBS at a time.
# RUN_UNDER puts a tool such as valgrind before each program.
set -u
XDG_CONFIG_HOME=/nonexistent # the settings of whoever runs the tests are no part of them
export XDG_CONFIG_HOME
if [ $# -eq 0 ]; then
    echo "0 passed, 0 failed"
    exit 1
fi
counts=$(mktemp -d) || exit 1
trap 'rm -rf "$counts"' EXIT
printf '%s\0' "$@" |
    xargs -0 -n 1 -P "${RUN_JOBS:-$(nproc)}" sh "$(dirname "$0")/run_one.sh" "$counts"
# A program of which nothing was counted (killed with its runner) counts as failed.
cat "$counts"/*.count 2>/dev/null | awk -v programs=$# '
    { passed += $1; failed += $2 }
    END { failed += programs - NR
          printf "%d passed, %d failed\n", passed, failed
          exit failed > 0 || passed == 0 }'
