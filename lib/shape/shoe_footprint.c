/* Upper and ground face of a shoe beveled all round, and the mean pressure under a load. */
#include <ungula/shape.h>

#include "shape/polygon.h"

#define NAME shoe_footprint
#define ROOM shape
#define TITLE "faces of a shoe beveled all round, and the mean pressure on the ground"
#define ABOUT                                                                                                        \
    "The upper face is the traced outline moved outward by overhang. From there the shoe's side goes down upright "  \
    "through the upper layer, then inward by edge_bevel: the ground face is the outline moved outward by\n"          \
    "\n"                                                                                                             \
    "    overhang - max(0, thickness - upper_layer) tan(bevel)\n"                                                    \
    "\n"                                                                                                             \
    "along its normals (inward where that is below 0), as outline_inset moves it. An upper layer of 60 mm means "    \
    "that the whole side is upright. The mean pressure is load/area of the ground face (N/mm2 = MPa). Refused where " \
    "a face would have a cusp, cross or touch itself."
#define ACCURACY                                                                                                     \
    "As outline_inset and outline_measure: of the polygon through the points about 1e-14; against the smooth curve " \
    "the error falls with the square of the points' distance."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Normal displacement (plane geometry); pressure is force over area", "the relations")                  \
    S(CHOICE, "Less than half is a narrow base for the hoof above", "the ground face that is called small")          \
    S(CHOICE, "A corner that a hand's dressing would not keep", "the radius of 3 mm that is called sharp")
#define INPUTS(F)                                                                                                    \
    F(toe_direction_deg, -360, 360, -180, 180, 0, NEUTRAL, MEASURE, "where the toe points: 0 along x, 90 along y")   \
    F(shoe_thickness_mm, 5, 100, 16, 40, REQUIRED, GIVEN, MEASURE, "thickness of the shoe")                          \
    F(overhang_mm, -20, 60, 0, 10, 0, NEUTRAL, MEASURE, "how far the upper face stands out beyond the hoof")         \
    F(upper_layer_mm, 0, 60, 6, 10, 60, NEUTRAL, MEASURE, "part of the thickness, from above, whose side is upright") \
    F(edge_bevel_deg, 0, 60, 0, 45, 0, NEUTRAL, MEASURE, "how far the side below it leans in from upright")          \
    F(load_n, 0, 40000, 0, 6000, 0, NEUTRAL, MEASURE, "force on this shoe; 0: none given, pressure 0")
#define OUTPUTS(F)                                                                                                   \
    F(shoe_area_mm2, FINITE, "upper face")                                                                           \
    F(ground_face_mm2, FINITE, "ground face")                                                                        \
    F(ground_perimeter_mm, FINITE, "length of the ground face's edge")                                               \
    F(contact_length_mm, FINITE, "ground face along the toe's direction")                                            \
    F(contact_width_mm, FINITE, "ground face across the toe's direction")                                            \
    F(ground_radius_mm, FINITE, "tightest radius of the ground face's edge where it bulges")                       \
    F(pressure_mpa, FINITE, "load over the area of the ground face")
#define REFUSALS(R)
#define LIST_REFUSALS(R)                                                                                             \
    TRACE_REFUSALS(R)                                                                                                \
    SIMPLE_REFUSAL(R)                                                                                                \
    R(0, "the overhang reaches the outline's local radius of curvature")                                             \
    R(0, "the upper face crosses or touches itself: two edges that begin at these points meet")                      \
    R(0, "the upper face is turned inside out")                                                                      \
    R(0, "the bevel reaches the outline's local radius of curvature; take a smaller bevel")                          \
    R(0, "the ground face crosses or touches itself: two edges that begin at these points meet; take a smaller bevel") \
    R(0, "the ground face is turned inside out; take a smaller bevel")
#define CAUTIONS(C)                                                                                                  \
    C(WARN, small_face, OUT(ground_face_mm2), 1, OUT(shoe_area_mm2), -0.5, BELOW, 0, NO_GUARD,                       \
      "the ground face is less than half of the upper face")                                                         \
    C(NOTE, sharp, OUT(ground_radius_mm), 1, NO_FIELD, 0, BELOW, 3, NO_GUARD,                                        \
      "the bevel nearly reaches the outline's local radius: the ground face has a sharp corner")
#define STANDING(S)                                                                                                  \
    S("The mean pressure is not the peak: load is uneven under a hoof, and on soft or uneven ground the contact is "  \
      "not the ground face.")                                                                                        \
    S("Hand noise shows in normals first: smooth a trace with outline_fit before moving it.")
#define LISTS(L) L(GIVEN, outline, ung_point, 3, TRACE_ROWS_MOST, NO_FIELD, POINT_FIELDS, TRACE_MEANING)
#define WORK_PER_ROW 7 /* the moved points, and the test for crossing */
#define WORK_MORE 128

_Static_assert(WORK_PER_ROW >= 2 + UNG_SIMPLE_WORK && WORK_MORE >= UNG_SIMPLE_MORE, "room for points and test");

UNG_INLINE ung_shoe_footprint_out formula(const ung_shoe_footprint_in *in, const ung_rows *rows, ung__where *where)
{
    ung_shoe_footprint_out out = {0};
    double *moved = rows[1].data, *work = moved + 2 * rows[0].count;
    const ung__polygon trace = ung__polygon_of(rows, work, where);
    if (where->refusal != 0)
        return out;
    const double lean = ung__max(in->shoe_thickness_mm - in->upper_layer_mm, 0) * ung__tan_deg(in->edge_bevel_deg);
    const double first = TRACE_MEETS + 1, next = first + MOVE_COUNT;
    const ung__move upper = ung__polygon_move(&trace, -in->overhang_mm, 0, moved, work, first, where);
    if (where->refusal != 0)
        return out;
    const ung__move ground = ung__polygon_move(&trace, lean - in->overhang_mm, 0, moved, work, next, where);
    if (where->refusal != 0)
        return out;
    const double cosine = ung__cos_deg(in->toe_direction_deg), sine = ung__sin_deg(in->toe_direction_deg);
    const ung__extent e = ung__polygon_extent(moved, trace.n, cosine, sine);
    out.shoe_area_mm2 = upper.area;
    out.ground_face_mm2 = ground.area;
    out.ground_perimeter_mm = ground.perimeter;
    out.contact_length_mm = e.ahead_high - e.ahead_low;
    out.contact_width_mm = e.left_high - e.left_low;
    out.ground_radius_mm = ground.least_radius_left;
    out.pressure_mpa = in->load_n / ground.area;
    return out;
}

#include "core/define.h"
