/* What the plan looks for where it is not given, against trying everything; and what lifts a caution of the plan. */
#include "../plan.h"

/* A horse with some inputs drawn from their usual ranges, and without what takes time. */
static ung_job_plan_in drawn(const char *of)
{
    ung_job_plan_in in = invented_horse(random_below(SOUND_HORSES));
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        ung_field f = ung_plan_input(i).field;
        if (has_word(of, f.name) && random_below(2))
            ((double *)&in)[i] = random_value(&f, 0.9);
    }
    in.cup_count = in.heat_count = 0, in.samples_count = (double)NAN;
    return in;
}

static const char *const of_screws =
    "border_width_mm wall_thickness_mm wall_angle_deg sole_horn_mm screw_diameter_mm inset_mm tilt_deg head_recess_mm "
    "dip_deg wall_recess_mm height_limit_mm inner_margin_mm outer_margin_mm white_line_margin_mm edge_margin_mm "
    "ground_margin_mm least_wood_mm shoe_thickness_mm pad_mm overhang_mm upper_layer_mm edge_bevel_deg high_toe_mm "
    "high_heel_mm stock_step_mm";
static const char *const of_other_side = "other_border_width_mm other_wall_thickness_mm other_wall_angle_deg "
                                         "other_sole_horn_mm other_inset_mm other_tilt_deg other_dip_deg";

static ung_job_plan_in one_or_two_sides(void)
{
    ung_job_plan_in in = drawn(of_screws);
    in.other_border_width_mm = in.other_wall_thickness_mm = in.other_wall_angle_deg = in.other_sole_horn_mm =
        in.other_inset_mm = in.other_tilt_deg = in.other_entry_height_mm = in.other_dip_deg =
            in.other_screw_count = (double)NAN;
    if (random_below(2))
        for (size_t i = 0; i < ung_plan_input_count(); i++) {
            ung_field f = ung_plan_input(i).field;
            if (has_word(of_other_side, f.name) && random_below(2))
                ((double *)&in)[i] = random_value(&f, 1);
        }
    return in;
}

/* The shorter of what fits on the sides; the shortest there is where none does. */
static double shorter(double a, double b)
{
    double found = isnan(a) ? b : isnan(b) ? a : least(a, b);
    return isnan(found) ? 8 : found;
}

static int is_multiple(double length, double step)
{
    return fabs(length / step - floor(length / step + 0.5)) < 1e-12; /* a rounding of a quotient below 300 */
}

/* ---- Length ---- */

START_TEST(the_length_is_the_longest_of_the_box)
{
    size_t found[3] = {0, 0, 0};
    for (size_t trial = 0; trial < scaled(3000); trial++) {
        ung_job_plan_in in = one_or_two_sides();
        in.screw_length_mm = (double)NAN;
        if (random_below(2))
            in.entry_height_mm = (double)(1 + random_below(20));
        in.screw_way_count = 1 + (double)random_below(2);
        ung_job_plan_out p = plan_of(&in);
        double step = in.stock_step_mm;
        int two = p.state[UNG_PLAN_other_screw] != UNG_STEP_LEFT_OUT;
        if (p.state[UNG_PLAN_screw] == UNG_STEP_DONE && (!two || p.state[UNG_PLAN_other_screw] == UNG_STEP_DONE)) {
            double other = two ? longest_from_shoe(p.other_screw.in, step) : (double)NAN;
            double wanted = shorter(longest_from_shoe(p.screw.in, step), other);
            must_msg(p.screw.in.screw_length_mm == wanted, "%g, wanted is %g", p.screw.in.screw_length_mm, wanted);
            must(!two || p.other_screw.in.screw_length_mm == wanted);
            must(wanted == 8 || is_multiple(wanted, step));
            found[0] += wanted > 8;
            found[2] += two && wanted > 8;
        }
        if (p.state[UNG_PLAN_through] == UNG_STEP_DONE && (!two || p.state[UNG_PLAN_other_through] == UNG_STEP_DONE)) {
            double other = two ? longest_through_wall(p.other_through.in, step) : (double)NAN;
            double wanted = shorter(longest_through_wall(p.through.in, step), other);
            must_msg(p.through.in.screw_length_mm == wanted, "through: %g, wanted is %g", p.through.in.screw_length_mm,
                     wanted);
            must(!two || p.other_through.in.screw_length_mm == wanted);
            found[1] += wanted > 8;
        }
    }
    for (size_t i = 0; i < 3; i++)
        ck_assert_uint_ge(found[i], scaled(3000) / 20);
}
END_TEST

/* By hand: upright in a thick upright wall, 20 mm of wood less 2 for the head; the tip may stand 25 mm high. */
START_TEST(lengths_by_hand)
{
    ung_job_plan_in in = pony();
    in.wall_thickness_mm = 16, in.wall_angle_deg = 90, in.sole_horn_mm = 0, in.inset_mm = 6, in.tilt_deg = 0;
    in.screw_diameter_mm = 4, in.screw_length_mm = (double)NAN;
    static const double steps[][2] = {{1, 43},   {5, 40},  {10, 40}, {6.35, 38.1}, {12.7, 38.1},
                                      {0.5, 43}, {43, 43}, {22, 22}, {21.5, 43}};
    for (size_t k = 0; k < sizeof steps / sizeof *steps; k++) {
        in.stock_step_mm = steps[k][0];
        ck_relative(plan_of(&in).screw.in.screw_length_mm, steps[k][1], 1e-15); /* a product */
    }
    in.stock_step_mm = 44; /* none of the box: the shortest there is, which does not reach */
    ung_job_plan_out plan = plan_of(&in);
    must(plan.screw.in.screw_length_mm == 8 && plan.screw.out.embedded_mm == 0);
    must(plan.demand.in.screw_count == 0);
    in.stock_step_mm = 9; /* 18 mm of wood: two steps do not reach, of 12.5 mm in all */
    in.height_limit_mm = 5;
    must(plan_of(&in).screw.in.screw_length_mm == 8);
    in.height_limit_mm = 25;
    in.stock_step_mm = 1;
    in.height_limit_mm = 120, in.shoe_thickness_mm = 60; /* 58 + 120 mm: more than any screw is long */
    must(plan_of(&in).screw.in.screw_length_mm == 150);
    in.stock_step_mm = 50;
    must(plan_of(&in).screw.in.screw_length_mm == 150);
    in.stock_step_mm = 40;
    must(plan_of(&in).screw.in.screw_length_mm == 120);
    in.screw_length_mm = 70; /* given */
    must(plan_of(&in).screw.in.screw_length_mm == 70);
    /* Without its measure there is nothing to look with. */
    in.screw_length_mm = in.inset_mm = (double)NAN;
    plan = plan_of(&in);
    ck_assert_int_eq(plan.state[UNG_PLAN_screw], UNG_STEP_LACKS);
    ck_assert_str_eq(plan.fault[UNG_PLAN_screw].field, "inset_mm");
}
END_TEST

/* ---- Entry ---- */

static void entry_is_best(const ung_job_plan_in *in, ung_screw_through_in found, size_t *some)
{
    double margin, length = in->screw_way_count > 1.5 ? in->screw_length_mm : (double)NAN;
    ung_screw_through_out out;
    ung_screw_through_in x = found;
    x.screw_length_mm = length;
    double entry = best_entry(x, in->stock_step_mm, &margin);
    must(ung_screw_through(&found, &out, NULL) == UNG_OK);
    if (margin >= 0) {
        must_msg(found.entry_height_mm == entry, "%g, wanted is %g", found.entry_height_mm, entry);
        (*some)++;
    } else if (!isnan(length)) {
        must(out.margin_mm < 0); /* none keeps all margins: which one shows it does not matter */
    }
}

START_TEST(the_entry_has_the_most_margin)
{
    size_t some[2] = {0, 0};
    for (size_t trial = 0; trial < scaled(300); trial++) {
        ung_job_plan_in in = one_or_two_sides();
        in.entry_height_mm = (double)NAN;
        in.screw_length_mm = random_below(2) ? (double)NAN : random_between(20, 60);
        in.screw_way_count = 1 + (double)random_below(2);
        ung_job_plan_out p = plan_of(&in);
        if (p.state[UNG_PLAN_through] == UNG_STEP_DONE)
            entry_is_best(&in, p.through.in, some);
        if (p.state[UNG_PLAN_other_through] == UNG_STEP_DONE)
            entry_is_best(&in, p.other_through.in, some + 1);
    }
    must(some[0] >= scaled(300) / 10 && some[1] >= scaled(300) / 20);
    /* Given, it stays, and stands for both sides; given for the other side it does not for the first. */
    ung_job_plan_in in = saddle_horse();
    in.entry_height_mm = 8.5, in.other_entry_height_mm = (double)NAN;
    ung_job_plan_out p = plan_of(&in);
    must(p.through.in.entry_height_mm == 8.5 && p.other_through.in.entry_height_mm == 8.5);
    in.entry_height_mm = (double)NAN, in.other_entry_height_mm = 8.5;
    p = plan_of(&in);
    must(p.through.in.entry_height_mm == floor(p.through.in.entry_height_mm));
    must(p.other_through.in.entry_height_mm == 8.5);
    /* No entry keeps the margins: a usual one, which says so. */
    in = draft_horse();
    in.wall_thickness_mm = 5;
    p = plan_of(&in);
    must(p.through.in.entry_height_mm == 5 && p.through.out.margin_mm < 0 && p.hold.in.screw_count == 0);
    /* Not above the belt, which covers the heads. */
    in = draft_horse();
    must(plan_of(&in).through.in.entry_height_mm > 9.5);
    in.high_heel_mm = 9.5;
    p = plan_of(&in);
    some[0] = 0;
    entry_is_best(&in, p.through.in, some);
    must(p.through.in.entry_height_mm <= 9 && some[0] == 1);
}
END_TEST

/* ---- Passes ---- */

static const char *const of_tape = "hoof_length_mm hoof_width_mm high_toe_mm high_heel_mm tape_width_mm "
                                   "overlap_fraction anchor_turns stretch_fraction roll_length_mm ply_mm "
                                   "circumference_low_mm circumference_high_mm band_height_mm";

START_TEST(passes_are_enough_and_use_up_the_rolls)
{
    size_t seen[13] = {0};
    for (size_t trial = 0; trial < scaled(2000); trial++) {
        ung_job_plan_in in = drawn(of_tape);
        in.passes_count = (double)NAN;
        if (random_below(4) == 0)
            in.roll_length_mm = random_between(500, 20000);
        if (random_below(4) == 0)
            in.overlap_fraction = random_between(0, 0.9);
        ung_job_plan_out p = plan_of(&in);
        if (p.state[UNG_PLAN_belt] != UNG_STEP_DONE || p.state[UNG_PLAN_tape] != UNG_STEP_DONE)
            continue;
        const ung_cast_length_in *tapes[] = {&p.tape.in, &p.narrow_tape.in, &p.wide_tape.in};
        for (size_t k = 0; k < 3; k++) {
            double wanted = passes_wanted(*tapes[k]);
            must_msg(tapes[k]->passes_count == wanted, "%g passes, wanted are %g", tapes[k]->passes_count, wanted);
            seen[(int)wanted]++;
        }
    }
    size_t kinds = 0;
    for (int i = 1; i <= 12; i++)
        kinds += seen[i] > 0;
    ck_assert_uint_ge(kinds, 3); /* few and many were among them */
    /* Given, they stay. */
    ung_job_plan_in in = draft_horse();
    in.passes_count = 7;
    ung_job_plan_out p = plan_of(&in);
    must(p.tape.in.passes_count == 7 && p.narrow_tape.in.passes_count == 7 && p.wide_tape.in.passes_count == 7);
}
END_TEST

/* By hand.  Level turns of a tape as wide as the belt: a pass is one ply, and so is an anchor turn. */
START_TEST(passes_by_hand)
{
    ung_job_plan_in in = ung_job_plan_standard();
    in.perimeter_mm = 420, in.ground_area_mm2 = 12000, in.circumference_low_mm = in.circumference_high_mm = 400;
    in.band_height_mm = 50, in.bonded_area_mm2 = 9000, in.wood_area_mm2 = 8000, in.top_area_mm2 = 20000;
    in.tape_width_mm = 60, in.tape_waste_fraction = 0;
    static const struct {
        double anchors, roll, passes;
    } rows[] = {
        {1, 1200, 2},  /* three plies are enough: path 1200 is (1 + 2) x 400, to the end of the roll */
        {1, 1300, 2},  /* a fourth ply takes another roll */
        {1, 1700, 3},  /* 1600 of 1700 */
        {0, 1700, 4},  /* the same four plies, all of passes */
        {0, 500, 3},   /* three plies take three rolls; the fourth would take another */
        {1, 20000, 4}, /* five plies; five passes are more than usual */
        {5, 20000, 4}, {3, 1600, 1},
    };
    for (size_t k = 0; k < sizeof rows / sizeof *rows; k++) {
        in.anchor_turns = rows[k].anchors, in.roll_length_mm = rows[k].roll;
        ung_job_plan_out p = plan_of(&in);
        must_msg(p.tape.in.passes_count == rows[k].passes, "%zu: %g passes, wanted are %g", k, p.tape.in.passes_count,
                 rows[k].passes);
    }
    in.band_height_mm = 300, in.tape_width_mm = 10, in.overlap_fraction = 0, in.anchor_turns = 0;
    must(plan_of(&in).tape.in.passes_count == passes_wanted(plan_of(&in).tape.in));
}
END_TEST

/* ---- What lifts a caution ---- */

enum { CAUTIONS_MOST = 128 };

static int stands(const ung_job_plan_out *plan, size_t step, const char *code)
{
    ung_plan_caution caution[CAUTIONS_MOST];
    size_t n = ung_job_plan_cautions(plan, caution, CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        if (caution[i].step == step && same_text(caution[i].caution.code, code))
            return 1;
    return 0;
}

static int of_way_not_chosen(const ung_job_plan_in *in, const char *step)
{
    return has_word(in->screw_way_count < 2 ? "through other_through" : "screw other_screw", step);
}

/* As the header says it: no such caution, no other step stopped, none failed that did not. */
static int rid(const ung_job_plan_in *before_in, const ung_job_plan_out *before, const ung_job_plan_in *in, size_t step,
               const char *code)
{
    static ung_job_plan_out after;
    ung_plan_caution caution[CAUTIONS_MOST];
    if (ung_job_plan(in, &after, NULL) != UNG_OK || stands(&after, step, code))
        return 0;
    size_t n = ung_job_plan_cautions(&after, caution, CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        if (caution[i].caution.severity == UNG_STOP && !stands(before, caution[i].step, caution[i].caution.code))
            return 0;
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
        const char *name = ung_plan_step(i).name;
        if (has_word(comparing, name))
            continue;
        if (!of_way_not_chosen(before_in, name) && before->state[i] == UNG_STEP_DONE && after.state[i] != UNG_STEP_DONE)
            return 0;
        if (of_way_not_chosen(before_in, name) && !of_way_not_chosen(in, name) && after.state[i] != UNG_STEP_DONE &&
            after.state[i] != UNG_STEP_LEFT_OUT)
            return 0;
    }
    return 1;
}

/* Whether values that rid lie nearer together than the header promises to see. */
static int too_narrow(const ung_job_plan_in *in, const ung_job_plan_out *before, size_t step, const char *code,
                      size_t input, double value)
{
    ung_field f = ung_plan_input(input).field;
    ung_job_plan_in changed = *in;
    double *place = (double *)&changed + input, low = value, high = value;
    int usual = value > f.usual_lower && value < f.usual_upper;
    double width = usual ? (f.usual_upper - f.usual_lower) / 256 : (f.upper - f.lower) / 64, piece = width / 64;
    if (f.whole)
        return 0;
    for (int up = 0; up <= 1; up++)
        for (int i = 1; i <= 66; i++) {
            *place = up ? value + i * piece : value - i * piece;
            if (*place < f.lower || *place > f.upper || !rid(in, before, &changed, step, code))
                break;
            *(up ? &high : &low) = *place;
        }
    return high - low < width;
}

/* Every value of a fine grid (or every whole number); nothing that rids is nearer than what was found, but for a
 * spacing of the grid, and what was found rids while a little nearer does not. */
static int check_lift(const ung_job_plan_in *in, size_t step, const char *code, size_t input)
{
    ung_plan_asked asked = ung_plan_input(input);
    ung_job_plan_out before = plan_of(in);
    ung_job_plan_in changed = *in;
    double *place = (double *)&changed + input, now = *place, found;
    ung_fault fault;
    ck_assert_int_eq(ung_job_plan_lift(in, step, code, input, &found, &fault), UNG_OK);
    const ung_field *f = &asked.field;
    double span = f->upper - f->lower, nearest = (double)NAN;
    int many = (int)scaled(400);
    many = f->whole && span < many ? (int)span : many;
    for (int i = 0; i <= many; i++) {
        *place = f->lower + span * i / many;
        if (f->whole)
            *place = floor(*place + 0.5);
        if (!(fabs(*place - now) >= fabs(nearest - now)) && rid(in, &before, &changed, step, code))
            nearest = *place;
    }
    const char *step_name = ung_plan_step(step).name;
    if (isnan(found)) {
        must_msg(isnan(nearest) || too_narrow(in, &before, step, code, input, nearest),
                 "%s of %s: %s = %.17g lifts it, none was found", code, step_name, f->name, nearest);
        return 0;
    }
    must(found >= f->lower && found <= f->upper && (!f->whole || found == floor(found)));
    *place = found;
    must_msg(rid(in, &before, &changed, step, code), "%s of %s: %s = %.17g does not lift it", code, step_name, f->name,
             found);
    must_msg(!(fabs(nearest - now) < fabs(found - now)) || too_narrow(in, &before, step, code, input, nearest),
             "%s of %s: %s = %.17g is nearer to %g than %.17g", code, step_name, f->name, nearest, now, found);
    /* Nearer by a whole number, or by a millionth of the range: more than the bisection leaves. */
    double back = f->whole ? 1 : 1e-6 * span;
    *place = found > now ? most(found - back, now) : least(found + back, now);
    must_msg(!rid(in, &before, &changed, step, code), "%s of %s: %s = %.17g lifts it too", code, step_name, f->name,
             *place);
    return 1;
}

/* Inputs with which a farrier can answer, and some that a caution does not hang on. */
static const char *const answers =
    "tilt_deg inset_mm screw_length_mm screw_diameter_mm wall_thickness_mm shoe_thickness_mm bevel_angle_deg "
    "bevel_run_mm temperature_c screw_way_count screw_count passes_count gait_count days wrap_high_s divisor_ratio "
    "shear_strength_mpa high_heel_mm dip_deg entry_height_mm cast_count other_inset_mm";

static void lift_all(ung_job_plan_in in, ung_severity least_severity, size_t *found, size_t *none)
{
    in.cup_count = in.heat_count = 0, in.samples_count = (double)NAN;
    ung_job_plan_out plan = plan_of(&in);
    ung_plan_caution caution[CAUTIONS_MOST];
    size_t n = ung_job_plan_cautions(&plan, caution, CAUTIONS_MOST);
    must(n <= CAUTIONS_MOST);
    for (size_t k = 0; k < n; k++) {
        if (caution[k].caution.severity < least_severity)
            continue;
        for (size_t i = 0; i < ung_plan_input_count(); i++) {
            if (!has_word(answers, ung_plan_input(i).field.name) || isnan(((double *)&in)[i]))
                continue;
            if (check_lift(&in, caution[k].step, caution[k].caution.code, i))
                (*found)++;
            else
                (*none)++;
        }
    }
}

START_TEST(stops_are_lifted_by_the_nearest_value)
{
    size_t found = 0, none = 0;
    lift_all(thin_walled_horse(), UNG_STOP, &found, &none);
    ung_job_plan_in in = thin_walled_horse();
    in.other_border_width_mm = 12, in.other_wall_angle_deg = 80; /* the other wall is thick enough, but for the tilt */
    in.wall_thickness_mm = 8;
    lift_all(in, UNG_STOP, &found, &none);
    in = saddle_horse(); /* one broken margin, and a way round it */
    in.inset_mm = 3.5;
    lift_all(in, UNG_STOP, &found, &none);
    in = pony(); /* neither bond nor screws carry the load */
    in.shear_strength_mpa = 0.1, in.divisor_ratio = 1, in.screw_count = 1;
    lift_all(in, UNG_STOP, &found, &none);
    in = draft_horse(); /* drives above the window; no batch lasts */
    in.entry_height_mm = 20, in.screw_length_mm = 38;
    in.wrap_low_s = 900, in.wrap_likely_s = 1000, in.wrap_high_s = 1400, in.temperature_c = 25;
    lift_all(in, UNG_STOP, &found, &none);
    must(found >= 20 && none >= 20);
}
END_TEST

START_TEST(warnings_are_lifted_by_the_nearest_value)
{
    size_t found = 0, none = 0;
    lift_all(pony(), UNG_WARN, &found, &none);
    if (scaled(1000) > 1000)
        for (size_t h = 1; h < HORSES; h++)
            lift_all(invented_horse(h), UNG_NOTE, &found, &none);
    must(found > 0 && none > 0);
}
END_TEST

static size_t input_at(const char *name)
{
    size_t i = plan_input_named(name);
    must(i != UNG_NO_INDEX);
    return i;
}

static double lift(const ung_job_plan_in *in, size_t step, const char *code, const char *input)
{
    double value = 7;
    ck_assert_int_eq(ung_job_plan_lift(in, step, code, input_at(input), &value, NULL), UNG_OK);
    return value;
}

START_TEST(lifts_by_hand)
{
    /* Growth has a formula: six weeks are enough, whatever the horse. */
    ung_job_plan_in in = pony();
    in.days = 56;
    ck_near(lift(&in, UNG_PLAN_growth, "long_interval", "days"), 42, 1e-6);
    /* A caution that does not stand needs no change; a value that was not given cannot be moved. */
    must(lift(&in, UNG_PLAN_growth, "long_interval", "body_mass_kg") != 230);
    in.days = 28;
    must(lift(&in, UNG_PLAN_growth, "long_interval", "days") == 28);
    must(lift(&in, UNG_PLAN_growth, "long_interval", "body_mass_kg") == 230);
    must(isnan(lift(&in, UNG_PLAN_growth, "long_interval", "wall_thickness_mm")));
    /* Another way of driving leaves the first one a comparison, unless its own margins are broken too. */
    in = saddle_horse();
    in.inset_mm = in.other_inset_mm = 3.5, in.screw_length_mm = (double)NAN;
    in.entry_height_mm = in.other_entry_height_mm = 9;
    must(stands(&(ung_job_plan_out[]){plan_of(&in)}[0], UNG_PLAN_screw, "breach"));
    must(lift(&in, UNG_PLAN_screw, "breach", "screw_way_count") == 2);
    in.entry_height_mm = 40;
    must(isnan(lift(&in, UNG_PLAN_screw, "breach", "screw_way_count")));
    in.entry_height_mm = 9;
    /* Steps that only compare can be asked as well: the narrow tape is not the one that is wrapped. */
    in = saddle_horse();
    in.passes_count = 1, in.anchor_turns = 0;
    double enough = lift(&in, UNG_PLAN_narrow_tape, "thin", "passes_count");
    in.passes_count = enough;
    must(plan_of(&in).narrow_tape.out.layers >= 3);
    in.passes_count = enough - 1;
    must(plan_of(&in).narrow_tape.out.layers < 3);
    /* No number of draws and no seed makes a wall thicker; there are four billion of them. */
    in = thin_walled_horse();
    in.cup_count = 0;
    must(isnan(lift(&in, UNG_PLAN_screw, "breach", "seed_count")));
    must(isnan(lift(&in, UNG_PLAN_screw, "breach", "samples_count")));
}
END_TEST

/* Cup, film and samples are left out of the search where they do not matter, and stay in the answer where they do. */
START_TEST(a_lift_counts_with_cup_and_samples)
{
    ung_job_plan_in in = pony();
    in.temperature_c = 30, in.samples_count = 200;
    ung_job_plan_out plan = plan_of(&in);
    must(stands(&plan, UNG_PLAN_timeline, "late"));
    double cool = lift(&in, UNG_PLAN_timeline, "late", "temperature_c");
    must(cool < 30);
    in.temperature_c = cool;
    plan = plan_of(&in);
    must(!stands(&plan, UNG_PLAN_timeline, "late") && plan.timeline.out.chance_fraction <= in.limit_fraction);
    ck_assert_int_eq(plan.state[UNG_PLAN_cup], UNG_STEP_DONE);
    in.temperature_c = cool + 0.01;
    must(plan_of(&in).timeline.out.chance_fraction > in.limit_fraction);
    /* More adhesive in the cup: more layers of tape ask for it, and the cup is tried before they are told. */
    in = pony();
    in.passes_count = 1;
    ung_job_plan_in quick = in;
    quick.cup_count = 0;
    must(lift(&in, UNG_PLAN_tape, "thin", "passes_count") == lift(&quick, UNG_PLAN_tape, "thin", "passes_count"));
}
END_TEST

START_TEST(a_lift_is_refused_by_name)
{
    ung_job_plan_in in = thin_walled_horse(), kept = in;
    in.cup_count = kept.cup_count = 0;
    size_t tilt = input_at("tilt_deg");
    double value = 7;
    ung_fault fault;
    const ung_job_plan_in *volatile no_in = NULL;
    const char *volatile no_code = NULL;
    double *volatile no_value = NULL;
    static const struct {
        const char *field;
        int in, code, value;
    } nulls[] = {{"in", 0, 1, 1}, {"code", 1, 0, 1}, {"value", 1, 1, 0}, {"in", 0, 0, 0}};
    for (size_t k = 0; k < sizeof nulls / sizeof *nulls; k++)
        for (int told = 0; told < 2; told++) {
            ck_assert_int_eq(ung_job_plan_lift(nulls[k].in ? &in : no_in, UNG_PLAN_screw,
                                               nulls[k].code ? "breach" : no_code, tilt,
                                               nulls[k].value ? &value : no_value, told ? &fault : NULL),
                             UNG_NULL);
            if (told) {
                ck_assert_str_eq(fault.field, nulls[k].field);
                ck_assert_str_eq(fault.calculation, "job_plan");
                ck_assert_int_eq(fault.status, UNG_NULL);
            }
            must(value == 7);
        }
    static const struct {
        size_t step;
        const char *code;
        int input; /* 0: none such */
        const char *field;
    } unknown[] = {{UNG_PLAN_STEP_COUNT, "breach", 1, "step"},
                   {UNG_NO_INDEX, "breach", 1, "step"},
                   {UNG_PLAN_screw, "breac", 1, "code"},
                   {UNG_PLAN_screw, "breach_", 1, "code"},
                   {UNG_PLAN_screw, "", 1, "code"},
                   {UNG_PLAN_hold, "breach", 1, "code"},
                   {UNG_PLAN_screw, "breach", 0, "input"}};
    for (size_t k = 0; k < sizeof unknown / sizeof *unknown; k++)
        for (int told = 0; told < 2; told++) {
            value = 7;
            ck_assert_int_eq(ung_job_plan_lift(&in, unknown[k].step, unknown[k].code,
                                               unknown[k].input ? tilt : ung_plan_input_count(), &value,
                                               told ? &fault : NULL),
                             UNG_UNKNOWN);
            must(isnan(value));
            if (told) {
                ck_assert_str_eq(fault.field, unknown[k].field);
                ck_assert_str_eq(fault.calculation, "job_plan");
                ck_assert_int_eq(fault.status, UNG_UNKNOWN);
                char text[UNG_FAULT_TEXT];
                must(strlen(ung_fault_text(&fault, text)) > 0);
            }
        }
    /* A plan that is refused has no cautions to lift. */
    in.body_mass_kg = 5;
    value = 7;
    ck_assert_int_eq(ung_job_plan_lift(&in, UNG_PLAN_screw, "breach", tilt, &value, &fault), UNG_RANGE);
    must(isnan(value));
    ck_assert_str_eq(fault.field, "body_mass_kg");
    in.body_mass_kg = kept.body_mass_kg;
    /* It only reads, and says that it is fine. */
    ck_assert_int_eq(ung_job_plan_lift(&in, UNG_PLAN_screw, "breach", tilt, &value, &fault), UNG_OK);
    ck_assert_int_eq(fault.status, UNG_OK);
    must(memcmp(&in, &kept, sizeof in) == 0);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "plan_search");
    tcase_set_timeout(tests, 600);
    tcase_add_test(tests, the_length_is_the_longest_of_the_box);
    tcase_add_test(tests, lengths_by_hand);
    tcase_add_test(tests, the_entry_has_the_most_margin);
    tcase_add_test(tests, passes_are_enough_and_use_up_the_rolls);
    tcase_add_test(tests, passes_by_hand);
    tcase_add_test(tests, stops_are_lifted_by_the_nearest_value);
    tcase_add_test(tests, warnings_are_lifted_by_the_nearest_value);
    tcase_add_test(tests, lifts_by_hand);
    tcase_add_test(tests, a_lift_counts_with_cup_and_samples);
    tcase_add_test(tests, a_lift_is_refused_by_name);
    return finish(runner);
}
