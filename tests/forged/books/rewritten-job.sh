# An entry is moved under another job: it is in force in this one no more.
#= 1
#> ALTERED      office/279, reading: job was "J-1926" and is "J-1927"
rewrite_ours column office/279 job J-1927 --heads
M paper check job-record.pdf --compare
