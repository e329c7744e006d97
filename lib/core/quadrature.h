/* Quadrature inside formulas.  Sums use UNG_LANES fixed accumulators combined in a fixed tree, so that every compiler
 * and vector width adds in the same order. */
#ifndef UNG_CORE_QUADRATURE_H
#define UNG_CORE_QUADRATURE_H

#include "core/elementary.h"

enum { UNG_LANES = 8 };
#define UNG__TAU 6.283185307179586476925 /* 2 pi */

UNG_INLINE double ung__tree_sum(const double lane[UNG_LANES])
{
    return ((lane[0] + lane[1]) + (lane[2] + lane[3])) + ((lane[4] + lane[5]) + (lane[6] + lane[7]));
}

/* Gauss-Legendre rule of 16 points on [-1, 1], symmetric: node i and its mirror share a weight.
 * Exact for polynomials to degree 31.  Nodes are the roots of the Legendre polynomial, computed to 40 digits. */
enum { UNG_GAUSS = 8 };
UNG_INLINE double ung__gauss_node(int i)
{
    static const double node[8] = {0.9894009349916499326, 0.9445750230732325761, 0.8656312023878317439, 
                                   0.7554044083550030339, 0.6178762444026437484, 0.4580167776572273863, 0.2816035507792589132, 0.09501250983763744019};
    return node[i];
}
UNG_INLINE double ung__gauss_weight(int i)
{
    static const double weight[8] = {0.02715245941175409485, 0.06225352393864789286, 0.09515851168249278481, 
                                     0.1246289712555338721, 0.1495959888165767321, 0.1691565193950025382, 0.1826034150449235889, 0.1894506104550684963};
    return weight[i];
}

/* Integrals over a closed curve that is mirrored in its axis, of up to UNG_SUMS functions of cos t and sin t, by the
 * trapezoid rule in t from 0 to 2 pi.  On a smooth closed curve it converges faster than any power of the number of
 * nodes (Trefethen and Weideman 2014): the error after a doubling is about the square of the change before it, over a
 * constant that may be small.  The number doubles until no integral changes by more than 1e-11 of itself; 1e-9 left an
 * error of 2e-13 on a usual hoof, with 1e-11 it is that of rounding.
 * Which number that is depends on the inputs alone.  Mirror symmetry: only 0 to pi is visited. */
enum { UNG_SUMS = 4, UNG_NODES_FIRST = 32, UNG_NODES_MOST = 4096 };
typedef void ung__integrand(const void *context, double c, double s, double *value);

UNG_INLINE void ung__closed_curve(ung__integrand *f, const void *context, int count, double *result)
{
    double sum[UNG_SUMS] = {0}, value[UNG_SUMS];
    f(context, 1, 0, value);
    for (int k = 0; k < count; k++)
        sum[k] = value[k] / 2;
    f(context, -1, 0, value);
    for (int k = 0; k < count; k++)
        sum[k] += value[k] / 2;
    for (int k = 0; k < count; k++)
        result[k] = UNG__TAU * sum[k];
    for (int n = 2; n < UNG_NODES_MOST;) {
        n *= 2; /* the nodes between those visited so far */
        for (int j = 1; j < n / 2; j += 2) {
            double angle = 360.0 * j / n; /* exact: n is a power of 2 */
            f(context, ung__cos_deg(angle), ung__sin_deg(angle), value);
            for (int k = 0; k < count; k++)
                sum[k] += value[k];
        }
        int settled = n > UNG_NODES_FIRST;
        for (int k = 0; k < count; k++) {
            double now = 2 * UNG__TAU / n * sum[k];
            settled = settled && ung__abs(now - result[k]) <= 1e-11 * ung__abs(now);
            result[k] = now;
        }
        if (settled)
            break;
    }
}

#endif
