#!/usr/bin/env python3
"""The main job: both sample sheets through plan.c and plan.py, every kind of bad sheet, and the plan's numbers against
an independent recomputation.

abs_top_srcdir and abs_top_builddir say where things are; without them, the place of this script and the current
folder.  plan.py runs with this Python, and the package of the build or of PYTHONPATH; UNG_NO_PYTHON=1 leaves it out
(builds without Python).
"""
import json
import math
import os
import re
import subprocess
import sys
import tempfile
import time

import numpy as np
from scipy.integrate import quad

HERE = os.path.dirname(os.path.abspath(__file__))
SOURCE = os.environ.get("abs_top_srcdir", os.path.join(HERE, "..", ".."))
BUILD = os.environ.get("abs_top_builddir", os.getcwd())
EXAMPLES = os.path.join(SOURCE, "examples")
PROGRAMS = {"plan.c": [os.environ.get("PLAN", os.path.join(BUILD, "examples", "plan"))]}
if os.environ.get("UNG_NO_PYTHON") != "1":
    PROGRAMS["plan.py"] = [sys.executable, "-B", os.path.join(EXAMPLES, "plan.py")]
PACKAGE = os.path.join(BUILD, "bindings", "python", "build-package")
if os.path.isdir(PACKAGE):
    os.environ["PYTHONPATH"] = os.pathsep.join(filter(None, [PACKAGE, os.environ.get("PYTHONPATH")]))
DESCRIBE = os.environ.get("DESCRIBE", os.path.join(BUILD, "bindings", "describe"))
CONTRACTS = {c["name"]: c for c in json.loads(subprocess.check_output([DESCRIBE]))["calculations"]}
USED = ["hoof_band", "wall_from_border", "screw_depth", "glue_volume", "cast_length", "heel_bevel"]
HOLD = ["limb_load", "screw_gauge", "wood_species", "screw_hold", "bond_hold", "hold"]  # numbers: test_plan_hold.py
TIMING = ["working_time", "cup_cure", "cast_set", "job_timeline"]  # numbers: test_plan_timing.py

checks = failures = 0


def check(holds, what):
    global checks, failures
    checks += 1
    if not holds:
        failures += 1
        print("FAILED:", what)


def run(program, *arguments, **options):
    done = subprocess.run(PROGRAMS[program] + list(arguments), stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                          timeout=60, **options)
    return done.returncode, done.stdout, done.stderr


def plan(data, folder, program="plan.c"):
    """Status, standard output and error of a sheet given as bytes or text; the file's name does not matter."""
    path = os.path.join(folder, "foot.sheet")
    with open(path, "wb") as file:
        file.write(data if isinstance(data, bytes) else data.encode())
    status, out, err = run(program, path)
    return status, out.replace(path.encode(), b"FILE").decode(), err.replace(path.encode(), b"FILE").decode()


def without(text, *names):
    return "".join(line for line in text.splitlines(keepends=True) if not line.startswith(names))


def both(data, folder, what, status):
    """The plan, which C and Python print alike."""
    results = {p: plan(data, folder, p) for p in PROGRAMS}
    check(len(set(results.values())) == 1, f"{what}: plan.c and plan.py print the same")
    check(results["plan.c"][0] == status, f"{what}: status {results['plan.c'][0]} instead of {status}: "
          f"{results['plan.c'][2]}")
    return results["plan.c"][1]


def sample(name):
    with open(os.path.join(EXAMPLES, name)) as file:
        return file.read()


def values(text):
    """A second, simpler reader of good sheets."""
    found = {}
    for name, value, unit in re.findall(r"^([\w.]+) *= *(\S+) *(\w*)", text, re.M):
        found[name] = float(value) * (25.4 if unit == "in" else 1)
    return found


def given(text, calculation):
    """Inputs of a calculation: the sheet, otherwise the standard value."""
    sheet = values(text)
    return {f["name"]: sheet.get(f"{calculation}.{f['name']}", sheet.get(f["name"], f["standard"]))
            for f in CONTRACTS[calculation]["inputs"]}


def printed(out, calculation):
    """Numbers of a calculation's rows in the plan."""
    title = CONTRACTS[calculation]["title"]
    part = out.split(f"  {calculation}: {title}\n")[1].split("\n\n")[0]
    part = re.split(r"\n  \w+: ", part)[0]
    return {name: float(value) for name, value in re.findall(r"^  (\w+) +(-?[\d.]+|inf) ", part, re.M)}


def compare(out, calculation, expected, method):
    """Half a unit of the last printed digit, and what the recomputation's own method may be off by."""
    rows = printed(out, calculation)
    for name, value in expected.items():
        decimals = 0 if name.endswith(("_mm2", "_count")) else 1 if name.endswith("_ml") else 2
        check(name in rows and abs(rows[name] - value) <= 0.5 * 10**-decimals + method * max(1, abs(value)),
              f"{calculation}.{name} is {rows.get(name)}, recomputed {value}")


# Independent recomputation

def cot(degrees):
    return 1 / math.tan(math.radians(degrees))


def band(f):
    """Belt round the hoof as a fine mesh: lengths of polygons and areas of flat cells.  With 3000 x 60 cells both are
    within 1e-6 of the smooth surface (halving the cells changes the last digit of 1e-6)."""
    length, width = f["hoof_length_mm"], f["hoof_width_mm"]

    def basis(t):
        return np.array([math.sin(t) * math.cos(k * t) for k in range(4)])

    def slope(t):
        return np.array([math.cos(t) * math.cos(k * t) - k * math.sin(t) * math.sin(k * t) for k in range(4)])

    widest = math.acos(1 - 2 * f["widest_fraction"])
    k = np.linalg.solve([basis(widest), slope(widest), basis(math.acos(-0.8)), basis(math.acos(0.8))],
                        [1, 0, f["heel_width_fraction"], f["toe_width_fraction"]])
    t = np.linspace(0, 2 * np.pi, 3001)
    x = length / 2 * np.cos(t)
    y = width / 2 * np.sin(t) * sum(k[n] * np.cos(n * t) for n in range(4))
    toe, heel, side = cot(f["toe_angle_deg"]), cot(f["heel_angle_deg"]), cot(f["quarter_angle_deg"])
    ht, hh, low = f["high_toe_mm"], f["high_heel_mm"], f["low_mm"]

    def point(z):
        return np.array([x * (1 - z * (toe - heel) / length) - z * (toe + heel) / 2, y * (1 - 2 * z * side / width), z])

    # Height at which each fiber meets the plane through both heights: bisection, not the closed form.
    x_toe, x_heel = point(np.full_like(t, ht))[0][0], point(np.full_like(t, hh))[0][1500]
    lower, upper = np.zeros_like(t), np.full_like(t, 2 * max(ht, hh))
    for _ in range(80):
        middle = (lower + upper) / 2
        plane = hh + (ht - hh) * (point(middle)[0] - x_heel) / (x_toe - x_heel)
        lower, upper = np.where(middle < plane, middle, lower), np.where(middle < plane, upper, middle)
    bottom, top = max(low, 0), lower

    def around(points):
        return np.sqrt((np.diff(points, axis=1) ** 2).sum(axis=0)).sum()

    area, steps = 0.0, 60
    for i in range(steps):
        a, b = (point(bottom + (top - bottom) * j / steps) for j in (i, i + 1))
        one, two = b[:, 1:] - a[:, :-1], b[:, :-1] - a[:, 1:]  # half the cross product of the diagonals
        area += np.sqrt((np.cross(one, two, axis=0) ** 2).sum(axis=0)).sum() / 2
    perimeter = around(point(np.zeros_like(t)))
    out = perimeter + 2 * math.pi * f["overhang_mm"]
    depth = max(-low, 0)
    upright, below = min(depth, f["upper_layer_mm"]), max(depth - f["upper_layer_mm"], 0)
    lower_edge = out - 2 * math.pi * below * math.tan(math.radians(f["edge_bevel_deg"]))
    slant = upright + below / math.cos(math.radians(f["edge_bevel_deg"]))
    shoe = out * upright + (out + lower_edge) / 2 * (slant - upright)
    high, at_bottom = around(point(top)), around(point(np.full_like(t, bottom)))
    return {"perimeter_mm": perimeter, "circumference_low_mm": lower_edge, "circumference_high_mm": high,
            "wall_area_mm2": area, "bonded_area_mm2": area * (1 - f["open_heel_fraction"]), "shoe_area_mm2": shoe,
            "covered_area_mm2": area + shoe, "slant_height_mm": area / ((at_bottom + high) / 2) + slant}


def screw(f):
    """Covers by walking along the axis in steps of a few micrometers; the longest screw by trying lengths."""
    angle, tilt = math.radians(f["wall_angle_deg"]), math.radians(f["tilt_deg"])
    radius, thick, sole = f["screw_diameter_mm"] / 2, f["wall_thickness_mm"], f["sole_horn_mm"]
    path = (f["shoe_thickness_mm"] - f["head_recess_mm"] + f["pad_mm"]) / math.cos(tilt)
    corner = sole / math.tan(angle) + thick / math.sin(angle)

    def ray(u, z, du, dz):
        along = np.maximum((u - corner) * du + (z - sole) * dz, 0)
        return np.hypot(u - corner - along * du, z - sole - along * dz)

    def covers(length):
        embedded = max(0, length - path)
        s = np.linspace(0, embedded, 20001)
        u, z = f["inset_mm"] + s * math.sin(tilt), s * math.cos(tilt)
        outward = (u - z / math.tan(angle)) * math.sin(angle)
        inside = (z > sole) & (outward > thick)
        distance = np.minimum(ray(u, z, math.cos(angle), math.sin(angle)), ray(u, z, 1, 0))
        d = np.linspace(0, f["shoe_thickness_mm"] - f["head_recess_mm"], 20001)
        from_side = f["inset_mm"] - (d + f["pad_mm"]) * math.tan(tilt) + f["overhang_mm"]
        bevel, under = math.radians(f["edge_bevel_deg"]), d - f["upper_layer_mm"]
        edge = from_side  # to the nearer side, where there is a beveled one
        if f["upper_layer_mm"] < min(60, f["shoe_thickness_mm"]):
            edge = np.minimum(edge, (from_side - under * math.tan(bevel)) * math.cos(bevel))
        return {"embedded_mm": embedded, "tip_height_mm": z[-1],
                "inner_cover_mm": np.where(inside, -distance, distance).min() - radius,
                "outer_cover_mm": outward.min() - radius,
                "white_line_cover_mm": (thick - outward)[z <= sole + 1e-12].min() - radius,
                "edge_cover_mm": edge.min() - radius}

    def margin(length):
        c = covers(length)
        return min(c["inner_cover_mm"] - f["inner_margin_mm"], c["outer_cover_mm"] - f["outer_margin_mm"],
                   c["white_line_cover_mm"] - f["white_line_margin_mm"], c["edge_cover_mm"] - f["edge_margin_mm"],
                   f["height_limit_mm"] - c["tip_height_mm"])

    low, high = path, path + 200  # both sheets keep their margins at the entry
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if margin(middle) >= 0 else (low, middle)
    return {**covers(f["screw_length_mm"]), "margin_mm": margin(f["screw_length_mm"]), "screw_length_limit_mm": low}


def glue(f):
    groove = f["groove_depth_mm"] * f["groove_width_mm"] / 2 / f["groove_spacing_mm"]
    first = (f["bonded_area_mm2"] * (f["film_mm"] + groove) + f["wood_area_mm2"] * f["wood_film_mm"]) / 1000
    top = f["top_area_mm2"] * f["top_film_mm"] / 1000
    waste, pack = 1 + f["waste_fraction"], f["pack_ml"] - f["nozzle_ml"]
    return {"net_ml": first + top, "first_coat_ml": first * waste, "top_coat_ml": top * waste,
            "mixed_ml": (first + top) * waste,
            "packs_count": math.ceil((first + top) * waste / pack),
            "packs_separate_count": math.ceil(first * waste / pack) + math.ceil(top * waste / pack)}


def tape(f):
    low, high, height, width = (f[n] for n in ("circumference_low_mm", "circumference_high_mm", "band_height_mm",
                                               "tape_width_mm"))
    advance, passes = width * (1 - f["overlap_fraction"]), int(f["passes_count"])

    def around(s):
        return low + (high - low) * s / height

    path = f["anchor_turns"] * around(width / 2)
    for number in range(passes):
        path += quad(lambda s: math.hypot(around(s) / advance, 1), width / 2, height - width / 2, epsabs=0)[0]
        path += around(height - width / 2 if number % 2 == 0 else width / 2)
    length = path / (1 + f["stretch_fraction"]) * (1 + f["waste_fraction"])
    layers = path * width / (height * (low + high) / 2)
    return {"path_length_mm": path, "tape_length_mm": length, "rolls_count": math.ceil(length / f["roll_length_mm"]),
            "layers": layers, "thickness_mm": layers * f["ply_mm"]}


def heel(f):
    """Tape before bevel, run past the lap (both sheets)."""
    run, tangent = f["bevel_run_mm"], math.tan(math.radians(f["bevel_angle_deg"]))
    start, end, lap = f["width_start_mm"], f["width_end_mm"], f["build_length_mm"]
    wood = quad(lambda s: (start + (end - start) * s / run) * s * tangent, 0, run)[0]
    tape_off = quad(lambda s: (start + (end - start) * s / run) * f["build_up_mm"], run - lap, run)[0]
    return {"rise_mm": run * tangent, "edge_left_mm": f["shoe_thickness_mm"] - run * tangent,
            "removed_ml": (wood + tape_off) / 1000, "contact_length_mm": f["ground_length_mm"] - run,
            "wedge_before_deg": math.degrees(math.atan(f["build_up_mm"] / (f["ground_length_mm"] - lap)))}


def test_numbers(name, folder):
    text = sample(name)
    out = plan(text, folder)[1]
    belt = band(given(text, "hoof_band"))
    compare(out, "hoof_band", belt, 1e-6)
    f = given(text, "screw_depth")
    if f["wall_thickness_mm"] is None:
        f["wall_thickness_mm"] = values(text)["border_width_mm"] * math.sin(math.radians(f["wall_angle_deg"]))
    # steps of 1/20000 of at most 50 mm, on axes that the faces' distance follows at most one to one
    compare(out, "screw_depth", screw(f), 2.5e-3 / 10)
    f = {**given(text, "glue_volume"), "bonded_area_mm2": belt["bonded_area_mm2"],
         "wood_area_mm2": belt["shoe_area_mm2"], "top_area_mm2": belt["covered_area_mm2"]}
    compare(out, "glue_volume", glue(f), 1e-6)  # the belt's
    f = {**given(text, "cast_length"), "circumference_low_mm": belt["circumference_low_mm"],
         "circumference_high_mm": belt["circumference_high_mm"], "band_height_mm": belt["slant_height_mm"]}
    wrap = tape(f)
    compare(out, "cast_length", wrap, 2e-6)  # the belt's, through a quotient
    f = given(text, "heel_bevel")
    f["build_up_mm"] = wrap["thickness_mm"] if f["build_length_mm"] > 0 else f["build_up_mm"]
    compare(out, "heel_bevel", heel(f), 2e-6)


# The sheets

def test_samples(folder):
    for name, status in (("routine.sheet", 0), ("stop.sheet", 1)):
        results = {p: plan(sample(name), folder, p) for p in PROGRAMS}
        for program, (got, out, err) in results.items():
            check(got == status and not err, f"{program} {name}: status {got}, {err}")
            check(out.startswith("STOP") == bool(status), f"{program} {name}: STOP comes first")
            parts = re.findall(r"^(?!Plan)([A-Z][\w ]*)(?:, the most severe first)?$", out, re.M)
            hold = ["Hold"] if "body_mass_kg" in sample(name) else []
            timing = ["Timing"] if "reference_time_s" in sample(name) else []
            check(parts == ["Belt", "Screw", "Adhesive", "Tape", "Heel bevel", *hold, *timing, "Bring", "Cautions",
                            "Always"],
                  f"{program} {name}: the parts in the order of the work: {parts}")
            found = [("stop", "warn", "note").index(w) for w in re.findall(r"^  (stop|warn|note)  ", out, re.M)]
            check(found == sorted(found), f"{program} {name}: cautions by severity")
            for c in USED + HOLD + TIMING:
                for text in CONTRACTS[c]["standing"] if f"  {c}: " in out else ():
                    check(" ".join(text.split()) in " ".join(out.split()), f"{program} {name}: says {text}")
            check(re.search(r"veterinarian and a qualified farrier decide.*\n\Z", out), f"{program} {name}: decides")
        check(len(set(results.values())) == 1, f"{name}: plan.c and plan.py print the same")
        check("invented" in sample(name).splitlines()[0], f"{name}: says it is invented")
        sheet = values(sample(name))
        for key, value in sheet.items():
            if key.startswith("task."):  # times have no usual range
                continue
            ranges = [f for c in USED + HOLD + TIMING for f in CONTRACTS[c]["inputs"] if f["name"] == key]
            check(ranges and all(f["usual_lower"] <= value <= f["usual_upper"] for f in ranges),
                  f"{name}: {key} = {value} is within its usual range")


def test_lift(folder):
    """What the plan says would lift the stop does, and a tenth less does not."""
    text = sample("stop.sheet")
    out = plan(text, folder)[1]
    head = out.split("\nPlan from")[0]
    cause = re.search(r"Measured value that causes it: (\w+) = (\S+) \w+ \(line (\d+) of the sheet\)", head)
    check(cause and text.splitlines()[int(cause[3]) - 1].startswith(cause[1]), "the stop names a value and its line")
    changes = re.findall(r"^    (\w+) +(\S+) -> (\S+) \w+ \((\S+) ", head, re.M)
    check(changes and cause and changes[0][0] == cause[1], "the named value is the first that is changed")
    for name, now, then, by in changes:
        now, then = float(now), float(then)
        check(abs(abs(then - now) - float(by)) < 1e-6, f"{name}: the change is the difference (printed to 6 digits)")
        less = round(then + math.copysign(0.1, now - then), 6)
        for value, status in ((then, 0), (less, 1)):
            edited, unit = text, next(f["unit"] for f in CONTRACTS["screw_depth"]["inputs"] if f["name"] == name)
            edited = re.sub(rf"^{name} .*\n", "", edited, flags=re.M) + f"{name} = {value} {unit}\n"
            got = plan(edited, folder)[0]
            check(got == status, f"{name} = {value}: status {got} instead of {status}")


BASE = sample("routine.sheet")


def line(old, new):
    """The routine sheet with the line of one value replaced; returns it with the line's number."""
    lines = BASE.splitlines(keepends=True)
    at = next(i for i, text in enumerate(lines) if text.startswith(old))
    lines[at] = new + "\n"
    return "".join(lines), at + 1


BAD_LINES = [  # the line that is replaced, what replaces it, what the message must hold
    ("hoof_width_mm", "hoof_widht_mm = 128 mm", "no calculation of this plan has an input of that name"),
    ("hoof_width_mm", "hoof_width_mm =", "the value is missing; accepted values are 40 to 250 mm"),
    ("hoof_width_mm", "hoof_width_mm = mm", "not a plain decimal number"),
    ("hoof_width_mm", "hoof_width_mm = wide mm", "not a plain decimal number"),
    ("hoof_width_mm", "hoof_width_mm = 128mm", "with a space before its unit"),
    ("hoof_width_mm", "hoof_width_mm = 12 in", "304.8 mm is out of range; accepted values are 40 to 250 mm"),
    ("hoof_width_mm", "hoof_width_mm = 39.9 mm", "39.9 mm is out of range; accepted values are 40 to 250 mm"),
    ("hoof_width_mm", "hoof_width_mm = 250.1 mm", "accepted values are 40 to 250 mm"),
    ("hoof_width_mm", "hoof_length_mm = 128 mm", "already given in line 5"),
    ("hoof_width_mm", "hoof_width_mm = 128", "the unit is missing: mm or in"),
    ("hoof_width_mm", "hoof_width_mm = 12.8 cm", "the unit does not fit: it must be mm or in"),
    ("hoof_width_mm", "hoof_width_mm = 128 mm wide", "the unit does not fit"),
    ("toe_angle_deg", "toe_angle_deg = 51 mm", "it must be deg; accepted values are 35 to 100 deg"),
    ("toe_angle_deg", "toe_angle_deg = 51", "the unit is missing: deg"),
    ("toe_angle_deg", "toe_angle_deg = 95 deg", "accepted values are 30 to 90 deg"),  # the tape's range is narrower
    ("anchor_turns", "anchor_turns = 2", "the unit is missing: turns"),
    ("passes_count", "passes_count = 2.5", "a whole number is needed; accepted values are whole numbers from 1 to 12"),
    ("passes_count", "passes_count = 2 passes", "this is a pure number and takes no unit"),
    ("overhang_mm", "overhang_mm = 1e400 mm", "the value is too large"),
    ("overhang_mm", "overhang_mm = -1e400 mm", "the value is too large"),
    ("overhang_mm", "overhang_mm = 0x10 mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = nan mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = inf mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = 1,5 mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = 1_5 mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = 5/16 in", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = . mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = 1e mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = --1 mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = \u0663 mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm 6 mm", "not of the form: name = value unit"),
    ("overhang_mm", "= 6 mm", "not of the form: name = value unit"),
    ("overhang_mm", "shoe.overhang_mm = 6 mm", "this plan has no such calculation"),
    ("overhang_mm", "outline_standard.hoof_width_mm = 128 mm", "this plan has no such calculation"),
    ("overhang_mm", "glue_volume.overhang_mm = 6 mm", "this calculation has no input of that name"),
    ("overhang_mm", "glue_volume.a.b = 6 mm", "this calculation has no input of that name"),
    ("overhang_mm", "overhang_mm = 6 mm\0", "holds a zero byte"),
    ("overhang_mm", "overhang_mm = 6 mm # " + 200 * "x", "the line has more than 200 characters"),
    ("overhang_mm", 5000 * "overhang_mm ", "the line has more than 200 characters"),
    ("overhang_mm", "overhang_mm = 6\x1b[31m mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = 6 mm\rlow_mm = 3 mm", "the unit does not fit"),
    ("border_width_mm", "wall_thickness_mm = 9 mm\nborder_width_mm = 9 mm", "give one of the two"),
    ("high_toe_mm", "high_toe_mm = 0.5 mm", "accepted values are 1 to 120 mm"),
    ("low_mm", "low_mm = 30 mm", "the belt's upper edge must be above its lower edge at the heel"),
    ("head_recess_mm", "head_recess_mm = 25 mm", "must be less than the shoe's thickness"),
    ("groove_depth_mm", "groove_width_mm = 5 mm\ngroove_spacing_mm = 1 mm", "cannot be closer than they are wide"),
    ("high_heel_mm", "cast_length.band_height_mm = 400 mm", "accepted values are 10 to 300 mm"),
]


def refused(data, folder, expected, number=None):
    """Both programs: status 2, no plan, the same message, which holds what is expected and the line's number."""
    results = {p: plan(data, folder, p) for p in PROGRAMS}
    for program, (status, out, err) in results.items():
        label = f"{program}: {expected}"
        check(status == 2 and out == "", f"{label}: status {status}, {out[:40]!r}")
        check(all(re.match(r"FILE:\d+: [ -~]+: [ -~]+$", text) for text in err.splitlines()), f"{label}: form: {err!r}")
        check(any(expected in text and (number is None or text.startswith(f"FILE:{number}: "))
                  for text in err.splitlines()), f"{label} (line {number}): not in {err!r}")
    check(len(set(results.values())) == 1, f"{expected}: plan.c and plan.py say the same: {results}")
    return results["plan.c"][2]


def test_bad(folder):
    for old, new, expected in BAD_LINES:
        data, number = line(old, new)
        if "\n" in new:
            number += 1  # two lines in place of one: the second is the bad one
        # a relation is told with the line of its first field, below
        refused(data, folder, expected, None if "at the heel" in expected else number)
    # a relation names the line of its first field
    data, _ = line("low_mm", "low_mm = 30 mm")
    refused(data, folder, "high_heel_mm is 24 mm with low_mm 30 mm",
            next(i for i, text in enumerate(data.splitlines(), 1) if text.startswith("high_heel_mm")))
    # every required measurement, left out in turn
    asked = {f["name"] for c in USED for f in CONTRACTS[c]["inputs"] if f["standard"] is None}
    names = [name for name in values(BASE) if name in asked]
    check(len(names) >= 14, "the routine sheet gives the required measurements")
    last = len(BASE.splitlines())
    for name in names:
        data, _ = line(name, "# left out")
        refused(data, folder, f"{name} (end of sheet): required, and not on the sheet", last)
    # a value that chains into a later calculation and does not suit it
    data, _ = line("high_toe_mm", "high_toe_mm = 3 mm")
    for old, new in (("high_heel_mm      = 24 mm", "high_heel_mm = 3 mm"),
                     ("low_mm            = -24 mm", "low_mm = 0 mm")):
        data = data.replace(old, new)
    refused(data, folder, "from slant_height_mm: band_height_mm is ", last)
    # all problems of a sheet, not only the first, in the order of the lines
    data = BASE.replace("= 135 mm", "= 135 deg").replace("= 128 mm\n", "= 1280 mm\n", 1).replace("= 12 deg", "= twelve")
    err = refused(data, folder, "out of range")
    check([int(n) for n in re.findall(r"^FILE:(\d+):", err, re.M)] == [5, 6, 28], f"three problems, three lines: {err}")
    refused("", folder, "hoof_length_mm (end of sheet): required", 1)
    refused("\n\n# nothing\n", folder, "required", 3)
    refused("ply_mm = 1 mm\n" * 501, folder, "too many values", 500)
    refused(b"\xff\xfe" + BASE.encode("utf-16-le"), folder, "zero byte", 1)


def test_accepted(folder):
    """What looks odd and is fine: the plan is the same."""
    lines = {"plain": BASE, "CRLF": BASE.replace("\n", "\r\n"), "BOM": b"\xef\xbb\xbf" + BASE.encode(),
             "tabs": BASE.replace(" = ", "\t=\t").replace(" mm", "\tmm"), "no last newline": BASE.rstrip("\n"),
             "no spaces": BASE.replace(" = ", "="),
             "exponents": BASE.replace("= 135 mm", "= +1.35e2 mm"), "point first": BASE.replace("= 0.2\n", "= .2\n"),
             "inches": BASE.replace("= 1.5 in", "= 38.1 mm"), "UTF-8 comment": BASE + "# caf\u00e9\n",
             "200 characters": BASE + "#" * 200 + "\n"}
    plain = plan(BASE, folder)
    check(plain[0] == 0, "the routine sheet is accepted")
    for name, data in lines.items():
        for program in PROGRAMS:
            check(plan(data, folder, program) == plain, f"{program}: {name} gives the same plan")
    # own names win over plain ones, in either order
    one = plan(BASE + "glue_volume.waste_fraction = 0.3\nwaste_fraction = 0.1\n", folder)[1]
    two = plan("waste_fraction = 0.1\nglue_volume.waste_fraction = 0.3\n" + BASE, folder)[1]
    check(one == two, "the order of plain and own names does not matter")
    check(abs(printed(one, "glue_volume")["mixed_ml"] / printed(one, "glue_volume")["net_ml"] - 1.3) < 0.005,
          "the own name wins (both volumes are printed to 0.1 mL of about 30)")
    ratio = printed(one, "cast_length")["tape_length_mm"] / printed(one, "cast_length")["path_length_mm"]
    check(abs(ratio - 1.1 / 1.2) < 1e-5, "the plain name holds elsewhere (lengths are printed to 0.01 mm of 3000)")
    # a chained value can be set on the sheet
    set_here = plan(BASE + "glue_volume.bonded_area_mm2 = 10000 mm2\n", folder)
    adhesive = set_here[1].split("\nAdhesive\n")[1].split("\nTape\n")[0]  # the bond's own stays what the belt's is
    check(set_here[0] == 0 and "taken: bonded_area_mm2" not in adhesive, "a chained value can be set on the sheet")


def test_stops(folder):
    """Other stops: at the coronet, in a wall too thin for any line, and two at once; the same from C and Python."""
    thin, _ = line("border_width_mm", "wall_thickness_mm = 5 mm")
    coronet, _ = line("heel_hairline_mm", "heel_hairline_mm = 27 mm")
    both = coronet.replace("= 68 mm", "= 44 mm")
    for name, data, words in (("thin wall", thin, ["STOP  screw_depth.breach"]),
                              ("coronet", coronet, ["high_heel_mm = 24 mm (line 16", "24 -> 22 mm (2 mm less)"]),
                              ("both ends", both, ["No change of a single value lifts all of these",
                                                   "hoof_band.coronet_toe alone:", "42 -> 39 mm (3 mm less)"])):
        results = {p: plan(data, folder, p) for p in PROGRAMS}
        for program, (status, out, err) in results.items():
            check(status == 1 and not err and out.startswith("STOP"), f"{program}: {name} stops ({status}, {err})")
            for word in words:
                check(word in out, f"{program}: {name} says {word}: {out[:900]}")
        check(len(set(results.values())) == 1, f"{name}: plan.c and plan.py print the same")


def test_files(folder):
    locales = {**os.environ, "LC_ALL": "C.UTF-8"}
    results = {}
    for program in PROGRAMS:
        missing = os.path.join(folder, "no such sheet")
        results[program] = [run(program, missing), run(program, folder), run(program), run(program, "a", "b"),
                            run(program, os.path.join(EXAMPLES, "routine.sheet"), env=locales)[:2]]
        for status, out, err in results[program][:4]:
            check(status == 2 and not out and err, f"{program}: unreadable: {status} {out} {err}")
        check(b"cannot be read: No such file" in results[program][0][2], f"{program}: missing file is named")
        large = os.path.join(folder, "large.sheet")
        with open(large, "wb") as file:
            file.write(b"# nothing\n" * 7000)
        status, out, err = run(program, large)
        check(status == 2 and not out and b"more than 65536 bytes" in err, f"{program}: large file: {err}")
        if os.path.exists("/dev/full"):
            with open("/dev/full", "wb") as full:
                done = subprocess.run(PROGRAMS[program] + [os.path.join(EXAMPLES, "routine.sheet")], stdout=full,
                                      stderr=subprocess.PIPE)
            check(done.returncode == 2 and b"cannot write the plan" in done.stderr, f"{program}: full disk: {done}")
    check(len({str(r) for r in results.values()}) == 1, f"files: plan.c and plan.py say the same: {results}")


def main():
    began = time.time()
    if "plan.py" in PROGRAMS and subprocess.call([sys.executable, "-c", "import ungula"]):
        print("the Python package ungula is not there: set PYTHONPATH, or UNG_NO_PYTHON=1 in a build without it")
        return 1
    with tempfile.TemporaryDirectory() as folder:
        for test, *arguments in ((test_samples,), (test_lift,), (test_bad,), (test_accepted,), (test_stops,),
                                 (test_files,), (test_numbers, "routine.sheet"), (test_numbers, "stop.sheet")):
            test(*arguments, folder)
    print(f"plan: {checks} checks, {failures} failures ({', '.join(PROGRAMS)}; {time.time() - began:.0f} s)")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
