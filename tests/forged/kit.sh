# Runs a script of this folder and compares what it prints with the answer at its end, the
# lines that begin with "#> ". Exit 77: it could not be tried here, and why is printed.
#
# usage: kit.sh MADE SCRIPT, in an empty folder; MISTFOLD is the program, MADE what make.sh
# made. The script finds in its folder a book, a key and papers (make.sh), and here:
#   try COMMAND...          runs it; says its exit status and its standard error
#   keeps FILE COMMAND...   the same, and whether FILE is still what it was
#   disk_with_book SIZE     a disk of that size in the folder disk, with a copy of the book
# as_nobody COMMAND...      runs it as a user who is not root and owns nothing
set -u
cp -a "$1/." . || exit 99
LC_ALL=C MISTFOLD_BY=rosa MISTFOLD_BOOK=firm.book MISTFOLD_LANG=en MISTFOLD_QUIET=yes
export LC_ALL MISTFOLD_BY MISTFOLD_BOOK MISTFOLD_LANG MISTFOLD_QUIET
M=$MISTFOLD TESTS=$(dirname "$0")/..
umask 077

try() {
    "$@" >said.out 2>said.err
    echo "exit $?"
    cat said.err
}
keeps() {
    kept=$1
    shift
    before=$(stat -L -c '%i %s' "$kept"; sha256sum <"$kept")
    try "$@"
    after=$(stat -L -c '%i %s' "$kept"; sha256sum <"$kept")
    if [ "$before" = "$after" ]; then echo "$kept is as it was"; else echo "$kept WAS CHANGED"; fi
}
skip() {
    echo "not tried here: $*" >&2
    exit 77
}
disk_with_book() {
    mkdir disk && mount -t tmpfs -o "size=$1,mode=700" tmpfs disk 2>/dev/null || skip "no right to mount"
    trap 'umount disk' EXIT
    $M book backup disk/firm.book >said.out
}
as_nobody() {
    if [ "$(id -u)" != 0 ]; then
        "$@"
    elif command -v setpriv >/dev/null; then
        setpriv --reuid 65534 --regid 65534 --clear-groups "$@"
    else
        skip "there is no setpriv to become another user"
    fi
}

(. "$2") >answer.txt
status=$?
[ $status = 77 ] && exit 77
grep '^#>' "$2" | sed 's/^#> \{0,1\}//' >wanted.txt
diff wanted.txt answer.txt
