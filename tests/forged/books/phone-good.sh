# No forgery: what a phone logged comes in once, and the file again adds nothing.
#= 0
#> 2 entries read, 2 new, 1 attachments new
#> 2 entries read, 0 new, 0 attachments new
#> phone 2 @
#> faults    0
phone a.entries J-1926 phone rosa handover '{"day":"2026-09-22","how":"by hand","party":"owner","what":"record"}' attachment @summary.pdf
M entry import a.entries
M entry import a.entries
M book check
