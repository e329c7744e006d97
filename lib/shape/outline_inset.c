/* A traced outline moved inward by its own depth at each point. */
#include <ungula/shape.h>

#include "shape/polygon.h"

#define NAME outline_inset
#define ROOM shape
#define TITLE "outline moved inward by its own depth at each point"
#define ABOUT                                                                                                        \
    "Moves each point p of a traced outline along its inward normal n by depth_mm plus the point's own depth, and "  \
    "fills a list with the moved points in the same order: with depth = wall thickness/sin(wall angle) it is the "   \
    "white line, with shoe thickness x tan(bevel) the ground face of a shoe beveled all round. Depths below 0 move " \
    "outward. The trace may run either way round.\n"                                                                 \
    "\n"                                                                                                             \
    "    p' = p + d n;  n square to t = u v^2 + v u^2, the tangent of the circle through p and its neighbors\n"     \
    "    (u, v: the edges before and after);  radius = |u||v||u + v|/(2 u x v)\n"                                    \
    "\n"                                                                                                             \
    "Refused where a depth reaches the local radius (there the moved outline would have a cusp; no edge turns "     \
    "round otherwise), and where the moved outline crosses or touches itself though every place is fine (far sides " \
    "that meet) or is turned inside out (few points with unlike depths). Where the last point repeats " \
    "the first, it moves with the first, and its own depth is not read."
#define ACCURACY                                                                                                     \
    "On a circle's points normals are exact within 1e-13; on smooth curves the moved points' error, and that of the " \
    "area of the polygon through them, falls with the square of the points' distance."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Normal displacement, circle through three points (plane geometry)", "the relations")                  \
    S(MEMORY, "Steiner's formula: the parallel curve at distance d encloses A - P d + pi d^2", "check of one depth") \
    S(MEMORY, "Shamos MI, Hoey D 1976. Geometric intersection problems. 17th Symposium on Foundations of Computer "  \
      "Science, 208-215", "the test for crossing")                                                                   \
    S(CHOICE, "Four fifths of the tightest radius leave a fifth of it", "the depth from which a tight place is told")
#define INPUTS(F)                                                                                                    \
    F(depth_mm, -200, 200, 0, 15, 0, NEUTRAL, MEASURE, "added to every point's own depth; below 0 outward")
#define OUTPUTS(F)                                                                                                   \
    F(area_mm2, FINITE, "area inside the moved outline")                                                             \
    F(perimeter_mm, FINITE, "length of the moved outline")                                                           \
    F(least_radius_mm, FINITE, "tightest radius of the given outline where it bulges")                             \
    F(deepest_mm, FINITE, "greatest depth of any point")
#define REFUSALS(R)
#define LIST_REFUSALS(R) TRACE_REFUSALS(R) SIMPLE_REFUSAL(R) MOVE_REFUSALS(R)
#define CAUTIONS(C)                                                                                                  \
    C(NOTE, tight, OUT(least_radius_mm), 1, OUT(deepest_mm), -1.25, BELOW, 0, NO_GUARD,                              \
      "the deepest inset is more than four fifths of the tightest radius: look at the moved outline there")
#define STANDING(S)                                                                                                  \
    S("Hand noise shows in normals and radii first: smooth a trace with outline_fit before moving it.")
#define DEPTH_FIELDS(F, type) F(type, depth_mm, -200, 200, "how far the point moves inward; below 0 outward")
#define LISTS(L)                                                                                                     \
    L(GIVEN, outline, ung_point, 3, TRACE_ROWS_MOST, NO_FIELD, POINT_FIELDS, TRACE_MEANING)                          \
    L(GIVEN, depths, ung_depth, 3, TRACE_ROWS_MOST, 0, DEPTH_FIELDS, "each point's own depth")                       \
    L(FILLED, inset, ung_point, 3, TRACE_ROWS_MOST, 0, POINT_FIELDS,                                                 \
      "the moved points, in the order of outline; not in its memory")
#define WORK_PER_ROW 5 /* the test for crossing */
#define WORK_MORE 128

_Static_assert(WORK_PER_ROW >= UNG_SIMPLE_WORK && WORK_MORE >= UNG_SIMPLE_MORE, "room for the test");

UNG_INLINE ung_outline_inset_out formula(const ung_outline_inset_in *in, const ung_rows *rows, ung__where *where)
{
    ung_outline_inset_out out = {0};
    double *work = rows[3].data, *inset = rows[2].data;
    const ung__polygon trace = ung__polygon_of(rows, work, where);
    if (where->refusal != 0)
        return out;
    const ung__move moved = ung__polygon_move(&trace, in->depth_mm, rows[1].data, inset, work, TRACE_MEETS + 1, where);
    if (where->refusal != 0)
        return out;
    if (trace.repeated != 0) {
        inset[2 * trace.n] = inset[0];
        inset[2 * trace.n + 1] = inset[1];
    }
    out.area_mm2 = moved.area;
    out.perimeter_mm = moved.perimeter;
    out.least_radius_mm = moved.least_radius;
    out.deepest_mm = moved.deepest;
    return out;
}

#include "core/define.h"
