#!/bin/sh
# Each header alone, as C11 and as C++17, with every compiler at hand, without a warning.
# shellcheck disable=SC2086
set -eu
src=${abs_top_srcdir:-$(cd "$(dirname "$0")/../.." && pwd)}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
failed=0 tried=0
warnings='-pedantic -Wall -Wextra -Wconversion -Wshadow -Werror'
for header in ungula.h $(cd "$src/include" && ls ungula/*.h); do
    echo "#include <$header>" >"$work/alone.c"
    echo "#include <$header>" >>"$work/alone.c" # twice: the guards hold
    echo 'int alone(void); int alone(void) { return 0; }' >>"$work/alone.c"
    cp "$work/alone.c" "$work/alone.cc"
    for compiler in gcc clang; do
        command -v $compiler >/dev/null || continue
        tried=1
        $compiler -std=c11 $warnings -Wstrict-prototypes -I"$src/include" -c "$work/alone.c" -o "$work/alone.o" ||
            { echo "$header: $compiler, C11"; failed=1; }
    done
    for compiler in g++ clang++; do
        command -v $compiler >/dev/null || continue
        $compiler -std=c++17 $warnings -I"$src/include" -c "$work/alone.cc" -o "$work/alone.o" ||
            { echo "$header: $compiler, C++17"; failed=1; }
    done
done
# The columns' macros and a typed call in both languages.
cat >"$work/use.c" <<'END'
#include <ungula.h>
int use(double *a, ung_heel_bevel_in *in, ung_heel_bevel_out *out);
int use(double *a, ung_heel_bevel_in *in, ung_heel_bevel_out *out)
{
    ung_column columns[] = {UNG_COLUMN(a), UNG_CONSTANT(a), UNG_MEMBER(in, bevel_run_mm)};
    ung_target targets[] = {UNG_TARGET(a), UNG_TARGET_MEMBER(out, rise_mm)};
    in[0] = ung_heel_bevel_standard();
    return (int)ung_heel_bevel(in, out, 0) + (columns[0].base == targets[0].base);
}
END
cp "$work/use.c" "$work/use.cc"
for compiler in gcc clang; do
    command -v $compiler >/dev/null || continue
    $compiler -std=c11 $warnings -I"$src/include" -c "$work/use.c" -o "$work/use.o" || failed=1
    # A result that is not looked at is warned about.
    sed 's/return (int)ung_heel_bevel(in, out, 0) +/ung_heel_bevel(in, out, 0); return/' "$work/use.c" >"$work/unused.c"
    if $compiler -std=c11 $warnings -I"$src/include" -c "$work/unused.c" -o "$work/use.o" 2>/dev/null; then
        echo "$compiler: an unused status is not warned about"
        failed=1
    fi
done
for compiler in g++ clang++; do
    command -v $compiler >/dev/null || continue
    $compiler -std=c++17 $warnings -I"$src/include" -c "$work/use.cc" -o "$work/use.o" || failed=1
done
[ $tried = 1 ] || { echo "no compiler found"; exit 77; }
exit $failed
