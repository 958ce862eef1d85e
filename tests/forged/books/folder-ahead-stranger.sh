# Who can write to the folder cannot keep the office from logging: what its device did not sign is
# told, and no more.
#= 0
#> note: it was noted outside this book that this device went on to entry office/418
#> logged person office/418
meet_first
cp demo.book eve.book
cp demo.book.office.key eve.book.office.key
quietly "$MISTFOLD" --book eve.book --by rosa person add --id eve --name "Eve Example"
rewrite eve.book set office/418 name '"Eva Example"'
segment eve.book office 418 share office --unsigned
meet demo || test $? = 3
M person add --id zoe --name "Zoe Example"
