# The book of the office is put back from a backup, and the folder has what it logged since.
#= 3
#> refused @is under the name of this very device and is not here
meet_first
cp demo.book backup
office_logs olga
quietly meet demo
put_back
meet demo
