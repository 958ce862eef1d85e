#!/bin/sh
# The main job on the invented sample data, with the commands a person types.
#   sh sample-data/demo.sh OUTPUT-FOLDER      (make demo runs it)
set -eu
data=$(cd "$(dirname "$0")" && pwd)
out=${1:-build/demo}
mf=${MISTFOLD:-mistfold}
mkdir -p "$out"
rm -f "$out"/demo.book* "$out"/rosa.p12 "$out"/*.pdf "$out"/field.html
MISTFOLD_BOOK=$out/demo.book
MISTFOLD_BY=rosa
MISTFOLD_QUIET=1 # this script knows the next step
export MISTFOLD_BOOK MISTFOLD_BY MISTFOLD_QUIET
job=J-1926

say() { printf '\n=== %s\n' "$*"; }
run() { # shows the command, then runs it
    printf '\n$ mistfold'
    for word in "$@"; do
        case $word in
        *[!A-Za-z0-9_./,:=+-]*) printf ' "%s"' "$word" ;;
        *) printf ' %s' "$word" ;;
        esac
    done
    printf '\n'
    "$mf" "$@"
}
ask() { # a question: 0 = yes, 1 = no; anything else is a failure
    expected=$1
    shift
    status=0
    run gate "$job" "$@" || status=$?
    [ "$status" -eq "$expected" ] || {
        echo "demo: expected exit $expected, got $status" >&2
        exit 1
    }
}

say "A new book: the firm, its people and their certificates (all invented)"
# shellcheck disable=SC2086 # nothing, or one word
run book new --device office ${DEMO_NO_KEY:+--no-key}
run firm add --name "Muster Sash & Door (invented)" --address "1 Sample Street, Exampleton" --phone "000-0000"
run person add --id rosa --name "Rosa Muestra"
run person add --id ines --name "Inés Ejemplar"
run person add --id teo --name "Teo Modelo"
run person add --id mau --name "Nguyễn Văn Mẫu"
run certificate add --holder firm --discipline firm --number F-0001 --issuer "Agency (invented)" --issued 2023-05-02 --expires 2028-05-02
run certificate add --holder rosa --discipline renovator --number R-0417 --issuer "Training Provider (invented)" --issued 2023-03-06 --expires 2028-03-06 --hands-on yes
run certificate add --holder ines --discipline inspector --number I-0093 --issuer "Agency (invented)" --issued 2024-05-20 --expires 2027-05-20
run instrument add --serial X-100 --film 1.02 --cal-low 0.8 --cal-high 1.2 --inconclusive-low 0.9 --inconclusive-high 0.9 --bounds-inside yes --note "performance values invented; licensed operator only, never pointed at a person"

say "The job: a house built in 1926"
run job open --id "$job" --address "12 Sample Lane, Exampleton" --year-built 1926 --building dwelling --owner-occupied no --child-under-6 yes --work window-replacement,door-replacement --description "Phase 1: replace windows W01 to W04 and door D02, full frame" --start 2026-09-14 --end 2026-09-16 --language en --note "Invented scenario: no such firm, people or house."
run party add "$job" --id owner --role owner --name "Ida Sample" --address "9 Sample Hill, Exampleton"
run party add "$job" --id tenant --role occupant --name "Ludvík Ukázka" --address "12 Sample Lane, Exampleton"
run opening import "$job" "$data/openings.csv"
run component import "$job" "$data/components.csv"

say "First question: is this house and this work under the rule?"
ask 0 rule
say "Second question, asked too early: may demo start?"
ask 1 demo --on 2026-09-14

say "The tests: 147 readings by a certified inspector, and one paint chip"
run test import "$job" "$data/xrf-export.csv" --dry-run
run test import "$job" "$data/xrf-export.csv"
run test determine "$job" --assessor ines --report "Report 26-081 (invented)" --copy-held yes --on 2026-08-14
run test chip "$job" --component W03.stop --sampler rosa --laboratory "Laboratory (invented)" --lab-address "3 Sample Road, Exampleton" --nllap yes --weight 0.02% --on 2026-08-17
run test list "$job"

say "The notices: pamphlet to the owner and to the occupant"
run notice add "$job" --party owner --method acknowledged --on 2026-08-20 --signed-on 2026-08-20 --signer "Ida Sample" --unit "12 Sample Lane" --language en --states-receipt yes
logged=$(run notice add "$job" --party tenant --method mailed --on 2026-08-15 --unit "12 Sample Lane" --language en --receipt yes)
printf '%s\n' "$logged"
say "A slip of the pen is corrected with a reason; both stay on record"
run entry correct "${logged##* }" --set on=2026-08-25 --reason "the post office receipt says the 25th"

say "The crew and the work areas"
run crew assign "$job" --person rosa --duty renovator --on 2026-09-14
run crew assign "$job" --person teo --duty worker --on 2026-09-14
run crew assign "$job" --person mau --duty worker --on 2026-09-14
run crew train "$job" --worker teo --trainer rosa --topics "signs; containment; practices; waste; cleaning" --on 2026-09-14
run crew train "$job" --worker mau --trainer rosa --topics "signs; containment; practices; waste; cleaning" --on 2026-09-14
run area add "$job" --id A1 --side interior --place "kitchen and dining room" --openings W01,W02,W03,W04,D02 --length 26 --width 14 --objects yes --ducts yes --doors-used yes --carpet yes --countertops no
run area add "$job" --id A2 --side exterior --place "north, east and south elevations at W01 to W04 and D02" --openings W01,W02,W03,W04,D02 --length 48 --width 9 --doors-used yes --stories 1 --line 18
run surface import "$job" "$data/surfaces.csv"

say "The same job for a phone: one page, no network (docs/crew.md)"
run field page "$job" --out "$out/field.html" --lang es --person rosa

say "The crew walks the containment list before demo"
run containment list "$job" --area A1
tick() { # tick AREA STEPS PERSON TIME [more options]
    area=$1 steps=$2 person=$3 time=$4
    shift 4
    run containment tick "$job" --area "$area" --step "$steps" --state done --person "$person" --renovator rosa --on 2026-09-14 --time "$time" "$@"
}
tick A1 signs,signs-language rosa 07:40
tick A1 isolate,egress,objects,ducts,windows-closed,doors-closed,doors-used teo 08:05
tick A1 floor-sheet teo 08:30 --measured 5.5
tick A2 signs,signs-language rosa 08:35
tick A2 isolate,egress,windows-outside,doors-outside,doors-used-outside mau 08:50
tick A2 ground-sheet mau 09:00 --measured 10

say "The floor sheeting is short: the answer is still no"
ask 1 demo --area A1 --on 2026-09-14
logged=$(tick A1 floor-sheet teo 09:10 --measured 6.5)
printf '%s\n' "$logged"
floor=${logged##* }
say "May demo start?"
ask 0 demo --on 2026-09-14

say "The work, and the end of each day"
say "A prohibited method is refused while it is only a plan"
run practice add "$job" --area A2 --method heat-gun --temp 1100 --planned yes --person mau --on 2026-09-14 && exit 1
run practice add "$job" --area A1 --method hand --person teo --note "hand tools, misted" --on 2026-09-14 --began 09:30 --time 16:20
run practice add "$job" --area A2 --method hand --person mau --note "hand tools, misted" --on 2026-09-15 --began 08:00 --time 16:10
run containment tick "$job" --area A1 --step barriers-whole,leave-clean,waste-daily --state done --person teo --renovator rosa --on 2026-09-14 --time 16:50
for area in A1 A2; do
    run containment tick "$job" --area $area --step barriers-whole,waste-contained,waste-daily,waste-transport --state done --person teo --renovator rosa --on 2026-09-15 --time 16:40
    run containment tick "$job" --area $area --step waste-chute --state not-needed --ground not-used --reason "ground floor, waste carried out in sealed bags" --person teo --on 2026-09-15 --time 16:41
done
run containment tick "$job" --area A1 --step leave-clean --state done --person teo --renovator rosa --on 2026-09-15 --time 16:42

say "Cleaning, high to low"
run cleaning tick "$job" --area A1 --step chips,sheeting,walls,surfaces,carpet,mop --state done --person teo --renovator rosa --on 2026-09-16 --time 11:20
run cleaning tick "$job" --area A1 --step margin --measured 2 --state done --person teo --renovator rosa --on 2026-09-16 --time 11:40
run cleaning tick "$job" --area A1 --step divider --state done --person teo --renovator rosa --on 2026-09-16 --time 11:50
run cleaning tick "$job" --area A2 --step chips,sheeting,clean-outside --state done --person mau --renovator rosa --on 2026-09-16 --time 11:55
for area in A1 A2; do
    run containment tick "$job" --area $area --step waste-daily --state done --person teo --renovator rosa --on 2026-09-16 --time 12:00
done

say "Third question, asked too early: may the signs come down?"
ask 1 signs --area A1 --on 2026-09-16

say "Cleaning verification by the certified renovator"
look() { run verification log "$job" --area "$1" --event "$2" --person rosa --on 2026-09-16 --time "$3"; }
wipe() { # wipe SURFACE SECTION EVENT TIME [more]
    surface=$1 section=$2 event=$3 time=$4
    shift 4
    run verification log "$job" --area A1 --surface "$surface" --section "$section" --event "$event" --person rosa --on 2026-09-16 --time "$time" "$@"
}
look A2 look-clean 12:05
look A1 look-dirty 11:10
look A1 look-clean 12:40
wipe W01-sill 1 wet-match 12:45 --cloth new
wipe W02-sill 1 wet-darker 12:47 --cloth new
wipe W03-sill 1 wet-match 12:49 --cloth new
wipe W04-sill 1 wet-match 12:51 --cloth new
wipe W02-sill 1 recleaned 12:55
wipe W02-sill 1 wet-match 12:58 --cloth fresh-fold
wipe counter 1 wet-match 13:02 --cloth new
wipe floor 1 wet-match 13:05 --cloth new
wipe floor 2 wet-darker 13:08 --cloth new
wipe floor 3 wet-match 13:11 --cloth new
wipe floor 2 recleaned 13:20
wipe floor 2 wet-darker 13:25 --cloth new
say "A third wet cloth is refused: the rule knows none"
wipe floor 2 wet-match 13:30 --cloth new && exit 1
wipe floor 2 seen-dry 14:20
wipe floor 2 dry-wipe 14:30 --cloth new
run verification list "$job"
say "May the signs come down?"
ask 0 signs --on 2026-09-16

say "The end of the job"
run job complete "$job" --on 2026-09-16
run job certify "$job" --person rosa --on 2026-09-17
run job invoice "$job" --on 2026-09-25
run handover add "$job" --party owner --what record --how "by hand, signed for" --on 2026-09-21
run handover add "$job" --party tenant --what record --how "by hand, signed for" --on 2026-09-21
ask 0 handover --on 2026-09-25

say "Where things stood, for the plan to scale"
place() {
    area=$1 what=$2 wall=$3 at=$4
    shift 4
    run plan place "$job" --area "$area" --what "$what" --wall "$wall" --at "$at" "$@"
}
place A1 opening north 3 --opening W01
place A1 opening east 2.5 --opening W02
place A1 opening east 8.5 --opening W03
place A1 opening south 9 --opening W04
place A1 opening south 15.5 --opening D02
place A1 flap west 6 --length 3
place A1 sign west 10
place A1 duct north 14 --from-wall 1
place A2 opening north 4 --opening W01
place A2 opening north 17 --opening W02
place A2 opening north 24 --opening W03
place A2 opening north 32 --opening W04
place A2 opening north 39 --opening D02
place A2 sign north 46 --from-wall 9

say "Pictures are kept in the book and shown in the record (drawn, not photographed)"
run attach add "$job" "$data/kitchen-floor.png" --about "$floor" --note "A1: sheeting taped along the wall, 6.5 ft from W01"
run attach add "$job" "$data/bagged-waste.png" --note "A1: waste bagged before it left the room"

say "Fourth question: would this file stand up?"
run key new "$out/rosa.p12" --name "Rosa Muestra" --firm "Muster Sash & Door (invented)" --capacity "certified renovator" --passphrase-fd 3 3<"$data/passphrase.txt"
run paper record "$job" --out "$out/job-record.pdf" --key "$out/rosa.p12" --on 2026-09-25 --passphrase-fd 3 3<"$data/passphrase.txt"
cp "$out/job-record.pdf" "$out/job-record-received.pdf"
run paper seal "$out/job-record-received.pdf" --as owner --party owner --drawn "$data/owner-hand.png" --key "$out/rosa.p12" --passphrase-fd 3 3<"$data/passphrase.txt"
run paper blank containment --job "$job" --area A1 --out "$out/containment-interior.pdf"
run paper blank containment --job "$job" --area A2 --out "$out/containment-exterior.pdf"
run paper summary "$job" --out "$out/summary.pdf"
run paper summary "$job" --lang es --out "$out/summary-es.pdf"
run paper blank verification --job "$job" --area A1 --out "$out/verification.pdf"
run paper blank sign --lang es --out "$out/sign-es.pdf"
ask 0 inspection --on 2026-09-25
run book check
run paper check "$out/job-record.pdf" --compare

say "What to open next"
cat <<END
  $out/job-record.pdf             the sealed job record (pdfsig checks it too)
  $out/job-record-received.pdf    the same with the owner's drawn hand and a second seal
  $out/summary.pdf                the summary for owner and occupant, also in Spanish
  $out/verification.pdf           the verification sheet for the clipboard, its surfaces filled in
  $out/sign-es.pdf                the warning sign
  $out/containment-interior.pdf   the containment list for the clipboard, of the kitchen
  $out/containment-exterior.pdf   the same for outside
  $out/field.html                 the crew's page: open it in a browser, it asks no network
  $out/demo.book                  the book: sqlite3 $out/demo.book .schema
  mistfold --book $out/demo.book job show $job
All names, places and numbers in it are invented.
END
