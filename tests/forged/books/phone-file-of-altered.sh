# ... and no file of entries.
#= 4
#> entry office/419 is not what its device signed: the chain was made anew
sign
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
M entry export J-1926 --out a.entries
