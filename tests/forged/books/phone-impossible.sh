# A handover on a day that is still to come, to somebody the job does not name.
#= 3
#> "2099-01-01" lies in the future
#> there is no party nobody in this job
phone a.entries J-1926 phone rosa handover '{"day":"2099-01-01","how":"by hand","party":"owner","what":"record"}'
M entry import a.entries || true
phone b.entries J-1926 other rosa handover '{"day":"2026-09-22","how":"by hand","party":"nobody","what":"record"}'
M entry import b.entries
