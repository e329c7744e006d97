/* Driving rules and relations over their edges, for every calculation alike: a random input and one of its fields are
 * searched until a property holds for one value and not for another; bisection then makes the two values neighbors. */
#ifndef UNG_TESTS_EDGES_H
#define UNG_TESTS_EDGES_H

#include "common.h"

/* 1: has the property, 0: has it not, -1: counts for neither. */
typedef int property(const ung_calculation *c, const double *in, const void *which);

/* start: an input to search round, or NULL for random ones.  Returns whether an edge was found. */
static inline int find_edge(const ung_calculation *c, property *has, const void *which, const double *start,
                            size_t attempts, double *with, double *without)
{
    size_t n = ung_input_count(c);
    double a[UNG_FIELDS_MOST], b[UNG_FIELDS_MOST], middle[UNG_FIELDS_MOST];
    for (size_t attempt = 0; attempt < attempts; attempt++) {
        if (start)
            memcpy(a, start, n * sizeof *a);
        else
            random_input(c, a, (double)(attempt % 4) / 4 + 0.1);
        int of_a = has(c, a, which);
        for (size_t k = 0; of_a >= 0 && k < n; k++) {
            size_t j = start ? k : random_below(n);
            const ung_field *field = ung_input(c, j);
            memcpy(b, a, sizeof b);
            b[j] = random_value(field, 0.0);
            int of_b = has(c, b, which);
            if (of_b < 0 || of_b == of_a)
                continue;
            double *yes = of_a ? a : b, *no = of_a ? b : a;
            memcpy(middle, a, sizeof middle);
            for (;;) {
                middle[j] = yes[j] + (no[j] - yes[j]) / 2;
                if (field->whole)
                    middle[j] = floor(middle[j]);
                if (middle[j] == yes[j] || middle[j] == no[j])
                    break;
                int of_middle = has(c, middle, which);
                if (of_middle < 0)
                    break;
                (of_middle ? yes : no)[j] = middle[j];
            }
            int neighbors = field->whole ? fabs(yes[j] - no[j]) == 1 : nextafter(yes[j], no[j]) == no[j];
            if (neighbors) {
                memcpy(with, yes, n * sizeof *with);
                memcpy(without, no, n * sizeof *without);
                return 1;
            }
            break;
        }
    }
    return 0;
}

/* ---- Rules ---- */

static inline double rule_field(const ung_calculation *c, const double *in, const double *out, int field)
{
    size_t n = ung_input_count(c);
    return (size_t)field < n ? in[field] : out[(size_t)field - n];
}

static inline int rule_compares(double value, ung_comparison comparison, double limit)
{
    return comparison == UNG_BELOW   ? value < limit
           : comparison == UNG_ABOVE ? value > limit
           : comparison == UNG_EQUAL ? value == limit
                                     : 1;
}

static inline double rule_value(const ung_calculation *c, const ung_rule *r, const double *in, const double *out)
{
    double other = r->other < 0 ? 0 : r->other_factor * rule_field(c, in, out, r->other);
    return r->factor * rule_field(c, in, out, r->field) + other;
}

static inline int guard_holds(const ung_calculation *c, const ung_rule *r, const double *in, const double *out)
{
    return r->guard < 0 || rule_compares(rule_field(c, in, out, r->guard), r->guard_comparison, r->guard_limit);
}

static inline int caution_holds(const ung_calculation *c, const double *in, const void *which)
{
    double out[UNG_FIELDS_MOST];
    const ung_rule *rule = (const ung_rule *)which;
    return call(c, in, out, 0) == UNG_OK ? has_caution(c, in, out, rule->code) : -1;
}

static inline void check_described(const ung_calculation *c, const ung_rule *rule, const double *in, const double *out)
{
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_cautions(c, in, out, caution, UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++) {
        if (strcmp(caution[i].code, rule->code) != 0)
            continue;
        const char *field = (size_t)rule->field < ung_input_count(c)
                                ? ung_input(c, (size_t)rule->field)->name
                                : ung_output(c, (size_t)rule->field - ung_input_count(c))->name;
        ck_assert_str_eq(caution[i].calculation, ung_calculation_name(c));
        ck_assert_str_eq(caution[i].text, rule->text);
        ck_assert_str_eq(caution[i].field, field);
        ck_assert_str_eq(caution[i].unit, ung_field_unit(field));
        must(caution[i].severity == rule->severity);
        must(caution[i].value == rule_field(c, in, out, rule->field));
        /* The printed limit is the rule's, solved for the first field: the same value within its roundings. */
        double other = rule->other < 0 ? 0 : rule->other_factor * rule_field(c, in, out, rule->other);
        double solved = (rule->limit - other) / rule->factor;
        ck_near(caution[i].limit, solved, 4e-16 * (fabs(rule->limit) + fabs(other)));
        return;
    }
    ck_abort_msg("%s: %s does not hold", ung_calculation_name(c), rule->code);
}

/* Every rule of a calculation: an input on either side of its edge, and the edge moves with the contract's number. */
static inline void check_cautions(const ung_calculation *c)
{
    double with[UNG_FIELDS_MOST], without[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST], out_without[UNG_FIELDS_MOST];
    for (size_t k = 0; k < ung_rule_count(c); k++) {
        const ung_rule *rule = ung_rule_at(c, k);
        must_msg(find_edge(c, caution_holds, rule, 0, 200000, with, without), "%s: no edge of %s found",
                      ung_calculation_name(c), rule->code);
        must(call(c, with, out, 0) == UNG_OK);
        must(call(c, without, out_without, 0) == UNG_OK);
        double value = rule_value(c, rule, with, out), value_without = rule_value(c, rule, without, out_without);
        must(guard_holds(c, rule, with, out) && rule_compares(value, rule->comparison, rule->limit));
        must(!guard_holds(c, rule, without, out_without) ||
                  !rule_compares(value_without, rule->comparison, rule->limit));
        check_described(c, rule, with, out);

        /* The same contract with another limit. */
        struct ung_calculation edited = *c;
        ung_rule rules[UNG_CAUTIONS_MOST];
        memcpy(rules, c->rules, c->rule_count * sizeof *rules);
        edited.rules = rules;
        int below = rule->comparison == UNG_BELOW;
        rules[k].limit = rule->comparison == UNG_EQUAL ? nextafter(value, INFINITY) : value;
        must_msg(!has_caution(&edited, with, out, rule->code), "%s stays", rule->code);
        if (guard_holds(c, rule, without, out_without)) {
            rules[k].limit = rule->comparison == UNG_EQUAL ? value_without
                                                           : nextafter(value_without, below ? INFINITY : -INFINITY);
            must_msg(has_caution(&edited, without, out_without, rule->code), "%s does not come", rule->code);
        }
    }
}

/* One rule as the handbook of the calculation states it, so that a slip in the contract shows. */
static inline void check_rule(const ung_calculation *c, const char *code, ung_severity severity,
                              ung_comparison comparison, double limit)
{
    for (size_t k = 0; k < ung_rule_count(c); k++) {
        const ung_rule *rule = ung_rule_at(c, k);
        if (strcmp(rule->code, code) != 0)
            continue;
        must_msg(rule->severity == severity && rule->comparison == comparison && rule->limit == limit,
                      "%s: %s", ung_calculation_name(c), code);
        return;
    }
    ck_abort_msg("%s has no caution %s", ung_calculation_name(c), code);
}

/* The same for the factors of a rule that holds one field against another. */
static inline void check_factors(const ung_calculation *c, const char *code, double factor, double other_factor)
{
    for (size_t k = 0; k < ung_rule_count(c); k++) {
        const ung_rule *rule = ung_rule_at(c, k);
        if (strcmp(rule->code, code) != 0)
            continue;
        must_msg(rule->other >= 0 && rule->factor == factor && rule->other_factor == other_factor, "%s: %s",
                 ung_calculation_name(c), code);
        return;
    }
    ck_abort_msg("%s has no caution %s", ung_calculation_name(c), code);
}

/* The same for the condition under which a rule is asked at all. */
static inline void check_guard(const ung_calculation *c, const char *code, ung_comparison comparison, double limit)
{
    for (size_t k = 0; k < ung_rule_count(c); k++) {
        const ung_rule *rule = ung_rule_at(c, k);
        if (strcmp(rule->code, code) != 0)
            continue;
        must_msg(rule->guard >= 0 && rule->guard_comparison == comparison && rule->guard_limit == limit, "%s: %s",
                 ung_calculation_name(c), code);
        return;
    }
    ck_abort_msg("%s has no caution %s", ung_calculation_name(c), code);
}

/* ---- Relations ---- */

static inline int relation_of(const ung_calculation *c, const ung_fault *fault)
{
    for (size_t k = 0; fault->status == UNG_RELATION && k < ung_refusal_count(c); k++)
        if (fault->text == ung_refusal(c, k))
            return (int)k;
    return -1;
}

static inline int is_refused(const ung_calculation *c, const double *in, const void *which)
{
    double out[UNG_FIELDS_MOST];
    ung_fault fault;
    if (call(c, in, out, &fault) == UNG_OK)
        return 0;
    return relation_of(c, &fault) == *(const int *)which ? 1 : -1;
}

/* A refused input: the same refusal by the single call and the batch, every result NaN. */
static inline void check_refused(const ung_calculation *c, const double *in, int relation)
{
    double out[UNG_FIELDS_MOST], column[UNG_FIELDS_MOST];
    ung_fault fault, again;
    must(call(c, in, out, &fault) == UNG_RELATION);
    must(relation_of(c, &fault) == relation);
    const ung__relation *r = c->relations + relation;
    if (r->field >= 0) {
        ck_assert_str_eq(fault.field, c->inputs[r->field].name);
        must(fault.value == in[r->field]);
        must(fault.input == (size_t)r->field + 1);
        must(fault.lower != fault.lower && fault.upper != fault.upper);
    } else { /* of a list's rows */
        must(fault.field == c->lists[-1 - r->field].name && fault.rows == fault.field && fault.input == 0);
    }
    if (r->other >= 0) {
        ck_assert_str_eq(fault.other, c->inputs[r->other].name);
        ck_assert_str_eq(fault.other_unit, ung_field_unit(fault.other));
        must(fault.other_value == in[r->other]);
    }
    for (size_t i = 0; i < ung_output_count(c); i++)
        must(out[i] != out[i]);
    if (ung_list_count(c))
        return;
    must(batch_of_one(c, in, column, &again) == UNG_RELATION);
    must(again.text == fault.text && again.field == fault.field && again.other == fault.other);
    must(again.value == fault.value && again.index == 0 && again.count == 1);
    for (size_t i = 0; i < ung_output_count(c); i++)
        must(column[i] != column[i]);
}

static inline void check_accepted(const ung_calculation *c, const double *in)
{
    double out[UNG_FIELDS_MOST], column[UNG_FIELDS_MOST];
    must(call(c, in, out, 0) == UNG_OK);
    for (size_t i = 0; i < ung_output_count(c); i++)
        must_msg(isfinite(out[i]) || (ung_output(c, i)->may_be_infinite && out[i] == INFINITY), "%s: %s is %g",
                      ung_calculation_name(c), ung_output(c, i)->name, out[i]);
    if (ung_list_count(c))
        return;
    must(batch_of_one(c, in, column, 0) == UNG_OK);
    must(memcmp(out, column, ung_output_count(c) * sizeof *out) == 0);
}

/* One relation over its edge; start as in find_edge. */
static inline void check_relation(const ung_calculation *c, int relation, const double *start)
{
    double refused[UNG_FIELDS_MOST], accepted[UNG_FIELDS_MOST];
    must_msg(find_edge(c, is_refused, &relation, start, 200000, refused, accepted), "%s: no edge of: %s",
                  ung_calculation_name(c), ung_refusal(c, (size_t)relation));
    check_refused(c, refused, relation);
    check_accepted(c, accepted);
}

#endif
