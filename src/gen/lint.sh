#!/bin/sh
# All checks of the source: formatting, clang-tidy, cppcheck and the house rules.
# Run from the top of the checkout.
set -u
failed=0
fail() {
    echo "lint: $*" >&2
    failed=1
}

files=$(git ls-files -co --exclude-standard 'src/*.[ch]' 'src/*.inc' 'include/*.h' 'tests/*.[ch]' | sort)
sources=$(printf '%s\n' "$files" | grep '\.c$')
ours=$(printf '%s\n' "$files" | grep -v '^tests/')

echo "clang-format"
# shellcheck disable=SC2086 # lists of plain paths are meant to split
clang-format --dry-run -Werror $files || fail "run make format"

echo "clang-tidy"
# A flags file spares the quoting of the defines. Two at a time: the machines that
# run this have two cores.
mkdir -p build/lint
printf '%s\n' -std=c11 "-I$PWD/include" "-I$PWD/src" "-I$PWD/build/gen" "-I$PWD/tests" \
    -D_POSIX_C_SOURCE=200809L '-DMF_VERSION="lint"' '-DMF_FONT_DIR="lint"' '-DMF_TESTS="lint"' \
    '-DMF_SAMPLE="lint"' $(pkg-config --cflags-only-I libpq) > build/lint/compile_flags.txt
# shellcheck disable=SC2086
printf '%s\n' $sources | xargs -P 2 -n 12 clang-tidy --quiet -p build/lint 2>/dev/null ||
    fail "clang-tidy found something"

echo "cppcheck"
# shellcheck disable=SC2086
cppcheck -j 2 --quiet --error-exitcode=1 --std=c11 --enable=warning,performance,portability \
    --inline-suppr --suppress=missingIncludeSystem --library=posix -Iinclude -Isrc -Ibuild/gen \
    $(printf '%s\n' "$sources" | grep -v '^tests/') || fail "cppcheck found something"

echo "house rules"
# shellcheck disable=SC2086
sh src/gen/house.sh $files || failed=1

[ -z "$(sh src/gen/map.sh 2>&1 >/dev/null)" ] || fail "a file says at its head what it holds: make map"

[ "$failed" -eq 0 ] && echo "lint: clean"
exit "$failed"
