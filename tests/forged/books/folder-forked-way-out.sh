# The way out of it: another device's book under a new name, and there what only the first one had.
#= 0
#> refused @truck/2 to 2@book copy FILE --device NEW
#> mistfold: truck.book: entry truck/2 is another one than was logged on this device before
#> ... logging: 3
#> came in      truck2/1 to @
#> office@truck2@zoe
meet_first
cp truck.book backup
truck_logs olga
quietly meet truck
quietly meet demo
put_back truck
quietly T person add --id zoe --name "Zoe Example"
meet truck || test $? = 3
T person add --id mia --name "Mia Example" || echo "... logging: $?"
quietly M book copy truck2.book --device truck2
quietly "$MISTFOLD" --book truck2.book --by teo person add --id zoe --name "Zoe Example"
quietly meet truck2
meet demo --accept truck2
quietly meet truck2
quietly meet demo
quietly M book check
quietly "$MISTFOLD" --book truck2.book book check
echo "office has of truck2: $(M person list | grep -o 'zoe')"
meet demo
