# No forgery: the truck lost its key and has a new one, and somebody says so, of the truck.
#= 0
#> signed by its key @, truck/2
quietly T book new --device truck
quietly M book merge truck.book
mv truck.book.truck.key lost
quietly T book key --reason "the laptop was lost"
quietly M book merge truck.book --adopt "the laptop was lost" --of truck
M book check
