# No forgery: who knows whose key it is says so in the book, with the fingerprint.
#= 0
#> seal 1       is not logged in this book; its key is known: office/414, rosa, as renovator
rewrite demo.book drop 2
quietly M book rebuild
quietly M paper record J-1926 --out away.pdf
forge_key second.p12 "Rosa Muestra" "certified renovator"
seal_elsewhere away.pdf second.p12
print=$(elsewhere key show second.p12 --passphrase-fd 3 3<pass | sed -n 's/^fingerprint *//p')
quietly M key trust --fingerprint "$print" --person rosa --as renovator
M paper check away.pdf --compare
