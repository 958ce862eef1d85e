# Somebody forges a correction that says to settle what is no correction of the same entry.
#= 3
#> entry van/1: it settles office/317, which is not a correction of office/279
#> 418 entries
M entry correct office/279 --set color=blue --reason misread >said
cp demo.book forged.book
rewrite forged.book add-as van correction '{"kind":"reading","reason":"r","replaces":"office/419","settles":"office/317","target":"office/279"}' J-1926
M book merge forged.book || status=$?
echo "$(($(sqlite3 demo.book 'SELECT count(*) FROM entry') - 1)) entries"
exit $status
