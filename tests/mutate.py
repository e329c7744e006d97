#!/usr/bin/env python3
"""Changes each number of the formulas in turn and lists what no test notices.

Every numeric literal of the formula part of a file of lib is changed by 1 % (0 becomes 0.01; the number of a refusal
becomes the next), and so is every limit of a caution.  What changes is compiled alone and put before the library, and
the room's own tests, the laws and the boundaries are run at their shortest.  A change that passes them all survives.
One that the compiler refuses (an index) or makes the same machine code of is none.  core is left to its own tests,
except for what belongs to the formulas.

    python3 tests/mutate.py [-j JOBS] [FILE ...]      exit status 1 if a survivor is not explained below
"""
import argparse
import concurrent.futures
import glob
import os
import re
import subprocess
import sys
import tempfile

TOP = os.environ.get("abs_top_srcdir") or os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
CC = os.environ.get("UNG_MUTATE_CC", "gcc")
FLAGS = ["-std=gnu11", "-O1", "-fno-math-errno", "-fno-trapping-math", "-ffp-contract=off",
         "-fno-tree-slp-vectorize", "-fopenmp-simd", "-fvisibility=hidden", "-DUNG_BUILDING", '-DUNG_VERSION="0"', "-w"]

CHECK_LIBS = subprocess.run(["pkg-config", "--libs", "check"], stdout=subprocess.PIPE,
                            check=True).stdout.decode().split()

PLAN = ["plan", "plan_sides", "plan_search"]
# Which tests a room has; the laws and the boundaries are everyone's.
TESTS = {
    "bevel": ["bevel", "wear"],
    "bond": ["bond", "hold"],
    "cast": ["cast", "kinetics"],
    "cure": ["cure", "kinetics", "wall_heat"],
    "core": ["outline", "shape", "fit", "band", "cast"],
    "lib/core/ode.c": ["ode", "cure"],
    "lib/job/job_plan.c": PLAN,
    "lib/job/plan_items.c": PLAN,
    "lib/job/plan_lift.c": PLAN,
    "lib/job/plan_search.c": PLAN,
    "lib/job/plan_table.c": PLAN,
    "lib/job/plan_text.c": PLAN,
    "horse": ["hold", "horse"],
    "job": ["hold", "mass", "timeline", "plan"],
    "packing": ["packing"],
    "screw": ["screw", "strength", "layout"],
    "shape": ["shape", "outline", "fit", "band"],
}
OF_CORE = ["lib/core/ode.c", "lib/core/quadrature.h", "lib/core/simple.c"]

# Lines (by a piece of their text) and the literal on them that may survive, with the reason.
EXPLAINED = [
    # (file, piece of the line, literals or None for every literal on it, reason)
    ("lib/bevel/heel_bevel.c", "wrapped_before_count > 0.5", "0.5", "between 0 and 1 any number tells them apart"),
    ("lib/bevel/heel_bevel.c", "some_run = run > 0", "1", "a divisor whose quotient is not used"),
    ("lib/bevel/heel_bevel.c", "safe_rest = rest > 0", "1", "a divisor whose quotient is not used"),
    ("lib/bevel/heel_wear.c", "own = rest > 0", "1", "a divisor whose quotient is not used"),
    ("lib/bevel/heel_wear.c", "to_cover = cover", "1", "a divisor whose quotient is not used"),
    ("lib/bevel/heel_wear.c", "root = to_go", "1", "a divisor whose quotient is not used"),
    ("lib/bevel/heel_wear.c", "through = cover > 0", "0", "less than a tenth is refused"),
    ("lib/bevel/heel_wear.c", "(toe > 0 ? toe : 1)", "1", "a divisor whose quotient is not used"),
    ("lib/bond/bond_group.c", "where->refusal = stiff", "1", "the only relation there is"),
    ("lib/bond/glue_volume.c", "each - 1e-9", "1e-9", "any number far below a pack and far above a rounding does"),
    ("lib/bond/glue_volume.c", "inverse = 1 / (each > 0 ? each : 1)", "1", "a divisor whose quotient is not used"),
    ("lib/cast/cast_length.c", "roll_length_mm - 1e-9", "1e-9", "any number far below a roll and far above a rounding "
     "does"),
    ("lib/cast/cast_length.c", "ung__abs(u) < 1e-8", None, "both ways agree there to the last digit; a divisor that is "
     "not used"),
    ("lib/core/ode.c", "int i = k + 1", "1", "a whole number"),
    ("lib/core/ode.c", "int j = k + 1", "0 1", "a whole number; so small a factor only spares work"),
    ("lib/core/ode.c", "int j = i + 1", "1", "a whole number"),
    ("lib/core/ode.c", "ung__abs(pivot) < 1e300", "1e300", "far above what a step that counts has"),
    ("lib/core/ode.c", "o->absolute[k] + 1e-290", "1e-290", "anything above 0 and below all that is tolerated"),
    ("lib/core/ode.c", "double most = 0", "0", "a hundredth of what is tolerated: then steps grow twofold at most, and "
     "there are more of them"),
    ("lib/core/ode.c", "most = share <= 1e200", "1e200", "far above what is tolerated"),
    ("lib/cure/cup.h", "UNG__CURED", "1e13", "where the run ends: a hundredth of what is left beside 1e-13"),
    ("lib/cure/cup.h", "UNG__CUP_RELATIVE", "1e-12", "a tolerance of steps, a hundredth more or less of it"),
    ("lib/cure/cup.h", "if (((before > 0 && now <= 0)", "0", "while it still warms a later place is hotter"),
    ("lib/cure/cup.h", "y[UNG__ABOVE], 100)", "100", "no accepted step is so cold: a trial there is refused"),
    ("lib/cure/cup.h", "slow = ung__cup_slowness(c, 0), first", "0", "a scale of tolerances"),
    ("lib/cure/cup.h", ".states = coupled + 1", "1", "a whole number"),
    ("lib/cure/cup.h", "scale = UNG__CUP_RELATIVE", None, "a scale of tolerances"),
    ("lib/cure/cup.h", "o.absolute[coupled]", None, "a scale of tolerances"),
    ("lib/cure/cup.h", "beside = x >", None, "how far beside the peak its slope is looked for"),
    ("lib/cure/cup.h", "parts <= 16", "2 16", "whole numbers: how often a step is halved until the peak stays"),
    ("lib/cure/cup.h", "k < 6 && slope < 0", None, "how the search for the peak narrows and where it ends"),
    ("lib/cure/cup.h", "step = ung__clamp(-f / slope", None, "how far the search for the peak may go at once"),
    ("lib/cure/cup.h", "secant = step != 0", "0", "a secant of no length is not used"),
    ("lib/cure/cup.h", "slope = ung__abs(step) > 1e-6", None, "far above a rounding: only how the search narrows"),
    ("lib/cure/cup.h", "parts > 1 && ung__abs(x - from)", None, "where the search ends: a hundredth of 1e-9"),
    ("lib/cure/cup.h", "ung__max(o.y[UNG__ABOVE], 0) + left", "0", "when to look no further: a hundredth of a degree "
     "longer or shorter"),
    ("lib/cure/cup.h", "at = f_high <= 0", "0", "where the search ends; that its result is right is tested"),
    ("lib/cure/cup.h", "round < 60 && f_low < 0", None, "where the search ends; that its result is right is tested"),
    ("lib/cure/cup.h", "round % 8 == 7", None, "now and then a halving: how the search narrows"),
    ("lib/cure/cup.h", "if (ung__abs(f) <= 1e-12)", "1e-12", "where the search ends: a hundredth of that"),
    ("lib/cure/cup.h", "f_high = side == 1", None, "how the search narrows"),
    ("lib/cure/cup.h", "f_low = side == 2", None, "how the search narrows"),
    ("lib/cure/cup.h", "c.last = end < 1", "1", "at 1 the place is infinite, and the least of both is the end"),
    ("lib/cure/cup.h", "return in->gel_fraction >=", "1 2 3", "numbers of relations: the part behind the point "
     "is dropped"),
    ("lib/cure/cup_cure.c", "return (ung_cup_cure_out){0}", "0", "not read where it is refused"),
    ("lib/cure/cup.h", "!(in->reference_mass_g > 0)", "0", "less than half a gram is refused"),
    ("lib/cure/cup.h", "is_film ? 0 : per_mass", "0", "not used: a film's rate is known at once"),
    ("lib/cure/cup_curve.c", "round < 60", "60", "enough steps: one more finds the same"),
    ("lib/cure/cup_curve.c", "low = off >= 0", "0", "how the search narrows"),
    ("lib/cure/cup_curve.c", "stopped = after >= 0", "0 1", "the share at the end of the run is the same but for "
     "1e-13"),
    ("lib/cure/cup_curve.c", "0.5 * (low + high)", "0.5", "how the search narrows"),
    ("lib/cure/cup_curve.c", "1e-12 * time", "1e-12", "where the search ends: a hundredth of that"),
    ("lib/cure/cup_curve.c", "*where = (ung__where){4", "4", "the number of a relation: the part behind the point is "
     "dropped"),
    ("lib/cure/cup_curve.c", "c.cooling * after, 700", "700", "where an exponential is nothing beside any temperature"),
    ("lib/cure/cure_energy.c", "double some = apart", None, "a divisor whose quotient is refused"),
    ("lib/cure/cure_energy.c", "double used = energy", "1", "stands for an energy that is refused"),
    ("lib/core/quadrature.h", "j += 2", "2", "a whole number"),
    ("lib/core/quadrature.h", "<= 1e-11", "1e-11", "when it is settled: the error is about the square of this"),
    ("lib/core/simple.c", "splitter = 0x1p27 + 1", "1", "any factor near 2^27 splits a double into halves"),
    ("lib/core/simple.c", "doubt = 3.33", "3.3306690738754716e-16", "a little more is left to the exact sum"),
    ("lib/core/simple.c", "doubt == 0 ? 0", "0", "the exact sum finds 0 as well"),
    ("lib/core/simple.c", "i + 1 == n ? 0", "0 1", "whole numbers"),
    ("lib/core/simple.c", "least_right = 1", "1", "any positive number to begin with"),
    ("lib/core/simple.c", "> 0 ? RIGHT", "0", "what the boxes do not tell apart, the edges do"),
    ("lib/core/simple.c", "> 0 ? DOWN", "0", "what the boxes do not tell apart, the edges do"),
    ("lib/core/simple.c", "first + 1 == second", "0 1", "what the boxes do not tell apart, the edges do"),
    ("lib/core/simple.c", "+ 1", "1", "a whole number"),
    ("lib/core/simple.c", "count > 1", "1", "a whole number"),
    ("lib/core/simple.c", "waiting > 0", "0", "a whole number"),
    ("lib/core/simple.c", "steps_left == 0", "0", "without a limit the boxes decide alike, only later"),
    ("lib/core/simple.c", "height = 1 +", "1", "a whole number"),
    ("lib/core/simple.c", "if (side == 0)", "0", "an edge through the point becomes its neighbor and is found there"),
    ("lib/core/simple.c", "simple < 0 ?", "0", "the sweep decides alike, only later"),
    ("lib/core/simple.c", "8 * n + 1000", None, "when the sweep takes over: only the time depends on it"),
    ("lib/horse/coffin_lever.c", "(before > 0 ? before : 1)", "1", "a divisor whose quotient is not used"),
    ("lib/horse/hoof_growth.c", "(loss > 0 ? loss : 1)", "1", "a divisor whose quotient is not used"),
    ("lib/horse/limb_load.c", "> 0.5 ?", "0.5", "between 0 and 1 any number tells them apart"),
    ("lib/horse/limb_load.c", "gait", "1.5 2.5 3.5", "gaits are whole numbers"),
    ("lib/horse/limb_load.c", "*refusal = hind_walks", "1", "the only relation there is"),
    ("lib/job/hold.c", "*refusal = mean < first", "1", "the only relation there is"),
    ("lib/job/hold.c", "some = demand > 0 ? demand : 1", "0 1", "a divisor of zeros; a load of less than a hundredth "
     "of a newton"),
    ("lib/job/hold.c", "(z > 0 ? z : 1)", "1", "divisors whose quotients are not used"),
    ("lib/job/hold.c", "carried = ", "0 1", "a divisor whose quotient is not used; screws are counted"),
    ("lib/job/hold.c", "out.loss_without_screws_ratio", "1", "a divisor of zeros"),
    ("lib/job/hold.c", "out.needed_screw_n", "0", "screws are counted"),
    ("lib/job/job_plan.c", "_count", "0 0.5 1.5", "switches and counts are whole numbers, and a lap of a hundredth of a "
     "millimeter is none"),
    ("lib/job/plan_items.c", "_count", "0 1", "counts are whole numbers"),
    ("lib/job/plan_lift.c", "a->stops[i] =", "0", "a whole number"),
    ("lib/job/plan_lift.c", "step < 1 ? 1", "1", "how far whole numbers are apart when they are tried; two in a hundred "
     "are left out"),
    ("lib/job/plan_lift.c", "(value - before) / 2", "2", "where an interval is cut"),
    ("lib/job/plan_table.c", "asked[i].field, i + 1", "1", "a whole number"),
    ("lib/job/plan_table.c", "point_member_count > 1.5", "1.5", "a whole number"),
    ("lib/job/plan_table.c", "? 0", "0", "a whole number"),
    ("lib/job/plan_text.c", "t.size > 0", "0", "a whole number"),
    ("lib/job/plan_search.c", "(count + 1) * step", "1", "what a rounding of the quotient left"),
    ("lib/job/plan_search.c", "!(out.margin_mm >= 0)", "0", "a hundredth of a millimeter more than the margins"),
    ("lib/job/plan_search.c", "out.embedded_mm > 0", "0", "a hundredth of a millimeter in the horn"),
    ("lib/job/plan_search.c", "!(out.longest_mm > 0)", "0", "0 is none; otherwise it is longer than the wood"),
    ("lib/job/plan_search.c", "in.belt_top_mm > 0", "0", "a belt of a hundredth of a millimeter"),
    ("lib/job/plan_text.c", "t->length + 1 < t->size", "1", "a whole number"),
    ("lib/job/plan_text.c", "value > 1e15", "1e15", "far above every quantity"),
    ("lib/job/plan_text.c", "decimals < 9", "9", "a whole number"),
    ("lib/job/plan_text.c", "1e-9 * whole", "1e-9", "any number far above a rounding and far below a digit does"),
    ("lib/job/plan_text.c", "digits > 0", "0", "a whole number"),
    ("lib/job/plan_text.c", "buffer ? size : 0", "0", "a whole number"),
    ("lib/job/job_timeline.c", "some = variance > 0", "0", "a variance of less than a tenth of a second"),
    ("lib/job/job_timeline.c", "return variance > 0", "0", "a variance of less than a tenth of a second"),
    ("lib/job/job_timeline.c", "double now = 0", "0", "set before it is used: some step counts"),
    ("lib/job/job_timeline.c", "working_count > 0", "0", "whole numbers"),
    ("lib/job/job_timeline.c", "chance[last] < 0.9", "0.9", "how far to draw before looking: only the time depends "
     "on it"),
    ("lib/job/job_timeline.c", "last + 1 : last", "1", "a whole number"),
    ("lib/job/job_timeline.c", "some = both > 0", "1", "a divisor whose quotient is not used"),
    ("lib/job/job_timeline.c", "triangular_count > 0", "0", "whole numbers"),
    ("lib/job/job_timeline.c", "double odd =", "3", "a number of a relation: the part behind the point is dropped"),
    ("lib/job/job_timeline.c", "double broken =", "1 2", "numbers of relations: the part behind the point is dropped"),
    ("lib/job/job_timeline.c", "if (broken > 0)", "0", "whole numbers"),
    ("lib/job/job_timeline.c", "where->value = broken", "3", "whole numbers are compared"),
    ("lib/job/job_timeline.c", "where->limit = broken", "3", "whole numbers are compared"),
    ("lib/job/job_timeline.c", "return counted > 0 ? 0 : 4", "0 4", "whole numbers"),
    ("lib/job/job_timeline.c", "out->fresh_before_count > 0", "0", "whole numbers"),
    ("lib/job/job_timeline.c", "out->impossible_count > 0", "0", "whole numbers"),
    ("lib/job/job_timeline.c", "chain.samples > 0", "0", "whole numbers"),
    ("lib/job/job_timeline.c", "divisor > 0 ? (sum.mean", "0", "a working time of a hundred times the work: as good "
     "as infinite"),
    ("lib/job/timeline.c", "if (!(range > 0))", "0", "a step known to a hundredth of a second"),
    ("lib/job/timeline.c", "ung__min(1 + toward, 5.0)", "5.0", "only a rounding passes it"),
    ("lib/job/timeline.c", "0x1p52 + 0.5", "0.5", "half of 2^-52"),
    ("lib/job/timeline.c", "ung__max(sum[i], 1e-300)", "1e-300", "any number far below every duration"),
    ("lib/job/timeline.c", "chain->per_spread > 0", "0", "spreads are at most a half, so it is 0 or above 1"),
    ("lib/job/timeline.c", "squares = {{0}}", "0", "set before it is used"),
    ("lib/job/timeline.c", "total = 0;", "0", "set before it is used: some step counts"),
    ("lib/job/timeline.c", "working_count > 0", "0", "whole numbers"),
    ("lib/job/timeline.c", "drawn != k / 2", "2", "drawn once more, the same"),
    ("lib/job/timeline.c", "drawn = k / 2", "2", "drawn once more, the same"),
    ("lib/job/timeline.c", "n > 1 ? n - 1 : 1", "1", "of one sample the error is 0 over anything"),
    ("lib/job/shoe_mass.c", "past = around", "2", "between its roots, in whose middle this is, the face is below 0"),
    ("lib/job/shoe_mass.c", "(1 + 1e-9)", "1e-9", "any number above a rounding and below what can be measured"),
    ("lib/job/shoe_mass.c", "left <= 0 ? 2", "0", "a face of a hundredth of a square millimeter"),
    ("lib/packing/dam_volume.c", "> room ? 1 : 0", "1", "the only relation there is"),
    ("lib/packing/packing_volume.c", "w < 0.1 ?", "0.1", "both ways agree there to the last digit"),
    ("lib/packing/packing_volume.c", "double step = off", "2", "how fast it settles: two steps are more than enough"),
    ("lib/packing/packing_volume.c", "1e-300", "1e-300", "keeps 0 from the logarithm"),
    ("lib/packing/packing_volume.c", "double start = x", "1.0 25200 43.0 17248000", "steps follow; where none "
     "does, these are below the last digit"),
    ("lib/packing/packing_volume.c", "behind < 0 ? 1 : 0", "1", "the only relation there is"),
    ("lib/screw/screw_combined.c", "some = load > 0 ? load : 1", "1", "a divisor of zeros"),
    ("lib/screw/screw_depth.c", "shoe_thickness_mm ? 0 : 1", "1", "the only relation there is"),
    ("lib/screw/screw_gauge.c", "gauge == missing ? 1 : 0", "1", "the only relation there is"),
    ("lib/screw/screw_group.c", "together && moment != 0 ? 1 : 0", "1", "the only relation there is"),
    ("lib/screw/screw_group.c", "worse = i == 0", "0", "forces are not negative: the first is only replaced by itself"),
    ("lib/screw/screw_hold.c", "point_member_count == 1 ? 1 : 0", "1", "a switch: anything but 0"),
    ("lib/screw/screw_layout.c", "parts p = {1e9", "1e9", "above every margin"),
    ("lib/screw/screw_layout.c", "least = 1e9", "1e9", "above every margin"),
    ("lib/screw/screw_layout.c", "placed ? 1e9 : 0", "1e9", "above every length"),
    ("lib/screw/screw_layout.c", "-1e9", "1e9", "below every margin"),
    ("lib/screw/screw_layout.c", "in->inset_step_mm + 1e-9) + 1", None, "far above a rounding and far below a step; a "
     "whole number"),
    ("lib/screw/screw_layout.c", "in->tilt_step_deg + 1e-9", "1e-9", "far above a rounding and far below a step"),
    ("lib/screw/screw_layout.c", "middle + 1", "1 1e-9", "a whole number; far above a rounding and far below a length"),
    ("lib/screw/screw_layout.c", "(low > 0)", "0", "a whole number"),
    ("lib/screw/screw_layout.c", "back = low > 0", "0", "a whole number"),
    ("lib/screw/screw_layout.c", "return 0;", "0", "the longer wood replaces it; longest() asks about sound entries "
     "only"),
    ("lib/screw/screw_layout.c", "if (n > 0 &&", "0 1e-9", "a whole number; far above a rounding and far below a "
     "spacing"),
    ("lib/screw/screw_layout.c", "low = 0, high = 2000", None, "where the bisection begins: no wall is so long"),
    ("lib/screw/screw_layout.c", "i < 60", "60", "enough halvings to find the gap, which is then measured"),
    ("lib/screw/screw_layout.c", "middle = (low + high) / 2", "2", "how the interval is divided"),
    ("lib/screw/screw_layout.c", "everywhere.high = 1", "1", "a share: none is above 1"),
    ("lib/screw/screw_through.c", "under = ung__max(near", "0", "a root that is not used"),
    ("lib/screw/screw_through.c", "beside = ung__max(near", "0", "a root that is not used"),
    ("lib/screw/screw_through.c", "by_face = w->sole", "0", "both agree where they meet"),
    ("lib/screw/screw_through.c", "touched = w->sole", "0", "both agree where they meet"),
    ("lib/screw/screw_through.c", "touched = w->thickness", "0", "both agree where they meet"),
    ("lib/screw/screw_through.c", "by_floor = w->thickness", "0", "both agree where they meet"),
    ("lib/screw/screw_through.c", "s1 = ung__clamp", "0", "any point of the axis may be looked at, and the ends are"),
    ("lib/screw/screw_through.c", "1e9", "1e9", "far below any shoe"),
    ("lib/screw/screw_through.c", "bevel_room = closing > 0", "0", "nearly parallel: farther than the ground face"),
    ("lib/screw/screw_through.c", "fits = always >= 0", "1", "any negative number"),
    ("lib/screw/screw_through.c", "some_sum = sin_sum > 0", None, "0 only where the call is refused"),
    ("lib/screw/screw_through.c", "sum < 180 ? 0 : 1", "1", "the only relation there is"),
    ("lib/screw/wall.h", "double l1 = ung__clamp", "0", "any point of the axis may be looked at; its ends are"),
    ("lib/screw/wall.h", "far = 1e9", "1e9", "any number above the height limit does"),
    ("lib/screw/wall.h", "some = closing != 0", "1", "a divisor whose quotient is not used"),
    ("lib/screw/wall.h", "even = apart / (rate != 0", "1", "a divisor whose quotient is not used"),
    ("lib/screw/wall.h", "1e-12", "1e-12", "any number far above a rounding and below the stated accuracy does"),
    ("lib/screw/wall.h", "some = closing != 0", "0", "exactly parallel: the quotient is not used"),
    ("lib/screw/wall.h", "even = apart / (rate != 0", "0", "exactly parallel: any point of the axis does"),
    ("lib/screw/wood_species.c", "number <= 7 ? first", None, "species are whole numbers"),
    ("lib/screw/yield.h", "under = b > 0", "0", "both forms of the root are right; this one only cancels less"),
    ("lib/screw/yield.h", "bends_left > 0", "0", "as good as infinite"),
    ("lib/screw/yield.h", "iv_left > 0", "0", "as good as infinite"),
    ("lib/shape/belt.h", "upper_layer >= 60", "60", "no depth is above 60, so the least of both is the depth"),
    ("lib/shape/belt.h", "out.shoe_area_mm2 = s->low < 0", "0", "a belt that begins above the shoe has no depth on it"),
    ("lib/shape/outline.h", "least = ung__outline_bend(o, -1)", "1", "where the search begins"),
    ("lib/shape/outline.h", "c = -1 + 2.0 * i / SAMPLES", None, "where the search samples"),
    ("lib/shape/outline.h", "step = ", None, "how the search narrows"),
    ("lib/shape/outline.h", "left = ung__max(at - step", None, "how far beside the ends the search may look"),
    ("lib/shape/outline.h", "half_scale > 0 ? o.convexity : -1", None, "any negative number refuses"),
    ("lib/shape/outline_at.c", "left_side_count > 0.5", "0.5", "between 0 and 1 any number tells them apart"),
    ("lib/shape/outline_at.c", "1e-9", "1e-9", "far above a rounding and far below a normal or a curvature"),
    ("lib/shape/outline_fit.c", "return r > 0 ?", "0 1", "a point so near to the center is refused, whatever its "
     "direction"),
    ("lib/shape/outline_fit.c", "(area != 0 ?", "0 3", "where the search for the center begins; it is moved twice"),
    ("lib/shape/outline_fit.c", "double mean = 0;", "0", "a hundredth of a millimeter over all points, beside a "
     "choice"),
    ("lib/shape/outline_fit.c", "turned = 0, end = 0", "0", "a hundredth of a degree, beside a choice"),
    ("lib/shape/outline_fit.c", "double most = 0;", "0", "a hundredth of a degree, beside a choice"),
    ("lib/shape/outline_fit.c", "way = end < 0", "0 1", "whole turns: anything short of one tells them apart; "
     "what is compared are turns and a choice"),
    ("lib/shape/outline_fit.c", "way * end < 350", "350 370", "whole turns: any number between two of them"),
    ("lib/shape/outline_fit.c", "child + 1", "1", "a whole number"),
    ("lib/shape/outline_fit.c", "step > 1e-6 ? 1 : 0", None, "far above a rounding and far below a hand's step; whole "
     "numbers"),
    ("lib/shape/outline_fit.c", "f->degree > 0 ? squared_cosine", "0 1", "a whole number; a common factor of all "
     "weights"),
    ("lib/shape/outline_fit.c", "if (m == 0)", "0", "that sum is 0, as base is the mean"),
    ("lib/shape/outline_fit.c", "int k = (i + 1) / 2", "1", "a whole number"),
    ("lib/shape/outline_fit.c", "int unknowns = 2 * f->degree + 1", "1", "a whole number"),
    ("lib/shape/outline_fit.c", "int k = i + 1", "1", "a whole number"),
    ("lib/shape/outline_fit.c", "1e-15 * e->squares", "1e-15", "far below what is told and above a rounding"),
    ("lib/shape/outline_fit.c", "3 * (2 * most + 1)", "1", "whole numbers are compared: 3 hundredths lie between them"),
    ("lib/shape/outline_fit.c", "2 * asked + 1 : UNKNOWNS", "1 2", "a whole number"),
    ("lib/shape/outline_fit.c", "most = -1e9", "0 1e9", "below every reach; set before it is used"),
    ("lib/shape/outline_fit.c", "low = best - 360.0 / LOOKS", "360.0", "how far beside the best sample the search may "
     "look"),
    ("lib/shape/outline_fit.c", "i < 60", "60", "enough halvings: one more finds the same"),
    ("lib/shape/outline_fit.c", "i < 4", "4", "writes behind the arrays, which tests/sanitize.sh notices"),
    ("lib/shape/outline_fit.c", "i == 0 ? toe_angle", "0", "the same angle, found again"),
    ("lib/shape/outline_fit.c", "left = 0, around = 0", "0", "a hundredth of a square millimeter: a millionth of the "
     "area, below what is promised for a share read from samples"),
    ("lib/shape/outline_fit.c", "section at_heel", "1e9", "outside every outline"),
    ("lib/shape/outline_fit.c", "before = {0, 0}", "0", "set before it is used"),
    ("lib/shape/outline_fit.c", "(h1 > 0) != (h2 > 0)", "0", "one sample's piece, a hundredth of a millimeter high"),
    ("lib/shape/outline_fit.c", "> 0 ? x1 : meet", "0", "one sample's piece, a hundredth of a millimeter high"),
    ("lib/shape/outline_fit.c", "> 0 ? x2 : meet", "0", "one sample's piece, a hundredth of a millimeter high"),
    ("lib/shape/outline_fit.c", "first = 0, before = 0", "0", "set before they are used"),
    ("lib/shape/outline_fit.c", "i == 0 ? 0 : before * e", "0", "nothing is before the first"),
    ("lib/shape/outline_fit.c", "neighbor_ratio = squares > 0", "0", "all distances exactly 0"),
    ("lib/shape/outline_fit.c", "2 * asked + 1 >= (int)distinct", "1", "whole numbers are compared"),
    ("lib/shape/outline_fit.c", "double area = 0, mx", "0", "a part in 1e7 of a step that comes to 0"),
    ("lib/shape/outline_fit.c", "pass < 4", "4", "one pass more ends where this one does"),
    ("lib/shape/outline_fit.c", "pass < 2", "2", "moved once more to the same place"),
    ("lib/shape/outline_inset.c", "TRACE_MEETS + 1", "1", "a whole number"),
    ("lib/shape/outline_standard.c", "convexity > 0 ? 0 : 1", "1", "the only relation there is"),
    ("lib/shape/polygon.c", "j < 7", "7", "reads behind the arrays, which tests/sanitize.sh notices"),
    ("lib/shape/polygon.c", "ung__polygon t = {p", None, "set before it is used"),
    ("lib/shape/polygon.c", "repeats > 0", "0", "a whole number"),
    ("lib/shape/polygon.c", "trace->turn > 0", "0", "1 or -1"),
    ("lib/shape/polygon.c", "walk->edge + 1", "1", "a whole number"),
    ("lib/shape/polygon.c", "/ walk->length, 0, 1", "1", "beyond the end by a rounding only"),
    ("lib/shape/polygon.c", "first = -1, last = 0", None, "any negative number; set before it is used; a gap that "
     "matters is most of the outline"),
    ("lib/shape/polygon.c", "tt > 0 ? tt : 1", "1", "a divisor of zeros"),
    ("lib/shape/polygon.c", "{.deepest = depth", "0", "not used where there are no depths"),
    ("lib/shape/polygon.h", "UNG__SAME_POINT_MM", "1e-12", "far below a measurement and far above what could "
     "underflow"),
    ("lib/shape/polygon.h", "UNG__OUTERMOST_SHARE", "1e-9", "far above a rounding and far below a measurement"),
    ("lib/shape/shoe_footprint.c", "TRACE_MEETS + 1", "1", "a whole number"),
    ("lib/shape/trace.h", "count > 1", "1", "a whole number"),
    ("lib/shape/wall_profile.c", "if (i > 0", "0", "a whole number"),
    ("lib/shape/wall_profile.c", "where->other_row", "0", "a whole number"),
    ("lib/shape/wall_profile.c", "while (i + 1 < n", "1", "a whole number"),
    ("lib/shape/wall_profile.c", "while (i > 0", "0", "a whole number"),
]

# A literal after which the number counts something: an index, a list's row, a kind of refusal.  Changed by 1 % these
# do not compile or mean the same; what they stand for is tested by its own tests.
NOT_NUMBERS = re.compile(r"\[\s*$|(?:refusal|row|result|value|rows|data|g|lane)\[[^\]]*$")
LITERAL = re.compile(r"(?<![\w.])(\d+\.\d*(?:[eE][-+]?\d+)?|\.\d+(?:[eE][-+]?\d+)?|\d+[eE][-+]?\d+|\d+)(?![\w.])")


def without_comments(text):
    """The same text with comments and strings blanked, so that places stay."""
    return re.sub(r"/\*.*?\*/|\"(?:\\.|[^\"\\])*\"|//[^\n]*",
                  lambda m: re.sub(r"[^\n]", " ", m.group()), text, flags=re.S)


def formula_places(text, bare):
    """Literals from the first function on."""
    for m in re.finditer(r"^#define UNG__\w+ ([\d.]+(?:[eE][-+]?\d+)?)\s*$", bare, flags=re.M):
        yield m.start(1), m.end(1), m.group(1), changed(m.group(1))
    first = re.search(r"^(?:UNG_INLINE|static)\b", bare, flags=re.M)
    start = first.start() if first else len(bare)
    for m in LITERAL.finditer(bare, start):
        line_start = bare.rfind("\n", 0, m.start()) + 1
        line = bare[line_start:bare.find("\n", m.start())]
        before = bare[line_start:m.start()]
        if line.lstrip().startswith("#") or NOT_NUMBERS.search(before) or "enum {" in line or \
                ("size_t" in line and "(size_t)(" not in line):
            continue
        if re.search(r"\b(?:int|for \(int) \w+ = $", before) or re.search(r"refusal = 0;|= \{0\}", line):
            continue
        statement = bare[bare.rfind(";", 0, m.start()) + 1:m.start()]
        if re.search(r"refusal = ", statement) and re.search(r"[?:=]\s*$", statement):
            yield m.start(), m.end(), m.group(), str(int(m.group()) + 1)
            continue
        yield m.start(), m.end(), m.group(), changed(m.group())


def caution_places(text, bare):
    """The limit of each caution, behind its comparison, and the factors where it holds a field against another."""
    block = re.search(r"#define (?:\w+_)?CAUTIONS\(C\)(?:.*\\\n)*.*", bare)
    limit = r"\b(?:BELOW|ABOVE|EQUAL), (-?[\d.]+)"
    factor = r"(?:IN|OUT)\(\w+\), (-?[\d.]+)(?=, (?:BELOW|ABOVE|IN|OUT)\b)"
    for m in re.finditer(limit + "|" + factor, block.group() if block else ""):
        which = 1 if m.group(1) else 2
        yield block.start() + m.start(which), block.start() + m.end(which), m.group(which), changed(m.group(which))


def changed(literal):
    value = float(literal)
    return "0.01" if value == 0 else repr(value * 1.01)


def tests_of(path):
    units = [f"tests/unit/{name}.c" for name in TESTS.get(path) or TESTS[path.split("/")[1]]]
    if TESTS.get(path) is PLAN:  # the laws and the boundaries are of single calculations
        return units
    return [*units, "tests/property/laws.c", "tests/unit/boundaries.c"]


def run(command, **options):
    return subprocess.run(command, cwd=TOP, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, check=False, **options)


def must(command):
    done = run(command)
    if done.returncode:
        sys.exit("%s\n%s" % (" ".join(command), done.stdout.decode()))


def objects_of(source, directory, include=()):
    target = os.path.join(directory, re.sub(r"\W", "_", source) + ".o")
    return target, [CC, *FLAGS, *(f"-I{i}" for i in include), "-Ilib", "-Iinclude", "-c", source, "-o", target]


def users_of(path):
    """The files of lib that a file is part of."""
    parts = {path}
    while True:
        pieces = {f for f in glob.glob("lib/*/*.[ch]", root_dir=TOP) if f in parts or any(
            f'"{part[4:]}"' in open(os.path.join(TOP, f), encoding="ascii").read() for part in parts)}
        if pieces == parts:
            return sorted(parts)
        parts = pieces


def same_code(one, other):
    with open(one, "rb") as a, open(other, "rb") as b:
        return a.read() == b.read()


def link_command(program, test, mutants, shared):
    return [CC, test, *mutants, os.path.join(shared, "library.a"), "-o", program, *CHECK_LIBS, "-lgmp", "-lm"]


def prepare(directory, paths):
    """The library and the objects of the files' tests, once."""
    members = []
    for source in sorted(glob.glob("lib/*/*.c", root_dir=TOP)):
        target, command = objects_of(source, directory)
        must(command)
        members.append(target)
    must(["ar", "cr", os.path.join(directory, "library.a"), *members])
    tests = {t for f in paths for t in tests_of(f)}
    for test in sorted(tests):
        target, command = objects_of(test, directory)
        must([*command, "-UUNG_BUILDING"])
        program = os.path.join(directory, "test")
        must(link_command(program, target, [], directory))
        done = run([program], env={**os.environ, "UNG_TESTS": "short"})
        if done.returncode:
            sys.exit(f"{done.stdout.decode()}{test} fails before anything is changed")


def mutable_files():
    found = sorted(glob.glob("lib/*/*.[ch]", root_dir=TOP))
    return [f for f in found if not f.startswith("lib/core/")] + OF_CORE


def try_one(job):
    """Whether some test fails: True or False; None if nothing was changed."""
    shared, path, start, end, _, instead = job
    with open(os.path.join(TOP, path), encoding="ascii") as file:
        text = file.read()
    with tempfile.TemporaryDirectory() as directory:
        mutant = os.path.join(directory, path[4:])
        os.makedirs(os.path.dirname(mutant))
        with open(mutant, "w", encoding="ascii") as file:
            file.write(text[:start] + instead + text[end:])
        built = []
        users = users_of(path)
        for user in (f for f in users if f.endswith(".c")):
            target, command = objects_of(user, directory, [directory])
            if run([mutant if word == path else word for word in command]).returncode:
                return None
            if not same_code(target, os.path.join(shared, os.path.basename(target))):
                built.append(target)
        if not built:
            return None
        for test in tests_of(path):
            program = os.path.join(directory, "test")
            test_object = os.path.join(shared, re.sub(r"\W", "_", test) + ".o")
            with open(os.path.join(TOP, test), encoding="ascii") as file:
                source = file.read()
            if any(f'"{user[4:]}"' in source for user in users):  # a test of the inside has it inside too
                test_object, command = objects_of(test, directory, [directory])
                must([*command, "-UUNG_BUILDING"])
            must(link_command(program, test_object, built, shared))
            try:
                done = run([program], env={**os.environ, "UNG_TESTS": "short", "CK_FORK": "no"}, timeout=60)
            except subprocess.TimeoutExpired:
                line = text.count("\n", 0, start) + 1
                print(f"{path}:{line}: {test} took more than a minute, which counts as noticed", flush=True)
                return True
            if done.returncode:
                return True
        return False


def explanation(path, line, literal):
    for entry in EXPLAINED:
        file, piece, which, _ = entry
        if file == path and piece in line and (which is None or literal in which.split()):
            return entry
    return None


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("-j", type=int, default=2)
    parser.add_argument("files", nargs="*")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as shared:
        paths = options.files or mutable_files()
        prepare(shared, paths)
        jobs = []
        for path in paths:
            with open(os.path.join(TOP, path), encoding="ascii") as file:
                text = file.read()
            bare = without_comments(text)
            places = list(formula_places(text, bare)) + list(caution_places(text, bare))
            jobs += [(shared, path, *place) for place in places]
        survivors = explained = nothing = 0
        needed = set()
        with concurrent.futures.ThreadPoolExecutor(options.j) as pool:
            for job, found in zip(jobs, pool.map(try_one, jobs)):
                _, path, start, _, literal, _ = job
                if found is not False:
                    nothing += found is None
                    continue
                with open(os.path.join(TOP, path), encoding="ascii") as file:
                    text = file.read()
                number = text.count("\n", 0, start) + 1
                line = text.splitlines()[number - 1]
                entry = explanation(path, line, literal)
                reason = entry and entry[3]
                needed.add(entry)
                survivors += 1
                explained += reason is not None
                column = start - text.rfind("\n", 0, start)
                print(f"{path}:{number}:{column}: {literal} survives"
                      f"{': ' + reason if reason else ''}\n    {line.strip()}", flush=True)
    unexplained = survivors - explained
    for entry in EXPLAINED:
        if entry not in needed and entry[0] in paths:
            print("explains no survivor:", *entry[:3])
    made = len(jobs) - nothing
    print(f"{made} numbers changed: {made - survivors} noticed, {explained} explained, {unexplained} neither")
    return 1 if unexplained else 0


if __name__ == "__main__":
    sys.exit(main())
