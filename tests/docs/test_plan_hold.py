#!/usr/bin/env python3
"""The main job's hold section: with the strengths and without, what stops it, and its numbers against an independent
recomputation.  Programs, variables and helpers are those of test_plan.py."""
import math
import os
import re
import sys
import tempfile
import time

import numpy as np

sys.dont_write_bytecode = True  # the sources may be read-only
import test_plan  # noqa: E402
from test_plan import CONTRACTS, HOLD, PROGRAMS, both, check, compare, plan, printed, refused, sample, without  # noqa: E402

SHEET = sample("routine.sheet")
STRENGTHS = ("horn_shear_mpa", "horn_bearing_mpa", "shear_strength_mpa")


def unit(name):
    return next(f["unit"] for c in HOLD for f in CONTRACTS[c]["inputs"] if f["name"] == name)


def with_values(text, **values):
    """The sheet with other values, each in the place of its plain name's line or at the end."""
    for name, value in values.items():
        own = name.replace("__", ".")
        text = without(text, own + " ") + f"{own} = {value} {unit(own.rpartition('.')[2])}\n"
    return text


def section(out):
    return out.split("\nHold\n")[1].split("\n\n")[0]


def flat(text):
    return " ".join(text.split())


def needed(out):
    """The table: gait and name to number, None for a dash."""
    table = section(out).split("  needed at each gait")[1].splitlines()[1:]
    gaits, found = table[0].split(), {}
    for text in table[1:]:
        row = re.match(rf"    (\w+)((?: +(?:-|inf|[\d.]+)){{{len(gaits)}}})  ", text)
        if row:
            found.update({(gait, row[1]): None if value == "-" else float(value)
                          for gait, value in zip(gaits, row[2].split())})
    return found


# Independent recomputation: ANSI/AWC NDS-2018 in its own terms, and the bond as two bars on a grid

INCH = 25.4
GAUGE_6 = {"screw_diameter_mm": 0.138 * INCH, "root_diameter_mm": 0.113 * INCH, "head_diameter_mm": 0.262 * INCH,
           "pitch_mm": INCH / 18}  # NDS-2018, Table L3; threads to the inch: trade tables of gauges 1 to 7
PLYWOOD = 0.50  # NDS-2018, Table 12.3.3B, Structural I
ACCELERATION, TROT = 551, 1.13  # m/s2, Benoit et al. 1993; N/kg, Merkens et al. 1993
PSI = 0.45359237 * 9.80665 / 25.4**2  # N/mm2
AXIAL_FACTOR = 15700 / 2850  # Wood handbook Eq. 8-10 over NDS Eq. 12.2-2


def yields(f):
    """Im, Is, II, IIIm, IIIs, IV of NDS-2018, Tables 12.3.1A and B, with R_d = 1; the point is in the horn."""
    d, steel = f["root_diameter_mm"], 90000 * PSI
    horn, wood = f["horn_bearing_mpa"], 16600 * PSI * f["wood_gravity_ratio"]**1.84
    main, side = f["horn_length_mm"] - f["screw_diameter_mm"], f["wood_length_mm"]  # the point counts half: 12.3.5.3
    re_, rt = horn / wood, main / side
    k1 = (math.sqrt(re_ + 2 * re_**2 * (1 + rt + rt**2) + rt**2 * re_**3) - re_ * (1 + rt)) / (1 + re_)
    k2 = -1 + math.sqrt(2 * (1 + re_) + 2 * steel * (1 + 2 * re_) * d**2 / (3 * horn * main**2))
    k3 = -1 + math.sqrt(2 * (1 + re_) / re_ + 2 * steel * (2 + re_) * d**2 / (3 * horn * side**2))
    return [d * main * horn, d * side * wood, k1 * d * side * wood, k2 * d * main * horn / (1 + 2 * re_),
            k3 * d * side * horn / (2 + re_), d**2 * math.sqrt(2 * horn * steel / (3 * (1 + re_)))]


def thread_design(f):
    shape = 0.5 + 0.57735 * (f["screw_diameter_mm"] - f["root_diameter_mm"]) / (2 * f["pitch_mm"])
    held = f["horn_length_mm"] - 2 * f["screw_diameter_mm"]
    return f["horn_shear_mpa"] * math.pi * f["screw_diameter_mm"] * held * shape / AXIAL_FACTOR


def head_design(f):
    """NDS-2018 Eq. 12.2-6a and b: 690 pi D_H G^2 t, t at most 2.5 D_H."""
    head = f["head_diameter_mm"]
    return 690 * PSI * math.pi * head * f["wood_gravity_ratio"]**2 * min(f["wood_length_mm"], 2.5 * head)


def screw_hold(f):
    modes = yields(f)
    thread, head = thread_design(f), head_design(f)
    return {"thread_design_n": thread, "head_design_n": head, "axial_design_n": min(thread, head),
            "axial_ultimate_n": min(thread, head) * AXIAL_FACTOR,
            "yield_im_n": modes[0], "yield_is_n": modes[1], "yield_ii_n": modes[2], "yield_iiim_n": modes[3],
            "yield_iiis_n": modes[4], "yield_iv_n": modes[5], "lateral_yield_n": min(modes),
            "governing_mode_count": modes.index(min(modes)) + 1,
            "lateral_design_n": min(modes) / 2.2}  # R_d of a root up to 0.17 in


def peak_ratio(f):
    """Two bars under tension, joined by a film (Volkersen), as finite differences: the first bar's force falls from 1
    to 0 along the lap.  The step is 1/4000 of at most 40 mm, (0.27/mm x 0.01 mm)^2 = 1e-5."""
    n, lap = 4000, f["lap_mm"]
    h = lap / n
    film = f["adhesive_shear_modulus_mpa"] / f["film_mm"]
    one, two = film / (f["horn_modulus_mpa"] * f["horn_thickness_mm"]), film / (f["cover_modulus_mpa"]
                                                                               * f["cover_thickness_mm"])
    # force'' = one force - two (1 - force); solved by elimination from one end
    a, right = 2 + h * h * (one + two), np.full(n - 1, h * h * two)
    right[0] += 1
    factor = np.zeros(n - 1)
    for i in range(n - 1):
        below = a - (factor[i - 1] if i else 0)
        factor[i] = 1 / below
        right[i] = (right[i] + (right[i - 1] if i else 0)) / below
    force = np.zeros(n + 1)
    force[0] = 1
    for i in range(n - 1, 0, -1):
        force[i] = right[i - 1] + factor[i - 1] * force[i + 1]
    ends = (-3 * force[0] + 4 * force[1] - force[2], 3 * force[-1] - 4 * force[-2] + force[-3])
    return max(abs(end) / (2 * h) for end in ends) * lap


def hankinson(axial, lateral, pull, shear):
    """NDS-2018 Eq. 12.4-1: what a screw carries along the load's own direction."""
    angle = math.atan2(pull, shear)
    return axial * lateral / (axial * math.cos(angle)**2 + lateral * math.sin(angle)**2)


def leaning(axial, lateral, pull, shear, lean):
    """The least that a leaning screw carries along the load's own direction, wherever on the ground the shear points:
    by the load's own angle to the axis."""
    load, turns = math.hypot(pull, shear), np.linspace(0, 2 * math.pi, 20001)
    along = pull * math.cos(math.radians(lean)) + shear * math.sin(math.radians(lean)) * np.cos(turns)
    angle = np.arcsin(np.clip(along / load, -1, 1))
    return float(np.min(axial * lateral / (axial * np.cos(angle)**2 + lateral * np.sin(angle)**2)))


def bond_inputs(text, belt):
    f = test_plan.given(text, "bond_hold")
    wrap = test_plan.tape({**test_plan.given(text, "cast_length"), "circumference_low_mm": belt["circumference_low_mm"],
                           "circumference_high_mm": belt["circumference_high_mm"],
                           "band_height_mm": belt["slant_height_mm"]})
    on_shoe = -test_plan.values(text)["low_mm"]  # upright: no bevel on the sheet
    return {**f, "bonded_area_mm2": belt["bonded_area_mm2"], "lap_mm": belt["slant_height_mm"] - on_shoe,
            "cover_thickness_mm": wrap["thickness_mm"]}


def test_numbers(folder):
    out = both(SHEET, folder, "routine", 0)
    sheet = test_plan.values(SHEET)
    compare(out, "screw_gauge", GAUGE_6, 0)
    embedded = sheet["screw_length_mm"] - (sheet["shoe_thickness_mm"] - sheet["head_recess_mm"]) / math.cos(
        math.radians(sheet["tilt_deg"]))
    f = {**sheet, **GAUGE_6, "screw_diameter_mm": sheet["screw_diameter_mm"], "wood_gravity_ratio": PLYWOOD,
         "horn_length_mm": embedded, "wood_length_mm": sheet["shoe_thickness_mm"] - sheet["head_recess_mm"]}
    screw = screw_hold(f)
    # the contract's 4.757, 114.45 and 620.5 have at least six correct digits but the last, which is 90 000 psi to 5e-5
    compare(out, "screw_hold", screw, 5e-5)
    pull = sheet["shoe_mass_g"] / 1000 * ACCELERATION
    shear = sheet["body_mass_kg"] * TROT
    demand = math.hypot(pull, shear)
    belt = test_plan.band(test_plan.given(SHEET, "hoof_band"))
    b = bond_inputs(SHEET, belt)
    b["horn_thickness_mm"] = sheet["border_width_mm"] * math.sin(math.radians(sheet["wall_angle_deg"]))
    ratio, whole = peak_ratio(b), b["bonded_area_mm2"] * b["shear_strength_mpa"] * b["preparation_factor"]
    divisor = sheet["divisor_ratio"]
    mean = demand / b["bonded_area_mm2"]
    compare(out, "bond_hold", {
        "peak_ratio": ratio, "mean_mpa": mean, "peak_mpa": mean * ratio, "capacity_mean_n": whole,
        "capacity_first_n": whole / ratio, "use_mean_ratio": demand / whole, "use_first_ratio": demand / whole * ratio,
        "needed_mean_mpa": mean * divisor / b["preparation_factor"],
        "needed_first_mpa": mean * ratio * divisor / b["preparation_factor"]}, 2e-5)  # the finite differences'
    strengths = screw["axial_design_n"], screw["lateral_design_n"], pull, shear
    check(abs(leaning(*strengths, 0) / hankinson(*strengths) - 1) < 1e-12, "upright: the standard's own form")
    alone = demand / sheet["screw_count"] / leaning(*strengths, sheet["tilt_deg"])
    bond = demand / whole * ratio
    each = demand * divisor / sheet["screw_count"]
    compare(out, "hold", {
        "pull_n": pull, "shear_n": shear, "demand_n": demand, "screws_only_use_ratio": alone,
        "bond_only_use_ratio": bond, "bond_mean_use_ratio": demand / whole, "single_path_use_ratio": min(alone, bond),
        "governing_count": 1 if alone < bond else 2, "redundant_count": 1 if max(alone, bond) <= 1 else 0,
        "loss_without_screws_ratio": bond / min(alone, bond), "needed_screw_n": each,
        "needed_bond_n": demand * divisor, "axis_tilt_deg": sheet["tilt_deg"], "needed_grip_n": pull * divisor,
        "reserve_use_ratio": min(alone, bond) * divisor, "least_ratio": 1 / max(alone, bond),
        "weakest_part_count": 1 if alone > bond else 2}, 5e-5)
    table = needed(out)
    for gait, force in (("stand", 0), ("walk", TROT), ("trot", TROT)):
        load = math.hypot(pull, force * sheet["body_mass_kg"])
        want = load * divisor / sheet["screw_count"]
        low, high = 1.0, 150.0  # bearing: bisection on the modes above, which rise with it
        for _ in range(60):
            middle = (low + high) / 2
            carried = min(yields({**f, "horn_bearing_mpa": middle})) / 2.2
            low, high = (middle, high) if carried < want else (low, middle)
        expected = {"shear_n_per_kg": force, "pull_n": pull, "shear_n": force * sheet["body_mass_kg"], "demand_n": load,
                    "needed_screw_n": want, "needed_bond_n": load * divisor, "needed_grip_n": pull * divisor,
                    "horn_shear_needed_mpa": want / thread_design({**f, "horn_shear_mpa": 1}),
                    "horn_bearing_needed_mpa": low,
                    "needed_mean_mpa": load * divisor / b["bonded_area_mm2"] / b["preparation_factor"],
                    "needed_first_mpa": load * divisor * ratio / b["bonded_area_mm2"] / b["preparation_factor"]}
        for name, value in expected.items():
            # half the last digit, and 5e-5 of a yield load, which the bearing strength follows at most at the square
            got = table.get((gait, name))
            check(got is not None and abs(got - value) <= 0.005 + 1e-4 * value, f"{gait}: {name} {got}, not {value}")
    check(want < head_design(f), "the needed strengths are the horn's: the head does not go through first")


def test_words(folder):
    out = section(both(SHEET, folder, "routine", 0))
    rows = {c: printed("\nHold\n" + out, c) for c in HOLD}
    mode = int(rows["screw_hold"]["governing_mode_count"]) - 1
    name = [f for f in CONTRACTS["screw_hold"]["outputs"] if f["name"].startswith("yield_")][mode]
    for words in ("load: walk, fore limb: 231 N off the hoof and 633 N along the ground, 674 N together",
                  "caution: no horizontal force is published for this gait; in its place stands 1.13 N/kg",
                  f"governing part sideways: {name['meaning']}",
                  "governing part along its axis: what strips the thread",
                  "the stronger of bond and screws: the bond",
                  "screws alone %.2f; bond alone %.2f to its first crack, %.2f as a whole" % tuple(
                      rows["hold"][r] for r in ("screws_only_use_ratio", "bond_only_use_ratio", "bond_mean_use_ratio")),
                  "bond and screws are not added", "The tape is no path",
                  "gives first, walk: the screws, at %.2f times the load" % rows["hold"]["least_ratio"],
                  "needed at each gait, with divisor_ratio 2"):
        check(words in flat(out), f"the hold section says: {words}")
    check("braking_n" not in out, "unknown horizontal forces are not printed as 0")
    trot = section(both(with_values(SHEET, gait_count=3), folder, "trot", 0))
    check("load: trot, fore limb" in trot and "no horizontal" not in trot, "the trot's forces are known")
    hind = both(with_values(SHEET, gait_count=3, hind_count=1), folder, "hind limb", 0)
    check("load: trot, hind limb" in hind and needed(hind)["walk", "demand_n"] is None, "hind limb, no walk")
    check(needed(hind)["trot", "shear_n_per_kg"] == 1.17, "the hind limb's larger force is the propulsive one")
    stand = both(with_values(SHEET, gait_count=1), folder, "stand", 0)
    check(printed(stand, "hold")["shear_n"] == 0, "nothing is known to push a standing foot")
    gallop = both(with_values(SHEET, gait_count=4), folder, "gallop", 0)
    check(("gallop", "demand_n") in needed(gallop) and ("gallop", "demand_n") not in needed(stand), "gallop if asked")


def test_heel(folder):
    """A trodden heel, and the cast's grip: asked for, judged with a strength and not without, and what is needed."""
    plain = both(SHEET, folder, "routine", 0)
    check("peel_" not in section(plain).replace("needed_peel_n_per_mm            -", "").split("not on the sheet")[0],
          "peel is told only where there is a lift")
    check(needed(plain)["walk", "needed_peel_n_per_mm"] is None, "no lift, no need")
    trodden = both(with_values(SHEET, peel_pull_n=270), folder, "trodden heel", 0)
    rows = printed(trodden, "hold")
    check(rows["peel_n_per_mm"] == 3 and needed(trodden)["walk", "needed_peel_n_per_mm"] == 6, "270 N on 90 mm, twice")
    check("peel_use_ratio" not in rows and "hold.peel_not_counted" in trodden, "no strength, no use")
    check("hold.peel_beside" in trodden, "what pulls at the heel may pull at the rest")
    weak = both(with_values(SHEET, peel_pull_n=270, peel_strength_n_per_mm=2, grip_n=150), folder, "peel", 1)
    check(weak.startswith("STOP  hold.peel_opens") and "hold.peel_crack" in weak, "the screws alone do not hold")
    check(printed(weak, "hold")["peel_use_ratio"] == 1.5 and "hold.grip_slips" in weak, "over the strength")
    check("the bond, by peel at the heel, at 0.67" not in weak and "gives first, walk: the cast's grip, at 0.65" in weak,
          "231 N on a grip of 150 N")
    check("peel_strength_n_per_mm 2 -> 3" in flat(weak) and "peel_pull_n 270 -> 180" in flat(weak), "what would lift it")
    held = both(with_values(SHEET, peel_pull_n=270, peel_strength_n_per_mm=2, screw_count=8), folder, "peel, held", 0)
    check("hold.peel_crack" in held and "hold.peel_opens" not in held, "enough screws: a warning")
    check("gives first, walk: the bond, by peel at the heel, at 0.67" in held, "180 N of 270 N")


def test_strengths(folder):
    """Without strengths nothing is made up, and what would be needed is the same and is enough."""
    full = both(SHEET, folder, "routine", 0)
    bare = both(without(SHEET, *STRENGTHS), folder, "no strengths", 0)
    check(needed(bare) == needed(full), "what would be needed does not depend on what is given")
    for name in ("screws_only_use_ratio", "bond_only_use_ratio", "bond_mean_use_ratio", "single_path_use_ratio",
                 "governing_count", "loss_without_screws_ratio", "least_ratio", "weakest_part_count", "reserve_use_ratio"):
        check(name in printed(full, "hold") and name not in printed(bare, "hold"), f"{name} only with strengths")
    for name in ("lateral_design_n", "axial_design_n", "governing_mode_count"):
        check(name not in printed(bare, "screw_hold"), f"{name} only with strengths")
    check("capacity_first_n" not in printed(bare, "bond_hold"), "no capacity without a strength")
    check("for want of horn_shear_mpa, horn_bearing_mpa, shear_strength_mpa" in flat(section(bare)), "what it lacks")
    check("does_not_hold" not in bare and "alone_fail" not in bare and "overload" not in bare, "nothing is judged")
    # the needed strengths put back: 1/2 of each path is used.  They are printed to 0.01, the uses too
    need = {name: needed(bare)["walk", name + "_needed_mpa"] for name in ("horn_shear", "horn_bearing")}
    back = with_values(SHEET, horn_shear_mpa=need["horn_shear"], horn_bearing_mpa=need["horn_bearing"],
                       shear_strength_mpa=needed(bare)["walk", "needed_first_mpa"])
    uses = printed(both(back, folder, "needed strengths", 0), "hold")
    check(abs(uses["screws_only_use_ratio"] - 0.5) < 0.0051, f"needed by screws: {uses['screws_only_use_ratio']}")
    check(abs(uses["bond_only_use_ratio"] - 0.5) < 0.0051 + 0.5 * 0.005 / 1.24, f"bond: {uses['bond_only_use_ratio']}")
    # one path known, the other not: only that is judged, and no stop on what is not known
    bond = both(with_values(without(SHEET, "horn_"), shear_strength_mpa=0.5), folder, "bond alone known", 0)
    rows = printed(bond, "hold")
    check(rows["bond_only_use_ratio"] > 1 and "screws_only_use_ratio" not in rows, "only the bond is judged")
    check("hold.bond_alone_fails" in bond and "screws_alone_fail" not in bond, "cautions of the bond alone")
    check("single_path_use_ratio" not in rows and "stronger of bond and screws: not calculated" in bond, "no verdict")
    screws = both(without(SHEET, "shear_strength"), folder, "screws alone known", 0)
    rows = printed(screws, "hold")
    check(rows["screws_only_use_ratio"] == printed(full, "hold")["screws_only_use_ratio"], "the screws are judged")
    check("bond_only_use_ratio" not in rows and "loss_without_screws_ratio" not in rows, "the bond is not")
    # where the wood gives way first no strength of horn helps
    heavy = both(with_values(without(SHEET, *STRENGTHS), screw_count=1, divisor_ratio=4), folder, "one screw", 0)
    check(needed(heavy)["trot", "horn_shear_needed_mpa"] == math.inf, "the head goes through the wood first")
    none = both(with_values(without(SHEET, *STRENGTHS), screw_count=0), folder, "no screws", 0)
    check(needed(none)["walk", "needed_screw_n"] is None and "screws alone inf" in none, "no screws, no strength")


def test_stops(folder):
    """Neither path carries it: a stop like any other, and each change that is said to lift it does, and no less."""
    weak = with_values(SHEET, horn_shear_mpa=3.5, shear_strength_mpa=0.2)
    out = both(weak, folder, "weak", 1)
    head = out.split("\nPlan from")[0]
    check(out.startswith("STOP  hold.does_not_hold"), f"stops: {out[:60]}")
    check("Measured value that causes it: screw_count = 4 (line " in head, "names a value and its line")
    changes = re.findall(r"^    (\w+) +\S+ -> (\S+)(?: \w+)? \(\S+(?: \w+)? (less|more)\)", head, re.M)
    changes += re.findall(r"^    (\w+) +\S+ -> (\S+)(?: \w+)? \(\S+(?: \w+)? (less|more)\), outside", head, re.M)
    check({"screw_count", "shoe_mass_g", "axial_design_n", "bond_capacity_first_n"} == {c[0] for c in changes},
          f"what would lift it: {changes}")
    for name, value, way in changes:
        step = (1 if name == "screw_count" else 0.1) * (1 if way == "less" else -1)
        for number, status in ((float(value), 0), (float(value) + step, 1)):
            key = name if name in ("screw_count", "shoe_mass_g") else f"hold__{name}"
            got = plan(with_values(weak, **{key: round(number, 6)}), folder)[0]
            check(got == status, f"{name} = {number}: status {got} instead of {status}")
    torn = both(with_values(SHEET, shear_strength_mpa=0.05, screw_count=6), folder, "torn bond", 1)
    check(torn.startswith("STOP  bond_hold.overload") and "0.05 -> 0.2 MPa" in torn, "a bond that is torn off whole")
    check("does_not_hold" not in torn, "the screws still hold")


def test_sheet(folder):
    last = len(SHEET.splitlines())
    for name in ("body_mass_kg", "gait_count", "shoe_mass_g", "screw_count", "adhesive_shear_modulus_mpa",
                 "cover_modulus_mpa"):
        refused(without(SHEET, name), folder, f"{name} (end of sheet): required, and not on the sheet", last - 1)
    refused(without(SHEET, "gauge_count"), folder,
            "gauge_count (end of sheet): required, and not on the sheet, nor is root_diameter_mm", last - 1)
    for name, value, expected in (
            ("body_mass_kg", "560", "the unit is missing: kg"), ("body_mass_kg", "560 lb", "it must be kg"),
            ("body_mass_kg", "20 kg", "accepted values are 50 to 1200 kg"), ("gait_count", "2.5", "a whole number"),
            ("gait_count", "5", "whole numbers from 1 to 4"), ("gait_count", "walk", "not a plain decimal number"),
            ("gauge_count", "11", "there is no such gauge"), ("species_count", "22", "whole numbers from 1 to 21"),
            ("horn_shear_mpa", "0 MPa", "accepted values are 0.5 to 60 MPa"), ("screw_count", "-1", "from 0 to 20"),
            ("shear_strength_mpa", "2 N", "it must be MPa"), ("divisor_ratio", "0.5", "accepted values are 1 to 20")):
        lines = SHEET.splitlines(keepends=True)
        at = next(i for i, text in enumerate(lines) if text.startswith(name))
        lines[at] = f"{name} = {value}\n"
        refused("".join(lines), folder, expected, at + 1)
    refused(SHEET + "hind_count = 1\n", folder, "no published force was found for the hind limb at the walk")
    refused(SHEET + "root_diameter_mm = 3.6 mm\n", folder, "the root must be thinner")
    # without the load the section is left out, with one line, and so are its values
    short = without(SHEET, *(f["name"] for c in HOLD for f in CONTRACTS[c]["inputs"]
                             if not f["name"].startswith(("screw_diameter", "wall_", "film"))))
    out = both(short, folder, "no load", 0)
    check("\nHold\n" not in out and out.count("\nHold: left out") == 1, "no load, no section, one line")
    line = re.search(r"^Hold: .*$", out, re.M)[0]
    check(all(name in line for name in ("body_mass_kg", "gait_count", "shoe_mass_g")), "which names what it needs")
    rest = lambda text: text.split("\nCautions")[0].split("\nHold")[0]  # noqa: E731
    check(rest(out) == rest(both(SHEET, folder, "routine", 0)), "the rest is the same with the section and without")
    for name in ("gauge_count = 6", "hold.divisor_ratio = 2", "horn_shear_mpa = 9 MPa"):
        refused(short + name + "\n", folder, "used only with body_mass_kg, gait_count and shoe_mass_g",
                len(short.splitlines()) + 1)
    # what is chained can be set
    for name, value, taken in (("axis_tilt_deg", 20, "tilt_deg of"), ("screw_hold__horn_length_mm", 12, "embedded_mm"),
                               ("bond_hold__lap_mm", 30, "slant_height"), ("bond_hold__demand_n", 900, "demand_n"),
                               ("hold__lateral_design_n", 150, "lateral_design"),
                               ("screw_hold__wood_gravity_ratio", 0.45, "wood_gravity_ratio"),
                               ("bond_hold__horn_thickness_mm", 9, "wall_thickness_mm of screw_depth")):
        out = section(both(with_values(SHEET, **{name: value}), folder, name, 0))
        check(f"taken: {taken}" not in out, f"{name} can be set on the sheet")
    own = both(with_values(SHEET, shear_n_per_kg=0.9), folder, "shear of one's own", 0)
    check(printed(own, "hold")["shear_n"] == 504 and "no horizontal" not in own, "a shear of one's own: 0.9 x 560 N")
    check(needed(own)["trot", "shear_n_per_kg"] == TROT, "which is of its own gait")
    dims = with_values(without(SHEET, "gauge_count"), root_diameter_mm=2.8702, pitch_mm=1.411111,
                       head_diameter_mm=6.6548)
    out = both(dims, folder, "screw measured", 0)
    check("screw_gauge" not in out and needed(out) == needed(both(SHEET, folder, "routine", 0)), "a screw as measured")


def test_trace(folder):
    """On a trace: all screws of both sides, the least embedment, the thinnest station; no strengths on this sheet."""
    text = sample("traced.sheet")
    with open(os.path.join(folder, "traced.csv"), "w") as file:
        file.write(sample("traced.csv"))
    out = both(text, folder, "traced", 0)
    part = section(out)
    taken = {name: float(value) for name, value in re.findall(r"^  (\w+) +([\d.]+) .*taken: ", part, re.M)}
    sheet = test_plan.values(without(text, "trace "))
    embedded = [float(v) for v in re.findall(r"^  least_embedded_mm +([\d.]+)", out, re.M)]
    stations = [float(v) for v in re.findall(r"^\w+\.[\d.]+\.wall_thickness_mm *= *([\d.]+)", text, re.M)]
    expected = {"screw_count": 2 * sheet["screws_count"], "horn_length_mm": min(embedded),
                "horn_thickness_mm": min(stations),
                "wood_length_mm": sheet["shoe_thickness_mm"] - sheet["head_recess_mm"],
                "shear_n_per_kg": TROT, "root_diameter_mm": round(GAUGE_6["root_diameter_mm"], 2)}
    for name, value in expected.items():
        check(taken.get(name) == value, f"traced: {name} {taken.get(name)} instead of {value}")
    demand = math.hypot(sheet["shoe_mass_g"] / 1000 * ACCELERATION, sheet["body_mass_kg"] * TROT)
    compare(out, "hold", {"demand_n": demand, "needed_screw_n": demand * 2 / 4, "needed_bond_n": demand * 2}, 0)
    check("for want of horn_shear_mpa, horn_bearing_mpa, shear_strength_mpa" in flat(part), "traced: no ratios")
    check(needed(out)["trot", "demand_n"] == round(demand, 2), "traced: the needs of its gait")


def main():
    began = time.time()
    with tempfile.TemporaryDirectory() as folder:
        for test in (test_numbers, test_words, test_heel, test_strengths, test_stops, test_sheet, test_trace):
            test(folder)
    print(f"plan's hold: {test_plan.checks} checks, {test_plan.failures} failures ({', '.join(PROGRAMS)}; "
          f"{time.time() - began:.0f} s)")
    return 1 if test_plan.failures else 0


if __name__ == "__main__":
    sys.exit(main())
