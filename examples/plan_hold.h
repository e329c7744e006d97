/* What the attachment holds at a gait: what its calculations take from the rest of the plan, and its words. */
#ifndef PLAN_HOLD_H
#define PLAN_HOLD_H

#include "plan_work.h"

/* Inputs that are more than one result of an earlier step; NaN: not known. */
double load_shear(const plan *p);       /* the larger of both directions */
double layout_screws(const plan *p);    /* of both sides */
double layout_embedded(const plan *p);  /* the least of both sides */
double point_in_horn(const plan *p);    /* a screw from below */
double screw_lean(const plan *p);       /* of the axis from the vertical */
double layout_lean(const plan *p);      /* the worst of both sides */
double wood_under_head(const plan *p);
double wall_lap(const plan *p);         /* height of the belt along the wall alone */
double wall_at_screw(const plan *p);
double thinnest_station(const plan *p);

/* Leaves the strengths open that the sheet does not give. */
void open_strengths(plan *p);

/* Prints what is left out of a step for want of a strength. */
void hold_open(const step *st);

/* Whether a result is to be printed: it is known whatever a missing strength is, and its question was asked. */
int hold_tells(const step *st, size_t output);

/* The end of the section: forces, what governs, use ratios, needed strengths; or that there is none. */
void hold_words(const plan *p);

#endif
