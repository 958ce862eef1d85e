# Who can write to the folder makes up a device with a key of its own.
#= 1
#> not accepted @eve/1 to 2@this book knows no device eve
meet_first
quietly M book copy eve.book --device eve
E() { "$MISTFOLD" --book eve.book --by rosa "$@"; }
quietly E person add --id eve --name "Eve Example"
quietly E sync folder:share
meet demo
