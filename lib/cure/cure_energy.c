/* Two data-sheet times at two temperatures: the activation energy, and what ten degrees do. */
#include <ungula/cure.h>

#include "core/contract.h"
#include "cure/arrhenius.h"

#define NAME cure_energy
#define ROOM cure
#define TITLE "activation energy of a cure from two times"
#define ABOUT                                                                                                        \
    "How strongly an adhesive's time depends on its temperature, from the same time (working, gel or fixture) at "   \
    "two temperatures of its data sheet.\n"                                                                          \
    "\n"                                                                                                             \
    "    E = R ln(t1/t2)/(1/T1 - 1/T2)\n"                                                                            \
    "    ten_degrees_factor = exp(E/R (1/T - 1/(T + 10)))          how many times shorter at 10 C more\n"            \
    "    halving_rise = 1/(1/T - R ln 2/E) - T                     how many C more halve it\n"                       \
    "\n"                                                                                                             \
    "T is at_temperature in kelvin, R = 8.31446261815324 J/(mol K). Either point may be the first. halving_rise is " \
    "infinite where no rise halves the time (E below about 1.7 kJ/mol). Two rounded times of a data sheet a few "    \
    "degrees apart give a rough energy: of one printed series single pairs give 46 to 109 kJ/mol and the whole 62. " \
    "Take points far apart. Fahrenheit is refused above 45 only: a pair such as 32 and 41 F passes for Celsius."
#define ACCURACY                                                                                                     \
    "Energy: relative error below 1e-14 where the times differ by a tenth or more. Factor and halving for energies " \
    "from 10 to 150 kJ/mol: relative error below 2e-14."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "ASTM E2070, methods D and E (scope seen, relation from memory)",                                   \
      "activation energy from the time to an event against the isothermal temperature")                              \
    S(PUBLISHED, "Data sheets of adhesives: a cold-weather acrylic anchor adhesive of 2016, a hoof acrylic's rule",    \
      "energies of 45 to 62 kJ/mol, the band of the cautions")                                                       \
    S(PUBLISHED, "Koh et al. 2015. J Orthop Surg Res 10:178, doi 10.1186/s13018-015-0320-7",                         \
      "bone cement: 534, 414, 381 s to set at 20, 24, 28 C, 31 to 46 kJ/mol at least")
#define INPUTS(F)                                                                                                    \
    F(first_time_s, 10, 300000, 300, 3600, REQUIRED, GIVEN, MEASURE, "time at first_temperature_c")                  \
    F(first_temperature_c, -25, 45, 5, 20, REQUIRED, GIVEN, MEASURE, "of the adhesive; Celsius: 70 F is 21")         \
    F(second_time_s, 10, 300000, 60, 1800, REQUIRED, GIVEN, MEASURE, "the same kind of time at second_temperature_c") \
    F(second_temperature_c, -25, 45, 20, 35, REQUIRED, GIVEN, MEASURE, "of the adhesive")                             \
    F(at_temperature_c, -25, 45, 0, 38, 20, CHOICE, MEASURE, \
      "where the factor and the halving are wanted; data sheets are written for 20")
#define OUTPUTS(F)                                                                                                   \
    F(activation_energy_kj, FINITE, "apparent activation energy")                                                    \
    F(ten_degrees_factor, FINITE, "how many times shorter the time is 10 C above at_temperature_c")                  \
    F(halving_rise_c, INFINITE, "how far above at_temperature_c the time is half")
#define REFUSALS(R)                                                                                                  \
    R(second_temperature_c, IN(first_temperature_c), "the two temperatures must differ")                             \
    R(second_time_s, IN(first_time_s), "the time at the warmer temperature must be the shorter")
#define CAUTIONS(C)                                                                                                  \
    C(WARN, fahrenheit_first, IN(first_temperature_c), 1, NO_FIELD, 0, ABOVE, 40, NO_GUARD,                          \
      "above 40 C: Fahrenheit? 40 to 45 F are 4 to 7 C")                                                             \
    C(WARN, fahrenheit_second, IN(second_temperature_c), 1, NO_FIELD, 0, ABOVE, 40, NO_GUARD,                        \
      "above 40 C: Fahrenheit? 40 to 45 F are 4 to 7 C")                                                             \
    C(WARN, fahrenheit_at, IN(at_temperature_c), 1, NO_FIELD, 0, ABOVE, 40, NO_GUARD,                                \
      "above 40 C: Fahrenheit? 40 to 45 F are 4 to 7 C")                                                             \
    C(WARN, unlikely_low, OUT(activation_energy_kj), 1, NO_FIELD, 0, BELOW, 10, NO_GUARD,                            \
      "an energy that no adhesive has: are both times the same event of the same product?")                          \
    C(WARN, unlikely_high, OUT(activation_energy_kj), 1, NO_FIELD, 0, ABOVE, 150, NO_GUARD,                          \
      "an energy that no adhesive has: are both times the same event of the same product, and in seconds?")          \
    C(NOTE, low_energy, OUT(activation_energy_kj), 1, NO_FIELD, 0, BELOW, 45, NO_GUARD,                              \
      "below the band published for acrylics (45 to 62 kJ/mol)")                                                     \
    C(NOTE, high_energy, OUT(activation_energy_kj), 1, NO_FIELD, 0, ABOVE, 62, NO_GUARD,                             \
      "above the band published for acrylics (45 to 62 kJ/mol)")
#define STANDING(S)                                                                                                  \
    S("An energy from two points cannot show its own error: a third point of the data sheet does.")                  \
    S("It holds for one mixing ratio: a changed hardener dose changes every time.")

UNG_INLINE ung_cure_energy_out formula(const ung_cure_energy_in *in, double *refusal)
{
    double a = in->first_temperature_c, b = in->second_temperature_c, apart = b - a;
    double longer = ung__log(in->first_time_s / in->second_time_s);
    double kelvins = (a + UNG__KELVIN_OF_0_C) * (b + UNG__KELVIN_OF_0_C);
    double some = apart == 0 ? 1 : apart;
    double energy = UNG__GAS_J_MOL_K * longer * kelvins / some / 1000;
    double used = energy > 0 ? energy : 1;

    *refusal = apart == 0 ? 1 : energy <= 0 ? 2 : 0;
    ung_cure_energy_out out;
    out.activation_energy_kj = energy;
    out.ten_degrees_factor = ung__time_ratio(used, in->at_temperature_c, in->at_temperature_c + 10);
    out.halving_rise_c = ung__rise_for(used, in->at_temperature_c, 0.69314718055994531); /* ln 2 */
    return out;
}

#include "core/define.h"
