/* Outlines held against GEOS (a general-purpose geometry library), computed at test time: validity of random polygons,
 * valid and not; area and centroid; the parallel curve at a constant depth.  Says what it compared, fails with the
 * first difference. */
#include <geos_c.h>
#include <math.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <ungula.h>

enum { MOST = 2000 };
static ung_point p[MOST], q[MOST];
static ung_depth depths[MOST]; /* zeros */
static double work[MOST * 7 + 128];
static const size_t room = sizeof work / sizeof *work;

static uint64_t state = 3;
static double unit(void) /* splitmix64 */
{
    uint64_t z = state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return (double)((z ^ (z >> 31)) >> 11) * 0x1p-53;
}

static size_t below(size_t n)
{
    return (size_t)(unit() * (double)n);
}

static void must(int fine, const char *what, ...)
{
    if (fine)
        return;
    va_list arguments;
    va_start(arguments, what);
    vfprintf(stderr, what, arguments);
    va_end(arguments);
    fputc('\n', stderr);
    exit(EXIT_FAILURE);
}

static void quiet(const char *format, ...) /* GEOS tells why a polygon is invalid */
{
    (void)format;
}

static GEOSGeometry *polygon(const ung_point *points, size_t n)
{
    GEOSCoordSequence *sequence = GEOSCoordSeq_create((unsigned)n + 1, 2);
    for (size_t i = 0; i <= n; i++) {
        GEOSCoordSeq_setX(sequence, (unsigned)i, points[i % n].x_mm);
        GEOSCoordSeq_setY(sequence, (unsigned)i, points[i % n].y_mm);
    }
    return GEOSGeom_createPolygon(GEOSGeom_createLinearRing(sequence), NULL, 0);
}

static int same(ung_point a, ung_point b)
{
    return a.x_mm == b.x_mm && a.y_mm == b.y_mm;
}

/* Corners on a small grid (touching is common), on a fine one, or round a center (often valid). */
static size_t random_polygon(void)
{
    size_t n = 3 + below(below(2) ? 8 : 40), kind = below(3), kept = 0;
    double grid = below(2) ? 6 : 1000, away = below(4) ? 0 : 1e5;
    for (size_t i = 0; i < n; i++) {
        double t = 2 * acos(-1) * ((double)i + unit()) / (double)n, r = grid * (0.3 + 0.7 * unit());
        ung_point now = kind ? (ung_point){away + floor(grid * unit()), floor(grid * unit())}
                             : (ung_point){away + floor(r * cos(t)), floor(r * sin(t))};
        if (kept == 0 || !same(p[kept - 1], now)) /* GEOS allows repeated points, we do not */
            p[kept++] = now;
    }
    while (kept > 1 && same(p[kept - 1], p[0]))
        kept--;
    return kept;
}

static void validity_area_centroid(void)
{
    size_t valid = 0, invalid = 0;
    ung_outline_measure_in in = ung_outline_measure_standard();
    for (size_t run = 0; run < 40000; run++) {
        size_t n = random_polygon();
        if (n < 3)
            continue;
        GEOSGeometry *g = polygon(p, n);
        ung_outline_measure_out out;
        ung_fault fault;
        char text[UNG_FAULT_TEXT];
        int ours = ung_outline_measure(&in, p, n, work, room, &out, &fault) == UNG_OK, theirs = GEOSisValid(g) == 1;
        must(ours == theirs, "polygon %zu: GEOS says %s, we say: %s", run, theirs ? "valid" : "invalid",
             ung_fault_text(&fault, text));
        if (ours) {
            double area, x, y;
            GEOSGeometry *center = GEOSGetCentroid(g);
            GEOSArea(g, &area);
            GEOSGeomGetX(center, &x);
            GEOSGeomGetY(center, &y);
            /* coordinates are whole numbers to 1e5: ours is exact, GEOS rounds products of differences */
            must(fabs(out.area_mm2 - area) <= 1e-12 * area, "area %.17g, GEOS %.17g", out.area_mm2, area);
            /* the centroid: a few roundings of moments about its own base point, relative to a thin polygon's area */
            double size = hypot(out.length_mm, out.width_mm);
            double slack = 1e-15 * (fabs(x) + fabs(y) + size * size * size / area);
            must(fabs(out.centroid_x_mm - x) <= 4 * slack && fabs(out.centroid_y_mm - y) <= 4 * slack,
                 "centroid %.17g, %.17g, GEOS %.17g, %.17g", out.centroid_x_mm, out.centroid_y_mm, x, y);
            GEOSGeom_destroy(center);
        }
        valid += (size_t)ours;
        invalid += (size_t)!ours;
        GEOSGeom_destroy(g);
    }
    must(valid > 5000 && invalid > 5000, "only %zu valid and %zu invalid polygons", valid, invalid);
    printf("validity, area, centroid: %zu valid and %zu invalid polygons as GEOS %s\n", valid, invalid, GEOSversion());
}

/* The parallel curve of a smooth outline of n points: both are polygons near the same curve.  Ours errs by the share
 * 6.6/n^2 of the area and as much again for the normals; GEOS simplifies its input by about a hundredth of the depth,
 * which shows as a few 1e-6 of the area.  1e-5 is three times what both together were seen to make. */
static void parallel_curve(void)
{
    const size_t n = MOST;
    for (size_t i = 0; i < n; i++) {
        double t = 2 * acos(-1) * (double)i / (double)n, r = 1 + 0.05 * cos(t) + 0.02 * sin(2 * t);
        p[i] = (ung_point){66 * r * cos(t), 63 * r * sin(t)};
    }
    GEOSGeometry *g = polygon(p, n);
    double original;
    GEOSArea(g, &original);
    for (double depth = -10; depth <= 20; depth += 5) {
        ung_outline_inset_in in = {depth};
        ung_outline_inset_out out;
        must(ung_outline_inset(&in, p, n, depths, n, q, n, work, room, &out, NULL) == UNG_OK, "depth %g is refused",
             depth);
        GEOSGeometry *buffer = GEOSBuffer(g, -depth, 64);
        double area, around;
        GEOSArea(buffer, &area);
        GEOSLength(buffer, &around);
        must(fabs(out.area_mm2 - area) <= 1e-5 * area, "depth %g: area %.10g, GEOS %.10g", depth, out.area_mm2, area);
        must(fabs(out.perimeter_mm - around) <= 1e-5 * around, "depth %g: perimeter %.10g, GEOS %.10g", depth,
             out.perimeter_mm, around);
        printf("depth %g: area %.6f, GEOS %.6f; perimeter %.6f, GEOS %.6f\n", depth, out.area_mm2, area,
               out.perimeter_mm, around);
        GEOSGeom_destroy(buffer);
    }
    GEOSGeom_destroy(g);
}

int main(void)
{
    initGEOS(quiet, quiet);
    validity_area_centroid();
    parallel_curve();
    finishGEOS();
    return 0;
}
