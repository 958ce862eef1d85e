# ... and so is the end of the office's chain that somebody threw away.
#= 3
#> witness truck/1 of office, entry office/418: it was there when its hash was noted, and is missing
quietly T book new --no-key --device truck
quietly T book witness "$(M book head | tail -1)" --from office
rewrite demo.book drop 3
quietly M book rebuild
M book merge truck.book
