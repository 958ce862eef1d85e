#!/bin/sh
# The house rules: who may see what, what is never called, how long a file may be, and
# that every public header stands alone. tests/gen/test_house.c breaks each of them.
#   sh src/gen/house.sh FILE...          from the top of the checkout
set -u
failed=0
fail() {
    echo "lint: $*" >&2
    failed=1
}

files=$(printf '%s\n' "$@")
ours=$(printf '%s\n' "$files" | grep -v '^tests/')

# What a room alone may see (DEVELOPERS.md, "The house"); of each other: includes.awk.
only_in() { # pattern, allowed path pattern, what
    # shellcheck disable=SC2086
    odd=$(grep -lE "$1" $ours /dev/null | grep -vE "$2")
    [ -z "$odd" ] || fail "$3 outside its place: $odd"
}
only_in '#include <hpdf' '^src/paper/haru_own\.h$' "the PDF library"
only_in '#include "paper/haru_own' '^src/paper/haru(_nav)?\.c$' "the PDF library's own files"
only_in '#include <openssl/cms' '^src/seal/cms\.c$' "OpenSSL CMS"
only_in '#include <openssl/ts' '^src/seal/ts(_ask)?\.c$' "OpenSSL time stamps"
only_in '#include <curl' '^src/cli/tsa\.c$' "the network"
only_in '#include <microhttpd' '^src/cli/serve_http\.c$' "the server"
only_in '#include <xlsxwriter' '^src/cli/export_xlsx\.c$' "the spreadsheet library"
only_in '#include <zip' '^src/cli/zip\.c$' "the zip library"
only_in '#include <libpq' '^src/sync/pg\.h$' "PostgreSQL"
only_in '#include "sync/pg\.h' '^src/sync/(pg_[a-z]+|postgres)\.c$' "PostgreSQL's own files"
only_in '#include <sqlite3' '^src/book/' "SQLite"
only_in 'fopen ?\([^,]*, ?"[wa]|O_CREAT|\b(rename|mkstemp|creat|zip_open) ?\(' \
    '^src/base/file_write\.c$|^src/book/book\.c$|^src/cli/export_xlsx\.c$' "a file written"
only_in '\b(time|localtime_r|gmtime_r) ?\(' '^src/cli/clock\.c$|^src/seal/' "the clock"

# shellcheck disable=SC2086
LC_ALL=C awk -f "$(dirname "$0")/includes.awk" $ours /dev/null ||
    fail "a room sees what it may not, or headers stand in a circle"

core=$(printf '%s\n' "$ours" | grep '^src/core/')
# shellcheck disable=SC2086
grep -nE '#include "base/|\b(malloc|calloc|realloc|printf|snprintf|fopen|getenv) ?\(' $core /dev/null &&
    fail "core allocates, formats or touches the outside"
# shellcheck disable=SC2086
grep -nE '\b(sprintf|vsprintf|strcpy|strcat|strncat|atoi|atol|strtok|gmtime|localtime|sscanf|gets|system) ?\(' $ours /dev/null &&
    fail "a banned function"
# shellcheck disable=SC2086
grep -nE '\b(float|double)\b' $core /dev/null && fail "core knows whole numbers only"

# shellcheck disable=SC2086
wc -l $files | awk '$2 != "total" && $1 > 500 { print $2 ": " $1 " lines, at most 500"; bad = 1 } END { exit bad }' ||
    fail "a file is too long"
# A function is what stands between a { and a } in the first column.
# shellcheck disable=SC2086
awk 'FNR == 1 { start = 0 }
    /^{/ { start = FNR }
    /^}/ { if (start && FNR - start > 60) { print FILENAME ":" start ": " FNR - start " lines, at most 60"; bad = 1 } start = 0 }
    END { exit bad }' $(printf '%s\n' "$files" | grep '\.c$') /dev/null || fail "a function is too long"

strict="-Wall -Wextra -Wpedantic -Wconversion -Wshadow -Werror"
for header in $(printf '%s\n' "$files" | grep '^include/'); do
    # shellcheck disable=SC2086
    printf '#include "%s"\n' "$header" | gcc -std=c11 $strict -Wstrict-prototypes -Wmissing-prototypes \
        -Iinclude -I. -fsyntax-only -x c - || fail "$header does not compile alone"
    # shellcheck disable=SC2086
    printf '#include "%s"\n' "$header" | g++ -std=c++17 $strict -Iinclude -I. -fsyntax-only -x c++ - ||
        fail "$header does not compile as C++"
done

exit "$failed"
