/* Heat of a curing film on the horn: conduction through film, horn and tissue, with the cure in each cell of the film.
 *
 * Finite volumes; in time the L-stable Rosenbrock method of order 4(3) RODAS (Hairer and Wanner 1996, Solving Ordinary
 * Differential Equations II, IV.7), steps by its embedded error.  The conversion of a cell acts on that cell alone, so
 * it is eliminated, and a tridiagonal system is left for the temperatures, factored once a step. */
#ifndef UNG_CURE_WALL_H
#define UNG_CURE_WALL_H

#include "core/contract.h"
#include "core/elementary.h"

/* A test that refines defines more. */
#ifndef UNG__WALL_MOST
#define UNG__WALL_MOST 160
#endif
#define UNG__WALL_STAGES 6
#define UNG__WALL_GRADE 0.25
#define UNG__WALL_WATCHED 21600 /* s: what is followed, six hours */
#define UNG__WALL_LIMIT 44      /* C: burn damage is counted above */

typedef struct ung__wall_layer {
    double thickness, conductivity, capacity; /* m, W/(m K), J/(m3 K) */
    int cells;
} ung__wall_layer;

typedef struct ung__wall_case {
    ung__wall_layer layer[3];      /* film, horn, tissue (0 cells: insulated) */
    double exchange, ambient, body; /* W/(m2 K), C */
    double start, horn;            /* C */
    double rise;                   /* K: film without any loss, all cured */
    double rate, energy, reference; /* 1/s at the reference (K); E/R in K */
    double initiation, gel, final;
    double tolerance;              /* K, of one step */
} ung__wall_case;

typedef struct ung__wall_course {
    double film_peak, inner_peak, inner_peak_time, above, damage, gel;
    double heat; /* J/m2 gained since the start by all layers */
    int steps, tried;
} ung__wall_course;

typedef struct ung__wall_state {
    double t[UNG__WALL_MOST], a[UNG__WALL_MOST];
} ung__wall_state;

typedef struct ung__wall_grid {
    int n, film;
    double west[UNG__WALL_MOST], east[UNG__WALL_MOST]; /* 1/s: exchange with the neighbor over the cell's capacity */
    double volume[UNG__WALL_MOST];                     /* J/(m2 K) */
    double inner[2];                                   /* weights of the two cells at the horn's inner face */
    int inner_cell;                                    /* the first of them */
} ung__wall_grid;

UNG_INLINE void ung__wall_make(const ung__wall_case *c, ung__wall_grid *g, ung__wall_state *y)
{
    double half[UNG__WALL_MOST]; /* m2 K/W: half a cell */
    int n = 0;
    for (int k = 0; k < 3; k++) {
        const ung__wall_layer *l = &c->layer[k];
        for (int i = 0; i < l->cells; i++, n++) {
            /* Narrower where horn meets film: x = L s (b + (1 - b) s). */
            double b = k == 1 ? UNG__WALL_GRADE : 1, p = 1.0 / l->cells;
            double d = l->thickness * p * (b + (1 - b) * p * (2 * i + 1));
            half[n] = d / (2 * l->conductivity);
            g->volume[n] = d * l->capacity;
            y->a[n] = 0;
            y->t[n] = k == 0   ? c->start
                      : k == 1 ? c->horn
                               : c->horn + (c->body - c->horn) * ((i + 0.5) / l->cells);
        }
    }
    g->n = n;
    g->film = c->layer[0].cells;
    for (int i = 0; i < n; i++) {
        double before = i == 0 ? 1 / (1 / c->exchange + half[0]) : 1 / (half[i - 1] + half[i]);
        double after = i + 1 < n ? 1 / (half[i] + half[i + 1]) : c->layer[2].cells > 0 ? 1 / half[i] : 0;
        g->west[i] = before / g->volume[i];
        g->east[i] = after / g->volume[i];
    }
    /* Between horn and tissue what flows in flows out; at an insulated face a parabola without a slope there. */
    int last = c->layer[0].cells + c->layer[1].cells - 1, tissue = c->layer[2].cells > 0;
    double near = half[last], far = 2 * near + half[last - 1];
    g->inner_cell = tissue ? last : last - 1;
    g->inner[1] = tissue ? near / (near + half[tissue ? last + 1 : last]) : far * far / (far * far - near * near);
    g->inner[0] = 1 - g->inner[1];
}

UNG_INLINE double ung__wall_inner(const ung__wall_grid *g, const double *t)
{
    return g->inner[0] * t[g->inner_cell] + g->inner[1] * t[g->inner_cell + 1];
}

/* What a film cell cures in a second. */
UNG_INLINE double ung__wall_cure(const ung__wall_case *c, double t, double a)
{
    double kelvin = t + 273.15;
    double k = c->rate * ung__exp(c->energy * (1 / c->reference - 1 / kelvin));
    return k * (c->initiation + a) * (1 - a);
}

/* Cells that were cured when the step began, at `from`, stay so; in the others the cure goes on until its end. */
static void ung__wall_slope(const ung__wall_case *c, const ung__wall_grid *g, const ung__wall_state *from,
                            const ung__wall_state *y, ung__wall_state *f)
{
    for (int i = 0; i < g->film; i++)
        f->a[i] = from->a[i] < c->final ? ung__wall_cure(c, y->t[i], y->a[i]) : 0;
    for (int i = 0; i < g->n; i++) {
        double before = i == 0 ? c->ambient : y->t[i - 1], after = i + 1 < g->n ? y->t[i + 1] : c->body;
        double flow = g->west[i] * (before - y->t[i]) + g->east[i] * (after - y->t[i]);
        f->t[i] = i < g->film ? flow + c->rise * f->a[i] : flow;
    }
}

/* The matrix 1/(gamma h) - J in factors. */
typedef struct ung__wall_factors {
    double by_t[UNG__WALL_MOST], by_a[UNG__WALL_MOST]; /* of the cure */
    double own[UNG__WALL_MOST];                        /* 1/(1/(gamma h) - by_a) */
    double inverse[UNG__WALL_MOST], ratio[UNG__WALL_MOST];
} ung__wall_factors;

/* Whether the step is short enough for the elimination: no cell grows by itself faster than the step can follow. */
UNG_INLINE int ung__wall_factor(const ung__wall_grid *g, double rise, double shift, ung__wall_factors *m)
{
    int sound = 1;
    for (int i = 0; i < g->n; i++) {
        double diagonal = shift + g->west[i] + g->east[i];
        if (i < g->film) {
            double rest = shift - m->by_a[i];
            m->own[i] = 1 / rest;
            double gain = rise * m->by_t[i] * shift * m->own[i];
            sound = rest > 0 && gain < shift / 2 ? sound : 0;
            diagonal -= gain;
        }
        double pivot = i > 0 ? diagonal - g->west[i] * m->ratio[i - 1] : diagonal;
        m->inverse[i] = 1 / pivot;
        m->ratio[i] = g->east[i] * m->inverse[i];
    }
    return sound;
}

UNG_INLINE void ung__wall_solve(const ung__wall_grid *g, double rise, const ung__wall_factors *m, ung__wall_state *b)
{
    double before = 0;
    for (int i = 0; i < g->n; i++) {
        double right = i < g->film ? b->t[i] + rise * m->by_a[i] * b->a[i] * m->own[i] : b->t[i];
        before = (right + g->west[i] * before) * m->inverse[i];
        b->t[i] = before;
    }
    for (int i = g->n - 2; i >= 0; i--)
        b->t[i] += m->ratio[i] * b->t[i + 1];
    for (int i = 0; i < g->film; i++)
        b->a[i] = (b->a[i] + m->by_t[i] * b->t[i]) * m->own[i];
}

/* One step of length h from y, whose slope is f; in next the result.  Returns the error, 1 being as much as is wanted
 * (more if the step cannot be made). */
static double ung__wall_step(const ung__wall_case *c, const ung__wall_grid *g, const ung__wall_state *y,
                             const ung__wall_state *f, double h, ung__wall_factors *m, ung__wall_state *next)
{
    static const double a[5][5] = {{1.544, 0, 0, 0, 0},
                                   {0.9466785280815826, 0.2557011698983284, 0, 0, 0},
                                   {3.314825187068521, 2.896124015972201, 0.9986419139977817, 0, 0},
                                   {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 0},
                                   {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1}};
    static const double b[5][5] = {
        {-5.6688, 0, 0, 0, 0},
        {-2.430093356833875, -0.2063599157091915, 0, 0, 0},
        {-0.1073529058151375, -9.594562251023355, -20.47028614809616, 0, 0},
        {7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160, 0},
        {8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054}};
    if (!ung__wall_factor(g, c->rise, 4 / h, m)) /* gamma is 1/4 */
        return 1e6;
    ung__wall_state u[UNG__WALL_STAGES];
    u[0] = *f;
    ung__wall_solve(g, c->rise, m, &u[0]);
    for (int s = 1; s < UNG__WALL_STAGES; s++) {
        *next = *y;
        for (int j = 0; j < s; j++) {
            for (int i = 0; i < g->n; i++)
                next->t[i] += a[s - 1][j] * u[j].t[i];
            for (int i = 0; i < g->film; i++)
                next->a[i] += a[s - 1][j] * u[j].a[i];
        }
        ung__wall_slope(c, g, y, next, &u[s]);
        for (int j = 0; j < s; j++) {
            double part = b[s - 1][j] / h;
            for (int i = 0; i < g->n; i++)
                u[s].t[i] += part * u[j].t[i];
            for (int i = 0; i < g->film; i++)
                u[s].a[i] += part * u[j].a[i];
        }
        ung__wall_solve(g, c->rise, m, &u[s]);
    }
    const ung__wall_state *last = &u[UNG__WALL_STAGES - 1];
    double error = 0;
    for (int i = 0; i < g->n; i++) {
        next->t[i] += last->t[i];
        error = ung__max(ung__abs(last->t[i]) / c->tolerance, error);
    }
    for (int i = 0; i < g->film; i++) {
        next->a[i] += last->a[i];
        double wanted = 0.02 * c->tolerance * (c->initiation + ung__abs(y->a[i]));
        error = ung__max(ung__abs(last->a[i]) / wanted, error);
        /* Cured: the heat beyond the end is taken back. */
        double beyond = ung__max(next->a[i] - c->final, 0);
        error = ung__max(c->rise * beyond / (20 * c->tolerance), error);
        next->a[i] -= beyond;
        next->t[i] -= c->rise * beyond;
    }
    return error;
}

/* The cubic through values and slopes at both ends of a step, at the share r of it. */
typedef struct ung__wall_cubic {
    double v0, v1, d0, d1; /* slopes times the step */
} ung__wall_cubic;

UNG_INLINE double ung__wall_at(const ung__wall_cubic *q, double r)
{
    double s = 1 - r;
    return s * s * (1 + 2 * r) * q->v0 + r * r * (1 + 2 * s) * q->v1 + r * s * (s * q->d0 - r * q->d1);
}

UNG_INLINE double ung__wall_slant(const ung__wall_cubic *q, double r)
{
    double s = 1 - r;
    return 6 * r * s * (q->v1 - q->v0) + s * (1 - 3 * r) * q->d0 + r * (1 - 3 * s) * q->d1;
}

/* Where the cubic turns, its slopes at the ends having different signs. */
static double ung__wall_turn(const ung__wall_cubic *q)
{
    double low = 0, high = 1;
    for (int i = 0; i < 40; i++) {
        double middle = (low + high) / 2;
        int same = (ung__wall_slant(q, middle) > 0) == (q->d0 > 0);
        low = same ? middle : low;
        high = same ? high : middle;
    }
    return (low + high) / 2;
}

/* Where it passes the value between low and high. */
static double ung__wall_pass(const ung__wall_cubic *q, double low, double high, double value)
{
    int up = ung__wall_at(q, high) > value;
    for (int i = 0; i < 40; i++) {
        double middle = (low + high) / 2;
        int before = (ung__wall_at(q, middle) > value) != up;
        low = before ? middle : low;
        high = before ? high : middle;
    }
    return (low + high) / 2;
}

/* Damage a second (Henriques 1947): A = 3.1e98 1/s, E/R = 75,000 K; A is over the largest number that exp may make of
 * a temperature, so its logarithm goes in. */
UNG_INLINE double ung__wall_harm(double celsius)
{
    return ung__exp(226.78474122490761 - 75000 / (celsius + 273.15));
}

/* Adds the part of the step from low to high, over which the cubic does not turn. */
static void ung__wall_count(const ung__wall_cubic *q, double low, double high, double h, ung__wall_course *out)
{
    static const double node[3] = {0.1127016653792583, 0.5, 0.8872983346207417};
    static const double weight[3] = {5.0 / 18, 8.0 / 18, 5.0 / 18};
    int first = ung__wall_at(q, low) > UNG__WALL_LIMIT, second = ung__wall_at(q, high) > UNG__WALL_LIMIT;
    if (!first && !second)
        return;
    double from = first ? low : ung__wall_pass(q, low, high, UNG__WALL_LIMIT);
    double to = second ? high : ung__wall_pass(q, low, high, UNG__WALL_LIMIT);
    out->above += (to - from) * h;
    for (int part = 0; part < 4; part++)
        for (int i = 0; i < 3; i++)
            out->damage += (to - from) * h / 4 * weight[i] *
                           ung__wall_harm(ung__wall_at(q, from + (to - from) * (part + node[i]) / 4));
}

/* What is followed from step to step: values at the last two times, and the slope at the older. Slopes are those of the
 * parabola through three values: the system's own are too rough where long steps pass over fast modes. */
typedef struct ung__wall_trace {
    double v0, v1, d0;
} ung__wall_trace;

typedef struct ung__wall_clock {
    double t0, t1; /* s; equal before the first step */
    ung__wall_trace inner, film;
} ung__wall_clock;

/* The cubic over the last step, h long, when the next, `next` long, has come to the value v. */
UNG_INLINE ung__wall_cubic ung__wall_follow(ung__wall_trace *w, double h, double next, double v)
{
    double before = (w->v1 - w->v0) / h, after = (v - w->v1) / next;
    double d1 = (before * next + after * h) / (h + next);
    ung__wall_cubic q = {w->v0, w->v1, h * w->d0, h * d1};
    *w = (ung__wall_trace){w->v1, v, d1};
    return q;
}

UNG_INLINE double ung__wall_hottest(const ung__wall_grid *g, const double *t)
{
    int hot = 0;
    for (int i = 1; i < g->film; i++)
        hot = t[i] > t[hot] ? i : hot;
    double top = t[hot];
    if (hot > 0 && hot + 1 < g->film) { /* the parabola through it and its neighbors */
        double slant = t[hot + 1] - t[hot - 1], bend = 2 * t[hot] - t[hot - 1] - t[hot + 1];
        top += bend > 0 ? slant * slant / (8 * bend) : 0;
    }
    return top;
}

/* Takes the step from t0 to t1, the next being `next` long and ending at these temperatures. */
static void ung__wall_watch(ung__wall_clock *w, double next, double inner, double film, ung__wall_course *out)
{
    double h = w->t1 - w->t0;
    ung__wall_cubic q = ung__wall_follow(&w->inner, h, next, inner), p = ung__wall_follow(&w->film, h, next, film);
    int turns = (q.d0 > 0) != (q.d1 > 0);
    double turn = turns ? ung__wall_turn(&q) : 1, value = ung__wall_at(&q, turn);
    if (value > out->inner_peak) {
        out->inner_peak = value;
        out->inner_peak_time = w->t0 + h * turn;
    }
    ung__wall_count(&q, 0, turn, h, out);
    if (turns)
        ung__wall_count(&q, turn, 1, h, out);
    double top = p.d0 > 0 && p.d1 < 0 ? ung__wall_at(&p, ung__wall_turn(&p)) : p.v1;
    out->film_peak = ung__max(out->film_peak, top);
    w->t0 = w->t1;
    w->t1 += next;
}

/* When the film gels: a share of it, on the mean. */
static double ung__wall_gel(const ung__wall_case *c, const ung__wall_grid *g, const ung__wall_state *y,
                            const ung__wall_state *f, const ung__wall_state *z, const ung__wall_state *e, double h)
{
    ung__wall_cubic b = {0, 0, 0, 0};
    for (int i = 0; i < g->film; i++) {
        b.v0 += y->a[i];
        b.v1 += z->a[i];
        b.d0 += h * f->a[i];
        b.d1 += h * e->a[i];
    }
    double wanted = c->gel * g->film;
    return b.v1 >= wanted ? h * ung__wall_pass(&b, 0, 1, wanted) : UNG__INFINITY;
}

static ung__wall_course ung__wall_run(const ung__wall_case *c)
{
    ung__wall_grid g;
    ung__wall_state y, f, z, e;
    ung__wall_factors m;
    ung__wall_make(c, &g, &y);
    ung__wall_course out = {c->start, c->horn, 0, 0, 0, UNG__INFINITY, 0, 0, 0};
    double start_heat = 0;
    for (int i = 0; i < g.n; i++)
        start_heat += g.volume[i] * y.t[i];
    double time = 0, h = 1e-3;
    ung__wall_clock w = {0, 0, {0, c->horn, 0}, {0, c->start, 0}};
    ung__wall_slope(c, &g, &y, &y, &f);
    while (time < UNG__WALL_WATCHED && out.tried < 20000) {
        double left = UNG__WALL_WATCHED - time;
        int ends = h >= left;
        h = ends ? left : h;
        for (int i = 0; i < g.film; i++) {
            double kelvin = y.t[i] + 273.15, grown = (c->initiation + y.a[i]) * (1 - y.a[i]);
            m.by_t[i] = f.a[i] * c->energy / (kelvin * kelvin);
            m.by_a[i] = f.a[i] / (grown > 0 ? grown : 1) * (1 - c->initiation - 2 * y.a[i]);
        }
        double error = ung__wall_step(c, &g, &y, &f, h, &m, &z);
        double grow = ung__clamp(0.9 / ung__sqrt(ung__sqrt(ung__max(error, 1e-6))), 0.2, 4);
        out.tried++;
        if (!(error <= 1)) {
            h *= error == error ? ung__min(grow, 0.8) : 0.2;
            continue;
        }
        ung__wall_slope(c, &g, &z, &z, &e);
        double inner = ung__wall_inner(&g, z.t), film = ung__wall_hottest(&g, z.t);
        if (out.steps == 0) {
            w.t1 = h;
            w.inner = (ung__wall_trace){w.inner.v1, inner, (inner - w.inner.v1) / h};
            w.film = (ung__wall_trace){w.film.v1, film, (film - w.film.v1) / h};
        } else
            ung__wall_watch(&w, h, inner, film, &out);
        if (out.gel == UNG__INFINITY)
            out.gel = time + ung__wall_gel(c, &g, &y, &f, &z, &e, h);
        time = ends ? UNG__WALL_WATCHED : time + h;
        h *= grow;
        y = z;
        f = e;
        out.steps++;
    }
    h = w.t1 - w.t0; /* the last step, as if the next went straight on */
    ung__wall_watch(&w, h, 2 * w.inner.v1 - w.inner.v0, 2 * w.film.v1 - w.film.v0, &out);
    for (int i = 0; i < g.n; i++)
        out.heat += g.volume[i] * y.t[i];
    out.heat -= start_heat;
    return out;
}

#endif
