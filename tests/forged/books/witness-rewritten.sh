# The truck noted the office's head, which it was told over the phone. The office's book is
# rewritten, with every hash and every head in it; then the truck's book comes home.
#= 3
#> witness truck/2 of office, entry office/418: its hash was noted as @ and is @: the chain was made anew
quietly T book new --no-key --device truck
quietly T person add --id teo --name 'Teo Muestra'
quietly T book witness "$(M book head | tail -1)" --from office
rewrite demo.book set office/279 loading_ug_cm2 100 --heads
quietly M book rebuild
quietly M book check
M book merge truck.book
