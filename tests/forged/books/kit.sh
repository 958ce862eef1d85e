# What the forgeries share; the test reads it in before each. The folder holds the book of the
# sample job, its sealed record and the key that sealed it.
M() { "$MISTFOLD" --book demo.book --by rosa "$@"; }
T() { "$MISTFOLD" --book truck.book --by teo "$@"; }
# From here on the chain of the book is signed: office/419 names the key.
sign() { quietly M book key; }
# Signs the end of a chain by a key, as whoever has it can without the program.
sign_by_hand() { # BOOK DEVICE KEY-FILE
    set -- "$@" "$(sqlite3 "$1" "SELECT seq FROM entry WHERE device='$2' ORDER BY seq DESC LIMIT 1")"
    set -- "$@" "$(sqlite3 "$1" "SELECT hash FROM entry WHERE device='$2' AND seq=$4")"
    printf 'mistfold chain\n%s\n%s\n%s\n' "$2" "$4" "$5" >text
    openssl pkeyutl -sign -rawin -inkey "$3" -in text -out signature
    set -- "$@" "$(openssl pkey -in "$3" -pubout -outform DER | tail -c 32 | od -An -v -tx1 | tr -d ' \n')"
    set -- "$@" "$(od -An -v -tx1 signature | tr -d ' \n')"
    sqlite3 "$1" "INSERT OR REPLACE INTO meta VALUES ('signed $2 $6', '$4 $5 $7')"
}
elsewhere() { "$MISTFOLD" --book none.book --by eve "$@"; }
phone() { python3 "$FORGED/entries.py" "$@"; }
rewrite() { python3 "$FORGED/rewrite.py" "$@"; }
# The book of the sample job is rewritten, its tables made anew.
rewrite_ours() {
    rewrite demo.book "$@"
    quietly M book rebuild
}
# One reading of it says that there is next to no lead.
reading_changed() { rewrite_ours set office/279 loading_ug_cm2 100 "$@"; } # [--heads]
quietly() { "$@" >said 2>&1 || { cat said; exit 99; }; }

# A key in anybody's name, and the passphrase for it.
forge_key() { # FILE NAME CAPACITY
    echo none >pass
    quietly elsewhere key new "$1" --name "$2" --capacity "$3" --passphrase-fd 3 3<pass
}
seal_elsewhere() { # PAPER KEY [OPTION ...]
    paper=$1 key=$2
    shift 2
    quietly elsewhere paper seal "$paper" --key "$key" "$@" --passphrase-fd 3 3<pass
}
# M with the passphrase of the true key.
ours() { # COMMAND ... --key rosa.p12
    M "$@" --passphrase-fd 3 3<"$SAMPLE/passphrase.txt"
}
# The book's own data under words of somebody else.
paint() { # OUT
    quietly M paper record J-1926 --out plain.pdf
    python3 "$FORGED/paint.py" over.pdf "Every opening is free of lead."
    quietly qpdf plain.pdf --overlay over.pdf --to=1 -- --object-streams=disable "$1"
}
# ... sealed by a key in the renovator's name.
painted_paper() {
    paint painted.pdf
    forge_key eve.p12 "Rosa Muestra" "certified renovator"
    seal_elsewhere painted.pdf eve.p12
}
# A seal in the firm's place by a key in the firm's name.
seal_as_firm() { # PAPER
    forge_key eve.p12 "Muster Sash & Door (invented)" ""
    seal_elsewhere "$1" eve.p12 --as firm
}
# A record of a book that has logged no seal, sealed elsewhere by the renovator's other key,
# which the book is told to know.
away_paper() {
    rewrite_ours drop 2
    quietly M paper record J-1926 --out away.pdf
    forge_key second.p12 "Rosa Muestra" "certified renovator"
    seal_elsewhere away.pdf second.p12
    print=$(elsewhere key show second.p12 --passphrase-fd 3 3<pass | sed -n 's/^fingerprint *//p')
    quietly M key trust --fingerprint "$print" --person rosa --as renovator
}
# A bundle's list of hashes, made anew.
manifest() { # FOLDER
    (cd "$1" && find . -type f ! -name MANIFEST.sha256 | sed 's|^./||' | sort |
        xargs sha256sum >../listed && mv ../listed MANIFEST.sha256)
}
# The book of the sample job and a truck with a key, which meet at the folder share and know
# each other.
meet() { # demo|truck [OPTION ...]
    book=$1
    shift
    "$MISTFOLD" --book "$book.book" --by rosa sync folder:share "$@"
}
meet_first() {
    mkdir share
    sign
    quietly M book copy truck.book --device truck
    quietly meet demo
    quietly meet truck
    quietly meet demo --accept truck
    quietly meet truck
}
office_logs() { quietly M person add --id "$1" --name "$1 Example"; }
truck_logs() { quietly T person add --id "$1" --name "$1 Example"; }
# A book, demo or the one that is named, is put back from a backup.
put_back() {
    cp backup "${1:-demo}.book"
    rm -f "${1:-demo}.book"-*
}
# ... of the office, after the truck took over and built on what is lost by that.
behind_truck() {
    meet_first
    cp demo.book backup
    office_logs olga
    quietly meet demo
    quietly meet truck
    truck_logs anna
    quietly meet truck
    put_back
}
# Somebody goes on with the chain of the office in the folder, without its key.
unsigned_own() {
    meet_first
    cp demo.book eve.book
    cp demo.book.office.key eve.book.office.key
    quietly "$MISTFOLD" --book eve.book --by rosa person add --id eve --name "Eve Example"
    rewrite eve.book set office/421 name '"Eva Example"'
    segment eve.book office 421 share office --unsigned
}
# A truck without a key, whose head the office noted, makes its chain anew.
truck_made_anew() {
    quietly T book new --no-key --device truck
    quietly T person add --id olga --name 'Olga Muestra'
    quietly M book witness $(T book head | tail -1) --from truck
    rewrite truck.book set truck/1 name '"Olha Muestra"'
}
# A copy of the truck's book with its key, which C goes on with beside the truck, and the folder
# as it is then.
copied_truck() {
    cp -r share other
    cp truck.book copy.book
    cp truck.book.truck.key copy.book.truck.key
}
C() { "$MISTFOLD" --book copy.book --by teo "$@"; }
segment() { python3 "$FORGED/segment.py" "$@"; }
# Files of a folder, made anew as anybody can who may write there: the name fits the bytes.
put_segment() { # FILE WRITER CHAIN.FROM-TO
    mkdir -p "share/$2"
    mv "$1" "share/$2/$3.$(sha256sum <"$1" | cut -c1-64).entries"
}
