# What a copy that was killed leaves is taken away by the next one to that folder; what
# another program works at, and what only looks like it, is not.
mkdir to
# Half a copy, as it lies there when the program is killed in its midst.
sleep 60 & dead=$!
kill -9 $dead && wait $dead 2>/dev/null
for end in '' -wal -shm -journal; do cp firm.book "to/.mistfold-$dead-0.tmp$end"; done
cp firm.book to/.mistfold-$$-0.tmp # of a process that lives
cp firm.book to/.mistfold-1x-0.tmp
cp firm.book to/mine.tmp
ln -s ../firm.book to/.mistfold-$dead-1.tmp
try $M book backup to/a.book
ls -A to | sed "s/$dead/DEAD/; s/$$/LIVING/" | sort
try $M --book to/a.book book check
# One that is killed for real.
python3 - "$M" <<'PY'
import glob, os, subprocess, sys, time
for i in range(3):
    process = subprocess.Popen([sys.argv[1], "book", "copy", f"to/k{i}.book", "--device", f"k{i}"],
                               stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    end = time.time() + 5
    while time.time() < end and not glob.glob(f"to/.mistfold-{process.pid}-*"):
        pass
    process.kill()
    process.wait()
PY
$M book copy --no-key to/b.book --device b >said.out 2>said.err
ls -A to | grep -v '^k' | sed "s/$dead/DEAD/; s/$$/LIVING/" | sort
for book in to/*.book; do $M --book $book book check >said.out || echo "$book is not whole"; done
#> exit 0
#> note: what an interrupted copy had left in this folder was taken away
#> .mistfold-1x-0.tmp
#> .mistfold-DEAD-1.tmp
#> .mistfold-LIVING-0.tmp
#> a.book
#> mine.tmp
#> exit 0
#> .mistfold-1x-0.tmp
#> .mistfold-DEAD-1.tmp
#> .mistfold-LIVING-0.tmp
#> a.book
#> b.book
#> mine.tmp
