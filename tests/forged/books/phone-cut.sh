# No forgery: a file that was cut off comes in up to its last whole line, and the rest later.
#= 0
#> 1 entries read, 1 new, 0 attachments new
#> note: b.entries was cut off
#> 2 entries read, 1 new, 1 attachments new
phone a.entries J-1926 phone rosa handover '{"day":"2026-09-22","how":"by hand","party":"owner","what":"record"}' attachment @summary.pdf
head -c 1500 a.entries >b.entries
M entry import b.entries
M entry import a.entries
