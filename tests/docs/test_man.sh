#!/bin/sh
# The man pages: as shipped, equal to fresh ones from the contracts that the built library prints; clean for mandoc;
# complete and true to headers and examples (check_man.py).  Needs Python 3, mandoc and a C compiler.
# abs_top_srcdir and abs_top_builddir say where things are; without them: from this script's place, and the current
# folder.
here=$(cd "$(dirname "$0")" && pwd)
source=${abs_top_srcdir:-$here/../..}
build=${abs_top_builddir:-$PWD}
python=${PYTHON:-python3}
fresh=$(mktemp -d) || exit 1
trap 'rm -rf "$fresh"' EXIT
failed=0
compiler=${CC:-cc}
for tool in "$python" mandoc "${compiler%% *}"; do
    command -v "$tool" > /dev/null || { echo "$tool is missing: install it to check the man pages"; exit 1; }
done

"$build/bindings/describe" > "$fresh/contracts.json" || { echo "bindings/describe does not run"; exit 1; }
if cmp "$source/bindings/contracts.json" "$fresh/contracts.json"; then
    echo "bindings/contracts.json is what the library prints"
else
    failed=1
fi

mkdir "$fresh/man"
"$python" "$source/man/generate.py" "$fresh/contracts.json" "$source/examples" "$fresh/man" || exit 1
for page in "$fresh"/man/*; do
    name=$(basename "$page")
    if cmp "$source/man/$name" "$page"; then
        echo "$name is as generated"
    else
        failed=1
    fi
done
for page in "$source"/man/*.[37]; do
    if ! [ -f "$fresh/man/$(basename "$page")" ]; then
        echo "$(basename "$page") is left over: nothing generates it"
        failed=1
    fi
done

if mandoc -T lint -W warning "$fresh"/man/*.[37]; then
    echo "mandoc finds nothing to warn of"
else
    failed=1
fi

"$python" -B "$here/check_man.py" "$fresh/contracts.json" "$source" "$fresh/man" || failed=1
exit $failed
