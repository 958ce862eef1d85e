# ... and the truck wrote it there again: it is what the office signed, whoever brings it.
#= 3
#> refused @office/421 to 421@entry office/421 is under the name of this very device and is not here
#> mistfold: demo.book: entry office/421 was logged on this device and is not here
meet_first
cp demo.book backup
office_logs olga
quietly meet demo
quietly meet truck
rm share/office/office.421-421.*
meet truck >said || test $? = 1
put_back
meet demo || test $? = 3
M person add --id zoe --name "Zoe Example"
