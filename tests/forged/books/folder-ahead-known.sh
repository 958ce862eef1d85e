# ... and the folder has lost it: the truck had it, and says so. That is told, and no more: with a key
# that was stolen anybody could keep every device from logging.
#= 0
#> note: it was noted outside this book that this device went on to entry office/421
#> logged person office/421
behind_truck
rm share/office/office.421-421.*
meet demo || test $? = 1
M person add --id zoe --name "Zoe Example"
