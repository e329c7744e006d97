/* Whether the work gets done before the adhesive sets: what its calculations take from the plan, and its words. */
#ifndef PLAN_TIMING_H
#define PLAN_TIMING_H

#include "plan_work.h"

/* Inputs that are more than one result of an earlier step; NaN: not known. */
double time_needed(const plan *p);
double largest_mix(const plan *p);
double adhesive_temperature(const plan *p);
double air_temperature(const plan *p);
double lesser_time(const plan *p);

/* NEED is asked for the work's own time alone: it needs no working time and no samples. */
void timing_begin(plan *p);

/* Reports that there are no tasks; returns how many problems. */
int report_missing_tasks(const plan *p, const sheet *s);

/* A cup that boils is one that was left standing.  The work is held against its gel time, and it is emptied by then:
 * what is left warns and does not stop. */
void emptied_cup(const step *st, ung_caution *caution, size_t count);

/* Under the library's stop: the task, and the least cooling that lifts it. */
void timing_stop(const plan *p);

/* The stop that shows only with the mixing of a fresh batch; returns 1 where it stands. */
size_t timing_own_stop(const plan *p);

/* The end of the section: day, times, chance, tape, and the advice; or that there is none. */
void timing_words(const plan *p);

#endif
