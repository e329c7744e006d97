/* Bevel: heel_wear. */
#include "../edges.h"

static ung_heel_wear_in shoe(void)
{
    ung_heel_wear_in in = ung_heel_wear_standard();
    in.ground_length_mm = 135;
    in.build_up_mm = 3;
    in.build_length_mm = 15;
    in.shoe_thickness_mm = 25;
    in.toe_rate_mm_per_day = 0.1;
    in.heel_rate_mm_per_day = 0.02;
    return in;
}

static ung_heel_wear_out worn(ung_heel_wear_in in)
{
    ung_heel_wear_out out;
    ck_assert_int_eq(ung_heel_wear(&in, &out, NULL), UNG_OK);
    return out;
}

/* Printed by an independent recomputation (40-digit arithmetic), to 12 digits. */
START_TEST(reference_rows)
{
    ung_heel_wear_in in = shoe();
    in.wedge_limit_deg = 3;
    in.least_toe_mm = 12;
    ung_heel_wear_out out = worn(in);
    ck_printed(out.wedge_start_deg, 1.43209618416, 12);
    ck_printed(out.wedge_end_deg, 2.50032732313, 12);
    ck_printed(out.wedge_days, 41.1116689246, 12);
    ck_relative(out.toe_left_mm, 22.2, 4e-16);
    ck_relative(out.toe_days, 130, 4e-16);
    ck_relative(out.heel_up_mm, 5.24, 4e-16);
    ck_assert(out.first_count == 1 && out.first_days == out.wedge_days);
    in.build_up_mm = 0; /* dressed */
    in.base_length_mm = 115;
    ck_printed(worn(in).wedge_end_deg, 1.11588103162, 12);
    ck_assert(worn(in).wedge_start_deg == 0);
    in.least_toe_mm = 24; /* in ten days */
    out = worn(in);
    ck_assert(out.first_count == 2 && out.first_days == out.toe_days);
    ck_relative(out.toe_days, 10, 4e-16);
}
END_TEST

/* Day by day, the model as it is worded: heel and toe lose what they lose, and the heel loses as the toe once the tape
 * is through.  The first day on which a limit holds lies within one step of the answer. */
START_TEST(day_by_day)
{
    enum { STEPS = 20000 };
    for (size_t i = 0; i < scaled(200); i++) {
        ung_heel_wear_in in = shoe();
        in.build_up_mm = random_unit() < 0.3 ? 0 : random_between(0, 5);
        in.toe_rate_mm_per_day = random_unit() < 0.1 ? 0 : random_between(0, 0.4);
        in.heel_rate_mm_per_day = random_unit() < 0.1 ? 0 : random_between(0, 0.4);
        in.wedge_limit_deg = random_between(0.2, 4);
        in.least_toe_mm = random_between(5, 24);
        in.heel_cover_mm = random_unit() < 0.5 ? 0 : random_between(0.1, 4);
        in.base_length_mm = random_unit() < 0.5 ? 0 : random_between(80, 130);
        in.days = random_between(1, 365);
        double base = in.base_length_mm > 0 ? in.base_length_mm : 120, step = in.days / STEPS;
        double limit = base * tan(in.wedge_limit_deg * (double)(PI_L / 180));
        double toe = in.shoe_thickness_mm, lost = 0, up = in.build_up_mm, wedge_day = INFINITY, toe_day = INFINITY;
        for (int k = 0; k <= STEPS; k++) {
            if (fabs(up) >= limit && wedge_day == INFINITY)
                wedge_day = k * step;
            if (toe <= in.least_toe_mm && toe_day == INFINITY)
                toe_day = k * step;
            if (k == STEPS)
                break;
            double left = in.heel_cover_mm - lost, tape = in.heel_rate_mm_per_day * step, share = 1;
            if (in.heel_cover_mm > 0 && tape > left)
                share = fmax(left, 0) / tape; /* of the step in which tape is left */
            double heel = share * tape + (1 - share) * in.toe_rate_mm_per_day * step;
            lost += share * tape;
            toe -= in.toe_rate_mm_per_day * step;
            up += in.toe_rate_mm_per_day * step - heel;
        }
        ung_heel_wear_out out = worn(in);
        ck_near(out.heel_up_mm, up, 1e-9); /* 20000 roundings of 1e-14 */
        ck_near(out.toe_left_mm, fmax(toe, 0), 1e-9);
        ck_near(out.wedge_end_deg, atan(up / base) * (double)(180 / PI_L), 1e-9);
        if (wedge_day < INFINITY)
            ck_near(out.wedge_days, wedge_day, 1.01 * step);
        else
            ck_assert(out.wedge_days > in.days - step);
        if (toe_day < INFINITY)
            ck_near(out.toe_days, toe_day, 1.01 * step);
        else
            ck_assert(out.toe_days > in.days - step);
        ck_assert(out.first_days == fmin(out.wedge_days, out.toe_days));
    }
}
END_TEST

START_TEST(ends)
{
    ung_heel_wear_in in = shoe();
    in.toe_rate_mm_per_day = in.heel_rate_mm_per_day = 0; /* nothing wears */
    ung_heel_wear_out out = worn(in);
    ck_assert(out.wedge_days == INFINITY && out.toe_days == INFINITY && out.first_days == INFINITY);
    ck_assert(out.first_count == 0 && out.toe_left_mm == 25);
    in.least_toe_mm = 25; /* reached already */
    out = worn(in);
    ck_assert(out.toe_days == 0 && out.first_count == 2);
    in.least_toe_mm = nextafter(25, 0);
    ck_assert(worn(in).toe_days == INFINITY);
    in.least_toe_mm = 30;
    ck_assert(worn(in).toe_days == 0);
    in = shoe();
    in.wedge_limit_deg = 1; /* over from the start: 1.43 degrees */
    ck_assert(worn(in).wedge_days == 0 && worn(in).first_count == 1);
    in.wedge_limit_deg = 0;
    in.build_up_mm = 0;
    ck_assert(worn(in).wedge_days == 0);
    in = shoe(); /* the tape is through before the limit: the wedge stays */
    in.wedge_limit_deg = 3;
    in.heel_cover_mm = 0.5; /* 25 days at 0.02 mm a day: 3 + 0.08 25 = 5 mm over 120 */
    in.days = 300;
    out = worn(in);
    ck_relative(out.heel_up_mm, 5, 4e-16);
    ck_assert(out.wedge_days == INFINITY);
    in.heel_cover_mm = 0.9; /* 45 days: after the limit */
    ck_printed(worn(in).wedge_days, 41.1116689246, 12);
    in.heel_rate_mm_per_day = 0; /* never through */
    ck_relative(worn(in).heel_up_mm, 33, 4e-16);
    in = shoe(); /* heel wears faster: through 0 to heel down */
    in.toe_rate_mm_per_day = 0.02;
    in.heel_rate_mm_per_day = 0.1;
    in.days = 100;
    out = worn(in);
    ck_relative(out.heel_up_mm, -5, 4e-16);
    ck_relative(out.wedge_days, (double)((3 + 120 * tanl(PI_L / 90)) / 0.08L), 4e-15); /* 0.1 - 0.02 is rounded */
    in.toe_rate_mm_per_day = 3;
    ck_assert(worn(in).toe_left_mm == 0);
    in = shoe(); /* a base of some micrometers is a base */
    in.base_length_mm = 0.004;
    ck_near(worn(in).wedge_start_deg, (double)(atanl(750) * 180 / PI_L), 2e-14);
    in.base_length_mm = 0;
    in.ground_length_mm = 80;
    in.build_length_mm = 79.9921875; /* leaves 1/128 */
    ck_near(worn(in).wedge_start_deg, (double)(atanl(3 * 128) * 180 / PI_L), 2e-14);
    in = shoe(); /* so are rates and covers */
    in.heel_rate_mm_per_day = 0.005;
    in.heel_cover_mm = 0.1;
    in.days = 40; /* 20 days of tape */
    ck_relative(worn(in).heel_up_mm, 4.9, 4e-16);
    in.toe_rate_mm_per_day = 0.004;
    in.heel_rate_mm_per_day = 0;
    ck_relative(worn(in).toe_days, 3750, 4e-16);
    ck_relative(worn(in).wedge_days, (double)((120 * tanl(PI_L / 90) - 3) / 0.004L), 1e-15);
}
END_TEST

START_TEST(relations)
{
    const ung_calculation *c = ung_heel_wear_contract();
    ung_heel_wear_in in = shoe();
    in.ground_length_mm = in.build_length_mm = 80;
    check_refused(c, (double *)&in, 0);
    in.build_length_mm = nextafter(80, 0);
    check_accepted(c, (double *)&in);
    in = shoe();
    in.base_length_mm = 135;
    check_accepted(c, (double *)&in);
    in.base_length_mm = nextafter(135, 136);
    check_refused(c, (double *)&in, 1);
    in = shoe();
    in.heel_cover_mm = 0.1;
    check_accepted(c, (double *)&in);
    in.heel_cover_mm = nextafter(0.1, 0);
    check_refused(c, (double *)&in, 2);
    in.heel_cover_mm = 1e-300;
    check_refused(c, (double *)&in, 2);
    for (int k = 0; k < 3; k++)
        check_relation(c, k, NULL);
    ck_assert_uint_eq(ung_refusal_count(c), 3);
}
END_TEST

START_TEST(cautions)
{
    const ung_calculation *c = ung_heel_wear_contract();
    check_cautions(c);
    check_rule(c, "worn_through", UNG_STOP, UNG_EQUAL, 0);
    check_rule(c, "thin_toe", UNG_WARN, UNG_BELOW, 0);
    check_factors(c, "thin_toe", 1, -1); /* what is left against what is wanted */
    check_rule(c, "heel_up", UNG_WARN, UNG_ABOVE, 0);
    check_factors(c, "heel_up", 1, -1); /* the wedge against its limit */
    check_rule(c, "heel_down", UNG_WARN, UNG_BELOW, 0);
    check_factors(c, "heel_down", 1, 1); /* and against its negative */
    check_rule(c, "due_early", UNG_WARN, UNG_BELOW, 0);
    check_factors(c, "due_early", 1, -1);
    check_rule(c, "no_build_length", UNG_WARN, UNG_ABOVE, 0);
    ck_assert_uint_eq(ung_rule_count(c), 6);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "wear");
    tcase_add_test(tests, reference_rows);
    tcase_add_test(tests, day_by_day);
    tcase_add_test(tests, ends);
    tcase_add_test(tests, relations);
    tcase_add_test(tests, cautions);
    return finish(runner);
}
