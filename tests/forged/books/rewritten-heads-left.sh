# The book is rewritten, and the heads that the entries of seals name are left as they were.
#= 1
#> entry office/414: the head @ of its paper is not that of the entries it names
rewrite demo.book set office/279 loading_ug_cm2 100
quietly M book rebuild
M book check
