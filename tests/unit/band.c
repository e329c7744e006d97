/* outline_band against hoof_band and solids of known surface; wall_profile. */
#include "../edges.h"

enum { MOST = 6400 };
static ung_point points[MOST + 1], turned[MOST + 1];
static double work[5 * (MOST + 1) + 128];

static ung_outline_band_in belt(double low, double toe, double heel)
{
    ung_outline_band_in in = ung_outline_band_standard();
    in.low_mm = low;
    in.high_toe_mm = toe;
    in.high_heel_mm = heel;
    return in;
}

static ung_hoof_band_in smooth(const ung_outline_band_in *b)
{
    ung_hoof_band_in in = ung_hoof_band_standard();
    in.hoof_length_mm = 135;
    in.hoof_width_mm = 128;
    in.toe_angle_deg = b->toe_angle_deg;
    in.quarter_angle_deg = b->left_quarter_angle_deg;
    in.heel_angle_deg = b->heel_angle_deg;
    in.low_mm = b->low_mm;
    in.high_toe_mm = b->high_toe_mm;
    in.high_heel_mm = b->high_heel_mm;
    in.overhang_mm = b->overhang_mm;
    in.upper_layer_mm = b->upper_layer_mm;
    in.edge_bevel_deg = b->edge_bevel_deg;
    in.open_heel_fraction = b->open_heel_fraction;
    return in;
}

static void standard_points(size_t n)
{
    ung_outline_standard_in in = ung_outline_standard_standard();
    in.hoof_length_mm = 135;
    in.hoof_width_mm = 128;
    ung_outline_standard_out out;
    must(ung_outline_standard(&in, points, n, &out, NULL) == UNG_OK);
}

static ung_status call_band(const ung_outline_band_in *in, const ung_point *outline, size_t n,
                            ung_outline_band_out *out, ung_fault *fault)
{
    return ung_outline_band(in, outline, n, work, sizeof work / sizeof *work, out, fault);
}

/* Relative difference from hoof_band for each result. */
static void errors(const ung_outline_band_in *in, size_t n, double *error)
{
    ung_hoof_band_in s = smooth(in);
    ung_hoof_band_out wanted;
    ung_outline_band_out out;
    standard_points(n);
    must(ung_hoof_band(&s, &wanted, NULL) == UNG_OK);
    must(call_band(in, points, n, &out, NULL) == UNG_OK);
    for (size_t i = 0; i < sizeof out / sizeof(double); i++) {
        double w = ((double *)&wanted)[i], v = ((double *)&out)[i];
        error[i] = w != 0 ? v / w - 1 : v;
    }
}

START_TEST(order)
{
    enum { RESULTS = sizeof(ung_outline_band_out) / sizeof(double) };
    for (int kind = 0; kind < 4; kind++) {
        ung_outline_band_in in = belt(kind % 2 ? 5 : -25, 63, 31);
        in.left_quarter_angle_deg = in.right_quarter_angle_deg = kind < 2 ? 75 : 90;
        in.overhang_mm = 2;
        in.upper_layer_mm = 6.4;
        in.edge_bevel_deg = 45;
        double few[RESULTS], more[RESULTS], many[RESULTS];
        errors(&in, 200, few);
        errors(&in, 1600, more);
        errors(&in, 6400, many);
        for (size_t i = 0; i < RESULTS; i++) {
            ck_assert_double_le(fabs(few[i]), 1e-3); /* the text on accuracy */
            ck_assert_double_le(fabs(more[i]), 1e-5 * (2000.0 / 1600) * (2000.0 / 1600));
            /* With 1/n^2 an eighth of the spacing leaves 1/64; the widest point falls between the points anew each
             * time, so up to twice that.  In the slant height, a quotient, errors nearly cancel: 3e-8 for that. */
            ck_assert_double_le(fabs(more[i]), fabs(few[i]) / 32 + 3e-8);
            ck_assert_double_le(fabs(many[i]), fabs(more[i]) / 8 + 3e-8);
        }
        /* Upright quarters do not depend on the width, so the error is smooth in 1/n^2 and Richardson's extrapolation
         * takes its first term away: the perimeter's rest falls with 1/n^4, a thousandth of 1e-7 here. */
        double rest = (16 * many[0] - more[0]) / 15;
        ck_assert_double_le(fabs(rest), 1e-10);
        if (kind >= 2)
            ck_assert_double_le(fabs((16 * many[3] - more[3]) / 15), fabs(many[3]) / 20);
    }
}
END_TEST

static void turn(const ung_point *from, ung_point *to, size_t n, double degrees, double x, double y)
{
    double c = cos(degrees * (double)(PI_L / 180)), s = sin(degrees * (double)(PI_L / 180));
    for (size_t i = 0; i < n; i++)
        to[i] = (ung_point){c * from[i].x_mm - s * from[i].y_mm + x, s * from[i].x_mm + c * from[i].y_mm + y};
}

static void same_results(const ung_outline_band_out *a, const ung_outline_band_out *b)
{
    for (size_t i = 0; i < sizeof *a / sizeof(double); i++)
        ck_relative(((const double *)a)[i], ((const double *)b)[i], 1e-11); /* roundings of coordinates near 1000 */
}

START_TEST(frames)
{
    ung_outline_band_in in = belt(-10, 40, 25), other;
    in.left_quarter_angle_deg = 70;
    in.right_quarter_angle_deg = 95;
    ung_outline_band_out out, again;
    standard_points(300);
    ck_assert_int_eq(call_band(&in, points, 300, &out, NULL), UNG_OK);
    for (size_t i = 0; i < 300; i++) /* the other way round */
        turned[i] = points[299 - i];
    ck_assert_int_eq(call_band(&in, turned, 300, &again, NULL), UNG_OK);
    same_results(&again, &out);
    points[300] = points[0]; /* the first point repeated */
    ck_assert_int_eq(call_band(&in, points, 301, &again, NULL), UNG_OK);
    same_results(&again, &out);
    other = in; /* turned and moved */
    other.toe_direction_deg = 130;
    turn(points, turned, 300, 130, 900, -700);
    ck_assert_int_eq(call_band(&other, turned, 300, &again, NULL), UNG_OK);
    same_results(&again, &out);
    other = in; /* mirrored, with left and right exchanged */
    other.left_quarter_angle_deg = 95;
    other.right_quarter_angle_deg = 70;
    for (size_t i = 0; i < 300; i++)
        turned[i] = (ung_point){points[i].x_mm, -points[i].y_mm};
    ck_assert_int_eq(call_band(&other, turned, 300, &again, NULL), UNG_OK);
    same_results(&again, &out);
    /* So near to the axis as well: an edge whose middle is 0.005 mm to the left of it, and a point that is. */
    points[0].y_mm = 0.01 - points[1].y_mm;
    points[150].y_mm = 0.005;
    ck_assert_int_eq(call_band(&in, points, 300, &out, NULL), UNG_OK);
    for (size_t i = 0; i < 300; i++)
        turned[i] = (ung_point){points[i].x_mm, -points[i].y_mm};
    ck_assert_int_eq(call_band(&other, turned, 300, &again, NULL), UNG_OK);
    same_results(&again, &out);
    standard_points(300);
    ck_assert_int_eq(call_band(&in, points, 300, &out, NULL), UNG_OK);
    /* The left side is the one with y above 0: with an upright left wall only the right one leans. */
    in.left_quarter_angle_deg = 90;
    ck_assert_int_eq(call_band(&in, points, 300, &again, NULL), UNG_OK);
    ck_assert(again.circumference_high_mm > out.circumference_high_mm);
}
END_TEST

/* A square prism and a frustum of a pyramid: polygons are exact.  Side 2a, all walls leaning by angle B: p(z) is a
 * square of side 2(a - z cot B), faces are trapezoids of slant h/sin B. */
START_TEST(solids)
{
    ung_point square[4] = {{50, 50}, {-50, 50}, {-50, -50}, {50, -50}};
    ung_outline_band_in in = belt(0, 30, 30);
    in.toe_angle_deg = in.left_quarter_angle_deg = in.right_quarter_angle_deg = 70;
    in.heel_angle_deg = 110;
    in.open_heel_fraction = 0.25;
    ung_outline_band_out out;
    ck_assert_int_eq(call_band(&in, square, 4, &out, NULL), UNG_OK);
    double angle = 70 * (double)(PI_L / 180), top = 100 - 60 / tan(angle), slant = 30 / sin(angle);
    double wall = 4 * (100 + top) / 2 * slant;
    /* Gauss points are exact for these integrands, which are linear in z: roundings only. */
    ck_assert(out.perimeter_mm == 400 && out.ground_area_mm2 == 10000 && out.circumference_low_mm == 400);
    ck_relative(out.circumference_high_mm, 4 * top, 1e-14);
    ck_relative(out.wall_area_mm2, wall, 1e-14);
    ck_relative(out.bonded_area_mm2, wall * 0.75, 1e-14);
    ck_relative(out.slant_height_mm, slant, 1e-14);
    ck_assert(out.shoe_area_mm2 == 0);
    in.toe_angle_deg = in.left_quarter_angle_deg = in.right_quarter_angle_deg = in.heel_angle_deg = 90;
    in.low_mm = -10;
    in.high_heel_mm = 20; /* upright: mean height 25 */
    in.overhang_mm = 5;
    ck_assert_int_eq(call_band(&in, square, 4, &out, NULL), UNG_OK);
    ck_relative(out.wall_area_mm2, 400 * 25.0, 1e-14);
    ck_relative(out.circumference_high_mm, 200 + 2 * sqrt(100 * 100 + 10 * 10), 1e-14);
    double around = 400 + 10 * (double)PI_L;
    ck_relative(out.circumference_low_mm, around, 1e-14);
    ck_relative(out.shoe_area_mm2, 10 * around, 1e-14);
    ck_relative(out.covered_area_mm2, 10000 + 10 * around, 1e-14);
}
END_TEST

static void refused(ung_outline_band_in in, const ung_point *outline, size_t n, const char *field, const char *text)
{
    ung_outline_band_out out;
    ung_fault fault;
    ck_assert_int_eq(call_band(&in, outline, n, &out, &fault), UNG_RELATION);
    ck_assert_str_eq(fault.field, field);
    ck_assert_msg(strstr(fault.text, text) != NULL, "%s", fault.text);
    ck_assert(isnan(out.perimeter_mm) && isnan(out.slant_height_mm));
}

START_TEST(refusals)
{
    standard_points(100);
    ung_outline_band_in in = belt(0, 40, 25), bad;
    refused(belt(40, 40, 50), points, 100, "high_toe_mm", "at the toe");
    refused(belt(25, 40, 25), points, 100, "high_heel_mm", "at the heel");
    bad = in;
    bad.toe_angle_deg = 35;
    bad.heel_angle_deg = 160;
    bad.high_toe_mm = bad.high_heel_mm = 40; /* 40 (cot 35 + cot 20) = 167 is more than the length */
    refused(bad, points, 100, "toe_angle_deg", "toe and heel");
    bad = in;
    bad.left_quarter_angle_deg = 45;
    bad.high_toe_mm = 65; /* more than half the width */
    refused(bad, points, 100, "left_quarter_angle_deg", "left");
    bad.left_quarter_angle_deg = 78;
    bad.right_quarter_angle_deg = 45;
    refused(bad, points, 100, "right_quarter_angle_deg", "right");
    bad = belt(-50, 40, 25);
    bad.overhang_mm = -20;
    bad.upper_layer_mm = 0;
    bad.edge_bevel_deg = 60;
    refused(bad, points, 100, "edge_bevel_deg", "nothing at the belt's lower edge");
    bad = belt(0, 120, 1);
    bad.toe_angle_deg = 35;
    refused(bad, points, 100, "high_toe_mm", "rises more steeply");

    for (size_t i = 0; i < 100; i++)
        turned[i] = (ung_point){points[i].x_mm * 2, points[i].y_mm};
    refused(in, turned, 100, "outline", "length");
    for (size_t i = 0; i < 100; i++)
        turned[i] = (ung_point){points[i].x_mm, points[i].y_mm / 4};
    refused(in, turned, 100, "outline", "width");
    ung_point square[4] = {{20, 20}, {-20, 20}, {-20, -20}, {20, -20}};
    ung_outline_band_out least;
    ck_assert_int_eq(call_band(&in, square, 4, &least, NULL), UNG_OK); /* 40 and 250 are accepted */
    square[0].x_mm = square[3].x_mm = 19.9999;
    refused(in, square, 4, "outline", "length");
    square[0].x_mm = square[3].x_mm = 230;
    ck_assert_int_eq(call_band(&in, square, 4, &least, NULL), UNG_OK);
    memcpy(turned, points, sizeof points);
    turned[20] = points[60];
    turned[60] = points[20];
    refused(in, turned, 100, "outline", "crosses");
    memcpy(turned, points, sizeof points);
    turned[30] = turned[29];
    refused(in, turned, 100, "outline", "repeats");
    ung_point line[4] = {{60, 60}, {-60, -60}, {0, 0}, {60, 60}};
    refused(in, line, 4, "outline", "crosses");
    ung_outline_band_out out;
    ck_assert_int_eq(ung_outline_band(&in, points, 100, work, 627, &out, NULL), UNG_COUNT);
    ck_assert_int_eq(ung_outline_band(&in, points, 100, work, 628, &out, NULL), UNG_OK);
    ck_assert(has_caution(ung_outline_band_contract(), (double *)&in, (double *)&out, "hairline_toe_unknown"));
    in.toe_hairline_mm = 44;
    ck_assert(has_caution(ung_outline_band_contract(), (double *)&in, (double *)&out, "coronet_toe"));
    check_rule(ung_outline_band_contract(), "coronet_toe", UNG_STOP, UNG_ABOVE, -5); /* choice, as hoof_band: 5 mm */
    check_factors(ung_outline_band_contract(), "coronet_toe", 1, -1);
    check_guard(ung_outline_band_contract(), "coronet_toe", UNG_ABOVE, 0); /* 0: not measured */
    check_rule(ung_outline_band_contract(), "coronet_heel", UNG_STOP, UNG_ABOVE, -5);
    check_factors(ung_outline_band_contract(), "coronet_heel", 1, -1);
    check_guard(ung_outline_band_contract(), "coronet_heel", UNG_ABOVE, 0);
    check_rule(ung_outline_band_contract(), "hairline_toe_unknown", UNG_WARN, UNG_EQUAL, 0);
    check_rule(ung_outline_band_contract(), "hairline_heel_unknown", UNG_WARN, UNG_EQUAL, 0);
    in.toe_hairline_mm = 45;
    ck_assert(!has_caution(ung_outline_band_contract(), (double *)&in, (double *)&out, "coronet_toe"));
}
END_TEST

static void box(ung_point *corners, double length, double width)
{
    corners[0] = (ung_point){length / 2, width / 2};
    corners[1] = (ung_point){-length / 2, width / 2};
    corners[2] = (ung_point){-length / 2, -width / 2};
    corners[3] = (ung_point){length / 2, -width / 2};
}

/* Both sides of what is refused, close to it. */
START_TEST(edges_of_refusals)
{
    ung_outline_band_in in = belt(0, 30, 30), bad;
    ung_outline_band_out out;
    ung_fault fault;
    ung_point corners[4];
    in.toe_angle_deg = in.heel_angle_deg = in.left_quarter_angle_deg = in.right_quarter_angle_deg = 90;

    /* Accepted sizes: 40 to 250, the length first. */
    box(corners, 251, 100);
    refused(in, corners, 4, "outline", "length");
    ck_assert_int_eq(call_band(&in, corners, 4, &out, &fault), UNG_RELATION);
    ck_assert(fault.value == 251 && fault.upper == 250);
    box(corners, 100, 251);
    refused(in, corners, 4, "outline", "width");
    ck_assert_int_eq(call_band(&in, corners, 4, &out, &fault), UNG_RELATION);
    ck_assert(fault.value == 251 && fault.upper == 250);
    box(corners, 100, 39.9);
    refused(in, corners, 4, "outline", "width");
    box(corners, 40.2, 300);
    refused(in, corners, 4, "outline", "width");
    box(corners, 250, 250);
    ck_assert_int_eq(call_band(&in, corners, 4, &out, NULL), UNG_OK);
    ung_point triangle[3] = {{50, 50}, {-50, 50}, {-50, -50}};
    ck_assert_int_eq(call_band(&in, triangle, 3, &out, NULL), UNG_OK);

    /* A belt that just is a plane above a wall: toe and heel at 45 degrees in a square of 100. */
    box(corners, 100, 100);
    bad = in;
    bad.toe_angle_deg = 45;
    bad.high_toe_mm = bad.high_heel_mm = 99.995; /* 0.005 of the length is left up there */
    ck_assert_int_eq(call_band(&bad, corners, 4, &out, NULL), UNG_OK);
    bad.heel_angle_deg = 135;
    bad.high_toe_mm = 40;
    bad.high_heel_mm = 49.99; /* 1 - (49.99 - 40)/10.01, 10.01 the length left */
    ck_assert_int_eq(call_band(&bad, corners, 4, &out, NULL), UNG_OK);
    bad.high_toe_mm = 49.99;
    bad.high_heel_mm = 40;
    ck_assert_int_eq(call_band(&bad, corners, 4, &out, NULL), UNG_OK);

    /* The belt's shoe: a sliver of 40 by 40 along a diagonal, some 113 round, drawn in by 20: 2 pi 20 = 125.7. */
    ung_point sliver[4] = {{20, 20}, {-0.1, 0.1}, {-20, -20}, {0.1, -0.1}};
    ck_assert_int_eq(call_band(&in, sliver, 4, &out, NULL), UNG_OK);
    double round = out.perimeter_mm;
    bad = in;
    bad.overhang_mm = -20;
    bad.low_mm = -0.005;
    refused(bad, sliver, 4, "overhang_mm", "shoe");
    bad.low_mm = 0; /* with no belt on the shoe its outline does not matter */
    ck_assert_int_eq(call_band(&bad, sliver, 4, &out, NULL), UNG_OK);
    bad.overhang_mm = (0.005 - round) / (2 * (double)PI_L);
    bad.low_mm = -10;
    ck_assert_int_eq(call_band(&bad, sliver, 4, &out, NULL), UNG_OK);
    ck_near(out.circumference_low_mm, 0.005, 1e-12);
    bad.low_mm = -0.005; /* beveled by 60 degrees: 2 pi 0.005 tan 60 = 0.054 less */
    bad.upper_layer_mm = 0;
    bad.edge_bevel_deg = 60;
    refused(bad, sliver, 4, "edge_bevel_deg", "nothing at the belt's lower edge");
    bad = in; /* above the bearing plane the belt lies on the wall, however little */
    bad.low_mm = 0.005;
    bad.overhang_mm = 5;
    ck_assert_int_eq(call_band(&bad, corners, 4, &out, NULL), UNG_OK);
    ck_relative(out.circumference_low_mm, 400, 1e-14);
}
END_TEST

/* ---- wall_profile ---- */

START_TEST(profile_shape)
{
    for (size_t k = scaled(500); k > 0; k--) {
        ung_wall_station station[64], row[997];
        size_t n = 2 + random_below(63);
        double at = 0;
        for (size_t i = 0; i < n; i++) {
            at += 0.001 + random_unit() / (double)n * 0.9;
            station[i] = (ung_wall_station){at, random_between(2, 20), random_between(35, 150)};
            if (i && random_below(4) == 0)
                station[i].wall_thickness_mm = station[i - 1].wall_thickness_mm; /* level between two stations */
        }
        ung_wall_profile_in in = {random_unit()};
        ung_wall_profile_out out;
        ck_assert_int_eq(ung_wall_profile(&in, station, n, row, 997, &out, NULL), UNG_OK);
        double thinnest = 20, steepest = 0, flattest = 180;
        for (size_t i = 0; i < n; i++) {
            thinnest = fmin(thinnest, station[i].wall_thickness_mm);
            steepest = fmax(steepest, station[i].wall_angle_deg);
            flattest = fmin(flattest, station[i].wall_angle_deg);
        }
        must(out.least_thickness_mm == thinnest && out.steepest_deg == steepest && out.flattest_deg == flattest);
        for (size_t j = 0; j < 997; j++) {
            double f = row[j].around_fraction, wanted = fmod(in.start_fraction + (double)j / 997, 1);
            must(f >= 0 && f < 1 && fabs(f - wanted) < 1e-15);
            size_t after = 0;
            while (after < n && station[after].around_fraction <= f)
                after++;
            const ung_wall_station *a = station + (after ? after - 1 : n - 1), *b = station + (after < n ? after : 0);
            double low = fmin(a->wall_thickness_mm, b->wall_thickness_mm);
            double high = fmax(a->wall_thickness_mm, b->wall_thickness_mm);
            must(row[j].wall_thickness_mm >= low && row[j].wall_thickness_mm <= high);
            must(row[j].wall_angle_deg >= fmin(a->wall_angle_deg, b->wall_angle_deg));
            must(row[j].wall_angle_deg <= fmax(a->wall_angle_deg, b->wall_angle_deg));
            /* Monotone: the step from the row before has the sign of the stations' (within a rounding). */
            if (j && row[j - 1].around_fraction >= a->around_fraction && row[j - 1].around_fraction < f) {
                double step = row[j].wall_thickness_mm - row[j - 1].wall_thickness_mm;
                must(step * (b->wall_thickness_mm - a->wall_thickness_mm) >= -1e-12);
            }
        }
    }
}
END_TEST

START_TEST(profile_values)
{
    /* Two stations half a turn apart: slopes 0, y = 8 + 2 (3 t^2 - 2 t^3); a quarter of the way 8 + 2 x 0.15625. */
    ung_wall_station two[2] = {{0.25, 8, 60}, {0.75, 10, 90}}, row[8];
    ung_wall_profile_in in = ung_wall_profile_standard();
    ung_wall_profile_out out;
    ung_fault fault;
    ck_assert_int_eq(ung_wall_profile(&in, two, 2, row, 8, &out, NULL), UNG_OK);
    ck_near(row[3].wall_thickness_mm, 8.3125, 1e-14); /* roundings */
    ck_near(row[0].wall_thickness_mm, 9, 1e-14);
    ck_near(row[4].wall_angle_deg, 75, 1e-13);
    ck_assert(row[2].wall_thickness_mm == 8 && row[6].wall_thickness_mm == 10 && row[6].wall_angle_deg == 90);
    ck_assert(out.least_thickness_fraction == 0.25);
    in.start_fraction = 1;
    ck_assert_int_eq(ung_wall_profile(&in, two, 2, row, 8, &out, NULL), UNG_OK);
    ck_assert(row[0].around_fraction == 0 && row[7].around_fraction == 0.875);

    /* Four even stations: slopes 0 at 0 and 0.5, where the values turn; 2/(1/8 + 1/12) = 9.6 at 0.25 and
     * -2/(1/16 + 1/4) = -6.4 at 0.75; halfway a cubic has the mean of its ends and h (m0 - m1)/8. */
    ung_wall_station four[4] = {{0, 5, 60}, {0.25, 7, 60}, {0.5, 10, 60}, {0.75, 6, 60}};
    in.start_fraction = 0;
    ck_assert_int_eq(ung_wall_profile(&in, four, 4, row, 8, &out, NULL), UNG_OK);
    ck_near(row[1].wall_thickness_mm, 5.7, 1e-14);
    ck_near(row[3].wall_thickness_mm, 8.8, 1e-14);
    ck_near(row[5].wall_thickness_mm, 8.2, 1e-14);
    ck_near(row[7].wall_thickness_mm, 5.3, 1e-14);
    ck_assert(row[1].wall_angle_deg == 60);
    /* The same in four-thousandths of a millimeter above 8. */
    const double little = 0x1p-12;
    for (size_t i = 0; i < 4; i++)
        four[i].wall_thickness_mm = 8 + little * four[i].wall_thickness_mm;
    ck_assert_int_eq(ung_wall_profile(&in, four, 4, row, 8, &out, NULL), UNG_OK);
    ck_near(row[1].wall_thickness_mm, 8 + little * 5.7, 1e-14);
    ck_near(row[3].wall_thickness_mm, 8 + little * 8.8, 1e-14);
    ck_near(row[5].wall_thickness_mm, 8 + little * 8.2, 1e-14);
    ck_near(row[7].wall_thickness_mm, 8 + little * 5.3, 1e-14);

    two[1].around_fraction = 0.25;
    ck_assert_int_eq(ung_wall_profile(&in, two, 2, row, 8, &out, &fault), UNG_RELATION);
    ck_assert(fault.index == 1 && fault.other_index == 0 && isnan(row[7].wall_angle_deg));
    ck_assert(strstr(fault.text, "rising") != NULL);
    two[1].around_fraction = 0.2;
    ck_assert_int_eq(ung_wall_profile(&in, two, 2, row, 8, &out, &fault), UNG_RELATION);
    two[0].around_fraction = 0;
    two[1].around_fraction = 1;
    ck_assert_int_eq(ung_wall_profile(&in, two, 2, row, 8, &out, &fault), UNG_RELATION);
    ck_assert(fault.index == 1 && fault.other_index == 0 && strstr(fault.text, "same place"));
    two[1].around_fraction = 0.99e-6; /* a millionth of a turn */
    ck_assert_int_eq(ung_wall_profile(&in, two, 2, row, 8, &out, &fault), UNG_RELATION);
    two[1].around_fraction = 1.005e-6;
    ck_assert_int_eq(ung_wall_profile(&in, two, 2, row, 8, &out, &fault), UNG_OK);
    two[1].around_fraction = 0.999;
    ck_assert_int_eq(ung_wall_profile(&in, two, 2, row, 8, &out, &fault), UNG_OK);
    two[0].wall_thickness_mm = 4.9;
    ck_assert_int_eq(ung_wall_profile(&in, two, 2, row, 8, &out, &fault), UNG_OK);
    ck_assert(has_caution(ung_wall_profile_contract(), (double *)&in, (double *)&out, "thin_wall"));
    check_rule(ung_wall_profile_contract(), "thin_wall", UNG_WARN, UNG_BELOW, 5); /* choice */
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "band");
    tcase_add_test(tests, order);
    tcase_add_test(tests, frames);
    tcase_add_test(tests, solids);
    tcase_add_test(tests, refusals);
    tcase_add_test(tests, edges_of_refusals);
    tcase_add_test(tests, profile_shape);
    tcase_add_test(tests, profile_values);
    return finish(runner);
}
