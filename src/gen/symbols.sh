#!/bin/sh
# The names a shared library gives to others, as Debian's list of symbols has them. A name
# that the list had keeps the version in which it came.
#   sh src/gen/symbols.sh LIBRARY VERSION LIST
set -eu
nm -D --defined-only "$1" | LC_ALL=C sort -k 3 | awk -v version="$2" '
    BEGIN {
        print "libmistfold.so.@SOVERSION@ libmistfold@SOVERSION@ #MINVER#"
    }
    FILENAME != "-" { if ($1 ~ /@/) had[$1] = $2; next }
    { name = $3 "@Base"; print " " name " " (name in had ? had[name] : version) }' "$3" -
