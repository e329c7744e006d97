#!/usr/bin/env python3
"""The main job: from a sheet of measurements to the plan for one foot, as plan.c does it, text for text.

    python3 plan.py SHEET

What a sheet may hold is said in plan_sheet.h, what a trace in plan_trace.h, and both in the usage text below.

Exit status: 0 the plan stands, 1 a stop stands, 2 the sheet was refused (and nothing is planned).
"""
import math
import os
import sys

from plan_hold import hold_open, hold_tells, hold_words
from plan_sheet import Sheet, complain
from plan_text import down_to_tenth, measure, row, wrapped
from plan_timing import timing_own_stop, timing_stop, timing_words
from plan_work import (CHANGES, CONTRACT, INPUTS, SIDES, STEPS, Plan, calculation, cautions_of, layout_would_do,
                       least_change, side_of)

USAGE = """usage: plan SHEET

Lines of the sheet: name = value unit, lengths in mm or in; # begins a comment.
  hoof_length_mm = 5.25 in               a measurement
  trace = FILE.csv mm                    instead of length and width: points round the hoof, x,y a line
  left.0.25.wall_thickness_mm = 9.5 mm   with a trace: the wall at a station, a quarter of the left side from
  left.0.25.wall_angle_deg = 74 deg      the toe (0) to the rear (1); at the heels 180 - heel angle
  screws_count = 2                       with stations: screws on each side
  gait_count = 2                         with body_mass_kg and shoe_mass_g: whether bond or screws hold
  task.1.low_s = 30 s                    with reference_time_s, temperature_c ...: whether the work gets done
                                         before the adhesive sets; likely_s and high_s as well"""


def places(p, side):
    stations, screws = p.list_arguments[side]["stations"], p.result[side].screws
    (_, from_toe, thick, angle, _), (_, to, thick_to, angle_to, _) = stations[0], stations[-1]
    print("  places that came into question: %d, %.0f to %.0f mm from the toe; wall there %.2f to %.2f mm, %.1f to %.1f"
          " deg" % (len(stations), from_toe, to, thick, thick_to, angle, angle_to))
    names = ("from_toe_mm", "side_fraction", "inset_mm", "tilt_deg", "margin_mm", "screw_length_limit_mm")
    print("  screw" + "".join("  " + name for name in names))
    for i, (*values, limit) in enumerate(zip(*(getattr(screws, name) for name in names)), 1):
        if limit > 0:  # 0: no room
            print("  %5d  %11.0f  %13.3f  %8.1f  %8.1f  %9.2f  %21.1f" % (i, *values, down_to_tenth(limit)))
        else:
            print("  %5d  no room" % i)


def section(p, c):
    if c not in p.result:
        return
    print(f"  {calculation(c)}{side_of(c)}: {CONTRACT[c].title}")
    inputs, taken, given = p.inputs[c], p.taken[c], p.given[c]
    for name in INPUTS[c]:
        if name in taken and inputs[name] == p.high[c][name]:
            print(row(name, inputs[name], f"taken: {taken[name].text}"))
    for f in CONTRACT[c].outputs:
        if not hold_tells(p, c, f.name):
            continue
        print(row(f.name, getattr(p.result[c], f.name), f.meaning))
    hold_open(p, c)
    if c in SIDES:
        places(p, c)
    for name, f in INPUTS[c].items():
        known = (name in given or name in taken) and inputs[name] == p.high[c][name]
        if known and not f.usual_lower <= inputs[name] <= f.usual_upper:
            text = "%s is %s (usual %.15g to %s)" % (name, measure(inputs[name], name, 6), f.usual_lower,
                                                     measure(f.usual_upper, name, 15))
            print(wrapped("  unusual, check it: ", 6, text))
    standard = [f"{name} {measure(inputs[name], name, 15)}".replace(" ", "~")
                for name in INPUTS[c] if name not in given and name not in taken and name not in p.unknown[c]]
    if standard and c != "wall_profile":  # its one input is where the plan asks
        print(wrapped("  not on the sheet, so standard: ", 6, ", ".join(standard)))


def bring_layouts(p):
    """All layouts together: how many screws, and how long the shortest limit lets them be."""
    limits = [limit for side in SIDES for limit in p.result[side].screws.screw_length_limit_mm if limit > 0]
    print("  screws:                %d with %.15g mm thread" % (len(limits), p.inputs["left"]["screw_diameter_mm"])
          + (", at most %.1f mm long" % down_to_tenth(min(limits)) if limits else ""))


def bring_screw(p):
    screw = p.result["screw_depth"]
    if screw.depth_limit_mm > 0:
        print("  screws:                %.15g mm thread, at most %.1f mm long" % (
            p.inputs["screw_depth"]["screw_diameter_mm"], math.floor(screw.screw_length_limit_mm * 10) / 10))
    else:
        print("  screws:                none: at this place and slant no length keeps every margin")


def bring(p):
    glue, tape = p.result["glue_volume"], p.result["cast_length"]
    print("\nBring")
    print("  packs of adhesive:     %.0f, each giving %.15g mL; %.1f mL for the first coat and %.1f mL for the top "
          "coat, mixed apart" % (glue.packs_separate_count, p.inputs["glue_volume"]["pack_ml"], glue.first_coat_ml,
                           glue.top_coat_ml))
    print("  rolls of casting tape: %.0f, each %.15g mm wide and %.15g mm long" % (
        tape.rolls_count, p.inputs["cast_length"]["tape_width_mm"], p.inputs["cast_length"]["roll_length_mm"]))
    (bring_screw if "screw_depth" in p.result else bring_layouts)(p)


def caution_text(c, w):
    comparison = next(rule.comparison for rule in CONTRACT[c].cautions if rule.code == w.code)
    if comparison == "always":
        return w.text
    word = "equal to" if comparison == "equal" else comparison
    return f"{w.text} ({w.field} is {measure(w.value, w.field, 4)}, {word} {measure(w.limit, w.field, 4)})"


def cautions(p):
    print("\nCautions, the most severe first")
    every = [(c, w) for severity in ("stop", "warn", "note") for c in p.steps
             for w in cautions_of(p, c) if w.severity == severity]
    for c, w in every:
        print(f"  {w.severity:4}  {calculation(c)}.{w.code}{side_of(c)}")
        print(wrapped("        ", 8, caution_text(c, w)))
    if not every:
        print("  none")


def standing(p):
    print("\nAlways")
    for c in p.steps:
        for text in CONTRACT[c].standing if c in p.result and c not in ("right", "demand", "need") else ():
            print(wrapped("  - ", 4, text))
    print("\nThe attending veterinarian and a qualified farrier decide; this plan only computes.")


def print_changes(p, c, code):
    found = False
    for name in CHANGES.get(c, ()):
        now, f = p.high[c][name], INPUTS[c][name]
        value = least_change(p, c, name, code)
        if value is None:
            continue
        if not found:
            several = "" if c in ("hoof_band", "outline_band") else " (any one of these alone)"
            print(f"  Least change that lifts it{several}:")
        found = True
        print("    %-18s %.6g -> %s (%s %s)%s" % (
            name, now, measure(value, name, 15), measure(abs(value - now), name, 6), "less" if value < now else "more",
            "" if f.usual_lower <= value <= f.usual_upper else ", outside the usual range"))
    return found


def cause(p, c, w):
    """The measured value to look at: the caution's own if it is an input, otherwise the first on the sheet that would
    lift it, otherwise what the calculation starts from (the wall)."""
    if w.field in INPUTS[c]:
        return w.field
    lifting = (name for name in CHANGES.get(c, ())
               if name in p.given[c] and least_change(p, c, name, w.code) is not None)
    return next(lifting, next(iter(INPUTS[c])))


def short_covers(p):
    inputs, screw = p.inputs["screw_depth"], p.result["screw_depth"]
    for has, wanted in (("inner_cover_mm", "inner_margin_mm"), ("outer_cover_mm", "outer_margin_mm"),
                        ("white_line_cover_mm", "white_line_margin_mm"), ("edge_cover_mm", "edge_margin_mm"),
                        ("height_limit_mm", "tip_height_mm")):
        a, b = (inputs[name] if name in inputs else getattr(screw, name) for name in (has, wanted))
        if a < b:
            print("  %s is %.4g mm, and %s is %.4g mm" % (has, a, wanted, b))


def print_layout_changes(p, c):
    """What the layout itself says would keep every margin, where that is a change and does it."""
    layout, screws = p.result[c], p.list_arguments[c]["screws_count"]
    fit, lines = int(layout.screws_fit_count), []
    if 0 < fit < screws and layout_would_do(p, c, fit, None, 0):
        lines.append("    %-18s %d -> %d (%d less)" % ("screws_count", screws, fit, screws - fit))
    for name, largest in (("spacing_mm", layout.spacing_fit_mm), ("screw_length_mm", layout.screw_length_fit_mm)):
        now, value = p.inputs[c][name], down_to_tenth(largest)
        if value < now and layout_would_do(p, c, screws, name, value):
            lines.append("    %-18s %.15g -> %s (%s less)" % (name, now, measure(value, name, 15),
                                                              measure(now - value, name, 6)))
    if lines:
        print("\n".join(["  What would keep every margin (any one of these alone):"] + lines))
    else:
        print("  Neither fewer screws, nor less spacing, nor shorter screws alone keep every margin.")


def print_stop(p, c, w):
    print(wrapped(f"STOP  {calculation(c)}.{w.code}{side_of(c)}: ", 6, caution_text(c, w)))
    if c in SIDES:
        number = int(p.result[c].weakest_count)
        if number > 0:
            print("  The screw with the least margin: number %d, %.0f mm from the toe" % (
                number, p.result[c].screws.from_toe_mm[number - 1]))
        return
    if c == "job_timeline":
        timing_stop(p)
        return
    name = cause(p, c, w)
    if c == "screw_depth":
        short_covers(p)
    where = (f"line {p.given[c][name].line} of the sheet" if name in p.given[c]
             else p.taken[c][name].text if name in p.taken[c]
             else "standard value, not on the sheet")
    print(f"  Measured value that causes it: {name} = {measure(p.inputs[c][name], name, 15)} ({where})")


def stops(p):
    """Prints every stop with what would lift it; returns how many stand."""
    count = 0
    for c in p.result:
        standing_stops = [w for w in cautions_of(p, c) if w.severity == "stop"]
        for w in standing_stops:
            print_stop(p, c, w)
        if standing_stops and c in SIDES:
            print_layout_changes(p, c)
        elif standing_stops and c != "job_timeline" and not print_changes(p, c, None):
            several = len(standing_stops) > 1
            print(f"  No change of a single value lifts {'all of these' if several else 'it'}.")
            for w in standing_stops if several else ():
                print(f"  {c}.{w.code} alone:")
                print_changes(p, c, w.code)
        count += len(standing_stops)
        if c == "job_timeline" and not standing_stops:
            count += timing_own_stop(p)
    if count:
        print()
    return count


def main(arguments):
    if len(arguments) != 1:
        complain(USAGE)
        return 2
    path = arguments[0]
    sheet = Sheet.read(path)
    if not sheet:
        return 2
    p = Plan(sheet)
    p.run()
    if p.problems:
        return 2
    try:
        count = stops(p)
        print(f"Plan from {path}")
        for c in p.steps:
            if c == "need":
                hold_words(p)
            if STEPS[c][0]:
                print(f"\n{STEPS[c][0]}")
            if c == "outline_fit":
                print(f"  {sheet.trace.echo} (line {sheet.trace.line} of the sheet): {len(p.trace.points)} points")
            if c not in ("demand", "need"):
                section(p, c)
        if "need" not in p.steps:
            hold_words(p)
        timing_words(p)
        bring(p)
        cautions(p)
        standing(p)
        sys.stdout.flush()
    except OSError:
        complain("plan: cannot write the plan")
        sys.stderr.flush()
        os._exit(2)  # without a second attempt to write
    return 1 if count else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
