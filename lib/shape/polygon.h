/* Geometry of a traced closed outline, for the calculations that take one.
 *
 * Points lie as x0 y0 x1 y1 ...  Everything is computed from differences to the first point or between neighbors, so
 * that a trace far from the origin loses nothing but the rounding of its own coordinates.  Sums over points run in
 * blocks of UNG_TRACE_BLOCK with 8 accumulators in a fixed tree; the sums of the blocks are added with the rounding
 * errors kept, so that the error does not grow with the number of points. */
#ifndef UNG_SHAPE_POLYGON_H
#define UNG_SHAPE_POLYGON_H

#include "core/contract.h"
#include "core/simple.h"

/* ---- The list of points and what is refused about it, the same for every calculation that takes a trace ---- */

#define POINT_FIELDS(F, type)                                                                                        \
    F(type, x_mm, -1e7, 1e7, "x of the point")                                                                       \
    F(type, y_mm, -1e7, 1e7, "y of the point, to the left of someone who looks along x")
#define TRACE_ROWS_MOST 1000000
#define TRACE_MEANING                                                                                                \
    "points round the ground border of the trimmed hoof, in order, either way round; the last may repeat the first"

/* For LIST_REFUSALS of a calculation whose first list is the trace and that has no other refusals. */
#define TRACE_REFUSALS(R)                                                                                            \
    R(0, "a point repeats the one before it")                                                                        \
    R(0, "an outline needs three different points")                                                                  \
    R(0, "the outline encloses no area")
#define SIMPLE_REFUSAL(R) R(0, "the outline crosses or touches itself: two edges that begin at these points meet")
enum { TRACE_REPEATS = 1, TRACE_SHORT = 2, TRACE_FLAT = 3, TRACE_MEETS = 4 };

/* Points nearer than this (in x and in y) count as one: far below any measurement, far above what could underflow. */
#define UNG__SAME_POINT_MM 1e-12

enum { UNG_TRACE_BLOCK = 128 };

typedef struct ung__polygon {
    const double *points;
    size_t n;        /* without a last point that repeats the first */
    double repeated; /* 1 if there is one */
    double turn;     /* 1 counterclockwise, -1 clockwise */
    double area, perimeter;
} ung__polygon;

/* Reads and tests a list of points; with a workspace also that the outline is simple.  If where->refusal is not 0
 * afterwards, the trace is not to be used. */
ung__polygon ung__polygon_of(const ung_rows *rows, double *work, ung__where *where);

/* Signed area (counterclockwise positive) and perimeter. */
void ung__polygon_area(const double *points, size_t n, double *area, double *perimeter);

/* Integrals over the area, with the first point as origin: 1, x, y, y^2, x^2, x y; and the perimeter. */
typedef struct ung__moments {
    double area, x, y, yy, xx, xy, perimeter;
} ung__moments;
ung__moments ung__polygon_moments(const double *points, size_t n);

/* Extent along a direction and across it (to the left), from the first point. */
typedef struct ung__extent {
    double ahead_low, ahead_high, left_low, left_high;
    double widest; /* mean of where the outermost points on the left and on the right lie, along the direction */
} ung__extent;
ung__extent ung__polygon_extent(const double *points, size_t n, double cosine, double sine);

/* Points this near to the outermost one (as a share of the extent) count as outermost too, so that the middle of a
 * flat toe is its toe whichever way rounding goes.  (choice) */
#define UNG__OUTERMOST_SHARE 1e-9

/* Where the outermost part in a direction lies: the length along the outline from the first point, counterclockwise,
 * to the middle of the part from the first outermost point to the last one (the greatest gap left out). */
double ung__polygon_outermost(const ung__polygon *trace, double cosine, double sine);

/* Length along the outline from the first point, counterclockwise, to the beginning of the edges, walked in order. */
typedef struct ung__walk {
    const ung__polygon *trace;
    size_t edge;          /* counterclockwise count of edges passed */
    ung__two begin;       /* length at its beginning */
    double length;        /* of this edge */
    const double *from, *to;
} ung__walk;
ung__walk ung__walk_start(const ung__polygon *trace);
/* On to the edge that holds this place (not before the present edge; at most the perimeter); how far along it that is,
 * 0 to 1. */
double ung__walk_to(ung__walk *walk, double place);

/* Outward normal and curvature (positive where it bulges) at a point: of the circle through it and its neighbors.
 * With u and v the edges before and after, t = u v^2 + v u^2 is its tangent, |t| = |u||v||u + v|, and the curvature is
 * 2 u x v/|t|. */
typedef struct ung__bend {
    double normal_x, normal_y, curvature;
} ung__bend;
ung__bend ung__polygon_bend(const ung__polygon *trace, size_t point);

/* Moves every point inward along its normal by depth (plus its own of depths, unless NULL).  Tests that no depth
 * reaches the local radius and that the moved outline is simple and runs round as before: refusals are numbered from
 * first_refusal in the order of MOVE_REFUSALS.
 *
 * No edge turns round: an edge e lies at the angle asin(|e| k/2) to the tangents of its ends (tangent and chord), so
 * that the moved edge reaches |e| (1 - (d1 k1 + d2 k2)/2) along e, which is more than 0 as every d k is below 1.  But a
 * few points with unlike depths can still turn inside out, each edge by less than a right angle. */
#define MOVE_REFUSALS(R)                                                                                             \
    R(0, "the depth reaches the outline's local radius of curvature")                                                \
    R(0, "the moved outline crosses or touches itself: two edges that begin at these points meet")                   \
    R(0, "the moved outline is turned inside out")
enum { MOVE_RADIUS = 0, MOVE_MEETS = 1, MOVE_TURNED = 2, MOVE_COUNT = 3 };
typedef struct ung__move {
    double area, perimeter;
    double least_radius; /* of the given outline where it bulges */
    double deepest;
    double least_radius_left; /* of the moved outline where it bulges: radius less depth */
} ung__move;
ung__move ung__polygon_move(const ung__polygon *trace, double depth, const double *depths, double *moved, double *work,
                          double first_refusal, ung__where *where);

#endif
