# The device whose file was torn meets there once more: it writes the entries anew.
#= 0
#> came in @truck/2 to 2
meet_first
truck_logs olga
quietly meet truck
truncate -s -200 share/truck/truck.2-2.*
quietly meet truck
meet demo
