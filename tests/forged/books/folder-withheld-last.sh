# The folder keeps back the last file of the truck, which another device had.
#= 1
#> waits @office/@entry truck/2 has not arrived
meet_first
truck_logs olga
quietly meet truck
quietly M book copy paul.book --device paul
quietly meet demo
office_logs anna
quietly meet demo
rm share/truck/truck.2-2.*
"$MISTFOLD" --book paul.book --by rosa sync folder:share
