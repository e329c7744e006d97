/* The plan: its wiring against hand-written expectations, its steps against the single calculations, what is refused,
 * what is left out and why, its variants, and its texts. */
#include "../plan.h"

enum { TASK_ROWS = 6, WORK = 6 * 1472 }; /* ung_workspace of the timeline for its tasks */

/* ---- Description ---- */

START_TEST(description_fits_the_structs)
{
    ck_assert_uint_eq(ung_plan_input_count() * sizeof(double), sizeof(ung_job_plan_in));
    ck_assert_ptr_null(ung_plan_input(ung_plan_input_count()).field.name);
    ck_assert_ptr_null(ung_plan_input(ung_plan_input_count()).calculation);
    ck_assert_ptr_null(ung_plan_step(UNG_PLAN_STEP_COUNT).name);
    ung_job_plan_in standard = ung_job_plan_standard();
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        ung_plan_asked asked = ung_plan_input(i);
        const ung_field *f = &asked.field;
        must_msg(plan_input_named(f->name) == i, "%s stands twice", f->name);
        must(same_bits(((const double *)&standard)[i], f->standard) || isnan(f->standard));
        must(strlen(f->meaning) > 0 && (!asked.found || isnan(f->standard)));
        if (!*asked.calculation) {
            ck_assert_str_eq(asked.original, f->name);
            continue;
        }
        /* The row is the calculation's own, but for name, meaning and a standard that another step finds. */
        const ung_calculation *c = ung_calculation_find(asked.calculation);
        must_msg(c != NULL, "%s", asked.calculation);
        const ung_field *row = ung_input(c, input_named(c, asked.original));
        must_msg(row->lower == f->lower && row->upper == f->upper && row->usual_lower == f->usual_lower &&
                     row->usual_upper == f->usual_upper && row->whole == f->whole &&
                     row->standard_kind == f->standard_kind && (asked.found || same_bits(row->standard, f->standard)),
                 "%s", f->name);
        must_msg(same_text(f->name, asked.original) == same_text(f->meaning, row->meaning), "%s", f->name);
    }
    /* By hand: a few places, so that the struct's order is the table's. */
    ck_assert_str_eq(ung_plan_input(0).field.name, "hoof_length_mm");
    ck_assert_uint_eq(plan_input_named("body_mass_kg"), offsetof(ung_job_plan_in, body_mass_kg) / sizeof(double));
    ck_assert_uint_eq(plan_input_named("smooth_high_s"), offsetof(ung_job_plan_in, smooth_high_s) / sizeof(double));
    ck_assert_str_eq(ung_step_state_text(UNG_STEP_DONE), "done");
    ck_assert_str_eq(ung_step_state_text(UNG_STEP_REFUSED), "refused");
    ck_assert_str_eq(ung_step_state_text((ung_step_state)4), "");
    ck_assert_uint_eq(ung_workspace(ung_job_timeline_contract(), UNG_PLAN_TASKS), WORK);
}
END_TEST

/* Chosen, not published: written here again so that none changes unnoticed. */
START_TEST(own_fields_are_as_chosen)
{
    static const struct {
        const char *name;
        double lower, upper, usual_lower, usual_upper, standard;
        int whole;
    } own[] = {
        {"stock_step_mm", 0.5, 50, 5, 13, 6.35, 0},  {"screw_way_count", 0, 2, 0, 2, 1, 1},
        {"foam_count", 0, 1, 0, 1, 0, 1},            {"cast_count", 0, 1, 0, 1, 1, 1},
        {"recheck_days", 1, 60, 1, 14, 7, 0},        {"cup_count", 0, 1, 0, 1, 1, 1},
        {"heat_count", 0, 1, 0, 1, 0, 1},            {"mix_low_s", 0, 7200, 5, 900, 20, 0},
        {"mix_likely_s", 0, 7200, 5, 900, 30, 0},    {"mix_high_s", 0, 7200, 5, 900, 60, 0},
        {"lay_low_s", 0, 7200, 5, 900, 40, 0},       {"lay_likely_s", 0, 7200, 5, 900, 60, 0},
        {"lay_high_s", 0, 7200, 5, 900, 120, 0},     {"place_low_s", 0, 7200, 5, 900, 15, 0},
        {"place_likely_s", 0, 7200, 5, 900, 30, 0},  {"place_high_s", 0, 7200, 5, 900, 60, 0},
        {"drive_low_s", 0, 7200, 5, 900, 30, 0},     {"drive_likely_s", 0, 7200, 5, 900, 60, 0},
        {"drive_high_s", 0, 7200, 5, 900, 150, 0},   {"wrap_low_s", 0, 7200, 5, 900, 60, 0},
        {"wrap_likely_s", 0, 7200, 5, 900, 90, 0},   {"wrap_high_s", 0, 7200, 5, 900, 180, 0},
        {"smooth_low_s", 0, 7200, 5, 900, 30, 0},    {"smooth_likely_s", 0, 7200, 5, 900, 45, 0},
        {"smooth_high_s", 0, 7200, 5, 900, 90, 0},
    };
    size_t seen = 0;
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        ung_field field = ung_plan_input(i).field, *f = &field;
        if (*ung_plan_input(i).calculation)
            continue;
        must(seen < sizeof own / sizeof *own);
        ck_assert_str_eq(f->name, own[seen].name);
        must_msg(f->lower == own[seen].lower && f->upper == own[seen].upper &&
                     f->usual_lower == own[seen].usual_lower && f->usual_upper == own[seen].usual_upper &&
                     f->standard == own[seen].standard && f->whole == own[seen].whole,
                 "%s", f->name);
        must(f->standard_kind == UNG_CHOICE && strlen(f->meaning) > 0);
        seen++;
    }
    ck_assert_uint_eq(seen, sizeof own / sizeof *own);
}
END_TEST

/* What can be chosen for the job; the rest are measures of the horse, products and the day.  Written here again: a
 * margin or a strength that became a choice would be offered as a way out of a caution. */
START_TEST(choices_are_as_written_here)
{
    static const char *const choices =
        "low_mm high_toe_mm high_heel_mm overhang_mm upper_layer_mm edge_bevel_deg screw_diameter_mm screw_length_mm "
        "inset_mm tilt_deg head_recess_mm entry_height_mm dip_deg wall_recess_mm other_inset_mm other_tilt_deg "
        "other_entry_height_mm other_dip_deg other_screw_count screw_way_count screw_count foam_count "
        "shoe_thickness_mm pad_mm cast_count tape_width_mm overlap_fraction passes_count anchor_turns "
        "stretch_fraction film_mm groove_depth_mm groove_width_mm groove_spacing_mm wood_film_mm top_film_mm "
        "bevel_run_mm bevel_angle_deg build_length_mm rear_fraction gait_count setback_mm wedge_deg days "
        "recheck_days temperature_c mass_g surface_cm2 water_c";
    size_t words = 1, seen = 0;
    for (const char *c = choices; *c; c++)
        words += *c == ' ';
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        ung_plan_asked asked = ung_plan_input(i);
        must_msg(asked.chosen == has_word(choices, asked.field.name), "%s", asked.field.name);
        seen += (size_t)asked.chosen;
        if (strstr(asked.field.name, "margin") || strstr(asked.field.name, "_mpa") ||
            strstr(asked.field.name, "least_") || strstr(asked.field.name, "limit"))
            must_msg(!asked.chosen, "%s", asked.field.name);
    }
    ck_assert_uint_eq(seen, words);
}
END_TEST

/* Values that another step, or a search, finds unless they are given. */
START_TEST(found_values_are_as_written_here)
{
    static const char *const found =
        "low_mm perimeter_mm ground_area_mm2 circumference_low_mm circumference_high_mm band_height_mm "
        "bonded_area_mm2 wood_area_mm2 top_area_mm2 wall_thickness_mm screw_diameter_mm screw_length_mm "
        "entry_height_mm other_border_width_mm other_wall_thickness_mm other_wall_angle_deg other_sole_horn_mm "
        "other_inset_mm other_tilt_deg other_entry_height_mm other_dip_deg other_screw_count root_diameter_mm "
        "pitch_mm head_diameter_mm wood_gravity_ratio wood_density_g_ml shoe_mass_g passes_count shear_n_per_kg "
        "ambient_c mass_g room_c samples_count";
    size_t words = 1, seen = 0;
    for (const char *c = found; *c; c++)
        words += *c == ' ';
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        ung_plan_asked asked = ung_plan_input(i);
        must_msg(asked.found == has_word(found, asked.field.name), "%s", asked.field.name);
        seen += (size_t)asked.found;
    }
    ck_assert_uint_eq(seen, words);
}
END_TEST

START_TEST(null_is_refused)
{
    ung_job_plan_in in = pony();
    ung_job_plan_out out, *volatile no_out = NULL; /* volatile: the compiler is not to see that it is NULL */
    const ung_job_plan_in *volatile no_in = NULL;
    /* By a pointer whose type does not promise what the header does. */
    ung_status (*volatile any_plan)(const ung_job_plan_in *, ung_job_plan_out *, ung_fault *) = ung_job_plan;
    ung_fault fault;
    ck_assert_int_eq(any_plan(&in, no_out, &fault), UNG_NULL);
    ck_assert_str_eq(fault.field, "out");
    ck_assert_str_eq(fault.calculation, "job_plan");
    ck_assert_int_eq(any_plan(no_in, &out, &fault), UNG_NULL);
    ck_assert_str_eq(fault.field, "in");
    must(isnan(out.belt.out.slant_height_mm));
    ck_assert_int_eq(any_plan(no_in, &out, NULL), UNG_NULL);
    ck_assert_int_eq(ung_job_plan(&in, &out, NULL), UNG_OK);
    ck_assert_uint_eq(ung_job_plan_cautions(NULL, NULL, 0), 0);
    ck_assert_uint_eq(ung_plan_items(NULL, NULL, 0), 0);
}
END_TEST

/* ---- Each step is its calculation, and nothing else ---- */

START_TEST(steps_are_the_single_calculations)
{
    for (size_t h = 0; h < HORSES; h++) {
        ung_job_plan_in in = invented_horse(h);
        ung_job_plan_out plan = plan_of(&in);
        const double *value = (const double *)&plan;
        for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
            ung_plan_part part = ung_plan_step(i);
            size_t outputs = ung_output_count(part.calculation);
            if (plan.state[i] == UNG_STEP_LEFT_OUT) {
                for (size_t j = 0; j < outputs; j++)
                    must(isnan(value[part.out + j]));
                ck_assert_int_eq(plan.fault[i].status, UNG_OK);
                continue;
            }
            double out[UNG_FIELDS_MOST];
            ung_fault fault;
            ung_job_step tasks[TASK_ROWS];
            ung_step_time times[TASK_ROWS];
            static double work[WORK];
            memcpy(tasks, plan.tasks, sizeof tasks);
            ung_rows rows[] = {{(double *)tasks, TASK_ROWS}, {(double *)times, TASK_ROWS}, {work, WORK}};
            ung_status status = ung_call(part.calculation, value + part.in, rows, out, &fault);
            if (status == UNG_RANGE && isnan(fault.value)) /* what another step would have found is missing */
                fault.status = status = UNG_MISSING;
            ck_assert_int_eq(status, plan.fault[i].status);
            ck_assert_int_eq(status == UNG_OK, plan.state[i] == UNG_STEP_DONE);
            char here[UNG_FAULT_TEXT], there[UNG_FAULT_TEXT];
            ck_assert_str_eq(ung_fault_text(&fault, here), ung_fault_text(plan.fault + i, there));
            for (size_t j = 0; j < outputs; j++)
                must_msg(same_bits(out[j], value[part.out + j]), "%s: %s of %s", horse_name[h],
                         ung_output(part.calculation, j)->name, part.name);
            if (part.calculation == ung_job_timeline_contract())
                must(memcmp(times, plan.times, sizeof times) == 0);
        }
    }
}
END_TEST

START_TEST(sound_horses_have_every_step)
{
    for (size_t h = 0; h < SOUND_HORSES; h++) {
        ung_job_plan_in in = invented_horse(h);
        ung_job_plan_out plan = plan_of(&in);
        for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++)
            must_msg(plan.state[i] == UNG_STEP_DONE || plan.state[i] == UNG_STEP_LEFT_OUT, "%s: %s %s", horse_name[h],
                     ung_plan_step(i).name, ung_step_state_text(plan.state[i]));
    }
}
END_TEST

/* ---- Wiring ---- */

/* What a step gets that is neither the plan's input of the same name nor its calculation's standard: by hand. */
typedef struct wire {
    const char *step, *field;
    double value;
} wire;
enum { WIRES_MOST = 240 };
#define WIRE(step, field, value) wires[n++] = (wire){#step, #field, value}

/* What is the same for the three sound horses. */
static size_t chain(const ung_job_plan_in *in, const ung_job_plan_out *p, wire *wires)
{
    size_t n = 0;
    WIRE(tape, circumference_low_mm, p->belt.out.circumference_low_mm);
    WIRE(tape, circumference_high_mm, p->belt.out.circumference_high_mm);
    WIRE(tape, band_height_mm, p->belt.out.slant_height_mm);
    WIRE(narrow_tape, circumference_low_mm, p->belt.out.circumference_low_mm);
    WIRE(narrow_tape, circumference_high_mm, p->belt.out.circumference_high_mm);
    WIRE(narrow_tape, band_height_mm, p->belt.out.slant_height_mm);
    WIRE(narrow_tape, tape_width_mm, 2 * 25.4);
    WIRE(wide_tape, circumference_low_mm, p->belt.out.circumference_low_mm);
    WIRE(wide_tape, circumference_high_mm, p->belt.out.circumference_high_mm);
    WIRE(wide_tape, band_height_mm, p->belt.out.slant_height_mm);
    WIRE(wide_tape, tape_width_mm, 3 * 25.4);
    WIRE(tape, waste_fraction, in->tape_waste_fraction);
    WIRE(narrow_tape, waste_fraction, in->tape_waste_fraction);
    WIRE(wide_tape, waste_fraction, in->tape_waste_fraction);
    WIRE(glue, waste_fraction, in->glue_waste_fraction);
    WIRE(packing, waste_fraction, in->packing_waste_fraction);
    WIRE(dam, waste_fraction, in->dam_waste_fraction);
    WIRE(set, wanted_time_s, in->wanted_set_time_s);
    WIRE(recheck, days, in->recheck_days);
    WIRE(cooler, wanted_time_s, p->timeline.out.needed_working_time_s);
    WIRE(grip_need, wanted_axial_n, p->demand.out.needed_screw_n);
    WIRE(grip_need, wanted_lateral_n, p->demand.out.needed_screw_n);
    WIRE(bond_need, bonded_area_mm2, p->belt.out.bonded_area_mm2);
    WIRE(bond_need, lap_mm, in->high_heel_mm);
    WIRE(bond_need, cover_thickness_mm, p->tape.out.thickness_mm);
    WIRE(bond_need, demand_n, p->demand.out.demand_n);
    WIRE(glue, bonded_area_mm2, p->belt.out.bonded_area_mm2);
    WIRE(glue, wood_area_mm2, p->belt.out.shoe_area_mm2);
    WIRE(glue, top_area_mm2, p->belt.out.covered_area_mm2);
    WIRE(mass, ground_area_mm2, p->belt.out.ground_area_mm2);
    WIRE(mass, perimeter_mm, p->belt.out.perimeter_mm);
    WIRE(mass, upper_thickness_mm, in->upper_layer_mm);
    WIRE(mass, lower_thickness_mm, in->shoe_thickness_mm - in->upper_layer_mm);
    WIRE(mass, tape_length_mm, p->tape.out.tape_length_mm);
    WIRE(mass, adhesive_ml, p->glue.out.net_ml);
    WIRE(mass, putty_ml, p->packing.out.rear_ml);
    WIRE(mass, cushion_ml, p->packing.out.front_ml);
    WIRE(mass, removed_ml, p->bevel.out.removed_ml);
    WIRE(demand, shoe_mass_g, p->mass.out.total_g);
    WIRE(demand, axial_design_n, 0);
    WIRE(demand, lateral_design_n, 0);
    WIRE(demand, bond_capacity_first_n, 0);
    WIRE(demand, bond_capacity_mean_n, 0);
    WIRE(bond, bonded_area_mm2, p->belt.out.bonded_area_mm2);
    WIRE(bond, lap_mm, in->high_heel_mm); /* lower than at the toe */
    WIRE(bond, cover_thickness_mm, p->tape.out.thickness_mm);
    WIRE(bond, demand_n, p->demand.out.demand_n);
    WIRE(hold, shoe_mass_g, p->mass.out.total_g);
    WIRE(hold, axial_design_n, p->grip.out.axial_design_n);
    WIRE(hold, lateral_design_n, p->grip.out.lateral_design_n);
    WIRE(hold, bond_capacity_first_n, p->bond.out.capacity_first_n);
    WIRE(hold, bond_capacity_mean_n, p->bond.out.capacity_mean_n);
    WIRE(bond_only, shoe_mass_g, p->mass.out.total_g);
    WIRE(bond_only, screw_count, 0);
    WIRE(bond_only, axial_design_n, 0);
    WIRE(bond_only, lateral_design_n, 0);
    WIRE(bond_only, bond_capacity_first_n, p->bond.out.capacity_first_n);
    WIRE(bond_only, bond_capacity_mean_n, p->bond.out.capacity_mean_n);
    WIRE(through, belt_top_mm, in->high_heel_mm);
    WIRE(through, head_recess_mm, in->wall_recess_mm); /* head_recess_mm is of a head in the shoe */
    WIRE(through, inner_margin_mm, 3); /* its own standard: more than the plan's 2 */
    WIRE(cup, mass_g, in->adhesive_density_g_ml * p->glue.out.first_coat_ml); /* less than a pack */
    WIRE(cup, start_c, in->temperature_c);
    WIRE(heat, adhesive_mm, in->film_mm);
    WIRE(heat, start_c, in->temperature_c);
    WIRE(heat, density_g_ml, in->adhesive_density_g_ml);
    WIRE(set, layers, p->tape.out.layers);
    WIRE(timeline, working_time_s, least(p->working.out.safe_time_s, p->cup.out.gel_time_s));
    return n;
}

/* Where none of the box fits, the shortest that the calculation takes, so that it says why. */
static double or_shortest(double length)
{
    return isnan(length) ? 8 : length;
}

static size_t pony_wires(const ung_job_plan_in *in, const ung_job_plan_out *p, wire *wires)
{
    size_t n = chain(in, p, wires);
    WIRE(belt, low_mm, -20); /* as deep as the shoe is thick */
    WIRE(screw, wall_thickness_mm, p->wall.out.wall_thickness_mm);
    WIRE(screw, screw_diameter_mm, p->gauge.out.screw_diameter_mm);
    WIRE(through, wall_thickness_mm, p->wall.out.wall_thickness_mm);
    WIRE(through, screw_diameter_mm, p->gauge.out.screw_diameter_mm);
    WIRE(through, screw_length_mm, or_shortest(longest_through_wall(p->through.in, in->stock_step_mm)));
    WIRE(mass, wood_density_g_ml, p->wood.out.density_kg_m3 / 1000);
    WIRE(lead, screw_diameter_mm, p->gauge.out.screw_diameter_mm);
    WIRE(lead, root_diameter_mm, p->gauge.out.root_diameter_mm);
    WIRE(lead, head_diameter_mm, p->gauge.out.head_diameter_mm);
    WIRE(lead, wood_gravity_ratio, p->wood.out.wood_gravity_ratio);
    WIRE(bevel, build_up_mm, p->tape.out.thickness_mm);
    WIRE(wear, build_up_mm, 0); /* the bevel takes the whole lap: run 10 over lap 6 */
    WIRE(wear, base_length_mm, 90); /* so the shoe stands on 100 less 10 mm */
    WIRE(grip, point_member_count, 1);
    WIRE(grip_need, point_member_count, 1);
    WIRE(grip, screw_diameter_mm, p->gauge.out.screw_diameter_mm);
    WIRE(grip_need, screw_diameter_mm, p->gauge.out.screw_diameter_mm);
    WIRE(grip, root_diameter_mm, p->gauge.out.root_diameter_mm);
    WIRE(grip_need, root_diameter_mm, p->gauge.out.root_diameter_mm);
    WIRE(grip, pitch_mm, p->gauge.out.pitch_mm);
    WIRE(grip_need, pitch_mm, p->gauge.out.pitch_mm);
    WIRE(grip, head_diameter_mm, p->gauge.out.head_diameter_mm);
    WIRE(grip_need, head_diameter_mm, p->gauge.out.head_diameter_mm);
    WIRE(grip, horn_length_mm, p->screw.out.embedded_mm);
    WIRE(grip_need, horn_length_mm, p->screw.out.embedded_mm);
    WIRE(grip, wood_length_mm, 18); /* 20 less the head's 2 */
    WIRE(grip_need, wood_length_mm, 18);
    WIRE(grip, wood_gravity_ratio, p->wood.out.wood_gravity_ratio);
    WIRE(grip_need, wood_gravity_ratio, p->wood.out.wood_gravity_ratio);
    WIRE(demand, shear_n_per_kg, 1.13); /* at the walk none is published: the standard of hold */
    WIRE(hold, shear_n_per_kg, 1.13);
    WIRE(bond_only, shear_n_per_kg, 1.13);
    WIRE(demand, axis_tilt_deg, 10);
    WIRE(hold, axis_tilt_deg, 10);
    WIRE(bond_only, axis_tilt_deg, 10);
    WIRE(bond, horn_thickness_mm, p->wall.out.wall_thickness_mm);
    WIRE(bond_need, horn_thickness_mm, p->wall.out.wall_thickness_mm);
    WIRE(cup, ambient_c, 20); /* as warm as the adhesive */
    WIRE(set, room_c, 20);
    WIRE(timeline, samples_count, 0);
    return n;
}

static size_t saddle_horse_wires(const ung_job_plan_in *in, const ung_job_plan_out *p, wire *wires)
{
    size_t n = chain(in, p, wires);
    double here = longest_through_wall(p->through.in, in->stock_step_mm);
    double there = longest_through_wall(p->other_through.in, in->stock_step_mm);
    double other_way = or_shortest(here < there || isnan(there) ? here : there);
    WIRE(lead, wood_gravity_ratio, 0.5);
    WIRE(bevel, build_up_mm, p->tape.out.thickness_mm);
    WIRE(wear, build_up_mm, 0);
    WIRE(wear, base_length_mm, 118); /* 132 less the bevel's 14 */
    WIRE(grip, point_member_count, 1);
    WIRE(grip_need, point_member_count, 1);
    WIRE(other_wall, border_width_mm, 11.5);
    WIRE(other_wall, wall_angle_deg, 80);
    WIRE(other_screw, wall_thickness_mm, p->other_wall.out.wall_thickness_mm);
    WIRE(other_screw, wall_angle_deg, 80);
    WIRE(other_screw, sole_horn_mm, 4.5);
    WIRE(other_screw, inset_mm, 5.5);
    WIRE(other_screw, tilt_deg, 10);
    WIRE(through, screw_length_mm, other_way);
    WIRE(other_through, wall_thickness_mm, p->other_wall.out.wall_thickness_mm);
    WIRE(other_through, wall_angle_deg, 80);
    WIRE(other_through, sole_horn_mm, 4.5);
    WIRE(other_through, entry_height_mm, 11);
    WIRE(other_through, dip_deg, 62);
    WIRE(other_through, head_recess_mm, in->wall_recess_mm);
    WIRE(other_through, inner_margin_mm, 3);
    WIRE(other_through, belt_top_mm, in->high_heel_mm);
    WIRE(other_through, screw_length_mm, other_way);
    WIRE(grip, horn_length_mm, least(p->screw.out.embedded_mm, p->other_screw.out.embedded_mm));
    WIRE(grip_need, horn_length_mm, least(p->screw.out.embedded_mm, p->other_screw.out.embedded_mm));
    WIRE(grip, wood_length_mm, 23);
    WIRE(grip_need, wood_length_mm, 23);
    WIRE(demand, axis_tilt_deg, 12);
    WIRE(hold, axis_tilt_deg, 12);
    WIRE(bond_only, axis_tilt_deg, 12);
    WIRE(bond, horn_thickness_mm, 11.2); /* as given, not 12 sin 78 */
    WIRE(bond_need, horn_thickness_mm, 11.2);
    WIRE(set, room_c, 21); /* as warm as the air */
    return n;
}

static size_t draft_horse_wires(const ung_job_plan_in *in, const ung_job_plan_out *p, wire *wires)
{
    size_t n = chain(in, p, wires);
    ung_screw_through_in any_length = p->through.in;
    any_length.screw_length_mm = (double)NAN;
    double margin, entry = best_entry(any_length, in->stock_step_mm, &margin);
    must(margin >= 0);
    WIRE(belt, low_mm, -36);
    WIRE(through, wall_thickness_mm, p->wall.out.wall_thickness_mm);
    WIRE(through, screw_diameter_mm, p->gauge.out.screw_diameter_mm);
    WIRE(through, screw_length_mm, or_shortest(longest_through_wall(p->through.in, in->stock_step_mm)));
    WIRE(through, entry_height_mm, entry);
    WIRE(screw, wall_thickness_mm, p->wall.out.wall_thickness_mm);
    WIRE(screw, screw_diameter_mm, p->gauge.out.screw_diameter_mm);
    WIRE(screw, screw_length_mm, or_shortest(longest_from_shoe(p->screw.in, in->stock_step_mm)));
    WIRE(tape, passes_count, passes_wanted(p->tape.in));
    WIRE(narrow_tape, passes_count, passes_wanted(p->narrow_tape.in));
    WIRE(wide_tape, passes_count, passes_wanted(p->wide_tape.in));
    WIRE(mass, wood_density_g_ml, p->wood.out.density_kg_m3 / 1000);
    WIRE(lead, screw_diameter_mm, p->gauge.out.screw_diameter_mm);
    WIRE(lead, root_diameter_mm, p->gauge.out.root_diameter_mm);
    WIRE(lead, head_diameter_mm, p->gauge.out.head_diameter_mm);
    WIRE(lead, wood_gravity_ratio, p->wood.out.wood_gravity_ratio);
    WIRE(bevel, build_up_mm, 0); /* no tape under the heel */
    WIRE(wear, build_up_mm, 0);
    WIRE(wear, base_length_mm, 152);
    WIRE(grip, point_member_count, 2);
    WIRE(grip_need, point_member_count, 2);
    WIRE(grip, screw_diameter_mm, p->gauge.out.screw_diameter_mm);
    WIRE(grip_need, screw_diameter_mm, p->gauge.out.screw_diameter_mm);
    WIRE(grip, root_diameter_mm, p->gauge.out.root_diameter_mm);
    WIRE(grip_need, root_diameter_mm, p->gauge.out.root_diameter_mm);
    WIRE(grip, pitch_mm, p->gauge.out.pitch_mm);
    WIRE(grip_need, pitch_mm, p->gauge.out.pitch_mm);
    WIRE(grip, head_diameter_mm, p->gauge.out.head_diameter_mm);
    WIRE(grip_need, head_diameter_mm, p->gauge.out.head_diameter_mm);
    WIRE(grip, horn_length_mm, p->through.out.grip_mm);
    WIRE(grip_need, horn_length_mm, p->through.out.grip_mm);
    WIRE(grip, wood_length_mm, p->through.out.wood_length_mm);
    WIRE(grip_need, wood_length_mm, p->through.out.wood_length_mm);
    WIRE(grip, wood_gravity_ratio, p->wood.out.wood_gravity_ratio);
    WIRE(grip_need, wood_gravity_ratio, p->wood.out.wood_gravity_ratio);
    /* A horse that stands does not push along the ground. */
    WIRE(demand, shear_n_per_kg, 0);
    WIRE(hold, shear_n_per_kg, 0);
    WIRE(bond_only, shear_n_per_kg, 0);
    WIRE(demand, axis_tilt_deg, 90 - in->dip_deg);
    WIRE(hold, axis_tilt_deg, 90 - in->dip_deg);
    WIRE(bond_only, axis_tilt_deg, 90 - in->dip_deg);
    WIRE(bond, horn_thickness_mm, p->wall.out.wall_thickness_mm);
    WIRE(bond_need, horn_thickness_mm, p->wall.out.wall_thickness_mm);
    WIRE(heat, horn_mm, p->wall.out.wall_thickness_mm);
    WIRE(timeline, samples_count, 0);
    WIRE(set, room_c, 21); /* as warm as the air */
    return n;
}

/* Every field of every step that was not left out: wired by hand above, or else the plan's input of this name, or else
 * the calculation's standard. */
static void check_wiring(size_t horse, const ung_job_plan_in *in, const ung_job_plan_out *p, const wire *wires,
                         size_t n)
{
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
        ung_plan_part part = ung_plan_step(i);
        if (p->state[i] == UNG_STEP_LEFT_OUT)
            continue;
        for (size_t j = 0; j < ung_input_count(part.calculation); j++) {
            const ung_field *f = ung_input(part.calculation, j);
            size_t mine = plan_input_named(f->name);
            double wanted = mine != UNG_NO_INDEX ? ((const double *)in)[mine] : f->standard;
            for (size_t k = 0; k < n; k++)
                if (same_text(wires[k].step, part.name) && same_text(wires[k].field, f->name))
                    wanted = wires[k].value;
            double found = ((const double *)p)[part.in + j];
            /* 2 * 25.4 and what the code writes as a decimal may differ in the last bit; nothing else does. */
            must_msg(fabs(found - wanted) <= 1e-15 * fabs(wanted), "%s: %s of %s is %.17g, wanted is %.17g",
                     horse_name[horse], f->name, part.name, found, wanted);
        }
    }
    for (size_t k = 0; k < n; k++) { /* no expectation of a field that is not there */
        const ung_calculation *c = ung_plan_step(step_named(wires[k].step)).calculation;
        must(input_named(c, wires[k].field) < ung_input_count(c));
    }
}

/* Standard values moved a little, so that none of them hides a wire that is not there. */
static ung_job_plan_in off_standard(ung_job_plan_in in)
{
    double *value = (double *)&in;
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        ung_field field = ung_plan_input(i).field, *f = &field;
        double moved = value[i] + (f->usual_upper - f->usual_lower) / 64;
        if (value[i] == ung_plan_input(i).field.standard && !f->whole && !same_text(f->name, "build_length_mm"))
            value[i] = moved <= f->upper ? moved : value[i] - (f->usual_upper - f->usual_lower) / 64;
    }
    in.hind_count = 1;
    if (in.build_length_mm == 0) /* else the tape under the heel stays */
        in.wrapped_before_count = 0;
    return in;
}

START_TEST(wiring_is_as_written_here)
{
    static size_t (*const wires_of[SOUND_HORSES])(const ung_job_plan_in *, const ung_job_plan_out *, wire *) = {
        pony_wires, saddle_horse_wires, draft_horse_wires};
    for (size_t k = 0; k < (size_t)2 * SOUND_HORSES; k++) {
        size_t h = k / 2;
        ung_job_plan_in in = k % 2 ? off_standard(invented_horse(h)) : invented_horse(h);
        ung_job_plan_out plan = plan_of(&in);
        wire wires[WIRES_MOST];
        size_t n = wires_of[h](&in, &plan, wires);
        must(n <= WIRES_MOST);
        check_wiring(h, &in, &plan, wires, n);
        const double tasks[TASK_ROWS][3] = {
            {in.mix_low_s, in.mix_likely_s, in.mix_high_s},       {in.lay_low_s, in.lay_likely_s, in.lay_high_s},
            {in.place_low_s, in.place_likely_s, in.place_high_s}, {in.drive_low_s, in.drive_likely_s, in.drive_high_s},
            {in.wrap_low_s, in.wrap_likely_s, in.wrap_high_s},
            {in.smooth_low_s, in.smooth_likely_s, in.smooth_high_s}};
        for (size_t j = 0; j < TASK_ROWS; j++) {
            must(plan.tasks[j].low_s == tasks[j][0] && plan.tasks[j].likely_s == tasks[j][1] &&
                 plan.tasks[j].high_s == tasks[j][2]);
            must(plan.tasks[j].working_count == 1);
        }
    }
}
END_TEST

START_TEST(the_gait_gives_the_shear)
{
    ung_job_plan_in in = pony();
    for (int gait = 1; gait <= 4; gait++) {
        in.gait_count = gait;
        ung_job_plan_out plan = plan_of(&in);
        const ung_limb_load_out *load = &plan.load.out;
        double wanted =
            load->horizontal_known_count > 0 ? most(load->braking_n_per_kg, load->propulsive_n_per_kg) : 1.13;
        must(plan.hold.in.shear_n_per_kg == wanted);
    }
    in.shear_n_per_kg = 0.9;
    must(plan_of(&in).hold.in.shear_n_per_kg == 0.9);
}
END_TEST

/* ---- Refusals ---- */

static void refused_by_name(ung_job_plan_in in, size_t i, double value, ung_status wanted)
{
    ung_job_plan_out plan;
    ung_fault fault;
    ((double *)&in)[i] = value;
    ung_status status = ung_job_plan(&in, &plan, &fault);
    must_msg(status == wanted, "%s = %g: %s", ung_plan_input(i).field.name, value, ung_status_text(status));
    ck_assert_str_eq(fault.field, ung_plan_input(i).field.name);
    ck_assert_str_eq(fault.calculation, "job_plan");
    ck_assert_uint_eq(fault.input, i + 1);
    must(isnan(value) ? isnan(fault.value) : fault.value == value);
    char text[UNG_FAULT_TEXT];
    must(strstr(ung_fault_text(&fault, text), ung_plan_input(i).field.name) != NULL);
    for (size_t k = 0; k < UNG_PLAN_STEP_COUNT; k++) {
        ck_assert_int_eq(plan.state[k], UNG_STEP_LEFT_OUT);
        ung_plan_part part = ung_plan_step(k);
        for (size_t j = 0; j < ung_output_count(part.calculation); j++)
            must(isnan(((double *)&plan)[part.out + j]));
    }
    ck_assert_uint_eq(ung_plan_items(&plan, NULL, 0), 0);
    ck_assert_uint_eq(ung_job_plan_cautions(&plan, NULL, 0), 0);
}

START_TEST(ranges_are_refused_by_name)
{
    ung_job_plan_in in = pony();
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        ung_field field = ung_plan_input(i).field, *f = &field;
        refused_by_name(in, i, nextafter(f->upper, INFINITY), UNG_RANGE);
        refused_by_name(in, i, nextafter(f->lower, -INFINITY), UNG_RANGE);
        refused_by_name(in, i, INFINITY, UNG_RANGE);
        refused_by_name(in, i, -INFINITY, UNG_RANGE);
        if (f->whole)
            refused_by_name(in, i, f->lower + 0.5, UNG_WHOLE);
        /* Not a number where a standard value exists is a mistake, not a value that was not given. */
        if (!isnan(ung_plan_input(i).field.standard))
            refused_by_name(in, i, (double)NAN, UNG_RANGE);
    }
}
END_TEST

/* ---- What is missing ---- */

/* Which measurements and which steps each step cannot do without, by hand.  The screws are not in the list of hold:
 * screws that are not known to keep their margins are not counted. */
static const struct {
    const char *step, *inputs, *steps;
} needs[] = {
    {"belt", "hoof_length_mm hoof_width_mm high_toe_mm high_heel_mm shoe_thickness_mm", ""},
    {"wall", "border_width_mm wall_angle_deg", ""},
    {"screw", "wall_angle_deg inset_mm shoe_thickness_mm", "wall gauge"},
    {"through", "wall_angle_deg shoe_thickness_mm", "wall gauge"},
    {"lead", "", "gauge"},
    {"tape", "tape_width_mm", "belt"},
    {"narrow_tape", "", "belt"},
    {"wide_tape", "", "belt"},
    {"glue", "", "belt"},
    {"bevel", "ground_length_mm shoe_thickness_mm bevel_run_mm bevel_angle_deg width_start_mm width_end_mm", ""},
    {"packing", "sole_area_mm2 dish_depth_mm", ""},
    {"dam", "rope_length_mm", ""},
    {"mass", "shoe_thickness_mm body_mass_kg tape_width_mm", "belt glue tape"},
    {"load", "body_mass_kg gait_count", ""},
    {"grip", "horn_shear_mpa horn_bearing_mpa", "gauge screw"},
    {"grip_need", "", "gauge screw demand"},
    {"demand", "body_mass_kg", "mass"},
    {"bond", "adhesive_shear_modulus_mpa cover_modulus_mpa shear_strength_mpa", "belt wall tape demand"},
    {"bond_need", "adhesive_shear_modulus_mpa cover_modulus_mpa", "belt wall tape demand"},
    {"hold", "body_mass_kg", "mass bond"},
    {"bond_only", "body_mass_kg", "mass bond"},
    {"lever", "vertical_force_n breakover_mm body_mass_kg", ""},
    {"wear", "ground_length_mm shoe_thickness_mm toe_rate_mm_per_day heel_rate_mm_per_day", ""},
    {"working", "reference_time_s reference_temperature_c temperature_c", ""},
    {"cup", "reference_time_s reference_temperature_c temperature_c surface_cm2", ""}, /* a whole pack */
    {"heat", "reference_time_s reference_temperature_c temperature_c horn_c", "wall"},
    {"set", "", "tape"},
    {"cooler", "reference_time_s reference_temperature_c temperature_c", "timeline"},
};

static void lacking(size_t horse, const char *missing)
{
    ung_job_plan_in in = invented_horse(horse);
    ung_job_plan_out before = plan_of(&in);
    ((double *)&in)[plan_input_named(missing)] = (double)NAN;
    ung_job_plan_out plan = plan_of(&in);
    int lacks[UNG_PLAN_STEP_COUNT] = {0};
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
        const char *step = ung_plan_step(i).name;
        int needed = 0;
        for (size_t k = 0; k < sizeof needs / sizeof *needs; k++)
            if (same_text(needs[k].step, step)) {
                needed |= has_word(needs[k].inputs, missing);
                for (size_t j = 0; j < i; j++)
                    needed |= lacks[j] && has_word(needs[k].steps, ung_plan_step(j).name);
            }
        /* Through the wall, the strength hangs on the other screw step. */
        needed |= has_word("grip grip_need", step) && lacks[UNG_PLAN_through];
        /* Tape under the heel is as thick as it is on the wall. */
        needed |= has_word("bevel wear", step) && in.build_length_mm > 0 && lacks[UNG_PLAN_tape];
        /* Without the screw's strength, or their number, a hold with screws is not known. */
        int screws = (in.screw_way_count < 2 ? plan.screw.out.margin_mm : plan.through.out.margin_mm) >= 0;
        needed |= same_text(step, "hold") && screws && lacks[UNG_PLAN_grip];
        needed |= screws && same_text(missing, "screw_count") &&
                  (has_word("mass demand hold bond_only bond", step));
        /* The work is done before the safe time, or before the cup gels: one of the two is enough. */
        needed |= same_text(step, "timeline") && lacks[UNG_PLAN_working] && lacks[UNG_PLAN_cup];
        /* The way that was not chosen is not compared without its measure. */
        int dropped = same_text(step, "screw") && in.screw_way_count == 2 && same_text(missing, "inset_mm");
        if (before.state[i] == UNG_STEP_LEFT_OUT || dropped)
            needed = 0;
        lacks[i] = needed;
        ung_step_state wanted = needed ? UNG_STEP_LACKS : dropped ? UNG_STEP_LEFT_OUT : before.state[i];
        must_msg(plan.state[i] == wanted, "%s without %s: %s %s, wanted %s", horse_name[horse], missing, step,
                 ung_step_state_text(plan.state[i]), ung_step_state_text(wanted));
        if (!needed)
            continue;
        ung_plan_part part = ung_plan_step(i);
        for (size_t j = 0; j < ung_output_count(part.calculation); j++)
            must(isnan(((double *)&plan)[part.out + j]));
        char text[UNG_FAULT_TEXT];
        must(strlen(ung_fault_text(plan.fault + i, text)) > 0 && plan.fault[i].field != NULL);
    }
}

/* At the pony (screws from the shoe) and the draft horse (through the wall), where nothing stands in for a value. */
START_TEST(a_missing_value_leaves_out_what_needs_it)
{
    size_t tried = 0;
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        ung_job_plan_in standard = ung_job_plan_standard();
        const char *name = ung_plan_input(i).field.name;
        /* gauge and species only look up; the next test has them. */
        if (!isnan(((double *)&standard)[i]) || same_text(name, "gauge_count") || same_text(name, "species_count"))
            continue;
        lacking(0, name);
        lacking(2, name);
        tried++;
    }
    ck_assert_uint_ge(tried, 40);
    /* Nothing at all: only growth, which has standards for all that it needs. */
    ung_job_plan_in nothing = ung_job_plan_standard();
    ung_job_plan_out plan = plan_of(&nothing);
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++)
        must_msg(plan.state[i] != UNG_STEP_REFUSED, "%s", ung_plan_step(i).name);
    ck_assert_int_eq(plan.state[UNG_PLAN_growth], UNG_STEP_DONE);
    ck_assert_int_eq(plan.state[UNG_PLAN_belt], UNG_STEP_LACKS);
    ck_assert_str_eq(plan.fault[UNG_PLAN_belt].field, "hoof_length_mm");
}
END_TEST

START_TEST(a_value_that_is_given_is_not_looked_up)
{
    ung_job_plan_in in = pony();
    in.gauge_count = (double)NAN;
    ung_job_plan_out plan = plan_of(&in);
    ck_assert_int_eq(plan.state[UNG_PLAN_gauge], UNG_STEP_LEFT_OUT);
    ck_assert_int_eq(plan.state[UNG_PLAN_screw], UNG_STEP_LACKS);
    ck_assert_str_eq(plan.fault[UNG_PLAN_screw].field, "screw_diameter_mm");
    in.screw_diameter_mm = 3.5, in.root_diameter_mm = 2.4, in.pitch_mm = 1.4, in.head_diameter_mm = 7;
    in.species_count = (double)NAN;
    plan = plan_of(&in);
    ck_assert_int_eq(plan.state[UNG_PLAN_screw], UNG_STEP_DONE);
    ck_assert_int_eq(plan.state[UNG_PLAN_hold], UNG_STEP_DONE);
    must(plan.screw.in.screw_diameter_mm == 3.5 && plan.grip.in.pitch_mm == 1.4);
    /* No wood named: the standard of each calculation. */
    must(plan.lead.in.wood_gravity_ratio == ung_lead_hole_standard().wood_gravity_ratio);
    must(plan.grip.in.wood_gravity_ratio == ung_screw_hold_standard().wood_gravity_ratio);
    /* Given and looked up: given wins. */
    in.gauge_count = 12, in.species_count = 1, in.wood_gravity_ratio = 0.5, in.wall_thickness_mm = 8;
    plan = plan_of(&in);
    must(plan.screw.in.screw_diameter_mm == 3.5 && plan.lead.in.root_diameter_mm == 2.4);
    must(plan.grip.in.wood_gravity_ratio == 0.5 && plan.screw.in.wall_thickness_mm == 8);
    ck_assert_int_eq(plan.state[UNG_PLAN_wall], UNG_STEP_LEFT_OUT);
    in.low_mm = -11;
    must(plan_of(&in).belt.in.low_mm == -11);
}
END_TEST

START_TEST(a_refused_step_stops_only_what_needs_it)
{
    ung_job_plan_in in = thin_walled_horse();
    ung_job_plan_out plan = plan_of(&in);
    ck_assert_int_eq(plan.state[UNG_PLAN_bevel], UNG_STEP_REFUSED);
    ck_assert_str_eq(plan.fault[UNG_PLAN_bevel].field, "bevel_angle_deg");
    must(plan.mass.in.removed_ml == 0); /* at its heaviest */
    must(plan.wear.in.build_up_mm == plan.tape.out.thickness_mm); /* and the heel not dressed */
    must(plan.wear.in.base_length_mm == 0);
    ck_assert_int_eq(plan.state[UNG_PLAN_hold], UNG_STEP_DONE);
    in = pony();
    in.mix_likely_s = in.mix_low_s / 2;
    plan = plan_of(&in);
    ck_assert_int_eq(plan.state[UNG_PLAN_timeline], UNG_STEP_REFUSED);
    ck_assert_int_eq(plan.fault[UNG_PLAN_timeline].status, UNG_RELATION);
    /* Packing that was asked for and refused is not none. */
    in = pony();
    in.frog_height_mm = 40;
    in.frog_width_mm = 110;
    plan = plan_of(&in);
    ck_assert_int_eq(plan.state[UNG_PLAN_packing], UNG_STEP_REFUSED);
    ck_assert_int_eq(plan.state[UNG_PLAN_mass], UNG_STEP_LACKS);
    ck_assert_int_eq(plan.state[UNG_PLAN_grip], UNG_STEP_DONE);
    in = pony();
    in.sole_area_mm2 = (double)NAN;
    plan = plan_of(&in);
    must(plan.mass.in.putty_ml == 0 && plan.mass.in.cushion_ml == 0);
    ck_assert_int_eq(plan.state[UNG_PLAN_mass], UNG_STEP_DONE);
}
END_TEST

/* ---- Variants ---- */

START_TEST(without_screws_the_bond_is_alone)
{
    ung_job_plan_in in = pony();
    ung_job_plan_out with = plan_of(&in);
    in.screw_way_count = 0;
    ung_job_plan_out without = plan_of(&in);
    static const int screws[] = {UNG_PLAN_screw, UNG_PLAN_through, UNG_PLAN_lead, UNG_PLAN_grip};
    for (size_t i = 0; i < sizeof screws / sizeof *screws; i++)
        ck_assert_int_eq(without.state[screws[i]], UNG_STEP_LEFT_OUT);
    must(without.mass.in.screw_count == 0 && without.hold.in.screw_count == 0);
    must(with.mass.in.screw_count == 4 && with.hold.in.screw_count == 4);
    must(with.mass.out.total_g > without.mass.out.total_g);
    must(same_bits(without.hold.out.single_path_use_ratio, without.bond_only.out.single_path_use_ratio));
    must(without.hold.out.single_path_use_ratio == without.hold.out.bond_only_use_ratio);
    /* What they cost to leave out: with them, the bond alone is one path of the two. */
    must(with.hold.out.single_path_use_ratio <= with.bond_only.out.single_path_use_ratio);
    must(same_bits(with.hold.out.bond_only_use_ratio, with.bond_only.out.bond_only_use_ratio));
    ck_relative(with.hold.out.loss_without_screws_ratio,
                with.bond_only.out.single_path_use_ratio / with.hold.out.single_path_use_ratio, 1e-15); /* a division */
}
END_TEST

START_TEST(a_broken_margin_drives_no_screws)
{
    ung_job_plan_in in = thin_walled_horse();
    ung_job_plan_out plan = plan_of(&in);
    must(plan.screw.out.margin_mm < 0);
    must(plan.screw.in.tilt_deg == -10 && plan.screw.in.screw_length_mm == 38); /* never adjusted */
    must(plan.hold.in.screw_count == 0 && plan.mass.in.screw_count == 0 && plan.demand.in.screw_count == 0);
    must(same_bits(plan.hold.out.single_path_use_ratio, plan.bond_only.out.single_path_use_ratio));
    ung_plan_caution caution[64];
    size_t n = ung_job_plan_cautions(&plan, caution, 64);
    must(n > 0 && n <= 64 && caution[0].caution.severity == UNG_STOP);
    must(caution[0].step == UNG_PLAN_screw);
    ung_plan_item item[UNG_PLAN_ITEMS_MOST];
    size_t items = ung_plan_items(&plan, item, UNG_PLAN_ITEMS_MOST);
    for (size_t i = 0; i < items; i++) {
        must(!has_word("screws screw_thread horn_bit wood_bit drill_from_shoe "
                       "drill_slant drill_stop drive_screws heads_in_shoe free_heads",
                       item[i].code));
        if (same_text(item[i].code, "screw_longest"))
            must(same_text(item[i].caution, caution[0].caution.code));
    }
}
END_TEST

START_TEST(foam_holds_no_screws)
{
    ung_job_plan_in in = pony();
    in.foam_count = 1;
    ung_job_plan_out plan = plan_of(&in);
    ck_assert_int_eq(plan.state[UNG_PLAN_screw], UNG_STEP_LEFT_OUT);
    ck_assert_int_eq(plan.state[UNG_PLAN_grip], UNG_STEP_LEFT_OUT);
    ck_assert_int_eq(plan.state[UNG_PLAN_wood], UNG_STEP_LEFT_OUT);
    /* No wood's density is the foam's: what hangs on the mass is not known without it. */
    ck_assert_int_eq(plan.state[UNG_PLAN_mass], UNG_STEP_LACKS);
    ck_assert_str_eq(plan.fault[UNG_PLAN_mass].field, "wood_density_g_ml");
    ck_assert_int_eq(plan.state[UNG_PLAN_hold], UNG_STEP_LACKS);
    in.wood_density_g_ml = 0.06;
    plan = plan_of(&in);
    must(plan.mass.in.wood_density_g_ml == 0.06 && plan.mass.in.screw_count == 0);
    ck_assert_int_eq(plan.state[UNG_PLAN_hold], UNG_STEP_DONE);
    must(plan.hold.in.screw_count == 0);
    must(same_bits(plan.hold.out.single_path_use_ratio, plan.bond_only.out.single_path_use_ratio));
    /* Foam weighs in the ratio of the densities: the wood's own mass is volume times density. */
    double foam_g = plan.mass.out.wood_g;
    in.wood_density_g_ml = 0.12;
    ck_relative(plan_of(&in).mass.out.wood_g, 2 * foam_g, 1e-15); /* a product */
    must(plan.tasks[3].low_s == 0 && plan.tasks[3].high_s == 0 && plan.times[3].mean_s == 0); /* none to drive */
    must(plan.tasks[4].likely_s == in.wrap_likely_s);
}
END_TEST

START_TEST(without_a_cast_the_film_covers)
{
    ung_job_plan_in in = pony();
    in.cast_count = 0;
    ung_job_plan_out plan = plan_of(&in);
    static const int tapes[] = {UNG_PLAN_tape, UNG_PLAN_narrow_tape, UNG_PLAN_wide_tape, UNG_PLAN_set};
    for (size_t i = 0; i < sizeof tapes / sizeof *tapes; i++)
        ck_assert_int_eq(plan.state[tapes[i]], UNG_STEP_LEFT_OUT);
    must(plan.bond.in.cover_thickness_mm == in.film_mm);
    must(plan.tasks[4].high_s == 0 && plan.tasks[3].likely_s == in.drive_likely_s);
    must(plan.mass.in.tape_length_mm == 0 && plan.mass.out.tape_g == 0);
    must(plan.glue.in.top_area_mm2 == 0 && plan.glue.out.top_coat_ml == 0);
    must(plan.bevel.in.build_up_mm == 0 && plan.wear.in.build_up_mm == 0);
    ck_assert_int_eq(plan.state[UNG_PLAN_hold], UNG_STEP_DONE);
}
END_TEST

START_TEST(two_tapes_are_compared)
{
    ung_job_plan_in in = pony(); /* wraps the narrow one */
    ung_job_plan_out plan = plan_of(&in);
    must(memcmp(&plan.tape, &plan.narrow_tape, sizeof plan.tape) == 0);
    must(plan.wide_tape.in.tape_width_mm == 76.2);
    must(plan.wide_tape.out.edge_strain_fraction > 0);
    /* A comparison raises no cautions of its own. */
    ung_plan_caution caution[64];
    size_t n = ung_job_plan_cautions(&plan, caution, 64);
    for (size_t i = 0; i < n; i++)
        must(!has_word(comparing, ung_plan_step(caution[i].step).name));
}
END_TEST

START_TEST(switches_of_time_and_heat)
{
    ung_job_plan_in in = pony();
    in.cup_count = 0;
    ung_job_plan_out plan = plan_of(&in);
    ck_assert_int_eq(plan.state[UNG_PLAN_cup], UNG_STEP_LEFT_OUT);
    ck_assert_int_eq(plan.state[UNG_PLAN_heat], UNG_STEP_LEFT_OUT);
    must(plan.timeline.in.working_time_s == plan.working.out.safe_time_s);
    in.cup_count = 1, in.temperature_c = in.reference_temperature_c, in.pack_ml = 9;
    plan = plan_of(&in);
    must(plan.cup.in.mass_g == 9); /* a pack is less than the first coat */
    in = draft_horse();
    in.ambient_c = 5;
    in.inner_margin_mm = 4; /* more than the other way's own standard */
    in.high_toe_mm = 30;    /* and a belt that is lower at the toe */
    plan = plan_of(&in);
    must(plan.through.in.inner_margin_mm == 4 && plan.through.in.belt_top_mm == 30 && plan.bond.in.lap_mm == 30);
    must(plan.cup.in.ambient_c == 5 && plan.heat.in.ambient_c == 5 && plan.heat.in.start_c == in.temperature_c);
}
END_TEST

/* ---- Cautions ---- */

START_TEST(cautions_are_those_of_the_steps_the_most_severe_first)
{
    for (size_t h = 0; h < HORSES; h++) {
        ung_job_plan_in in = invented_horse(h);
        ung_job_plan_out plan = plan_of(&in);
        ung_plan_caution caution[128], few[2];
        size_t n = ung_job_plan_cautions(&plan, caution, 128), wanted = 0;
        must(n <= 128);
        ck_assert_uint_eq(ung_job_plan_cautions(&plan, NULL, 0), n);
        ck_assert_uint_eq(ung_job_plan_cautions(&plan, few, 1), n);
        for (size_t i = 1; i < n; i++)
            must(caution[i].caution.severity < caution[i - 1].caution.severity ||
                 (caution[i].caution.severity == caution[i - 1].caution.severity &&
                  caution[i].step >= caution[i - 1].step));
        for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
            ung_plan_part part = ung_plan_step(i);
            const double *value = (const double *)&plan;
            ung_caution own[UNG_CAUTIONS_MOST];
            if (plan.state[i] != UNG_STEP_DONE || has_word(comparing, part.name) ||
                has_word(in.screw_way_count == 2 ? "screw other_screw" : "through other_through", part.name))
                continue;
            size_t m = ung_cautions(part.calculation, value + part.in, value + part.out, own, UNG_CAUTIONS_MOST);
            wanted += m;
            for (size_t j = 0; j < m; j++) {
                size_t found = 0;
                for (size_t k = 0; k < n; k++)
                    found += caution[k].step == i && same_text(caution[k].caution.code, own[j].code);
                ck_assert_uint_eq(found, 1);
            }
        }
        ck_assert_uint_eq(n, wanted);
    }
}
END_TEST

/* ---- Items and their texts ---- */

START_TEST(items_are_of_steps_that_ran)
{
    for (size_t h = 0; h < HORSES; h++)
        for (int variant = 0; variant < 4; variant++) {
            ung_job_plan_in in = invented_horse(h);
            if (variant == 1)
                in.screw_way_count = 0;
            if (variant == 2)
                in.cast_count = 0;
            if (variant == 3)
                in.hoof_length_mm = in.bevel_run_mm = (double)NAN;
            ung_job_plan_out plan = plan_of(&in);
            ung_plan_item item[UNG_PLAN_ITEMS_MOST], few[2];
            size_t n = ung_plan_items(&plan, item, UNG_PLAN_ITEMS_MOST);
            must(n > 0 && n <= UNG_PLAN_ITEMS_MOST);
            ck_assert_uint_eq(ung_plan_items(&plan, NULL, 0), n);
            ck_assert_uint_eq(ung_plan_items(&plan, few, 1), n);
            must(same_text(few[0].code, item[0].code));
            for (size_t i = 0; i < n; i++) {
                must(i == 0 || item[i].kind >= item[i - 1].kind);
                ck_assert_int_eq(plan.state[item[i].step], UNG_STEP_DONE);
                must((item[i].field == NULL) == isnan(item[i].quantity));
                const char *text = ung_plan_text(item[i].code, "en");
                must_msg(text && (strstr(text, "{quantity}") != NULL) == (item[i].field != NULL), "%s", item[i].code);
                must_msg((strstr(text, "{unit}") != NULL) == (*item[i].unit != 0), "%s", item[i].code);
                if (!item[i].field)
                    continue;
                /* The quantity is a field of that step, and its unit the field's. */
                ung_plan_part part = ung_plan_step(item[i].step);
                int found = 0;
                for (size_t j = 0; j < ung_input_count(part.calculation); j++)
                    found |= same_text(ung_input(part.calculation, j)->name, item[i].field) &&
                             same_bits(((double *)&plan)[part.in + j], item[i].quantity);
                for (size_t j = 0; j < ung_output_count(part.calculation); j++)
                    found |= same_text(ung_output(part.calculation, j)->name, item[i].field) &&
                             same_bits(((double *)&plan)[part.out + j], item[i].quantity);
                must_msg(found, "%s", item[i].code);
                ck_assert_str_eq(item[i].unit, ung_field_unit(item[i].field));
            }
        }
}
END_TEST

START_TEST(items_of_the_pony)
{
    ung_job_plan_in in = pony();
    ung_job_plan_out plan = plan_of(&in);
    ung_plan_item item[UNG_PLAN_ITEMS_MOST];
    size_t n = ung_plan_items(&plan, item, UNG_PLAN_ITEMS_MOST);
    must(item_of(item, n, "adhesive_packs")->quantity == plan.glue.out.packs_separate_count);
    must(item_of(item, n, "tape_rolls")->quantity == plan.tape.out.rolls_count);
    must(item_of(item, n, "screws")->quantity == 4);
    must(item_of(item, n, "mark_belt_toe")->quantity == 34);
    must(item_of(item, n, "drill_slant")->quantity == 10);
    must(item_of(item, n, "finish_within")->quantity == plan.working.out.safe_time_s);
    must(item_of(item, n, "reset_by")->quantity == plan.growth.out.reset_days);
    must(item_of(item, n, "spare_pack") && item_of(item, n, "spare_roll"));
    must(!item_of(item, n, "drill_through_wall"));
    /* A heel that wears as the toe does never turns the shoe: nothing is said of when. */
    in.toe_rate_mm_per_day = in.heel_rate_mm_per_day = 0;
    plan = plan_of(&in);
    must(isinf(plan.wear.out.first_days));
    n = ung_plan_items(&plan, item, UNG_PLAN_ITEMS_MOST);
    must(!item_of(item, n, "worn_by"));
}
END_TEST

/* Four digits, written here by hand; a limit never to its wrong side. */
START_TEST(words_are_rounded_to_the_safe_side)
{
    static const struct {
        const char *code, *unit, *language;
        double quantity;
        const char *words;
    } said[] = {
        {"screw_longest", "mm", "en", 43.66329, "screws no longer than 43.66 mm"},
        {"screw_longest", "mm", "en", 43.66999, "screws no longer than 43.66 mm"},
        {"wall_screw_shortest", "mm", "en", 43.66001, "screws through the wall at least 43.67 mm long"},
        {"dress_heel_angle", "deg", "en", 20.456, "at 20.46 degrees"},
        {"dress_heel_angle", "deg", "de", 20.456, "um 20,46 Grad"},
        {"dress_heel_angle", "deg", "en", 25, "at 25 degrees"},
        {"dress_heel_angle", "deg", "en", 0.05, "at 0.05 degrees"},
        {"dress_heel_angle", "deg", "en", -0.5, "at -0.5 degrees"},
        {"dress_heel_angle", "deg", "en", 0, "at 0 degrees"},
        {"dress_heel_angle", "deg", "en", 1e-12, "at 0 degrees"},
        {"dress_heel_angle", "deg", "en", 12345.6, "at 12346 degrees"},
        {"dress_heel_angle", "deg", "en", 9.99996, "at 10 degrees"},
        {"dress_heel_angle", "deg", "en", 20.45497, "at 20.45 degrees"},
        {"dress_heel_angle", "deg", "en", 1004.6, "at 1005 degrees"},
        {"dress_heel_angle", "deg", "en", 999.6, "at 999.6 degrees"},
        {"drill_stop", "mm", "en", 9.9999, "stop collar: 9.999 mm into the horn, no deeper"},
        {"drill_stop", "mm", "en", 0.1 + 0.2, "stop collar: 0.3 mm into the horn, no deeper"}, /* but for last bits */
        {"finish_within", "s", "en", 1543.9, "finish within 1543 s of mixing"},
        {"screws", "", "de", 4, "Schrauben: 4"},
        {"load_use", "", "en", INFINITY,
         "load over what the stronger of bond and screws carries: unlimited; above 1 the horse is not led away"},
        {"place_shoe", "", "en", NAN, "place the shoe"},
    };
    char words[200];
    for (size_t i = 0; i < sizeof said / sizeof *said; i++) {
        size_t n = ung_plan_words(said[i].code, said[i].quantity, said[i].unit, said[i].language, words, sizeof words);
        ck_assert_str_eq(words, said[i].words);
        ck_assert_uint_eq(n, strlen(words));
        ck_assert_uint_eq(ung_plan_words(said[i].code, said[i].quantity, said[i].unit, said[i].language, NULL, 0), n);
    }
    ck_assert_uint_eq(ung_plan_words("screws", 4, "", "en", words, 5), 9);
    ck_assert_str_eq(words, "scre");
    ck_assert_uint_eq(ung_plan_words("screw", 4, "", "en", words, sizeof words), 0);
    ck_assert_str_eq(words, "");
    ck_assert_uint_eq(ung_plan_words("screws", 4, "", "xx", words, sizeof words), 0);
    ck_assert_uint_eq(ung_plan_words(NULL, 4, "", "en", words, sizeof words), 0);
    ck_assert_uint_eq(ung_plan_words("screws", 4, NULL, "en", words, sizeof words), 9);
}
END_TEST

START_TEST(every_code_has_its_texts)
{
    ck_assert_str_eq(ung_plan_language(0), "en");
    ck_assert_str_eq(ung_plan_language(1), "de");
    ck_assert_ptr_null(ung_plan_language(2));
    size_t codes = 0;
    for (; ung_plan_code(codes); codes++) {
        const char *code = ung_plan_code(codes), *english = ung_plan_text(code, "en");
        for (size_t k = 0; ung_plan_language(k); k++) {
            const char *text = ung_plan_text(code, ung_plan_language(k));
            must_msg(text && *text, "%s: no text", code);
            static const char *const holders[] = {"{quantity}", "{unit}", "{"};
            for (size_t j = 0; j < 3; j++) { /* as often in each language, and no other placeholder */
                size_t count[2] = {0, 0};
                for (const char *at = text; (at = strstr(at, holders[j])) != NULL; at++)
                    count[0]++;
                for (const char *at = english; (at = strstr(at, holders[j])) != NULL; at++)
                    count[1]++;
                must_msg(count[0] == count[1] && count[0] <= 2, "%s: %s", code, holders[j]);
            }
        }
        for (size_t j = 0; j < codes; j++)
            must_msg(!same_text(code, ung_plan_code(j)), "%s stands twice", code);
    }
    must(codes > 40 && codes <= UNG_PLAN_ITEMS_MOST);
    ck_assert_ptr_null(ung_plan_text("no_such_code", "en"));
    ck_assert_ptr_null(ung_plan_text("screws", "fr"));
    ck_assert_ptr_null(ung_plan_text("screws", "e"));
    ck_assert_ptr_null(ung_plan_text("screw", "en"));
    ck_assert_ptr_null(ung_plan_text(NULL, "en"));
    ck_assert_ptr_null(ung_plan_text("screws", NULL));
    /* No text without a code: as many entries in the source as codes. */
    const char *top = getenv("abs_top_srcdir");
    if (!top)
        return;
    char path[4096], line[512];
    snprintf(path, sizeof path, "%s/lib/job/plan_text.c", top);
    FILE *file = fopen(path, "r");
    must(file != NULL);
    size_t entries = 0;
    while (fgets(line, sizeof line, file) && !strstr(line, "unit_words")) {
        char code[64];
        if (sscanf(line, "    {\"%63[a-z_]\", {", code) != 1 || !strstr(line, "\", {\""))
            continue;
        entries++;
        must_msg(ung_plan_text(code, "de") != NULL, "%s", code);
    }
    fclose(file);
    ck_assert_uint_eq(entries, codes);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "plan");
    tcase_set_timeout(tests, 300);
    tcase_add_test(tests, description_fits_the_structs);
    tcase_add_test(tests, own_fields_are_as_chosen);
    tcase_add_test(tests, choices_are_as_written_here);
    tcase_add_test(tests, found_values_are_as_written_here);
    tcase_add_test(tests, null_is_refused);
    tcase_add_test(tests, steps_are_the_single_calculations);
    tcase_add_test(tests, sound_horses_have_every_step);
    tcase_add_test(tests, wiring_is_as_written_here);
    tcase_add_test(tests, the_gait_gives_the_shear);
    tcase_add_test(tests, ranges_are_refused_by_name);
    tcase_add_test(tests, a_missing_value_leaves_out_what_needs_it);
    tcase_add_test(tests, a_value_that_is_given_is_not_looked_up);
    tcase_add_test(tests, a_refused_step_stops_only_what_needs_it);
    tcase_add_test(tests, without_screws_the_bond_is_alone);
    tcase_add_test(tests, a_broken_margin_drives_no_screws);
    tcase_add_test(tests, foam_holds_no_screws);
    tcase_add_test(tests, without_a_cast_the_film_covers);
    tcase_add_test(tests, two_tapes_are_compared);
    tcase_add_test(tests, switches_of_time_and_heat);
    tcase_add_test(tests, cautions_are_those_of_the_steps_the_most_severe_first);
    tcase_add_test(tests, items_are_of_steps_that_ran);
    tcase_add_test(tests, items_of_the_pony);
    tcase_add_test(tests, every_code_has_its_texts);
    tcase_add_test(tests, words_are_rounded_to_the_safe_side);
    return finish(runner);
}
