/* Dimensions of a wood screw from its gauge. */
#include <ungula/screw.h>

#include "core/contract.h"

#define NAME screw_gauge
#define ROOM screw
#define TITLE "dimensions of a wood screw from its gauge"
#define ABOUT                                                                                                        \
    "The gauges 4 to 10, 12 and 14 of inch wood screws, in inches and threads to the inch.\n"                        \
    "\n"                                                                                                             \
    "    gauge  diameter   root    head  head at most  threads\n"                                                \
    "      4      0.112      -    0.210     0.225        22\n"                                                       \
    "      5      0.125      -    0.237     0.252        20\n"                                                       \
    "      6      0.138    0.113  0.262     0.279        18\n"                                                       \
    "      7      0.151    0.122  0.287     0.305        16\n"                                                       \
    "      8      0.164    0.131  0.312     0.332        15\n"                                                       \
    "      9      0.177    0.142  0.337     0.358        14\n"                                                       \
    "     10      0.190    0.152  0.363     0.385        13\n"                                                       \
    "     12      0.216    0.171  0.414     0.438        11\n"                                                       \
    "     14      0.242    0.196  0.480     0.491        10\n"                                                       \
    "    diameter = 0.060 in + 0.013 in gauge;  root of gauges 4 and 5 = 2/3 diameter;  pitch = 1 in/threads\n"      \
    "\n"                                                                                                             \
    "Screws as they are sold differ: measure root and pitch of your own where the hold depends on them."
#define ACCURACY "As printed, times 25.4 mm; relative error of the conversion below 1e-15."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "ANSI/AWC NDS-2018, Table L3, p. 182", "diameter, root and head of gauges 6 to 14")                 \
    S(PUBLISHED, "FPL 2021. Wood handbook, FPL-GTR-282, Table 8-9", "shank diameter of gauges 4 to 14")              \
    S(PUBLISHED, "Rammer DR 2010. Wood handbook, FPL-GTR-190, p. 8-10", "root about 2/3 of the shank, for gauges 4 and 5") \
    S(PUBLISHED, "Trade tables of flat heads (largest 4 to 14, least of 4)", "largest heads; head of gauge 4 as the middle of largest and least") \
    S(CHOICE, "As much less than the largest as heads of the neighboring gauges, 0.94", "head of gauge 5")           \
    S(PUBLISHED, "Trade tables of gauges 1 to 7", "threads to the inch of gauges 4 to 7")                            \
    S(MEMORY, "ASME B18.6.1-1981", "threads to the inch of gauges 8 to 14; diameter = 0.060 + 0.013 gauge")
#define INPUTS(F)                                                                                                    \
    F(gauge_count, 4, 14, 6, 12, REQUIRED, GIVEN, WHOLE, "number of the gauge: 4 to 10, 12 or 14")
#define OUTPUTS(F)                                                                                                   \
    F(screw_diameter_mm, FINITE, "shank, and outside of the thread")                                                 \
    F(root_diameter_mm, FINITE, "bottom of the thread")                                                              \
    F(head_diameter_mm, FINITE, "head as it bears")                                                                  \
    F(head_largest_mm, FINITE, "largest flat head, for the countersink")                                             \
    F(pitch_mm, FINITE, "from thread to thread")
#define REFUSALS(R) R(gauge_count, NO_FIELD, "there is no such gauge; there are 4, 5, 6, 7, 8, 9, 10, 12 and 14")
#define CAUTIONS(C)                                                                                                  \
    C(NOTE, estimated, IN(gauge_count), 1, NO_FIELD, 0, BELOW, 6, NO_GUARD,                                          \
      "root and head of this gauge are estimated: measure them")
#define STANDING(S) S("Threads to the inch of gauges 8 and above are recalled, not looked up: measure the pitch.")

/* The entry of a gauge in one column of the table. */
UNG_INLINE double entry(double gauge, double g4, double g5, double g6, double g7, double g8, double g9, double g10,
                        double g12, double g14)
{
    double high = gauge == 9 ? g9 : gauge == 10 ? g10 : gauge == 12 ? g12 : g14;
    double middle = gauge == 6 ? g6 : gauge == 7 ? g7 : gauge == 8 ? g8 : high;
    return gauge == 4 ? g4 : gauge == 5 ? g5 : middle;
}

UNG_INLINE ung_screw_gauge_out formula(const ung_screw_gauge_in *in, double *refusal)
{
    double gauge = in->gauge_count;
    double inches = entry(gauge, 0.112, 0.125, 0.138, 0.151, 0.164, 0.177, 0.19, 0.216, 0.242);
    double root = entry(gauge, 0.112 * 2 / 3, 0.125 * 2 / 3, 0.113, 0.122, 0.131, 0.142, 0.152, 0.171, 0.196);
    double head = entry(gauge, 0.21, 0.237, 0.262, 0.287, 0.312, 0.337, 0.363, 0.414, 0.48);
    double most = entry(gauge, 0.225, 0.252, 0.279, 0.305, 0.332, 0.358, 0.385, 0.438, 0.491);

    double missing = gauge == 13 ? 13 : 11;

    *refusal = gauge == missing ? 1 : 0;
    ung_screw_gauge_out out;
    out.screw_diameter_mm = 25.4 * inches;
    out.root_diameter_mm = 25.4 * root;
    out.head_diameter_mm = 25.4 * head;
    out.head_largest_mm = 25.4 * most;
    out.pitch_mm = 25.4 / entry(gauge, 22, 20, 18, 16, 15, 14, 13, 11, 10);
    return out;
}

#include "core/define.h"
