# The book is put back to an earlier state, and the newer one comes back by a merge.
#= 3
#> entry office/411 is under the name of this very device and is not here
cp demo.book newer.book
rewrite demo.book drop 5
quietly M book rebuild
M book merge newer.book
