# ... or the record that the owner was given.
#= 1
#> ALTERED      office/279
sign
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
sign_by_hand demo.book office demo.book.office.key
quietly M book check
M paper check job-record.pdf --compare
