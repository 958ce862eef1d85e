# The file beside the SQL is what a store of it gives: MISTFOLD_ACCEPT=1 writes it anew.
f=$SYNC/sql/store.shape
"$PG_BIN/psql" -XqAt -h "$PG" -U admin firm -f $SYNC/sql/shape.sql >shape
[ -z "${MISTFOLD_ACCEPT:-}" ] || cp shape $f; diff $f shape
