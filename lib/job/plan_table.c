/* What the plan asks for, and its steps, described. */
#include <ungula/plan.h>

#include "core/contract.h"
#include "job/plan.h"

#define PLACE(type, member) (offsetof(type, member) / sizeof(double))

/* The rows of the calculations' own tables. */
#define DECLARE(step, calculation) extern const ung_field ung__##calculation##_inputs[];
UNG_PLAN_STEPS(DECLARE)

/* Fields of the plan's own. */
#define SWITCH(name, lower, upper, standard, meaning)                                                             \
    {#name, meaning, lower, upper, lower, upper, standard, UNG_CHOICE, 1, 0}
#define CHOSEN(name, lower, upper, usual_lower, usual_upper, standard, meaning)                                       \
    {#name, meaning, lower, upper, usual_lower, usual_upper, standard, UNG_CHOICE, 0, 0}
#define TASK(name, standard, meaning) {#name, meaning, 0, 7200, 5, 900, standard, UNG_CHOICE, 0, 0}
static const ung_field own[] = {
    CHOSEN(stock_step_mm, 0.5, 50, 5, 13, 6.35,
           "step from one length of screw in the box to the next; standard: 1/4 in"),
    SWITCH(screw_way_count, 0, 2, 1,
           "0: no screws, 1: from the shoe up into the wall, 2: through the wall into the shoe"),
    SWITCH(foam_count, 0, 1, 0, "1: the shoe is foam, in which screws do not hold"),
    SWITCH(cast_count, 0, 1, 1, "0: no casting tape"),
    CHOSEN(recheck_days, 1, 60, 1, 14, 7, "until the shoe is looked at again; the veterinarian may want it sooner"),
    SWITCH(cup_count, 0, 1, 1, "0: without the cup's own heating"),
    SWITCH(heat_count, 0, 1, 0, "1: with the heat that reaches the inside of the wall"),
    TASK(mix_low_s, 20, "mixing, at the least; the clock starts when the parts meet"),
    TASK(mix_likely_s, 30, "mixing, most likely"),
    TASK(mix_high_s, 60, "mixing, at the most"),
    TASK(lay_low_s, 40, "laying the first coat, at the least"),
    TASK(lay_likely_s, 60, "laying the first coat, most likely"),
    TASK(lay_high_s, 120, "laying the first coat, at the most"),
    TASK(place_low_s, 15, "placing the shoe, at the least"),
    TASK(place_likely_s, 30, "placing the shoe, most likely"),
    TASK(place_high_s, 60, "placing the shoe, at the most"),
    TASK(drive_low_s, 30, "driving the screws, at the least"),
    TASK(drive_likely_s, 60, "driving the screws, most likely"),
    TASK(drive_high_s, 150, "driving the screws, at the most"),
    TASK(wrap_low_s, 60, "wrapping the tape, at the least"),
    TASK(wrap_likely_s, 90, "wrapping the tape, most likely"),
    TASK(wrap_high_s, 180, "wrapping the tape, at the most"),
    TASK(smooth_low_s, 30, "smoothing it down, at the least"),
    TASK(smooth_likely_s, 45, "smoothing it down, most likely"),
    TASK(smooth_high_s, 90, "smoothing it down, at the most"),
};
enum own_number {
#define NOTHING(field, of)
#define NOTHING_NAMED(name, of, field, meaning)
#define NUMBER(field) OWN_##field,
    UNG_PLAN_INPUTS(NOTHING, NOTHING, NOTHING_NAMED, NOTHING_NAMED, NUMBER) OWN_COUNT
};
_Static_assert(sizeof own / sizeof *own == OWN_COUNT, "a row for each field of the plan's own, in their order");

#define ROW_OF(of, field) &ung__##of##_inputs[PLACE(ung_##of##_in, field)]
#define BORROWED(field, of) {ROW_OF(of, field), #field, #of, 0, 0},
#define FOUND(field, of) {ROW_OF(of, field), #field, #of, 0, 1},
#define NAMED(name, of, field, meaning) {ROW_OF(of, field), #name, #of, meaning, 0},
#define NAMED_FOUND(name, of, field, meaning) {ROW_OF(of, field), #name, #of, meaning, 1},
#define OWN(field) {&own[OWN_##field], #field, "", 0, 0},
static const struct {
    const ung_field *field;
    const char *name, *of, *meaning; /* meaning NULL: the contract's */
    int found;                       /* by another step, unless it is given */
} asked[] = {UNG_PLAN_INPUTS(BORROWED, FOUND, NAMED, NAMED_FOUND, OWN)};
_Static_assert(sizeof asked / sizeof *asked == sizeof(ung_job_plan_in) / sizeof(double), "as many rows as fields");

/* What a farrier can choose for the job.  Margins are not among it: a plan that breaks one is not mended by asking for
 * less. */
#define MAY_CHOOSE(C)                                                                                                \
    C(low_mm) C(high_toe_mm) C(high_heel_mm) C(overhang_mm) C(upper_layer_mm) C(edge_bevel_deg)                      \
    C(screw_diameter_mm) C(screw_length_mm) C(inset_mm) C(tilt_deg) C(head_recess_mm) C(entry_height_mm) C(dip_deg)  \
    C(wall_recess_mm) C(other_inset_mm) C(other_tilt_deg) C(other_entry_height_mm) C(other_dip_deg)                  \
    C(other_screw_count) C(screw_way_count) C(screw_count) C(foam_count) C(shoe_thickness_mm) C(pad_mm)              \
    C(cast_count) C(tape_width_mm) C(overlap_fraction) C(passes_count) C(anchor_turns) C(stretch_fraction)           \
    C(film_mm) C(groove_depth_mm) C(groove_width_mm) C(groove_spacing_mm) C(wood_film_mm) C(top_film_mm)             \
    C(bevel_run_mm) C(bevel_angle_deg) C(build_length_mm) C(rear_fraction) C(gait_count) C(setback_mm) C(wedge_deg)  \
    C(days) C(recheck_days) C(temperature_c) C(mass_g) C(surface_cm2) C(water_c)
#define MARK(name) [PLACE(ung_job_plan_in, name)] = 1,
static const unsigned char chosen[sizeof asked / sizeof *asked] = {MAY_CHOOSE(MARK)};

size_t ung_plan_input_count(void)
{
    return sizeof asked / sizeof *asked;
}

static double standard_of(size_t index)
{
    return asked[index].found ? UNG__NAN : asked[index].field->standard;
}

ung_plan_asked ung_plan_input(size_t index)
{
    ung_plan_asked input = {0};
    if (index >= ung_plan_input_count())
        return input;
    input.field = *asked[index].field;
    input.field.name = asked[index].name;
    input.field.meaning = asked[index].meaning ? asked[index].meaning : input.field.meaning;
    input.field.standard = standard_of(index);
    input.calculation = asked[index].of;
    input.original = asked[index].field->name;
    input.found = asked[index].found;
    input.chosen = chosen[index];
    return input;
}

ung_job_plan_in ung_job_plan_standard(void)
{
    union {
        ung_job_plan_in in;
        double value[sizeof(ung_job_plan_in) / sizeof(double)];
    } plan;
    for (size_t i = 0; i < ung_plan_input_count(); i++)
        plan.value[i] = standard_of(i);
    return plan.in;
}

/* A value that is NaN where the standard is NaN too was not given. */
static ung_status check_values(const double *in, ung_fault *fault)
{
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        double standard = standard_of(i);
        if (in[i] != in[i] && standard != standard)
            continue;
        ung_status status = ung__check_value(asked[i].field, i + 1, in[i], fault);
        if (status != UNG_OK) {
            if (fault)
                fault->field = asked[i].name;
            return status;
        }
    }
    ung__fault_none(fault, 0);
    return UNG_OK;
}

ung_status ung__plan_check(const double *in, ung_fault *fault)
{
    size_t some = PLACE(ung_job_plan_in, other_screw_count), all = PLACE(ung_job_plan_in, screw_count);
    ung_status status = check_values(in, fault);
    if (status == UNG_OK && in[some] > in[all]) {
        status = UNG_RELATION;
        if (fault) {
            fault->status = status;
            fault->field = asked[some].name, fault->other = asked[all].name;
            fault->unit = fault->other_unit = "";
            fault->value = in[some], fault->other_value = in[all];
            fault->lower = fault->upper = UNG__NAN;
            fault->text = "there cannot be more screws on one side than on both";
            fault->input = some + 1;
        }
    }
    if (fault)
        fault->calculation = "job_plan";
    return status;
}

ung_plan_part ung_plan_step(size_t index)
{
#define PART(step, calculation)                                                                                   \
    case UNG_PLAN_##step:                                                                                         \
        return (ung_plan_part){#step, ung_##calculation##_contract(), PLACE(ung_job_plan_out, step.in),           \
                               PLACE(ung_job_plan_out, step.out)};
    switch (index) {
        UNG_PLAN_STEPS(PART)
    default:
        return (ung_plan_part){0, 0, 0, 0};
    }
}

const char *ung_step_state_text(ung_step_state state)
{
    static const char *const text[] = {"done", "left out", "lacks a value", "refused"};
    return (size_t)state < sizeof text / sizeof *text ? text[state] : "";
}

/* Steps that only compare, or repeat another one: what they warn of is not about this plan. */
int ung__plan_compares(const ung_job_plan_out *plan, size_t step)
{
    int through_wall = plan->grip.in.point_member_count > 1.5;
    switch (step) {
    case UNG_PLAN_screw:
    case UNG_PLAN_other_screw:
        return through_wall;
    case UNG_PLAN_through:
    case UNG_PLAN_other_through:
        return !through_wall;
    case UNG_PLAN_demand:
    case UNG_PLAN_narrow_tape:
    case UNG_PLAN_wide_tape:
    case UNG_PLAN_bond_only:
    case UNG_PLAN_grip_need:
    case UNG_PLAN_bond_need:
    case UNG_PLAN_recheck:
    case UNG_PLAN_cooler:
        return 1;
    default:
        return 0;
    }
}

size_t ung_job_plan_cautions(const ung_job_plan_out *plan, ung_plan_caution *caution, size_t capacity)
{
    size_t count = 0;
    for (int severity = UNG_STOP; plan && severity >= UNG_NOTE; severity--)
        for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
            ung_caution now[UNG_CAUTIONS_MOST];
            ung_plan_part part = ung_plan_step(i);
            const double *value = (const double *)plan;
            size_t n = plan->state[i] != UNG_STEP_DONE || ung__plan_compares(plan, i)
                           ? 0
                           : ung_cautions(part.calculation, value + part.in, value + part.out, now, UNG_CAUTIONS_MOST);
            for (size_t j = 0; j < n; j++)
                if (now[j].severity == (ung_severity)severity) {
                    if (caution && count < capacity)
                        caution[count] = (ung_plan_caution){i, now[j]};
                    count++;
                }
        }
    return count;
}
