/* Which steps of the plan hang on which of its inputs, found by trying.
 *
 *     plan_table --print > man/plan_depends.txt     makes the table that ung_job_plan(3) shows
 *     plan_table                                    tests the file: nothing else is found, also not at other plans, drawn
 *                                                   at random; and what it says is found.  Rare ways (a value at the end
 *                                                   of its range that makes a step refuse) need many tries: a few may be
 *                                                   missed, but none with UNG_TESTS=long, which tries what --print does
 *
 * Each input is moved through its range, one at a time, at three invented horses and their variants, and at plans
 * drawn from the usual ranges.  A step hangs on it where any of its results, its cautions, or whether it ran, is
 * another. */
#include "../common.h"
#include "../horses.h"

enum { INPUTS = sizeof(ung_job_plan_in) / sizeof(double), VALUES_MOST = 32 };
static unsigned char hangs[INPUTS][UNG_PLAN_STEP_COUNT];

static size_t cautions_of(const ung_job_plan_out *plan, size_t i, ung_caution *caution)
{
    ung_plan_part part = ung_plan_step(i);
    const double *value = (const double *)plan;
    if (plan->state[i] != UNG_STEP_DONE)
        return 0;
    return ung_cautions(part.calculation, value + part.in, value + part.out, caution, UNG_CAUTIONS_MOST);
}

static int step_differs(const ung_job_plan_out *a, const ung_job_plan_out *b, size_t i)
{
    ung_plan_part part = ung_plan_step(i);
    size_t size = ung_output_count(part.calculation) * sizeof(double);
    if (a->state[i] != b->state[i] || memcmp((const double *)a + part.out, (const double *)b + part.out, size) != 0)
        return 1;
    if (i == UNG_PLAN_timeline && memcmp(a->times, b->times, sizeof a->times) != 0)
        return 1;
    ung_caution here[UNG_CAUTIONS_MOST], there[UNG_CAUTIONS_MOST];
    size_t n = cautions_of(a, i, here);
    if (n != cautions_of(b, i, there))
        return 1;
    for (size_t k = 0; k < n; k++)
        if (strcmp(here[k].code, there[k].code) != 0)
            return 1;
    return 0;
}

static size_t values_of(size_t input, double now, double *value)
{
    const ung_field asked = ung_plan_input(input).field, *f = &asked;
    size_t n = 0;
    if (strcmp(f->name, "samples_count") == 0) { /* more would only take longer */
        value[n++] = 0, value[n++] = 100;
        return n;
    }
    if (f->whole) {
        for (double x = f->lower; x <= f->upper && n < VALUES_MOST; x++)
            value[n++] = x;
        return n;
    }
    double middle = (f->usual_lower + f->usual_upper) / 2;
    value[n++] = f->usual_lower, value[n++] = f->usual_upper, value[n++] = middle;
    value[n++] = f->lower, value[n++] = f->upper;
    if (now == now) {
        value[n++] = now + (f->upper - now) / 50;
        value[n++] = now - (now - f->lower) / 50;
        value[n++] = now + (f->usual_upper - f->usual_lower) / 4;
        value[n++] = now - (f->usual_upper - f->usual_lower) / 4;
    }
    return n;
}

static int plan(const ung_job_plan_in *in, ung_job_plan_out *out)
{
    return ung_job_plan(in, out, NULL) == UNG_OK;
}

static void move_each(ung_job_plan_in in)
{
    static ung_job_plan_out before, after;
    if (!plan(&in, &before))
        exit((fprintf(stderr, "plan_table: a plan was refused\n"), 1));
    for (size_t k = 0; k < INPUTS; k++) {
        double *place = (double *)&in + k, kept = *place, value[VALUES_MOST];
        size_t n = values_of(k, kept, value);
        for (size_t j = 0; j < n; j++) {
            *place = value[j];
            if (plan(&in, &after))
                for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++)
                    hangs[k][i] |= (unsigned char)step_differs(&before, &after, i);
        }
        *place = kept;
    }
}

static double random_of(size_t k, double usual_chance)
{
    ung_field f = ung_plan_input(k).field;
    return strcmp(f.name, "samples_count") == 0 ? 0 : random_value(&f, usual_chance);
}

/* What one of three horses is, or another, of each input; or something usual. */
static ung_job_plan_in random_plan(void)
{
    ung_job_plan_in horse = invented_horse(random_below(SOUND_HORSES));
    for (size_t k = 0; k < INPUTS; k++)
        if (random_below(4) == 0)
            ((double *)&horse)[k] = random_of(k, 0.9);
    horse.heat_count = random_below(16) == 0; /* it takes a hundred times as long, and the cup ten times */
    horse.cup_count = random_below(4) == 0;
    horse.samples_count = (double)NAN;
    if (horse.other_screw_count > horse.screw_count) /* refused */
        horse.other_screw_count = horse.screw_count;
    return horse;
}

enum { TRIES = 20, TRIES_SHORT = 4, TRIES_LONG = 2000 };
enum { MISSED_MOST = 120, MISSED_SHORT = 180 }; /* of some 1510 */

static void find_all(int tries)
{
    for (size_t h = 0; h < SOUND_HORSES; h++)
        for (int way = 0; way <= 2; way++)
            for (int cast = 0; cast <= 1; cast++) {
                ung_job_plan_in in = invented_horse(h);
                in.screw_way_count = way, in.cast_count = cast;
                in.heat_count = way == 1 && cast == 1; /* it takes long, as samples do */
                in.samples_count = h == 0 && way == 2 && cast == 1 ? 100 : (double)NAN;
                in.bevel_run_mm = cast == 1 && way == 0 ? 2 : in.bevel_run_mm; /* leaves tape under the heel */
                in.build_length_mm = 8;
                move_each(in);
            }
    random_state = 1;
    for (int i = 0; i < tries; i++)
        move_each(random_plan());
}

static void print_line(size_t k)
{
    printf("%s:", ung_plan_input(k).field.name);
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++)
        if (hangs[k][i])
            printf(" %s", ung_plan_step(i).name);
    printf("\n");
}

static int in_line(const char *line, const char *step)
{
    size_t n = strlen(step);
    for (const char *at = line; (at = strstr(at, step)) != NULL; at += n)
        if (at != line && at[-1] == ' ' && (at[n] == ' ' || at[n] == 0))
            return 1;
    return 0;
}

/* The file takes the place of what was found, which must be in it; tells how much of it was not found. */
static int compare(const char *path, int *missed)
{
    FILE *file = fopen(path, "r");
    if (!file)
        return printf("%s cannot be read\n", path), 1;
    char line[1024];
    int failed = 0;
    for (size_t k = 0; k < INPUTS; k++) {
        const char *name = ung_plan_input(k).field.name;
        size_t n = strlen(name);
        line[0] = 0;
        if (fgets(line, sizeof line, file))
            line[strcspn(line, "\n")] = 0;
        if (strncmp(line, name, n) != 0 || line[n] != ':')
            printf("no line for %s but \"%s\"\n", name, line), failed = 1;
        size_t words = 0, known = 0;
        for (const char *c = line; *c; c++)
            words += *c == ' ';
        for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++) {
            int said = in_line(line, ung_plan_step(i).name);
            known += (size_t)said;
            if (hangs[k][i] && !said)
                printf("%s changes %s, which is not in its line\n", name, ung_plan_step(i).name), failed = 1;
            *missed += said && !hangs[k][i];
            hangs[k][i] = (unsigned char)said;
        }
        if (words != known)
            printf("a word that is no step, or twice: %s\n", line), failed = 1;
    }
    if (fgets(line, sizeof line, file))
        printf("the file says more: %s", line), failed = 1;
    fclose(file);
    return failed;
}

/* Plans that were not used to make the table. */
static int nothing_else_changes(size_t count)
{
    static ung_job_plan_out before, after;
    int failed = 0;
    random_state = 20261125;
    for (size_t trial = 0; trial < count; trial++) {
        ung_job_plan_in in = random_plan();
        if (!plan(&in, &before))
            return printf("a plan was refused\n"), 1;
        for (int move = 0; move < 8; move++) {
            size_t k = random_below(INPUTS);
            double kept = ((double *)&in)[k];
            ((double *)&in)[k] = random_of(k, 0.5);
            if (plan(&in, &after))
                for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++)
                    if (!hangs[k][i] && step_differs(&before, &after, i)) {
                        printf("%s from %g to %g changes %s, which is not in its line\n", ung_plan_input(k).field.name, kept,
                               ((double *)&in)[k], ung_plan_step(i).name);
                        failed = 1;
                    }
            ((double *)&in)[k] = kept;
        }
    }
    return failed;
}

int main(int argc, char **argv)
{
    int print = argc > 1 && strcmp(argv[1], "--print") == 0;
    const char *how = getenv("UNG_TESTS");
    int all = print || (how && strcmp(how, "long") == 0);
    int little = how && strcmp(how, "short") == 0;
    find_all(all ? TRIES_LONG : little ? TRIES_SHORT : TRIES);
    if (print) {
        for (size_t k = 0; k < INPUTS; k++)
            print_line(k);
        return 0;
    }
    const char *top = getenv("abs_top_srcdir");
    char path[4096];
    snprintf(path, sizeof path, "%s/man/plan_depends.txt", top ? top : ".");
    int missed = 0, failed = compare(path, &missed);
    printf("%d of the table's entries were not found\n", missed);
    failed |= missed > (all ? 0 : little ? MISSED_SHORT : MISSED_MOST);
    failed |= nothing_else_changes(scaled(1000));
    printf(failed ? "make it anew with --print, if that is how it should be\n" : "the table is as found by trying\n");
    return failed;
}
