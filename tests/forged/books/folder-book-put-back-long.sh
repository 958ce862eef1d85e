# ... and it had met there several times since: all of that comes in before why is logged, or
# the next entry there would be of a number that is taken. The truck goes on with that chain.
#= 0
#> came in @office/424 to 424
meet_first
cp demo.book backup
for name in olga anna ida; do
    office_logs $name
    quietly meet demo
done
put_back
quietly meet demo --adopt "the disk was lost, the book is that of the backup"
quietly M book check
meet truck
