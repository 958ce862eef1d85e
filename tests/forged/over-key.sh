# A key that is written over is lost for good: PKCS #12, PEM, DER, under any name.
cp k.p12 k.csv
for key in k.p12 k.csv k.pem k.der c.der; do
    keeps $key $M export J --format csv --out $key
    keeps $key $M paper record J --out $key --force
done
keeps k.csv $M key new k.csv --name N --passphrase-fd 3 3<secret
#> exit 3
#> mistfold: k.p12: a key or a certificate stands there (a key that is written over is lost for good); choose another name, or move that file away
#> k.p12 is as it was
#> exit 3
#> mistfold: k.p12: a key or a certificate stands there (a key that is written over is lost for good); choose another name, or move that file away
#> k.p12 is as it was
#> exit 3
#> mistfold: k.csv: a key or a certificate stands there (a key that is written over is lost for good); choose another name, or move that file away
#> k.csv is as it was
#> exit 3
#> mistfold: k.csv: a key or a certificate stands there (a key that is written over is lost for good); choose another name, or move that file away
#> k.csv is as it was
#> exit 3
#> mistfold: k.pem: a key or a certificate stands there (a key that is written over is lost for good); choose another name, or move that file away
#> k.pem is as it was
#> exit 3
#> mistfold: k.pem: a key or a certificate stands there (a key that is written over is lost for good); choose another name, or move that file away
#> k.pem is as it was
#> exit 3
#> mistfold: k.der: a key or a certificate stands there (a key that is written over is lost for good); choose another name, or move that file away
#> k.der is as it was
#> exit 3
#> mistfold: k.der: a key or a certificate stands there (a key that is written over is lost for good); choose another name, or move that file away
#> k.der is as it was
#> exit 3
#> mistfold: c.der: a key or a certificate stands there (a key that is written over is lost for good); choose another name, or move that file away
#> c.der is as it was
#> exit 3
#> mistfold: c.der: a key or a certificate stands there (a key that is written over is lost for good); choose another name, or move that file away
#> c.der is as it was
#> exit 3
#> mistfold: k.csv: there is a file of this name already (it is never written over); choose another name
#> k.csv is as it was
