/* What to bring, and what to do in which order: codes and quantities.  The words are in plan_text.c. */
#include "job/plan.h"

#define PLACE(type, member) (offsetof(type, member) / sizeof(double))

/* kind, code, and the plan's value that is its quantity: step, in or out, field; or a step alone. */
#define ITEMS(I, N)                                                                                               \
    I(BRING, adhesive_packs, glue, out, packs_separate_count)                                                     \
    N(BRING, spare_pack, glue)                                                                                    \
    I(BRING, tape_rolls, tape, out, rolls_count)                                                                  \
    N(BRING, spare_roll, tape)                                                                                    \
    I(BRING, screws, demand, in, screw_count)                                                                     \
    I(BRING, screw_thread, screw, in, screw_diameter_mm)                                                          \
    I(BRING, screw_length, screw, in, screw_length_mm)                                                            \
    I(BRING, screw_longest, screw, out, screw_length_limit_mm)                                                    \
    I(BRING, other_screw_longest, other_screw, out, screw_length_limit_mm)                                        \
    I(BRING, wall_screw_thread, through, in, screw_diameter_mm)                                                   \
    I(BRING, wall_screw_length, through, in, screw_length_mm)                                                     \
    I(BRING, wall_screw_shortest, through, out, shortest_mm)                                                      \
    I(BRING, wall_screw_longest, through, out, longest_mm)                                                        \
    I(BRING, other_wall_screw_shortest, other_through, out, shortest_mm)                                          \
    I(BRING, other_wall_screw_longest, other_through, out, longest_mm)                                            \
    I(BRING, horn_bit, lead, out, horn_hole_mm)                                                                   \
    I(BRING, wood_bit, lead, out, lateral_hole_mm)                                                                \
    I(BRING, putty_part, packing, out, part_each_ml)                                                              \
    I(BRING, dam_putty, dam, out, dam_ml)                                                                         \
    N(DO, ask_veterinarian, belt)                                                                                 \
    I(DO, mark_belt_toe, belt, in, high_toe_mm)                                                                   \
    I(DO, mark_belt_heel, belt, in, high_heel_mm)                                                                 \
    I(DO, groove_wall, glue, in, groove_depth_mm)                                                                 \
    I(DO, drill_from_shoe, screw, in, inset_mm)                                                                   \
    I(DO, drill_slant, screw, in, tilt_deg)                                                                       \
    I(DO, drill_stop, screw, out, embedded_mm)                                                                    \
    I(DO, other_drill_from_shoe, other_screw, in, inset_mm)                                                       \
    I(DO, other_drill_slant, other_screw, in, tilt_deg)                                                           \
    I(DO, other_drill_stop, other_screw, out, embedded_mm)                                                        \
    I(DO, drill_through_wall, through, in, entry_height_mm)                                                       \
    I(DO, drill_dip, through, in, dip_deg)                                                                        \
    I(DO, other_drill_through_wall, other_through, in, entry_height_mm)                                           \
    I(DO, other_drill_dip, other_through, in, dip_deg)                                                            \
    N(DO, mix_packing, packing)                                                                                   \
    N(DO, lay_dam, dam)                                                                                           \
    I(DO, mix_first_coat, glue, out, first_coat_ml)                                                               \
    I(DO, finish_within, working, out, safe_time_s)                                                               \
    I(DO, cup_gels, cup, out, gel_time_s)                                                                         \
    I(DO, chance_too_late, timeline, out, chance_fraction)                                                        \
    N(DO, go_on, timeline)                                                                                        \
    I(DO, batches, timeline, out, batches_count)                                                                  \
    I(DO, cool_parts, cooler, out, safe_temperature_c)                                                            \
    N(DO, place_shoe, belt)                                                                                       \
    I(DO, drive_screws, demand, in, screw_count)                                                                  \
    I(DO, dip_tape, set, in, water_c)                                                                             \
    I(DO, wrap_passes, tape, in, passes_count)                                                                    \
    I(DO, edge_strain, tape, out, edge_strain_fraction)                                                           \
    I(DO, mix_top_coat, glue, out, top_coat_ml)                                                                   \
    I(DO, keep_still, set, out, set_time_s)                                                                       \
    I(DO, dress_heel_run, bevel, in, bevel_run_mm)                                                                \
    I(DO, dress_heel_angle, bevel, in, bevel_angle_deg)                                                           \
    I(DO, load_use, hold, out, single_path_use_ratio)                                                             \
    I(LATER, recheck, recheck, in, days)                                                                          \
    I(LATER, recheck_growth, recheck, out, added_mm)                                                              \
    I(LATER, reset_by, growth, out, reset_days)                                                                   \
    I(LATER, worn_by, wear, out, first_days)                                                                      \
    I(LATER, cut_tape, tape, in, band_height_mm)                                                                  \
    I(LATER, heads_in_shoe, screw, in, head_recess_mm)                                                            \
    I(LATER, heads_in_wall, through, in, head_recess_mm)                                                          \
    N(LATER, free_heads, grip)

#define WITH(kind, code, step, way, field)                                                                        \
    {UNG_ITEM_##kind, #code, UNG_PLAN_##step, PLACE(ung_job_plan_out, step.way.field), #field},
#define WITHOUT(kind, code, step) {UNG_ITEM_##kind, #code, UNG_PLAN_##step, 0, 0},
static const struct {
    ung_item_kind kind;
    const char *code;
    size_t step, place;
    const char *field;
} items[] = {ITEMS(WITH, WITHOUT)};
_Static_assert(sizeof items / sizeof *items <= UNG_PLAN_ITEMS_MOST, "raise UNG_PLAN_ITEMS_MOST");

static const char *worst_caution(const ung_job_plan_out *plan, size_t step)
{
    ung_caution caution[UNG_CAUTIONS_MOST];
    ung_plan_part part = ung_plan_step(step);
    const double *value = (const double *)plan;
    size_t n = ung_cautions(part.calculation, value + part.in, value + part.out, caution, UNG_CAUTIONS_MOST);
    return n && caution[0].severity > UNG_NOTE && !ung__plan_compares(plan, step) ? caution[0].code : 0;
}

/* Margin of the side that a step is about; of a step that is about both, what screws the plan drives. */
static double side_margin(const ung_job_plan_out *plan, size_t step)
{
    switch (step) {
    case UNG_PLAN_screw:
        return ung__plan_margin_from_shoe(&plan->screw.out);
    case UNG_PLAN_other_screw:
        return ung__plan_margin_from_shoe(&plan->other_screw.out);
    case UNG_PLAN_through:
        return ung__plan_margin_through_wall(&plan->through.out);
    case UNG_PLAN_other_through:
        return ung__plan_margin_through_wall(&plan->other_through.out);
    case UNG_PLAN_lead:
    case UNG_PLAN_grip:
        return plan->demand.in.screw_count - 1;
    default:
        return 0;
    }
}

/* Screws that break a margin are not driven, so nothing is drilled for them; what would keep the margin is told. */
static int drives(const ung_job_plan_out *plan, size_t step)
{
    int none = plan->demand.in.screw_count == 0 && step != UNG_PLAN_grip && step != UNG_PLAN_lead &&
               side_margin(plan, step) != 0;
    return side_margin(plan, step) >= 0 && !none;
}

/* Both sides get the same screws: what is to be brought stands with the first side, also where only the other one is
 * driven. */
static int of_both_sides(size_t place)
{
    return place == PLACE(ung_job_plan_out, screw.in.screw_diameter_mm) ||
           place == PLACE(ung_job_plan_out, screw.in.screw_length_mm) ||
           place == PLACE(ung_job_plan_out, through.in.screw_diameter_mm) ||
           place == PLACE(ung_job_plan_out, through.in.screw_length_mm) ||
           place == PLACE(ung_job_plan_out, screw.in.head_recess_mm) ||
           place == PLACE(ung_job_plan_out, through.in.head_recess_mm);
}

static int is_limit(size_t place)
{
    return place == PLACE(ung_job_plan_out, screw.out.screw_length_limit_mm) ||
           place == PLACE(ung_job_plan_out, other_screw.out.screw_length_limit_mm) ||
           place == PLACE(ung_job_plan_out, through.out.shortest_mm) ||
           place == PLACE(ung_job_plan_out, through.out.longest_mm) ||
           place == PLACE(ung_job_plan_out, other_through.out.shortest_mm) ||
           place == PLACE(ung_job_plan_out, other_through.out.longest_mm);
}

/* One batch and go on, or more batches, or cooler parts. */
static int advised(const ung_job_plan_out *plan, size_t i)
{
    int late = plan->timeline.out.batches_count > 1 || plan->timeline.out.impossible_count > 0;
    if (items[i].step == UNG_PLAN_cooler)
        return late;
    if (items[i].step != UNG_PLAN_timeline)
        return 1;
    if (!items[i].field)
        return !late;
    return late || items[i].place != PLACE(ung_job_plan_out, timeline.out.batches_count);
}

/* Measures of the belt that were brought along stand for its step; a plan that was refused has none. */
static int ran(const ung_job_plan_out *plan, size_t step)
{
    int brought = plan->state[UNG_PLAN_belt] == UNG_STEP_LEFT_OUT &&
                  plan->glue.in.bonded_area_mm2 == plan->glue.in.bonded_area_mm2;
    return plan->state[step] == UNG_STEP_DONE || (step == UNG_PLAN_belt && brought);
}

static int wanted(const ung_job_plan_out *plan, size_t i, double quantity)
{
    size_t step = items[i].step;
    int of_other_way = ung__plan_compares(plan, step) && step <= UNG_PLAN_other_through;
    if (!ran(plan, step) || of_other_way || !advised(plan, i))
        return 0;
    if (!items[i].field)
        return drives(plan, step);
    int none_is_nothing =
        items[i].kind == UNG_ITEM_BRING || items[i].place == PLACE(ung_job_plan_out, demand.in.screw_count);
    if (quantity != quantity || (quantity == 0 && none_is_nothing))
        return 0; /* none of it */
    if (quantity == UNG__INFINITY && *ung_field_unit(items[i].field))
        return 0; /* never */
    int brought = of_both_sides(items[i].place) && plan->demand.in.screw_count > 0;
    return drives(plan, step) || brought || is_limit(items[i].place);
}

size_t ung_plan_items(const ung_job_plan_out *plan, ung_plan_item *item, size_t capacity)
{
    size_t count = 0;
    for (size_t i = 0; plan && i < sizeof items / sizeof *items; i++) {
        double quantity = items[i].field ? ((const double *)plan)[items[i].place] : UNG__NAN;
        if (!wanted(plan, i, quantity))
            continue;
        if (item && count < capacity)
            item[count] = (ung_plan_item){items[i].kind,
                                          items[i].code,
                                          quantity,
                                          items[i].field ? ung_field_unit(items[i].field) : "",
                                          items[i].step,
                                          items[i].field,
                                          worst_caution(plan, items[i].step)};
        count++;
    }
    return count;
}

const char *ung_plan_code(size_t index)
{
    return index < sizeof items / sizeof *items ? items[index].code : 0;
}
