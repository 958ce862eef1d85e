# The office adopts its own of a folder into which somebody put another key for the truck: that
# is not what the reason is for.
#= 3
#> refused @truck/2 to @entry truck/2 gives device truck another key@--adopt "the reason" --of truck
#> 1 of them under the name of this device; why is logged as office/
meet_first
copied_truck
mv copy.book.truck.key lost
cp demo.book backup
office_logs olga
quietly meet demo
put_back
quietly C book key --reason "the laptop was lost"
C sync folder:share >said 2>&1 || true
meet demo --adopt "the disk was lost, the book is that of the backup"
