# The head was written down by hand, in groups and capitals, and is typed in again.
#= 1
#> It holds every head that was noted.
#> head: @ is no head that this book ever had
M book head --by-hand | tr a-f A-F | sed -n 2p >noted.txt
M book check --against noted.txt
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
M book check --against noted.txt
