# A stolen copy, without the key of its device, logs a key of its own and accepts a device of its
# own: neither comes in at the office.
#= 1
#> waits @truck/2 to 3; entry evil/2 has not arrived
#> not accepted evil/1 to 2; this book knows no device evil
#> taken over   entries: 0
meet_first
cp truck.book stolen.book
S() { "$MISTFOLD" --book stolen.book --by teo "$@"; }
E() { "$MISTFOLD" --book evil.book --by teo "$@"; }
quietly S book copy evil.book --device evil
quietly S book key --reason "lost"
quietly E person add --id eve --name "Eve Example"
mkdir other
quietly E sync folder:other
quietly S sync folder:other --accept evil
cp -r other/. share
meet demo
