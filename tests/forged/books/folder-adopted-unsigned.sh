# What the truck did not sign is not adopted, whoever names the truck.
#= 3
#> refused @truck/2 to 2@entries from truck/2 on are not signed by the key of their device
#> taken over   entries: 0, attachments: 0
meet_first
truck_logs olga
cp truck.book eve.book
rewrite eve.book set truck/2 name '"Eve Example"'
segment eve.book truck 2 share truck --unsigned
meet demo --adopt "the truck lost its key" --of truck
