# Every hash and every head in the rewritten book fits: the papers that are out tell.
#= 1
#> contradicts job-record-received.pdf: entry office/279 was ALTERED
#> contradicts job-record.pdf: entry office/279 was ALTERED
#> no record   summary.pdf
#> 2 of 3 papers and this book contradict each other
reading_changed --heads
quietly M book check
M book check --against job-record-received.pdf job-record.pdf summary.pdf
