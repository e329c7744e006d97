/* Results on a fixed grid of inputs, for comparing one version with another; see baseline.py.
 *
 *     = NAME FIELD ...        a calculation, or a step of the plan of an invented horse, and its results
 *     VALUE ...               one row for each point of the grid; `refused` where it was
 *
 * The points of a calculation hang on its name and its inputs alone, so that a new calculation moves no other's. */
#include <stdint.h>
#include <stdio.h>

#include "../horses.h"
#include "../rows.h"

enum { POINTS = 8, POINTS_COSTLY = 3 };

static uint64_t state;
static uint64_t random_bits(void) /* splitmix64 (Steele, Lea, Flood 2014) */
{
    uint64_t z = state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

static uint64_t hash(uint64_t h, const char *text) /* FNV-1a */
{
    for (; *text; text++)
        h = (h ^ (unsigned char)*text) * UINT64_C(0x100000001b3);
    return h;
}

/* From the usual range, in steps of a 256th: numbers that stay what they are when a range is not changed. */
static double draw(const char *calculation, const ung_field *f, int point)
{
    state = hash(hash(UINT64_C(0xcbf29ce484222325), calculation), f->name) + (uint64_t)point;
    double share = (double)(random_bits() % 257) / 256, x = f->usual_lower + (f->usual_upper - f->usual_lower) * share;
    return f->whole ? (double)(long long)(x + 0.5) : x;
}

static void row(const double *value, size_t count)
{
    for (size_t i = 0; i < count; i++)
        printf("%s%.17g", i ? " " : "", value[i]);
    printf("\n");
}

static void heading(const char *name, const ung_calculation *c)
{
    printf("= %s", name);
    for (size_t i = 0; i < ung_output_count(c); i++)
        printf(" %s", ung_output(c, i)->name);
    printf("\n");
}

static int is_costly(const char *name)
{
    return strcmp(name, "wall_heat") == 0 || strcmp(name, "job_timeline") == 0;
}

static void calculation(const ung_calculation *c)
{
    static double data[LISTS_MOST + 1][WORK_MOST];
    const char *name = ung_calculation_name(c);
    heading(name, c);
    for (int point = 0; point < (is_costly(name) ? POINTS_COSTLY : POINTS); point++) {
        double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST];
        ung_rows rows[LISTS_MOST + 1];
        make_rows(c, rows, data);
        for (size_t i = 0; i < ung_input_count(c); i++)
            in[i] = draw(name, ung_input(c, i), point);
        if (ung_call(c, in, rows, out, NULL) == UNG_OK)
            row(out, ung_output_count(c));
        else
            printf("refused\n");
    }
}

static void plan(size_t horse)
{
    static ung_job_plan_out p;
    ung_job_plan_in in = invented_horse(horse);
    if (ung_job_plan(&in, &p, NULL) != UNG_OK)
        return;
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
        ung_plan_part part = ung_plan_step(i);
        char name[100];
        snprintf(name, sizeof name, "plan%zu.%s", horse + 1, part.name);
        heading(name, part.calculation);
        if (p.state[i] == UNG_STEP_DONE)
            row((const double *)&p + part.out, ung_output_count(part.calculation));
        else
            printf("%s\n", ung_step_state_text(p.state[i]));
    }
}

int main(void)
{
    for (size_t i = 0; i < ung_calculation_count(); i++)
        calculation(ung_calculation_at(i));
    for (size_t horse = 0; horse < HORSES; horse++)
        plan(horse);
    return 0;
}
