#!/usr/bin/env python3
"""The main job with a traced hoof: the same trace written in other ways, the screws of each side and which of them
stands for it, sides without room, other ways to fasten the shoe, and an independent recomputation of belt and screws.
Programs and helpers are those of plan_sheets.py."""
import math
import re
import sys

import numpy as np
from scipy.interpolate import PchipInterpolator

sys.dont_write_bytecode = True  # the sources may be read-only
import plan_by_hand  # noqa: E402
from plan_sheets import (  # noqa: E402
    CONTRACTS, SIDES, both, check, document, head, layout, main, numbers, printed, sample, section, stops, values,
    with_values, without, write)

SHEET, CSV = sample("traced.sheet"), sample("traced.csv")
LINES = CSV.splitlines()
FIRST = next(i for i, text in enumerate(LINES) if re.match(r"[\d-]", text))  # index of the first point's line
SWAP = {"left": "right", "right": "left"}


def points():
    return np.array([[float(v) for v in text.split(",")] for text in LINES[FIRST:]])


def as_csv(xy):
    return "".join("%.9f, %.9f\n" % (x, y) for x, y in xy)


def without_rows(text, pattern):
    return "".join(line for line in text.splitlines(keepends=True) if not re.match(pattern, line))


def alike(one, two, what):
    """The same text but for the last printed digit: sums in another order differ by rounding."""
    number = r"-?\d+(?:\.\d+)?"
    check(re.sub(number, "#", one) == re.sub(number, "#", two), f"{what}: the same words")
    for a, b in zip(re.findall(number, one), re.findall(number, two)):
        digits = len(a.partition(".")[2])
        check(abs(float(a) - float(b)) <= 1.001 * 10**-digits, f"{what}: {a} and {b}")


def screws(out, side):
    return [[float(v) for v in row] for row in layout(out, side)]


def test_sample(folder):
    out = both(SHEET, folder, "sample", 0)
    check(f"  trace = traced.csv mm (line 5 of the sheet): {len(points())} points" in out, "the trace is told")
    check("invented" in SHEET.splitlines()[0] and "invented" in LINES[0], "sheet and trace say they are invented")
    # what the trace was made with (see its numbers below): noise of 0.7 mm, found within 20 % (four standard errors)
    check(abs(numbers(out, "fit")["noise_mm"] - 0.7) < 0.14, "noise of the trace")
    for side in SIDES:
        rows = screws(out, side)
        check(len(rows) == 2 and rows[1][0] - rows[0][0] >= values(SHEET)["spacing_mm"], f"{side}: two, spaced: {rows}")
        shown = re.search(rf"  {side}: places that came into question: (\d+), (\d+) to (\d+) mm from the toe", out)
        check(shown and int(shown[1]) == (int(shown[3]) - int(shown[2])) / 5 + 1, f"{side}: every 5 mm: {shown}")
        check(all(int(shown[2]) <= row[0] <= int(shown[3]) for row in rows), f"{side}: between the stations: {rows}")
    # the plan without stations has one screw, described as without a trace
    single = with_values(without_rows(SHEET, r"left\.|right\.|spacing_mm|screws_count"), tilt_deg=12, inset_mm=6,
                         border_width_mm=11.5, wall_angle_deg=78, screw_count=4)
    plain = both(single, folder, "trace without stations", 0)
    check("screw" in printed(plain) and not {"left", "profile", "belt"} & set(printed(plain)), "one screw")
    check(numbers(plain, "wall")["wall_thickness_mm"] == round(11.5 * math.sin(math.radians(78)), 2), "its wall")


def test_weakest(folder):
    """The weakest screw of each side stands for it in the plan: the same margin, place and line."""
    for what, data, status in (("sample", SHEET, 0), ("three", with_values(SHEET, screws_count=3), 0),
                               ("long screws", with_values(SHEET, screw_length_mm=44), 1)):
        out = both(data, folder, what, status)
        made = document(data, folder, what, status)
        for side, step in zip(SIDES, ("screw", "other_screw")):
            rows = screws(out, side)
            told, plan = numbers(out, side), made["steps"][step]
            weakest = rows[int(told["weakest_count"]) - 1]
            json_side = made["outline"]["steps"][side]["results"]
            places = [[row[name] for name in ("from_toe_mm", "inset_mm", "tilt_deg")] for row in json_side["screws"]]
            check([[round(v, 1) for v in place] for place in places] == [[row[0], row[2], row[3]] for row in rows],
                  f"{what}, {side}: screws in the JSON: {places}")
            check(round(json_side["least_margin_mm"], 2) == told["least_margin_mm"], f"{what}, {side}: in the JSON")
            check(weakest[4] == min(row[4] for row in rows) == told["least_margin_mm"], f"{what}, {side}: the weakest")
            check(abs(plan["results"]["margin_worst_mm"] - weakest[4]) <= 0.005 + 1e-9, f"{what}, {side}: its margin")
            place = [plan["inputs"][name] for name in ("inset_mm", "tilt_deg")]
            check(np.allclose(place, weakest[2:4], atol=0.05 + 1e-9), f"{what}, {side}: its place {place}, {weakest}")
        count = int(values(data)["screws_count"])
        check(made["inputs"]["screw_count"] == 2 * count and made["inputs"]["other_screw_count"] == count,
              f"{what}: all screws count")
        driven = made["steps"]["demand"]["inputs"]["screw_count"]
        # by the margin without a hand's error, which alone does not keep a screw out
        holds = [made["steps"][step]["results"]["margin_mm"] >= 0 for step in ("screw", "other_screw")]
        check(driven == count * sum(holds), f"{what}: screws that hold: {driven}, {holds}")


def test_sides(folder):
    """A side without room, no room at all, and other ways to fasten the shoe."""
    behind = without_rows(SHEET, r"right\.|left\.0\.") + "".join(
        f"{side}.{place}.wall_thickness_mm = 10 mm\n{side}.{place}.wall_angle_deg = 70 deg\n"
        for side, places in (("left", (0.15, 0.3, 0.5)), ("right", (0.6, 0.8))) for place in places)
    out = both(behind, folder, "right side behind", 1)
    check([code for code, _, _ in stops(out)] == ["right.no_room"], f"right side behind: {head(out)}")
    check(layout(out, "right") == [["no", "room"]] * 2 and len(screws(out, "left")) == 2, "no room on the right")
    made = document(behind, folder, "right side behind", 1)
    check(made["inputs"]["screw_count"] == 2 and made["inputs"]["other_inset_mm"] is None, "the left side alone")
    check(made["steps"]["other_screw"]["state"] == "left out", "no screw on the right")
    # mirrored, the other side alone stands for the job
    other = re.sub(r"^(left|right)(?=[._])", lambda m: SWAP[m[1]], behind, flags=re.M)
    write(folder, as_csv(points() * [1, -1]))
    mirrored = document(other, folder, "left side behind", 1)
    same = ("wall_thickness_mm", "inset_mm", "tilt_deg", "screw_count", "other_inset_mm", "other_screw_count")
    check(all(mirrored["inputs"][name] == made["inputs"][name] for name in same), "the right side alone")
    write(folder, CSV)
    nowhere = without_rows(behind, r"left\.0\.") + "".join(
        f"left.{place}.wall_thickness_mm = 10 mm\nleft.{place}.wall_angle_deg = 70 deg\n" for place in (0.6, 0.8))
    out = both(nowhere, folder, "no room", 1)
    check({code for code, _, _ in stops(out)} == {"left.no_room", "right.no_room"}, f"no room: {head(out)}")
    made = document(nowhere, folder, "no room", 1)
    told = {(c["step"], c["code"]) for c in made["outline"]["cautions"] if c["severity"] == "stop"}
    check(told == {("left", "no_room"), ("right", "no_room")} and made["severity"] == "stop", f"no room: {told}")
    check("stop" not in {c["severity"] for c in made["cautions"]}, "no room: not the plan's")
    check("screw" not in printed(out) and "bond_need" in printed(out), "no room: the bond alone is planned")
    # through the wall, without screws, in foam: the stations still say what the wall is; the thinnest stands for a side
    for what, changes, told in (("through", dict(screw_way_count=2, screw_length_mm=None),
                                 {"through", "other_through"}),
                                ("foam", dict(foam_count=1, wood_density_g_ml=0.1), set()),
                                ("no screws", dict(screw_way_count=0), set())):
        data = with_values(SHEET, **changes)
        out = both(data, folder, what, 0)
        made = document(data, folder, what, 0)
        check("left" not in printed(out) and "profile" in printed(out), f"{what}: no layout")
        check({s for s in printed(out) if s.endswith(("screw", "through"))} == told, f"{what}: {set(printed(out))}")
        thin = [made["inputs"][prefix + "wall_thickness_mm"] for prefix in ("", "other_")]
        check(thin == [9.2, 8.8], f"{what}: the thinnest stations: {thin}")
        check(made["steps"]["bond_need"]["inputs"]["horn_thickness_mm"] == 9.2, f"{what}: the bond's wall")
        free = with_values(data, screws_count=None)
        check(numbers(both(free, folder, what, 0), "band") == numbers(out, "band"), f"{what}: no count is asked for")


def test_same(folder):
    """Another order, another unit, another frame, another way to write it: the same plan."""
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
    sheet = re.sub(r"^(left|right)(?=[._])", lambda m: SWAP[m[1]], SHEET, flags=re.M)
    write(folder, as_csv(xy * [1, -1]))
    mirrored = both(sheet, folder, "mirrored", 0)
    for step in ("band", "glue", "tape", "bevel", "demand", "timeline"):
        for (name, a), b in zip(numbers(mirrored, step).items(), numbers(plain, step).values()):
            digits = len(printed(plain)[step][name].partition(".")[2])
            check(abs(a - b) <= 1.001 * 10**-digits, f"mirrored: {step}.{name} {a} and {b}")
    for side in SWAP:  # insets and tilts of equal margins may differ by their steps
        check(np.allclose(screws(mirrored, side), screws(plain, SWAP[side]), atol=0.11), f"mirrored: screws, {side}")
    for share in ("left_width_fraction", "left_area_fraction"):
        a, b = (numbers(out, "fit")[share] for out in (mirrored, plain))
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


def test_band(folder):
    sheet = re.sub(r"left_quarter_angle_deg  = \S+", "quarter_angle_deg = 78", without(SHEET, "right_quarter"))
    true = standard(135, 128, 720)
    # without noise: the belt of the standard outline.  The fit is within 0.01 mm of it (its contract), 1e-4 of a width
    write(folder, as_csv(true))
    out = both(sheet, folder, "standard outline", 0)
    given = {**{f["name"]: f["standard"] for f in CONTRACTS["hoof_band"]["inputs"]}, **values(sheet),
             "hoof_length_mm": 135, "hoof_width_mm": 128}
    outline = {"length_mm": 135, "width_mm": 128, "area_mm2": shoelace(true)}
    for step, expected in (("band", plan_by_hand.band(given)), ("fit", outline)):
        for name, value in expected.items():
            got = numbers(out, step)[name]
            check(abs(got - value) <= 0.5 + 1e-3 * value, f"standard outline: {step}.{name} is {got}, not {value}")
    apart = sheet.replace("quarter_angle_deg = 78", "left_quarter_angle_deg = 78 deg\nright_quarter_angle_deg = 78")
    named = both(apart, folder, "quarters by name", 0)
    alike(section(named, "Bring"), section(out, "Bring"), "quarter_angle_deg stands for both quarters")
    check(numbers(named, "band") == numbers(out, "band"), "quarter_angle_deg stands for both quarters")
    # with noise of 0.7 mm on 120 points: the area errs by noise x perimeter/sqrt(n) where it is the mean of the
    # distances; four of that
    random = np.random.default_rng(7)
    step = np.roll(true, -1, axis=0) - np.roll(true, 1, axis=0)
    normal = np.stack([step[:, 1], -step[:, 0]], 1) / np.hypot(*step.T)[:, None]
    write(folder, as_csv((true + normal * random.normal(0, 0.7, (720, 1)))[::6]))
    fit = numbers(both(sheet, folder, "noisy standard outline", 0), "fit")
    perimeter = np.hypot(*(np.roll(true, -1, axis=0) - true).T).sum()
    check(abs(fit["area_mm2"] - shoelace(true)) < 4 * 0.7 * perimeter / math.sqrt(120), f"area {fit['area_mm2']}")
    check(abs(fit["noise_mm"] - 0.7) < 0.2, f"noise {fit['noise_mm']}")  # four standard errors: 0.7/sqrt(2 x 110)


def test_screws(folder):
    """The wall at each screw by an independent interpolation, its margin by walking along the axis."""
    out = both(SHEET, folder, "screws", 0)
    around, given = numbers(out, "fit")["perimeter_mm"], values(SHEET)
    length = {side: screws(out, side)[-1][0] / screws(out, side)[-1][1] for side in SIDES}
    wall = {}
    for name, value in given.items():
        station = re.match(r"(left|right)\.([\d.]+)\.(\w+)$", name)
        if station:
            place = float(station[2]) * length[station[1]] / around
            wall.setdefault(place if station[1] == "left" or place == 0 else 1 - place, {})[station[3]] = value
    x = sorted(wall)
    turns = [turn + place for turn in (-1, 0, 1) for place in x]
    curves = {name: PchipInterpolator(turns, [wall[place][name] for place in x] * 3) for name in wall[x[0]]}
    f = {i["name"]: i["standard"] for i in CONTRACTS["screw_depth"]["inputs"]}
    f.update({name: value for name, value in given.items() if name in f})
    for side in SIDES:
        for from_toe, _, inset, tilt, margin, limit in screws(out, side):
            place = from_toe / around if side == "left" else 1 - from_toe / around
            f.update({name: float(curve(place)) for name, curve in curves.items()}, inset_mm=inset)
            path = f["shoe_thickness_mm"] - f["head_recess_mm"]
            deep = f["screw_length_mm"] - path / math.cos(math.radians(tilt)) + f["seat_allowance_mm"]
            worst = []
            for t in (tilt, tilt - f["tilt_error_deg"], tilt + f["tilt_error_deg"]):
                there = path / math.cos(math.radians(t)) + deep
                worst.append(plan_by_hand.screw({**f, "tilt_deg": t, "screw_length_mm": there})["margin_mm"])
            # side_fraction is printed to 0.001, so stations lie within 0.001/0.3 of a side of 210 mm: 0.7 mm, on which
            # the wall changes by 0.02 mm and 0.2 deg; over 16 mm of screw 0.2 deg is 0.06 mm
            check(abs(min(worst) - margin) < 0.09, f"{side}, {from_toe} mm: margin {margin}, recomputed {min(worst)}")
            check((limit >= f["screw_length_mm"]) == (margin >= 0), f"{side}: limit {limit} and margin {margin}")


main("plan with a trace", test_sample, test_weakest, test_sides, test_same, test_band, test_screws)
