#!/bin/sh
# Makes the source archive, the same bytes each time: sorted names, the day of the
# version, no owner, no time in the compressed head.
#   sh src/gen/dist.sh VERSION DAY FILE.tar.gz       from the top of the checkout
# In a checkout it is what git knows; in an unpacked archive, all but build/.
set -eu
version=$1 day=$2 out=$3
export LC_ALL=C
list=$(mktemp)
trap 'rm -f "$list" "$list.all" "$out.tar" "$out.part"' EXIT
mkdir -p "$(dirname "$out")"
# No pipe before the file is whole: of a pipe's first command the shell sees no failure.
if [ -e .git ]; then
    git ls-files > "$list.all"
else
    find . -path ./build -prune -o ! -type d -print > "$list.all"
fi
sed 's|^\./||' "$list.all" | sort > "$list"
tar --format=ustar --mtime="$day 00:00:00Z" --owner=0 --group=0 --numeric-owner \
    --mode=u=rwX,go=rX --transform="s|^|mistfold-$version/|" --no-recursion -T "$list" -cf "$out.tar"
gzip -9 -n < "$out.tar" > "$out.part"
mv "$out.part" "$out"
