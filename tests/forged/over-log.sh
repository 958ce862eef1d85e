# What SQLite keeps beside a book is a part of it: by its content under any name, and by its
# name even when nothing stands there yet, as SQLite would read it into the book.
for end in wal shm journal; do
    try $M export J --format csv --out firm.book-$end --force
done
try $M paper blank sign --out firm.book-wal
try $M book backup firm.book-wal
try $M book copy firm.book-journal --device u
try $M --book firm.book-wal book new
try $M job bundle J --out firm.book-wal
try $M job bundle J --out firm.book-wal --zip
try $M key new firm.book-wal --name N --passphrase-fd 3 3<secret
ls firm.book*
# The log of a program that was ended holds entries that are nowhere else.
sqlite3 firm.book 'PRAGMA journal_mode=WAL; BEGIN; CREATE TABLE x (y); COMMIT' \
    '.shell cp firm.book-wal left; cp firm.book-shm index' >said.out
keeps left $M export J --format csv --out left --force
keeps index $M export J --format csv --out index --force
