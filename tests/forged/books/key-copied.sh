# Whoever has a copy of the key file signs what they like: the book agrees with itself ...
#= 0
#> chain     office, signed by its key
sign
cp demo.book.office.key stolen.key
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
sign_by_hand demo.book office stolen.key
M book check
