/* How long an adhesive can be worked at its temperature. */
#include <ungula/cure.h>

#include "core/contract.h"
#include "cure/arrhenius.h"

#define NAME working_time
#define ROOM cure
#define TITLE "working time of an adhesive at its temperature"
#define ABOUT                                                                                                        \
    "The data sheet's working time, carried to the temperature of the adhesive; and the temperature at which a "     \
    "wanted time is reached. Temperatures are the adhesive's, in kelvin in the formulas:\n"                          \
    "\n"                                                                                                             \
    "    t(E) = reference_time exp(E/R (1/T - 1/T_ref)),   R = 8.31446261815324 J/(mol K)\n"                         \
    "    time = t(E);  time_factor = time/reference_time\n"                                                          \
    "    safe_time = t(greater of E and 62 kJ/mol) above T_ref, t(lesser of E and 45 kJ/mol) below\n"                \
    "    wanted_temperature = 1/(1/T_ref + R/E ln(wanted_time/reference_time))\n"                                    \
    "\n"                                                                                                             \
    "safe_time takes the unfavorable end of what is published, so it is never longer than time: plan with it. "      \
    "wanted_temperature is infinite where no heat makes the time so short. Example: 360 s at 20 C are 251.7 s at "  \
    "25 C and 155.6 s at 32 C, and 240 s are reached at 25.7 C."
#define ACCURACY "Relative error below 1e-14 of times, 1e-13 of the temperature in kelvin."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "ASTM E2070, methods D and E (scope)", "times to an event follow exp(E/(R T))")                     \
    S(PRACTICE, "Data sheets of adhesives and general rules, no names",                                              \
      "62 (gel) and 52 kJ/mol (cure) of a cold-weather acrylic, 47 of a hoof acrylic, 53 of the general rule")       \
    S(CHOICE, "Between these", "the standard of 52 kJ/mol and the band of 45 to 62")                                 \
    S(PRACTICE, "Notes on hoof adhesives, no names", "to be worked at 16 to 29 C")
#define INPUTS(F)                                                                                                    \
    F(reference_time_s, 10, 20000, 120, 1800, REQUIRED, GIVEN, MEASURE, "working time on the data sheet")            \
    F(reference_temperature_c, 0, 40, 20, 25, REQUIRED, GIVEN, MEASURE, "temperature that it is given for")          \
    F(temperature_c, -25, 45, 0, 38, REQUIRED, GIVEN, MEASURE, "of the adhesive as it is worked")                    \
    F(activation_energy_kj, 10, 150, 45, 62, 52, CHOICE, MEASURE, "how strongly heat speeds it (cure_energy)")       \
    F(wanted_time_s, 10, 20000, 120, 1800, 300, CHOICE, MEASURE, "time that is wanted")
#define OUTPUTS(F)                                                                                                   \
    F(time_s, FINITE, "working time at this temperature")                                                            \
    F(safe_time_s, FINITE, "the same at the unfavorable end of the published band: for plans")                       \
    F(time_factor, FINITE, "working time in reference times")                                                        \
    F(wanted_temperature_c, INFINITE, "temperature at which wanted_time is reached")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(WARN, short_time, OUT(safe_time_s), 1, NO_FIELD, 0, BELOW, 120, NO_GUARD,                                      \
      "less than two minutes may be left: cool the adhesive, or take a slower one")                                  \
    C(WARN, cold, IN(temperature_c), 1, NO_FIELD, 0, BELOW, 16, NO_GUARD,                                            \
      "below 16 C the cure may fail and the set is softer: warm hoof, shoe and adhesive")                            \
    C(NOTE, warm, IN(temperature_c), 1, NO_FIELD, 0, ABOVE, 29, NO_GUARD,                                            \
      "above the 29 C that hoof adhesives are made to be worked at")                                                 \
    C(WARN, unit, IN(temperature_c), 1, NO_FIELD, 0, ABOVE, 39.5, NO_GUARD, "Fahrenheit? This is in C")              \
    C(WARN, reference_unit, IN(reference_temperature_c), 1, NO_FIELD, 0, ABOVE, 35, NO_GUARD,                        \
      "Fahrenheit? This is in C; data sheets mostly give 20 to 25 C")                                                \
    C(NOTE, wanted_too_hot, OUT(wanted_temperature_c), 1, NO_FIELD, 0, ABOVE, 38, NO_GUARD,                          \
      "no adhesive is to be made so warm for the wanted time: take a faster one")                                    \
    C(NOTE, wanted_too_cold, OUT(wanted_temperature_c), 1, NO_FIELD, 0, BELOW, 0, NO_GUARD,                          \
      "the wanted time takes frost: take a slower adhesive")
#define STANDING(S)                                                                                                  \
    S("The adhesive's own temperature counts: a pack from a cold van takes about an hour to come to the room's.")    \
    S("A pack heats itself as it cures, and a full cup sets long before a film: see cup_cure.")                      \
    S("A temperature of -25 to 40 given in Fahrenheit cannot be told from one in C.")

UNG_INLINE ung_working_time_out formula(const ung_working_time_in *in, double *refusal)
{
    double t = in->temperature_c + UNG__KELVIN, reference = in->reference_temperature_c + UNG__KELVIN;
    double e = in->activation_energy_kj, warmer = in->temperature_c - in->reference_temperature_c;
    double per_kj = -warmer / (t * reference) * (1000 / UNG__GAS);
    double safe = warmer > 0 ? ung__max(e, 62) : ung__min(e, 45);
    double inverse = 1 + reference * (UNG__GAS / 1000) / e * ung__log(in->wanted_time_s / in->reference_time_s);

    *refusal = 0;
    ung_working_time_out out;
    out.time_factor = ung__exp(e * per_kj);
    out.time_s = in->reference_time_s * out.time_factor;
    out.safe_time_s = in->reference_time_s * ung__exp(safe * per_kj);
    out.wanted_temperature_c = inverse > 0 ? reference / (inverse > 0 ? inverse : 1) - UNG__KELVIN : UNG__INFINITY;
    return out;
}

#include "core/define.h"
