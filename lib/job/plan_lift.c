/* What to change so that a caution of the plan goes: the nearest value of one input, found by making plans. */
#include "job/plan.h"

#include "core/elementary.h"

typedef struct ask {
    union {
        ung_job_plan_in in;
        double value[sizeof(ung_job_plan_in) / sizeof(double)];
    } asked;
    size_t input, step, rule;
    const ung_job_plan_out *before;
    unsigned long stops[UNG_PLAN_STEP_COUNT]; /* of the plan before; what only compares stops nothing */
} ask;

static unsigned long stops_of(const ung_job_plan_out *plan, size_t step, unsigned long *rules)
{
    ung_caution caution[UNG_CAUTIONS_MOST];
    ung_plan_part part = ung_plan_step(step);
    const double *value = (const double *)plan;
    unsigned long stops = 0;
    *rules = 0;
    if (plan->state[step] != UNG_STEP_DONE)
        return 0;
    size_t n = ung_cautions(part.calculation, value + part.in, value + part.out, caution, UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        for (size_t k = 0; k < part.calculation->rule_count; k++)
            if (part.calculation->rules[k].code == caution[i].code) {
                *rules |= 1UL << k;
                stops |= caution[i].severity == UNG_STOP ? 1UL << k : 0;
            }
    return stops;
}

/* Whether the plan with this value is rid of the caution, without a stop or a failed step that it did not have. */
static int lifted(ask *a, double value)
{
    ung_job_plan_out plan;
    a->asked.value[a->input] = value;
    if (ung_job_plan(&a->asked.in, &plan, 0) != UNG_OK)
        return 0;
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
        unsigned long rules;
        int was = !ung__plan_compares(a->before, i), is = !ung__plan_compares(&plan, i);
        int lost = was && a->before->state[i] == UNG_STEP_DONE && plan.state[i] != UNG_STEP_DONE;
        int unsure = is && !was && plan.state[i] != UNG_STEP_DONE && plan.state[i] != UNG_STEP_LEFT_OUT;
        unsigned long stops = stops_of(&plan, i, &rules) & ~a->stops[i];
        int stands = i == a->step && (rules >> a->rule & 1) && (is || !was);
        if (lost || unsure || stands || (stops && is))
            return 0;
    }
    return 1;
}

/* Takes note of what stands before anything is changed; returns whether the caution is among it. */
static int begin(ask *a, const ung_job_plan_out *plan)
{
    unsigned long rules, asked = 0;
    a->before = plan;
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
        unsigned long stops = stops_of(plan, i, &rules);
        a->stops[i] = ung__plan_compares(plan, i) ? 0 : stops;
        asked |= i == a->step ? rules : 0;
    }
    return (int)(asked >> a->rule & 1);
}

/* The next value to try: small steps through the usual range, where answers lie, and large ones beyond it; whole
 * numbers one by one, unless they are very many. */
static double next(const ung_field *field, double value, int up)
{
    enum { SMALL = 256, LARGE = 64 };
    double low = field->usual_lower, high = field->usual_upper;
    int usual = up ? value >= low && value < high : value > low && value <= high;
    double step = usual ? (high - low) / SMALL : (field->upper - field->lower) / LARGE;
    if (field->whole)
        step = field->upper - field->lower <= SMALL || step < 1 ? 1 : ung__round(step);
    if (up)
        return ung__plan_smaller(value + step, value < low ? low : value < high ? high : field->upper);
    return ung__plan_larger(value - step, value > high ? high : value > low ? low : field->lower);
}

static double between(const ung_field *field, double before, double value)
{
    double middle = before + (value - before) / 2;
    return field->whole ? ung__round(middle) : middle;
}

/* From the present value toward one end of the range; then bisection to the last bits. */
static double search(ask *a, const ung_field *field, double start, int up)
{
    enum { HALVINGS = 50 };
    double before = start, end = up ? field->upper : field->lower;
    while (before != end) {
        double value = next(field, before, up);
        if (lifted(a, value)) {
            for (int k = 0; k < HALVINGS; k++) {
                double middle = between(field, before, value);
                if (middle == before || middle == value)
                    break;
                *(lifted(a, middle) ? &value : &before) = middle;
            }
            return value;
        }
        before = value;
    }
    return UNG__NAN;
}

static ung_status unknown(ung_fault *fault, const char *what)
{
    ung__fault_none(fault, 0);
    if (fault) {
        fault->calculation = "job_plan";
        fault->status = UNG_UNKNOWN;
        fault->field = what;
    }
    return UNG_UNKNOWN;
}

static size_t rule_named(const ung_calculation *calculation, const char *code)
{
    for (size_t i = 0; i < calculation->rule_count; i++) {
        const char *a = calculation->rules[i].code, *b = code;
        while (*a && *a == *b)
            a++, b++;
        if (*a == *b)
            return i;
    }
    return UNG_NO_INDEX;
}

ung_status ung_job_plan_lift(const ung_job_plan_in *in, size_t step, const char *code, size_t input, double *value,
                             ung_fault *fault)
{
    ung_job_plan_out plan, quick;
    if (!in || !code || !value) {
        ung__fault_null(fault, 0, !in ? "in" : !code ? "code" : "value");
        if (fault)
            fault->calculation = "job_plan";
        return UNG_NULL;
    }
    *value = UNG__NAN;
    if (step >= UNG_PLAN_STEP_COUNT)
        return unknown(fault, "step");
    ask a = {{*in}, input, step, rule_named(ung_plan_step(step).calculation, code), 0, {0}};
    if (a.rule == UNG_NO_INDEX)
        return unknown(fault, "code");
    if (input >= ung_plan_input_count())
        return unknown(fault, "input");
    ung_status status = ung_job_plan(in, &plan, fault);
    if (status != UNG_OK)
        return status;

    /* The cup, the film and samples take longer than all the rest: they are left out of the search where the step
     * does not need them, and asked at its end. */
    if (step < UNG_PLAN_timeline)
        a.asked.in.samples_count = UNG__NAN;
    if (step != UNG_PLAN_cup && step < UNG_PLAN_timeline)
        a.asked.in.cup_count = 0;
    if (step != UNG_PLAN_heat)
        a.asked.in.heat_count = 0;
    ung_field field = ung_plan_input(input).field;
    double start = ((const double *)in)[input];
    if (start != start || ung_job_plan(&a.asked.in, &quick, 0) != UNG_OK)
        return UNG_OK; /* a value that was not given cannot be moved */
    int stands = begin(&a, &quick);
    int draws = input == offsetof(ung_job_plan_in, samples_count) / sizeof(double) ||
                input == offsetof(ung_job_plan_in, seed_count) / sizeof(double);
    if (stands && draws && step < UNG_PLAN_timeline)
        return UNG_OK; /* only the timeline draws, and many samples take long */
    double below = stands ? search(&a, &field, start, 0) : start;
    double above = stands ? search(&a, &field, start, 1) : start;
    double nearest = below != below || (above == above && start - below > above - start) ? above : below;
    a.asked.in = *in;
    *value = nearest == nearest && (!begin(&a, &plan) || lifted(&a, nearest)) ? nearest : UNG__NAN;
    return UNG_OK;
}
