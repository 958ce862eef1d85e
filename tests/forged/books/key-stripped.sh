# The key's entry and the signature are both taken off: the chain is one that nobody signs, and
# is called so.
#= 0
#> chain     office, NOT SIGNED
sign
rewrite demo.book drop 1
sqlite3 demo.book "DELETE FROM meta WHERE key LIKE 'signed %'"
quietly M book rebuild
M book check
