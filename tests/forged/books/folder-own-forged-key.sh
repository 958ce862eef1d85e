# ... or with a key of their own, which they log under its name first.
#= 3
#> refused @office/421 to 422@the key by which this device signs is not here
#> taken over   entries: 0, attachments: 0
meet_first
cp demo.book eve.book
mv demo.book.office.key kept
cp kept demo.book.office.key
quietly "$MISTFOLD" --book eve.book --by rosa book key --reason "the laptop was lost"
quietly "$MISTFOLD" --book eve.book --by rosa person add --id eve --name "Eve Example"
segment eve.book office 421 share office
meet demo --adopt "the disk was lost, the book is that of the backup"
