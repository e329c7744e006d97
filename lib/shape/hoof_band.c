/* The belt round the hoof that adhesive and tape cover.
 *
 *            ____________---- hairline        The wall is the ruled surface between the outline at z = 0 and its image at
 *           /  top plane    /                 height z, where the toe has moved back by z cot(toe), the heel back by
 *     toe  /---------------/  heel            z cot(heel), and each side in by z cot(quarter).  The belt's lower edge is
 *         /_______________/   z = 0           level; below z = 0 it lies on the side of the shoe.
 *         |_____shoe_____|
 */
#include <ungula/shape.h>

#include "shape/belt.h"
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
    F(quarter_angle_deg, 45, 120, 65, 90, 78, PRACTICE, MEASURE, "side walls to ground, inside the horn")            \
    BELT_INPUTS(F)
#define OUTPUTS(F) BELT_OUTPUTS(F)
#define REFUSALS(R)                                                                                                  \
    R(high_toe_mm, IN(low_mm), "the belt's upper edge must be above its lower edge at the toe")                      \
    R(high_heel_mm, IN(low_mm), "the belt's upper edge must be above its lower edge at the heel")                    \
    R(heel_width_fraction, IN(toe_width_fraction), "the outline would not be convex; bring the two width fractions nearer to 0.6 and the widest station nearer to 0.5") \
    R(toe_angle_deg, IN(heel_angle_deg), "toe and heel meet below the belt's upper edge; lower it or check the angles") \
    R(quarter_angle_deg, IN(hoof_width_mm), "the side walls meet below the belt's upper edge; lower it or check the angle") \
    R(high_toe_mm, IN(high_heel_mm), "the upper edge rises more steeply than these walls; bring its two heights nearer together") \
    R(overhang_mm, IN(hoof_length_mm), "the shoe's outline vanishes; give a smaller inset")                          \
    R(edge_bevel_deg, IN(low_mm), "the shoe's bevel leaves nothing at the belt's lower edge; give a smaller bevel or a higher edge")
#define CAUTIONS(C) BELT_CAUTIONS(C)
#define STANDING(S) BELT_STANDING(S)
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

    value[3] = ung__belt_wall(p.dx, p.dy, pz_x, pz_y, w->taper_x, w->taper_y, w->low, top);
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
    ung__belt_shoe shoe = {low, in->overhang_mm, in->upper_layer_mm, in->edge_bevel_deg, in->open_heel_fraction};
    double gone;
    out = ung__belt_results(&shoe, integral[0], ung__outline_area(&w.o), integral[1], integral[2], integral[3], &gone);
    *refusal = gone == 1 ? 7 : gone == 2 ? 8 : 0;
    return out;
}

#include "core/define.h"
