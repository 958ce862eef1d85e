# The office noted what the truck's screen showed. The truck's entry is made anew before its
# book ever came to the office.
#= 3
#> witness office/419 of truck, entry truck/1: its hash was noted as @ and is @: the chain was made anew
quietly T book new --no-key --device truck
quietly T person add --id teo --name 'Teo Muestra'
quietly M book witness $(T book head | tail -1) --from truck
rewrite truck.book set truck/1 name '"Tea Muestra"'
quietly T book rebuild
M book merge truck.book
