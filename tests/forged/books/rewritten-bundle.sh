# The same book, asked for the inspector's folder with the true record in it.
#= 1
#> job-record.pdf: entry office/279 was ALTERED: loading_ug_cm2 was 5600 and is 100
#> nothing was written
reading_changed --heads
status=0
M job bundle J-1926 --out folder --record job-record.pdf || status=$?
[ -e folder ] || echo nothing was written
exit $status
