# Makes in this folder what the scripts find in theirs: a book with a job, a key and its
# certificate in three forms, a sealed paper. M is the program.
set -e
umask 077
LC_ALL=C MISTFOLD_BY=rosa MISTFOLD_BOOK=firm.book MISTFOLD_QUIET=yes
export LC_ALL MISTFOLD_BY MISTFOLD_BOOK MISTFOLD_QUIET
M=$MISTFOLD
$M book new --no-key --device t
$M person add --id rosa --name 'Rosa Muestra'
$M certificate add --holder rosa --discipline renovator --number R --issuer X \
    --issued 2024-01-05 --expires 2099-01-05
$M job open --id J --address A --building dwelling --owner-occupied yes \
    --work window-replacement --description d --start 2026-09-14
echo a long enough secret >secret
$M key new k.p12 --name N --passphrase-fd 3 3<secret
openssl pkcs12 -in k.p12 -passin file:secret -nodes -out k.pem
openssl x509 -in k.pem -out c.der -outform DER
openssl pkey -in k.pem -out k.der -outform DER
$M paper record J --out plain.pdf
$M paper record J --out sealed.pdf --key k.p12 --passphrase-fd 3 3<secret
