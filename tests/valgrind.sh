#!/bin/sh
# The C tests under valgrind, with short counts: no invalid access, no read of what was never written.
set -eu
: "${abs_top_builddir:?}"
export UNG_TESTS=short
programs=$(make -s -C "$abs_top_builddir" print-test-programs)
cd "$abs_top_builddir"
status=0
for program in $programs examples/batch examples/plan; do
    case $program in
    */elementary_mpfr | */outline_geos | */cup_cvode | */no_malloc) continue ;; # other libraries' own time; malloc replaced
    */plan_table) continue ;; # tests/unit/plan calls the same
    */fault | */laws | */strength | */screw) continue ;; # minutes of printing numbers and of long double arithmetic
    esac
    argument=
    [ $program = examples/plan ] && argument=$abs_top_srcdir/examples/routine.sheet
    echo "$program"
    result=0
    ./libtool --mode=execute valgrind -q --error-exitcode=9 --leak-check=no $program $argument >/dev/null || result=$?
    # 9: valgrind found something.  Its long double has 64 bits only, so a comparison may miss by a digit.
    [ $result = 9 ] && { echo "$program: failed under valgrind"; status=1; }
done
exit $status
