# Somebody puts another book's chain under the name of the office there: it is said once why it is
# refused, first, and of the rest that it goes on from there. What the office logs is handed out all
# the same: who can write there cannot keep it back so.
#= 3
#> refused      office/1 to 1; entry office/1 says something else in the two books
#> waits        office/2 to 2; entry office/1 of it was refused
#> refused @not signed by the key of this device@take the file away
#> handed out   office/421 to 421
meet_first
E() { "$MISTFOLD" --book eve.book --by eve "$@"; }
quietly E book new --device office
mkdir theirs
for name in eve mallory; do
    quietly E sync folder:theirs
    quietly E person add --id $name --name "$name Example"
done
quietly E sync folder:theirs
cp theirs/office/* share/office/
office_logs olga
meet demo >said || { s=$?; cat said; head -1 said | grep -q '^refused' || echo "not first"; exit $s; }
