#!/usr/bin/env python3
"""The main job with a traced hoof: the sample, every kind of bad trace and station, layouts that stop, and the plan's
numbers against an independent recomputation.  Programs, variables and helpers are those of test_plan.py."""
import math
import os
import re
import sys
import tempfile
import time

import numpy as np
from scipy.interpolate import PchipInterpolator

sys.dont_write_bytecode = True  # the sources may be read-only
import test_plan  # noqa: E402
from test_plan import CONTRACTS, PROGRAMS, TIMING, both, check, plan, refused, sample  # noqa: E402

SHEET, CSV = sample("traced.sheet"), sample("traced.csv")
LINES = CSV.splitlines()
FIRST = next(i for i, text in enumerate(LINES) if re.match(r"[\d-]", text))  # index of the first point's line
TRACED = ["outline_fit", "outline_band", "wall_profile", "screw_layout", "glue_volume", "cast_length", "heel_bevel",
          "limb_load", "screw_gauge", "screw_hold", "bond_hold", "hold", *TIMING]


def write(folder, text):
    with open(os.path.join(folder, "traced.csv"), "wb") as file:
        file.write(text if isinstance(text, bytes) else text.encode())


def points():
    return np.array([[float(v) for v in text.split(",")] for text in LINES[FIRST:]])


def as_csv(xy):
    return "".join("%.9f, %.9f\n" % (x, y) for x, y in xy)


def alike(one, two, what):
    """The same text but for the last printed digit: sums in another order differ by rounding."""
    number = r"-?\d+(?:\.\d+)?"
    check(re.sub(number, "#", one) == re.sub(number, "#", two), f"{what}: the same words")
    for a, b in zip(re.findall(number, one), re.findall(number, two)):
        digits = len(a.partition(".")[2])
        check(abs(float(a) - float(b)) <= 1.001 * 10**-digits, f"{what}: {a} and {b}")


def without(text, pattern):
    return "".join(line for line in text.splitlines(keepends=True) if not re.match(pattern, line))


def layout(out, side):
    """Rows of the screws of one side: from_toe, side_fraction, inset, tilt, margin, limit."""
    part = out.split(f"  screw_layout, {side} side: ")[1].split("  not on the sheet")[0]
    return [[float(v) for v in row.split()[1:]] for row in re.findall(r"^ +\d+(?: +-?[\d.]+){6}$", part, re.M)]


def block(out, title):
    return out.split(f"\n{title}\n")[1].split("\n\n")[0]


def test_sample(folder):
    write(folder, CSV)
    out = both(SHEET, folder, "sample", 0)
    check(not out.startswith("STOP"), "traced.sheet: no stop")
    parts = re.findall(r"^(?!Plan)([A-Z][\w ]*)(?:, the most severe first)?$", out, re.M)
    check(parts == ["Outline", "Belt", "Screws", "Adhesive", "Tape", "Heel bevel", "Hold", "Timing", "Bring",
                    "Cautions", "Always"],
          f"traced.sheet: the parts in the order of the work: {parts}")
    for c in TRACED:
        for text in CONTRACTS[c]["standing"]:
            check(" ".join(text.split()) in " ".join(out.split()), f"traced.sheet: says {text}")
    check("invented" in SHEET.splitlines()[0] and "invented" in LINES[0], "sheet and trace say they are invented")
    for name, value, unit in re.findall(r"^([a-z_]+) *= *([\d.+-]+) *(\w*)", SHEET, re.M):
        value = float(value) * (25.4 if unit == "in" else 1)
        ranges = [f for c in TRACED for f in CONTRACTS[c]["inputs"] if f["name"] == name]
        check(all(f["usual_lower"] <= value <= f["usual_upper"] for f in ranges), f"{name} = {value} is usual")
        check(ranges or name in ("screws_count", "sole_horn_mm"), f"{name} is a field")
    fit = test_plan.printed(out, "outline_fit")
    check(f": {len(points())} points" in out, "the plan tells the number of points")
    # what the trace was made with (see its numbers below): noise of 0.7 mm, found within 20 % (four standard errors)
    check(abs(fit["noise_mm"] - 0.7) < 0.14, f"noise {fit['noise_mm']}")
    check(all(len(layout(out, side)) == 2 for side in ("left", "right")), "two screws a side")
    limits = [row[5] for side in ("left", "right") for row in layout(out, side)]
    check(f"4 with 3.5 mm thread, at most {min(limits):.1f} mm long" in out, "screws to bring: the shortest limit")
    # the plan without stations has one screw again
    single = re.sub(r"screws_count .*", "tilt_deg = 12 deg\ninset_mm = 6 mm\nborder_width_mm = 11.5 mm\n"
                    "wall_angle_deg = 78 deg\nscrew_count = 4", without(SHEET, r"left\.|right\.|spacing_mm"))
    out = both(single, folder, "trace without stations", 0)
    check("  screw_depth: " in out and "screw_layout" not in out, "one screw without stations")


def test_same(folder):
    """Another order, another unit, another frame, another way to write it: the same plan."""
    write(folder, CSV)
    plain = both(SHEET, folder, "plain", 0)
    xy = points()
    exact = {"semicolons": CSV.replace(",", " ; "), "blanks": CSV.replace(",", " \t "), "no header": as_csv(xy),
             "CRLF": CSV.replace("\n", "\r\n"), "BOM": b"\xef\xbb\xbf" + CSV.encode(), "no last newline": CSV.rstrip(),
             "comments": "\n\n# one\n" + CSV.replace("\n", " # caf\u00e9\n"),
             "words first": CSV.replace("x,y", '"x (mm)", "y (mm)"')}
    for name, text in exact.items():
        write(folder, text)
        check(both(SHEET, folder, name, 0) == plain, f"{name}: the same plan")
    closed = np.vstack([xy, xy[:1]])
    turn = np.array([[0, 1], [-1, 0]])  # a quarter turn: the toe along y
    for name, other, sheet in (
            ("reversed", xy[::-1], SHEET), ("begun elsewhere", np.roll(xy, 40, axis=0), SHEET),
            ("inches", xy / 25.4, SHEET.replace("traced.csv mm", "traced.csv in")), ("moved", xy + [500, -300], SHEET),
            ("turned", xy @ turn, SHEET.replace("toe_direction_deg = 0", "toe_direction_deg = 90"))):
        write(folder, as_csv(other))
        out = both(sheet, folder, name, 0)
        alike(re.sub(r"traced\.csv in", "traced.csv mm", out), plain, name)
    write(folder, as_csv(closed))
    check(f": {len(closed)} points" in both(SHEET, folder, "closed", 0), "the first point may be repeated")
    # mirrored, with left and right exchanged on the sheet: left and right change places, all else stays
    swap = {"left": "right", "right": "left"}
    sheet = re.sub(r"^(left|right)(?=[._])", lambda m: swap[m[1]], SHEET, flags=re.M)
    write(folder, as_csv(xy * [1, -1]))
    mirrored = both(sheet, folder, "mirrored", 0)
    for title in ("Belt", "Adhesive", "Tape", "Heel bevel", "Bring"):
        alike(block(mirrored, title), block(plain, title), f"mirrored, {title}")
    for side in swap:
        check(np.allclose(layout(mirrored, side), layout(plain, swap[side]), atol=0.11), f"mirrored: screws, {side}")
    for share in ("left_width_fraction", "left_area_fraction"):
        a, b = (test_plan.printed(out, "outline_fit")[share] for out in (mirrored, plain))
        check(abs(a + b - 1) < 0.011, f"mirrored: {share} {a} and {b}")  # both are printed to 0.01


def standard(length, width, count):
    """The standard outline of hoof_band's fractions as count points at equal steps of the parameter."""
    def basis(t):
        return np.array([math.sin(t) * math.cos(k * t) for k in range(4)])

    def slope(t):
        return np.array([math.cos(t) * math.cos(k * t) - k * math.sin(t) * math.sin(k * t) for k in range(4)])

    widest = math.acos(1 - 2 * 0.45)
    k = np.linalg.solve([basis(widest), slope(widest), basis(math.acos(-0.8)), basis(math.acos(0.8))],
                        [1, 0, 0.74, 0.62])
    t = np.arange(count) * 2 * np.pi / count
    return np.stack([length / 2 * np.cos(t), width / 2 * np.sin(t) * sum(k[n] * np.cos(n * t) for n in range(4))], 1)


def shoelace(xy):
    x, y = xy.T
    return abs((x * np.roll(y, -1) - np.roll(x, -1) * y).sum()) / 2


def test_numbers(folder):
    sheet = re.sub(r"left_quarter_angle_deg  = \S+", "quarter_angle_deg = 78", without(SHEET, "right_quarter"))
    true = standard(135, 128, 720)
    # without noise: the belt of the standard outline.  The fit is within 0.01 mm of it (its contract), 1e-4 of a width
    write(folder, as_csv(true))
    out = both(sheet, folder, "standard outline", 0)
    f = test_plan.given(sheet.replace("trace ", "# "), "hoof_band")
    f.update(hoof_length_mm=135, hoof_width_mm=128)
    test_plan.compare(out, "outline_band", test_plan.band(f), 1e-3)
    test_plan.compare(out, "outline_fit", {"length_mm": 135, "width_mm": 128, "area_mm2": shoelace(true)}, 1e-3)
    apart = sheet.replace("quarter_angle_deg = 78", "left_quarter_angle_deg = 78 deg\nright_quarter_angle_deg = 78")
    named = both(apart, folder, "quarters by name", 0)
    check(named == out, "quarter_angle_deg stands for both quarters")
    # with noise of 0.7 mm on 120 points: the area errs by noise x perimeter/sqrt(n) where it is the mean of the
    # distances; four of that
    random = np.random.default_rng(7)
    step = np.roll(true, -1, axis=0) - np.roll(true, 1, axis=0)
    normal = np.stack([step[:, 1], -step[:, 0]], 1) / np.hypot(*step.T)[:, None]
    noisy = (true + normal * random.normal(0, 0.7, (720, 1)))[::6]
    write(folder, as_csv(noisy))
    fit = test_plan.printed(both(sheet, folder, "noisy standard outline", 0), "outline_fit")
    perimeter = np.hypot(*(np.roll(true, -1, axis=0) - true).T).sum()
    check(abs(fit["area_mm2"] - shoelace(true)) < 4 * 0.7 * perimeter / math.sqrt(120), f"area {fit['area_mm2']}")
    check(abs(fit["noise_mm"] - 0.7) < 0.2, f"noise {fit['noise_mm']}")  # four standard errors: 0.7/sqrt(2 x 110)


def test_screws(folder):
    """The wall at each screw by an independent interpolation, its margin by walking along the axis (test_plan.py)."""
    write(folder, CSV)
    out = both(SHEET, folder, "screws", 0)
    around = test_plan.printed(out, "outline_fit")["perimeter_mm"]
    rows = re.findall(r"^([\w.]+) *= *([\d.-]+) *(\w*)", SHEET, re.M)
    given = {name: (float(value), unit) for name, value, unit in rows}
    length = {side: layout(out, side)[-1][0] / layout(out, side)[-1][1] for side in ("left", "right")}
    wall = {}
    for name, (value, _) in given.items():
        station = re.match(r"(left|right)\.([\d.]+)\.(\w+)$", name)
        if station:
            place = float(station[2]) * length[station[1]] / around
            wall.setdefault(place if station[1] == "left" or place == 0 else 1 - place, {})[station[3]] = value
    x = sorted(wall)
    turns = [turn + place for turn in (-1, 0, 1) for place in x]
    curves = {name: PchipInterpolator(turns, [wall[place][name] for place in x] * 3) for name in wall[x[0]]}
    f = {i["name"]: i["standard"] for i in CONTRACTS["screw_depth"]["inputs"]}
    f.update({name: value * (25.4 if unit == "in" else 1) for name, (value, unit) in given.items() if name in f})
    for side in ("left", "right"):
        rows = layout(out, side)
        check(rows[1][0] - rows[0][0] >= given["spacing_mm"][0], f"{side}: screws are the spacing apart")
        for from_toe, _, inset, tilt, margin, limit in rows:
            place = from_toe / around if side == "left" else 1 - from_toe / around
            f.update({name: float(curve(place)) for name, curve in curves.items()}, inset_mm=inset)
            path = f["shoe_thickness_mm"] - f["head_recess_mm"]
            deep = f["screw_length_mm"] - path / math.cos(math.radians(tilt)) + f["seat_allowance_mm"]
            worst = []
            for t in (tilt, tilt - f["tilt_error_deg"], tilt + f["tilt_error_deg"]):
                length_there = path / math.cos(math.radians(t)) + deep
                worst.append(test_plan.screw({**f, "tilt_deg": t, "screw_length_mm": length_there})["margin_mm"])
            # side_fraction is printed to 0.001, so stations lie within 0.001/0.3 of a side of 210 mm: 0.7 mm, on which
            # the wall changes by 0.02 mm and 0.2 deg; over 16 mm of screw 0.2 deg is 0.06 mm
            check(abs(min(worst) - margin) < 0.09, f"{side}, {from_toe} mm: margin {margin}, recomputed {min(worst)}")
            check((limit >= f["screw_length_mm"]) == (margin >= 0), f"{side}: limit {limit} and margin {margin}")


def test_stops(folder):
    write(folder, CSV)
    for what, old, new in (("long screws", "= 1.5 in", "= 44 mm"),
                           ("many screws", "screws_count      = 2", "screws_count = 4")):
        data = SHEET.replace(old, new)
        out = both(data, folder, what, 1)
        check(out.startswith("STOP  screw_layout."), f"{what}: stops")
        head = out.split("\nPlan from")[0]
        changes = re.findall(r"^    (\w+) +\S+ -> (\S+)(?: mm)? \(", head, re.M)
        check(len(changes) >= 2 and "left side" not in head, f"{what}: says what would do: {head}")
        for name, value in changes:
            unit, step = ("", 1) if name == "screws_count" else (" mm", 0.1)
            for number, status in ((float(value), 0), (float(value) + step, 1)):
                edited = re.sub(rf"^{name} .*\n", "", data, flags=re.M) + f"{name} = {number:.15g}{unit}\n"
                got = plan(edited, folder)[0]
                check(got == status, f"{what}: {name} = {number}: status {got} instead of {status}")
    # a wall too thin for any change; and the belt's stops, which the library does not search on a trace
    hopeless = re.sub(r"(wall_thickness_mm +=) [\d.]+", r"\1 4", SHEET)
    check("Neither fewer screws" in both(hopeless, folder, "hopeless", 1), "a wall too thin for screws says so")
    coronet = SHEET.replace("= 36 mm", "= 27 mm")
    check("24 -> 22 mm (2 mm less)" in both(coronet, folder, "coronet", 1), "coronet: what lifts it")
    out = both(coronet.replace("= 68 mm", "= 44 mm"), folder, "both ends", 1)
    check("No change of a single value lifts all of these" in out and "42 -> 39 mm (3 mm less)" in out, "both ends")


def with_line(index, text):
    lines = LINES[:]
    lines[index] = text
    return "\n".join(lines) + "\n", index + 1


BAD_POINTS = [("12,abc", "the second value is not a plain decimal number"), ("x,y", "a plain decimal number"),
              ("nan,3", "the first value is not"), ("0x10,3", "the first value is not"), ("12", "a line holds two"),
              ("1,2,3", "a line holds two"), ("12,5;3,4", "a line holds two"), (",3", "a line holds two"),
              ("1,,3", "a line holds two"), ("1 2 3", "a line holds two"), ("1e400,3", "is out of range"),
              ("1,-2e7", "the second value is out of range; accepted values are -10000000 to 10000000 mm"),
              ("1\0,3", "holds a zero byte"), ("1," + 300 * "3", "more than 200 characters"),
              ("1,\x1b[31m3", "plain decimal")]


def bad_csv(data, folder, text, expected, number=None):
    """Refused, with the line of the trace, or (number None) the line of the sheet that names it."""
    write(folder, text)
    results = {p: plan(data, folder, p) for p in PROGRAMS}
    row = next(i for i, line in enumerate(data.splitlines(), 1) if line.startswith("trace "))
    at = f"{folder}/traced.csv:{number}: " if number else f"FILE:{row}: trace ="
    for program, (status, out, err) in results.items():
        check(status == 2 and out == "", f"{program}: {expected}: status {status}, {out[:40]!r}")
        check(any(line.startswith(at) and expected in line for line in err.splitlines()),
              f"{program}: {expected} where {at!r} begins: not in {err!r}")
        check(all(re.fullmatch("[ -~]+", line) for line in err.splitlines()), f"{program}: printable: {err!r}")
    check(len(set(results.values())) == 1, f"{expected}: plan.c and plan.py say the same: {results}")
    return results["plan.c"][2]


def meeting_edges(xy):
    """Pairs of edges that meet, by the signs of four triangles, for every pair."""
    def side(a, b, c):
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    n, found = len(xy), []
    for i in range(n):
        for k in range(i + 2, n - (i == 0)):
            a, b, c, d = xy[i], xy[i + 1], xy[k], xy[(k + 1) % n]
            if side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0:
                found.append((i, k))
    return found


def test_bad_trace(folder):
    for text, expected in BAD_POINTS:
        data, number = with_line(FIRST + 20, text)
        bad_csv(SHEET, folder, data, expected, number)
    err = bad_csv(SHEET, folder, "x y\n" + 30 * "none\n", "a line holds two numbers", 2)
    check(len(err.splitlines()) == 10, f"the first ten problems are told: {err}")
    for what, other in (("neighbors exchanged", 27), ("far points exchanged", 66)):
        xy = points()
        xy[[26, other]] = xy[[other, 26]]
        err = bad_csv(SHEET, folder, "\n".join(LINES[:FIRST]) + "\n" + as_csv(xy), "crosses or touches itself",
                      FIRST + 1 + min(meeting_edges(xy))[0])
        told = [int(n) - FIRST - 1 for n in re.search(r"\(lines (\d+) and (\d+)\)", err).groups()]
        check(tuple(sorted(told)) in meeting_edges(xy), f"{what}: these two edges meet: {told}, {meeting_edges(xy)}")
    repeated, number = with_line(FIRST + 20, LINES[FIRST + 19])
    bad_csv(SHEET, folder, repeated, f"repeats the one before it (lines {number} and {number - 1})", number)
    xy = points()
    for text, expected in (("1,2\n" * 7, "the file has 7 points; accepted are 8 to 20000"),
                           ("", "the file has 0 points"), ("# nothing\n", "the file has 0 points"),
                           ("1,2\n" * 20001, "more than 20000 points"),
                           ("# nothing\n" * 250000, "more than 2097152 bytes"),
                           (as_csv(xy[:50]), "more than a quarter of a turn"), (as_csv(xy / 10), "check the scale"),
                           (as_csv(xy * 10), "check the scale")):
        bad_csv(SHEET, folder, text, expected)
    write(folder, CSV)
    for new, expected in (("none.csv mm", "cannot be read: No such file"), (". mm", "cannot be read: Is a directory"),
                          ("traced.csv", "a file and its unit, mm or in"), ("traced.csv cm", "a file and its unit"),
                          ("mm", "a file and its unit"), ("", "a file and its unit"),
                          ("traced.csv in", "check the scale"),
                          ("a" * 60 + "/" + "b.csv mm", "cannot be read")):
        data = re.sub("traced.csv mm", new, SHEET)
        bad_csv(data, folder, CSV, expected)
    full = SHEET.replace("traced.csv mm", os.path.join(folder, "traced.csv") + " mm")
    check(len(folder) > 120 or both(full, folder, "whole path", 0), "a whole path may be given")
    done = [test_plan.run(p, os.path.join(test_plan.EXAMPLES, "traced.sheet")) for p in PROGRAMS]
    check(all(status == 0 for status, _, _ in done), f"the path is relative to the sheet: {done[0][2]}")


def test_bad_sheet(folder):
    write(folder, CSV)
    last = len(SHEET.splitlines())
    form = "a station is written left.0.25.wall_thickness_mm"
    for lines, expected in (
            ("left.1.5.wall_angle_deg = 70 deg", "there is no such place; accepted values are 0 to 1"),
            ("left.0.3.wall_angel_deg = 70 deg", form), ("left.-0.3.wall_angle_deg = 70 deg", form),
            ("left.3e-1.wall_angle_deg = 70 deg", form), ("left.0.3.around_fraction = 0.3", form),
            ("left.wall_angle_deg = 70 deg", form), ("left. = 70 deg", form),
            ("left.0..3.wall_angle_deg = 70 deg", form),
            ("left.0.250.wall_angle_deg = 70 deg", "already given in line 28"),
            ("right.0.0.wall_angle_deg = 70 deg", "already given in line 26"),  # the toe, from the other side
            ("right.0.3.wall_angle_deg = 70 deg", "the station needs its wall_thickness_mm as well"),
            ("right.0.3.wall_thickness_mm = 9 mm", "the station needs its wall_angle_deg as well"),
            ("right.0.3.wall_angle_deg = 151 deg", "151 deg is out of range; accepted values are 35 to 150 deg"),
            ("right.0.3.wall_thickness_mm = 1 in", "25.4 mm is out of range; accepted values are 2 to 20 mm"),
            ("right.0.3.wall_angle_deg = 70 mm", "it must be deg"),
            ("right.0.3.wall_angle_deg = x deg", "plain decimal"),
            ("screws_count = 3", "already given in line 37"), ("trace = traced.csv mm", "already given in line 5"),
            ("hoof_length_mm = 130 mm", "only hoof_band takes this, which is used only without a trace"),
            ("hoof_band.low_mm = 3 mm", "only hoof_band takes this"), ("harmonics_count = 25", "from 0 to 24"),
            ("inset_mm = 6 mm", "only screw_depth takes this, which is used only without stations of the wall"),
            ("quarter_angle_deg = 130 deg\n# ", "accepted values are 45 to 120 deg"),
            ("wall_profile.start_fraction = 0.3", "this calculation has no input of that name"),
            ("outline_fit.screws_count = 2", "this calculation has no input of that name")):
        data = SHEET if "quarter" not in lines else without(SHEET, "left_quarter")
        refused(data + lines + "\n", folder, expected, len(data.splitlines()) + 1)
    near = "right.0.2500001.wall_angle_deg = 70 deg\nright.0.2500001.wall_thickness_mm = 9 mm\n"
    refused(SHEET + near, folder, "at least a millionth of the perimeter apart", 31)
    many = "".join(f"left.0.3{i}.wall_{name}\n" for i in range(10, 80)
                   for name in ("thickness_mm = 9 mm", "angle_deg = 75 deg"))
    refused(SHEET + many, folder, "accepted are 2 to 64", 25)
    refused(without(SHEET, r"right\."), folder, "the right side needs at least two stations", 30)
    refused(without(SHEET, r"left\."), folder, "the left side needs at least two stations", 28)
    close = "".join(f"{side}.{place}.wall_{name}\n" for side in ("left", "right") for place in ("0.3", "0.301")
                    for name in ("thickness_mm = 9 mm", "angle_deg = 75 deg"))
    refused(without(SHEET, r"left\.|right\.") + close, folder, "no place for a screw between the left side's stations")
    refused(without(SHEET, "trace "), folder, "stations of the wall need a trace to lie on", 24)
    for name in ("screws_count", "sole_horn_mm"):
        refused(without(SHEET, name), folder, f"{name} (end of sheet): required, and not on the sheet", last - 1)
    many = SHEET.replace("screws_count      = 2", "screws_count = 9")
    refused(many, folder, "accepted values are whole numbers from 1 to 8", 37)
    alone = "left.0.3.wall_thickness_mm = 9 mm\nleft.0.3.wall_angle_deg = 75 deg\n"
    refused(without(SHEET, r"left\.|right\.") + alone, folder, "the left side needs at least two stations")
    refused(test_plan.BASE + "spacing_mm = 20 mm\n", folder, "used only with stations of the wall")
    refused(test_plan.BASE + "left_quarter_angle_deg = 70 deg\n", folder, "used only with a trace")


def main():
    began = time.time()
    with tempfile.TemporaryDirectory() as folder:
        for test in (test_sample, test_same, test_numbers, test_screws, test_stops, test_bad_trace, test_bad_sheet):
            test(folder)
    print(f"plan with a trace: {test_plan.checks} checks, {test_plan.failures} failures ({', '.join(PROGRAMS)}; "
          f"{time.time() - began:.0f} s)")
    return 1 if test_plan.failures else 0


if __name__ == "__main__":
    sys.exit(main())
