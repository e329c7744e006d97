/* What the plan's files share. */
#ifndef UNG_JOB_PLAN_H
#define UNG_JOB_PLAN_H

#include <ungula/plan.h>

#include "core/contract.h"

/* A value that was given, or else the one that another step found. */
static inline double ung__plan_given(double value, double found)
{
    return value == value ? value : found;
}

/* NaN is a value that is not known, and left out. */
static inline double ung__plan_larger(double a, double b)
{
    return a > b || b != b ? a : b;
}

static inline double ung__plan_smaller(double a, double b)
{
    return a < b || b != b ? a : b;
}

/* Margin of a screw that reaches what it is to hold in; one that does not holds nothing. */
static inline double ung__plan_margin_from_shoe(const ung_screw_depth_out *screw)
{
    return screw->embedded_mm == 0 ? -1 : screw->margin_mm;
}

static inline double ung__plan_margin_through_wall(const ung_screw_through_out *screw)
{
    return screw->wood_length_mm == 0 ? -1 : screw->margin_mm;
}

/* The longest screw of the box, in steps of stock_step, that keeps every margin; NaN: none does, or a value is missing.
 * The length in `in` does not matter. */
double ung__plan_length_from_shoe(ung_screw_depth_in in, double stock_step);
double ung__plan_length_through_wall(ung_screw_through_in in, double stock_step);
/* The height of entry, in whole millimetres, that leaves the most margin, with the length in `in` or, where that is
 * NaN, the longest of the box.  The height in `in` does not matter. */
double ung__plan_entry(ung_screw_through_in in, double stock_step);
/* The fewest passes that are thick enough for cast_length, and then what the rolls opened for them still give, but for
 * more passes than are usual. */
double ung__plan_passes(ung_cast_length_in in);

/* Ranges and whole numbers of what was given. */
ung_status ung__plan_check(const double *in, ung_fault *fault);
/* Whether a step is only there for comparison, so that its cautions are not the plan's. */
int ung__plan_compares(const ung_job_plan_out *plan, size_t step);

#endif
