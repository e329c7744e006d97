/* Holes to drill for a wood screw, in wood and in horn. */
#include <ungula/screw.h>

#include "core/contract.h"

#define NAME lead_hole
#define ROOM screw
#define TITLE "lead hole, shank hole and countersink for a wood screw"
#define ABOUT                                                                                                        \
    "What to drill before a wood screw is driven, by the specific gravity G of the wood.\n"                          \
    "\n"                                                                                                             \
    "                                G > 0.6  0.5 < G <= 0.6  G <= 0.5\n"                                            \
    "    withdrawal_hole (thread)    0.9 root        0.7 root         0\n"                                           \
    "    lateral_hole (thread)           root        7/8 root  7/8 root\n"                                           \
    "    shank_hole                     shank       7/8 shank 7/8 shank\n"                                           \
    "    horn_hole = horn_hole_fraction root\n"                                                                      \
    "    countersink_depth = (head - shank)/(2 tan(head_angle/2))\n"                                                 \
    "\n"                                                                                                             \
    "withdrawal_hole is for a screw that is only pulled along its axis, lateral_hole and shank_hole for one that is " \
    "loaded sideways; 0: none needed. The shank hole goes as deep as the shank, the thread hole as deep as the "     \
    "thread. For horn no rule is published; 0.9 of the root is the rule for the hardest woods and a choice here."
#define ACCURACY "Relative error below 1e-15."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "ANSI/AWC NDS-2018, 12.1.5", "lead and clearance holes for wood screws")                            \
    S(CHOICE, "Horn is drilled like the hardest wood", "horn_hole_fraction")                                         \
    S(MEMORY, "ISO 7721 and ASME B18.6.1", "head angles: 90 degrees for metric screws, 82 for inch ones")
#define INPUTS(F)                                                                                                    \
    F(screw_diameter_mm, 1.5, 10, 3.5, 5.5, REQUIRED, GIVEN, MEASURE, "shank, or outside of the thread where there is none") \
    F(root_diameter_mm, 1, 9, 2.4, 4, REQUIRED, GIVEN, MEASURE, "bottom of the thread")                              \
    F(head_diameter_mm, 2, 25, 6, 11, REQUIRED, GIVEN, MEASURE, "largest diameter of the countersunk head")          \
    F(head_angle_deg, 60, 140, 80, 90, 90, MEMORY, MEASURE, "whole angle of the head's cone: 90 metric, 82 inch")    \
    F(wood_gravity_ratio, 0.3, 0.8, 0.4, 0.65, 0.5, PUBLISHED, MEASURE, "specific gravity (wood_species); 0.5 for structural plywood") \
    F(horn_hole_fraction, 0.5, 1, 0.8, 0.95, 0.9, CHOICE, MEASURE, "thread hole in horn, of the root")
#define OUTPUTS(F)                                                                                                   \
    F(withdrawal_hole_mm, FINITE, "thread hole in wood against withdrawal alone; 0: none needed")                    \
    F(lateral_hole_mm, FINITE, "thread hole in wood where the screw is loaded sideways")                             \
    F(shank_hole_mm, FINITE, "shank hole in wood where the screw is loaded sideways")                                \
    F(horn_hole_mm, FINITE, "thread hole in horn")                                                                   \
    F(countersink_depth_mm, FINITE, "depth of the cone for a head flush with the surface")
#define REFUSALS(R)                                                                                                  \
    R(root_diameter_mm, IN(screw_diameter_mm), "the root must be thinner than the outside of the thread")            \
    R(head_diameter_mm, IN(screw_diameter_mm), "the head must be wider than the shank")
#define CAUTIONS(C)                                                                                                  \
    C(NOTE, none_needed, OUT(withdrawal_hole_mm), 1, NO_FIELD, 0, EQUAL, 0, NO_GUARD,                                \
      "wood this light needs no lead hole against withdrawal alone; near an edge drill one all the same")
#define STANDING(S)                                                                                                  \
    S("Drive by turning, never by hammering; a screw that wood or horn resists splits it: withdraw it and drill again.") \
    S("The drill reaches tissue before the screw does: stop it at the screw's depth.")

UNG_INLINE ung_lead_hole_out formula(const ung_lead_hole_in *in, double *refusal)
{
    double shank = in->screw_diameter_mm, root = in->root_diameter_mm, head = in->head_diameter_mm;
    double g = in->wood_gravity_ratio, sideways = g > 0.6 ? 1 : 0.875;

    *refusal = root >= shank ? 1 : head <= shank ? 2 : 0;
    ung_lead_hole_out out;
    out.withdrawal_hole_mm = g > 0.6 ? 0.9 * root : g > 0.5 ? 0.7 * root : 0;
    out.lateral_hole_mm = sideways * root;
    out.shank_hole_mm = sideways * shank;
    out.horn_hole_mm = in->horn_hole_fraction * root;
    out.countersink_depth_mm = (head - shank) / (2 * ung__tan_deg(in->head_angle_deg / 2));
    return out;
}

#include "core/define.h"
