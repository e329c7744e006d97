/* A screw from the shoe up into the hoof wall, in a section square to the wall.
 *
 *        outer   inner                 u: inward from the outer edge of the wall, z: up from the bearing plane.
 *         face    face                 Outer face u = z cot B, inner face u = z cot B + T/sin B; sensitive is what lies
 *          \        \  sensitive       inward of the inner face and above the insensitive sole horn.
 *           \   |    \__________       The axis meets the bearing plane at u = inset and leans inward by tilt going up.
 *            \  |     \ sole horn      A cover is the least distance along the axis, less the radius of the thread.
 *     z = 0   \_|______\_________
 *               |  shoe
 */
#include "screw/wall.h"

#define NAME screw_depth
#define ROOM screw
#define TITLE "depth of a screw against the thickness of the hoof wall"
#define ABOUT                                                                                                        \
    "How deep a screw driven from the shoe up into the horn may go, and what horn is left round it. In a section "  \
    "square to the wall, u is the distance inward from the wall's outer edge on the ground, z the height, B the "   \
    "wall angle and T the wall's thickness: the outer face is u = z cot B, the inner face u = z cot B + T/sin B. "  \
    "Where the inner face meets the ground is the white line. Sensitive tissue is taken to fill everything inward " \
    "of the inner face and above the sole's insensitive horn.\n"                                                     \
    "\n"                                                                                                             \
    "    wood path = (shoe - recess + pad)/cos(tilt);  embedded e = max(0, screw length - wood path)\n"              \
    "    axis: u = inset + l sin(tilt), z = l cos(tilt), 0 <= l <= e\n"                                              \
    "    outer_cover = least of (u - z cot B) sin B, less the thread's radius r\n"                                   \
    "    inner_cover = least signed distance to the sensitive region, less r\n"                                      \
    "    white_line_cover = least of T - (u - z cot B) sin B for z up to the sole horn or the tip, less r\n"         \
    "    edge_cover = least distance to the shoe's side, upright or beveled, from the axis inside the shoe, less r\n" \
    "    margin = least of each cover less its margin, and of height_limit less the tip's height\n"                  \
    "    depth_limit = longest e on this axis with margin >= 0 (0 where the entry fails)\n"                          \
    "    screw_length_limit = wood path + depth_limit\n"                                                             \
    "    margin_worst = least margin at e + seat_allowance (e held) over tilt - error, tilt and tilt + error\n"      \
    "    hold_length = max(0, e - 2 diameters): the point holds nothing\n"                                           \
    "    parallel_tilt = 90 - B;  centred_inset = T/(2 sin B);  largest_diameter = T - both margins\n"               \
    "\n"                                                                                                             \
    "Covers are negative where the thread has broken through. The signed distance is measured to the nearer of "    \
    "inner face, floor and the corner between them; inside the sensitive region it is minus the smaller depth. A "  \
    "cover less the radius is on the safe side for a slanted screw. The margins are practice or choice and can be "  \
    "changed, never silently."
#define ACCURACY                                                                                                     \
    "Covers and margins: absolute error below 1e-11 mm in the accepted ranges (closed forms; held against a search " \
    "along the axis). Limits: below 1e-11 mm over the sine of the angle between axis and face."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Plane geometry of a section square to the wall", "covers and limits")                                 \
    S(PUBLISHED,                                                                                                     \
      "Sasaki O, Kuwano A, Sasaki N, Yoshihara T, Hara S 2007. Frequency spectral evaluation about hemoglobin "     \
      "kinetics of pedal circulation. J Equine Sci 18(4):137-144, Table 2",                                          \
      "horn at the toe 9.4 mm (SD 1.4, n 34); behind it 5.8 mm of living lamellae")                                  \
    S(PUBLISHED, "Lungwitz A, transl. Adams JW. A text-book of horseshoeing, 11th ed. 1913, p. 47, quoting Mayer",                  \
      "wall 9.5 to 15.9 mm at the toe, 5.1 to 10.2 mm at the quarters")                                              \
    S(PUBLISHED, "ANSI/AWC NDS-2018, 12.1.5.6", "no published rule for wood reaches below 6 diameters of embedment") \
    S(PRACTICE, "Common practice, no source", "margins of 2 mm inward, 1.5 mm outward, 3 mm to the shoe's side; tip not above 25 mm") \
    S(PRACTICE, "Common practice, no source", "about 10 mm of living tissue between sole horn and bone")             \
    S(CHOICE, "The point, two diameters long, strips nothing", "hold_length")
#define INPUTS(F)                                                                                                    \
    F(wall_thickness_mm, 2, 20, 5, 13, REQUIRED, GIVEN, MEASURE, "horn square to the wall where the screw goes (wall_from_border)") \
    F(wall_angle_deg, 35, 150, 45, 100, REQUIRED, GIVEN, MEASURE, "inside the horn, bearing plane to outer face; at the heels 180 - heel angle") \
    F(inset_mm, 1, 80, 2, 12, REQUIRED, GIVEN, MEASURE, "axis inward of the wall's outer edge, on the bearing plane") \
    F(shoe_thickness_mm, 5, 100, 16, 40, REQUIRED, GIVEN, MEASURE, "wood where the screw goes")                      \
    F(tilt_deg, -60, 60, -5, 25, 0, NEUTRAL, MEASURE, "axis leaning inward going up; 0 upright")                     \
    F(sole_horn_mm, 0, 25, 3, 8, 0, NEUTRAL, MEASURE, "insensitive sole horn at the rim, without the living tissue above it") \
    SCREW_INPUTS(F)
#define OUTPUTS(F)                                                                                                   \
    F(embedded_mm, FINITE, "length of screw in the horn")                                                            \
    F(hold_length_mm, FINITE, "length that holds: embedded, without the point")                                              \
    F(tip_height_mm, FINITE, "tip above the bearing plane")                                                          \
    F(inner_cover_mm, FINITE, "least horn between thread and sensitive tissue")                                      \
    F(outer_cover_mm, FINITE, "least horn between thread and outer face")                                            \
    F(white_line_cover_mm, FINITE, "least horn between thread and white line, at the sole")                          \
    F(edge_cover_mm, FINITE, "least wood between thread and the shoe's side")                                        \
    F(head_inset_mm, FINITE, "head's axis inward of the wall's outer edge")                                          \
    F(margin_mm, FINITE, "what is left of the tightest margin; below 0 the screw must not be driven")                \
    F(margin_worst_mm, FINITE, "the same with a hand's error in tilt and seating")                                   \
    F(depth_limit_mm, FINITE, "deepest embedment on this axis that keeps every margin")                              \
    F(screw_length_limit_mm, FINITE, "longest screw that keeps every margin, before the hand's error")               \
    F(parallel_tilt_deg, FINITE, "tilt at which the axis runs parallel to the wall")                                 \
    F(centred_inset_mm, FINITE, "inset at which such an axis lies in the middle of the wall")                        \
    F(largest_diameter_mm, FINITE, "thickest screw that any line in this wall has room for")
#define REFUSALS(R) R(head_recess_mm, IN(shoe_thickness_mm), "the head's recess must be less than the shoe's thickness")
#define CAUTIONS(C)                                                                                                  \
    C(STOP, breach, OUT(margin_mm), 1, NO_FIELD, 0, BELOW, 0, NO_GUARD,                                              \
      "the screw leaves less horn or wood than its margins ask for: do not drive it")                                \
    C(STOP, white_line, OUT(white_line_cover_mm), 1, NO_FIELD, 0, BELOW, 0, NO_GUARD,                                \
      "the screw crosses the white line: do not drive it")                                                           \
    C(WARN, hand_error, OUT(margin_worst_mm), 1, NO_FIELD, 0, BELOW, 0, NO_GUARD,                                    \
      "a hand's error would breach: guide the drill and stop it at the planned depth, or take a shorter or thinner screw")               \
    C(WARN, no_line, IN(screw_diameter_mm), 1, OUT(largest_diameter_mm), -1, ABOVE, 0, NO_GUARD,                     \
      "no line in this wall has room for this screw: use a thinner one, or bond and tape alone")                     \
    C(WARN, no_reach, OUT(embedded_mm), 1, NO_FIELD, 0, EQUAL, 0, NO_GUARD, "the screw does not reach the horn")     \
    C(WARN, short_hold, OUT(hold_length_mm), 1, IN(screw_diameter_mm), -2, BELOW, 0, OUT(embedded_mm), ABOVE, 0,     \
      "less than two diameters of thread hold")                                                                      \
    C(WARN, thick_wall, IN(wall_thickness_mm), 1, NO_FIELD, 0, ABOVE, 13, NO_GUARD,                                  \
      "more than 13 mm of horn is found only at the toe of large feet: a radiograph's distance to the bone includes about 6 mm of living tissue") \
    C(WARN, thick_sole, IN(sole_horn_mm), 1, NO_FIELD, 0, ABOVE, 8, NO_GUARD,                                        \
      "more than 8 mm of insensitive sole horn is unusual: a radiograph's depth to the bone includes about 10 mm of living tissue")
#define STANDING(S)                                                                                                  \
    S("Radiographs and a veterinarian first; no screw in a cracked, undermined or diseased wall.")                   \
    S("The drill reaches tissue before the screw does: stop it at the same depth.")                                  \
    S("Published practice drives screws through the wall into the wood; none was found for screws from the shoe up.") \
    S("Embedments below six diameters are outside every published rule for wood, and there is none for horn.")       \
    S("Behind the widest point the wall leans the other way: a wall_angle_deg below 70 there is probably the heel's own angle; give 180 less it.")

UNG_INLINE ung_screw_depth_out formula(const ung_screw_depth_in *in, double *refusal)
{
    ung__wall w = ung__wall_of(in->wall_thickness_mm, in->wall_angle_deg, in->sole_horn_mm);
    double cos_t = ung__cos_deg(in->tilt_deg), tan_t = ung__tan_deg(in->tilt_deg);
    double wood = (in->shoe_thickness_mm - in->head_recess_mm + in->pad_mm) / cos_t;
    double embedded = ung__max(in->screw_length_mm - wood, 0);

    ung__covers asked = ung__covers_at(in, &w, in->tilt_deg, embedded);
    ung__covers entry = ung__covers_at(in, &w, in->tilt_deg, 0);
    double deeper = embedded + in->seat_allowance_mm;
    ung__covers less = ung__covers_at(in, &w, in->tilt_deg - in->tilt_error_deg, deeper);
    ung__covers same = ung__covers_at(in, &w, in->tilt_deg, deeper);
    ung__covers more = ung__covers_at(in, &w, in->tilt_deg + in->tilt_error_deg, deeper);
    double limit = entry.margin >= 0 ? ung__depth_limit(in, &w) : 0;

    *refusal = in->head_recess_mm < in->shoe_thickness_mm ? 0 : 1;
    ung_screw_depth_out out;
    out.embedded_mm = embedded;
    out.hold_length_mm = ung__max(embedded - 2 * in->screw_diameter_mm, 0);
    out.tip_height_mm = embedded * cos_t;
    out.inner_cover_mm = asked.inner;
    out.outer_cover_mm = asked.outer;
    out.white_line_cover_mm = asked.white_line;
    out.edge_cover_mm = asked.edge;
    out.head_inset_mm = in->inset_mm - (in->shoe_thickness_mm - in->head_recess_mm + in->pad_mm) * tan_t;
    out.margin_mm = asked.margin;
    out.margin_worst_mm = ung__min(ung__min(less.margin, same.margin), more.margin);
    out.depth_limit_mm = limit;
    out.screw_length_limit_mm = wood + limit;
    out.parallel_tilt_deg = 90 - in->wall_angle_deg;
    out.centred_inset_mm = w.thickness / (2 * w.sin_b);
    out.largest_diameter_mm = w.thickness - in->inner_margin_mm - in->outer_margin_mm;
    return out;
}

#include "core/define.h"
