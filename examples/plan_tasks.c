/* Tasks on a sheet; see plan_tasks.h. */
#include "plan_tasks.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int is_task(const char *name)
{
    return strncmp(name, "task.", 5) == 0;
}

void look_up_task(measurement *m)
{
    char *number = m->name + 5, *dot = strchr(number, '.');
    const ung_field *field = dot ? list_field(ung_job_timeline_contract(), 0, dot + 1) : NULL;
    size_t digits = strspn(number, "0123456789");
    char why[160];
    if (!field || digits == 0 || number + digits != dot) {
        refuse(m, NULL, "a task is written task.1.low_s, task.1.likely_s or task.1.high_s: its number and the field");
        return;
    }
    m->task = digits < 4 ? atoi(number) : 0;
    m->name = dot + 1;
    if (m->task < 1 || m->task > TASKS_MOST) {
        m->task = 0;
        snprintf(why, sizeof why, "there is no such task; accepted values are whole numbers from 1 to %d", TASKS_MOST);
        refuse(m, NULL, why);
        return;
    }
    m->field = field;
}

const measurement *task_row(const sheet *s, int task, const char *field)
{
    for (const measurement *m = s->row; m < s->row + s->rows; m++)
        if (m->field && m->task == task && (!field || strcmp(m->name, field) == 0))
            return m;
    return NULL;
}

static const char *const times[] = {"low_s", "likely_s", "high_s"};

void check_tasks(sheet *s)
{
    for (measurement *m = s->row; m < s->row + s->rows; m++) {
        char why[80];
        if (!m->task || *m->problem || m != task_row(s, m->task, NULL))
            continue;
        if (m->task > 1 && !task_row(s, m->task - 1, NULL)) {
            snprintf(why, sizeof why, "there is no task.%d before it: no number may be left out", m->task - 1);
            refuse(m, NULL, why);
        }
        for (size_t i = 0; i < sizeof times / sizeof *times && !*m->problem; i++)
            if (!task_row(s, m->task, times[i])) {
                snprintf(why, sizeof why, "the task needs its %s as well", times[i]);
                refuse(m, NULL, why);
            }
    }
}

const measurement *refused_task(const sheet *s, const ung_fault *fault)
{
    const char *space = fault->text ? strchr(fault->text, ' ') : NULL; /* its first word is a field */
    for (const measurement *m = s->row; space && fault->index < TASKS_MOST && m < s->row + s->rows; m++)
        if (m->task == (int)fault->index + 1 && strncmp(m->name, fault->text, (size_t)(space - fault->text)) == 0)
            return m;
    return NULL;
}

size_t gather_tasks(const sheet *s, ung_job_step *task)
{
    size_t n = 0;
    while (n < TASKS_MOST && task_row(s, (int)n + 1, NULL)) {
        const measurement *time[3], *working = task_row(s, (int)n + 1, "working_count");
        for (int i = 0; i < 3; i++)
            time[i] = task_row(s, (int)n + 1, times[i]);
        task[n++] = (ung_job_step){time[0]->value, time[1]->value, time[2]->value, working ? working->value : 1};
    }
    return n;
}
