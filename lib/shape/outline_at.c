/* Point, normal and radius of curvature at a share of one side of a traced outline. */
#include <ungula/shape.h>

#include "shape/polygon.h"

#define NAME outline_at
#define ROOM shape
#define TITLE "point, normal and radius of curvature at a share of one side"
#define ABOUT                                                                                                        \
    "A side runs along the outline from the toe (the outermost point in toe_direction) to the rear (the outermost "  \
    "point in the opposite direction); where several points are outermost (a square toe, two heels), from or to the " \
    "middle of the outline between the first and the last of them. The left side is on the left of someone who "    \
    "looks toward the toe from above. The point lies on the polygon through the trace's points; normal and "         \
    "curvature are those of the circles through three successive points, at either end of the edge, and in "         \
    "proportion between. Whether the outline crosses itself is tested by outline_measure, not here."
#define ACCURACY                                                                                                     \
    "Place along the side within 1e-15 of the perimeter. Of a smooth curve with points at distance h, curvature k: " \
    "the point within k h^2/8; normal and curvature are exact on a circle's points and err by a multiple of h^2 "    \
    "elsewhere (by a multiple of h where distances are uneven)."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Circle through three points (plane geometry)", "normal and curvature")                                \
    S(CHOICE, "Own definition; within 1e-9 of the length points count as outermost too, for rounding not to choose", \
      "toe and rear")                                                                                                \
    S(CHOICE, "A perimeter so straight would turn by 1e-9 radians", "a straight place has an infinite radius")
#define INPUTS(F)                                                                                                    \
    F(toe_direction_deg, -360, 360, -180, 180, 0, NEUTRAL, MEASURE, "where the toe points: 0 along x, 90 along y")   \
    F(left_side_count, 0, 1, 0, 1, REQUIRED, GIVEN, WHOLE, "1: the left side, 0: the right side")                    \
    F(side_fraction, 0, 1, 0, 1, REQUIRED, GIVEN, MEASURE, "place on the side: 0 toe, 1 rear")
#define OUTPUTS(F)                                                                                                   \
    F(x_mm, FINITE, "the point")                                                                                     \
    F(y_mm, FINITE, "the point")                                                                                     \
    F(normal_x_ratio, FINITE, "outward normal, of length 1")                                                         \
    F(normal_y_ratio, FINITE, "outward normal, of length 1")                                                         \
    F(radius_mm, INFINITE, "radius of curvature; negative where the outline is hollow")                              \
    F(side_length_mm, FINITE, "length of this side along the outline")                                               \
    F(from_toe_mm, FINITE, "length along the outline from the toe to the point")                                     \
    F(around_fraction, FINITE, "the point's place as a share of the perimeter, from the toe counterclockwise")
#define REFUSALS(R)
#define LIST_REFUSALS(R) TRACE_REFUSALS(R)
#define CAUTIONS(C)
#define STANDING(S)                                                                                                  \
    S("Hand noise shows in the curvature first: smooth a trace with outline_fit before reading radii from it.")
#define LISTS(L) L(GIVEN, outline, ung_point, 3, TRACE_ROWS_MOST, NO_FIELD, POINT_FIELDS, TRACE_MEANING)

UNG_INLINE ung_outline_at_out formula(const ung_outline_at_in *in, const ung_rows *rows, ung__where *where)
{
    ung_outline_at_out out = {0};
    const ung__polygon trace = ung__polygon_of(rows, 0, where);
    if (where->refusal != 0)
        return out;
    const double cosine = ung__cos_deg(in->toe_direction_deg), sine = ung__sin_deg(in->toe_direction_deg);
    const double around = trace.perimeter;
    const double toe = ung__polygon_outermost(&trace, cosine, sine);
    const double rear = ung__polygon_outermost(&trace, -cosine, -sine);
    const double left_length = rear < toe ? rear - toe + around : rear - toe;
    const int left = in->left_side_count > 0.5;
    out.side_length_mm = left ? left_length : around - left_length;
    out.from_toe_mm = in->side_fraction * out.side_length_mm;
    const double past_toe = left ? out.from_toe_mm : around - out.from_toe_mm;
    double place = toe + past_toe;
    place = place >= around ? place - around : place;
    out.around_fraction = past_toe >= around ? 0 : past_toe / around;

    ung__walk walk = ung__walk_start(&trace);
    const double share = ung__walk_to(&walk, place);
    out.x_mm = walk.from[0] + share * (walk.to[0] - walk.from[0]);
    out.y_mm = walk.from[1] + share * (walk.to[1] - walk.from[1]);
    const ung__bend a = ung__polygon_bend(&trace, (size_t)(walk.from - trace.points) / 2);
    const ung__bend b = ung__polygon_bend(&trace, (size_t)(walk.to - trace.points) / 2);
    const double x = a.normal_x + share * (b.normal_x - a.normal_x), y = a.normal_y + share * (b.normal_y - a.normal_y);
    /* normals that cancel (each end's circle has this edge as its diameter): the edge's own */
    const double edge_x = (walk.to[1] - walk.from[1]) / walk.length, edge_y = (walk.from[0] - walk.to[0]) / walk.length;
    const double size = ung__hypot(x, y), curvature = a.curvature + share * (b.curvature - a.curvature);
    out.normal_x_ratio = (size > 1e-9 ? x / size : edge_x) + 0.0;
    out.normal_y_ratio = (size > 1e-9 ? y / size : edge_y) + 0.0; /* no -0 */
    out.radius_mm = ung__abs(curvature) * around < 1e-9 ? UNG__INFINITY : 1 / curvature;
    return out;
}

#include "core/define.h"
