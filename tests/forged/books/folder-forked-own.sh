# The copy meets at the folder itself: it is told, and hands out nothing of its own.
#= 3
#> refused @entry truck/2 says something else in the two books
#> handed out   entries: 0
meet_first
cp -r share other
cp truck.book copy.book
cp truck.book.truck.key copy.book.truck.key
C() { "$MISTFOLD" --book copy.book --by teo "$@"; }
truck_logs olga
quietly meet truck
quietly meet demo
quietly C person add --id anna --name "Anna Example"
C sync folder:share
