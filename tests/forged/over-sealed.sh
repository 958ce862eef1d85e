# A sealed paper is evidence, with --force too, and so is one whose seal is broken. A further
# seal keeps all of it in front.
cp sealed.pdf broken.pdf
printf X | dd of=broken.pdf bs=1 seek=5000 conv=notrunc 2>/dev/null
keeps sealed.pdf $M paper record J --out sealed.pdf --force
keeps broken.pdf $M paper blank sign --out broken.pdf --force
keeps sealed.pdf $M export J --format csv --out sealed.pdf --force
try $M paper seal sealed.pdf --as firm --key k.p12 --passphrase-fd 3 3<secret
#> exit 3
#> mistfold: sealed.pdf: a sealed paper stands there (what was sealed is evidence and is never written over); choose another name, or move that paper away
#> sealed.pdf is as it was
#> exit 3
#> mistfold: broken.pdf: a sealed paper stands there (what was sealed is evidence and is never written over); choose another name, or move that paper away
#> broken.pdf is as it was
#> exit 3
#> mistfold: sealed.pdf: a sealed paper stands there (what was sealed is evidence and is never written over); choose another name, or move that paper away
#> sealed.pdf is as it was
#> exit 0
