#!/bin/sh
# Pages a second: ours against bare libharu and against Debian's python3-reportlab
# for the same words, and memory over many papers. Ours is the drawing: laying out,
# wrapping, drawing, saving; what the judgment takes is told apart. Ends 1 when a
# goal is missed. Times are of the processor, so that other work beside it counts little.
#   sh tests/bench/paper.sh build/release/tests/bench/paper_speed
set -eu
here=$(cd "$(dirname "$0")" && pwd)
program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
folder=$(mktemp -d)
trap 'rm -r "$folder"' EXIT
cd "$folder"
times=5
set -- $("$program" record $times)
all=$1
judged=$2
pdftotext -bbox record.pdf boxes
/usr/bin/python3 "$here/paper_words.py" < boxes > words
pages=$(grep -c '<page ' boxes)
bare=$("$program" bare words $times)
echo "pages $pages, words $(wc -l < words)"
awk -v p="$pages" -v t=$times -v a="$all" -v j="$judged" -v b="$bare" 'BEGIN {
    d = a - j
    printf "ours          %8.0f pages a second drawn, %.0f with the judgment\n", p * t / d, p * t / a
    printf "bare libharu  %8.0f pages a second, ours is %.2f of it (goal 0.70)\n", p * t / b, b / d
    exit b / d < 0.70 }' || missed=1
if /usr/bin/python3 -c 'import reportlab.lib.styles' 2> /dev/null; then
    for way in put laid; do
        other=$(/usr/bin/python3 "$here/paper_reportlab.py" words $way 1)
        awk -v p="$pages" -v t=$times -v a="$all" -v j="$judged" -v r="$other" -v w=$way 'BEGIN {
            x = r * t / (a - j)
            printf "reportlab     %8.0f pages a second, ours is %.1f times it: %s\n", p / r, x,
                w == "laid" ? "it lays the text out, as ours does (goal 20)" \
                            : "told where each word goes (no goal: ours lays out too)"
            exit w == "laid" && x < 20 }' || missed=1
    done
else
    echo "reportlab     not measured: python3-reportlab is not installed"
fi
set -- $("$program" many 200)
echo "memory        $1 KiB at the 20th paper, $2 KiB at the 200th"
awk -v k="$2" 'BEGIN { printf "peak memory %.1f MiB\n", k / 1024 }'
[ "$2" -le $(($1 + 2048)) ] || missed=1
exit "${missed:-0}"
