/* How long casting tape takes to set, by the temperature of its water. */
#include <ungula/cast.h>

#include "core/contract.h"

#define NAME cast_set
#define ROOM cast
#define TITLE "setting time of casting tape by the temperature of its water"
#define ABOUT                                                                                                        \
    "Fits to one published series: glass tape of 8 plies in a room of 24 C, dipped in water of 9, 22 and 36 C, set " \
    "after 7, 5 and 3.5 minutes and reached 25.2, 31.1 and 36.6 C between its plies. T is the water's temperature "  \
    "in kelvin:\n"                                                                                                   \
    "\n"                                                                                                             \
    "    set_time = 60 exp(-5.9854340483574 + 2239.04973854811/T)\n"                                                 \
    "    peak = 21.5454296160878 + 0.421846435100548 water\n"                                                        \
    "    work_time = set_time/2\n"                                                                                   \
    "    water_for = 2239.04973854811/(ln(wanted_time/60) + 5.9854340483574) - 273.15\n"                             \
    "\n"                                                                                                             \
    "The room and the plies change no result, because no series varies them; they only bring cautions. The water "   \
    "sets the temperature that the tape starts from, so this is not the resin's own dependence on heat."
#define ACCURACY                                                                                                     \
    "The formulas: relative error below 1e-14. The fit: within 0.2 minutes and 0.4 C of the published means, whose " \
    "standard deviations are 0.1 to 0.5 minutes and 0.5 to 1.4 C."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED,                                                                                                     \
      "Ayzenberg M, Narvaez M, Raphael J 2018. Orthopedic Reviews 10:7314, "                                         \
      "doi 10.4081/or.2018.7314",                                                                                    \
      "set times and peaks of 8 plies in water of 9, 22 and 36 C, room 24 C")                                        \
    S(PUBLISHED, "Halanski MA and others 2007. J Bone Joint Surg Am 89:2369",                                        \
      "plaster: water below 24 C avoided dangerous temperatures at any thickness")                                   \
    S(CHOICE, "A maker's note: working 1.5 to 3.5 minutes, set 3 to 7", "work_time is half of set_time")             \
    S(PRACTICE, "A guide to hoof casts, no name", "begins to set at 5 minutes, fully set at 20")
#define INPUTS(F)                                                                                                    \
    F(water_c, 0, 36, 18, 24, 21, PRACTICE, MEASURE, "temperature of the dip water")                                 \
    F(room_c, -20, 45, 10, 30, 24, PUBLISHED, MEASURE, "temperature of the air")                                     \
    F(layers, 1, 20, 3, 10, 8, PUBLISHED, MEASURE, "plies of tape (layers of cast_length)")                          \
    F(wanted_time_s, 10, 20000, 120, 1800, 300, CHOICE, MEASURE, "setting time that is wanted")
#define OUTPUTS(F)                                                                                                   \
    F(set_time_s, FINITE, "from dipping until the tape is set")                                                      \
    F(peak_c, FINITE, "highest temperature between the plies")                                                       \
    F(work_time_s, FINITE, "as long as the tape can be smoothed")                                                    \
    F(water_for_c, FINITE, "water in which the tape sets in wanted_time")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(WARN, hot_water, IN(water_c), 1, NO_FIELD, 0, ABOVE, 24, NO_GUARD,                                             \
      "water above 24 C makes a cast that may burn skin and hands: take cooler water")                               \
    C(NOTE, cold_water, IN(water_c), 1, NO_FIELD, 0, BELOW, 9, NO_GUARD, "colder water than was measured")           \
    C(NOTE, warm_room, IN(room_c), 1, NO_FIELD, 0, ABOVE, 29, NO_GUARD,                                              \
      "measured in a room of 24 C only: a warmer one makes a faster, hotter cast")                                   \
    C(NOTE, cold_room, IN(room_c), 1, NO_FIELD, 0, BELOW, 19, NO_GUARD,                                              \
      "measured in a room of 24 C only: a colder one makes a slower cast")                                           \
    C(WARN, room_unit, IN(room_c), 1, NO_FIELD, 0, ABOVE, 39.5, NO_GUARD, "Fahrenheit? This is in C")                \
    C(WARN, thick, IN(layers), 1, NO_FIELD, 0, ABOVE, 8, NO_GUARD, "more than the 8 plies that were measured: hotter") \
    C(WARN, wanted_hot_water, OUT(water_for_c), 1, NO_FIELD, 0, ABOVE, 24, NO_GUARD,                                 \
      "the wanted time would take water above 24 C: do not; wait longer")                                            \
    C(NOTE, wanted_cold_water, OUT(water_for_c), 1, NO_FIELD, 0, BELOW, 9, NO_GUARD,                                 \
      "the wanted time would take colder water than was measured")
#define STANDING(S)                                                                                                  \
    S("Hoof casts begin to set at 5 minutes and are set at 20: keep the foot still for 20 minutes.")                 \
    S("Gloves: the tape holds isocyanate, and its water warms.")                                                     \
    S("No pillow and no folded cloth under a cast that cures: it holds the heat.")                                   \
    S("A water temperature below 36 given in Fahrenheit (32 to 36: ice water) cannot be told from one in C.")

UNG_INLINE ung_cast_set_out formula(const ung_cast_set_in *in, double *refusal)
{
    const double slope = 2239.04973854811, start = 5.9854340483574, kelvin = 273.15;

    *refusal = 0;
    ung_cast_set_out out;
    out.set_time_s = 60 * ung__exp(slope / (in->water_c + kelvin) - start);
    out.peak_c = 21.5454296160878 + 0.421846435100548 * in->water_c;
    out.work_time_s = out.set_time_s / 2;
    out.water_for_c = slope / (ung__log(in->wanted_time_s / 60) + start) - kelvin;
    return out;
}

#include "core/define.h"
