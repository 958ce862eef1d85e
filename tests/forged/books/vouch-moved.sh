# The chain is made anew under a key of the forger's, and Rosa's word is moved to it.
#= 1
#> nobody signed that the key of device office is this one
sign
quietly M book vouch office --key rosa.p12 --passphrase-fd 3 3<$SAMPLE/passphrase.txt
openssl genpkey -algorithm ed25519 -out eve.pem 2>said
key=$(openssl pkey -in eve.pem -pubout -outform DER | tail -c 32 | od -An -v -tx1 | tr -d ' \n')
rewrite demo.book set office/419 key "\"$key\"" --heads
rewrite demo.book set office/420 key "\"$key\"" --heads
quietly M book rebuild
sqlite3 demo.book "DELETE FROM meta WHERE key LIKE 'signed %'"
sign_by_hand demo.book office eve.pem
M book check
