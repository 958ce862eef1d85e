#!/bin/sh
# Installs the Debian packages named as arguments that are missing, and says so.
# Silent when nothing is missing, so that it can run before every build.
set -eu
missing=
for package in "$@"; do
    dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' ||
        missing="$missing $package"
done
[ -n "$missing" ] || exit 0
as_root=
if [ "$(id -u)" != 0 ]; then
    command -v sudo >/dev/null || {
        echo "deps: these Debian packages are missing:$missing" >&2
        echo "deps: become root, or install sudo, or run: apt-get install$missing" >&2
        exit 1
    }
    as_root=sudo
fi
echo "deps: installing the missing Debian packages:$missing"
# shellcheck disable=SC2086 # the list is meant to split
{
    $as_root apt-get update -q >/dev/null
    DEBIAN_FRONTEND=noninteractive $as_root apt-get install -q -y --no-install-recommends $missing >/dev/null
}
