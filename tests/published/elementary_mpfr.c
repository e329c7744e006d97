/* The accuracy of lib/core/elementary.h against MPFR, over the whole range each function states.
 *
 * Points are drawn evenly, by size down to the smallest, and close to every boundary where a function changes its way
 * (reductions, selects, ends); then a search climbs from the worst of them through their neighbors.  The bounds in the
 * table are those of the comments in the header.  UNG_TESTS=short, unset or long: 20,000, 100,000 or 2,000,000 points
 * a function.  Prints the worst error met by each. */
#include "core/elementary.h"

#include <check.h>
#include <math.h>
#include <mpfr.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define BITS 300
#define PI 0x1.921fb54442d18p+1
#define LN2 0x1.62e42fefa39efp-1

/* ---- Random points ---- */

static uint64_t state;

static uint64_t word(void) /* a counter, stirred by multiplications and shifts */
{
    uint64_t x = state += UINT64_C(0x9e3779b97f4a7c15);
    x = (x ^ (x >> 32)) * UINT64_C(0xd6e8feb86659fd93);
    x = (x ^ (x >> 29)) * UINT64_C(0xd6e8feb86659fd93);
    return x ^ (x >> 32);
}

static double unit(void)
{
    return (double)(word() >> 11) * 0x1p-53;
}

static double between(double low, double high)
{
    return low + (high - low) * unit();
}

static double whole(double low, double high)
{
    return floor(between(low, high + 1));
}

static double sign(void)
{
    return word() & 1 ? 1 : -1;
}

static double sized(double least, double most) /* evenly in the logarithm */
{
    return fmin(most, fmax(least, exp(between(log(least), log(most)))));
}

static double step(double x, int64_t ulps) /* the double so many places on; x is not 0 */
{
    const double size = fabs(x);
    int64_t bits;
    memcpy(&bits, &size, sizeof bits);
    bits = bits + ulps < 1 ? 1 : bits + ulps;
    double moved;
    memcpy(&moved, &bits, sizeof moved);
    return copysign(moved, x);
}

static double beside(double x) /* on it, some ulp from it, or at any small distance */
{
    if (x == 0)
        return sign() * sized(1e-290, 1e-3);
    switch (word() % 4) {
    case 0:
        return step(x, (int64_t)(word() % 9) - 4);
    case 1:
        return step(x, (int64_t)(word() % 2001) - 1000);
    default:
        return x + x * sign() * sized(1e-16, 1e-2);
    }
}

static double one_of(const double *x, size_t count)
{
    return x[word() % count];
}
#define ONE_OF(...) one_of((const double[]){__VA_ARGS__}, sizeof((const double[]){__VA_ARGS__}) / sizeof(double))

static void draw_degrees(double *a, double *b)
{
    *b = 0;
    switch (word() % 6) {
    case 0: *a = between(-360000, 360000); break;
    case 1: *a = between(-360, 360); break;
    case 2: *a = sign() * sized(1e-290, 360000); break;
    case 3: *a = beside(45 * whole(-8000, 8000)); break;
    case 4: *a = beside(45 * whole(-8, 8)); break;
    default: *a = whole(-3600000, 3600000) / 10; break;
    }
}

static void draw_any(double *a, double *b) /* for arctangents */
{
    *b = 0;
    switch (word() % 4) {
    case 0: *a = between(-4, 4); break;
    case 1: *a = sign() * sized(1e-290, 1e300); break;
    case 2: *a = sign() * beside(ONE_OF(0.5, 1, 2)); break;
    default: *a = sign() * sized(1e-3, 1e3); break;
    }
}

static void draw_point(double *a, double *b)
{
    *b = sign() * (word() & 1 ? sized(1e-140, 1e140) : between(0.01, 100));
    draw_any(a, &(double){0});
    *a = fmin(1e150, fmax(-1e150, *a * *b));
    if (fabs(*a) < 1e-150)
        *a = word() % 16 ? sign() * 1e-150 : 0;
    if (word() % 64 == 0)
        *b = 0;
}

static void draw_sides(double *a, double *b)
{
    *a = sign() * sized(1e-150, 1e150);
    *b = word() % 8 ? *a * sized(1e-9, 1e9) : sized(1e-150, 1e150);
    *b = fmin(1e150, fmax(-1e150, *b));
    *b = fabs(*b) < 1e-150 ? 1e-150 : *b;
}

static void draw_sine(double *a, double *b)
{
    *b = 0;
    switch (word() % 4) {
    case 0: *a = between(-1, 1); break;
    case 1: *a = sign() * sized(1e-290, 1); break;
    case 2: *a = sign() * beside(ONE_OF(0.5, 1)); break;
    default: *a = sign() * (1 - sized(1e-16, 1)); break;
    }
}

static void draw_exponent(double *a, double *b)
{
    *b = 0;
    switch (word() % 5) {
    case 0: *a = between(-700, 700); break;
    case 1: *a = sign() * sized(1e-290, 700); break;
    case 2: *a = beside((whole(-1009, 1008) + 0.5) * LN2); break;
    case 3: *a = beside((whole(-6, 5) + 0.5) * LN2); break;
    default: *a = between(-2, 2); break;
    }
}

static void draw_tanh(double *a, double *b)
{
    *b = 0;
    switch (word() % 4) {
    case 0: *a = between(-25, 25); break;
    case 1: *a = sign() * sized(1e-290, 100); break;
    case 2: *a = beside((whole(-56, 55) + 0.5) * LN2 / 2); break;
    default: *a = between(-1, 1); break;
    }
}

static double cut(double most) /* where the logarithm takes the next power of 2 */
{
    return ldexp(word() & 1 ? sqrt(0.5) : 1, (int)whole(-most, most));
}

static void draw_positive(double *a, double *b)
{
    *b = 0;
    switch (word() % 5) {
    case 0: *a = sized(DBL_MIN, DBL_MAX); break;
    case 1: *a = between(0.5, 2); break;
    case 2: *a = beside(cut(1000)); break;
    case 3: *a = beside(cut(2)); break;
    default: *a = 1 + sign() * sized(2e-16, 0.4); break;
    }
}

static void draw_above_minus_one(double *a, double *b)
{
    *b = 0;
    switch (word() % 6) {
    case 0: *a = between(-1, 3); break;
    case 1: *a = sized(1e-290, 1e300); break;
    case 2: *a = -sized(1e-290, 1); break;
    case 3: *a = -1 + sized(1.2e-16, 1); break;
    case 4: *a = beside(cut(4) - 1); break;
    default: *a = beside(cut(50) - 1); break;
    }
}

static void draw_asinh(double *a, double *b)
{
    *b = 0;
    switch (word() % 4) {
    case 0: *a = between(-4, 4); break;
    case 1: *a = sign() * sized(1e-290, 1e150); break;
    case 2: *a = sign() * beside(sinh(LN2 / 2 + LN2 * whole(0, 20))); break;
    default: *a = sign() * sized(1e-9, 2); break;
    }
}

static void draw_power(double *a, double *b)
{
    draw_positive(a, b);
    if (fabs(*b = between(-10, 10)) > 9.99)
        *b = ONE_OF(-10, 10, 1, 2, 0.5, -1, 1.84, 1.45);
    if (word() % 3 == 0) /* the product at a boundary of the exponential */
        *b = beside((whole(-1009, 1008) + 0.5) * LN2) / log(*a);
    if (fabs(*b) < 1e-30)
        *b = 0;
}

static void draw_size(double *a, double *b)
{
    *b = 0;
    *a = sign() * sized(1e-290, 1e290);
    if (word() & 1)
        *a = between(-400, 400);
}

/* ---- References ---- */

static mpfr_t x, y, pi;

static void degrees(double a) /* x = a in radians; the turns are taken off exactly first */
{
    mpfr_set_d(x, fmod(a, 360), MPFR_RNDN);
    mpfr_mul(x, x, pi, MPFR_RNDN);
    mpfr_div_ui(x, x, 180, MPFR_RNDN);
}

static void in_degrees(mpfr_t r)
{
    mpfr_mul_ui(r, r, 180, MPFR_RNDN);
    mpfr_div(r, r, pi, MPFR_RNDN);
}

static int quarter(double a) /* 0 to 3 for whole quarters, otherwise -1 */
{
    return fmod(a, 90) != 0 ? -1 : ((int)(fmod(a, 360) / 90) + 4) % 4;
}

static const int sines[] = {0, 1, 0, -1};

static void ref_sin_deg(mpfr_t r, double a, double b)
{
    (void)b;
    degrees(a);
    if (quarter(a) >= 0)
        mpfr_set_si(r, sines[quarter(a)], MPFR_RNDN);
    else
        mpfr_sin(r, x, MPFR_RNDN);
}

static void ref_cos_deg(mpfr_t r, double a, double b)
{
    (void)b;
    degrees(a);
    if (quarter(a) >= 0)
        mpfr_set_si(r, sines[(quarter(a) + 1) % 4], MPFR_RNDN);
    else
        mpfr_cos(r, x, MPFR_RNDN);
}

static void ref_tan_deg(mpfr_t r, double a, double b) /* NaN at the poles: not compared */
{
    ref_cos_deg(y, a, b);
    ref_sin_deg(r, a, b);
    if (mpfr_zero_p(y))
        mpfr_set_nan(r);
    else
        mpfr_div(r, r, y, MPFR_RNDN);
}

static void ref_cot_deg(mpfr_t r, double a, double b)
{
    ref_sin_deg(y, a, b);
    ref_cos_deg(r, a, b);
    if (mpfr_zero_p(y))
        mpfr_set_nan(r);
    else
        mpfr_div(r, r, y, MPFR_RNDN);
}

static void ref_atan2_deg(mpfr_t r, double a, double b)
{
    mpfr_set_d(x, a, MPFR_RNDN);
    mpfr_set_d(y, b, MPFR_RNDN);
    mpfr_atan2(r, x, y, MPFR_RNDN);
    in_degrees(r);
    if (ung__atan2_deg(a, b) == 180 && mpfr_sgn(r) < 0) /* the same angle, and stated so */
        mpfr_add_ui(r, r, 360, MPFR_RNDN);
}

static void ref_pow(mpfr_t r, double a, double b)
{
    mpfr_set_d(x, a, MPFR_RNDN);
    mpfr_set_d(y, b, MPFR_RNDN);
    mpfr_pow(r, x, y, MPFR_RNDN);
}

static void ref_hypot(mpfr_t r, double a, double b)
{
    mpfr_set_d(x, a, MPFR_RNDN);
    mpfr_set_d(y, b, MPFR_RNDN);
    mpfr_hypot(r, x, y, MPFR_RNDN);
}

#define REFERENCE(name, call, then)                     \
    static void ref_##name(mpfr_t r, double a, double b) \
    {                                                   \
        (void)b;                                        \
        mpfr_set_d(x, a, MPFR_RNDN);                    \
        call(r, x, MPFR_RNDN);                          \
        then;                                           \
    }
REFERENCE(atan, mpfr_atan, )
REFERENCE(atan_deg, mpfr_atan, in_degrees(r))
REFERENCE(asin_deg, mpfr_asin, in_degrees(r))
REFERENCE(acos_deg, mpfr_acos, in_degrees(r))
REFERENCE(exp, mpfr_exp, )
REFERENCE(expm1, mpfr_expm1, )
REFERENCE(tanh, mpfr_tanh, )
REFERENCE(log, mpfr_log, )
REFERENCE(log1p, mpfr_log1p, )
REFERENCE(asinh, mpfr_asinh, )
REFERENCE(sqrt, mpfr_sqrt, )
REFERENCE(deg, mpfr_set, in_degrees(r))
REFERENCE(rad, mpfr_set, (mpfr_mul(r, r, pi, MPFR_RNDN), mpfr_div_ui(r, r, 180, MPFR_RNDN)))

/* ---- The functions and their bounds ---- */

#define CALL(name)                              \
    static double call_##name(double a, double b) \
    {                                           \
        (void)b;                                \
        return ung__##name(a);                  \
    }
CALL(sin_deg) CALL(cos_deg) CALL(tan_deg) CALL(cot_deg) CALL(atan) CALL(atan_deg) CALL(asin_deg) CALL(acos_deg)
CALL(exp) CALL(expm1) CALL(tanh) CALL(log) CALL(log1p) CALL(asinh) CALL(sqrt) CALL(rad) CALL(deg)

static double call_atan2_deg(double a, double b)
{
    return ung__atan2_deg(a, b);
}

static double call_pow(double a, double b)
{
    return ung__pow(a, b);
}

static double call_hypot(double a, double b)
{
    return ung__hypot(a, b);
}

typedef struct item {
    const char *name;
    double (*call)(double, double);
    void (*reference)(mpfr_t, double, double);
    void (*draw)(double *, double *);
    double bound;              /* ulp */
    double least, low, high;   /* range of the first argument; of sizes below least only 0 */
    double (*product)(double); /* if not null, |b| <= 10 and |b product(a)| <= 700 */
} item;

#define ITEM(name) #name, call_##name, ref_##name
static const item items[] = {
    {ITEM(sin_deg), draw_degrees, 0.85, 1e-290, -360000, 360000, NULL},
    {ITEM(cos_deg), draw_degrees, 0.85, 0, -360000, 360000, NULL},
    {ITEM(tan_deg), draw_degrees, 1, 1e-290, -360000, 360000, NULL},
    {ITEM(cot_deg), draw_degrees, 1, 1e-290, -360000, 360000, NULL},
    {ITEM(atan), draw_any, 0.75, 1e-290, -DBL_MAX, DBL_MAX, NULL},
    {ITEM(atan_deg), draw_any, 0.75, 1e-290, -DBL_MAX, DBL_MAX, NULL},
    {ITEM(atan2_deg), draw_point, 0.75, 1e-150, -1e150, 1e150, NULL},
    {ITEM(asin_deg), draw_sine, 0.85, 1e-290, -1, 1, NULL},
    {ITEM(acos_deg), draw_sine, 0.85, 0, -1, 1, NULL},
    {ITEM(exp), draw_exponent, 0.7, 0, -700, 700, NULL},
    {ITEM(expm1), draw_exponent, 1.1, 1e-290, -700, 700, NULL},
    {ITEM(tanh), draw_tanh, 0.9, 1e-290, -DBL_MAX, DBL_MAX, NULL},
    {ITEM(log), draw_positive, 0.6, 0, DBL_MIN, DBL_MAX, NULL},
    {ITEM(log1p), draw_above_minus_one, 0.65, 1e-290, -1 + DBL_EPSILON / 2, 1e300, NULL},
    {ITEM(asinh), draw_asinh, 1.2, 1e-290, -1e150, 1e150, NULL},
    {ITEM(pow), draw_power, 0.9, 0, DBL_MIN, DBL_MAX, log},
    {ITEM(hypot), draw_sides, 1.25, 1e-150, -1e150, 1e150, NULL},
    {ITEM(rad), draw_size, 0.51, 1e-290, -1e290, 1e290, NULL},
    {ITEM(deg), draw_size, 0.51, 1e-290, -1e290, 1e290, NULL},
    {ITEM(sqrt), draw_positive, 0.5, 0, 0, DBL_MAX, NULL},
};
enum { ITEMS = sizeof items / sizeof *items };

static long points(void)
{
    const char *wish = getenv("UNG_TESTS");
    return wish && !strcmp(wish, "short") ? 20000 : wish && !strcmp(wish, "long") ? 2000000 : 100000;
}

static int within(const item *f, double a, double b)
{
    return a >= f->low && a <= f->high && (fabs(a) >= f->least || a == 0) &&
           (!f->product || (fabs(b) <= 10 && fabs(b * f->product(a)) <= 700));
}

static mpfr_t exact, difference;

static double error(const item *f, double a, double b) /* in ulp of the exact result */
{
    const double got = f->call(a, b);
    f->reference(exact, a, b);
    if (mpfr_nan_p(exact))
        return 0;
    if (!isfinite(got))
        return HUGE_VAL;
    if (got == 0 && signbit(got))
        return HUGE_VAL;
    if (mpfr_zero_p(exact))
        return got == 0 ? 0 : HUGE_VAL;
    const mpfr_exp_t least = DBL_MIN_EXP - DBL_MANT_DIG, last = mpfr_get_exp(exact) - DBL_MANT_DIG;
    mpfr_sub_d(difference, exact, got, MPFR_RNDN);
    mpfr_mul_2si(difference, difference, -(last < least ? least : last), MPFR_RNDN);
    return fabs(mpfr_get_d(difference, MPFR_RNDN));
}

/* ---- Tests ---- */

enum { KEPT = 24 };

typedef struct spot {
    double a, b, error;
} spot;

START_TEST(within_bound)
{
    const item *const f = &items[_i];
    const long count = points();
    spot kept[KEPT] = {{0, 0, -1}};
    state = (uint64_t)_i << 40;
    for (long n = 0; n < count * 2 / 3;) {
        spot s = {0, 0, 0};
        f->draw(&s.a, &s.b);
        if (!within(f, s.a, s.b))
            continue;
        n++;
        s.error = error(f, s.a, s.b);
        int least = 0;
        for (int k = 1; k < KEPT; k++)
            least = kept[k].error < kept[least].error ? k : least;
        if (s.error > kept[least].error)
            kept[least] = s;
    }
    spot worst = {0, 0, -1};
    for (int k = 0; k < KEPT; k++) { /* climb */
        spot s = kept[k];
        for (long n = 0; n < count / 3 / KEPT; n++) {
            spot t = s;
            double *moved = word() & 1 && t.b != 0 ? &t.b : &t.a;
            if (*moved == 0)
                continue;
            *moved = word() & 1 ? step(*moved, (int64_t)(word() % 129) - 64)
                                : *moved + *moved * sign() * ldexp(unit(), -(int)(word() % 48));
            if (!within(f, t.a, t.b) || (f->call == call_atan2_deg && fabs(t.b) < 1e-150 && t.b != 0) ||
                (f->call == call_hypot && (fabs(t.b) < 1e-150 || fabs(t.b) > 1e150)))
                continue;
            t.error = error(f, t.a, t.b);
            if (t.error > s.error)
                s = t;
        }
        worst = s.error > worst.error ? s : worst;
    }
    printf("%-10s worst %.4f ulp (bound %.2f) at %.17g %.17g\n", f->name, worst.error, f->bound, worst.a, worst.b);
    fflush(stdout);
    ck_assert_msg(worst.error <= f->bound, "%s(%a, %a): %g ulp, more than %g", f->name, worst.a, worst.b, worst.error,
                  f->bound);
}
END_TEST

static int same(double a, double b) /* to the bit */
{
    return !memcmp(&a, &b, sizeof a);
}

START_TEST(whole_numbers)
{
    state = 77;
    for (long n = points(); n > 0; n--) {
        double a = word() & 1 ? between(-100, 100) : sign() * sized(1e-300, 0x1p51);
        if (word() & 1)
            a = floor(a * 2) / 2;
        if (word() % 4 == 0 && a != 0)
            a = step(a, (int64_t)(word() % 5) - 2);
        if (fabs(a) >= 0x1p51)
            continue;
        ck_assert(same(ung__round(a), nearbyint(a) + 0.0));
        ck_assert(same(ung__floor(a), floor(a) + 0.0));
        ck_assert(same(ung__ceil(a), ceil(a) + 0.0));
        ck_assert(same(ung__is_whole(a), floor(a) == a ? 1.0 : 0.0));
        ck_assert(same(ung__abs(a), fabs(a)));
        const double b = between(-100, 100);
        ck_assert(same(ung__copysign(a, b), copysign(a, b)));
        ck_assert(ung__min(a, b) == fmin(a, b) && ung__max(a, b) == fmax(a, b));
        ck_assert(ung__clamp(a, -1, 50) == fmin(50, fmax(-1, a)));
    }
    ck_assert(ung__is_whole(NAN) == 0);
    ck_assert(isnan(ung__round(NAN)) && isnan(ung__floor(NAN)) && isnan(ung__ceil(NAN)));
    ck_assert(isnan(ung__clamp(NAN, 0, 1)) && isnan(ung__abs(NAN)));
}
END_TEST

START_TEST(whole_angles)
{
    static const double in_twelfths[] = {0, 0.5, NAN, 1, NAN, 0.5, 0, -0.5, NAN, -1, NAN, -0.5};
    for (int n = -12000; n <= 12000; n++) {
        const double a = 30.0 * n, s = in_twelfths[(n % 12 + 12) % 12], c = in_twelfths[((n + 3) % 12 + 12) % 12];
        ck_assert_msg(isnan(s) || same(ung__sin_deg(a), s), "sin %g is %a", a, ung__sin_deg(a));
        ck_assert_msg(isnan(c) || same(ung__cos_deg(a), c), "cos %g is %a", a, ung__cos_deg(a));
    }
    for (int n = -2000; n <= 2000; n++) {
        const double a = 180.0 * n;
        ck_assert(same(ung__tan_deg(a), 0) && same(ung__cot_deg(a + 90), 0));
        ck_assert(same(ung__tan_deg(a + 45), 1) && same(ung__cot_deg(a + 45), 1));
        ck_assert(same(ung__tan_deg(a - 45), -1) && same(ung__cot_deg(a - 45), -1));
        ck_assert(same(ung__tan_deg(a + 90), HUGE_VAL) && same(ung__cot_deg(a), HUGE_VAL));
    }
    ck_assert(same(ung__atan_deg(1), 45) && same(ung__atan_deg(-1), -45));
    ck_assert(same(ung__atan_deg(HUGE_VAL), 90) && same(ung__atan_deg(-HUGE_VAL), -90));
    ck_assert(same(ung__atan(HUGE_VAL), PI / 2) && same(ung__atan(-HUGE_VAL), -PI / 2));
    ck_assert(same(ung__asin_deg(0.5), 30) && same(ung__asin_deg(-0.5), -30) && same(ung__asin_deg(1), 90));
    ck_assert(same(ung__asin_deg(-1), -90) && same(ung__acos_deg(1), 0) && same(ung__acos_deg(-1), 180));
    ck_assert(same(ung__acos_deg(0.5), 60) && same(ung__acos_deg(-0.5), 120) && same(ung__acos_deg(0), 90));
    static const double eight[][3] = {{0, 1, 0},    {1, 1, 45},     {1, 0, 90},   {1, -1, 135},
                                      {0, -1, 180}, {-1, -1, -135}, {-1, 0, -90}, {-1, 1, -45}};
    for (int n = 0; n < 8; n++)
        ck_assert(same(ung__atan2_deg(eight[n][0], eight[n][1]), eight[n][2]));
    ck_assert(same(ung__atan2_deg(-0.0, -1), 180) && same(ung__atan2_deg(-1e-100, -1), 180));
    ck_assert(same(ung__atan2_deg(0, 0), 0) && same(ung__atan2_deg(-0.0, -0.0), 0));
}
END_TEST

START_TEST(ends_and_zeros)
{
    ck_assert(same(ung__exp(0), 1) && same(ung__log(1), 0) && same(ung__pow(2, 10), 1024));
    ck_assert(same(ung__pow(10, 0), 1) && same(ung__pow(1, 7.5), 1) && same(ung__pow(9, 0.5), 3));
    ck_assert(same(ung__tanh(HUGE_VAL), 1) && same(ung__tanh(-HUGE_VAL), -1) && same(ung__tanh(25), 1));
    ck_assert(ung__exp(HUGE_VAL) == ung__exp(709) && ung__exp(-HUGE_VAL) == ung__exp(-708));
    ck_assert(isnan(ung__log(0)) && isnan(ung__log(-1)) && isnan(ung__log1p(-1)) && isnan(ung__pow(0, 2)));
    ck_assert(isnan(ung__asin_deg(1.1)) && isnan(ung__acos_deg(-1.1)));
    ck_assert(isnan(ung__pow(2, NAN)) && isnan(ung__atan2_deg(1, NAN)) && isnan(ung__hypot(1, NAN)));
    for (int n = 0; n < ITEMS; n++) {
        const item *const f = &items[n];
        ck_assert_msg(isnan(f->call(NAN, 1)), "%s loses NaN", f->name);
        const double plus = f->call(0.0, 1), minus = f->call(-0.0, 1);
        ck_assert_msg(plus != 0 || !signbit(plus), "%s(0) is -0", f->name);
        ck_assert_msg(minus != 0 || !signbit(minus) || f->call == call_sqrt, "%s(-0) is -0", f->name);
    }
}
END_TEST

/* No argument at all may do more than give a number: this is for a build with -fsanitize=undefined. */
START_TEST(any_bits)
{
    state = 99;
    for (long n = points(); n > 0; n--) {
        const uint64_t one = word(), two = word();
        double a, b;
        memcpy(&a, &one, sizeof a);
        memcpy(&b, &two, sizeof b);
        for (int k = 0; k < ITEMS; k++)
            if (isnan(a))
                ck_assert_msg(isnan(items[k].call(a, b)), "%s loses NaN", items[k].name);
            else
                (void)items[k].call(a, b);
    }
}
END_TEST

int main(void)
{
    mpfr_set_default_prec(BITS);
    mpfr_inits(x, y, pi, exact, difference, (mpfr_ptr)0);
    mpfr_const_pi(pi, MPFR_RNDN);

    TCase *const accuracy = tcase_create("accuracy");
    tcase_add_loop_test(accuracy, within_bound, 0, ITEMS);
    tcase_add_test(accuracy, whole_numbers);
    tcase_add_test(accuracy, whole_angles);
    tcase_add_test(accuracy, ends_and_zeros);
    tcase_add_test(accuracy, any_bits);
    tcase_set_timeout(accuracy, 0);
    Suite *const suite = suite_create("elementary functions against MPFR");
    suite_add_tcase(suite, accuracy);
    SRunner *const runner = srunner_create(suite);
    srunner_set_fork_status(runner, CK_NOFORK);
    srunner_run_all(runner, CK_NORMAL);
    const int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    mpfr_clears(x, y, pi, exact, difference, (mpfr_ptr)0);
    mpfr_free_cache();
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
