#!/bin/sh
# Runs every built example that needs no arguments and compares what it prints with the file beside its source.
# abs_top_srcdir and abs_top_builddir say where things are; without them: from this script's place, and the current
# folder.
here=$(cd "$(dirname "$0")" && pwd)
source=${abs_top_srcdir:-$here/../..}
build=${abs_top_builddir:-$PWD}
output=$(mktemp -d) || exit 1
trap 'rm -rf "$output"' EXIT
failed=0 count=0
for expected in "$source"/examples/*.txt; do
    name=$(basename "$expected" .txt)
    [ -f "$source/examples/$name.c" ] || continue
    count=$((count + 1))
    if ! [ -x "$build/examples/$name" ]; then
        echo "$name: not built ($build/examples/$name)"
        failed=1
        continue
    fi
    "$build/examples/$name" > "$output/$name.txt" 2> "$output/$name.err"
    status=$?
    if [ $status -ne 0 ] || [ -s "$output/$name.err" ]; then
        echo "$name: exit status $status"
        cat "$output/$name.err"
        failed=1
    elif ! diff -u "$expected" "$output/$name.txt"; then
        echo "$name: prints something else than $name.txt says"
        failed=1
    else
        echo "$name: prints what $name.txt says"
    fi
done
# Every example has its text, or nothing would be compared.
for program in "$source"/examples/*.c; do
    if grep -q '^int main(void)' "$program" && ! [ -f "${program%.c}.txt" ]; then
        echo "$(basename "$program"): has no text beside it"
        failed=1
    fi
done
[ $count -gt 0 ] || { echo "no examples found in $source/examples"; failed=1; }
echo "$count examples run"
exit $failed
