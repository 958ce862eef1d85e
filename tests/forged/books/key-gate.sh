# ... and the gates do not answer from it.
#= 4
#> entry office/419 is not what its device signed
sign
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
M paper summary J-1926 --out s.pdf
