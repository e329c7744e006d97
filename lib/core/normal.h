/* The normal distribution: the share above a value, and the value above which a share lies. */
#ifndef UNG_CORE_NORMAL_H
#define UNG_CORE_NORMAL_H

#include "core/elementary.h"

/* 2 e^(z^2/2) Q(z) for z >= 0, Q the share above z: 1 at 0, falls as sqrt(2/pi)/z.  A polynomial in (z - 5)/(z + 5)
 * over 1 + 1.4 z (compare Shepherd and Laframboise 1981); coefficients by tests/published/fit_elementary.py. */
UNG_INLINE double ung__normal_scaled(double z)
{
    const double t = (z - 5.0) / (z + 5.0);
    double p = 5.839268899444581e-09;
    p = p * t + 2.597129212137015e-09;
    p = p * t + -7.642345931946616e-08;
    p = p * t + -4.9266171519594274e-08;
    p = p * t + 5.651899439382103e-07;
    p = p * t + 2.7733533373814287e-07;
    p = p * t + -3.845974760668024e-06;
    p = p * t + 3.565136506470485e-07;
    p = p * t + 2.638009251918474e-05;
    p = p * t + -3.30304368408929e-05;
    p = p * t + -0.00015086952267203077;
    p = p * t + 0.0005588791764834318;
    p = p * t + -8.560509087318688e-05;
    p = p * t + -0.004868643419227269;
    p = p * t + 0.02016467735976828;
    p = p * t + -0.04967025954200732;
    p = p * t + 0.08743461747245879;
    p = p * t + -0.11220720213425431;
    p = p * t + 0.09271368848993795;
    p = p * t + -0.005970017916080253;
    p = p * t + -0.14158034492401564;
    p = p * t + 1.2307088796001007;
    return p / (1.0 + 1.4 * z);
}

/* The share of a normal distribution (mean 0, standard deviation 1) above z; error below 4 ulp, 0 from z = 37.5 on. */
UNG_INLINE double ung__normal_above(double z)
{
    const double size = ung__abs(z), held = size > 37.5 ? 37.5 : size;
    const ung__two square = ung__times(held, -0.5 * held);
    const double found = 0.5 * ung__normal_scaled(held) * ung__exp_two(square);
    const double tail = size > 37.5 ? 0.0 : found;
    return z < 0.0 ? 1.0 - tail : tail;
}

/* The z above which a share p lies, 1e-300 <= p < 1: the approximation of Abramowitz and Stegun 26.2.23 (error below
 * 4.5e-4), then twice Halley's step.  Error below 1e-15 of the size of z, or 3e-16 if that is more. */
UNG_INLINE double ung__normal_upper(double p)
{
    const double q = p > 0.5 ? 1.0 - p : p, r = ung__sqrt(-2.0 * ung__log(q));
    const double above = (0.010328 * r + 0.802853) * r + 2.515517;
    const double below = ((0.001308 * r + 0.189269) * r + 1.432788) * r + 1.0;
    double z = ung__max(r - above / below, 0.0);
    for (int i = 0; i < 2; i++) {
        const double grown = ung__exp_two(ung__times(z, 0.5 * z)); /* e^(z^2/2): what Q is scaled by */
        const double more = 0.5 * ung__normal_scaled(ung__max(z, 0.0)) - q * grown;
        const double off = more * 2.5066282746310002; /* sqrt(2 pi): over the density */
        z = z + off / (1.0 - 0.5 * z * off);
    }
    return p > 0.5 ? 0.0 - z : z;
}

#endif
