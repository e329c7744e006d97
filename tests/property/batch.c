/* The batch against single calls, bit for bit: kernel widths, strides, block edges, refusals. */
#include "../edges.h"

enum { MOST = 1000 };
static const size_t lengths[] = {0, 1, 2, 63, 64, 65, 127, 128, 129, MOST};
enum { LENGTHS = sizeof lengths / sizeof *lengths };

/* Inputs and results of one trial, element after element, as single calls have them. */
static double input[MOST][UNG_FIELDS_MOST], output[MOST][UNG_FIELDS_MOST];
static ung_status status[MOST];
static ung_fault faults[MOST];

/* Elements of which about one in `one_in` is refused (0: none, where the relations let that be found). */
static void fill(const ung_calculation *c, size_t n, size_t one_in)
{
    for (size_t i = 0; i < n; i++) {
        random_accepted(c, input[i], output[i]);
        if (one_in && random_below(one_in) == 0) {
            size_t j = random_below(ung_input_count(c));
            const ung_field *f = ung_input(c, j);
            const double bad[] = {NAN, INFINITY, -INFINITY, nextafter(f->lower, -INFINITY),
                                  nextafter(f->upper, INFINITY), f->lower + 0.5};
            if (random_below(3) == 0)
                random_input(c, input[i], 0); /* often refused by a relation */
            else
                input[i][j] = bad[random_below(f->whole ? 6 : 5)];
        }
        status[i] = call(c, input[i], output[i], &faults[i]);
    }
}

/* Where the columns lie: a place in one block of bytes for every field. */
typedef enum layout { CONTIGUOUS, STRUCTS, NEGATIVE, UNALIGNED, WIDE_APART, LAYOUTS } layout;

static unsigned char memory[2 * UNG_FIELDS_MOST * MOST * 32 + 64];

static ptrdiff_t stride_of(layout how, size_t fields)
{
    switch (how) {
    case STRUCTS: return (ptrdiff_t)(fields * sizeof(double));
    case NEGATIVE: return -(ptrdiff_t)sizeof(double);
    case UNALIGNED: return 11;
    case WIDE_APART: return 24;
    case CONTIGUOUS:
    case LAYOUTS: break;
    }
    return sizeof(double);
}

static unsigned char *place(layout how, size_t fields, size_t field, size_t n)
{
    ptrdiff_t stride = stride_of(how, fields);
    if (how == STRUCTS)
        return memory + field * sizeof(double);
    size_t span = (size_t)(stride < 0 ? -stride : stride) * n + sizeof(double);
    return memory + (how == UNALIGNED ? 3 : 0) + field * span + (stride < 0 ? (n - 1) * sizeof(double) : 0);
}

static double at(const void *base, ptrdiff_t stride, size_t i)
{
    double x;
    memcpy(&x, (const char *)base + (ptrdiff_t)i * stride, sizeof x);
    return x;
}

static void lay_out(const ung_calculation *c, size_t n, layout how, ung_column *in, ung_target *out)
{
    size_t inputs = ung_input_count(c), outputs = ung_output_count(c), fields = inputs + outputs;
    for (size_t j = 0; j < fields; j++) {
        unsigned char *base = place(how, fields, j, n ? n : 1);
        ptrdiff_t stride = stride_of(how, fields);
        if (j < inputs)
            in[j] = (ung_column){base, stride};
        else
            out[j - inputs] = (ung_target){base, stride};
        for (size_t i = 0; j < inputs && i < n; i++)
            memcpy(base + (ptrdiff_t)i * stride, &input[i][j], sizeof(double));
    }
}

/* What a batch must have written: results of single calls; NaN where refused, and from the first refused on if it stops. */
static void check_results(const ung_calculation *c, size_t n, const ung_target *out, unsigned options,
                          ung_status returned, const ung_fault *fault)
{
    size_t first = n, refused = 0;
    for (size_t i = n; i-- > 0;)
        if (status[i] != UNG_OK) {
            first = i;
            refused++;
        }
    int go_on = options == UNG_GO_ON;
    for (size_t j = 0; j < ung_output_count(c); j++)
        for (size_t i = 0; out[j].base && i < n; i++) {
            double x = at(out[j].base, out[j].stride, i);
            if (status[i] != UNG_OK || (!go_on && i >= first))
                must(isnan(x));
            else
                must_msg(same_bits(x, output[i][j]), "%s, element %zu of %zu, %s: %.17g instead of %.17g",
                         ung_calculation_name(c), i, n, ung_output(c, j)->name, x, output[i][j]);
        }
    must(returned == (go_on || first == n ? UNG_OK : status[first]));
    if (!fault)
        return;
    must(fault->status == (first == n ? UNG_OK : status[first]));
    must(fault->index == (first == n ? UNG_NO_INDEX : first));
    must(fault->count == (go_on ? refused : refused ? 1 : 0));
    if (first < n) { /* the fault of the single call, with its element */
        const ung_fault *f = faults + first;
        must(fault->field == f->field && fault->text == f->text && fault->other == f->other);
        must(fault->input == f->input && (same_bits(fault->value, f->value) || isnan(f->value)));
    }
}

/* Every calculation without lists. */
#define EACH(c)                                                             \
    for (size_t k_ = 0; k_ < ung_calculation_count(); k_++)                 \
        for (const ung_calculation *c = ung_calculation_at(k_); c && !ung_list_count(c); c = NULL)

/* A call of these takes up to a millisecond: short columns, and one that is longer than a block. */
static int too_long(const ung_calculation *c, size_t n, int again)
{
    int costs = strcmp(ung_calculation_name(c), "wall_heat") == 0 || strcmp(ung_calculation_name(c), "cup_cure") == 0;
    return costs && (again || n > 65 ? n > 2 : 0);
}

START_TEST(every_width_and_layout)
{
    EACH(c)
    {
        ung_column in[UNG_FIELDS_MOST];
        ung_target out[UNG_FIELDS_MOST];
        size_t trials = scaled(8);
        for (size_t trial = 0; trial < trials; trial++)
            for (size_t l = 0; l < LENGTHS; l++) {
                size_t n = lengths[l];
                if (n == MOST && trial > 0 && c->kernel[0] == c->kernel[UNG_WIDTHS - 1] && trial % 4)
                    continue; /* formulas with loops are slow and have one kernel */
                if (too_long(c, n, trial > 0 || n < 65))
                    continue;
                fill(c, n, trial % 2 ? 40 : 0);
                for (int how = 0; how < LAYOUTS; how++) {
                    if (how == NEGATIVE && n == 0)
                        continue;
                    if (too_long(c, n, how != CONTIGUOUS))
                        continue;
                    int width = (int)((trial + l + (size_t)how) % (size_t)(ung__width() + 2)) - 1; /* -1: by CPU */
                    unsigned options = (trial + (size_t)how) % 2 ? UNG_GO_ON : UNG_STOP_AT_FAULT;
                    ung_fault fault;
                    memset(memory, 0x5a, sizeof memory);
                    lay_out(c, n, (layout)how, in, out);
                    ung_status returned = ung__batch(c, n, in, out, options, width, &fault);
                    check_results(c, n, out, options, returned, &fault);
                }
            }
    }
}
END_TEST

/* Many elements for each width: the whole accepted ranges. */
START_TEST(every_width_at_length)
{
    EACH(c)
    {
        ung_column in[UNG_FIELDS_MOST];
        ung_target out[UNG_FIELDS_MOST];
        int slow = c->kernel[0] == c->kernel[UNG_WIDTHS - 1];
        if (too_long(c, MOST, 0))
            continue;
        for (size_t trial = 0; trial < scaled(slow ? 2 : 10); trial++) {
            fill(c, MOST, 0);
            for (int width = 0; width <= ung__width(); width++) {
                lay_out(c, MOST, CONTIGUOUS, in, out);
                ung_status returned = ung__batch(c, MOST, in, out, UNG_STOP_AT_FAULT, width, NULL);
                check_results(c, MOST, out, UNG_STOP_AT_FAULT, returned, NULL);
            }
        }
    }
}
END_TEST

/* Constants (stride 0) and standard values (no column). */
START_TEST(constants_and_standards)
{
    EACH(c)
    {
        size_t inputs = ung_input_count(c);
        for (size_t trial = 0; trial < scaled(60); trial++) {
            ung_column in[UNG_FIELDS_MOST];
            ung_target out[UNG_FIELDS_MOST];
            size_t n = lengths[1 + trial % 5];
            if (too_long(c, n, 1))
                continue;
            unsigned options = trial % 2;
            double constant[UNG_FIELDS_MOST];
            random_accepted(c, constant, NULL);
            int kind[UNG_FIELDS_MOST]; /* 0: a column, 1: a constant, 2: the standard value */
            for (size_t j = 0; j < inputs; j++)
                kind[j] = (int)random_below(3);
            if (trial % 7 == 0) { /* a constant that is refused, or a required field with no column */
                size_t j = random_below(inputs);
                kind[j] = (int)(1 + random_below(2));
                constant[j] = trial % 2 ? NAN : ung_input(c, j)->upper + 0.5;
            }
            for (size_t i = 0; i < n; i++) {
                random_accepted(c, input[i], NULL);
                for (size_t j = 0; j < inputs; j++)
                    input[i][j] = kind[j] == 0 ? input[i][j] : kind[j] == 1 ? constant[j] : ung_input(c, j)->standard;
                status[i] = call(c, input[i], output[i], &faults[i]);
            }
            lay_out(c, n, CONTIGUOUS, in, out);
            for (size_t j = 0; j < inputs; j++)
                if (kind[j])
                    in[j] = kind[j] == 1 ? UNG_CONSTANT(constant + j) : (ung_column){NULL, (ptrdiff_t)trial};
            for (size_t j = 0; j < ung_output_count(c); j++)
                if (random_below(3) == 0)
                    out[j].base = NULL; /* not wanted */
            ung_fault fault;
            ung_status returned = ung_batch(c, n, in, out, options, &fault);
            check_results(c, n, out, options, returned, &fault);
        }
    }
}
END_TEST

/* Results into the place of inputs. */
START_TEST(in_place)
{
    EACH(c)
    {
        size_t inputs = ung_input_count(c), outputs = ung_output_count(c);
        for (size_t trial = 0; trial < scaled(20); trial++) {
            ung_column in[UNG_FIELDS_MOST];
            ung_target out[UNG_FIELDS_MOST];
            size_t n = lengths[1 + trial % (LENGTHS - 1)];
            if (too_long(c, n, 1))
                continue;
            fill(c, n, trial % 3 ? 0 : 30);
            lay_out(c, n, trial % 2 ? STRUCTS : CONTIGUOUS, in, out);
            size_t shift = random_below(inputs);
            for (size_t j = 0; j < outputs && j < inputs; j++) {
                const ung_column *column = in + (j + shift) % inputs;
                out[j] = (ung_target){(void *)(uintptr_t)column->base, column->stride};
            }
            ung_fault fault;
            unsigned options = trial % 2;
            ung_status returned = ung_batch(c, n, in, out, options, &fault);
            check_results(c, n, out, options, returned, &fault);
        }
    }
}
END_TEST

static void check_overlap(const ung_calculation *c, size_t n, const ung_column *in, const ung_target *out,
                          const char *field)
{
    ung_fault fault;
    must(ung_batch(c, n, in, out, UNG_GO_ON, &fault) == UNG_OVERLAP);
    must(fault.status == UNG_OVERLAP && fault.text && same_text(fault.field, field));
    must(ung_batch(c, n, in, out, UNG_GO_ON, NULL) == UNG_OVERLAP);
}

START_TEST(overlaps_are_refused)
{
    EACH(c)
    {
        ung_column in[UNG_FIELDS_MOST];
        ung_target out[UNG_FIELDS_MOST];
        static unsigned char before[sizeof memory];
        enum { N = 100 };
        const char *name = ung_output(c, 0)->name;
        fill(c, N, 0);
        lay_out(c, N, CONTIGUOUS, in, out);
        memcpy(before, memory, sizeof memory);
        ptrdiff_t d = sizeof(double);
        unsigned char *first = (unsigned char *)out[0].base, *input_0 = memory;
        const struct {
            unsigned char *base;
            ptrdiff_t stride;
        } bad[] = {
            {first, 0},                      /* every element in one place */
            {first, 7},                      /* elements that overlap */
            {first, -7},
            {input_0 + d, d},                /* an input column, one element on */
            {input_0 - 0 + 1, d},            /* one byte on */
            {input_0 + (N - 1) * d, -d},     /* the same place backward */
            {input_0, 2 * d},                /* the same base, another stride */
            {input_0 + (N - 1) * d + 7, d},  /* its last byte */
        };
        for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
            out[0] = (ung_target){bad[i].base, bad[i].stride};
            check_overlap(c, N, in, out, name);
            must(memcmp(memory, before, sizeof memory) == 0); /* nothing was written */
        }
        out[0] = (ung_target){input_0, d};
        if (ung_input_count(c) > 1) {
            in[1] = (ung_column){input_0 + 5 * d, 0}; /* a constant inside a result column */
            check_overlap(c, N, in, out, name);
        }
        lay_out(c, N, CONTIGUOUS, in, out);
        if (ung_output_count(c) > 1) {
            out[1] = out[0]; /* two results in one place */
            check_overlap(c, N, in, out, ung_output(c, 1)->name);
            out[1].base = first + (N - 1) * d;
            check_overlap(c, N, in, out, ung_output(c, 1)->name);
        }
        /* What shares nothing is accepted: two columns interleaved, and one right behind another. */
        lay_out(c, N, STRUCTS, in, out);
        must(ung_batch(c, N, in, out, UNG_STOP_AT_FAULT, NULL) == UNG_OK);
        check_results(c, N, out, UNG_STOP_AT_FAULT, UNG_OK, NULL);
        lay_out(c, 1, CONTIGUOUS, in, out);
        out[0].stride = 0; /* a single element may have any stride */
        must(ung_batch(c, 1, in, out, UNG_STOP_AT_FAULT, NULL) == UNG_OK);
    }
}
END_TEST

START_TEST(options_and_emptiness)
{
    EACH(c)
    {
        ung_column in[UNG_FIELDS_MOST];
        ung_target out[UNG_FIELDS_MOST];
        ung_fault fault;
        fill(c, 2, 0);
        lay_out(c, 2, CONTIGUOUS, in, out);
        must(ung_batch(c, 2, in, out, 2, &fault) == UNG_UNKNOWN && same_text(fault.field, "options"));
        must(ung_batch(c, 2, in, out, ~0u, &fault) == UNG_UNKNOWN);
        must(ung_batch(c, 0, in, out, 0, &fault) == UNG_OK && fault.status == UNG_OK && fault.count == 0);
        for (size_t j = 0; j < ung_output_count(c); j++)
            out[j].base = NULL; /* nothing wanted: only whether the inputs are accepted */
        must(ung_batch(c, 2, in, out, 0, &fault) == UNG_OK);
    }
}
END_TEST

/* Refusals at given places of a block: the first, the last, both sides of a block's edge, several. */
START_TEST(refusals_at_block_edges)
{
    static const size_t places[] = {0, 1, 62, 63, 64, 65, 127, 128, 190, 199};
    enum { N = 200 };
    EACH(c)
        for (size_t p = 0; p < sizeof places / sizeof *places; p++)
            for (size_t q = p; q < sizeof places / sizeof *places; q++)
                for (unsigned options = 0; options < 2 && !too_long(c, N, 0); options++) {
                    ung_column in[UNG_FIELDS_MOST];
                    ung_target out[UNG_FIELDS_MOST];
                    ung_fault fault;
                    if (options == 0 && q == p)
                        fill(c, N, 0);
                    const size_t bad[] = {places[p], places[q]};
                    double kept[2] = {input[bad[0]][0], input[bad[1]][0]};
                    for (int b = 0; b < 2; b++) {
                        size_t i = bad[b];
                        input[i][0] = b ? NAN : ung_input(c, 0)->upper + 1;
                        status[i] = call(c, input[i], output[i], &faults[i]);
                    }
                    lay_out(c, N, CONTIGUOUS, in, out);
                    ung_status returned = ung_batch(c, N, in, out, options, &fault);
                    check_results(c, N, out, options, returned, &fault);
                    for (int b = 0; b < 2; b++) {
                        size_t i = bad[b];
                        input[i][0] = b && bad[0] == bad[1] ? kept[0] : kept[b];
                        status[i] = call(c, input[i], output[i], &faults[i]);
                    }
                }
}
END_TEST

/* A relation that one element breaks, among accepted ones. */
START_TEST(relations_inside_a_batch)
{
    EACH(c)
        for (int r = 0; r < (int)ung_refusal_count(c); r++) {
            double refused[UNG_FIELDS_MOST], accepted[UNG_FIELDS_MOST];
            if (!find_edge(c, is_refused, &r, NULL, too_long(c, 3, 1) ? 500 : scaled(20000), refused, accepted))
                continue; /* too rare for a random search; its room's test constructs it */
            for (size_t place = 0; place < (too_long(c, 3, 1) ? 1 : 130); place += 43) {
                ung_column in[UNG_FIELDS_MOST];
                ung_target out[UNG_FIELDS_MOST];
                ung_fault fault;
                fill(c, 130, 0);
                for (size_t i = place; i < 130; i += 60) {
                    memcpy(input[i], refused, sizeof refused);
                    status[i] = call(c, input[i], output[i], &faults[i]);
                }
                for (unsigned options = 0; options < 2; options++) {
                    lay_out(c, 130, UNALIGNED, in, out);
                    ung_status returned = ung_batch(c, 130, in, out, options, &fault);
                    check_results(c, 130, out, options, returned, &fault);
                    must(fault.status == UNG_RELATION);
                }
            }
        }
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "batch");
    tcase_add_test(tests, every_width_and_layout);
    tcase_add_test(tests, every_width_at_length);
    tcase_add_test(tests, constants_and_standards);
    tcase_add_test(tests, in_place);
    tcase_add_test(tests, overlaps_are_refused);
    tcase_add_test(tests, options_and_emptiness);
    tcase_add_test(tests, refusals_at_block_edges);
    tcase_add_test(tests, relations_inside_a_batch);
    return finish(runner);
}
