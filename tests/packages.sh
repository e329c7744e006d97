#!/bin/sh
# Installs the named Debian packages that are missing; elsewhere says what is needed.
missing=
for package in "$@"; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing="$missing $package"
done
[ -z "$missing" ] && exit 0
if ! command -v apt-get >/dev/null; then
    echo "Please install the equivalents of these Debian packages first:$missing" >&2
    exit 1
fi
if [ "$(id -u)" = 0 ]; then as_root=; elif command -v sudo >/dev/null; then as_root=sudo; else
    echo "Please have these packages installed:$missing" >&2
    exit 1
fi
export DEBIAN_FRONTEND=noninteractive
$as_root apt-get update -qq || true # an old list may still do
$as_root apt-get install -y -qq --no-install-recommends $missing
