# ... and the last of it is torn: nothing of it is adopted, as more of it is to come.
#= 3
#> waits @office/418 to 418@entry office/419 has not arrived; this device made it
#> handed out   entries: 0, attachments: 0
meet_first
cp demo.book backup
for name in olga anna; do
    office_logs $name
    quietly meet demo
done
put_back
truncate -s -200 share/office/office.419-419.*
meet demo --adopt "the disk was lost, the book is that of the backup"
