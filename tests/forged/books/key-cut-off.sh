# The last entry is thrown away.
#= 1
#> chain of office: its device signed it up to entry office/420, and it ends with office/419: it was cut off
sign
quietly M person add --id zoe --name 'Zoe Muestra'
rewrite demo.book drop 1
quietly M book rebuild
M book check
