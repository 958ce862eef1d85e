# A book to merge names a head for a seal that its entries do not give: taken over, our own
# check would fail from then on.
#= 3
#> the head 00@ of its paper is not that of the entries it names
#> faults    0
quietly M book copy --no-key truck.book --device truck
rewrite truck.book add-as truck sealed '{"chains":"office/416","day":"2026-09-22","fingerprint":"00","head":"0000","paper":"record","person":"rosa","sha256":"00"}' J-1926
status=0
M book merge truck.book || status=$?
M book check
exit $status
