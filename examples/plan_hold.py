"""What the attachment holds at a gait: what its calculations take from the rest of the plan, and its words."""
import math
import re

import ungula

from plan_text import wrapped

GAITS = 4


# Inputs that are more than one result of an earlier step; None: not known.

def larger_shear(load):
    return max(load.braking_n_per_kg, load.propulsive_n_per_kg) if load.horizontal_known_count else None


def load_shear(p):
    return larger_shear(p.result["limb_load"])


def layout_screws(p):
    return p.result["left"].placed_count + p.result["right"].placed_count


def layout_embedded(p):
    return min(p.result["left"].least_embedded_mm, p.result["right"].least_embedded_mm)


def point_in_horn(p):
    return 1.0


def screw_lean(p):
    return abs(p.inputs["screw_depth"]["tilt_deg"])


def layout_lean(p):
    """Weaker along its axis, a screw is worst off where it leans as the load does; otherwise, where it leans most."""
    grip, demand = p.result["screw_hold"], p.result["demand"]
    along = grip.axial_design_n < grip.lateral_design_n
    of_load = math.atan2(demand.shear_n, demand.pull_n) * 180 / math.pi if along else 180
    leans = [abs(tilt) for side in ("left", "right") for tilt in
             list(p.result[side].screws.tilt_deg)[:int(p.result[side].placed_count)]]
    return min(leans, key=lambda lean: abs(lean - of_load), default=0.0)


def wood_under_head(p):
    screw = p.inputs["screw_depth" if "screw_depth" in p.inputs else "right"]
    return screw["shoe_thickness_mm"] - screw["head_recess_mm"]


def wall_lap(p):
    """The belt lies on the shoe below the bearing plane: upright first, then leaning in."""
    belt = "outline_band" if "outline_band" in p.inputs else "hoof_band"
    f = p.inputs[belt]
    depth = max(-f["low_mm"], 0)
    upright = min(depth, f["upper_layer_mm"])
    lean = math.cos(f["edge_bevel_deg"] * math.pi / 180)
    return p.result[belt].slant_height_mm - (upright + (depth - upright) / lean)


def wall_at_screw(p):
    return p.inputs["screw_depth"]["wall_thickness_mm"]


def thinnest_station(p):
    return min(thickness for _, thickness, _ in p.lists.stations)


SHEAR = ("shear_n_per_kg", "limb_load", "the larger of braking_n_per_kg and propulsive_n_per_kg of limb_load", None,
         load_shear)
SCREWS = ("screw_count", "right", "placed_count of screw_layout, both sides", None, layout_screws)
POINT = ("a screw from below has its point in the horn", None, point_in_horn)
WOOD = ("shoe_thickness_mm less head_recess_mm", None, wood_under_head)
# As the plan's own chain.
HOLD_CHAIN = [
    ("demand", *SHEAR),
    ("demand", *SCREWS),
    ("screw_hold", "point_member_count", "screw_depth", *POINT),
    ("screw_hold", "point_member_count", "right", *POINT),
    ("screw_hold", "screw_diameter_mm", "screw_gauge", "screw_diameter_mm", None, None),
    ("screw_hold", "root_diameter_mm", "screw_gauge", "root_diameter_mm", None, None),
    ("screw_hold", "pitch_mm", "screw_gauge", "pitch_mm", None, None),
    ("screw_hold", "head_diameter_mm", "screw_gauge", "head_diameter_mm", None, None),
    ("screw_hold", "horn_length_mm", "screw_depth", "embedded_mm", None, None),
    ("screw_hold", "horn_length_mm", "right", "the lesser least_embedded_mm of screw_layout", None, layout_embedded),
    ("screw_hold", "wood_length_mm", "screw_depth", *WOOD),
    ("screw_hold", "wood_length_mm", "right", *WOOD),
    ("screw_hold", "wood_gravity_ratio", "wood_species", "wood_gravity_ratio", None, None),
    ("bond_hold", "bonded_area_mm2", "belt", "bonded_area_mm2", None, None),
    ("bond_hold", "lap_mm", "belt", "slant_height_mm less the shoe's part of it", None, wall_lap),
    ("bond_hold", "horn_thickness_mm", "screw_depth", "wall_thickness_mm of screw_depth", None, wall_at_screw),
    ("bond_hold", "horn_thickness_mm", "wall_profile", "the least wall_thickness_mm of the stations", None,
     thinnest_station),
    ("bond_hold", "cover_thickness_mm", "cast_length", "thickness_mm", None, None),
    ("bond_hold", "demand_n", "demand", "demand_n", None, None),
    ("hold", *SHEAR),
    ("hold", *SCREWS),
    ("hold", "axis_tilt_deg", "screw_depth", "tilt_deg of screw_depth, without its sign", None, screw_lean),
    ("hold", "axis_tilt_deg", "right", "tilt_deg of screw_layout, of the screw that it is worst for", None, layout_lean),
    ("hold", "axial_design_n", "screw_hold", "axial_design_n", None, None),
    ("hold", "lateral_design_n", "screw_hold", "lateral_design_n", None, None),
    ("hold", "bond_capacity_first_n", "bond_hold", "capacity_first_n", None, None),
    ("hold", "bond_capacity_mean_n", "bond_hold", "capacity_mean_n", None, None),
]
STRENGTHS = {
    "screw_hold": ("horn_shear_mpa", "horn_bearing_mpa"),
    "bond_hold": ("shear_strength_mpa",),
    # not asked for before bond and screws are known
    "demand": ("axial_design_n", "lateral_design_n", "bond_capacity_first_n", "bond_capacity_mean_n"),
}
# A result that may change and come back between the least and the greatest strength is known where what it is about is.
ABOUT = {"governing_mode_count": "lateral_yield_n", "governing_count": "single_path_use_ratio",
         "loss_without_screws_ratio": "single_path_use_ratio", "weakest_part_count": "least_ratio"}
ASKED_BY = {"axial_use_ratio": "wanted_axial_n", "horn_shear_needed_mpa": "wanted_axial_n",
            "lateral_use_ratio": "wanted_lateral_n", "horn_bearing_needed_mpa": "wanted_lateral_n"}
PARTS = ("", "the screws", "the bond, by a first crack", "the bond, by peel at the heel", "the cast's grip")
MODES = ("yield_im_n", "yield_is_n", "yield_ii_n", "yield_iiim_n", "yield_iiis_n", "yield_iv_n")
# Load and needed strengths: the step and its result; the first is an input.
NEEDS = (("demand", "shear_n_per_kg"), ("demand", "pull_n"), ("demand", "shear_n"), ("demand", "demand_n"),
         ("demand", "needed_screw_n"), ("screw_hold", "horn_shear_needed_mpa"),
         ("screw_hold", "horn_bearing_needed_mpa"), ("demand", "needed_bond_n"), ("bond_hold", "needed_mean_mpa"),
         ("bond_hold", "needed_first_mpa"), ("demand", "needed_peel_n_per_mm"), ("demand", "needed_grip_n"))


def open_strengths(p, fields):
    """Leaves the strengths open that the sheet does not give."""
    for c, names in STRENGTHS.items():
        for name in names if c in p.steps else ():
            if name not in p.given[c] and name not in p.taken[c]:
                p.inputs[c][name], p.unknown[c][name] = fields[c][name].lower, fields[c][name].upper
    # The whole bond carries no less than its first crack takes, also where only one of the two is on the sheet.
    if "demand" in p.steps:
        inputs, unknown, both = p.inputs["demand"], p.unknown["demand"], STRENGTHS["demand"][2:]
        if both[1] in unknown and both[0] not in unknown:
            inputs[both[1]] = inputs[both[0]]
        if both[0] in unknown and both[1] not in unknown:
            unknown[both[0]] = inputs[both[1]]


def same(p, c, output):
    return getattr(p.result[c], output) == getattr(p.high_result[c], output)


def known(p, c, output):
    return same(p, c, output) and (output not in ABOUT or same(p, c, ABOUT[output]))


def unasked(p, c, output):
    """Whether a result stands for a question that was not asked, or for unknown."""
    if c == "limb_load":
        return p.result[c].horizontal_known_count == 0 and output.startswith(("braking_", "propulsive_"))
    if c in ("hold", "demand"):
        f = p.inputs[c]
        return ("peel_" in output and f["peel_pull_n"] == 0 or output == "peel_use_ratio" and
                f["peel_strength_n_per_mm"] == 0 or output == "grip_use_ratio" and f["grip_n"] == 0)
    return c == "screw_hold" and output in ASKED_BY and p.inputs[c][ASKED_BY[output]] == 0


def hold_tells(p, c, output):
    """Whether a result is to be printed: it is known whatever a missing strength is, and its question was asked."""
    return known(p, c, output) and not unasked(p, c, output)


def hold_open(p, c):
    """Prints what is left out of a step for want of a strength."""
    if not p.is_open(c):
        return
    left = [f.name for f in ungula.describe(c).outputs if not known(p, c, f.name) and not unasked(p, c, f.name)]
    if p.unknown[c]:
        missing = ", ".join(name for name in STRENGTHS[c] if name in p.unknown[c])
        print(wrapped("  not on the sheet, and no trustworthy value is published: ", 6, missing))
    if left:
        print(wrapped("  not calculated, for want of a strength: ", 6, ", ".join(left)))


def field_of(c, name):
    contract = ungula.describe("hold" if c == "demand" else c)
    return next(f for f in contract.inputs + contract.outputs if f.name == name)


def choice(name, number):
    """What a number stands for, from "1 stand, 2 walk" or "0: fore limb, 1: hind limb"."""
    return re.search(rf"(?:^|, ){number:.0f}:? ([^,]*)", field_of("limb_load", name).meaning)[1]


def needs_at(p, gait):
    """The needs at a gait; None: not known, or not a question.  What the sheet says of the ground is of its own
    gait."""
    need = [None] * len(NEEDS)
    try:
        load = ungula.limb_load(**{**p.high["limb_load"], "gait_count": gait})
        inputs = dict(p.high["demand"])
        if gait != p.inputs["limb_load"]["gait_count"]:
            shear = larger_shear(load)
            inputs["shear_n_per_kg"] = field_of("hold", "shear_n_per_kg").standard if shear is None else shear
        demand = ungula.hold(**inputs)
    except ungula.InvalidInput:
        return need
    results = {"demand": demand}
    wanted = {"wanted_axial_n": demand.needed_screw_n, "wanted_lateral_n": demand.needed_screw_n}
    for c, changes in (("screw_hold", wanted), ("bond_hold", {"demand_n": demand.demand_n})):
        try:
            if c == "bond_hold" or inputs["screw_count"] > 0:
                results[c] = getattr(ungula, c)(**{**p.high[c], **changes})
        except ungula.InvalidInput:
            pass
    need = [getattr(results[c], name) if c in results and name != "shear_n_per_kg" else None for c, name in NEEDS]
    need = [None if c == "demand" and unasked(p, c, name) else value for (c, name), value in zip(NEEDS, need)]
    need[0] = inputs["shear_n_per_kg"]
    if not inputs["screw_count"] > 0:
        need[4] = None
    return need


def needed(p):
    gaits = range(1, GAITS + (p.inputs["limb_load"]["gait_count"] == GAITS))
    needs = [needs_at(p, gait) for gait in gaits]
    print("  needed at each gait, with divisor_ratio %.15g" % p.inputs["hold"]["divisor_ratio"])
    print(27 * " " + "".join(" %9s" % choice("gait_count", gait) for gait in gaits))
    for i, (c, name) in enumerate(NEEDS):
        f = field_of(c, name)
        values = "".join(" %9s" % "-" if need[i] is None else " %9.2f" % need[i] for need in needs)
        print("    %-23s%s  %-5s  %s" % (name, values, f.unit, f.meaning))


def weakest(p):
    """The part that gives first, and at how many times the load."""
    hold = p.result["hold"]
    gait = choice("gait_count", p.inputs["limb_load"]["gait_count"])
    if not known(p, "hold", "weakest_part_count"):
        text = "not calculated"
    elif hold.weakest_part_count == 0:
        text = "nothing, without a load" if hold.least_ratio > 0 else "there is nothing that holds"
    else:
        text = "%s, at %.2f times the load (least_ratio)" % (PARTS[int(hold.weakest_part_count)], hold.least_ratio)
    print(f"  gives first, {gait}: {text}")


def governing(p):
    screw, unknown = p.result["screw_hold"], "not calculated"
    part = "thread_ultimate_n" if screw.thread_ultimate_n < screw.head_ultimate_n else "head_ultimate_n"
    both = known(p, "screw_hold", "thread_ultimate_n") and known(p, "screw_hold", "head_ultimate_n")
    mode = MODES[int(screw.governing_mode_count) - 1] if known(p, "screw_hold", "governing_mode_count") else None
    path = {1: "the screws", 2: "the bond"}.get(p.result["hold"].governing_count, "there is neither")
    print("  a screw's governing part along its axis:", field_of("screw_hold", part).meaning if both else unknown)
    print("  a screw's governing part sideways:", field_of("screw_hold", mode).meaning if mode else unknown)
    print("  the stronger of bond and screws:", path if known(p, "hold", "governing_count") else unknown)
    weakest(p)


def uses(p):
    screws, first, mean = ("%.2f" % getattr(p.result["hold"], name) if known(p, "hold", name) else "not calculated"
                           for name in ("screws_only_use_ratio", "bond_only_use_ratio", "bond_mean_use_ratio"))
    print(f"  use ratios (load over hold): screws alone {screws}; bond alone {first} to its first crack, "
          f"{mean} as a whole")
    missing = [name for c in ("screw_hold", "bond_hold") for name in STRENGTHS[c] if name in p.unknown[c]]
    if missing and p.is_open("hold"):
        print(wrapped("  ", 6, f"the use ratios are not all computed, for want of {', '.join(missing)}: give what a "
                      "test of your own showed, or look at what would be needed"))


def hold_words(p):
    """The end of the section: forces, what governs, use ratios, needed strengths; or that there is none."""
    if "hold" not in p.steps:
        print("\nHold: left out; it needs body_mass_kg, gait_count, shoe_mass_g, and then names what else it lacks")
        return
    inputs, load, hold = p.inputs["hold"], p.inputs["limb_load"], p.result["hold"]
    gait, limb = choice("gait_count", load["gait_count"]), choice("hind_count", load["hind_count"])
    print("  load: %s, %s: %.0f N off the hoof and %.0f N along the ground, %.0f N together" % (
        gait, limb, hold.pull_n, hold.shear_n, hold.demand_n))
    if "shear_n_per_kg" not in p.taken["hold"] and "shear_n_per_kg" not in p.given["hold"]:
        print(wrapped("  caution: ", 6, "no horizontal force is published for this gait; in its place stands "
                      "%.15g N/kg (%s)" % (inputs["shear_n_per_kg"], field_of("hold", "shear_n_per_kg").meaning)))
    governing(p)
    uses(p)
    needed(p)
    why = ("the sheet's" if "acceleration_ms2" in p.given["hold"] else field_of("hold", "acceleration_ms2").meaning)
    print(wrapped("  ", 6, "the pull is reckoned at every gait with %.15g m/s2 (%s)" % (
        inputs["acceleration_ms2"], why)))
    print(wrapped("  ", 6, "No load sharing is assumed: bond and screws are not added, each is compared with the whole "
                  "load. The tape is no path, and its grip counts only where grip_n is given."))
