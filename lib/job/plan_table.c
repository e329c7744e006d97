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
#define TASK(name, standard, meaning) {#name, meaning, 0, 7200, 5, 900, standard, UNG_CHOICE, 0, 0}
static const ung_field own[] = {
    SWITCH(screw_way_count, 0, 2, 1,
           "0: no screws, 1: from the shoe up into the wall, 2: through the wall into the shoe"),
    SWITCH(foam_count, 0, 1, 0, "1: the shoe is foam, in which screws do not hold"),
    SWITCH(cast_count, 0, 1, 1, "0: no casting tape"),
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
#define NUMBER(field) OWN_##field,
    UNG_PLAN_INPUTS(NOTHING, NOTHING, NUMBER) OWN_COUNT
};
_Static_assert(sizeof own / sizeof *own == OWN_COUNT, "a row for each field of the plan's own, in their order");

#define BORROWED(field, of) {&ung__##of##_inputs[PLACE(ung_##of##_in, field)], #of, 0},
#define FOUND(field, of) {&ung__##of##_inputs[PLACE(ung_##of##_in, field)], #of, 1},
#define OWN(field) {&own[OWN_##field], "", 0},
static const struct {
    const ung_field *field;
    const char *of;
    int found; /* by another step, unless it is given */
} asked[] = {UNG_PLAN_INPUTS(BORROWED, FOUND, OWN)};
_Static_assert(sizeof asked / sizeof *asked == sizeof(ung_job_plan_in) / sizeof(double), "as many rows as fields");

size_t ung_plan_input_count(void)
{
    return sizeof asked / sizeof *asked;
}

const ung_field *ung_plan_input(size_t index)
{
    return index < ung_plan_input_count() ? asked[index].field : 0;
}

const char *ung_plan_input_of(size_t index)
{
    return index < ung_plan_input_count() ? asked[index].of : 0;
}

double ung_plan_input_standard(size_t index)
{
    return index >= ung_plan_input_count() || asked[index].found ? UNG__NAN : asked[index].field->standard;
}

ung_job_plan_in ung_job_plan_standard(void)
{
    union {
        ung_job_plan_in in;
        double value[sizeof(ung_job_plan_in) / sizeof(double)];
    } plan;
    for (size_t i = 0; i < ung_plan_input_count(); i++)
        plan.value[i] = ung_plan_input_standard(i);
    return plan.in;
}

/* A value that is NaN where the standard is NaN too was not given. */
ung_status ung__plan_check(const double *in, ung_fault *fault)
{
    for (size_t i = 0; i < ung_plan_input_count(); i++) {
        double standard = ung_plan_input_standard(i);
        if (in[i] != in[i] && standard != standard)
            continue;
        ung_status status = ung__check_value(asked[i].field, i + 1, in[i], fault);
        if (status != UNG_OK) {
            if (fault)
                fault->calculation = "job_plan";
            return status;
        }
    }
    ung__fault_none(fault, 0);
    if (fault)
        fault->calculation = "job_plan";
    return UNG_OK;
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

/* Steps that only compare, or repeat another one's load: what they warn of is not about this plan. */
static int only_compares(size_t step)
{
    return step == UNG_PLAN_demand || step == UNG_PLAN_narrow_tape || step == UNG_PLAN_wide_tape ||
           step == UNG_PLAN_bond_only;
}

size_t ung_job_plan_cautions(const ung_job_plan_out *plan, ung_plan_caution *caution, size_t capacity)
{
    size_t count = 0;
    for (int severity = UNG_STOP; plan && severity >= UNG_NOTE; severity--)
        for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
            ung_caution now[UNG_CAUTIONS_MOST];
            ung_plan_part part = ung_plan_step(i);
            const double *value = (const double *)plan;
            size_t n = plan->state[i] != UNG_STEP_DONE || only_compares(i)
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
