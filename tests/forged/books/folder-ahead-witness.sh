# ... and nothing of it was ever in the folder, but the office noted its head: whoever goes on is told.
#= 0
#> refused @witness office/421 of truck, entry truck/2: it was there when its hash was noted, and is missing
#> note: it was noted outside this book that this device went on to entry truck/2
#> logged person truck/2
meet_first
cp truck.book backup
truck_logs olga
quietly M book witness $(T book head | tail -1) --from truck
quietly meet demo
put_back truck
meet truck || test $? = 3
T person add --id zoe --name "Zoe Example"
