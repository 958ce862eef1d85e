# A sealed record that came back was noted; then the book is rewritten, and whoever does it
# leaves the witness as it is.
#= 1
#> witness office/419, entry office/@: its hash was noted as @ and is @: the chain was made anew
quietly M book witness job-record.pdf
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
M book check
