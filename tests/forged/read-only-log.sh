# A book that was copied to read-only media with its log: what is in the log counts. One with
# a change that was cut off cannot be read without writing, and says so.
umask 000
chmod 755 .
mkdir a b c d
sqlite3 firm.book 'SELECT 1 FROM entry LIMIT 1' \
    ".shell $M person add --id late --name Late; cp firm.book firm.book-wal a; cp firm.book* b" >said.out
cp firm.book c
sqlite3 c/firm.book 'PRAGMA journal_mode=DELETE; PRAGMA cache_size=1; PRAGMA cache_spill=1; BEGIN;
    CREATE TABLE x (y); INSERT INTO x SELECT randomblob(5000) FROM entry, entry AS e' \
    '.shell cp c/firm.book* d' >said.out
$M person add --id later --name Later >said.out # the one at hand is gone on with
ls a b d
for folder in a b d; do
    chmod 444 $folder/* && chmod 555 $folder
    try as_nobody $M --book $folder/firm.book person list
    cat said.out
    try as_nobody $M --book $folder/firm.book book check
done
ls a b d
#> a:
#> firm.book
#> firm.book-wal
#>
#> b:
#> firm.book
#> firm.book-shm
#> firm.book-wal
#>
#> d:
#> firm.book
#> firm.book-journal
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: a/firm.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 a/firm.book
#> id    name          entry
#> rosa  Rosa Muestra  t/1
#> late  Late          t/5
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: a/firm.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 a/firm.book
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: b/firm.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 b/firm.book
#> id    name          entry
#> rosa  Rosa Muestra  t/1
#> late  Late          t/5
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: b/firm.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 b/firm.book
#> exit 4
#> mistfold: d/firm.book: the book cannot be read here (a change of it was cut off, and is taken back only where it can be written); copy it, with its -journal, to a folder where you may write
#> exit 4
#> mistfold: d/firm.book: the book cannot be read here (a change of it was cut off, and is taken back only where it can be written); copy it, with its -journal, to a folder where you may write
#> a:
#> firm.book
#> firm.book-wal
#>
#> b:
#> firm.book
#> firm.book-shm
#> firm.book-wal
#>
#> d:
#> firm.book
#> firm.book-journal
