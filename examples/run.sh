#!/bin/sh
# From a fresh machine to the main job: installs what is missing (Debian and Ubuntu; elsewhere it says what to
# install), builds, and plans the sample sheets.  Quick the second time.
#
#     sh examples/run.sh
#
# Exit status 0: the routine and the traced foot went through, and the third one said stop.
set -eu

top=$(cd "$(dirname "$0")/.." && pwd)

missing=
need() { # command, package
    command -v "$1" >/dev/null 2>&1 || missing="$missing $2"
}
need autoreconf autoconf
need automake automake
need libtoolize libtool
need pkg-config pkg-config
need make make
need gcc gcc
printf '#include <math.h>\n' | gcc -E - >/dev/null 2>&1 || missing="$missing libc6-dev"

if [ -n "$missing" ]; then
    if ! command -v apt-get >/dev/null 2>&1; then
        echo "Please install first (Debian's names):$missing" >&2
        exit 1
    elif [ "$(id -u)" = 0 ]; then
        as_root=
    elif command -v sudo >/dev/null 2>&1; then
        as_root=sudo
    else
        echo "Please install first, as root: apt-get install$missing" >&2
        exit 1
    fi
    echo "Installing:$missing"
    $as_root apt-get -q update
    # shellcheck disable=SC2086  # a list of words, and perhaps no command before it
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get -q -y --no-install-recommends install $missing
fi

# Somebody else's checkout is copied, because autoreconf writes beside configure.ac.
if [ ! -w "$top" ]; then
    copy=$(mktemp -d "${TMPDIR:-/tmp}/ungula.XXXXXX")
    trap 'rm -rf "$copy"' EXIT
    echo "$top cannot be written to; building in $copy"
    for part in configure.ac Makefile.am ungula.pc.in README.md DEVELOPERS.md LICENSE NEWS lib include bindings man \
                examples tests m4 build-aux; do
        if [ -e "$top/$part" ]; then cp -R "$top/$part" "$copy"; fi
    done
    top=$copy
fi

build=$top/build-examples
log=$build/build.log
mkdir -p "$build" "$top/m4"
if [ -f "$top/config.status" ]; then build=$top; fi # configured in the sources: there is no second build beside it

build_plan() { # make itself notices a changed configure.ac or Makefile.am
    if [ ! -f "$top/configure" ]; then (cd "$top" && autoreconf --install) || return 1; fi
    if [ ! -f "$build/Makefile" ]; then (cd "$build" && "$top/configure" --without-python) || return 1; fi
    make -C "$build" -j2 examples/plan
}
echo "Building (log: $log)"
if ! build_plan >"$log" 2>&1; then
    tail -n 40 "$log" >&2
    echo "The build failed; the whole log is $log" >&2
    exit 1
fi

plan() { # sheet, status it should end with
    echo
    echo "== plan $1"
    status=0
    (cd "$top" && "$build/examples/plan" "$1") || status=$?
    if [ "$status" != "$2" ]; then
        echo "plan $1 ended with $status instead of $2" >&2
        exit 1
    fi
}
plan examples/routine.sheet 0
plan examples/traced.sheet 0
plan examples/stop.sheet 1
echo
echo "The routine and the traced foot went through, and the third one says stop, as it should."
