# A file of the folder ends in its midst: a stick was pulled out.
#= 3
#> damaged @its bytes are not those that its name says
meet_first
truck_logs olga
quietly meet truck
truncate -s -200 share/truck/truck.2-2.*
meet demo
