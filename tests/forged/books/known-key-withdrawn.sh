# A key that was known is known no more once its entry is withdrawn.
#= 1
#> seal 1 is by a key that this book does not know
away_paper
quietly M paper check away.pdf --compare
quietly M entry withdraw office/417 --reason "the key was stolen"
M paper check away.pdf --compare
