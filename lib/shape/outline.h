/* The smooth hoof outline from hand measurements, shared by the calculations that need one.
 *
 *     x(t) = (L/2) cos t      y(t) = (W'/2) sin t g(cos t)      g(c) = 1 + k1 c + k2 (2 c^2 - 1) + k3 (4 c^3 - 3 c)
 *
 * t = 0 at the toe.  k1, k2, k3 make it widest at the given station and give it the given widths one tenth of the
 * length from either end; W' makes the greatest width W.
 */
#ifndef UNG_SHAPE_OUTLINE_H
#define UNG_SHAPE_OUTLINE_H

#include "core/quadrature.h"

typedef struct ung__outline {
    double half_length, half_scale; /* L/2, W'/2 */
    double k1, k2, k3;
    double g[4];      /* g(c) = g[0] + g[1] c + g[2] c^2 + g[3] c^3 */
    double convexity; /* least of (x'y'' - y'x'') 4/(L W'): positive on a convex outline */
} ung__outline;

/* Points and derivatives by t at one parameter, given its cosine and sine. */
typedef struct ung__outline_point {
    double x, y, dx, dy;
} ung__outline_point;

UNG_INLINE double ung__outline_g(const ung__outline *o, double c)
{
    return o->g[0] + c * (o->g[1] + c * (o->g[2] + c * o->g[3]));
}

UNG_INLINE double ung__outline_dg(const ung__outline *o, double c)
{
    return o->g[1] + c * (2 * o->g[2] + c * (3 * o->g[3]));
}

UNG_INLINE ung__outline_point ung__outline_at(const ung__outline *o, double c, double s)
{
    double g = ung__outline_g(o, c);
    ung__outline_point p;
    p.x = o->half_length * c;
    p.y = o->half_scale * s * g;
    p.dx = -o->half_length * s;
    p.dy = o->half_scale * (c * g - s * s * ung__outline_dg(o, c));
    return p;
}

/* (x'y'' - y'x'') 4/(L W') as a polynomial in c = cos t: g + 2 c (1 - c^2) g' - (1 - c^2)^2 g''. */
UNG_INLINE double ung__outline_bend(const ung__outline *o, double c)
{
    double q = 1 - c * c;
    return ung__outline_g(o, c) + 2 * c * q * ung__outline_dg(o, c) - q * q * (2 * o->g[2] + 6 * o->g[3] * c);
}

/* Its least value on [-1, 1]: samples, and around the least of them a search that halves its step. */
UNG_INLINE double ung__outline_least_bend(const ung__outline *o)
{
    enum { SAMPLES = 64, HALVINGS = 24 };
    double least = ung__outline_bend(o, -1), at = -1;
    for (int i = 1; i <= SAMPLES; i++) {
        double c = -1 + 2.0 * i / SAMPLES, bend = ung__outline_bend(o, c);
        at = bend < least ? c : at;
        least = bend < least ? bend : least;
    }
    double step = 2.0 / SAMPLES;
    for (int i = 0; i < HALVINGS; i++) {
        step = step / 2;
        double left = ung__max(at - step, -1), right = ung__min(at + step, 1);
        double below = ung__outline_bend(o, left), above = ung__outline_bend(o, right);
        at = below < least ? left : at;
        least = below < least ? below : least;
        at = above < least ? right : at;
        least = above < least ? above : least;
    }
    return least;
}

UNG_INLINE ung__outline ung__outline_from(double length, double width, double widest, double heel_width,
                                                 double toe_width)
{
    /* Three linear equations a k1 + b k2 + c k3 = d: widest at t_w (dy/dt = 0), and the two widths. */
    const double end_c = 0.8, end_s = 0.6; /* one tenth of the length from an end */
    double c = 1 - 2 * widest, s = ung__sqrt(1 - c * c);
    double c2 = 2 * c * c - 1, c3 = c * (4 * c * c - 3), s2 = 2 * s * c, s3 = s * (4 * c * c - 1);
    double e2 = 2 * end_c * end_c - 1, e3 = end_c * (4 * end_c * end_c - 3);
    double a1 = c * c - s * s, b1 = c * c2 - 2 * s * s2, g1 = c * c3 - 3 * s * s3, d1 = -c;
    double a2 = end_s * end_c - toe_width * s * c, b2 = end_s * e2 - toe_width * s * c2;
    double g2 = end_s * e3 - toe_width * s * c3, d2 = toe_width * s - end_s;
    double a3 = -end_s * end_c - heel_width * s * c, b3 = end_s * e2 - heel_width * s * c2;
    double g3 = -end_s * e3 - heel_width * s * c3, d3 = heel_width * s - end_s;
    double m1 = b2 * g3 - b3 * g2, m2 = b1 * g3 - b3 * g1, m3 = b1 * g2 - b2 * g1; /* Cramer's rule */
    double determinant = a1 * m1 - a2 * m2 + a3 * m3;
    ung__outline o;
    o.k1 = (d1 * m1 - d2 * m2 + d3 * m3) / determinant;
    o.k2 = (a1 * (d2 * g3 - d3 * g2) - a2 * (d1 * g3 - d3 * g1) + a3 * (d1 * g2 - d2 * g1)) / determinant;
    o.k3 = (a1 * (b2 * d3 - b3 * d2) - a2 * (b1 * d3 - b3 * d1) + a3 * (b1 * d2 - b2 * d1)) / determinant;
    o.g[0] = 1 - o.k2;
    o.g[1] = o.k1 - 3 * o.k3;
    o.g[2] = 2 * o.k2;
    o.g[3] = 4 * o.k3;
    o.half_length = length / 2;
    o.half_scale = width / 2 / (s * ung__outline_g(&o, c));
    o.convexity = ung__outline_least_bend(&o);
    o.convexity = o.half_scale > 0 ? o.convexity : -1;
    return o;
}

UNG_INLINE double ung__outline_area(const ung__outline *o)
{
    return UNG__TAU / 2 * o->half_length * o->half_scale * (1 - o->k2 / 2);
}

/* Length of the outline: one term of the integral over t. */
UNG_INLINE void ung__outline_speed(const void *outline, double c, double s, double *value)
{
    ung__outline_point p = ung__outline_at((const ung__outline *)outline, c, s);
    value[0] = ung__sqrt(p.dx * p.dx + p.dy * p.dy);
}

#endif
