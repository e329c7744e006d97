"""The plan's numbers in a few lines: short_plan.py SHEET (without a trace; plan.py checks and explains the sheet).

Exit status 0, 1 where a stop stands, 2 where the library refuses."""
import sys

import ungula

values = {}
with open(sys.argv[1], encoding="utf-8-sig") as sheet:
    for line in sheet:
        name, _, value = line.split("#")[0].partition("=")
        if value:
            number, *unit = value.split()
            values[name.strip()] = float(number) * (25.4 if unit == ["in"] else 1)


def calculate(name, **taken):
    """One calculation: from the sheet by its full name, by its plain name, or taken from an earlier result."""
    fields = [f.name for f in ungula.describe(name).inputs]
    given = {f: values.get(f"{name}.{f}", values.get(f, taken.get(f))) for f in fields}
    return getattr(ungula, name)(**{f: v for f, v in given.items() if v is not None})


try:
    belt = calculate("hoof_band")
    wall = calculate("wall_from_border") if "border_width_mm" in values else None
    screw = calculate("screw_depth", wall_thickness_mm=wall and wall.wall_thickness_mm)
    glue = calculate("glue_volume", bonded_area_mm2=belt.bonded_area_mm2, wood_area_mm2=belt.shoe_area_mm2,
                     top_area_mm2=belt.covered_area_mm2)
    tape = calculate("cast_length", circumference_low_mm=belt.circumference_low_mm,
                     circumference_high_mm=belt.circumference_high_mm, band_height_mm=belt.slant_height_mm)
    bevel = calculate("heel_bevel", build_up_mm=tape.thickness_mm if values.get("build_length_mm") else None)
except ungula.InvalidInput as refusal:
    sys.exit(print(refusal, file=sys.stderr) or 2)

results = [belt, screw, glue, tape, bevel]
print(*results, sep="\n")
cautions = sorted((c for r in results for c in r.cautions), key=lambda c: ["stop", "warn", "note"].index(c.severity))
for caution in cautions:
    print(f"{caution.severity}: {caution.calculation}.{caution.code}: {caution.text}")
sys.exit(any(c.severity == "stop" for c in cautions))
