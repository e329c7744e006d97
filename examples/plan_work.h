/* The main job: every calculation in the order of the work, each taking what an earlier one found. */
#ifndef PLAN_WORK_H
#define PLAN_WORK_H

#include "plan_tasks.h"
#include "plan_trace.h"

/* Without a trace the belt is hoof_band's, with one outline_band's on the fitted outline.  With stations of the wall
 * the screws of each side are laid out; otherwise there is one screw.  From LOAD on: what the attachment holds, where
 * the sheet gives the load.  DEMAND is hold a first time, for the load alone, which the bond is asked to carry.  From
 * NEED on: the timing, where the sheet gives it; NEED is job_timeline a first time, for the time needed. */
enum { OUTLINE, BELT, WALL, SCREW, PROFILE, LEFT, RIGHT, ADHESIVE, TAPE, HEEL,
       LOAD, DEMAND, GAUGE, WOOD, GRIP, BOND, HOLD,
       NEED, DAY, CUP, CAST, LINE, STEPS };

/* outline_band is within 1e-5 of the smooth outline with 2,000 points. */
enum { OUTLINE_POINTS = 2000, WALL_STATIONS = SHEET_ROWS / 2, PLACES_MOST = 512, SCREWS_MOST = 8, ROWS_MOST = 3 };

struct plan;

/* A result that becomes a later input, unless the sheet sets that input. */
typedef struct chain {
    int step;
    const char *input;
    int from;
    const char *output;
    const char *only_with; /* an input of the step that must be above 0, or NULL */
    double (*value)(const struct plan *p); /* NULL: the output; otherwise `output` says in words what it is */
} chain;
extern const chain plan_chain[];
extern const int plan_chains;

typedef struct step {
    const ung_calculation *calculation;
    int wanted, ran; /* the wall's thickness is calculated only where it was not given */
    double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST];
    const measurement *given[UNG_FIELDS_MOST]; /* from the sheet, or NULL */
    const chain *taken[UNG_FIELDS_MOST];       /* from an earlier step, or NULL */
    ung_rows rows[ROWS_MOST];                  /* its lists and its workspace, if it has any */
    /* No strength of horn is published.  Where the sheet gives none the step is open: it runs with the least and with
     * the greatest accepted strength (in and out, high and out_high), and only what is the same both times counts. */
    int open, unknown[UNG_FIELDS_MOST];
    double high[UNG_FIELDS_MOST], out_high[UNG_FIELDS_MOST];
} step;

/* The screws of one side. */
typedef struct layout {
    ung_screw_station place[PLACES_MOST]; /* where a screw may go: every 5 mm between the first and the last station */
    ung_screw_place screw[SCREWS_MOST];
    size_t places, screws;
} layout;

typedef struct plan {
    const ung_calculation *calculation[STEPS];
    step step[STEPS];
    trace trace;
    ung_point outline[OUTLINE_POINTS]; /* fitted */
    ung_wall_station station[WALL_STATIONS], profile[1];
    const measurement *station_row[WALL_STATIONS];
    size_t stations;
    layout layout[2]; /* left, right */
    ung_job_step task[TASKS_MOST];
    ung_step_time time[TASKS_MOST];
    size_t tasks;
    double work[5 * TRACE_POINTS + 128]; /* outline_measure's for the longest trace: the most of all */
} plan;

/* Chooses the calculations: with a trace or without, with stations of the wall or without. */
void plan_begin(plan *p, const sheet *s);

/* The lists of a step (plan_lists.c): 1 ready, 0 an earlier step is not, -1 refused, after a message. */
int prepare_lists(plan *p, int step, const sheet *s);

/* Where an input was taken from: "embedded_mm of screw_depth". */
void source_text(const plan *p, const chain *from, char *text, size_t size);

/* "" or ", left side" */
const char *side_of(int step);

/* A layout again with other numbers: 1 where no stop stands and every screw reaches the horn. */
int layout_would_do(const plan *p, int step, size_t screws, const char *input, double value);

/* Runs every step; problems go to stderr.  Returns how many there were. */
int plan_run(plan *p, const sheet *s);

/* Runs one step, an open one with both strengths; 0: refused. */
int step_call(step *st, ung_fault *fault);

/* Prints why a step was refused, with the line that is to blame. */
void report_refused(const plan *p, const step *st, const sheet *s, const ung_fault *fault);

/* Stops and other cautions of one step, those that hold whatever a missing strength is; returns how many. */
size_t step_cautions(const step *st, ung_caution *caution);
size_t step_stops(const step *st);

/* What could be changed on the day in this step: inputs in the order in which they are tried, NULL at the end. */
const char *const *changeable(int step);

/* The least change of one input, to a tenth, that lifts the stop `code` (NULL: all stops of the step); NaN if none. */
double least_change(const step *st, size_t input, const char *code);

/* An output and an input by name. */
double result(const step *st, const char *name);
double input_of(const step *st, const char *name);

#endif
