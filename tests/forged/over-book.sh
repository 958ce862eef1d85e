# No output of the program takes the place of a book, whatever is asked for: by its content,
# not by its name.
cp firm.book notes.txt
keeps firm.book $M export J --format csv --out firm.book
keeps firm.book $M export J --format xlsx --out firm.book
keeps firm.book $M --force export J --format jsonl --out firm.book
keeps notes.txt $M export J --format ics --out notes.txt --force
keeps firm.book $M paper record J --out firm.book
keeps firm.book $M paper record J --out firm.book --key k.p12 --passphrase-fd 3 3<secret
keeps firm.book $M paper blank sign --out ./firm.book --force
keeps firm.book $M paper summary J --out firm.book
keeps firm.book $M paper blank containment --out firm.book
keeps firm.book $M paper check sealed.pdf --under 1 --out firm.book
keeps firm.book $M paper seal plain.pdf --key k.p12 --out firm.book --passphrase-fd 3 3<secret
keeps firm.book $M job bundle J --out firm.book
keeps firm.book $M job bundle J --zip --out firm.book --force
keeps notes.txt $M book backup notes.txt
keeps notes.txt $M book copy --no-key notes.txt --device u
keeps notes.txt $M --book notes.txt book new --no-key
keeps firm.book $M key new firm.book --name N --passphrase-fd 3 3<secret
$M attach add J plain.pdf >said.out
keeps firm.book $M attach export J t/5 --out firm.book --force
#> exit 3
#> mistfold: firm.book: a book stands there (a book is never written over); choose another name, or move that file away
#> firm.book is as it was
#> exit 3
#> mistfold: firm.book: a book stands there (a book is never written over); choose another name, or move that file away
#> firm.book is as it was
#> exit 3
#> mistfold: firm.book: a book stands there (a book is never written over); choose another name, or move that file away
#> firm.book is as it was
#> exit 3
#> mistfold: notes.txt: a book stands there (a book is never written over); choose another name, or move that file away
#> notes.txt is as it was
#> exit 3
#> mistfold: firm.book: a book stands there (a book is never written over); choose another name, or move that file away
#> firm.book is as it was
#> exit 3
#> mistfold: firm.book: a book stands there (a book is never written over); choose another name, or move that file away
#> firm.book is as it was
#> exit 3
#> mistfold: ./firm.book: a book stands there (a book is never written over); choose another name, or move that file away
#> firm.book is as it was
#> exit 3
#> mistfold: firm.book: a book stands there (a book is never written over); choose another name, or move that file away
#> firm.book is as it was
#> exit 3
#> mistfold: firm.book: a book stands there (a book is never written over); choose another name, or move that file away
#> firm.book is as it was
#> exit 3
#> mistfold: firm.book: a book stands there (a book is never written over); choose another name, or move that file away
#> firm.book is as it was
#> exit 3
#> mistfold: firm.book: a book stands there (a book is never written over); choose another name, or move that file away
#> firm.book is as it was
#> exit 3
#> mistfold: firm.book: there is a file or folder of this name already (a bundle is never written over); choose another name
#> firm.book is as it was
#> exit 3
#> mistfold: firm.book: there is a file of this name already (it is never written over); choose another name
#> firm.book is as it was
#> exit 3
#> mistfold: notes.txt: there is a file of this name already (it is never written over); choose another name
#> notes.txt is as it was
#> exit 3
#> mistfold: notes.txt: there is a file of this name already (it is never written over); choose another name
#> notes.txt is as it was
#> exit 3
#> mistfold: notes.txt: there is a file of this name already (a book is never written over); choose another name
#> notes.txt is as it was
#> exit 3
#> mistfold: firm.book: there is a file of this name already (it is never written over); choose another name
#> firm.book is as it was
#> exit 3
#> mistfold: firm.book: a book stands there (a book is never written over); choose another name, or move that file away
#> firm.book is as it was
