# ... and so does the head that somebody wrote down.
#= 1
#> head: @ is not a head that this book ever had
M book head >noted.txt
reading_changed --heads
M book check --against noted.txt
