# No forgery: a correction with its reason is told as one, and so is what was logged since.
#= 0
#> corrected    office/279, reading
#> added since  office/@, handover
#> is one that the book had
quietly M entry correct office/279 --set color=blue --reason "misread"
quietly M handover add J-1926 --party owner --what summary --how mail --on 2026-09-22
M paper check job-record.pdf --compare
