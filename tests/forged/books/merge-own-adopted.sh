# No forgery: whoever takes them over says why, and that is an entry.
#= 0
#> 1 of them under the name of this device; why is logged as office/420
#> "first":"office/419","head":"@","last":"office/419","reason":"went on with the copy by mistake"}|rosa
cp demo.book copy.book
quietly "$MISTFOLD" --book copy.book --by rosa handover add J-1926 --party owner --what summary --how mail --on 2026-09-22
M book merge copy.book --adopt "went on with the copy by mistake"
sqlite3 demo.book "SELECT body, who FROM entry WHERE kind = 'adoption'"
quietly M book check
