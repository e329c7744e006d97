/* Area, perimeter, extent, centroid and second moments of a traced outline. */
#include <ungula/shape.h>

#include "shape/polygon.h"

#define NAME outline_measure
#define ROOM shape
#define TITLE "area, perimeter, extent and second moments of a traced outline"
#define ABOUT                                                                                                        \
    "Measures the closed polygon through the points of a trace, taken either way round, and tests that it does not " \
    "cross or touch itself. With p a point from the first one, e the edge that begins there and c = p x e "         \
    "(Green's theorem):\n"                                                                                           \
    "\n"                                                                                                             \
    "    area = 1/2 sum c;  centroid = first point + 1/(6 area) sum c (p + p')\n"                                    \
    "    second_x = 1/12 sum c (y^2 + y y' + y'^2) - area cy^2, likewise y\n"                                        \
    "    second_xy = 1/24 sum c (x y' + 2 x y + 2 x' y' + x' y) - area cx cy\n"                                      \
    "\n"                                                                                                             \
    "Length is the extent along toe_direction, width the extent across it; widest_fraction says how far behind the " \
    "toe the outermost points on the left and on the right lie on average, of the length. The polygon through n "   \
    "points of a smooth curve encloses less than the curve, by a share of about 6.6/n^2 for an ellipse with equal " \
    "steps of its parameter. gap_ratio is the distance from the last point to the first over the mean distance of " \
    "the others; 0 where the last point repeats the first."
#define ACCURACY                                                                                                     \
    "Of the polygon itself: relative error of area and perimeter below 2e-15, of second moments below 1e-14 of "   \
    "their sum, of the centroid below 1e-15 of the size (before it is rounded where it lies), also with all "     \
    "coordinates 1e6 mm away from 0 (held against exact rational arithmetic). Crossing and touching are decided " \
    "exactly."
#define SOURCES(S)                                                                                                   \
    S(MEMORY, "Steger C 1996. On the calculation of moments of polygons. Technical report, TU Muenchen", "moments") \
    S(MEMORY, "Shewchuk JR 1997. Adaptive precision floating-point arithmetic and fast robust geometric predicates. " \
      "Discrete and Computational Geometry 18:305-363", "the sign of a turn without rounding error")                \
    S(MEMORY, "Shamos MI, Hoey D 1976. Geometric intersection problems. 17th Symposium on Foundations of Computer "  \
      "Science, 208-215", "the test for crossing")                                                                   \
    S(CHOICE, "Far below any measurement", "points nearer than 1e-12 mm count as one")                               \
    S(CHOICE, "Five mean distances are an edge nobody traced", "the gap that is told")                               \
    S(CHOICE, "Shorter than a small pony's hoof, longer than the largest draft horse's",                             \
      "lengths that look like another unit")
#define INPUTS(F)                                                                                                    \
    F(toe_direction_deg, -360, 360, -180, 180, 0, NEUTRAL, MEASURE, "where the toe points: 0 along x, 90 along y")
#define OUTPUTS(F)                                                                                                   \
    F(area_mm2, FINITE, "area inside the outline")                                                                   \
    F(perimeter_mm, FINITE, "length of the outline")                                                                 \
    F(centroid_x_mm, FINITE, "center of the area, in the trace's coordinates")                                       \
    F(centroid_y_mm, FINITE, "center of the area, in the trace's coordinates")                                       \
    F(length_mm, FINITE, "extent along the toe's direction")                                                         \
    F(width_mm, FINITE, "extent across the toe's direction")                                                         \
    F(widest_fraction, FINITE, "where it is widest, as a share of the length behind the toe")                        \
    F(second_x_mm4, FINITE, "integral of y^2 over the area, about the centroid")                                     \
    F(second_y_mm4, FINITE, "integral of x^2 over the area, about the centroid")                                     \
    F(second_xy_mm4, FINITE, "integral of x y over the area, about the centroid")                                    \
    F(turn_ratio, FINITE, "1 traced counterclockwise, -1 clockwise")                                                 \
    F(repeated_count, FINITE, "1 where the last point repeats the first")                                            \
    F(gap_ratio, FINITE, "last point to first, over the mean distance of the others")
#define REFUSALS(R)
#define LIST_REFUSALS(R) TRACE_REFUSALS(R) SIMPLE_REFUSAL(R)
#define CAUTIONS(C)                                                                                                  \
    C(WARN, small, OUT(length_mm), 1, NO_FIELD, 0, BELOW, 40, NO_GUARD,                                              \
      "shorter than any hoof: are the points in millimeters, and does the toe point where it should?")               \
    C(WARN, large, OUT(length_mm), 1, NO_FIELD, 0, ABOVE, 300, NO_GUARD,                                             \
      "longer than any hoof: are the points in millimeters?")                                                        \
    C(NOTE, open_trace, OUT(gap_ratio), 1, NO_FIELD, 0, ABOVE, 5, NO_GUARD,                                          \
      "the trace is open: a straight line was drawn from its last point to its first")
#define STANDING(S)                                                                                                  \
    S("A trace is as true as its scale: check length and width against the hoof. Hand noise lengthens the "          \
      "perimeter; outline_fit smooths it.")
#define LISTS(L) L(GIVEN, outline, ung_point, 3, TRACE_ROWS_MOST, NO_FIELD, POINT_FIELDS, TRACE_MEANING)
#define WORK_PER_ROW 5 /* the test for crossing */
#define WORK_MORE 128

_Static_assert(WORK_PER_ROW >= UNG_SIMPLE_WORK && WORK_MORE >= UNG_SIMPLE_MORE, "room for the test");

UNG_INLINE ung_outline_measure_out formula(const ung_outline_measure_in *in, const ung_rows *rows, ung__where *where)
{
    ung_outline_measure_out out = {0};
    const ung__polygon trace = ung__polygon_of(rows, rows[1].data, where);
    if (where->refusal != 0)
        return out;
    const double *p = trace.points, *last = p + 2 * (trace.n - 1);
    const ung__moments m = ung__polygon_moments(p, trace.n);
    const double cosine = ung__cos_deg(in->toe_direction_deg), sine = ung__sin_deg(in->toe_direction_deg);
    const ung__extent e = ung__polygon_extent(p, trace.n, cosine, sine);
    const double cx = m.x / m.area, cy = m.y / m.area;
    const double gap = ung__hypot(p[0] - last[0], p[1] - last[1]);
    out.area_mm2 = trace.turn * m.area;
    out.perimeter_mm = m.perimeter;
    out.centroid_x_mm = p[0] + cx;
    out.centroid_y_mm = p[1] + cy;
    out.length_mm = e.ahead_high - e.ahead_low;
    out.width_mm = e.left_high - e.left_low;
    out.widest_fraction = (e.ahead_high - e.widest) / out.length_mm;
    out.second_x_mm4 = trace.turn * (m.yy - m.y * cy);
    out.second_y_mm4 = trace.turn * (m.xx - m.x * cx);
    out.second_xy_mm4 = trace.turn * (m.xy - m.x * cy);
    out.turn_ratio = trace.turn;
    out.repeated_count = trace.repeated;
    out.gap_ratio = trace.repeated != 0 ? 0 : gap * (double)(trace.n - 1) / (m.perimeter - gap);
    return out;
}

#include "core/define.h"
