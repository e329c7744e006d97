/* The whole job: each step is one calculation, called with measurements and with what earlier steps found.
 *
 * No formula stands here: a fill function says where each value of a step comes from, and nothing else.  What it does
 * not name has the calculation's standard value. */
#include "job/plan.h"

#include "core/contract.h"

/* A value that was given, or else the one that another step found. */
static double given(double value, double found)
{
    return value == value ? value : found;
}

static double larger(double a, double b)
{
    return a > b || b != b ? a : b;
}

static double smaller(double a, double b)
{
    return a < b || b != b ? a : b;
}

enum { UNG_PLAN_WORK = 8832 }; /* the timeline's workspace for its tasks; a test holds it against ung_workspace */

#define FILL(step, calculation)                                                                                   \
    static void fill_##step(const ung_job_plan_in *in, ung_job_plan_out *p, ung_##calculation##_in *x)
#define TAKE(field) x->field = in->field

FILL(belt, hoof_band)
{
    (void)p;
    TAKE(hoof_length_mm), TAKE(hoof_width_mm);
    TAKE(widest_fraction), TAKE(heel_width_fraction), TAKE(toe_width_fraction);
    TAKE(toe_angle_deg), TAKE(quarter_angle_deg), TAKE(heel_angle_deg);
    x->low_mm = given(in->low_mm, -in->shoe_thickness_mm);
    TAKE(high_toe_mm), TAKE(high_heel_mm), TAKE(toe_hairline_mm), TAKE(heel_hairline_mm);
    TAKE(overhang_mm), TAKE(upper_layer_mm), TAKE(edge_bevel_deg), TAKE(open_heel_fraction);
}

FILL(wall, wall_from_border)
{
    (void)p;
    TAKE(border_width_mm), TAKE(wall_angle_deg);
}

static double wall_thickness(const ung_job_plan_in *in, const ung_job_plan_out *p)
{
    return given(in->wall_thickness_mm, p->wall.out.wall_thickness_mm);
}

static double screw_diameter(const ung_job_plan_in *in, const ung_job_plan_out *p)
{
    return given(in->screw_diameter_mm, p->gauge.out.screw_diameter_mm);
}

FILL(gauge, screw_gauge)
{
    (void)p;
    TAKE(gauge_count);
}

FILL(wood, wood_species)
{
    (void)p;
    TAKE(species_count);
}

FILL(screw, screw_depth)
{
    x->wall_thickness_mm = wall_thickness(in, p);
    x->screw_diameter_mm = screw_diameter(in, p);
    TAKE(wall_angle_deg), TAKE(inset_mm), TAKE(screw_length_mm), TAKE(shoe_thickness_mm), TAKE(tilt_deg);
    TAKE(head_recess_mm), TAKE(pad_mm), TAKE(sole_horn_mm), TAKE(overhang_mm), TAKE(upper_layer_mm);
    TAKE(edge_bevel_deg);
    TAKE(inner_margin_mm), TAKE(outer_margin_mm), TAKE(edge_margin_mm), TAKE(seat_allowance_mm), TAKE(tilt_error_deg);
}

FILL(through, screw_through)
{
    x->wall_thickness_mm = wall_thickness(in, p);
    x->screw_diameter_mm = screw_diameter(in, p);
    TAKE(wall_angle_deg), TAKE(entry_height_mm), TAKE(screw_length_mm), TAKE(shoe_thickness_mm), TAKE(dip_deg);
    TAKE(pad_mm), TAKE(sole_horn_mm), TAKE(overhang_mm), TAKE(upper_layer_mm), TAKE(edge_bevel_deg);
    x->inner_margin_mm = larger(x->inner_margin_mm, in->inner_margin_mm); /* its own standard is the greater */
    TAKE(outer_margin_mm), TAKE(edge_margin_mm);
    x->belt_top_mm = smaller(in->high_toe_mm, in->high_heel_mm);
}

static double gravity(const ung_job_plan_in *in, const ung_job_plan_out *p, double standard)
{
    return given(in->wood_gravity_ratio, given(p->wood.out.wood_gravity_ratio, standard));
}

FILL(lead, lead_hole)
{
    x->screw_diameter_mm = screw_diameter(in, p);
    x->root_diameter_mm = given(in->root_diameter_mm, p->gauge.out.root_diameter_mm);
    x->head_diameter_mm = given(in->head_diameter_mm, p->gauge.out.head_diameter_mm);
    TAKE(head_angle_deg);
    x->wood_gravity_ratio = gravity(in, p, x->wood_gravity_ratio);
}

static void fill_tapes(const ung_job_plan_in *in, const ung_job_plan_out *p, ung_cast_length_in *x)
{
    x->circumference_low_mm = p->belt.out.circumference_low_mm;
    x->circumference_high_mm = p->belt.out.circumference_high_mm;
    x->band_height_mm = p->belt.out.slant_height_mm;
    TAKE(tape_width_mm), TAKE(overlap_fraction), TAKE(passes_count), TAKE(anchor_turns), TAKE(stretch_fraction);
    TAKE(roll_length_mm), TAKE(ply_mm), TAKE(toe_angle_deg);
}

FILL(tape, cast_length)
{
    fill_tapes(in, p, x);
}

FILL(narrow_tape, cast_length)
{
    fill_tapes(in, p, x);
    x->tape_width_mm = 50.8; /* 2 in */
}

FILL(wide_tape, cast_length)
{
    fill_tapes(in, p, x);
    x->tape_width_mm = 76.2; /* 3 in */
}

FILL(glue, glue_volume)
{
    x->bonded_area_mm2 = p->belt.out.bonded_area_mm2;
    x->wood_area_mm2 = p->belt.out.shoe_area_mm2;
    x->top_area_mm2 = in->cast_count > 0 ? p->belt.out.covered_area_mm2 : 0; /* the coat over the tape */
    TAKE(film_mm), TAKE(groove_depth_mm), TAKE(groove_width_mm), TAKE(groove_spacing_mm);
    TAKE(wood_film_mm), TAKE(top_film_mm), TAKE(ratio_a_to_b), TAKE(pack_ml), TAKE(nozzle_ml);
}

FILL(bevel, heel_bevel)
{
    TAKE(ground_length_mm), TAKE(shoe_thickness_mm), TAKE(bevel_run_mm), TAKE(bevel_angle_deg);
    TAKE(width_start_mm), TAKE(width_end_mm), TAKE(build_length_mm), TAKE(wrapped_before_count), TAKE(least_edge_mm);
    int laps = in->cast_count > 0 && in->build_length_mm > 0;
    x->build_up_mm = laps ? p->tape.out.thickness_mm : 0; /* as thick under the heel as it is on the wall */
}

FILL(packing, packing_volume)
{
    (void)p;
    TAKE(sole_area_mm2), TAKE(dish_depth_mm), TAKE(gap_mm), TAKE(frog_length_mm), TAKE(frog_width_mm);
    TAKE(frog_height_mm);
    TAKE(rear_fraction);
}

FILL(dam, dam_volume)
{
    (void)p;
    TAKE(rope_length_mm);
}

FILL(mass, shoe_mass)
{
    x->ground_area_mm2 = p->belt.out.ground_area_mm2;
    x->perimeter_mm = p->belt.out.perimeter_mm;
    x->upper_thickness_mm = smaller(in->upper_layer_mm, in->shoe_thickness_mm);
    x->lower_thickness_mm = in->shoe_thickness_mm - x->upper_thickness_mm;
    TAKE(edge_bevel_deg), TAKE(wood_density_g_ml), TAKE(body_mass_kg);
    x->screw_count = ung__plan_screws(in, p) ? in->screw_count : 0;
    x->tape_length_mm = in->cast_count > 0 ? p->tape.out.tape_length_mm : 0;
    TAKE(tape_width_mm);
    x->adhesive_ml = p->glue.out.net_ml;
    /* Not asked for: none.  Asked for and refused: nobody knows.  Without the bevel the shoe is at its heaviest. */
    int refused = p->state[UNG_PLAN_packing] == UNG_STEP_REFUSED;
    x->putty_ml = refused ? UNG__NAN : given(p->packing.out.rear_ml, 0);
    x->cushion_ml = refused ? UNG__NAN : given(p->packing.out.front_ml, 0);
    x->removed_ml = given(p->bevel.out.removed_ml, 0);
}

FILL(load, limb_load)
{
    (void)p;
    TAKE(body_mass_kg), TAKE(gait_count), TAKE(hind_count);
}

int ung__plan_screws(const ung_job_plan_in *in, const ung_job_plan_out *p)
{
    double margin = in->screw_way_count < 1.5 ? p->screw.out.margin_mm : p->through.out.margin_mm;
    return in->screw_way_count > 0.5 && in->foam_count < 0.5 && margin >= 0;
}

FILL(grip, screw_hold)
{
    int from_shoe = in->screw_way_count < 1.5;
    x->point_member_count = from_shoe ? 1 : 2;
    x->screw_diameter_mm = screw_diameter(in, p);
    x->root_diameter_mm = given(in->root_diameter_mm, p->gauge.out.root_diameter_mm);
    x->pitch_mm = given(in->pitch_mm, p->gauge.out.pitch_mm);
    x->head_diameter_mm = given(in->head_diameter_mm, p->gauge.out.head_diameter_mm);
    x->horn_length_mm = from_shoe ? p->screw.out.embedded_mm : p->through.out.grip_mm;
    x->wood_length_mm = from_shoe ? in->shoe_thickness_mm - in->head_recess_mm : p->through.out.wood_length_mm;
    x->wood_gravity_ratio = gravity(in, p, x->wood_gravity_ratio);
    TAKE(horn_shear_mpa), TAKE(horn_bearing_mpa);
}

static void fill_loads(const ung_job_plan_in *in, const ung_job_plan_out *p, ung_hold_in *x)
{
    const ung_limb_load_out *load = &p->load.out;
    double published =
        load->horizontal_known_count > 0 ? larger(load->braking_n_per_kg, load->propulsive_n_per_kg) : UNG__NAN;
    TAKE(body_mass_kg), TAKE(acceleration_ms2), TAKE(pull_extra_n), TAKE(group_factor_ratio), TAKE(divisor_ratio);
    x->shoe_mass_g = p->mass.out.total_g;
    x->shear_n_per_kg = given(in->shear_n_per_kg, given(published, x->shear_n_per_kg));
    x->screw_count = ung__plan_screws(in, p) ? in->screw_count : 0;
    x->axis_tilt_deg = in->screw_way_count < 1.5 ? larger(in->tilt_deg, -in->tilt_deg) : 90 - in->dip_deg;
    x->axial_design_n = x->lateral_design_n = x->bond_capacity_first_n = x->bond_capacity_mean_n = 0;
}

/* For the load alone, which the bond is asked to carry. */
FILL(demand, hold)
{
    fill_loads(in, p, x);
}

FILL(bond, bond_hold)
{
    int taped = in->cast_count > 0;
    x->bonded_area_mm2 = p->belt.out.bonded_area_mm2;
    x->lap_mm = smaller(in->high_toe_mm, in->high_heel_mm); /* the shorter lap is the weaker */
    TAKE(film_mm), TAKE(adhesive_shear_modulus_mpa), TAKE(cover_modulus_mpa), TAKE(shear_strength_mpa);
    TAKE(preparation_factor), TAKE(divisor_ratio);
    x->horn_thickness_mm = wall_thickness(in, p);
    x->cover_thickness_mm = taped ? p->tape.out.thickness_mm : in->film_mm;
    x->demand_n = p->demand.out.demand_n;
}

static void fill_capacity(const ung_job_plan_out *p, ung_hold_in *x)
{
    x->bond_capacity_first_n = p->bond.out.capacity_first_n;
    x->bond_capacity_mean_n = p->bond.out.capacity_mean_n;
}

FILL(hold, hold)
{
    int screws = ung__plan_screws(in, p);
    fill_loads(in, p, x);
    fill_capacity(p, x);
    x->axial_design_n = screws ? p->grip.out.axial_design_n : 0;
    x->lateral_design_n = screws ? p->grip.out.lateral_design_n : 0;
}

FILL(bond_only, hold)
{
    fill_loads(in, p, x);
    fill_capacity(p, x);
    x->screw_count = 0;
}

FILL(lever, coffin_lever)
{
    (void)p;
    TAKE(vertical_force_n), TAKE(breakover_mm), TAKE(setback_mm), TAKE(body_mass_kg);
}

FILL(growth, hoof_growth)
{
    (void)p;
    TAKE(growth_mm_per_28_days), TAKE(days), TAKE(toe_angle_deg);
}

/* A heel that the bevel has freed of the tape's step stands on toe and bevel's front edge. */
FILL(wear, heel_wear)
{
    int flat = p->bevel.out.wedge_after_deg == 0;
    TAKE(ground_length_mm), TAKE(build_length_mm), TAKE(shoe_thickness_mm), TAKE(days);
    TAKE(toe_rate_mm_per_day), TAKE(heel_rate_mm_per_day);
    x->build_up_mm = flat ? 0 : p->bevel.in.build_up_mm;
    x->base_length_mm = flat ? p->bevel.out.contact_length_mm : 0;
}

FILL(working, working_time)
{
    (void)p;
    TAKE(reference_time_s), TAKE(reference_temperature_c), TAKE(temperature_c), TAKE(activation_energy_kj);
}

static double air(const ung_job_plan_in *in)
{
    return given(in->ambient_c, in->temperature_c);
}

/* A plan mixes a pack at a time. */
FILL(cup, cup_cure)
{
    x->mass_g = smaller(in->pack_ml, p->glue.out.first_coat_ml); /* 1.0 g/mL, as shoe_mass has it */
    x->surface_cm2 = in->surface_cm2;
    x->ambient_c = air(in);
    x->start_c = in->temperature_c;
    TAKE(reference_time_s), TAKE(reference_temperature_c), TAKE(activation_energy_kj);
}

FILL(heat, wall_heat)
{
    x->adhesive_mm = in->film_mm;
    TAKE(horn_c), TAKE(reference_time_s), TAKE(reference_temperature_c), TAKE(activation_energy_kj);
    x->horn_mm = wall_thickness(in, p);
    x->ambient_c = air(in);
    x->start_c = in->temperature_c;
}

FILL(set, cast_set)
{
    TAKE(water_c), TAKE(room_c);
    x->layers = p->tape.out.layers;
}

/* Screws that are not driven and tape that is not wrapped take no time. */
static void fill_tasks(const ung_job_plan_in *in, ung_job_plan_out *p)
{
#define ROW(task) {in->task##_low_s, in->task##_likely_s, in->task##_high_s, 1}
    const ung_job_step tasks[UNG_PLAN_TASKS] = {ROW(mix), ROW(lay), ROW(place), ROW(drive), ROW(wrap), ROW(smooth)};
    const ung_job_step none = {0, 0, 0, 1};
    __builtin_memcpy(p->tasks, tasks, sizeof tasks);
    if (p->demand.in.screw_count == 0)
        p->tasks[3] = none;
    if (in->cast_count < 0.5)
        p->tasks[4] = none;
}

FILL(timeline, job_timeline)
{
    fill_tasks(in, p);
    x->working_time_s = smaller(p->working.out.safe_time_s, p->cup.out.gel_time_s);
    x->samples_count = given(in->samples_count, 0); /* the closed approximation, unless samples are asked for */
    TAKE(limit_fraction);
}

/* Which steps a switch leaves out. */
static int left_out(size_t step, const ung_job_plan_in *in)
{
    int screws = in->foam_count < 0.5 && in->screw_way_count > 0.5;
    switch (step) {
    case UNG_PLAN_screw:
        return !screws || in->screw_way_count > 1.5;
    case UNG_PLAN_through:
        return !screws || in->screw_way_count < 1.5;
    case UNG_PLAN_lead:
    case UNG_PLAN_grip:
        return !screws;
    case UNG_PLAN_wall:
        return in->wall_thickness_mm == in->wall_thickness_mm;
    case UNG_PLAN_gauge:
        return in->gauge_count != in->gauge_count;
    case UNG_PLAN_wood:
        return in->foam_count > 0.5 || in->species_count != in->species_count;
    case UNG_PLAN_tape:
    case UNG_PLAN_narrow_tape:
    case UNG_PLAN_wide_tape:
    case UNG_PLAN_set:
        return in->cast_count < 0.5;
    case UNG_PLAN_cup:
        return in->cup_count < 0.5;
    case UNG_PLAN_heat:
        return in->heat_count < 0.5;
    default:
        return 0;
    }
}

/* The timeline is the one step with lists. */
static ung_status call(ung_job_plan_out *p, size_t step)
{
    ung_plan_part part = ung_plan_step(step);
    double work[UNG_PLAN_WORK];
    ung_rows rows[] = {{(double *)p->tasks, UNG_PLAN_TASKS}, {(double *)p->times, UNG_PLAN_TASKS},
                         {work, UNG_PLAN_WORK}};
    double *value = (double *)p;
    return ung_call(part.calculation, value + part.in, rows, value + part.out, p->fault + step);
}

static int not_a_number(double value)
{
    return value != value;
}

static void run(const ung_job_plan_in *in, ung_job_plan_out *p, size_t step)
{
    if (left_out(step, in))
        return;
    ung_status status = call(p, step);
    p->state[step] = status == UNG_OK                            ? UNG_STEP_DONE
                     : status == UNG_MISSING                     ? UNG_STEP_LACKS
                     : not_a_number(p->fault[step].value) ? UNG_STEP_LACKS /* from a step that did not run */
                                                          : UNG_STEP_REFUSED;
}

static void no_results(ung_job_plan_out *p)
{
    for (size_t i = 0; i < sizeof *p / sizeof(double) && i < (size_t)((double *)p->times - (double *)p); i++)
        ((double *)p)[i] = UNG__NAN;
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
        p->state[i] = UNG_STEP_LEFT_OUT;
        ung__fault_none(p->fault + i, ung_plan_step(i).calculation);
    }
}

ung_status ung_job_plan(const ung_job_plan_in *in, ung_job_plan_out *out, ung_fault *fault)
{
    ung_status status;
    if (out)
        no_results(out);
    if (!in || !out) {
        status = ung__fault_null(fault, 0, in ? "out" : "in");
        if (fault)
            fault->calculation = "job_plan";
        return status;
    }
    status = ung__plan_check((const double *)in, fault);
    if (status != UNG_OK)
        return status;

#define RUN(step, calculation)                                                                                    \
    out->step.in = ung_##calculation##_standard();                                                                \
    fill_##step(in, out, &out->step.in);                                                                          \
    run(in, out, UNG_PLAN_##step);
    UNG_PLAN_STEPS(RUN)
    return UNG_OK;
}
