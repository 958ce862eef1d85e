# A link to a book, of either kind, is the book.
ln -s firm.book soft.csv
ln firm.book hard.csv
ln -s k.p12 soft.p12
ln -s nowhere soft
keeps firm.book $M export J --format csv --out soft.csv --force
keeps hard.csv $M export J --format csv --out hard.csv --force
keeps k.p12 $M export J --format csv --out soft.p12 --force
try $M export J --format csv --out soft --force
try $M book backup soft
#> exit 3
#> mistfold: soft.csv: a book stands there (a book is never written over); choose another name, or move that file away
#> firm.book is as it was
#> exit 3
#> mistfold: hard.csv: a book stands there (a book is never written over); choose another name, or move that file away
#> hard.csv is as it was
#> exit 3
#> mistfold: soft.p12: a key or a certificate stands there (a key that is written over is lost for good); choose another name, or move that file away
#> k.p12 is as it was
#> exit 3
#> mistfold: soft: cannot write it (it is a symbolic link); name the file itself
#> exit 3
#> mistfold: soft: there is a file of this name already (it is never written over); choose another name
