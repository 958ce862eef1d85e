# The head was written down by hand, in groups and capitals, and is typed in again.
#= 1
#> holds       noted.txt: 
#> head: @ is not a head that this book ever had
M book head --by-hand | tr a-f A-F | sed -n 2p >noted.txt
M book check --against noted.txt
reading_changed --heads
M book check --against noted.txt
