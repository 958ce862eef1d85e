#!/bin/sh
# Installs the packages of a folder into a bare Debian and tries them there: the program on
# the sample job, its manual and completion, a program against the library, taking them away.
#   deb_try.sh FOLDER ROOT         as root; ROOT is made by debootstrap, and kept
set -eu
folder=$1 root=$2
fail() {
    echo "deb-try: $*" >&2
    exit 1
}
[ "$(id -u)" = 0 ] || fail "only root can make a bare Debian; run it as root"
[ -x "$root/usr/bin/apt-get" ] || debootstrap --variant=minbase "$(. /etc/os-release && echo "$VERSION_CODENAME")" "$root" > "$root.log" ||
    fail "debootstrap failed, see $root.log"
cp /etc/resolv.conf "$root/etc/"
rm -rf "$root/debs"
mkdir "$root/debs"
cp "$folder"/*.deb "$root/debs"
rm -f "$root"/debs/*dbgsym*
inside() { chroot "$root" env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin LC_ALL=C DEBIAN_FRONTEND=noninteractive HOME=/root sh -ec "$1"; }

# The program alone: nothing else of ours, and nothing it only recommends.
inside 'apt-get -qq update; apt-get -qq install -y --no-install-recommends /debs/mistfold_*.deb > /debs/log 2>&1' ||
    fail "the program's package cannot be installed: $(tail -n 3 "$root/debs/log")"
inside 'mistfold --version; cd /tmp; rm -rf t; mkdir t; cd t; mistfold book new; mistfold job list > jobs; cat jobs
    mistfold --complete gate --o; test -s /usr/share/bash-completion/completions/mistfold
    zcat /usr/share/man/man1/mistfold-gate.1.gz | grep -q "^.Sh EXIT STATUS"'
# The rest: the sample job from the guides, a program against the library.
inside 'apt-get -qq install -y --no-install-recommends /debs/*.deb gcc libc6-dev pkg-config > /debs/log 2>&1' ||
    fail "the packages cannot be installed: $(tail -n 3 "$root/debs/log")"
inside 'cd /tmp/t; sh /usr/share/doc/mistfold/sample-data/demo.sh out > demo.log 2>&1 || { tail demo.log; exit 1; }
    tail -n 1 demo.log; test -s out/job-record.pdf
    printf "#include <mistfold.h>\n#include <stdio.h>\nint main(void){puts(mf_gate_name(MF_GATE_DEMO));return 0;}\n" > p.c
    gcc -Wall -Werror p.c $(pkg-config --cflags --libs mistfold) -o p; ./p; ldd ./p | sed -n "s/ =>.*libmistfold/ libmistfold/p"
    apt-get -qq purge -y mistfold mistfold-doc libmistfold-dev "libmistfold0*" > /debs/log 2>&1
    find / -xdev -path /debs -prune -o -path /tmp -prune -o -path /proc -prune -o -name "*mistfold*" -print | grep -v "/var/\(log\|cache\)" || echo "nothing is left"'
