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
ls
