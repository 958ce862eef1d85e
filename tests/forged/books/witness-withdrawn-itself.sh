# The truck that made its chain anew withdraws in the same breath what the office noted of it: a
# merge does not take the one for a reason of the other.
#= 3
#> witness office/416 of truck, entry truck/1: its hash was noted as @ and is @: the chain was made anew
quietly T book new --no-key --device truck
quietly T person add --id olga --name 'Olga Muestra'
quietly M book witness $(T book head | tail -1) --from truck
rewrite truck.book set truck/1 name '"Olha Muestra"'
rewrite truck.book add correction '{"body":null,"reason":"misheard","target":"office/416"}' ''
quietly T book rebuild
M book merge truck.book
