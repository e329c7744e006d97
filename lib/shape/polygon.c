/* Geometry of traced outlines: what each function is for is told in polygon.h. */
#include "shape/polygon.h"

#include "core/quadrature.h"

enum { BLOCK = UNG_TRACE_BLOCK };

/* Points begin - 1 to begin + BLOCK of the closed outline, from an origin; behind the last edge its end repeats. */
typedef struct block {
    double x[BLOCK + 2], y[BLOCK + 2];
    size_t count; /* edges that begin here, rounded up to whole lanes */
} block;

UNG_INLINE void load(block *b, const double *points, size_t n, size_t begin, double x0, double y0)
{
    const size_t left = n - begin, edges = left < BLOCK ? left : BLOCK;
    const double *before = points + 2 * (begin == 0 ? n - 1 : begin - 1), *p = points + 2 * begin;
    b->x[0] = before[0] - x0;
    b->y[0] = before[1] - y0;
    for (size_t i = 0; i < edges; i++) {
        b->x[i + 1] = p[2 * i] - x0;
        b->y[i + 1] = p[2 * i + 1] - y0;
    }
    const double *after = left > BLOCK ? p + 2 * BLOCK : points;
    b->count = (edges + UNG_LANES - 1) / UNG_LANES * UNG_LANES;
    for (size_t i = edges; i <= b->count; i++) {
        b->x[i + 1] = after[0] - x0;
        b->y[i + 1] = after[1] - y0;
    }
}

UNG_INLINE double highest(const double lane[UNG_LANES])
{
    double most = lane[0];
    for (size_t k = 1; k < UNG_LANES; k++)
        most = ung__max(most, lane[k]);
    return most;
}

/* Adds the sum of eight accumulators, keeping what rounding takes. */
UNG_INLINE void add_lanes(ung__two *sum, const double lane[UNG_LANES])
{
    const ung__two two = ung__add(sum->hi, ung__tree_sum(lane));
    sum->hi = two.hi;
    sum->lo += two.lo;
}

/* Area: half the sum of p x e, e the edge, p its beginning from the first point (Green's theorem).  In this form each
 * term rounds relative to |p||e|, not to |p|^2. */
void ung__polygon_area(const double *points, size_t n, double *area, double *perimeter)
{
    ung__two twice = {0, 0}, around = {0, 0};
    block b;
    for (size_t begin = 0; begin < n; begin += BLOCK) {
        load(&b, points, n, begin, points[0], points[1]);
        double cross[UNG_LANES] = {0}, length[UNG_LANES] = {0};
        for (size_t i = 1; i <= b.count; i += UNG_LANES)
#pragma omp simd
            for (size_t k = 0; k < UNG_LANES; k++) {
                const double x = b.x[i + k], y = b.y[i + k], u = b.x[i + k + 1] - x, v = b.y[i + k + 1] - y;
                cross[k] += x * v - y * u;
                length[k] += ung__sqrt(u * u + v * v);
            }
        add_lanes(&twice, cross);
        add_lanes(&around, length);
    }
    *area = (twice.hi + twice.lo) / 2;
    *perimeter = around.hi + around.lo;
}

ung__moments ung__polygon_moments(const double *points, size_t n)
{
    ung__two sum[7] = {{0, 0}};
    block b;
    for (size_t begin = 0; begin < n; begin += BLOCK) {
        load(&b, points, n, begin, points[0], points[1]);
        double lane[7][UNG_LANES] = {{0}};
        for (size_t i = 1; i <= b.count; i += UNG_LANES)
#pragma omp simd
            for (size_t k = 0; k < UNG_LANES; k++) {
                const double x = b.x[i + k], y = b.y[i + k], x1 = b.x[i + k + 1], y1 = b.y[i + k + 1];
                const double u = x1 - x, v = y1 - y, c = x * v - y * u;
                lane[0][k] += c;
                lane[1][k] += c * (x + x1);
                lane[2][k] += c * (y + y1);
                lane[3][k] += c * (y * y + y1 * (y + y1));
                lane[4][k] += c * (x * x + x1 * (x + x1));
                lane[5][k] += c * (x * (y1 + 2 * y) + x1 * (y + 2 * y1));
                lane[6][k] += ung__sqrt(u * u + v * v);
            }
        for (int j = 0; j < 7; j++)
            add_lanes(&sum[j], lane[j]);
    }
    double s[7];
    for (int j = 0; j < 7; j++)
        s[j] = sum[j].hi + sum[j].lo;
    return (ung__moments){s[0] / 2, s[1] / 6, s[2] / 6, s[3] / 12, s[4] / 12, s[5] / 24, s[6]};
}

ung__extent ung__polygon_extent(const double *points, size_t n, double cosine, double sine)
{
    double ahead_low[UNG_LANES] = {0}, ahead_high[UNG_LANES] = {0};
    double left_low[UNG_LANES] = {0}, left_high[UNG_LANES] = {0};
    block b;
    for (size_t begin = 0; begin < n; begin += BLOCK) {
        load(&b, points, n, begin, points[0], points[1]);
        for (size_t i = 1; i <= b.count; i += UNG_LANES)
#pragma omp simd
            for (size_t k = 0; k < UNG_LANES; k++) {
                const double ahead = b.x[i + k] * cosine + b.y[i + k] * sine;
                const double left = b.y[i + k] * cosine - b.x[i + k] * sine;
                ahead_low[k] = ung__min(ahead, ahead_low[k]);
                ahead_high[k] = ung__max(ahead, ahead_high[k]);
                left_low[k] = ung__min(left, left_low[k]);
                left_high[k] = ung__max(left, left_high[k]);
            }
    }
    ung__extent e = {ahead_low[0], ahead_high[0], left_low[0], left_high[0], 0};
    for (int k = 1; k < UNG_LANES; k++) {
        e.ahead_low = ung__min(e.ahead_low, ahead_low[k]);
        e.ahead_high = ung__max(e.ahead_high, ahead_high[k]);
        e.left_low = ung__min(e.left_low, left_low[k]);
        e.left_high = ung__max(e.left_high, left_high[k]);
    }
    const double near = UNG__OUTERMOST_SHARE * (e.left_high - e.left_low);
    const double low = e.left_low + near, high = e.left_high - near;
    double on_left[2] = {e.ahead_high, e.ahead_low}, on_right[2] = {e.ahead_high, e.ahead_low};
    for (size_t i = 0; i < n; i++) {
        const double x = points[2 * i] - points[0], y = points[2 * i + 1] - points[1];
        const double left = y * cosine - x * sine;
        if (left > low && left < high)
            continue;
        const double ahead = x * cosine + y * sine;
        double *range = left >= high ? on_left : on_right;
        range[0] = ung__min(range[0], ahead);
        range[1] = ung__max(range[1], ahead);
    }
    e.widest = ((on_left[0] + on_left[1]) + (on_right[0] + on_right[1])) / 4;
    return e;
}

UNG_INLINE double same_point(const double *a, const double *b)
{
    return ung__max(ung__abs(a[0] - b[0]), ung__abs(a[1] - b[1])) < UNG__SAME_POINT_MM ? 1 : 0;
}

ung__polygon ung__polygon_of(const ung_rows *rows, double *work, ung__where *where)
{
    const double *p = rows->data;
    ung__polygon t = {p, rows->count, 0, 1, 0, 0};
    double repeats = 0;
#pragma omp simd reduction(+ : repeats) /* whole numbers: any order gives the same */
    for (size_t i = 1; i < t.n; i++)
        repeats += same_point(p + 2 * i - 2, p + 2 * i);
    if (repeats > 0) {
        size_t i = 1;
        while (same_point(p + 2 * i - 2, p + 2 * i) == 0)
            i++;
        where->refusal = TRACE_REPEATS;
        where->row = (double)i;
        where->other_row = (double)(i - 1);
        return t;
    }
    t.repeated = same_point(p, p + 2 * (t.n - 1));
    t.n -= t.repeated != 0;
    if (t.n < 3) {
        where->refusal = TRACE_SHORT;
        return t;
    }
    size_t meet[2];
    if (work && !ung__simple(p, t.n, work, meet)) {
        where->refusal = TRACE_MEETS;
        where->row = (double)meet[0];
        where->other_row = (double)meet[1];
        return t;
    }
    ung__polygon_area(p, t.n, &t.area, &t.perimeter);
    t.turn = t.area < 0 ? -1 : 1;
    if (t.area == 0)
        where->refusal = TRACE_FLAT;
    t.area *= t.turn;
    return t;
}

/* ---- Along the outline, counterclockwise from the first point ---- */

/* The point that so many edges counterclockwise from the first one lead to. */
static const double *point_after(const ung__polygon *trace, size_t edges)
{
    const size_t i = edges >= trace->n ? 0 : edges;
    return trace->points + 2 * (trace->turn > 0 || i == 0 ? i : trace->n - i);
}

static void look(ung__walk *walk)
{
    walk->from = point_after(walk->trace, walk->edge);
    walk->to = point_after(walk->trace, walk->edge + 1);
    walk->length = ung__hypot(walk->to[0] - walk->from[0], walk->to[1] - walk->from[1]);
}

ung__walk ung__walk_start(const ung__polygon *trace)
{
    ung__walk walk = {.trace = trace};
    look(&walk);
    return walk;
}

static void step(ung__walk *walk)
{
    const ung__two sum = ung__add(walk->begin.hi, walk->length);
    walk->begin = ung__add_small(sum.hi, sum.lo + walk->begin.lo);
    walk->edge++;
    look(walk);
}

double ung__walk_to(ung__walk *walk, double place)
{
    while (walk->edge + 1 < walk->trace->n && (place - walk->begin.hi) - walk->begin.lo >= walk->length)
        step(walk);
    return ung__clamp(((place - walk->begin.hi) - walk->begin.lo) / walk->length, 0, 1);
}

double ung__polygon_outermost(const ung__polygon *trace, double cosine, double sine)
{
    const double *p0 = trace->points;
    const ung__extent e = ung__polygon_extent(p0, trace->n, cosine, sine);
    const double high = e.ahead_high - UNG__OUTERMOST_SHARE * (e.ahead_high - e.ahead_low);
    double first = -1, last = 0, gap = 0, gap_end = 0;
    ung__walk walk = ung__walk_start(trace);
    for (;; step(&walk)) {
        if ((walk.from[0] - p0[0]) * cosine + (walk.from[1] - p0[1]) * sine >= high) {
            const double place = walk.begin.hi;
            if (first < 0) {
                first = place;
            } else if (place - last > gap) {
                gap = place - last;
                gap_end = place;
            }
            last = place;
        }
        if (walk.edge + 1 == trace->n)
            break;
    }
    const double round_gap = (trace->perimeter - last) + first;
    const int inside = round_gap < gap; /* the greatest gap does not hold the first point */
    const double middle = inside ? gap_end + (trace->perimeter - gap) / 2 : first + (last - first) / 2;
    return middle >= trace->perimeter ? middle - trace->perimeter : middle;
}

/* ---- Normals ---- */

UNG_INLINE ung__bend bend_of(double ux, double uy, double vx, double vy, double turn)
{
    const double uu = ux * ux + uy * uy, vv = vx * vx + vy * vy;
    const double tx = ux * vv + vx * uu, ty = uy * vv + vy * uu, tt = tx * tx + ty * ty;
    const double inverse = turn / ung__sqrt(tt > 0 ? tt : 1);
    return (ung__bend){ty * inverse, -(tx * inverse), 2 * (ux * vy - uy * vx) * inverse};
}

ung__bend ung__polygon_bend(const ung__polygon *trace, size_t point)
{
    const double *a = trace->points + 2 * (point == 0 ? trace->n - 1 : point - 1), *b = trace->points + 2 * point;
    const double *c = trace->points + 2 * (point + 1 == trace->n ? 0 : point + 1);
    return bend_of(b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1], trace->turn);
}

ung__move ung__polygon_move(const ung__polygon *trace, double depth, const double *depths, double *moved, double *work,
                          double first_refusal, ung__where *where)
{
    const size_t n = trace->n;
    const double *points = trace->points, turn = trace->turn;
    ung__move m = {.deepest = depth + (depths ? depths[0] : 0)};
    double most_bend = 0, most_left = 0;
    block b;
    double d[BLOCK], share[BLOCK], bend[BLOCK];
    for (size_t begin = 0; begin < n; begin += BLOCK) {
        const size_t edges = n - begin < BLOCK ? n - begin : BLOCK;
        load(&b, points, n, begin, 0, 0);
        for (size_t i = 0; i < b.count; i++) /* behind the last point its depth again */
            d[i] = depth + (depths ? depths[begin + (i < edges ? i : edges - 1)] : 0);
        double *to = moved + 2 * begin;
#pragma omp simd
        for (size_t i = 0; i < edges; i++) {
            const double x = b.x[i + 1], y = b.y[i + 1];
            const ung__bend at = bend_of(x - b.x[i], y - b.y[i], b.x[i + 2] - x, b.y[i + 2] - y, turn);
            to[2 * i] = x - d[i] * at.normal_x;
            to[2 * i + 1] = y - d[i] * at.normal_y;
            bend[i] = at.curvature;
            share[i] = d[i] * at.curvature;
        }
        for (size_t i = edges; i < b.count; i++)
            bend[i] = share[i] = 0;
        double deep[UNG_LANES], most[UNG_LANES] = {0}, bent[UNG_LANES] = {0};
        for (size_t k = 0; k < UNG_LANES; k++)
            deep[k] = d[k];
        for (size_t i = 0; i < b.count; i += UNG_LANES)
#pragma omp simd
            for (size_t k = 0; k < UNG_LANES; k++) {
                deep[k] = ung__max(d[i + k], deep[k]);
                most[k] = ung__max(share[i + k], most[k]);
                bent[k] = ung__max(bend[i + k], bent[k]);
            }
        m.deepest = ung__max(m.deepest, highest(deep));
        most_bend = ung__max(most_bend, highest(bent));
        if (highest(most) >= 1) {
            size_t i = 0;
            while (share[i] < 1)
                i++;
            where->refusal = first_refusal + MOVE_RADIUS;
            where->row = (double)(begin + i);
            where->value = ung__abs(d[i]);
            where->limit = ung__abs(1 / bend[i]);
            return m;
        }
        for (size_t i = 0; i < edges; i++)
            if (bend[i] > most_left * (1 - share[i]))
                most_left = bend[i] / (1 - share[i]);
    }
    size_t meet[2];
    if (!ung__simple(moved, n, work, meet)) {
        where->refusal = first_refusal + MOVE_MEETS;
        where->row = (double)meet[0];
        where->other_row = (double)meet[1];
        return m;
    }
    ung__polygon_area(moved, n, &m.area, &m.perimeter);
    m.area *= turn;
    if (!(m.area > 0))
        where->refusal = first_refusal + MOVE_TURNED;
    m.least_radius = 1 / most_bend; /* a simple outline bulges somewhere */
    m.least_radius_left = 1 / most_left;
    return m;
}
