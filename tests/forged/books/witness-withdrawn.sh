# ... or withdraws it: that is an entry with its reason, and is counted.
#= 0
#> 1 more withdrawn
quietly M book witness "$(M book head | tail -1)" --from truck
quietly M entry withdraw office/419 --reason "typed wrong"
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
M book check
