#!/usr/bin/env python3
"""What this version changes against the stored baselines: interfaces and struct layouts, and numbers.

    python3 tests/baseline.py            reports the differences
    python3 tests/baseline.py --store    makes today's the baselines, with each release

The baselines are tests/baseline/libungula.abi, made by abidw, and numbers.txt, made by numbers.c.  Changed numbers are
reported and are no failure: a baseline tells what was, not what is right.  Exit status 1 where a comparison could not
be made, or where an interface was removed or changed although the soname stayed."""
import math
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

TOP = pathlib.Path(os.environ.get("abs_top_srcdir") or pathlib.Path(__file__).resolve().parents[1])
BUILD = pathlib.Path(os.environ.get("abs_top_builddir") or pathlib.Path.cwd())
ABI, NUMBERS = TOP / "tests/baseline/libungula.abi", TOP / "tests/baseline/numbers.txt"
LIBRARY, ARCHIVE = BUILD / ".libs/libungula.so", BUILD / ".libs/libungula.a"
HARMFUL = 8  # abidiff: an incompatible change; 1 and 2: it could not compare; 4: something differs


def interfaces():
    """Description of the shared library, without the names of places on this machine."""
    command = ["abidw", "--headers-dir", str(TOP / "include"), "--drop-private-types", "--no-show-locs",
               "--no-corpus-path", "--no-comp-dir-path", "--exported-interfaces-only", str(LIBRARY)]
    return subprocess.run(command, check=True, stdout=subprocess.PIPE).stdout.decode()


def numbers():
    with tempfile.TemporaryDirectory() as folder:
        program = str(pathlib.Path(folder) / "numbers")
        command = [os.environ.get("CC", "gcc"), "-O1", f"-I{TOP / 'include'}", str(TOP / "tests/baseline/numbers.c"),
                   str(ARCHIVE), "-lm", "-o", program]
        subprocess.run(command, check=True)
        return subprocess.run([program], check=True, stdout=subprocess.PIPE).stdout.decode()


def table(text):
    """{(calculation, point, field): value or word}"""
    found, name, fields, point = {}, "", [], 0
    for line in text.splitlines():
        if line.startswith("= "):
            _, name, *fields = line.split()
            point = 0
            continue
        words = line.split()
        if re.match("[a-z]+", line) and not re.match("(inf|nan)", line):
            found[name, point, ""] = line
        else:
            found.update({(name, point, field): float(word) for field, word in zip(fields, words)})
        point += 1
    return found


def change(old, new):
    """Relative; infinite where one is a word or has no end."""
    if old == new or (old != old and new != new):
        return 0
    if isinstance(old, str) or isinstance(new, str) or not (math.isfinite(old) and math.isfinite(new)):
        return math.inf
    return abs(new - old) / max(abs(old), abs(new))


def report_numbers(old, new):
    gone, added = sorted(set(old) - set(new)), sorted(set(new) - set(old))
    moved = sorted(((change(old[key], new[key]), key) for key in set(old) & set(new)), reverse=True)
    moved = [(by, key) for by, key in moved if by]
    print(f"numbers: {len(old)} stored, {len(moved)} changed, {len(added)} added, {len(gone)} gone")
    for what, keys in (("added", added), ("gone", gone)):
        if keys:
            print(f"  {what}: " + ", ".join(sorted({f"{name}.{field}" if field else name for name, _, field in keys})[:8]))
    for name in sorted({key[0] for _, key in moved}):
        of_it = [by for by, key in moved if key[0] == name]
        print(f"  {name}: {len(of_it)} changed, by {of_it[0]:.2g} of the value at most")
    for by, (name, point, field) in moved[:3]:
        key = name, point, field
        print(f"  most: {name}.{field} at point {point}: {old[key]!r} was, {new[key]!r} is")


def report_interfaces():
    """True where what was compiled against the baseline would break although it would be loaded."""
    command = ["abidiff", "--headers-dir2", str(TOP / "include"), "--drop-private-types", str(ABI), str(LIBRARY)]
    done = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT)
    text = done.stdout.decode()
    print("interfaces: " + ("as stored" if done.returncode == 0 else "changed"))
    print("".join(f"  {line}\n" for line in text.splitlines()[:40] if line.strip()), end="")
    if done.returncode & 3:
        sys.exit("abidiff could not compare")
    soname = re.search(r"soname='([^']*)'", ABI.read_text())
    now = subprocess.run(["objdump", "-p", str(LIBRARY)], check=True, stdout=subprocess.PIPE).stdout.decode()
    same = soname is not None and soname[1] in now
    return bool(done.returncode & HARMFUL) and same


def main(arguments):
    for tool in ("abidw", "abidiff"):
        if not shutil.which(tool):
            sys.exit(f"{tool} is missing (Debian: abigail-tools)")
    if arguments == ["--store"]:
        ABI.write_text(interfaces())
        NUMBERS.write_text(numbers())
        print(f"stored {ABI.name} and {NUMBERS.name}")
        return 0
    if arguments:
        sys.exit(__doc__)
    report_numbers(table(NUMBERS.read_text()), table(numbers()))
    broken = report_interfaces()
    if broken:
        print("what was compiled against the baseline breaks: a new soname is due (UNG_LT_VERSION in configure.ac)")
    return int(broken)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
