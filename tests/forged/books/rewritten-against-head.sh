# ... and so does the head that somebody wrote down.
#= 1
#> head: @ is no head that this book ever had
M book head >noted.txt
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
M book check --against noted.txt
