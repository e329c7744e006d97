#!/bin/sh
# The same bits from every compiler and optimization level: builds the library anew with each, and compares hashes of
# the results of 130,000 random inputs of every calculation at every kernel width (10,000 where a formula has
# loops, 1,000 where a call takes up to a millisecond).
set -eu
src=${abs_top_srcdir:-$(cd "$(dirname "$0")/../.." && pwd)}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
flags='-std=gnu11 -fno-math-errno -fno-trapping-math -ffp-contract=off -fno-tree-slp-vectorize -fopenmp-simd -DUNG_BUILDING'
if echo 'int main(void) { return __builtin_cpu_supports("avx2"); }' >"$work/wide.c" &&
    ${CC:-gcc} "$work/wide.c" -o "$work/wide" 2>/dev/null; then
    flags="$flags -DUNG_WIDE"
fi
first='' builds=0
failed=0
while read -r compiler options; do
    command -v "$compiler" >/dev/null || { echo "$compiler is missing: left out"; continue; }
    # shellcheck disable=SC2086
    "$compiler" $flags $options -w '-DUNG_VERSION="0"' -I"$src/lib" -I"$src/include" \
        "$src"/lib/*/*.c "$src/tests/abi/hash.c" -lm -o "$work/hash" || { failed=1; continue; }
    "$work/hash" >"$work/now" || { cat "$work/now"; exit 1; }
    builds=$((builds + 1))
    echo "$compiler $options"
    if [ -z "$first" ]; then
        first="$compiler $options"
        mv "$work/now" "$work/first"
        cat "$work/first"
    elif ! diff "$work/first" "$work/now"; then
        echo "$compiler $options differs from $first"
        failed=1
    fi
done <<'END'
gcc -O3
gcc -O0
gcc -O3 -march=native
clang -O2
END
[ $builds -ge 1 ] || [ $failed = 1 ] || exit 77
exit $failed
