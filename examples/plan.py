#!/usr/bin/env python3
"""The main job: from a sheet of measurements to the plan for one foot, as plan.c makes it, text for text.

    python3 plan.py [--json] SHEET

What a sheet may hold is said in plan.h and in the usage text below.

Exit status: 0 the plan stands, 1 a stop stands, 2 the sheet was refused (and nothing is planned).
"""
import json
import math
import os
import sys

import ungula

from plan_outline import Outline, Trace
from plan_sheet import ASKED, Sheet, Stop, accepted, complain
from plan_text import Text

USAGE = """usage: plan [--json] SHEET

Lines of the sheet: name = value unit, lengths in mm or in; # begins a comment.
  hoof_length_mm = 5.25 in               an input of job_plan; ung_job_plan(3) lists them
  glue_volume.waste_fraction = 0.2       where several calculations have a field of that name
  trace = FILE.csv mm                    instead of length and width: points round the hoof, x,y a line
  left.0.25.wall_thickness_mm = 9.5 mm   with a trace: the wall at a station, a quarter of the left side from
  left.0.25.wall_angle_deg = 74 deg      the toe (0) to the rear (1); at the heels 180 - heel angle
  screws_count = 2                       with stations: screws on each side

--json writes the plan for other programs, as the schema of job_plan describes it."""

# Steps without which there is no plan; what the others lack is told.
NEEDED = ("belt", "screw", "other_screw", "through", "other_through", "tape", "glue", "bevel")


def report_unused(sheet):
    """A thickness given twice, once as such and once as a border, would leave one of the two unused in silence."""
    problems = 0
    for side in ("", "other_"):
        border, thickness = sheet.given(f"{side}border_width_mm"), sheet.given(f"{side}wall_thickness_mm")
        if border and thickness:
            sheet.problem(border, None, f"{thickness.name} is given as well; give one of the two")
            problems += 1
    return problems


def report_needed(sheet, plan):
    """What the steps that are needed lack, or why they were refused."""
    other_way = ("screw", "other_screw") if plan.inputs.screw_way_count > 1.5 else ("through", "other_through")
    needed = [step for step in plan.steps if step.name in NEEDED and step.name not in other_way]
    # What a needed step finds is not to be asked for, that step says itself what it lacks; nor what another step would
    # find from what is asked for anyway.
    finders = {f.name: step for step in reversed(plan.steps) if step.name not in NEEDED
               for f in ungula.describe(step.calculation).outputs}
    found = {each.original: each.found for each in reversed(ASKED.values())}

    def to_be_given(calculation, field):
        step = finders.get(field)
        if field not in found or not found[field]:
            return field in found
        if step is None or step.state == "refused":
            return False
        return step.state == "left out" or step.lacks not in {f.name for f in ungula.describe(calculation).inputs}

    def refuse(step):
        field = step.why.partition(" ")[0]
        rows = (sheet.given(each.name) for each in ASKED.values() if each.original == field)
        sheet.problem(next(filter(None, rows), None), field, step.why)

    told, refused, problems = [], [], 0
    for step in needed:
        if step.state == "lacks a value":
            for f in ungula.describe(step.calculation).inputs:
                if (f.name not in told and math.isnan(getattr(step.inputs, f.name))
                        and to_be_given(step.calculation, f.name)):
                    told.append(f.name)
                    sheet.problem(None, f.name, f"required, and not on the sheet; {accepted(f)} ({f.meaning})")
        elif step.state == "refused":
            field = step.why.partition(" ")[0]
            problems += 1
            if (step.calculation, field) in refused:  # the other side's step takes the same field
                continue
            refused.append((step.calculation, field))
            refuse(step)
    lacking = [step.lacks for step in needed if step.state == "lacks a value"]
    for step in plan.steps:  # refused, and a needed step lacks its value now
        if step.state == "refused" and any(finders.get(field) is step for field in lacking):
            refuse(step)
            problems += 1
    return len(told) + problems


def make(path):
    """The sheet, its outline and the plan; Stop after a message."""
    sheet = Sheet.read(path)
    if not sheet:
        raise Stop
    trace = Trace(sheet) if sheet.trace else None
    if sheet.report() + (trace.report() if trace else 0) + report_unused(sheet):
        raise Stop
    given = {row.input: row.value for row in sheet.rows if row.about == "plan"}
    outline = Outline(sheet, trace, given) if trace else None
    plan = sheet.plan(outline.given if outline else given)
    if report_needed(sheet, plan):
        raise Stop
    return sheet, outline, plan


def document(outline, plan, cautions):
    """The plan as it is for programs, with the steps that measured a traced outline."""
    whole = json.loads(plan.json(language="en"))
    whole["severity"] = cautions[0][1].severity if cautions else ""
    if outline:
        contracts = [ungula.describe(type(result)._calculation) for result in outline.parts.values()]
        fields = [f for c in contracts for f in (*c.inputs, *c.outputs, *(f for rows in c.lists for f in rows.fields))]
        steps = {name: {"calculation": contract.name, "inputs": result.inputs.asdict(), "results": result.asdict()}
                 for (name, result), contract in zip(outline.parts.items(), contracts)}
        for name, step in steps.items():
            plain = {f.name for f in ungula.describe(step["calculation"]).inputs + ungula.describe(
                step["calculation"]).outputs}
            for part in ("inputs", "results"):
                step[part] = {field: "infinite" if math.isinf(value) else value for field, value in step[part].items()
                              if field in plain}
            if name in ("left", "right"):
                screws = outline.parts[name].screws
                step["results"]["screws"] = [dict(zip(screws._fields, map(float, row))) for row in zip(*screws)]
        told = [{"step": name, **c._asdict()} for name, c in cautions if not isinstance(c, ungula.PlanCaution)]
        whole["outline"] = {"units": {f.name: f.unit for f in fields}, "steps": steps, "cautions": told}
    return whole


def main(arguments):
    as_json = len(arguments) == 2 and arguments[0] == "--json"
    if len(arguments) != 1 + as_json:
        complain(USAGE)
        return 2
    try:
        sheet, outline, plan = make(arguments[-1])
    except Stop:
        return 2
    text = Text(sheet, outline, plan)
    try:
        if as_json:
            print(json.dumps(document(outline, plan, text.cautions), ensure_ascii=False, allow_nan=False, indent=1))
        else:
            text.print()
        sys.stdout.flush()
    except OSError:
        sys.stdout = open(os.devnull, "w")
        complain("plan: cannot write the plan")
        return 2
    return int(bool(text.cautions) and text.cautions[0][1].severity == "stop")


if __name__ == "__main__":
    for stream in (sys.stdout, sys.stderr):
        stream.reconfigure(encoding="utf-8", errors="surrogateescape")
    sys.exit(main(sys.argv[1:]))
