# An entry is added by hand.
#= 1
#> chain of office: entries from office/420 on are not signed by the key of their device
sign
rewrite demo.book add person '{"id":"zoe","name":"Zoe Muestra"}' ''
quietly M book rebuild
M book check
