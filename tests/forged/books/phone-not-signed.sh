# No forgery: a phone has no key, and its chain is called so beside one that is signed.
#= 0
#> phone, NOT SIGNED
#> faults    0
sign
phone a.entries J-1926 phone rosa handover '{"day":"2026-09-22","how":"by hand","party":"owner","what":"record"}'
quietly M entry import a.entries
M book check
