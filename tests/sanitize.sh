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
status=0
for source in "$abs_top_srcdir"/tests/unit/*.c "$abs_top_srcdir"/tests/property/*.c; do
    name=$(basename "$source" .c)
    gcc $flags $(pkg-config --cflags check) "$source" ./*.o -o "$name.test" $(pkg-config --libs check) -lgmp -lm
    echo "$name"
    "./$name.test" >"$name.log" 2>&1 || { cat "$name.log"; status=1; }
done
exit $status
