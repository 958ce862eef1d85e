#!/bin/sh
# What the tests ran through, of core, journal, book and sync, by file; fails under the bound:
# lines 95 % and branches 85 % of each.
#   sh tests/coverage.sh BUILD            after the tests of a build with --coverage
set -u
build=$1 failed=0
: >build/coverage.txt
for room in core journal book sync; do
    for of in line branch; do
        option= bound="--fail-under-line 95"
        many=lines
        [ "$of" = line ] || option=--branches bound="--fail-under-branch 85" many=branches
        # shellcheck disable=SC2086 # options are meant to split
        gcovr --root . --object-directory "$build/$room" --filter "src/$room/" $option $bound \
            "$build/$room" >build/coverage.part 2>build/coverage.err || {
            cat build/coverage.err >&2
            failed=1
        }
        cat build/coverage.part >>build/coverage.txt
        awk -v room=$room -v of=$many '$1 == "TOTAL" { printf "%s: %s of %s %s (%s)\n", room, $3, $2, of, $4; n = 1 }
            END { exit !n }' build/coverage.part || failed=1
    done
done
rm -f build/coverage.part build/coverage.err
echo "by file: build/coverage.txt"
exit $failed
