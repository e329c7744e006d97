/* How strongly heat speeds an adhesive: the apparent activation energy between two points of a data sheet. */
#include <ungula/cure.h>

#include "core/contract.h"
#include "cure/arrhenius.h"

#define NAME cure_energy
#define ROOM cure
#define TITLE "activation energy from two times of a data sheet"
#define ABOUT                                                                                                        \
    "A data sheet gives the same event (end of the working time, fixture, full cure) at two temperatures. The "      \
    "apparent activation energy E follows, and with it how much faster the adhesive is 10 C above at_temperature, "  \
    "and how much warmer it has to be there for half the time. Temperatures in kelvin:\n"                            \
    "\n"                                                                                                             \
    "    E = R ln(t1/t2)/(1/T1 - 1/T2),   R = 8.31446261815324 J/(mol K)\n"                                          \
    "    ten_degrees_factor = exp(E/R (1/T - 1/(T + 10)))\n"                                                         \
    "    halving = 1/(1/T - R ln 2/E) - T\n"                                                                         \
    "\n"                                                                                                             \
    "halving is infinite where no temperature halves the time. For E of 52 kJ/mol at 20 C: 2.0213 and 9.84 C."
#define ACCURACY                                                                                                     \
    "Relative error below 1e-13 where the temperatures are 5 C apart or more and the times differ by a tenth; the "  \
    "difference of 1/T1 and 1/T2 is computed without cancellation."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "ASTM E2070, methods D and E (scope)", "energy from times to an event at constant temperatures")    \
    S(PRACTICE, "Data sheets of adhesives and general rules, no names",                                              \
      "45 to 62 kJ/mol; the time halves for every 8 to 11 C")
#define INPUTS(F)                                                                                                    \
    F(first_time_s, 1, 1000000, 120, 7200, REQUIRED, GIVEN, MEASURE, "time of the event at first_temperature")       \
    F(first_temperature_c, -40, 60, 5, 25, REQUIRED, GIVEN, MEASURE, "temperature of the first time")                \
    F(second_time_s, 1, 1000000, 60, 3600, REQUIRED, GIVEN, MEASURE, "time of the same event at second_temperature") \
    F(second_temperature_c, -40, 60, 20, 38, REQUIRED, GIVEN, MEASURE, "temperature of the second time")             \
    F(at_temperature_c, -40, 60, 0, 38, 20, CHOICE, MEASURE, "where factor and halving are wanted")
#define OUTPUTS(F)                                                                                                   \
    F(activation_energy_kj, FINITE, "apparent activation energy")                                                    \
    F(ten_degrees_factor, FINITE, "how many times faster 10 C above at_temperature")                                 \
    F(halving_c, INFINITE, "how many degrees above at_temperature halve the time")                                   \
    F(apart_c, FINITE, "distance of the two temperatures")
#define REFUSALS(R)                                                                                                  \
    R(first_temperature_c, IN(second_temperature_c), "the two temperatures must be at least 1 C apart")              \
    R(first_time_s, IN(second_time_s), "the time at the higher temperature must be the shorter one")
#define CAUTIONS(C)                                                                                                  \
    C(WARN, beyond, OUT(activation_energy_kj), 1, NO_FIELD, 0, ABOVE, 150, NO_GUARD,                                 \
      "no adhesive of this kind is so sensitive: check times, temperatures and their units")                         \
    C(WARN, too_low, OUT(activation_energy_kj), 1, NO_FIELD, 0, BELOW, 10, NO_GUARD,                                 \
      "no adhesive of this kind depends so little on heat: check times, temperatures and their units")               \
    C(NOTE, above_band, OUT(activation_energy_kj), 1, NO_FIELD, 0, ABOVE, 62, NO_GUARD,                              \
      "above the 45 to 62 kJ/mol that most series give")                                                             \
    C(NOTE, below_band, OUT(activation_energy_kj), 1, NO_FIELD, 0, BELOW, 45, NO_GUARD,                              \
      "below the 45 to 62 kJ/mol that most series give")                                                             \
    C(NOTE, close, OUT(apart_c), 1, NO_FIELD, 0, BELOW, 8, NO_GUARD,                                                 \
      "temperatures so close make the rounding of the printed times count: take two that are farther apart")         \
    C(WARN, first_unit, IN(first_temperature_c), 1, NO_FIELD, 0, ABOVE, 40, NO_GUARD, "Fahrenheit? This is in C")    \
    C(WARN, second_unit, IN(second_temperature_c), 1, NO_FIELD, 0, ABOVE, 40, NO_GUARD, "Fahrenheit? This is in C")
#define STANDING(S)                                                                                                  \
    S("Rounded printed times make single pairs swing from 46 to 109 kJ/mol within one series.")                      \
    S("A product with another dose of hardener in the cold has no single activation energy.")                        \
    S("A temperature of -40 to 40 given in Fahrenheit cannot be told from one in C.")

UNG_INLINE ung_cure_energy_out formula(const ung_cure_energy_in *in, double *refusal)
{
    double t1 = in->first_temperature_c + UNG__KELVIN, t2 = in->second_temperature_c + UNG__KELVIN;
    double t = in->at_temperature_c + UNG__KELVIN, apart = in->second_temperature_c - in->first_temperature_c;
    double some_apart = ung__abs(apart) >= 1 ? apart : 1;
    double over_gas = ung__log(in->first_time_s / in->second_time_s) * (t1 * t2) / some_apart; /* E/R */
    double e = over_gas > 0 ? over_gas : 1;
    double inverse = 1 - t * 0.693147180559945309 / e; /* of T + halving, times T */

    *refusal = ung__abs(apart) < 1 ? 1 : over_gas <= 0 ? 2 : 0;
    ung_cure_energy_out out;
    out.activation_energy_kj = over_gas * UNG__GAS / 1000;
    out.ten_degrees_factor = ung__exp(e * 10 / (t * (t + 10)));
    out.halving_c = inverse > 0 ? t * (1 - inverse) / (inverse > 0 ? inverse : 1) : UNG__INFINITY;
    out.apart_c = ung__abs(apart);
    return out;
}

#include "core/define.h"
