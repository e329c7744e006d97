/* Prints a hash of the results of every calculation at every kernel width, for bits.sh.  UNG_TESTS scales the count. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <ungula.h>

#include "../rows.h"
#include "core/contract.h"

static uint64_t state = 12345;
static uint64_t random_bits(void) /* splitmix64 */
{
    uint64_t z = state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

/* From the usual or the accepted range, so that most elements are accepted; those that a relation refuses are hashed
 * as the NaN that the library writes. */
static double draw(const ung_field *f, int usual)
{
    double lower = usual ? f->usual_lower : f->lower, upper = usual ? f->usual_upper : f->upper;
    if (f->whole && upper > lower + 1000) /* numbers of samples take their time, and seeds are alike */
        upper = lower + 1000;
    if (f->whole)
        return lower + (double)(random_bits() % (uint64_t)(upper - lower + 1));
    double x = lower + (upper - lower) * ((double)(random_bits() >> 11) * 0x1p-53);
    return x > upper ? upper : x;
}

static uint64_t hash(uint64_t h, const double *value, size_t n) /* FNV-1a by 64-bit words */
{
    for (size_t i = 0; i < n; i++) {
        uint64_t bits;
        memcpy(&bits, value + i, sizeof bits);
        h = (h ^ bits) * UINT64_C(0x100000001b3);
        h ^= h >> 32;
    }
    return h;
}

enum { N = 1000 };
static double in[UNG_FIELDS_MOST][N], out[UNG_FIELDS_MOST][N], data[LISTS_MOST + 1][WORK_MOST];

/* A call of these takes up to a millisecond. */
static int takes_long(const char *name)
{
    static const char *const slow[] = {"cup_cure", "cup_curve", "wall_heat", "job_timeline"};
    for (size_t i = 0; i < sizeof slow / sizeof *slow; i++)
        if (strcmp(name, slow[i]) == 0)
            return 1;
    return 0;
}

int main(void)
{
    const char *how = getenv("UNG_TESTS");
    int rounds = how && strcmp(how, "short") == 0 ? 13 : 130;
    for (size_t k = 0; k < ung_calculation_count(); k++) {
        const ung_calculation *c = ung_calculation_at(k);
        int loops = c->kernel[0] == c->kernel[UNG_WIDTHS - 1]; /* slow, and with one kernel only */
        int turns = loops ? (takes_long(c->name) ? 1 : rounds / 13) : rounds;
        uint64_t h[UNG_WIDTHS + 1] = {0};
        size_t accepted = 0, drawn = 0;
        for (int round = 0; round < turns; round++) {
            for (size_t i = 0; i < N; i++)
                for (size_t j = 0; j < ung_input_count(c); j++)
                    in[j][i] = draw(ung_input(c, j), i % 2 || random_bits() % 4);
            for (size_t i = 0; i < N; i += loops ? 10 : 1) { /* single calls */
                double x[UNG_FIELDS_MOST], y[UNG_FIELDS_MOST];
                ung_rows rows[LISTS_MOST + 1];
                make_rows(c, rows, data);
                for (size_t j = 0; j < ung_input_count(c); j++)
                    x[j] = in[j][i];
                accepted += ung_call(c, x, rows, y, 0) == UNG_OK;
                drawn++;
                h[UNG_WIDTHS] = hash(h[UNG_WIDTHS], y, ung_output_count(c));
                for (size_t l = 0; l < c->list_count; l++)
                    h[UNG_WIDTHS] = hash(h[UNG_WIDTHS], data[l], LIST_ROWS * c->lists[l].field_count);
            }
            ung_column from[UNG_FIELDS_MOST];
            ung_target to[UNG_FIELDS_MOST];
            for (size_t j = 0; j < ung_input_count(c); j++)
                from[j] = (ung_column){in[j], sizeof(double)};
            for (size_t j = 0; j < ung_output_count(c); j++)
                to[j] = (ung_target){out[j], sizeof(double)};
            for (int width = 0; !c->list_count && width <= (loops ? 0 : ung__width()); width++) {
                if (ung__batch(c, N, from, to, UNG_GO_ON, width, 0) != UNG_OK)
                    return 1;
                for (size_t j = 0; j < ung_output_count(c); j++)
                    h[width] = hash(h[width], out[j], N);
            }
        }
        for (int width = 1; width <= ung__width(); width++)
            if (!loops && h[width] != h[0]) {
                printf("%s: kernels differ in their results\n", c->name);
                return 1;
            }
        if (accepted < drawn / (c->list_count ? 50 : 2)) { /* the rows are the same for all inputs */
            printf("%s: most inputs are refused\n", c->name);
            return 1;
        }
        printf("%s %zu %016llx %016llx\n", c->name, accepted, (unsigned long long)h[0], (unsigned long long)h[UNG_WIDTHS]);
    }
    return 0;
}
