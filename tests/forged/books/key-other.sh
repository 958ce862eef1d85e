# ... and takes the first signature off, too: then the book agrees with itself. The truck's copy
# knows the chain as it was.
#= 3
#> entry office/279 says something else in the two books
sign
quietly M book copy truck.book --device truck
openssl genpkey -algorithm ed25519 -out eve.pem 2>said
key=$(openssl pkey -in eve.pem -pubout -outform DER | tail -c 32 | od -An -v -tx1 | tr -d ' \n')
rewrite demo.book set office/419 key "\"$key\"" --heads
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
sqlite3 demo.book "DELETE FROM meta WHERE key LIKE 'signed %'"
sign_by_hand demo.book office eve.pem
quietly M book check
T book merge demo.book
