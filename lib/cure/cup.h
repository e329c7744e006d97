/* The cup that heats itself, for cup_cure and cup_curve: fields, kinetics, and the run through its cure.
 *
 * Instead of time the run follows  x = ln((i + a)/(i (1 - a))),  for which the rate of cure is simple:
 *     dx/dt = k(T) (1 + i),     a = i (e^x - 1)/(1 + i e^x),     da/dx = i (1 + i) e^x/(1 + i e^x)^2.
 * Temperature and time are then smooth functions of x, in a runaway too; the shares at which something happens are
 * places known beforehand; and only the peak has to be looked for. */
#ifndef UNG_CURE_CUP_H
#define UNG_CURE_CUP_H

#include <ungula/cure.h>

#include "core/contract.h"
#include "core/ode.h"

#define CUP_INPUTS(F)                                                                                                \
    F(mass_g, 0.5, 2000, 10, 120, REQUIRED, GIVEN, MEASURE, "mixed adhesive in the cup")                             \
    F(surface_cm2, 1, 5000, 30, 600, REQUIRED, GIVEN, MEASURE, "its whole surface, free and against the cup")        \
    F(exchange_w_m2k, 1, 500, 8, 115, 10, CHOICE, MEASURE, "heat exchanged with the surroundings: 10 still air, 20 to 60 a face on wood or horn") \
    F(ambient_c, -25, 45, 0, 38, REQUIRED, GIVEN, MEASURE, "surroundings of the cup")                                \
    F(start_c, -25, 45, 5, 35, REQUIRED, GIVEN, MEASURE, "adhesive when it is mixed")                                \
    F(reference_time_s, 10, 20000, 120, 1800, REQUIRED, GIVEN, MEASURE, "working (gel) time by the adhesive's data sheet") \
    F(reference_temperature_c, 0, 40, 20, 25, REQUIRED, GIVEN, MEASURE, "temperature at which the data sheet states it") \
    F(reference_mass_g, 0, 1000, 0, 100, 0, NEUTRAL, MEASURE, "mass that the data sheet timed; 0: a film that stays at the temperature") \
    F(reference_surface_cm2, 0, 1000, 0, 100, 0, NEUTRAL, MEASURE, "whole surface of that mass")                     \
    F(activation_energy_kj, 10, 150, 45, 62, 52, CHOICE, MEASURE, "how temperature speeds the cure: 52 doubles it in 10 C") \
    F(heat_j_g, 10, 600, 230, 330, 300, CHOICE, MEASURE, "heat of the whole cure: 577 J/g times the share of monomer") \
    F(heat_capacity_j_gk, 0.5, 4.5, 1.5, 2.1, 1.9, CHOICE, MEASURE, "of the mixed adhesive")                         \
    F(initiation_fraction, 1e-5, 0.5, 0.003, 0.05, 0.01, CHOICE, MEASURE, "rate at the start, of the rate that cure itself adds") \
    F(gel_fraction, 0.01, 0.9, 0.05, 0.3, 0.1, CHOICE, MEASURE, "share cured when it no longer flows")               \
    F(final_fraction, 0.3, 1, 0.75, 0.85, 1, NEUTRAL, MEASURE, "share cured when the cure stops and gives no more heat")
#define CUP_REFUSALS(R)                                                                                              \
    R(gel_fraction, IN(final_fraction), "it has to gel before the cure stops")                                       \
    R(reference_surface_cm2, IN(reference_mass_g), "a reference mass needs its surface, at least 1 cm2")                             \
    R(reference_surface_cm2, IN(reference_mass_g), "a reference surface needs its mass, at least 0.5 g")
#define CUP_OUTPUTS(F)                                                                                                   \
    F(gel_time_s, FINITE, "until it no longer flows")                                                                \
    F(fixture_time_s, INFINITE, "until 60 % is cured")                                                               \
    F(peak_temperature_c, FINITE, "highest temperature")                                                             \
    F(peak_time_s, INFINITE, "when it is reached")                                                                   \
    F(film_time_s, FINITE, "gel time of a film that stays at the ambient temperature")                               \
    F(adiabatic_rise_c, FINITE, "by how much it would warm if it kept all its heat")
#define CUP_CAUTIONS(C)                                                                                                  \
    C(WARN, boils, OUT(peak_temperature_c), 1, NO_FIELD, 0, ABOVE, 100, NO_GUARD,                                    \
      "the monomer boils and the cup foams and fumes (a real peak is lower): mix less, spread it, or cool it")       \
    C(WARN, hot, OUT(peak_temperature_c), 1, NO_FIELD, 0, ABOVE, 60, NO_GUARD,                                       \
      "the cup burns hands: do not hold it as it sets")                                                              \
    C(WARN, runaway, IN(mass_g), 1, NO_FIELD, 0, ABOVE, 450, NO_GUARD,                                               \
      "more than is mixed at once, as its heat cannot leave")                                                        \
    C(NOTE, ambient_unit, IN(ambient_c), 1, NO_FIELD, 0, ABOVE, 40, NO_GUARD,                                        \
      "hotter than any barn: is this Fahrenheit?")                                                                   \
    C(NOTE, start_unit, IN(start_c), 1, NO_FIELD, 0, ABOVE, 40, NO_GUARD,                                            \
      "hotter than adhesive is kept: is this Fahrenheit?")
#define CUP_STANDING(S)                                                                                                  \
    S("One temperature for the whole cup: the middle of a deep cup is hotter and sets first.")                       \
    S("Adhesive that sets too fast is left to cool outside, away from people and from anything that burns.")
#define CUP_SOURCES(S)                                                                                               \
    S(MEMORY, "Kamal 1974, Polym Eng Sci 14:231 (both exponents 1), with a lumped heat balance", "the two equations") \
    S(PUBLISHED, "SI Brochure, 9th edition 2019", "the gas constant, 8.31446261815324 J/(mol K)")                    \
    S(PUBLISHED, "Daoutidis, Soroush and Kravaris 1990: 57.8 kJ/mol; molar mass 100.12 g/mol", "577 J for each gram of methyl methacrylate") \
    S(PUBLISHED, "Warner, Shim and Gilbert 2004, 7th World Biomaterials Congress", "75 to 85 % of the monomer react at room temperature") \
    S(CHOICE, "Data-sheet series of acrylics: times halve in 8 to 11 C", "activation energy of 52 kJ/mol, 45 to 62") \
    S(PUBLISHED, "Handbook of Adhesive Technology: about 0.47 L is the largest batch to mix at once", "the mass that is too much")      \
    S(CHOICE, "Share cured from gel to fixture as data sheets' fixture and working times, 1.8 to 2.1 to one", "gel at 0.1, fixture at 0.6")

#define UNG__GAS 8.31446261815324 /* J/(mol K), exact (SI Brochure 2019) */
#define UNG__KELVIN 273.15

/* i e^x beyond which nothing counts: 1e-13 of the heat is left. */
#define UNG__CURED 1e13
/* Error of u and of t that a step may make; tests/published/cup_cvode.c measures what comes of it. */
#define UNG__CUP_RELATIVE 1e-12

/* Temperatures in kelvin. */
typedef struct ung__cup {
    double ambient, above;       /* of the surroundings; the start's above it */
    double rise;                 /* heat over heat capacity */
    double cooling;              /* 1/s */
    double initiation;           /* i */
    double inverse_rate;         /* of x at the reference temperature, s */
    double energy, inverse_base; /* E/R, 1/T_ref */
    double gel, fixture, last;   /* places in x; those not reached lie beyond the last */
    int film;                    /* whether its surroundings hold it */
} ung__cup;

/* States: temperature above the ambient u; in a film, which the surroundings hold so firmly that it cannot run away,
 * its rate du/dt too; and time, the last.  A film's u follows its heat so closely that the small difference of the two,
 * computed from u, would be lost in errors; elsewhere that difference is safe, and the rate would be none. */
enum { UNG__ABOVE, UNG__SLOPE };

/* ---- Kinetics ---- */

/* Where the share a is reached. */
UNG_INLINE double ung__cup_place(double initiation, double a)
{
    return ung__log1p(a * (1 + initiation) / (initiation * (1 - a)));
}

UNG_INLINE double ung__cup_share(const ung__cup *c, double x)
{
    const double grown = ung__expm1(x);
    return c->initiation * grown / (1 + c->initiation * (1 + grown));
}

/* dt/dx. No trial step may leave absolute temperatures. */
UNG_INLINE double ung__cup_slowness(const ung__cup *c, double above)
{
    const double kelvin = ung__max(c->ambient + above, 100);
    return c->inverse_rate * ung__exp(c->energy * (1 / kelvin - c->inverse_base));
}

/* da/dx */
UNG_INLINE double ung__cup_bell(const ung__cup *c, double x)
{
    const double grown = c->initiation * ung__exp(x), sum = 1 + grown;
    return (1 + c->initiation) * grown / (sum * sum);
}

/* du/dt, with dx/dt for a factor where it is no state. */
static inline double ung__cup_warming(const void *context, double x, const double *y)
{
    const ung__cup *c = (const ung__cup *)context;
    const double slow = ung__cup_slowness(c, y[UNG__ABOVE]);
    return c->film ? y[UNG__SLOPE] : c->rise * ung__cup_bell(c, x) - c->cooling * y[UNG__ABOVE] * slow;
}

static inline void ung__cup_rate(const void *context, double x, const double *y, double *f)
{
    const ung__cup *c = (const ung__cup *)context;
    f[1] = ung__cup_slowness(c, y[UNG__ABOVE]);
    f[UNG__ABOVE] = c->rise * ung__cup_bell(c, x) - c->cooling * y[UNG__ABOVE] * f[1];
}

static inline void ung__cup_jacobian(const void *context, double x, const double *y, double (*j)[UNG__STATES_MOST])
{
    const ung__cup *c = (const ung__cup *)context;
    (void)x;
    const double kelvin = ung__max(c->ambient + y[UNG__ABOVE], 100), slow = ung__cup_slowness(c, y[UNG__ABOVE]);
    j[UNG__ABOVE][UNG__ABOVE] = c->cooling * slow * (y[UNG__ABOVE] * c->energy / (kelvin * kelvin) - 1);
}

/* For a film p = du/dt = rise w/S - cooling u, S the slowness, w the bell; differentiated by x, where du/dx = p S and
 * dS/du = -b S, b = E/(R T^2):  dp/dx = rise w'/S + p (rise w b - cooling S). */
static inline void ung__film_rate(const void *context, double x, const double *y, double *f)
{
    const ung__cup *c = (const ung__cup *)context;
    const double kelvin = ung__max(c->ambient + y[UNG__ABOVE], 100), bend = c->energy / (kelvin * kelvin);
    const double grown = c->initiation * ung__exp(x), heat = c->rise * ung__cup_bell(c, x);
    f[2] = ung__cup_slowness(c, y[UNG__ABOVE]);
    f[UNG__ABOVE] = y[UNG__SLOPE] * f[2];
    f[UNG__SLOPE] = heat * (1 - grown) / (1 + grown) / f[2] + y[UNG__SLOPE] * (heat * bend - c->cooling * f[2]);
}

static inline void ung__film_jacobian(const void *context, double x, const double *y, double (*j)[UNG__STATES_MOST])
{
    const ung__cup *c = (const ung__cup *)context;
    const double kelvin = ung__max(c->ambient + y[UNG__ABOVE], 100), bend = c->energy / (kelvin * kelvin);
    const double grown = c->initiation * ung__exp(x), heat = c->rise * ung__cup_bell(c, x);
    const double slow = ung__cup_slowness(c, y[UNG__ABOVE]), p = y[UNG__SLOPE];
    j[UNG__ABOVE][UNG__ABOVE] = -bend * slow * p;
    j[UNG__ABOVE][UNG__SLOPE] = slow;
    const double source = heat * (1 - grown) / (1 + grown) / slow;
    j[UNG__SLOPE][UNG__ABOVE] = bend * (source + p * (c->cooling * slow - 2 * heat / kelvin));
    j[UNG__SLOPE][UNG__SLOPE] = heat * bend - c->cooling * slow;
}

/* Whether the surroundings take up heat at least four times as fast as it could come from being warmer: the bell is at
 * most (1 + i)/4. */
UNG_INLINE int ung__cup_is_film(const ung__cup *c)
{
    const double hot = c->ambient + ung__max(c->above, 0), cold = c->ambient + ung__min(c->above, 0);
    return c->cooling * ung__cup_slowness(c, hot - c->ambient) > (1 + c->initiation) * c->rise * c->energy / (cold * cold);
}

/* ---- The run ---- */

UNG_INLINE double ung__cup_time(const ung__ode *o)
{
    return o->y[o->coupled];
}

/* Errors small against what the temperature does: a film stays within rise/(1 + cooling slowness) of the ambient. */
UNG_INLINE ung__ode ung__cup_begin(const ung__cup *c)
{
    const double slow = ung__cup_slowness(c, 0), first = ung__min(slow, ung__cup_slowness(c, c->above));
    const int coupled = c->film ? 2 : 1;
    ung__ode o = {.states = coupled + 1, .coupled = coupled, .rate = c->film ? ung__film_rate : ung__cup_rate,
                  .jacobian = c->film ? ung__film_jacobian : ung__cup_jacobian, .context = c,
                  .relative = UNG__CUP_RELATIVE};
    const double scale = UNG__CUP_RELATIVE * 0.01 * c->rise / (1 + c->cooling * slow);
    o.y[UNG__ABOVE] = c->above;
    o.absolute[UNG__ABOVE] = scale;
    if (c->film) {
        o.y[UNG__SLOPE] = c->rise * ung__cup_bell(c, 0) / ung__cup_slowness(c, c->above) - c->cooling * c->above;
        o.absolute[UNG__SLOPE] = scale / slow;
    }
    o.absolute[coupled] = UNG__CUP_RELATIVE * 0.1 * c->gel * first;
    return o;
}

/* When it gels. */
static inline double ung__cup_gel_time(const ung__cup *c)
{
    ung__ode o = ung__cup_begin(c);
    while (o.x < c->gel && ung__implicit_step(&o, c->gel)) {
    }
    return ung__cup_time(&o);
}

/* The last step again in so many equal parts, to x; how fast it warms there. */
static inline double ung__cup_again(const ung__ode *o, int parts, double x, ung__ode *q)
{
    *q = *o;
    q->x = o->before_x;
    for (int k = 0; k < o->states; k++)
        q->y[k] = o->before_y[k];
    q->dense_kind = 0;
    for (int k = 1; k <= parts; k++)
        ung__implicit_leap(q, k == parts ? x : o->before_x + (x - o->before_x) * k / parts);
    return ung__cup_warming(o->context, q->x, q->y);
}

/* A peak within the last step.  Its polynomial tells about where; as the ends of steps are far more exact, the step is
 * then taken again, to just there, in ever more parts until that moves the peak no more. */
static inline void ung__cup_peak(const ung__ode *o, double *peak)
{
    const double length = o->x - o->before_x;
    ung__ode q;
    double y[UNG__STATES_MOST], x = ung__ode_event(o, ung__cup_warming, y), f = ung__cup_again(o, 1, x, &q);
    const double beside = x > o->before_x + 0.5 * length ? x - 0.01 * length : x + 0.01 * length;
    double slope = (ung__cup_again(o, 1, beside, &q) - f) / (beside - x);
    for (int parts = 1; parts <= 16; parts *= 2) {
        const double from = x;
        f = parts > 1 ? ung__cup_again(o, parts, x, &q) : f;
        double step = length;
        for (int k = 0; k < 6 && slope < 0 && ung__abs(step) > 1e-10 * x; k++) {
            step = ung__clamp(-f / slope, -0.1 * length, 0.1 * length);
            x += step;
            const double before = f;
            f = ung__cup_again(o, parts, x, &q);
            const double secant = step != 0 ? (f - before) / step : 0;
            slope = ung__abs(step) > 1e-6 * length && secant < 0 ? secant : slope;
        }
        if (parts > 1 && ung__abs(x - from) <= 1e-9 * x)
            break;
    }
    peak[0] = q.y[UNG__ABOVE];
    peak[1] = ung__cup_time(&q);
}

typedef struct ung__cup_course {
    double gel, fixture, peak, peak_time; /* the peak above the ambient */
} ung__cup_course;

static inline ung__cup_course ung__cup_run(const ung__cup *c)
{
    ung__ode o = ung__cup_begin(c);
    ung__cup_course r = {UNG__INFINITY, UNG__INFINITY, c->above, 0};
    int ended = 0;
    while (!ended) {
        const double before = ung__cup_warming(c, o.x, o.y);
        const double gel = o.x < c->gel ? c->gel : c->last, fixture = o.x < c->fixture ? c->fixture : c->last;
        if (!ung__implicit_step(&o, ung__min(ung__min(gel, fixture), c->last)))
            break;
        const double now = ung__cup_warming(c, o.x, o.y);
        r.gel = o.x == c->gel ? ung__cup_time(&o) : r.gel;
        r.fixture = o.x == c->fixture ? ung__cup_time(&o) : r.fixture;
        double peak[2] = {o.y[UNG__ABOVE], ung__cup_time(&o)};
        ended = o.x >= c->last;
        if (before > 0 && now <= 0)
            ung__cup_peak(&o, peak);
        if (((before > 0 && now <= 0) || (ended && now > 0)) && peak[0] > r.peak) {
            r.peak = peak[0];
            r.peak_time = peak[1];
        }
        /* all the heat that is left could not pass the peak any more */
        const double left = c->rise * (ung__cup_share(c, c->last) - ung__cup_share(c, o.x));
        const int past = o.x >= c->gel && (o.x >= c->fixture || c->fixture > c->last);
        ended = ended || (past && r.peak >= 0 && ung__max(o.y[UNG__ABOVE], 0) + left <= r.peak);
    }
    if (r.peak < 0) {
        r.peak = 0;
        r.peak_time = UNG__INFINITY;
    }
    return r;
}

/* ---- The reference ---- */

/* inverse_rate such that the reference gels at the time that is stated.  A film: at once.  A cup, which is faster at
 * the same rate: between that and the rate at which it would gel in time if it kept all its heat. */
static inline double ung__cup_inverse_rate(ung__cup reference, double time, int is_film)
{
    const double film = time / reference.gel;
    reference.inverse_rate = film;
    if (is_film)
        return film;
    reference.film = ung__cup_is_film(&reference);
    ung__cup kept = reference;
    kept.cooling = 0; /* without cooling times are in proportion to the inverse rate */
    double low = ung__log(film), high = low + ung__log(time / ung__cup_gel_time(&kept)), at = low;
    double f_low = ung__log(ung__cup_gel_time(&reference) / time), f_high = UNG__NAN;
    reference.inverse_rate = ung__exp(high);
    f_high = ung__log(ung__cup_gel_time(&reference) / time);
    int side = 0;
    at = f_high <= 0 ? high : at;
    for (int round = 0; round < 60 && f_low < 0 && f_high > 0 && high - low > 1e-13; round++) {
        const double share = round % 8 == 7 ? 0.5 : f_low / (f_low - f_high);
        at = low + share * (high - low);
        reference.inverse_rate = ung__exp(at);
        const double f = ung__log(ung__cup_gel_time(&reference) / time);
        if (ung__abs(f) <= 1e-12)
            break;
        if (f < 0) {
            low = at;
            f_low = f;
            f_high = side == 1 ? f_high / 2 : f_high;
            side = 1;
        } else {
            high = at;
            f_high = f;
            f_low = side == 2 ? f_low / 2 : f_low;
            side = 2;
        }
    }
    return ung__exp(at);
}

/* ---- Fields ---- */

/* cm2 W/(m2 K) over g J/(g K) is 1e-4 1/s. */
UNG_INLINE ung__cup ung__cup_of(const ung_cup_cure_in *in)
{
    const double i = in->initiation_fraction, end = in->final_fraction, most = ung__log(UNG__CURED / i);
    const double base = in->reference_temperature_c + UNG__KELVIN;
    ung__cup c = {.ambient = base, .rise = in->heat_j_g / in->heat_capacity_j_gk, .initiation = i,
                  .energy = 1000 * in->activation_energy_kj / UNG__GAS, .inverse_base = 1 / base};
    c.gel = ung__cup_place(i, in->gel_fraction);
    c.fixture = ung__cup_place(i, 0.6);
    c.last = end < 1 ? ung__min(ung__cup_place(i, end), most) : most;
    const int is_film = !(in->reference_mass_g > 0);
    const double per_mass = 1e-4 * in->exchange_w_m2k / in->heat_capacity_j_gk;
    c.cooling = is_film ? 0 : per_mass * in->reference_surface_cm2 / in->reference_mass_g;
    c.inverse_rate = ung__cup_inverse_rate(c, in->reference_time_s, is_film);
    c.ambient = in->ambient_c + UNG__KELVIN;
    c.above = in->start_c - in->ambient_c;
    c.cooling = per_mass * in->surface_cm2 / in->mass_g;
    c.film = ung__cup_is_film(&c);
    return c;
}

UNG_INLINE double ung__cup_refusal(const ung_cup_cure_in *in)
{
    const double mass = in->reference_mass_g, surface = in->reference_surface_cm2;
    return in->gel_fraction >= in->final_fraction ? 1 : mass > 0 && surface < 1 ? 2 : surface > 0 && mass < 0.5 ? 3 : 0;
}

static inline ung_cup_cure_out ung__cup_results(const ung_cup_cure_in *in, const ung__cup *c)
{
    const ung__cup_course course = ung__cup_run(c);
    ung_cup_cure_out out;
    out.gel_time_s = course.gel;
    out.fixture_time_s = course.fixture;
    out.peak_temperature_c = in->ambient_c + course.peak;
    out.peak_time_s = course.peak_time;
    out.film_time_s = c->gel * ung__cup_slowness(c, 0);
    out.adiabatic_rise_c = in->final_fraction * c->rise;
    return out;
}

#endif
