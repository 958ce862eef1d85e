# ... or the foot of any paper of the job.
#= 1
#> witness office/419 of owner, head@is not that of the entries it names
pdftotext -layout summary.pdf - | grep 'Head of the book' | head -1 >foot.txt
quietly M book witness foot.txt --from owner
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
M book check
