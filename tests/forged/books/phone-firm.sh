# A phone logs a person of the firm, who could then have logged anything.
#= 3
#> a.entries, entry phone/1: it is the firm's, not the job's
phone a.entries J-1926/- phone eve person '{"id":"eve","name":"Eve Invented"}'
M entry import a.entries
