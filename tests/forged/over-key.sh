# A key that is written over is lost for good: PKCS #12, PEM, DER, under any name.
cp k.p12 k.csv
for key in k.p12 k.csv k.pem k.der c.der; do
    keeps $key $M export J --format csv --out $key
    keeps $key $M paper record J --out $key --force
done
keeps k.csv $M key new k.csv --name N --passphrase-fd 3 3<secret
