# A file in the name of somebody who is not a person of the book.
#= 3
#> a.entries, entry phone/1: it was made by eve, who is not a person of the book
phone a.entries J-1926 phone eve handover '{"day":"2026-09-22","how":"by hand","party":"owner","what":"record"}'
M entry import a.entries
