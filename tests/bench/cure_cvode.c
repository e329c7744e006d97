/* Speed of the solver of lib/core/ode.h beside CVODE (SUNDIALS, backward differentiation formulas, analytic Jacobian
 * given) on three cure problems of two states: a mild one, a runaway, and a thin film (Kamal 1974; the constants are
 * invented).  Each solver stops at 20 times and takes the loosest tolerance with which its error there is below 1e-8;
 * reference values of both are the solvers' agreement at the tightest.  One line of JSON a problem, microseconds. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <ungula.h>

#include "core/ode.h"

enum { TIMES = 20, REPEATS = 200 };

typedef struct cure {
    const char *name;
    double a1, a2, rise, cooling, end;
} cure;
static const cure problems[] = {{"mild", 1e5, 1e5, 200, 1e-3, 28800},
                                {"runaway", 1e6, 1e6, 220, 5e-4, 14400},
                                {"thin film", 1e5, 1e5, 200, 2, 28800}};

/* States: share cured, temperature. */
static void rates(const cure *p, double a, double t, double *f, double (*j)[UNG__STATES_MOST])
{
    const double held = ung__clamp(a, 1e-12, 1 - 1e-12);
    const double k1 = p->a1 * ung__exp(-60000 / (8.314462618 * t)), k2 = p->a2 * ung__exp(-50000 / (8.314462618 * t));
    const double am = ung__pow(held, 0.8), left = ung__pow(1 - held, 1.6), sum = k1 + k2 * am;
    if (f) {
        f[0] = sum * left;
        f[1] = p->rise * f[0] - p->cooling * (t - 298.15);
    }
    if (j) {
        j[0][0] = 0.8 * k2 * am / held * left - 1.6 * sum * left / (1 - held);
        j[0][1] = (60000 * k1 + 50000 * k2 * am) / (8.314462618 * t * t) * left;
        j[1][0] = p->rise * j[0][0];
        j[1][1] = p->rise * j[0][1] - p->cooling;
    }
}

static void own_rate(const void *context, double x, const double *y, double *f)
{
    (void)x;
    rates((const cure *)context, y[0], y[1], f, NULL);
}
static void own_jacobian(const void *context, double x, const double *y, double (*j)[UNG__STATES_MOST])
{
    (void)x;
    rates((const cure *)context, y[0], y[1], NULL, j);
}

typedef void solver(const cure *p, double tolerance, double (*result)[2]);

static void with_own(const cure *p, double tolerance, double (*result)[2], int (*step)(ung__ode *, double))
{
    ung__ode o = {.states = 2, .coupled = 2, .rate = own_rate, .jacobian = own_jacobian, .context = p,
                  .relative = tolerance, .absolute = {tolerance * 1e-3, tolerance}, .y = {1e-3, 298.15}};
    for (int k = 0; k < TIMES; k++) {
        while (o.x < p->end * (k + 1) / TIMES && step(&o, p->end * (k + 1) / TIMES)) {
        }
        result[k][0] = o.y[0], result[k][1] = o.y[1];
    }
}
static void implicit(const cure *p, double tolerance, double (*result)[2])
{
    with_own(p, tolerance, result, ung__implicit_step);
}
static void explicit(const cure *p, double tolerance, double (*result)[2])
{
    with_own(p, tolerance, result, ung__explicit_step);
}

static int cvode_rate(realtype t, N_Vector y, N_Vector f, void *data)
{
    (void)t;
    rates((const cure *)data, NV_Ith_S(y, 0), NV_Ith_S(y, 1), NV_DATA_S(f), NULL);
    return 0;
}
static int cvode_jacobian(realtype t, N_Vector y, N_Vector f, SUNMatrix m, void *data, N_Vector a, N_Vector b, N_Vector c)
{
    (void)t, (void)f, (void)a, (void)b, (void)c;
    double j[2][UNG__STATES_MOST];
    rates((const cure *)data, NV_Ith_S(y, 0), NV_Ith_S(y, 1), NULL, j);
    for (int i = 0; i < 2; i++)
        for (int k = 0; k < 2; k++)
            SM_ELEMENT_D(m, i, k) = j[i][k];
    return 0;
}

static void cvode(const cure *p, double tolerance, double (*result)[2])
{
    static SUNContext context; /* all of it made once, so that the time is that of the steps */
    static N_Vector y, absolute;
    static SUNMatrix matrix;
    static SUNLinearSolver linear;
    static void *memory;
    if (!context) {
        if (SUNContext_Create(NULL, &context))
            exit(EXIT_FAILURE);
        y = N_VNew_Serial(2, context);
        absolute = N_VNew_Serial(2, context);
        matrix = SUNDenseMatrix(2, 2, context);
        linear = SUNLinSol_Dense(y, matrix, context);
        memory = CVodeCreate(CV_BDF, context);
        NV_Ith_S(y, 0) = 1e-3, NV_Ith_S(y, 1) = 298.15;
        CVodeInit(memory, cvode_rate, 0, y);
        CVodeSetLinearSolver(memory, linear, matrix);
        CVodeSetJacFn(memory, cvode_jacobian);
        CVodeSetMaxNumSteps(memory, 1000000);
    }
    NV_Ith_S(y, 0) = 1e-3, NV_Ith_S(y, 1) = 298.15;
    NV_Ith_S(absolute, 0) = tolerance * 1e-3, NV_Ith_S(absolute, 1) = tolerance;
    CVodeReInit(memory, 0, y);
    CVodeSetUserData(memory, (void *)(uintptr_t)p);
    CVodeSVtolerances(memory, tolerance, absolute);
    double t;
    for (int k = 0; k < TIMES; k++) {
        if (CVode(memory, p->end * (k + 1) / TIMES, y, &t, CV_NORMAL) < 0)
            exit(EXIT_FAILURE);
        result[k][0] = NV_Ith_S(y, 0), result[k][1] = NV_Ith_S(y, 1);
    }
}

static double error_of(double (*result)[2], double (*wanted)[2])
{
    double worst = 0;
    for (int k = 0; k < TIMES; k++)
        worst = fmax(fmax(fabs(result[k][0] - wanted[k][0]), fabs(result[k][1] / wanted[k][1] - 1)), worst);
    return worst;
}

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e6 + (double)t.tv_nsec * 1e-3;
}

int main(void)
{
    solver *const all[] = {implicit, explicit, cvode};
    static const char *const names[] = {"implicit", "explicit", "cvode"};
    for (size_t i = 0; i < sizeof problems / sizeof *problems; i++) {
        const cure *p = problems + i;
        double wanted[TIMES][2], result[TIMES][2], best[3];
        implicit(p, 1e-13, wanted);
        cvode(p, 1e-13, result);
        printf("{\"problem\": \"%s\", \"references_differ\": %.1e", p->name, error_of(result, wanted));
        for (int s = 0; s < 3; s++) {
            const int repeats = s == 1 && i == 2 ? 5 : REPEATS; /* what stability makes slow */
            double tolerance = 1e-5, error = 1;
            for (; tolerance > 1e-14; tolerance /= 1.7782794100389228) {
                all[s](p, tolerance, result);
                error = error_of(result, wanted);
                if (error <= 1e-8)
                    break;
            }
            best[s] = 1e300;
            for (int k = 0; k < repeats; k++) {
                const double begin = now();
                all[s](p, tolerance, result);
                best[s] = fmin(now() - begin, best[s]);
            }
            printf(", \"%s\": %.1f, \"%s_tolerance\": %.1e", names[s], best[s], names[s], tolerance);
        }
        printf(", \"cvode_over_best\": %.1f}\n", best[2] / fmin(best[0], best[1]));
    }
    return 0;
}
