# ... and is not taken over for any reason: what a device did not sign is nobody's.
#= 3
#> chain of truck: entries from truck/2 on are not signed by the key of their device
quietly T book new --device truck
quietly M book merge truck.book
rewrite truck.book add person '{"id":"zoe","name":"Zoe Muestra"}' ''
quietly "$MISTFOLD" --book truck.book book rebuild
M book merge truck.book --adopt "the key was lost" --of truck
