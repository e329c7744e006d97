#!/bin/sh
# The C tests under valgrind, with short counts: no invalid access, no read of what was never written.
set -eu
: "${abs_top_builddir:?}"
export UNG_TESTS=short
programs=$(make -s -C "$abs_top_builddir" print-test-programs)
status=0
for program in $programs; do
    case $program in
    *elementary_mpfr* | *no_malloc*) continue ;; # MPFR's own time; malloc replaced
    esac
    echo "$program"
    valgrind -q --error-exitcode=9 --leak-check=no "$abs_top_builddir/$program" >/dev/null || { echo "$program: failed under valgrind"; status=1; }
done
exit $status
