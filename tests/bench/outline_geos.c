/* Speed of the outline calculations beside GEOS, in one run: one line of JSON for each number of points.
 *
 * Outline: x = 900 r cos t, y = 250 r sin t, r = 1 + 0.08 cos 3t + 0.03 sin 5t + 0.01 cos 11t.  Times are the best of
 * several turns, in microseconds; ours and theirs take turns, so that a slow moment of the machine meets them alike.
 * "area", "validity" and "move" are the bare tasks; "measure" and "inset" are whole calls, with every test of the
 * points and of the outline.  GEOS gets its geometry ready made.  Then the growth for outlines that are hard to test
 * (spirals, combs): time for twice as many points over the time, and the same for the sweep alone. */
#include <geos_c.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <ungula.h>

#include "shape/polygon.h"

/* Of this process alone, so that a busy machine counts less. */
static double now_us(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec * 1e6 + (double)t.tv_nsec * 1e-3;
}

static void check(int fine, const char *what)
{
    if (!fine) {
        fprintf(stderr, "%s failed\n", what);
        exit(EXIT_FAILURE);
    }
}

static void *memory(size_t size)
{
    void *p = malloc(size);
    check(p != NULL, "malloc");
    return p;
}

static void fourier(ung_point *p, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        double t = 2 * acos(-1) * (double)i / (double)n;
        double r = 1 + 0.08 * cos(3 * t) + 0.03 * sin(5 * t) + 0.01 * cos(11 * t);
        p[i] = (ung_point){900 * r * cos(t), 250 * r * sin(t)};
    }
}

/* A band wound up: out along a spiral, back half a turn's width beside it. */
static void spiral(ung_point *p, size_t n, double points_a_turn)
{
    for (size_t i = 0, half = n / 2; i < n; i++) {
        size_t j = i < half ? i : n - 1 - i;
        double turns = 2 * (double)j / points_a_turn, radius = 10 + turns + (i < half ? 0 : 0.5);
        p[i] = (ung_point){radius * cos(2 * acos(-1) * turns), radius * sin(2 * acos(-1) * turns)};
    }
}

/* Long teeth, the whole turned so that no box tells one from the next (or not turned). */
static void comb(ung_point *p, size_t n, double cosine, double sine)
{
    for (size_t i = 0; i < n; i++) {
        double x = (double)i, y = i % 2 ? 100 * (double)n : 0;
        if (i >= n - 2) {
            x = i == n - 2 ? (double)n : -1;
            y = -2;
        }
        p[i] = (ung_point){cosine * x - sine * y, sine * x + cosine * y};
    }
}

static GEOSGeometry *polygon(const ung_point *p, size_t n)
{
    GEOSCoordSequence *points = GEOSCoordSeq_create((unsigned)n + 1, 2);
    for (size_t i = 0; i <= n; i++) {
        GEOSCoordSeq_setX(points, (unsigned)i, p[i % n].x_mm);
        GEOSCoordSeq_setY(points, (unsigned)i, p[i % n].y_mm);
    }
    return GEOSGeom_createPolygon(GEOSGeom_createLinearRing(points), NULL, 0);
}

enum { AREA, GEOS_AREA, SIMPLE, GEOS_VALID, MEASURE, INSET, GEOS_BUFFER, WHOLE, TASKS };
static const char *const name[TASKS] = {"area",    "geos_area", "validity",    "geos_validity",
                                        "measure", "inset",     "geos_buffer", "measure_and_inset"};

static void beside_geos(size_t n)
{
    ung_point *p = memory(n * sizeof *p), *moved = memory(n * sizeof *moved);
    ung_depth *depths = memory(n * sizeof *depths);
    size_t room = ung_workspace(ung_outline_inset_contract(), n);
    double *work = memory(room * sizeof *work);
    fourier(p, n);
    memset(depths, 0, n * sizeof *depths);
    GEOSGeometry *g = polygon(p, n);
    ung_outline_measure_in measure = ung_outline_measure_standard();
    ung_outline_inset_in inset = ung_outline_inset_standard();
    inset.depth_mm = 5;
    ung_outline_measure_out measured;
    ung_outline_inset_out moved_out;
    double best[TASKS];
    for (int k = 0; k < TASKS; k++)
        best[k] = HUGE_VAL;
    int repeats = n >= 10000 ? 1 : (int)(10000 / n);
    for (int turn = 0; turn < 60; turn++)
        for (int k = 0; k < TASKS; k++) {
            if (k == GEOS_BUFFER && turn > 10)
                continue;
            double start = now_us();
            for (int r = 0; r < repeats; r++) {
                double area, around;
                size_t meet[2];
                GEOSGeometry *buffer;
                switch (k) {
                case AREA: ung__polygon_area((const double *)p, n, &area, &around); break;
                case GEOS_AREA: check(GEOSArea(g, &area), "GEOSArea"); break;
                case SIMPLE: check(ung__simple((const double *)p, n, work, meet), "ung__simple"); break;
                case GEOS_VALID: check(GEOSisValid(g) == 1, "GEOSisValid"); break;
                case WHOLE:
                case MEASURE:
                    check(ung_outline_measure(&measure, p, n, work, room, &measured, NULL) == UNG_OK, "measure");
                    if (k == MEASURE)
                        break; /* fall through */
                case INSET:
                    check(ung_outline_inset(&inset, p, n, depths, n, moved, n, work, room, &moved_out, NULL) == UNG_OK,
                          "inset");
                    break;
                case GEOS_BUFFER:
                    buffer = GEOSBuffer(g, -5, 8);
                    check(buffer != NULL, "GEOSBuffer");
                    GEOSGeom_destroy(buffer);
                    break;
                default: break;
                }
            }
            double time = (now_us() - start) / repeats;
            best[k] = time < best[k] ? time : best[k];
        }
    printf("{\"points\": %zu", n);
    for (int k = 0; k < TASKS; k++)
        printf(", \"%s_us\": %.2f", name[k], best[k]);
    printf(", \"geos_over_area\": %.2f, \"geos_over_validity\": %.2f, \"geos_over_inset\": %.1f}\n",
           best[GEOS_AREA] / best[AREA], best[GEOS_VALID] / best[SIMPLE], best[GEOS_BUFFER] / best[INSET]);
    GEOSGeom_destroy(g);
    free(work);
    free(depths);
    free(moved);
    free(p);
}

static void growth(const char *shape, int kind)
{
    double before[2] = {0, 0};
    printf("{\"shape\": \"%s\"", shape);
    for (size_t n = 25000; n <= 200000; n *= 2) {
        ung_point *p = memory(n * sizeof *p);
        double *work = memory((UNG_SIMPLE_WORK * n + UNG_SIMPLE_MORE) * sizeof *work), best[2] = {HUGE_VAL, HUGE_VAL};
        if (kind < 2)
            spiral(p, n, kind == 0 ? 64 : 400);
        else
            comb(p, n, kind == 2 ? 1 : 0.8, kind == 2 ? 0 : 0.6);
        for (int turn = 0; turn < 25; turn++)
            for (int sweep = 0; sweep < 2; sweep++) {
                size_t meet[2];
                double start = now_us();
                check(sweep ? ung__simple_within((const double *)p, n, work, 0, meet)
                            : ung__simple((const double *)p, n, work, meet),
                      shape);
                double time = now_us() - start;
                best[sweep] = time < best[sweep] ? time : best[sweep];
            }
        printf(", \"%zu\": {\"us\": %.0f, \"sweep_us\": %.0f", n, best[0], best[1]);
        if (before[0] > 0)
            printf(", \"growth\": %.2f, \"sweep_growth\": %.2f", best[0] / before[0], best[1] / before[1]);
        printf("}");
        before[0] = best[0];
        before[1] = best[1];
        free(work);
        free(p);
    }
    printf("}\n");
}

int main(void)
{
    initGEOS(NULL, NULL);
    printf("{\"geos\": \"%s\"}\n", GEOSversion());
    for (size_t n = 100; n <= 10000; n *= 10)
        beside_geos(n);
    growth("spiral of 64 points a turn", 0);
    growth("spiral of 400 points a turn", 1);
    growth("comb", 2);
    growth("comb turned", 3);
    finishGEOS();
    return 0;
}
