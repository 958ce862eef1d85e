# The foot of a paper names entries of two devices without their hashes, and one of them was made
# anew: a reason for the one does not do for the other.
#= 3
#> witness office/419 of paper, head: @ is not that of the entries it names
quietly T book new --no-key --device truck
quietly T person add --id olga --name 'Olga Muestra'
cp demo.book both.book
B() { "$MISTFOLD" --book both.book --by rosa "$@"; }
quietly B book merge truck.book
quietly M book witness "$(B book head | head -1) of office/418 truck/1" --from paper
rewrite truck.book set truck/1 name '"Olha Muestra"'
quietly T book rebuild
M book merge truck.book --adopt "the disk was lost"
