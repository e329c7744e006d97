/* The load of a gait beside what carries it. */
#include <ungula/job.h>

#include "core/contract.h"

#define NAME hold
#define ROOM job
#define TITLE "whether the attachment carries the loads of a gait"
#define ABOUT                                                                                                        \
    "Pull: what the swinging shoe needs to be kept on the hoof when it stops or starts, and what mud or a trodden heel " \
    "adds. Shear: the largest horizontal force on the ground, all of it (friction under load is not deducted).\n"    \
    "\n"                                                                                                             \
    "    pull = shoe_mass acceleration/1000 + pull_extra;  shear = shear_per_kg body_mass\n"                         \
    "    demand = sqrt(pull^2 + shear^2)\n"                                                                          \
    "    axial = pull cos(axis_tilt) + shear sin(axis_tilt) where W < Z,\n"                                          \
    "            max(0, pull cos(axis_tilt) - shear sin(axis_tilt)) otherwise\n"                                     \
    "    screws_only_use = group_factor (axial^2/W + (demand^2 - axial^2)/Z)/demand/screw_count\n"                   \
    "    bond_only_use = demand/bond_capacity_first,  bond_mean_use = demand/bond_capacity_mean\n"                   \
    "    single_path_use = least of screws_only_use and bond_only_use\n"                                             \
    "    reserve_use = single_path_use divisor\n"                                                                    \
    "    loss_without_screws = bond_only_use/single_path_use\n"                                                      \
    "    peel = peel_pull/peel_width,  peel_use = peel/peel_strength\n"                                              \
    "    grip_use = pull/grip\n"                                                                                     \
    "    least_ratio = 1/greatest of screws_only_use, bond_only_use, peel_use and grip_use\n"                        \
    "    needed_screw = each screw's strength at which screws_only_use would be 1/divisor, W = Z\n"                  \
    "    needed_bond = bond_capacity_first at which bond_only_use would be 1/divisor\n"                              \
    "    needed_peel = peel divisor,  needed_grip = pull divisor\n"                                                  \
    "\n"                                                                                                             \
    "Z and W are a screw's lateral and axial design values. The shear acts in the worst of all horizontal directions: " \
    "the use of a leaning screw is linear in axial^2, so the worst is at the greatest axial share where W < Z, at the " \
    "least otherwise. Bond and screws do not add: the bond is stiff and brittle, a screw slips first, so they do not " \
    "peak together, and each is compared with the whole load. A use is infinite where the path does not exist.\n"    \
    "\n"                                                                                                             \
    "A lift at the heel's end peels the bond there; no peel strength on horn is published, so it is counted only where " \
    "it is given (peel_use is 0 otherwise), and peel_pull is not part of the pull: what also pulls at the bond as a " \
    "whole and at the screws belongs in pull_extra too. A peel crack runs on under the load that started it, so above " \
    "its strength the bond is lost: a warning while the screws alone carry the load, a stop where they do not. The "  \
    "tape round a hoof that narrows upward resists only slipping, and no strength of a ply is published: its grip is " \
    "counted only where a test gives it, and never as a path.\n"                                                     \
    "\n"                                                                                                             \
    "least_ratio and weakest_part_count say which of the counted parts gives first (capacity over load; infinite without a " \
    "load, 0 where there are neither screws nor bond), governing_count which path is the stronger."
#define ACCURACY "Relative error below 1e-14."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "ANSI/AWC NDS-2018, 12.4-1", "combined axial and lateral load of a screw")                          \
    S(PUBLISHED, "Benoit P, Barrey E, Regnault JC, Brochet JL 1993", "hoof impact at the trot on asphalt, mean 551 m/s2 (SD 125)") \
    S(PUBLISHED, "Merkens HW et al. 1993. Equine Vet J 25:134-137", "braking at the trot, fore limb 1.13 N/kg")      \
    S(CHOICE, "The hoof's largest deceleration on landing (2 horses, 16 shoeings) taken as the pull on the shoe", "pull") \
    S(CHOICE, "A bond that ends across both heels of a shoe of ordinary width", "peel_width")                        \
    S(CHOICE, "Paths of different stiffness do not share a load by their strengths", "no sum of bond and screws")
#define INPUTS(F)                                                                                                    \
    F(body_mass_kg, 50, 1200, 350, 700, REQUIRED, GIVEN, MEASURE, "horse, with rider and tack where it is ridden")   \
    F(shoe_mass_g, 50, 2000, 200, 700, REQUIRED, GIVEN, MEASURE, "shoe with all that is on it")                      \
    F(acceleration_ms2, 0, 2000, 100, 750, 551, PUBLISHED, MEASURE, "of the hoof when it lands or leaves; standard: trot on asphalt, mean") \
    F(shear_n_per_kg, 0, 20, 0.8, 1.3, 1.13, PUBLISHED, MEASURE, "largest horizontal force for each kilogram (limb_load); standard: trot, fore limb, braking") \
    F(pull_extra_n, 0, 10000, 0, 1500, 0, NEUTRAL, MEASURE, "mud or a trodden heel: no published value")             \
    F(screw_count, 0, 20, 0, 8, REQUIRED, GIVEN, WHOLE, "screws that hold")                                          \
    F(axial_design_n, 0, 50000, 50, 500, REQUIRED, GIVEN, MEASURE, "axial design value of one screw (screw_hold); 0: none") \
    F(lateral_design_n, 0, 50000, 100, 600, REQUIRED, GIVEN, MEASURE, "lateral design value of one screw (screw_hold); 0: none") \
    F(group_factor_ratio, 1, 5, 1, 2, 1, NEUTRAL, MEASURE, "worst screw's share over the mean (screw_group)")        \
    F(bond_capacity_first_n, 0, 1000000, 500, 10000, REQUIRED, GIVEN, MEASURE, "load of the first crack (bond_hold); 0: no bond") \
    F(bond_capacity_mean_n, 0, 1000000, 2000, 50000, REQUIRED, GIVEN, MEASURE, "load of the whole bond (bond_hold); 0: no bond") \
    F(divisor_ratio, 1, 20, 1, 4, 1, NEUTRAL, MEASURE, "wanted reserve")                                                \
    F(axis_tilt_deg, 0, 90, 0, 45, 0, NEUTRAL, MEASURE, "between the screws' axes and the pull straight off the ground: tilt_deg of screw_depth without its sign, 90 less dip_deg of screw_through") \
    F(peel_pull_n, 0, 10000, 0, 1500, 0, NEUTRAL, MEASURE, "lift at the heel's end of the bond, such as a trodden heel: no published value") \
    F(peel_width_mm, 5, 300, 60, 120, 90, CHOICE, MEASURE, "width of the bond across the heels")                      \
    F(peel_strength_n_per_mm, 0, 200, 0, 20, 0, NEUTRAL, MEASURE, "of the bond on horn: no published value; 0: not given, peel is not counted") \
    F(grip_n, 0, 50000, 0, 5000, 0, NEUTRAL, MEASURE, "pull at which the cast slips off the hoof: no published value; 0: not given, not counted")
#define OUTPUTS(F)                                                                                                   \
    F(pull_n, FINITE, "pull off the hoof")                                                                           \
    F(shear_n, FINITE, "shear along the ground")                                                                     \
    F(demand_n, FINITE, "both together")                                                                             \
    F(screws_only_use_ratio, INFINITE, "load over what the screws alone carry")                                      \
    F(bond_only_use_ratio, INFINITE, "load over what the bond alone carries to its first crack")                     \
    F(bond_mean_use_ratio, INFINITE, "load over what the bond alone carries as a whole")                             \
    F(single_path_use_ratio, INFINITE, "the lesser: load over the stronger path")                                    \
    F(governing_count, FINITE, "1: the screws are the stronger path, 2: the bond, 0: there is none")                 \
    F(redundant_count, FINITE, "1: either path alone carries the load")                                              \
    F(loss_without_screws_ratio, INFINITE, "how many times higher the use is without screws")                        \
    F(needed_screw_n, FINITE, "strength that each screw would need, the same axially and sideways; without screws, as for one screw") \
    F(needed_bond_n, FINITE, "load of the first crack that the bond would need")                                     \
    F(reserve_use_ratio, INFINITE, "use of the stronger path with the wanted reserve: more than 1 falls short of it") \
    F(peel_n_per_mm, FINITE, "lift for each millimeter of the heel's end")                                           \
    F(peel_use_ratio, INFINITE, "peel over its strength; 0 where none was given")                                      \
    F(needed_peel_n_per_mm, FINITE, "peel strength that the bond would need")                                        \
    F(grip_use_ratio, INFINITE, "pull over the cast's grip; 0 where none was given")                                   \
    F(needed_grip_n, FINITE, "grip that the cast would need to carry the pull by itself")                            \
    F(least_ratio, INFINITE, "capacity over load of the part that gives first")                                      \
    F(weakest_part_count, FINITE, "that part: 1 the screws, 2 the bond's first crack, 3 peel at the heel, 4 the cast's grip, 0 none")
#define REFUSALS(R)                                                                                                  \
    R(bond_capacity_mean_n, IN(bond_capacity_first_n), "the whole bond carries at least the load of its first crack")
#define CAUTIONS(C)                                                                                                  \
    C(STOP, does_not_hold, OUT(single_path_use_ratio), 1, NO_FIELD, 0, ABOVE, 1, NO_GUARD,                           \
      "neither screws nor bond alone carry this load: do not lead the horse away at this gait")                      \
    C(STOP, peel_opens, OUT(peel_use_ratio), 1, NO_FIELD, 0, ABOVE, 1, OUT(screws_only_use_ratio), ABOVE, 1,          \
      "the lift peels the bond open from the heel, and the screws alone do not carry the load: the shoe comes off")  \
    C(WARN, bond_alone_fails, OUT(bond_only_use_ratio), 1, NO_FIELD, 0, ABOVE, 1, NO_GUARD,                          \
      "the bond alone would crack under this load")                                                                  \
    C(WARN, screws_alone_fail, OUT(screws_only_use_ratio), 1, NO_FIELD, 0, ABOVE, 1, NO_GUARD,                       \
      "the screws alone would not carry this load")                                                                  \
    C(WARN, peel_crack, OUT(peel_use_ratio), 1, NO_FIELD, 0, ABOVE, 1, NO_GUARD,                                     \
      "the lift starts a peel crack at the heel, which opens the whole bond: after that only the screws hold")       \
    C(WARN, no_reserve, OUT(reserve_use_ratio), 1, NO_FIELD, 0, ABOVE, 1, OUT(single_path_use_ratio), BELOW, 1.0000000000000002, \
      "the stronger path carries this load, but not with the reserve that is wanted")                                \
    C(NOTE, peel_not_counted, IN(peel_strength_n_per_mm), 1, NO_FIELD, 0, EQUAL, 0, IN(peel_pull_n), ABOVE, 0,        \
      "no peel strength was given: the lift at the heel is not judged, only what it would need is calculated")       \
    C(NOTE, peel_beside, IN(peel_pull_n), 1, IN(pull_extra_n), -1, ABOVE, 0, NO_GUARD,                               \
      "the lift at the heel is more than pull_extra: what of it also pulls at the screws and the whole bond belongs there too") \
    C(NOTE, grip_slips, OUT(grip_use_ratio), 1, NO_FIELD, 0, ABOVE, 1, NO_GUARD,                                     \
      "the cast slips under this pull: it does not back up screws and bond")
#define STANDING(S)                                                                                                  \
    S("The result is no better than the strengths of horn that were given: there is no trustworthy published value.") \
    S("All screws are taken to lean by the same angle, each in its own worst direction; peel at any other edge than the heel's is not covered.") \
    S("At the gallop hooves are decelerated by up to 960 m/s2 (Horan et al. 2022, Animals 12:2161): give that, not the standard.") \
    S("Bond and screws are not added, and the tape is no path of its own. Stall rest and hand walking load the shoe far less than a trot.")

UNG_INLINE ung_hold_out formula(const ung_hold_in *in, double *refusal)
{
    double pull = in->shoe_mass_g * in->acceleration_ms2 / 1000 + in->pull_extra_n;
    double shear = in->shear_n_per_kg * in->body_mass_kg, demand = ung__sqrt(pull * pull + shear * shear);
    double z = in->lateral_design_n, w = in->axial_design_n, count = in->screw_count;
    double weakest = ung__min(ung__min(z, w), count), some = demand > 0 ? demand : 1;
    double sine = ung__sin_deg(in->axis_tilt_deg), cosine = ung__cos_deg(in->axis_tilt_deg);
    /* Along and across the axis, with the shear in the vertical plane of the axis, for the screw and against it. */
    double along = pull * cosine + shear * sine, across = pull * sine - shear * cosine;
    double back = pull * cosine - shear * sine, aside = pull * sine + shear * cosine;
    double least_axial = ung__max(back, 0), whole_load = pull * pull + shear * shear;
    double axial = w < z ? along * along : least_axial * least_axial;
    double lateral = w < z ? across * across : back > 0 ? aside * aside : whole_load;
    double each = (lateral / (z > 0 ? z : 1) + axial / (w > 0 ? w : 1)) / some;
    double carried = in->group_factor_ratio * each / (count > 0 ? count : 1);
    double screws = weakest > 0 ? carried : UNG__INFINITY;
    double first = in->bond_capacity_first_n, mean = in->bond_capacity_mean_n;
    double bond = first > 0 ? demand / (first > 0 ? first : 1) : UNG__INFINITY;
    double whole = mean > 0 ? demand / (mean > 0 ? mean : 1) : UNG__INFINITY;
    double least = ung__min(screws, bond), most = ung__max(screws, bond);
    double path = screws < bond ? 1 : 2;
    double peel = in->peel_pull_n / in->peel_width_mm, strength = in->peel_strength_n_per_mm, grip = in->grip_n;
    double peel_use = strength > 0 ? peel / (strength > 0 ? strength : 1) : 0;
    double grip_use = grip > 0 ? pull / (grip > 0 ? grip : 1) : 0;
    double of_screws = weakest > 0 ? carried : 0, of_bond = first > 0 ? bond : 0;
    double used = ung__max(ung__max(of_screws, of_bond), ung__max(peel_use, grip_use));
    double part = of_screws == used ? 1 : of_bond == used ? 2 : peel_use == used ? 3 : 4;
    double reached = used > 0 ? 1 / (used > 0 ? used : 1) : UNG__INFINITY;

    *refusal = mean < first ? 1 : 0;
    ung_hold_out out;
    out.pull_n = pull;
    out.shear_n = shear;
    out.demand_n = demand;
    out.screws_only_use_ratio = screws;
    out.bond_only_use_ratio = bond;
    out.bond_mean_use_ratio = whole;
    out.single_path_use_ratio = least;
    out.governing_count = least < UNG__INFINITY ? path : 0;
    out.redundant_count = most <= 1 ? 1 : 0;
    out.loss_without_screws_ratio = screws < bond ? (bond < UNG__INFINITY ? bond / (screws > 0 ? screws : 1) : UNG__INFINITY) : 1;
    out.needed_screw_n = in->group_factor_ratio * demand * in->divisor_ratio / (count > 0 ? count : 1);
    out.needed_bond_n = demand * in->divisor_ratio;
    out.reserve_use_ratio = least * in->divisor_ratio;
    out.peel_n_per_mm = peel;
    out.peel_use_ratio = peel_use;
    out.needed_peel_n_per_mm = peel * in->divisor_ratio;
    out.grip_use_ratio = grip_use;
    out.needed_grip_n = pull * in->divisor_ratio;
    out.least_ratio = least < UNG__INFINITY ? reached : 0;
    out.weakest_part_count = least < UNG__INFINITY && used > 0 ? part : 0;
    return out;
}

#include "core/define.h"
