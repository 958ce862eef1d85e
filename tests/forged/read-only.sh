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
#> job list
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: archive/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 archive/a.book
#> job show J
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: archive/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 archive/a.book
#> gate J rule
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: archive/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 archive/a.book
#> audit J
#> exit 1
#> note: read and checked now: 4 entries (this job and others at its address, the firm, what was new); 0 of other jobs were checked when they came in, "book check" reads all
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: archive/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 archive/a.book
#> book check
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: archive/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 archive/a.book
#> book head
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: archive/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 archive/a.book
#> due
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: archive/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 archive/a.book
#> person list
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: archive/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 archive/a.book
#> entry list J
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: archive/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 archive/a.book
#> limit list --job J
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: archive/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 archive/a.book
#> export J --format csv
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: archive/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 archive/a.book
#> export J --format csv --out /dev/null
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: archive/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 archive/a.book
#> exit 4
#> mistfold: archive/a.book: the book is read-only: nothing was written (its file, its folder or its disk cannot be written); give yourself the right to write to the file and its folder, or go on with a copy: "book copy"
#> exit 4
#> mistfold: archive/a.book: the book is read-only: nothing was written (its file, its folder or its disk cannot be written); give yourself the right to write to the file and its folder, or go on with a copy: "book copy"
#> exit 4
#> mistfold: archive/a.book: the book is read-only: nothing was written (its file, its folder or its disk cannot be written); give yourself the right to write to the file and its folder, or go on with a copy: "book copy"
#> job list
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: shelf/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 shelf/a.book
#> job show J
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: shelf/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 shelf/a.book
#> gate J rule
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: shelf/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 shelf/a.book
#> audit J
#> exit 1
#> note: read and checked now: 4 entries (this job and others at its address, the firm, what was new); 0 of other jobs were checked when they came in, "book check" reads all
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: shelf/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 shelf/a.book
#> book check
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: shelf/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 shelf/a.book
#> book head
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: shelf/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 shelf/a.book
#> due
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: shelf/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 shelf/a.book
#> person list
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: shelf/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 shelf/a.book
#> entry list J
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: shelf/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 shelf/a.book
#> limit list --job J
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: shelf/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 shelf/a.book
#> export J --format csv
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: shelf/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 shelf/a.book
#> export J --format csv --out /dev/null
#> exit 0
#> note: the book is read-only here: it was read, and nothing can be logged
#> note: shelf/a.book can be read by other users of this computer (mode 444); to keep it to yourself: chmod 600 shelf/a.book
#> exit 4
#> mistfold: shelf/a.book: the book is read-only: nothing was written (its file, its folder or its disk cannot be written); give yourself the right to write to the file and its folder, or go on with a copy: "book copy"
#> exit 4
#> mistfold: shelf/a.book: the book is read-only: nothing was written (its file, its folder or its disk cannot be written); give yourself the right to write to the file and its folder, or go on with a copy: "book copy"
#> exit 4
#> mistfold: shelf/a.book: the book is read-only: nothing was written (its file, its folder or its disk cannot be written); give yourself the right to write to the file and its folder, or go on with a copy: "book copy"
#> exit 3
#> mistfold: /dev/null: there is a file of this name already (it is never written over); choose another name
#> the archive is as it was
#> archive:
#> a.book
#>
#> shelf:
#> a.book
#> exit 0
