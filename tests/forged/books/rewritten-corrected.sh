# An entry is changed that was corrected before the record was sealed: what it said first is
# in the record, too.
#= 1
#> ALTERED      office/@, handover: how was "by hand, signed for" and is "hand"
id=$(M entry list J-1926 | awk '$4 == "handover" { print $1; exit }')
quietly M entry correct "$id" --set day=2026-09-23 --reason "posted a day later"
quietly ours paper record J-1926 --out new.pdf --key rosa.p12
rewrite_ours set "$id" how '"hand"' --heads
M paper check new.pdf --compare
