# The book was put back, and a copy shows what this device signed since: nothing is logged until
# that came in.
#= 3
#> full.book: entry office/420 is under the name of this very device and is not here
#> mistfold: demo.book: entry office/420 was logged on this device and is not here
sign
cp demo.book backup
office_logs olga
quietly M book backup full.book
put_back
M book merge full.book || test $? = 3
M person add --id zoe --name "Zoe Example"
