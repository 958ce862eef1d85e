# Somebody vouches whose key the book does not know.
#= 3
#> the book does not know this key
sign
forge_key eve.p12 'Rosa Muestra' 'certified renovator'
M book vouch office --key eve.p12 --passphrase-fd 3 3<pass
