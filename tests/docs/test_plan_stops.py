#!/usr/bin/env python3
"""What stops the main job: the stop is told first, with the value on the sheet that causes it; each change that is said
to lift it does, and a tenth less does not.  Programs and helpers are those of plan_sheets.py."""
import json
import math
import re
import sys

sys.dont_write_bytecode = True  # the sources may be read-only
from plan_sheets import (ASKED, CONTRACTS, both, check, document, flat, head, main, quick, sample, stops, unit,  # noqa: E402
                         values, with_tasks, with_values)

ROUTINE, STOP, TRACED = (sample(f"{name}.sheet") for name in ("routine", "stop", "traced"))
NONE = "No change of a single value on the sheet lifts it."


def measured(text, name):
    """The line that gives a value, by its plain name."""
    return next((i, line) for i, line in enumerate(text.splitlines(), 1) if re.match(rf"(\w+\.)?{name} *=", line))


def codes(out):
    return {code for code, _, _ in stops(out)}


def stopped(data, folder):
    """Status and stops of plan.c; from its JSON, which looks for no changes, where that tells all stops."""
    if re.search("^trace ", data, re.M):
        status, out = quick(data, folder)
        return status, codes(out)
    status, out = quick(data, folder, "--json")
    return status, {f"{c['step']}.{c['code']}" for c in json.loads(out)["cautions"] if c["severity"] == "stop"}


def is_whole(name):
    return name == "screws_count" or (name in ASKED and ASKED[name]["field"]["whole"])


def try_changes(data, folder, what, out):
    """Each change lifts its stop and makes no other; a tenth less, or one less of what is counted, does not."""
    before, tried = codes(out), 0
    for code, cause, changes in stops(out):
        if not changes:
            check(cause is None and NONE in head(out), f"{what}: {code}: nothing lifts it, and that is said")
            continue
        number, line = measured(data, cause[0])
        check(int(cause[2]) == number, f"{what}: {code}: {cause} stands in line {number}: {line}")
        check(changes[0][0] == cause[0], f"{what}: {code}: the value that causes it is the first to change: {changes}")
        for name, now, then, by in changes:
            check(abs(values(data).get(name, math.nan) - now) < 1e-9, f"{what}: {name} is {now} on the sheet")
            check(abs(abs(then - now) - by) < 1e-5 * by, f"{what}: {name}: {by} is the difference (to 6 digits)")
            check(name == "screws_count" or name in ASKED and ASKED[name]["chosen"] or name == "spacing_mm",
                  f"{what}: {name} can be chosen")
            step = 1 if is_whole(name) else 0.1
            less = round(then + math.copysign(step, now - then), 6)
            number, line = measured(data, name)
            for value, lifted in ((then, True), (less, False)):
                lines = data.splitlines()
                lines[number - 1] = f"{name} = {value:.15g} {'' if is_whole(name) else unit(name)}".strip()
                status, after = stopped("\n".join(lines) + "\n", folder)
                # a layout's change is for both sides, of which one may need less
                stays = after & before if code[-8:] == ".no_room" and not lifted else code in after
                check(bool(stays) != lifted, f"{what}: {name} = {value}: {code} {'stays' if lifted else 'is gone'}")
                check(not lifted or after <= before - {code}, f"{what}: {name} = {value} stops something else: {after}")
                check(status == (1 if after else 0), f"{what}: {name} = {value}: status {status}")
                tried += 1
    return tried


def test_stop_sheet(folder):
    """Only values that a farrier could have measured, each usual, and one of them stops the job."""
    for field, value in values(STOP).items():
        f = ASKED[field]["field"]
        check(f["usual_lower"] <= value <= f["usual_upper"], f"{field} = {value} is within its usual range")
    check("invented" in STOP.splitlines()[0], "the sheet says it is invented")
    out = both(STOP, folder, "stop.sheet", 1)
    found = stops(out)
    check([code for code, _, _ in found] == ["screw.breach"], f"the screw leaves too little horn: {found}")
    rule = next(r for r in CONTRACTS["screw_depth"]["cautions"] if r["code"] == "breach")
    check(flat(rule["text"]) in flat(head(out)), "the stop is the library's, in its words")
    names = [name for name, _, _, _ in found[0][2]]
    check({"screw_length_mm", "inset_mm", "tilt_deg"} <= set(names), f"a shorter screw, its place or its line: {names}")
    # what is told with the changes: those within the usual range before the others, of these the least first
    usual = {name: (f["usual_lower"], f["usual_upper"]) for name, f in ((n, ASKED[n]["field"]) for n in names)}
    order = [(not usual[name][0] <= then <= usual[name][1], abs(then - now) / (usual[name][1] - usual[name][0]))
             for name, now, then, _ in found[0][2]]
    check(order == sorted(order), f"usual changes first, and the least of them: {found}")
    check([", outside the usual range" in line for line in head(out).splitlines() if " -> " in line] ==
          [odd for odd, _ in order], "what is outside the usual range is called so")
    check(try_changes(STOP, folder, "stop.sheet", out) >= 6, "each change was tried")
    made = document(STOP, folder, "stop.sheet", 1)
    check(made["severity"] == "stop" and made["cautions"][0]["code"] == "breach", "the JSON says stop too")


SLOW = ((30, 40, 60), (45, 60, 100), (20, 30, 60), (20, 30, 60), (600, 700, 800), (15, 20, 40))
CASES = (  # what, sheet, its changes, the stops, words of the head
    ("coronet", ROUTINE, dict(heel_hairline_mm=27), {"belt.coronet_heel"}, "24 -> 22 mm (2 mm less)"),
    ("both ends", ROUTINE, dict(heel_hairline_mm=27, toe_hairline_mm=44), {"belt.coronet_heel", "belt.coronet_toe"},
     "42 -> 39 mm (3 mm less)"),
    ("thin wall", ROUTINE, dict(border_width_mm=6), {"screw.breach", "screw.white_line"}, NONE),
    ("white line", ROUTINE, dict(white_line_margin_mm=4), {"screw.breach", "other_screw.breach"}, "inset_mm"),
    ("thin on the other side", ROUTINE, dict(other_border_width_mm=6), {"other_screw.breach", "other_screw.white_line"},
     NONE),
    ("long through the wall", ROUTINE, dict(screw_way_count=2), {"through.breach", "other_through.breach"},
     "screw_length_mm"),
    ("neither holds", ROUTINE, dict(horn_shear_mpa=3.5, shear_strength_mpa=0.2), {"hold.does_not_hold"}, "screw_count "),
    ("torn bond", ROUTINE, dict(shear_strength_mpa=0.05, screw_count=6), {"bond.overload"}, "gait_count "),
    ("trodden heel", ROUTINE, dict(peel_pull_n=270, peel_strength_n_per_mm=2), {"hold.peel_opens"}, "screw_length_mm"),
    ("hot day", ROUTINE, dict(temperature_c=41), {"timeline.no_batch_lasts"}, "temperature_c "),
    ("long screws on a trace", TRACED, dict(screw_length_mm=44), {"right.breach"}, "screws_count       2 -> 1"),
    ("many screws on a trace", TRACED, dict(screws_count=4), {"right.no_room"}, "screws_count       4 -> 3 (1 less)"),
    ("far more screws", TRACED, dict(screws_count=8), {"left.no_room", "right.no_room"}, "screws_count       8 -> 3"),
    ("wide spacing", TRACED, dict(spacing_mm=90), {"left.no_room", "right.no_room"}, "spacing_mm "),
    ("coronet on a trace", TRACED, dict(heel_hairline_mm=27), {"band.coronet_heel"}, "24 -> 22 mm (2 mm less)"),
)


def test_cases(folder):
    tried = 0
    for what, sheet, changes, expected, words in CASES:
        data = with_values(sheet, **changes)
        out = both(data, folder, what, 1)
        check(codes(out) == expected, f"{what}: stops {codes(out)} instead of {expected}")
        check(words in head(out), f"{what}: says {words}: {head(out)}")
        tried += try_changes(data, folder, what, out)
    check(tried >= 60, f"only {tried} changes were tried")


def test_hopeless(folder):
    """A task that outlasts every batch, and walls too thin for any screw: that nothing lifts it is said."""
    slow = with_tasks(ROUTINE, *SLOW)
    out = both(slow, folder, "slow", 1)
    check(codes(out) == {"timeline.no_batch_lasts"} and NONE in head(out), f"slow: {head(out)}")
    check("slower adhesive, smaller packs" in flat(head(out)), "slow: what else would do")
    cold = with_values(slow, temperature_c=5, ambient_c=5)
    check(stopped(cold, folder) == (0, set()), "in the cold the same work gets done")
    thin = re.sub(r"(wall_thickness_mm +=) [\d.]+", r"\1 4", TRACED)
    out = both(thin, folder, "thin walls", 1)
    check({"left.breach", "right.breach", "screw.breach", "other_screw.breach"} <= codes(out), f"thin walls: {codes(out)}")
    check(all(not changes for _, _, changes in stops(out)) and head(out).count(NONE) == len(stops(out)),
          f"thin walls: no change of a single value: {head(out)}")
    check("would keep" not in out, "and nothing is said to")


main("plan's stops", test_stop_sheet, test_cases, test_hopeless)
