/* Whether a closed polygon is simple: no two edges meet, except neighbors in the point they share.
 *
 * Points lie as x0 y0 x1 y1 ...; edge i runs from point i to point i + 1, the last one back to point 0.  Every decision
 * is exact: comparisons of coordinates, and the sign of a determinant that is computed in more digits where rounding
 * could turn it.  (Exact as long as no product of two coordinate differences is below 1e-290.)
 *
 * First a tree of boxes over runs of neighboring edges, with the ways (right, left, up, down) in which a run never
 * turns back: such a run cannot meet itself.  An outline is done in about the time of reading it.  Where boxes overlap
 * so much that this would take too many steps (spirals, combs), a sweep from left to right with a balanced tree
 * (Shamos and Hoey 1976), at most a constant times n log n steps. */
#ifndef UNG_CORE_SIMPLE_H
#define UNG_CORE_SIMPLE_H

#include <stddef.h>

/* Doubles of workspace for each point, and more. */
enum { UNG_SIMPLE_WORK = 5, UNG_SIMPLE_MORE = 128 };

/* 1 if simple; otherwise 0, and the numbers of two edges that meet, the lower first.  3 <= n < 2^31. */
int ung__simple(const double *points, size_t n, double *work, size_t meet[2]);

/* The same with a given number of steps for the tree of boxes before the sweep: for tests and measurements. */
int ung__simple_within(const double *points, size_t n, double *work, size_t steps, size_t meet[2]);

/* 1 if the turn a, b, c is to the left, -1 if it is to the right, 0 if the three are in line. */
int ung__turn(const double *a, const double *b, const double *c);

#endif
