# One reading is changed, every hash behind it made anew, the tables rebuilt: the book by
# itself is whole. The record that was handed over is not of it.
#= 1
#> ALTERED      office/279, reading: loading_ug_cm2 was 5600 and is 100
#> head         @ IS NONE THAT THIS BOOK EVER HAD
#> job-record.pdf: entry office/279 was ALTERED
reading_changed --heads
quietly M book check
M paper check job-record.pdf --compare
