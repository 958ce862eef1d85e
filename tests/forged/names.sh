# Names, times and texts of a book that another program wrote, every hash of it right: what
# nobody can type is found by check, open and merge, and is never shown as it is.
forge() {
    echo "== $*"
    cp firm.book f.book
    rm -f r.pdf x.pdf
    python3 "$TESTS/forged/forge.py" f.book "$@"
    look
}
look() {
    $M --book f.book book check 2>&1 >said.out | sed 's/;.*//'
    $M book merge f.book 2>&1 >said.out | sed 's/ (the other.*//'
    for command in 'book head' 'entry list J' 'entry show o/1' 'person list' 'party list J' 'job list' \
        'job show J' 'audit J' 'due' 'export J --format csv --kind party' 'export J --format csv --kind house' \
        'export J --format jsonl' 'export J --format ics' '--json person list' '--json party list J' \
        '--json entry list J' '--json book head' '--complete job show ' 'paper record J --out r.pdf' \
        'paper data r.pdf' 'paper records papers'; do
        MISTFOLD_BOOK=f.book $M $command >said.out 2>&1
        python3 "$TESTS/forged/seen.py" <said.out | sed "s|^|$command: |"
    done
    [ -f r.pdf ] && pdftotext r.pdf - | tr -d '\f' | python3 "$TESTS/forged/seen.py"
    ls x.pdf 2>/dev/null
}
mkdir papers
forge 'device=e\x1b[2Jv'
forge 'device=o\u202ep'
forge 'device=seventeen-letters'
forge 'at=2026-09-14T08:00:00Z\x1b[31m'
forge 'at=yesterday'
forge 'who=ro\u202esa'
forge 'who=\udcff'
forge 'body={"id":"z","name":"Z\u202eb"}'
forge 'body={"id":"z","name":"Z\\u001b[2J"}'
forge 'body={"id":"z","name":"Z\udcffb"}'
forge 'job=J' 'kind=party' 'body={"id":"p","name":"P\\u001b[2J","role":"owner"}'
forge 'job=J' 'kind=party' 'body={"id":"p","name":"P\u2066x","role":"owner"}'
forge 'job=../x' 'kind=house' 'body={"address":"A","building":"dwelling","description":"d","id":"../x","owner_occupied":true,"start":"2026-09-14","work":"repair"}'
echo "== the name of the device that goes on"
cp firm.book f.book
sqlite3 f.book "UPDATE meta SET value = 'e' || char(27) || '[2J' WHERE key = 'device'"
look
try $M --book f.book person add --id q --name Q
#> == device=e\x1b[2Jv
#> mistfold: f.book: a device of it is named "e?[2Jv", which no device can be (the book was altered outside this program)
#> mistfold: f.book: entry e?[2Jv/1: its device has no name that a device can have
#> == device=o\u202ep
#> mistfold: f.book: a device of it is named "o?p", which no device can be (the book was altered outside this program)
#> mistfold: f.book: entry o?p/1: its device has no name that a device can have
#> == device=seventeen-letters
#> mistfold: f.book: a device of it is named "seventeen-letters", which no device can be (the book was altered outside this program)
#> mistfold: f.book: entry seventeen-letters/1: its device has no name that a device can have
#> == at=2026-09-14T08:00:00Z\x1b[31m
#> mistfold: f.book: entry o/1: its time is no UTC time, or nobody is named who wrote it (the book was altered outside this program)
#> mistfold: f.book: entry o/1: its time is no UTC time, or nobody is named who wrote it
#> == at=yesterday
#> mistfold: f.book: entry o/1: its time is no UTC time, or nobody is named who wrote it (the book was altered outside this program)
#> mistfold: f.book: entry o/1: its time is no UTC time, or nobody is named who wrote it
#> == who=ro\u202esa
#> mistfold: f.book: entry o/1: its time is no UTC time, or nobody is named who wrote it (the book was altered outside this program)
#> mistfold: f.book: entry o/1: its time is no UTC time, or nobody is named who wrote it
#> == who=\udcff
#> mistfold: f.book: entry o/1: its time is no UTC time, or nobody is named who wrote it (the book was altered outside this program)
#> mistfold: f.book: entry o/1: its time is no UTC time, or nobody is named who wrote it
#> == body={"id":"z","name":"Z\u202eb"}
#> mistfold: f.book: entry o/1: there is a sign in its text that nobody can type (the book was altered outside this program)
#> mistfold: f.book: entry o/1: there is a sign in its text that nobody can type
#> == body={"id":"z","name":"Z\u001b[2J"}
#> mistfold: f.book: entry o/1: there is a sign in its text that nobody can type (the book was altered outside this program)
#> mistfold: f.book: entry o/1: there is a sign in its text that nobody can type
#> == body={"id":"z","name":"Z\udcffb"}
#> mistfold: f.book: entry o/1: its body is not a canonical JSON object (the book was altered outside this program)
#> mistfold: f.book: entry o/1: its body is not a canonical JSON object
#> == job=J kind=party body={"id":"p","name":"P\u001b[2J","role":"owner"}
#> mistfold: f.book: entry o/1: there is a sign in its text that nobody can type (the book was altered outside this program)
#> mistfold: f.book: entry o/1: there is a sign in its text that nobody can type
#> == job=J kind=party body={"id":"p","name":"P\u2066x","role":"owner"}
#> mistfold: f.book: entry o/1: there is a sign in its text that nobody can type (the book was altered outside this program)
#> mistfold: f.book: entry o/1: there is a sign in its text that nobody can type
#> == job=../x kind=house body={"address":"A","building":"dwelling","description":"d","id":"../x","owner_occupied":true,"start":"2026-09-14","work":"repair"}
#> mistfold: f.book: entry o/1: its job has no id that a job can have (the book was altered outside this program)
#> mistfold: f.book: entry o/1: its job has no id that a job can have
#> == the name of the device that goes on
#> mistfold: f.book: a device of it is named "e?[2J", which no device can be (the book was altered outside this program)
#> exit 4
#> mistfold: f.book: a device of it is named "e?[2J", which no device can be (the book was altered outside this program); keep this file as it is and go on with the last good copy
