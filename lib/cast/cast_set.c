/* Casting tape dipped in water: when it sets and how warm it gets. */
#include <ungula/cast.h>

#include "core/contract.h"

#define NAME cast_set
#define ROOM cast
#define TITLE "set time of casting tape from the dip water's temperature"
#define ABOUT                                                                                                        \
    "How long dipped tape can be worked, when it has set, how warm it gets, and which water gives a wanted time.\n"  \
    "\n"                                                                                                             \
    "    set_time = 60 exp(-5.9854340483574 + 2239.04973854811/T_water)          T in kelvin\n"                      \
    "    work_time = set_time/2\n"                                                                                   \
    "    peak = 21.5454296160878 + 0.421846435100548 water\n"                                                        \
    "    water_for = 2239.04973854811/(ln(wanted_time/60) + 5.9854340483574) - 273.15\n"                             \
    "\n"                                                                                                             \
    "Least squares through the published means of 30 casts of 8 plies in a room of 24 C: ln of the time against "    \
    "1/T_water, and the peak against the water. The water sets only where the tape starts from; room_c and layers "  \
    "do not enter, because no published series varies them: they say when the numbers do not apply. The sensor lay " \
    "in the middle of the plies.\n"                                                                                  \
    "\n"                                                                                                             \
    "Fahrenheit is refused above 36 for the water and 45 for the room, and asked about just below; room or water "   \
    "entered in Fahrenheit at colder numbers cannot be told from Celsius."
#define ACCURACY                                                                                                     \
    "Of the formula: relative error below 1e-14 (times), error below 2e-13 C. Of the fit: 1 % in time and 0.3 C "    \
    "in peak, for mean times printed to half a minute and peaks with standard deviations up to 1.4 C."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED,                                                                                                     \
      "Ayzenberg M, Narvaez M, Raphael J 2018. Orthopedic Reviews 10:7314, "                                         \
      "doi 10.4081/or.2018.7314",                                                                                    \
      "7.0, 5.0, 3.5 min and peaks of 25.2, 31.1, 36.6 C in water of 9, 22, 36 C; 8 plies, room 24 C")               \
    S(PUBLISHED, "Halanski et al. 2007. J Bone Joint Surg Am 89-A:2369",                                             \
      "plaster: water below 24 C avoided dangerous temperatures at any thickness")                                   \
    S(PUBLISHED, "Hutchinson MJ, Hutchinson MR 2008. J Orthop Surg Res 3:10, doi 10.1186/1749-799X-3-10",            \
      "thicker casts and hotter water are hotter, for all types of cast")                                            \
    S(CHOICE, "A maker's note gives 1.5 to 3.5 min to work and 3 to 7 min to set", "work_time = set_time/2")         \
    S(PRACTICE, "A supplier's guide to hoof casts: begins to set after 5 min, fully set at 20 min",             \
      "the standing caution")
#define INPUTS(F)                                                                                                    \
    F(water_c, 0, 36, 18, 24, 21, PRACTICE, MEASURE, "water that the tape is dipped in; Celsius: 70 F is 21")        \
    F(room_c, -20, 45, 10, 30, 24, PUBLISHED, MEASURE, "air round the cast; measured was 24")                        \
    F(layers, 1, 20, 3, 10, 8, PUBLISHED, MEASURE, "plies (cast_length); measured were 8")                           \
    F(wanted_time_s, 10, 20000, 120, 1800, 300, CHOICE, MEASURE, "set time wanted")
#define OUTPUTS(F)                                                                                                   \
    F(set_time_s, FINITE, "from the dip until the peak is past")                                                     \
    F(work_time_s, FINITE, "from the dip until it should no longer be touched")                                      \
    F(peak_c, FINITE, "highest temperature between the plies")                                                       \
    F(water_for_c, FINITE, "water that would set it in wanted_time_s")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(WARN, warm_water, IN(water_c), 1, NO_FIELD, 0, ABOVE, 24, NO_GUARD,                                            \
      "water above 24 C: a hotter cast and less time")                                                               \
    C(WARN, fahrenheit_water, IN(water_c), 1, NO_FIELD, 0, ABOVE, 32, NO_GUARD,                                      \
      "above 32 C: Fahrenheit? 32 to 36 F are 0 to 2 C")                                                             \
    C(WARN, fahrenheit_room, IN(room_c), 1, NO_FIELD, 0, ABOVE, 40, NO_GUARD,                                        \
      "above 40 C: Fahrenheit? 40 to 45 F are 4 to 7 C")                                                             \
    C(WARN, warm_wanted, OUT(water_for_c), 1, NO_FIELD, 0, ABOVE, 24, NO_GUARD,                                      \
      "the wanted time would take water above 24 C: let it set more slowly")                                         \
    C(WARN, no_such_water, OUT(water_for_c), 1, NO_FIELD, 0, BELOW, 0, NO_GUARD,                                     \
      "no water is cold enough for the wanted time: wrap in steps")                                                  \
    C(WARN, many_layers, IN(layers), 1, NO_FIELD, 0, ABOVE, 8, NO_GUARD,                                             \
      "more plies than the 8 measured: hotter than peak_c says")                                                     \
    C(NOTE, cold_water, IN(water_c), 1, NO_FIELD, 0, BELOW, 9, NO_GUARD,                                             \
      "water colder than the 9 C measured: extrapolated")                                                            \
    C(NOTE, cold_wanted, OUT(water_for_c), 1, NO_FIELD, 0, BELOW, 9, NO_GUARD,                                       \
      "the wanted time takes water colder than the 9 C measured: extrapolated")                                      \
    C(NOTE, warm_room, IN(room_c), 1, NO_FIELD, 0, ABOVE, 29, NO_GUARD,                                              \
      "measured at 24 C: a warmer room makes it set sooner and hotter")                                              \
    C(NOTE, cold_room, IN(room_c), 1, NO_FIELD, 0, BELOW, 19, NO_GUARD,                                              \
      "measured at 24 C: a colder room makes it set later")
#define STANDING(S)                                                                                                  \
    S("Keep the foot still for 20 minutes: hoof casts are said to begin to set after 5 and to be set at 20.")        \
    S("A longer dip is hotter and quicker; a cushion under a curing cast keeps its heat in.")

UNG_INLINE ung_cast_set_out formula(const ung_cast_set_in *in, double *refusal)
{
    double per_kelvin = 2239.04973854811, start = -5.9854340483574, kelvin = 273.15;

    *refusal = 0;
    ung_cast_set_out out;
    out.set_time_s = 60 * ung__exp(start + per_kelvin / (in->water_c + kelvin));
    out.work_time_s = out.set_time_s / 2;
    out.peak_c = 21.5454296160878 + 0.421846435100548 * in->water_c;
    out.water_for_c = per_kelvin / (ung__log(in->wanted_time_s / 60) - start) - kelvin;
    return out;
}

#include "core/define.h"
