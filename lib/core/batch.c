/* One calculation over columns: strides, constants, range checks and blocks.  No formula here. */
#include "core/contract.h"

#include <stdint.h>

/* Moving and testing a whole block, in the width of the kernels.  memcpy is not used for it: for 512 bytes GCC makes
 * `rep movs` of it, which takes as long to start as the copy itself.  Counts are doubles because SSE2 has no comparison
 * of 64-bit integers, and exact, so the order of their sums does not matter. */
static inline __attribute__((always_inline)) void copy_block(const char *from, char *to)
{
#pragma omp simd
    for (size_t i = 0; i < UNG_BLOCK; i++)
        __builtin_memcpy(to + i * sizeof(double), from + i * sizeof(double), sizeof(double));
}

static inline __attribute__((always_inline)) double sum_block(const double *value)
{
    double sum = 0;
#pragma omp simd reduction(+ : sum)
    for (int i = 0; i < UNG_BLOCK; i++)
        sum += value[i];
    return sum;
}

/* Takes one column (which may lie in its place already) and counts in bad what is outside the range (NaN too). */
static inline __attribute__((always_inline)) void take_block(const char *from, double *to, double *bad, const ung_field *f)
{
    double lower = f->lower, upper = f->upper;
#pragma omp simd
    for (size_t i = 0; i < UNG_BLOCK; i++) {
        double value;
        __builtin_memcpy(&value, from + i * sizeof value, sizeof value);
        to[i] = value;
        bad[i] += (value >= lower ? 0.0 : 1.0) + (value <= upper ? 0.0 : 1.0);
    }
    if (f->whole)
#pragma omp simd
        for (size_t i = 0; i < UNG_BLOCK; i++)
            bad[i] += 1.0 - ung__is_whole(to[i]);
}

/* Columns from element `from` on (those without gaps; the others are in place), and how many values are refused. */
static inline __attribute__((always_inline)) double take(const ung_calculation *c, double (*to)[UNG_BLOCK],
                                                         const ung_column *in, size_t from, int ready)
{
    double bad[UNG_BLOCK] = {0};
    for (size_t j = 0; j < c->input_count; j++) {
        if (!in[j].base || in[j].stride == 0)
            continue;
        int here = ready || in[j].stride != (ptrdiff_t)sizeof(double);
        const char *source = here ? (const char *)to[j] : (const char *)in[j].base + from * sizeof(double);
        take_block(source, to[j], bad, c->inputs + j);
    }
    return sum_block(bad);
}

/* Result columns without gaps. */
static inline __attribute__((always_inline)) void give(const ung_calculation *c, double (*from)[UNG_BLOCK],
                                                       const ung_target *out, size_t at)
{
    for (size_t j = 0; j < c->output_count; j++)
        if (out[j].base && out[j].stride == (ptrdiff_t)sizeof(double))
            copy_block((const char *)from[j], (char *)out[j].base + at * sizeof(double));
}

typedef struct mover {
    double (*take)(const ung_calculation *c, double (*to)[UNG_BLOCK], const ung_column *in, size_t from, int ready);
    void (*give)(const ung_calculation *c, double (*from)[UNG_BLOCK], const ung_target *out, size_t at);
    double (*sum)(const double *value);
} mover;
#define UNG__MOVER(width, target)                                                                                 \
    target static double take_##width(const ung_calculation *c, double (*to)[UNG_BLOCK], const ung_column *in,    \
                                      size_t from, int ready)                                                     \
    {                                                                                                             \
        return take(c, to, in, from, ready);                                                                      \
    }                                                                                                             \
    target static void give_##width(const ung_calculation *c, double (*from)[UNG_BLOCK], const ung_target *out,   \
                                    size_t at)                                                                    \
    {                                                                                                             \
        give(c, from, out, at);                                                                                   \
    }                                                                                                             \
    target static double sum_##width(const double *value)                                                         \
    {                                                                                                             \
        return sum_block(value);                                                                                  \
    }                                                                                                             \
    static const mover mover_##width = {take_##width, give_##width, sum_##width};
UNG__MOVER(plain, )
#ifdef UNG_WIDE
UNG__MOVER(avx2, __attribute__((target("avx2"))))
UNG__MOVER(avx512, __attribute__((target("avx512f"))))
static const mover *const movers[UNG_WIDTHS] = {&mover_plain, &mover_avx2, &mover_avx512};
#else
static const mover *const movers[UNG_WIDTHS] = {&mover_plain, &mover_plain, &mover_plain};
#endif

int ung__width(void)
{
#ifdef UNG_WIDE
    __builtin_cpu_init();
    return __builtin_cpu_supports("avx512f") ? 2 : __builtin_cpu_supports("avx2") ? 1 : 0;
#else
    return 0;
#endif
}

static double load(const void *base, ptrdiff_t stride, size_t i)
{
    double value;
    __builtin_memcpy(&value, (const char *)base + (ptrdiff_t)i * stride, sizeof value);
    return value;
}

static void store(void *base, ptrdiff_t stride, size_t i, double value)
{
    __builtin_memcpy((char *)base + (ptrdiff_t)i * stride, &value, sizeof value);
}

static uintptr_t size_of(ptrdiff_t stride)
{
    return stride < 0 ? 0 - (uintptr_t)stride : (uintptr_t)stride;
}

/* Whether two columns of n elements share a byte.  Same stride: by the distance of their elements; other strides: by
 * their spans, which is on the safe side. */
static int shares_memory(const void *a, ptrdiff_t a_stride, const void *b, ptrdiff_t b_stride, size_t n)
{
    uintptr_t a0 = (uintptr_t)a, b0 = (uintptr_t)b;
    uintptr_t a_reach, b_reach;
    if (__builtin_mul_overflow(size_of(a_stride), n - 1, &a_reach) ||
        __builtin_mul_overflow(size_of(b_stride), n - 1, &b_reach))
        return 1; /* no such columns fit into memory */
    uintptr_t a_low = a_stride < 0 ? a0 - a_reach : a0, b_low = b_stride < 0 ? b0 - b_reach : b0;
    uintptr_t a_end = a_low + a_reach + sizeof(double), b_end = b_low + b_reach + sizeof(double);
    if (a_end <= b_low || b_end <= a_low)
        return 0;
    uintptr_t step = size_of(a_stride);
    if (a_stride != b_stride || step < sizeof(double))
        return 1;
    uintptr_t off = (a_low > b_low ? a_low - b_low : b_low - a_low) % step;
    return off < sizeof(double) || step - off < sizeof(double);
}

static ung_status refuse(ung_fault *fault, const ung_calculation *c, ung_status status, const char *field, const char *text)
{
    ung__fault_none(fault, c);
    if (fault) {
        fault->status = status;
        fault->field = field;
        fault->text = text;
    }
    return status;
}

static ung_status check_columns(const ung_calculation *c, size_t n, const ung_column *in, const ung_target *out,
                                ung_fault *fault)
{
    for (size_t i = 0; i < c->output_count; i++) {
        const ung_target *o = out + i;
        if (!o->base)
            continue;
        if (n > 1 && size_of(o->stride) < sizeof(double))
            return refuse(fault, c, UNG_OVERLAP, c->outputs[i].name, "the elements of this result column overlap");
        for (size_t j = 0; j < i; j++)
            if (out[j].base && shares_memory(o->base, o->stride, out[j].base, out[j].stride, n))
                return refuse(fault, c, UNG_OVERLAP, c->outputs[i].name, "this result column shares memory with another");
        for (size_t j = 0; j < c->input_count; j++)
            if (in[j].base && !(in[j].base == o->base && in[j].stride == o->stride) &&
                shares_memory(o->base, o->stride, in[j].base, in[j].stride, n))
                return refuse(fault, c, UNG_OVERLAP, c->outputs[i].name,
                              "this result column shares memory with an input column");
    }
    return UNG_OK;
}

static void nan_from(const ung_calculation *c, const ung_target *out, size_t from, size_t n)
{
    for (size_t j = 0; j < c->output_count; j++)
        for (size_t i = from; out[j].base && i < n; i++)
            store(out[j].base, out[j].stride, i, UNG__NAN);
}

/* What a batch keeps between its blocks. */
typedef struct run {
    const ung_calculation *c;
    double in[UNG_FIELDS_MOST][UNG_BLOCK], out[UNG_FIELDS_MOST][UNG_BLOCK], refusal[UNG_BLOCK];
    double valid[UNG_FIELDS_MOST]; /* accepted in every range: what unused and refused places are filled with */
    size_t refused;
    int width;
} run;

static void element(const run *r, size_t i, double *x)
{
    for (size_t j = 0; j < r->c->input_count; j++)
        x[j] = r->in[j][i];
}

/* Gathers m elements from element `from` on, but leaves whole blocks of columns without gaps to take(); what lies
 * behind them in the block repeats the last. */
static void gather(run *r, const ung_column *in, size_t from, size_t m)
{
    for (size_t j = 0; j < r->c->input_count; j++) {
        const ung_column *column = in + j;
        if (!column->base || column->stride == 0)
            continue; /* filled once, before the first block */
        if (column->stride == (ptrdiff_t)sizeof(double) && m == UNG_BLOCK)
            continue;
        for (size_t i = 0; i < m; i++)
            r->in[j][i] = load(column->base, column->stride, from + i);
        for (size_t i = m; i < UNG_BLOCK; i++)
            r->in[j][i] = r->in[j][m - 1];
    }
}

static void scatter(run *r, const ung_target *out, size_t from, size_t m)
{
    if (m == UNG_BLOCK)
        movers[r->width]->give(r->c, r->out, out, from);
    for (size_t j = 0; j < r->c->output_count; j++) {
        const ung_target *column = out + j;
        if (!column->base || (column->stride == (ptrdiff_t)sizeof(double) && m == UNG_BLOCK))
            continue;
        for (size_t i = 0; i < m; i++)
            store(column->base, column->stride, from + i, r->out[j][i]);
    }
}

/* A block in which something is refused: element by element.  Returns how many elements from the start of the block
 * are to be written: all of them, or those before the first refused one. */
static size_t slow_block(run *r, size_t from, size_t m, int go_on, ung_fault *first)
{
    const ung_calculation *c = r->c;
    double given[UNG_FIELDS_MOST][UNG_BLOCK], x[UNG_FIELDS_MOST];
    char accepted[UNG_BLOCK] = {0};
    __builtin_memcpy(given, r->in, c->input_count * sizeof *given);
    for (size_t i = 0; i < m; i++) {
        element(r, i, x);
        accepted[i] = ung__check_inputs(c, x, 0) == UNG_OK;
    }
    for (size_t i = 0; i < UNG_BLOCK; i++) /* the formula never sees what was refused */
        for (size_t j = 0; !accepted[i] && j < c->input_count; j++)
            r->in[j][i] = r->valid[j];
    c->kernel[r->width](r->in, r->out, r->refusal, m);
    __builtin_memcpy(r->in, given, c->input_count * sizeof *given);
    for (size_t i = 0; i < m; i++) {
        if (accepted[i] && r->refusal[i] == 0)
            continue;
        if (r->refused++ == 0) {
            element(r, i, x);
            if (accepted[i])
                ung__fault_relation(first, c, x, &(ung__where){r->refusal[i], -1, -1, UNG__NAN, UNG__NAN, 0});
            else
                ung__check_inputs(c, x, first);
            first->index = from + i;
        }
        if (!go_on)
            return i;
        for (size_t j = 0; j < c->output_count; j++)
            r->out[j][i] = UNG__NAN;
    }
    return m;
}

ung_status ung__batch(const ung_calculation *c, size_t n, const ung_column *in, const ung_target *out, unsigned options,
                      int width, ung_fault *fault)
{
    if (!c || !in || !out)
        return ung__fault_null(fault, c, !c ? "calculation" : !in ? "in" : "out");
    if (c->list_count)
        return refuse(fault, c, UNG_UNKNOWN, 0, "calculations with lists have no batch");
    if (options > UNG_GO_ON)
        return refuse(fault, c, UNG_UNKNOWN, "options", "no such option");
    ung_fault unwanted, *first = fault ? fault : &unwanted;
    ung__fault_none(first, c);
    if (n == 0)
        return UNG_OK;
    ung_status status = check_columns(c, n, in, out, fault);
    if (status != UNG_OK)
        return status;

    run r;
    r.c = c;
    r.refused = 0;
    for (size_t i = 0; i < UNG_BLOCK; i++)
        r.refusal[i] = 0;
    r.width = width < 0 ? ung__width() : width;
    int go_on = (options & UNG_GO_ON) != 0;
    int constants_fine = 1;
    for (size_t j = 0; j < c->input_count; j++) {
        const ung_field *field = c->inputs + j;
        double constant = !in[j].base ? field->standard : load(in[j].base, in[j].stride, 0);
        r.valid[j] = field->whole ? field->usual_lower : (field->usual_lower + field->usual_upper) / 2;
        if (in[j].base && in[j].stride != 0)
            continue;
        for (size_t i = 0; i < UNG_BLOCK; i++)
            r.in[j][i] = constant;
        if (!(constant >= field->lower && constant <= field->upper) || (field->whole && ung__is_whole(constant) == 0))
            constants_fine = 0;
    }
    for (size_t from = 0; from < n; from += UNG_BLOCK) {
        size_t m = n - from < UNG_BLOCK ? n - from : UNG_BLOCK, end = m;
        gather(&r, in, from, m);
        double refused = movers[r.width]->take(c, r.in, in, from, m < UNG_BLOCK) + (constants_fine ? 0 : 1);
        if (refused == 0) {
            c->kernel[r.width](r.in, r.out, r.refusal, m);
            refused = movers[r.width]->sum(r.refusal); /* behind m: the last element's, or an earlier block's; then the
                                                          slow way finds nothing */
        }
        if (refused != 0)
            end = slow_block(&r, from, m, go_on, first);
        scatter(&r, out, from, end);
        if (end < m) {
            nan_from(c, out, from + end, n);
            break;
        }
    }
    first->count = r.refused;
    return go_on ? UNG_OK : first->status; /* going on, the fault tells the first refused element, and how many */
}

ung_status ung_batch(const ung_calculation *c, size_t n, const ung_column *in, const ung_target *out, unsigned options,
                     ung_fault *fault)
{
    return ung__batch(c, n, in, out, options, -1, fault);
}
