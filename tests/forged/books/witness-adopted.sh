# It is taken over all the same: then every check says so, by the name of the witness.
#= 1
#> logged as office/420
#> witness office/419 of truck, truck/1 was noted as @ and is @; taken over all the same by office/420 (rosa, @): the truck's book was mended by hand
#> ... sealed: 0
#> contradicted witness office/419 of truck, truck/1 was noted as
#> note: witness office/419 of truck, truck/1 was noted as
#> ... withdrawn: 0
quietly T book new --no-key --device truck
quietly T person add --id teo --name 'Teo Muestra'
quietly M book witness $(T book head | tail -1) --from truck
rewrite truck.book set truck/1 name '"Tea Muestra"'
quietly T book rebuild
M book merge truck.book --adopt "the truck's book was mended by hand" --of truck || test $? = 1 # an id twice
quietly M entry show office/420
quietly T person add --id zoe --name 'Zoe Muestra'
M book merge truck.book || test $? = 1 # what was adopted once does not stand in the way of what comes
ours paper record J-1926 --out sealed.pdf --key rosa.p12
echo "... sealed: $?"
quietly M job bundle J-1926 --out b
grep "^contradicted" b/summary.txt
cp demo.book again.book
"$MISTFOLD" --book again.book --by rosa entry withdraw office/419 --reason "the truck is right"
"$MISTFOLD" --book again.book book check
echo "... withdrawn: $?"
M book check
