# ... nor does the device sign it with its next entry.
#= 4
#> the chain of office does not end as this device signed it
sign
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
M person add --id zoe --name 'Zoe Muestra'
