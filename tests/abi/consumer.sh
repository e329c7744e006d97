#!/bin/sh
# A stranger's program against the installed library: UNG_PREFIX is where it was installed.
[ -n "${UNG_PREFIX:-}" ] || { echo "UNG_PREFIX is not set: no installed library to test"; exit 77; }
# A clean environment, except for the way to the tools.
if [ -z "${UNG_CLEARED:-}" ]; then
    exec env -i PATH="$PATH" HOME=/nonexistent LC_ALL=C UNG_CLEARED=1 UNG_PREFIX="$UNG_PREFIX" CC="${CC:-cc}" sh "$0"
fi
set -eu
[ -n "$(find "$UNG_PREFIX" -name ungula.pc 2>/dev/null)" ] || { echo "nothing is installed under $UNG_PREFIX"; exit 77; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
libdir=$(dirname "$(find "$UNG_PREFIX" -name ungula.pc | head -n 1)")
PKG_CONFIG_PATH=$libdir
export PKG_CONFIG_PATH
cat >consumer.c <<'END'
#include <stdio.h>
#include <ungula.h>
int main(void)
{
    ung_wall_from_border_in in = ung_wall_from_border_standard();
    ung_wall_from_border_out out;
    in.border_width_mm = 12.5; in.wall_angle_deg = 150;
    if (ung_wall_from_border(&in, &out, 0) != UNG_OK) return 1;
    printf("%g %s\n", out.wall_thickness_mm, ung_version());
}
END
# By plane trigonometry: 12.5 sin 150 degrees.
wanted="6.25 $(pkg-config --modversion ungula)"
check() { # check HOW
    found=$("./$1")
    [ "$found" = "$wanted" ] || { echo "$1: $found instead of $wanted"; exit 1; }
    echo "$1: $found"
}
if $CC consumer.c -o plain 2>/dev/null; then
    echo "builds without any flags: some other copy of the library is in the way"
    exit 1
fi
# shellcheck disable=SC2046
$CC consumer.c $(pkg-config --cflags --libs ungula) -o shared
LD_LIBRARY_PATH=$(pkg-config --variable=libdir ungula)
export LD_LIBRARY_PATH
check shared
unset LD_LIBRARY_PATH
static=$(pkg-config --variable=libdir ungula)/libungula.a
if [ -e "$static" ]; then
    # shellcheck disable=SC2046
    $CC -static consumer.c $(pkg-config --static --cflags --libs ungula) -o static
    check static
fi
