#!/bin/sh
# Writes debian/ for dpkg-buildpackage, from what the checkout says already: the
# templates of src/gen/debian, docs/changelog.md, LICENSE and the Makefile's packages.
#   sh src/gen/deb_folder.sh SOVERSION PACKAGE...      from the top of a checkout
set -eu
so=$1
shift
from=src/gen/debian
who=$(sed -n 's/^Maintainer: //p' $from/control)
mkdir -p debian/source
echo '3.0 (native)' > debian/source/format

needs= # a compiler and make are there wherever a package is built
for package in "$@"; do
    case $package in gcc | make) ;; *) needs="$needs${needs:+, }$package" ;; esac
done
sed -e "s/@SOVERSION@/$so/g" -e "s/@BUILD_DEPENDS@/$needs/" $from/control > debian/control
cp $from/rules $from/mistfold.install $from/mistfold-doc.install $from/libmistfold-dev.install debian/
cp $from/libmistfold.install "debian/libmistfold$so.install"
sed "s/@SOVERSION@/$so/g" $from/libmistfold.symbols > "debian/libmistfold$so.symbols"
chmod 755 debian/rules

# "## 0.2.0, 2026-11-29" and a list become an entry of the Debian changelog.
awk -v who="$who" '
    function stamp() {
        if (day == "") return
        ("LC_ALL=C date -u -R -d " day) | getline when
        print "\n -- " who "  " when "\n"
    }
    /^## / { stamp(); version = $2; sub(",", "", version); day = $3
             print "mistfold (" version ") unstable; urgency=medium\n"; next }
    day == "" || /^$/ { next }
    { sub(/^- /, "  * ") || sub(/^  /, "    "); print }
    END { stamp() }' docs/changelog.md > debian/changelog

{
    printf '%s\n' 'Format: https://www.debian.org/doc/packaging-manuals/copyright-format/1.0/' \
        'Upstream-Name: mistfold' '' 'Files: *' "$(sed -n 's/^Copyright (c)/Copyright:/p' LICENSE)" \
        'License: Expat'
    sed -e '1,/^Copyright/d' LICENSE | sed -e 1d -e 's/^$/./' -e 's/^/ /'
} > debian/copyright
