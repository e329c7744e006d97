#!/usr/bin/env python3
"""Whether it holds, as the main job says it: gait and governing part in words, strengths given and not, what would be
needed, and the numbers against an independent recomputation.  Programs and helpers are those of plan_sheets.py."""
import math
import sys

sys.dont_write_bytecode = True  # the sources may be read-only
import plan_by_hand as by_hand  # noqa: E402
from plan_sheets import (  # noqa: E402
    CONTRACTS, STEPS, both, cautions, check, document, flat, gaits, head, main, numbers, printed, sample, section,
    stops, values, with_values, without)

SHEET = sample("routine.sheet")
STRENGTHS = ("horn_shear_mpa", "horn_bearing_mpa", "shear_strength_mpa")
BARE = without(SHEET, *STRENGTHS)
TITLES = {c["name"]: c["title"] for c in CONTRACTS.values()}


def row(out, calculation, name):
    """A whole row of a calculation, with its words."""
    part = section(out, f"{calculation}: {TITLES[calculation]}")
    return next((flat(line) for line in part.splitlines() if line.startswith(f"  {name} ")), "")


def codes(out):
    return {code for _, code in cautions(out)}


def inputs(calculation, **known):
    return {**{f["name"]: f["standard"] for f in CONTRACTS[calculation]["inputs"]}, **known}


def compare(out, step, expected, method):
    """Half a unit of the last printed digit, and what the recomputation's own method may be off by."""
    told = printed(out)[step]
    for name, value in expected.items():
        digits = len(told[name].partition(".")[2])
        check(abs(float(told[name]) - value) <= 0.5 * 10**-digits + method * max(1, abs(value)),
              f"{step}.{name} is {told[name]}, recomputed {value}")


def test_numbers(folder):
    """Meshes, walks and the standard's own formulas, from the sheet to the needed strengths."""
    out = both(SHEET, folder, "routine", 0)
    sheet = values(SHEET)
    belt = by_hand.band(inputs("hoof_band", **sheet))
    compare(out, "belt", belt, 1e-6)
    thick = [sheet[side + "border_width_mm"] * math.sin(math.radians(sheet[side + "wall_angle_deg"]))
             for side in ("", "other_")]
    each = []
    for step, side, wall in zip(("screw", "other_screw"), ("", "other_"), thick):
        f = inputs("screw_depth", **sheet, wall_thickness_mm=wall)
        f.update({name: sheet.get(side + name, sheet[name]) for name in ("wall_angle_deg", "tilt_deg", "inset_mm")})
        each.append(by_hand.screw(f))
        # steps of 1/20000 of at most 50 mm, on axes that the faces' distance follows at most one to one
        compare(out, step, each[-1], 2.5e-3 / 10)
    glue = inputs("glue_volume", **sheet, bonded_area_mm2=belt["bonded_area_mm2"], wood_area_mm2=belt["shoe_area_mm2"],
                  top_area_mm2=belt["covered_area_mm2"])
    compare(out, "glue", by_hand.glue(glue), 1e-6)  # the belt's
    tape = inputs("cast_length", **sheet, band_height_mm=belt["slant_height_mm"], passes_count=4,
                  **{name: belt[name] for name in ("circumference_low_mm", "circumference_high_mm")})
    tape["waste_fraction"] = 0.05  # the plan's; nothing on the sheet
    wrap = by_hand.tape(tape)
    compare(out, "tape", wrap, 2e-6)  # the belt's, through a quotient
    compare(out, "bevel", by_hand.heel(inputs("heel_bevel", **sheet, build_up_mm=wrap["thickness_mm"])), 2e-6)
    compare(out, "gauge", by_hand.GAUGE_6 | {"screw_diameter_mm": 0.138 * 25.4}, 0)
    f = {**sheet, **by_hand.GAUGE_6, "screw_diameter_mm": sheet["screw_diameter_mm"],
         "wood_gravity_ratio": by_hand.PLYWOOD, "horn_length_mm": min(s["embedded_mm"] for s in each),
         "wood_length_mm": sheet["shoe_thickness_mm"] - sheet["head_recess_mm"]}
    screw = by_hand.screw_hold(f)
    # the contract's 4.757, 114.45 and 620.5 have at least six correct digits but the last, which is 90 000 psi to 5e-5
    compare(out, "grip", screw, 5e-5)

    mass = numbers(out, "mass")["total_g"]
    pull, shear = mass / 1000 * by_hand.ACCELERATION, sheet["body_mass_kg"] * by_hand.TROT
    demand, divisor = math.hypot(pull, shear), sheet["divisor_ratio"]
    b = inputs("bond_hold", **sheet, bonded_area_mm2=belt["bonded_area_mm2"], lap_mm=sheet["high_heel_mm"],
               cover_thickness_mm=wrap["thickness_mm"], horn_thickness_mm=thick[0])
    ratio, whole = by_hand.peak_ratio(b), b["bonded_area_mm2"] * b["shear_strength_mpa"] * b["preparation_factor"]
    mean = demand / b["bonded_area_mm2"]
    # the finite differences are off by 1e-5; the mass is printed to 0.005 g of 349, 1.4e-5 of the pull
    compare(out, "bond", {"peak_ratio": ratio, "mean_mpa": mean, "peak_mpa": mean * ratio, "capacity_mean_n": whole,
                          "capacity_first_n": whole / ratio, "use_mean_ratio": demand / whole,
                          "use_first_ratio": demand / whole * ratio,
                          "needed_mean_mpa": mean * divisor / b["preparation_factor"],
                          "needed_first_mpa": mean * ratio * divisor / b["preparation_factor"]}, 2e-5)
    strengths = screw["axial_design_n"], screw["lateral_design_n"], pull, shear
    upright = by_hand.leaning(*strengths, 0) / by_hand.hankinson(*strengths)
    check(abs(upright - 1) < 1e-12, "upright: the standard's own form")
    lean = max(sheet["tilt_deg"], sheet["other_tilt_deg"])
    alone, bond = demand / sheet["screw_count"] / by_hand.leaning(*strengths, lean), demand / whole * ratio
    compare(out, "hold", {
        "pull_n": pull, "shear_n": shear, "demand_n": demand, "screws_only_use_ratio": alone,
        "bond_only_use_ratio": bond, "bond_mean_use_ratio": demand / whole, "single_path_use_ratio": min(alone, bond),
        "governing_count": 1 if alone < bond else 2, "redundant_count": 1 if max(alone, bond) <= 1 else 0,
        "loss_without_screws_ratio": bond / min(alone, bond), "needed_screw_n": demand * divisor / sheet["screw_count"],
        "needed_bond_n": demand * divisor, "axis_tilt_deg": lean, "needed_grip_n": pull * divisor,
        "reserve_use_ratio": min(alone, bond) * divisor, "least_ratio": 1 / max(alone, bond),
        "weakest_part_count": 1 if alone > bond else 2}, 5e-5)
    needs = gaits(out)
    for gait, force in (("stand", 0), ("walk", by_hand.TROT), ("trot", by_hand.TROT)):
        load = math.hypot(pull, force * sheet["body_mass_kg"])
        want = load * divisor / sheet["screw_count"]
        low, high = 1.0, 150.0  # bearing: bisection on the modes above, which rise with it
        for _ in range(60):
            middle = (low + high) / 2
            carried = min(by_hand.yields({**f, "horn_bearing_mpa": middle})) / 2.2
            low, high = (middle, high) if carried < want else (low, middle)
        needed = load * divisor / b["bonded_area_mm2"] / b["preparation_factor"]
        expected = {"pull_n": pull, "shear_n": force * sheet["body_mass_kg"], "demand_n": load, "needed_screw_n": want,
                    "needed_bond_n": load * divisor, "needed_grip_n": pull * divisor, "horn_bearing_needed_mpa": low,
                    "horn_shear_needed_mpa": want / by_hand.thread_design({**f, "horn_shear_mpa": 1}),
                    "needed_mean_mpa": needed, "needed_first_mpa": needed * ratio}
        check({name for g, name in needs if g == gait} == set(expected), f"{gait}: what is needed")
        for name, value in expected.items():
            # half the last digit, and 5e-5 of a yield load, which the bearing strength follows at most at the square
            got = float(needs[gait, name])
            check(abs(got - value) <= 0.005 + 1e-4 * value, f"{gait}: {name} {got}, not {value}")
    check(want < by_hand.head_design(f), "the needed strengths are the horn's: the head does not go through first")


def test_words(folder):
    out = both(SHEET, folder, "routine", 0)
    mode = int(numbers(out, "grip")["governing_mode_count"])
    check(row(out, "limb_load", "gait_count") == "gait_count 2 given: walk", row(out, "limb_load", "gait_count"))
    check(row(out, "screw_hold", "governing_mode_count").endswith(
        " " + ("Im", "Is", "II", "IIIm", "IIIs", "IV")[mode - 1]), "the governing mode in words")
    check(row(out, "hold", "governing_count").endswith("the bond"), "the stronger path in words")
    check(row(out, "hold", "weakest_part_count").endswith("the screws | the bond's first crack"),
          "what gives first, with the screws and without")
    check(row(out, "wood_species", "species_count").endswith("given: plywood (Structural I)"), "the wood in words")
    for words in ("Bond and screws are not added, and the tape is no path of its own",
                  "load over what the stronger of bond and screws carries: 0.187; above 1 the horse is not led away",
                  "screws: 4 [demand.screw_count]",
                  "Strengths needed at each gait, with divisor_ratio 2 stand walk trot"):
        check(words in flat(out), f"the plan says: {words}")
    check(numbers(out, "bond_only")["screws_only_use_ratio"] == math.inf, "without screws: endless")
    check("load.horizontal_unknown" in codes(out), "no braking force is published at the walk")
    trot = both(with_values(SHEET, gait_count=3), folder, "trot", 0)
    check(row(trot, "limb_load", "gait_count").endswith("trot"), "trot, in words")
    check("load.horizontal_unknown" not in codes(trot), "the trot's forces are known")
    hind = both(with_values(SHEET, gait_count=3, hind_count=1), folder, "hind limb", 0)
    check("hind" in row(hind, "limb_load", "hind_count"), f"hind limb: {row(hind, 'limb_load', 'hind_count')}")
    mass = values(SHEET)["body_mass_kg"]
    check(abs(numbers(hind, "hold")["shear_n"] - 1.17 * mass) < 0.01, "the larger force is the propulsive one")
    check(numbers(both(with_values(SHEET, gait_count=1), folder, "stand", 0), "hold")["shear_n"] == 0,
          "nothing is known to push a standing foot")
    for name, told in (("trot", trot), ("hind limb", hind)):
        check({gait for gait, _ in gaits(told)} == {"stand", "walk", "trot"}, f"{name}: all gaits are told")
    # what a gait is not known for is not made up
    unknown = both(with_values(SHEET, hind_count=1), folder, "hind limb at the walk", 0)
    check("no published force was found for the hind limb at the walk" in flat(section(unknown, "Not planned")), "why")


def test_heel(folder):
    """A trodden heel, and the cast's grip: judged with a strength and not without, and what is needed."""
    plain = both(SHEET, folder, "routine", 0)
    check(numbers(plain, "hold")["peel_n_per_mm"] == 0, "no lift")
    check("where none was given" in row(plain, "hold", "peel_use_ratio"), "no strength, in words")
    trodden = both(with_values(SHEET, peel_pull_n=270), folder, "trodden heel", 0)
    rows = numbers(trodden, "hold")
    check(rows["peel_n_per_mm"] == 3 and rows["needed_peel_n_per_mm"] == 6, "270 N on 90 mm, twice")
    check(rows["peel_use_ratio"] == 0 and "hold.peel_not_counted" in codes(trodden), "no strength, no use")
    check("hold.peel_beside" in codes(trodden), "what pulls at the heel may pull at the rest")
    weak = both(with_values(SHEET, peel_pull_n=270, peel_strength_n_per_mm=2, grip_n=150), folder, "peel", 1)
    check({"hold.peel_opens", "hold.peel_crack", "hold.grip_slips"} <= codes(weak), "the screws alone do not hold")
    rows = numbers(weak, "hold")
    check(rows["peel_use_ratio"] == 1.5, "3 over 2 N/mm")
    check(row(weak, "hold", "weakest_part_count").split(" | ")[0].endswith("peel at the heel") and
          rows["least_ratio"] == round(2 / 3, 2), row(weak, "hold", "weakest_part_count"))
    check(stops(weak)[0][0] == "hold.peel_opens", "which stops the job")
    held = both(with_values(SHEET, peel_pull_n=270, peel_strength_n_per_mm=2, screw_count=8), folder, "peel, held", 0)
    check("hold.peel_crack" in codes(held) and "hold.peel_opens" not in codes(held), "enough screws: a warning")


def test_strengths(folder):
    """Without strengths nothing is made up, and what would be needed is the same and is enough."""
    full, bare = both(SHEET, folder, "routine", 0), both(BARE, folder, "no strengths", 0)
    check(gaits(bare) == gaits(full), "what would be needed does not depend on what is given")
    check(not {"hold", "bond", "grip", "bond_only"} & set(printed(bare)), "nothing is judged")
    missing = flat(section(bare, "Not planned"))
    for step, field in (("grip (screw_hold)", "horn_shear_mpa"), ("bond (bond_hold)", "shear_strength_mpa"),
                        ("hold (hold)", "axial_design_n")):
        check(f"{step}: {field} is required" in missing, f"{step} lacks {field}: {missing}")
    check(not {c for c in codes(bare) if c.startswith(("hold.", "grip.horn", "bond."))}, f"no verdict: {codes(bare)}")
    check("above 1 the horse is not led away" not in flat(bare), "and none among what is to do")
    made = document(BARE, folder, "no strengths", 0)
    hold = made["steps"]["hold"]
    check(hold["lacks"] == "axial_design_n" and hold["results"] is None, "the JSON says what it lacks")
    told = {name for name in printed(bare)["demand"] if printed(bare)["demand"][name] != "-"}
    check("single_path_use_ratio" not in told and "demand_n" in told, f"the load alone is told: {told}")
    # the needed strengths put back: 1/2 of each path is used, the reserve of 2
    need = {name: float(gaits(bare)["walk", name + "_needed_mpa"]) for name in ("horn_shear", "horn_bearing")}
    back = with_values(SHEET, horn_shear_mpa=need["horn_shear"], horn_bearing_mpa=need["horn_bearing"],
                       shear_strength_mpa=float(gaits(bare)["walk", "needed_first_mpa"]))
    uses = numbers(both(back, folder, "needed strengths", 0), "hold")
    # strengths and uses are printed to 0.01; a screw of equal strength along and across its axis has it everywhere
    check(abs(uses["screws_only_use_ratio"] - 0.5) < 0.0051, f"needed by screws: {uses['screws_only_use_ratio']}")
    check(abs(uses["bond_only_use_ratio"] - 0.5) < 0.0051 + 0.5 * 0.005 / 0.78, f"bond: {uses['bond_only_use_ratio']}")
    # one path known, the other not: its own step is planned, and no verdict
    for what, gone, known, step in (("bond alone known", ("horn_",), "bond", "grip"),
                                    ("screws alone known", ("shear_strength",), "grip", "bond")):
        out = both(without(SHEET, *gone), folder, what, 0)
        check(known in printed(out) and not {step, "hold"} & set(printed(out)), f"{what}: {set(printed(out))}")
        check(numbers(out, known) == numbers(full, known), f"{what}: the same as with both")
        check(("bond_only" in printed(out)) == (known == "bond"), f"{what}: the bond without screws")
    # where the wood gives way first no strength of horn helps
    heavy = both(with_values(BARE, screw_count=1, divisor_ratio=4, other_border_width_mm=None, other_tilt_deg=None,
                             other_wall_angle_deg=None), folder, "one screw", 0)
    check(gaits(heavy)["trot", "horn_shear_needed_mpa"] == "endless", "the head goes through the wood first")
    none = both(with_values(BARE, screw_way_count=0), folder, "no screws", 0)
    check(gaits(none)["walk", "horn_shear_needed_mpa"] == "-" and float(gaits(none)["walk", "needed_bond_n"]) > 0,
          "no screws: the bond's need alone")


def test_sheet(folder):
    """What belongs to the question, and what can be given in place of what is found."""
    for name, step in (("body_mass_kg", "load"), ("screw_count", "mass"), ("adhesive_shear_modulus_mpa", "bond"),
                       ("cover_modulus_mpa", "bond"),
                       ("gauge_count", "grip")):
        out = both(with_values(SHEET, **{name: None}), folder, f"no {name}", 0)
        lacks = {"gauge_count": "root_diameter_mm"}.get(name, name)
        check(f"{step} ({STEPS[step]}): {lacks} is required" in flat(section(out, "Not planned")), f"{name} is told")
        check("hold" not in printed(out), f"{name}: no verdict")
    still = both(with_values(SHEET, gait_count=None), folder, "no gait", 0)
    check("load (limb_load): gait_count is required" in flat(section(still, "Not planned")), "no gait: that is told")
    check(abs(numbers(still, "hold")["shear_n"] - by_hand.TROT * 560) < 0.006, "no gait: the trot's force stands in")
    heavy = both(with_values(SHEET, shoe_mass_g=500), folder, "weighed", 0)
    check(abs(numbers(heavy, "hold")["pull_n"] - 0.5 * by_hand.ACCELERATION) < 0.006, "a shoe on the scale: 0.5 kg")
    own = both(with_values(SHEET, shear_n_per_kg=0.9), folder, "shear of one's own", 0)
    check(numbers(own, "hold")["shear_n"] == 504, "a shear of one's own: 0.9 x 560 N")
    dims = with_values(SHEET, gauge_count=None, root_diameter_mm=2.8702, pitch_mm=1.411111, head_diameter_mm=6.6548)
    out = both(dims, folder, "screw measured", 0)
    check("gauge" not in printed(out) and gaits(out) == gaits(both(SHEET, folder, "routine", 0)), "a screw as measured")
    check(head(out) == "", "and no stop")
    thick = both(with_values(SHEET, root_diameter_mm=3.6), folder, "root", 0)
    check("the root must be thinner than the outside of the thread" in flat(section(thick, "Not planned")), "refused")


def test_trace(folder):
    """On a trace: all screws of both sides, the least embedment, and what is needed without strengths."""
    sheet = sample("traced.sheet")
    out, made = both(sheet, folder, "traced", 0), document(sheet, folder, "traced", 0)
    given, v = made["steps"]["grip_need"]["inputs"], values(sheet)
    least = min(made["steps"][step]["results"]["embedded_mm"] for step in ("screw", "other_screw"))
    check(made["steps"]["demand"]["inputs"]["screw_count"] == 4, "two screws on each side")
    check(given["horn_length_mm"] == least and given["wood_length_mm"] == 22, "the screw that is held by less")
    pull, shear = v["shoe_mass_g"] / 1000 * by_hand.ACCELERATION, v["body_mass_kg"] * by_hand.TROT
    demand = math.hypot(pull, shear)
    compare(out, "demand", {"demand_n": demand, "needed_screw_n": demand * 2 / 4, "needed_bond_n": demand * 2,
                            "needed_peel_n_per_mm": 180 / 90 * 2}, 0)
    check(float(gaits(out)["trot", "demand_n"]) == round(demand, 2), "traced: the needs of its gait")
    check("hold (hold): axial_design_n is required" in flat(section(out, "Not planned")), "and no verdict")


main("plan's hold", test_numbers, test_words, test_heel, test_strengths, test_sheet, test_trace)
