# ... and it had met there several times since: all of that comes in before why is logged, or
# the next entry there would be of a number that is taken. The truck goes on with that chain.
#= 0
#> came in @office/421 to 421
meet_first
cp demo.book backup
for name in olga anna ida; do
    quietly M person add --id $name --name "$name Example"
    quietly meet demo
done
cp backup demo.book
rm -f demo.book-*
quietly meet demo --adopt "the disk was lost, the book is that of the backup"
quietly M book check
meet truck
