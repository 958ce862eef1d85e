# A file is replaced by one of its kind; another kind wants --force.
echo mine >notes.txt
printf '\211PNG\r\n\032\n....' >photo.png
try $M export J --format csv --out notes.txt
try $M export J --format xlsx --out book.xlsx
try $M export J --format xlsx --out book.xlsx
try $M paper record J --out plain.pdf
keeps notes.txt $M paper record J --out notes.txt
keeps plain.pdf $M export J --format csv --out plain.pdf
keeps book.xlsx $M export J --format ics --out book.xlsx
keeps photo.png $M export J --format jsonl --out photo.png
try $M job bundle J --zip --out b.zip
keeps b.zip $M export J --format xlsx --out b.zip
try $M export J --format jsonl --out photo.png --force
try $M --force paper record J --out notes.txt
: >empty
try $M export J --format xlsx --out empty
ls -A | grep -v '^answer\|^said'
#> exit 0
#> exit 0
#> exit 0
#> exit 0
#> exit 3
#> mistfold: notes.txt: a file of another kind stands there (it is a text, and a PDF would take its place); choose another name, or say --force
#> notes.txt is as it was
#> exit 3
#> mistfold: plain.pdf: a file of another kind stands there (it is a PDF, and a text would take its place); choose another name, or say --force
#> plain.pdf is as it was
#> exit 3
#> mistfold: book.xlsx: a file of another kind stands there (it is a workbook, and a text would take its place); choose another name, or say --force
#> book.xlsx is as it was
#> exit 3
#> mistfold: photo.png: a file of another kind stands there (it is a picture, and a text would take its place); choose another name, or say --force
#> photo.png is as it was
#> exit 0
#> exit 3
#> mistfold: b.zip: a file of another kind stands there (it is of no kind known here, and a workbook would take its place); choose another name, or say --force
#> b.zip is as it was
#> exit 0
#> exit 0
#> exit 0
#> b.zip
#> book.xlsx
#> c.der
#> empty
#> firm.book
#> k.der
#> k.p12
#> k.pem
#> notes.txt
#> photo.png
#> plain.pdf
#> sealed.pdf
#> secret
