# ... and the folder has lost it; another device had it.
#= 1
#> waits @truck/@entry office/@has not arrived; this device made it: the book was put back to an earlier state
behind_truck
last=$(ls share/office | sort -V | tail -1)
rm "share/office/$last"
meet demo
