# ... and where another device withdrew it before, who may have meant it: that counts once somebody
# here finds it right.
#= 0
#> ... merged: 3
#> taken over all the same; why is logged as office/420
#> witnesses 0 noted, 0 held; 1 more withdrawn
quietly M book copy truck.book --device truck --no-key
truck_logs olga
quietly M book witness "truck 3 $(printf %064d 0)" --from truck
quietly M book copy tablet.book --device tablet --no-key
quietly "$MISTFOLD" --book tablet.book --by rosa entry withdraw office/419 --reason "misheard"
quietly M book merge tablet.book
truck_logs zoe
truck_logs mia
M book merge truck.book || echo "... merged: $?"
M book merge truck.book --adopt "it was misheard, as the tablet says" --of truck
M book check
