#!/usr/bin/env python3
"""The main job with a traced hoof: every kind of bad trace and of bad station, with the line that is told.  Programs
and helpers are those of plan_sheets.py."""
import os
import re
import sys

import numpy as np

sys.dont_write_bytecode = True  # the sources may be read-only
from plan_sheets import (  # noqa: E402
    EXAMPLES, both, check, main, plans, refused, runs, sample, with_values, without, write)

SHEET, CSV = sample("traced.sheet"), sample("traced.csv")
LINES = CSV.splitlines()
FIRST = next(i for i, text in enumerate(LINES) if re.match(r"[\d-]", text))  # index of the first point's line
END = len(SHEET.splitlines()) + 1


def row_of(name, text=SHEET):
    return next(i for i, line in enumerate(text.splitlines(), 1) if re.match(rf"{re.escape(name)} *=", line))


def points():
    return np.array([[float(v) for v in text.split(",")] for text in LINES[FIRST:]])


def as_csv(xy):
    return "".join("%.9f, %.9f\n" % (x, y) for x, y in xy)


def without_rows(text, pattern):
    return "".join(line for line in text.splitlines(keepends=True) if not re.match(pattern, line))


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
    results = plans(data, folder)
    at = f"{folder}/traced.csv:{number}: " if number else f"FILE:{row_of('trace', data)}: trace ="
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


def test_points(folder):
    for text, expected in BAD_POINTS:
        data, number = with_line(FIRST + 20, text)
        bad_csv(SHEET, folder, data, expected, number)
    err = bad_csv(SHEET, folder, "x y\n" + 30 * "none\n", "a line holds two numbers", 2)
    check(len(err.splitlines()) == 10, f"the first ten problems are told: {err}")
    # problems of the sheet and of the trace at once
    wrong, number = with_line(FIRST + 20, "12")
    err = bad_csv(with_values(SHEET, hoof_witdh_mm=3), folder, wrong, "a line holds two", number)
    check("the plan has no input of that name" in err, f"sheet and trace: {err}")
    for what, other in (("neighbors exchanged", 27), ("far points exchanged", 66)):
        xy = points()
        xy[[26, other]] = xy[[other, 26]]
        err = bad_csv(SHEET, folder, "\n".join(LINES[:FIRST]) + "\n" + as_csv(xy), "crosses or touches itself",
                      FIRST + 1 + min(meeting_edges(xy))[0])
        told = [int(n) - FIRST - 1 for n in re.search(r"\(lines (\d+) and (\d+)\)", err).groups()]
        check(tuple(sorted(told)) in meeting_edges(xy), f"{what}: these two edges meet: {told}, {meeting_edges(xy)}")
    repeated, number = with_line(FIRST + 20, LINES[FIRST + 19])
    bad_csv(SHEET, folder, repeated, f"repeats the one before it (lines {number} and {number - 1})", number)


def test_file(folder):
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
                          ("traced.csv in", "check the scale"), ("a" * 60 + "/" + "b.csv mm", "cannot be read")):
        bad_csv(re.sub("traced.csv mm", new, SHEET), folder, CSV, expected)
    full = SHEET.replace("traced.csv mm", os.path.join(folder, "traced.csv") + " mm")
    check(len(folder) > 120 or both(full, folder, "whole path", 0), "a whole path may be given")
    done = runs(os.path.join(EXAMPLES, "traced.sheet"))
    check(all(status == 0 for status, _, _ in done.values()), f"the path is relative to the sheet: {done}")


FORM = "a station is written left.0.25.wall_thickness_mm"
TWICE = "the trace or the stations of the wall say this already"
SCREW = {"inset_mm": "6 mm", "tilt_deg": "9 deg", "screw_count": "6", "wall_thickness_mm": "9 mm",
         "other_inset_mm": "6 mm", "perimeter_mm": "430 mm", "bonded_area_mm2": "12000 mm2"}
BAD_ROWS = [  # at the end of the sheet
    ("left.1.5.wall_angle_deg = 70 deg", "there is no such place; accepted values are 0 to 1"),
    ("left.0.3.wall_angel_deg = 70 deg", FORM), ("left.-0.3.wall_angle_deg = 70 deg", FORM),
    ("left.3e-1.wall_angle_deg = 70 deg", FORM), ("left.0.3.around_fraction = 0.3", FORM),
    ("left.wall_angle_deg = 70 deg", FORM), ("left. = 70 deg", FORM), ("left.0..3.wall_angle_deg = 70 deg", FORM),
    ("left.0.250.wall_angle_deg = 70 deg", f"already given in line {row_of('left.0.25.wall_angle_deg')}"),
    ("right.0.0.wall_angle_deg = 70 deg",  # the toe, from the other side
     f"already given in line {row_of('left.0.wall_angle_deg')}"),
    ("right.0.3.wall_angle_deg = 70 deg", "the station needs its wall_thickness_mm as well"),
    ("right.0.3.wall_thickness_mm = 9 mm", "the station needs its wall_angle_deg as well"),
    ("right.0.3.wall_angle_deg = 151 deg", "151 deg is out of range; accepted values are 35 to 150 deg"),
    ("right.0.3.wall_thickness_mm = 1 in", "25.4 mm is out of range; accepted values are 2 to 20 mm"),
    ("right.0.3.wall_angle_deg = 70 mm", "it must be deg"), ("right.0.3.wall_angle_deg = x deg", "plain decimal"),
    ("screws_count = 3", f"already given in line {row_of('screws_count')}"),
    ("trace = traced.csv mm", f"already given in line {row_of('trace')}"),
    ("hoof_length_mm = 130 mm", "the trace stands for this"), ("widest_fraction = 0.5", "the trace stands for this"),
    ("hoof_band.low_mm = 3 mm", "write the name alone"), ("harmonics_count = 25", "whole numbers from 0 to 24"),
    ("wall_profile.start_fraction = 0.3", "the plan has no input of that name for this calculation"),
    ("outline_fit.screws_count = 2", "the plan has no input of that name for this calculation"),
    *((f"{name} = {value}", TWICE) for name, value in SCREW.items())]


def test_rows(folder):
    for line, expected in BAD_ROWS:
        err = refused(SHEET + line + "\n", folder, expected, END)
        check(f":{END}: {line.partition(' =')[0].split('.')[0]}" in err, f"the line is shown: {err}")
    quarter = without(SHEET, "left_quarter")
    refused(quarter + "quarter_angle_deg = 130 deg\n", folder, "accepted values are 45 to 120 deg", END - 1)
    many = SHEET.replace("screws_count      = 2", "screws_count = 9")
    refused(many, folder, "accepted values are whole numbers from 1 to 8", row_of("screws_count"))
    refused(with_values(SHEET, heel_hairline_mm=None, high_toe_mm=None, high_heel_mm=None), folder,
            "high_toe_mm (end of sheet): required, and not on the sheet; accepted values are 1 to 120 mm")
    low = SHEET.replace("low_mm            = -24 mm", "low_mm = 30 mm")
    refused(low, folder, "upper edge must be above its lower edge at the heel", row_of("high_heel_mm"))


def test_stations(folder):
    near = "right.0.2500001.wall_angle_deg = 70 deg\nright.0.2500001.wall_thickness_mm = 9 mm\n"
    refused(SHEET + near, folder, "at least a millionth of the perimeter apart", row_of("right.0.25.wall_thickness_mm"))
    many = "".join(f"left.0.3{i}.wall_{name}\n" for i in range(10, 80)
                   for name in ("thickness_mm = 9 mm", "angle_deg = 75 deg"))
    refused(SHEET + many, folder, "accepted are 2 to 64", row_of("left.0.wall_thickness_mm"))
    one = without_rows(SHEET, r"right\.")
    refused(one, folder, "the right side needs at least two stations; toe and rear count for both",
            row_of("left.0.5.wall_angle_deg", one))
    one = without_rows(SHEET, r"left\.")
    refused(one, folder, "the left side needs at least two stations", row_of("right.0.5.wall_angle_deg", one))
    alone = "left.0.3.wall_thickness_mm = 9 mm\nleft.0.3.wall_angle_deg = 75 deg\n"
    refused(without_rows(SHEET, r"left\.|right\.") + alone, folder, "the left side needs at least two stations")
    close = "".join(f"{side}.{place}.wall_{name}\n" for side in ("left", "right") for place in ("0.3", "0.301")
                    for name in ("thickness_mm = 9 mm", "angle_deg = 75 deg"))
    refused(without_rows(SHEET, r"left\.|right\.") + close, folder,
            "no place for a screw between the left side's stations")
    lone = without(SHEET, "trace ")
    refused(lone, folder, "stations of the wall need a trace to lie on", row_of("left.0.wall_thickness_mm", lone))
    refused(without(SHEET, "screws_count"), folder,
            "screws_count (end of sheet): required with stations of the wall: how many screws a side gets; "
            "accepted values are whole numbers from 1 to 8", END - 2)
    # toe and rear are the same place from either side: given once, they count for both
    ends = re.sub(r"^left\.0\.wall", "right.0.wall", SHEET, flags=re.M)
    check(both(ends, folder, "the toe from the right", 0) == both(SHEET, folder, "the toe from the left", 0), "the toe")
    rear = "left.1.wall_thickness_mm = 8 mm\nleft.1.wall_angle_deg = 130 deg\n"
    check(both(SHEET + rear, folder, "the rear from the left", 0) ==
          both(SHEET + rear.replace("left", "right"), folder, "the rear from the right", 0), "the rear")


main("bad traces", test_points, test_file, test_rows, test_stations)
