/* Speed of cup_cure beside CVODE (SUNDIALS: backward differentiation formulas, analytic Jacobian given, its own root
 * finding), which looks for the same: when the cup gels and is fixed, its peak, and when that is.  Three cups with the
 * heating and cooling of cure_cvode.c's problems; the numbers are invented.  CVODE is measured at a tolerance of 1e-8,
 * and at the loosest tolerance with which its results really are within 1e-8, as those of cup_cure are: of all four,
 * and without the time of the peak, which is flat in a film.  One line of JSON a cup, microseconds; errors are those
 * against CVODE at 1e-13, with the share left as a third state, which keeps it exact. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <ungula.h>

enum { REPEATS = 100 };

typedef struct cup {
    const char *name;
    double mass_g, surface_cm2, exchange_w_m2k, reference_time_s, heat_j_g;
} cup;
/* Rise 200, 220, 200 C; cooling 0.001, 0.0005, 2 in a second. */
static const cup cups[] = {{"mild", 100, 150, 10, 11300, 300},
                           {"runaway", 100, 75, 10, 1130, 330},
                           {"thin film", 10, 600, 500, 11300, 300}};

static ung_cup_cure_in input_of(const cup *c)
{
    ung_cup_cure_in in = ung_cup_cure_standard();
    in.mass_g = c->mass_g;
    in.surface_cm2 = c->surface_cm2;
    in.exchange_w_m2k = c->exchange_w_m2k;
    in.ambient_c = in.start_c = in.reference_temperature_c = 25;
    in.reference_time_s = c->reference_time_s;
    in.heat_j_g = c->heat_j_g;
    in.heat_capacity_j_gk = 1.5;
    in.initiation_fraction = 0.0177; /* as the two rates of those problems at 25 C */
    return in;
}

/* ---- The two equations, over time ---- */

typedef struct model {
    double k_ref, energy, base, initiation, rise, cooling, gel;
    int no_peak; /* not looked for any more */
} model;

static model model_of(const ung_cup_cure_in *in)
{
    const double i = in->initiation_fraction, gel = in->gel_fraction;
    return (model){log((i + gel) / (i * (1 - gel))) / ((1 + i) * in->reference_time_s),
                   1000 * in->activation_energy_kj / 8.31446261815324, in->ambient_c + 273.15, i,
                   in->heat_j_g / in->heat_capacity_j_gk,
                   1e-4 * in->exchange_w_m2k * in->surface_cm2 / (in->mass_g * in->heat_capacity_j_gk), gel, 0};
}

enum { CURED, ABOVE, LEFT };

static double speed(const model *m, double above)
{
    return m->k_ref * exp(-m->energy * (1 / (m->base + above) - 1 / m->base));
}

static double left_of(N_Vector y)
{
    return NV_LENGTH_S(y) > LEFT ? NV_Ith_S(y, LEFT) : 1 - NV_Ith_S(y, CURED);
}

static int rate(realtype t, N_Vector y, N_Vector f, void *data)
{
    (void)t;
    const model *m = (const model *)data;
    const double above = NV_Ith_S(y, ABOVE);
    const double r = speed(m, above) * (m->initiation + NV_Ith_S(y, CURED)) * left_of(y);
    NV_Ith_S(f, CURED) = r;
    NV_Ith_S(f, ABOVE) = m->rise * r - m->cooling * above;
    if (NV_LENGTH_S(y) > LEFT)
        NV_Ith_S(f, LEFT) = -r;
    return 0;
}

static int jacobian(realtype t, N_Vector y, N_Vector f, SUNMatrix j, void *data, N_Vector v1, N_Vector v2,
                    N_Vector v3)
{
    (void)t, (void)f, (void)v1, (void)v2, (void)v3;
    const model *m = (const model *)data;
    const int n = (int)NV_LENGTH_S(y);
    const double above = NV_Ith_S(y, ABOVE), kelvin = m->base + above, k = speed(m, above), b = left_of(y);
    const double sum = m->initiation + NV_Ith_S(y, CURED);
    const double by[3] = {n > LEFT ? k * b : k * (b - sum), k * sum * b * m->energy / (kelvin * kelvin), k * sum};
    for (int i = 0; i < n; i++) {
        SM_ELEMENT_D(j, CURED, i) = by[i];
        SM_ELEMENT_D(j, ABOVE, i) = m->rise * by[i] - (i == ABOVE ? m->cooling : 0);
        if (n > LEFT)
            SM_ELEMENT_D(j, LEFT, i) = -by[i];
    }
    return 0;
}

enum { GEL, FIXTURE, PEAK, ROOTS };

static int roots(realtype t, N_Vector y, realtype *g, void *data)
{
    (void)t;
    const model *m = (const model *)data;
    const double above = NV_Ith_S(y, ABOVE);
    g[GEL] = NV_Ith_S(y, CURED) - m->gel;
    g[FIXTURE] = NV_Ith_S(y, CURED) - 0.6;
    const double r = speed(m, above) * (m->initiation + NV_Ith_S(y, CURED)) * left_of(y);
    g[PEAK] = m->no_peak ? 1 : m->rise * r - m->cooling * above;
    return 0;
}

/* ---- CVODE, made once, so that the time is that of its steps ---- */

typedef struct solver {
    int states;
    SUNContext context;
    N_Vector y, absolute;
    SUNMatrix matrix;
    SUNLinearSolver linear;
    void *memory;
} solver;

static void must(int fine)
{
    if (!fine) {
        fputs("cup_cvode: CVODE gives up\n", stderr);
        exit(EXIT_FAILURE);
    }
}

static solver begin(int states)
{
    static const int ways[ROOTS] = {1, 1, -1};
    solver s = {.states = states};
    must(SUNContext_Create(NULL, &s.context) == 0);
    s.y = N_VNew_Serial(states, s.context);
    s.absolute = N_VNew_Serial(states, s.context);
    s.matrix = SUNDenseMatrix(states, states, s.context);
    s.linear = SUNLinSol_Dense(s.y, s.matrix, s.context);
    s.memory = CVodeCreate(CV_BDF, s.context);
    N_VConst(0, s.y);
    CVodeSetErrFile(s.memory, NULL); /* told by its returns */
    must(CVodeInit(s.memory, rate, 0, s.y) == 0 && CVodeSetLinearSolver(s.memory, s.linear, s.matrix) == 0 &&
         CVodeSetJacFn(s.memory, jacobian) == 0 && CVodeSetMaxNumSteps(s.memory, 1000000) == 0 &&
         CVodeRootInit(s.memory, ROOTS, roots) == 0 && CVodeSetRootDirection(s.memory, (int *)(uintptr_t)ways) == 0);
    return s;
}

static void end(solver *s)
{
    CVodeFree(&s->memory);
    SUNLinSolFree(s->linear);
    SUNMatDestroy(s->matrix);
    N_VDestroy(s->absolute);
    N_VDestroy(s->y);
    SUNContext_Free(&s->context);
}

typedef struct results {
    double gel, fixture, peak, peak_time;
} results;

/* In a film the slope of the temperature is a small difference, which errors carry through 0 again and again near the
 * peak: the hottest of these places counts, and where they lie too near each other for CVODE it looks no further. */
static results with_cvode(solver *s, const model *of, double tolerance)
{
    model m = *of;
    results r = {0};
    N_VConst(0, s->y);
    NV_Ith_S(s->absolute, CURED) = tolerance * 1e-3;
    NV_Ith_S(s->absolute, ABOVE) = tolerance * 1e-3 * m.rise / (1 + m.cooling / m.k_ref); /* what a film warms by */
    if (s->states > LEFT) {
        NV_Ith_S(s->y, LEFT) = 1;
        NV_Ith_S(s->absolute, LEFT) = tolerance * 1e-6;
    }
    CVodeReInit(s->memory, 0, s->y);
    CVodeSetUserData(s->memory, &m);
    CVodeSVtolerances(s->memory, tolerance, s->absolute);
    while (!(r.gel > 0 && r.fixture > 0 && r.peak > 0)) {
        double t;
        int which[ROOTS];
        if (CVode(s->memory, 1e6, s->y, &t, CV_NORMAL) != CV_ROOT_RETURN) {
            must(!m.no_peak && r.peak > 0);
            m.no_peak = 1;
            continue;
        }
        CVodeGetRootInfo(s->memory, which);
        r.gel = which[GEL] ? t : r.gel;
        r.fixture = which[FIXTURE] ? t : r.fixture;
        const double kelvin = NV_Ith_S(s->y, ABOVE) + m.base;
        if (which[PEAK] && kelvin > r.peak) {
            r.peak = kelvin;
            r.peak_time = t;
        }
    }
    return r;
}

/* ---- Measured ---- */

static double off(double got, double wanted)
{
    return fabs(got / wanted - 1);
}

static double error_of(const results *r, const results *wanted, int with_peak_time)
{
    double worst = fmax(off(r->gel, wanted->gel), off(r->fixture, wanted->fixture));
    worst = fmax(off(r->peak, wanted->peak), worst);
    return with_peak_time ? fmax(off(r->peak_time, wanted->peak_time), worst) : worst;
}

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e6 + (double)t.tv_nsec * 1e-3;
}

static double time_cvode(solver *s, const model *m, double tolerance)
{
    double best = INFINITY;
    for (int k = 0; k < REPEATS; k++) {
        const double begun = now();
        with_cvode(s, m, tolerance);
        best = fmin(now() - begun, best);
    }
    return best;
}

/* The loosest tolerance within 1e-8, in steps of a fourth of a power of ten; 0 if there is none. */
static double loosest(solver *s, const model *m, const results *wanted, int with_peak_time)
{
    for (double tolerance = 1e-5; tolerance > 1e-14; tolerance /= 1.7782794100389228) {
        const results r = with_cvode(s, m, tolerance);
        if (error_of(&r, wanted, with_peak_time) <= 1e-8)
            return tolerance;
    }
    return 0;
}

int main(void)
{
    solver two = begin(2), three = begin(3);
    for (size_t k = 0; k < sizeof cups / sizeof *cups; k++) {
        const ung_cup_cure_in in = input_of(cups + k);
        const model m = model_of(&in);
        ung_cup_cure_out out;
        double own = INFINITY;
        for (int again = 0; again < REPEATS; again++) {
            const double begun = now();
            if (ung_cup_cure(&in, &out, NULL))
                return EXIT_FAILURE;
            own = fmin(now() - begun, own);
        }
        const results wanted = with_cvode(&three, &m, 1e-13), nominal = with_cvode(&two, &m, 1e-8);
        const results ours = {out.gel_time_s, out.fixture_time_s, out.peak_temperature_c + 273.15, out.peak_time_s};
        const double theirs = time_cvode(&two, &m, 1e-8);
        printf("{\"cup\": \"%s\", ", cups[k].name);
        const double *value = (const double *)&in;
        for (size_t j = 0; j < sizeof in / sizeof *value; j++)
            printf("\"%s\": %.17g, ", ung_input(ung_cup_cure_contract(), j)->name, value[j]);
        printf("\"wanted\": [%.17g, %.17g, %.17g, %.17g], ", wanted.gel, wanted.fixture, wanted.peak, wanted.peak_time);
        printf("\"own\": %.1f, \"own_error\": %.1e, \"cvode\": %.1f, \"cvode_error\": %.1e, "
               "\"cvode_over_own\": %.1f",
               own, error_of(&ours, &wanted, 1), theirs, error_of(&nominal, &wanted, 1), theirs / own);
        for (int all = 0; all < 2; all++) {
            const double tolerance = loosest(&two, &m, &wanted, all);
            const char *which = all ? "exact" : "exact_without_peak_time";
            printf(", \"%s_tolerance\": %.1e", which, tolerance);
            if (tolerance > 0) {
                const double exact = time_cvode(&two, &m, tolerance);
                printf(", \"%s\": %.1f, \"%s_over_own\": %.1f", which, exact, which, exact / own);
            }
        }
        printf("}\n");
    }
    end(&two);
    end(&three);
    return EXIT_SUCCESS;
}
