#!/bin/sh
# The texts of a store in PostgreSQL as C arrays: what makes one, what asks what it consists of,
# and the answer.
#   sh src/gen/texts.sh > store_sql.c      from the top of the checkout
set -eu
array() { # NAME FILE ...
    name=$1
    shift
    echo
    echo "const unsigned char $name[] = {"
    cat "$@" | od -An -v -tu1 | sed 's/^ *//; s/  */,/g; s/$/,/'
    echo '0};'
}
echo '/* Made by src/gen/texts.sh from src/sync/sql: edit it there. */'
echo '#include "sync/texts.h"'
array mf_text_store src/sync/sql/store.sql src/sync/sql/office.sql src/sync/sql/end.sql
array mf_text_shape_of src/sync/sql/shape.sql
array mf_text_shape src/sync/sql/store.shape
