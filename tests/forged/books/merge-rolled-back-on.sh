# ... after it was gone on with: two histories of one device.
#= 3
#> entry office/414 says something else in the two books
cp demo.book newer.book
rewrite_ours drop 5
quietly M person add --id new --name "New Hand"
M book merge newer.book --adopt "put back from the copy of Friday"
