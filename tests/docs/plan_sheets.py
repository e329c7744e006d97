"""What the tests of the main job share: running both programs, sheets and their variants, and reading the plan.

abs_top_srcdir and abs_top_builddir say where things are; without them, the place of this module and the current
folder.  plan.py runs with this Python, and the package of the build or of PYTHONPATH; UNG_NO_PYTHON=1 leaves it out
(builds without Python).
"""
import io
import json
import math
import os
import re
import subprocess
import sys
import tempfile
import time

HERE = os.path.dirname(os.path.abspath(__file__))
SOURCE = os.environ.get("abs_top_srcdir", os.path.join(HERE, "..", ".."))
BUILD = os.environ.get("abs_top_builddir", os.getcwd())
EXAMPLES = os.path.join(SOURCE, "examples")
PYTHON = os.environ.get("UNG_NO_PYTHON") != "1"
PACKAGE = os.path.join(BUILD, "bindings", "python", "build-package")
if os.path.isdir(PACKAGE):
    os.environ["PYTHONPATH"] = os.pathsep.join(filter(None, [PACKAGE, os.environ.get("PYTHONPATH")]))
    sys.path.insert(0, PACKAGE)
BUILT = [os.path.join(BUILD, "examples", *place) for place in ((".libs", "plan"), ("plan",))]
if os.path.exists(BUILT[0]):  # libtool's script around it takes longer than the plan
    os.environ["LD_LIBRARY_PATH"] = os.pathsep.join(filter(None, [os.path.join(BUILD, ".libs"),
                                                                  os.environ.get("LD_LIBRARY_PATH")]))
PROGRAMS = {"plan.c": [os.environ.get("PLAN", next(filter(os.path.exists, BUILT), BUILT[1]))]}
if PYTHON:
    sys.path.insert(0, EXAMPLES)
    PROGRAMS["plan.py"] = [sys.executable, "-B", os.path.join(EXAMPLES, "plan.py")]
DESCRIBE = os.environ.get("DESCRIBE", os.path.join(BUILD, "bindings", "describe"))
DESCRIBED = json.loads(subprocess.check_output([DESCRIBE]))
CONTRACTS = {c["name"]: c for c in DESCRIBED["calculations"]}
STEPS = {step["name"]: step["calculation"] for step in DESCRIBED["plan"]["steps"]}
ASKED = {each["field"]["name"]: each for each in DESCRIBED["plan"]["inputs"]}
OUTLINE = {"fit": "outline_fit", "band": "outline_band", "profile": "wall_profile", "left": "screw_layout",
           "right": "screw_layout"}  # steps before the plan, on a traced outline
SIDES = ("left", "right")

checks = failures = 0
planned, beside = {}, {}  # plans by sheet, trace and arguments; the trace of each folder


def check(holds, what):
    global checks, failures
    checks += 1
    if not holds:
        failures += 1
        print("FAILED:", what)


def main(name, *tests):
    """Runs each test with a folder for its sheets; exit status 1 where one failed."""
    began = time.time()
    if PYTHON and subprocess.call([sys.executable, "-c", "import ungula"]):
        print("the Python package ungula is not there: set PYTHONPATH, or UNG_NO_PYTHON=1 in a build without it")
        sys.exit(1)
    with tempfile.TemporaryDirectory() as folder:
        for test in tests:
            write(folder, sample("traced.csv"))
            test(folder)
    print(f"{name}: {checks} checks, {failures} failures ({', '.join(PROGRAMS)}; {time.time() - began:.0f} s)")
    sys.exit(1 if failures else 0)


# Running

def runs(*arguments, **options):
    """All programs at once: status, standard output and error of each."""
    begun = {name: subprocess.Popen(command + list(arguments), stdout=subprocess.PIPE, stderr=subprocess.PIPE, **options)
             for name, command in PROGRAMS.items()}
    results = {}
    for name, process in begun.items():
        out, err = process.communicate(timeout=60)
        results[name] = process.returncode, out, err
    return results


def here(*arguments):
    """plan.py in this process, which saves its start: status, standard output and error."""
    import plan
    kept, both_ = (sys.stdout, sys.stderr), [io.TextIOWrapper(io.BytesIO(), "utf-8", "surrogateescape") for _ in "oe"]
    sys.stdout, sys.stderr = both_
    try:
        status = plan.main(list(arguments))
    finally:
        sys.stdout, sys.stderr = kept
    for stream in both_:
        stream.flush()
    return (status, *(stream.buffer.getvalue() for stream in both_))


def plans(data, folder, *arguments):
    """Each program's status, output and error for a sheet given as bytes or text; its file is called FILE.  The same
    sheet is planned once."""
    path, key = os.path.join(folder, "foot.sheet"), (data, beside.get(folder), arguments)
    if key not in planned:
        with open(path, "wb") as file:
            file.write(data if isinstance(data, bytes) else data.encode())
        begun = subprocess.Popen([*PROGRAMS["plan.c"], *arguments, path], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        results = {"plan.py": here(*arguments, path)} if PYTHON else {}
        out, err = begun.communicate(timeout=60)
        results["plan.c"] = begun.returncode, out, err
        planned[key] = {name: (status, *(text.replace(path.encode(), b"FILE").decode() for text in texts))
                        for name, (status, *texts) in results.items()}
    return planned[key]


def quick(data, folder, *arguments):
    """Status and output of plan.c alone, for what both print alike elsewhere."""
    path = os.path.join(folder, "foot.sheet")
    with open(path, "w", encoding="utf-8") as file:
        file.write(data)
    done = subprocess.run([*PROGRAMS["plan.c"], *arguments, path], stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE, timeout=60)
    return done.returncode, done.stdout.decode()


def both(data, folder, what, status):
    """The plan, which C and Python print alike."""
    results = plans(data, folder)
    check(len(set(results.values())) == 1, f"{what}: plan.c and plan.py print the same")
    got, out, err = results["plan.c"]
    check(got == status, f"{what}: status {got} instead of {status}: {err}")
    check(not err or got == 2, f"{what}: nothing is told beside the plan: {err}")
    check(out.startswith("STOP  ") == (got == 1), f"{what}: a stop comes first: {out[:60]}")
    return out


def no_constant(name):
    raise AssertionError("%s is no JSON" % name)


def document(data, folder, what, status):
    """The plan as JSON: C and Python may set it otherwise, and say the same."""
    results = plans(data, folder, "--json")
    read = {}
    for name, (got, out, err) in results.items():
        check(got == status and not err, f"{name}, {what}: status {got} instead of {status}: {err}")
        read[name] = json.loads(out, parse_constant=no_constant)
    check(all(each == read["plan.c"] for each in read.values()), f"{what}: plan.c and plan.py write the same JSON")
    for each in read.values():
        order = [list(each)] + [list(each[key]) for key in ("units", "inputs", "steps")]
        first = read["plan.c"]
        check(order == [list(first)] + [list(first[key]) for key in ("units", "inputs", "steps")], f"{what}: order")
    return read["plan.c"]


def refused(data, folder, expected, number=None):
    """Both programs: status 2, no plan, the same message, which holds what is expected and the line's number."""
    results = plans(data, folder)
    for program, (status, out, err) in results.items():
        label = f"{program}: {expected}"
        check(status == 2 and out == "", f"{label}: status {status}, {out[:40]!r}")
        check(all(re.match(r"FILE:\d+: [ -~]+: [ -~]+$", text) for text in err.splitlines()), f"{label}: form: {err!r}")
        check(any(expected in text and (number is None or text.startswith(f"FILE:{number}: "))
                  for text in err.splitlines()), f"{label} (line {number}): not in {err!r}")
    check(len(set(results.values())) == 1, f"{expected}: plan.c and plan.py say the same: {results}")
    return results["plan.c"][2]


# Sheets

def sample(name):
    with open(os.path.join(EXAMPLES, name), encoding="utf-8") as file:
        return file.read()


def write(folder, text):
    with open(os.path.join(folder, "traced.csv"), "wb") as file:
        file.write(text if isinstance(text, bytes) else text.encode())
    beside[folder] = text


def without(text, *names):
    return "".join(line for line in text.splitlines(keepends=True) if not line.startswith(names))


def unit(name):
    own = name.rpartition(".")[2]
    if own in ASKED:
        return ASKED[own]["field"]["unit"]
    return next((f["unit"] for c in CONTRACTS.values() for f in c["inputs"] if f["name"] == own), "")


def with_values(text, **values):
    """The sheet with other values, in place of the lines of their names or at the end; None: without."""
    for name, value in values.items():
        text = "".join(line for line in text.splitlines(keepends=True) if not re.match(rf"{name} *=", line))
        text += f"{name} = {value:.15g} {unit(name)}".rstrip() + "\n" if value is not None else ""
    return text


def with_tasks(text, *tasks):
    """Low, likely and high durations of the six tasks."""
    names = ("mix", "lay", "place", "drive", "wrap", "smooth")
    return with_values(text, **{f"{name}_{which}_s": value for name, three in zip(names, tasks)
                                for which, value in zip(("low", "likely", "high"), three)})


def values(text):
    """A second, simpler reader of good sheets."""
    found = {}
    for name, value, unit_ in re.findall(r"^([\w.]+) *= *([+-]?[\d.]+) *(\w*)", text, re.M):
        calculation, _, field = name.rpartition(".")
        own = next((key for key, each in ASKED.items() if (each["of"], each["original"]) == (calculation, field)), name)
        found[own] = float(value) * (25.4 if unit_ == "in" else 1)
    return found


# Reading the plan

def flat(text):
    return " ".join(text.split())


def section(out, title):
    """The lines under a title; none where it is not there."""
    parts = re.split(rf"(?:^|\n\n){re.escape(title)}\n", out)
    return parts[1].split("\n\n")[0] if len(parts) == 2 else ""


def head(out):
    """What stands before the plan: the stops."""
    return out.split("Plan from ")[0]


def printed(out):
    """Step to row to the text of its number, of all steps that the text tells."""
    found = {}
    for name, c in CONTRACTS.items():
        part = section(out, f"{name}: {c['title']}")
        if not part:
            continue
        lines = part.splitlines()
        columns = lines.pop(0).split() if re.match(" {28}", lines[0]) else [name]
        known = {f["name"] for f in c["inputs"] + c["outputs"]}
        for line in lines:
            row = line[2:28].strip()
            if row not in known or line[:2] != "  ":
                continue
            for i, column in enumerate(columns):
                found.setdefault(column, {})[row] = line[28 + 13 * i:28 + 13 * (i + 1)].strip()
    return found


def numbers(out, step):
    """Row to number of one step, without those that are not told."""
    return {row: math.inf if text == "endless" else float(text) for row, text in printed(out).get(step, {}).items()
            if text != "-"}


def near(text, value, method=0.0):
    """A printed number against a recomputed one: half its last digit, and what the recomputation's own method may be
    off by, of the value."""
    if value is None or text in ("-", "endless"):
        return (text == "-") == (value is None or value != value) and (text == "endless") == (value == math.inf)
    digits = len(text.partition(".")[2])
    return abs(float(text) - value) <= 0.5000001 * 10**-digits + method * max(1, abs(value))


def cautions(out):
    """Severity and step.code of each, in the order of the text."""
    return re.findall(r"^  (stop|warn|note)  (\w+\.\w+) \(\w+\)$", section(out, "Cautions, the most severe first"), re.M)


def stops(out):
    """Each stop: step.code, and the changes of which each would lift it: name, now, then, and how much."""
    found = []
    for part in re.split(r"^STOP  ", head(out), flags=re.M)[1:]:
        changes = re.findall(r"^    (\w+) +(\S+) -> (\S+)(?: [^ ()]+)? \((\S+).*? (?:less|more)\)", part, re.M)
        cause = re.search(r"Value on the sheet that causes it: (\w+) = (\S+).* \(line (\d+)\)", part)
        found.append((part.split(" ")[0], cause and cause.groups(),
                      [(name, float(now), float(then), float(by)) for name, now, then, by in changes]))
    return found


def gaits(out):
    """The strengths needed: (gait, name) to the text of the number."""
    title = re.search(r"^Strengths needed at each gait, with divisor_ratio .*$", out, re.M)
    if not title:
        return {}
    lines = section(out, title[0]).splitlines()
    columns = lines[0].split()
    return {(gait, line[2:28].strip()): line[28 + 13 * i:28 + 13 * (i + 1)].strip()
            for line in lines[1:] for i, gait in enumerate(columns)}


def layout(out, side):
    """Rows of the screws of one side: from_toe, side_fraction, inset, tilt, margin, limit; the texts."""
    part = section(out, f"screw_layout: {CONTRACTS['screw_layout']['title']}")
    rows = part.split(f"\n  {side}: places ")[1].split("\n  screw ")[1].splitlines()[1:]
    found = []
    for row in rows:
        if not re.match(r" +\d+ ", row):
            break
        found.append(row.split()[1:])
    return found
