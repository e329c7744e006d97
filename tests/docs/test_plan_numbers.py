#!/usr/bin/env python3
"""Every number of the main job's text and JSON, made a second time through the calculations one by one; and the JSON
against its schema and the text.  Programs and helpers are those of plan_sheets.py."""
import math
import pathlib
import re
import sys

sys.dont_write_bytecode = True  # the sources may be read-only
from plan_sheets import (ASKED, BUILD, CONTRACTS, DESCRIBED, OUTLINE, PYTHON, SIDES, SOURCE, STEPS, both, cautions,  # noqa: E402
                         check, document, flat, gaits, layout, main, near, printed, sample, section, values,
                         with_values)

if PYTHON:
    from plan_chain import Chain
ASKING = ("demand", "grip_need", "bond_need")
LOAD = ("pull_n", "shear_n", "demand_n")


def stations(text):
    """Side and share to thickness and angle."""
    found = {}
    for side, share, field, value in re.findall(r"^(left|right)\.([\d.]+)\.(\w+) *= *([\d.]+)", text, re.M):
        found.setdefault((side, float(share)), {})[field] = float(value)
    return {place: (wall["wall_thickness_mm"], wall["wall_angle_deg"]) for place, wall in found.items()}


def points(csv):
    return [tuple(map(float, line.split(","))) for line in csv.splitlines() if re.match(r"[\d-]", line)]


def again(text, **changes):
    sheet = {**values(text), **changes}
    if re.search("^trace ", text, re.M):
        return Chain(sheet, points(sample("traced.csv")), stations(text), int(sheet["screws_count"]))
    return Chain(sheet)


def compare(out, chain, what):
    """The text: the steps that ran, and every number of them."""
    told, compared = printed(out), 0
    run = {step for step, result in chain.r.items() if result is not None}
    hidden = {"demand"} if "hold" in run else set()
    check(set(told) == run - hidden, f"{what}: steps that are told: {set(told) ^ (run - hidden)}")
    for step, rows in told.items():
        result = chain.r[step]
        if result is None:
            continue
        fields = CONTRACTS[STEPS.get(step) or OUTLINE[step]]
        for f in fields["outputs"]:
            check(f["name"] in rows, f"{what}: {step}.{f['name']} is told")
        for name, text in rows.items():
            if step in ASKING and text == "-":
                check("needed" not in name and not (step == "demand" and name in LOAD), f"{what}: {step}.{name} is told")
                continue
            value = getattr(result, name, None)
            value = getattr(result.inputs, name) if value is None else value
            check(near(text, value), f"{what}: {step}.{name} is {text}, recomputed {value}")
            compared += 1
    for (gait, name), text in gaits(out).items():
        other = chain.gaits[gait]
        step = {"horn": "grip_need", "mpa": "bond_need"}.get(name[:4] if name.startswith("horn") else name[-3:], "demand")
        check(near(text, other.of(step, name)), f"{what}: {gait}: {name} is {text}, recomputed {other.of(step, name)}")
        compared += 1
    return compared


def compare_json(made, chain, what):
    """The JSON: the steps and their numbers, to the last bit: they are the same functions of the same numbers."""
    for step, each in made["steps"].items():
        result = chain.r[step]
        check((each["state"] == "done") == (result is not None), f"{what}: {step} is {each['state']} ({each['why']})")
        if result is None or each["state"] != "done":
            check(each["results"] is None, f"{what}: no results of {step}")
            continue
        for kind, holder in (("results", result), ("inputs", result.inputs)):
            for name, value in each[kind].items():
                if isinstance(value, list):
                    continue
                expected = getattr(holder, name)
                value = math.inf if value == "infinite" else value
                check(value == expected, f"{what}: {step}.{name} is {value!r}, recomputed {expected!r}")
    times = made["steps"]["timeline"]
    if times["state"] == "done":
        check([list(row.values()) for row in times["inputs"]["steps"]] == chain.tasks, f"{what}: tasks")
        rows = chain.r["timeline"].times.rows.tolist()
        check([list(row.values()) for row in times["results"]["times"]] == rows, f"{what}: times of the tasks")


def test_numbers(folder):
    for name, status, least in (("routine", 0, 400), ("traced", 0, 330), ("stop", 1, 130)):
        text = sample(name + ".sheet")
        out = both(text, folder, name, status)
        made = document(text, folder, name, status)
        agree(out, made, name)
        if not PYTHON:
            continue
        chain = again(text)
        chain.gaits = {gait: again(text, gait_count=k) for k, gait in enumerate(("stand", "walk", "trot"), 1)}
        compared = compare(out, chain, name)
        check(compared >= least, f"{name}: only {compared} numbers were compared")
        compare_json(made, chain, name)
        for side in SIDES if name == "traced" else ():
            fields = [f["name"] for f in CONTRACTS["screw_layout"]["lists"][1]["fields"]]
            rows = [dict(zip(fields, row)) for row in chain.r[side].screws.rows.tolist()]
            for shown, row in zip(layout(out, side), rows):
                expected = [row[key] for key in ("from_toe_mm", "side_fraction", "inset_mm", "tilt_deg", "margin_mm")]
                check(all(map(near, shown, expected)), f"{name}, {side}: {shown}, recomputed {expected}")
                limit = row["screw_length_limit_mm"]  # down to a tenth: a longer screw would break the margin
                check(limit - 0.1 < float(shown[5]) <= limit + 1e-6, f"{name}, {side}: limit {shown[5]} of {limit}")
            check(len(layout(out, side)) == len(rows) == 2, f"{name}: two screws on the {side}")
    check(not PYTHON or len(ASKED) > 100, "the plan asks for a whole job")


# Variants: other ways to fasten the shoe, and both ways compared

VARIANTS = {
    "foam": dict(foam_count=1, wood_density_g_ml=0.12),
    "no cast": dict(cast_count=0), "no screws": dict(screw_way_count=0),
    "through the wall": dict(screw_way_count=2, screw_length_mm=25.4),
    "through, length and entry looked for": dict(screw_way_count=2, screw_length_mm=None, inset_mm=None),
    "length looked for": dict(screw_length_mm=None), "one side, no cup": dict(
        other_border_width_mm=None, other_wall_angle_deg=None, other_tilt_deg=None, cup_count=0, passes_count=3),
}


def test_variants(folder):
    for name, changes in VARIANTS.items():
        text = with_values(sample("routine.sheet"), **changes)
        out = both(text, folder, name, 0)
        if PYTHON:
            chain = again(text)
            if changes.get("cup_count") == 0:
                chain = without_cup(text)
            chain.gaits = {gait: again(text, gait_count=k) for k, gait in enumerate(("stand", "walk", "trot"), 1)}
            check(compare(out, chain, name) >= 250, f"{name}: numbers compared")
        told, later = printed(out), section(out, "In the weeks after")
        screws = [step for step in ("screw", "through") if step in told]
        driven = name not in ("foam", "no screws")
        check(bool(screws) == driven and ("free the screws" in flat(later)) == driven, f"{name}: screws: {screws}")
        check(("tape" in told) == (name != "no cast") == ("dip the tape" in out), f"{name}: tape")
        check(("cup" in told) == ("no cup" not in name), f"{name}: cup")


def without_cup(text):
    class Spread(Chain):
        def step(self, name, **wired):
            if name != "cup":
                super().step(name, **wired)
    return Spread(values(text))


# The JSON against the text and the schema

def agree(out, made, what):
    names = {f["name"]: f["unit"] for c in CONTRACTS.values()
             for f in c["inputs"] + c["outputs"] + [f for each in c["lists"] for f in each["fields"]]}
    names.update((name, each["field"]["unit"]) for name, each in ASKED.items())
    used = set(made["inputs"])
    for step, each in made["steps"].items():
        c = CONTRACTS[STEPS[step]]
        lists = [[one["name"] for one in c["lists"] if bool(one["is_result"]) == result] for result in (False, True)]
        used |= {f["name"] for f in c["inputs"] + c["outputs"] + [f for one in c["lists"] for f in one["fields"]]}
        check(each["calculation"] == c["name"], f"{what}: calculation of {step}")
        check(list(each["inputs"]) == [f["name"] for f in c["inputs"]] + lists[0], f"{what}: inputs of {step}")
        if each["state"] != "done":
            check((each["why"] == "") == (each["state"] == "left out"), f"{what}: why of {step}")
            continue
        check(list(each["results"]) == [f["name"] for f in c["outputs"]] + lists[1], f"{what}: results of {step}")
        for f in c["outputs"]:
            value = each["results"][f["name"]]
            check(isinstance(value, (int, float)) or (f["may_be_infinite"] and value == "infinite"), f"{f['name']} {value}")
    check(made["units"] == {name: names[name] for name in made["units"]} and set(made["units"]) == used, f"{what}: units")
    check(made["version"] == DESCRIBED["version"] and list(made["inputs"]) == list(ASKED), f"{what}: version, inputs")
    check(list(made["steps"]) == list(STEPS), f"{what}: every step")

    # every number of the text is in the document
    for step, rows in printed(out).items():
        each = made["steps"].get(step)
        for name, text in rows.items() if each else ():
            value = (each["results"] or {}).get(name, each["inputs"].get(name))
            value = math.inf if value == "infinite" else value
            check(near(text, value) or (step in ASKING and text == "-"), f"{what}: {step}.{name}: {text}, JSON {value}")
    # items, in words
    kinds = {"bring": "Bring", "do": "Do, in this order", "later": "In the weeks after"}
    shown = " ".join(flat(section(out, title)) for title in kinds.values())
    said = []
    for item in made["items"]:
        at = item["step"] + (f".{item['field']}" if item["field"] else "")
        said.append(f"- {item['text']} [{at}{', caution ' + item['caution'] if item['caution'] else ''}]")
        check("{" not in item["text"], item["text"])
        if item["field"]:
            step = made["steps"][item["step"]]
            found = [step["inputs"].get(item["field"]), (step["results"] or {}).get(item["field"])]
            check(item["quantity"] in found, f"{what}: quantity of {item['code']}")
    check(" ".join(map(flat, said)) == shown, f"{what}: items of text and JSON: {said}, {shown}")
    order = ["stop", "warn", "note"]
    held = [(c["severity"], f"{c['step']}.{c['code']}") for c in made["cautions"]]
    check([c for c in cautions(out) if c[1].partition(".")[0] not in OUTLINE] == held, f"{what}: cautions {held}")
    for told in (cautions(out), held):
        check(sorted(told, key=lambda c: order.index(c[0])) == told, f"{what}: the most severe caution first")
    check(made["severity"] == (held[0][0] if held else ""), f"{what}: severity")
    for c in made["cautions"]:
        check(flat(c["text"]) in flat(out) and c["unit"] == made["units"][c["field"]], f"{what}: {c['code']} is told")
    missing = {step for step, each in made["steps"].items() if each["state"] in ("lacks a value", "refused")}
    told = re.findall(r"^  (\w+) \(\w+\): ", section(out, "Not planned"), re.M)
    check(set(told) == missing, f"{what}: not planned: {told}")
    for step in missing:
        check(flat(made["steps"][step]["why"]) in flat(section(out, "Not planned")), f"{what}: why not {step}")


def test_schema(folder):
    import json

    import jsonschema
    with open(next(path for path in (pathlib.Path(place) / "bindings" / "plan.schema.json" for place in (SOURCE, BUILD))
                   if path.exists()), encoding="utf-8") as file:
        schemas = [json.load(file)]
    if PYTHON:
        import ungula
        schemas.append(ungula.plan_schema())
        check(schemas[0] == schemas[1], "the package's schema is the file's")
    for name, status in (("routine", 0), ("stop", 1), ("traced", 0)):
        made = document(sample(name + ".sheet"), folder, name, status)
        for schema in schemas[:1]:
            jsonschema.validators.validator_for(schema).check_schema(schema)
            found = list(jsonschema.validators.validator_for(schema)(schema).iter_errors(made))
            check(not found, f"{name}: fits the schema: {[error.message for error in found[:3]]}")
            wrong = {**made, "inputs": {**made["inputs"], "hoof_length_mm": 5.25}}
            check(list(jsonschema.validators.validator_for(schema)(schema).iter_errors(wrong)), "it refuses 5.25 mm")


def test_words(folder):
    """What every plan says."""
    for name, status in (("routine", 0), ("stop", 1), ("traced", 0)):
        text = sample(name + ".sheet")
        out = both(text, folder, name, status)
        check("invented" in text.splitlines()[0], f"{name}: says it is invented")
        for step in printed(out):
            for standing in CONTRACTS[STEPS.get(step) or OUTLINE[step]]["standing"]:
                check(flat(standing) in flat(section(out, "Always")), f"{name}: says {standing}")
        check(re.search(r"veterinarian and a qualified farrier decide.*\n\Z", out), f"{name}: who decides")
        standard = flat(section(out, "Not on the sheet, so standard")).split(", ")
        sheet = values(text)
        for told in standard:
            field = told.split(" ")[0]
            expected = ASKED[field]["field"]
            check(field not in sheet and told == f"{field} {expected['standard']:.15g} {expected['unit']}".strip(),
                  f"{name}: {told} is standard")
        check(len(standard) >= 40, f"{name}: standard values are told")
        # each value of the sheets is usual
        for field, value in sheet.items():
            f = ASKED[field]["field"] if field in ASKED else None
            check(not f or f["usual_lower"] <= value <= f["usual_upper"], f"{name}: {field} = {value} is usual")
        check(not section(out, "Unusual, check it"), f"{name}: nothing unusual")
    odd = both(with_values(sample("routine.sheet"), film_mm=6), folder, "odd", 0)
    check("film_mm is 6 mm (usual " in section(odd, "Unusual, check it"), "what is unusual is told")


main("plan's numbers", test_numbers, test_variants, test_schema, test_words)
