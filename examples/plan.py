#!/usr/bin/env python3
"""The main job: from a sheet of measurements to the plan for one foot, as plan.c does it, text for text.

    python3 plan.py SHEET

Exit status: 0 the plan stands, 1 a stop stands, 2 the sheet was refused (and nothing is planned).
"""
import math
import os
import sys

import ungula

from plan_sheet import Sheet, accepted, complain, with_unit

WIDTH = 100
TITLES = {"hoof_band": "Belt", "wall_from_border": "Screw", "screw_depth": None, "glue_volume": "Adhesive",
          "cast_length": "Tape", "heel_bevel": "Heel bevel"}
STEPS = list(TITLES)  # in the order of the work
# (calculation, input): (earlier calculation, its result, an input that must be above 0); the sheet may set the input
CHAIN = {
    ("screw_depth", "wall_thickness_mm"): ("wall_from_border", "wall_thickness_mm", None),
    ("glue_volume", "bonded_area_mm2"): ("hoof_band", "bonded_area_mm2", None),
    ("glue_volume", "wood_area_mm2"): ("hoof_band", "shoe_area_mm2", None),
    ("glue_volume", "top_area_mm2"): ("hoof_band", "covered_area_mm2", None),
    ("cast_length", "circumference_low_mm"): ("hoof_band", "circumference_low_mm", None),
    ("cast_length", "circumference_high_mm"): ("hoof_band", "circumference_high_mm", None),
    ("cast_length", "band_height_mm"): ("hoof_band", "slant_height_mm", None),
    ("heel_bevel", "build_up_mm"): ("cast_length", "thickness_mm", "build_length_mm"),
}
# What can be changed on the day, in the order in which it is tried.
CHANGES = {
    "screw_depth": ("screw_length_mm", "screw_diameter_mm", "inset_mm", "tilt_deg", "head_recess_mm", "pad_mm"),
    "hoof_band": ("high_toe_mm", "high_heel_mm"),
}
CONTRACT = {name: ungula.describe(name) for name in STEPS}
INPUTS = {name: {f.name: f for f in CONTRACT[name].inputs} for name in STEPS}
UNITS = {f.name: f.unit for c in CONTRACT.values() for f in c.inputs + c.outputs}


# The work

class Plan:
    def __init__(self, sheet):
        self.sheet, self.problems = sheet, 0
        self.result, self.inputs, self.given, self.taken = {}, {}, {}, {}
        self.wanted = {c: c != "wall_from_border" for c in STEPS}
        for c in STEPS:
            self.given[c] = {name: row for name in INPUTS[c] if (row := sheet.find(c, name))}
            self.inputs[c] = {name: self.given[c][name].value if name in self.given[c] else f.standard
                              for name, f in INPUTS[c].items()}
            self.taken[c] = {}
        for (c, name), (source, output, only_with) in CHAIN.items():
            if name not in self.given[c] and (not only_with or self.inputs[c][only_with] > 0):
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
        border = self.given["wall_from_border"].get("border_width_mm")
        if border and not self.wanted["wall_from_border"]:
            self.problem(border, None, "wall_thickness_mm is given as well; give one of the two")
        missed = set()
        for c in STEPS:
            for name, f in INPUTS[c].items():
                if self.wanted[c] and self.inputs[c][name] is None and name not in self.taken[c] and name not in missed:
                    missed.add(name)
                    self.problem(None, name, f"required, and not on the sheet{self.instead_of(c, name)}; "
                                 f"{accepted(f)} ({f.meaning})")

    def instead_of(self, calculation, name):
        later = STEPS[STEPS.index(calculation) + 1:]
        if calculation != "wall_from_border" or any(name in INPUTS[c] for c in later):
            return ""
        return next(f", nor is {name}" for (_, name), (source, *_) in CHAIN.items() if source == calculation)

    def run(self):
        self.check()
        if self.problems:
            return
        for c in STEPS:
            if not self.wanted[c] or any(source not in self.result for source, _ in self.taken[c].values()):
                continue
            for name, (source, output) in self.taken[c].items():
                self.inputs[c][name] = getattr(self.result[source], output)
            try:
                self.result[c] = getattr(ungula, c)(**self.inputs[c])
            except ungula.InvalidInput as refused:
                start = f"from {self.taken[c][refused.field][1]}: " if refused.field in self.taken[c] else ""
                self.problem(self.given[c].get(refused.field), refused.field, f"{start}{refused}")


# What would lift a stop

def stops_of(result, code=None):
    return [w for w in result.cautions if w.severity == "stop" and code in (None, w.code)]


def changed(c, inputs, name, value):
    try:
        return getattr(ungula, c)(**{**inputs, name: value})
    except ungula.InvalidInput:
        return None


def lifts(c, result, inputs, name, value, code):
    other = changed(c, inputs, name, value)
    return bool(other) and not stops_of(other, code) and len(stops_of(other)) <= len(stops_of(result))


def least_change(c, result, inputs, name, code):
    """The least change of one input, to a tenth, that lifts the stop `code` (None: all of them); None if none."""
    now, value = result, inputs[name]
    for _ in range(16):
        stops = stops_of(now, code)
        if not stops:
            break
        value = ungula.lift(now, stops[0].code, name)
        if value is None or math.isnan(value):
            return None
        now = changed(c, inputs, name, value)
    if not lifts(c, result, inputs, name, value, code):
        return None
    nearest, away = math.floor(value * 10 + 0.5), -1 if value < inputs[name] else 1
    for tenths in (nearest, nearest + away):
        if lifts(c, result, inputs, name, tenths / 10, code):
            return tenths / 10
    return value


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


def section(p, c):
    if c not in p.result:
        return
    print(f"  {c}: {CONTRACT[c].title}")
    inputs, taken, given = p.inputs[c], p.taken[c], p.given[c]
    for name in INPUTS[c]:
        if name in taken:
            print(row(name, inputs[name], f"taken: {taken[name][1]} of {taken[name][0]}"))
    for f in CONTRACT[c].outputs:
        print(row(f.name, getattr(p.result[c], f.name), f.meaning))
    for name, f in INPUTS[c].items():
        if (name in given or name in taken) and not f.usual_lower <= inputs[name] <= f.usual_upper:
            text = "%s is %s (usual %.15g to %s)" % (name, measure(inputs[name], name, 6), f.usual_lower,
                                                     measure(f.usual_upper, name, 15))
            print(wrapped("  unusual, check it: ", 6, text))
    standard = [f"{name} {measure(inputs[name], name, 15)}".replace(" ", "~")
                for name in INPUTS[c] if name not in given and name not in taken]
    if standard:
        print(wrapped("  not on the sheet, so standard: ", 6, ", ".join(standard)))


def bring(p):
    screw, glue, tape = (p.result[c] for c in ("screw_depth", "glue_volume", "cast_length"))
    print("\nBring")
    print("  packs of adhesive:     %.0f, each giving %.15g mL; %.1f mL for the first coat and %.1f mL for the top "
          "coat, mixed apart" % (glue.packs_separate_count, p.inputs["glue_volume"]["pack_ml"], glue.first_coat_ml,
                           glue.top_coat_ml))
    print("  rolls of casting tape: %.0f, each %.15g mm wide and %.15g mm long" % (
        tape.rolls_count, p.inputs["cast_length"]["tape_width_mm"], p.inputs["cast_length"]["roll_length_mm"]))
    if screw.depth_limit_mm > 0:
        print("  screws:                %.15g mm thread, at most %.1f mm long" % (
            p.inputs["screw_depth"]["screw_diameter_mm"], math.floor(screw.screw_length_limit_mm * 10) / 10))
    else:
        print("  screws:                none: at this place and slant no length keeps every margin")


def caution_text(c, w):
    comparison = next(rule.comparison for rule in CONTRACT[c].cautions if rule.code == w.code)
    if comparison == "always":
        return w.text
    word = "equal to" if comparison == "equal" else comparison
    return f"{w.text} ({w.field} is {measure(w.value, w.field, 4)}, {word} {measure(w.limit, w.field, 4)})"


def cautions(p):
    print("\nCautions, the most severe first")
    every = [(c, w) for severity in ("stop", "warn", "note") for c in STEPS if c in p.result
             for w in p.result[c].cautions if w.severity == severity]
    for c, w in every:
        print(f"  {w.severity:4}  {c}.{w.code}")
        print(wrapped("        ", 8, caution_text(c, w)))
    if not every:
        print("  none")


def standing(p):
    print("\nAlways")
    for c in STEPS:
        for text in CONTRACT[c].standing if c in p.result else ():
            print(wrapped("  - ", 4, text))
    print("\nThe attending veterinarian and a qualified farrier decide; this plan only computes.")


def print_changes(p, c, code):
    found = False
    for name in CHANGES.get(c, ()):
        now, f = p.inputs[c][name], INPUTS[c][name]
        value = least_change(c, p.result[c], p.inputs[c], name, code)
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
               if name in p.given[c] and least_change(c, p.result[c], p.inputs[c], name, w.code) is not None)
    return next(lifting, next(iter(INPUTS[c])))


def short_covers(p):
    inputs, screw = p.inputs["screw_depth"], p.result["screw_depth"]
    for has, wanted in (("inner_cover_mm", "inner_margin_mm"), ("outer_cover_mm", "outer_margin_mm"),
                        ("white_line_cover_mm", "white_line_margin_mm"), ("edge_cover_mm", "edge_margin_mm"),
                        ("height_limit_mm", "tip_height_mm")):
        a, b = (inputs[name] if name in inputs else getattr(screw, name) for name in (has, wanted))
        if a < b:
            print("  %s is %.4g mm, and %s is %.4g mm" % (has, a, wanted, b))


def print_stop(p, c, w):
    name = cause(p, c, w)
    print(wrapped(f"STOP  {c}.{w.code}: ", 6, caution_text(c, w)))
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
        if standing_stops and not print_changes(p, c, None):
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
        complain("usage: plan SHEET")
        return 2
    path = arguments[0]
    sheet = Sheet.read(path, INPUTS)
    if not sheet:
        return 2
    p = Plan(sheet)
    p.run()
    if p.problems:
        return 2
    try:
        count = stops(p)
        print(f"Plan from {path}")
        for c in STEPS:
            if TITLES[c]:
                print(f"\n{TITLES[c]}")
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
