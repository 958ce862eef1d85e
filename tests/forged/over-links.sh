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
