# A phone says that a paper was sealed, which would make the key of it known.
#= 3
#> a.entries, entry phone/1: it says that a paper was sealed
phone a.entries J-1926 phone rosa sealed '{"day":"2026-09-22","fingerprint":"00","head":"00","paper":"record","person":"rosa","sha256":"00"}'
M entry import a.entries
