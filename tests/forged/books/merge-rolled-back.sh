# The book is put back to an earlier state, and the newer one comes back by a merge.
#= 3
#> entry office/414 is under the name of this very device and is not here
cp demo.book newer.book
rewrite_ours drop 5
M book merge newer.book
