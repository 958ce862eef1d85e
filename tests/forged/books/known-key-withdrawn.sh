# A key that was known is known no more once its entry is withdrawn.
#= 1
#> seal 1 is by a key that this book does not know
rewrite demo.book drop 2
quietly M book rebuild
quietly M paper record J-1926 --out away.pdf
forge_key second.p12 "Rosa Muestra" "certified renovator"
seal_elsewhere away.pdf second.p12
print=$(elsewhere key show second.p12 --passphrase-fd 3 3<pass | sed -n 's/^fingerprint *//p')
quietly M key trust --fingerprint "$print" --person rosa --as renovator
quietly M paper check away.pdf --compare
quietly M entry withdraw office/414 --reason "the key was stolen"
M paper check away.pdf --compare
