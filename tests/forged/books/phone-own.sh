# Entries under the name of the book's own device, by a file.
#= 3
#> entry office/419 is under the name of this very device and is not here
phone a.entries J-1926 "office/418/$(M book head | sed -n 's/^office 418 //p')" rosa handover '{"day":"2026-09-22","how":"by hand","party":"owner","what":"record"}'
M entry import a.entries
