# Every command that reads works on a book that cannot be written, and says so once; what
# would write is refused in one line; nothing is made beside it.
umask 000
mkdir -m 755 archive shelf && chmod 755 . && chmod 644 secret
$M book backup archive/a.book >said.out
$M book backup shelf/a.book >said.out
$M --book archive/a.book export J --format jsonl --out before.jsonl >said.out
rm -f archive/*-wal archive/*-shm
chmod 444 archive/a.book && chmod 555 archive # the file and the folder
chmod 777 shelf && chmod 444 shelf/a.book     # the file alone
sum=$(sha256sum <archive/a.book)
for book in archive/a.book shelf/a.book; do
    for command in 'job list' 'job show J' 'gate J rule' 'audit J' 'book check' 'book head' \
        'due' 'person list' 'entry list J' 'limit list --job J' 'export J --format csv' \
        'export J --format csv --out /dev/null'; do
        echo "$command"
        try as_nobody $M --book $book $command
    done
    try as_nobody $M --book $book --by rosa person add --id z --name Z
    try as_nobody $M --book $book --by rosa job complete J --on 2026-09-17
    try as_nobody $M --book $book book rebuild
done
as_nobody $M --book archive/a.book export J --format jsonl 2>said.err | cmp - before.jsonl
try as_nobody $M --book archive/a.book book backup /dev/null
[ "$sum" = "$(sha256sum <archive/a.book)" ] && echo "the archive is as it was"
ls archive shelf
try $M book merge archive/a.book
