/* Packing: packing_volume, dam_volume. */
#include "../edges.h"

enum { DIGITS = 10 }; /* as printed by an independent recomputation (40-digit arithmetic) */

static ung_packing_volume_in sole(void)
{
    ung_packing_volume_in in = ung_packing_volume_standard();
    in.sole_area_mm2 = 11000;
    in.dish_depth_mm = 8;
    in.gap_mm = 1;
    in.frog_length_mm = 75;
    in.frog_width_mm = 45;
    in.frog_height_mm = 6;
    in.frog_groove_count = 2;
    in.frog_groove_length_mm = 70;
    in.frog_groove_width_mm = 12;
    in.frog_groove_depth_mm = 10;
    return in;
}

static ung_packing_volume_out packed(ung_packing_volume_in in)
{
    ung_packing_volume_out out;
    ck_assert_int_eq(ung_packing_volume(&in, &out, NULL), UNG_OK);
    return out;
}

START_TEST(reference_rows)
{
    ung_packing_volume_in in = sole();
    ung_packing_volume_out out = packed(in);
    ck_relative(out.cavity_ml, 47.675, 4e-16); /* 44 + 11 - 10.125 + 2.8: a rounding or two */
    ck_assert(out.dish_ml == 44 && out.layer_ml == 11 && out.frog_ml == 10.125 && out.grooves_ml == 2.8);
    ck_printed(out.line_ratio, 0.1577361938, DIGITS);
    ck_printed(out.rear_dish_fraction, 0.632231227763, 12);
    ck_printed(out.rear_ml, 27.0931740216, 12);
    ck_printed(out.front_ml, 20.5818259784, 12);
    /* Ten percent of waste, two parts; half a unit of the twelfth digit is 2.5e-12. */
    ck_relative(out.part_each_ml, 27.0931740216 * 1.1 / 2, 2.5e-12);
    ck_relative(out.putty_g, 27.0931740216 * 1.1 * 1.6, 2.5e-12);
    ck_relative(out.cushion_g, 20.5818259784 * 1.1 * 1.1, 2.5e-12);
    in.frog_height_mm = 0; /* a frog would not go behind this line */
    in.rear_fraction = 0.3;
    ck_printed(packed(in).rear_dish_fraction, 0.242289153926, 12);
}
END_TEST

/* Share of area (power 1) or of paraboloid (power 3) behind the line at c, in long double: Boole's rule on the
 * slices, which go with (1 - x^2)^(1/2) and (1 - x^2)^(3/2): with x = sin t both are smooth, cos^2 t and cos^4 t. */
static long double share_behind(long double c, int power)
{
    enum { PIECES = 2000 };
    long double from = -PI_L / 2, step = (asinl(c) - from) / PIECES, sum = 0;
    for (int i = 0; i <= PIECES; i++) {
        long double u = cosl(from + i * step);
        sum += (i == 0 || i == PIECES ? 7 : i % 2 ? 32 : i % 4 ? 12 : 14) * (power == 1 ? u * u : u * u * u * u);
    }
    return sum * step * 2 / 45 / (power == 1 ? PI_L / 2 : 3 * PI_L / 8); /* over the whole, Wallis */
}

START_TEST(the_line_divides)
{
    ung_packing_volume_in in = sole();
    in.frog_height_mm = 0;
    for (int i = 0; i <= 400; i++) {
        in.rear_fraction = i <= 200 ? i / 200.0 : pow(10, -(i - 200) / 20.0); /* evenly, and near the rear end */
        ung_packing_volume_out out = packed(in);
        ck_assert(out.line_ratio >= -1 && out.line_ratio <= 1);
        /* Both shares at the very place; Boole's error is 2e-17 here, c has an error of 3e-16. */
        ck_near(in.rear_fraction, (double)share_behind(out.line_ratio, 1), 5e-16);
        ck_near(out.rear_dish_fraction, (double)share_behind(out.line_ratio, 3), 5e-16);
    }
    in.rear_fraction = 0;
    ung_packing_volume_out out = packed(in);
    ck_assert(out.line_ratio == -1 && out.rear_dish_fraction < 1e-100);
    ck_near(out.rear_ml, out.grooves_ml, 1e-14);
    in.rear_fraction = 1;
    out = packed(in);
    ck_assert(out.line_ratio == 1 && out.rear_dish_fraction == 1);
    ck_near(out.front_ml, 0, 1e-100);
    in.rear_fraction = 0.5;
    out = packed(in);
    ck_near(out.line_ratio, 0, 1e-16);
    ck_near(out.rear_dish_fraction, 0.5, 2e-16);
}
END_TEST

/* Mirrored: what lies behind the line at f lies before the line at 1 - f; and nothing is lost. */
START_TEST(both_sides)
{
    for (size_t i = 0; i < scaled(5000); i++) {
        ung_packing_volume_in in = sole();
        in.frog_height_mm = in.frog_groove_count = 0;
        in.sole_area_mm2 = random_between(1000, 60000);
        in.dish_depth_mm = random_between(0, 40);
        in.gap_mm = random_between(0, 30);
        in.rear_fraction = random_unit();
        ung_packing_volume_out one = packed(in);
        in.rear_fraction = 1 - in.rear_fraction;
        ung_packing_volume_out other = packed(in);
        ck_near(other.front_ml, one.rear_ml, 2e-15 * one.cavity_ml); /* 1 - f is rounded, by 1e-16 of the whole */
        ck_near(other.line_ratio + one.line_ratio, 0, 3e-15);
        ck_relative(one.rear_ml + one.front_ml, one.cavity_ml, 1e-15);
    }
}
END_TEST

START_TEST(relations)
{
    const ung_calculation *c = ung_packing_volume_contract();
    ung_packing_volume_in in = sole();
    in.gap_mm = in.frog_groove_count = in.rear_fraction = 0;
    in.frog_height_mm = 1e-3;
    check_refused(c, (double *)&in, 0);
    in.frog_height_mm = 0;
    check_accepted(c, (double *)&in);
    in = sole();
    in.rear_fraction = 1;
    in.gap_mm = in.frog_groove_count = 0;
    in.frog_length_mm = 100;
    in.frog_width_mm = 88;
    in.frog_height_mm = 10; /* as much as the dish: nothing is left */
    check_accepted(c, (double *)&in);
    ck_assert(packed(in).cavity_ml == 0);
    in.frog_height_mm = nextafter(10, 11);
    check_refused(c, (double *)&in, 0);
    check_relation(c, 0, NULL);
    ck_assert_uint_eq(ung_refusal_count(c), 1);
}
END_TEST

START_TEST(cautions)
{
    const ung_calculation *c = ung_packing_volume_contract();
    check_cautions(c);
    check_rule(c, "putty_forward", UNG_WARN, UNG_ABOVE, 0.7); /* practice: end of the usual range */
    check_rule(c, "no_frog", UNG_NOTE, UNG_EQUAL, 0);
    ck_assert_uint_eq(ung_rule_count(c), 2);
}
END_TEST

static ung_dam_volume_out dammed(ung_dam_volume_in in)
{
    ung_dam_volume_out out;
    ck_assert_int_eq(ung_dam_volume(&in, &out, NULL), UNG_OK);
    return out;
}

START_TEST(dam)
{
    ung_dam_volume_in in = ung_dam_volume_standard();
    in.rope_length_mm = 150;
    in.waste_fraction = 0;
    ung_dam_volume_out out = dammed(in); /* 14 by 10, two pads 40 by 30 by 12: the standard values */
    ck_printed(out.dam_ml, 31.5730061686, 12);
    ck_printed(out.rope_ml, 16.4933614313, 12);
    ck_printed(out.pads_ml, 31.5730061686 - 16.4933614313, 11);
    ck_relative(out.putty_g, 31.5730061686 * 1.6, 1e-12);
    in.waste_fraction = 0.1;
    ck_relative(dammed(in).part_each_ml, 31.5730061686 * 1.1 / 2, 1e-12);
    in.part_count = 1;
    ck_relative(dammed(in).part_each_ml, 31.5730061686 * 1.1, 1e-12);
    /* Half a ball and half a cylinder, to the accuracy stated: radius 15, length 100. */
    in.waste_fraction = 0;
    in.pad_length_mm = in.pad_width_mm = in.rope_width_mm = 30;
    in.pad_height_mm = in.rope_height_mm = 15;
    in.rope_length_mm = 100;
    in.pad_count = 1;
    out = dammed(in);
    ck_relative(out.pads_ml, (double)(2 * PI_L * 15 * 15 * 15 / 3000), 2e-15);
    ck_relative(out.rope_ml, (double)(PI_L * 15 * 15 * 100 / 2000), 2e-15);
    in.rope_length_mm = in.pad_count = 0;
    ck_assert(dammed(in).dam_ml == 0);
}
END_TEST

START_TEST(dam_limits)
{
    const ung_calculation *c = ung_dam_volume_contract();
    ung_dam_volume_in in = ung_dam_volume_standard();
    in.rope_length_mm = 150;
    in.groove_room_mm = 10; /* just enough */
    check_accepted(c, (double *)&in);
    in.groove_room_mm = nextafter(10, 9);
    check_refused(c, (double *)&in, 0);
    in.groove_room_mm = 0; /* not measured */
    check_accepted(c, (double *)&in);
    in.groove_room_mm = 0.004; /* measured, and nothing */
    check_refused(c, (double *)&in, 0);
    check_relation(c, 0, NULL);
    check_cautions(c);
    check_rule(c, "room_unknown", UNG_NOTE, UNG_EQUAL, 0);
    check_guard(c, "room_unknown", UNG_ABOVE, 0);       /* where there is a rope */
    check_rule(c, "high_pad", UNG_WARN, UNG_ABOVE, 20); /* practice */
    check_guard(c, "high_pad", UNG_ABOVE, 0);           /* where there are pads */
    ck_assert_uint_eq(ung_rule_count(c), 2);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "packing");
    tcase_add_test(tests, reference_rows);
    tcase_add_test(tests, the_line_divides);
    tcase_add_test(tests, both_sides);
    tcase_add_test(tests, relations);
    tcase_add_test(tests, cautions);
    tcase_add_test(tests, dam);
    tcase_add_test(tests, dam_limits);
    return finish(runner);
}
