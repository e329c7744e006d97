/* The accepted range of every input of every calculation, from the contract: what is accepted, what is refused, and
 * what the refusal says. */
#include "../edges.h"

static void check_fault(const ung_calculation *c, const ung_fault *fault, ung_status status, size_t i, double value)
{
    const ung_field *f = ung_input(c, i);
    must_msg(fault->status == status, "%s, %s: status %d", ung_calculation_name(c), f->name, fault->status);
    must(same_text(fault->calculation, ung_calculation_name(c)));
    must_msg(same_text(fault->field, f->name), "%s instead of %s", fault->field, f->name);
    must(same_text(fault->unit, ung_field_unit(f->name)));
    must(isnan(value) ? isnan(fault->value) : same_bits(fault->value, value));
    must(fault->lower == f->lower && fault->upper == f->upper);
    must(fault->input == i + 1 && !fault->other && !fault->text && !fault->rows);
}

/* A refused input: the same fault by the single call and the batch, every result NaN. */
static void check_refusal(const ung_calculation *c, const double *in, ung_status status, size_t i)
{
    double out[UNG_FIELDS_MOST], column[UNG_FIELDS_MOST];
    ung_fault fault, again;
    memset(out, 0, sizeof out);
    memset(column, 0, sizeof column);
    must_msg(call(c, in, out, &fault) == status, "%s, %s = %.17g: %d instead of %d", ung_calculation_name(c),
             ung_input(c, i)->name, in[i], fault.status, status);
    check_fault(c, &fault, status, i, in[i]);
    must(fault.index == UNG_NO_INDEX && fault.count == 0);
    must(call(c, in, out, NULL) == status);
    for (size_t k = 0; k < ung_output_count(c); k++)
        must(isnan(out[k]));
    if (ung_list_count(c))
        return;
    must(batch_of_one(c, in, column, &again) == status);
    check_fault(c, &again, status, i, in[i]);
    must(again.index == 0 && again.count == 1);
    for (size_t k = 0; k < ung_output_count(c); k++)
        must(isnan(column[k]));
}

START_TEST(every_bound)
{
    double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST];
    for (size_t k = 0; k < ung_calculation_count(); k++) {
        const ung_calculation *c = ung_calculation_at(k);
        usual_middle(c, in);
        check_accepted(c, in);
        for (size_t i = 0; i < ung_input_count(c); i++) {
            const ung_field *f = ung_input(c, i);
            for (int end = 0; end < 2; end++) {
                usual_middle(c, in);
                in[i] = end ? f->upper : f->lower;
                ung_fault fault;
                ung_status status = call(c, in, out, &fault);
                must_msg(status == UNG_OK || status == UNG_RELATION, "%s, %s at its bound: %d",
                         ung_calculation_name(c), f->name, status);
                if (status == UNG_RELATION)
                    check_refused(c, in, relation_of(c, &fault));
                else
                    check_accepted(c, in);
                in[i] = end ? nextafter(f->upper, INFINITY) : nextafter(f->lower, -INFINITY);
                check_refusal(c, in, UNG_RANGE, i);
                in[i] = end ? INFINITY : -INFINITY;
                check_refusal(c, in, UNG_RANGE, i);
                in[i] = end ? 1e300 : -1e300;
                check_refusal(c, in, UNG_RANGE, i);
            }
            usual_middle(c, in);
            in[i] = NAN;
            check_refusal(c, in, isnan(f->standard) ? UNG_MISSING : UNG_RANGE, i);
            in[i] = -NAN;
            check_refusal(c, in, isnan(f->standard) ? UNG_MISSING : UNG_RANGE, i);
        }
    }
}
END_TEST

START_TEST(whole_numbers)
{
    double in[UNG_FIELDS_MOST];
    for (size_t k = 0; k < ung_calculation_count(); k++) {
        const ung_calculation *c = ung_calculation_at(k);
        for (size_t i = 0; i < ung_input_count(c); i++) {
            const ung_field *f = ung_input(c, i);
            if (!f->whole)
                continue;
            double step = fmax(1, floor((f->upper - f->lower) / 64)); /* every number, or some of very many */
            for (double x = f->lower; x <= f->upper; x = fmin(x + step, f->upper)) {
                usual_middle(c, in);
                in[i] = x;
                double out[UNG_FIELDS_MOST];
                ung_fault fault;
                if (call(c, in, out, &fault) != UNG_RELATION)
                    check_accepted(c, in);
                else if (!ung_list_count(c)) /* a number that stands for nothing; or more harmonics than the rows tell */
                    check_refused(c, in, relation_of(c, &fault));
                if (x == f->upper)
                    break;
                in[i] = x + 0.5;
                check_refusal(c, in, UNG_WHOLE, i);
                in[i] = nextafter(x, INFINITY);
                check_refusal(c, in, UNG_WHOLE, i);
                in[i] = nextafter(x + 1, x);
                check_refusal(c, in, UNG_WHOLE, i);
            }
        }
    }
}
END_TEST

/* The way to begin: standard values and what is required, of which each left out is refused by name. */
START_TEST(required_fields)
{
    double in[UNG_FIELDS_MOST], middle[UNG_FIELDS_MOST];
    for (size_t k = 0; k < ung_calculation_count(); k++) {
        const ung_calculation *c = ung_calculation_at(k);
        usual_middle(c, middle);
        for (size_t i = 0; i < ung_input_count(c); i++) {
            ung_standard(c, in);
            if (!isnan(in[i]))
                continue;
            for (size_t j = 0; j < ung_input_count(c); j++)
                if (isnan(in[j]) && j != i)
                    in[j] = middle[j];
            check_refusal(c, in, UNG_MISSING, i);
            in[i] = middle[i];
            check_accepted(c, in);
        }
    }
}
END_TEST

/* Of several, the first in field order; ranges before whole numbers. */
START_TEST(first_of_several)
{
    double in[UNG_FIELDS_MOST];
    for (size_t k = 0; k < ung_calculation_count(); k++) {
        const ung_calculation *c = ung_calculation_at(k);
        size_t n = ung_input_count(c);
        for (size_t i = 0; i < n; i++) {
            usual_middle(c, in);
            for (size_t j = i; j < n; j++)
                in[j] = ung_input(c, j)->upper + 1;
            check_refusal(c, in, UNG_RANGE, i);
            for (size_t j = 0; j < i; j++)
                if (ung_input(c, j)->whole)
                    in[j] = ung_input(c, j)->lower + 0.5;
            check_refusal(c, in, UNG_RANGE, i);
            for (size_t j = i + 1; j < n; j++)
                in[j] = NAN;
            check_refusal(c, in, UNG_RANGE, i);
        }
    }
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "boundaries");
    tcase_add_test(tests, every_bound);
    tcase_add_test(tests, whole_numbers);
    tcase_add_test(tests, required_fields);
    tcase_add_test(tests, first_of_several);
    return finish(runner);
}
