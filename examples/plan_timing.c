/* Whether the work gets done before the adhesive sets; see plan_timing.h. */
#include "plan_timing.h"
#include "plan_text.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double coldest_c = 16;     /* the lower end of what suppliers give (working_time) */
static const double still_minutes = 20; /* cast_set: hoof casts are set by then */

double time_needed(const plan *p)
{
    const step *day = p->step + DAY;
    const ung_field *wanted = ung_input(day->calculation, (size_t)input_index(day->calculation, "wanted_time_s"));
    double time = result(p->step + NEED, "needed_working_time_s");
    return time >= wanted->lower && time <= wanted->upper ? time : NAN;
}

double largest_mix(const plan *p)
{
    const step *glue = p->step + ADHESIVE;
    double coat = fmax(result(glue, "first_coat_ml"), result(glue, "top_coat_ml"));
    return fmin(coat, input_of(glue, "pack_ml") - input_of(glue, "nozzle_ml"));
}

double adhesive_temperature(const plan *p)
{
    return input_of(p->step + DAY, "temperature_c");
}

double air_temperature(const plan *p)
{
    return input_of(p->step + CUP, "ambient_c");
}

double lesser_time(const plan *p)
{
    return fmin(result(p->step + DAY, "safe_time_s"), result(p->step + CUP, "gel_time_s"));
}

static void set(step *st, const char *name, double value)
{
    int i = input_index(st->calculation, name);
    st->in[i] = st->high[i] = value;
}

void timing_begin(plan *p)
{
    if (!p->calculation[NEED])
        return;
    int time = input_index(p->calculation[NEED], "working_time_s");
    if (isnan(p->step[NEED].in[time]))
        p->step[NEED].in[time] = ung_input(p->calculation[NEED], (size_t)time)->usual_lower;
    set(p->step + NEED, "samples_count", 0);
}

int report_missing_tasks(const plan *p, const sheet *s)
{
    char accepted[120], text[400];
    if (!p->calculation[LINE])
        return 0;
    for (const measurement *m = s->row; m < s->row + s->rows; m++)
        if (is_task(m->echo))
            return 0;
    const ung_field *field = list_field(p->calculation[LINE], 0, "low_s");
    accepted_text(field, accepted, sizeof accepted);
    snprintf(text, sizeof text, "required, and not on the sheet; %s (%s)", accepted, field->meaning);
    sheet_problem(s, NULL, "task.1.low_s", text);
    return 1;
}

void emptied_cup(const step *st, ung_caution *caution, size_t count)
{
    for (size_t i = 0; i < count && st->calculation == ung_cup_cure_contract(); i++)
        if (caution[i].severity == UNG_STOP)
            caution[i].severity = UNG_WARN;
}

/* Batches, each with its own mixing, which is the first task on the adhesive's clock. */
typedef struct batches {
    size_t count, impossible;  /* impossible: number of the first task that one batch does not last for, or 0 */
    size_t before[TASKS_MOST]; /* number of the task before which each is mixed */
    size_t batch[TASKS_MOST];  /* of each task, 0: none */
    double chance[TASKS_MOST], greatest; /* of each task, that its batch has set by its end */
} batches;

/* Chances of the tasks from `first` on after the mixing, in the places of the tasks; 1 where they are not known. */
static void fresh_chances(const plan *p, const step *line, size_t mixing, size_t first, double *chance)
{
    static double work[sizeof p->work / sizeof *p->work];
    ung_job_step task[TASKS_MOST] = {p->task[mixing]};
    ung_step_time time[TASKS_MOST];
    double out[UNG_FIELDS_MOST];
    size_t n = p->tasks - first, extra = first > mixing ? 1 : 0;
    memcpy(task + extra, p->task + first, n * sizeof *task);
    ung_rows rows[] = {{(double *)task, n + extra}, {(double *)time, n + extra}, {work, sizeof work / sizeof *work}};
    int known = ung_call(line->calculation, line->in, rows, out, NULL) == UNG_OK;
    for (size_t k = 0; k < n; k++)
        chance[first + k] = known ? time[k + extra].chance_fraction : 1;
}

static batches plan_batches(const plan *p, const step *line)
{
    batches b = {.count = 1};
    size_t mixing = 0, begun = 0;
    double limit = input_of(line, "limit_fraction");
    while (mixing + 1 < p->tasks && p->task[mixing].working_count == 0)
        mixing++;
    b.before[0] = mixing + 1;
    fresh_chances(p, line, mixing, 0, b.chance);
    for (size_t k = mixing; k < p->tasks; k++) {
        if (p->task[k].working_count == 0)
            continue;
        if (begun && b.chance[k] > limit) {
            fresh_chances(p, line, mixing, k, b.chance);
            b.before[b.count++] = k + 1;
            begun = 0;
        }
        if (!begun && b.chance[k] > limit && !b.impossible)
            b.impossible = k + 1;
        b.batch[k] = b.count;
        b.greatest = fmax(b.greatest, b.chance[k]);
        begun = begun || k > mixing;
    }
    return b;
}

/* The timeline with the adhesive at another temperature. */
static step line_at(const plan *p, double temperature)
{
    step day = p->step[DAY], cup = p->step[CUP];
    step line = p->step[LINE];
    int start = input_index(p->calculation[CUP], "start_c");
    set(&day, "temperature_c", temperature);
    if (cup.taken[start])
        set(&cup, "start_c", temperature);
    line.ran =
        line.taken[input_index(line.calculation, "working_time_s")] && step_call(&day, NULL) && step_call(&cup, NULL);
    if (line.ran)
        set(&line, "working_time_s", fmin(result(&day, "safe_time_s"), result(&cup, "gel_time_s")));
    return line;
}

static double late(const plan *p, const step *line)
{
    double chance[TASKS_MOST] = {0}, all = 0;
    fresh_chances(p, line, 0, 0, chance);
    for (size_t k = 0; k < p->tasks; k++)
        all = p->task[k].working_count > 0 ? chance[k] : all;
    return all;
}

/* Whether at this temperature one batch lasts for all, or (lift) for each task with its mixing. */
static int would_do(const plan *p, double temperature, int lift)
{
    step line = line_at(p, temperature);
    return line.ran &&
           (lift ? plan_batches(p, &line).impossible == 0 : late(p, &line) <= input_of(&line, "limit_fraction"));
}

/* The highest temperature of the adhesive, in tenths, that does; NaN: none down to the coldest. */
static double cool_to(const plan *p, int lift)
{
    double low = coldest_c * 10, high = ceil(adhesive_temperature(p) * 10);
    if (!(low < high) || !would_do(p, coldest_c, lift))
        return NAN;
    while (high - low > 1) {
        double middle = floor((low + high) / 2);
        if (would_do(p, middle / 10, lift))
            low = middle;
        else
            high = middle;
    }
    return low / 10;
}

static void task_line(const plan *p, size_t number)
{
    const ung_step_time *time = p->time + number - 1;
    const step *line = p->step + LINE;
    printf("  Task %zu takes %.0f s on the average; a fresh batch, its mixing included, lasts %.0f s.\n", number,
           time->mean_s, input_of(line, "working_time_s"));
    double to = cool_to(p, 1), now = adhesive_temperature(p);
    if (isnan(to))
        printf("  No cooling of the adhesive down to %.15g C lifts it.\n", coldest_c);
    else
        printf("  Least change that lifts it:\n    %-18s %.6g -> %.15g C (%.6g C less)\n", "temperature_c", now, to,
               now - to);
}

void timing_stop(const plan *p)
{
    task_line(p, plan_batches(p, p->step + LINE).impossible);
}

size_t timing_own_stop(const plan *p)
{
    if (!p->step[LINE].ran)
        return 0;
    batches b = plan_batches(p, p->step + LINE);
    if (!b.impossible)
        return 0;
    printf("STOP  timing: task %zu cannot be done in one batch\n", b.impossible);
    task_line(p, b.impossible);
    return 1;
}

static void tasks(const plan *p, const batches *b)
{
    printf("  task  mean_s  finish_s  chance_fraction  batch  its chance_fraction\n");
    for (size_t k = 0; k < p->tasks; k++) {
        const ung_step_time *t = p->time + k;
        if (b->batch[k])
            printf("  %4zu  %6.0f  %8.0f  %15.4f  %5zu  %19.4f\n", k + 1, t->mean_s, t->finish_s, t->chance_fraction,
                   b->batch[k], b->chance[k]);
        else
            printf("  %4zu  %6.0f  %8s  %15s  %5s  %19s\n", k + 1, t->mean_s, "-", "-", "-", "-");
    }
}

static void advice(const plan *p, const batches *b)
{
    const step *line = p->step + LINE;
    double chance = result(line, "chance_fraction"), limit = input_of(line, "limit_fraction"), to = NAN;
    char text[600];
    size_t n = 0;
    if (b->impossible)
        snprintf(text, sizeof text,
                 "stop: task %zu cannot be done in one batch; its chance of being late is %.1f %% even "
                 "with a fresh one, accepted are %.1f %%",
                 b->impossible, 100 * b->chance[b->impossible - 1], 100 * limit);
    else if (chance <= limit)
        snprintf(text, sizeof text, "go on: one batch is late in %.1f %% of such jobs, accepted are %.1f %%",
                 100 * chance, 100 * limit);
    else if (b->count > 2 && !isnan(to = cool_to(p, 0))) {
        step cold = line_at(p, to);
        snprintf(text, sizeof text,
                 "cool the parts: with the adhesive at %.1f C, not %.1f C, one batch lasts %.0f s and is "
                 "late in %.1f %% of such jobs, not %.1f %%; accepted are %.1f %%",
                 to, adhesive_temperature(p), input_of(&cold, "working_time_s"), 100 * late(p, &cold), 100 * chance,
                 100 * limit);
    } else {
        n += (size_t)snprintf(text, sizeof text, "mix in %zu batches, with a fresh one before task", b->count);
        for (size_t i = 1; i < b->count && n + 80 < sizeof text; i++)
            n += (size_t)snprintf(text + n, sizeof text - n, "%s%zu", i == 1 ? " " : ", ", b->before[i]);
        snprintf(text + n, sizeof text - n,
                 ": one batch is late in %.1f %% of such jobs, these in at most %.1f %% each, "
                 "mixing included; accepted are %.1f %%",
                 100 * chance, 100 * b->greatest, 100 * limit);
    }
    wrap("  advice: ", 6, text);
}

void timing_words(const plan *p)
{
    const step *day = p->step + DAY, *cup = p->step + CUP, *cast = p->step + CAST, *line = p->step + LINE;
    if (!p->calculation[LINE]) {
        printf("\nTiming: left out; it needs reference_time_s, reference_temperature_c, temperature_c, ambient_c,\n"
               "  surface_cm2, and tasks: task.1.low_s, task.1.likely_s, task.1.high_s ...\n");
        return;
    }
    batches b = plan_batches(p, line);
    char text[600];
    tasks(p, &b);
    snprintf(text, sizeof text,
             "adhesive of %.1f C, air of %.1f C: safe working time %.0f s, and %.0f g left in the cup gel "
             "after %.0f s",
             adhesive_temperature(p), air_temperature(p), result(day, "safe_time_s"), input_of(cup, "mass_g"),
             result(cup, "gel_time_s"));
    wrap("  the day: ", 6, text);
    snprintf(text, sizeof text, "%.0f s on the average, slack %.0f s", result(line, "mean_s"), result(line, "slack_s"));
    wrap("  the work: ", 6, text);
    snprintf(text, sizeof text, "%.2f %% (standard error %.2f %%), by the closed approximation %.2f %%",
             100 * result(line, "chance_fraction"), 100 * result(line, "standard_error_fraction"),
             100 * result(line, "normal_chance_fraction"));
    wrap("  chance that the adhesive sets before the last task on its clock is done: ", 6, text);
    snprintf(text, sizeof text,
             "dipped in %.1f C it sets after %.0f s and can be smoothed for %.0f s; to set after %.0f s it "
             "takes water of %.1f C; keep the foot still for %.0f minutes",
             input_of(cast, "water_c"), result(cast, "set_time_s"), result(cast, "work_time_s"),
             input_of(cast, "wanted_time_s"), result(cast, "water_for_c"), still_minutes);
    wrap("  the tape: ", 6, text);
    wrap("  ", 6,
         "Each batch has its own mixing, the first task on the adhesive's clock. The cup's peak is that of a cup "
         "left standing: it warns and does not stop, because the work is held against its gel time.");
    advice(p, &b);
}
