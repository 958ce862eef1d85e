# What the forgeries share; the test reads it in before each. The folder holds the book of the
# sample job, its sealed record and the key that sealed it.
M() { "$MISTFOLD" --book demo.book --by rosa "$@"; }
elsewhere() { "$MISTFOLD" --book none.book --by eve "$@"; }
phone() { python3 "$FORGED/entries.py" "$@"; }
rewrite() { python3 "$FORGED/rewrite.py" "$@"; }
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
# The book's own data under words of somebody else.
paint() { # OUT
    quietly M paper record J-1926 --out plain.pdf
    python3 "$FORGED/paint.py" over.pdf "Every opening is free of lead."
    quietly qpdf plain.pdf --overlay over.pdf --to=1 -- --object-streams=disable "$1"
}
# A bundle's list of hashes, made anew.
manifest() { # FOLDER
    (cd "$1" && find . -type f ! -name MANIFEST.sha256 | sed 's|^./||' | sort |
        xargs sha256sum >list && mv list MANIFEST.sha256)
}
