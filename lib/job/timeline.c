/* Drawing the durations of a chain of steps, a block of samples at a time.
 *
 * Sample i of step k (both from 0) uses counter (i, 0, k/2, 0) and key (seed, 0): words 0 and 1 if k is even, 2 and 3
 * if it is odd.  So a step keeps its draws when another is added behind it, and a sample whatever their number.
 *
 * Of the working time and the pace nothing is drawn: for a sum S of the steps the chance that it passes a lognormal
 * time is known, and its mean over the samples has a smaller error than counting how many are late. */
#include "job/timeline.h"

#include "core/beta.h"
#include "core/normal.h"
#include "core/philox.h"
#include "core/quadrature.h"

enum { SAMPLES = 512, LEVELS = 9 }; /* a block; 512 x 2^9 samples are more than the most */
_Static_assert(SAMPLES << LEVELS > UNG_SAMPLES_MOST, "blocks");
#define LOW_END 0x1p-24

/* ---- The inverse of the beta distribution in cubics ---- */

/* One end: x from its end on, times `scale` and from `end` on. */
static void half_table(const ung__beta *beta, double end, double scale, double *table)
{
    double w = LOW_END, x = ung__beta_inverse_from(beta, w, ung__beta_start(beta, w), 3);
    double slope = 1 / ung__beta_of(beta, x).density;
    for (int octave = 0; octave < UNG_TABLE_OCTAVES; octave++) {
        double width = w / 8, start = w;
        for (int i = 1; i <= 8; i++) {
            double before = x, slope_before = slope * width;
            x = ung__beta_inverse_from(beta, start + i * width, x, 3);
            slope = 1 / ung__beta_of(beta, x).density;
            double rise = x - before, slope_after = slope * width;
            table[0] = end + scale * before;
            table[1] = scale * slope_before;
            table[2] = scale * (3 * rise - 2 * slope_before - slope_after);
            table[3] = scale * (slope_before + slope_after - 2 * rise);
            table += 4;
        }
        w = 2 * w;
    }
}

void ung__pert_table(const ung_job_step *step, double *table)
{
    double range = step->high_s - step->low_s;
    if (!(range > 0))
        return;
    double toward = 4 * (step->likely_s - step->low_s) / range;
    double a = ung__min(1 + toward, 5.0), b = ung__max(5 - toward, 1.0);
    ung__beta low, high;
    ung__beta_begin(&low, a, b);
    ung__beta_begin(&high, b, a);
    half_table(&low, step->low_s, range, table);
    half_table(&high, step->high_s, -range, table + UNG_TABLE / 2);
}

/* ---- A block of samples, in the width of the processor ---- */

UNG_INLINE double pert(const double *table, uint64_t draw)
{
    const uint64_t side = draw >> 63, lower = ((draw >> 12) ^ (0 - side)) & UINT64_C(0x7ffffffffffff);
    const double w = (ung__from_bits(lower | UINT64_C(0x4330000000000000)) - 0x1p52 + 0.5) * 0x1p-52;
    const uint64_t bits = ung__bits(ung__max(w, LOW_END));
    const uint64_t cell = (bits >> 49) - (UINT64_C(999) << 3) + side * UNG_TABLE_CELLS; /* 999: exponent of 2^-24 */
    const double t = ung__from_bits((bits << 3 & UINT64_C(0xfffffffffffff)) | UINT64_C(0x3ff0000000000000)) - 1.0;
    const double *c = table + 4 * cell;
    return c[0] + t * (c[1] + t * (c[2] + t * c[3]));
}

UNG_INLINE void add_pert(double *sum, const uint64_t *draw, const double *table)
{
#pragma omp simd
    for (size_t i = 0; i < SAMPLES; i++)
        sum[i] += pert(table, draw[i]);
}

/* Inverse of the triangular distribution. */
UNG_INLINE void add_triangular(double *sum, const uint64_t *draw, double low, double likely, double high)
{
    double up = (high - low) * (likely - low), down = (high - low) * (high - likely);
    double peak = (likely - low) / (high - low);
#pragma omp simd
    for (size_t i = 0; i < SAMPLES; i++) {
        const double u = ung__share(draw[i]), left = low + ung__sqrt(u * up), right = high - ung__sqrt((1 - u) * down);
        sum[i] += u < peak ? left : right;
    }
}

/* Chance that a lognormal time is shorter than the sum. */
UNG_INLINE void late(const double *sum, double *chance, double shift, double per_spread)
{
#pragma omp simd
    for (size_t i = 0; i < SAMPLES; i++)
        chance[i] = ung__normal_above((shift - ung__log(ung__max(sum[i], 1e-300))) * per_spread);
}

typedef struct block {
    void (*pert)(double *sum, const uint64_t *draw, const double *table);
    void (*triangular)(double *sum, const uint64_t *draw, double low, double likely, double high);
    void (*late)(const double *sum, double *chance, double shift, double per_spread);
} block;
#define BLOCK(width, target)                                                                                         \
    target static void pert_##width(double *sum, const uint64_t *draw, const double *table)                          \
    {                                                                                                                \
        add_pert(sum, draw, table);                                                                                  \
    }                                                                                                                \
    target static void triangular_##width(double *sum, const uint64_t *draw, double low, double likely, double high) \
    {                                                                                                                \
        add_triangular(sum, draw, low, likely, high);                                                                \
    }                                                                                                                \
    target static void late_##width(const double *sum, double *chance, double shift, double per_spread)              \
    {                                                                                                                \
        late(sum, chance, shift, per_spread);                                                                        \
    }                                                                                                                \
    static const block block_##width = {pert_##width, triangular_##width, late_##width};
BLOCK(plain, )
#ifdef UNG_WIDE
BLOCK(avx2, __attribute__((target("avx2"))))
BLOCK(avx512, __attribute__((target("avx512f"))))
static const block *const blocks[UNG_WIDTHS] = {&block_plain, &block_avx2, &block_avx512};
#else
static const block *const blocks[UNG_WIDTHS] = {&block_plain, &block_plain, &block_plain};
#endif

/* ---- Sums ---- */

/* Sums of blocks, combined in pairs by their index: level l holds the sum of 2^l of them that are waiting for as many. */
typedef struct tally {
    double level[LEVELS];
} tally;

static void tally_add(tally *t, size_t index, double sum)
{
    int l = 0;
    for (; index >> l & 1; l++)
        sum = t->level[l] + sum;
    t->level[l] = sum;
}

static double tally_total(const tally *t, size_t count)
{
    double sum = 0;
    for (int l = 0; l < LEVELS; l++)
        if (count >> l & 1)
            sum = t->level[l] + sum;
    return sum;
}

static double block_sum(const double *value)
{
    double lane[UNG_LANES] = {0};
    for (size_t i = 0; i < SAMPLES; i += UNG_LANES)
#pragma omp simd
        for (int j = 0; j < UNG_LANES; j++)
            lane[j] += value[i + (size_t)j];
    return ung__tree_sum(lane);
}

/* ---- The chain ---- */

static void add_step(const ung__chain *chain, const block *b, size_t k, const uint64_t *draw, double *sum)
{
    const ung_job_step *step = chain->step + k;
    if (!(step->high_s > step->low_s))
        for (size_t i = 0; i < SAMPLES; i++)
            sum[i] += step->low_s;
    else if (chain->triangular)
        b->triangular(sum, draw, step->low_s, step->likely_s, step->high_s);
    else
        b->pert(sum, draw, chain->table + k * UNG_TABLE);
}

static void chances(const ung__chain *chain, const block *b, const double *sum, size_t used, double *chance)
{
    if (chain->per_spread > 0)
        b->late(sum, chance, chain->shift, chain->per_spread);
    else
        for (size_t i = 0; i < SAMPLES; i++)
            chance[i] = sum[i] > chain->time ? 1 : 0;
    for (size_t i = used; i < SAMPLES; i++)
        chance[i] = 0;
}

void ung__chain_late(const ung__chain *chain, size_t first, size_t last, double *chance, double *standard_error)
{
    const block *b = blocks[chain->width];
    tally sums[UNG_STEPS_MOST], squares = {{0}};
    double n = (double)chain->samples, total = 0;
    size_t count = (chain->samples + SAMPLES - 1) / SAMPLES, final = last;
    for (size_t k = first; k < last; k++)
        final = chain->step[k].working_count > 0 ? k : final;
    for (size_t index = 0; index < count; index++) {
        uint64_t draw[2][SAMPLES];
        double sum[SAMPLES] = {0}, value[SAMPLES];
        size_t left = chain->samples - index * SAMPLES, used = left < SAMPLES ? left : SAMPLES;
        size_t drawn = UNG_STEPS_MOST; /* none yet */
        for (size_t k = first; k < last; k++) {
            if (!(chain->step[k].working_count > 0))
                continue;
            if (drawn != k / 2)
                ung__philox_fill((uint32_t)(index * SAMPLES), (uint32_t)(k / 2), chain->seed, SAMPLES, draw[0],
                                 draw[1]);
            drawn = k / 2;
            add_step(chain, b, k, draw[k % 2], sum);
            chances(chain, b, sum, used, value);
            tally_add(&sums[k], index, block_sum(value));
            if (k == final) {
                for (size_t i = 0; i < SAMPLES; i++)
                    value[i] = value[i] * value[i];
                tally_add(&squares, index, block_sum(value));
            }
        }
    }
    for (size_t k = first; k < last; k++)
        chance[k] = chain->step[k].working_count > 0 ? tally_total(&sums[k], count) / n : 0;
    if (final < last)
        total = tally_total(&squares, count) / n - chance[final] * chance[final];
    *standard_error = ung__sqrt(ung__max(total, 0.0) / (n > 1 ? n - 1 : 1));
}
