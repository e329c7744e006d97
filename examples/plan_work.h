/* The main job: every calculation in the order of the work, each taking what an earlier one found. */
#ifndef PLAN_WORK_H
#define PLAN_WORK_H

#include "plan_sheet.h"

enum { BELT, WALL, SCREW, ADHESIVE, TAPE, HEEL, STEPS };

/* A result that becomes a later input, unless the sheet sets that input. */
typedef struct chain {
    int step;
    const char *input;
    int from;
    const char *output;
    const char *only_with; /* an input of the step that must be above 0, or NULL */
} chain;
extern const chain plan_chain[];
extern const int plan_chains;

typedef struct step {
    const ung_calculation *calculation;
    int wanted, ran; /* the wall's thickness is calculated only where it was not given */
    double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST];
    const measurement *given[UNG_FIELDS_MOST]; /* from the sheet, or NULL */
    const chain *taken[UNG_FIELDS_MOST];       /* from an earlier step, or NULL */
} step;

typedef struct plan {
    const ung_calculation *calculation[STEPS];
    step step[STEPS];
} plan;

void plan_begin(plan *p);

/* Runs every step; problems go to stderr.  Returns how many there were. */
int plan_run(plan *p, const sheet *s);

/* Stops and other cautions of one step; returns how many. */
size_t step_cautions(const step *st, ung_caution *caution);
size_t step_stops(const step *st);

/* What could be changed on the day in this step: inputs in the order in which they are tried, NULL at the end. */
const char *const *changeable(int step);

/* The least change of one input, to a tenth, that lifts the stop `code` (NULL: all stops of the step); NaN if none. */
double least_change(const step *st, size_t input, const char *code);

/* An output by name. */
double result(const step *st, const char *name);

#endif
