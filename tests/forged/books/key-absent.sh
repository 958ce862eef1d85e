# A book that was taken away without its key is not gone on with.
#= 3
#> the key by which this device signs is not here
sign
cp demo.book taken.book
"$MISTFOLD" --book taken.book --by rosa person add --id zoe --name 'Zoe Muestra'
