#!/usr/bin/env python3
"""The main job: from a sheet of measurements to the plan for one foot, as plan.c does it, text for text.

    python3 plan.py SHEET

What a sheet may hold is said in plan_sheet.h, what a trace in plan_trace.h, and both in the usage text below.

Exit status: 0 the plan stands, 1 a stop stands, 2 the sheet was refused (and nothing is planned).
"""
import math
import os
import sys

import ungula

from plan_lists import Lists
from plan_sheet import LAYOUT, Sheet, accepted, complain, with_unit
from plan_trace import Trace

USAGE = """usage: plan SHEET

Lines of the sheet: name = value unit, lengths in mm or in; # begins a comment.
  hoof_length_mm = 5.25 in               a measurement
  trace = FILE.csv mm                    instead of length and width: points round the hoof, x,y a line
  left.0.25.wall_thickness_mm = 9.5 mm   with a trace: the wall at a station, a quarter of the left side from
  left.0.25.wall_angle_deg = 74 deg      the toe (0) to the rear (1); at the heels 180 - heel angle
  screws_count = 2                       with stations: screws on each side"""
WIDTH = 100
# In the order of the work; the two sides are screw_layout.  Title, and what the sheet must have: a trace, stations.
STEPS = {
    "outline_fit": ("Outline", True, None),
    "hoof_band": ("Belt", False, None),
    "outline_band": ("Belt", True, None),
    "wall_from_border": ("Screw", None, False),
    "screw_depth": (None, None, False),
    "wall_profile": ("Screws", True, True),
    "left": (None, True, True),
    "right": (None, True, True),
    "glue_volume": ("Adhesive", None, None),
    "cast_length": ("Tape", None, None),
    "heel_bevel": ("Heel bevel", None, None),
}
SIDES = ("left", "right")
# (calculation, input): (earlier calculation, its result, an input that must be above 0); the sheet may set the input.
# The belt's calculation depends on the trace.
CHAIN = {
    ("screw_depth", "wall_thickness_mm"): ("wall_from_border", "wall_thickness_mm", None),
    ("glue_volume", "bonded_area_mm2"): ("belt", "bonded_area_mm2", None),
    ("glue_volume", "wood_area_mm2"): ("belt", "shoe_area_mm2", None),
    ("glue_volume", "top_area_mm2"): ("belt", "covered_area_mm2", None),
    ("cast_length", "circumference_low_mm"): ("belt", "circumference_low_mm", None),
    ("cast_length", "circumference_high_mm"): ("belt", "circumference_high_mm", None),
    ("cast_length", "band_height_mm"): ("belt", "slant_height_mm", None),
    ("heel_bevel", "build_up_mm"): ("cast_length", "thickness_mm", "build_length_mm"),
}
# What can be changed on the day, in the order in which it is tried.
CHANGES = {
    "screw_depth": ("screw_length_mm", "screw_diameter_mm", "inset_mm", "tilt_deg", "head_recess_mm", "pad_mm"),
    "hoof_band": ("high_toe_mm", "high_heel_mm"),
    "outline_band": ("high_toe_mm", "high_heel_mm"),
}


def calculation(step):
    return "screw_layout" if step in SIDES else step


def side_of(step):
    return f", {step} side" if step in SIDES else ""


CONTRACT = {step: ungula.describe(calculation(step)) for step in STEPS}
INPUTS = {step: {f.name: f for f in CONTRACT[step].inputs} for step in STEPS}
UNITS = {f.name: f.unit for c in CONTRACT.values() for f in c.inputs + c.outputs}


def call(step, inputs, lists):
    return getattr(ungula, calculation(step))(**inputs, **lists)


# The work

class Plan:
    def __init__(self, sheet):
        self.sheet, self.problems, traced = sheet, 0, sheet.trace is not None
        self.steps = [c for c, (_, with_trace, with_stations) in STEPS.items()
                      if with_trace in (None, traced) and with_stations in (None, sheet.stations)]
        sheet.check({calculation(c): INPUTS[c] for c in self.steps})
        self.trace = Trace(sheet) if traced else None
        self.lists, self.list_arguments = Lists(self, sheet, self.trace), {}
        self.result, self.inputs, self.given, self.taken = {}, {}, {}, {}
        self.wanted = {c: c != "wall_from_border" for c in self.steps}
        for c in self.steps:
            self.given[c] = {name: row for name in INPUTS[c] if (row := sheet.find(calculation(c), name))}
            self.inputs[c] = {name: self.given[c][name].value if name in self.given[c] else f.standard
                              for name, f in INPUTS[c].items()}
            self.taken[c] = {}
        for (c, name), (source, output, only_with) in CHAIN.items():
            if source == "belt":
                source = "outline_band" if traced else "hoof_band"
            if c in self.steps and name not in self.given[c] and (not only_with or self.inputs[c][only_with] > 0):
                self.taken[c][name] = (source, output)
                self.wanted[source] = True

    def problem(self, row, name, text):
        self.problems += 1
        path = os.fsencode(self.sheet.path)
        where = f"{row.line}: {row.echo}" if row else f"{self.sheet.lines or 1}: {name} (end of sheet)"
        complain(path + f":{where}: {text}".encode("ascii"))

    def check(self):
        for row in self.sheet.rows:
            if row.problem:
                self.problem(row, None, row.problem)
        if self.trace:
            self.problems += self.trace.report()
        border = self.given.get("wall_from_border", {}).get("border_width_mm")
        if border and not self.wanted["wall_from_border"]:
            self.problem(border, None, "wall_thickness_mm is given as well; give one of the two")
        missed = set()
        for c in self.steps:
            for name, f in INPUTS[c].items():
                if self.wanted[c] and self.inputs[c][name] is None and name not in self.taken[c] and name not in missed:
                    missed.add(name)
                    self.problem(None, name, f"required, and not on the sheet{self.instead_of(c, name)}; "
                                 f"{accepted(f)} ({f.meaning})")
        for name, f in LAYOUT.items():
            if "left" in self.steps and not self.sheet.find("screw_layout", name):
                self.problem(None, name, f"required, and not on the sheet; {accepted(f)} ({f.meaning})")

    def instead_of(self, step, name):
        later = self.steps[self.steps.index(step) + 1:]
        if step != "wall_from_border" or any(name in INPUTS[c] for c in later):
            return ""
        return next(f", nor is {name}" for (_, name), (source, *_) in CHAIN.items() if source == step)

    def run(self):
        self.check()
        if self.problems:
            return
        for c in self.steps:
            if not self.wanted[c] or any(source not in self.result for source, _ in self.taken[c].values()):
                continue
            for name, (source, output) in self.taken[c].items():
                self.inputs[c][name] = getattr(self.result[source], output)
            try:
                if c == "outline_fit":  # it says which two points meet where a trace crosses itself
                    ungula.outline_measure(outline=self.trace.points)
                lists = self.lists.arguments(c)
                if lists is None:
                    continue
                if c in SIDES and not lists["stations"]:
                    self.problem(self.lists.station_rows[0], None,
                                 f"no place for a screw between the {c} side's stations")
                    continue
                self.result[c], self.list_arguments[c] = call(c, self.inputs[c], lists), lists
            except ungula.InvalidInput as refused:
                self.refused(c, refused)

    def refused(self, c, refused):
        if c == "outline_fit" and self.trace.refused(refused):
            self.problems += 1
            return
        row = self.given[c].get(refused.field)
        if refused.rows:
            index = refused.index if isinstance(refused.index, int) else 0
            rows = self.lists.station_rows
            row = rows[index if index < len(rows) else 0] if c == "wall_profile" else self.sheet.trace
        start = f"from {self.taken[c][refused.field][1]}: " if refused.field in self.taken[c] else ""
        self.problem(row, refused.field, f"{start}{refused}")


# What would lift a stop

def stops_of(result, code=None):
    return [w for w in result.cautions if w.severity == "stop" and code in (None, w.code)]


def changed(p, c, name, value):
    try:
        return call(c, {**p.inputs[c], name: value}, p.list_arguments[c])
    except ungula.InvalidInput:
        return None


def lifts(p, c, name, value, code):
    other = changed(p, c, name, value)
    return bool(other) and not stops_of(other, code) and len(stops_of(other)) <= len(stops_of(p.result[c]))


def lifting_value(c, result, stop, name):
    """Calculations with lists are not searched by the library: there it is the limit that the stop names, if it is
    about this input."""
    if not CONTRACT[c].lists:
        return ungula.lift(result, stop.code, name)
    return stop.limit if stop.field == name else None


def least_change(p, c, name, code):
    """The least change of one input, to a tenth, that lifts the stop `code` (None: all of them); None if none."""
    now, value, was = p.result[c], p.inputs[c][name], p.inputs[c][name]
    for _ in range(16):
        stops = stops_of(now, code)
        if not stops:
            break
        value = lifting_value(c, now, stops[0], name)
        if value is None or math.isnan(value):
            return None
        now = changed(p, c, name, value)
        if now is None:
            return None
    if not lifts(p, c, name, value, code):
        return None
    nearest, away = math.floor(value * 10 + 0.5), -1 if value < was else 1
    for tenths in (nearest, nearest + away):
        if lifts(p, c, name, tenths / 10, code):
            return tenths / 10
    return value


def layout_would_do(p, c, screws, name, value):
    """A layout again with other numbers: whether no stop stands and every screw reaches the horn."""
    inputs = {**p.inputs[c], name: value} if name else p.inputs[c]
    try:
        other = call(c, inputs, {**p.list_arguments[c], "screws_count": screws})
    except ungula.InvalidInput:
        return False
    return not stops_of(other) and other.least_embedded_mm > 0


# The text

def wrapped(lead, indent, text):
    """Words in lines of WIDTH; a ~ is a space that holds."""
    lines, line, first = [], lead, True
    for word in text.split():
        if not first and len(line) + 1 + len(word) > WIDTH:
            lines.append(line)
            line, first = " " * indent, True
        line += word if first else " " + word
        first = False
    return "\n".join(lines + [line]).replace("~", " ")


def measure(value, name, digits):
    return with_unit("%.*g" % (digits, value), UNITS[name])


def row(name, value, meaning):
    unit = UNITS[name]
    decimals = 0 if unit == "mm2" or name.endswith("_count") else 1 if unit == "mL" else 2
    return "  %-24s %10.*f %-5s  %s" % (name, decimals, value, unit, meaning)


def down_to_tenth(value):
    """A limit is rounded down; what is a hair short of a tenth by arithmetic is that tenth."""
    return math.floor(value * 10 + 1e-6) / 10 if math.isfinite(value) else value


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
        if name in taken:
            print(row(name, inputs[name], f"taken: {taken[name][1]} of {taken[name][0]}"))
    for f in CONTRACT[c].outputs:
        print(row(f.name, getattr(p.result[c], f.name), f.meaning))
    if c in SIDES:
        places(p, c)
    for name, f in INPUTS[c].items():
        if (name in given or name in taken) and not f.usual_lower <= inputs[name] <= f.usual_upper:
            text = "%s is %s (usual %.15g to %s)" % (name, measure(inputs[name], name, 6), f.usual_lower,
                                                     measure(f.usual_upper, name, 15))
            print(wrapped("  unusual, check it: ", 6, text))
    standard = [f"{name} {measure(inputs[name], name, 15)}".replace(" ", "~")
                for name in INPUTS[c] if name not in given and name not in taken]
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
    every = [(c, w) for severity in ("stop", "warn", "note") for c in p.steps if c in p.result
             for w in p.result[c].cautions if w.severity == severity]
    for c, w in every:
        print(f"  {w.severity:4}  {calculation(c)}.{w.code}{side_of(c)}")
        print(wrapped("        ", 8, caution_text(c, w)))
    if not every:
        print("  none")


def standing(p):
    print("\nAlways")
    for c in p.steps:
        for text in CONTRACT[c].standing if c in p.result and c != "right" else ():
            print(wrapped("  - ", 4, text))
    print("\nThe attending veterinarian and a qualified farrier decide; this plan only computes.")


def print_changes(p, c, code):
    found = False
    for name in CHANGES.get(c, ()):
        now, f = p.inputs[c][name], INPUTS[c][name]
        value = least_change(p, c, name, code)
        if value is None:
            continue
        if not found:
            print("  Least change that lifts it%s:" % (" (any one of these alone)" if c == "screw_depth" else ""))
        found = True
        print("    %-18s %.15g -> %s (%s %s)%s" % (
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
    name = cause(p, c, w)
    if c == "screw_depth":
        short_covers(p)
    where = (f"line {p.given[c][name].line} of the sheet" if name in p.given[c]
             else "%s of %s" % p.taken[c][name][::-1] if name in p.taken[c]
             else "standard value, not on the sheet")
    print(f"  Measured value that causes it: {name} = {measure(p.inputs[c][name], name, 15)} ({where})")


def stops(p):
    """Prints every stop with what would lift it; returns how many stand."""
    count = 0
    for c in p.result:
        standing_stops = stops_of(p.result[c])
        for w in standing_stops:
            print_stop(p, c, w)
        if standing_stops and c in SIDES:
            print_layout_changes(p, c)
        elif standing_stops and not print_changes(p, c, None):
            several = len(standing_stops) > 1
            print(f"  No change of a single value lifts {'all of these' if several else 'it'}.")
            for w in standing_stops if several else ():
                print(f"  {c}.{w.code} alone:")
                print_changes(p, c, w.code)
        count += len(standing_stops)
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
            if STEPS[c][0]:
                print(f"\n{STEPS[c][0]}")
            if c == "outline_fit":
                print(f"  {sheet.trace.echo} (line {sheet.trace.line} of the sheet): {len(p.trace.points)} points")
            section(p, c)
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
