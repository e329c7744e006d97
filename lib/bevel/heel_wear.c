/* How wear at toe and heel turns the shoe: the heel's height over the toe changes evenly until the tape is through. */
#include <ungula/bevel.h>

#include "core/contract.h"

#define NAME heel_wear
#define ROOM bevel
#define TITLE "wedge and toe as the shoe wears"
#define ABOUT                                                                                                        \
    "Toe and heel wear at different rates, because tape lies under one of them and the horse loads them differently. " \
    "The wedge is positive where the heel is up.\n"                                                                  \
    "\n"                                                                                                             \
    "    worn(t) = min(t, heel_cover/heel_rate), or t where heel_cover is 0\n"                                       \
    "    heel_up(t) = build_up + (toe_rate - heel_rate) worn(t);  wedge = atan(heel_up/base)\n"                      \
    "    base = base_length, or ground_length - build_length where that is 0\n"                                      \
    "    wedge_days: the first t at which |heel_up| = base tan(wedge_limit); 0 if it is there from the start\n"      \
    "    toe_left = shoe_thickness - toe_rate days, not below 0\n"                                                   \
    "    toe_days = (shoe_thickness - least_toe)/toe_rate, not below 0\n"                                            \
    "\n"                                                                                                             \
    "Once the tape is through, the heel wears as the toe does, and the wedge stays. After the heel is dressed "      \
    "give the "                                                                                                      \
    "distance between toe and the front edge of the bevel as base_length. Both times are infinite where the limit is " \
    "never reached; first_days is the sooner, and first_count says which (the wedge if both together)."
#define ACCURACY                                                                                                     \
    "Relative error below 2e-15, more by cancellation where a limit is nearly reached from the start; what rates "   \
    "change "                                                                                                        \
    "in a day is far more."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Plane geometry; even rates", "the relations")                                                         \
    S(CHOICE, "Published wear of wood and of glass fiber changes its order with grit, moisture and fiber angle",     \
      "rates are required: measure them on the last shoe")                                                           \
    S(PUBLISHED, "Chand N, Naik A, Neogi S 2000. Wear 242:38",                                                       \
      "short glass in polyester: wear grows with load and grain size, falls with glass content")                     \
    S(PRACTICE, "Common practice, no source", "usual ranges; limits of 2 degrees and 10 mm; four weeks")
#define INPUTS(F)                                                                                                    \
    F(ground_length_mm, 40, 300, 100, 160, REQUIRED, GIVEN, MEASURE, "flat length of the ground face, without a "    \
      "rolled toe")                                                                                                  \
    F(build_up_mm, 0, 20, 0, 5, 0, NEUTRAL, MEASURE, "tape under the heel: how far it stands proud")                 \
    F(build_length_mm, 0, 100, 0, 30, 0, NEUTRAL, MEASURE, "tape under the heel: over how much of the rear")         \
    F(shoe_thickness_mm, 5, 100, 16, 40, REQUIRED, GIVEN, MEASURE, "shoe at the toe")                                \
    F(toe_rate_mm_per_day, 0, 3, 0, 0.3, REQUIRED, GIVEN, MEASURE, "wear at the toe, as measured")                   \
    F(heel_rate_mm_per_day, 0, 3, 0, 0.3, REQUIRED, GIVEN, MEASURE, "wear at the heel, as measured")                 \
    F(days, 0, 365, 14, 56, 28, PRACTICE, MEASURE, "until the shoe is reset")                                        \
    F(wedge_limit_deg, 0, 15, 1, 3, 2, PRACTICE, MEASURE, "wedge allowed, heel up or down")                          \
    F(least_toe_mm, 0, 60, 8, 16, 10, PRACTICE, MEASURE, "least shoe wanted at the toe")                             \
    F(base_length_mm, 0, 300, 80, 120, 0, NEUTRAL, MEASURE, "between the two contacts; 0: ground_length - "          \
      "build_length")                                                                                                \
    F(heel_cover_mm, 0, 10, 1, 4, 0, NEUTRAL, MEASURE, "tape to wear through at the heel; 0: its rate never ends")
#define OUTPUTS(F)                                                                                                   \
    F(heel_up_mm, FINITE, "heel over toe at the end; negative: heel down")                                           \
    F(wedge_start_deg, FINITE, "wedge on the first day")                                                             \
    F(wedge_end_deg, FINITE, "wedge at the end")                                                                     \
    F(toe_left_mm, FINITE, "shoe left at the toe at the end")                                                        \
    F(wedge_days, INFINITE, "until the wedge reaches its limit")                                                     \
    F(toe_days, INFINITE, "until the toe reaches its limit")                                                         \
    F(first_days, INFINITE, "until the first of the two")                                                            \
    F(first_count, FINITE, "1: the wedge comes first, 2: the toe, 0: neither ever")
#define REFUSALS(R)                                                                                                  \
    R(build_length_mm, IN(ground_length_mm), "the tape under the heel must be shorter than the ground face")         \
    R(base_length_mm, IN(ground_length_mm), "the contacts cannot lie further apart than the ground face is long")    \
    R(heel_cover_mm, NO_FIELD, "less than a tenth of a millimeter is no tape to wear through: give 0 if it is not "  \
      "known")
#define CAUTIONS(C)                                                                                                  \
    C(STOP, worn_through, OUT(toe_left_mm), 1, NO_FIELD, 0, EQUAL, 0, NO_GUARD, "the toe is worn through before "    \
      "the reset")                                                                                                   \
    C(WARN, thin_toe, OUT(toe_left_mm), 1, IN(least_toe_mm), -1, BELOW, 0, NO_GUARD,                                 \
      "less is left at the toe than wanted: reset sooner")                                                           \
    C(WARN, heel_up, OUT(wedge_end_deg), 1, IN(wedge_limit_deg), -1, ABOVE, 0, NO_GUARD,                             \
      "the heel is up by more than allowed at the end, which changes the palmar angle: reset sooner, or dress the "  \
      "heel")                                                                                                        \
    C(WARN, heel_down, OUT(wedge_end_deg), 1, IN(wedge_limit_deg), 1, BELOW, 0, NO_GUARD,                            \
      "the heel is down by more than allowed at the end, which loads the deep flexor tendon: reset sooner")          \
    C(WARN, due_early, OUT(first_days), 1, IN(days), -1, BELOW, 0, NO_GUARD, "a limit is reached before the reset")  \
    C(WARN, no_build_length, IN(build_up_mm), 1, NO_FIELD, 0, ABOVE, 0, IN(build_length_mm), EQUAL, 0,               \
      "tape that stands proud needs a length: give build_length_mm")
#define STANDING(S)                                                                                                  \
    S("No trustworthy ratio of the wear of wood to that of casting tape is published: measure both rates, on this "  \
      "horse and this ground, and again when either changes.")                                                       \
    S("Look at the shoe every week: rates change with ground, weather, work and lameness.")                          \
    S("Any change of the palmar angle is for the attending veterinarian to decide.")

UNG_INLINE ung_heel_wear_out formula(const ung_heel_wear_in *in, double *refusal)
{
    double ground = in->ground_length_mm, lap = in->build_length_mm, given = in->base_length_mm, up = in->build_up_mm;
    double rest = ground - lap, own = rest > 0 ? rest : 1, base = given > 0 ? given : own;
    double toe = in->toe_rate_mm_per_day, heel = in->heel_rate_mm_per_day, cover = in->heel_cover_mm;
    double to_cover = cover / (heel > 0 ? heel : 1), covered = heel > 0 ? to_cover : UNG__INFINITY;
    double through = cover > 0 ? covered : UNG__INFINITY; /* when the tape is through */
    double rate = toe - heel, height = up + rate * ung__min(in->days, through);
    double limit = base * ung__tan_deg(in->wedge_limit_deg), size = rate < 0 ? -rate : rate;
    double to_go = rate < 0 ? limit + up : limit - up, root = to_go / (size > 0 ? size : 1);
    double ever = size > 0 ? root : UNG__INFINITY, reached = ever <= through ? ever : UNG__INFINITY;
    double wedge_days = up >= limit ? 0 : reached;
    double spare = ung__max(in->shoe_thickness_mm - in->least_toe_mm, 0), while_worn = spare / (toe > 0 ? toe : 1);
    double never = spare > 0 ? UNG__INFINITY : 0, toe_days = toe > 0 ? while_worn : never;
    double first = ung__min(wedge_days, toe_days), which = wedge_days <= toe_days ? 1 : 2;

    *refusal = lap >= ground ? 1 : given > ground ? 2 : cover > 0 ? (cover < 0.1 ? 3 : 0) : 0;
    ung_heel_wear_out out;
    out.heel_up_mm = height;
    out.wedge_start_deg = ung__atan_deg(up / base);
    out.wedge_end_deg = ung__atan_deg(height / base);
    out.toe_left_mm = ung__max(in->shoe_thickness_mm - toe * in->days, 0);
    out.wedge_days = wedge_days;
    out.toe_days = toe_days;
    out.first_days = first;
    out.first_count = first < UNG__INFINITY ? which : 0;
    return out;
}

#include "core/define.h"
