#!/bin/sh
# pip installs the package from a checkout, and from the source package in an empty folder where SWIG is missing.
set -eu
: "${abs_top_srcdir:?}" "${abs_top_builddir:?}" "${PYTHON:?}"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
try() { # try ENVIRONMENT PACKAGE
    "$PYTHON" -m venv --system-site-packages "$1"
    "$1/bin/pip" install -q --no-index --no-build-isolation "$2"
    (cd "$work/$1" && ./bin/python -c '
import ungula
tape = ungula.cast_length(circumference_low_mm=405, circumference_high_mm=345, band_height_mm=100, tape_width_mm=50.8)
print(tape)
assert abs(tape.path_length_mm - 2595.846282765) < 1e-9, tape
assert "belt" in ungula.plan_schema()["properties"]["steps"]["properties"]
assert ungula.__file__.startswith("'"$work/$1"'"), ungula.__file__')
}
cp -r "$abs_top_srcdir" checkout 2>/dev/null || true
rm -rf checkout/build* checkout/bindings/contracts.json checkout/bindings/python/package/ungula/_calculations.py*
try from-checkout ./checkout/bindings/python
make -C "$abs_top_builddir" python-sdist
cp "$(ls -t "$abs_top_builddir"/bindings/python/dist/ungula-*.tar.gz | head -n 1)" .
SWIG=/bin/false
export SWIG
try from-source-package ./ungula-*.tar.gz
