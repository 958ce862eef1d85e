# ... and the folder has lost it: by what the truck signed it is known all the same.
#= 3
#> mistfold: demo.book: entry office/418 was logged on this device and is not here
meet_first
cp demo.book backup
office_logs olga
quietly meet demo
quietly meet truck
truck_logs anna
quietly meet truck
put_back
rm share/office/office.418-418.*
meet demo || test $? = 1
M person add --id zoe --name "Zoe Example"
