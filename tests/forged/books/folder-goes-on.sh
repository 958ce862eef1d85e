# Who can write to the folder goes on with the chain of the truck without its key.
#= 3
#> refused @truck/2 to 2@entry truck/2 is not what its device signed
meet_first
truck_logs olga
cp truck.book eve.book
rewrite eve.book set truck/2 name '"Eve Example"'
segment eve.book truck 2 share truck
meet demo
