/* The beta distribution for exponents a and b from 1 to 5: the share below x, its density, and the inverse.
 *
 *     B(x; a, b) = x^a (1/a + c1 x/(a + 1) + c2 x^2/(a + 2) + ...),   c0 = 1, ck = c(k-1) (k - b)/k
 *
 * (Abramowitz and Stegun 6.6.8 with 15.1.1).  Up to x = 1/2 forty-four terms leave less than a rounding; above 1/2 the
 * other end is nearer.  The whole is the sum of both ends at 1/2, so no gamma function is needed. */
#ifndef UNG_CORE_BETA_H
#define UNG_CORE_BETA_H

#include "core/elementary.h"

enum { UNG_BETA_TERMS = 44 };
typedef struct ung__beta {
    double a, b, per_whole; /* 1/B(a, b) */
    double low[UNG_BETA_TERMS], high[UNG_BETA_TERMS]; /* of the series from 0, and from 1 */
} ung__beta;

UNG_INLINE void ung__beta_series(double a, double b, double *term)
{
    double c = 1;
    for (int k = 0; k < UNG_BETA_TERMS; k++) {
        term[k] = c / (a + k);
        c = c * (k + 1 - b) / (k + 1);
    }
}

/* The series without x^a; even and odd powers apart, because each waits for the one before it. */
UNG_INLINE double ung__beta_sum(const double *term, double x)
{
    double square = x * x, even = 0, odd = 0;
    for (int k = UNG_BETA_TERMS - 2; k >= 0; k -= 2) {
        even = even * square + term[k];
        odd = odd * square + term[k + 1];
    }
    return even + x * odd;
}

UNG_INLINE void ung__beta_begin(ung__beta *beta, double a, double b)
{
    beta->a = a;
    beta->b = b;
    ung__beta_series(a, b, beta->low);
    ung__beta_series(b, a, beta->high);
    double low = ung__pow(0.5, a) * ung__beta_sum(beta->low, 0.5);
    double high = ung__pow(0.5, b) * ung__beta_sum(beta->high, 0.5);
    beta->per_whole = 1 / (low + high);
}

/* The share below x and its derivative, 0 < x < 1. */
typedef struct ung__beta_at {
    double below, density;
} ung__beta_at;

UNG_INLINE ung__beta_at ung__beta_of(const ung__beta *beta, double x)
{
    const double rest = 1 - x, by_low = ung__pow(x, beta->a), by_high = ung__pow(rest, beta->b);
    ung__beta_at at;
    at.below = x <= 0.5 ? beta->per_whole * (by_low * ung__beta_sum(beta->low, x))
                        : 1 - beta->per_whole * (by_high * ung__beta_sum(beta->high, rest));
    at.density = beta->per_whole * (by_low / x) * (by_high / rest);
    return at;
}

/* x for a share p from 1e-9 to 1/2, from an x that is not above it: Newton's steps on log(share) as a function of
 * log x, which is concave, so they come from below and cannot miss. */
UNG_INLINE double ung__beta_inverse_from(const ung__beta *beta, double p, double x, int steps)
{
    for (int i = 0; i < steps; i++) {
        const ung__beta_at at = ung__beta_of(beta, x);
        x = x * ung__exp(ung__log(p / at.below) * at.below / (x * at.density));
    }
    return x;
}

/* Something below: the first term of the series alone, which is an upper bound of the share. */
UNG_INLINE double ung__beta_start(const ung__beta *beta, double p)
{
    return ung__pow(p * beta->a / beta->per_whole, 1 / beta->a);
}

#endif
