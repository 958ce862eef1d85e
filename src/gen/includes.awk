# Which room may see which (DEVELOPERS.md, "The house"): the includes of all files, a name a line
# in them. Fails on one that looks the other way, and on headers that include each other in a
# circle.
#   awk -f src/gen/includes.awk FILE...          from the top of the checkout
BEGIN {
    # The headers in the folder of a room are for itself and for whoever stands here.
    own["core"] = "core"
    own["base"] = "base"
    own["journal"] = "journal base"
    own["words"] = "words base"
    own["paper"] = "paper base"
    own["seal"] = "seal base"
    own["serve"] = "serve base"
    own["book"] = "book journal base"
    own["sync"] = "sync journal base"
    own["field"] = "field journal words base"
    own["cli"] = "cli serve words base"
    # The public ones belong to a room as well, most to core; err.h is for all.
    split("book device entries heads record segment", of_book)
    for (i in of_book)
        room_of["mistfold/" of_book[i] ".h"] = "book"
    room_of["mistfold/paper.h"] = room_of["mistfold/qr.h"] = "paper"
    room_of["mistfold/seal.h"] = room_of["mistfold/stamp.h"] = "seal"
    room_of["mistfold/words.h"] = "words"
    room_of["mistfold/sync.h"] = "sync"
    public["core"] = public["serve"] = "core"
    public["base"] = ""
    public["journal"] = public["book"] = "core book"
    public["words"] = public["field"] = "core words"
    public["paper"] = "core words paper"
    public["seal"] = "seal"
    public["sync"] = "book sync"
    public["cli"] = "core book words paper seal sync"
}

function public_room(header) {
    return header in room_of ? room_of[header] : "core"
}

function holds(list, word) {
    return index(" " list " ", " " word " ") > 0
}

# src/core/text.h is "core/text.h", include/mistfold/job.h is "mistfold/job.h".
function name_of(file) {
    sub(/^(src|include)\//, "", file)
    return file
}

FNR == 1 {
    here = name_of(FILENAME)
    room = here
    sub(/\/.*/, "", room)
    if (room == "mistfold")
        room = public_room(here)
}

/^#include ["<](mistfold|[a-z]+)\// {
    seen = $2
    gsub(/["<>]/, "", seen)
    to = seen
    sub(/\/.*/, "", to)
    if (here ~ /\.h$/)
        includes[here] = includes[here] " " seen
    if (seen == "mistfold/err.h" || !(room in own) || (to != "mistfold" && !(to in own)))
        next
    fits = to == "mistfold" ? holds(public[room], public_room(seen)) : holds(own[room], to)
    if (!fits)
        tell(FILENAME ": " room " may not see " seen)
}

function tell(what) {
    print what
    bad = 1
}

# Depth first; a header met again on the way to it closes a circle.
function walk(header, way,    list, n, i) {
    if (holds(way, header)) {
        sub(".* " header " ", header " ", way)
        tell("headers in a circle: " way " " header)
    }
    if (header in done)
        return
    done[header] = 1
    n = split(includes[header], list)
    for (i = 1; i <= n; i++)
        walk(list[i], way " " header)
}

END {
    for (header in includes)
        walk(header, "")
    exit bad
}
