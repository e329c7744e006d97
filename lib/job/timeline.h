/* Drawing the durations of a chain of steps: what job_timeline's formula asks for. */
#ifndef UNG_JOB_TIMELINE_H
#define UNG_JOB_TIMELINE_H

#include <ungula/job.h>

#include "core/contract.h"

/* The inverse of a step's distribution: a cubic on each cell of w, the distance of the share to the nearer of 0 and 1,
 * from 2^-24 to 1/2.  Each of the 23 halvings has eight cells, because a quantile near its end is a power of w. */
enum { UNG_TABLE_OCTAVES = 23, UNG_TABLE_CELLS = 8 * UNG_TABLE_OCTAVES, UNG_TABLE = 2 * 4 * UNG_TABLE_CELLS };
enum { UNG_STEPS_MOST = 64, UNG_SAMPLES_MOST = 200000 };

/* What is drawn: steps with a table each (not used for triangular ones), and the time against which the sum is held. */
typedef struct ung__chain {
    const ung_job_step *step;
    size_t count;
    const double *table;
    int triangular;
    size_t samples;
    uint32_t seed;
    double time;  /* mean working time */
    double shift; /* mean of the logarithm of working time over pace */
    double per_spread; /* 1 over the standard deviation of the logarithm; 0: the working time is fixed */
    int width;         /* of the processor's vectors: ung__width(), or less in tests of it */
} ung__chain;

void ung__pert_table(const ung_job_step *step, double *table);

/* For steps `first` to `last` - 1 (from 0): the chance that the sum from `first` on passes the working time, 0 for steps
 * that do not count; and of the last of them that counts, the standard error of that chance. */
void ung__chain_late(const ung__chain *chain, size_t first, size_t last, double *chance, double *standard_error);

#endif
