# A firm of three: the office, a truck, and Paul's laptop, which meet at the folder share.
# Everybody in it is invented. The test reads this in before each script.
export MISTFOLD_QUIET=1
M() { book=$1; shift; "$MISTFOLD" --book "$book.book" --by rosa "$@"; }
quietly() { "$@" >said 2>&1 || { cat said; exit 99; }; }
# Where they meet; pg_kit.sh has another place.
place() { echo "folder:${2:-share}"; } # BOOK [FOLDER]
meet() { M "$1" sync "$(place "$@")"; }
firm() {
    [ -n "${PG:-}" ] || mkdir share
    quietly M office book new --device office
    quietly M office firm add --name "Example Windows" --address "1 Sample St"
    quietly M office person add --id rosa --name "Rosa Example"
    quietly M office job open --id J-7 --address "12 Sample Lane" --building dwelling \
        --owner-occupied no --work window-replacement --description "12 windows" --start 2026-09-14
    quietly M office book copy truck.book --device truck
    quietly M office book copy paul.book --device paul
    # Each is known to all once it was accepted at the office.
    quietly meet office
    quietly meet truck
    answer 1 "this book knows no device truck" meet paul
    quietly M office sync "$(place office)" --accept truck,paul
    quietly meet truck
    quietly meet paul
    quietly meet office
}
opening() { quietly M "$1" opening add J-7 --id "$2" --kind window --room hall --elevation north; }
photo() { quietly M "$1" attach add J-7 "$SAMPLE/bagged-waste.png"; }
head_of() { M "$1" book head | head -1; }
same() { # BOOK ...: they have the same head, and each passes its check
    first=$(head_of "$1")
    for book in "$@"; do
        [ "$(head_of "$book")" = "$first" ] || { echo "$book has another head than $1"; return 1; }
        quietly M "$book" book check
    done
}
answer() { # STATUS TEXT COMMAND ...: the command ends so and says it
    want=$1 text=$2
    shift 2
    status=0
    "$@" >said 2>&1 || status=$?
    [ "$status" = "$want" ] || { echo "it answers $status, not $want:"; cat said; exit 98; }
    grep -qF -- "$text" said || { echo "\"$text\" is not in:"; cat said; exit 97; }
}
not() { # COMMAND ...: it must not succeed
    if "$@"; then
        echo "it succeeded: $*"
        exit 95
    fi
}
# The truck and Paul correct one opening without knowing of each other.
two_corrections() {
    opening truck W1
    quietly meet truck
    quietly meet office
    quietly meet paul
    w=$(M office entry list J-7 | grep -o 'truck/[0-9]*' | tail -1)
    quietly M truck entry correct "$w" --set room=kitchen --reason misread
    quietly M paul entry correct "$w" --set room=bath --reason misread
    quietly meet truck
    answer 1 '1 contradictions' meet paul
    answer 1 '1 contradictions' meet office
}
segment() { ls share/*/"$1".* | sed -n "${2:-1}p"; } # CHAIN [WHICH]
