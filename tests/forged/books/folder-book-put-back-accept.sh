# ... and a device is accepted before that is found out: it comes in, and nothing is logged of it
# yet, so that what the office logged since can be adopted.
#= 0
#> of them under the name of this device; why is logged as office/422
meet_first
quietly M book copy paul.book --device paul
quietly "$MISTFOLD" --book paul.book --by rosa sync folder:share
cp demo.book backup
office_logs olga
meet demo >said || test $? = 1 # paul is new
put_back
meet demo --accept paul || test $? = 3
meet demo --accept paul --adopt "the disk was lost, the book is that of the backup"
