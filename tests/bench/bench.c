/* Speed of every calculation without lists: one line of JSON each, times in nanoseconds an element.
 *
 *     scalar_ns        one call through ung_call on inputs that lie ready
 *     batch            for each n: the widths "plain", "avx2", "avx512f" as far as this CPU runs them, and "traffic",
 *                      which reads as many input columns and writes as many result columns and computes nothing
 *
 * Each time is [best, median] of several passes.  Widths and traffic take turns within a pass, so that a slow moment
 * of the machine meets them alike.  The inputs lie in the usual ranges of the contracts; refused ones are drawn again.
 */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "core/contract.h"

enum { SCALAR_SETS = 4096, TURNS = UNG_WIDTHS + 1, PASSES_MOST = 101 };
static const char *const turn_name[TURNS] = {"plain", "avx2", "avx512f", "traffic"};

static double now_ns(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e9 + (double)t.tv_nsec;
}

/* Uniform in [0, 1): a linear congruential generator (Knuth's MMIX constants) is good enough to draw inputs. */
static double uniform(void)
{
    static uint64_t state = 20240229;
    state = state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (double)(state >> 11) * 0x1p-53;
}

static void draw(const ung_calculation *c, double *x)
{
    double y[UNG_FIELDS_MOST];
    do
        for (size_t j = 0; j < ung_input_count(c); j++) {
            const ung_field *f = ung_input(c, j);
            double value = f->usual_lower + uniform() * (f->usual_upper - f->usual_lower);
            x[j] = f->whole ? (double)(long)(value + 0.5) : value;
        }
    while (ung_call(c, x, NULL, y, NULL) != UNG_OK);
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static void print_times(const char *name, double *ns, size_t count)
{
    qsort(ns, count, sizeof *ns, ascending);
    printf("\"%s\": [%.2f, %.2f]", name, ns[0], ns[count / 2]);
}

static void fail(const char *what)
{
    fprintf(stderr, "bench: %s\n", what);
    exit(1);
}

static void *memory(size_t size)
{
    void *m = malloc(size);
    if (!m)
        fail("out of memory");
    memset(m, 0, size); /* pages exist before the clock starts */
    return m;
}

/* Reads and writes in the batch's own order, a block of each column at a time.  Whole numbers are or-ed because their
 * vector sum costs nothing beside the loads. */
static inline __attribute__((always_inline)) uint64_t move_columns(const double *in, double *out, size_t n,
                                                                   size_t in_count, size_t out_count)
{
    uint64_t all = 0;
    for (size_t from = 0; from + UNG_BLOCK <= n; from += UNG_BLOCK) {
        for (size_t j = 0; j < in_count; j++) {
            const uint64_t *bits = (const uint64_t *)(const void *)(in + j * n + from);
#pragma omp simd reduction(| : all)
            for (int i = 0; i < UNG_BLOCK; i++)
                all |= bits[i];
        }
        for (size_t j = 0; j < out_count; j++) {
            double *column = out + j * n + from;
#pragma omp simd
            for (int i = 0; i < UNG_BLOCK; i++)
                column[i] = 1;
        }
    }
    return all;
}
static uint64_t traffic_plain(const double *in, double *out, size_t n, size_t in_count, size_t out_count)
{
    return move_columns(in, out, n, in_count, out_count);
}
#ifdef UNG_WIDE
__attribute__((target("avx2"))) static uint64_t traffic_avx2(const double *in, double *out, size_t n, size_t in_count,
                                                             size_t out_count)
{
    return move_columns(in, out, n, in_count, out_count);
}
#else
#define traffic_avx2 traffic_plain
#endif

/* Times of one calculation over n elements. */
static void batch(const ung_calculation *c, size_t n, const double *in, double *out, size_t passes)
{
    size_t in_count = ung_input_count(c), out_count = ung_output_count(c);
    ung_column columns[UNG_FIELDS_MOST];
    ung_target targets[UNG_FIELDS_MOST];
    for (size_t j = 0; j < in_count; j++)
        columns[j] = UNG_COLUMN(in + j * n);
    for (size_t j = 0; j < out_count; j++)
        targets[j] = UNG_TARGET(out + j * n);
    static double ns[TURNS][PASSES_MOST];
    static volatile uint64_t sink; /* so that the reading is not left out */
    int widest = ung__width();
    for (size_t pass = 0; pass < passes; pass++)
        for (int turn = 0; turn < TURNS; turn++) {
            double begin = now_ns();
            if (turn == UNG_WIDTHS)
                sink = widest ? traffic_avx2(in, out, n, in_count, out_count)
                              : traffic_plain(in, out, n, in_count, out_count);
            else if (turn > widest || (turn > 0 && c->kernel[turn] == c->kernel[0]))
                continue;
            else if (ung__batch(c, n, columns, targets, UNG_STOP_AT_FAULT, turn, NULL) != UNG_OK)
                fail(ung_calculation_name(c));
            ns[turn][pass] = (now_ns() - begin) / (double)n;
        }
    (void)sink;
    printf("\"%zu\": {", n);
    for (int turn = 0; turn < TURNS; turn++)
        if (turn == UNG_WIDTHS || (turn <= widest && (turn == 0 || c->kernel[turn] != c->kernel[0]))) {
            printf("%s", turn > 0 ? ", " : "");
            print_times(turn_name[turn], ns[turn], passes);
        }
    printf("}");
}

static void measure(const ung_calculation *c)
{
    size_t in_count = ung_input_count(c), out_count = ung_output_count(c);
    static double sets[SCALAR_SETS][UNG_FIELDS_MOST];
    for (size_t i = 0; i < SCALAR_SETS; i++)
        draw(c, sets[i]);

    enum { PASSES = 7 };
    double ns[PASSES], y[UNG_FIELDS_MOST], sum = 0;
    for (size_t pass = 0; pass < PASSES; pass++) {
        double begin = now_ns();
        for (size_t i = 0; i < SCALAR_SETS; i++) {
            if (ung_call(c, sets[i], NULL, y, NULL) != UNG_OK)
                fail(ung_calculation_name(c));
            sum += y[0];
        }
        ns[pass] = (now_ns() - begin) / SCALAR_SETS;
    }
    if (sum != sum)
        fail(ung_calculation_name(c));
    int chosen = c->kernel[ung__width()] == c->kernel[0] ? 0 : ung__width();
    printf("{\"name\": \"%s\", \"inputs\": %zu, \"outputs\": %zu, \"width\": \"%s\", ", ung_calculation_name(c),
           in_count, out_count, turn_name[chosen]);
    print_times("scalar_ns", ns, PASSES);
    printf(", \"batch_ns\": {");

    /* Above a microsecond an element, a tenth of the elements is enough, and the sets repeat: drawing costs as much. */
    int slow = ns[0] > 1000;
    size_t sizes[] = {10000, slow ? 100000 : 1000000}, most = sizes[1];
    double *in = memory(in_count * most * sizeof *in), *out = memory(out_count * most * sizeof *out);
    for (size_t k = 0; k < 2; k++) {
        size_t n = sizes[k];
        for (size_t i = 0; i < n; i++) {
            double x[UNG_FIELDS_MOST];
            if (slow)
                memcpy(x, sets[i % SCALAR_SETS], sizeof x);
            else
                draw(c, x);
            for (size_t j = 0; j < in_count; j++)
                in[j * n + i] = x[j];
        }
        printf("%s", k > 0 ? ", " : "");
        batch(c, n, in, out, slow ? 3 : k > 0 ? 9 : PASSES_MOST);
    }
    printf("}}\n");
    fflush(stdout);
    free(in);
    free(out);
}

int main(void)
{
    for (size_t k = 0; k < ung_calculation_count(); k++)
        if (ung_list_count(ung_calculation_at(k)) == 0)
            measure(ung_calculation_at(k));
    return 0;
}
