# Not the words of an entry are changed, but who logged it.
#= 1
#> ALTERED      office/279, reading: by was "rosa" and is "ines"
rewrite_ours column office/279 who ines --heads
M paper check job-record.pdf --compare
