# ... and the head that the truck had noted contradicts it.
#= 3
#> witness truck/2 of office, entry office/419: its hash was noted as @ and is @: the chain was made anew
sign
quietly T book new --device truck
quietly T book witness "$(M book head | tail -1)" --from office
cp demo.book.office.key stolen.key
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
sign_by_hand demo.book office stolen.key
quietly M book check
M book merge truck.book
