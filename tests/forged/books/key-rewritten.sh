# The chain is signed by its device. The book is rewritten, every hash and every head, without
# the key.
#= 1
#> chain of office: entry office/419 is not what its device signed: the chain was made anew
sign
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
M book check
