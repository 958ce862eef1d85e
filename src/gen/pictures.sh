#!/bin/sh
# The pictures of the README, made by a run of the program on the sample job:
# docs/walk.svg, one screen of the containment walk; docs/record.png, the first page of
# the job record; docs/phone.png, the field page while a wiped section dries (by Chromium).
#   sh src/gen/pictures.sh PROGRAM        from the top of the checkout
set -eu
MISTFOLD=$1
export MISTFOLD
top=$(pwd)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# The sample job up to its containment, then a walk of it.
sed -e '/^say "The crew walks the containment list/,$d' \
    -e "s|\$(cd \"\$(dirname \"\$0\")\" \&\& pwd)|$top/sample-data|" sample-data/demo.sh >"$folder/half.sh"
sh "$folder/half.sh" "$folder/half" >/dev/null
MISTFOLD_BOOK=$folder/half/demo.book MISTFOLD_BY=rosa python3 tests/cli/drive.py \
    '2 1 d d d d d d s s s d 5.5 <enter> w q' "$MISTFOLD" containment walk J-1926 --area A1 >"$folder/screens"
# The last screen before the walk was left.
awk '/^=====$/ { last = kept; kept = screen; screen = ""; next } { screen = screen $0 "\n" } /^Entries of/ { printf "%s", kept; exit }' \
    "$folder/screens" |
    sed -E 's/[0-9]{4}-[0-9]{2}-[0-9]{2} [0-9]{2}:[0-9]{2}/2026-09-14 08:30/' |
    awk 'BEGIN {
        print "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 680 300\" width=\"680\" height=\"300\" role=\"img\">"
        print "<title>One step of the containment walk in a terminal of 80 by 24</title>"
        print "<rect width=\"680\" height=\"300\" rx=\"6\" fill=\"#1b1f24\"/>"
        print "<g font-family=\"DejaVu Sans Mono,Liberation Mono,Menlo,Consolas,monospace\" font-size=\"13.3\" fill=\"#e6e6e6\" xml:space=\"preserve\">"
    }
    {
        gsub(/&/, "\\&amp;"); gsub(/</, "\\&lt;"); gsub(/>/, "\\&gt;")
        if ($0 != "") printf "<text x=\"16\" y=\"%d\" textLength=\"%.1f\">%s</text>\n", 24 + 15.5 * (NR - 1), 8.1 * length($0), $0
    }
    END { print "</g>\n</svg>" }' >docs/walk.svg

sh sample-data/demo.sh "$folder/demo" >/dev/null
pdftoppm -r 64 -gray -png -f 1 -l 1 -singlefile "$folder/demo/job-record.pdf" docs/record

SAMPLE=$top/sample-data python3 tests/field/page.py whole_job "$folder/phone"
cp "$folder/phone/wait.png" docs/phone.png
ls -l docs/walk.svg docs/record.png docs/phone.png
