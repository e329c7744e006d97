/* Elementary functions for the formulas: the same bits with every compiler, optimization level and vector width.
 *
 * Formulas run in loops under "omp simd", and the library promises that a batch gives exactly what single calls give.
 * The mathematical library of the system can promise neither: it cannot be inlined into vectors and rounds
 * differently from one processor to the next.  So each function here is
 *   - made only of + - * /, square root, comparisons with selects and operations on the bits of a double, all of
 *     which IEEE 754 or C define to the last bit, in one fixed order, never fused;
 *   - without branches, tables, calls and conversions to integers, so that it vectorizes with SSE2 and wider.
 *
 * Where a rounding in the middle would show in the result, the value is carried as an unevaluated sum of two doubles
 * (Dekker 1971).  Most functions therefore err by little more than the half ulp of their last rounding.
 *
 * Errors are in ulp (units in the last place of the result): the largest that tests/published/elementary_mpfr.c has met
 * in millions of points, and a little to spare; that program fails when a bound is passed.  Coefficients are the
 * minimax fits that tests/published/fit_elementary.py computes and prints.
 *
 * Unless a comment says otherwise NaN in gives NaN out; an argument outside the stated range gives some number,
 * infinity or NaN, never a fault; and within the range no function returns -0, except ung__copysign, ung__sqrt(-0) and
 * ung__min, ung__max and ung__clamp, which return what they were given.
 */
#ifndef UNG_CORE_ELEMENTARY_H
#define UNG_CORE_ELEMENTARY_H

#include <float.h>
#include <stdint.h>
#include <string.h>

#ifdef __FAST_MATH__
#error "these functions depend on exact rounding: compile without -ffast-math"
#endif
/* 16 concerns half precision alone: GCC sets it where the processor has that. */
_Static_assert(FLT_EVAL_METHOD == 0 || FLT_EVAL_METHOD == 16,
               "double arithmetic must round to double (on 32-bit x86: -msse2 -mfpmath=sse)");

/* A coverage build defines UNG_INLINE otherwise, so that branches are counted once and not in every copy. */
#if !defined(UNG_INLINE) && defined(UNG_COVERAGE)
#define UNG_INLINE static __attribute__((unused))
#elif !defined(UNG_INLINE)
#define UNG_INLINE static inline __attribute__((always_inline))
#endif

/* Adding this pushes the fraction out of a double: what is left in the low bits is the nearest whole number. */
#define UNG__SHIFTER 0x1.8p52

/* ---- Bits and exact functions ---- */

UNG_INLINE uint64_t ung__bits(double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    return bits;
}

UNG_INLINE double ung__from_bits(uint64_t bits)
{
    double x;
    memcpy(&x, &bits, sizeof x);
    return x;
}

/* a where the mask is all ones, b where it is 0: SSE2 has no comparison of 64-bit integers to select by. */
UNG_INLINE double ung__choose(uint64_t mask, double a, double b)
{
    return ung__from_bits((ung__bits(a) & mask) | (ung__bits(b) & ~mask));
}

UNG_INLINE double ung__abs(double x)
{
    return ung__from_bits(ung__bits(x) & UINT64_C(0x7fffffffffffffff));
}

UNG_INLINE double ung__copysign(double size, double sign)
{
    const uint64_t top = UINT64_C(0x8000000000000000);
    return ung__from_bits((ung__bits(size) & ~top) | (ung__bits(sign) & top));
}

/* The lesser and the greater; the second argument if either is NaN. */
UNG_INLINE double ung__min(double a, double b)
{
    return a < b ? a : b;
}

UNG_INLINE double ung__max(double a, double b)
{
    return a > b ? a : b;
}

/* x, but no less than low and no more than high; NaN stays NaN. */
UNG_INLINE double ung__clamp(double x, double low, double high)
{
    const double raised = x < low ? low : x;
    return raised > high ? high : raised;
}

/* The nearest whole number, the even one of two; exact for |x| < 2^51, as are the three that follow. */
UNG_INLINE double ung__round(double x)
{
    return (x + UNG__SHIFTER) - UNG__SHIFTER;
}

UNG_INLINE double ung__floor(double x)
{
    const double nearest = ung__round(x);
    return nearest > x ? nearest - 1.0 : nearest;
}

UNG_INLINE double ung__ceil(double x)
{
    const double nearest = ung__round(x);
    return nearest < x ? nearest + 1.0 : nearest;
}

/* 1 for a whole number, otherwise (NaN too) 0. */
UNG_INLINE double ung__is_whole(double x)
{
    return ung__round(x) == x ? 1.0 : 0.0;
}

/* Correctly rounded by IEEE 754, in hardware. */
UNG_INLINE double ung__sqrt(double x)
{
    return __builtin_sqrt(x);
}

/* sqrt(a^2 + b^2), error <= 1.25 ulp, for sizes 0 or 1e-150 to 1e150: within them no square overflows or fades. */
UNG_INLINE double ung__hypot(double a, double b)
{
    return ung__sqrt(a * a + b * b);
}

/* ---- Values in two doubles ---- */

/* hi + lo without rounding; lo is at most about half an ulp of hi. */
typedef struct ung__two {
    double hi, lo;
} ung__two;

/* big + small exactly, where |big| >= |small| or big is 0 (Dekker 1971). */
UNG_INLINE ung__two ung__add_small(double big, double small)
{
    const double sum = big + small;
    return (ung__two){sum, small - (sum - big)};
}

/* a + b exactly, whichever is larger (Knuth 1969). */
UNG_INLINE ung__two ung__add(double a, double b)
{
    const double sum = a + b, part = sum - a;
    return (ung__two){sum, (a - (sum - part)) + (b - part)};
}

/* The first 26 bits of x: products of two such numbers are exact, and so is x less its top. */
UNG_INLINE double ung__top(double x)
{
    return ung__from_bits(ung__bits(x) & UINT64_C(0xfffffffff8000000));
}

/* a b to about 2^-79: Dekker's product with tops taken by bits, which cannot overflow. */
UNG_INLINE ung__two ung__times(double a, double b)
{
    const double product = a * b;
    const double a1 = ung__top(a), a2 = a - a1, b1 = ung__top(b), b2 = b - b1;
    return (ung__two){product, ((a1 * b1 - product) + (a1 * b2 + a2 * b1)) + a2 * b2};
}

/* x (c1 + c2) for a constant whose first 26 bits are c1. */
UNG_INLINE ung__two ung__times_constant(ung__two x, double c1, double c2)
{
    const double top = ung__top(x.hi);
    return ung__add_small(top * c1, (x.hi * c2 + (x.hi - top) * c1) + x.lo * c1);
}

/* n / d: a quotient by the reciprocal, and in lo what the remainder adds to it. */
UNG_INLINE ung__two ung__quotient(ung__two n, ung__two d)
{
    const double inverse = 1.0 / d.hi, q = n.hi * inverse;
    const ung__two back = ung__times(q, d.hi);
    return (ung__two){q, (((n.hi - back.hi) - back.lo) + (n.lo - q * d.lo)) * inverse};
}

UNG_INLINE ung__two ung__in_radians(ung__two degrees)
{
    return ung__times_constant(degrees, 0x1.1df46ap-6, 0x1.294e9c8ae0ec6p-33); /* pi/180 */
}

UNG_INLINE ung__two ung__in_degrees(ung__two radians)
{
    return ung__times_constant(radians, 0x1.ca5dc18p+5, 0x1.31e0fbdc30a97p-22); /* 180/pi */
}

/* Degrees to radians and back, error <= 0.51 ulp, sizes 0 or 1e-290 to 1e290. */
UNG_INLINE double ung__rad(double degrees)
{
    return ung__in_radians((ung__two){degrees, 0.0}).hi + 0.0;
}

UNG_INLINE double ung__deg(double radians)
{
    return ung__in_degrees((ung__two){radians, 0.0}).hi + 0.0;
}

/* ---- Sine, cosine, tangent, cotangent of degrees ---- */

/* The angle less the nearest multiple of 90, without rounding, so that whole quarters give 0 and 1 exactly.  The low
 * two bits of count number the quarter.  (Taking a multiple off exactly before any rounding: Cody & Waite 1980.) */
typedef struct ung__quarter {
    double rest;
    uint64_t count;
} ung__quarter;

UNG_INLINE ung__quarter ung__reduce(double degrees)
{
    const double shifted = degrees * 0x1.6c16c16c16c17p-7 /* 1/90 */ + UNG__SHIFTER;
    /* 0 is added to make -0 into 0 */
    return (ung__quarter){(degrees - (shifted - UNG__SHIFTER) * 90.0) + 0.0, ung__bits(shifted)};
}

/* sin t for |t| <= pi/4: t + t^3 P(t^2); t.lo counts by the derivative 1 - t^2/2. */
UNG_INLINE ung__two ung__sin_part(ung__two t)
{
    const double z = t.hi * t.hi;
    double p = -7.384544582750925e-13;
    p = p * z + 1.605422044346373e-10;
    p = p * z - 2.5052070282666433e-08;
    p = p * z + 2.7557319071876635e-06;
    p = p * z - 0.0001984126984095928;
    p = p * z + 0.00833333333333304;
    p = p * z - 0.16666666666666666;
    return ung__add_small(t.hi, (t.hi * z) * p + (t.lo - (0.5 * z) * t.lo));
}

/* cos t for |t| <= pi/4: 1 - z/2 + z^2 P(z), z = t^2.  1 - z/2 is kept in two doubles, with the square of the top of t
 * exact, because z/2 reaches 0.3 and its rounding would show. */
UNG_INLINE ung__two ung__cos_part(ung__two t)
{
    const double z = t.hi * t.hi, top = ung__top(t.hi), half = 0.5 * (top * top);
    const ung__two main = ung__add_small(1.0, -half);
    const double rest = (0.5 * (t.hi - top)) * (t.hi + top) + t.hi * t.lo;
    double p = -1.1358747749544956e-11;
    p = p * z + 2.0875705380900966e-09;
    p = p * z - 2.7557314216976953e-07;
    p = p * z + 2.4801587289001995e-05;
    p = p * z - 0.0013888888888873342;
    p = p * z + 0.041666666666666595;
    return ung__add_small(main.hi, main.lo + ((z * z) * p - rest));
}

/* Sine of the angle plus `ahead` quarters. */
UNG_INLINE double ung__sin_ahead(double degrees, uint64_t ahead)
{
    const ung__quarter quarter = ung__reduce(degrees);
    const uint64_t count = quarter.count + ahead;
    const ung__two t = ung__in_radians((ung__two){quarter.rest, 0.0});
    const double size = ung__choose(0 - (count & 1), ung__cos_part(t).hi, ung__sin_part(t).hi);
    return ung__from_bits(ung__bits(size) ^ ((count & 2) << 62)) + 0.0;
}

/* |x| <= 360,000, error <= 0.85 ulp; 0, 1/2, 1 are exact where they are the answer. */
UNG_INLINE double ung__sin_deg(double degrees)
{
    return ung__sin_ahead(degrees, 0);
}

UNG_INLINE double ung__cos_deg(double degrees)
{
    return ung__sin_ahead(degrees, 1);
}

/* |x| <= 360,000 (for cot without |x| < 1e-290), error <= 1 ulp; 0 and 1 are exact.  Both parts of sine and
 * cosine go into the quotient.  At the poles +infinity. */
UNG_INLINE double ung__tan_deg(double degrees)
{
    const ung__quarter quarter = ung__reduce(degrees);
    const uint64_t odd = 0 - (quarter.count & 1);
    const ung__two t = ung__in_radians((ung__two){quarter.rest, 0.0});
    const ung__two s = ung__sin_part(t), c = ung__cos_part(t);
    const ung__two n = {ung__choose(odd, c.hi, s.hi), ung__choose(odd, c.lo, s.lo)};
    const ung__two d = {ung__choose(odd, 0.0 - s.hi, c.hi), ung__choose(odd, 0.0 - s.lo, c.lo)};
    const ung__two q = ung__quotient(n, d);
    return d.hi == 0.0 ? q.hi : (q.hi + q.lo) + 0.0; /* at a pole lo is not a number */
}

UNG_INLINE double ung__cot_deg(double degrees)
{
    const ung__quarter quarter = ung__reduce(degrees);
    const uint64_t odd = 0 - (quarter.count & 1);
    const ung__two t = ung__in_radians((ung__two){quarter.rest, 0.0});
    const ung__two s = ung__sin_part(t), c = ung__cos_part(t);
    const ung__two n = {ung__choose(odd, 0.0 - s.hi, c.hi), ung__choose(odd, 0.0 - s.lo, c.lo)};
    const ung__two d = {ung__choose(odd, c.hi, s.hi), ung__choose(odd, c.lo, s.lo)};
    const ung__two q = ung__quotient(n, d);
    return d.hi == 0.0 ? q.hi : (q.hi + q.lo) + 0.0;
}

/* ---- Inverse functions ---- */

/* The angle of the point (b, a), a and b >= 0, as so many eighths of a turn plus `part` radians.  Above 1/2 and above
 * 2 the ratio is taken from the diagonal and from the vertical, so the polynomial sees |u| <= 1/2:
 * atan u = u + u^3 P(u^2).  The low part of u counts by the derivative 1/(1 + z), z = u^2, which 1 - z (1 - z) is near
 * enough. */
typedef struct ung__angle {
    double eighths;
    ung__two part;
} ung__angle;

UNG_INLINE ung__angle ung__angle_of(double a, double b)
{
    const double low = a <= 0.5 * b ? 1.0 : 0.0, high = a >= 2.0 * b ? 1.0 : 0.0;
    const ung__two sum = ung__add(a, b);
    const double n = low != 0.0 ? a : high != 0.0 ? -b : a - b; /* a - b has no rounding there */
    const double d = low != 0.0 ? b : high != 0.0 ? a : sum.hi;
    const double d_lo = low + high != 0.0 ? 0.0 : sum.lo;
    const ung__two u = ung__quotient((ung__two){n, 0.0}, (ung__two){d == 0.0 ? 1.0 : d, d_lo});
    const double z = u.hi * u.hi;
    double p = -0.008369100124470747;
    p = p * z + 0.02366096562714035;
    p = p * z - 0.03712335902029213;
    p = p * z + 0.04589661190201784;
    p = p * z - 0.052300779295562934;
    p = p * z + 0.0587782096316875;
    p = p * z - 0.06666225604614677;
    p = p * z + 0.07692277687563975;
    p = p * z - 0.09090907707717126;
    p = p * z + 0.11111111070111804;
    p = p * z - 0.14285714284999304;
    p = p * z + 0.19999999999993773;
    p = p * z - 0.33333333333333315;
    return (ung__angle){low != 0.0 ? 0.0 : high != 0.0 ? 2.0 : 1.0,
                        ung__add_small(u.hi, (u.hi * z) * p + (u.lo - (z * (1.0 - z)) * u.lo))};
}

/* Any x, error <= 0.75 ulp (for |x| >= 1e-290). */
UNG_INLINE double ung__atan(double x)
{
    const double size = ung__abs(x), a = size > 1e100 ? 1e100 : size; /* infinity: the limit */
    const ung__angle angle = ung__angle_of(a, 1.0);
    const ung__two sum = ung__add_small(angle.eighths * 0x1.921fb54442d18p-1, angle.part.hi);
    const double r = sum.hi + (sum.lo + (angle.eighths * 0x1.1a62633145c07p-55 + angle.part.lo));
    return x < 0.0 ? -r : r;
}

/* Degrees of the point (x, y) from the x axis, > -180 and <= 180, error <= 0.75 ulp, for sizes 0 or 1e-150 to 1e150
 * with a ratio of at most 1e290; 0 for the point (0, 0).  An angle that would round to -180 is 180, as if the sign of
 * a y too small to count had not been there. */
UNG_INLINE double ung__atan2_deg(double y, double x)
{
    const ung__angle angle = ung__angle_of(ung__abs(y), ung__abs(x));
    const ung__two part = ung__in_degrees(angle.part);
    const double base = 45.0 * angle.eighths, way = x < 0.0 ? -1.0 : 1.0;
    const ung__two sum = ung__add_small(x < 0.0 ? 180.0 - base : base, way * part.hi);
    const double r = sum.hi + (sum.lo + way * part.lo), side = y < 0.0 ? -r : r;
    return (side <= -180.0 ? 180.0 : side) + 0.0;
}

/* Any x, error <= 0.75 ulp (for |x| >= 1e-290). */
UNG_INLINE double ung__atan_deg(double x)
{
    return ung__atan2_deg(x < -1e100 ? -1e100 : x > 1e100 ? 1e100 : x, 1.0);
}

/* asin a for 0 <= a <= 1/2 in degrees; for greater a, the asin of the sine of half the angle that a lies below 90
 * degrees: w = sqrt((1 - a)/2), where 1 - a has no rounding, so that acos keeps all its digits near 1.
 * asin w = w + w^3 P(w^2); the low part of the root counts by the derivative, near enough 1 + z/2. */
UNG_INLINE ung__two ung__asin_part(double a)
{
    const double small = a <= 0.5 ? 1.0 : 0.0;
    const double z = small != 0.0 ? a * a : 0.5 - 0.5 * a, root = ung__sqrt(z), w = small != 0.0 ? a : root;
    const ung__two square = ung__times(root, root);
    const double root_lo = ((z - square.hi) - square.lo) / (root == 0.0 ? 1.0 : root + root);
    const double w_lo = small != 0.0 ? 0.0 : root_lo;
    double p = 0.0336087145707149;
    p = p * z - 0.026082601356996037;
    p = p * z + 0.024770059110478783;
    p = p * z + 0.000709859381814532;
    p = p * z + 0.010000925912040853;
    p = p * z + 0.00948586073477561;
    p = p * z + 0.011585406079280635;
    p = p * z + 0.013961932362423133;
    p = p * z + 0.017352941052540972;
    p = p * z + 0.022372151813138653;
    p = p * z + 0.030381944637739636;
    p = p * z + 0.044642857139827304;
    p = p * z + 0.07500000000002384;
    p = p * z + 0.1666666666666666;
    return ung__in_degrees(ung__add_small(w, (w * z) * p + (w_lo + (0.5 * z) * w_lo)));
}

/* |x| <= 1, beyond it NaN; error <= 0.85 ulp (asin for |x| >= 1e-290).  That holds up to the ends, acos near 1 too. */
UNG_INLINE double ung__asin_deg(double x)
{
    const double a = ung__abs(x);
    const ung__two part = ung__asin_part(a);
    const double times = a > 0.5 ? -2.0 : 1.0;
    const ung__two sum = ung__add_small(a > 0.5 ? 90.0 : 0.0, times * part.hi);
    const double r = sum.hi + (sum.lo + times * part.lo);
    return x < 0.0 ? -r : r;
}

UNG_INLINE double ung__acos_deg(double x)
{
    const double a = ung__abs(x);
    const ung__two part = ung__asin_part(a);
    const double sign = x < 0.0 ? -1.0 : 1.0, times = a > 0.5 ? sign + sign : -sign;
    const ung__two sum = ung__add_small(a > 0.5 ? 90.0 - 90.0 * sign : 90.0, times * part.hi);
    return sum.hi + (sum.lo + times * part.lo);
}

/* ---- Exponential and what is made of it ---- */

/* e^(x.hi + x.lo) = 2^n (1 + less.hi + less.lo): n is the nearest to x/ln 2, the rest r is at most ln 2/2 and
 * e^r - 1 = r + r^2 P(r).  n times the first part of ln 2 is exact (Cody & Waite 1980); the rounding of the second is
 * kept.  x is held within -708 to 709, where 2^n can be made from its bits. */
typedef struct ung__growth {
    double scale;
    ung__two less;
} ung__growth;

UNG_INLINE ung__growth ung__grow(ung__two x)
{
    const double held = ung__clamp(x.hi, -708.0, 709.0);
    const double shifted = held * 0x1.71547652b82fep+0 /* 1/ln 2 */ + UNG__SHIFTER, n = shifted - UNG__SHIFTER;
    const ung__two r = ung__add(held - n * 0x1.62e42fefa4p-1, n * 0x1.8432a1b0e2634p-43 + x.lo); /* ln 2 in parts */
    double p = 2.092157865553273e-09;
    p = p * r.hi + 2.510520572084394e-08;
    p = p * r.hi + 2.755725294418779e-07;
    p = p * r.hi + 2.755725542737875e-06;
    p = p * r.hi + 2.4801587347306657e-05;
    p = p * r.hi + 0.00019841269874799162;
    p = p * r.hi + 0.0013888888888874413;
    p = p * r.hi + 0.008333333333326141;
    p = p * r.hi + 0.041666666666666685;
    p = p * r.hi + 0.1666666666666667;
    p = p * r.hi + 0.5;
    return (ung__growth){ung__from_bits((ung__bits(shifted) + 1023) << 52),
                         ung__add_small(r.hi, (r.hi * r.hi) * p + (r.lo + r.hi * r.lo))};
}

UNG_INLINE double ung__exp_two(ung__two x)
{
    const ung__growth g = ung__grow(x);
    const ung__two one = ung__add_small(1.0, g.less.hi);
    return (one.hi + (one.lo + g.less.lo)) * g.scale;
}

/* e^x - 1 in two doubles. */
UNG_INLINE ung__two ung__expm1_two(double x)
{
    const ung__growth g = ung__grow((ung__two){x, 0.0});
    const ung__two base = ung__add(g.scale, -1.0), sum = ung__add_small(base.hi, g.scale * g.less.hi);
    return ung__add_small(sum.hi, sum.lo + (base.lo + g.scale * g.less.lo));
}

/* |x| <= 700, error <= 0.7 ulp; beyond it as at -708 and 709, nearly 0 and nearly infinity. */
UNG_INLINE double ung__exp(double x)
{
    return ung__exp_two((ung__two){x, 0.0});
}

/* |x| <= 700, error <= 1.1 ulp (for |x| >= 1e-290). */
UNG_INLINE double ung__expm1(double x)
{
    return ung__expm1_two(x).hi + 0.0;
}

/* Any x, error <= 0.9 ulp (for |x| >= 1e-290): with E = e^(2|x|) - 1 it is E/(E + 2); from 20 on 1. */
UNG_INLINE double ung__tanh(double x)
{
    const double size = ung__abs(x), a = size > 20.0 ? 20.0 : size;
    const ung__two e = ung__expm1_two(a + a), sum = ung__add(e.hi, 2.0);
    const ung__two q = ung__quotient(e, (ung__two){sum.hi, sum.lo + e.lo});
    const double r = q.hi + q.lo;
    return x < 0.0 ? -r : r;
}

/* ---- Logarithm and what is made of it ---- */

/* log(u + u_lo) in two doubles, u a positive normal number and u_lo at most half its ulp (any size if u is 1).
 * u = 2^k m with m between sqrt 1/2 and sqrt 2, found by counting from the bits of sqrt 1/2, which also puts m - 1
 * at exactly u - 1 near 1.  log m = 2 atanh s = 2 s + s^3 P(s^2), s = (m - 1)/(m + 1) (compare Tang 1990). */
UNG_INLINE ung__two ung__log_two(double u, double u_lo)
{
    const uint64_t start = UINT64_C(0x3fe6a09e00000000), one = UINT64_C(0x3ff0000000000000);
    const uint64_t counted = ung__bits(u) + (one - start), power = counted >> 52; /* k + 1023 */
    const double m = ung__from_bits((counted & UINT64_C(0x000fffffffffffff)) + start);
    const double k = ung__from_bits(power | UINT64_C(0x4330000000000000)) - (0x1p52 + 1023.0);
    const double unscale = ung__from_bits((2046 - power) << 52); /* 2^-k, but nothing useful for the last k, 1024 */
    const double m_lo = u_lo == 0.0 ? 0.0 : u_lo * unscale;
    const ung__two n = ung__add_small(m - 1.0, m_lo), sum = ung__add(n.hi, 2.0);
    const ung__two s = ung__quotient(n, (ung__two){sum.hi, sum.lo + n.lo});
    const double z = s.hi * s.hi;
    double p = 0.13235121488801158;
    p = p * z + 0.13252115000997539;
    p = p * z + 0.15386990145309906;
    p = p * z + 0.1818177832956781;
    p = p * z + 0.22222222607236428;
    p = p * z + 0.28571428569409785;
    p = p * z + 0.40000000000004926;
    p = p * z + 0.6666666666666666;
    const ung__two main = ung__add_small(k * 0x1.62e42fefa4p-1, s.hi + s.hi);
    return ung__add_small(main.hi, main.lo + (((s.hi * z) * p + (s.lo + s.lo)) - k * 0x1.8432a1b0e2634p-43));
}

/* Positive normal x, error <= 0.6 ulp; NaN for 0 and less. */
UNG_INLINE double ung__log(double x)
{
    return x > 0.0 ? ung__log_two(x, 0.0).hi : __builtin_nan("");
}

/* -1 < x <= 1e300, error <= 0.65 ulp (for |x| >= 1e-290); NaN for -1 and less. */
UNG_INLINE double ung__log1p(double x)
{
    const ung__two u = ung__add(x, 1.0);
    return x > -1.0 ? ung__log_two(u.hi, u.lo).hi + 0.0 : __builtin_nan("");
}

/* |x| <= 1e150, error <= 1.2 ulp (for |x| >= 1e-290): log(1 + w) with w = a + a^2/(1 + sqrt(1 + a^2)), a = |x|. */
UNG_INLINE double ung__asinh(double x)
{
    const double a = ung__abs(x), square = a * a;
    const ung__two w = ung__add_small(a, square / (1.0 + ung__sqrt(1.0 + square)));
    const ung__two u = ung__add(w.hi, 1.0);
    const double r = a >= 0.0 ? ung__log_two(u.hi, u.lo + w.lo).hi : a;
    return x < 0.0 ? -r : r;
}

/* x^y for positive normal x, |y| <= 10 and |y log x| <= 700, error <= 0.9 ulp; NaN for x = 0 and less.  The logarithm
 * and its product with y are in two doubles, because the error of an exponent grows with its size. */
UNG_INLINE double ung__pow(double x, double y)
{
    const ung__two power = ung__log_two(x, 0.0), product = ung__times(power.hi, y);
    return x > 0.0 ? ung__exp_two((ung__two){product.hi, product.lo + power.lo * y}) : __builtin_nan("");
}

#endif
