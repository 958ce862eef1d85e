# Somebody has a copy of the truck's book, not its key, and logs one of their own in it.
#= 3
#> entry truck/2 gives device truck another key
quietly T book new --device truck
quietly M book merge truck.book
mv truck.book.truck.key lost
quietly T book key --reason "the laptop was lost"
M book merge truck.book
