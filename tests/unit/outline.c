/* Traced outlines: outline_measure, outline_inset, outline_resample, outline_at, shoe_footprint, and the test of
 * simplicity that they share. */
#include <gmp.h>

#include "../edges.h"

#include "core/simple.h"
#include "shape/polygon.h"

enum { MOST = 10001 };
static ung_point p[MOST], q[MOST];
static ung_depth depths[MOST];
static double work[MOST * 7 + 128];
static const size_t room = sizeof work / sizeof *work;

static ung_status measure(const ung_point *points, size_t n, double toe, ung_outline_measure_out *out, ung_fault *fault)
{
    ung_outline_measure_in in = ung_outline_measure_standard();
    in.toe_direction_deg = toe;
    return ung_outline_measure(&in, points, n, work, room, out, fault);
}

static ung_outline_measure_out measured(const ung_point *points, size_t n, double toe)
{
    ung_outline_measure_out out;
    ck_assert_int_eq(measure(points, n, toe, &out, NULL), UNG_OK);
    return out;
}

static ung_status inset_of(const ung_point *points, size_t n, double depth, ung_outline_inset_out *out,
                           ung_fault *fault)
{
    ung_outline_inset_in in = ung_outline_inset_standard();
    in.depth_mm = depth;
    return ung_outline_inset(&in, points, n, depths, n, q, n, work, room, out, fault);
}

static void no_depths(void)
{
    memset(depths, 0, sizeof depths);
}

static void ellipse(double a, double b, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        double t = (double)(2 * PI_L * (long double)i / (long double)n);
        p[i] = (ung_point){a * cos(t), b * sin(t)};
    }
}

static void fourier(size_t n)
{
    for (size_t i = 0; i < n; i++) {
        double t = (double)(2 * PI_L * (long double)i / (long double)n);
        double r = 1 + 0.08 * cos(3 * t) + 0.03 * sin(5 * t) + 0.01 * cos(11 * t);
        p[i] = (ung_point){900 * r * cos(t), 250 * r * sin(t)};
    }
}

static void reverse(ung_point *points, size_t n)
{
    for (size_t i = 0; i < n / 2; i++) {
        ung_point kept = points[i];
        points[i] = points[n - 1 - i];
        points[n - 1 - i] = kept;
    }
}

/* ---- Measuring ---- */

/* Handbook formulas for triangle and angle section (bh/2, bh^3/36, b^2 h^2/72), exact fractions printed to 18 digits;
 * 1e-15 of the size, that is a few roundings. */
START_TEST(measure_known_polygons)
{
    const ung_point triangle[] = {{0, 0}, {6, 0}, {0, 3}};
    const ung_point angle[] = {{0, 0}, {100, 0}, {100, 10}, {10, 10}, {10, 80}, {0, 80}};
    const ung_point pentagon[] = {{0, 0}, {4, 0}, {5, 3}, {2, 5}, {-1, 3}};
    const struct {
        const ung_point *points;
        size_t n;
        double area, x, y, xx, yy, xy;
    } known[] = {
        {triangle, 3, 9, 2, 1, 4.5, 18, -4.5},
        {angle, 6, 1700, 31.4705882352941176, 21.4705882352941176, 952990.196078431373, 1672990.19607843137,
         -741176.470588235294},
        {pentagon, 5, 21, 2, 2.19047619047619048, 30.7380952380952381, 41.5, 0},
    };
    for (size_t k = 0; k < sizeof known / sizeof *known; k++) {
        ung_outline_measure_out out = measured(known[k].points, known[k].n, 0);
        double second = known[k].xx + known[k].yy;
        ck_assert_double_eq(out.area_mm2, known[k].area); /* whole numbers: no rounding */
        ck_relative(out.centroid_x_mm, known[k].x, 1e-15);
        ck_relative(out.centroid_y_mm, known[k].y, 1e-15);
        ck_near(out.second_x_mm4, known[k].xx, 4e-15 * second);
        ck_near(out.second_y_mm4, known[k].yy, 4e-15 * second);
        ck_near(out.second_xy_mm4, known[k].xy, 4e-15 * second);
        ck_assert_double_eq(out.turn_ratio, 1);
        ck_assert_double_eq(out.repeated_count, 0);
    }
    ung_outline_measure_out out = measured(angle, 6, 0);
    ck_assert_double_eq(out.perimeter_mm, 360);
    ck_assert_double_eq(out.length_mm, 100);
    ck_assert_double_eq(out.width_mm, 80);
    ck_assert_double_eq(out.gap_ratio, 80 / (280 / 5.0));
    ck_assert_double_eq(out.widest_fraction, (95 + 50) / 2.0 / 100); /* left: 0 to 10; right: 0 to 100 */
    out = measured(angle, 6, 90); /* toe along y: the left is where x is least */
    ck_assert_double_eq(out.length_mm, 80);
    ck_assert_double_eq(out.width_mm, 100);
    ck_assert_double_eq(out.widest_fraction, (40 + 75) / 2.0 / 80);
}
END_TEST

/* Areas of the n-gon in an ellipse 900 x 250, n a b sin(2 pi/n)/2, computed to 18 digits; the coordinates round to
 * 5e-14 of 900 (half an ulp), n of them independently.  Against the smooth curve the error falls with 1/n^2. */
START_TEST(measure_sampled_curves)
{
    const double polygon[] = {706393.344704775481, 706853.696125382016, 706858.300548289376};
    double error[3], around[3], center[3];
    for (size_t k = 0, n = 100; k < 3; k++, n *= 10) {
        ellipse(900, 250, n);
        ung_outline_measure_out out = measured(p, n, 0);
        ck_relative(out.area_mm2, polygon[k], 1e-15);
        ck_near(out.centroid_x_mm, 0, 1e-12);
        ck_near(out.centroid_y_mm, 0, 1e-12);
        ck_near(out.length_mm, 1800, 1e-12);
        ck_near(out.width_mm, 500, 1e-12); /* n is a multiple of 4: the ends of both axes are points */
        ck_near(out.widest_fraction, 0.5, 1e-12);
        ck_relative(out.second_x_mm4, polygon[k] * 250 * 250 / 4, 20.0 / (double)(n * n) + 1e-14);
        fourier(n);
        out = measured(p, n, 0);
        error[k] = 709473.72294181698 - out.area_mm2;
        around[k] = 3991.2995610470149704 - out.perimeter_mm;
        center[k] = fabs(out.centroid_x_mm + 0.0020175351200557911818) +
                    fabs(out.centroid_y_mm + 0.011955763674404702111);
    }
    for (int k = 0; k < 2; k++) { /* ten times the points: a hundredth, but for the next term of the series, 1/n^4 */
        ck_relative(error[k] / error[k + 1], 100, 0.02);
        ck_relative(around[k] / around[k + 1], 100, 0.02);
        ck_assert(center[k] > 50 * center[k + 1]);
    }
    ck_assert(fabs(error[2]) < 1e-6 * 709473);
}
END_TEST

/* Sums over a polygon in exact fractions of the given doubles: area, first and second moments about the origin. */
typedef struct exact_sums {
    mpq_t term[6];
} exact_sums;

static void exact_init(exact_sums *e)
{
    for (int k = 0; k < 6; k++)
        mpq_init(e->term[k]);
}

static void exact_clear(exact_sums *e)
{
    for (int k = 0; k < 6; k++)
        mpq_clear(e->term[k]);
}

static void exact_moments(exact_sums *e, const ung_point *points, size_t n)
{
    mpq_t x, y, x1, y1, c, t, s;
    mpq_inits(x, y, x1, y1, c, t, s, NULL);
    for (int k = 0; k < 6; k++)
        mpq_set_ui(e->term[k], 0, 1);
    for (size_t i = 0; i < n; i++) {
        mpq_set_d(x, points[i].x_mm);
        mpq_set_d(y, points[i].y_mm);
        mpq_set_d(x1, points[(i + 1) % n].x_mm);
        mpq_set_d(y1, points[(i + 1) % n].y_mm);
        mpq_mul(c, x, y1);
        mpq_mul(t, x1, y);
        mpq_sub(c, c, t);
        mpq_add(e->term[0], e->term[0], c);
        mpq_add(t, x, x1);
        mpq_mul(t, t, c);
        mpq_add(e->term[1], e->term[1], t);
        mpq_add(t, y, y1);
        mpq_mul(t, t, c);
        mpq_add(e->term[2], e->term[2], t);
        for (int axis = 0; axis < 2; axis++) {
            mpq_t *u = axis ? &x : &y, *u1 = axis ? &x1 : &y1;
            mpq_mul(t, *u, *u);
            mpq_mul(s, *u, *u1);
            mpq_add(t, t, s);
            mpq_mul(s, *u1, *u1);
            mpq_add(t, t, s);
            mpq_mul(t, t, c);
            mpq_add(e->term[3 + axis], e->term[3 + axis], t);
        }
        mpq_mul(t, x, y1);
        mpq_mul(s, x1, y);
        mpq_add(t, t, s);
        mpq_mul(s, x, y);
        mpq_add(s, s, s);
        mpq_add(t, t, s);
        mpq_mul(s, x1, y1);
        mpq_add(s, s, s);
        mpq_add(t, t, s);
        mpq_mul(t, t, c);
        mpq_add(e->term[5], e->term[5], t);
    }
    static const unsigned long divisor[] = {2, 6, 6, 12, 12, 24};
    for (int k = 0; k < 6; k++) {
        mpq_set_ui(t, 1, divisor[k]);
        mpq_mul(e->term[k], e->term[k], t);
    }
    /* about the centroid */
    mpq_div(x, e->term[1], e->term[0]);
    mpq_div(y, e->term[2], e->term[0]);
    mpq_mul(t, e->term[2], y);
    mpq_sub(e->term[3], e->term[3], t);
    mpq_mul(t, e->term[1], x);
    mpq_sub(e->term[4], e->term[4], t);
    mpq_mul(t, e->term[1], y);
    mpq_sub(e->term[5], e->term[5], t);
    mpq_set(e->term[1], x);
    mpq_set(e->term[2], y);
    mpq_clears(x, y, x1, y1, c, t, s, NULL);
}

/* Random star-shaped outlines, near 0 and a million millimeters away from it: the double nearest to each coordinate is
 * all that is lost, because the exact values are those of the rounded coordinates. */
START_TEST(measure_against_fractions)
{
    exact_sums e;
    exact_init(&e);
    random_state = 11;
    for (size_t run = 0; run < scaled(300); run++) {
        size_t n = 3 + random_below(run % 10 ? 60 : 600);
        double away = run % 2 ? 1e6 : 0, size = run % 3 ? 70 : 3000;
        for (size_t i = 0; i < n; i++) {
            double t = 2 * acos(-1) * ((double)i + 0.8 * random_unit()) / (double)n, r = size * random_between(0.6, 1);
            p[i] = (ung_point){away + r * cos(t), -3 * away + r * sin(t)};
        }
        if (run % 5 < 2)
            reverse(p, n);
        ung_outline_measure_out out;
        if (measure(p, n, 0, &out, NULL) != UNG_OK)
            continue; /* few points may leave the center outside and cross */
        exact_moments(&e, p, n);
        double area = fabs(mpq_get_d(e.term[0])), second = fabs(mpq_get_d(e.term[3])) + fabs(mpq_get_d(e.term[4]));
        must(out.turn_ratio == (mpq_get_d(e.term[0]) > 0 ? 1 : -1));
        ck_relative(out.area_mm2, area, 2e-15); /* a few roundings of 1.1e-16 relative to the area of the box */
        /* its own rounding where it lies (half an ulp, and one more because mpq_get_d cuts), and a few roundings
         * relative to the size */
        ck_near(out.centroid_x_mm, mpq_get_d(e.term[1]), 1.5 * away * 2.3e-16 + size * 1e-15);
        ck_near(out.centroid_y_mm, mpq_get_d(e.term[2]), 1.5 * 3 * away * 2.3e-16 + size * 1e-15);
        long double around = 0; /* in 64 bits: its own error is 1e-17 */
        for (size_t i = 0; i < n; i++)
            around += hypotl((long double)p[(i + 1) % n].x_mm - p[i].x_mm,
                             (long double)p[(i + 1) % n].y_mm - p[i].y_mm);
        ck_relative(out.perimeter_mm, (double)around, 1e-15);
        double sign = out.turn_ratio; /* the first point as origin makes second moments up to ten times as large */
        ck_near(out.second_x_mm4, sign * mpq_get_d(e.term[3]), 1e-14 * second);
        ck_near(out.second_y_mm4, sign * mpq_get_d(e.term[4]), 1e-14 * second);
        ck_near(out.second_xy_mm4, sign * mpq_get_d(e.term[5]), 1e-14 * second);
    }
    exact_clear(&e);
}
END_TEST

/* Reversed, begun elsewhere, closed by its first point, scaled by a power of 2 and turned by 90 degrees (exact). */
START_TEST(measure_properties)
{
    fourier(500);
    ung_outline_measure_out whole = measured(p, 500, 20), out;
    p[500] = p[0];
    out = measured(p, 501, 20);
    ck_assert_double_eq(out.repeated_count, 1);
    ck_assert_double_eq(out.gap_ratio, 0);
    ck_assert_double_eq(out.area_mm2, whole.area_mm2);
    ck_assert_double_eq(out.second_xy_mm4, whole.second_xy_mm4);
    ck_assert_double_eq(out.perimeter_mm, whole.perimeter_mm);
    for (size_t i = 0; i < 500; i++)
        q[i] = p[(i + 123) % 500];
    out = measured(q, 500, 20);
    const double *a = &whole.area_mm2, *b = &out.area_mm2;
    for (int k = 0; k < 7; k++) /* other roundings: 1e-14 of the value, of the size for places */
        ck_near(b[k], a[k], 1e-14 * (k == 2 || k == 3 ? 900 : fabs(a[k])));
    reverse(q, 500);
    out = measured(q, 500, 20);
    ck_assert_double_eq(out.turn_ratio, -1);
    for (int k = 0; k < 7; k++)
        ck_near(b[k], a[k], 1e-14 * (k == 2 || k == 3 ? 900 : fabs(a[k])));
    ck_near(out.second_xy_mm4, whole.second_xy_mm4, 1e-14 * (whole.second_x_mm4 + whole.second_y_mm4));
    for (size_t i = 0; i < 500; i++)
        q[i] = (ung_point){-8 * p[i].y_mm, 8 * p[i].x_mm};
    out = measured(q, 500, 110);
    ck_assert_double_eq(out.area_mm2, 64 * whole.area_mm2);
    ck_assert_double_eq(out.perimeter_mm, 8 * whole.perimeter_mm);
    ck_assert_double_eq(out.second_x_mm4, 4096 * whole.second_y_mm4);
    ck_assert_double_eq(out.second_xy_mm4, -4096 * whole.second_xy_mm4);
    ck_relative(out.length_mm, 8 * whole.length_mm, 1e-15); /* sine and cosine of 20 and 110 degrees */
    ck_relative(out.width_mm, 8 * whole.width_mm, 1e-15);
    ck_relative(out.widest_fraction, whole.widest_fraction, 1e-13);
}
END_TEST

START_TEST(measure_cautions)
{
    ung_outline_measure_in in = ung_outline_measure_standard();
    const ung_calculation *c = ung_outline_measure_contract();
    ellipse(65, 60, 200);
    ung_outline_measure_out out = measured(p, 200, 0);
    ck_assert_uint_eq(ung_outline_measure_cautions(&in, &out, NULL, 0), 0);
    out = measured(p, 196, 0); /* 196 of 200 points: the gap is five steps */
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "open_trace") == (out.gap_ratio > 5));
    out = measured(p, 180, 0);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "open_trace"));
    ellipse(6.5, 6, 200);
    out = measured(p, 200, 0);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "small"));
    ellipse(650, 600, 200);
    out = measured(p, 200, 0);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "large"));
    check_rule(c, "small", UNG_WARN, UNG_BELOW, 40);  /* as far as lengths of hooves are accepted elsewhere */
    check_rule(c, "large", UNG_WARN, UNG_ABOVE, 300); /* choice */
    check_rule(c, "open_trace", UNG_NOTE, UNG_ABOVE, 5); /* choice */
}
END_TEST

/* ---- Two edges in whole numbers: the reference ---- */

typedef struct whole {
    int64_t x, y;
} whole;

static int turn_of(whole a, whole b, whole c)
{
    int64_t turn = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
    return (turn > 0) - (turn < 0);
}

static int lies_on(whole a, whole b, whole c)
{
    return turn_of(a, b, c) == 0 && (c.x - a.x) * (c.x - b.x) <= 0 && (c.y - a.y) * (c.y - b.y) <= 0;
}

/* Whether edges i and j of the polygon have a point in common that is not allowed. */
static int pair_is_bad(const whole *w, size_t n, size_t i, size_t j)
{
    whole a = w[i], b = w[(i + 1) % n], c = w[j], d = w[(j + 1) % n];
    if ((a.x == b.x && a.y == b.y) || (c.x == d.x && c.y == d.y))
        return 1;
    if ((i + 1) % n == j)
        return lies_on(a, b, d) || lies_on(c, d, a);
    if ((j + 1) % n == i)
        return lies_on(a, b, c) || lies_on(c, d, b);
    return lies_on(a, b, c) || lies_on(a, b, d) || lies_on(c, d, a) || lies_on(c, d, b) ||
           (turn_of(a, b, c) * turn_of(a, b, d) < 0 && turn_of(c, d, a) * turn_of(c, d, b) < 0);
}

/* ---- What is refused about a trace, by every calculation that takes one ---- */

static void refused(ung_status status, const ung_fault *fault, const char *words, size_t row, size_t other)
{
    must(status == UNG_RELATION && fault->status == UNG_RELATION);
    must(strcmp(fault->rows, "outline") == 0);
    must_msg(strstr(fault->text, words) != NULL, "%s instead of %s", fault->text, words);
    must_msg(fault->index == row && fault->other_index == other, "rows %zu and %zu", fault->index, fault->other_index);
}

static void refused_by_all(const ung_point *points, size_t n, const char *words, size_t row, size_t other)
{
    ung_fault fault;
    ung_outline_measure_out m;
    int crossing = strcmp(words, "crosses") == 0;
    if (crossing) { /* any two edges that meet will do; the same ones from all */
        whole w[16];
        for (size_t i = 0; i < n; i++)
            w[i] = (whole){(int64_t)points[i].x_mm, (int64_t)points[i].y_mm};
        ck_assert_int_eq(measure(points, n, 0, &m, &fault), UNG_RELATION);
        row = fault.index;
        other = fault.other_index;
        must(row < other && other < n && pair_is_bad(w, n, row, other));
    }
    refused(measure(points, n, 0, &m, &fault), &fault, words, row, other);
    ck_assert(m.area_mm2 != m.area_mm2); /* NaN */
    ung_outline_inset_out i;
    no_depths();
    refused(inset_of(points, n, 0, &i, &fault), &fault, words, row, other);
    ck_assert(q[0].x_mm != q[0].x_mm);
    ung_shoe_footprint_in shoe = ung_shoe_footprint_standard();
    ung_shoe_footprint_out f;
    shoe.shoe_thickness_mm = 20;
    refused(ung_shoe_footprint(&shoe, points, n, work, room, &f, &fault), &fault, words, row, other);
    if (crossing)
        return;
    ung_outline_resample_in resample = ung_outline_resample_standard();
    ung_outline_resample_out r;
    refused(ung_outline_resample(&resample, points, n, q, 5, &r, &fault), &fault, words, row, other);
    ung_outline_at_in at = ung_outline_at_standard();
    ung_outline_at_out place;
    at.left_side_count = at.side_fraction = 1;
    refused(ung_outline_at(&at, points, n, &place, &fault), &fault, words, row, other);
}

START_TEST(trace_refusals)
{
    const ung_point repeats[] = {{0, 0}, {9, 0}, {9, 9}, {9, 9}, {0, 9}};
    const ung_point repeats_near[] = {{0, 0}, {9, 0}, {9, 9}, {9, 9 + 5e-15}, {0, 9}};
    const ung_point closed_twice[] = {{0, 0}, {9, 0}, {9, 9}, {0, 0}, {0, 0}};
    const ung_point two[] = {{0, 0}, {9, 0}, {0, 0}};
    const ung_point line[] = {{0, 0}, {9, 3}, {3, 1}};
    const ung_point bow[] = {{0, 0}, {9, 9}, {9, 0}, {0, 9}};
    const ung_point eight[] = {{0, 0}, {9, 9}, {20, 9}, {9, 0}, {4, 9}};
    const ung_point touching[] = {{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}};
    const ung_point twice_there[] = {{0, 0}, {5, 5}, {10, 0}, {10, 10}, {5, 5}, {0, 10}};
    const ung_point spike[] = {{0, 0}, {10, 0}, {10, 5}, {20, 5}, {10, 5}, {10, 10}, {0, 10}};
    const ung_point thin_spike[] = {{0, 0}, {10, 0}, {10, 10}, {3, 10}, {15, 10}, {0, 20}};
    const ung_point over_itself[] = {{0, 0}, {10, 0}, {10, 5}, {20, 5}, {20, 0}, {5, 0}, {5, -9}, {0, -9}};
    refused_by_all(repeats, 5, "repeats", 3, 2);
    refused_by_all(repeats_near, 5, "repeats", 3, 2);
    refused_by_all(closed_twice, 5, "repeats", 4, 3);
    refused_by_all(two, 3, "three different", UNG_NO_INDEX, UNG_NO_INDEX);
    refused_by_all(line, 3, "crosses", 0, 0);
    refused_by_all(bow, 4, "crosses", 0, 0);
    refused_by_all(eight, 5, "crosses", 0, 0);
    refused_by_all(touching, 5, "crosses", 0, 0);
    refused_by_all(twice_there, 6, "crosses", 0, 0);
    refused_by_all(spike, 7, "crosses", 0, 0);
    refused_by_all(thin_spike, 6, "crosses", 0, 0);
    refused_by_all(over_itself, 8, "crosses", 0, 0);
    ung_fault fault;
    ung_outline_resample_in resample = ung_outline_resample_standard();
    ung_outline_resample_out r;
    refused(ung_outline_resample(&resample, line, 3, q, 5, &r, &fault), &fault, "no area", UNG_NO_INDEX, UNG_NO_INDEX);
    const ung_point lost[] = {{0, 0}, {10, 0}, {NAN, 10}};
    ung_outline_measure_out m;
    ck_assert_int_eq(measure(lost, 3, 0, &m, &fault), UNG_RANGE);
    ck_assert_uint_eq(fault.index, 2);
    ck_assert_int_eq(measure(lost, 2, 0, &m, &fault), UNG_COUNT);
}
END_TEST

/* ---- Simple or not ---- */

static double angle_from(whole w, double x, double y)
{
    return atan2((double)w.y - y, (double)w.x - x);
}

/* Small grids, so that points fall on edges and on each other; walks, which turn back; stars, often simple. */
static void random_polygon(whole *w, size_t n, size_t grid)
{
    int kind = (int)random_below(3);
    for (size_t i = 0; i < n; i++) {
        w[i] = (whole){(int64_t)random_below(grid), (int64_t)random_below(grid)};
        if (kind == 1 && i > 0)
            w[i] = (whole){w[i - 1].x + (int64_t)random_below(3) - 1, w[i - 1].y + (int64_t)random_below(3) - 1};
    }
    double x = (double)grid / 2 - 0.13, y = (double)grid / 2 - 0.07;
    for (size_t i = 1; kind == 2 && i < n; i++)
        for (size_t j = i; j > 0 && angle_from(w[j], x, y) < angle_from(w[j - 1], x, y); j--) {
            whole kept = w[j];
            w[j] = w[j - 1];
            w[j - 1] = kept;
        }
}

START_TEST(simple_against_all_pairs)
{
    const size_t steps[] = {0, 15, 40, SIZE_MAX}; /* the sweep alone, boxes given up, boxes alone */
    size_t found[2] = {0, 0};
    whole w[64];
    random_state = 5;
    for (size_t run = 0; run < scaled(60000); run++) {
        size_t n = 3 + random_below(run % 3 ? 12 : 61), grid = 2 + random_below(run % 5 ? 9 : 60);
        random_polygon(w, n, grid);
        int simple = 1;
        for (size_t i = 0; i < n; i++)
            for (size_t j = i + 1; j < n; j++)
                simple = simple && !pair_is_bad(w, n, i, j);
        found[simple]++;
        /* whole numbers stay exact far away and scaled by a power of 2 */
        double away = run % 7 == 0 ? 9999000 : 0, scale = run % 4 == 0 ? 0x1p-9 : 1;
        for (size_t i = 0; i < n; i++)
            p[i] = (ung_point){(away + (double)w[i].x) * scale, ((double)w[i].y - away) * scale};
        for (size_t k = 0; k < 4; k++) {
            size_t meet[2];
            int got = ung__simple_within(&p[0].x_mm, n, work, steps[k], meet);
            must_msg(got == simple, "run %zu, steps %zu: %d", run, steps[k], got);
            must(got || (meet[0] < meet[1] && meet[1] < n && pair_is_bad(w, n, meet[0], meet[1])));
        }
    }
    must(found[0] > 1000 || scaled(10) < 10);
    must(found[1] > 1000 || scaled(10) < 10);
}
END_TEST

/* The sign of a turn where rounding decides wrongly: points 1 ulp apart along a line, against exact fractions. */
START_TEST(turn_is_exact)
{
    mpq_t a[2], b[2], c[2], s, t;
    mpq_inits(a[0], a[1], b[0], b[1], c[0], c[1], s, t, NULL);
    random_state = 8;
    size_t in_line = 0, wrong = 0;
    for (size_t run = 0; run < scaled(20000); run++) {
        double away = run % 2 ? 1e6 : 0.5, v[6];
        for (int k = 0; k < 6; k++) { /* near the diagonal, a few ulp from it */
            v[k] = k < 2 ? away : k < 4 ? 12 * away : 24 * away;
            v[k] += (double)random_below(4) * (nextafter(v[k], 1e9) - v[k]);
        }
        for (int k = 0; k < 2; k++) {
            mpq_set_d(a[k], v[k]);
            mpq_set_d(b[k], v[2 + k]);
            mpq_set_d(c[k], v[4 + k]);
            mpq_sub(b[k], b[k], a[k]);
            mpq_sub(c[k], c[k], a[k]);
        }
        mpq_mul(s, b[0], c[1]);
        mpq_mul(t, b[1], c[0]);
        int sign = mpq_cmp(s, t), got = ung__turn(v, v + 2, v + 4);
        sign = (sign > 0) - (sign < 0);
        must_msg(got == sign, "run %zu: %d instead of %d", run, got, sign);
        double plain = (v[2] - v[0]) * (v[5] - v[1]) - (v[3] - v[1]) * (v[4] - v[0]);
        in_line += sign == 0;
        wrong += (plain > 0) - (plain < 0) != sign;
    }
    ck_assert_uint_gt(in_line, 0);
    ck_assert_uint_gt(wrong, 0); /* otherwise the test tests nothing */
    mpq_clears(a[0], a[1], b[0], b[1], c[0], c[1], s, t, NULL);
}
END_TEST

/* Boxes say nothing about these: spiral bands and a comb turned by a third of a right angle, with one point moved onto
 * an edge far along the outline. */
START_TEST(hard_outlines)
{
    enum { HARD = 10000 };
    for (int kind = 0; kind < 2; kind++) {
        for (size_t i = 0; i < HARD; i++) {
            size_t j = i < HARD / 2 ? i : HARD - 1 - i;
            double turns = (double)j / 16, radius = 10 + turns + (i < HARD / 2 ? 0 : 0.5);
            double x = (double)i, y = i % 2 ? 1e6 : 0;
            if (i >= HARD - 2) {
                x = i == HARD - 2 ? HARD : -1;
                y = -2;
            }
            p[i] = kind == 0 ? (ung_point){radius * cos(2 * acos(-1) * turns), radius * sin(2 * acos(-1) * turns)}
                             : (ung_point){0.8 * x - 0.6 * y, 0.6 * x + 0.8 * y};
        }
        size_t meet[2];
        ck_assert(ung__simple(&p[0].x_mm, HARD, work, meet));
        ck_assert(kind == 1 || ung__simple_within(&p[0].x_mm, HARD, work, SIZE_MAX, meet)); /* boxes alone: the same */
        ung_point kept = p[3000], far = p[7021];
        p[3000] = far; /* two points in one place */
        ck_assert(!ung__simple(&p[0].x_mm, HARD, work, meet));
        double x = kind == 0 ? 0.5 * (p[3032].x_mm + p[3033].x_mm) : kept.x_mm + 5000;
        p[3000] = (ung_point){x, kept.y_mm * 1.01 + 50};
        ck_assert(!ung__simple(&p[0].x_mm, HARD, work, meet));
        ck_assert(meet[0] == 2999 || meet[1] == 2999 || meet[0] == 3000 || meet[1] == 3000);
    }
}
END_TEST

/* Two neighbors of a convex outline exchanged: the edges before and behind them cross, wherever that is. */
START_TEST(one_crossing_of_many_edges)
{
    enum { EDGES = 6400 };
    ellipse(65, 60, EDGES);
    size_t tests = scaled(600);
    for (size_t test = 0; test < tests; test++) {
        size_t k = 1 + test * (EDGES - 3) / tests, meet[2];
        ung_point kept = p[k];
        p[k] = p[k + 1];
        p[k + 1] = kept;
        must(!ung__simple_within(&p[0].x_mm, EDGES, work, SIZE_MAX, meet));
        must(meet[0] == k - 1 && meet[1] == k + 1);
        p[k + 1] = p[k];
        p[k] = kept;
    }
}
END_TEST

/* ---- Inset ---- */

/* Circle R 100 with depth 10 + 3 cos a: pi ((R - 10)^2 + 9/2); the error of the polygon falls with 1/n^2. */
START_TEST(inset_of_circle)
{
    double error[3];
    for (size_t k = 0, n = 100; k < 3; k++, n *= 10) {
        ellipse(100, 100, n);
        for (size_t i = 0; i < n; i++)
            depths[i].depth_mm = 3 * p[i].x_mm / 100;
        ung_outline_inset_out out;
        ck_assert_int_eq(inset_of(p, n, 10, &out, NULL), UNG_OK);
        error[k] = 25461.03766101848 - out.area_mm2;
        ck_near(out.deepest_mm, 13, 1e-13);
        /* curvature from differences of coordinates that round at 7e-15: relative to the square of the distance */
        ck_relative(out.least_radius_mm, 100, 1e-16 * (double)(n * n) + 1e-13);
        ck_near(hypot(q[n / 4].x_mm, q[n / 4].y_mm), 90, 1e-11); /* depth 10 there */
        ung_outline_measure_out m = measured(q, n, 0);
        ck_assert_double_eq(m.area_mm2, out.area_mm2);
        ck_assert_double_eq(m.perimeter_mm, out.perimeter_mm);
    }
    ck_relative(error[0] / error[1], 100, 0.01); /* the next term is 1/n^4 */
    ck_relative(error[1] / error[2], 100, 0.01);
    ck_assert(fabs(error[2]) < 1e-6 * 25461);
    no_depths();
}
END_TEST

/* Circles smaller and larger than a hoof, and depths close to the radius: the accuracies of inset_of_circle. */
START_TEST(inset_of_other_circles)
{
    ung_outline_inset_out out;
    ung_fault fault;
    no_depths();
    ellipse(200, 200, 361);
    ck_assert_int_eq(inset_of(p, 361, 10, &out, NULL), UNG_OK);
    ck_relative(out.least_radius_mm, 200, 1e-10);
    ellipse(65, 65, 360);
    refused(inset_of(p, 360, 65 * 1.005, &out, &fault), &fault, "local radius", 0, UNG_NO_INDEX);
    ck_relative(fault.upper, 65, 1e-10);
    ellipse(1, 1, 360); /* a 360-gon of radius 0.05 is left: its area is 180 sin(1 degree) 0.05^2 */
    ck_assert_int_eq(inset_of(p, 360, 0.95, &out, NULL), UNG_OK);
    ck_relative(out.area_mm2, (double)(180 * sinl(PI_L / 180)) * 0.05 * 0.05, 1e-10);
    const ung_point small[] = {{0, 0}, {0.1, 0}, {0, 0.1}}; /* counterclockwise, whatever the size */
    ung_outline_measure_out m = measured(small, 3, 0);
    ck_relative(m.area_mm2, 0.005, 1e-15);
    ck_assert_double_eq(m.turn_ratio, 1);
}
END_TEST

/* Steiner: area A - P d + pi d^2, perimeter P - 2 pi d, while d is less than the least radius (b^2/a = 69.44 mm). */
START_TEST(inset_steiner)
{
    const double depth[] = {5, 25, 60}, area[] = {687398.536794425325, 611130.092068207608, 483707.879655451952};
    double error[3][3];
    no_depths();
    for (size_t k = 0, n = 100; k < 3; k++, n *= 10)
        for (int j = 0; j < 3; j++) {
            ellipse(900, 250, n);
            ung_outline_inset_out out;
            ck_assert_int_eq(inset_of(p, n, depth[j], &out, NULL), UNG_OK);
            error[k][j] = area[j] - out.area_mm2;
            if (k > 0) {
                ck_relative(out.least_radius_mm, 250.0 * 250 / 900, 0.001);
                double around = 3907.6700159195796393 - 2 * acos(-1) * depth[j];
                ck_relative(out.perimeter_mm, around, k == 1 ? 1e-4 : 1e-6); /* measured 2e-5, falls with 1/n^2 */
            }
        }
    for (int j = 0; j < 3; j++) {
        ck_relative(error[1][j] / error[2][j], 100, 0.05);
        ck_assert(fabs(error[2][j]) < 5e-7 * area[j]);
    }
    fourier(10000);
    ung_outline_inset_out out;
    ck_assert_int_eq(inset_of(p, 10000, 5, &out, NULL), UNG_OK);
    ck_relative(out.area_mm2, 689595.7649529, 2e-7); /* the polygon itself: 7e-8 */
    ck_assert_int_eq(inset_of(p, 10000, 25, &out, NULL), UNG_OK);
    ck_relative(out.area_mm2, 611654.7293241, 4e-7);
    /* outward and back: the normals of a parallel curve are those of the curve */
    ck_assert_int_eq(inset_of(p, 10000, -25, &out, NULL), UNG_OK);
    ck_relative(out.area_mm2, 709473.72294181698 + 25 * 3991.2995610470149704 + acos(-1) * 625, 4e-7);
    static ung_point outer[MOST];
    memcpy(outer, q, sizeof outer);
    ck_assert_int_eq(inset_of(outer, 10000, 25, &out, NULL), UNG_OK);
    double most = 0;
    for (size_t i = 0; i < 10000; i++)
        most = fmax(most, hypot(q[i].x_mm - p[i].x_mm, q[i].y_mm - p[i].y_mm));
    ck_assert(most < 1e-3); /* 25 mm times the error of a normal, second order in the distance of the points */
}
END_TEST

/* Either direction, begun elsewhere, first point repeated: the same points. */
START_TEST(inset_properties)
{
    static ung_point given[MOST], moved[MOST];
    fourier(400);
    memcpy(given, p, sizeof given);
    ung_outline_inset_out out, other;
    for (size_t i = 0; i < 400; i++)
        depths[i].depth_mm = 4 + 2 * sin(6 * (double)i / 400);
    q[400] = (ung_point){-77, -77};
    ck_assert_int_eq(inset_of(given, 400, 1, &out, NULL), UNG_OK);
    ck_assert(q[400].x_mm == -77 && q[400].y_mm == -77); /* not written */
    memcpy(moved, q, sizeof moved);
    given[400] = given[0];
    depths[400].depth_mm = -77; /* not read */
    ck_assert_int_eq(inset_of(given, 401, 1, &other, NULL), UNG_OK);
    ck_assert_int_eq(memcmp(q, moved, 400 * sizeof *q), 0);
    ck_assert_int_eq(memcmp(q + 400, q, sizeof *q), 0);
    ck_assert_double_eq(other.area_mm2, out.area_mm2);
    reverse(given, 400);
    for (size_t i = 0; i < 200; i++) {
        double kept = depths[i].depth_mm;
        depths[i].depth_mm = depths[399 - i].depth_mm;
        depths[399 - i].depth_mm = kept;
    }
    ck_assert_int_eq(inset_of(given, 400, 1, &other, NULL), UNG_OK);
    for (size_t i = 0; i < 400; i++) {
        ck_near(q[i].x_mm, moved[399 - i].x_mm, 1e-12); /* the same sums, other roundings at 900 mm */
        ck_near(q[i].y_mm, moved[399 - i].y_mm, 1e-12);
    }
    ck_relative(other.area_mm2, out.area_mm2, 1e-14);
    ck_relative(other.least_radius_mm, out.least_radius_mm, 1e-13);
    ck_assert_double_eq(other.deepest_mm, out.deepest_mm);
    no_depths();
    ck_assert_int_eq(inset_of(given, 400, 0, &other, NULL), UNG_OK);
    ck_assert_int_eq(memcmp(q, given, 400 * sizeof *q), 0); /* depth 0 moves nothing */
    const double least = other.least_radius_mm;
    ck_assert_int_eq(inset_of(given, 400, least * 0.79, &other, NULL), UNG_OK);
    ung_outline_inset_in in = {least * 0.79};
    ck_assert(!has_caution(ung_outline_inset_contract(), (double *)&in, (double *)&other, "tight"));
    ck_assert_int_eq(inset_of(given, 400, least * 0.81, &other, NULL), UNG_OK);
    in.depth_mm = least * 0.81;
    ck_assert(has_caution(ung_outline_inset_contract(), (double *)&in, (double *)&other, "tight"));
    check_rule(ung_outline_inset_contract(), "tight", UNG_NOTE, UNG_BELOW, 0); /* choice: four fifths of the radius */
    check_factors(ung_outline_inset_contract(), "tight", 1, -1 / 0.8);
}
END_TEST

/* A stadium: straight sides of 200 mm at y = -30 and 30, half circles at the ends. */
static size_t stadium(void)
{
    size_t n = 0;
    for (int i = 0; i < 100; i++)
        p[n++] = (ung_point){-100 + 2 * i, -30};
    for (int i = 0; i < 60; i++)
        p[n++] = (ung_point){100 + 30 * sin(acos(-1) * i / 60), -30 * cos(acos(-1) * i / 60)};
    for (int i = 0; i < 100; i++)
        p[n++] = (ung_point){100 - 2 * i, 30};
    for (int i = 0; i < 60; i++)
        p[n++] = (ung_point){-100 - 30 * sin(acos(-1) * i / 60), 30 * cos(acos(-1) * i / 60)};
    return n;
}

START_TEST(inset_refusals)
{
    ung_outline_inset_out out;
    ung_fault fault;
    size_t n = stadium();
    no_depths();
    /* depth 40 everywhere: past the radius of 30 of the half circles, first where the side ends */
    refused(inset_of(p, n, 40, &out, &fault), &fault, "local radius", 101, UNG_NO_INDEX);
    ck_assert_double_eq(fault.value, 40);
    ck_relative(fault.upper, 30, 1e-10); /* circle through points rounded at 1e-14 and 1.6 mm apart */
    ck_assert_int_eq(inset_of(p, n, 29.9, &out, NULL), UNG_OK);
    /* 5 at the ends, 40 on the sides: every place is fine, but the sides pass each other */
    for (size_t i = 0; i < n; i++)
        depths[i].depth_mm = 5 + 35 * fmin(fmax((90 - fabs(p[i].x_mm)) / 40, 0), 1);
    ung_status status = inset_of(p, n, 0, &out, &fault);
    refused(status, &fault, "moved outline crosses", fault.index, fault.other_index);
    must(fault.index < 100 && fault.other_index >= 160 && fault.other_index < 260); /* one side and the other */
    /* the same with 25: fine, and the area is less by the depth's integral over the sides */
    for (size_t i = 0; i < n; i++)
        depths[i].depth_mm = fmin(depths[i].depth_mm, 25);
    ck_assert_int_eq(inset_of(p, n, 0, &out, NULL), UNG_OK);
    /* three points moved to near the middle of their circle (radius 7.03) by unlike depths turn inside out */
    const ung_point few[] = {{3.7, 7}, {0.3, 5.7}, {5.9, 9.4}};
    depths[0].depth_mm = 7.03;
    depths[1].depth_mm = 6.6;
    depths[2].depth_mm = 3.9;
    status = inset_of(few, 3, 0, &out, &fault);
    refused(status, &fault, "inside out", UNG_NO_INDEX, UNG_NO_INDEX);
    /* outward at a hollow place */
    for (size_t i = 0; i < 200; i++) {
        double t = 2 * acos(-1) * (double)i / 200, r = 100 + 30 * cos(2 * t);
        p[i] = (ung_point){r * cos(t), r * sin(t)};
    }
    no_depths();
    /* polar curve: curvature (r^2 + 2 r'^2 - r r'')/(r^2 + r'^2)^1.5 = (70 - 120)/70^2 at 90 degrees: radius -98 */
    ck_assert_int_eq(inset_of(p, 200, -97, &out, NULL), UNG_OK);
    status = inset_of(p, 200, -100, &out, &fault);
    refused(status, &fault, "local radius", fault.index, UNG_NO_INDEX);
    ck_assert_double_eq(fault.value, 100);
    ck_near(fault.upper, 98, 1.9); /* of the first point that is passed */
    must(abs((int)fault.index - 50) < 6);
}
END_TEST

/* ---- Footprint ---- */

/* On the n-gon in a circle all normals are radial, so each face is again an n-gon: n r^2 sin(2 pi/n)/2. */
START_TEST(footprint_of_circle)
{
    ung_shoe_footprint_in in = ung_shoe_footprint_standard();
    in.shoe_thickness_mm = 25.4;
    ung_shoe_footprint_out out;
    ung_fault fault;
    const size_t n = 400;
    const double gon = (double)(n / 2.0L * sinl(2 * PI_L / n)), side = (double)(2 * n * sinl(PI_L / n));
    ellipse(65, 65, n);
    ck_assert_int_eq(ung_shoe_footprint(&in, p, n, work, room, &out, NULL), UNG_OK);
    ck_relative(out.shoe_area_mm2, gon * 65 * 65, 1e-13); /* curvature's rounding does not enter; normals' does */
    ck_relative(out.ground_face_mm2, gon * 65 * 65, 1e-13);
    ck_assert_double_eq(out.pressure_mpa, 0);
    in.overhang_mm = 5;
    in.upper_layer_mm = 6.4;
    in.edge_bevel_deg = 45;
    in.load_n = 3000;
    ck_assert_int_eq(ung_shoe_footprint(&in, p, n, work, room, &out, NULL), UNG_OK);
    ck_relative(out.shoe_area_mm2, gon * 70 * 70, 1e-13);
    ck_relative(out.ground_face_mm2, gon * 51 * 51, 1e-13); /* in by 19 x tan 45 */
    ck_relative(out.ground_perimeter_mm, side * 51, 1e-13);
    ck_relative(out.contact_length_mm, 102, 1e-13);
    ck_relative(out.contact_width_mm, 102, 1e-13);
    ck_relative(out.ground_radius_mm, 51, 1e-9);
    ck_relative(out.pressure_mpa, 3000 / (gon * 51 * 51), 1e-13);
    const ung_calculation *c = ung_shoe_footprint_contract();
    ck_assert(!has_caution(c, (double *)&in, (double *)&out, "small_face"));
    in.shoe_thickness_mm = 30;
    ck_assert_int_eq(ung_shoe_footprint(&in, p, n, work, room, &out, NULL), UNG_OK);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "small_face") == (2 * 46.4 * 46.4 < 70 * 70)); /* it is */
    ck_assert(!has_caution(c, (double *)&in, (double *)&out, "sharp"));
    in.shoe_thickness_mm = 74;
    ck_assert_int_eq(ung_shoe_footprint(&in, p, n, work, room, &out, NULL), UNG_OK); /* radius 2.4 left */
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "sharp"));
    check_rule(c, "small_face", UNG_WARN, UNG_BELOW, 0); /* choice: half of the upper face */
    check_factors(c, "small_face", 1, -0.5);
    check_rule(c, "sharp", UNG_NOTE, UNG_BELOW, 3); /* choice */
    in.shoe_thickness_mm = 80;
    refused(ung_shoe_footprint(&in, p, n, work, room, &out, &fault), &fault, "bevel reaches", 0, UNG_NO_INDEX);
    ellipse(200, 200, n);
    in.shoe_thickness_mm = 6; /* all of it upright */
    ck_assert_int_eq(ung_shoe_footprint(&in, p, n, work, room, &out, NULL), UNG_OK);
    ck_relative(out.ground_radius_mm, 205, 1e-9);
    /* An ellipse, begun at its flat side, has its least radius b^2/a at the toe, and 40 less after a bevel of 40.  The
     * circle through three points 0.6 mm apart misses it by the square of that over the radius's, some 1e-4. */
    for (size_t i = 0; i < 720; i++) {
        double t = (double)PI_L * (double)i / 360;
        p[i] = (ung_point){-70 * sin(t), 60 * cos(t)};
    }
    in.overhang_mm = in.upper_layer_mm = 0;
    in.shoe_thickness_mm = 40;
    ck_assert_int_eq(ung_shoe_footprint(&in, p, 720, work, room, &out, NULL), UNG_OK);
    ck_relative(out.ground_radius_mm, 3600 / 70. - 40, 1e-3);
    in.overhang_mm = 5;
    in.upper_layer_mm = 6.4;
    ellipse(65, 65, n);
    /* thinner than its upper layer: upright, and 90 is as good as 0 */
    in.shoe_thickness_mm = 6;
    ck_assert_int_eq(ung_shoe_footprint(&in, p, n, work, room, &out, NULL), UNG_OK);
    ck_assert_double_eq(out.ground_face_mm2, out.shoe_area_mm2);
}
END_TEST

START_TEST(footprint_refusals)
{
    ung_shoe_footprint_in in = ung_shoe_footprint_standard();
    in.shoe_thickness_mm = 20;
    ung_shoe_footprint_out out;
    ung_fault fault;
    /* hollow heels: a notch of radius 20 */
    size_t n = 0;
    for (int i = 0; i <= 90; i++)
        p[n++] = (ung_point){60 * cos(acos(-1) * (150 - i * 300 / 90.0) / 180),
                             60 * sin(acos(-1) * (150 - i * 300 / 90.0) / 180)};
    double x = p[n - 1].x_mm;
    for (int i = 1; i < 40; i++)
        p[n++] = (ung_point){x + 20 * sin(acos(-1) * i / 40), -30 * cos(acos(-1) * i / 40)};
    in.overhang_mm = 0;
    ck_assert_int_eq(ung_shoe_footprint(&in, p, n, work, room, &out, NULL), UNG_OK);
    in.overhang_mm = 60;
    ung_status status = ung_shoe_footprint(&in, p, n, work, room, &out, &fault);
    ck_assert_int_eq(status, UNG_RELATION);
    ck_assert(strstr(fault.text, "overhang") || strstr(fault.text, "upper face"));
    ck_assert(out.pressure_mpa != out.pressure_mpa);
    const ung_calculation *c = ung_shoe_footprint_contract();
    ck_assert_uint_eq(ung_standing_count(c), 2);
}
END_TEST

/* ---- Along the outline ---- */

START_TEST(resample_square)
{
    const ung_point square[] = {{-10, -10}, {-10, 10}, {10, 10}, {10, -10}}; /* clockwise */
    ung_outline_resample_in in = ung_outline_resample_standard();
    ung_outline_resample_out out;
    ck_assert_int_eq(ung_outline_resample(&in, square, 4, q, 8, &out, NULL), UNG_OK);
    const ung_point along_x[] = {{10, 0}, {10, 10}, {0, 10}, {-10, 10}, {-10, 0}, {-10, -10}, {0, -10}, {10, -10}};
    for (int i = 0; i < 8; i++) { /* the middle of the flat toe, then to the left; sums of whole numbers */
        ck_near(q[i].x_mm, along_x[i].x_mm, 0);
        ck_near(q[i].y_mm, along_x[i].y_mm, 0);
    }
    ck_assert_double_eq(out.perimeter_mm, 80);
    ck_assert_double_eq(out.spacing_mm, 10);
    in.toe_direction_deg = 180;
    ck_assert_int_eq(ung_outline_resample(&in, square, 4, q, 4, &out, NULL), UNG_OK);
    ck_near(q[0].x_mm, -10, 0);
    ck_near(q[0].y_mm, 0, 0);
    ck_near(q[1].y_mm, -10, 0);
    in.toe_direction_deg = 45; /* one corner */
    ck_assert_int_eq(ung_outline_resample(&in, square, 4, q, 1, &out, NULL), UNG_OK);
    ck_near(q[0].x_mm, 10, 0);
    ck_near(q[0].y_mm, 10, 0);
    /* the flat toe, turned by odd angles, keeps its middle though rounding makes one corner the outermost */
    for (int degrees = 1; degrees < 360; degrees += 7) {
        double cosine = cos(acos(-1) * degrees / 180), sine = sin(acos(-1) * degrees / 180);
        ung_point turned[4];
        for (int i = 0; i < 4; i++)
            turned[i] = (ung_point){cosine * square[i].x_mm - sine * square[i].y_mm,
                                    sine * square[i].x_mm + cosine * square[i].y_mm};
        in.toe_direction_deg = degrees;
        ck_assert_int_eq(ung_outline_resample(&in, turned, 4, q, 4, &out, NULL), UNG_OK);
        ck_near(q[0].x_mm, 10 * cosine, 1e-13);
        ck_near(q[0].y_mm, 10 * sine, 1e-13);
    }
}
END_TEST

/* Where the first point lies on a flat toe does not matter. */
START_TEST(resample_flat_toes)
{
    const ung_point toes[][5] = {{{10, -10}, {10, 5}, {10, 10}, {-10, 10}, {-10, -10}},
                                 {{10, -9}, {10, 10}, {-10, 10}, {-10, -10}, {10, -10}},
                                 {{10, 9}, {10, 10}, {-10, 10}, {-10, -10}, {10, -10}},
                                 {{10, 10}, {-10, 10}, {-10, -10}, {10, -10}, {10, 3}}};
    ung_outline_resample_in in = ung_outline_resample_standard();
    ung_outline_resample_out out;
    for (int k = 0; k < 4; k++) {
        ck_assert_int_eq(ung_outline_resample(&in, toes[k], 5, q, 2, &out, NULL), UNG_OK);
        ck_near(q[0].x_mm, 10, 0); /* sums of whole numbers */
        ck_near(q[0].y_mm, 0, 0);
        ck_near(q[1].x_mm, -10, 0);
        ck_near(q[1].y_mm, 0, 0);
    }
}
END_TEST

/* Any direction, start, and number of points: on the outline, at equal distances along it. */
START_TEST(resample_properties)
{
    ung_outline_resample_in in = ung_outline_resample_standard();
    ung_outline_resample_out out;
    static ung_point other[MOST];
    fourier(300);
    in.toe_direction_deg = 25;
    ck_assert_int_eq(ung_outline_resample(&in, p, 300, q, 1000, &out, NULL), UNG_OK);
    ung_outline_measure_out m = measured(p, 300, 0), finer = measured(q, 1000, 0);
    ck_assert_double_eq(out.perimeter_mm, m.perimeter_mm);
    ck_assert(finer.perimeter_mm <= m.perimeter_mm * (1 + 1e-15)); /* corners are cut */
    ck_assert(finer.perimeter_mm > m.perimeter_mm * 0.9999);
    ck_assert_double_eq(finer.turn_ratio, 1);
    double most = -1e9, cosine = cos(acos(-1) * 25 / 180), sine = sin(acos(-1) * 25 / 180);
    for (size_t i = 0; i < 300; i++)
        most = fmax(most, p[i].x_mm * cosine + p[i].y_mm * sine);
    ck_near(q[0].x_mm * cosine + q[0].y_mm * sine, most, 1e-12);
    for (size_t i = 1; i < 1000; i++) /* a chord is no longer than the step, and as long on a straight piece */
        must(hypot(q[i].x_mm - q[i - 1].x_mm, q[i].y_mm - q[i - 1].y_mm) <= out.spacing_mm * (1 + 1e-12));
    for (size_t i = 0; i < 300; i++)
        other[i] = p[(i + 77) % 300];
    reverse(other, 300);
    other[300] = other[0];
    static ung_point again[MOST];
    ck_assert_int_eq(ung_outline_resample(&in, other, 301, again, 1000, &out, NULL), UNG_OK);
    for (size_t i = 0; i < 1000; i++)
        must(hypot(q[i].x_mm - again[i].x_mm, q[i].y_mm - again[i].y_mm) < 1e-11); /* 4000 mm of rounded sums */
    /* resampled at its own points: a regular polygon comes back */
    ellipse(65, 65, 360);
    in.toe_direction_deg = 0;
    ck_assert_int_eq(ung_outline_resample(&in, p, 360, q, 360, &out, NULL), UNG_OK);
    for (size_t i = 0; i < 360; i++)
        must(hypot(q[i].x_mm - p[i].x_mm, q[i].y_mm - p[i].y_mm) < 1e-11);
}
END_TEST

static ung_outline_at_out at(const ung_point *points, size_t n, double toe, double left, double share)
{
    ung_outline_at_in in = ung_outline_at_standard();
    ung_outline_at_out out;
    in.toe_direction_deg = toe;
    in.left_side_count = left;
    in.side_fraction = share;
    ck_assert_int_eq(ung_outline_at(&in, points, n, &out, NULL), UNG_OK);
    return out;
}

START_TEST(at_known_curves)
{
    ellipse(65, 65, 360);
    for (int k = 0; k <= 180; k += 5)
        for (int left = 0; left < 2; left++) { /* the points are a degree apart: share k/180 is a point */
            ung_outline_at_out out = at(p, 360, 0, left, k / 180.0);
            double angle = acos(-1) * k / 180 * (left ? 1 : -1);
            ck_near(out.x_mm, 65 * cos(angle), 1e-11);
            ck_near(out.y_mm, 65 * sin(angle), 1e-11);
            ck_near(out.normal_x_ratio, cos(angle), 1e-12);
            ck_near(out.normal_y_ratio, sin(angle), 1e-12);
            ck_relative(out.radius_mm, 65, 1e-10); /* rounding at 1e-14 of points 1.1 mm apart */
            ck_relative(out.side_length_mm, 180 * 2 * 65 * sin(acos(-1) / 360), 1e-13);
            ck_relative(out.from_toe_mm, out.side_length_mm * k / 180, 1e-14);
            ck_near(out.around_fraction, left ? k / 360.0 : k == 0 ? 0 : 1 - k / 360.0, 1e-14);
        }
    /* ellipse: radius b^2/a at the ends of the long axis, a^2/b at those of the short one; the error of the circle
     * through three points falls with the square of their distance (equal steps of the parameter, at a vertex) */
    double error[2];
    for (size_t k = 0, n = 400; k < 2; k++, n *= 2) {
        ellipse(70, 60, n);
        ck_relative(at(p, n, 0, 1, 0).radius_mm, 3600.0 / 70, 0.001);
        error[k] = at(p, n, 0, 0, 0.5).radius_mm - 4900.0 / 60;
        ck_near(at(p, n, 0, 0, 0.5).y_mm, -60, 1e-10);
        ck_near(at(p, n, 0, 1, 1).x_mm, -70, 1e-10);
        ck_near(at(p, n, 90, 1, 0).y_mm, 60, 1e-10);
        ck_near(at(p, n, 90, 1, 0.5).x_mm, -70, 1e-10); /* looking along y, the left is at -x */
    }
    ck_relative(error[0] / error[1], 4, 0.02);
}
END_TEST

/* The same wherever the trace begins. */
START_TEST(at_any_start)
{
    const ung_point shape[] = {{60, 4}, {40, 45}, {-5, 58}, {-50, 40}, {-61, -3}, {-45, -38}, {3, -57}, {48, -33}};
    for (int left = 0; left < 2; left++)
        for (int k = 0; k <= 20; k++) {
            ung_outline_at_out first = at(shape, 8, 10, left, k / 20.0);
            for (size_t start = 1; start < 8; start++) {
                ung_point turned[8];
                for (size_t i = 0; i < 8; i++)
                    turned[i] = shape[(i + start) % 8];
                ung_outline_at_out out = at(turned, 8, 10, left, k / 20.0);
                const double *a = &first.x_mm, *b = &out.x_mm;
                for (int j = 0; j < 7; j++) /* sums of lengths that round otherwise, at 60 mm */
                    ck_near(b[j], a[j], 1e-11 * (1 + fabs(a[j])));
                ck_near(out.around_fraction, first.around_fraction, 1e-14);
            }
        }
}
END_TEST

/* Where circles say nothing about the normal, the edge's own is taken. */
START_TEST(at_odd_points)
{
    const ung_point trapezoid[] = {{0, 0}, {10, 0}, {8, 4}, {2, 4}}; /* the long side is a diameter of its circle */
    ung_outline_at_out out = at(trapezoid, 4, 0, 0, 0.5);
    ck_near(out.x_mm, 5, 1e-14);
    ck_near(out.normal_x_ratio, 0, 1e-15);
    ck_near(out.normal_y_ratio, -1, 1e-15);
    ck_relative(out.radius_mm, 5, 1e-14);
    /* an outline that goes out and back in one line (which outline_measure refuses): still a normal of length 1 */
    const ung_point spike[] = {{-10, -10}, {10, -10}, {10, 0}, {20, 0}, {10, 0}, {10, 10}, {-10, 10}};
    out = at(spike, 7, 0, 1, 0);
    ck_near(out.x_mm, 20, 0);
    ck_near(hypot(out.normal_x_ratio, out.normal_y_ratio), 1, 1e-15);
    ck_assert(isinf(out.radius_mm));
}
END_TEST

START_TEST(at_straight_and_hollow)
{
    size_t n = stadium();
    ung_outline_at_out out = at(p, n, 0, 1, 0.5); /* the middle of the straight left side */
    ck_near(out.x_mm, 0, 1e-10);
    ck_near(out.y_mm, 30, 1e-12);
    ck_assert_double_eq(out.normal_x_ratio, 0);
    ck_assert_double_eq(out.normal_y_ratio, 1);
    ck_assert(isinf(out.radius_mm) && out.radius_mm > 0);
    reverse(p, n); /* the other way round: the same place */
    out = at(p, n, 0, 1, 0.5);
    ck_near(out.y_mm, 30, 1e-12);
    ck_assert_double_eq(out.normal_y_ratio, 1);
    ck_assert(isinf(out.radius_mm) && out.radius_mm > 0);
    /* two heels: the rear is in the middle between them, and the outline is hollow there */
    for (size_t i = 0; i < 720; i++) {
        double t = 2 * acos(-1) * (double)i / 720, r = 60 - 25 * pow(fmax(0, -cos(t)), 9);
        p[i] = (ung_point){r * cos(t), r * sin(t)};
    }
    for (size_t i = 1; i < 360; i++) /* exactly symmetrical */
        p[720 - i] = (ung_point){p[i].x_mm, -p[i].y_mm};
    p[360].y_mm = 0;
    out = at(p, 720, 0, 1, 1);
    ck_near(out.x_mm, -35, 1e-10);
    ck_near(out.y_mm, 0, 1e-10);
    ck_near(out.normal_x_ratio, -1, 1e-10);
    ck_assert(out.radius_mm < 0);
    ck_relative(out.side_length_mm, at(p, 720, 0, 0, 0.3).side_length_mm, 1e-13);
    ck_near(out.around_fraction, 0.5, 1e-13);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "outline");
    tcase_add_test(tests, measure_known_polygons);
    tcase_add_test(tests, measure_sampled_curves);
    tcase_add_test(tests, measure_against_fractions);
    tcase_add_test(tests, measure_properties);
    tcase_add_test(tests, measure_cautions);
    tcase_add_test(tests, trace_refusals);
    tcase_add_test(tests, simple_against_all_pairs);
    tcase_add_test(tests, turn_is_exact);
    tcase_add_test(tests, hard_outlines);
    tcase_add_test(tests, one_crossing_of_many_edges);
    tcase_add_test(tests, inset_of_circle);
    tcase_add_test(tests, inset_of_other_circles);
    tcase_add_test(tests, inset_steiner);
    tcase_add_test(tests, inset_properties);
    tcase_add_test(tests, inset_refusals);
    tcase_add_test(tests, footprint_of_circle);
    tcase_add_test(tests, footprint_refusals);
    tcase_add_test(tests, resample_square);
    tcase_add_test(tests, resample_flat_toes);
    tcase_add_test(tests, resample_properties);
    tcase_add_test(tests, at_known_curves);
    tcase_add_test(tests, at_any_start);
    tcase_add_test(tests, at_odd_points);
    tcase_add_test(tests, at_straight_and_hollow);
    return finish(runner);
}
