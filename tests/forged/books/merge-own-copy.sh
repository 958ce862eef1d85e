# A copy of the book is gone on with beside it and merged.
#= 3
#> entry office/419 is under the name of this very device and is not here
cp demo.book copy.book
quietly "$MISTFOLD" --book copy.book --by rosa handover add J-1926 --party owner --what summary --how mail --on 2026-09-22
M book merge copy.book
