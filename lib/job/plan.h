/* What the plan's files share. */
#ifndef UNG_JOB_PLAN_H
#define UNG_JOB_PLAN_H

#include <ungula/plan.h>

/* Ranges and whole numbers of what was given. */
ung_status ung__plan_check(const double *in, ung_fault *fault);
/* Whether the plan has screws that may be driven: by their way, its margin, and what the shoe is made of. */
int ung__plan_screws(const ung_job_plan_in *in, const ung_job_plan_out *plan);

#endif
