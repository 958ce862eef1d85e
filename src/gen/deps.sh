#!/bin/sh
# Installs the Debian packages named as arguments that are missing, and says so.
# Silent when nothing is missing, so that it can run before every build.
# DEPS=no installs nothing: whoever packages has said already what the build needs.
# Another program that is installing is waited for, DEPS_WAIT seconds at most.
set -eu
wait=${DEPS_WAIT:-600}
[ "${DEPS:-}" != no ] || exit 0
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
said=$(mktemp)
trap 'rm -f "$said"' EXIT
# The timeout is for dpkg's lock alone; for those of the lists and of the downloads
# apt-get gives up at once.
waited=0
apt() {
    until $as_root env LC_ALL=C DEBIAN_FRONTEND=noninteractive \
        apt-get -q -o DPkg::Lock::Timeout="$wait" "$@" >/dev/null 2>"$said"; do
        if ! grep -q 'Could not get lock' "$said" || [ "$waited" -ge "$wait" ]; then
            cat "$said" >&2
            exit 1
        fi
        [ "$waited" -gt 0 ] || echo "deps: another program is installing packages: waiting for it"
        sleep 1
        waited=$((waited + 1))
    done
}
echo "deps: installing the missing Debian packages:$missing"
apt update
# shellcheck disable=SC2086 # the list is meant to split
apt install -y --no-install-recommends $missing
