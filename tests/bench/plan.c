/* Speed of a whole plan, apart from the cup, which integrates, with its searches, and of what lifts a caution:
 * microseconds, best and median of several passes. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "../horses.h"

enum { PASSES = 21, PLANS = 400 };
static const double AIM_US = 40; /* reported, not asserted: a slow moment is no defect */

static double now_us(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e6 + (double)t.tv_nsec * 1e-3;
}

static int ascending(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* One line; returns the best. */
static double measure(const char *what, const ung_job_plan_in *in, int plans)
{
    static ung_job_plan_out out;
    double us[PASSES];
    for (int pass = 0; pass < PASSES; pass++) {
        double begin = now_us();
        for (int i = 0; i < plans; i++)
            if (ung_job_plan(in, &out, NULL) != UNG_OK)
                exit((fprintf(stderr, "bench: a plan was refused\n"), 1));
        us[pass] = (now_us() - begin) / plans;
    }
    qsort(us, PASSES, sizeof *us, ascending);
    printf("%-44s %8.1f us, median %8.1f us\n", what, us[0], us[PASSES / 2]);
    return us[0];
}

static void measure_lift(const char *what, const ung_job_plan_in *in, const char *input)
{
    double us[PASSES], value;
    size_t i = 0;
    while (strcmp(ung_plan_input(i).field.name, input) != 0)
        i++;
    for (int pass = 0; pass < PASSES; pass++) {
        double begin = now_us();
        if (ung_job_plan_lift(in, UNG_PLAN_screw, "breach", i, &value, NULL) != UNG_OK)
            exit((fprintf(stderr, "bench: a lift was refused\n"), 1));
        us[pass] = now_us() - begin;
    }
    qsort(us, PASSES, sizeof *us, ascending);
    printf("%-44s %8.1f us, median %8.1f us\n", what, us[0], us[PASSES / 2]);
}

int main(void)
{
    ung_job_plan_in in = pony();
    measure("a plan with the cup", &in, PLANS / 10);
    in.cup_count = 0;
    double plain = measure("a plan without the cup", &in, PLANS);
    static ung_job_plan_out out;
    if (ung_job_plan(&in, &out, NULL) != UNG_OK)
        return 1;
    double begin = now_us();
    size_t seen = 0;
    for (int i = 0; i < PLANS; i++) {
        ung_plan_caution caution[128];
        ung_plan_item item[UNG_PLAN_ITEMS_MOST];
        seen += ung_job_plan_cautions(&out, caution, 128) + ung_plan_items(&out, item, UNG_PLAN_ITEMS_MOST);
    }
    printf("%-44s %8.1f us\n", "its cautions and items", (now_us() - begin) / PLANS);
    ung_job_plan_in searched = in;
    searched.screw_length_mm = searched.entry_height_mm = searched.passes_count = (double)NAN;
    measure("a plan that looks for length, entry, passes", &searched, PLANS);
    searched.screw_way_count = 2;
    measure("the same through the wall", &searched, PLANS);
    in.inset_mm = 3.5; /* breaks a margin */
    measure_lift("a lift that is found at once (inset)", &in, "inset_mm");
    measure_lift("a lift that is not found (body mass)", &in, "body_mass_kg");
    in.inset_mm = pony().inset_mm;
    in.heat_count = 1;
    measure("without the cup, with the heat in the wall", &in, PLANS / 20);
    in.heat_count = 0, in.samples_count = 4000;
    measure("without the cup, with 4000 samples of the timeline", &in, 4);
    printf("aim for a plan without the cup: %g us, %s\n", AIM_US, plain < AIM_US ? "met" : "not met");
    return seen == 0;
}
