# Somebody without the truck's key goes on with its chain by a file of entries.
#= 3
#> chain of truck: entries from truck/2 on are not signed by the key of their device
#> a file brings no signatures
#> 419 entries
quietly T book new --device truck
quietly M book merge truck.book
hash=$(sqlite3 demo.book "SELECT hash FROM entry WHERE device='truck'")
phone a.entries J-1926 "truck/1/$hash" rosa handover '{"day":"2026-09-22","how":"by hand","party":"owner","what":"record"}'
M entry import a.entries || status=$?
echo "$(sqlite3 demo.book 'SELECT count(*) FROM entry') entries"
exit $status
