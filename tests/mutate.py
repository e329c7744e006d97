#!/usr/bin/env python3
"""Changes each number of the formulas in turn and lists what no test notices.

Every numeric literal of the formula part of lib/<room>/*.c and lib/shape/outline.h is changed by 1 % (0 becomes
0.01; the number of a refusal becomes the next), and so is every limit of a caution.  The changed file alone is compiled and put before the library, and the
room's own tests, the laws and the boundaries are run at their shortest.  A change that passes them all survives.

    python3 tests/mutate.py [-j JOBS] [FILE ...]      exit status 1 if a survivor is not explained below
"""
import argparse
import concurrent.futures
import glob
import os
import re
import subprocess
import sys
import tempfile

TOP = os.environ.get("abs_top_srcdir") or os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
CC = os.environ.get("UNG_MUTATE_CC", "gcc")
FLAGS = ["-std=gnu11", "-O1", "-fno-math-errno", "-fno-trapping-math", "-ffp-contract=off", "-fopenmp-simd",
         "-DUNG_BUILDING", '-DUNG_VERSION="0"', "-w"]

CHECK_LIBS = subprocess.run(["pkg-config", "--libs", "check"], stdout=subprocess.PIPE,
                            check=True).stdout.decode().split()

# Lines (by a piece of their text) and the literal on them that may survive, with the reason.
EXPLAINED = [
    # (file, piece of the line, literal or None for every literal on it, reason)
    ("lib/bevel/heel_bevel.c", "wrapped_before_count > 0.5", "0.5", "between 0 and 1 any number tells them apart"),
    ("lib/bevel/heel_bevel.c", "some_run = run > 0", "1", "a divisor whose quotient is not used"),
    ("lib/bevel/heel_bevel.c", "safe_rest = rest > 0", "1", "a divisor whose quotient is not used"),
    ("lib/bond/glue_volume.c", "each - 1e-9", "1e-9", "any number far below a pack and far above a rounding does"),
    ("lib/bond/glue_volume.c", "inverse = 1 / (each > 0 ? each : 1)", "1", "a divisor whose quotient is not used"),
    ("lib/cast/cast_length.c", "roll_length_mm - 1e-9", "1e-9", "any number far below a roll and far above a rounding does"),
    ("lib/cast/cast_length.c", "ung__abs(u) < 1e-8", None, "both ways agree there to the last digit; a divisor that is not used"),
    ("lib/screw/screw_depth.c", "double l1 = ung__clamp", "0", "any point of the axis may be looked at; its ends are"),
    ("lib/screw/screw_depth.c", "far = 1e9", "1e9", "any number above the height limit does"),
    ("lib/screw/screw_depth.c", "some = closing != 0", "1", "a divisor whose quotient is not used"),
    ("lib/screw/screw_depth.c", "even = apart / (rate != 0", "1", "a divisor whose quotient is not used"),
    ("lib/screw/screw_depth.c", "1e-12", "1e-12", "any number far above a rounding and below the stated accuracy does"),
    ("lib/screw/screw_depth.c", "some = closing != 0", "0", "exactly parallel: the quotient is not used"),
    ("lib/screw/screw_depth.c", "even = apart / (rate != 0", "0", "exactly parallel: any point of the axis does"),
    ("lib/screw/screw_depth.c", "shoe_thickness_mm ? 0 : 1", "1", "the only relation there is"),
    ("lib/shape/outline_standard.c", "convexity > 0 ? 0 : 1", "1", "the only relation there is"),
    ("lib/shape/hoof_band.c", "1 + w.b * cot_toe", "1", "as 1 + b cot toe = (L - heel (cot toe - cot heel))/top_length, "
     "relation 4 has refused it before; likewise for the heel"),
    ("lib/shape/hoof_band.c", "1 + w.b * cot_toe", "0", "the same for its right side; that of top_length is tested"),
    ("lib/shape/hoof_band.c", "for (int side", None, "a whole number: 1 % does not change it"),
    ("lib/shape/hoof_band.c", "ung__closed_curve(", None, "a whole number: 1 % does not change it"),
    ("lib/shape/outline_standard.c", "ung__closed_curve(", None, "a whole number: 1 % does not change it"),
    ("lib/shape/hoof_band.c", "upper_layer_mm >= 60", "60", "no depth is above 60, so the least of both is the depth"),
    ("lib/shape/hoof_band.c", "out.shoe_area_mm2 = low < 0", "0", "a belt that begins above the shoe has no depth on it"),
    ("lib/shape/outline.h", "least = ung__outline_bend(o, -1)", "1", "where the search begins"),
    ("lib/shape/outline.h", "c = -1 + 2.0 * i / SAMPLES", None, "where the search samples"),
    ("lib/shape/outline.h", "step = ", None, "how the search narrows"),
    ("lib/shape/outline.h", "left = ung__max(at - step", None, "how far beside the ends the search may look"),
    ("lib/shape/outline.h", "half_scale > 0 ? o.convexity : -1", None, "any negative number refuses"),
]

# A literal after which the number counts something: an index, a list's row, a kind of refusal.  Changed by 1 % these
# do not compile or mean the same; what they stand for is tested by its own tests.
NOT_NUMBERS = re.compile(r"\[\s*$|(?:refusal|row|result|value|rows|data|g|lane)\[[^\]]*$")
LITERAL = re.compile(r"(?<![\w.])(\d+\.\d*(?:[eE][-+]?\d+)?|\.\d+(?:[eE][-+]?\d+)?|\d+[eE][-+]?\d+|\d+)(?![\w.])")


def without_comments(text):
    """The same text with comments and strings blanked, so that places stay."""
    return re.sub(r"/\*.*?\*/|\"(?:\\.|[^\"\\])*\"|//[^\n]*",
                  lambda m: re.sub(r"[^\n]", " ", m.group()), text, flags=re.S)


def formula_places(text, bare):
    """Literals from the first function on."""
    start = re.search(r"^(?:UNG_INLINE|static)\b", bare, flags=re.M).start()
    for m in LITERAL.finditer(bare, start):
        line_start = bare.rfind("\n", 0, m.start()) + 1
        line = bare[line_start:bare.find("\n", m.start())]
        before = bare[line_start:m.start()]
        if line.lstrip().startswith("#") or NOT_NUMBERS.search(before) or "enum {" in line or "size_t" in line:
            continue
        if re.search(r"\b(?:int|for \(int) \w+ = $", before) or re.search(r"refusal = 0;|= \{0\}", line):
            continue
        statement = bare[bare.rfind(";", 0, m.start()) + 1:m.start()]
        if re.search(r"refusal = ", statement) and re.search(r"[?:]\s*$", statement):
            yield m.start(), m.end(), m.group(), str(int(m.group()) + 1)
            continue
        yield m.start(), m.end(), m.group(), changed(m.group())


def caution_places(text, bare):
    """The limit of each caution: the argument behind its comparison."""
    block = re.search(r"#define CAUTIONS\(C\)(?:.*\\\n)*.*", bare)
    for m in re.finditer(r"\b(?:BELOW|ABOVE|EQUAL), (-?[\d.]+)", block.group() if block else ""):
        yield block.start() + m.start(1), block.start() + m.end(1), m.group(1), changed(m.group(1))


def changed(literal):
    value = float(literal)
    return "0.01" if value == 0 else repr(value * 1.01)


def tests_of(path):
    room = path.split("/")[1]
    return [f"tests/unit/{room}.c", "tests/property/laws.c", "tests/unit/boundaries.c"]


def run(command, **options):
    return subprocess.run(command, cwd=TOP, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False, **options)


def must(command):
    done = run(command)
    if done.returncode:
        sys.exit("%s\n%s" % (" ".join(command), done.stdout.decode()))


def objects_of(source, directory, include=()):
    target = os.path.join(directory, re.sub(r"\W", "_", source) + ".o")
    return target, [CC, *FLAGS, *(f"-I{i}" for i in include), "-Ilib", "-Iinclude", "-c", source, "-o", target]


def link_command(program, test, mutants, shared):
    return [CC, test, *mutants, os.path.join(shared, "library.a"), "-o", program, *CHECK_LIBS, "-lm"]


def prepare(directory):
    """The library and the test programs' objects, once."""
    members = []
    for source in sorted(glob.glob("lib/*/*.c", root_dir=TOP)):
        target, command = objects_of(source, directory)
        must(command)
        members.append(target)
    must(["ar", "cr", os.path.join(directory, "library.a"), *members])
    tests = {t for f in mutable_files() for t in tests_of(f)}
    for test in sorted(tests):
        target, command = objects_of(test, directory)
        must([*command, "-UUNG_BUILDING"])
        program = os.path.join(directory, "test")
        must(link_command(program, target, [], directory))
        if run([program], env={**os.environ, "UNG_TESTS": "short"}).returncode:
            sys.exit(f"{test} fails before anything is changed")


def mutable_files():
    found = sorted(glob.glob("lib/*/*.c", root_dir=TOP)) + ["lib/shape/outline.h"]
    return [f for f in found if not f.startswith("lib/core/")]


def try_one(job):
    """Whether some test fails: True, False, or the reason why it could not be tried."""
    shared, path, start, end, _, instead = job
    with open(os.path.join(TOP, path), encoding="ascii") as file:
        text = file.read()
    with tempfile.TemporaryDirectory() as directory:
        mutant = os.path.join(directory, path[4:])
        os.makedirs(os.path.dirname(mutant))
        with open(mutant, "w", encoding="ascii") as file:
            file.write(text[:start] + instead + text[end:])
        users = [mutant]
        if path.endswith(".h"):
            users = [f for f in mutable_files() if f.endswith(".c") and
                     f'"{path[4:]}"' in open(os.path.join(TOP, f), encoding="ascii").read()]
        built = []
        for user in users:
            target, command = objects_of(user, directory, [directory])
            if run(command).returncode:
                return "does not compile"
            built.append(target)
        for test in tests_of(path):
            program = os.path.join(directory, "test")
            test_object = os.path.join(shared, re.sub(r"\W", "_", test) + ".o")
            must(link_command(program, test_object, built, shared))
            try:
                done = run([program], env={**os.environ, "UNG_TESTS": "short"}, timeout=120)
            except subprocess.TimeoutExpired:
                return True
            if done.returncode:
                return True
        return False


def explanation(path, line, literal):
    for file, piece, which, reason in EXPLAINED:
        if file == path and piece in line and which in (None, literal):
            return reason
    return None


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("-j", type=int, default=2)
    parser.add_argument("files", nargs="*")
    options = parser.parse_args()
    unexplained = 0
    with tempfile.TemporaryDirectory() as shared:
        prepare(shared)
        jobs = []
        for path in options.files or mutable_files():
            with open(os.path.join(TOP, path), encoding="ascii") as file:
                text = file.read()
            bare = without_comments(text)
            places = list(formula_places(text, bare)) + list(caution_places(text, bare))
            jobs += [(shared, path, *place) for place in places]
        survivors = explained = 0
        with concurrent.futures.ThreadPoolExecutor(options.j) as pool:
            for job, found in zip(jobs, pool.map(try_one, jobs)):
                _, path, start, _, literal, _ = job
                if found is True or found == "does not compile":
                    continue
                with open(os.path.join(TOP, path), encoding="ascii") as file:
                    text = file.read()
                number = text.count("\n", 0, start) + 1
                line = text.splitlines()[number - 1]
                reason = explanation(path, line, literal)
                survivors += 1
                explained += reason is not None
                column = start - text.rfind("\n", 0, start)
                print(f"{path}:{number}:{column}: {literal} survives"
                      f"{': ' + reason if reason else ''}\n    {line.strip()}", flush=True)
    unexplained = survivors - explained
    print(f"{len(jobs)} numbers changed, {survivors} survive, {unexplained} without an explanation")
    return 1 if unexplained else 0


if __name__ == "__main__":
    sys.exit(main())
