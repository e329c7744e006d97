/* Screw: screw_depth. */
#include "../edges.h"

/* Reference rows of an independent recomputation of the model (40-digit arithmetic, dense search along the axis),
 * printed to 13 digits. */
enum { DIGITS = 13 };

static ung_screw_depth_in screw(double thickness, double angle, double inset, double diameter, double length, double shoe)
{
    ung_screw_depth_in in = ung_screw_depth_standard();
    in.wall_thickness_mm = thickness;
    in.wall_angle_deg = angle;
    in.inset_mm = inset;
    in.screw_diameter_mm = diameter;
    in.screw_length_mm = length;
    in.shoe_thickness_mm = shoe;
    return in;
}

static void check_screw(ung_screw_depth_in in, double embedded, double inner, double outer, double white, double edge,
                        double margin, double worst, double limit)
{
    ung_screw_depth_out out;
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_printed(out.embedded_mm, embedded, DIGITS);
    ck_printed(out.inner_cover_mm, inner, DIGITS);
    ck_printed(out.outer_cover_mm, outer, DIGITS);
    ck_printed(out.white_line_cover_mm, white, DIGITS);
    ck_printed(out.edge_cover_mm, edge, DIGITS);
    ck_printed(out.margin_mm, margin, DIGITS);
    ck_printed(out.margin_worst_mm, worst, DIGITS);
    ck_printed(out.depth_limit_mm, limit, DIGITS);

    /* What follows from these by plane trigonometry; 1e-13 mm is a few roundings of lengths below 150 mm. */
    long double tilt = in.tilt_deg * PI_L / 180, b = in.wall_angle_deg * PI_L / 180;
    long double in_shoe = (long double)in.shoe_thickness_mm - in.head_recess_mm + in.pad_mm;
    ck_near(out.tip_height_mm, (double)(out.embedded_mm * cosl(tilt)), 1e-13);
    ck_near(out.hold_length_mm, fmax(out.embedded_mm - 2 * in.screw_diameter_mm, 0), 1e-13);
    ck_near(out.head_inset_mm, (double)(in.inset_mm - in_shoe * tanl(tilt)), 1e-13);
    ck_near(out.screw_length_limit_mm, (double)(in_shoe / cosl(tilt) + out.depth_limit_mm), 1e-13);
    ck_near(out.parallel_tilt_deg, 90 - in.wall_angle_deg, 0);
    ck_near(out.centred_inset_mm, (double)(in.wall_thickness_mm / (2 * sinl(b))), 1e-13);
    ck_near(out.largest_diameter_mm, in.wall_thickness_mm - in.inner_margin_mm - in.outer_margin_mm, 1e-13);
}

START_TEST(reference_rows)
{
    ung_screw_depth_in in = screw(10, 80, 5.2, 3.5, 34, 22);
    in.tilt_deg = 8;
    in.head_recess_mm = 2;
    in.sole_horn_mm = 5;
    in.overhang_mm = 4;
    check_screw(in, 13.80344854963, 3.333240930018, 2.889266908523, 3.128999684337, 4.639183305952, 1.333240930018,
                -0.1673638225113, 25.24568931297);
    in = screw(9.5, 52, 6.03, 4.17, 38, 25);
    in.tilt_deg = 38;
    in.head_recess_mm = 4;
    in.overhang_mm = 20;
    check_screw(in, 11.35061748348, 2.663295155751, 2.666704844249, 2.663295155751, 7.538001843359, 0.6632951557515,
                -0.5002878271607, 31.72545537681);
    in.overhang_mm = 0; /* cannot be built: the head would lie outside */
    check_screw(in, 11.35061748348, 2.663295155751, 2.666704844249, 2.663295155751, -12.46199815664, -15.46199815664,
                -18.63781680889, 0);
    in = screw(6.4, 78, 5.8, 4.17, 31.75, 25.4);
    in.head_recess_mm = 3;
    in.sole_horn_mm = 5;
    in.upper_layer_mm = 6.4;
    in.edge_bevel_deg = 45;
    check_screw(in, 9.35, -0.2792373845137, 1.64428177511, -1.358256084256, -9.297489168103, -12.2974891681,
                -13.68323889864, 0);
    in = screw(8, 78, 20, 3.5, 27, 19); /* into the sole */
    in.sole_horn_mm = 12;
    check_screw(in, 8, 2.25, 16.14965848813, -13.31295201468, 18.25, -13.31295201468, -13.31295201468, 0);
}
END_TEST

START_TEST(relations)
{
    const ung_calculation *c = ung_screw_depth_contract();
    ung_screw_depth_in in = screw(10, 80, 5, 4, 34, 22);
    in.head_recess_mm = 22;
    check_refused(c, (double *)&in, 0);
    in.head_recess_mm = nextafter(22, 0);
    check_accepted(c, (double *)&in);
    check_relation(c, 0, NULL);
    ck_assert_uint_eq(ung_refusal_count(c), 1);
}
END_TEST

/* The thickest screw that a wall has room for, in its middle and parallel to it: every margin is kept exactly, so only
 * the height limit of 25 mm ends it.  Turned a little toward the outside it still leaves the inner face behind. */
START_TEST(exactly_at_the_margin)
{
    ung_screw_depth_in in = ung_screw_depth_standard();
    ung_screw_depth_out out;
    in.wall_thickness_mm = 7.5, in.wall_angle_deg = 90, in.inset_mm = 3.5, in.screw_diameter_mm = 4;
    in.screw_length_mm = 34, in.shoe_thickness_mm = 22, in.overhang_mm = 10;
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_assert(out.largest_diameter_mm == 4 && out.margin_mm == 0 && out.depth_limit_mm == 25);
    in.outer_margin_mm = 0; /* 1.5 mm to spare outward */
    in.tilt_deg = -2;
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_relative(out.depth_limit_mm, 25 / cos(2 * 3.14159265358979323846 / 180), 1e-14);
}
END_TEST

/* A convex side: the nearer plane counts along the whole axis, by hand.  An upright axis of 4 mm 10 mm inside a side that
 * leans in by 45 degrees from 10 mm below the upper face. */
START_TEST(nearer_side)
{
    ung_screw_depth_in in = screw(10, 80, 6, 4, 34, 20);
    ung_screw_depth_out out;
    in.overhang_mm = 4, in.upper_layer_mm = 10, in.edge_bevel_deg = 45;
    in.head_recess_mm = 12; /* the head sits 2 mm above where the side begins to lean */
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_relative(out.edge_cover_mm, 12 / sqrt(2) - 2, 1e-14);
    in.head_recess_mm = 4; /* 6 mm below the shelf */
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_relative(out.edge_cover_mm, 4 / sqrt(2) - 2, 1e-14);
    in.edge_bevel_deg = 1; /* a side that hardly leans: 10 mm at the top, and 10 mm less 6 tan 1 lower down */
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    const double degree = 3.14159265358979323846 / 180;
    ck_relative(out.edge_cover_mm, (10 - 6 * tan(degree)) * cos(degree) - 2, 1e-14);
    in.tilt_deg = -10; /* going down, the axis leaves the side by 16 tan 10 and more: the top is nearest */
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_relative(out.edge_cover_mm, 8, 1e-14);
    in.tilt_deg = 0, in.edge_bevel_deg = 45;
    in.upper_layer_mm = 20; /* upright down to the ground, as with 60 */
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_assert(out.edge_cover_mm == 8);
    in.shoe_thickness_mm = 80, in.screw_length_mm = 110; /* 60 stands for the whole side of a thicker shoe too */
    in.upper_layer_mm = 60;
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_assert(out.edge_cover_mm == 8);
    in.upper_layer_mm = 59.9;
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_assert(out.edge_cover_mm < 0);
}
END_TEST

START_TEST(cautions)
{
    const ung_calculation *c = ung_screw_depth_contract();
    check_cautions(c);
    check_rule(c, "breach", UNG_STOP, UNG_BELOW, 0); /* the meaning of a margin */
    check_rule(c, "white_line", UNG_STOP, UNG_BELOW, 0);
    check_rule(c, "hand_error", UNG_WARN, UNG_BELOW, 0);
    check_rule(c, "no_line", UNG_WARN, UNG_ABOVE, 0);
    check_rule(c, "no_reach", UNG_WARN, UNG_EQUAL, 0);
    check_rule(c, "short_hold", UNG_WARN, UNG_BELOW, 0); /* choice: hold_length - 2 diameters */
    check_rule(c, "thick_wall", UNG_WARN, UNG_ABOVE, 13); /* choice: published means lie below */
    check_rule(c, "thick_sole", UNG_WARN, UNG_ABOVE, 8);  /* choice */
    /* The two rules with factors, on plain numbers: 4 mm of screw, two margins of 2 and 1.5 in 7.5 mm of wall. */
    ung_screw_depth_in in = screw(7.5, 90, 3.5, 4, 40, 22);
    ung_screw_depth_out out;
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_assert(!has_caution(c, (double *)&in, (double *)&out, "no_line"));
    in.screw_diameter_mm = nextafter(4, 5);
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "no_line"));
    in = screw(10, 90, 5, 4, 22 + 16, 22); /* 16 embedded, 8 hold: exactly two diameters */
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_assert(!has_caution(c, (double *)&in, (double *)&out, "short_hold"));
    in.screw_length_mm = nextafter(38, 0);
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "short_hold"));
    in.screw_length_mm = 22.005;
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "short_hold"));
    in.screw_length_mm = 22; /* nothing embedded: that is said once */
    ck_assert_int_eq(ung_screw_depth(&in, &out, NULL), UNG_OK);
    ck_assert(!has_caution(c, (double *)&in, (double *)&out, "short_hold"));
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "no_reach"));
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "screw");
    tcase_add_test(tests, reference_rows);
    tcase_add_test(tests, relations);
    tcase_add_test(tests, exactly_at_the_margin);
    tcase_add_test(tests, nearer_side);
    tcase_add_test(tests, cautions);
    return finish(runner);
}
