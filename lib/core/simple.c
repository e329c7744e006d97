/* Simple or not: the method is told in simple.h. */
#include "core/simple.h"

#include "core/elementary.h"

/* ---- The sign of a turn ---- */

/* a b exactly, by Dekker's splitting into halves of 26 bits (Dekker 1971). */
static ung__two product(double a, double b)
{
    const double splitter = 0x1p27 + 1, p = a * b;
    const double a_up = splitter * a, a1 = a_up - (a_up - a), a2 = a - a1;
    const double b_up = splitter * b, b1 = b_up - (b_up - b), b2 = b - b1;
    return (ung__two){p, a2 * b2 - (((p - a1 * b1) - a2 * b1) - a1 * b2)};
}

/* Adds b to a sum of count doubles that do not overlap, exactly (Shewchuk 1997, grow-expansion). */
static void grow(double *sum, int *count, double b)
{
    for (int i = 0; i < *count; i++) {
        ung__two two = ung__add(b, sum[i]);
        sum[i] = two.lo;
        b = two.hi;
    }
    sum[(*count)++] = b;
}

/* a x b + b x c + c x a without rounding: the largest part that is not 0 has the sign of the sum. */
static int exact_turn(const double *a, const double *b, const double *c)
{
    const double *corner[4] = {a, b, c, a};
    double sum[12];
    int count = 0;
    for (int k = 0; k < 3; k++) {
        const ung__two plus = product(corner[k][0], corner[k + 1][1]);
        const ung__two minus = product(corner[k][1], corner[k + 1][0]);
        grow(sum, &count, plus.lo);
        grow(sum, &count, -minus.lo);
        grow(sum, &count, plus.hi);
        grow(sum, &count, -minus.hi);
    }
    int last = count - 1;
    while (last > 0 && sum[last] == 0)
        last--;
    return (sum[last] > 0) - (sum[last] < 0);
}

int ung__turn(const double *a, const double *b, const double *c)
{
    const double left = (a[0] - c[0]) * (b[1] - c[1]), right = (a[1] - c[1]) * (b[0] - c[0]);
    const double turn = left - right;
    /* (3 + 16 e) e with e = 2^-53: beyond this share of the terms rounding cannot turn the sign (Shewchuk 1997) */
    const double doubt = 3.3306690738754716e-16 * (ung__abs(left) + ung__abs(right));
    if (turn > doubt)
        return 1;
    if (turn < -doubt)
        return -1;
    return doubt == 0 ? 0 : exact_turn(a, b, c);
}

/* ---- Two edges ---- */

static size_t after(size_t i, size_t n)
{
    return i + 1 == n ? 0 : i + 1;
}

/* Whether the way a, b, c turns right back at b, or stands still. */
static int turns_back(const double *a, const double *b, const double *c)
{
    return (a[0] - b[0]) * (c[0] - b[0]) >= 0 && (a[1] - b[1]) * (c[1] - b[1]) >= 0 && ung__turn(a, b, c) == 0;
}

/* Whether the ranges of a, b and of c, d have nothing in common. */
static int apart(double a, double b, double c, double d)
{
    return ung__max(a, b) < ung__min(c, d) || ung__max(c, d) < ung__min(a, b);
}

/* Whether edges i and j meet elsewhere than in a point that both have as neighbors. */
static int edges_meet(const double *points, size_t n, size_t i, size_t j)
{
    const double *a = points + 2 * i, *b = points + 2 * after(i, n);
    const double *c = points + 2 * j, *d = points + 2 * after(j, n);
    if (b == c)
        return turns_back(a, b, d);
    if (d == a)
        return turns_back(c, a, b);
    if (apart(a[0], b[0], c[0], d[0]) || apart(a[1], b[1], c[1], d[1]))
        return 0;
    /* neither has both ends strictly on one side of the other: with overlapping boxes that is enough, in line too */
    return ung__turn(a, b, c) * ung__turn(a, b, d) <= 0 && ung__turn(c, d, a) * ung__turn(c, d, b) <= 0;
}

static int found(size_t meet[2], size_t i, size_t j)
{
    meet[0] = i < j ? i : j;
    meet[1] = i < j ? j : i;
    return 0;
}

/* ---- Boxes ---- */

enum { LEAF = 8, LEVELS = 32, PAIRS = 128 };
enum { RIGHT = 1, LEFT = 2, UP = 4, DOWN = 8 };

/* A run of edges: its box, and the ways in which every one of them goes (sum of the names above). */
typedef struct box {
    double x_low, x_high, y_low, y_high, ways;
} box;

/* Level 0 has a box for each LEAF edges, the next one for each two of these, and so on to a single one. */
typedef struct forest {
    const double *points;
    size_t n;
    const box *level[LEVELS];
    size_t steps_left;
} forest;

typedef struct pair {
    uint32_t level, first, second; /* both on this level; the same twice: a run against itself */
} pair;

static box leaf_box(const double *points, size_t n, size_t begin, size_t end)
{
    const double *p = points + 2 * begin;
    double x = p[0], y = p[1];
    box b = {x, x, y, y, 0};
    double least_right = 1, least_left = 1, least_up = 1, least_down = 1; /* of all steps, and of 1 */
    for (size_t i = begin; i < end; i++) {
        p = i + 1 == n ? points : p + 2;
        const double right = p[0] - x, up = p[1] - y; /* a difference has the right sign, and is 0 for equals only */
        x = p[0];
        y = p[1];
        least_right = ung__min(right, least_right);
        least_left = ung__min(-right, least_left);
        least_up = ung__min(up, least_up);
        least_down = ung__min(-up, least_down);
        b.x_low = ung__min(x, b.x_low);
        b.x_high = ung__max(x, b.x_high);
        b.y_low = ung__min(y, b.y_low);
        b.y_high = ung__max(y, b.y_high);
    }
    b.ways = (least_right > 0 ? RIGHT : 0) + (least_left > 0 ? LEFT : 0) + (least_up > 0 ? UP : 0) +
             (least_down > 0 ? DOWN : 0);
    return b;
}

static int common_ways(const box *a, const box *b)
{
    return (int)a->ways & (int)b->ways;
}

/* Returns the number of levels. */
static uint32_t plant(forest *f, double *work)
{
    box *to = (box *)work;
    size_t count = (f->n + LEAF - 1) / LEAF;
    f->level[0] = to;
    for (size_t k = 0; k < count; k++)
        *to++ = leaf_box(f->points, f->n, k * LEAF, (k + 1) * LEAF < f->n ? (k + 1) * LEAF : f->n);
    uint32_t levels = 1;
    for (; count > 1; levels++) {
        const box *from = f->level[levels - 1];
        f->level[levels] = to;
        for (size_t k = 0; k < count; k += 2) {
            const box *a = from + k, *b = from + (k + 1 < count ? k + 1 : k);
            *to++ = (box){ung__min(a->x_low, b->x_low), ung__max(a->x_high, b->x_high), ung__min(a->y_low, b->y_low),
                          ung__max(a->y_high, b->y_high), common_ways(a, b)};
        }
        count = (count + 1) / 2;
    }
    return levels;
}

/* Edges of two leaves, or of one against itself, each against each. */
static int leaves_meet(forest *f, size_t first, size_t second, size_t meet[2])
{
    const size_t n = f->n, begin = first * LEAF, end = begin + LEAF < n ? begin + LEAF : n;
    const size_t second_end = (second + 1) * LEAF < n ? (second + 1) * LEAF : n;
    const box *other = f->level[0] + second;
    for (size_t i = begin; i < end; i++) {
        const double *a = f->points + 2 * i, *b = f->points + 2 * after(i, n);
        if (apart(a[0], b[0], other->x_low, other->x_high) || apart(a[1], b[1], other->y_low, other->y_high))
            continue;
        for (size_t j = first == second ? i + 1 : second * LEAF; j < second_end; j++)
            if (edges_meet(f->points, n, i, j))
                return !found(meet, i, j);
        f->steps_left -= f->steps_left < LEAF ? f->steps_left : LEAF;
    }
    return 0;
}

/* Whether two different runs can be told apart by their boxes alone: apart, or one after the other in a common way. */
static int told_apart(const forest *f, uint32_t level, size_t first, size_t second, size_t count)
{
    const box *a = f->level[level] + first, *b = f->level[level] + second;
    if (apart(a->x_low, a->x_high, b->x_low, b->x_high) || apart(a->y_low, a->y_high, b->y_low, b->y_high))
        return 1;
    return common_ways(a, b) && (first + 1 == second || (first == 0 && second + 1 == count));
}

/* 1 simple, 0 not, -1 not decided within the steps.  A pair makes way for at most four of the level below it, so that
 * at most 3 LEVELS + 1 wait. */
static int simple_by_boxes(const double *points, size_t n, double *work, size_t steps, size_t meet[2])
{
    forest f = {points, n, {0}, steps};
    const uint32_t levels = plant(&f, work);
    size_t count[LEVELS];
    count[0] = (n + LEAF - 1) / LEAF;
    for (uint32_t k = 1; k < levels; k++)
        count[k] = (count[k - 1] + 1) / 2;
    pair wait[PAIRS];
    size_t waiting = 0;
    wait[waiting++] = (pair){levels - 1, 0, 0};
    while (waiting > 0) {
        const pair now = wait[--waiting];
        if (f.steps_left == 0)
            return -1;
        f.steps_left--;
        if (now.first == now.second ? f.level[now.level][now.first].ways != 0
                                    : told_apart(&f, now.level, now.first, now.second, count[now.level]))
            continue;
        if (now.level == 0) {
            if (leaves_meet(&f, now.first, now.second, meet))
                return 0;
            continue;
        }
        const uint32_t below = now.level - 1, a = 2 * now.first, b = 2 * now.second;
        const int a_two = a + 1 < count[below], b_two = b + 1 < count[below];
        wait[waiting++] = (pair){below, a, b};
        if (b_two)
            wait[waiting++] = (pair){below, a, b + 1};
        if (a_two && now.first != now.second)
            wait[waiting++] = (pair){below, a + 1, b};
        if (a_two && b_two)
            wait[waiting++] = (pair){below, a + 1, b + 1};
    }
    return 1;
}

/* ---- Sweep ---- */

/* Points are visited from left to right, those above each other from below.  The edges that the visit has reached and
 * not left are kept in order, lower before higher, in a tree balanced after Adelson-Velsky and Landis 1962.  Edges that
 * become neighbors in the order are tested against each other.  The first common point of two edges is either found
 * so, because nothing can lie between them just before it, or is a point of the outline on an edge, which the search
 * for that point's place finds. */

#define NONE UINT32_MAX

/* Place k of the tree.  `place` is not about place k but about edge k: where it is. */
typedef struct __attribute__((may_alias)) branch { /* the workspace is the caller's doubles */
    uint32_t child[2], up, height, before, after, edge, place;
} branch;
typedef uint32_t __attribute__((may_alias)) number;
_Static_assert(sizeof(branch) / sizeof(double) + 1 <= UNG_SIMPLE_WORK, "tree and order fit the workspace");

typedef struct sweep {
    const double *points;
    size_t n;
    branch *tree;
    uint32_t root, lowest;
} sweep;

/* Whether point i is visited before point j. */
static int is_before(const double *points, size_t i, size_t j)
{
    const double *a = points + 2 * i, *b = points + 2 * j;
    return a[0] < b[0] || (a[0] == b[0] && a[1] < b[1]);
}

/* Merge sort of the points' numbers from the bottom up. */
static void sort(const double *points, size_t n, number *order, number *spare)
{
    for (size_t i = 0; i < n; i++)
        order[i] = (uint32_t)i;
    for (size_t width = 1; width < n; width *= 2) {
        for (size_t begin = 0; begin + width < n; begin += 2 * width) {
            const size_t middle = begin + width, end = n - middle < width ? n : middle + width;
            if (!is_before(points, order[middle], order[middle - 1]))
                continue;
            for (size_t i = begin; i < middle; i++)
                spare[i] = order[i];
            size_t a = begin, b = middle, to = begin;
            while (a < middle)
                order[to++] = b < end && is_before(points, order[b], spare[a]) ? order[b++] : spare[a++];
        }
    }
}

static uint32_t height_of(const sweep *s, uint32_t k)
{
    return k == NONE ? 0 : s->tree[k].height;
}

/* Puts `now` (or nothing) where `old` hangs. */
static void hang(sweep *s, uint32_t old, uint32_t now)
{
    const uint32_t up = s->tree[old].up;
    if (now != NONE)
        s->tree[now].up = up;
    if (up == NONE)
        s->root = now;
    else
        s->tree[up].child[s->tree[up].child[1] == old] = now;
}

static void measure(sweep *s, uint32_t k)
{
    const uint32_t low = height_of(s, s->tree[k].child[0]), high = height_of(s, s->tree[k].child[1]);
    s->tree[k].height = 1 + (low > high ? low : high);
}

/* The child on this side rises into the place of k, and k becomes its child. */
static uint32_t rotate(sweep *s, uint32_t k, int side)
{
    branch *t = s->tree;
    const uint32_t risen = t[k].child[side], moved = t[risen].child[!side];
    hang(s, k, risen);
    t[risen].child[!side] = k;
    t[k].up = risen;
    t[k].child[side] = moved;
    if (moved != NONE)
        t[moved].up = k;
    measure(s, k);
    measure(s, risen);
    return risen;
}

/* Restores heights from k up to the root: sides differ by at most 1. */
static void balance(sweep *s, uint32_t k)
{
    const branch *t = s->tree;
    for (; k != NONE; k = t[k].up) {
        const uint32_t low = height_of(s, t[k].child[0]), high = height_of(s, t[k].child[1]);
        if (low <= high + 1 && high <= low + 1) {
            measure(s, k);
            continue;
        }
        const int side = high > low;
        const uint32_t heavy = t[k].child[side];
        if (height_of(s, t[heavy].child[side]) < height_of(s, t[heavy].child[!side]))
            rotate(s, heavy, !side);
        k = rotate(s, k, side);
    }
}

/* Puts an edge next above place `below` (NONE: lowest of all).  Of two neighbors in order one has no child between. */
static void insert_above(sweep *s, uint32_t below, uint32_t edge)
{
    branch *t = s->tree;
    const uint32_t above = below == NONE ? s->lowest : t[below].after;
    const int on_below = below != NONE && t[below].child[1] == NONE;
    const uint32_t up = on_below ? below : above;
    t[edge] = (branch){{NONE, NONE}, up, 1, below, above, edge, edge};
    if (below == NONE)
        s->lowest = edge;
    else
        t[below].after = edge;
    if (above != NONE)
        t[above].before = edge;
    if (up == NONE)
        s->root = edge;
    else
        t[up].child[on_below] = edge;
    balance(s, up);
}

/* Takes an edge out.  If its place has two children, the next edge moves into it and leaves its own. */
static void take_out(sweep *s, uint32_t edge)
{
    branch *t = s->tree;
    uint32_t k = t[edge].place;
    if (t[k].child[0] != NONE && t[k].child[1] != NONE) {
        const uint32_t next = t[k].after;
        t[k].edge = t[next].edge;
        t[t[k].edge].place = k;
        k = next;
    }
    const uint32_t up = t[k].up, below = t[k].before, above = t[k].after;
    hang(s, k, t[k].child[0] != NONE ? t[k].child[0] : t[k].child[1]);
    if (below == NONE)
        s->lowest = above;
    else
        t[below].after = above;
    if (above != NONE)
        t[above].before = below;
    balance(s, up);
}

/* Whether the edges at two places meet; NONE meets nothing. */
static int places_meet(const sweep *s, uint32_t a, uint32_t b, size_t meet[2])
{
    if (a == NONE || b == NONE || !edges_meet(s->points, s->n, s->tree[a].edge, s->tree[b].edge))
        return 0;
    return !found(meet, s->tree[a].edge, s->tree[b].edge);
}

static int meets_neighbors(const sweep *s, uint32_t k, size_t meet[2])
{
    return places_meet(s, s->tree[k].before, k, meet) || places_meet(s, k, s->tree[k].after, meet);
}

/* Two edges begin at point v: edge v and the one before it. */
static int begin_two(sweep *s, uint32_t v, uint32_t edge_before, size_t meet[2])
{
    const double *p = s->points, *at = p + 2 * (size_t)v;
    const double *end = p + 2 * after(v, s->n), *other_end = p + 2 * (size_t)edge_before;
    uint32_t below = NONE;
    for (uint32_t k = s->root; k != NONE;) {
        const uint32_t edge = s->tree[k].edge, next = (uint32_t)after(edge, s->n);
        const int forward = is_before(p, edge, next);
        const uint32_t start = forward ? edge : next, stop = forward ? next : edge;
        const int side = ung__turn(p + 2 * (size_t)start, p + 2 * (size_t)stop, at);
        if (side == 0)
            return !found(meet, edge, v);
        if (side > 0)
            below = k;
        k = s->tree[k].child[side > 0];
    }
    const int turn = ung__turn(at, end, other_end);
    if (turn == 0)
        return !found(meet, edge_before, v);
    insert_above(s, below, turn > 0 ? v : edge_before);
    const uint32_t lower = s->tree[turn > 0 ? v : edge_before].place;
    insert_above(s, lower, turn > 0 ? edge_before : v);
    const uint32_t upper = s->tree[lower].after;
    return places_meet(s, s->tree[lower].before, lower, meet) || places_meet(s, upper, s->tree[upper].after, meet);
}

static int end_one(sweep *s, uint32_t edge, size_t meet[2])
{
    branch *t = s->tree;
    const uint32_t k = t[edge].place, below = t[k].before, edge_above = t[k].after == NONE ? NONE : t[t[k].after].edge;
    take_out(s, edge);
    return places_meet(s, below, edge_above == NONE ? NONE : t[edge_above].place, meet);
}

static int simple_by_sweep(const double *points, size_t n, double *work, size_t meet[2])
{
    sweep s = {points, n, (branch *)work, NONE, NONE};
    number *order = (number *)(work + n * (sizeof(branch) / sizeof(double)));
    sort(points, n, order, (number *)work);
    for (size_t k = 1; k < n; k++)
        if (!is_before(points, order[k - 1], order[k])) /* two points in one place */
            return found(meet, order[k - 1], order[k]);
    for (size_t k = 0; k < n; k++) {
        const uint32_t v = order[k], last = (uint32_t)n - 1;
        const uint32_t next = v == last ? 0 : v + 1, edge_before = v == 0 ? last : v - 1;
        const int begins = is_before(points, v, next), before_begins = is_before(points, v, edge_before);
        int met;
        if (begins && before_begins) {
            met = begin_two(&s, v, edge_before, meet);
        } else if (!begins && !before_begins) {
            take_out(&s, v); /* the two are neighbors: what comes next to the other one now is tested when that goes */
            met = end_one(&s, edge_before, meet);
        } else { /* one takes the other's place */
            const uint32_t ends = begins ? edge_before : v, follows = begins ? v : edge_before;
            const uint32_t place = s.tree[ends].place;
            s.tree[follows].place = place;
            s.tree[place].edge = follows;
            met = meets_neighbors(&s, place, meet);
        }
        if (met)
            return 0;
    }
    return 1;
}

int ung__simple_within(const double *points, size_t n, double *work, size_t steps, size_t meet[2])
{
    const int simple = simple_by_boxes(points, n, work, steps, meet);
    return simple < 0 ? simple_by_sweep(points, n, work, meet) : simple;
}

int ung__simple(const double *points, size_t n, double *work, size_t meet[2])
{
    /* A step takes about as long as reading a point, the sweep 10 to 100 times as long. */
    return ung__simple_within(points, n, work, 8 * n + 1000, meet);
}
