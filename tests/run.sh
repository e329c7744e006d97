#!/bin/sh
# Sets up what the tests need, and runs them: sh tests/run.sh [all]
# Quick (at most 12 minutes on two cores); `all` adds the long runs: mutation of every constant, long sweeps.
# Works on a fresh Debian or Ubuntu machine as root or with sudo, and as anybody where the packages are there.
set -u
top=$(cd "$(dirname "$0")/.." && pwd)
cd "$top" || exit 1
tier=${1:-quick}
build=${UNG_BUILD:-$top/build-tests}
mkdir -p "$build/logs" || exit 1
PYTHON=${PYTHON:-/usr/bin/python3}
[ -x "$PYTHON" ] || PYTHON=python3
export PYTHON
unset PYTHONPATH MAKEFLAGS CFLAGS CPPFLAGS LDFLAGS
jobs=$(nproc 2>/dev/null || echo 2)
passed=0 failed=0

# step NAME COMMAND...: runs it, keeps its output in a log, shows it when it fails, and notes the time.
step() {
    name=$1
    shift
    log=$build/logs/$(echo "$name" | tr -c 'A-Za-z0-9\n' '-').log
    begin=$(date +%s.%N)
    if ("$@") >"$log" 2>&1; then
        passed=$((passed + 1)) state=ok
    else
        failed=$((failed + 1)) state=FAILED
        sed 's/^/    /' "$log" | tail -n 60
    fi
    seconds=$(echo "$begin $(date +%s.%N)" | awk '{printf "%.1f", $2 - $1}')
    printf '%-8s %7s s  %s\n' "$state" "$seconds" "$name"
    echo "$seconds $name" >>"$build/logs/times"
    [ $state = ok ]
}

# aside LABEL COMMAND...: starts it beside the next steps, which use one core; "collect LABEL" is the step that waits for it.
aside() {
    label=$build/logs/aside-$1
    shift
    rm -f "$label.status"
    ("$@" >"$label.out" 2>&1; echo $? >"$label.status") &
}
collect() {
    while [ ! -s "$build/logs/aside-$1.status" ]; do sleep 1; done
    cat "$build/logs/aside-$1.out"
    [ "$(cat "$build/logs/aside-$1.status")" = 0 ]
}

finish() {
    echo
    echo "ten slowest:"
    sort -rn "$build/logs/times" | head -n 10 | sed 's/ / s  /;s/^/  /'
    echo
    echo "$passed passed, $failed failed"
    [ $failed -eq 0 ]
    exit
}
: >"$build/logs/times"

packages="gcc g++ clang make autoconf automake libtool pkg-config swig check libsubunit-dev libmpfr-dev libgmp-dev libgeos-dev
    libsundials-dev abigail-tools
    mandoc man-db valgrind python3 python3-dev python3-venv python3-pip python3-setuptools python3-wheel python3-numpy
    python3-scipy python3-mpmath python3-pandas python3-pytest python3-jsonschema python3-mypy mypy"
need_packages() {
    sh "$top/tests/packages.sh" $packages
}
step "packages" need_packages || finish

configured() {
    if [ ! -f configure ] || [ configure.ac -nt configure ] || [ Makefile.am -nt Makefile.in ] ||
        [ -n "$(find . -name fragment.am -newer Makefile.in -not -path './build*' | head -n 1)" ]; then
        autoreconf -i || return 1
    fi
    cd "$build" && { [ -f Makefile ] && [ Makefile -nt "$top/configure" ] ||
        "$top/configure" PYTHON="$PYTHON" --prefix="$build/prefix"; }
}
step "configure" configured || finish
step "build" make -C "$build" -j"$jobs" || finish

export abs_top_srcdir="$top" abs_top_builddir="$build"
export UNG_LIBRARY="$build/.libs/libungula.so"
if [ "$tier" = all ]; then UNG_TESTS=long; else UNG_TESTS=${UNG_TESTS:-}; fi
export UNG_TESTS
step "tests in C, of the documents and of the main job" make -C "$build" -j"$jobs" check
step "install" make -C "$build" install
export UNG_PREFIX="$build/prefix"
export PYTHONPATH="$build/bindings/python/build-package"
aside bits sh tests/abi/bits.sh
step "Python package" "$PYTHON" -m pytest -q -p no:cacheprovider "$top/bindings/python/tests"
step "wall profiles against SciPy" "$PYTHON" "$top/tests/published/test_profile.py"
step "heat of a curing film against SciPy" "$PYTHON" "$top/tests/published/test_wall_heat.py"
step "timelines against SciPy" "$PYTHON" "$top/tests/published/test_timeline.py"
step "cups against SciPy" "$PYTHON" "$top/tests/published/test_cure.py"
step "independent recomputation" "$PYTHON" "$top/tests/published/test_independent.py"
step "packing, wear, growth and mass by other routes" "$PYTHON" "$top/tests/published/test_care.py"
step "baselines of ABI and numbers: differences are reported" "$PYTHON" "$top/tests/baseline.py"
step "consumer against the installed library" sh tests/abi/consumer.sh
step "kernels vectorized" sh tests/bench/vectorized.sh
step "same bits from every compiler and width (the rest of it)" collect bits
step "address and undefined-behavior sanitizers" sh tests/sanitize.sh
step "valgrind" sh tests/valgrind.sh
unset PYTHONPATH
step "pip, from the checkout and from the source package" sh tests/docs/test_pip.sh
step "release: distcheck as an ordinary user" sh tests/distcheck.sh
if [ "$tier" = all ]; then
    step "mutation of every constant" "$PYTHON" tests/mutate.py
fi
finish
