/* Yield of a dowel loaded sideways between two members in single shear, and the bearing strength that a load asks for.
 *
 * The six modes of Tables 12.3.1A and B of NDS-2018 in the form that the general dowel equations of the same body have
 * without a gap: with q = D F_e, the bearing load on a unit of length, and M = F_yb D^3/6, a mode's load P solves
 * A P^2 + B P + C = 0.  Written so, nothing cancels and nothing is divided by a length.
 */
#ifndef UNG_SCREW_YIELD_H
#define UNG_SCREW_YIELD_H

#include "core/contract.h"

typedef struct ung__yield {
    double im, is, ii, iiim, iiis, iv, least, mode; /* mode: 1 to 6 in this order, the first of equals */
} ung__yield;

/* One member turns in its hole over its length, the other bends the dowel: IIIm and IIIs. */
UNG_INLINE double ung__yield_turning(double q, double length, double q_other, double moment)
{
    double load = 4 * moment + q * length * length;
    return load / (length + ung__sqrt(length * length + (2 / q_other + 1 / q) * load));
}

/* q_m, q_s in N/mm and lengths of the member that holds the point and of the side member; moment in N mm. */
UNG_INLINE ung__yield ung__yield_of(double q_m, double length_m, double q_s, double length_s, double moment)
{
    double both = length_m + length_s, soft = 1 / q_m + 1 / q_s;
    double load = q_m * length_m * length_m + q_s * length_s * length_s;
    double under = both + ung__sqrt(both * both + soft * load);
    ung__yield y;
    y.im = q_m * length_m;
    y.is = q_s * length_s;
    y.ii = under > 0 ? load / under : 0;
    y.iiim = ung__yield_turning(q_m, length_m, q_s, moment);
    y.iiis = ung__yield_turning(q_s, length_s, q_m, moment);
    y.iv = ung__sqrt(4 * moment / soft);
    y.least = ung__min(ung__min(ung__min(y.im, y.is), ung__min(y.ii, y.iiim)), ung__min(y.iiis, y.iv));
    double late = y.iiim == y.least ? 4 : y.iiis == y.least ? 5 : 6;
    y.mode = y.im == y.least ? 1 : y.is == y.least ? 2 : y.ii == y.least ? 3 : late;
    return y;
}

/* The positive root x of  length^2 x^2 - b x - p^2 = 0, p > 0, in the form that does not cancel; infinite where there
 * is none (length 0). */
UNG_INLINE double ung__bearing_root(double length, double b, double p)
{
    double square = length * length, root = ung__sqrt(b * b + 4 * square * p * p);
    double under = b > 0 ? 2 * square : root - b, over = b > 0 ? b + root : 2 * p * p;
    return over / under;
}

/* The least q of one member that keeps every mode from yielding below p > 0, each mode's equation solved for it;
 * infinite where the other member or the dowel yields first.  Every mode's load grows with q or does not know it. */
UNG_INLINE double ung__bearing_needed(double length, double q_other, double length_other, double moment, double p)
{
    double alone = p / length; /* its own I */
    double square = p * p / q_other, other = q_other * length_other;
    double ii = ung__bearing_root(length, square + 2 * p * (length + length_other) - other * length_other, p);
    /* III: the member in question turns in its hole, or the other does. */
    double turns = ung__bearing_root(length, 2 * square + 2 * p * length - 4 * moment, p);
    double bends_left = 2 * moment + other * length_other / 2 - p * length_other - square / 2;
    double bends = bends_left > 0 ? p * p / bends_left : UNG__INFINITY;
    double iv_left = 4 * moment - square;
    double iv = iv_left > 0 ? p * p / iv_left : UNG__INFINITY;
    double most = ung__max(ung__max(ung__max(alone, ii), ung__max(turns, bends)), iv);
    return other >= p ? most : UNG__INFINITY; /* the other member's I */
}

/* NDS-2018, 12.3.1: yield over design load for dowels under a quarter of an inch, by the diameter that yields. */
UNG_INLINE double ung__yield_factor(double root_mm)
{
    return root_mm <= 4.318 ? 2.2 : root_mm / 2.54 + 0.5;
}

#endif
