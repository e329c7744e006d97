"""The chain of calculations, each taking what an earlier one found, and what would lift a stop."""
import math
import os

import ungula

from plan_hold import HOLD_CHAIN, open_strengths
from plan_lists import Lists
from plan_sheet import LAYOUT, accepted, complain
from plan_tasks import gather_tasks, refused_task
from plan_text import UNITS
from plan_timing import TIMING_CHAIN, emptied_cup, report_missing_tasks, timing_begin
from plan_trace import Trace

# In the order of the work; the two sides are screw_layout, and demand is hold a first time, for the load alone, which
# the bond is asked to carry.  need is job_timeline a first time, for the time that the work takes.  Title, and what the
# sheet must have: a trace, stations, the load, the timing.
STEPS = {
    "outline_fit": ("Outline", True, None, None, None),
    "hoof_band": ("Belt", False, None, None, None),
    "outline_band": ("Belt", True, None, None, None),
    "wall_from_border": ("Screw", None, False, None, None),
    "screw_depth": (None, None, False, None, None),
    "wall_profile": ("Screws", True, True, None, None),
    "left": (None, True, True, None, None),
    "right": (None, True, True, None, None),
    "glue_volume": ("Adhesive", None, None, None, None),
    "cast_length": ("Tape", None, None, None, None),
    "heel_bevel": ("Heel bevel", None, None, None, None),
    "limb_load": ("Hold", None, None, True, None),
    "demand": (None, None, None, True, None),
    "screw_gauge": (None, None, None, True, None),
    "wood_species": (None, None, None, True, None),
    "screw_hold": (None, None, None, True, None),
    "bond_hold": (None, None, None, True, None),
    "hold": (None, None, None, True, None),
    "need": ("Timing", None, None, None, True),
    "working_time": (None, None, None, None, True),
    "cup_cure": (None, None, None, None, True),
    "cast_set": (None, None, None, None, True),
    "job_timeline": (None, None, None, None, True),
}
SIDES = ("left", "right")
# Calculation, input, earlier calculation, its result (in words where there is a function for it), an input that must be
# above 0; the sheet may set the input.  The belt's calculation depends on the trace.
CHAIN = [
    ("screw_depth", "wall_thickness_mm", "wall_from_border", "wall_thickness_mm", None, None),
    ("glue_volume", "bonded_area_mm2", "belt", "bonded_area_mm2", None, None),
    ("glue_volume", "wood_area_mm2", "belt", "shoe_area_mm2", None, None),
    ("glue_volume", "top_area_mm2", "belt", "covered_area_mm2", None, None),
    ("cast_length", "circumference_low_mm", "belt", "circumference_low_mm", None, None),
    ("cast_length", "circumference_high_mm", "belt", "circumference_high_mm", None, None),
    ("cast_length", "band_height_mm", "belt", "slant_height_mm", None, None),
    ("heel_bevel", "build_up_mm", "cast_length", "thickness_mm", "build_length_mm", None),
] + HOLD_CHAIN + TIMING_CHAIN
# What can be changed on the day, in the order in which it is tried.
CHANGES = {
    "screw_depth": ("screw_length_mm", "screw_diameter_mm", "inset_mm", "tilt_deg", "head_recess_mm", "pad_mm"),
    "hoof_band": ("high_toe_mm", "high_heel_mm"),
    "outline_band": ("high_toe_mm", "high_heel_mm"),
    "bond_hold": ("shear_strength_mpa", "bonded_area_mm2"),
    "hold": ("screw_count", "shoe_mass_g", "axial_design_n", "lateral_design_n", "bond_capacity_first_n",
             "peel_pull_n", "peel_width_mm", "peel_strength_n_per_mm"),
}
OPTIONAL = ("screw_gauge", "wood_species")  # asked for by their one input, the gauge also by what is missing


def calculation(step):
    return "screw_layout" if step in SIDES else {"demand": "hold", "need": "job_timeline"}.get(step, step)


def side_of(step):
    return f", {step} side" if step in SIDES else ""


CONTRACT = {step: ungula.describe(calculation(step)) for step in STEPS}
UNITS.update((f.name, f.unit) for c in CONTRACT.values() for f in c.inputs + c.outputs)
INPUTS = {step: {f.name: f for f in CONTRACT[step].inputs} for step in STEPS}


def call(step, inputs, lists):
    return getattr(ungula, calculation(step))(**inputs, **lists)


class Taken:
    """Where an input comes from: an earlier step's result, or a function of the plan, which the text describes."""
    def __init__(self, source, output, value):
        self.source, self.output, self.value = source, output, value
        self.text = output if value else f"{output} of {calculation(source)}"


class Plan:
    """result holds what each step found.  No strength of horn is published.  Where the sheet gives none the step is
    open: it runs with the least and with the greatest accepted strength (inputs and result, high and high_result), and
    only what is the same both times counts."""
    def __init__(self, sheet):
        self.sheet, self.problems, traced = sheet, 0, sheet.trace is not None
        self.steps = [c for c, (_, with_trace, with_stations, with_load, with_timing) in STEPS.items()
                      if with_trace in (None, traced) and with_stations in (None, sheet.stations)
                      and with_load in (None, sheet.hold)
                      and with_timing in (None, sheet.timing)]
        sheet.check({calculation(c): INPUTS[c] for c in self.steps})
        self.trace = Trace(sheet) if traced else None
        self.lists, self.list_arguments = Lists(self, sheet, self.trace), {}
        self.result, self.inputs, self.given, self.taken = {}, {}, {}, {}
        self.high_result, self.high, self.unknown = {}, {}, {}
        for c in self.steps:
            self.given[c] = {name: row for name in INPUTS[c] if (row := sheet.find(calculation(c), name))}
            self.inputs[c] = {name: self.given[c][name].value if name in self.given[c] else f.standard
                              for name, f in INPUTS[c].items()}
            self.taken[c], self.unknown[c] = {}, {}
        self.wanted = {c: c != "wall_from_border" and (c not in OPTIONAL or bool(self.given[c])) for c in self.steps}
        for c, name, source, output, only_with, value in CHAIN:
            if source == "belt":
                source = "outline_band" if traced else "hoof_band"
            if (c not in self.steps or source not in self.steps or name in self.given[c]
                    or (only_with and not self.inputs[c][only_with] > 0)
                    or (source == "wood_species" and not self.wanted[source])):
                continue
            self.taken[c][name] = Taken(source, output, value)
            self.wanted[source] = True
        open_strengths(self, INPUTS)
        timing_begin(self, INPUTS)
        self.tasks = []

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

        report_missing_tasks(self)

    def instead_of(self, step, name):
        later = self.steps[self.steps.index(step) + 1:]
        if step not in ("wall_from_border", "screw_gauge") or any(name in INPUTS[c] for c in later):
            return ""
        return next(f", nor is {name}" for c, name, source, *_ in CHAIN if source == step and name in self.taken[c])

    def take(self, c):
        """What earlier steps found; False where one of them failed."""
        if any(taken.source not in self.result for taken in self.taken[c].values()):
            return False
        self.high[c] = {**self.inputs[c], **self.unknown[c]}
        for name, taken in list(self.taken[c].items()):
            if taken.value:
                low = high = taken.value(self)
            else:
                low, high = (getattr(r[taken.source], taken.output) for r in (self.result, self.high_result))
            if low is None:  # not known: the standard value stays
                del self.taken[c][name]
            else:
                self.inputs[c][name], self.high[c][name] = low, high
        return True

    def is_open(self, c):
        return self.inputs[c] != self.high[c]

    def run(self):
        self.check()
        if self.problems:
            return
        for c in self.steps:
            if not self.wanted[c] or not self.take(c):
                continue
            try:
                if c == "outline_fit":  # it says which two points meet where a trace crosses itself
                    ungula.outline_measure(outline=self.trace.points)
                lists = self.task_arguments(c) if calculation(c) == "job_timeline" else self.lists.arguments(c)
                if lists is None:
                    continue
                if c in SIDES and not lists["stations"]:
                    self.problem(self.lists.station_rows[0], None,
                                 f"no place for a screw between the {c} side's stations")
                    continue
                result = call(c, self.inputs[c], lists)
                self.high_result[c] = call(c, self.high[c], lists) if self.is_open(c) else result
                self.result[c], self.list_arguments[c] = result, lists
            except ungula.InvalidInput as refused:
                self.refused(c, refused)

    def task_arguments(self, c):
        if c != "need" and "need" not in self.result:
            return None
        self.tasks = gather_tasks(self.sheet.rows)
        return {"steps": self.tasks}

    def refused(self, c, refused):
        if c == "outline_fit" and self.trace.refused(refused):
            self.problems += 1
            return
        row = self.given[c].get(refused.field)
        if refused.rows:
            index = refused.index if isinstance(refused.index, int) else 0
            rows = self.lists.station_rows
            row = (refused_task(self.sheet.rows, refused) if calculation(c) == "job_timeline" else
                   rows[index if index < len(rows) else 0] if c == "wall_profile" else self.sheet.trace)
        start = f"from {self.taken[c][refused.field].output}: " if refused.field in self.taken[c] else ""
        self.problem(row, refused.field, f"{start}{refused}")


def cautions_of(p, c):
    """Those that hold whatever a missing strength is."""
    if c in ("demand", "need") or c not in p.result:
        return ()
    low = [w.code for w in p.result[c].cautions]
    return emptied_cup(c, [w for w in p.high_result[c].cautions if w.code in low])


# What would lift a stop.  One of a missing strength is one of the greatest.

def stops_of(result, code=None):
    return [w for w in result.cautions if w.severity == "stop" and code in (None, w.code)]


def changed(p, c, name, value):
    try:
        return call(c, {**p.high[c], name: value}, p.list_arguments[c])
    except ungula.InvalidInput:
        return None


def lifts(p, c, name, value, code):
    other = changed(p, c, name, value)
    return bool(other) and not stops_of(other, code) and len(stops_of(other)) <= len(stops_of(p.high_result[c]))


def lifting_value(c, result, stop, name):
    """Calculations with lists are not searched by the library: there it is the limit that the stop names, if it is
    about this input."""
    if not CONTRACT[c].lists:
        return ungula.lift(result, stop.code, name)
    return stop.limit if stop.field == name else None


def least_change(p, c, name, code):
    """The least change of one input, to a tenth, that lifts the stop `code` (None: all of them); None if none."""
    now, value, was = p.high_result[c], p.high[c][name], p.high[c][name]
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
