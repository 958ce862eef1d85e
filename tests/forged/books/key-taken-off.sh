# The signature is cut off.
#= 1
#> chain of office: entry office/419 names the key of its device, and no signature by it is here
sign
sqlite3 demo.book "DELETE FROM meta WHERE key LIKE 'signed %'"
M book check
