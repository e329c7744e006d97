/* One screw under a pull along its axis and a sideways load at once. */
#include <ungula/screw.h>

#include "core/contract.h"

#define NAME screw_combined
#define ROOM screw
#define TITLE "one screw under a pull and a sideways load at once"
#define ABOUT                                                                                                        \
    "Which share of a screw's strength a pull T along the axis and a sideways load V take together, from the two "  \
    "design loads of screw_hold, W along the axis and Z sideways (Hankinson's form).\n"                             \
    "\n"                                                                                                             \
    "    load = sqrt(V^2 + T^2), load_angle = atan(T/V)\n"                                                           \
    "    capacity = W Z/(W cos^2(load_angle) + Z sin^2(load_angle))\n"                                               \
    "    use = load/capacity = (V^2/Z + T^2/W)/load\n"                                                               \
    "    axial_use = T/W;  lateral_use = V/Z\n"                                                                      \
    "\n"                                                                                                             \
    "Give design loads, not ultimate or yield loads, and never one of each. Without load the use ratios are 0 and "   \
    "capacity is the sideways one; where a load meets no strength they are infinite."
#define ACCURACY "Relative error below 2e-15; load_angle below 1e-15 of 90 degrees."
#define SOURCES(S) S(PUBLISHED, "ANSI/AWC NDS-2018, Eq. 12.4-1", "screws under combined lateral and withdrawal load")
#define INPUTS(F)                                                                                                    \
    F(axial_design_n, 0, 20000, 50, 2000, REQUIRED, GIVEN, MEASURE, "load along the axis that may be counted on (screw_hold)") \
    F(lateral_design_n, 0, 20000, 50, 2000, REQUIRED, GIVEN, MEASURE, "sideways load that may be counted on (screw_hold)") \
    F(axial_n, 0, 20000, 0, 1000, REQUIRED, GIVEN, MEASURE, "load along the axis, pulling")                          \
    F(lateral_n, 0, 20000, 0, 1000, REQUIRED, GIVEN, MEASURE, "sideways load")
#define OUTPUTS(F)                                                                                                   \
    F(load_n, FINITE, "both loads together")                                                                         \
    F(load_angle_deg, FINITE, "of the load: 0 sideways, 90 along the axis")                                          \
    F(capacity_n, FINITE, "load at this angle that may be counted on")                                               \
    F(use_ratio, INFINITE, "load over capacity")                                                                     \
    F(axial_use_ratio, INFINITE, "load along the axis alone over its design load")                                   \
    F(lateral_use_ratio, INFINITE, "sideways load alone over its design load")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(WARN, overloaded, OUT(use_ratio), 1, NO_FIELD, 0, ABOVE, 1, NO_GUARD,                                          \
      "the load is more than may be counted on: more or larger screws, or less load")
#define STANDING(S) S("Only as good as the two design loads, which rest on strengths of horn that nobody has published.")

/* A load against a strength: 0 without load, infinite without strength. */
UNG_INLINE double used(double load, double strength)
{
    return load > 0 ? load / strength : 0;
}

UNG_INLINE ung_screw_combined_out formula(const ung_screw_combined_in *in, double *refusal)
{
    double w = in->axial_design_n, z = in->lateral_design_n, t = in->axial_n, v = in->lateral_n;
    double load = ung__hypot(t, v), some = load > 0 ? load : 1;
    double s = t / some, c = v / some;
    double axial = used(t, w), lateral = used(v, z);
    double under = w * c * c + z * s * s;
    double both = under > 0 ? w * z / under : 0;

    *refusal = 0;
    ung_screw_combined_out out;
    out.load_n = load;
    out.load_angle_deg = ung__atan2_deg(t, v);
    out.capacity_n = s == 0 ? z : c == 0 ? w : both;
    out.use_ratio = s * axial + c * lateral;
    out.axial_use_ratio = axial;
    out.lateral_use_ratio = lateral;
    return out;
}

#include "core/define.h"
