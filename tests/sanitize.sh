#!/bin/sh
# The C tests with the address and undefined-behavior sanitizers, compiled straight from the list of sources.
set -eu
: "${abs_top_srcdir:?}" "${abs_top_builddir:?}"
export UNG_TESTS=short
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
flags="-std=gnu11 -g -O1 -fno-math-errno -fno-trapping-math -ffp-contract=off -fopenmp-simd -fsanitize=address,undefined
    -fno-sanitize-recover=all -I$abs_top_srcdir/include -I$abs_top_srcdir/lib -DUNG_WIDE -DUNG_VERSION=\"sanitized\""
cd "$work"
ls "$abs_top_srcdir"/lib/*/*.c | xargs -P 2 -n 1 gcc $flags -DUNG_BUILDING -c
cat >one <<'END'
name=$(basename "$1" .c)
gcc $FLAGS $(pkg-config --cflags check) "$1" ./*.o -o "$name.test" $(pkg-config --libs check) -lgmp -lm || exit 1
"./$name.test" >"$name.log" 2>&1 && echo "$name" || { echo "$name: failed"; cat "$name.log"; exit 1; }
END
export FLAGS="$flags"
ls "$abs_top_srcdir"/tests/unit/*.c "$abs_top_srcdir"/tests/property/*.c | xargs -P 2 -n 1 sh one
