# The paper of another book of the same job is brought to be sealed once more: to log its
# head would make the book contradict itself.
#= 1
#> entry office/279 was ALTERED: loading_ug_cm2 was 100 and is 5600
#> 418 entries
cp demo.book other.book
rewrite other.book set office/279 loading_ug_cm2 100 --heads
quietly "$MISTFOLD" --book other.book book rebuild
quietly "$MISTFOLD" --book other.book --by rosa paper record J-1926 --out other.pdf
status=0
ours paper seal other.pdf --key rosa.p12 --as firm || status=$?
echo "$(sqlite3 demo.book 'SELECT count(*) FROM entry') entries"
exit $status
