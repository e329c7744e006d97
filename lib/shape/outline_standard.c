/* A smooth hoof outline from length and width: the curve is in outline.h. */
#include <ungula/shape.h>

#include "core/contract.h"
#include "shape/outline.h"

#define NAME outline_standard
#define ROOM shape
#define TITLE "smooth outline of a trimmed hoof from its length and width"
#define ABOUT                                                                                                        \
    "For want of a trace: a smooth closed curve with the measured length and greatest width, widest at a given "    \
    "station, and of given widths one tenth of the length from either end.\n"                                       \
    "\n"                                                                                                             \
    "    x(t) = (L/2) cos t\n"                                                                                       \
    "    y(t) = (W'/2) sin t (1 + k1 cos t + k2 cos 2t + k3 cos 3t)\n"                                               \
    "    area = pi L W'/4 (1 - k2/2)\n"                                                                              \
    "\n"                                                                                                             \
    "The toe is at t = 0, x points to the toe, y to the left, the origin is in the middle of the length. k1, k2 and " \
    "k3 solve three linear equations, W' makes the greatest width the measured one. With widest_fraction 0.5 and "  \
    "both width fractions 0.6 it is exactly the ellipse L x W. The list is filled with points at equal steps of t. " \
    "Length runs on the ground surface from the toe to a line across the rear of the heel buttresses."
#define ACCURACY                                                                                                     \
    "Perimeter and area: relative error below 1e-13 in the usual ranges, below 1e-9 in the accepted ones (held "    \
    "against the elliptic integral and a quadrature of ten times the nodes)."
#define SOURCES(S)                                                                                                   \
    S(CHOICE, "Own curve: the ellipse with three more terms, the fewest that meet the three widths", "the shape")   \
    S(MEMORY, "Trefethen LN, Weideman JAC 2014. The exponentially convergent trapezoidal rule. SIAM Review 56:385-458", \
      "why the perimeter converges fast")                                                                            \
    S(CHOICE, "A usual front hoof, within the usual ranges; to be measured or traced where it matters", "widest, heel and toe fractions")
#define INPUTS(F)                                                                                                    \
    F(hoof_length_mm, 40, 250, 90, 170, REQUIRED, GIVEN, MEASURE, "ground surface, toe to a line across the heel buttresses") \
    F(hoof_width_mm, 40, 250, 90, 160, REQUIRED, GIVEN, MEASURE, "greatest width of the trimmed wall")               \
    F(widest_fraction, 0.3, 0.6, 0.44, 0.5, 0.45, CHOICE, MEASURE, "widest station, as a share of the length behind the toe") \
    F(heel_width_fraction, 0.4, 0.95, 0.65, 0.78, 0.74, CHOICE, MEASURE, "width one tenth of the length from the rear, of the greatest") \
    F(toe_width_fraction, 0.4, 0.9, 0.58, 0.7, 0.62, CHOICE, MEASURE, "width one tenth of the length from the toe, of the greatest")
#define OUTPUTS(F)                                                                                                   \
    F(perimeter_mm, FINITE, "length of the outline")                                                                 \
    F(ground_area_mm2, FINITE, "area inside the outline")                                                            \
    F(width_scale_mm, FINITE, "W' of the equation")                                                                  \
    F(k1_ratio, FINITE, "k1 of the equation")                                                                        \
    F(k2_ratio, FINITE, "k2 of the equation")                                                                        \
    F(k3_ratio, FINITE, "k3 of the equation")
#define REFUSALS(R)                                                                                                  \
    R(heel_width_fraction, IN(toe_width_fraction), "the outline would not be convex; bring the two width fractions nearer to 0.6 and the widest station nearer to 0.5")
#define CAUTIONS(C)
#define STANDING(S) S("A trace of the trimmed hoof is better than any standard outline; a flared or asymmetric hoof is not drawn by it.")
#define POINT_FIELDS(F, type)                                                                                        \
    F(type, x_mm, -1e7, 1e7, "toward the toe, from the middle of the length")                                        \
    F(type, y_mm, -1e7, 1e7, "to the left")
#define LISTS(L) L(FILLED, outline, ung_point, 3, 1000000, NO_FIELD, POINT_FIELDS, "points of the outline, the first at the toe, then round by the left")

UNG_INLINE ung_outline_standard_out formula(const ung_outline_standard_in *in, const ung_rows *rows,
                                            ung__where *where)
{
    ung__outline o = ung__outline_from(in->hoof_length_mm, in->hoof_width_mm, in->widest_fraction,
                                       in->heel_width_fraction, in->toe_width_fraction);
    ung_outline_standard_out out = {0};
    where->refusal = o.convexity > 0 ? 0 : 1;
    if (where->refusal != 0)
        return out;
    ung__closed_curve(ung__outline_speed, &o, 1, &out.perimeter_mm);
    out.ground_area_mm2 = ung__outline_area(&o);
    out.width_scale_mm = 2 * o.half_scale;
    out.k1_ratio = o.k1;
    out.k2_ratio = o.k2;
    out.k3_ratio = o.k3;
    for (size_t i = 0; i < rows[0].count; i++) {
        double angle = 360 * (double)i / (double)rows[0].count;
        ung__outline_point p = ung__outline_at(&o, ung__cos_deg(angle), ung__sin_deg(angle));
        rows[0].data[2 * i] = p.x;
        rows[0].data[2 * i + 1] = p.y;
    }
    return out;
}

#include "core/define.h"
