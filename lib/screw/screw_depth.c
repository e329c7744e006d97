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
#include <ungula/screw.h>

#include "core/elementary.h"

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
    "    edge_cover = least distance to the shoe's side from the part of the axis inside the shoe, less r\n"         \
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
    "Covers, margins and limits: absolute error below 1e-11 mm in the accepted ranges (closed forms; held against a " \
    "search along the axis in extended precision)."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Plane geometry of a section square to the wall", "covers and limits")                                 \
    S(PUBLISHED,                                                                                                     \
      "Sasaki O, Kuwano A, Sasaki N, Yoshihara T, Hara S 2007. Frequency spectral evaluation about hemoglobin "     \
      "kinetics of pedal circulation. J Equine Sci 18(4):137-144, Table 2",                                          \
      "horn at the toe 9.4 mm (SD 1.4, n 34); behind it 5.8 mm of living lamellae")                                  \
    S(PUBLISHED, "Lungwitz A, transl. Adams JW. A text-book of horseshoeing, 11th ed. 1913, p. 47",                  \
      "wall 9.5 to 15.9 mm at the toe, 5.1 to 10.2 mm at the quarters")                                              \
    S(PUBLISHED, "ANSI/AWC NDS-2018, 12.1.5.6", "no published rule for wood reaches below 6 diameters of embedment") \
    S(PRACTICE, "Common practice, no source", "margins of 2 mm inward, 1.5 mm outward, 3 mm to the shoe's side; tip not above 25 mm") \
    S(CHOICE, "The point, two diameters long, strips nothing", "hold_length")
#define INPUTS(F)                                                                                                    \
    F(wall_thickness_mm, 2, 20, 5, 13, REQUIRED, GIVEN, MEASURE, "horn square to the wall where the screw goes (wall_from_border)") \
    F(wall_angle_deg, 35, 150, 45, 100, REQUIRED, GIVEN, MEASURE, "inside the horn, bearing plane to outer face; at the heels 180 - heel angle") \
    F(inset_mm, 1, 80, 2, 12, REQUIRED, GIVEN, MEASURE, "axis inward of the wall's outer edge, on the bearing plane") \
    F(screw_diameter_mm, 1.5, 10, 3.5, 5.5, REQUIRED, GIVEN, MEASURE, "outside of the thread")                       \
    F(screw_length_mm, 8, 150, 25, 50, REQUIRED, GIVEN, MEASURE, "nominal length")                                   \
    F(shoe_thickness_mm, 5, 100, 16, 40, REQUIRED, GIVEN, MEASURE, "wood where the screw goes")                      \
    F(tilt_deg, -60, 60, -5, 25, 0, NEUTRAL, MEASURE, "axis leaning inward going up; 0 upright")                     \
    F(head_recess_mm, 0, 60, 0, 8, 0, NEUTRAL, MEASURE, "depth under the ground face of the plane the length is measured from") \
    F(pad_mm, 0, 30, 0, 10, 0, NEUTRAL, MEASURE, "pad or packing between shoe and horn")                             \
    F(sole_horn_mm, 0, 25, 3, 8, 0, NEUTRAL, MEASURE, "insensitive sole horn at the rim, without the living tissue above it") \
    F(height_limit_mm, 5, 120, 15, 30, 25, PRACTICE, MEASURE, "highest place for the tip above the bearing plane")   \
    F(overhang_mm, -20, 60, 0, 15, 0, NEUTRAL, MEASURE, "how far the shoe stands out beyond the wall")               \
    F(upper_layer_mm, 0, 60, 6, 10, 60, NEUTRAL, MEASURE, "upright part of the shoe's side; 60 = the whole side")    \
    F(edge_bevel_deg, 0, 60, 0, 45, 0, NEUTRAL, MEASURE, "how far the shoe's side leans in below the upright part")              \
    F(inner_margin_mm, 0, 15, 2, 4, 2, PRACTICE, MEASURE, "least horn wanted toward sensitive tissue")               \
    F(outer_margin_mm, 0, 15, 1, 3, 1.5, PRACTICE, MEASURE, "least horn wanted toward the outer face")               \
    F(white_line_margin_mm, 0, 10, 0, 2, 0, NEUTRAL, MEASURE, "least horn wanted toward the white line at the sole") \
    F(edge_margin_mm, 0, 20, 2, 6, 3, PRACTICE, MEASURE, "least wood wanted toward the shoe's side")                 \
    F(seat_allowance_mm, 0, 10, 1, 3, 2, PRACTICE, MEASURE, "how much deeper the screw may be pulled")               \
    F(tilt_error_deg, 0, 15, 3, 8, 5, PRACTICE, MEASURE, "how far a hand's drill strays from the tilt")
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
      "more than 13 mm of horn is unusual: a radiograph's distance to the bone includes about 6 mm of living tissue") \
    C(WARN, thick_sole, IN(sole_horn_mm), 1, NO_FIELD, 0, ABOVE, 8, NO_GUARD,                                        \
      "more than 8 mm of insensitive sole horn is unusual: a radiograph's depth to the bone includes about 10 mm of living tissue")
#define STANDING(S)                                                                                                  \
    S("Radiographs and a veterinarian first; no screw in a cracked, undermined or diseased wall.")                   \
    S("The drill reaches tissue before the screw does: stop it at the same depth.")                                  \
    S("Embedments below six diameters are outside every published rule for wood, and there is none for horn.")       \
    S("Behind the widest point the wall leans the other way: a wall_angle_deg below 70 there is probably the heel's own angle; give 180 less it.")

/* What one evaluation of the covers needs. */
typedef struct wall {
    double thickness, sin_b, cos_b, sole, corner; /* corner: u where inner face and floor meet */
} wall;

UNG_INLINE double to_face(const wall *w, double u, double z) /* outward of the inner face */
{
    return w->thickness - (u * w->sin_b - z * w->cos_b);
}

/* Signed distance to the sensitive region, positive outside: to the floor, the inner face, or their corner. */
UNG_INLINE double to_sensitive(const wall *w, double u, double z)
{
    double face = to_face(w, u, z), floor = w->sole - z;
    double du = u - w->corner, corner = ung__sqrt(du * du + floor * floor);
    double beside = z - face * w->cos_b >= w->sole ? face : corner; /* abreast of the inner face, or of its lower end */
    double aside = face > 0 ? beside : corner, under = u >= w->corner ? floor : aside;
    double inside = ung__max(face, floor), outside = floor > 0 ? under : aside;
    return inside <= 0 ? inside : outside;
}

typedef struct covers {
    double inner, outer, white_line, edge, margin;
} covers;

/* Every cover of an axis with this tilt and embedment. */
UNG_INLINE covers covers_at(const ung_screw_depth_in *in, const wall *w, double tilt, double embedded)
{
    double sin_t = ung__sin_deg(tilt), cos_t = ung__cos_deg(tilt), tan_t = sin_t / cos_t;
    double r = in->screw_diameter_mm / 2, e = embedded, inset = in->inset_mm;
    double tip_u = inset + e * sin_t, tip_z = e * cos_t;
    covers c;

    /* The distance to a convex set is convex along the axis: its least value is at an end, abreast of the corner, or
     * inside where face and floor are equally near. */
    double closing = sin_t * w->sin_b - cos_t * w->cos_b; /* of axis and inner face, = -cos(B + tilt) */
    double abreast = (w->corner - inset) * sin_t + w->sole * cos_t;
    double rate = cos_t - closing, apart = w->sole - to_face(w, inset, 0);
    double even = apart / (rate != 0 ? rate : 1); /* face and floor equally near; parallel to their bisector: any point does */
    double l1 = ung__clamp(abreast, 0, e), l2 = ung__clamp(even, 0, e);
    double least = ung__min(to_sensitive(w, inset, 0), to_sensitive(w, tip_u, tip_z));
    least = ung__min(least, to_sensitive(w, inset + l1 * sin_t, l1 * cos_t));
    least = ung__min(least, to_sensitive(w, inset + l2 * sin_t, l2 * cos_t));
    c.inner = least - r;

    double at_entry = inset * w->sin_b, at_tip = tip_u * w->sin_b - tip_z * w->cos_b;
    c.outer = ung__min(at_entry, at_tip) - r;

    double sole_l = ung__min(w->sole / cos_t, e); /* the white line counts up to the sole horn */
    double at_sole = (inset + sole_l * sin_t) * w->sin_b - sole_l * cos_t * w->cos_b;
    c.white_line = w->thickness - ung__max(at_entry, at_sole) - r;

    /* Inside the shoe, d below its upper face: straight pieces, so their ends decide. */
    double whole = in->shoe_thickness_mm - in->head_recess_mm;
    double upper = in->upper_layer_mm >= 60 ? whole : in->upper_layer_mm;
    double tan_b = ung__tan_deg(in->edge_bevel_deg), cos_bevel = ung__cos_deg(in->edge_bevel_deg);
    double shelf = ung__min(upper, whole), out = inset + in->overhang_mm;
    double at_top = out - in->pad_mm * tan_t, at_shelf = out - (shelf + in->pad_mm) * tan_t;
    double at_head = (out - (whole + in->pad_mm) * tan_t - (whole - shelf) * tan_b) * cos_bevel;
    double leaning = ung__min(at_shelf * cos_bevel, at_head);
    double edge = ung__min(at_top, at_shelf), leaned = ung__min(edge, leaning);
    double below = whole >= upper ? leaned : edge;
    c.edge = (in->upper_layer_mm < 60 ? below : edge) - r;

    c.margin = ung__min(ung__min(c.inner - in->inner_margin_mm, c.outer - in->outer_margin_mm),
                        ung__min(c.white_line - in->white_line_margin_mm, c.edge - in->edge_margin_mm));
    c.margin = ung__min(c.margin, in->height_limit_mm - tip_z);
    return c;
}

/* The longest embedment that keeps every margin, given that the entry does.  The margins' regions are convex or half
 * planes, so each is left once. */
UNG_INLINE double depth_limit(const ung_screw_depth_in *in, const wall *w)
{
    const double far = 1e9; /* never: the height limit comes long before */
    double sin_t = ung__sin_deg(in->tilt_deg), cos_t = ung__cos_deg(in->tilt_deg);
    double r = in->screw_diameter_mm / 2, inset = in->inset_mm;
    double closing = sin_t * w->sin_b - cos_t * w->cos_b;
    double some = closing != 0 ? closing : 1;
    double depth = inset * w->sin_b; /* of the entry, inward of the outer face */

    double outer = closing < 0 ? (depth - r - in->outer_margin_mm) / -some : far;
    double white = (w->thickness - depth - r - in->white_line_margin_mm) / some;
    white = white < w->sole / cos_t ? white : far;
    white = closing > 0 ? white : far;
    double high = in->height_limit_mm / cos_t;

    /* Where the axis enters what is nearer than `near` to the sensitive region: the part common to both half planes,
     * or, beyond their corner, the circle round it. */
    double near = r + in->inner_margin_mm, face = w->thickness - depth;
    double by_face = (face - near) / some; /* face distance passes `near` here */
    double enter_face = face <= near ? 0 : closing > 0 ? by_face : far;
    double leave_face = closing < 0 ? by_face : far;
    double enter = ung__max(ung__max(enter_face, (w->sole - near) / cos_t), 0);
    double met = to_sensitive(w, inset + enter * sin_t, enter * cos_t);
    double cu = w->corner - inset, along = cu * sin_t + w->sole * cos_t, across = cu * cos_t - w->sole * sin_t;
    double chord = near * near - across * across;
    double touched = along - ung__sqrt(ung__max(chord, 0));
    double circle = chord < 0 ? far : touched < 0 ? far : touched;
    double inner = enter > leave_face ? far : met <= near * (1 + 1e-12) ? enter : circle;

    return ung__max(ung__min(ung__min(outer, white), ung__min(high, inner)), 0);
}

UNG_INLINE ung_screw_depth_out formula(const ung_screw_depth_in *in, double *refusal)
{
    wall w;
    w.thickness = in->wall_thickness_mm;
    w.sin_b = ung__sin_deg(in->wall_angle_deg);
    w.cos_b = ung__cos_deg(in->wall_angle_deg);
    w.sole = in->sole_horn_mm;
    w.corner = (w.thickness + w.sole * w.cos_b) / w.sin_b;
    double cos_t = ung__cos_deg(in->tilt_deg), tan_t = ung__tan_deg(in->tilt_deg);
    double wood = (in->shoe_thickness_mm - in->head_recess_mm + in->pad_mm) / cos_t;
    double embedded = ung__max(in->screw_length_mm - wood, 0);

    covers asked = covers_at(in, &w, in->tilt_deg, embedded);
    covers entry = covers_at(in, &w, in->tilt_deg, 0);
    double deeper = embedded + in->seat_allowance_mm;
    covers less = covers_at(in, &w, in->tilt_deg - in->tilt_error_deg, deeper);
    covers same = covers_at(in, &w, in->tilt_deg, deeper);
    covers more = covers_at(in, &w, in->tilt_deg + in->tilt_error_deg, deeper);
    double limit = entry.margin >= 0 ? depth_limit(in, &w) : 0;

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
