# ... and the last of it is torn: nothing of it is adopted, as more of it is to come.
#= 0
#> waits @office/421 to 421@entry office/422 has not arrived; the file that names it is damaged@take that file away and sync again
#> ... taken away: 0
#> handed out   entries: 0, attachments: 0
#> of them under the name of this device; why is logged as office/422
meet_first
cp demo.book backup
for name in olga anna; do
    office_logs $name
    quietly meet demo
done
put_back
truncate -s -200 share/office/office.422-422.*
meet demo --adopt "the disk was lost, the book is that of the backup" || test $? = 3
rm share/office/office.422-422.*
meet demo --adopt "the disk was lost, the book is that of the backup" && echo "... taken away: 0"
