/* A data-sheet time brought to the day's temperature. */
#include <ungula/cure.h>

#include "core/contract.h"
#include "cure/arrhenius.h"

#define NAME working_time
#define ROOM cure
#define TITLE "working time at today's temperature"
#define ABOUT                                                                                                        \
    "How long the adhesive can be worked at today's temperature, from the time its data sheet gives at another; and " \
    "how warm it may be for the time the work takes.\n"                                                              \
    "\n"                                                                                                             \
    "    working_time = reference_time exp(E/R (1/T - 1/T_ref))\n"                                                   \
    "    wanted_temperature: working_time is wanted_time there:  1/T = 1/T_ref + R ln(wanted_time/reference_time)/E\n" \
    "    safe_time, safe_temperature: the same with the energy that shortens the time:\n"                            \
    "               the greater of E and 62 kJ/mol above T_ref, the lesser of E and 45 below\n"                      \
    "    longest_time: the same with the energy that lengthens it (45 above, 62 below), for a time to be waited out\n" \
    "\n"                                                                                                             \
    "Temperatures are the adhesive's own, not the air's: a cold cartridge takes about an hour to warm. R = "         \
    "8.31446261815324 J/(mol K). Plan with safe_time. The law is for a film that stays at its temperature; a cup "   \
    "heats itself and sets sooner. A temperature is infinite where wanted_time is so short that none is hot "       \
    "enough.\n"                                                                                                      \
    "\n"                                                                                                             \
    "Fahrenheit is refused above 45, asked about above 40 and cannot be told below: 35 F (2 C) taken for 35 C "      \
    "makes the time look too short, and a cure that hardly starts look quick."
#define ACCURACY                                                                                                     \
    "Times: relative error below 2e-14. wanted_temperature_c and safe_temperature_c: error below 1e-12 C where "     \
    "they are from -60 to 100 C."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "Data sheets of adhesives: a cold-weather acrylic anchor adhesive of 2016, a hoof acrylic's rule",    \
      "energies of 45 to 62 kJ/mol; a doubling of speed in 8 to 11 C")                                               \
    S(CHOICE, "52 kJ/mol lies in the middle of the published band: halving in 10 C at 20 C", "activation_energy_kj") \
    S(CHOICE, "Five minutes fill and place a shoe", "wanted_time_s")
#define INPUTS(F)                                                                                                    \
    F(reference_time_s, 10, 20000, 120, 1800, REQUIRED, GIVEN, MEASURE, "the data sheet's working time")             \
    F(reference_temperature_c, 0, 40, 20, 25, REQUIRED, GIVEN, MEASURE,  \
      "temperature for which the data sheet gives it; 70 F is 21") \
    F(temperature_c, -25, 45, 0, 38, REQUIRED, GIVEN, MEASURE, "of the adhesive today")                              \
    F(activation_energy_kj, 10, 150, 45, 62, 52, CHOICE, MEASURE, "apparent activation energy (cure_energy)")        \
    F(wanted_time_s, 10, 20000, 120, 1800, 300, CHOICE, MEASURE, "time that the work takes")
#define OUTPUTS(F)                                                                                                   \
    F(working_time_s, FINITE, "working time at temperature_c")                                                       \
    F(safe_time_s, FINITE, "the short end of the published band: plan with this")                                    \
    F(longest_time_s, FINITE, "the long end of the published band: for a time to be waited out")                     \
    F(wanted_temperature_c, INFINITE, "temperature at which working_time_s is wanted_time_s")                        \
    F(safe_temperature_c, INFINITE, "warmest temperature at which safe_time_s is wanted_time_s")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(WARN, fahrenheit, IN(temperature_c), 1, NO_FIELD, 0, ABOVE, 40, NO_GUARD,                                      \
      "above 40 C: Fahrenheit? 40 to 45 F are 4 to 7 C")                                                             \
    C(WARN, minutes, IN(reference_time_s), 1, NO_FIELD, 0, BELOW, 60, NO_GUARD,                                      \
      "a working time below one minute: minutes instead of seconds?")                                                \
    C(WARN, too_short, OUT(safe_time_s), 1, IN(wanted_time_s), -1, BELOW, 0, NO_GUARD,                               \
      "it may set before the work is done: cool the adhesive, or mix less and work in steps")                        \
    C(NOTE, cold, IN(temperature_c), 1, NO_FIELD, 0, BELOW, 16, NO_GUARD,                                            \
      "below the window that suppliers give (16 to 29 C): the cure may not finish")                                  \
    C(NOTE, hot, IN(temperature_c), 1, NO_FIELD, 0, ABOVE, 29, NO_GUARD,                                             \
      "above the window that suppliers give (16 to 29 C)")                                                           \
    C(NOTE, cold_reference, IN(reference_temperature_c), 1, NO_FIELD, 0, BELOW, 15, NO_GUARD,                        \
      "data sheets give their times for 20 to 25 C: is this the sheet's temperature, and in Celsius?")               \
    C(NOTE, hot_reference, IN(reference_temperature_c), 1, NO_FIELD, 0, ABOVE, 30, NO_GUARD,                         \
      "data sheets give their times for 20 to 25 C: is this the sheet's temperature, and in Celsius?")
#define STANDING(S)                                                                                                  \
    S("Times scatter: one bone cement, mixed 683 times near 19 C, set with a coefficient of variation of 15 %.")  \
    S("A mixed cup heats itself: spread the adhesive, never leave a full cup.")

UNG_INLINE ung_working_time_out formula(const ung_working_time_in *in, double *refusal)
{
    double time = in->reference_time_s, from = in->reference_temperature_c, at = in->temperature_c;
    double energy = in->activation_energy_kj;
    double steep = ung__max(energy, 62), flat = ung__min(energy, 45); /* ends of the published band */
    double fall = ung__log(time / in->wanted_time_s);

    *refusal = 0;
    ung_working_time_out out;
    out.working_time_s = time * ung__time_ratio(energy, at, from);
    out.safe_time_s = time * ung__time_ratio(at > from ? steep : flat, at, from);
    out.longest_time_s = time * ung__time_ratio(at > from ? flat : steep, at, from);
    out.wanted_temperature_c = from + ung__rise_for(energy, from, fall);
    out.safe_temperature_c = from + ung__rise_for(fall > 0 ? steep : flat, from, fall);
    return out;
}

#include "core/define.h"
