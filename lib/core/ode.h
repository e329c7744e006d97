/* Small systems of ordinary differential equations y' = f(x, y), one to eight states, x rising.
 *
 * Two methods take steps of their own choice; either fits the same problem:
 *   ung__implicit_step   Radau IIA with five stages: order 9, order 5 inside a step, L-stable (Ehle 1969; Hairer and
 *                        Wanner 1996, IV.5 and IV.8); for stiff problems, and cheap for smooth ones.  Needs df/dy.
 *   ung__explicit_step   Dormand and Prince 1980: order 5, order 4 inside a step; for problems that are not stiff.
 * What happens within the last step is had from ung__ode_at, and the place where something happens from
 * ung__ode_event.  Everything lies in the struct that the caller owns, so that it may be copied to step back. */
#ifndef UNG_CORE_ODE_H
#define UNG_CORE_ODE_H

#include "core/elementary.h"

enum { UNG__STATES_MOST = 8, UNG__RADAU = 5, UNG__ODE_ROWS = 7 };

typedef void ung__rate(const void *context, double x, const double *y, double *rate);
/* jacobian[i][j] = d rate[i] / d y[j] */
typedef void ung__jacobian(const void *context, double x, const double *y, double (*jacobian)[UNG__STATES_MOST]);
/* Anything that changes its sign. */
typedef double ung__event(const void *context, double x, const double *y);

typedef struct ung__ode {
    int states, coupled; /* states from `coupled` on are in no rate and have no place in the jacobian: integrals */
    ung__rate *rate;
    ung__jacobian *jacobian; /* for the implicit method */
    const void *context;
    double relative, absolute[UNG__STATES_MOST]; /* an error of relative |y| + absolute is tolerated, state by state */
    double x, y[UNG__STATES_MOST];               /* where the last accepted step ended */
    double step;                                 /* what the next one will try; 0 at first: found by itself */
    double before_x, before_y[UNG__STATES_MOST]; /* where that step began */
    double dense[UNG__ODE_ROWS][UNG__STATES_MOST];
    int dense_kind; /* 0: no step yet, 1: implicit, 2: explicit */
    int steps, rejected, rates;
} ung__ode;

/* One accepted step that ends at `end` at the latest.  0 if there is none: the problem has no solution beyond. */
int ung__implicit_step(ung__ode *ode, double end);
int ung__explicit_step(ung__ode *ode, double end);
/* One implicit step to `end`, whatever its error; 0 if its equations were not solved. */
int ung__implicit_leap(ung__ode *ode, double end);
/* The states at x within the last step, from its own polynomial. */
void ung__ode_at(const ung__ode *ode, double x, double *y);
/* Where in the last step, whose ends have different signs of it, the event is 0, and the states there. */
double ung__ode_event(const ung__ode *ode, ung__event *event, double *y);

#endif
