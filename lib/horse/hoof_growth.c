/* Growth of the wall over the days of a shoe. */
#include <ungula/horse.h>

#include "core/contract.h"

#define NAME hoof_growth
#define ROOM horse
#define TITLE "growth of the toe, and when the shoe is to be reset"
#define ABOUT                                                                                                        \
    "The wall grows down from the coronet at the same rate all round. The shoe keeps the toe from wearing, so "      \
    "what is "                                                                                                       \
    "added lengthens a straight toe; the toe's angle falls meanwhile, because heels move forward under the hoof.\n"  \
    "\n"                                                                                                             \
    "    added = growth days/28;  forward = added cos(toe_angle);  down = added sin(toe_angle)\n"                    \
    "    angle_change = -angle_loss days/7;  angle_after = toe_angle + angle_change\n"                               \
    "    length_days = 28 toe_limit/growth;  angle_days = 7 (toe_angle - least_toe_angle)/angle_loss\n"              \
    "    reset_days = the least of both and 42\n"                                                                    \
    "\n"                                                                                                             \
    "angle_days is 0 where the angle has passed its limit, infinite where it never falls. first_count says which "   \
    "limit "                                                                                                         \
    "comes first: 1 the length, 2 the angle, 3 the six weeks."
#define ACCURACY "Relative error below 1e-15; horses grow from 6 to 9 mm in a month, so the days are no better "     \
  "than that."
#define SOURCES(S)                                                                                                   \
    S(PUBLISHED, "Josseck H et al. 1995. Equine Vet J 27(3):175-182 (42 Lipizzaner stallions)", "7 mm in 28 days")   \
    S(PUBLISHED, "Kolstrung R, Ciesielczuk K, Silmanowicz P 2012. Med Weter 68(7):426-429 (7 mares, unshod, "        \
      "spring and summer)",                                                                                          \
      "2.1 mm a week, equal around the whole hoof")                                                                  \
    S(PUBLISHED, "Reilly JD et al. 1998. Equine Vet J Suppl 26:51-57 (8 ponies)", "30.69 mm in 5 months")            \
    S(MEMORY, "van Heel MCV et al. 2005. Equine Vet J 37:536-540, as quoted elsewhere", "the toe's angle falls by "  \
      "3.5 degrees in 8 weeks shod")                                                                                 \
    S(PUBLISHED, "Lesniak K, Williams J, Kuznik K, Douglas P 2017. Animals 7(4):29", "an interval of 4 to 6 weeks")  \
    S(PRACTICE, "Common practice, no source", "limits of 8 mm and 48 degrees; usual ranges; four weeks")
#define INPUTS(F)                                                                                                    \
    F(growth_mm_per_28_days, 1, 25, 4, 10, 7, PUBLISHED, MEASURE, "growth of the wall, along it")                    \
    F(days, 0, 365, 14, 56, 28, PRACTICE, MEASURE, "until the shoe is reset")                                        \
    F(toe_angle_deg, 30, 80, 45, 58, 52, PRACTICE, MEASURE, "toe to ground")                                         \
    F(angle_loss_deg_per_week, 0, 3, 0, 0.6, 0.4375, MEMORY, MEASURE, "how fast the toe's angle falls")              \
    F(toe_limit_mm, 1, 40, 5, 12, 8, PRACTICE, MEASURE, "growth allowed, along the wall")                            \
    F(least_toe_angle_deg, 20, 80, 44, 54, 48, PRACTICE, MEASURE, "least angle of the toe allowed")
#define OUTPUTS(F)                                                                                                   \
    F(added_mm, FINITE, "growth, along the wall")                                                                    \
    F(forward_mm, FINITE, "its part along the ground: how far the breakover moves forward")                          \
    F(down_mm, FINITE, "its part downward")                                                                          \
    F(angle_change_deg, FINITE, "change of the toe's angle")                                                         \
    F(angle_after_deg, FINITE, "the toe's angle at the end")                                                         \
    F(length_days, FINITE, "until the toe is at its limit")                                                          \
    F(angle_days, INFINITE, "until the angle is at its limit")                                                       \
    F(reset_days, FINITE, "when the shoe is to be reset at the latest")                                              \
    F(reset_weeks, FINITE, "the same in weeks")                                                                      \
    F(first_count, FINITE, "what comes first: 1 the length, 2 the angle, 3 six weeks")
#define REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(WARN, long_interval, IN(days), 1, NO_FIELD, 0, ABOVE, 42, NO_GUARD, "more than six weeks")                     \
    C(WARN, past_reset, IN(days), 1, OUT(reset_days), -1, ABOVE, 0, NO_GUARD,                                        \
      "a limit is reached before the shoe comes off: reset sooner")                                                  \
    C(WARN, low_angle, OUT(angle_after_deg), 1, IN(least_toe_angle_deg), -1, BELOW, 0, NO_GUARD,                     \
      "the toe ends lower than allowed: the lever at breakover grows")
#define STANDING(S)                                                                                                  \
    S("Screw heads and the upper edge of bond and tape move away from the coronet at the rate of growth; a screw "   \
      "stays in its horn. Pain, heat or exudate: take the shoe off.")                                                \
    S("Wooden shoes are for a time only, and are commonly reset every four weeks; the attending veterinarian sets "  \
      "the interval, with radiographs.")                                                                             \
    S("In one group of 5 horses the angles did not change in 5 weeks: measure this horse's growth and angle at "     \
      "each reset.")

UNG_INLINE ung_hoof_growth_out formula(const ung_hoof_growth_in *in, double *refusal)
{
    double growth = in->growth_mm_per_28_days, toe = in->toe_angle_deg, loss = in->angle_loss_deg_per_week;
    double added = growth * in->days / 28, change = loss * in->days / 7;
    double spare = ung__max(toe - in->least_toe_angle_deg, 0), while_falling = 7 * spare / (loss > 0 ? loss : 1);
    double never = spare > 0 ? UNG__INFINITY : 0;
    double length_days = 28 * in->toe_limit_mm / growth, angle_days = loss > 0 ? while_falling : never;
    double sooner = ung__min(length_days, angle_days), reset = ung__min(sooner, 42);
    double which = length_days <= angle_days ? 1 : 2;

    *refusal = 0;
    ung_hoof_growth_out out;
    out.added_mm = added;
    out.forward_mm = added * ung__cos_deg(toe);
    out.down_mm = added * ung__sin_deg(toe);
    out.angle_change_deg = 0 - change;
    out.angle_after_deg = toe - change;
    out.length_days = length_days;
    out.angle_days = angle_days;
    out.reset_days = reset;
    out.reset_weeks = reset / 7;
    out.first_count = sooner <= 42 ? which : 3;
    return out;
}

#include "core/define.h"
