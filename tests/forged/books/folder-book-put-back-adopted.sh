# ... and somebody says why it is to come in: that is logged, and the chain goes on.
#= 0
#> of them under the name of this device; why is logged as office/
meet_first
cp demo.book backup
office_logs olga
quietly meet demo
put_back
meet demo --adopt "the disk was lost, the book is that of the backup"
