# No forgery: a seal that was logged on another device names a head of that book; when both
# have grown and are merged, its head is still found by the entries it names.
#= 0
#> seals     3 logged
#> faults    0
quietly M book copy --no-key truck.book --device truck
T() { "$MISTFOLD" --book truck.book --by rosa "$@"; }
quietly T handover add J-1926 --party owner --what summary --how mail --on 2026-09-22
quietly M handover add J-1926 --party owner --what summary --how mail --on 2026-09-23
quietly T paper record J-1926 --out truck.pdf --key rosa.p12 --passphrase-fd 3 3<"$SAMPLE/passphrase.txt"
quietly M book merge truck.book
quietly M paper check truck.pdf --compare
M book check --against truck.pdf job-record.pdf
