# Who can write to the folder cannot keep the office from logging: what its device did not sign is
# told, and no more.
#= 0
#> note: it was noted outside this book that this device went on to entry office/421
#> logged person office/421
unsigned_own
meet demo || test $? = 3
M person add --id zoe --name "Zoe Example"
