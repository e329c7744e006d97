/* Bevel: heel_bevel. */
#include "../edges.h"

enum { DIGITS = 13 }; /* as printed by an independent recomputation (40-digit arithmetic) */

static ung_heel_bevel_in bevel(void)
{
    ung_heel_bevel_in in = ung_heel_bevel_standard();
    in.ground_length_mm = 135;
    in.shoe_thickness_mm = 25;
    in.bevel_run_mm = 20;
    in.bevel_angle_deg = 30;
    in.width_start_mm = 95;
    in.width_end_mm = 80;
    in.build_up_mm = 3;
    in.build_length_mm = 15;
    return in;
}

static ung_heel_bevel_out computed(ung_heel_bevel_in in)
{
    ung_heel_bevel_out out;
    ck_assert_int_eq(ung_heel_bevel(&in, &out, NULL), UNG_OK);
    return out;
}

START_TEST(reference_rows)
{
    ung_heel_bevel_in in = bevel();
    ung_heel_bevel_out out = computed(in);
    ck_printed(out.rise_mm, 11.54700538379, DIGITS);
    ck_printed(out.edge_left_mm, 13.45299461621, DIGITS);
    ck_printed(out.wood_left_mm, 13.45299461621, DIGITS);
    ck_printed(out.face_length_mm, 23.09401076759, DIGITS);
    ck_printed(out.removed_ml, 13.66807957622, DIGITS);
    ck_printed(out.wedge_before_deg, 1.432096184165, DIGITS);
    ck_assert(out.wedge_after_deg == 0 && out.lap_left_mm == 0);
    ck_printed(out.angle_limit_deg, 43.5311992856, 12);
    ck_assert(out.contact_length_mm == 115 && out.run_to_clear_mm == 15);
    ck_relative(out.contact_fraction, 115.0 / 135, 2e-16);
    in.wrapped_before_count = 0;
    out = computed(in);
    ck_printed(out.edge_left_mm, 13.45299461621, DIGITS);
    ck_printed(out.removed_ml, 9.814954576224, DIGITS);
    ck_printed(out.wedge_before_deg, 1.432096184165, DIGITS);
    ck_printed(out.wedge_after_deg, 0.05407223321956, DIGITS);
    ck_assert(out.lap_left_mm == 15);
    ck_relative(out.run_to_clear_mm, (double)(15 + 3 * sqrtl(3)), 1e-15); /* cot 30 is the root of 3 */
}
END_TEST

/* What is taken off, as a prismatoid h (A1 + 4 Am + A2)/6 (any handbook of mensuration), from its three sections:
 * exact here, because a section's height and width both change evenly along the run. */
START_TEST(removed_is_a_prismatoid)
{
    for (size_t i = 0; i < scaled(2000); i++) {
        ung_heel_bevel_in in = bevel();
        in.bevel_run_mm = random_between(16, 60);
        in.bevel_angle_deg = random_between(0, 20);
        in.width_start_mm = random_between(10, 250);
        in.width_end_mm = random_between(10, 250);
        in.build_up_mm = random_between(0, 20);
        in.build_length_mm = random_unit() < 0.1 ? 0 : random_between(0, in.bevel_run_mm);
        long double run = in.bevel_run_mm, rise = run * tanl(in.bevel_angle_deg * PI_L / 180);
        long double b0 = in.width_start_mm, b1 = in.width_end_mm, lap = in.build_length_mm;
        long double wood = run * (0 + 4 * ((b0 + b1) / 2) * (rise / 2) + b1 * rise) / 6;
        long double at_lap = b1 + (b0 - b1) * lap / run; /* the shoe's width where the lap begins */
        long double tape = lap * in.build_up_mm * (at_lap + 4 * (at_lap + b1) / 2 + b1) / 6;
        ck_relative(computed(in).removed_ml, (double)((wood + tape) / 1000), 2e-15); /* the accuracy stated */
        in.wrapped_before_count = 0;
        ck_relative(computed(in).removed_ml, (double)(wood / 1000), 2e-15);
    }
}
END_TEST

START_TEST(tape_that_stays)
{
    ung_heel_bevel_in in = bevel();
    in.bevel_run_mm = 10; /* the lap reaches 5 mm further forward */
    ung_heel_bevel_out out = computed(in);
    ck_assert(out.lap_left_mm == 5 && out.wedge_after_deg == out.wedge_before_deg);
    ck_relative(out.edge_left_mm, (double)(25 - 10 / sqrtl(3) + 3), 1e-15);
    ck_relative(out.wood_left_mm, out.edge_left_mm, 0);
    in.bevel_angle_deg = 0;
    out = computed(in);
    ck_assert(out.edge_left_mm == 28 && out.wood_left_mm == 25 && out.removed_ml == 0 && out.rise_mm == 0);
    in.wrapped_before_count = 0;
    out = computed(in);
    ck_assert(out.run_to_clear_mm == INFINITY && out.wedge_after_deg == out.wedge_before_deg);
    in.build_up_mm = 0;
    out = computed(in);
    ck_assert(out.run_to_clear_mm == 15 && out.wedge_after_deg == 0 && out.wedge_before_deg == 0);
    in.bevel_run_mm = 15; /* exactly as long as the lap: it is gone */
    in.build_up_mm = 3;
    in.wrapped_before_count = 1;
    out = computed(in);
    ck_assert(out.lap_left_mm == 0 && out.wedge_after_deg == 0);
}
END_TEST

START_TEST(steepest_angle)
{
    ung_heel_bevel_in in = bevel();
    for (size_t i = 0; i < scaled(1000); i++) { /* at the limit the least edge is what is left of the wood */
        in.build_up_mm = 0;
        in.bevel_run_mm = random_between(8, 60);
        in.least_edge_mm = random_between(0, 24);
        in.bevel_angle_deg = 0;
        in.bevel_angle_deg = computed(in).angle_limit_deg;
        if (in.bevel_angle_deg < 75) /* a rounding of the angle times 25 mm */
            ck_near(computed(in).wood_left_mm, in.least_edge_mm, 2e-13);
    }
    in.bevel_angle_deg = 0;
    in.least_edge_mm = 30;
    ck_assert(computed(in).angle_limit_deg == 0);
    in.bevel_run_mm = 0;
    ck_assert(computed(in).angle_limit_deg == 0);
    in.least_edge_mm = 6;
    ck_assert(computed(in).angle_limit_deg == 75);
    in.bevel_run_mm = 1;
    ck_assert(computed(in).angle_limit_deg == 75);
}
END_TEST

/* Nothing is too small to count: lengths of some micrometers. */
START_TEST(small_things)
{
    const ung_calculation *c = ung_heel_bevel_contract();
    ung_heel_bevel_in in = bevel();
    ung_heel_bevel_out out;
    in.bevel_run_mm = 0.005; /* 1 micrometer may go in 5: atan(0.2) degrees */
    in.least_edge_mm = 24.999;
    in.build_length_mm = 0.004;
    out = computed(in);
    ck_near(out.angle_limit_deg, (double)(atanl(0.2L) * 180 / PI_L), 1e-9); /* 25 - 24.999 is rounded at 4e-15/0.001 */
    /* Tape of 3 mm over 4 micrometers, 80 wide at the rear and 92 where the lap begins, besides the wood's wedge. */
    long double wood = 0.005L * 0.005L / sqrtl(3) * (95 + 160) / 6, tape = 3 * 0.004L * (80 + 92) / 2;
    ck_relative(out.removed_ml, (double)((wood + tape) / 1000), 2e-15);
    in = bevel();
    in.wrapped_before_count = 0;
    in.bevel_angle_deg = 0.1;
    ck_relative(computed(in).run_to_clear_mm, (double)(15 + 3 / tanl(0.1L * PI_L / 180)), 2e-15);
    in.build_up_mm = 0.005;
    ck_relative(computed(in).run_to_clear_mm, (double)(15 + 0.005L / tanl(0.1L * PI_L / 180)), 2e-15);
    in = bevel();
    in.ground_length_mm = 80;
    in.build_length_mm = 79.9921875; /* leaves 1/128 */
    ck_near(computed(in).wedge_before_deg, (double)(atanl(3 * 128) * 180 / PI_L), 9e-14);
    in = bevel();
    in.build_up_mm = 0.005;
    out = computed(in);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "lap_gone"));
    in.build_up_mm = 0;
    out = computed(in);
    ck_assert(!has_caution(c, (double *)&in, (double *)&out, "lap_gone"));
}
END_TEST

START_TEST(relations)
{
    const ung_calculation *c = ung_heel_bevel_contract();
    ung_heel_bevel_in in = bevel();
    in.bevel_angle_deg = 45; /* the tangent is exactly 1 */
    in.bevel_run_mm = 25;
    check_accepted(c, (double *)&in); /* to nothing, but not beyond */
    in.bevel_run_mm = nextafter(25, 26);
    check_refused(c, (double *)&in, 0);
    in = bevel();
    in.bevel_angle_deg = 0;
    in.bevel_run_mm = 135;
    check_refused(c, (double *)&in, 1);
    in.bevel_run_mm = nextafter(135, 0);
    check_accepted(c, (double *)&in);
    in = bevel();
    in.ground_length_mm = in.build_length_mm = 80;
    check_refused(c, (double *)&in, 2);
    in.build_length_mm = nextafter(80, 0);
    check_accepted(c, (double *)&in);
    for (int k = 0; k < 3; k++)
        check_relation(c, k, NULL);
    ck_assert_uint_eq(ung_refusal_count(c), 3);
}
END_TEST

START_TEST(cautions)
{
    const ung_calculation *c = ung_heel_bevel_contract();
    check_cautions(c);
    check_rule(c, "thin_heel", UNG_WARN, UNG_BELOW, 0);
    check_factors(c, "thin_heel", 1, -1); /* the wood left against the least edge */
    check_rule(c, "wedge", UNG_WARN, UNG_ABOVE, 0.5);         /* choice: what an eye can see */
    check_rule(c, "short_contact", UNG_WARN, UNG_BELOW, 0.8); /* practice */
    check_rule(c, "lap_gone", UNG_NOTE, UNG_EQUAL, 0);
    check_rule(c, "no_lap_length", UNG_WARN, UNG_ABOVE, 0);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "bevel");
    tcase_add_test(tests, reference_rows);
    tcase_add_test(tests, removed_is_a_prismatoid);
    tcase_add_test(tests, tape_that_stays);
    tcase_add_test(tests, steepest_angle);
    tcase_add_test(tests, small_things);
    tcase_add_test(tests, relations);
    tcase_add_test(tests, cautions);
    return finish(runner);
}
