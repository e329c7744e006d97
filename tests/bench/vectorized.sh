#!/bin/sh
# Says of every calculation's kernels, in each width, whether the compiler made vector code of the loop, and fails when
# one fell from vectorized to serial: sh tests/bench/vectorized.sh
# What is expected stands in vectorized.txt.  GCC only: another compiler reports otherwise.
set -u
top=${abs_top_srcdir:-$(cd "$(dirname "$0")/../.." && pwd)}
work=$(mktemp -d) || exit 1
trap 'rm -rf "$work"' EXIT
CC=${CC:-gcc}
case $($CC --version 2>/dev/null | head -n 1) in
*clang* | '') CC=gcc ;;
esac
if ! $CC --version >/dev/null 2>&1; then
    echo "vectorized.sh needs GCC for its report" >&2
    exit 1
fi
# The flags that the results depend on, from where they are chosen; -O2 is the default of autoconf.
flags=$(sed -n 's/^UNG_CFLAGS="\(-[^"]*\)"$/\1/p' "$top/configure.ac" | head -n 1)
[ -n "$flags" ] || { echo "no UNG_CFLAGS found in configure.ac" >&2; exit 1; }
wide=-DUNG_WIDE
echo '__attribute__((target("avx512f"))) int f(void); int f(void) { return 1; }' >"$work/wide.c"
$CC -c "$work/wide.c" -o "$work/wide.o" 2>/dev/null || wide=

# The report names the lines of define.h that make the kernels.
kernels=$(sed -n '/^UNG__KERNEL(kernel_/{=;s/^UNG__KERNEL(kernel_\([a-z0-9]*\).*/\1/p;}' "$top/lib/core/define.h" |
    paste -d : - -)
[ -n "$kernels" ] || { echo "no kernels found in define.h" >&2; exit 1; }

: >"$work/found"
for file in $(grep -l '^#define NAME ' "$top"/lib/*/*.c); do
    ! grep -q '^#define LISTS' "$file" || continue
    name=$(sed -n 's/^#define NAME //p' "$file")
    rm -f "$work/report" # GCC appends to it
    $CC $flags -O2 $wide -DUNG_BUILDING -I"$top/include" -I"$top/lib" -fopt-info-vec-optimized-missed="$work/report" \
        -c "$file" -o "$work/kernel.o" || exit 1
    for kernel in $kernels; do
        line=${kernel%%:*} width=${kernel#*:}
        case $width in avx2) bytes=32 ;; avx512) bytes=64 ;; *) bytes='[0-9]*' ;; esac
        [ -n "$wide" ] || [ "$width" = plain ] || continue
        if grep -q "/define\.h:$line:.*loop vectorized using $bytes byte vectors" "$work/report"; then
            state=vectorized
        else
            state=serial
        fi
        echo "$name $width $state" >>"$work/found"
        expected=$(sed -n "s/^$name $width //p" "$top/tests/bench/vectorized.txt")
        [ "$state" = serial ] && [ "$expected" = vectorized ] || continue
        echo "$name $width: the kernel is no longer vectorized:"
        grep "/define\.h:$line:.* missed:" "$work/report" | sort -u | head -n 8
    done
done
sed 's/ /  /g' "$work/found"

# A kernel that is new, or better than expected, belongs into the list; only a loss fails.
fell=$(awk 'NR == FNR { state[$1 " " $2] = $3; next }
    !(($1 " " $2) in state) { print "not in vectorized.txt: " $0 > "/dev/stderr"; next }
    state[$1 " " $2] == "serial" && $3 == "vectorized" { print "better than vectorized.txt: " $0 > "/dev/stderr" }
    state[$1 " " $2] == "vectorized" && $3 == "serial" { print $1, $2 }' \
    "$top/tests/bench/vectorized.txt" "$work/found")
if [ -n "$fell" ]; then
    echo "fell from vectorized to serial:" $fell
    exit 1
fi
