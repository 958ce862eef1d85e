# What SQLite keeps beside a book is a part of it: by its content under any name, and by its
# name even when nothing stands there yet, as SQLite would read it into the book.
for end in wal shm journal; do
    try $M export J --format csv --out firm.book-$end --force
done
try $M paper blank sign --out firm.book-wal
try $M book backup firm.book-wal
try $M book copy --no-key firm.book-journal --device u
try $M --book firm.book-wal book new --no-key
try $M job bundle J --out firm.book-wal
try $M job bundle J --out firm.book-wal --zip
try $M key new firm.book-wal --name N --passphrase-fd 3 3<secret
ls -d firm.book*
# The log of a program that was ended holds entries that are nowhere else.
sqlite3 firm.book 'PRAGMA journal_mode=WAL; BEGIN; CREATE TABLE x (y); COMMIT' \
    '.shell cp firm.book-wal left; cp firm.book-shm index' >said.out
keeps left $M export J --format csv --out left --force
keeps index $M export J --format csv --out index --force
# A log that its book was taken from under: a new book in that place would read it.
mv left stray.book-wal
try $M book backup stray.book
try $M --book stray.book book new --no-key
#> exit 3
#> mistfold: firm.book-wal: this name belongs to the book beside it (the book would be read together with what stands there); choose another name
#> exit 3
#> mistfold: firm.book-shm: a part of a book stands there (entries may be in it that are nowhere else); choose another name, or move that file away
#> exit 3
#> mistfold: firm.book-journal: this name belongs to the book beside it (the book would be read together with what stands there); choose another name
#> exit 3
#> mistfold: firm.book-wal: this name belongs to the book beside it (the book would be read together with what stands there); choose another name
#> exit 3
#> mistfold: firm.book-wal: there is a file of this name already (it is never written over); choose another name
#> exit 3
#> mistfold: firm.book-journal: this name belongs to the book beside it (the book would be read together with what stands there); choose another name
#> exit 3
#> mistfold: firm.book-wal: this name belongs to the book beside it (the book would be read together with what stands there); choose another name
#> exit 3
#> mistfold: firm.book-wal: this name belongs to the book beside it (the book would be read together with what stands there); choose another name
#> exit 3
#> mistfold: firm.book-wal: there is a file of this name already (it is never written over); choose another name
#> exit 3
#> mistfold: firm.book-wal: this name belongs to the book beside it (the book would be read together with what stands there); choose another name
#> firm.book
#> exit 3
#> mistfold: left: a part of a book stands there (entries may be in it that are nowhere else); choose another name, or move that file away
#> left is as it was
#> exit 3
#> mistfold: index: a part of a book stands there (entries may be in it that are nowhere else); choose another name, or move that file away
#> index is as it was
#> exit 3
#> mistfold: stray.book: the log of an earlier book, stray.book-wal, lies there (it would be read together with a book made here); choose another name, or move it to the book that it belongs to
#> exit 3
#> mistfold: stray.book: the log of an earlier book, stray.book-wal, lies there (it would be read together with a book made here); choose another name, or move it to the book that it belongs to
