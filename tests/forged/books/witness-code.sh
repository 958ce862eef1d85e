# What the code of a record says is enough, when somebody rewrites the book after it was read.
#= 1
#> witness office/419 of owner, head@is not that of the entries it names
quietly pdftoppm -r 200 -f 2 -l 2 -png job-record.pdf page
quietly M book witness "$(zbarimg -q --raw page-*.png)" --from owner
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
M book check
