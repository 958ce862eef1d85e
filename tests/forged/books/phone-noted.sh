# The office noted the end of the phone's chain from its screen; the file that comes in has
# another.
#= 3
#> witness office/419 of phone, entry phone/1: its hash was noted as @ and is @: the chain was made anew
phone a.entries J-1926 phone rosa handover '{"day":"2026-09-21","how":"by hand","party":"owner","what":"record"}'
quietly M book witness phone 1 "$(sed -n 's/.*"hash":"\([0-9a-f]*\)","line".*/\1/p' a.entries)" --from phone
phone b.entries J-1926 phone rosa handover '{"day":"2026-09-22","how":"by hand","party":"owner","what":"record"}'
M entry import b.entries
