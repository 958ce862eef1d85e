# A copy of the truck was gone on with beside it: two histories of one device meet.
#= 3
#> refused @entry truck/2 says something else in the two books: here it goes on to truck/2 (@), there to truck/2 (@)
meet_first
copied_truck
truck_logs olga
quietly meet truck
quietly meet demo
quietly C person add --id anna --name "Anna Example"
quietly C sync folder:other
cp other/truck/truck.2-2.* share/truck
meet demo
