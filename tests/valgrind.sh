#!/bin/sh
# The C tests under valgrind, with short counts: no invalid access, no read of what was never written.
set -eu
: "${abs_top_builddir:?}"
export UNG_TESTS=short abs_top_builddir abs_top_srcdir
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
programs=$(make -s -C "$abs_top_builddir" print-test-programs)
cd "$abs_top_builddir"
cat >"$work/one" <<'END'
program=$1 argument=
[ "$program" = examples/plan ] && argument=$abs_top_srcdir/examples/stop.sheet # and what would lift the stop
result=0
./libtool --mode=execute valgrind -q --error-exitcode=9 --leak-check=no "$program" $argument >/dev/null || result=$?
# 9: valgrind found something.  Its long double has 64 bits only, so a comparison may miss by a digit.
[ $result = 9 ] && { echo "$program: failed under valgrind"; exit 1; }
echo "$program"
END
for program in $programs examples/batch examples/plan; do
    case $program in
    */elementary_mpfr | */outline_geos | */cup_cvode | */no_malloc) continue ;; # other libraries' own time; malloc replaced
    */plan_table | */plan_search | */plan_sides) continue ;; # tests/unit/plan and examples/plan call the same
    */property/batch) continue ;; # and examples/batch the batch
    # minutes of printing numbers, of long double arithmetic, and of one call after another at the edges of ranges
    */fault | */laws | */strength | */screw | */boundaries) continue ;;
    esac
    echo "$program"
done | xargs -P 2 -n 1 sh "$work/one"
