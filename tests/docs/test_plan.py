#!/usr/bin/env python3
"""The main job's sheets: every kind of bad sheet, what is asked for, and what looks odd and is fine.  Programs and
helpers are those of plan_sheets.py."""
import os
import re
import subprocess
import sys

sys.dont_write_bytecode = True  # the sources may be read-only
from plan_sheets import (  # noqa: E402
    ASKED, EXAMPLES, PROGRAMS, both, check, head, main, numbers, plans, refused, runs, sample, section, values,
    with_values, without)

BASE = sample("routine.sheet")


def line(old, new):
    """The routine sheet with the line of one value replaced; returns it with the line's number."""
    lines = BASE.splitlines(keepends=True)
    at = next(i for i, text in enumerate(lines) if text.startswith(old))
    lines[at] = new + "\n"
    return "".join(lines), at + 1


def number_of(name, data=BASE):
    return next(i for i, text in enumerate(data.splitlines(), 1) if re.match(rf"{name} *=", text))


ONE_VALUE = "the plan has one value of this for all its calculations: write the name alone"
BAD_LINES = [  # the line that is replaced, what replaces it, what the message must hold
    ("hoof_width_mm", "hoof_widht_mm = 128 mm", "the plan has no input of that name"),
    ("hoof_width_mm", "hoof_width_mm =", "the value is missing; accepted values are 40 to 250 mm"),
    ("hoof_width_mm", "hoof_width_mm = mm", "not a plain decimal number"),
    ("hoof_width_mm", "hoof_width_mm = wide mm", "not a plain decimal number"),
    ("hoof_width_mm", "hoof_width_mm = 128mm", "with a space before its unit; accepted values are 40 to 250 mm"),
    ("hoof_width_mm", "hoof_width_mm = 12 in", "304.8 mm is out of range; accepted values are 40 to 250 mm"),
    ("hoof_width_mm", "hoof_width_mm = 39.9 mm", "39.9 mm is out of range; accepted values are 40 to 250 mm"),
    ("hoof_width_mm", "hoof_width_mm = 250.1 mm", "accepted values are 40 to 250 mm"),
    ("hoof_width_mm", "hoof_length_mm = 128 mm", f"already given in line {number_of('hoof_length_mm')}"),
    ("hoof_width_mm", "hoof_width_mm = 128", "the unit is missing: mm or in"),
    ("hoof_width_mm", "hoof_width_mm = 12.8 cm", "the unit does not fit: it must be mm or in"),
    ("hoof_width_mm", "hoof_width_mm = 128 mm wide", "the unit does not fit"),
    ("toe_angle_deg", "toe_angle_deg = 51 mm", "it must be deg; accepted values are 35 to 100 deg"),
    ("toe_angle_deg", "toe_angle_deg = 51", "the unit is missing: deg"),
    ("toe_angle_deg", "toe_angle_deg = 95 deg", "accepted values are 30 to 90 deg"),  # the tape's range is narrower
    ("anchor_turns", "anchor_turns = 2", "the unit is missing: turns"),
    ("anchor_turns", "passes_count = 2.5", "a whole number is needed; accepted values are whole numbers from 1 to 12"),
    ("anchor_turns", "passes_count = 2 passes", "this is a pure number and takes no unit"),
    ("overhang_mm", "overhang_mm = 1e400 mm", "the value is too large"),
    ("overhang_mm", "overhang_mm = -1e400 mm", "the value is too large"),
    ("overhang_mm", "overhang_mm = 0x10 mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = nan mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = inf mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = 1,5 mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = 1_5 mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = 5/16 in", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = . mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = 1e mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = --1 mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = \u0663 mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm 6 mm", "not of the form: name = value unit"),
    ("overhang_mm", "= 6 mm", "not of the form: name = value unit"),
    ("overhang_mm", "shoe.overhang_mm = 6 mm", "there is no such calculation"),
    ("overhang_mm", ".overhang_mm = 6 mm", "there is no such calculation"),
    ("overhang_mm", "outline_standard.axial_factor = 3", "the plan has no input of that name for this calculation"),
    ("overhang_mm", "glue_volume.overhang_mm = 6 mm", ONE_VALUE),
    ("overhang_mm", "hoof_band.overhang_mm = 6 mm", ONE_VALUE),
    ("overhang_mm", "glue_volume.a.b = 6 mm", "the plan has no input of that name for this calculation"),
    ("overhang_mm", "waste_fraction = 0.1", "say of which calculation: cast_length.waste_fraction, "
                    "glue_volume.waste_fraction, packing_volume.waste_fraction, dam_volume.waste_fraction"),
    ("overhang_mm", "glue_waste_fraction = 0.1\nglue_volume.waste_fraction = 0.2", "already given in line "),
    ("overhang_mm", "hold.screw_count = 3", ONE_VALUE),  # and not the other side's, which has that name there too
    ("overhang_mm", "screw_depth.inset_mm = 6 mm", ONE_VALUE),
    ("overhang_mm", "demand_n = 300 N", "the plan has no input of that name"),
    ("overhang_mm", "task.1.low_s = 3 s", "there is no such calculation"),
    ("overhang_mm", "overhang_mm = 6 mm\0", "holds a zero byte"),
    ("overhang_mm", "overhang_mm = 6 mm # " + 200 * "x", "the line has more than 200 characters"),
    ("overhang_mm", 5000 * "overhang_mm ", "the line has more than 200 characters"),
    ("overhang_mm", "overhang_mm = 6\x1b[31m mm", "not a plain decimal number"),
    ("overhang_mm", "overhang_mm = 6 mm\rlow_mm = 3 mm", "the unit does not fit"),
    ("other_border_width_mm", "other_wall_thickness_mm = 9 mm\nother_border_width_mm = 9 mm", "give one of the two"),
    ("border_width_mm", "wall_thickness_mm = 9 mm\nborder_width_mm = 9 mm", "give one of the two"),
    ("high_toe_mm", "high_toe_mm = 0.5 mm", "accepted values are 1 to 120 mm"),
    ("head_recess_mm", "head_recess_mm = 25 mm", "must be less than the shoe's thickness"),
    ("groove_depth_mm", "groove_width_mm = 5 mm\ngroove_spacing_mm = 1 mm", "cannot be closer than they are wide"),
    ("bevel_angle_deg", "bevel_angle_deg = 60 deg", "the bevel rises above the whole thickness"),
    ("other_screw_count", "other_screw_count = 9", "there cannot be more screws on one side than on both"),
    ("screw_count", "screw_count = -1", "whole numbers from 0 to 20"),
    ("species_count", "species_count = 22", "whole numbers from 1 to 21"),
    ("body_mass_kg", "body_mass_kg = 1235 lb", "it must be kg; accepted values are 50 to 1200 kg"),
    ("gait_count", "gait_count = walk", "not a plain decimal number"),
    ("horn_shear_mpa", "horn_shear_mpa = 0 MPa", "accepted values are 0.5 to 60 MPa"),
    ("divisor_ratio", "divisor_ratio = 0.5", "accepted values are 1 to 20"),
    ("foam_count", "foam_count = 2", "whole numbers from 0 to 1"),
    ("toe_direction_deg", "toe_direction_deg = 3 deg", "this is used only with a trace: trace = FILE.csv mm"),
    ("screws_count", "screws_count = 3", "this is used only with a trace: trace = FILE.csv mm"),
    ("left.0.2", "left.0.25.wall_angle_deg = 70 deg", "stations of the wall need a trace to lie on"),
]


def test_bad(folder):
    for old, new, expected in BAD_LINES:
        if re.search(rf"^{re.escape(old)} *=", BASE, re.M):
            data, number = line(old, new)
        else:  # at the end
            data, number = BASE + new + "\n", len(BASE.splitlines()) + 1
        if "\n" in new:
            number += 1  # two lines in place of one: the second is the bad one
        err = refused(data, folder, expected, number)
        check(err.count("\n") == 1, f"{new[:60]}: one problem, one message: {err}")
    # a relation names the line of its first field
    data, _ = line("low_mm", "low_mm = 30 mm")
    refused(data, folder, "high_heel_mm is 24 mm with low_mm 30 mm: the belt's upper edge must be above its lower edge "
            "at the heel", number_of("high_heel_mm", data))
    # what a step finds and a later one does not take
    low = with_values(BASE, high_toe_mm=3, high_heel_mm=3, low_mm=0)
    err = refused(low, folder, "band_height_mm is 3.48", len(low.splitlines()))
    check(err.count("\n") == 1, f"and nothing that follows from it: {err}")
    # all problems of a sheet, not only the first, in the order of the lines
    data = BASE.replace("= 135 mm", "= 135 deg").replace("= 128 mm\n", "= 1280 mm\n", 1).replace("= 12 deg", "= twelve")
    err = refused(data, folder, "out of range")
    expected = [number_of(name) for name in ("hoof_length_mm", "hoof_width_mm", "tilt_deg")]
    check([int(n) for n in re.findall(r"^FILE:(\d+):", err, re.M)] == expected, f"three problems, three lines: {err}")
    refused("ply_mm = 1 mm\n" * 501, folder, "too many values", 500)
    refused(b"\xff\xfe" + BASE.encode("utf-16-le"), folder, "zero byte", 1)
    refused(b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 20, folder, "not of the form", 1)


NEEDED = ("hoof_length_mm", "hoof_width_mm", "high_toe_mm", "high_heel_mm", "wall_thickness_mm", "wall_angle_deg",
          "inset_mm", "screw_diameter_mm", "shoe_thickness_mm", "tape_width_mm", "ground_length_mm", "bevel_run_mm",
          "bevel_angle_deg", "width_start_mm", "width_end_mm")  # without these no belt, screw, tape, adhesive or heel


def test_needed(folder):
    """What is missing is named at the end of the sheet, all at once, and nothing that other steps find."""
    for data, last in (("", 1), ("\n\n# nothing\n", 3)):
        err = refused(data, folder, "hoof_length_mm (end of sheet): required, and not on the sheet; accepted values "
                      "are 40 to 250 mm (ground surface, toe to a line across the heel buttresses)", last)
        named = re.findall(r"^FILE:\d+: (\w+) \(end of sheet\): required, and not on the sheet; accepted", err, re.M)
        check(sorted(named) == sorted(NEEDED), f"an empty sheet: {named}")
    last = len(BASE.splitlines())
    for name in NEEDED:
        # the wall comes from its border, the thread from the gauge too
        also = {"wall_thickness_mm": "border_width_mm", "screw_diameter_mm": "gauge_count"}.get(name, name)
        lines = [text if not re.match(rf"({name}|{also}) *=", text) else "#" for text in BASE.splitlines()]
        err = refused("\n".join(lines) + "\n", folder, f"{name} (end of sheet): required, and not on the sheet", last)
        check(err.count("\n") == 1, f"{name} alone is missing: {err}")
    odd = with_values(BASE, screw_diameter_mm=None, gauge_count=11)
    refused(odd, folder, "gauge_count is 11: there is no such gauge", number_of("gauge_count", odd))
    gauge = with_values(BASE, screw_diameter_mm=None)
    check(numbers(both(gauge, folder, "gauge", 0), "screw") != {}, "the gauge stands for the thread's diameter")
    # what is needed has no standard value, and what has one is not asked for
    check(all(ASKED[name]["field"]["standard"] is None for name in NEEDED), "no standard value of what is needed")
    bare = "".join(f"{name} = {values(BASE).get(name, 9):.15g} {ASKED[name]['field']['unit']}\n" for name in NEEDED)
    out = both(bare, folder, "nothing but what is needed", 1)
    check("STOP  screw.breach" in out, "thin screws, walls and wood of the least values do not hold")
    for name in ("body_mass_kg", "reference_time_s", "rope_length_mm", "vertical_force_n", "toe_rate_mm_per_day"):
        check(f"{name} is required (" in section(out, "Not planned"), f"{name}: what the rest lacks is told")
    # screws through the wall need their own, and not those from the shoe; foam needs none
    way = with_values(BASE, screw_way_count=2, inset_mm=None, screw_length_mm=None)
    check(head(both(way, folder, "through", 0)) == "", "through the wall: no inset is asked for")
    foam = with_values(without(BASE, "screw_", "inset_", "wall_", "border_", "gauge_", "other_", "tilt_"), foam_count=1)
    check(numbers(both(foam, folder, "foam", 0), "screw") == {}, "foam: no screw, no wall is asked for")


def test_accepted(folder):
    """What looks odd and is fine: the plan is the same."""
    lines = {"CRLF": BASE.replace("\n", "\r\n"), "BOM": b"\xef\xbb\xbf" + BASE.encode(),
             "tabs": BASE.replace(" = ", "\t=\t").replace(" mm", "\tmm"), "no last newline": BASE.rstrip("\n"),
             "no spaces": BASE.replace(" = ", "="), "UTF-8 comment": BASE + "# caf\u00e9\n",
             "exponents": BASE.replace("= 135 mm", "= +1.35e2 mm"), "point first": BASE.replace("= 0.2\n", "= .2\n"),
             "inches": BASE.replace("= 1.5 in", "= 38.1 mm"), "200 characters": BASE + "#" * 200 + "\n"}
    plain = both(BASE, folder, "plain", 0)
    for name, data in lines.items():
        check(both(data, folder, name, 0) == plain, f"{name} gives the same plan")
    # a field under the name of its calculation
    one = both(BASE + "glue_volume.waste_fraction = 0.3\n", folder, "own", 0)
    check(one == both(BASE + "glue_waste_fraction = 0.3\n", folder, "plain", 0), "both names stand for the same")
    glue, tape = numbers(one, "glue"), numbers(one, "tape")
    check(abs(glue["mixed_ml"] / glue["net_ml"] - 1.3) < 0.005, "both volumes are printed to 0.1 mL of about 30")
    check(tape == numbers(plain, "tape"), "and for nothing else")


def test_files(folder):
    missing, large = os.path.join(folder, "no such sheet"), os.path.join(folder, "large.sheet")
    with open(large, "wb") as file:
        file.write(b"# nothing\n" * 7000)
    for arguments, words in (((missing,), b"cannot be read: No such file"), ((folder,), b"cannot be read: Is a dir"),
                             ((), b"usage: plan [--json] SHEET"), (("a", "b"), b"usage: "),
                             (("--json",), b"--json: cannot"),
                             (("--jason", missing), b"usage: "), ((large,), b"more than 65536 bytes"),
                             (("--json", missing), b"cannot be read: No such file")):
        results = runs(*arguments)
        for program, (status, out, err) in results.items():
            check(status == 2 and not out and words in err, f"{program}: {arguments}: {status} {out} {err}")
        check(len(set(results.values())) == 1, f"{arguments}: plan.c and plan.py say the same: {results}")
    routine = os.path.join(EXAMPLES, "routine.sheet")
    here = runs("routine.sheet", cwd=EXAMPLES)
    check(all(out.startswith(b"Plan from routine.sheet\n") for _, out, _ in here.values()), "a sheet of the folder")
    locales = runs(routine, env={**os.environ, "LC_ALL": "C"})
    check(len(set(locales.values())) == 1 and b"\xc2\xb0C" in locales["plan.c"][1], "the same in a plain locale")
    if os.path.exists("/dev/full"):
        for program, command in PROGRAMS.items():
            for option in ([], ["--json"]):
                with open("/dev/full", "wb") as full:
                    done = subprocess.run(command + option + [routine], stdout=full, stderr=subprocess.PIPE)
                check(done.returncode == 2 and b"cannot write the plan" in done.stderr, f"{program}: full disk: {done}")
    # nothing of a refused sheet as JSON
    bad = plans(BASE.replace("= 135 mm", "= 135"), folder, "--json")
    check(all(status == 2 and not out and "the unit is missing" in err for status, out, err in bad.values()), f"{bad}")


main("plan's sheets", test_bad, test_needed, test_accepted, test_files)
