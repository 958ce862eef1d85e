# Another book brings along a key that somebody there trusted: it counts here from then on, and is
# told with who said so.
#= 0
#> note: eve/2, logged by eve: the seal of key 7777777777777777... counts as firm from now on; if it is not to: mistfold entry withdraw eve/2
E() { "$MISTFOLD" --book eve.book --by eve "$@"; }
quietly E book new --no-key --device eve
quietly E person add --id eve --name 'Eve Example'
quietly E key trust --fingerprint $(printf %064d 0 | tr 0 7) --person eve --as firm
M book merge eve.book
echo "... again"
quietly E person add --id mallory --name 'Mallory Example'
M book merge eve.book >again 2>&1
if grep -q "counts as" again; then echo "told twice"; exit 9; fi
