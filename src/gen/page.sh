#!/bin/sh
# The field page as one file with @JOB@, @LANG@, @PERSON@, @NAME@ and @OLD@ left to be filled, as
# a C array in the program.
#   sh src/gen/page.sh FIELD.WASM > field_page.c      from the top of the checkout
set -eu
wasm=$(mktemp)
html=$(mktemp)
trap 'rm -f "$wasm" "$html"' EXIT
gzip -9nc "$1" | base64 -w 0 >"$wasm"
while IFS= read -r line; do
    case $line in
    @CSS@) cat src/field/page/field.css ;;
    @JS@) cat src/field/page/store.js src/field/page/door.js src/field/page/draw.js src/field/page/sheets.js ;;
    *@WASM@*) printf '%s' "${line%%@WASM@*}"; cat "$wasm"; printf '%s\n' "${line#*@WASM@}" ;;
    *) printf '%s\n' "$line" ;;
    esac
done <src/field/page/field.html >"$html"
echo '/* Made by src/gen/page.sh from src/field: edit it there. */'
echo '#include "cli/field_page.h"'
echo
echo 'const unsigned char mf_field_page_html[] = {'
od -An -v -tu1 "$html" | sed 's/^ *//; s/  */,/g; s/$/,/'
echo '0};'
echo 'const size_t mf_field_page_len = sizeof mf_field_page_html - 1;'
