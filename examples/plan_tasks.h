/* Tasks on a sheet: task.1.low_s = 30 s, and likely_s, high_s; working_count is 1 unless the sheet says otherwise. */
#ifndef PLAN_TASKS_H
#define PLAN_TASKS_H

#include "plan_sheet.h"

/* Tasks are numbered from 1; as many as job_timeline takes. */
enum { TASKS_MOST = 64 };

/* Whether a name is a task's. */
int is_task(const char *name);

/* The number and the field of a task's row; its problem otherwise. */
void look_up_task(measurement *m);

/* Each task needs its three times, and no number is left out. */
void check_tasks(sheet *s);

/* The row of a task with this field, or NULL; field NULL: its first. */
const measurement *task_row(const sheet *s, int task, const char *field);

/* The row that a refusal of the tasks is about; NULL where it is about none. */
const measurement *refused_task(const sheet *s, const ung_fault *fault);

/* The tasks of a sheet in order; returns how many. */
size_t gather_tasks(const sheet *s, ung_job_step *task);

#endif
