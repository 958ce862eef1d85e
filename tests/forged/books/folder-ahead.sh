# ... and somebody would go on all the same: nothing is logged until it came in.
#= 0
#> mistfold: demo.book: entry office/421 was logged on this device and is not here (the book was put back to an earlier state
#> ... logging: 3
#> note: entry office/421 was logged on this device and is not here
#> of them under the name of this device; why is logged as office/422
#> logged person office/423
meet_first
cp demo.book backup
office_logs olga
quietly meet demo
put_back
meet demo || test $? = 3
M person add --id zoe --name "Zoe Example" || echo "... logging: $?"
M book head
meet demo --adopt "the disk was lost, the book is that of the backup"
M person add --id zoe --name "Zoe Example"
