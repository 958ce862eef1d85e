# The copy meets at the folder itself: it is told, and hands out nothing of its own.
#= 3
#> refused @entry truck/2 says something else in the two books
#> handed out   entries: 0
meet_first
copied_truck
truck_logs olga
quietly meet truck
quietly meet demo
quietly C person add --id anna --name "Anna Example"
C sync folder:share
