/* Plan: the whole job from one set of measurements, by all the other calculations.
 *
 *     ung_job_plan_in horse = ung_job_plan_standard();     standard values; NaN where nothing is known
 *     horse.hoof_length_mm = 135, ...
 *     ung_job_plan_out plan;
 *     if (ung_job_plan(&horse, &plan, &fault) < 0)  ...
 *     plan.belt.out.circumference_low_mm                   belt: the plan's step; hoof_band made it
 *     plan.belt.in.low_mm                                  what it was made from
 *
 * The plan has no formula of its own: each step is one calculation, called with measurements and with results of the
 * steps before it.  A step that lacks a measurement, is refused, or needs a step that did not run has NaN results; the
 * others go on, and plan.state[UNG_PLAN_belt] tells. */
#ifndef UNGULA_PLAN_H
#define UNGULA_PLAN_H

#include <ungula/bevel.h>
#include <ungula/bond.h>
#include <ungula/cast.h>
#include <ungula/cure.h>
#include <ungula/horse.h>
#include <ungula/job.h>
#include <ungula/packing.h>
#include <ungula/screw.h>
#include <ungula/shape.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The steps in their order, each with its calculation. */
#define UNG_PLAN_STEPS(S)                                                                                         \
    S(belt, hoof_band)                                                                                            \
    S(wall, wall_from_border)                                                                                     \
    S(other_wall, wall_from_border)                                                                               \
    S(gauge, screw_gauge)                                                                                         \
    S(wood, wood_species)                                                                                         \
    S(screw, screw_depth)                                                                                         \
    S(other_screw, screw_depth)                                                                                   \
    S(through, screw_through)                                                                                     \
    S(other_through, screw_through)                                                                               \
    S(lead, lead_hole)                                                                                            \
    S(tape, cast_length)                                                                                          \
    S(narrow_tape, cast_length)                                                                                   \
    S(wide_tape, cast_length)                                                                                     \
    S(glue, glue_volume)                                                                                          \
    S(bevel, heel_bevel)                                                                                          \
    S(packing, packing_volume)                                                                                    \
    S(dam, dam_volume)                                                                                            \
    S(mass, shoe_mass)                                                                                            \
    S(load, limb_load)                                                                                            \
    S(demand, hold)                                                                                               \
    S(grip, screw_hold)                                                                                           \
    S(bond, bond_hold)                                                                                            \
    S(hold, hold)                                                                                                 \
    S(bond_only, hold)                                                                                            \
    S(grip_need, screw_hold)                                                                                      \
    S(bond_need, bond_hold)                                                                                       \
    S(lever, coffin_lever)                                                                                        \
    S(growth, hoof_growth)                                                                                        \
    S(recheck, hoof_growth)                                                                                       \
    S(wear, heel_wear)                                                                                            \
    S(working, working_time)                                                                                      \
    S(cup, cup_cure)                                                                                              \
    S(heat, wall_heat)                                                                                            \
    S(set, cast_set)                                                                                              \
    S(timeline, job_timeline)                                                                                     \
    S(cooler, working_time)

#define UNG_PLAN__NUMBER(step, calculation) UNG_PLAN_##step,
enum { UNG_PLAN_STEPS(UNG_PLAN__NUMBER) UNG_PLAN_STEP_COUNT };
#undef UNG_PLAN__NUMBER

typedef enum ung_step_state {
    UNG_STEP_DONE = 0,
    UNG_STEP_LEFT_OUT = 1, /* by a switch */
    UNG_STEP_LACKS = 2,    /* a measurement is missing, or a result of a step that did not run: the fault's field */
    UNG_STEP_REFUSED = 3   /* by its calculation: the fault says why */
} ung_step_state;
UNG_PUBLIC const char *ung_step_state_text(ung_step_state state) UNG_CONST;

#define UNG_PLAN_TASKS 6 /* of the timeline: mix, lay, place, drive, wrap, smooth */

/* What the plan asks for.
 *     F(field, calculation whose contract describes it)
 *     W(field, calculation)                   another step finds it, unless it is given (NaN: not given)
 *     A(name, calculation, field, meaning)    field of that contract under a name of its own
 *     B(name, calculation, field, meaning)    both
 *     O(field)                                the plan's own */
#define UNG_PLAN_INPUTS(F, W, A, B, O)                                                                            \
    /* hoof and belt */                                                                                           \
    F(hoof_length_mm, hoof_band)                                                                                  \
    F(hoof_width_mm, hoof_band)                                                                                   \
    F(widest_fraction, hoof_band)                                                                                 \
    F(heel_width_fraction, hoof_band)                                                                             \
    F(toe_width_fraction, hoof_band)                                                                              \
    F(toe_angle_deg, hoof_band)                                                                                   \
    F(quarter_angle_deg, hoof_band)                                                                               \
    F(heel_angle_deg, hoof_band)                                                                                  \
    W(low_mm, hoof_band)                                                                                          \
    F(high_toe_mm, hoof_band)                                                                                     \
    F(high_heel_mm, hoof_band)                                                                                    \
    F(toe_hairline_mm, hoof_band)                                                                                 \
    F(heel_hairline_mm, hoof_band)                                                                                \
    F(overhang_mm, hoof_band)                                                                                     \
    F(upper_layer_mm, hoof_band)                                                                                  \
    F(edge_bevel_deg, hoof_band)                                                                                  \
    F(open_heel_fraction, hoof_band)                                                                              \
    /* the belt's own measures, where they are known from a traced outline */                                     \
    W(perimeter_mm, shoe_mass)                                                                                    \
    W(ground_area_mm2, shoe_mass)                                                                                 \
    W(circumference_low_mm, cast_length)                                                                          \
    W(circumference_high_mm, cast_length)                                                                         \
    W(band_height_mm, cast_length)                                                                                \
    W(bonded_area_mm2, glue_volume)                                                                               \
    W(wood_area_mm2, glue_volume)                                                                                 \
    W(top_area_mm2, glue_volume)                                                                                  \
    /* wall and screws, at the place of one side that has the least room for them */                              \
    F(border_width_mm, wall_from_border)                                                                          \
    W(wall_thickness_mm, screw_depth)                                                                             \
    F(wall_angle_deg, screw_depth)                                                                                \
    F(sole_horn_mm, screw_depth)                                                                                  \
    W(screw_diameter_mm, screw_depth)                                                                             \
    W(screw_length_mm, screw_depth)                                                                               \
    O(stock_step_mm)                                                                                              \
    F(inset_mm, screw_depth)                                                                                      \
    F(tilt_deg, screw_depth)                                                                                      \
    F(head_recess_mm, screw_depth)                                                                                \
    W(entry_height_mm, screw_through)                                                                             \
    F(dip_deg, screw_through)                                                                                     \
    A(wall_recess_mm, screw_through, head_recess_mm, "how deep a head on the wall is sunk in the horn")           \
    F(height_limit_mm, screw_depth)                                                                               \
    F(inner_margin_mm, screw_depth)                                                                               \
    F(outer_margin_mm, screw_depth)                                                                               \
    F(white_line_margin_mm, screw_depth)                                                                          \
    F(edge_margin_mm, screw_depth)                                                                                \
    F(ground_margin_mm, screw_through)                                                                            \
    F(least_wood_mm, screw_through)                                                                               \
    F(seat_allowance_mm, screw_depth)                                                                             \
    F(tilt_error_deg, screw_depth)                                                                                \
    /* the other side, where its wall was measured too; what is not given is as on the first */                   \
    B(other_border_width_mm, wall_from_border, border_width_mm, "the same on the other side")                     \
    B(other_wall_thickness_mm, screw_depth, wall_thickness_mm, "the same on the other side")                      \
    B(other_wall_angle_deg, screw_depth, wall_angle_deg, "the same on the other side")                            \
    B(other_sole_horn_mm, screw_depth, sole_horn_mm, "the same on the other side")                                \
    B(other_inset_mm, screw_depth, inset_mm, "the same on the other side")                                        \
    B(other_tilt_deg, screw_depth, tilt_deg, "the same on the other side")                                        \
    B(other_entry_height_mm, screw_through, entry_height_mm, "the same on the other side")                        \
    B(other_dip_deg, screw_through, dip_deg, "the same on the other side")                                        \
    B(other_screw_count, hold, screw_count, "those of screw_count that are on the other side")                    \
    /* screws */                                                                                                  \
    O(screw_way_count)                                                                                            \
    F(screw_count, hold)                                                                                          \
    F(gauge_count, screw_gauge)                                                                                   \
    W(root_diameter_mm, screw_hold)                                                                               \
    W(pitch_mm, screw_hold)                                                                                       \
    W(head_diameter_mm, screw_hold)                                                                               \
    F(head_angle_deg, lead_hole)                                                                                  \
    F(horn_hole_fraction, lead_hole)                                                                              \
    F(yield_mpa, screw_hold)                                                                                      \
    F(axial_factor_ratio, screw_hold)                                                                             \
    /* shoe */                                                                                                    \
    O(foam_count)                                                                                                 \
    F(shoe_thickness_mm, screw_depth)                                                                             \
    F(pad_mm, screw_depth)                                                                                        \
    F(species_count, wood_species)                                                                                \
    W(wood_gravity_ratio, screw_hold)                                                                             \
    W(wood_density_g_ml, shoe_mass)                                                                               \
    F(screw_g, shoe_mass)                                                                                         \
    F(tape_g_m2, shoe_mass)                                                                                       \
    F(adhesive_density_g_ml, shoe_mass)                                                                           \
    W(shoe_mass_g, hold)                                                                                          \
    /* tape and adhesive */                                                                                       \
    O(cast_count)                                                                                                 \
    F(tape_width_mm, cast_length)                                                                                 \
    F(overlap_fraction, cast_length)                                                                              \
    W(passes_count, cast_length)                                                                                  \
    F(anchor_turns, cast_length)                                                                                  \
    F(stretch_fraction, cast_length)                                                                              \
    A(tape_waste_fraction, cast_length, waste_fraction, "folds and ends of tape, of the laid length")             \
    F(roll_length_mm, cast_length)                                                                                \
    F(ply_mm, cast_length)                                                                                        \
    F(film_mm, glue_volume)                                                                                       \
    F(groove_depth_mm, glue_volume)                                                                               \
    F(groove_width_mm, glue_volume)                                                                               \
    F(groove_spacing_mm, glue_volume)                                                                             \
    F(wood_film_mm, glue_volume)                                                                                  \
    F(top_film_mm, glue_volume)                                                                                   \
    A(glue_waste_fraction, glue_volume, waste_fraction, "adhesive that stays in cup and on tools")                \
    F(ratio_a_to_b, glue_volume)                                                                                  \
    F(pack_ml, glue_volume)                                                                                       \
    F(nozzle_ml, glue_volume)                                                                                     \
    /* heel */                                                                                                    \
    F(ground_length_mm, heel_bevel)                                                                               \
    F(bevel_run_mm, heel_bevel)                                                                                   \
    F(bevel_angle_deg, heel_bevel)                                                                                \
    F(width_start_mm, heel_bevel)                                                                                 \
    F(width_end_mm, heel_bevel)                                                                                   \
    F(build_length_mm, heel_bevel)                                                                                \
    F(wrapped_before_count, heel_bevel)                                                                           \
    F(least_edge_mm, heel_bevel)                                                                                  \
    /* packing */                                                                                                 \
    F(sole_area_mm2, packing_volume)                                                                              \
    F(dish_depth_mm, packing_volume)                                                                              \
    F(gap_mm, packing_volume)                                                                                     \
    F(frog_length_mm, packing_volume)                                                                             \
    F(frog_width_mm, packing_volume)                                                                              \
    F(frog_height_mm, packing_volume)                                                                             \
    F(frog_groove_count, packing_volume)                                                                          \
    F(frog_groove_length_mm, packing_volume)                                                                      \
    F(frog_groove_width_mm, packing_volume)                                                                       \
    F(frog_groove_depth_mm, packing_volume)                                                                       \
    F(rear_fraction, packing_volume)                                                                              \
    F(part_count, packing_volume)                                                                                 \
    F(putty_density_g_ml, packing_volume)                                                                         \
    F(cushion_density_g_ml, packing_volume)                                                                       \
    A(packing_waste_fraction, packing_volume, waste_fraction, "packing squeezed out and left over")               \
    F(rope_length_mm, dam_volume)                                                                                 \
    F(rope_width_mm, dam_volume)                                                                                  \
    F(rope_height_mm, dam_volume)                                                                                 \
    F(groove_room_mm, dam_volume)                                                                                 \
    F(pad_count, dam_volume)                                                                                      \
    F(pad_length_mm, dam_volume)                                                                                  \
    F(pad_width_mm, dam_volume)                                                                                   \
    F(pad_height_mm, dam_volume)                                                                                  \
    A(dam_waste_fraction, dam_volume, waste_fraction, "the dam's putty cut off and left over")                    \
    /* load and strengths */                                                                                      \
    F(body_mass_kg, limb_load)                                                                                    \
    F(gait_count, limb_load)                                                                                      \
    F(hind_count, limb_load)                                                                                      \
    F(lead_count, limb_load)                                                                                      \
    F(acceleration_ms2, hold)                                                                                     \
    W(shear_n_per_kg, hold)                                                                                       \
    F(pull_extra_n, hold)                                                                                         \
    F(group_factor_ratio, hold)                                                                                   \
    F(divisor_ratio, hold)                                                                                        \
    F(peel_pull_n, hold)                                                                                          \
    F(peel_width_mm, hold)                                                                                        \
    F(peel_strength_n_per_mm, hold)                                                                               \
    F(grip_n, hold)                                                                                               \
    F(horn_shear_mpa, screw_hold)                                                                                 \
    F(horn_bearing_mpa, screw_hold)                                                                               \
    F(adhesive_shear_modulus_mpa, bond_hold)                                                                      \
    F(horn_modulus_mpa, bond_hold)                                                                                \
    F(cover_modulus_mpa, bond_hold)                                                                               \
    F(shear_strength_mpa, bond_hold)                                                                              \
    F(preparation_factor, bond_hold)                                                                              \
    F(vertical_force_n, coffin_lever)                                                                             \
    F(forward_force_n, coffin_lever)                                                                              \
    F(breakover_mm, coffin_lever)                                                                                 \
    F(setback_mm, coffin_lever)                                                                                   \
    F(joint_height_mm, coffin_lever)                                                                              \
    F(wedge_deg, coffin_lever)                                                                                    \
    /* growth and wear */                                                                                         \
    F(growth_mm_per_28_days, hoof_growth)                                                                         \
    F(days, hoof_growth)                                                                                          \
    O(recheck_days)                                                                                               \
    F(angle_loss_deg_per_week, hoof_growth)                                                                       \
    F(toe_limit_mm, hoof_growth)                                                                                  \
    F(least_toe_angle_deg, hoof_growth)                                                                           \
    F(toe_rate_mm_per_day, heel_wear)                                                                             \
    F(heel_rate_mm_per_day, heel_wear)                                                                            \
    F(wedge_limit_deg, heel_wear)                                                                                 \
    F(least_toe_mm, heel_wear)                                                                                    \
    F(heel_cover_mm, heel_wear)                                                                                   \
    /* time and heat */                                                                                           \
    F(reference_time_s, working_time)                                                                             \
    F(reference_temperature_c, working_time)                                                                      \
    F(temperature_c, working_time)                                                                                \
    F(activation_energy_kj, working_time)                                                                         \
    W(ambient_c, cup_cure)                                                                                        \
    O(cup_count)                                                                                                  \
    W(mass_g, cup_cure)                                                                                           \
    F(surface_cm2, cup_cure)                                                                                      \
    F(exchange_w_m2k, cup_cure)                                                                                   \
    F(reference_mass_g, cup_cure)                                                                                 \
    F(reference_surface_cm2, cup_cure)                                                                            \
    F(heat_j_g, cup_cure)                                                                                         \
    F(heat_capacity_j_gk, cup_cure)                                                                               \
    F(initiation_fraction, cup_cure)                                                                              \
    F(gel_fraction, cup_cure)                                                                                     \
    F(final_fraction, cup_cure)                                                                                   \
    O(heat_count)                                                                                                 \
    F(horn_c, wall_heat)                                                                                          \
    F(body_c, wall_heat)                                                                                          \
    F(tissue_count, wall_heat)                                                                                    \
    F(tissue_mm, wall_heat)                                                                                       \
    F(water_c, cast_set)                                                                                          \
    W(room_c, cast_set)                                                                                           \
    A(wanted_set_time_s, cast_set, wanted_time_s, "after which the cast should be set")                           \
    W(samples_count, job_timeline)                                                                                \
    F(spread_fraction, job_timeline)                                                                              \
    F(pace_fraction, job_timeline)                                                                                \
    F(triangular_count, job_timeline)                                                                             \
    F(limit_fraction, job_timeline)                                                                               \
    F(seed_count, job_timeline)                                                                                   \
    /* the tasks of the timeline: shortest, likely, longest */                                                    \
    O(mix_low_s) O(mix_likely_s) O(mix_high_s)                                                                    \
    O(lay_low_s) O(lay_likely_s) O(lay_high_s)                                                                    \
    O(place_low_s) O(place_likely_s) O(place_high_s)                                                              \
    O(drive_low_s) O(drive_likely_s) O(drive_high_s)                                                              \
    O(wrap_low_s) O(wrap_likely_s) O(wrap_high_s)                                                                 \
    O(smooth_low_s) O(smooth_likely_s) O(smooth_high_s)
#define UNG_PLAN__MEMBER(field, of) double field;
#define UNG_PLAN__NAMED(name, of, field, meaning) double name;
#define UNG_PLAN__OWN(field) double field;
typedef struct ung_job_plan_in {
    UNG_PLAN_INPUTS(UNG_PLAN__MEMBER, UNG_PLAN__MEMBER, UNG_PLAN__NAMED, UNG_PLAN__NAMED, UNG_PLAN__OWN)
} ung_job_plan_in;
#undef UNG_PLAN__MEMBER
#undef UNG_PLAN__NAMED
#undef UNG_PLAN__OWN

/* Of each step: what its calculation was given, and what it found (NaN where it did not run). */
#define UNG_PLAN__STEP(step, calculation)                                                                         \
    struct {                                                                                                      \
        ung_##calculation##_in in;                                                                                \
        ung_##calculation##_out out;                                                                              \
    } step;
typedef struct ung_job_plan_out {
    UNG_PLAN_STEPS(UNG_PLAN__STEP)
    ung_job_step tasks[UNG_PLAN_TASKS]; /* the rows of timeline; 0 s where nothing is driven or wrapped */
    ung_step_time times[UNG_PLAN_TASKS];
    ung_step_state state[UNG_PLAN_STEP_COUNT];
    ung_fault fault[UNG_PLAN_STEP_COUNT];
} ung_job_plan_out;
#undef UNG_PLAN__STEP

/* Standard values; NaN where a measurement is asked for, or another step finds the value. */
UNG_PUBLIC ung_job_plan_in ung_job_plan_standard(void) UNG_CONST;

/* Refused only where a value that was given is out of its range; what is missing leaves out the steps that need it. */
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_job_plan(const ung_job_plan_in *in, ung_job_plan_out *out,
                                                        ung_fault *fault);

/* The plan described: its inputs, in the order of the struct; and its steps. */
typedef struct ung_plan_asked {
    ung_field field;         /* range, standard value (NaN: none, or another step finds it), meaning */
    const char *calculation; /* of whose contract it is; "" for the plan's own */
    const char *original;    /* its name there */
    int found;               /* 1: by another step, unless it is given */
    int chosen;              /* 1: can be chosen for the job; 0: a measure of the horse or a product */
} ung_plan_asked;
UNG_PUBLIC size_t ung_plan_input_count(void) UNG_CONST;
UNG_PUBLIC ung_plan_asked ung_plan_input(size_t index) UNG_CONST; /* out of range: field.name NULL */
typedef struct ung_plan_part {
    const char *name; /* "belt" */
    const ung_calculation *calculation;
    size_t in, out; /* where its two structs begin, in doubles from the start of ung_job_plan_out */
} ung_plan_part;
UNG_PUBLIC ung_plan_part ung_plan_step(size_t index) UNG_CONST; /* out of range: name NULL */

/* Cautions of all steps that ran, the most severe first, steps in their order.  Returns how many hold, which may be
 * more than capacity. */
typedef struct ung_plan_caution {
    size_t step;
    ung_caution caution;
} ung_plan_caution;
UNG_PUBLIC size_t ung_job_plan_cautions(const ung_job_plan_out *plan, ung_plan_caution *caution, size_t capacity);

/* The nearest value of one input with which the whole plan has no such caution of that step any more, no other step
 * is stopped, and none fails that did not: for telling what to change.  NaN: no value of that input does it.  It
 * makes some hundred plans, and may miss values that are nearer together than 1/256 of the input's usual range, or
 * 1/64 of its range beyond that. */
UNG_PUBLIC ung_status ung_job_plan_lift(const ung_job_plan_in *in, size_t step, const char *code, size_t input,
                                        double *value, ung_fault *fault);

/* What to bring, and what to do in which order, as data: codes, and texts apart from them. */
typedef enum ung_item_kind { UNG_ITEM_BRING = 0, UNG_ITEM_DO = 1, UNG_ITEM_LATER = 2 } ung_item_kind;
typedef struct ung_plan_item {
    ung_item_kind kind;
    const char *code;     /* short and stable, for programs; ung_plan_text gives the words */
    double quantity;      /* NaN: none */
    const char *unit;     /* "" where it is a count or a ratio */
    size_t step;          /* the plan's step whose calculation made the quantity */
    const char *field;    /* and its field; NULL where there is no quantity */
    const char *caution;  /* code of that step's most severe caution above a note, or NULL */
} ung_plan_item;
#define UNG_PLAN_ITEMS_MOST 64
UNG_PUBLIC size_t ung_plan_items(const ung_job_plan_out *plan, ung_plan_item *item, size_t capacity);

/* Words for a code: {quantity} and {unit} stand for the item's.  language: "en", "de".  NULL: no such code or
 * language. */
UNG_PUBLIC const char *ung_plan_text(const char *code, const char *language) UNG_PURE;
/* The same filled in, the quantity to four digits and never to the wrong side of a limit.  Returns the length that is
 * needed without the end, as snprintf does; 0: no such code or language. */
UNG_PUBLIC size_t ung_plan_words(const char *code, double quantity, const char *unit, const char *language,
                                 char *buffer, size_t size);
UNG_PUBLIC const char *ung_plan_language(size_t index) UNG_CONST; /* "en", "de", then NULL */
UNG_PUBLIC const char *ung_plan_code(size_t index) UNG_CONST;     /* every code that has texts, then NULL */

#ifdef __cplusplus
}
#endif
#endif
