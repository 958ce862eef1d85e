# Somebody forges an entry of this device, with right hashes, in another book.
#= 3
#> entry office/419 is under the name of this very device and is not here
#> 418 entries
cp demo.book forged.book
rewrite forged.book add handover '{"day":"2026-09-22","how":"hand","party":"owner","what":"record"}' J-1926
status=0
M book merge forged.book || status=$?
echo "$(sqlite3 demo.book 'SELECT count(*) FROM entry') entries"
exit $status
