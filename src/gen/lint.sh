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
    '-DMF_SAMPLE="lint"' > build/lint/compile_flags.txt
# shellcheck disable=SC2086
printf '%s\n' $sources | xargs -P 2 -n 12 clang-tidy --quiet -p build/lint 2>/dev/null ||
    fail "clang-tidy found something"

echo "cppcheck"
# shellcheck disable=SC2086
cppcheck --quiet --error-exitcode=1 --std=c11 --enable=warning,performance,portability \
    --inline-suppr --suppress=missingIncludeSystem --library=posix -Iinclude -Isrc -Ibuild/gen \
    $(printf '%s\n' "$sources" | grep -v '^tests/') || fail "cppcheck found something"

echo "house rules"
# Which room may see what (DEVELOPERS.md, "The house").
only_in() { # pattern, allowed path pattern, what
    # shellcheck disable=SC2086
    odd=$(grep -lE "$1" $ours | grep -vE "$2")
    [ -z "$odd" ] || fail "$3 outside its place: $odd"
}
only_in '#include <hpdf' '^src/paper/haru\.c$' "the PDF library"
only_in '#include <openssl/cms' '^src/seal/cms\.c$' "OpenSSL CMS"
only_in '#include <sqlite3' '^src/book/' "SQLite"
only_in '#include "core/' '^src/core/' "core's own headers"
only_in '#include "book/' '^src/book/' "the book's own headers"
only_in '#include "paper/' '^src/paper/' "the paper room's own headers"
only_in '#include "seal/' '^src/seal/' "the seal room's own headers"
only_in '#include "cli/' '^src/cli/' "the program's own headers"
only_in '#include <mistfold/book' '^(src/book/|src/cli/|include/)' "the book"
only_in '#include <mistfold/paper' '^(src/paper/|src/cli/|include/)' "the paper room"
only_in '#include <mistfold/seal' '^(src/seal/|src/cli/|include/)' "the seal"
only_in '\b(time|localtime_r|gmtime_r) ?\(' '^src/cli/clock\.c$|^src/seal/' "the clock"

core=$(printf '%s\n' "$ours" | grep '^src/core/')
# shellcheck disable=SC2086
grep -nE '#include "base/|\b(malloc|calloc|realloc|printf|snprintf|fopen|getenv) ?\(' $core &&
    fail "core allocates, formats or touches the outside"
# shellcheck disable=SC2086
grep -nE '\b(sprintf|vsprintf|strcpy|strcat|strncat|atoi|atol|strtok|gmtime|localtime|sscanf|gets|system) ?\(' $ours &&
    fail "a banned function"
# shellcheck disable=SC2086
grep -nE '\b(float|double)\b' $core && fail "core knows whole numbers only"

# shellcheck disable=SC2086
wc -l $files | awk '$2 != "total" && $1 > 500 { print $2 ": " $1 " lines, at most 500"; bad = 1 } END { exit bad }' ||
    fail "a file is too long"
# A function is what stands between a { and a } in the first column.
# shellcheck disable=SC2086
awk 'FNR == 1 { start = 0 }
    /^{/ { start = FNR }
    /^}/ { if (start && FNR - start > 60) { print FILENAME ":" start ": " FNR - start " lines, at most 60"; bad = 1 } start = 0 }
    END { exit bad }' $(printf '%s\n' "$files" | grep '\.c$') || fail "a function is too long"

for header in $(printf '%s\n' "$files" | grep '^include/'); do
    printf '#include "%s"\n' "$header" | gcc -std=c11 -Wall -Wextra -Wpedantic -Werror -Iinclude -I. -fsyntax-only -x c - ||
        fail "$header does not compile alone"
    printf '#include "%s"\n' "$header" | g++ -Wall -Wextra -Werror -Iinclude -I. -fsyntax-only -x c++ - ||
        fail "$header does not compile as C++"
done

[ "$failed" -eq 0 ] && echo "lint: clean"
exit "$failed"
