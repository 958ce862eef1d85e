# A phone's file says to settle a correction that nobody has seen: it may come yet.
#= 3
#> it corrects an entry that is not there
#> 419 entries
M entry correct office/279 --set color=blue --reason misread >said
phone a.entries J-1926 phone rosa correction '{"kind":"reading","reason":"r","replaces":"office/419","settles":"truck/9","target":"office/279"}'
M entry import a.entries || status=$?
echo "$(sqlite3 demo.book 'SELECT count(*) FROM entry') entries"
exit $status
