/* Largest ground forces on one limb, from a table of published measurements. */
#include <ungula/horse.h>

#include "core/contract.h"

#define NAME limb_load
#define ROOM horse
#define TITLE "largest ground force on one limb at a gait"
#define ABOUT                                                                                                        \
    "Force on one limb: body mass with rider times a published force for each kilogram, in N/kg.\n"                  \
    "\n"                                                                                                             \
    "    gait          limb             vertical  braking  propulsive\n"                                             \
    "    1 stand       fore             2.84      0        0\n"                                                      \
    "    1 stand       hind             2.06      0        0\n"                                                      \
    "    2 walk        fore             6.32      unknown  0.81\n"                                                   \
    "    3 trot        fore             11.59     1.13     0.84\n"                                                   \
    "    3 trot        hind             10.21     0.79     1.17\n"                                                   \
    "    4 gallop      fore, leading    13.6      unknown  unknown\n"                                                \
    "    4 gallop      fore, other      14.0      unknown  unknown\n"                                                \
    "    4 gallop      hind, leading    12.3      unknown  unknown\n"                                                \
    "    4 gallop      hind, other      13.6      unknown  unknown\n"                                                \
    "\n"                                                                                                             \
    "Gallop is at 11.4 m/s. The hind limb at the walk was not found and is refused. Where horizontal forces are "    \
    "unknown their results are 0 and horizontal_known_count is 0: they are not known to be small. The propulsive force "  \
    "at the walk was measured in a wooden clog, as large as in any other shoe of that study. The three forces " \
    "do not act at the same moment."
#define ACCURACY "The table to its printed digits; horses differ by more."
#define SOURCES(S)                                                                                                   \
    S(MEMORY, "Standing share of a fore limb 29 %, of a hind limb 21 % of body weight (58 to 42)", "stand")          \
    S(PUBLISHED,                                                                                                     \
      "Aoun R, Ogunmola Z, Musso A, Taguchi T, Takawira C, Lopez MJ 2025. Shoe configuration effects on equine "    \
      "forelimb gait kinetics at a walk. PeerJ 13:e18940",                                                           \
      "walk, fore limb (6 horses): unshod 6.32 N/kg, 6.13 in a wooden clog; propulsion 0.81 N/kg in the clog")                                         \
    S(PUBLISHED, "Merkens HW et al. 1993. Equine Vet J 25:134-137", "trot (20 Warmbloods)")                          \
    S(PUBLISHED, "Self Davies ZT et al. 2019. J Exp Biol 222:jeb204107", "gallop at 11.4 m/s (7 ridden Thoroughbreds)")
#define INPUTS(F)                                                                                                    \
    F(body_mass_kg, 50, 1200, 350, 700, REQUIRED, GIVEN, MEASURE, "horse, with rider and tack where it is ridden")   \
    F(gait_count, 1, 4, 1, 4, REQUIRED, GIVEN, WHOLE, "1 stand, 2 walk, 3 trot, 4 gallop")                           \
    F(hind_count, 0, 1, 0, 1, 0, NEUTRAL, WHOLE, "0: fore limb, 1: hind limb")                                       \
    F(lead_count, 0, 1, 0, 1, 0, NEUTRAL, WHOLE, "at the gallop, 1: the leading limb")
#define OUTPUTS(F)                                                                                                   \
    F(vertical_n_per_kg, FINITE, "largest vertical force for each kilogram")                                         \
    F(braking_n_per_kg, FINITE, "largest braking force for each kilogram")                                           \
    F(propulsive_n_per_kg, FINITE, "largest propulsive force for each kilogram")                                     \
    F(vertical_n, FINITE, "largest vertical force")                                                                  \
    F(braking_n, FINITE, "largest braking force")                                                                    \
    F(propulsive_n, FINITE, "largest propulsive force")                                                              \
    F(horizontal_known_count, FINITE, "1: both horizontal forces are known; 0: a result of 0 says nothing")
#define REFUSALS(R) R(gait_count, IN(hind_count), "no published force was found for the hind limb at the walk")
#define CAUTIONS(C)                                                                                                  \
    C(WARN, horizontal_unknown, OUT(horizontal_known_count), 1, NO_FIELD, 0, EQUAL, 0, NO_GUARD,                     \
      "no published braking force was found for this gait: 0 stands for unknown")
#define STANDING(S) S("Largest forces of sound horses; a lame horse unloads the limb, a stumble loads it more.")                        \
    S("Gallop: published values disagree, from 14 to 16 N/kg at 11.4 m/s and to 25 N/kg at 17 m/s.")

UNG_INLINE ung_limb_load_out formula(const ung_limb_load_in *in, double *refusal)
{
    double gait = in->gait_count, hind = in->hind_count, lead = in->lead_count, mass = in->body_mass_kg;
    double gallop_fore = lead > 0.5 ? 13.6 : 14.0, gallop_hind = lead > 0.5 ? 12.3 : 13.6;
    double fore_vertical = gait < 1.5 ? 2.84 : gait < 2.5 ? 6.32 : gait < 3.5 ? 11.59 : gallop_fore;
    double hind_vertical = gait < 1.5 ? 2.06 : gait < 3.5 ? 10.21 : gallop_hind;
    double trot_braking = hind > 0.5 ? 0.79 : 1.13, trot_propulsive = hind > 0.5 ? 1.17 : 0.84;
    double from_trot = gait > 2.5 ? 1 : 0, to_trot = gait < 3.5 ? 1 : 0, trots = from_trot * to_trot;
    double moves = gait > 1.5 ? 1 : 0, slowly = gait < 2.5 ? 1 : 0, walks = moves * slowly, hind_walks = hind * walks;

    *refusal = hind_walks > 0.5 ? 1 : 0;
    ung_limb_load_out out;
    out.vertical_n_per_kg = hind > 0.5 ? hind_vertical : fore_vertical;
    out.braking_n_per_kg = trots * trot_braking;
    out.propulsive_n_per_kg = trots * trot_propulsive + walks * 0.81;
    out.vertical_n = out.vertical_n_per_kg * mass;
    out.braking_n = out.braking_n_per_kg * mass;
    out.propulsive_n = out.propulsive_n_per_kg * mass;
    out.horizontal_known_count = gait < 1.5 ? 1 : trots;
    return out;
}

#include "core/define.h"
