/* A mixed cup that heats itself as it cures. */
#include <ungula/cure.h>

#include "cure/cup.h"

#define NAME cup_cure
#define ROOM cure
#define TITLE "when a mixed cup of adhesive gels, and how hot it gets"
#define ABOUT                                                                                                        \
    "The warmer the adhesive the faster it cures, and curing warms it. A share a of it is cured; the cup has one "   \
    "temperature T:\n"                                                                                               \
    "\n"                                                                                                             \
    "    da/dt = k (i + a) (1 - a),   k = k_ref exp(-E/R (1/T - 1/T_ref)),   a(0) = 0\n"                             \
    "    mass c dT/dt = mass q da/dt - exchange surface (T - ambient),   T(0) = start\n"                             \
    "\n"                                                                                                             \
    "until a is final_fraction, where the cure stops; i is initiation_fraction, q heat_j_g, c heat_capacity_j_gk. "  \
    "k_ref is such that the reference gels at reference_time: a film that stays at the reference temperature\n"      \
    "\n"                                                                                                             \
    "    k_ref = ln[(i + gel)/(i (1 - gel))]/((1 + i) reference_time)\n"                                             \
    "\n"                                                                                                             \
    "or, where reference_mass is given, a cup of that mass and surface which starts at the temperature of its "      \
    "surroundings, the reference temperature. fixture_time is where a = 0.6, infinite if the cure stops before. "    \
    "The peak is the highest temperature: the start, at 0, where it is never passed; the ambient, at infinity, "     \
    "where a cold cup only warms up to it. film_time is the gel time at the ambient. "                               \
    "adiabatic_rise = final_fraction q/c is what no cup can pass. The last 1e-13 of the heat is not counted.\n"      \
    "\n"                                                                                                             \
    "Three cups of adhesive that gels in 360 s at 20 C as a film, on a day of 25 C, where a film has 251.7 s. A "    \
    "runaway, 55 g with a surface of 95 cm2: gel after 186.6 s, peak 181.4 C after 214.5 s. Milder, 20 g spread over "\
    "400 cm2 at an exchange of 30: gel after 224.9 s, peak 121.5 C after 319.8 s. A thin film, 5 g on 100 cm2 at an "\
    "exchange of 115: gel after 243.1 s, peak 29.4 C after 427.7 s."
#define ACCURACY "Relative error below 1e-8 of every result (of a temperature in kelvin)."
#define SOURCES(S) CUP_SOURCES(S)
#define INPUTS(F) CUP_INPUTS(F)
#define OUTPUTS(F) CUP_OUTPUTS(F)
#define REFUSALS(R) CUP_REFUSALS(R)
#define CAUTIONS(C) CUP_CAUTIONS(C)
#define STANDING(S) CUP_STANDING(S)

#define SERIAL

static ung_cup_cure_out formula(const ung_cup_cure_in *in, double *refusal)
{
    *refusal = ung__cup_refusal(in);
    if (*refusal != 0)
        return (ung_cup_cure_out){0};
    const ung__cup c = ung__cup_of(in);
    return ung__cup_results(in, &c);
}

#include "core/define.h"
