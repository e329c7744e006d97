/* Bond: glue_volume. */
#include "../edges.h"

static ung_glue_volume_in glue(void)
{
    ung_glue_volume_in in = ung_glue_volume_standard();
    in.bonded_area_mm2 = 14000;
    in.wood_area_mm2 = 6500;
    in.top_area_mm2 = 33000;
    return in;
}

/* By hand: 14000 (1 + 0.5 x 1.5/12) + 6500 x 0.5 = 18125, 33000 x 0.5 = 16500 mm3, each with 15 % more;
 * one pack is 2 US fluid ounces (29.5735 mL each), and the decimals below are exact. */
START_TEST(worked_example)
{
    ung_glue_volume_in in = glue();
    ung_glue_volume_out out;
    ck_assert_int_eq(ung_glue_volume(&in, &out, NULL), UNG_OK);
    ck_printed(out.net_ml, 34.625, 13);
    ck_printed(out.first_coat_ml, 20.84375, 13);
    ck_printed(out.top_coat_ml, 18.975, 13);
    ck_printed(out.mixed_ml, 39.81875, 13);
    ck_printed(out.part_a_ml, 19.909375, 13);
    ck_printed(out.part_b_ml, 19.909375, 13);
    ck_assert(out.packs_count == 1 && out.packs_separate_count == 2);
    ck_printed(out.leftover_ml, 19.32825, 13);

    in.ratio_a_to_b = 10; /* ten parts to one: 10/11 and 1/11 */
    ck_assert_int_eq(ung_glue_volume(&in, &out, NULL), UNG_OK);
    ck_relative(out.part_a_ml, 39.81875 * 10 / 11, 1e-15);
    ck_relative(out.part_b_ml, 39.81875 / 11, 1e-15);
}
END_TEST

START_TEST(packs)
{
    ung_glue_volume_in in = glue();
    ung_glue_volume_out out;
    in.bonded_area_mm2 = 100000; /* film 1, no grooves, no waste: 100 mL in all */
    in.groove_depth_mm = in.wood_area_mm2 = in.top_area_mm2 = in.waste_fraction = 0;
    in.pack_ml = 27.5;
    in.nozzle_ml = 2.5; /* 25 mL of each pack reach the foot */
    ck_assert_int_eq(ung_glue_volume(&in, &out, NULL), UNG_OK);
    ck_assert(out.mixed_ml == 100 && out.packs_count == 4 && out.leftover_ml == 0);
    ck_assert(out.packs_separate_count == 4); /* no top coat, no pack for it */
    in.bonded_area_mm2 = 100000 * (1 + 2.4e-10); /* a quotient of 4 + 1e-9 is still forgiven */
    ck_assert_int_eq(ung_glue_volume(&in, &out, NULL), UNG_OK);
    ck_assert(out.packs_count == 4);
    in.bonded_area_mm2 = 100000 * (1 + 2.6e-10);
    ck_assert_int_eq(ung_glue_volume(&in, &out, NULL), UNG_OK);
    ck_assert(out.packs_count == 5);
    in.bonded_area_mm2 = 100000;
    in.top_area_mm2 = 1000; /* half a milliliter on top: one pack more when mixed apart */
    ck_assert_int_eq(ung_glue_volume(&in, &out, NULL), UNG_OK);
    ck_assert(out.packs_count == 5 && out.packs_separate_count == 5);
    in.top_area_mm2 = 10; /* however little it is, it is a mix of its own: 0.005 mL */
    in.bonded_area_mm2 = 90000;
    ck_assert_int_eq(ung_glue_volume(&in, &out, NULL), UNG_OK);
    ck_assert(out.packs_separate_count == 5);
    in.top_area_mm2 = 1000;
    in.bonded_area_mm2 = 90000;
    ck_assert_int_eq(ung_glue_volume(&in, &out, NULL), UNG_OK);
    ck_assert(out.packs_count == 4 && out.packs_separate_count == 5);
    in.pack_ml = 2.5078125; /* 1/128 mL a pack: 90.5 mL are 11584 of them */
    ck_assert_int_eq(ung_glue_volume(&in, &out, NULL), UNG_OK);
    ck_assert(out.mixed_ml == 90.5 && out.packs_count == 11584);
    in.pack_ml = 27.5;
    in.bonded_area_mm2 = 100; /* at least one pack */
    in.top_area_mm2 = 0;
    ck_assert_int_eq(ung_glue_volume(&in, &out, NULL), UNG_OK);
    ck_assert(out.packs_count == 1 && out.packs_separate_count == 1);
}
END_TEST

START_TEST(relations)
{
    const ung_calculation *c = ung_glue_volume_contract();
    ung_glue_volume_in in = glue();
    in.groove_width_mm = in.groove_spacing_mm = 3; /* grooves side by side are still grooves */
    check_accepted(c, (double *)&in);
    in.groove_width_mm = nextafter(3, 4);
    check_refused(c, (double *)&in, 0);
    in = glue();
    in.pack_ml = in.nozzle_ml = 15;
    check_refused(c, (double *)&in, 1);
    in.pack_ml = nextafter(15, 16);
    check_accepted(c, (double *)&in);
    check_relation(c, 0, NULL);
    check_relation(c, 1, NULL);
    ck_assert_uint_eq(ung_refusal_count(c), 2);
}
END_TEST

START_TEST(cautions)
{
    const ung_calculation *c = ung_glue_volume_contract();
    check_cautions(c);
    check_rule(c, "gap_limit", UNG_WARN, UNG_ABOVE, 4); /* practice: data sheets give 4 to 9.5 mm */
    check_rule(c, "runaway", UNG_WARN, UNG_ABOVE, 450); /* practice: data sheets */
    check_rule(c, "heat", UNG_NOTE, UNG_ABOVE, 1.5);    /* choice */
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "bond");
    tcase_add_test(tests, worked_example);
    tcase_add_test(tests, packs);
    tcase_add_test(tests, relations);
    tcase_add_test(tests, cautions);
    return finish(runner);
}
