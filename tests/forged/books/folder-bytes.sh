# The bytes of an attachment are changed in the folder.
#= 3
#> damaged @its bytes are not those that its name says
#> the bytes of attachment
meet_first
quietly T attach add J-1926 summary.pdf
quietly meet truck
printf x >>"$(echo share/truck/*.bytes)"
meet demo
