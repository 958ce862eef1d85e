# A word of what a phone logged is changed on its way.
#= 3
#> a.entries:2: this entry was altered: its text does not give its hash
#> 418 entries
phone a.entries J-1926 phone rosa handover '{"day":"2026-09-22","how":"by hand","party":"owner","what":"record"}'
sed -i 's/by hand/by mail/' a.entries
status=0
M entry import a.entries || status=$?
echo "$(sqlite3 demo.book 'SELECT count(*) FROM entry') entries"
exit $status
