# ... and it is torn: what it held nobody can tell, so that whoever goes on is told of it.
#= 0
#> note: it was noted outside this book that this device went on to entry office/421
#> logged person office/421
meet_first
cp demo.book backup
office_logs olga
quietly meet demo
put_back
truncate -s -200 share/office/office.421-421.*
meet demo || test $? = 3
M person add --id zoe --name "Zoe Example"
