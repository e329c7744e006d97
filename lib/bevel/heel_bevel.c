/* The rear of the shoe's ground face, dressed off by a plane.
 *
 *     ______________________________        The plane starts `run` forward of the rear end and rises rearward by `angle`.
 *     | shoe                    ___/  rise  Tape lapped under the heel stands proud by build_up over build_length:
 *     |__________________------/            the shoe then rests on the toe and on the front edge of that step.
 *                        <-run->
 */
#include <ungula/bevel.h>

#include "core/contract.h"

#define NAME heel_bevel
#define ROOM bevel
#define TITLE "geometry of the bevel at the heel"
#define ABOUT                                                                                                        \
    "The rear of the shoe's ground face is dressed off by a plane that starts bevel_run forward of the rear end and " \
    "rises rearward by bevel_angle. Tape that laps under the heel stands proud by build_up over the last "          \
    "build_length: the shoe then rests on the toe and on the front edge of that step, a wedge (positive: heel up).\n" \
    "\n"                                                                                                             \
    "    rise = run tan(angle);  face = run/cos(angle)\n"                                                            \
    "    wedge_before = atan(build_up/(ground_length - build_length))\n"                                             \
    "\n"                                                                                                             \
    "Tape first (wrapped_before_count 1): the bevel takes the lap with it.\n"                                        \
    "\n"                                                                                                             \
    "    proud = build_up where run < build_length, else 0\n"                                                        \
    "    edge_left = thickness - rise + proud;  lap_left = max(0, build_length - run)\n"                             \
    "    removed = rise run (b0 + 2 b1)/6, and where run >= build_length > 0 also\n"                                 \
    "              build_up build_length (b1 + (b0 - b1) build_length/(2 run))\n"                                    \
    "\n"                                                                                                             \
    "Bevel first (0): the tape laps over it.\n"                                                                      \
    "\n"                                                                                                             \
    "    proud = max(0, build_up - max(0, run - build_length) tan(angle))\n"                                         \
    "    edge_left = thickness - rise;  lap_left = build_length;  removed = rise run (b0 + 2 b1)/6\n"                \
    "\n"                                                                                                             \
    "    wedge_after = atan(proud/(ground_length - build_length));  wood_left = min(thickness, edge_left)\n"         \
    "    angle_limit = atan((thickness - least_edge)/run), not below 0, not above 75\n"                              \
    "    run_to_clear = build_length (tape first), build_length + build_up/tan(angle) (bevel first)\n"               \
    "\n"                                                                                                             \
    "b0 and b1 are the shoe's widths where the bevel starts and at the rear end. The removed wedge is a prismatoid. " \
    "run_to_clear is infinite where no run clears the tape (bevel first at angle 0)."
#define ACCURACY "Relative error below 2e-15; edge_left, wood_left and wedge_after, which are differences, 3e-14 mm or degrees."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Plane geometry; the prismatoid rule h (A1 + 4 Am + A2)/6 (any handbook of mensuration)", "the relations") \
    S(PRACTICE, "Common practice, no source", "tape before bevel; least wood of 6 mm at the edge; four fifths of the ground length stay flat") \
    S(CHOICE, "Half a degree is what a hand can set and an eye can see",                                             \
      "the wedge from which the palmar angle counts as changed")
#define INPUTS(F)                                                                                                    \
    F(ground_length_mm, 40, 300, 100, 160, REQUIRED, GIVEN, MEASURE, "flat length of the ground face, without a rolled toe") \
    F(shoe_thickness_mm, 5, 100, 16, 40, REQUIRED, GIVEN, MEASURE, "shoe at the heel")                               \
    F(bevel_run_mm, 0, 150, 8, 20, REQUIRED, GIVEN, MEASURE, "how far forward of the rear end the bevel starts")     \
    F(bevel_angle_deg, 0, 75, 10, 35, REQUIRED, GIVEN, MEASURE, "rise of the bevel rearward")                        \
    F(width_start_mm, 10, 250, 60, 130, REQUIRED, GIVEN, MEASURE, "width of the shoe where the bevel starts")        \
    F(width_end_mm, 10, 250, 60, 130, REQUIRED, GIVEN, MEASURE, "width of the shoe at its rear end")                 \
    F(build_up_mm, 0, 20, 0, 5, 0, NEUTRAL, MEASURE, "tape under the heel: how far it stands proud")                 \
    F(build_length_mm, 0, 100, 0, 30, 0, NEUTRAL, MEASURE, "tape under the heel: over how much of the rear")         \
    F(wrapped_before_count, 0, 1, 0, 1, 1, PRACTICE, WHOLE, "1: the tape is there when the heel is dressed; 0: the bevel is cut first") \
    F(least_edge_mm, 0, 50, 5, 12, 6, PRACTICE, MEASURE, "least wood wanted at the rear edge")
#define OUTPUTS(F)                                                                                                   \
    F(rise_mm, FINITE, "height of the bevel at the rear end")                                                        \
    F(edge_left_mm, FINITE, "shoe and tape left at the rear edge")                                                   \
    F(wood_left_mm, FINITE, "wood left at the rear edge")                                                                       \
    F(face_length_mm, FINITE, "length of the bevel's face")                                                          \
    F(removed_ml, FINITE, "wood and tape taken off")                                                                 \
    F(contact_length_mm, FINITE, "ground face that stays flat")                                                      \
    F(contact_fraction, FINITE, "share of the ground length that stays flat")                                                              \
    F(wedge_before_deg, FINITE, "heel up by the tape, before dressing")                                              \
    F(wedge_after_deg, FINITE, "heel up by the tape, after dressing")                                                \
    F(lap_left_mm, FINITE, "tape left under the heel")                                                               \
    F(angle_limit_deg, FINITE, "steepest bevel with this run that leaves least_edge_mm of wood, tape not counted")                             \
    F(run_to_clear_mm, INFINITE, "run from which no tape stands proud")
#define REFUSALS(R)                                                                                                  \
    R(bevel_angle_deg, IN(shoe_thickness_mm), "the bevel rises above the whole thickness; take a smaller angle or a shorter run") \
    R(bevel_run_mm, IN(ground_length_mm), "the bevel must be shorter than the ground face")                          \
    R(build_length_mm, IN(ground_length_mm), "the tape under the heel must be shorter than the ground face")
#define CAUTIONS(C)                                                                                                  \
    C(WARN, thin_heel, OUT(wood_left_mm), 1, IN(least_edge_mm), -1, BELOW, 0, NO_GUARD,                              \
      "less wood is left at the rear edge than wanted")                                                              \
    C(WARN, wedge, OUT(wedge_after_deg), 1, NO_FIELD, 0, ABOVE, 0.5, NO_GUARD,                                       \
      "the heel stays up on its tape, which changes the palmar angle: for a veterinarian to decide")                 \
    C(WARN, short_contact, OUT(contact_fraction), 1, NO_FIELD, 0, BELOW, 0.8, NO_GUARD,                              \
      "less than four fifths of the ground face stays flat")                                                         \
    C(WARN, no_lap_length, IN(build_up_mm), 1, NO_FIELD, 0, ABOVE, 0, IN(build_length_mm), EQUAL, 0,                 \
      "tape that stands proud needs a length: give build_length_mm")                                                 \
    C(NOTE, lap_gone, OUT(lap_left_mm), 1, NO_FIELD, 0, EQUAL, 0, IN(build_up_mm), ABOVE, 0,                         \
      "the lap under the heel is ground away and the tape holds by the sides: seal the edge")
#define STANDING(S)                                                                                                  \
    S("Keep dust and sparks away from uncured adhesive; a screw head within the run needs a recess deeper than the rise there.") \
    S("Any change of the palmar angle is for the attending veterinarian to decide.")

UNG_INLINE ung_heel_bevel_out formula(const ung_heel_bevel_in *in, double *refusal)
{
    double run = in->bevel_run_mm, b0 = in->width_start_mm, b1 = in->width_end_mm, thick = in->shoe_thickness_mm;
    double up = in->build_up_mm, lap = in->build_length_mm, ground = in->ground_length_mm;
    double tangent = ung__tan_deg(in->bevel_angle_deg), rise = run * tangent;
    int before = in->wrapped_before_count > 0.5;
    int cleared = run >= lap;
    double past = ung__max(run - lap, 0);
    double proud = before ? (cleared ? 0 : up) : ung__max(up - past * tangent, 0);
    double some_run = run > 0 ? run : 1, some_tangent = tangent > 0 ? tangent : 1, rest = ground - lap;
    double safe_rest = rest > 0 ? rest : 1;
    double wood_off = rise * run * (b0 + 2 * b1) / 6;
    double tape_off = up * lap * (b1 + (b0 - b1) * lap / (2 * some_run));
    tape_off = (before & cleared & (lap > 0)) ? tape_off : 0;
    double steep = ung__atan_deg(ung__max(thick - in->least_edge_mm, 0) / some_run);
    double flat = run > 0 ? ung__min(steep, 75) : thick > in->least_edge_mm ? 75 : 0;
    double clear_after = up > 0 ? (tangent > 0 ? lap + up / some_tangent : UNG__INFINITY) : lap;

    *refusal = rise > thick ? 1 : run >= ground ? 2 : lap >= ground ? 3 : 0;
    ung_heel_bevel_out out;
    out.rise_mm = rise;
    out.edge_left_mm = thick - rise + (before ? proud : 0);
    out.wood_left_mm = ung__min(thick, out.edge_left_mm);
    out.face_length_mm = run / ung__cos_deg(in->bevel_angle_deg);
    out.removed_ml = (wood_off + tape_off) / 1000;
    out.contact_length_mm = ground - run;
    out.contact_fraction = (ground - run) / ground;
    out.wedge_before_deg = ung__atan_deg(up / safe_rest);
    out.wedge_after_deg = ung__atan_deg(proud / safe_rest);
    out.lap_left_mm = before ? ung__max(lap - run, 0) : lap;
    out.angle_limit_deg = flat;
    out.run_to_clear_mm = before ? lap : clear_after;
    return out;
}

#include "core/define.h"
