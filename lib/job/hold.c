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
    "    screws_only_use = group_factor (shear^2/Z + pull^2/W)/demand/screw_count\n"                                 \
    "    bond_only_use = demand/bond_capacity_first,  bond_mean_use = demand/bond_capacity_mean\n"                   \
    "    single_path_use = least of screws_only_use and bond_only_use\n"                                             \
    "    loss_without_screws = bond_only_use/single_path_use\n"                                                      \
    "    needed_screw = each screw's strength at which screws_only_use would be 1/divisor, W = Z\n"                  \
    "    needed_bond = bond_capacity_first at which bond_only_use would be 1/divisor\n"                              \
    "\n"                                                                                                             \
    "Z and W are a screw's lateral and axial design values. Bond and screws do not add: the bond is stiff and "      \
    "brittle, a screw slips first, so they do not peak together, and each is compared with the whole load. The tape " \
    "round a hoof that narrows upward resists only slipping, and no strength of a ply is published: it is not counted. " \
    "A use is infinite where the path does not exist."
#define ACCURACY "Relative error below 1e-14."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "ANSI/AWC NDS-2018, 12.4-1", "combined axial and lateral load of a screw")                          \
    S(PUBLISHED, "Benoit P, Barrey E, Regnault JC, Brochet JL 1993", "hoof impact at the trot on asphalt, mean 551 m/s2 (SD 125)") \
    S(PUBLISHED, "Merkens HW et al. 1993. Equine Vet J 25:134-137", "braking at the trot, fore limb 1.13 N/kg")      \
    S(CHOICE, "The hoof's largest deceleration on landing (2 horses, 16 shoeings) taken as the pull on the shoe", "pull") \
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
    F(divisor_ratio, 1, 20, 1, 4, 1, NEUTRAL, MEASURE, "wanted reserve")
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
    F(needed_screw_n, FINITE, "strength that each screw would need, the same axially and sideways")                  \
    F(needed_bond_n, FINITE, "load of the first crack that the bond would need")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(STOP, does_not_hold, OUT(single_path_use_ratio), 1, NO_FIELD, 0, ABOVE, 1, NO_GUARD,                           \
      "neither screws nor bond alone carry this load: do not lead the horse away at this gait")                      \
    C(WARN, bond_alone_fails, OUT(bond_only_use_ratio), 1, NO_FIELD, 0, ABOVE, 1, NO_GUARD,                          \
      "the bond alone would crack under this load")                                                                  \
    C(WARN, screws_alone_fail, OUT(screws_only_use_ratio), 1, NO_FIELD, 0, ABOVE, 1, NO_GUARD,                       \
      "the screws alone would not carry this load")
#define STANDING(S)                                                                                                  \
    S("The result is no better than the strengths of horn that were given: there is no trustworthy published value.") \
    S("Pull counts as axial and shear as lateral, which is true of an upright screw; peel at an edge of the bond is not covered.") \
    S("At the gallop hooves are decelerated by up to 960 m/s2 (Horan et al. 2022, Animals 12:2161): give that, not the standard.") \
    S("Bond and screws are not added, and the tape is not counted. Stall rest and hand walking load the shoe far less than a trot.")

UNG_INLINE ung_hold_out formula(const ung_hold_in *in, double *refusal)
{
    double pull = in->shoe_mass_g * in->acceleration_ms2 / 1000 + in->pull_extra_n;
    double shear = in->shear_n_per_kg * in->body_mass_kg, demand = ung__sqrt(pull * pull + shear * shear);
    double z = in->lateral_design_n, w = in->axial_design_n, count = in->screw_count;
    double weakest = ung__min(ung__min(z, w), count), some = demand > 0 ? demand : 1;
    double each = (shear * shear / (z > 0 ? z : 1) + pull * pull / (w > 0 ? w : 1)) / some;
    double carried = in->group_factor_ratio * each / (count > 0 ? count : 1);
    double screws = weakest > 0 ? carried : UNG__INFINITY;
    double first = in->bond_capacity_first_n, mean = in->bond_capacity_mean_n;
    double bond = first > 0 ? demand / (first > 0 ? first : 1) : UNG__INFINITY;
    double whole = mean > 0 ? demand / (mean > 0 ? mean : 1) : UNG__INFINITY;
    double least = ung__min(screws, bond), most = ung__max(screws, bond);
    double path = screws < bond ? 1 : 2;

    *refusal = 0;
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
    return out;
}

#include "core/define.h"
