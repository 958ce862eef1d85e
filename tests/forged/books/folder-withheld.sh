# The folder keeps back a file that came before another one.
#= 1
#> waits @truck/3 to 3@entry truck/2 has not arrived
meet_first
truck_logs olga
quietly meet truck
truck_logs anna
quietly meet truck
rm share/truck/truck.2-2.*
meet demo
