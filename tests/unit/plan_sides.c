/* The plan with both sides, both ways of driving, measures of a traced outline, needed strengths, foam, and what is
 * looked at and cooled. */
#include "../plan.h"

/* ---- Wires of the other side ---- */

/* Each measure of the other side reaches exactly these fields of these steps, as it was given; by hand. */
static const struct {
    const char *input, *steps, *field;
    double value;
} other_wires[] = {
    {"other_border_width_mm", "other_wall", "border_width_mm", 10.25},
    {"other_wall_thickness_mm", "other_screw other_through", "wall_thickness_mm", 10.125},
    {"other_wall_angle_deg", "other_wall other_screw other_through", "wall_angle_deg", 82.5},
    {"other_sole_horn_mm", "other_screw other_through", "sole_horn_mm", 3.75},
    {"other_inset_mm", "other_screw", "inset_mm", 5.25},
    {"other_tilt_deg", "other_screw", "tilt_deg", 8.5},
    {"other_entry_height_mm", "other_through", "entry_height_mm", 9.5},
    {"other_dip_deg", "other_through", "dip_deg", 64.5},
};

/* The saddle horse as it was before its other side was measured; its own wall stays as it was given. */
static ung_job_plan_in one_side(void)
{
    ung_job_plan_in in = saddle_horse();
    in.other_border_width_mm = in.other_wall_thickness_mm = in.other_wall_angle_deg = in.other_sole_horn_mm =
        in.other_inset_mm = in.other_tilt_deg = in.other_entry_height_mm = in.other_dip_deg =
            in.other_screw_count = (double)NAN;
    in.samples_count = (double)NAN, in.cup_count = 0;
    return in;
}

static int other_step(size_t i)
{
    return i == UNG_PLAN_other_wall || i == UNG_PLAN_other_screw || i == UNG_PLAN_other_through;
}

START_TEST(each_measure_of_the_other_side_is_enough)
{
    ung_job_plan_in in = one_side();
    ung_job_plan_out without = plan_of(&in);
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++)
        must(!other_step(i) || without.state[i] == UNG_STEP_LEFT_OUT);
    for (size_t k = 0; k < sizeof other_wires / sizeof *other_wires; k++) {
        in = one_side();
        ((double *)&in)[plan_input_named(other_wires[k].input)] = other_wires[k].value;
        ung_job_plan_out plan = plan_of(&in);
        int walled = same_text(other_wires[k].input, "other_border_width_mm");
        ck_assert_int_eq(plan.state[UNG_PLAN_other_wall], walled ? UNG_STEP_DONE : UNG_STEP_LEFT_OUT);
        ck_assert_int_eq(plan.state[UNG_PLAN_other_screw], UNG_STEP_DONE);
        ck_assert_int_eq(plan.state[UNG_PLAN_other_through], UNG_STEP_DONE);
        static const size_t pairs[][2] = {{UNG_PLAN_screw, UNG_PLAN_other_screw},
                                          {UNG_PLAN_through, UNG_PLAN_other_through}};
        for (size_t j = 0; j < 2; j++) {
            ung_plan_part first = ung_plan_step(pairs[j][0]), other = ung_plan_step(pairs[j][1]);
            for (size_t f = 0; f < ung_input_count(first.calculation); f++) {
                const char *name = ung_input(first.calculation, f)->name;
                double here = ((const double *)&plan)[first.in + f], there = ((const double *)&plan)[other.in + f];
                double wanted = here;
                if (has_word(other_wires[k].steps, other.name) && same_text(name, other_wires[k].field))
                    wanted = other_wires[k].value;
                if (walled && same_text(name, "wall_thickness_mm")) /* thickness is what the border is measured for */
                    wanted = plan.other_wall.out.wall_thickness_mm;
                must_msg(there == wanted, "%s: %s of %s is %g, wanted is %g", other_wires[k].input, name, other.name,
                         there, wanted);
            }
        }
        if (walled)
            must(plan.other_wall.in.border_width_mm == 10.25 && plan.other_wall.in.wall_angle_deg == in.wall_angle_deg);
        /* What the first side is does not hang on the other one, but for the one length. */
        must(memcmp(&plan.wall, &without.wall, sizeof plan.wall) == 0);
        must(plan.screw.in.inset_mm == without.screw.in.inset_mm &&
             same_bits(plan.screw.out.margin_mm, without.screw.out.margin_mm));
    }
    in = one_side(); /* those of screw_count that are on the other side measure it too */
    in.other_screw_count = 2;
    ung_job_plan_out plan = plan_of(&in);
    ck_assert_int_eq(plan.state[UNG_PLAN_other_screw], UNG_STEP_DONE);
    must(memcmp(&plan.other_screw, &plan.screw, sizeof plan.screw) == 0);
    must(plan.hold.in.screw_count == in.screw_count);
    /* Border and angle of the other wall; and a thickness that was given is not looked up. */
    in = one_side();
    in.other_border_width_mm = 11, in.other_wall_angle_deg = 85;
    plan = plan_of(&in);
    must(plan.other_wall.in.wall_angle_deg == 85);
    in.other_wall_thickness_mm = 10;
    plan = plan_of(&in);
    ck_assert_int_eq(plan.state[UNG_PLAN_other_wall], UNG_STEP_LEFT_OUT);
    must(plan.other_screw.in.wall_thickness_mm == 10 && plan.other_through.in.wall_thickness_mm == 10);
    /* Nor is the other side screwed where there are no screws. */
    in.screw_way_count = 0;
    plan = plan_of(&in);
    ck_assert_int_eq(plan.state[UNG_PLAN_other_screw], UNG_STEP_LEFT_OUT);
    ck_assert_int_eq(plan.state[UNG_PLAN_other_through], UNG_STEP_LEFT_OUT);
    must(plan.hold.in.screw_count == 0);
}
END_TEST

/* ---- Which sides are screwed ---- */

/* Counts of both sides: whole numbers, the other side's the lesser half unless it is told. */
START_TEST(a_side_that_breaks_a_margin_gets_no_screws)
{
    static const struct {
        double count, told, first, other;
    } counts[] = {{6, NAN, 3, 3}, {7, NAN, 4, 3}, {5, NAN, 3, 2}, {1, NAN, 1, 0}, {6, 2, 4, 2},
                  {6, 0, 6, 0},   {6, 6, 0, 6},   {4, 4, 0, 4},   {0, NAN, 0, 0}};
    for (int way = 1; way <= 2; way++)
        for (size_t k = 0; k < sizeof counts / sizeof *counts; k++)
            for (int broken = 0; broken < 4; broken++) {
                ung_job_plan_in in = saddle_horse();
                in.cup_count = 0, in.samples_count = (double)NAN;
                in.screw_way_count = way;
                in.screw_length_mm = way == 1 ? 38 : 25;
                in.entry_height_mm = 9, in.other_entry_height_mm = 9;
                in.screw_count = counts[k].count, in.other_screw_count = counts[k].told;
                if (broken & 1) /* on the wall's very edge; above it */
                    in.inset_mm = 1.5, in.entry_height_mm = 60;
                if (broken & 2)
                    in.other_inset_mm = 1.5, in.other_entry_height_mm = 60;
                ung_job_plan_out plan = plan_of(&in);
                double here = way == 1 ? plan.screw.out.margin_mm : plan.through.out.margin_mm;
                double there = way == 1 ? plan.other_screw.out.margin_mm : plan.other_through.out.margin_mm;
                must((here < 0) == (broken & 1) && (there < 0) == (broken >> 1));
                double wanted = (broken & 1 ? 0 : counts[k].first) + (broken & 2 ? 0 : counts[k].other);
                must_msg(plan.hold.in.screw_count == wanted, "way %d, broken %d, %g of %g: %g, wanted is %g", way,
                         broken, counts[k].told, counts[k].count, plan.hold.in.screw_count, wanted);
                must(plan.mass.in.screw_count == wanted && plan.demand.in.screw_count == wanted);
                must(plan.bond_only.in.screw_count == 0);
                must(plan.tasks[3].likely_s == (wanted > 0 ? in.drive_likely_s : 0));
                /* The weaker of the sides that are screwed. */
                double horn[2] = {plan.screw.out.embedded_mm, plan.other_screw.out.embedded_mm};
                double wood[2] = {in.shoe_thickness_mm - in.head_recess_mm, in.shoe_thickness_mm - in.head_recess_mm};
                if (way == 2) {
                    horn[0] = plan.through.out.grip_mm, horn[1] = plan.other_through.out.grip_mm;
                    wood[0] = plan.through.out.wood_length_mm, wood[1] = plan.other_through.out.wood_length_mm;
                }
                must(plan.grip.in.point_member_count == way);
                if (broken == 3) {
                    must(isnan(plan.grip.in.horn_length_mm) && plan.state[UNG_PLAN_grip] == UNG_STEP_LACKS);
                    continue;
                }
                must(plan.grip.in.horn_length_mm == (broken == 0 ? least(horn[0], horn[1]) : horn[broken == 1]));
                must(plan.grip.in.wood_length_mm == (broken == 0 ? least(wood[0], wood[1]) : wood[broken == 1]));
            }
}
END_TEST

/* Screws of which nobody knows how many: not known, not some number. */
START_TEST(screws_that_are_not_counted_are_not_known)
{
    ung_job_plan_in in = saddle_horse();
    in.screw_count = in.other_screw_count = (double)NAN;
    for (int broken = 0; broken < 4; broken++) {
        in.inset_mm = broken & 1 ? 1.5 : 6, in.other_inset_mm = broken & 2 ? 1.5 : 5.5;
        ung_job_plan_out plan = plan_of(&in);
        must(broken == 3 ? plan.mass.in.screw_count == 0 : isnan(plan.mass.in.screw_count));
        ck_assert_int_eq(plan.state[UNG_PLAN_mass], broken == 3 ? UNG_STEP_DONE : UNG_STEP_LACKS);
    }
}
END_TEST

/* The steeper of the two axes is what the load is judged with, of those sides that get screws. */
START_TEST(the_axis_is_that_of_the_slanter_side)
{
    static const struct {
        double first, other, axis;
        int broken; /* 1: the first side, 2: the other one */
    } tilts[] = {{12, 10, 12, 0}, {10, 12, 12, 0}, {11, NAN, 11, 0}, {12, 10, 10, 1}, {10, 12, 10, 2}, {10, 12, 10, 3}},
      dips[] = {{60, 55, 35, 0}, {60, 65, 30, 0}, {62, NAN, 28, 0}, {60, 65, 25, 1}, {65, 60, 25, 2}, {65, 60, 25, 3}};
    for (int way = 1; way <= 2; way++)
        for (size_t k = 0; k < sizeof tilts / sizeof *tilts; k++) {
            ung_job_plan_in in = saddle_horse();
            int broken = way == 1 ? tilts[k].broken : dips[k].broken;
            in.cup_count = 0, in.samples_count = (double)NAN;
            in.screw_way_count = way, in.screw_length_mm = way == 1 ? 38 : 25;
            in.tilt_deg = tilts[k].first, in.other_tilt_deg = tilts[k].other;
            in.dip_deg = dips[k].first, in.other_dip_deg = dips[k].other;
            in.inset_mm = broken & 1 ? 1.5 : 6, in.other_inset_mm = broken & 2 ? 1.5 : 5.8;
            in.entry_height_mm = broken & 1 ? 60 : 9, in.other_entry_height_mm = broken & 2 ? 60 : 9;
            ung_job_plan_out plan = plan_of(&in);
            double here = way == 1 ? plan.screw.out.margin_mm : plan.through.out.margin_mm;
            double there = way == 1 ? plan.other_screw.out.margin_mm : plan.other_through.out.margin_mm;
            double axis = way == 1 ? tilts[k].axis : dips[k].axis;
            must_msg((here < 0) == (broken & 1) && (there < 0) == (broken >> 1), "way %d, %zu: %g and %g", way, k, here,
                     there);
            must_msg(plan.hold.in.axis_tilt_deg == axis, "way %d, %zu: %g", way, k, plan.hold.in.axis_tilt_deg);
            must(plan.demand.in.axis_tilt_deg == axis);
        }
}
END_TEST

/* The limit is 0: a margin of a few thousandths of a millimeter holds, on either side and by either way. */
START_TEST(the_smallest_margin_holds)
{
    for (int way = 1; way <= 2; way++)
        for (int other = 0; other < 2; other++) {
            ung_job_plan_in in = saddle_horse();
            in.cup_count = 0, in.samples_count = (double)NAN;
            in.screw_way_count = way, in.screw_length_mm = way == 1 ? 38 : 25;
            in.entry_height_mm = in.other_entry_height_mm = 9;
            double *moved = way == 1 ? (other ? &in.other_inset_mm : &in.inset_mm)
                                     : (other ? &in.other_entry_height_mm : &in.entry_height_mm);
            double holds = *moved, breaks = way == 1 ? 1.5 : 60;
            for (int k = 0; k < 60; k++) { /* to the last entry or inset that keeps the margins */
                *moved = (holds + breaks) / 2;
                ung_job_plan_out plan = plan_of(&in);
                double margin = way == 1 ? (other ? plan.other_screw.out.margin_mm : plan.screw.out.margin_mm)
                                         : (other ? plan.other_through.out.margin_mm : plan.through.out.margin_mm);
                *(margin >= 0 ? &holds : &breaks) = *moved;
                must_msg(plan.hold.in.screw_count == (margin >= 0 ? 6 : other ? 6 - 2 : 2), "way %d, margin %g: %g", way,
                         margin, plan.hold.in.screw_count);
            }
        }
}
END_TEST

/* A screw that does not reach the horn breaks no margin, and holds nothing. */
START_TEST(screws_that_do_not_reach_are_not_counted)
{
    ung_job_plan_in in = saddle_horse();
    in.cup_count = 0, in.samples_count = (double)NAN, in.screw_length_mm = 20;
    ung_job_plan_out plan = plan_of(&in);
    must(plan.screw.out.embedded_mm == 0 && plan.screw.out.margin_mm >= 0);
    must(plan.hold.in.screw_count == 0 && plan.state[UNG_PLAN_grip] == UNG_STEP_LACKS);
    in.screw_length_mm = 38, in.other_screw_count = 7; /* of 6 */
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    ck_assert_int_eq(ung_job_plan(&in, &plan, &fault), UNG_RELATION);
    ck_assert_str_eq(ung_fault_text(&fault, text),
                     "other_screw_count is 7 with screw_count 6: there cannot be more screws on one side than on both "
                     "(input 56 of job_plan)");
    must(isnan(plan.belt.out.slant_height_mm));
    ck_assert_int_eq(ung_job_plan(&in, &plan, NULL), UNG_RELATION);
}
END_TEST

/* ---- Both ways ---- */

START_TEST(the_way_that_is_not_chosen_only_compares)
{
    for (size_t h = 0; h < SOUND_HORSES; h++)
        for (int way = 1; way <= 2; way++) {
            ung_job_plan_in in = invented_horse(h);
            in.cup_count = in.heat_count = 0, in.samples_count = (double)NAN;
            in.screw_way_count = way;
            in.screw_length_mm = 29;
            ung_job_plan_out plan = plan_of(&in);
            ck_assert_int_eq(plan.state[UNG_PLAN_screw], UNG_STEP_DONE);
            ck_assert_int_eq(plan.state[UNG_PLAN_through], UNG_STEP_DONE);
            /* The given length is of the chosen way; the other one has its own. */
            must((way == 1) == (plan.screw.in.screw_length_mm == 29));
            must((way == 2) == (plan.through.in.screw_length_mm == 29));
            ung_plan_caution caution[128];
            size_t n = ung_job_plan_cautions(&plan, caution, 128);
            for (size_t i = 0; i < n; i++) {
                const char *step = ung_plan_step(caution[i].step).name;
                must(!has_word(way == 1 ? "through other_through" : "screw other_screw", step));
            }
            ung_plan_item item[UNG_PLAN_ITEMS_MOST];
            n = ung_plan_items(&plan, item, UNG_PLAN_ITEMS_MOST);
            for (size_t i = 0; i < n; i++) {
                const char *step = ung_plan_step(item[i].step).name;
                must(!has_word(way == 1 ? "through other_through" : "screw other_screw", step));
            }
            /* A length without any reach is warned of by the way that is chosen. */
            in.screw_length_mm = 8;
            plan = plan_of(&in);
            n = ung_job_plan_cautions(&plan, caution, 128);
            size_t now = 0;
            for (size_t i = 0; i < n; i++)
                now += (size_t)has_word(way == 1 ? "screw other_screw" : "through other_through",
                                        ung_plan_step(caution[i].step).name);
            must(now > 0);
            /* What the chosen way is does not hang on the other one's measure. */
            in.screw_length_mm = 29;
            plan = plan_of(&in);
            if (way == 2)
                in.inset_mm = in.other_inset_mm = (double)NAN;
            else
                in.dip_deg = 47, in.other_dip_deg = (double)NAN, in.entry_height_mm = in.other_entry_height_mm = 3;
            ung_job_plan_out alone = plan_of(&in);
            ck_assert_int_eq(alone.state[UNG_PLAN_screw], way == 2 ? UNG_STEP_LEFT_OUT : UNG_STEP_DONE);
            must(same_bits(alone.hold.out.single_path_use_ratio, plan.hold.out.single_path_use_ratio));
            must(memcmp(&alone.grip, &plan.grip, sizeof plan.grip) == 0);
        }
}
END_TEST

/* ---- A traced outline ---- */

enum { MEASURES = 8 };
static const char *const measures[MEASURES] = {"perimeter_mm",   "ground_area_mm2", "circumference_low_mm",
                                               "circumference_high_mm", "band_height_mm",  "bonded_area_mm2",
                                               "wood_area_mm2",  "top_area_mm2"};

/* Where each of them goes, by hand; and what of the belt it stands for. */
static double measure_at(const ung_job_plan_out *p, size_t k, size_t place)
{
    const double nothing = (double)INFINITY;
    const double at[MEASURES][4] = {
        {p->mass.in.perimeter_mm, nothing, nothing, nothing},
        {p->mass.in.ground_area_mm2, nothing, nothing, nothing},
        {p->tape.in.circumference_low_mm, p->narrow_tape.in.circumference_low_mm,
         p->wide_tape.in.circumference_low_mm, nothing},
        {p->tape.in.circumference_high_mm, p->narrow_tape.in.circumference_high_mm,
         p->wide_tape.in.circumference_high_mm, nothing},
        {p->tape.in.band_height_mm, p->narrow_tape.in.band_height_mm, p->wide_tape.in.band_height_mm, nothing},
        {p->glue.in.bonded_area_mm2, p->bond.in.bonded_area_mm2, p->bond_need.in.bonded_area_mm2, nothing},
        {p->glue.in.wood_area_mm2, nothing, nothing, nothing},
        {p->glue.in.top_area_mm2, nothing, nothing, nothing}};
    return at[k][place];
}

static double measure_of_belt(const ung_job_plan_out *p, size_t k)
{
    const ung_hoof_band_out *b = &p->belt.out;
    const double of[MEASURES] = {b->perimeter_mm,          b->ground_area_mm2, b->circumference_low_mm,
                                 b->circumference_high_mm, b->slant_height_mm, b->bonded_area_mm2,
                                 b->shoe_area_mm2,         b->covered_area_mm2};
    return of[k];
}

START_TEST(measures_of_an_outline_stand_for_the_belt)
{
    ung_job_plan_in in = pony();
    ung_job_plan_out with = plan_of(&in);
    /* One at a time: the belt still runs, and nothing else is another. */
    for (size_t k = 0; k < MEASURES; k++) {
        in = pony();
        double given = measure_of_belt(&with, k) * 1.0625;
        ((double *)&in)[plan_input_named(measures[k])] = given;
        ung_job_plan_out plan = plan_of(&in);
        ck_assert_int_eq(plan.state[UNG_PLAN_belt], UNG_STEP_DONE);
        must(memcmp(&plan.belt, &with.belt, sizeof plan.belt) == 0);
        for (size_t j = 0; j < MEASURES; j++)
            for (size_t place = 0; place < 4; place++)
                if (!isinf(measure_at(&plan, j, place)))
                    must_msg(measure_at(&plan, j, place) == (j == k ? given : measure_of_belt(&with, j)), "%s: %s",
                             measures[k], measures[j]);
    }
    /* All: the belt is left out, also where it could run.  With the belt's own numbers the plan is the same. */
    in = pony();
    for (size_t k = 0; k < MEASURES; k++)
        ((double *)&in)[plan_input_named(measures[k])] = measure_of_belt(&with, k);
    for (int hoof = 0; hoof < 2; hoof++) {
        if (hoof == 0)
            in.hoof_length_mm = in.hoof_width_mm = (double)NAN;
        else
            in.hoof_length_mm = 105, in.hoof_width_mm = 98;
        ung_job_plan_out plan = plan_of(&in);
        ck_assert_int_eq(plan.state[UNG_PLAN_belt], UNG_STEP_LEFT_OUT);
        must(isnan(plan.belt.out.perimeter_mm));
        for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
            if (i == UNG_PLAN_belt)
                continue;
            ung_plan_part part = ung_plan_step(i);
            ck_assert_int_eq(plan.state[i], with.state[i]);
            must_msg(memcmp((double *)&plan + part.out, (double *)&with + part.out,
                            ung_output_count(part.calculation) * sizeof(double)) == 0,
                     "%s", part.name);
        }
        /* So are its items: the belt is marked by the heights that were given. */
        ung_plan_item here[UNG_PLAN_ITEMS_MOST], there[UNG_PLAN_ITEMS_MOST];
        size_t n = ung_plan_items(&plan, here, UNG_PLAN_ITEMS_MOST);
        ck_assert_uint_eq(n, ung_plan_items(&with, there, UNG_PLAN_ITEMS_MOST));
        for (size_t i = 0; i < n; i++)
            must(same_text(here[i].code, there[i].code) && same_bits(here[i].quantity, there[i].quantity));
        must(item_of(here, n, "mark_belt_toe")->quantity == 34 && item_of(here, n, "place_shoe"));
    }
    /* All but one: the belt is made for the one. */
    in.wood_area_mm2 = (double)NAN;
    ck_assert_int_eq(plan_of(&in).state[UNG_PLAN_belt], UNG_STEP_DONE);
    in.hoof_length_mm = (double)NAN;
    ung_job_plan_out plan = plan_of(&in);
    ck_assert_int_eq(plan.state[UNG_PLAN_belt], UNG_STEP_LACKS);
    ck_assert_int_eq(plan.state[UNG_PLAN_glue], UNG_STEP_LACKS);
    ck_assert_int_eq(plan.state[UNG_PLAN_tape], UNG_STEP_DONE);
    ung_plan_item item[UNG_PLAN_ITEMS_MOST];
    size_t n = ung_plan_items(&plan, item, UNG_PLAN_ITEMS_MOST);
    must(!item_of(item, n, "mark_belt_toe") && !item_of(item, n, "place_shoe"));
    /* Without tape nothing lies under a top coat, whatever the outline says. */
    in = pony();
    in.cast_count = 0, in.top_area_mm2 = 9000;
    must(plan_of(&in).glue.in.top_area_mm2 == 0);
}
END_TEST

/* ---- Needed strengths ---- */

START_TEST(needed_strengths_are_asked_without_any)
{
    for (size_t h = 0; h < SOUND_HORSES; h++) {
        ung_job_plan_in in = invented_horse(h);
        in.cup_count = in.heat_count = 0, in.samples_count = (double)NAN;
        ung_job_plan_out with = plan_of(&in);
        ck_assert_int_eq(with.state[UNG_PLAN_grip_need], UNG_STEP_DONE);
        ck_assert_int_eq(with.state[UNG_PLAN_bond_need], UNG_STEP_DONE);
        for (int given = 0; given < 3; given++) {
            static const double shear[] = {NAN, 3, 20}, bearing[] = {NAN, 60, 8}, bond[] = {NAN, 0.5, 9};
            in.horn_shear_mpa = shear[given], in.horn_bearing_mpa = bearing[given];
            in.shear_strength_mpa = bond[given];
            ung_job_plan_out plan = plan_of(&in);
            ck_assert_int_eq(plan.state[UNG_PLAN_grip], given ? UNG_STEP_DONE : UNG_STEP_LACKS);
            ck_assert_int_eq(plan.state[UNG_PLAN_bond], given ? UNG_STEP_DONE : UNG_STEP_LACKS);
            ck_assert_int_eq(plan.state[UNG_PLAN_grip_need], UNG_STEP_DONE);
            ck_assert_int_eq(plan.state[UNG_PLAN_bond_need], UNG_STEP_DONE);
            must(same_bits(plan.grip_need.out.horn_shear_needed_mpa, with.grip_need.out.horn_shear_needed_mpa));
            must(same_bits(plan.grip_need.out.horn_bearing_needed_mpa, with.grip_need.out.horn_bearing_needed_mpa));
            must(same_bits(plan.bond_need.out.needed_mean_mpa, with.bond_need.out.needed_mean_mpa));
            must(same_bits(plan.bond_need.out.needed_first_mpa, with.bond_need.out.needed_first_mpa));
        }
        /* A screw in such horn, and a bond of such strength, carries what is asked: the use is 1, within what
         * screw_hold says of its accuracy (1e-12), and of a bond within a division or two. */
        ung_screw_hold_in x = with.grip_need.in;
        ung_screw_hold_out grip;
        x.horn_shear_mpa = with.grip_need.out.horn_shear_needed_mpa;
        x.horn_bearing_mpa = with.grip_need.out.horn_bearing_needed_mpa;
        const ung_field *ranges[] = {
            ung_input(ung_screw_hold_contract(), input_named(ung_screw_hold_contract(), "horn_shear_mpa")),
            ung_input(ung_screw_hold_contract(), input_named(ung_screw_hold_contract(), "horn_bearing_mpa"))};
        int shear = x.horn_shear_mpa >= ranges[0]->lower && x.horn_shear_mpa <= ranges[0]->upper;
        int bearing = x.horn_bearing_mpa >= ranges[1]->lower && x.horn_bearing_mpa <= ranges[1]->upper;
        x.horn_shear_mpa = shear ? x.horn_shear_mpa : 10, x.horn_bearing_mpa = bearing ? x.horn_bearing_mpa : 25;
        ck_assert_int_eq(ung_screw_hold(&x, &grip, NULL), UNG_OK);
        if (shear)
            ck_relative(grip.axial_design_n, with.demand.out.needed_screw_n, 1e-12);
        if (bearing)
            ck_relative(grip.lateral_design_n, with.demand.out.needed_screw_n, 1e-12);
        ung_bond_hold_in y = with.bond_need.in;
        ung_bond_hold_out bond;
        y.shear_strength_mpa = with.bond_need.out.needed_first_mpa;
        ck_assert_int_eq(ung_bond_hold(&y, &bond, NULL), UNG_OK);
        ck_relative(bond.capacity_first_n, with.demand.out.needed_bond_n, 1e-14);
    }
}
END_TEST

/* Through the whole plan: with the strengths that it asks for, its screws carry what it wants of them. */
START_TEST(strengths_that_are_asked_for_carry_the_load)
{
    for (int way = 1; way <= 2; way++) {
        ung_job_plan_in in = way == 1 ? pony() : draft_horse();
        in.cup_count = in.heat_count = 0;
        ung_job_plan_out plan = plan_of(&in);
        in.horn_shear_mpa = plan.grip_need.out.horn_shear_needed_mpa;
        in.horn_bearing_mpa = plan.grip_need.out.horn_bearing_needed_mpa;
        must(in.horn_shear_mpa > 0.5 && in.horn_shear_mpa < 60 && in.horn_bearing_mpa > 1 && in.horn_bearing_mpa < 150);
        plan = plan_of(&in);
        ck_relative(plan.grip.out.axial_design_n, plan.demand.out.needed_screw_n, 1e-12);
        ck_relative(plan.grip.out.lateral_design_n, plan.demand.out.needed_screw_n, 1e-12);
        ck_relative(plan.grip_need.out.axial_use_ratio, 1, 1e-12);
        ck_relative(plan.grip_need.out.lateral_use_ratio, 1, 1e-12);
    }
}
END_TEST

/* ---- What is looked at again, and what is cooled ---- */

START_TEST(the_recheck_is_growth_until_then)
{
    ung_job_plan_in in = pony();
    in.recheck_days = 10, in.growth_mm_per_28_days = 8.4;
    ung_job_plan_out plan = plan_of(&in);
    ck_relative(plan.recheck.out.added_mm, 3, 1e-15); /* 8.4 in 28 days are 3 in 10 */
    ck_relative(plan.growth.out.added_mm, 8.4, 1e-15);
    must(plan.recheck.in.toe_angle_deg == in.toe_angle_deg);
    ung_plan_item item[UNG_PLAN_ITEMS_MOST];
    size_t n = ung_plan_items(&plan, item, UNG_PLAN_ITEMS_MOST);
    must(item_of(item, n, "recheck")->quantity == 10);
    must(item_of(item, n, "recheck_growth")->quantity == plan.recheck.out.added_mm);
}
END_TEST

/* So cool that the safe time is the time that is needed: within the rounding of an exponential of some units. */
START_TEST(cooled_to_that_the_time_is_enough)
{
    ung_job_plan_in in = pony();
    in.cup_count = 0;
    in.temperature_c = 30;
    for (int longer = 1; longer <= 4; longer++) {
        in.wrap_low_s = 60 * longer, in.wrap_likely_s = 90 * longer, in.wrap_high_s = 180 * longer;
        ung_job_plan_in cooled = in;
        ung_job_plan_out plan = plan_of(&in);
        cooled.temperature_c = plan.cooler.out.safe_temperature_c;
        must(cooled.temperature_c < 40 && cooled.temperature_c > -25);
        ung_job_plan_out after = plan_of(&cooled);
        ck_relative(after.working.out.safe_time_s, plan.timeline.out.needed_working_time_s, 1e-12);
        ck_relative(after.timeline.out.normal_chance_fraction, in.limit_fraction, 1e-6); /* of a tail: steep */
        ck_assert_int_eq(plan.timeline.out.batches_count > 1, plan.working.out.safe_time_s <
                                                                  plan.timeline.out.needed_working_time_s);
    }
}
END_TEST

/* ---- Items ---- */

static void items_there(const ung_job_plan_in *in, const char *there, const char *not_there)
{
    ung_job_plan_out plan = plan_of(in);
    ung_plan_item item[UNG_PLAN_ITEMS_MOST];
    size_t n = ung_plan_items(&plan, item, UNG_PLAN_ITEMS_MOST), seen = 0, words = *there != 0;
    for (const char *c = there; *c; c++)
        words += *c == ' ';
    for (size_t i = 0; i < n; i++) {
        must_msg(!has_word(not_there, item[i].code), "%s", item[i].code);
        seen += (size_t)has_word(there, item[i].code);
    }
    must_msg(seen == words, "%zu of \"%s\"", seen, there);
}

#define SHOE_DRIVES                                                                                              \
    "screws screw_thread screw_length screw_longest horn_bit wood_bit drive_screws heads_in_shoe free_heads"
#define SHOE_FIRST "drill_from_shoe drill_slant drill_stop"
#define SHOE_OTHER "other_drill_from_shoe other_drill_slant other_drill_stop"
#define WALL_DRIVES                                                                                              \
    "screws wall_screw_thread wall_screw_length wall_screw_shortest wall_screw_longest horn_bit wood_bit "       \
    "drive_screws heads_in_wall free_heads"
#define WALL_FIRST "drill_through_wall drill_dip"
#define WALL_OTHER "other_drill_through_wall other_drill_dip"

START_TEST(items_of_both_sides)
{
    ung_job_plan_in in = saddle_horse();
    in.cup_count = 0, in.samples_count = (double)NAN;
    in.entry_height_mm = in.other_entry_height_mm = 9;
    items_there(&in, SHOE_DRIVES " other_screw_longest " SHOE_FIRST " " SHOE_OTHER,
                WALL_FIRST " " WALL_OTHER " wall_screw_thread wall_screw_length wall_screw_longest");
    in.other_inset_mm = 1.5;
    items_there(&in, SHOE_DRIVES " other_screw_longest " SHOE_FIRST, SHOE_OTHER);
    in.inset_mm = 1.5, in.other_inset_mm = 5.5; /* the screws are the other side's then */
    items_there(&in, SHOE_DRIVES " other_screw_longest " SHOE_OTHER, SHOE_FIRST);
    in.other_inset_mm = 1.5;
    items_there(&in, "screw_longest other_screw_longest",
                SHOE_FIRST " " SHOE_OTHER " screws screw_thread screw_length horn_bit drive_screws heads_in_shoe "
                "free_heads");
    in = saddle_horse();
    in.cup_count = 0, in.samples_count = (double)NAN;
    in.screw_way_count = 2, in.entry_height_mm = in.other_entry_height_mm = 9, in.screw_length_mm = 25;
    items_there(&in, WALL_DRIVES " other_wall_screw_shortest other_wall_screw_longest " WALL_FIRST " " WALL_OTHER,
                SHOE_FIRST " " SHOE_OTHER " screw_thread screw_length screw_longest other_screw_longest");
    in.entry_height_mm = 60;
    items_there(&in, "screws wall_screw_thread wall_screw_length drive_screws free_heads " WALL_OTHER, WALL_FIRST);
    in.entry_height_mm = 9, in.other_entry_height_mm = 60;
    items_there(&in, WALL_DRIVES " " WALL_FIRST, WALL_OTHER);
    in.screw_count = 0, in.other_screw_count = (double)NAN;
    items_there(&in, "place_shoe",
                WALL_FIRST " " WALL_OTHER " screws wall_screw_thread horn_bit drive_screws free_heads");
    /* Values are the side's own. */
    in = saddle_horse();
    ung_job_plan_out plan = plan_of(&in);
    ung_plan_item item[UNG_PLAN_ITEMS_MOST];
    size_t n = ung_plan_items(&plan, item, UNG_PLAN_ITEMS_MOST);
    must(item_of(item, n, "drill_slant")->quantity == 12 && item_of(item, n, "other_drill_slant")->quantity == 10);
    must(item_of(item, n, "drill_from_shoe")->quantity == 6);
    must(item_of(item, n, "other_drill_from_shoe")->quantity == 5.5);
    must(item_of(item, n, "other_drill_stop")->quantity == plan.other_screw.out.embedded_mm);
    must(item_of(item, n, "screw_length")->quantity == 38 && item_of(item, n, "screws")->quantity == 6);
}
END_TEST

/* One batch that lasts: go on.  Else the batches, and how cool it would have to be for one. */
START_TEST(advice_on_time)
{
    ung_job_plan_in in = pony();
    in.cup_count = 0;
    for (int hot = 0; hot <= 1; hot++) {
        in.temperature_c = hot ? 38 : 10;
        ung_job_plan_out plan = plan_of(&in);
        must((plan.timeline.out.batches_count > 1) == hot);
        items_there(&in, hot ? "chance_too_late batches cool_parts" : "chance_too_late go_on",
                    hot ? "go_on" : "batches cool_parts");
    }
    /* A task that outlasts even a fresh batch. */
    in.temperature_c = 20;
    in.wrap_low_s = 3000, in.wrap_likely_s = 3600, in.wrap_high_s = 4000;
    ung_job_plan_out plan = plan_of(&in);
    must(plan.timeline.out.impossible_count > 0);
    items_there(&in, "cool_parts", "go_on");
    ung_plan_item item[UNG_PLAN_ITEMS_MOST];
    size_t n = ung_plan_items(&plan, item, UNG_PLAN_ITEMS_MOST);
    must(item_of(item, n, "cool_parts")->quantity == plan.cooler.out.safe_temperature_c);
    /* Not known: neither. */
    in.temperature_c = (double)NAN;
    items_there(&in, "place_shoe", "go_on batches cool_parts chance_too_late");
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "plan_sides");
    tcase_set_timeout(tests, 300);
    tcase_add_test(tests, each_measure_of_the_other_side_is_enough);
    tcase_add_test(tests, a_side_that_breaks_a_margin_gets_no_screws);
    tcase_add_test(tests, screws_that_are_not_counted_are_not_known);
    tcase_add_test(tests, the_smallest_margin_holds);
    tcase_add_test(tests, screws_that_do_not_reach_are_not_counted);
    tcase_add_test(tests, the_axis_is_that_of_the_slanter_side);
    tcase_add_test(tests, the_way_that_is_not_chosen_only_compares);
    tcase_add_test(tests, measures_of_an_outline_stand_for_the_belt);
    tcase_add_test(tests, needed_strengths_are_asked_without_any);
    tcase_add_test(tests, strengths_that_are_asked_for_carry_the_load);
    tcase_add_test(tests, the_recheck_is_growth_until_then);
    tcase_add_test(tests, cooled_to_that_the_time_is_enough);
    tcase_add_test(tests, items_of_both_sides);
    tcase_add_test(tests, advice_on_time);
    return finish(runner);
}
