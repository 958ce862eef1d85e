# Not a byte is free: it is said that the disk is full, and nothing of its cable.
disk_with_book 1200k
$M --book disk/firm.book person list >said.out
cat /dev/zero >disk/fill 2>/dev/null
df --output=avail disk
try $M --book disk/firm.book job list
try $M --book disk/firm.book person add --id z --name Z
try $M --book disk/firm.book book check
try $M --book disk/firm.book book backup disk/b.book
try $M book backup disk/b.book
try $M book copy --no-key disk/b.book --device u
try $M --book disk/b.book book new --no-key
try $M export J --format csv --out disk/a.csv
try $M paper record J --out disk/a.pdf
try $M job bundle J --out disk/bundle
try $M job bundle J --out disk/bundle.zip --zip
try $M key new disk/k2.p12 --name N --passphrase-fd 3 3<secret
TMPDIR=disk
export TMPDIR
try $M export J --format xlsx --out a.xlsx | sed "s/mistfold-......:/mistfold-XXXXXX:/"
ls -A disk
#> Avail
#>     0
#> exit 4
#> mistfold: disk/firm.book: the disk is full: nothing was written; free some space, then do it again
#> exit 4
#> mistfold: disk/firm.book: the disk is full: nothing was written; free some space, then do it again
#> exit 4
#> mistfold: disk/firm.book: the disk is full: nothing was written; free some space, then do it again
#> exit 4
#> mistfold: disk/firm.book: the disk is full: nothing was written; free some space, then do it again
#> exit 4
#> mistfold: disk/b.book: the disk is full: nothing was written; free some space, then do it again
#> exit 4
#> mistfold: disk/b.book: the disk is full: nothing was written; free some space, then do it again
#> exit 4
#> mistfold: disk/b.book: the disk is full: nothing was written; free some space, then do it again
#> exit 4
#> mistfold: disk/a.csv: cannot write it (the disk is full); free some space and try again
#> exit 4
#> mistfold: disk/a.pdf: cannot write it (the disk is full); free some space and try again
#> exit 4
#> mistfold: disk/bundle/README.txt: cannot write it (the disk is full); free some space and try again
#> exit 4
#> mistfold: disk/bundle.zip: cannot write it (the disk is full); free some space and try again
#> exit 4
#> mistfold: disk/k2.p12: cannot write it (the disk is full); free some space and try again
#> exit 4
#> mistfold: disk/mistfold-XXXXXX: cannot write it (the disk is full); free some space and try again
#> fill
#> firm.book
#> firm.book-shm
#> firm.book-wal
