/* Evaluating the rules of a contract on a result, and finding what would lift a caution. */
#include "core/contract.h"

static double field_value(const ung_calculation *c, const double *in, const double *out, int field)
{
    size_t i = (size_t)field;
    return i < c->input_count ? in[i] : out[i - c->input_count];
}

static int compares(double value, ung_comparison comparison, double limit)
{
    switch (comparison) {
    case UNG_BELOW: return value < limit;
    case UNG_ABOVE: return value > limit;
    case UNG_EQUAL: return value == limit;
    case UNG_ALWAYS: break;
    }
    return 1;
}

static int holds(const ung_calculation *c, const ung_rule *rule, const double *in, const double *out)
{
    if (rule->guard >= 0 && !compares(field_value(c, in, out, rule->guard), rule->guard_comparison, rule->guard_limit))
        return 0;
    if (rule->field < 0 || rule->comparison == UNG_ALWAYS)
        return 1;
    double value = rule->factor * field_value(c, in, out, rule->field);
    if (rule->other >= 0)
        value += rule->other_factor * field_value(c, in, out, rule->other);
    return compares(value, rule->comparison, rule->limit);
}

static ung_caution describe(const ung_calculation *c, const ung_rule *rule, const double *in, const double *out)
{
    if (rule->field < 0)
        return (ung_caution){rule->severity, c->name, rule->code, rule->text, 0, "", UNG__NAN, UNG__NAN, UNG_ALWAYS};
    double limit = rule->limit;
    if (rule->other >= 0) /* the limit for the first field alone, so that value and limit can be read side by side */
        limit -= rule->other_factor * field_value(c, in, out, rule->other);
    ung_comparison comparison = rule->comparison;
    if (rule->factor < 0 && (comparison == UNG_BELOW || comparison == UNG_ABOVE))
        comparison = comparison == UNG_BELOW ? UNG_ABOVE : UNG_BELOW;
    const char *name = ung__field_name(c, rule->field);
    return (ung_caution){rule->severity,
                         c->name,
                         rule->code,
                         rule->text,
                         name,
                         ung_field_unit(name),
                         field_value(c, in, out, rule->field),
                         limit / rule->factor,
                         comparison};
}

size_t ung_cautions(const ung_calculation *c, const double *in, const double *out, ung_caution *caution, size_t capacity)
{
    size_t count = 0;
    if (!c || !in || !out)
        return 0;
    for (size_t i = 0; i < c->output_count; i++)
        if (out[i] != out[i])
            return 0; /* a refused result has no cautions: it has a fault */
    for (int severity = UNG_STOP; severity >= UNG_NOTE; severity--)
        for (size_t i = 0; i < c->rule_count; i++)
            if (c->rules[i].severity == (ung_severity)severity && holds(c, c->rules + i, in, out)) {
                if (caution && count < capacity)
                    caution[count] = describe(c, c->rules + i, in, out);
                count++;
            }
    return count;
}

/* Which rules of a contract hold for an input, a bit a rule; -1 where the input is refused. */
static long standing_rules(const ung_calculation *c, const double *in)
{
    double out[UNG_FIELDS_MOST];
    if (ung_call(c, in, 0, out, 0) != UNG_OK)
        return -1;
    long bits = 0;
    for (size_t i = 0; i < c->rule_count; i++)
        bits |= (long)holds(c, c->rules + i, in, out) << i;
    return bits;
}

/* Whether another value of an input lifts a caution: 1 if so, 0 if not, -1 where the value is refused. */
static int lifting(const ung_calculation *c, const double *in, size_t input, double value, long rule, long stops)
{
    double x[UNG_FIELDS_MOST];
    __builtin_memcpy(x, in, c->input_count * sizeof *x);
    x[input] = value;
    long bits = standing_rules(c, x);
    return bits < 0 ? -1 : !(bits & rule) && !(bits & stops);
}

static int lifted(const ung_calculation *c, const double *in, size_t input, double value, long rule, long stops)
{
    return lifting(c, in, input, value, rule, stops) == 1;
}

/* The last value toward `beyond`, which is refused, that is not. */
static double last_accepted(const ung_calculation *c, const double *in, size_t input, double value, double beyond)
{
    for (int k = 0; k < 60; k++) {
        double middle = value + (beyond - value) / 2;
        *(lifting(c, in, input, middle, 0, 0) < 0 ? &beyond : &value) = middle;
    }
    return value;
}

/* From the present value toward one end of the accepted range: 512 equal steps, then bisection.  Caution limits are
 * crossed once or twice on the way; what lies between two steps of 1/512 of the range is not seen, but for the last
 * value before the first that is refused. */
static double search(const ung_calculation *c, const double *in, size_t input, double end, long rule, long stops)
{
    enum { STEPS = 512 };
    const ung_field *field = c->inputs + input;
    double start = in[input], before = start;
    if (field->whole) {
        for (double v = start + (end > start ? 1 : -1); end > start ? v <= end : v >= end; v += end > start ? 1 : -1)
            if (lifted(c, in, input, v, rule, stops))
                return v;
        return UNG__NAN;
    }
    for (int i = 1, accepted = 1; i <= STEPS; i++) {
        double value = i == STEPS ? end : start + (end - start) * ((double)i / STEPS);
        int lifts = lifting(c, in, input, value, rule, stops);
        if (lifts < 0 && accepted) {
            double last = last_accepted(c, in, input, before, value);
            accepted = 0;
            if (lifted(c, in, input, last, rule, stops))
                value = last, lifts = 1;
        }
        if (lifts > 0) {
            for (int k = 0; k < 60; k++) {
                double middle = before + (value - before) / 2;
                *(lifted(c, in, input, middle, rule, stops) ? &value : &before) = middle;
            }
            return value;
        }
        before = value;
    }
    return UNG__NAN;
}

ung_status ung_caution_lift(const ung_calculation *c, const double *in, const char *code, size_t input, double *value,
                            ung_fault *fault)
{
    if (!c || !in || !code || !value)
        return ung__fault_null(fault, c, !c ? "calculation" : !in ? "in" : !code ? "code" : "value");
    *value = UNG__NAN;
    ung__fault_none(fault, c);
    long rule = 0, stops = 0;
    int exact = 0; /* it asks for one exact value */
    for (size_t i = 0; i < c->rule_count; i++) {
        const char *a = c->rules[i].code, *b = code;
        while (*a && *a == *b)
            a++, b++;
        if (*a == *b) {
            rule |= 1L << i;
            exact |= c->rules[i].comparison == UNG_EQUAL || c->rules[i].guard_comparison == UNG_EQUAL;
        }
        if (c->rules[i].severity == UNG_STOP)
            stops |= 1L << i;
    }
    if (!rule || input >= c->input_count || c->list_count) {
        if (fault) {
            fault->status = UNG_UNKNOWN;
            fault->field = !rule ? "code" : "input";
            fault->text = c->list_count ? "calculations with lists are not searched" : 0;
        }
        return UNG_UNKNOWN;
    }
    ung_status status = ung__check_inputs(c, in, fault);
    if (status != UNG_OK)
        return status;
    long now = standing_rules(c, in);
    if (now < 0) {
        double out[UNG_FIELDS_MOST];
        return ung_call(c, in, 0, out, fault);
    }
    if (!(now & rule)) {
        *value = in[input];
        return UNG_OK;
    }
    stops &= ~now;
    const ung_field *field = c->inputs + input;
    double start = in[input];
    double below = search(c, in, input, field->lower, rule, stops);
    double above = search(c, in, input, field->upper, rule, stops);
    double nearest = below != below || start - below > above - start ? above : below;
    if (nearest != nearest)
        nearest = below;
    /* A rule that asks for one exact value (0 = not measured) is left by any other: offer what is usual instead. */
    if (exact && ung__abs(nearest - start) < 1e-9 * (field->upper - field->lower))
        nearest = lifted(c, in, input, field->usual_lower, rule, stops)   ? field->usual_lower
                  : lifted(c, in, input, field->usual_upper, rule, stops) ? field->usual_upper
                                                                         : UNG__NAN;
    *value = nearest;
    return UNG_OK;
}
