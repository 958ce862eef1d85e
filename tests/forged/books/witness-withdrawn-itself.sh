# The truck that made its chain anew withdraws in the same breath what the office noted of it: a
# merge does not take the one for a reason of the other.
#= 3
#> witness office/419 of truck, entry truck/1: its hash was noted as @ and is @: the chain was made anew
truck_made_anew
rewrite truck.book add correction '{"body":null,"reason":"misheard","target":"office/419"}' ''
quietly T book rebuild
M book merge truck.book
