/* A smooth closed outline from a noisy trace: the radius as a trigonometric polynomial of the polar angle. */
#include <ungula/shape.h>

#include "core/contract.h"
#include "core/quadrature.h"
#include "shape/trace.h"

#define NAME outline_fit
#define ROOM shape
#define TITLE "smooth outline from a noisy trace of the hoof"
#define ABOUT                                                                                                        \
    "A trace by hand or from a picture is noisy, uneven and has gaps. Its points are fitted by\n"                    \
    "\n"                                                                                                             \
    "    r(t) = a0 + sum over k = 1 ... K of (a_k cos kt + b_k sin kt),  t = angle seen from the center\n"           \
    "\n"                                                                                                             \
    "with the least sum of squares of the points' distances from the outline, to first order: the radial "           \
    "distance times the cosine of the angle between radius and normal, known from the fit before. The center "       \
    "is first the centroid of the traced polygon, then twice that of the fitted area; the third fit weights "        \
    "the points. Where harmonics_count is 0, K is the degree from 2 to 24 with the least generalized "              \
    "cross-validation\n"                                                                                             \
    "\n"                                                                                                             \
    "    V(K) = (sum of squares/n)/(1 - (2K + 1)/n)^2,  2K + 1 <= 2n/3\n"                                            \
    "\n"                                                                                                             \
    "Then each coefficient of harmonic k is held toward 0 by the estimated noise over what a hoof may show, "        \
    "0.3 a0/k^2: far weaker than the points wherever there are any, but it keeps the outline tame across a "         \
    "gap.\n"                                                                                                         \
    "\n"                                                                                                             \
    "    noise = square root of (sum of squares/(n - effective number of coefficients))\n"                           \
    "    neighbor_ratio = sum of e_i e_(i+1)/sum of e_i^2, in the order of the trace\n"                              \
    "\n"                                                                                                             \
    "Lengths are of the fitted outline: length along toe_direction, width across; widest_fraction is the mean "      \
    "station of its two widest places; heel and toe widths lie one tenth of the length from the ends; the left "     \
    "shares are counted from the axis through the toe point along toe_direction. Two marks with a known "            \
    "distance give the scale of a picture. y counts upward: in pixels counted downward left and right change "       \
    "places, and so they do in a picture of the sole. The filled outline is in the trace's frame times scale, "      \
    "at equal steps of the angle, the first point the toe, counterclockwise. A trace is refused as not star- "       \
    "shaped where, seen from the polygon's centroid, it does not go round once, steps back by more than 45 "         \
    "degrees, or comes nearer than a fifth of its mean radius; and where more than 90 degrees have no points."
#define ACCURACY                                                                                                     \
    "Without noise, from 200 points on a standard outline: 0.01 mm (degree 24 is the limit), its length and "        \
    "width as well. With noise of 1 mm the outline errs by less than 0.5 mm (root mean square) from 100 points "     \
    "and 0.2 mm from 1,000; the noise itself is found within 10 % from 100 points on (mean of traces). Widths "      \
    "at the ends and shares of area are read from 2,048 points: 1e-5 of themselves. Lengths and area of the "        \
    "fitted curve: 1e-12."
#define SOURCES(S)                                                                                                   \
    S(MEMORY,                                                                                                        \
      "Craven P, Wahba G 1979. Smoothing noisy data with spline functions. Numer Math 31:377-403",                   \
      "generalized cross-validation")                                                                                \
    S(CHOICE, "Own model: radius by trigonometric polynomials, center and weights iterated", "the fit")              \
    S(CHOICE, "Project's choice", "at most 24 harmonics, hold of 0.3 a0/k^2, limits of the cautions")
#define INPUTS(F)                                                                                                    \
    F(toe_direction_deg, -360, 360, -180, 180, 0, NEUTRAL, MEASURE, "where the toe points, from the x axis counterclockwise") \
    F(harmonics_count, 0, 24, 0, 8, 0, CHOICE, WHOLE, "degree of the fit; 0 = by generalized cross-validation")     \
    F(reference_x1_mm, -1e7, 1e7, -100, 0, 0, NEUTRAL, MEASURE, "first mark, in the trace's units")              \
    F(reference_y1_mm, -1e7, 1e7, -1000, 1000, 0, NEUTRAL, MEASURE, "first mark, in the trace's units")              \
    F(reference_x2_mm, -1e7, 1e7, 0, 200, 0, NEUTRAL, MEASURE, "second mark, in the trace's units")             \
    F(reference_y2_mm, -1e7, 1e7, -1000, 1000, 0, NEUTRAL, MEASURE, "second mark, in the trace's units")             \
    F(reference_length_mm, 0, 1000, 0, 300, 0, NEUTRAL, MEASURE, "true distance of the marks; 0 = the trace is in millimeters")
#define OUTPUTS(F)                                                                                                   \
    F(scale_ratio, FINITE, "what the trace was multiplied by")                                                       \
    F(area_mm2, FINITE, "area inside the outline")                                                                   \
    F(perimeter_mm, FINITE, "length of the outline")                                                                 \
    F(length_mm, FINITE, "along toe_direction")                                                                      \
    F(width_mm, FINITE, "across toe_direction")                                                                      \
    F(widest_fraction, FINITE, "widest station, as a share of the length behind the toe")                            \
    F(heel_width_fraction, FINITE, "width one tenth of the length from the rear, of the greatest")                   \
    F(toe_width_fraction, FINITE, "width one tenth of the length from the toe, of the greatest")                     \
    F(left_width_fraction, FINITE, "share of the width on the left of the axis through the toe point")               \
    F(left_area_fraction, FINITE, "share of the area on the left of that axis")                                      \
    F(chosen_harmonics_count, FINITE, "degree of the fit")                                                           \
    F(noise_mm, FINITE, "estimated standard deviation of a point's distance from the outline")                       \
    F(fit_error_mm, FINITE, "root mean square distance of the points from the outline")                              \
    F(largest_error_mm, FINITE, "largest distance of a point from the outline")                                      \
    F(validation_mm2, FINITE, "generalized cross-validation at that degree")                                         \
    F(neighbor_ratio, FINITE, "correlation of neighboring distances; near 0 for a good fit")                         \
    F(largest_gap_deg, FINITE, "widest angle without points, seen from the center")
#define REFUSALS(R)                                                                                                  \
    R(reference_length_mm, IN(reference_x1_mm), "the two marks must be apart")                                       \
    R(harmonics_count, NO_FIELD, "too few distinct points for so many harmonics")
#define LIST_REFUSALS(R)                                                                                             \
    R(0, "seen from its centroid the trace does not go round once: it is open, crosses itself, or is not a hoof's outline") \
    R(0, "seen from its centroid the trace steps back too far: it is not star-shaped enough to be fitted")           \
    R(0, "the trace comes too near to its centroid: it is not star-shaped enough to be fitted")                      \
    R(0, "the trace has too few distinct points")                                                                    \
    R(0, "the outline's length along toe_direction must be 40 to 250 mm; check the scale and the direction")         \
    R(0, "the outline's width across toe_direction must be 40 to 250 mm; check the scale and the direction") \
    R(0, "more than a quarter of a turn of the outline has no points, seen from the trace's centroid")
#define CAUTIONS(C)                                                                                                  \
    C(WARN, gap, OUT(largest_gap_deg), 1, NO_FIELD, 0, ABOVE, 30, NO_GUARD,                                          \
      "more than 30 degrees of the outline have no points: it is guessed there (choice of limit)")                   \
    C(WARN, noisy, OUT(noise_mm), 1, OUT(width_mm), -0.03, ABOVE, 0, NO_GUARD,                                       \
      "the noise is more than 3 % of the width: trace again (choice of limit)")                                      \
    C(WARN, underfit, OUT(neighbor_ratio), 1, NO_FIELD, 0, ABOVE, 0.5, OUT(noise_mm), ABOVE, 0.01,                      \
      "neighboring points lie off to the same side: more harmonics, or a trace that wanders (choice of limit)")      \
    C(WARN, stray_point, OUT(largest_error_mm), 1, OUT(noise_mm), -5, ABOVE, 0, OUT(noise_mm), ABOVE, 0.01,          \
      "a point lies more than five times the noise off: check it (choice of limit)")
#define STANDING(S)                                                                                                  \
    S("Trace the trimmed hoof on its bearing border; a picture must be square to the sole, with the marks in the same plane.")
#define POINT_FIELDS(F, type)                                                                                        \
    F(type, x_mm, -1e7, 1e7, "along the x axis of the trace")                                                        \
    F(type, y_mm, -1e7, 1e7, "along its y axis, upward")
#define LISTS(L)                                                                                                     \
    L(GIVEN, trace, ung_point, 8, 20000, NO_FIELD, POINT_FIELDS, "points round the ground border, in order, either way") \
    L(FILLED, outline, ung_point, 3, 1000000, NO_FIELD, POINT_FIELDS, "points of the fitted outline, the first the toe, counterclockwise")
#define WORK_PER_ROW 1
#define WORK_MORE 0

enum { HARMONICS = 24, UNKNOWNS = 2 * HARMONICS + 1, SAMPLES = 2048 };

/* The fitted curve: c[0] + sum of c[2k-1] cos kt + c[2k] sin kt about a center. */
typedef struct fit {
    int degree;
    double x, y; /* center */
    double c[UNKNOWNS];
} fit;

/* Radius and its derivative in the direction of (cos t, sin t). */
typedef struct radius {
    double r, slope;
} radius;

static radius radius_at(const fit *f, double c, double s)
{
    radius v = {f->c[0], 0};
    double ck = 1, sk = 0;
    for (int k = 1; k <= f->degree; k++) {
        double next = ck * c - sk * s;
        sk = sk * c + ck * s;
        ck = next;
        double a = f->c[2 * k - 1], b = f->c[2 * k];
        v.r += a * ck + b * sk;
        v.slope += k * (b * ck - a * sk);
    }
    return v;
}

static ung__trace_point point_at(const fit *f, double angle_deg)
{
    double c = ung__cos_deg(angle_deg), s = ung__sin_deg(angle_deg), r = radius_at(f, c, s).r;
    return (ung__trace_point){f->x + r * c, f->y + r * s};
}

/* The trace, scaled. */
typedef struct drawn {
    const double *points;
    size_t count; /* without a repeated first point */
    double scale;
} drawn;

/* A point seen from a center. */
typedef struct seen {
    double r, c, s; /* distance, and the direction's cosine and sine */
} seen;

static seen see(const drawn *t, const fit *f, size_t i)
{
    double x = t->points[2 * i] * t->scale - f->x, y = t->points[2 * i + 1] * t->scale - f->y;
    double r = ung__sqrt(x * x + y * y);
    return r > 0 ? (seen){r, x / r, y / r} : (seen){0, 1, 0};
}

/* Centroid of the traced polygon, relative to its first point so that large offsets cancel. */
static void polygon_center(const drawn *t, fit *f)
{
    double x0 = t->points[0] * t->scale, y0 = t->points[1] * t->scale, area = 0, mx = 0, my = 0, ax = 0, ay = 0;
    for (size_t i = 0; i < t->count; i++) {
        size_t j = i + 1 < t->count ? i + 1 : 0;
        double x1 = t->points[2 * i] * t->scale - x0, y1 = t->points[2 * i + 1] * t->scale - y0;
        double x2 = t->points[2 * j] * t->scale - x0, y2 = t->points[2 * j + 1] * t->scale - y0;
        double cross = x1 * y2 - x2 * y1;
        area += cross;
        mx += cross * (x1 + x2);
        my += cross * (y1 + y2);
        ax += x1;
        ay += y1;
    }
    double n = (double)t->count;
    f->x = x0 + (area != 0 ? mx / (3 * area) : ax / n);
    f->y = y0 + (area != 0 ? my / (3 * area) : ay / n);
}

/* Whether the trace goes round its center once, without stepping far back or coming near to it. */
static void check_star(const drawn *t, const fit *f, ung__where *where)
{
    const double back_most = 45, near_most = 0.2; /* choice */
    double mean = 0;
    for (size_t i = 0; i < t->count; i++)
        mean += see(t, f, i).r;
    mean /= (double)t->count;
    double turned = 0, end = 0;
    seen p = see(t, f, t->count - 1);
    for (size_t i = 0; i < t->count; i++) {
        seen q = see(t, f, i);
        if (!(q.r >= near_most * mean) || mean == 0) {
            where->refusal = 5;
            where->row = (double)i;
            return;
        }
        end += ung__atan2_deg(p.c * q.s - p.s * q.c, p.c * q.c + p.s * q.s);
        p = q;
    }
    double way = end < 0 ? -1 : 1;
    if (way * end < 350 || way * end > 370) { /* a whole number of turns */
        where->refusal = 3;
        return;
    }
    double most = 0;
    size_t at = 0;
    p = see(t, f, 0);
    for (size_t i = 1; i < t->count; i++) { /* without the step that closes it: traces overlap at their ends */
        seen q = see(t, f, i);
        turned += way * ung__atan2_deg(p.c * q.s - p.s * q.c, p.c * q.c + p.s * q.s);
        if (turned > most) {
            most = turned;
            at = i;
        }
        if (most - turned > back_most) {
            where->refusal = 4;
            where->row = (double)i;
            where->other_row = (double)at;
            return;
        }
        p = q;
    }
}

/* Heap sort, smallest first. */
static void sink(double *a, size_t root, size_t n)
{
    for (size_t child; (child = 2 * root + 1) < n; root = child) {
        if (child + 1 < n && a[child + 1] > a[child])
            child++;
        if (a[root] >= a[child])
            return;
        double swap = a[root];
        a[root] = a[child];
        a[child] = swap;
    }
}

static void sort(double *a, size_t n)
{
    for (size_t i = n / 2; i-- > 0;)
        sink(a, i, n);
    for (size_t end = n; end-- > 1;) {
        double swap = a[0];
        a[0] = a[end];
        a[end] = swap;
        sink(a, 0, end);
    }
}

/* Distinct directions, and the widest angle between neighbors. */
static size_t directions(const drawn *t, const fit *f, double *angle, double *gap)
{
    size_t n = t->count, distinct = 1;
    for (size_t i = 0; i < n; i++) {
        seen p = see(t, f, i);
        angle[i] = ung__atan2_deg(p.s, p.c);
    }
    sort(angle, n);
    *gap = angle[0] + 360 - angle[n - 1];
    for (size_t i = 1; i < n; i++) {
        double step = angle[i] - angle[i - 1];
        *gap = ung__max(step, *gap);
        distinct += step > 1e-6 ? 1 : 0;
    }
    return distinct;
}

/* ---- Least squares ---- */

typedef struct normal {
    double a[UNKNOWNS][UNKNOWNS]; /* normal matrix, then its Cholesky factor below the diagonal */
    double g[UNKNOWNS];           /* right side, then the factor's solution */
    double squares;               /* of what is fitted */
    double base;                  /* radius taken off before */
    double weights;               /* sum of the weights */
} normal;

static double squared_cosine(const fit *f, const seen *p)
{
    radius v = radius_at(f, p->c, p->s);
    return v.r * v.r / (v.r * v.r + v.slope * v.slope);
}

static void weigh(const drawn *t, const fit *f, double *weight)
{
    for (size_t i = 0; i < t->count; i++) {
        seen p = see(t, f, i);
        weight[i] = f->degree > 0 ? squared_cosine(f, &p) : 1;
    }
}

/* Sums of w cos mt and w sin mt to m = 2K give every product of two basis functions. */
static void set_normal(normal *e, const drawn *t, const fit *f, const double *weight)
{
    double cosines[2 * HARMONICS + 1] = {0}, sines[2 * HARMONICS + 1] = {0};
    double base = 0, weights = 0;
    for (size_t i = 0; i < t->count; i++) {
        base += weight[i] * see(t, f, i).r;
        weights += weight[i];
    }
    e->base = base / weights;
    e->weights = weights;
    e->squares = 0;
    for (int j = 0; j < UNKNOWNS; j++)
        e->g[j] = 0;
    for (size_t i = 0; i < t->count; i++) {
        seen p = see(t, f, i);
        double w = weight[i], y = p.r - e->base, ck = 1, sk = 0;
        e->squares += w * y * y;
        for (int m = 0; m <= 2 * HARMONICS; m++) {
            cosines[m] += w * ck;
            sines[m] += w * sk;
            if (m == 0)
                e->g[0] += w * y;
            else if (m <= HARMONICS) {
                e->g[2 * m - 1] += w * y * ck;
                e->g[2 * m] += w * y * sk;
            }
            double next = ck * p.c - sk * p.s;
            sk = sk * p.c + ck * p.s;
            ck = next;
        }
    }
    for (int i = 0; i < UNKNOWNS; i++)
        for (int j = 0; j <= i; j++) {
            int k = (i + 1) / 2, l = (j + 1) / 2, sine_i = i > 0 && i % 2 == 0, sine_j = j > 0 && j % 2 == 0;
            int apart = k > l ? k - l : l - k;
            double difference_s = k >= l ? sines[apart] : -sines[apart]; /* of sin (k - l)t */
            double sum = sine_i != sine_j ? sines[k + l] : cosines[k + l];
            e->a[i][j] = !sine_i && !sine_j ? (cosines[apart] + sum) / 2
                         : sine_i && sine_j ? (cosines[apart] - sum) / 2
                         : sine_i           ? (sum + difference_s) / 2
                                            : (sum - difference_s) / 2;
        }
}

/* What holds coefficient i toward 0: the noise's variance over that of what a hoof may show, 0.3 base/k^2 (choice),
 * and never less than 1e-10 of the points' own weight, so that a gap cannot make the equations singular. */
static double hold_of(const normal *e, int i, double variance)
{
    double k = (i + 1) / 2, size = 0.3 * e->base;
    return k * k * k * k * (variance / (size * size) + 1e-10 * e->weights);
}

/* Cholesky factor and forward solution in place; leading parts of the factor are the factors of the smaller degrees.
 * No pivot is lost: of a sum of squares, no more is taken off a diagonal than it has besides what hold_of adds, 1e-10
 * of the weights, and the diagonals are not above the weights; roundings are below 1e-14 of those. */
static void factor(normal *e, int unknowns)
{
    for (int i = 0; i < unknowns; i++) {
        for (int j = 0; j < i; j++) {
            double sum = e->a[i][j];
            for (int k = 0; k < j; k++)
                sum -= e->a[i][k] * e->a[j][k];
            e->a[i][j] = sum / e->a[j][j];
        }
        double pivot = e->a[i][i], g = e->g[i];
        for (int k = 0; k < i; k++) {
            pivot -= e->a[i][k] * e->a[i][k];
            g -= e->a[i][k] * e->g[k];
        }
        e->a[i][i] = ung__sqrt(pivot);
        e->g[i] = g / e->a[i][i];
    }
}

/* Back substitution of the leading unknowns. */
static void solve(const normal *e, fit *f)
{
    int unknowns = 2 * f->degree + 1;
    for (int i = unknowns - 1; i >= 0; i--) {
        double sum = e->g[i];
        for (int k = i + 1; k < unknowns; k++)
            sum -= e->a[k][i] * f->c[k];
        f->c[i] = sum / e->a[i][i];
    }
    f->c[0] += e->base;
}

/* What a degree leaves and its criterion. */
static double rest_at(const normal *e, int degree)
{
    double rest = e->squares;
    for (int i = 0; i < 2 * degree + 1; i++)
        rest -= e->g[i] * e->g[i];
    return ung__max(rest, 1e-15 * e->squares); /* below that it is rounding */
}

static double validation(const normal *e, double n, int degree)
{
    double free = 1 - (2 * degree + 1) / n;
    return rest_at(e, degree) / n / (free * free);
}

/* One fit, of the asked degree or of that with the least criterion: two thirds of the points at most are unknowns. */
static void fit_once(const drawn *t, fit *f, int asked, size_t distinct, const normal *plain, normal *e)
{
    int best = asked;
    double n = (double)t->count;
    *e = *plain;
    for (int i = 0; i < UNKNOWNS; i++)
        e->a[i][i] += hold_of(e, i, 0);
    factor(e, asked > 0 ? 2 * asked + 1 : UNKNOWNS);
    if (asked == 0) {
        int least = 2, most = HARMONICS; /* 8 points allow 2 */
        while (most > least && 3 * (2 * most + 1) > 2 * (int)distinct)
            most--;
        best = least;
        for (int degree = least + 1; degree <= most; degree++)
            best = validation(e, n, degree) < validation(e, n, best) ? degree : best;
    }
    f->degree = best;
    solve(e, f);
}

/* Centroid of the fitted area: the sums are exact for trigonometric polynomials of such degrees. */
static void move_center(fit *f)
{
    enum { NODES = 128 };
    double area = 0, mx = 0, my = 0;
    for (int i = 0; i < NODES; i++) {
        double c = ung__cos_deg(360.0 * i / NODES), s = ung__sin_deg(360.0 * i / NODES), r = radius_at(f, c, s).r;
        area += r * r;
        mx += r * r * r * c;
        my += r * r * r * s;
    }
    f->x += mx / (1.5 * area);
    f->y += my / (1.5 * area);
}

/* The fit with the coefficients held toward 0 by the noise; returns the effective number of coefficients. */
static double hold(fit *f, double variance, const normal *plain, normal *e)
{
    int unknowns = 2 * f->degree + 1;
    double held[UNKNOWNS], used = unknowns;
    *e = *plain;
    for (int i = 0; i < unknowns; i++) {
        held[i] = hold_of(e, i, variance);
        e->a[i][i] += held[i];
    }
    factor(e, unknowns);
    solve(e, f);
    for (int i = 0; i < unknowns; i++) { /* less the trace of held x inverse: the factor's inverse, squared, by columns */
        double column[UNKNOWNS], square = 0;
        for (int j = i; j < unknowns; j++) {
            double sum = j == i ? 1 : 0;
            for (int k = i; k < j; k++)
                sum -= e->a[j][k] * column[k];
            column[j] = sum / e->a[j][j];
            square += column[j] * column[j];
        }
        used -= held[i] * square;
    }
    return used;
}

/* ---- The curve ---- */

/* Farthest in a direction: sampled, then narrowed by golden sections.  Returns the angle. */
static double farthest(const fit *f, double direction_deg)
{
    enum { LOOKS = 512 };
    double c = ung__cos_deg(direction_deg), s = ung__sin_deg(direction_deg), best = 0, most = -1e9;
    for (int i = 0; i < LOOKS; i++) {
        ung__trace_point p = point_at(f, 360.0 * i / LOOKS);
        double reach = p.x * c + p.y * s;
        best = reach > most ? 360.0 * i / LOOKS : best;
        most = ung__max(reach, most);
    }
    double low = best - 360.0 / LOOKS, high = best + 360.0 / LOOKS;
    for (int i = 0; i < 60; i++) { /* derivative of the reach by the angle, from + to - */
        double middle = (low + high) / 2, cm = ung__cos_deg(middle), sm = ung__sin_deg(middle);
        radius v = radius_at(f, cm, sm);
        double dx = v.slope * cm - v.r * sm, dy = v.slope * sm + v.r * cm;
        if (dx * c + dy * s > 0)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2;
}

/* Widths at two stations and the area left of an axis, from samples of the curve in the toe's frame. */
typedef struct section {
    double low, high;
} section;

static void cross(section *at, double x, ung__trace_point p, ung__trace_point q)
{
    if ((p.x <= x) == (q.x <= x))
        return;
    double y = p.y + (q.y - p.y) * ((x - p.x) / (q.x - p.x));
    at->low = ung__min(y, at->low);
    at->high = ung__max(y, at->high);
}

static void measure(const fit *f, double toe_direction, double toe_angle, ung_outline_fit_out *out)
{
    double c = ung__cos_deg(toe_direction), s = ung__sin_deg(toe_direction);
    double ends[4]; /* reach toward toe, left, rear, right */
    double station[4];
    for (int i = 0; i < 4; i++) {
        ung__trace_point p = point_at(f, i == 0 ? toe_angle : farthest(f, toe_direction + 90 * i));
        double x = p.x * c + p.y * s, y = p.y * c - p.x * s;
        ends[i] = i % 2 ? y : x;
        station[i] = i % 2 ? x : y;
    }
    double toe = ends[0], rear = ends[2], axis = station[0];
    out->length_mm = toe - rear;
    out->width_mm = ends[1] - ends[3];
    out->widest_fraction = (toe - (station[1] + station[3]) / 2) / out->length_mm;
    out->left_width_fraction = (ends[1] - axis) / out->width_mm;

    double heel_x = rear + 0.1 * out->length_mm, toe_x = toe - 0.1 * out->length_mm, left = 0, around = 0, area = 0;
    section at_heel = {1e9, -1e9}, at_toe = {1e9, -1e9};
    ung__trace_point before = {0, 0};
    for (int i = 0; i <= SAMPLES; i++) {
        double angle = 360.0 * i / SAMPLES, ca = ung__cos_deg(angle), sa = ung__sin_deg(angle);
        radius v = radius_at(f, ca, sa);
        double px = f->x + v.r * ca, py = f->y + v.r * sa;
        ung__trace_point p = {px * c + py * s, py * c - px * s};
        if (i > 0) {
            around += ung__sqrt(v.r * v.r + v.slope * v.slope);
            area += v.r * v.r;
            cross(&at_heel, heel_x, before, p);
            cross(&at_toe, toe_x, before, p);
            double h1 = before.y - axis, h2 = p.y - axis; /* trapezoid down to the axis, cut where it is crossed */
            double x1 = before.x, x2 = p.x;
            if ((h1 > 0) != (h2 > 0)) {
                double meet = x1 + (x2 - x1) * (h1 / (h1 - h2));
                x1 = h1 > 0 ? x1 : meet;
                x2 = h2 > 0 ? x2 : meet;
            }
            left += (x1 - x2) * (ung__max(h1, 0) + ung__max(h2, 0)) / 2;
        }
        before = p;
    }
    out->area_mm2 = UNG__TAU / 2 / SAMPLES * area;
    out->perimeter_mm = UNG__TAU / SAMPLES * around;
    out->heel_width_fraction = (at_heel.high - at_heel.low) / out->width_mm;
    out->toe_width_fraction = (at_toe.high - at_toe.low) / out->width_mm;
    out->left_area_fraction = left / out->area_mm2;
}

/* Distances of the points from the outline; with the noise, once the effective number of coefficients is known. */
static double residuals(const drawn *t, const fit *f, const double *weight, ung_outline_fit_out *out)
{
    double squares = 0, products = 0, largest = 0, first = 0, before = 0;
    for (size_t i = 0; i < t->count; i++) {
        seen p = see(t, f, i);
        double e = (p.r - radius_at(f, p.c, p.s).r) * ung__sqrt(weight[i]);
        squares += e * e;
        largest = ung__max(ung__abs(e), largest);
        first = i == 0 ? e : first;
        products += i == 0 ? 0 : before * e;
        before = e;
    }
    products += before * first;
    out->fit_error_mm = ung__sqrt(squares / (double)t->count);
    out->largest_error_mm = largest;
    out->neighbor_ratio = squares > 0 ? products / squares : 0;
    return squares;
}

static ung_outline_fit_out formula(const ung_outline_fit_in *in, const ung_rows *rows, ung__where *where)
{
    ung_outline_fit_out out = {0};
    double mark_x = in->reference_x2_mm - in->reference_x1_mm, mark_y = in->reference_y2_mm - in->reference_y1_mm;
    double marks = ung__sqrt(mark_x * mark_x + mark_y * mark_y);
    drawn t = {rows[0].data, rows[0].count, in->reference_length_mm > 0 ? in->reference_length_mm / marks : 1};
    if (in->reference_length_mm > 0 && marks < 1e-6) {
        where->refusal = 1;
        return out;
    }
    if (t.points[0] == t.points[2 * t.count - 2] && t.points[1] == t.points[2 * t.count - 1])
        t.count--;
    int asked = (int)in->harmonics_count;
    fit f = {0};
    double *work = rows[2].data;
    polygon_center(&t, &f);
    check_star(&t, &f, where);
    if (where->refusal != 0)
        return out;
    size_t distinct = directions(&t, &f, work, &out.largest_gap_deg);
    const double gap_most = 90; /* choice */
    where->refusal = distinct < 8 ? 6 : out.largest_gap_deg > gap_most ? 9 : 2 * asked + 1 >= (int)distinct ? 2 : 0;
    if (where->refusal == 9) {
        where->unit = "deg";
        where->value = out.largest_gap_deg;
        where->limit = gap_most;
    }
    if (where->refusal != 0)
        return out;

    normal plain, e;
    double used = 0;
    for (int pass = 0; pass < 4; pass++) {
        /* 0 and 1 find the center, 2 the weights, 3 uses them; a weight belongs to the fit about the same center. */
        fit even = {0};
        weigh(&t, pass < 3 ? &even : &f, work);
        set_normal(&plain, &t, &f, work);
        fit_once(&t, &f, asked, distinct, &plain, &e);
        out.validation_mm2 = validation(&e, (double)t.count, f.degree);
        double variance = rest_at(&e, f.degree) / ((double)t.count - (2 * f.degree + 1));
        used = hold(&f, variance, &plain, &e);
        if (pass < 2)
            move_center(&f);
    }
    out.chosen_harmonics_count = f.degree;
    double squares = residuals(&t, &f, work, &out);
    out.noise_mm = ung__sqrt(squares / ((double)t.count - used));
    directions(&t, &f, work, &out.largest_gap_deg); /* from the center that was found; the weights are done with */

    double toe_angle = farthest(&f, in->toe_direction_deg);
    measure(&f, in->toe_direction_deg, toe_angle, &out);
    out.scale_ratio = t.scale;
    int long_enough = out.length_mm >= 40 && out.length_mm <= 250;
    int wide_enough = out.width_mm >= 40 && out.width_mm <= 250;
    if (!long_enough || !wide_enough) {
        where->refusal = long_enough ? 8 : 7;
        double length = long_enough ? out.width_mm : out.length_mm;
        if (length > 250) {
            where->value = length;
            where->limit = 250;
        }
        return out;
    }
    for (size_t i = 0; i < rows[1].count; i++) {
        ung__trace_point p = point_at(&f, toe_angle + 360 * (double)i / (double)rows[1].count);
        rows[1].data[2 * i] = p.x;
        rows[1].data[2 * i + 1] = p.y;
    }
    return out;
}

#include "core/define.h"
