# The entry that names the key is made to name another, which the forger has, and the chain is
# signed by that. The signature of the first key that was left tells of it.
#= 1
#> it is signed office @, a key that no entry names: the chain was made anew
sign
openssl genpkey -algorithm ed25519 -out eve.pem 2>said
key=$(openssl pkey -in eve.pem -pubout -outform DER | tail -c 32 | od -An -v -tx1 | tr -d ' \n')
rewrite demo.book set office/419 key "\"$key\"" --heads
quietly M book rebuild
sign_by_hand demo.book office eve.pem
M book check
