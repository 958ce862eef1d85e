#!/bin/sh
# Debian packages from a source archive, by the stock tools, and what lintian says of them.
#   sh src/gen/deb.sh FILE.tar.gz VERSION SOVERSION FOLDER PACKAGE...
# The packages named are those that the build needs.
set -eu
archive=$1 version=$2 so=$3 out=$4
shift 4
rm -rf "$out"
mkdir -p "$out"
tar -xzf "$archive" -C "$out"
cd "$out/mistfold-$version"
sh src/gen/deb_folder.sh "$so" "$@"
unset MAKEFLAGS MAKELEVEL MFLAGS CFLAGS CPPFLAGS LDFLAGS VARIANT
LC_ALL=C dpkg-buildpackage -us -uc -b > ../build.log 2>&1 || {
    tail -n 40 ../build.log
    exit 1
}
cd ..
lintian --allow-root --tag-display-limit 0 --fail-on error,warning mistfold_*.changes
ls ./*.deb
