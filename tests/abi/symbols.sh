#!/bin/sh
# What the libraries show to a linker.
#   - the shared library exports exactly lib/symbols.txt, and that is every function that the headers declare
#   - other global names of the static library begin with ung__
#   - nothing is needed from outside but what a compiler may call by itself: no stdio, no allocation, no locale
set -eu
LC_ALL=C
export LC_ALL
src=${abs_top_srcdir:-$(cd "$(dirname "$0")/../.." && pwd)} build=${abs_top_builddir:-$PWD}
shared=${UNG_SHARED:-$build/.libs/libungula.so} static=${UNG_STATIC:-$build/.libs/libungula.a}
list=$src/lib/symbols.txt
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0
same() { # same WHAT WANTED FOUND
    if ! diff "$2" "$3" >"$work/diff"; then
        echo "$1 (< wanted, > found):"
        cat "$work/diff"
        failed=1
    fi
}

sort "$list" >"$work/sorted"
same "lib/symbols.txt is not sorted" "$work/sorted" "$list"

if [ -e "$shared" ]; then
    nm -D --defined-only "$shared" | awk '{print $3}' | sed 's/@.*//' | sort >"$work/exported"
    same "exported symbols" "$list" "$work/exported"
else
    echo "no shared library was built: its exports are not tested"
fi

# Declarations, with the macros that make them expanded.
for header in "$src"/include/ungula.h "$src"/include/ungula/*.h; do
    ${CC:-gcc} -E -P -I"$src/include" "$header"
done | grep -o '\bung_[a-z0-9_]* *(' | tr -d ' (' | sort -u >"$work/declared"
same "functions declared in the headers" "$list" "$work/declared"

if [ -e "$static" ]; then
    nm -g --defined-only "$static" | awk 'NF == 3 {print $3}' | grep -v '^ung__' | sort -u >"$work/global"
    same "global names of the static library, those of ung__ apart" "$list" "$work/global"

    nm -g --defined-only "$static" | awk 'NF == 3 {print $3}' | sort -u >"$work/own"
    nm -u "$static" | awk '$1 == "U" {print $2}' | sort -u | comm -23 - "$work/own" >"$work/needed"
    # Compilers call the first four by themselves; the CPU model is libgcc's; then position independent code, stack
    # protection, sanitizers and coverage, where a build asks for them.
    grep -vE '^(mem(cpy|set|move)|strlen|__cpu_model|__cpu_indicator_init|_GLOBAL_OFFSET_TABLE_|__stack_chk_fail(_local)?|__mem(cpy|set|move)_chk|__(asan|ubsan|gcov|sanitizer)_.*)$' \
        "$work/needed" >"$work/strange" || true
    : >"$work/none"
    same "names needed from outside" "$work/none" "$work/strange"
else
    echo "no static library was built: its names are not tested"
fi
exit $failed
