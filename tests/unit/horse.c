/* Horse: coffin_lever, hoof_growth. */
#include "../edges.h"

static ung_coffin_lever_in foot(void)
{
    ung_coffin_lever_in in = ung_coffin_lever_standard();
    in.vertical_force_n = 1000;
    in.breakover_mm = 86;
    in.body_mass_kg = 500;
    return in;
}

static ung_coffin_lever_out levered(ung_coffin_lever_in in)
{
    ung_coffin_lever_out out;
    ck_assert_int_eq(ung_coffin_lever(&in, &out, NULL), UNG_OK);
    return out;
}

/* Eliashar, McGuigan, Rogers, Wilson 2002 (Equine Vet J 34; 9 horses, trot): lever 86 mm, set back 77 mm; largest
 * moment 175 N mm/kg.  Crevier-Denoix et al. 2001 (5 horses, standing): 29.5 degrees of joint over 30 degrees of wedge. */
START_TEST(published_levers)
{
    ung_coffin_lever_in in = foot();
    ung_coffin_lever_out out = levered(in);
    ck_assert(out.moment_n_m == 86 && out.moment_before_n_m == 86 && out.change_fraction == 0);
    in.setback_mm = 9;
    out = levered(in);
    ck_assert(out.lever_mm == 77 && out.moment_n_m == 77 && out.moment_before_n_m == 86);
    ck_printed(out.change_fraction, -0.104651162791, 12); /* -9/86 */
    ck_relative(out.moment_n_mm_per_kg, 154, 4e-16);
    ck_assert(out.force_n_per_kg == 2);
    in.wedge_deg = 3;
    ck_printed(levered(in).joint_change_deg, 2.94, 3);
    ck_near(levered(in).joint_change_deg, 3 * 29.5 / 30, 0.011); /* 0.98 has two digits, 29.5 has three */
    ck_printed(levered(in).tendon_change_fraction, -0.12, 2);
    in.wedge_deg = 6; /* 24 percent, Willemen, Savelberg, Barneveld 1999 as quoted elsewhere, from memory */
    ck_near(levered(in).tendon_change_fraction, -0.24, 1e-15);
    /* The largest moment over the lever: 2.03 N/kg, far below the largest force of the trot, and below the caution. */
    in = foot();
    in.vertical_force_n = 175.0 / 86 * 500;
    out = levered(in);
    ck_relative(out.moment_n_mm_per_kg, 175, 1e-15);
    ck_assert(!has_caution(ung_coffin_lever_contract(), (double *)&in, (double *)&out, "not_breakover"));
    in.vertical_force_n = 11.59 * 500; /* Merkens et al. 1993, fore limb at the trot */
    out = levered(in);
    ck_relative(out.moment_n_mm_per_kg, 11.59 * 86, 1e-15);
    ck_assert(has_caution(ung_coffin_lever_contract(), (double *)&in, (double *)&out, "not_breakover"));
    ck_assert(has_caution(ung_coffin_lever_contract(), (double *)&in, (double *)&out, "above_measured"));
}
END_TEST

/* The moment as a cross product of the arm from the joint to the point of force, in long double. */
START_TEST(cross_product)
{
    for (size_t i = 0; i < scaled(2000); i++) {
        ung_coffin_lever_in in = foot();
        ung_coffin_lever_out out;
        random_accepted(ung_coffin_lever_contract(), (double *)&in, (double *)&out);
        long double x = (long double)in.breakover_mm - in.setback_mm, z = -(long double)in.joint_height_mm;
        long double fx = in.forward_force_n, fz = in.vertical_force_n;
        long double size = fabsl(x * fz) + fabsl(z * fx); /* the accuracy stated is of this sum */
        ck_near(out.moment_n_m, (double)((x * fz - z * fx) / 1000), (double)(size / 1000 * 1e-15L));
        ck_near(out.moment_n_mm_per_kg, (double)((x * fz - z * fx) / in.body_mass_kg),
                (double)(size / in.body_mass_kg * 1e-15L));
        long double whole = (in.breakover_mm * fz - z * fx) / 1000;
        ck_near(out.moment_before_n_m, (double)whole, (double)((in.breakover_mm * fz + fabsl(z * fx)) / 1000 * 1e-15L));
        if (in.forward_force_n == 0)
            ck_near(out.change_fraction, (double)(x / in.breakover_mm - 1),
                    (double)(4e-16L * (1 + x / in.breakover_mm)));
    }
}
END_TEST

START_TEST(lever_limits)
{
    const ung_calculation *c = ung_coffin_lever_contract();
    ung_coffin_lever_in in = foot();
    in.breakover_mm = in.setback_mm = 50;
    check_accepted(c, (double *)&in); /* below the joint */
    in.setback_mm = nextafter(50, 51);
    check_refused(c, (double *)&in, 0);
    in = foot();
    in.vertical_force_n = 0;
    check_refused(c, (double *)&in, 1);
    in.forward_force_n = 0.001;
    in.joint_height_mm = 1;
    check_accepted(c, (double *)&in);
    ck_assert(levered(in).change_fraction == 0);
    in.forward_force_n = -0.001;
    check_refused(c, (double *)&in, 1);
    for (int k = 0; k < 2; k++)
        check_relation(c, k, NULL);
    ck_assert_uint_eq(ung_refusal_count(c), 2);
    check_cautions(c);
    check_rule(c, "not_breakover", UNG_WARN, UNG_ABOVE, 4);    /* choice: twice what the published moment implies */
    check_rule(c, "above_measured", UNG_WARN, UNG_ABOVE, 200); /* choice: above the means of 171 to 175 */
    check_rule(c, "long_setback", UNG_WARN, UNG_ABOVE, 15);    /* practice */
    check_rule(c, "wedge", UNG_WARN, UNG_ABOVE, 0);
    check_rule(c, "steep_wedge", UNG_STOP, UNG_ABOVE, 2); /* practice */
    ck_assert_uint_eq(ung_rule_count(c), 5);
}
END_TEST

static ung_hoof_growth_out grown(ung_hoof_growth_in in)
{
    ung_hoof_growth_out out;
    ck_assert_int_eq(ung_hoof_growth(&in, &out, NULL), UNG_OK);
    return out;
}

/* 7 mm in 28 days: Josseck et al. 1995 (Equine Vet J 27:175-182).  3.5 degrees in 8 weeks: van Heel et al. 2005 as
 * quoted elsewhere, from memory.  Printed to 12 digits by an independent recomputation (40-digit arithmetic). */
START_TEST(growth_of_four_weeks)
{
    ung_hoof_growth_in in = ung_hoof_growth_standard();
    ung_hoof_growth_out out = grown(in);
    ck_assert(out.added_mm == 7);
    ck_printed(out.forward_mm, 4.30963032728, 12);
    ck_printed(out.down_mm, 5.51607527525, 12);
    ck_assert(out.angle_change_deg == -1.75 && out.angle_after_deg == 50.25);
    ck_assert(out.length_days == 32 && out.angle_days == 64 && out.reset_days == 32 && out.first_count == 1);
    ck_relative(out.reset_weeks, 32.0 / 7, 2e-16);
    in.days = 42; /* at six weeks 10.5 mm, at eight weeks 14 mm and 3.5 degrees */
    ck_relative(grown(in).added_mm, 10.5, 2e-16);
    in.days = 56;
    ck_relative(grown(in).added_mm, 14, 2e-16);
    ck_relative(grown(in).angle_change_deg, -3.5, 2e-16);
    /* Kolstrung et al. 2012: 13 mm in six weeks. */
    in.growth_mm_per_28_days = 4 * 2.1;
    in.days = 42;
    ck_near(grown(in).added_mm, 13, 0.5); /* printed without decimals */
}
END_TEST

START_TEST(what_comes_first)
{
    ung_hoof_growth_in in = ung_hoof_growth_standard();
    in.toe_limit_mm = 40;
    in.least_toe_angle_deg = 50.25; /* in 28 days */
    ung_hoof_growth_out out = grown(in);
    ck_assert(out.angle_days == 28 && out.first_count == 2 && out.reset_days == 28 && out.reset_weeks == 4);
    in.least_toe_angle_deg = 40;
    out = grown(in);
    ck_assert(out.first_count == 3 && out.reset_days == 42 && out.reset_weeks == 6 && out.length_days == 160);
    in.toe_limit_mm = 10.5; /* exactly six weeks */
    ck_assert(grown(in).first_count == 1 && grown(in).reset_days == 42);
    in.toe_limit_mm = 10.53125; /* a day's eighth later */
    ck_assert(grown(in).first_count == 3 && grown(in).length_days == 42.125);
    in.toe_limit_mm = 10.5;
    in.angle_loss_deg_per_week = 0;
    in.least_toe_angle_deg = 51.9990234375;
    ck_assert(grown(in).angle_days == INFINITY);
    ck_assert(grown(in).angle_days == INFINITY && grown(in).angle_after_deg == 52);
    in.least_toe_angle_deg = 52;
    ck_assert(grown(in).angle_days == 0 && grown(in).first_count == 2 && grown(in).reset_days == 0);
    in.angle_loss_deg_per_week = 0.005; /* slowly is not never */
    in.least_toe_angle_deg = 51.9990234375; /* 1/1024 less */
    ck_relative(grown(in).angle_days, 7 / (1024 * 0.005), 4e-16);
    in.least_toe_angle_deg = 60;
    ck_assert(grown(in).angle_days == 0);
    for (size_t i = 0; i < scaled(2000); i++) { /* at its own day a limit is met, and the sides make a right triangle */
        random_input(ung_hoof_growth_contract(), (double *)&in, 0.5);
        out = grown(in);
        ck_relative(hypot(out.forward_mm, out.down_mm), out.added_mm, 1e-15);
        ck_relative(out.reset_days, fmin(fmin(out.length_days, out.angle_days), 42), 0);
        if (out.length_days <= 365) {
            in.days = out.length_days;
            ck_relative(grown(in).added_mm, in.toe_limit_mm, 1e-15);
        }
        if (out.angle_days > 0 && out.angle_days <= 365) {
            in.days = out.angle_days;
            ck_relative(grown(in).angle_after_deg, in.least_toe_angle_deg, 2e-15); /* of up to 80 degrees */
        }
    }
}
END_TEST

START_TEST(growth_cautions)
{
    const ung_calculation *c = ung_hoof_growth_contract();
    check_cautions(c);
    check_rule(c, "long_interval", UNG_WARN, UNG_ABOVE, 42); /* Lesniak et al. 2017: 4 to 6 weeks */
    check_rule(c, "past_reset", UNG_WARN, UNG_ABOVE, 0);
    check_factors(c, "past_reset", 1, -1);
    check_rule(c, "low_angle", UNG_WARN, UNG_BELOW, 0);
    check_factors(c, "low_angle", 1, -1);
    ck_assert_uint_eq(ung_rule_count(c), 3);
    ck_assert_uint_eq(ung_refusal_count(c), 0);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "horse");
    tcase_add_test(tests, published_levers);
    tcase_add_test(tests, cross_product);
    tcase_add_test(tests, lever_limits);
    tcase_add_test(tests, growth_of_four_weeks);
    tcase_add_test(tests, what_comes_first);
    tcase_add_test(tests, growth_cautions);
    return finish(runner);
}
