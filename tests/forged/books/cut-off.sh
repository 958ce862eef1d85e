# The last entries are thrown away, those of the seals among them.
#= 1
#> MISSING      office/416
#> entry office/4@ of the record is MISSING
rewrite_ours drop 4
quietly M book check
M paper check job-record.pdf --compare
