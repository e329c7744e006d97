/* What the C tests share: counts, random inputs, comparisons, and the frame of a Check program. */
#ifndef UNG_TESTS_COMMON_H
#define UNG_TESTS_COMMON_H

#include <check.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <ungula.h>

#include "core/contract.h"
#include "rows.h"

/* As ck_assert, which notes every passed assertion and is slow in a loop. */
#define must(condition)                                                                                          \
    do {                                                                                                         \
        if (!(condition))                                                                                        \
            ck_abort_msg("%s", #condition);                                                                      \
    } while (0)
#define must_msg(condition, ...)                                                                                 \
    do {                                                                                                         \
        if (!(condition))                                                                                        \
            ck_abort_msg(__VA_ARGS__);                                                                           \
    } while (0)

/* UNG_TESTS=short, unset or long scales every count. */
static inline size_t scaled(size_t count)
{
    const char *how = getenv("UNG_TESTS");
    if (how && strcmp(how, "short") == 0)
        return count / 10 + 1;
    return how && strcmp(how, "long") == 0 ? count * 20 : count;
}

/* ---- Random numbers: splitmix64 (Steele, Lea, Flood 2014), the same on every machine ---- */

static uint64_t random_state = 1;

static inline uint64_t random_bits(void)
{
    uint64_t z = random_state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

static inline double random_unit(void) /* 0 <= x < 1 */
{
    return (double)(random_bits() >> 11) * 0x1p-53;
}

static inline double random_between(double lower, double upper)
{
    double x = lower + (upper - lower) * random_unit();
    return x < lower ? lower : x > upper ? upper : x;
}

static inline size_t random_below(size_t n)
{
    return (size_t)(random_bits() % n);
}

/* One accepted value of a field: from its usual range with this chance, otherwise from its accepted range; ends and
 * the standard value come often, because that is where formulas change their way. */
static inline double random_value(const ung_field *field, double usual_chance)
{
    int usual = random_unit() < usual_chance;
    double lower = usual ? field->usual_lower : field->lower, upper = usual ? field->usual_upper : field->upper;
    size_t special = random_below(16);
    double x = special == 0   ? lower
               : special == 1 ? upper
               : special == 2 && field->standard == field->standard ? field->standard
                                                                    : random_between(lower, upper);
    return field->whole ? floor(x + 0.5) : x;
}

static inline void random_input(const ung_calculation *c, double *in, double usual_chance)
{
    for (size_t i = 0; i < ung_input_count(c); i++)
        in[i] = random_value(ung_input(c, i), usual_chance);
}

static inline ung_status call(const ung_calculation *c, const double *in, double *out, ung_fault *fault)
{
    if (!ung_list_count(c))
        return ung_call(c, in, NULL, out, fault);
    double data[LISTS_MOST + 1][WORK_MOST];
    ung_rows rows[LISTS_MOST + 1];
    make_rows(c, rows, data);
    return ung_call(c, in, rows, out, fault);
}

/* A random input that is accepted, from the accepted ranges where that can be found, nearer to the usual ones where
 * the relations refuse too many.  out may be NULL. */
static inline void random_accepted(const ung_calculation *c, double *in, double *out)
{
    double unwanted[UNG_FIELDS_MOST];
    for (int attempt = 0;; attempt++) {
        must_msg(attempt < 2000, "%s: no accepted input found", ung_calculation_name(c));
        random_input(c, in, attempt < 4 ? 0.0 : attempt < 8 ? 0.5 : attempt < 100 ? 0.9 : 1.0);
        if (call(c, in, out ? out : unwanted, 0) == UNG_OK)
            return;
    }
}

/* Every field in the middle of its usual range. */
static inline void usual_middle(const ung_calculation *c, double *in)
{
    for (size_t i = 0; i < ung_input_count(c); i++) {
        const ung_field *f = ung_input(c, i);
        in[i] = (f->usual_lower + f->usual_upper) / 2;
        if (f->whole)
            in[i] = floor(in[i]);
    }
}

static inline size_t input_named(const ung_calculation *c, const char *name)
{
    for (size_t i = 0; i < ung_input_count(c); i++)
        if (strcmp(ung_input(c, i)->name, name) == 0)
            return i;
    ck_abort_msg("%s has no input %s", ung_calculation_name(c), name);
    return 0;
}

/* One element through the batch: the same status as the single call, through other code. */
static inline ung_status batch_of_one(const ung_calculation *c, const double *in, double *out, ung_fault *fault)
{
    ung_column columns[UNG_FIELDS_MOST];
    ung_target targets[UNG_FIELDS_MOST];
    for (size_t i = 0; i < ung_input_count(c); i++)
        columns[i] = (ung_column){in + i, sizeof(double)};
    for (size_t i = 0; i < ung_output_count(c); i++)
        targets[i] = (ung_target){out + i, sizeof(double)};
    return ung_batch(c, 1, columns, targets, UNG_STOP_AT_FAULT, fault);
}

static inline int same_bits(double a, double b)
{
    return memcmp(&a, &b, sizeof a) == 0;
}

static inline int same_text(const char *a, const char *b)
{
    return a == b || (a && b && strcmp(a, b) == 0);
}

static inline int has_caution(const ung_calculation *c, const double *in, const double *out, const char *code)
{
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_cautions(c, in, out, caution, UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        if (strcmp(caution[i].code, code) == 0)
            return 1;
    return 0;
}

/* ---- Comparisons ---- */

/* A number printed to so many significant digits (trailing zeros dropped): right within one unit of the last of them,
 * which is its own rounding and as much again for ours. */
static inline double printed_unit(double printed, int digits)
{
    return printed == 0 ? pow(10, -digits) : pow(10, floor(log10(fabs(printed))) + 1 - digits);
}
#define ck_printed(value, printed, digits)                                                                       \
    do {                                                                                                         \
        double value_ = (value), printed_ = (printed);                                                           \
        must_msg(fabs(value_ - printed_) <= printed_unit(printed_, digits), "%s is %.17g, printed is %.17g", \
                      #value, value_, printed_);                                                                 \
    } while (0)

#define ck_near(value, wanted, tolerance)                                                                        \
    do {                                                                                                         \
        double value_ = (value), wanted_ = (wanted), tolerance_ = (tolerance);                                   \
        must_msg(fabs(value_ - wanted_) <= tolerance_, "%s is %.17g, wanted is %.17g within %g", #value,    \
                      value_, wanted_, tolerance_);                                                              \
    } while (0)
#define ck_relative(value, wanted, tolerance) ck_near(value, wanted, (tolerance) * fabs((double)(wanted)))

/* ---- Known geometry, in long double ---- */

#define PI_L 3.141592653589793238462643383279502884L

/* Length of an ellipse with these half axes, by the arithmetic-geometric mean (Gauss; Abramowitz and Stegun 17.6). */
static inline long double ellipse_length(long double a, long double b)
{
    long double x = a > b ? a : b, y = a > b ? b : a;
    long double power = 0.5L, sum = power * (x * x - y * y);
    for (int i = 0; i < 8 && x - y > 1e-17L * x; i++) { /* quadratic: eight are plenty */
        long double mean = (x + y) / 2, half = (x - y) / 2;
        y = sqrtl(x * y);
        x = mean;
        power *= 2;
        sum += power * half * half;
    }
    long double most = a > b ? a : b;
    return 2 * PI_L * (most * most - sum) / x;
}

/* ---- Frame ---- */

static inline TCase *begin(SRunner **runner, const char *name)
{
    Suite *suite = suite_create(name);
    TCase *tests = tcase_create(name);
    suite_add_tcase(suite, tests);
    *runner = srunner_create(suite);
    srunner_set_fork_status(*runner, CK_NOFORK);
    return tests;
}

static inline int finish(SRunner *runner)
{
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}

#endif
