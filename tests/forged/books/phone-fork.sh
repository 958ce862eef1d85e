# A phone that was set up anew under its old name: two histories of one device.
#= 3
#> entry phone/1 says something else in the two books: here it goes on to phone/1 (@), there to phone/2 (@)
phone a.entries J-1926 phone rosa handover '{"day":"2026-09-22","how":"by hand","party":"owner","what":"record"}'
quietly M entry import a.entries
phone b.entries J-1926 phone rosa attachment @summary.pdf handover '{"day":"2026-09-22","how":"by hand","party":"owner","what":"record"}'
M entry import b.entries
