# A device was accepted at the office by its head; under its name somebody hands out another
# chain, before the true one came to the truck.
#= 1
#> waits @office/@entry eve/1 has not arrived
#> not accepted @eve/1 to 1
meet_first
quietly M book copy eve.book --device eve
quietly "$MISTFOLD" --book eve.book --by rosa sync folder:share
quietly meet demo --accept eve
rm -r share/eve eve.book*
quietly T book copy eve.book --device eve
segment eve.book eve 1 share eve
meet truck
