# A key and a book that others can read are told, after the answer, in JSON too.
try $M key show k.p12 --passphrase-fd 3 3<secret
chmod 644 k.p12
try $M key show k.p12 --passphrase-fd 3 3<secret
try $M --json key show k.p12 --passphrase-fd 3 3<secret
try $M job list
chmod 640 firm.book
try $M job list
try $M --json job list
try $M job show NONE
# A short passphrase when a key is made: letters, not bytes.
for word in a 1234567 contraseña12 éééééééé ééééééé; do
    echo "$word" >word
    try $M key new "$word.p12" --name N --passphrase-fd 3 3<word
done
