/* The whole job: each step is one calculation, called with measurements and with what earlier steps found.
 *
 * No formula stands here: a fill function says where each value of a step comes from, and nothing else.  What it does
 * not name has the calculation's standard value. */
#include "job/plan.h"

#include "core/contract.h"
#include "core/elementary.h"

#define DECLARE(step, calculation) extern const ung_field ung__##calculation##_inputs[];
UNG_PLAN_STEPS(DECLARE)

#define given ung__plan_given
#define larger ung__plan_larger
#define smaller ung__plan_smaller

enum { UNG_PLAN_WORK = 8832 }; /* the timeline's workspace for its tasks; a test holds it against ung_workspace */

#define LOWER(calculation, field)                                                                                 \
    ung__##calculation##_inputs[offsetof(ung_##calculation##_in, field) / sizeof(double)].lower
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

/* What was measured on a traced outline, or else what the belt's step found. */
#define MEASURE(field, found) given(in->field, p->belt.out.found)

FILL(wall, wall_from_border)
{
    (void)p;
    TAKE(border_width_mm), TAKE(wall_angle_deg);
}

FILL(other_wall, wall_from_border)
{
    (void)p;
    x->border_width_mm = in->other_border_width_mm;
    x->wall_angle_deg = given(in->other_wall_angle_deg, in->wall_angle_deg);
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

/* The inputs as they are on the other side. */
static ung_job_plan_in other_side(const ung_job_plan_in *in, const ung_job_plan_out *p)
{
    ung_job_plan_in side = *in;
    double found = given(p->other_wall.out.wall_thickness_mm, wall_thickness(in, p));
    side.wall_thickness_mm = given(in->other_wall_thickness_mm, found);
#define OTHER(field) side.field = given(in->other_##field, in->field)
    OTHER(wall_angle_deg), OTHER(sole_horn_mm), OTHER(inset_mm), OTHER(tilt_deg), OTHER(entry_height_mm);
    OTHER(dip_deg);
    return side;
}

static int other_measured(const ung_job_plan_in *in)
{
    double one = given(in->other_border_width_mm, given(in->other_wall_thickness_mm, in->other_wall_angle_deg));
    one = given(one, given(in->other_sole_horn_mm, given(in->other_inset_mm, in->other_tilt_deg)));
    one = given(one, given(in->other_entry_height_mm, given(in->other_dip_deg, in->other_screw_count)));
    return one == one;
}

static void fill_from_shoe(const ung_job_plan_in *in, const ung_job_plan_out *p, ung_screw_depth_in *x)
{
    x->wall_thickness_mm = wall_thickness(in, p);
    x->screw_diameter_mm = screw_diameter(in, p);
    TAKE(wall_angle_deg), TAKE(inset_mm), TAKE(shoe_thickness_mm), TAKE(tilt_deg), TAKE(head_recess_mm);
    TAKE(pad_mm), TAKE(sole_horn_mm), TAKE(height_limit_mm), TAKE(overhang_mm), TAKE(upper_layer_mm);
    TAKE(edge_bevel_deg);
    TAKE(inner_margin_mm), TAKE(outer_margin_mm), TAKE(white_line_margin_mm), TAKE(edge_margin_mm);
    TAKE(seat_allowance_mm), TAKE(tilt_error_deg);
}

/* The longest screw of the box that fits on both sides, but for a side on which none does. */
static double length_from_shoe(const ung_job_plan_in *in, const ung_job_plan_out *p)
{
    if (in->screw_way_count < 1.5 && in->screw_length_mm == in->screw_length_mm)
        return in->screw_length_mm;
    ung_screw_depth_in x = ung_screw_depth_standard();
    fill_from_shoe(in, p, &x);
    double length = ung__plan_length_from_shoe(x, in->stock_step_mm);
    if (other_measured(in)) {
        ung_job_plan_in side = other_side(in, p);
        fill_from_shoe(&side, p, &x);
        length = smaller(length, ung__plan_length_from_shoe(x, in->stock_step_mm));
    }
    return given(length, x.inset_mm == x.inset_mm ? LOWER(screw_depth, screw_length_mm) : UNG__NAN);
}

FILL(screw, screw_depth)
{
    fill_from_shoe(in, p, x);
    x->screw_length_mm = length_from_shoe(in, p);
}

FILL(other_screw, screw_depth)
{
    ung_job_plan_in side = other_side(in, p);
    fill_from_shoe(&side, p, x);
    x->screw_length_mm = length_from_shoe(in, p);
}

/* An entry that is not given is looked for; only a given length is a length to look with. */
static void fill_through_wall(const ung_job_plan_in *in, const ung_job_plan_out *p, ung_screw_through_in *x)
{
    x->wall_thickness_mm = wall_thickness(in, p);
    x->screw_diameter_mm = screw_diameter(in, p);
    x->head_recess_mm = in->wall_recess_mm;
    TAKE(wall_angle_deg), TAKE(shoe_thickness_mm), TAKE(dip_deg);
    TAKE(pad_mm), TAKE(sole_horn_mm), TAKE(overhang_mm), TAKE(upper_layer_mm), TAKE(edge_bevel_deg);
    x->inner_margin_mm = larger(x->inner_margin_mm, in->inner_margin_mm); /* its own standard is the greater */
    TAKE(outer_margin_mm), TAKE(ground_margin_mm), TAKE(edge_margin_mm), TAKE(least_wood_mm);
    x->belt_top_mm = smaller(in->high_toe_mm, in->high_heel_mm);
    x->screw_length_mm = in->screw_way_count > 1.5 ? in->screw_length_mm : UNG__NAN;
    x->entry_height_mm = in->entry_height_mm;
    if (x->entry_height_mm != x->entry_height_mm)
        x->entry_height_mm = ung__plan_entry(*x, in->stock_step_mm);
}

static double length_through_wall(const ung_job_plan_in *in, const ung_job_plan_out *p)
{
    if (in->screw_way_count > 1.5 && in->screw_length_mm == in->screw_length_mm)
        return in->screw_length_mm;
    ung_screw_through_in x = ung_screw_through_standard();
    fill_through_wall(in, p, &x);
    double length = ung__plan_length_through_wall(x, in->stock_step_mm);
    if (other_measured(in)) {
        ung_job_plan_in side = other_side(in, p);
        x = ung_screw_through_standard();
        fill_through_wall(&side, p, &x);
        length = smaller(length, ung__plan_length_through_wall(x, in->stock_step_mm));
    }
    return given(length, x.dip_deg == x.dip_deg ? LOWER(screw_through, screw_length_mm) : UNG__NAN);
}

FILL(through, screw_through)
{
    fill_through_wall(in, p, x);
    x->screw_length_mm = length_through_wall(in, p);
}

FILL(other_through, screw_through)
{
    ung_job_plan_in side = other_side(in, p);
    fill_through_wall(&side, p, x);
    x->screw_length_mm = length_through_wall(in, p);
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
    TAKE(head_angle_deg), TAKE(horn_hole_fraction);
    x->wood_gravity_ratio = gravity(in, p, x->wood_gravity_ratio);
}

static void fill_tapes(const ung_job_plan_in *in, const ung_job_plan_out *p, double width, ung_cast_length_in *x)
{
    x->circumference_low_mm = MEASURE(circumference_low_mm, circumference_low_mm);
    x->circumference_high_mm = MEASURE(circumference_high_mm, circumference_high_mm);
    x->band_height_mm = MEASURE(band_height_mm, slant_height_mm);
    x->tape_width_mm = width;
    x->waste_fraction = in->tape_waste_fraction;
    TAKE(overlap_fraction), TAKE(anchor_turns), TAKE(stretch_fraction), TAKE(roll_length_mm), TAKE(ply_mm);
    TAKE(toe_angle_deg);
    x->passes_count = in->passes_count == in->passes_count ? in->passes_count : ung__plan_passes(*x);
}

FILL(tape, cast_length)
{
    fill_tapes(in, p, in->tape_width_mm, x);
}

FILL(narrow_tape, cast_length)
{
    fill_tapes(in, p, 50.8, x); /* 2 in */
}

FILL(wide_tape, cast_length)
{
    fill_tapes(in, p, 76.2, x); /* 3 in */
}

FILL(glue, glue_volume)
{
    x->bonded_area_mm2 = MEASURE(bonded_area_mm2, bonded_area_mm2);
    x->wood_area_mm2 = MEASURE(wood_area_mm2, shoe_area_mm2);
    x->top_area_mm2 = in->cast_count > 0 ? MEASURE(top_area_mm2, covered_area_mm2) : 0; /* the coat over the tape */
    x->waste_fraction = in->glue_waste_fraction;
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
    TAKE(frog_height_mm), TAKE(frog_groove_count), TAKE(frog_groove_length_mm), TAKE(frog_groove_width_mm);
    TAKE(frog_groove_depth_mm), TAKE(rear_fraction), TAKE(part_count), TAKE(putty_density_g_ml);
    TAKE(cushion_density_g_ml);
    x->waste_fraction = in->packing_waste_fraction;
}

FILL(dam, dam_volume)
{
    (void)p;
    TAKE(rope_length_mm), TAKE(rope_width_mm), TAKE(rope_height_mm), TAKE(groove_room_mm), TAKE(pad_count);
    TAKE(pad_length_mm), TAKE(pad_width_mm), TAKE(pad_height_mm), TAKE(part_count), TAKE(putty_density_g_ml);
    x->waste_fraction = in->dam_waste_fraction;
}

/* A side on which the chosen way breaks a margin gets no screws. */
static int first_holds(const ung_job_plan_in *in, const ung_job_plan_out *p)
{
    return (in->screw_way_count < 1.5 ? ung__plan_margin_from_shoe(&p->screw.out)
                                      : ung__plan_margin_through_wall(&p->through.out)) >= 0;
}

static int other_holds(const ung_job_plan_in *in, const ung_job_plan_out *p)
{
    return (in->screw_way_count < 1.5 ? ung__plan_margin_from_shoe(&p->other_screw.out)
                                      : ung__plan_margin_through_wall(&p->other_through.out)) >= 0;
}

static int screws_asked(const ung_job_plan_in *in)
{
    return in->foam_count < 0.5 && in->screw_way_count > 0.5;
}

/* How many screws are driven; one side that was measured stands for both. */
static double screws(const ung_job_plan_in *in, const ung_job_plan_out *p)
{
    if (!screws_asked(in))
        return 0;
    if (!other_measured(in))
        return first_holds(in, p) ? in->screw_count : 0;
    double there = given(in->other_screw_count, ung__floor(in->screw_count / 2)), here = in->screw_count - there;
    return (first_holds(in, p) ? here : 0) + (other_holds(in, p) ? there : 0);
}

/* Of a value of each side the lesser, of those sides that get screws. */
static double least(const ung_job_plan_in *in, const ung_job_plan_out *p, double first, double other)
{
    return smaller(first_holds(in, p) ? first : UNG__NAN, other_holds(in, p) ? other : UNG__NAN);
}

FILL(mass, shoe_mass)
{
    x->ground_area_mm2 = MEASURE(ground_area_mm2, ground_area_mm2);
    x->perimeter_mm = MEASURE(perimeter_mm, perimeter_mm);
    x->upper_thickness_mm = smaller(in->upper_layer_mm, in->shoe_thickness_mm);
    x->lower_thickness_mm = in->shoe_thickness_mm - x->upper_thickness_mm;
    TAKE(edge_bevel_deg), TAKE(body_mass_kg), TAKE(screw_g), TAKE(tape_g_m2), TAKE(adhesive_density_g_ml);
    TAKE(putty_density_g_ml), TAKE(cushion_density_g_ml), TAKE(tape_width_mm);
    /* Foam's density is for its supplier to tell. */
    double wood = given(p->wood.out.density_kg_m3 / 1000, x->wood_density_g_ml);
    x->wood_density_g_ml = given(in->wood_density_g_ml, in->foam_count > 0.5 ? UNG__NAN : wood);
    x->screw_count = screws(in, p);
    x->tape_length_mm = in->cast_count > 0 ? p->tape.out.tape_length_mm : 0;
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
    TAKE(body_mass_kg), TAKE(gait_count), TAKE(hind_count), TAKE(lead_count);
}

static void fill_loads(const ung_job_plan_in *in, const ung_job_plan_out *p, ung_hold_in *x)
{
    const ung_limb_load_out *load = &p->load.out;
    double published =
        load->horizontal_known_count > 0 ? larger(load->braking_n_per_kg, load->propulsive_n_per_kg) : UNG__NAN;
    TAKE(body_mass_kg), TAKE(acceleration_ms2), TAKE(pull_extra_n), TAKE(group_factor_ratio), TAKE(divisor_ratio);
    TAKE(peel_pull_n), TAKE(peel_width_mm), TAKE(peel_strength_n_per_mm), TAKE(grip_n);
    x->shoe_mass_g = given(in->shoe_mass_g, p->mass.out.total_g);
    x->shear_n_per_kg = given(in->shear_n_per_kg, given(published, x->shear_n_per_kg));
    x->screw_count = screws(in, p);
    double tilt = in->screw_way_count < 1.5 ? larger(in->tilt_deg, -in->tilt_deg) : 90 - in->dip_deg, other = tilt;
    if (other_holds(in, p)) {
        double lean = given(in->other_tilt_deg, in->tilt_deg), dip = given(in->other_dip_deg, in->dip_deg);
        other = in->screw_way_count < 1.5 ? larger(lean, -lean) : 90 - dip;
    }
    x->axis_tilt_deg = first_holds(in, p) ? larger(tilt, other) : other;
    x->axial_design_n = x->lateral_design_n = x->bond_capacity_first_n = x->bond_capacity_mean_n = 0;
}

/* For the load alone, which the bond is asked to carry. */
FILL(demand, hold)
{
    fill_loads(in, p, x);
}

FILL(grip, screw_hold)
{
    int from_shoe = in->screw_way_count < 1.5;
    double horn = from_shoe ? least(in, p, p->screw.out.embedded_mm, p->other_screw.out.embedded_mm)
                            : least(in, p, p->through.out.grip_mm, p->other_through.out.grip_mm);
    double wood = from_shoe ? in->shoe_thickness_mm - in->head_recess_mm
                            : least(in, p, p->through.out.wood_length_mm, p->other_through.out.wood_length_mm);
    x->point_member_count = from_shoe ? 1 : 2;
    x->screw_diameter_mm = screw_diameter(in, p);
    x->root_diameter_mm = given(in->root_diameter_mm, p->gauge.out.root_diameter_mm);
    x->pitch_mm = given(in->pitch_mm, p->gauge.out.pitch_mm);
    x->head_diameter_mm = given(in->head_diameter_mm, p->gauge.out.head_diameter_mm);
    x->horn_length_mm = horn;
    x->wood_length_mm = wood;
    x->wood_gravity_ratio = gravity(in, p, x->wood_gravity_ratio);
    TAKE(horn_shear_mpa), TAKE(horn_bearing_mpa), TAKE(yield_mpa), TAKE(axial_factor_ratio);
}

FILL(bond, bond_hold)
{
    int taped = in->cast_count > 0;
    x->bonded_area_mm2 = MEASURE(bonded_area_mm2, bonded_area_mm2);
    x->lap_mm = smaller(in->high_toe_mm, in->high_heel_mm); /* the shorter lap is the weaker */
    TAKE(film_mm), TAKE(adhesive_shear_modulus_mpa), TAKE(horn_modulus_mpa), TAKE(cover_modulus_mpa);
    TAKE(shear_strength_mpa), TAKE(preparation_factor), TAKE(divisor_ratio);
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
    fill_loads(in, p, x);
    fill_capacity(p, x);
    x->axial_design_n = x->screw_count > 0 ? p->grip.out.axial_design_n : 0;
    x->lateral_design_n = x->screw_count > 0 ? p->grip.out.lateral_design_n : 0;
}

FILL(bond_only, hold)
{
    fill_loads(in, p, x);
    fill_capacity(p, x);
    x->screw_count = 0;
}

/* What strengths would be needed is asked also where none is known: with the least that is accepted, on which the
 * answer does not hang. */
FILL(grip_need, screw_hold)
{
    fill_grip(in, p, x);
    x->horn_shear_mpa = given(in->horn_shear_mpa, LOWER(screw_hold, horn_shear_mpa));
    x->horn_bearing_mpa = given(in->horn_bearing_mpa, LOWER(screw_hold, horn_bearing_mpa));
    x->wanted_axial_n = x->wanted_lateral_n = p->demand.out.needed_screw_n;
}

FILL(bond_need, bond_hold)
{
    fill_bond(in, p, x);
    x->shear_strength_mpa = given(in->shear_strength_mpa, LOWER(bond_hold, shear_strength_mpa));
}

FILL(lever, coffin_lever)
{
    (void)p;
    TAKE(vertical_force_n), TAKE(forward_force_n), TAKE(breakover_mm), TAKE(setback_mm), TAKE(joint_height_mm);
    TAKE(wedge_deg), TAKE(body_mass_kg);
}

FILL(growth, hoof_growth)
{
    (void)p;
    TAKE(growth_mm_per_28_days), TAKE(days), TAKE(toe_angle_deg), TAKE(angle_loss_deg_per_week);
    TAKE(toe_limit_mm), TAKE(least_toe_angle_deg);
}

/* What has grown until then: a tape that has moved on the wall by more has slipped. */
FILL(recheck, hoof_growth)
{
    fill_growth(in, p, x);
    x->days = in->recheck_days;
}

/* A heel that the bevel has freed of the tape's step stands on toe and bevel's front edge. */
FILL(wear, heel_wear)
{
    int flat = p->bevel.out.wedge_after_deg == 0;
    TAKE(ground_length_mm), TAKE(build_length_mm), TAKE(shoe_thickness_mm), TAKE(days);
    TAKE(toe_rate_mm_per_day), TAKE(heel_rate_mm_per_day), TAKE(wedge_limit_deg), TAKE(least_toe_mm);
    TAKE(heel_cover_mm);
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
    x->mass_g = given(in->mass_g, in->adhesive_density_g_ml * smaller(in->pack_ml, p->glue.out.first_coat_ml));
    x->ambient_c = air(in);
    x->start_c = in->temperature_c;
    TAKE(reference_time_s), TAKE(reference_temperature_c), TAKE(activation_energy_kj), TAKE(surface_cm2);
    TAKE(exchange_w_m2k), TAKE(reference_mass_g), TAKE(reference_surface_cm2), TAKE(heat_j_g);
    TAKE(heat_capacity_j_gk), TAKE(initiation_fraction), TAKE(gel_fraction), TAKE(final_fraction);
}

FILL(heat, wall_heat)
{
    x->adhesive_mm = in->film_mm;
    TAKE(horn_c), TAKE(reference_time_s), TAKE(reference_temperature_c), TAKE(activation_energy_kj);
    TAKE(exchange_w_m2k), TAKE(heat_j_g), TAKE(initiation_fraction), TAKE(gel_fraction), TAKE(final_fraction);
    TAKE(body_c), TAKE(tissue_count), TAKE(tissue_mm);
    x->density_g_ml = in->adhesive_density_g_ml;
    x->horn_mm = wall_thickness(in, p);
    x->ambient_c = air(in);
    x->start_c = in->temperature_c;
}

FILL(set, cast_set)
{
    TAKE(water_c);
    x->room_c = given(in->room_c, given(air(in), x->room_c));
    x->wanted_time_s = in->wanted_set_time_s;
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
    TAKE(spread_fraction), TAKE(pace_fraction), TAKE(triangular_count), TAKE(limit_fraction), TAKE(seed_count);
}

/* How cool the adhesive would have to be for the work to end in time. */
FILL(cooler, working_time)
{
    fill_working(in, p, x);
    x->wanted_time_s = p->timeline.out.needed_working_time_s;
}

/* Every measure of the belt that later steps use was made on an outline. */
static int belt_known(const ung_job_plan_in *in)
{
    double sum = in->perimeter_mm + in->ground_area_mm2 + in->circumference_low_mm + in->circumference_high_mm +
                 in->band_height_mm + in->bonded_area_mm2 + in->wood_area_mm2 + in->top_area_mm2;
    return sum == sum;
}

/* Which steps a switch leaves out.  The way of driving that was not chosen is compared, from the shoe where its inset
 * is given. */
static int left_out(size_t step, const ung_job_plan_in *in)
{
    int no_screws = !screws_asked(in);
    int from_shoe = in->screw_way_count < 1.5 || in->inset_mm == in->inset_mm;
    switch (step) {
    case UNG_PLAN_belt:
        return belt_known(in);
    case UNG_PLAN_screw:
        return no_screws || !from_shoe;
    case UNG_PLAN_other_screw:
        return no_screws || !from_shoe || !other_measured(in);
    case UNG_PLAN_through:
        return no_screws;
    case UNG_PLAN_other_through:
        return no_screws || !other_measured(in);
    case UNG_PLAN_lead:
    case UNG_PLAN_grip:
    case UNG_PLAN_grip_need:
        return no_screws;
    case UNG_PLAN_wall:
        return in->wall_thickness_mm == in->wall_thickness_mm;
    case UNG_PLAN_other_wall:
        return in->other_border_width_mm != in->other_border_width_mm ||
               in->other_wall_thickness_mm == in->other_wall_thickness_mm;
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
    ung_fault *fault = p->fault + step;
    ung_status status = call(p, step);
    if (status == UNG_RANGE && not_a_number(fault->value)) /* from a step that did not run */
        fault->status = status = UNG_MISSING;
    p->state[step] = status == UNG_OK        ? UNG_STEP_DONE
                     : status == UNG_MISSING ? UNG_STEP_LACKS
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
