# The folder of the rewritten book is put together by hand, its list of hashes made anew.
#= 1
#> FAILED  record: entry office/279 was altered: it was sealed with another hash
#> FAILED  chain: it ended in entry office/416 with another hash
reading_changed --heads
quietly M job bundle J-1926 --out folder
cp job-record.pdf folder/record.pdf
manifest folder
sh folder/verify.sh
