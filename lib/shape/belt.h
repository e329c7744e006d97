/* What the belts on a standard and on a traced outline share: their fields, the wall's surface, and the shoe's side. */
#ifndef UNG_SHAPE_BELT_H
#define UNG_SHAPE_BELT_H

#include <ungula/shape.h>

#include "core/quadrature.h"

#define BELT_INPUTS(F)                                                                                               \
    F(toe_angle_deg, 35, 100, 45, 58, 52, PRACTICE, MEASURE, "toe to ground")                                        \
    F(heel_angle_deg, 20, 160, 38, 60, 52, PRACTICE, MEASURE, "slope of the heel to the ground, equal to the toe's where parallel") \
    F(low_mm, -60, 60, -30, 0, REQUIRED, GIVEN, MEASURE, "lower edge of the belt above the bearing plane; below 0 it lies on the shoe") \
    F(high_toe_mm, 1, 120, 15, 45, REQUIRED, GIVEN, MEASURE, "upper edge above the bearing plane at the toe")        \
    F(high_heel_mm, 1, 120, 10, 25, REQUIRED, GIVEN, MEASURE, "upper edge above the bearing plane at the heel")      \
    F(toe_hairline_mm, 0, 150, 55, 75, 0, NEUTRAL, MEASURE, "height of the hairline at the toe; 0 = not measured")   \
    F(heel_hairline_mm, 0, 150, 25, 45, 0, NEUTRAL, MEASURE, "height of the hairline at the heel; 0 = not measured") \
    F(overhang_mm, -20, 60, 0, 10, 0, NEUTRAL, MEASURE, "how far the shoe stands out beyond the wall")               \
    F(upper_layer_mm, 0, 60, 6, 10, 60, NEUTRAL, MEASURE, "upright part of the shoe's side; 60 = the whole side")    \
    F(edge_bevel_deg, 0, 60, 0, 45, 0, NEUTRAL, MEASURE, "how far the shoe's side leans in below the upright part")  \
    F(open_heel_fraction, 0, 0.4, 0.1, 0.25, 0.2, CHOICE, MEASURE, "share of the perimeter that is bulbs and frog and is not bonded")

#define BELT_OUTPUTS(F)                                                                                              \
    F(perimeter_mm, FINITE, "outline of the trimmed hoof")                                                           \
    F(ground_area_mm2, FINITE, "area inside that outline")                                                           \
    F(circumference_low_mm, FINITE, "lower edge of the belt, on shoe or wall")                                       \
    F(circumference_high_mm, FINITE, "upper edge of the belt")                                                       \
    F(wall_area_mm2, FINITE, "wall inside the belt")                                                                 \
    F(bonded_area_mm2, FINITE, "wall to bond: wall_area_mm2 without the open heel")                                  \
    F(shoe_area_mm2, FINITE, "side of the shoe inside the belt")                                                     \
    F(covered_area_mm2, FINITE, "wall and shoe together: what tape and top coat cover")                              \
    F(slant_height_mm, FINITE, "height of the belt along wall and shoe")

#define BELT_CAUTIONS(C)                                                                                             \
    C(STOP, coronet_toe, IN(high_toe_mm), 1, IN(toe_hairline_mm), -1, ABOVE, -5, IN(toe_hairline_mm), ABOVE, 0,      \
      "the belt ends less than 5 mm below the hairline at the toe: tape and adhesive must stay off the coronet")     \
    C(STOP, coronet_heel, IN(high_heel_mm), 1, IN(heel_hairline_mm), -1, ABOVE, -5, IN(heel_hairline_mm), ABOVE, 0,  \
      "the belt ends less than 5 mm below the hairline at the heel: tape and adhesive must stay off the coronet")    \
    C(WARN, heel_angle, IN(heel_angle_deg), 1, NO_FIELD, 0, ABOVE, 90, NO_GUARD,                                     \
      "heel_angle_deg is the heel's slope to the ground, equal to the toe's where parallel: above 90 it leans backward") \
    C(WARN, deep_inset, IN(overhang_mm), 1, NO_FIELD, 0, BELOW, -10, NO_GUARD,                                       \
      "a shoe set in by more than 10 mm may pass the outline's least radius, where the rule P - 2 pi d ends")        \
    C(WARN, hairline_toe_unknown, IN(toe_hairline_mm), 1, NO_FIELD, 0, EQUAL, 0, NO_GUARD,                           \
      "the hairline at the toe was not measured: whether the belt stays off the coronet is not known")               \
    C(WARN, hairline_heel_unknown, IN(heel_hairline_mm), 1, NO_FIELD, 0, EQUAL, 0, NO_GUARD,                         \
      "the hairline at the heel was not measured: whether the belt stays off the coronet is not known")

#define BELT_STANDING(S)                                                                                             \
    S("Tape and adhesive stay off the coronary band, the bulbs and live tissue; infected or wet horn is not sealed in.")

/* Integral of |p_t x p_z| up the wall, from low to top, over a piece (dx, dy) of the outline whose image moves by
 * (pz_x, pz_y) for each millimeter of height and shrinks by the tapers.  The square of the integrand is a quadratic in
 * z; about the middle of the belt q0 + q1 r + q2 r^2. */
UNG_INLINE double ung__belt_wall(double dx, double dy, double pz_x, double pz_y, double taper_x, double taper_y,
                                 double low, double top)
{
    double half = (top - low) / 2, middle = (top + low) / 2, lane[UNG_LANES];
    double x1 = taper_x * dx, y1 = taper_y * dy, x0 = dx - x1 * middle, y0 = dy - y1 * middle;
    double n0 = x0 * pz_y - y0 * pz_x, n1 = x1 * pz_y - y1 * pz_x;
    double q0 = x0 * x0 + y0 * y0 + n0 * n0, q1 = -2 * half * (x0 * x1 + y0 * y1 + n0 * n1);
    double q2 = half * half * (x1 * x1 + y1 * y1 + n1 * n1);
#pragma omp simd
    for (int i = 0; i < UNG_GAUSS; i++) {
        double r = ung__gauss_node(i), even = q0 + q2 * (r * r), odd = q1 * r;
        lane[i] = ung__gauss_weight(i) * (ung__sqrt(even + odd) + ung__sqrt(even - odd));
    }
    return half * ung__tree_sum(lane);
}

/* The shoe's side below the bearing plane, and what part of the wall is bonded. */
typedef struct ung__belt_shoe {
    double low, overhang, upper_layer, edge_bevel, open_heel;
} ung__belt_shoe;

/* Every result, from the outline's perimeter and area, the wall's circumferences at its lower and upper edge, and its
 * area.  *gone: 1 where the shoe's outline vanishes, 2 where its bevel leaves nothing at the lower edge, otherwise 0. */
UNG_INLINE ung_hoof_band_out ung__belt_results(const ung__belt_shoe *s, double perimeter, double area, double at_low,
                                               double at_high, double wall, double *gone)
{
    double depth = ung__max(-s->low, 0);
    double upright = s->upper_layer >= 60 ? depth : ung__min(depth, s->upper_layer), leaning = depth - upright;
    double around = perimeter + UNG__TAU * s->overhang; /* P' */
    double below = around - UNG__TAU * leaning * ung__tan_deg(s->edge_bevel);
    double leaning_side = leaning / ung__cos_deg(s->edge_bevel);
    *gone = around <= 0 && depth > 0 ? 1 : below <= 0 && depth > 0 ? 2 : 0;
    ung_hoof_band_out out;
    out.perimeter_mm = perimeter;
    out.ground_area_mm2 = area;
    out.circumference_low_mm = s->low < 0 ? below : at_low;
    out.circumference_high_mm = at_high;
    out.wall_area_mm2 = wall;
    out.bonded_area_mm2 = wall * (1 - s->open_heel);
    out.shoe_area_mm2 = s->low < 0 ? around * upright + (around + below) / 2 * leaning_side : 0;
    out.covered_area_mm2 = wall + out.shoe_area_mm2;
    out.slant_height_mm = wall / ((at_low + at_high) / 2) + upright + leaning_side;
    return out;
}

#endif
