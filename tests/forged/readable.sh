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
$M --book keyed.book book new --device office >said 2>&1
chmod 604 keyed.book.office.key
try $M --book keyed.book job list
# A short passphrase when a key is made: letters, not bytes.
for word in a 1234567 contraseña12 éééééééé ééééééé; do
    echo "$word" >word
    try $M key new "$word.p12" --name N --passphrase-fd 3 3<word
done
#> exit 0
#> exit 0
#> note: k.p12 can be read by other users of this computer (mode 644); to keep it to yourself: chmod 600 k.p12
#> exit 0
#> {"note":"k.p12 can be read by other users of this computer (mode 644); to keep it to yourself: chmod 600 k.p12"}
#> exit 0
#> exit 0
#> note: firm.book can be read by other users of this computer (mode 640); to keep it to yourself: chmod 600 firm.book
#> exit 0
#> {"note":"firm.book can be read by other users of this computer (mode 640); to keep it to yourself: chmod 600 firm.book"}
#> exit 3
#> mistfold: JOB: there is no job NONE; "job list" shows them all, "job walk" opens one
#> exit 0
#> note: keyed.book.office.key can be read by other users of this computer (mode 604); to keep it to yourself: chmod 600 keyed.book.office.key
#> exit 0
#> note: the passphrase has fewer than 8 letters: whoever gets the file can guess it and sign in this name; better make another key with a longer one
#> exit 0
#> note: the passphrase has fewer than 8 letters: whoever gets the file can guess it and sign in this name; better make another key with a longer one
#> exit 0
#> exit 0
#> exit 0
#> note: the passphrase has fewer than 8 letters: whoever gets the file can guess it and sign in this name; better make another key with a longer one
