# Somebody changes an entry in a file of the folder, and gives the file the name that fits.
#= 3
#> damaged @this entry was altered: its text does not give its hash
meet_first
truck_logs olga
quietly meet truck
sed 's/olga Example/Eve Example/' share/truck/truck.2-2.* >forged
rm share/truck/truck.2-2.*
put_segment forged truck truck.2-2
meet demo
