# It is taken over all the same: then every check says so, by the name of the witness.
#= 1
#> witness office/416 of truck, entry truck/1: its hash was noted as @ and is @: the chain was made anew
quietly T book new --no-key --device truck
quietly T person add --id teo --name 'Teo Muestra'
quietly M book witness $(T book head | tail -1) --from truck
rewrite truck.book set truck/1 name '"Tea Muestra"'
quietly T book rebuild
M book merge truck.book --adopt "the truck's book was mended by hand" >said 2>&1 || test $? = 1 # an id twice
quietly M entry show office/417
M book check
