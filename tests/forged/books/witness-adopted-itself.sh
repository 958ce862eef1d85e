# The truck that made its chain anew says itself that it was taken over: only who noted the head, or
# this very device, can say so.
#= 3
#> witness office/419 of truck, entry truck/1: its hash was noted as @ and is @: the chain was made anew
truck_made_anew
rewrite truck.book add adoption "{\"first\":\"truck/1\",\"head\":\"$(printf %064d 0)\",\"last\":\"truck/9\",\"reason\":\"it is right\"}" ''
quietly T book rebuild
M book merge truck.book
