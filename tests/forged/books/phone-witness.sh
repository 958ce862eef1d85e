# A phone's file brings a head that somebody is said to have noted.
#= 3
#> a.entries, entry phone/1: it is the firm's, not the job's
phone a.entries J-1926/- phone rosa witness '{"from_whom":"truck","head":"0000000000000000000000000000000000000000000000000000000000000007"}'
M entry import a.entries
