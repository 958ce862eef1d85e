# Entries of another job in the file of this one.
#= 3
#> a.entries, entry phone/1: it is of the job J-9, and the file is of J-1926
phone a.entries J-1926/J-9 phone rosa handover '{"day":"2026-09-22","how":"by hand","party":"owner","what":"record"}'
M entry import a.entries
