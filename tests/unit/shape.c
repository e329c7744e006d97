/* Shape: outline_standard, wall_from_border, hoof_band. */
#include "../edges.h"

/* Reference rows below are of an independent recomputation of the model (40-digit arithmetic), printed to 13 digits. */
enum { DIGITS = 13 };

static ung_hoof_band_in band(double length, double width, double toe, double quarter, double heel, double low,
                             double high_toe, double high_heel)
{
    ung_hoof_band_in in = ung_hoof_band_standard();
    in.hoof_length_mm = length;
    in.hoof_width_mm = width;
    in.toe_angle_deg = toe;
    in.quarter_angle_deg = quarter;
    in.heel_angle_deg = heel;
    in.low_mm = low;
    in.high_toe_mm = high_toe;
    in.high_heel_mm = high_heel;
    return in;
}

/* On a circle, all walls leaning in alike: a cone.  The heel's angle is the trade's, so 180 less the wall's. */
static ung_hoof_band_in cone(double diameter, double angle, double high_toe, double high_heel)
{
    ung_hoof_band_in in = band(diameter, diameter, angle, angle, 180 - angle, 0, high_toe, high_heel);
    in.widest_fraction = 0.5;
    in.heel_width_fraction = in.toe_width_fraction = 0.6;
    return in;
}

static void check_band(ung_hoof_band_in in, double perimeter, double low, double high, double wall, double slant)
{
    ung_hoof_band_out out;
    ck_assert_int_eq(ung_hoof_band(&in, &out, NULL), UNG_OK);
    ck_printed(out.perimeter_mm, perimeter, DIGITS);
    ck_printed(out.circumference_low_mm, low, DIGITS);
    ck_printed(out.circumference_high_mm, high, DIGITS);
    ck_printed(out.wall_area_mm2, wall, DIGITS);
    ck_printed(out.slant_height_mm, slant, DIGITS);
    ck_relative(out.bonded_area_mm2, wall * (1 - in.open_heel_fraction), 1e-12); /* of a number printed to 13 digits */
    ck_relative(out.covered_area_mm2, wall + out.shoe_area_mm2, 1e-12);
}

START_TEST(band_reference_rows)
{
    ung_hoof_band_in in = band(135, 128, 50, 75, 50, -25, 40, 40);
    ung_hoof_band_out out;
    check_band(in, 425.4676700856, 425.4676700856, 391.669479844, 18909.55362859, 71.28244751868);
    ck_assert_int_eq(ung_hoof_band(&in, &out, NULL), UNG_OK);
    ck_printed(out.ground_area_mm2, 14248.95378809, DIGITS);
    ck_printed(out.shoe_area_mm2, 10636.69175214, DIGITS);
    in.high_toe_mm = 63;
    in.high_heel_mm = 31;
    check_band(in, 425.4676700856, 425.4676700856, 349.714885635, 21898.10681157, 81.49793497021);
    ck_assert_int_eq(ung_hoof_band(&in, &out, NULL), UNG_OK);
    ck_printed(out.shoe_area_mm2, 10636.69175214, DIGITS);
    in.high_toe_mm = 30;
    in.high_heel_mm = 20;
    in.overhang_mm = 2;
    in.upper_layer_mm = 6.4;
    in.edge_bevel_deg = 45;
    check_band(in, 425.4676700856, 321.1667939864, 391.1684467263, 12017.6076482, 62.13634912423);
    ck_assert_int_eq(ung_hoof_band(&in, &out, NULL), UNG_OK);
    ck_printed(out.shoe_area_mm2, 12788.56854838, DIGITS);

    in = cone(130, 70, 40, 40);
    check_band(in, 408.4070449667, 408.4070449667, 316.931347839, 15437.77990294, 42.56711089904);
    ck_assert_int_eq(ung_hoof_band(&in, &out, NULL), UNG_OK);
    ck_printed(out.ground_area_mm2, 13273.22896142, DIGITS);
    ck_assert(out.shoe_area_mm2 == 0);
    check_band(cone(130, 70, 40, 20), 408.4070449667, 408.4070449667, 342.3029664779, 12004.29449386, 31.98117598234);
    in = cone(130, 50, 40, 40);
    in.quarter_angle_deg = 90;
    in.heel_angle_deg = 50;
    check_band(in, 408.4070449667, 408.4070449667, 408.4070449667, 18913.60052905, 46.31066178251);
    in = band(140, 120, 54, 80, 47, 0, 60, 30);
    check_band(in, 420.9642245091, 420.9642245091, 376.5268778375, 20953.78478461, 52.54926286438);
    ck_assert_int_eq(ung_hoof_band(&in, &out, NULL), UNG_OK);
    ck_printed(out.ground_area_mm2, 13853.14951619, DIGITS);
}
END_TEST

/* 1e-13 of the value: the accuracy that the contract states for usual ranges; the reference values carry 18 digits. */
static const double stated = 1e-13;

/* A right circular frustum: slant sqrt(h^2 + (R - r)^2), area pi (R + r) slant (any handbook of mensuration; for R 65,
 * r 55, h 80 computed to 18 digits: 80.6225774829854965 and 30393.9956560825343). */
START_TEST(band_is_a_frustum)
{
    ung_hoof_band_in in = cone(130, 82.874983651098205, 80, 80); /* atan(80/10) degrees */
    ung_hoof_band_out out;
    ck_assert_int_eq(ung_hoof_band(&in, &out, NULL), UNG_OK);
    ck_relative(out.circumference_high_mm, (double)(2 * PI_L * 55), stated);
    ck_relative(out.wall_area_mm2, 30393.9956560825343, stated);
    ck_relative(out.slant_height_mm, 80.6225774829854965, stated);
    for (size_t i = 0; i < scaled(200); i++) {
        double radius = random_between(45, 85), angle = random_between(60, 100), height = random_between(10, 45);
        in = cone(2 * radius, angle, height, height);
        ck_assert_int_eq(ung_hoof_band(&in, &out, NULL), UNG_OK);
        long double top = radius - height / tanl(angle * PI_L / 180);
        long double slant = sqrtl((radius - top) * (radius - top) + (long double)height * height);
        ck_relative(out.circumference_high_mm, (double)(2 * PI_L * top), stated);
        ck_relative(out.wall_area_mm2, (double)(PI_L * (radius + top) * slant), stated);
        ck_relative(out.slant_height_mm, (double)slant, 2 * stated); /* a quotient of two of them */
    }
}
END_TEST

/* A cone of half angle 15 degrees, its base 260 below the apex, cut 200 below the apex by a plane tilted 25 degrees:
 * the difference of two apex parts, lateral area 23220.3658801749412.  The cut is an ellipse: its projection is the
 * conic rho = p/(1 + e sin t), p = 200 tan 15, e = tan 15 tan 25, with half axes p/(1 - e^2), p/sqrt(1 - e^2)
 * (54.4397349114638437 and 54.0131150845628127), of which the first is longer by 1/cos 25 in the plane itself. */
START_TEST(band_is_a_cone_cut_obliquely)
{
    long double t = tanl(15 * PI_L / 180), k = tanl(25 * PI_L / 180), e = t * k;
    double high = (double)((60 + 260 * e) / (1 + e)), low = (double)((60 - 260 * e) / (1 - e));
    ung_hoof_band_in in = cone((double)(520 * t), 75, high, low);
    ung_hoof_band_out out;
    ck_assert_int_eq(ung_hoof_band(&in, &out, NULL), UNG_OK);
    /* Rounding of the diameter and of the two heights passes on: a few 1e-16 each. */
    ck_relative(out.wall_area_mm2, 23220.3658801749412, stated);
    long double p = 200 * t, long_axis = p / (1 - e * e), short_axis = p / sqrtl(1 - e * e);
    ck_relative((double)long_axis, 54.4397349114638437, 1e-15);
    ck_relative((double)short_axis, 54.0131150845628127, 1e-15);
    long double edge = ellipse_length(long_axis / cosl(25 * PI_L / 180), short_axis);
    ck_relative(out.circumference_high_mm, (double)edge, stated);
}
END_TEST

/* Toe and heel parallel and upright quarters: an oblique cylinder, whose area is the perimeter of its right section
 * times its slant length.  The right section of a circle leaning by a is an ellipse with half axes R and R sin a: for
 * sin a = 60/65 its perimeter is 392.856177045654028 (elliptic integral, 18 digits). */
START_TEST(band_is_an_oblique_cylinder)
{
    ung_hoof_band_in in = cone(130, 67.380135051959574, 39, 39); /* asin(60/65) degrees */
    in.quarter_angle_deg = 90;
    in.heel_angle_deg = in.toe_angle_deg;
    ung_hoof_band_out out;
    ck_assert_int_eq(ung_hoof_band(&in, &out, NULL), UNG_OK);
    ck_relative(out.wall_area_mm2, 392.856177045654028 * 39 * 65 / 60, stated);
    ck_relative(out.circumference_high_mm, (double)(2 * PI_L * 65), stated);
    /* An ellipse as base: the right section keeps the half width, and the half length times sin a. */
    in.hoof_length_mm = 150;
    in.hoof_width_mm = 116;
    ck_assert_int_eq(ung_hoof_band(&in, &out, NULL), UNG_OK);
    ck_relative(out.wall_area_mm2, (double)(ellipse_length(75 * 60.0L / 65, 58) * 39 * 65 / 60), stated);
}
END_TEST

/* Published perimeters of ellipses (complete elliptic integral, 18 digits, three independent routes): half axes
 * 65, 60; 5, 4 and 2, 1 (scaled by 10 and 40). */
START_TEST(outline_is_an_ellipse)
{
    static const double known[][3] = {
        {130, 120, 392.856177045654028}, {120, 130, 392.856177045654028}, {100, 80, 283.616678889744846},
        {160, 80, 387.537928821907048},  {80, 160, 387.537928821907048}};
    ung_outline_standard_in in = ung_outline_standard_standard();
    in.widest_fraction = 0.5;
    in.heel_width_fraction = in.toe_width_fraction = 0.6;
    ung_point p[360];
    ung_outline_standard_out out;
    for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
        double l = in.hoof_length_mm = known[i][0], w = in.hoof_width_mm = known[i][1];
        ck_assert_int_eq(ung_outline_standard(&in, p, 360, &out, NULL), UNG_OK);
        ck_relative(out.perimeter_mm, known[i][2], stated);
        ck_relative(out.ground_area_mm2, (double)(PI_L * l * w / 4), 1e-15); /* pi a b, a few roundings */
        ck_relative(out.width_scale_mm, w, 1e-15);
        for (size_t k = 0; k < 360; k++) { /* coordinates to a few roundings of the half axes */
            must(fabs(p[k].x_mm - (double)(l / 2 * cosl((long double)k * PI_L / 180))) < 1e-13);
            must(fabs(p[k].y_mm - (double)(w / 2 * sinl((long double)k * PI_L / 180))) < 1e-13);
        }
    }
    ck_relative((double)ellipse_length(65, 60), 392.856177045654028, 1e-16 * 2);
    for (size_t i = 0; i < scaled(300); i++) { /* over the accepted range, to the accuracy stated for it */
        double l = in.hoof_length_mm = random_between(40, 250), w = in.hoof_width_mm = random_between(40, 250);
        ck_assert_int_eq(ung_outline_standard(&in, p, 3, &out, NULL), UNG_OK);
        ck_relative(out.perimeter_mm, (double)ellipse_length(l / 2, w / 2), 1e-9);
    }
}
END_TEST

/* The three conditions that k1, k2 and k3 are to meet, seen from outside on the drawn curve. */
START_TEST(outline_has_the_given_widths)
{
    ung_outline_standard_in in = ung_outline_standard_standard();
    ung_outline_standard_out out;
    in.hoof_length_mm = 135;
    in.hoof_width_mm = 128;
    static ung_point p[3600];
    ck_assert_int_eq(ung_outline_standard(&in, p, 3600, &out, NULL), UNG_OK);
    /* Printed to 14 and 15 digits by the independent recomputation. */
    ck_printed(out.k1_ratio, -0.14331584877235, 14);
    ck_printed(out.k2_ratio, 0.096939405274125, 14);
    ck_printed(out.k3_ratio, -0.0682454868129734, 15);
    ck_printed(out.ground_area_mm2, 14248.95378809, DIGITS);
    ck_printed(out.perimeter_mm, 425.4676700856, DIGITS);

    for (size_t i = 0; i < scaled(100); i++) {
        const ung_calculation *c = ung_outline_standard_contract();
        double outline[UNG_FIELDS_MOST];
        random_accepted(c, (double *)&in, outline);
        ck_assert_int_eq(ung_outline_standard(&in, p, 3600, &out, NULL), UNG_OK);
        double l = in.hoof_length_mm, w = in.hoof_width_mm, widest = 0, at = 0, turned = 0;
        long double area = 0, length = 0;
        for (size_t k = 0; k < 3600; k++) {
            const ung_point *a = p + k, *b = p + (k + 1) % 3600, *d = p + (k + 2) % 3600;
            area += ((long double)a->x_mm * b->y_mm - (long double)b->x_mm * a->y_mm) / 2;
            length += hypotl(b->x_mm - a->x_mm, b->y_mm - a->y_mm);
            turned += (b->x_mm - a->x_mm) * (d->y_mm - b->y_mm) - (b->y_mm - a->y_mm) * (d->x_mm - b->x_mm) < -1e-12;
            if (a->y_mm > widest) {
                widest = a->y_mm;
                at = a->x_mm;
            }
            must(fabs(a->y_mm + p[(3600 - k) % 3600].y_mm) <= 1e-13 * w); /* left and right alike */
        }
        must(turned == 0); /* convex, or it would have been refused */
        must(p[0].x_mm == l / 2 && p[0].y_mm == 0 && p[1800].x_mm == -l / 2);
        /* A polygon of n points lies inside by a share of about (2 pi/n)^2/6 = 5e-7, more where the curve is flat. */
        ck_relative(out.ground_area_mm2, (double)area, 5e-6);
        ck_relative(out.perimeter_mm, (double)length, 5e-6);
        /* The greatest of samples lies below the greatest by (step)^2/2 of the curvature. */
        ck_relative(2 * widest, w, 1e-5);
        ck_near(at, l / 2 - in.widest_fraction * l, 0.01 * l);
        /* One tenth of the length from either end: cos t = 0.8, sin t = 0.6, both by the equation of the curve. */
        double k1 = out.k1_ratio, k2 = out.k2_ratio, k3 = out.k3_ratio, half = out.width_scale_mm / 2;
        double toe = half * 0.6 * (1 + k1 * 0.8 + k2 * 0.28 - k3 * 0.352);  /* cos 2t = 0.28, cos 3t = -0.352 */
        double heel = half * 0.6 * (1 - k1 * 0.8 + k2 * 0.28 + k3 * 0.352);
        /* The solved system loses some digits where the widest station comes near an end of its range. */
        ck_relative(toe, in.toe_width_fraction * w / 2, 1e-12);
        ck_relative(heel, in.heel_width_fraction * w / 2, 1e-12);
    }
}
END_TEST

/* Least of x'y'' - y'x'' over the outline, in units of L W'/4, from its Fourier series: y is a sum of sines. */
static double least_bend(const ung_outline_standard_out *o)
{
    enum { SAMPLES = 8192 };
    const double a[] = {0, 1 - o->k2_ratio / 2, (o->k1_ratio - o->k3_ratio) / 2, o->k2_ratio / 2, o->k3_ratio / 2};
    double least = INFINITY;
    for (int i = 0; i <= SAMPLES; i++) {
        double t = (double)PI_L * i / SAMPLES, bend = 0;
        for (int m = 1; m <= 4; m++)
            bend += a[m] * (m * m * sin(t) * sin(m * t) + m * cos(t) * cos(m * t));
        least = fmin(least, bend);
    }
    return least;
}

START_TEST(outline_relation)
{
    check_relation(ung_outline_standard_contract(), 0, NULL);
    /* What is refused is exactly what is not convex: at the edge the outline is just straight somewhere.  Samples
     * pi/8192 apart miss the least value by less than (pi/8192)^2/8 of the bend's second derivative, below 100. */
    for (size_t i = 0; i < scaled(100); i++) {
        double refused[UNG_FIELDS_MOST], accepted[UNG_FIELDS_MOST];
        ung_outline_standard_out o;
        int relation = 0;
        must(find_edge(ung_outline_standard_contract(), is_refused, &relation, NULL, 100000, refused, accepted));
        must(call(ung_outline_standard_contract(), accepted, (double *)&o, NULL) == UNG_OK);
        ck_near(least_bend(&o), 0, 2e-6);
    }
    /* No combination inside the usual box is refused. */
    const ung_calculation *c = ung_outline_standard_contract();
    double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST];
    for (size_t i = 0; i < scaled(2000); i++) {
        random_input(c, in, 1);
        must(call(c, in, out, NULL) == UNG_OK);
    }
}
END_TEST

/* Plane trigonometry: border sin(angle); 12.4 mm at 50 degrees is 9.4989..., at 30 degrees (150) half of it. */
START_TEST(wall_from_border)
{
    ung_wall_from_border_in in = {12.4, 50};
    ung_wall_from_border_out out;
    ck_assert_int_eq(ung_wall_from_border(&in, &out, NULL), UNG_OK);
    ck_relative(out.wall_thickness_mm, 12.4 * (double)sinl(50 * PI_L / 180), 4e-16); /* the accuracy stated */
    in.wall_angle_deg = 150;
    ck_assert_int_eq(ung_wall_from_border(&in, &out, NULL), UNG_OK);
    ck_assert(out.wall_thickness_mm == 6.2);
    in.wall_angle_deg = 90;
    ck_assert_int_eq(ung_wall_from_border(&in, &out, NULL), UNG_OK);
    ck_assert(out.wall_thickness_mm == 12.4);
}
END_TEST

START_TEST(cautions)
{
    check_cautions(ung_wall_from_border_contract());
    check_cautions(ung_hoof_band_contract());
    check_rule(ung_wall_from_border_contract(), "thick_wall", UNG_WARN, UNG_ABOVE, 13); /* choice: published means below */
    check_rule(ung_hoof_band_contract(), "coronet_toe", UNG_STOP, UNG_ABOVE, -5);       /* choice: 5 mm */
    check_rule(ung_hoof_band_contract(), "coronet_heel", UNG_STOP, UNG_ABOVE, -5);
    check_factors(ung_hoof_band_contract(), "coronet_toe", 1, -1); /* the belt's height less the hairline's */
    check_factors(ung_hoof_band_contract(), "coronet_heel", 1, -1);
    check_rule(ung_hoof_band_contract(), "heel_angle", UNG_WARN, UNG_ABOVE, 90); /* heels lean forward, as the toe does */
    check_rule(ung_hoof_band_contract(), "deep_inset", UNG_WARN, UNG_BELOW, -10); /* choice */
    check_rule(ung_hoof_band_contract(), "hairline_toe_unknown", UNG_WARN, UNG_EQUAL, 0);
    check_rule(ung_hoof_band_contract(), "hairline_heel_unknown", UNG_WARN, UNG_EQUAL, 0);
    ck_assert_uint_eq(ung_rule_count(ung_outline_standard_contract()), 0);
    /* A hairline of any height counts as measured, 0 does not. */
    ung_hoof_band_in in = band(135, 128, 50, 75, 50, 0, 40, 20);
    ung_hoof_band_out out;
    in.toe_hairline_mm = in.heel_hairline_mm = 0.005;
    ck_assert_int_eq(ung_hoof_band(&in, &out, NULL), UNG_OK);
    ck_assert(has_caution(ung_hoof_band_contract(), (double *)&in, (double *)&out, "coronet_toe"));
    ck_assert(has_caution(ung_hoof_band_contract(), (double *)&in, (double *)&out, "coronet_heel"));
    in.toe_hairline_mm = in.heel_hairline_mm = 0;
    ck_assert_int_eq(ung_hoof_band(&in, &out, NULL), UNG_OK);
    ck_assert(!has_caution(ung_hoof_band_contract(), (double *)&in, (double *)&out, "coronet_toe"));
    ck_assert(!has_caution(ung_hoof_band_contract(), (double *)&in, (double *)&out, "coronet_heel"));
}
END_TEST

/* Each relation of hoof_band, from a start that its own condition decides. */
START_TEST(band_relations)
{
    const ung_calculation *c = ung_hoof_band_contract();
    ung_hoof_band_in in = band(135, 128, 50, 75, 50, 20, 20, 40);
    check_refused(c, (double *)&in, 0); /* the upper edge at the toe at the height of the lower */
    in.high_toe_mm = nextafter(20, 21);
    check_accepted(c, (double *)&in);
    in = band(135, 128, 50, 75, 50, 20, 40, 20);
    check_refused(c, (double *)&in, 1);
    in.high_heel_mm = nextafter(20, 21);
    check_accepted(c, (double *)&in);
    check_relation(c, 2, NULL);
    /* Walls that meet: a circle's cone has its apex at R tan(angle) = 20 x 1 above the ground. */
    in = cone(40, 45, 20.000001, 20.000001);
    check_refused(c, (double *)&in, 3);
    in.high_toe_mm = in.high_heel_mm = 19.999999;
    check_accepted(c, (double *)&in);
    /* Only the quarters meet: half width 20 at 45 degrees. */
    in = band(130, 40, 90, 45, 90, 0, 20.000001, 20.000001);
    check_refused(c, (double *)&in, 4);
    in.high_toe_mm = in.high_heel_mm = 19.999999;
    check_accepted(c, (double *)&in);
    for (size_t i = 0; i < scaled(50); i++) { /* refused is exactly the outline that outline_standard refuses */
        double refused[UNG_FIELDS_MOST], accepted[UNG_FIELDS_MOST];
        ung_outline_standard_out o;
        int relation = 2;
        must(find_edge(c, is_refused, &relation, NULL, 200000, refused, accepted));
        must(call(ung_outline_standard_contract(), accepted, (double *)&o, NULL) == UNG_OK);
        ck_near(least_bend(&o), 0, 2e-6); /* as in outline_relation */
    }
    check_relation(c, 5, NULL);
    for (size_t i = 0; i < scaled(100); i++) { /* and at its edge the plane is just parallel to a wall */
        double refused[UNG_FIELDS_MOST];
        int relation = 5;
        must(find_edge(c, is_refused, &relation, NULL, 200000, refused, (double *)&in));
        double cot_toe = 1 / tan(in.toe_angle_deg * (double)PI_L / 180);
        double cot_heel = 1 / tan(in.heel_angle_deg * (double)PI_L / 180);
        double top = in.hoof_length_mm - in.high_toe_mm * cot_toe + in.high_heel_mm * cot_heel;
        if (top < 1e-9) /* the plane's two heights lie above one another */
            continue;
        double slope = (in.high_toe_mm - in.high_heel_mm) / top;
        double nearest = fmin(top / 100, fmin(1 + slope * cot_toe, 1 + slope * cot_heel));
        must(nearest > -1e-9);
        ck_near(nearest, 0, 1e-9); /* one bit of an input moves it by less */
    }
    /* An outline of 2 pi 20 drawn in by 20: a circle of diameter 40 leaves nothing, one of 40.001 something. */
    in = cone(40, 90, 20, 20);
    in.low_mm = -10;
    in.overhang_mm = -20;
    in.hoof_length_mm = in.hoof_width_mm = 40 * (1 + 1e-12);
    check_accepted(c, (double *)&in);
    in.toe_width_fraction = in.heel_width_fraction = 0.5999; /* a little less round: a little shorter */
    check_refused(c, (double *)&in, 6);
    in.low_mm = -0.005;
    check_refused(c, (double *)&in, 6);
    in.low_mm = 0; /* with no belt on the shoe its outline does not matter */
    check_accepted(c, (double *)&in);
    /* A circle of radius 20, beveled 45 degrees over 20 below an upright part of 10. */
    in = cone(40, 90, 20, 20);
    in.upper_layer_mm = 10;
    in.edge_bevel_deg = 45;
    in.low_mm = -30.000001;
    check_refused(c, (double *)&in, 7);
    in.low_mm = -29.999999;
    check_accepted(c, (double *)&in);
    in = cone(40, 90, 20, 20); /* the least belt on the least outline: 6e-4 mm round, 0.005 mm high */
    in.overhang_mm = -19.9999;
    in.upper_layer_mm = 0;
    in.edge_bevel_deg = 60;
    in.low_mm = -0.005;
    check_refused(c, (double *)&in, 7);
    check_relation(c, 3, NULL);
    check_relation(c, 4, NULL);
    check_relation(c, 7, NULL);
    ck_assert_uint_eq(ung_refusal_count(c), 8);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "shape");
    tcase_add_test(tests, band_reference_rows);
    tcase_add_test(tests, band_is_a_frustum);
    tcase_add_test(tests, band_is_a_cone_cut_obliquely);
    tcase_add_test(tests, band_is_an_oblique_cylinder);
    tcase_add_test(tests, outline_is_an_ellipse);
    tcase_add_test(tests, outline_has_the_given_widths);
    tcase_add_test(tests, outline_relation);
    tcase_add_test(tests, wall_from_border);
    tcase_add_test(tests, cautions);
    tcase_add_test(tests, band_relations);
    return finish(runner);
}
