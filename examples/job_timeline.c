/* Invented scenario: mixing, coating, placing and closing within 8 min. */
#include <stdio.h>
#include <ungula.h>

enum { STEPS = 5, WORK = STEPS * 1472 }; /* ung_workspace(contract, STEPS) */

int main(void)
{
    ung_job_timeline_in job = ung_job_timeline_standard();
    job.working_time_s = 480;
    ung_job_step steps[STEPS] = {{60, 90, 180, 0}, /* clean and dry */
                                 {30, 45, 75, 1},  /* mix */
                                 {60, 90, 150, 1}, /* coat */
                                 {60, 90, 180, 1}, /* place, drive screws */
                                 {90, 130, 240, 1} /* wrap the edge */};
    ung_step_time times[STEPS];
    static double work[WORK];
    ung_job_timeline_out plan;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_job_timeline(&job, steps, STEPS, times, STEPS, work, WORK,
                         &plan, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    for (int i = 0; i < STEPS; i++)
        printf("step %d: %3.0f s, done at %3.0f s, late %5.2f %%, batch %.0f\n",
               i + 1, times[i].mean_s, times[i].finish_s,
               100 * times[i].chance_fraction, times[i].batch_count);
    printf("slack %.0f s, late in %.1f %% of jobs (+- %.1f)\n", plan.slack_s,
           100 * plan.chance_fraction, 100 * plan.standard_error_fraction);
    printf("%.0f batches, fresh one before step %.0f\n", plan.batches_count,
           plan.fresh_before_count);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_job_timeline_cautions(&job, &plan, caution,
                                         UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
