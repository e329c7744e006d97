/* A screw from the outer face of the hoof wall down into the shoe, in a section square to the wall.
 *
 *     \ head   \             The axis enters the outer face at height h and dips d below the horizontal; s runs along
 *      \\       \ sensitive  it from the outer face.  u, z, outer and inner face and the sensitive region are
 *       \ \      \_______    screw_depth's.
 *        \  \     sole horn
 * z = 0   \___\____________
 *        |      \      shoe
 */
#include "core/contract.h"
#include "screw/wall.h"

#define NAME screw_through
#define ROOM screw
#define TITLE "screw from the outer face of the hoof wall down into the shoe"
#define ABOUT                                                                                                        \
    "What horn and wood is left round a screw driven in at the outer face of the wall and down into the shoe, how "  \
    "long it may be and how high it may enter. The section square to the wall, its wall angle B, thickness T and "   \
    "sensitive region are screw_depth's. The axis enters the outer face at height h and dips d below the "           \
    "horizontal; s runs along it, r is the thread's radius.\n"                                                       \
    "\n"                                                                                                             \
    "    horn_length = h/sin d;  grip = horn_length - recess;  exit_inset = h (cot B + cot d)\n"                     \
    "    depth inward of the outer face = s sin(B + d);  z = h - s sin d\n"                                          \
    "    inner_cover = least signed distance to the sensitive region for s from 0 to horn_length, less r\n"          \
    "    white_line_cover = T - horn_length sin(B + d) - r;  outer_cover = horn_length sin(B + d) - r\n"             \
    "    wood_length = max(0, recess + screw length - horn_length - pad/sin d);  tip_depth = wood_length sin d\n"    \
    "    ground_cover = shoe - tip_depth - r\n"                                                                      \
    "    edge_cover = least distance to the shoe's side of the part in the shoe, less r\n"                           \
    "    seat_angle = |90 - (B + d)|\n"                                                                              \
    "    margin = least of each cover less its margin (the white line's is 0), and of wood_length - least_wood\n"    \
    "    shortest = horn_length - recess + pad/sin d + least_wood\n"                                                 \
    "    longest = horn_length - recess + pad/sin d + w, w the greatest wood_length that keeps ground and edge margin\n" \
    "    entry_low: the outer margin is kept from here up;  entry_high: white line and inner margin, from here down\n" \
    "\n"                                                                                                             \
    "White line and outer face are met on the bearing plane: outer and white_line_cover together are T less the "    \
    "screw's diameter. The shoe's side is upright down to upper_layer and leans in by edge_bevel below it. shortest " \
    "and longest are both 0 where a margin fails whatever the length is. A screw at any height from entry_low to "   \
    "entry_high keeps the horn's margins; both are 0 where no height does."
#define ACCURACY                                                                                                     \
    "Covers, margins, lengths and heights: absolute error below 1e-11 mm in the usual ranges; in the accepted ones " \
    "the same relative to the greatest length involved, which grows without bound as wall_angle_deg + dip_deg nears " \
    "180 (closed forms; held against a search along the axis in extended precision)."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Plane geometry of a section square to the wall", "covers, lengths, the window of entry heights")      \
    S(PUBLISHED, "ANSI/AWC NDS-2018, 12.1.5.6", "no published rule for wood reaches below 6 diameters of embedment") \
    S(PRACTICE, "Common practice, no source",                                                                        \
      "margins of 3 mm inward, 1.5 mm outward, 3 mm to the ground face and to the shoe's side; 12 mm of thread in the wood") \
    S(CHOICE, "A head sunk by more than a third of the wall, or tilted by more than 45 degrees to the face, has no seat", \
      "deep_recess, seat")
#define INPUTS(F)                                                                                                    \
    F(wall_thickness_mm, 2, 20, 5, 13, REQUIRED, GIVEN, MEASURE, "horn square to the wall where the screw goes (wall_from_border)") \
    F(wall_angle_deg, 35, 150, 45, 100, REQUIRED, GIVEN, MEASURE, "inside the horn, bearing plane to outer face; at the heels 180 - heel angle") \
    F(entry_height_mm, 1, 80, 5, 20, REQUIRED, GIVEN, MEASURE, "axis above the bearing plane on the wall's outer face") \
    F(screw_diameter_mm, 1.5, 10, 3.5, 5.5, REQUIRED, GIVEN, MEASURE, "outside of the thread")                       \
    F(screw_length_mm, 8, 150, 25, 50, REQUIRED, GIVEN, MEASURE, "nominal length")                                   \
    F(shoe_thickness_mm, 5, 100, 16, 40, REQUIRED, GIVEN, MEASURE, "wood where the screw goes")                      \
    F(dip_deg, 20, 90, 45, 75, 60, CHOICE, MEASURE, "axis below the horizontal; 90 straight down")                   \
    F(head_recess_mm, 0, 6, 0, 1.5, 0, NEUTRAL, MEASURE, "depth under the outer face, along the axis, of the plane the length is measured from") \
    F(pad_mm, 0, 30, 0, 6, 0, NEUTRAL, MEASURE, "pad or packing between shoe and horn")                              \
    F(sole_horn_mm, 0, 25, 3, 8, 0, NEUTRAL, MEASURE, "insensitive sole horn at the rim, without the living tissue above it") \
    F(overhang_mm, -20, 60, 0, 10, 0, NEUTRAL, MEASURE, "how far the shoe stands out beyond the wall")               \
    F(upper_layer_mm, 0, 60, 6, 10, 60, NEUTRAL, MEASURE, "upright part of the shoe's side; 60 = the whole side")    \
    F(edge_bevel_deg, 0, 60, 0, 45, 0, NEUTRAL, MEASURE, "how far the shoe's side leans in below the upright part")  \
    F(inner_margin_mm, 0, 15, 2, 4, 3, PRACTICE, MEASURE, "least horn wanted toward sensitive tissue")               \
    F(outer_margin_mm, 0, 15, 1, 3, 1.5, PRACTICE, MEASURE, "least horn wanted toward the outer face, on the bearing plane") \
    F(ground_margin_mm, 0, 20, 2, 5, 3, PRACTICE, MEASURE, "least wood wanted toward the ground face")               \
    F(edge_margin_mm, 0, 20, 2, 6, 3, PRACTICE, MEASURE, "least wood wanted toward the shoe's side")                 \
    F(least_wood_mm, 0, 60, 12, 25, 12, PRACTICE, MEASURE, "least length wanted in the wood")                        \
    F(belt_top_mm, 0, 120, 0, 45, 0, NEUTRAL, MEASURE, "top of the belt of tape and adhesive there; 0 = not given")
#define OUTPUTS(F)                                                                                                   \
    F(horn_length_mm, FINITE, "axis in the horn, outer face to bearing plane")                                       \
    F(grip_mm, FINITE, "horn under the head, along the axis")                                                        \
    F(exit_inset_mm, FINITE, "where the axis leaves the horn, inward of the wall's outer edge")                      \
    F(wood_length_mm, FINITE, "screw in the wood")                                                                   \
    F(tip_depth_mm, FINITE, "tip below the shoe's upper face")                                                       \
    F(inner_cover_mm, FINITE, "least horn between thread and sensitive tissue")                                      \
    F(outer_cover_mm, FINITE, "horn between thread and outer face, on the bearing plane")                            \
    F(white_line_cover_mm, FINITE, "horn between thread and white line, on the bearing plane")                       \
    F(ground_cover_mm, FINITE, "wood between tip and ground face")                                                   \
    F(edge_cover_mm, FINITE, "least wood between thread and the shoe's side")                                        \
    F(margin_mm, FINITE, "what is left of the tightest margin; below 0 the screw must not be driven")                \
    F(shortest_mm, FINITE, "shortest screw that keeps every margin; 0: there is none")                               \
    F(longest_mm, FINITE, "longest screw that keeps every margin; 0: there is none")                                 \
    F(seat_angle_deg, FINITE, "axis against the square to the outer face, on which a head seats flat")               \
    F(entry_low_mm, FINITE, "lowest entry that keeps the horn's margins; 0: there is none")                          \
    F(entry_high_mm, FINITE, "highest entry that keeps the horn's margins; 0: there is none")
#define REFUSALS(R)                                                                                                  \
    R(dip_deg, IN(wall_angle_deg), "the axis must go into the wall: dip and wall angle together must be less than 180 deg")
#define CAUTIONS(C)                                                                                                  \
    C(STOP, breach, OUT(margin_mm), 1, NO_FIELD, 0, BELOW, 0, NO_GUARD,                                              \
      "the screw leaves less horn or wood than its margins ask for, or too little of it is in the shoe: do not drive it") \
    C(STOP, white_line, OUT(white_line_cover_mm), 1, NO_FIELD, 0, BELOW, 0, NO_GUARD,                                \
      "the screw crosses the white line: do not drive it")                                                           \
    C(WARN, no_length, OUT(longest_mm), 1, NO_FIELD, 0, EQUAL, 0, NO_GUARD,                                          \
      "no screw of this diameter keeps every margin on this axis, whatever its length")                              \
    C(WARN, no_window, OUT(entry_high_mm), 1, NO_FIELD, 0, EQUAL, 0, NO_GUARD,                                       \
      "no entry height keeps the horn's margins with this dip and diameter")                                         \
    C(WARN, no_reach, OUT(wood_length_mm), 1, NO_FIELD, 0, EQUAL, 0, NO_GUARD, "the screw does not reach the shoe")  \
    C(WARN, deep_recess, IN(head_recess_mm), 3, IN(wall_thickness_mm), -1, ABOVE, 0, NO_GUARD,                       \
      "the head is sunk by more than a third of the wall's thickness")                                               \
    C(WARN, seat, OUT(seat_angle_deg), 1, NO_FIELD, 0, ABOVE, 45, NO_GUARD,                                          \
      "the head meets the outer face too much aslant to seat: spot-face the horn, or take another dip")              \
    C(WARN, short_grip, OUT(grip_mm), 1, IN(screw_diameter_mm), -1, BELOW, 0, NO_GUARD,                              \
      "less than a diameter of horn under the head")                                                                 \
    C(NOTE, short_wood, OUT(wood_length_mm), 1, IN(screw_diameter_mm), -6, BELOW, 0, OUT(wood_length_mm), ABOVE, 0,  \
      "less than six diameters in the wood: below every published rule")                                             \
    C(WARN, above_belt, IN(entry_height_mm), 1, IN(belt_top_mm), -1, ABOVE, 0, IN(belt_top_mm), ABOVE, 0,            \
      "the head lies above the belt of tape and adhesive, which should cover it")                                    \
    C(WARN, thick_wall, IN(wall_thickness_mm), 1, NO_FIELD, 0, ABOVE, 13, NO_GUARD,                                  \
      "more than 13 mm of horn is unusual: a radiograph's distance to the bone includes about 6 mm of living tissue") \
    C(WARN, thick_sole, IN(sole_horn_mm), 1, NO_FIELD, 0, ABOVE, 8, NO_GUARD,                                        \
      "more than 8 mm of insensitive sole horn is unusual: a radiograph's depth to the bone includes about 10 mm of living tissue")
#define STANDING(S)                                                                                                  \
    S("Radiographs and a veterinarian first; no screw in a cracked, undermined or diseased wall.")                   \
    S("The drill reaches tissue before the screw does: guide it, and stop it at the same depth.")                    \
    S("The hand's error in dip and height is not counted: ask for margins that allow for it.")                       \
    S("Behind the widest point the wall leans the other way: a wall_angle_deg below 70 there is probably the heel's own angle; give 180 less it.")

/* Distance from a point in the shoe, `depth` under its upper face, to the line of the side that leans in from `shelf` on.
 * The shoe is convex, so its side is as near as the nearer of this and the upright one. */
UNG_INLINE double to_bevel(double out, double depth, double shelf, double tan_bevel, double cos_bevel)
{
    return (out - (depth - shelf) * tan_bevel) * cos_bevel;
}

/* The highest entry whose axis stays `near` away from the sensitive region.  Higher entries come nearer everywhere.
 * Of the axis in the horn it is its lower end, a point abreast of the corner or its upper end that first does. */
UNG_INLINE double entry_limit(const ung__wall *w, double near, double sin_d, double cos_d, double sin_sum, double cos_sum)
{
    const double far = UNG__INFINITY;
    double height = w->sin_b / sin_sum; /* of the entry, for each mm square to the axis */

    /* Lower end, on the bearing plane: `near` from the inner face, or from the corner. */
    double under = ung__max(near * near - w->sole * w->sole, 0);
    double by_face = w->sole + near * w->cos_b <= 0 ? (w->thickness - near) / w->sin_b : w->corner - ung__sqrt(under);
    double end = w->sole >= near ? far : by_face * sin_d * height;

    /* The axis touches the circle round the corner, at a point above the bearing plane and inward of the outer face. */
    double touch = (w->corner * sin_d + w->sole * cos_d - near) * height;
    double touched = w->sole - near * cos_d >= 0 ? touch : far;
    touched = w->thickness + near * cos_sum >= 0 ? touched : far;

    /* Upper end, on the outer face of a wall thinner than `near`: from the floor, or from the corner. */
    double beside = ung__max(near * near - w->thickness * w->thickness, 0);
    double up = (w->corner * w->cos_b + w->sole * w->sin_b - ung__sqrt(beside)) * w->sin_b;
    double by_floor = w->thickness + near * w->cos_b <= 0 ? w->sole - near : up;
    double start = w->thickness >= near ? far : by_floor;

    return ung__min(ung__min(end, touched), start);
}

UNG_INLINE ung_screw_through_out formula(const ung_screw_through_in *in, double *refusal)
{
    ung__wall w = ung__wall_of(in->wall_thickness_mm, in->wall_angle_deg, in->sole_horn_mm);
    double d = in->dip_deg, sin_d = ung__sin_deg(d), cos_d = ung__cos_deg(d), cot_d = cos_d / sin_d;
    double sum = in->wall_angle_deg + d, sin_sum = ung__sin_deg(sum), cos_sum = ung__cos_deg(sum);
    double r = in->screw_diameter_mm / 2, h = in->entry_height_mm;
    double horn = h / sin_d, entry_u = h * w.cos_b / w.sin_b, exit_u = entry_u + h * cot_d;
    double across = horn * sin_sum; /* depth of the exit, inward of the outer face */

    /* As in screw_depth: an end, abreast of the corner, or inside where face and floor are equally near. */
    double abreast = (w.corner - entry_u) * cos_d + (h - w.sole) * sin_d;
    double even = (w.thickness + h - w.sole) / (sin_d + sin_sum);
    double s1 = ung__clamp(abreast, 0, horn), s2 = ung__clamp(even, 0, horn);
    double least = ung__min(ung__to_sensitive(&w, entry_u, h), ung__to_sensitive(&w, exit_u, 0));
    least = ung__min(least, ung__to_sensitive(&w, entry_u + s1 * cos_d, h - s1 * sin_d));
    least = ung__min(least, ung__to_sensitive(&w, entry_u + s2 * cos_d, h - s2 * sin_d));
    double inner = least - r, outer = across - r, white = w.thickness - across - r;

    double pad_length = in->pad_mm / sin_d, base = horn - in->head_recess_mm + pad_length;
    double wood = ung__max(in->screw_length_mm - base, 0), depth = wood * sin_d;
    double ground = in->shoe_thickness_mm - depth - r;

    /* The axis leans inward going down, away from the upright side; the beveled one may come nearer. */
    double tan_b = ung__tan_deg(in->edge_bevel_deg), cos_b = ung__cos_deg(in->edge_bevel_deg);
    double shelf = in->upper_layer_mm < 60 ? in->upper_layer_mm : 1e9;
    shelf = shelf < in->shoe_thickness_mm ? shelf : 1e9; /* no beveled side: as if it began far below */
    double at_top = exit_u + in->pad_mm * cot_d + in->overhang_mm, at_tip = at_top + depth * cot_d;
    double top_bevel = to_bevel(at_top, 0, shelf, tan_b, cos_b);
    double tip_bevel = to_bevel(at_tip, depth, shelf, tan_b, cos_b);
    double at_entry = ung__min(at_top, top_bevel), edge = ung__min(at_entry, tip_bevel) - r;

    /* The longest part in the wood. */
    double want = in->edge_margin_mm + r;
    double closing = (sin_d * tan_b - cos_d) * cos_b; /* to the beveled side, for each mm of length */
    double bevel_room = closing > 0 ? (top_bevel - want) / closing : UNG__INFINITY;
    double room = ung__min((in->shoe_thickness_mm - in->ground_margin_mm - r) / sin_d, bevel_room);
    double horn_left = ung__min(ung__min(inner - in->inner_margin_mm, outer - in->outer_margin_mm), white);
    double always = ung__min(horn_left, at_entry - want); /* whatever the length is */
    double fits = always >= 0 ? room - in->least_wood_mm : -1;

    double some_sum = sin_sum > 0 ? sin_sum : 1;
    double low = (r + in->outer_margin_mm) * sin_d / some_sum;
    double high = (w.thickness - r) * sin_d / some_sum;
    high = ung__min(high, entry_limit(&w, r + in->inner_margin_mm, sin_d, cos_d, some_sum, cos_sum));

    *refusal = sum < 180 ? 0 : 1;
    ung_screw_through_out out;
    out.horn_length_mm = horn;
    out.grip_mm = horn - in->head_recess_mm;
    out.exit_inset_mm = exit_u;
    out.wood_length_mm = wood;
    out.tip_depth_mm = depth;
    out.inner_cover_mm = inner;
    out.outer_cover_mm = outer;
    out.white_line_cover_mm = white;
    out.ground_cover_mm = ground;
    out.edge_cover_mm = edge;
    out.margin_mm = ung__min(ung__min(horn_left, ground - in->ground_margin_mm),
                             ung__min(edge - in->edge_margin_mm, wood - in->least_wood_mm));
    out.shortest_mm = fits >= 0 ? base + in->least_wood_mm : 0;
    out.longest_mm = fits >= 0 ? base + room : 0;
    out.seat_angle_deg = ung__abs(90 - sum);
    out.entry_low_mm = low <= high ? low : 0;
    out.entry_high_mm = low <= high ? high : 0;
    return out;
}

#include "core/define.h"
