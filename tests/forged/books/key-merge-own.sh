# Somebody goes on with a copy of the book under its own name, without its key: not taken over
# for any reason, as the next entry would sign it.
#= 3
#> full.book: the chain of office, as it comes in, does not end as this device signed it
sign
cp demo.book backup
office_logs olga
cp demo.book full.book
rewrite full.book set office/420 name '"Eve Example"'
put_back
M book merge full.book --adopt "the disk was lost, the book is that of the backup"
