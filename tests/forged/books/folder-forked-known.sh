# A third device took over the other history of the truck: what it logs on top of that does not
# come in here.
#= 3
#> forked @paul/@entry truck/2 says something else here: its hash is @, and there @
meet_first
copied_truck
quietly M book copy paul.book --device paul
cp paul.book paul-first.book
truck_logs olga
quietly meet truck
quietly meet demo
quietly C person add --id anna --name "Anna Example"
P() { "$MISTFOLD" --book paul.book --by rosa "$@"; }
quietly C sync folder:other
quietly P sync folder:other
quietly P opening add J-1926 --id W77 --kind window --room hall --elevation north
quietly P sync folder:other
mkdir share/paul
cp other/paul/paul.* share/paul
meet demo --accept paul
