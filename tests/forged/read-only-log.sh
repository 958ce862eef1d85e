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
