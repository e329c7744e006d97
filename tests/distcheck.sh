#!/bin/sh
# make distcheck, as an ordinary user: root can write to a read-only tree, and would hide a release that needs to.
# The main job is tested in C alone here, as make check before tested it in Python too.
# The release's generated files are compared with those of the tree it was made from.
set -eu
: "${abs_top_builddir:?}"
work=$(mktemp -d)
trap 'chmod -R u+w "$work"; rm -rf "$work"' EXIT
make -C "$abs_top_builddir" dist
release=$(ls -t "$abs_top_builddir"/libungula-*.tar.gz | head -n 1)
cp "$release" "$work/"
cd "$work"
tar xzf "$(basename "$release")"
tree=$(basename "$release" .tar.gz)
for file in bindings/contracts.json bindings/plan.schema.json man/ungula.7 man/ung_cast_length.3 bindings/python/package/ungula/_calculations.py; do
    if [ -e "$abs_top_srcdir/$file" ]; then cmp "$abs_top_srcdir/$file" "$tree/$file"; fi
    [ -e "$tree/$file" ] || { echo "the release lacks $file"; exit 1; }
done
run="cd '$work/$tree' && mkdir build-check && cd build-check && ../configure PYTHON='$PYTHON' SWIG=/bin/false &&
    make -j2 && make distcheck UNG_TESTS=short UNG_NO_PYTHON=1 VERBOSE=1"
if [ "$(id -u)" = 0 ] && command -v setpriv >/dev/null; then
    chown -R 65534:65534 "$work"
    env -i PATH="$PATH" HOME="$work" UNG_TESTS=short setpriv --reuid=65534 --regid=65534 --clear-groups sh -c "$run"
else
    UNG_TESTS=short sh -c "$run"
fi
