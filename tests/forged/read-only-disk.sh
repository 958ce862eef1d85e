# A disk that is mounted read-only, as even root cannot write there; also a book of an older
# schema, whose tables are made anew in memory.
disk_with_book 8m
gzip -dc "$TESTS/books/schema-1.book.gz" >disk/old.book
mount -o remount,ro disk || skip "no right to mount read-only"
for book in firm old; do
    try $M --book disk/$book.book job list
    cut -d" " -f1 said.out
    try $M --book disk/$book.book book check
    try $M --book disk/$book.book person add --id z --name Z
    sqlite3 "file:disk/$book.book?immutable=1" 'SELECT count(*) FROM entry'
done
try $M --book disk/firm.book book copy --no-key new.book --device u
try $M --book new.book person add --id z --name Z
ls disk
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> J
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> exit 4
#> mistfold: disk/firm.book: the book is read-only: nothing was written (its file, its folder or its disk cannot be written); give yourself the right to write to the file and its folder, or go on with a copy: "book copy"
#> 4
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> J-1926
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> exit 4
#> mistfold: disk/old.book: the book is read-only: nothing was written (its file, its folder or its disk cannot be written); give yourself the right to write to the file and its folder, or go on with a copy: "book copy"
#> 395
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> exit 0
#> firm.book
#> old.book
