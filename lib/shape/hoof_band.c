/* The belt round the hoof that adhesive and tape cover.
 *
 *            ____________---- hairline        The wall is the ruled surface between the outline at z = 0 and its image at
 *           /  top plane    /                 height z, where the toe has moved back by z cot(toe), the heel back by
 *     toe  /---------------/  heel            z cot(heel), and each side in by z cot(quarter).  The belt's lower edge is
 *         /_______________/   z = 0           level; below z = 0 it lies on the side of the shoe.
 *         |_____shoe_____|
 */
#include <ungula/shape.h>

#include "shape/outline.h"

#define NAME hoof_band
#define ROOM shape
#define TITLE "circumferences and areas of a belt round hoof and shoe"
#define ABOUT                                                                                                        \
    "What the adhesive wets and the tape covers, from hand measurements. The horn's fibers all lean back about "   \
    "parallel to the toe, so the wall is the ruled surface between the standard outline (x, y) at the ground and its " \
    "image at height z:\n"                                                                                           \
    "\n"                                                                                                             \
    "    p(t, z) = (sx x - z (cot toe + cot heel)/2, sy y, z)\n"                                                     \
    "    sx = 1 - z (cot toe - cot heel)/L,  sy = 1 - 2 z cot(quarter)/W\n"                                          \
    "\n"                                                                                                             \
    "The lower edge is level. The upper edge is cut by the plane through high_toe at the toe and high_heel at the " \
    "heel, since the hairline is lower at the heels:\n"                                                              \
    "\n"                                                                                                             \
    "    b = (high_toe - high_heel)/(L - high_toe cot toe + high_heel cot heel)\n"                                   \
    "    a = high_toe - b (L/2 - high_toe cot toe)\n"                                                                \
    "    top(t) = (a + b x)/(1 + b ((cot toe + cot heel)/2 + x (cot toe - cot heel)/L))\n"                           \
    "    circumference_high = integral of |d/dt p(t, top(t))| dt\n"                                                  \
    "    wall_area = integral of |p_t x p_z| dz dt, z from max(low, 0) to top(t)\n"                                  \
    "\n"                                                                                                             \
    "Below the bearing plane (low < 0, depth = -low) the belt lies on the shoe, whose outline stands out by "       \
    "overhang, is upright to upper_layer and leans in by edge_bevel from there on:\n"                                \
    "\n"                                                                                                             \
    "    P' = perimeter + 2 pi overhang\n"                                                                           \
    "    circumference_low = P' - 2 pi max(0, depth - upper_layer) tan(edge_bevel)\n"                                \
    "    shoe_area = P' min(depth, upper_layer)\n"                                                                   \
    "              + (P' + circumference_low)/2 (depth - upper_layer)/cos(edge_bevel)\n"                             \
    "    slant_height = wall_area/(mean of the wall's two circumferences) + slant of the shoe's side\n"              \
    "    bonded_area = wall_area (1 - open_heel_fraction),  covered_area = wall_area + shoe_area\n"                  \
    "\n"                                                                                                             \
    "slant_height is the band_height that cast_length takes, covered_area the top_area that glue_volume takes. "    \
    "heel_angle follows the trade: the slope of the heel to the ground, equal to the toe's where they are parallel. " \
    "The rule P - 2 pi d for a moved outline is exact while d is below the outline's least radius."
#define ACCURACY                                                                                                     \
    "Relative error below 1e-13 in the usual ranges; in the accepted ones below 1e-9 where at least a twentieth of "  \
    "length and width is left at the upper edge, and below 1e-4 where the walls nearly meet. Trapezoid rule round "  \
    "the outline, doubled until it has settled, and 16 Gauss points along the wall."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Own model: ruled surface with straight fibers", "the wall")                                           \
    S(CHOICE, "Steiner's formula for parallel curves (any text on convex sets)", "P - 2 pi d")                       \
    S(CHOICE, "Bulbs and frog take about a fifth of the outline; to be measured where it matters", "open_heel_fraction") \
    S(CHOICE, "A usual front hoof, within the usual ranges; to be measured or traced where it matters", "widest, heel and toe fractions") \
    S(MEMORY, "Trefethen LN, Weideman JAC 2014. The exponentially convergent trapezoidal rule. SIAM Review 56:385-458", \
      "the integration round the outline")                                                                           \
    S(PUBLISHED,                                                                                                     \
      "O'Grady SE, Steward ML, Parks AH 2007. How to construct and apply the wooden shoe for treating three "       \
      "manifestations of chronic laminitis. Proc AAEP 53",                                                           \
      "the pattern: an upright layer of 6.4 to 9.5 mm, below it 19 mm beveled by 45 degrees")                        \
    S(PRACTICE, "Common practice, no source", "tape and adhesive stay clear of the coronet; the heel stays open")
#define INPUTS(F)                                                                                                    \
    F(hoof_length_mm, 40, 250, 90, 170, REQUIRED, GIVEN, MEASURE, "ground surface, toe to a line across the heel buttresses") \
    F(hoof_width_mm, 40, 250, 90, 160, REQUIRED, GIVEN, MEASURE, "greatest width of the trimmed wall")               \
    F(widest_fraction, 0.3, 0.6, 0.44, 0.5, 0.45, CHOICE, MEASURE, "widest station, as a share of the length behind the toe") \
    F(heel_width_fraction, 0.4, 0.95, 0.65, 0.78, 0.74, CHOICE, MEASURE, "width one tenth of the length from the rear, of the greatest") \
    F(toe_width_fraction, 0.4, 0.9, 0.58, 0.7, 0.62, CHOICE, MEASURE, "width one tenth of the length from the toe, of the greatest") \
    F(toe_angle_deg, 35, 100, 45, 58, 52, PRACTICE, MEASURE, "toe to ground")                                        \
    F(quarter_angle_deg, 45, 120, 65, 90, 78, PRACTICE, MEASURE, "side walls to ground, inside the horn")            \
    F(heel_angle_deg, 20, 160, 38, 60, 52, PRACTICE, MEASURE, "slope of the heel to the ground, equal to the toe's where parallel") \
    F(low_mm, -60, 60, -30, 0, REQUIRED, GIVEN, MEASURE, "lower edge of the belt above the bearing plane; below 0 it lies on the shoe") \
    F(high_toe_mm, 1, 120, 15, 45, REQUIRED, GIVEN, MEASURE, "upper edge above the bearing plane at the toe")        \
    F(high_heel_mm, 1, 120, 10, 25, REQUIRED, GIVEN, MEASURE, "upper edge above the bearing plane at the heel")      \
    F(toe_hairline_mm, 0, 150, 55, 75, 0, NEUTRAL, MEASURE, "height of the hairline at the toe; 0 = not measured")   \
    F(heel_hairline_mm, 0, 150, 25, 45, 0, NEUTRAL, MEASURE, "height of the hairline at the heel; 0 = not measured") \
    F(overhang_mm, -20, 60, 0, 10, 0, NEUTRAL, MEASURE, "how far the shoe stands out beyond the wall")               \
    F(upper_layer_mm, 0, 60, 6, 10, 60, NEUTRAL, MEASURE, "upright part of the shoe's side; 60 = the whole side")    \
    F(edge_bevel_deg, 0, 60, 0, 45, 0, NEUTRAL, MEASURE, "how far the shoe's side leans in below the upright part")              \
    F(open_heel_fraction, 0, 0.4, 0.1, 0.25, 0.2, CHOICE, MEASURE, "share of the perimeter that is bulbs and frog and is not bonded")
#define OUTPUTS(F)                                                                                                   \
    F(perimeter_mm, FINITE, "outline of the trimmed hoof")                                                           \
    F(ground_area_mm2, FINITE, "area inside that outline")                                                           \
    F(circumference_low_mm, FINITE, "lower edge of the belt, on shoe or wall")                                       \
    F(circumference_high_mm, FINITE, "upper edge of the belt")                                                       \
    F(wall_area_mm2, FINITE, "wall inside the belt")                                                                 \
    F(bonded_area_mm2, FINITE, "wall to bond: wall_area_mm2 without the open heel")                                                     \
    F(shoe_area_mm2, FINITE, "side of the shoe inside the belt")                                                     \
    F(covered_area_mm2, FINITE, "wall and shoe together: what tape and top coat cover")                              \
    F(slant_height_mm, FINITE, "height of the belt along wall and shoe")
#define REFUSALS(R)                                                                                                  \
    R(high_toe_mm, IN(low_mm), "the belt's upper edge must be above its lower edge at the toe")                      \
    R(high_heel_mm, IN(low_mm), "the belt's upper edge must be above its lower edge at the heel")                    \
    R(heel_width_fraction, IN(toe_width_fraction), "the outline would not be convex; bring the two width fractions nearer to 0.6 and the widest station nearer to 0.5") \
    R(toe_angle_deg, IN(heel_angle_deg), "toe and heel meet below the belt's upper edge; lower it or check the angles") \
    R(quarter_angle_deg, IN(hoof_width_mm), "the side walls meet below the belt's upper edge; lower it or check the angle") \
    R(high_toe_mm, IN(high_heel_mm), "the upper edge rises more steeply than these walls; bring its two heights nearer together") \
    R(overhang_mm, IN(hoof_length_mm), "the shoe's outline vanishes; give a smaller inset")                          \
    R(edge_bevel_deg, IN(low_mm), "the shoe's bevel leaves nothing at the belt's lower edge; give a smaller bevel or a higher edge")
#define CAUTIONS(C)                                                                                                  \
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
#define STANDING(S)                                                                                                  \
    S("Tape and adhesive stay off the coronary band, the bulbs and live tissue; infected or wet horn is not sealed in.")
#define SERIAL

/* What the integrals need. */
typedef struct belt {
    ung__outline o;
    double low, a, b;                    /* top plane: a + b x */
    double lean, taper_x, taper_y;       /* p = ((1 - z taper_x) x - z lean, (1 - z taper_y) y, z) */
} belt;

/* Terms of the integrals at one t: outline, lower level, upper edge, wall. */
UNG_INLINE void belt_terms(const void *context, double c, double s, double *value)
{
    const belt *w = (const belt *)context;
    ung__outline_point p = ung__outline_at(&w->o, c, s);
    value[0] = ung__sqrt(p.dx * p.dx + p.dy * p.dy);

    double sx = 1 - w->low * w->taper_x, sy = 1 - w->low * w->taper_y;
    value[1] = ung__sqrt(sx * p.dx * (sx * p.dx) + sy * p.dy * (sy * p.dy));

    double under = 1 + w->b * (w->lean + p.x * w->taper_x), over = w->a + w->b * p.x;
    double top = over / under;
    double rise = p.dx * w->b * (under - over * w->taper_x) / (under * under); /* d top/dt */
    double pz_x = -(w->lean + p.x * w->taper_x), pz_y = -p.y * w->taper_y;     /* dp/dz */
    sx = 1 - top * w->taper_x;
    sy = 1 - top * w->taper_y;
    double ex = sx * p.dx + pz_x * rise, ey = sy * p.dy + pz_y * rise;
    value[2] = ung__sqrt(ex * ex + ey * ey + rise * rise);

    /* |p_t x p_z|^2 is a quadratic in z; about the middle of the belt q0 + q1 r + q2 r^2 */
    double half = (top - w->low) / 2, middle = (top + w->low) / 2, lane[UNG_LANES];
    double x1 = w->taper_x * p.dx, y1 = w->taper_y * p.dy, x0 = p.dx - x1 * middle, y0 = p.dy - y1 * middle;
    double n0 = x0 * pz_y - y0 * pz_x, n1 = x1 * pz_y - y1 * pz_x;
    double q0 = x0 * x0 + y0 * y0 + n0 * n0, q1 = -2 * half * (x0 * x1 + y0 * y1 + n0 * n1);
    double q2 = half * half * (x1 * x1 + y1 * y1 + n1 * n1);
#pragma omp simd
    for (int i = 0; i < UNG_GAUSS; i++) {
        double r = ung__gauss_node(i), even = q0 + q2 * (r * r), odd = q1 * r;
        lane[i] = ung__gauss_weight(i) * (ung__sqrt(even + odd) + ung__sqrt(even - odd));
    }
    value[3] = half * ung__tree_sum(lane);
}

UNG_INLINE ung_hoof_band_out formula(const ung_hoof_band_in *in, double *refusal)
{
    double cot_toe = ung__cot_deg(in->toe_angle_deg), cot_heel = ung__cot_deg(in->heel_angle_deg);
    double length = in->hoof_length_mm, toe = in->high_toe_mm, heel = in->high_heel_mm, low = in->low_mm;
    belt w;
    w.o = ung__outline_from(length, in->hoof_width_mm, in->widest_fraction, in->heel_width_fraction,
                            in->toe_width_fraction);
    w.low = ung__max(low, 0);
    w.lean = (cot_toe + cot_heel) / 2;
    w.taper_x = (cot_toe - cot_heel) / length;
    w.taper_y = 2 * ung__cot_deg(in->quarter_angle_deg) / in->hoof_width_mm;
    double top_length = length - toe * cot_toe + heel * cot_heel, highest = ung__max(toe, heel);
    w.b = (toe - heel) / top_length;
    w.a = toe - w.b * (length / 2 - toe * cot_toe);

    double depth = ung__max(-low, 0);
    double upright = in->upper_layer_mm >= 60 ? depth : ung__min(depth, in->upper_layer_mm);
    double leaning = depth - upright;

    ung_hoof_band_out out = {0};
    *refusal = toe <= low                                            ? 1
               : heel <= low                                         ? 2
               : !(w.o.convexity > 0)                                ? 3
               : 1 - highest * w.taper_x <= 0                        ? 4
               : 1 - highest * w.taper_y <= 0                        ? 5
               : top_length <= 0                                     ? 6
                                                                     : 0;
    if (*refusal != 0)
        return out;
    double integral[UNG_SUMS];
    ung__closed_curve(belt_terms, &w, 4, integral);
    double around = integral[0] + UNG__TAU * in->overhang_mm; /* P' */
    double below = around - UNG__TAU * leaning * ung__tan_deg(in->edge_bevel_deg);
    *refusal = around <= 0 && depth > 0 ? 7 : below <= 0 && depth > 0 ? 8 : 0;

    double leaning_side = leaning / ung__cos_deg(in->edge_bevel_deg);
    out.perimeter_mm = integral[0];
    out.ground_area_mm2 = ung__outline_area(&w.o);
    out.circumference_low_mm = low < 0 ? below : integral[1];
    out.circumference_high_mm = integral[2];
    out.wall_area_mm2 = integral[3];
    out.bonded_area_mm2 = integral[3] * (1 - in->open_heel_fraction);
    out.shoe_area_mm2 = low < 0 ? around * upright + (around + below) / 2 * leaning_side : 0;
    out.covered_area_mm2 = out.wall_area_mm2 + out.shoe_area_mm2;
    out.slant_height_mm = integral[3] / ((integral[1] + integral[2]) / 2) + upright + leaning_side;
    return out;
}

#include "core/define.h"
