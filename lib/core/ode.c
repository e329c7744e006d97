/* Steps of ode.h: nothing here knows what is integrated. */
#include "core/ode.h"

enum { SYSTEM = UNG__RADAU * UNG__STATES_MOST, NEWTON_MOST = 12 };

/* Radau IIA of five stages: tests/published/fit_radau.py computes and prints these. */
static const double node[UNG__RADAU] = {0.057104196114517682193, 0.27684301363812382768, 0.58359043236891682006,
                                        0.86024013565621944785, 1.0};
static const double weight[UNG__RADAU][UNG__RADAU] = {
    {0.072998864317903324306, -0.026735331107945571878, 0.018676929763984354412, -0.012879106093306439854,
     0.0050428392338820152067},
    {0.15377523147918246867, 0.14621486784749350665, -0.036444568905128089527, 0.021233063119304719422,
     -0.0079355799027287775326},
    {0.14006304568480987151, 0.2989671294912834794, 0.16758507013524896344, -0.033969101686617746572,
     0.010944288744192252274},
    {0.14489430810953475754, 0.27650006876015922756, 0.32579792291042102998, 0.12875675325490976116,
     -0.015708917378805328388},
    {0.14371356079122594132, 0.28135601514946206019, 0.31182652297574125408, 0.2231039010835707444, 0.04}};
#define GAMMA 0.15906584442746912048
/* The embedded formula's difference, of f at the beginning (GAMMA) and of the stages' changes. */
static const double embedded[UNG__RADAU] = {-4.4189977167963817226, 0.57923485225667005447, -0.19923756095346800874,
                                            0.094167483691945488975, -0.031813168885493824096};
/* What divides the product of the others' distances in the polynomial through 0 and the nodes. */
static const double divisor[UNG__RADAU] = {0.0050028167002797769907, -0.0078725991098499777109,
                                           0.010857429309714535987, -0.015584243431354492448, 0.03968253968253968254};

/* ---- Linear systems: LU with partial pivoting, rows moved in memory ---- */

typedef struct system {
    int size, row[SYSTEM];
    double a[SYSTEM][SYSTEM];
} system;

/* 0 if it is singular. */
static int factor(system *s)
{
    for (int k = 0; k < s->size; k++) {
        int best = k;
        for (int i = k + 1; i < s->size; i++)
            if (ung__abs(s->a[i][k]) > ung__abs(s->a[best][k]))
                best = i;
        s->row[k] = best;
        const double pivot = s->a[best][k];
        if (!(ung__abs(pivot) > 0 && ung__abs(pivot) < 1e300))
            return 0;
        for (int j = 0; best != k && j < s->size; j++) {
            const double kept = s->a[k][j];
            s->a[k][j] = s->a[best][j];
            s->a[best][j] = kept;
        }
        const double inverse = 1 / pivot;
        s->a[k][k] = inverse;
        for (int i = k + 1; i < s->size; i++) {
            const double times = s->a[i][k] * inverse;
            s->a[i][k] = times;
            for (int j = k + 1; times != 0 && j < s->size; j++)
                s->a[i][j] -= times * s->a[k][j];
        }
    }
    return 1;
}

static void solve(const system *s, double *b)
{
    for (int k = 0; k < s->size; k++) {
        const double value = b[s->row[k]];
        b[s->row[k]] = b[k];
        b[k] = value;
    }
    for (int i = 1; i < s->size; i++)
        for (int j = 0; j < i; j++)
            b[i] -= s->a[i][j] * b[j];
    for (int i = s->size - 1; i >= 0; i--) {
        for (int j = i + 1; j < s->size; j++)
            b[i] -= s->a[i][j] * b[j];
        b[i] *= s->a[i][i];
    }
}

/* ---- What both methods share ---- */

static double tolerated(const ung__ode *o, int k, double other)
{
    return o->relative * ung__max(ung__abs(o->y[k]), ung__abs(other)) + (o->absolute[k] + 1e-290); /* 0 is not 0 over 0 */
}

/* The greatest share of what is tolerated; NaN counts as too much. */
static double greatest(const ung__ode *o, int count, const double *error, const double *other)
{
    double most = 0;
    for (int k = 0; k < count; k++) {
        const double share = ung__abs(error[k]) / tolerated(o, k, other[k]);
        most = share <= 1e200 ? ung__max(share, most) : 1e200;
    }
    return most;
}

static void rate(ung__ode *o, double x, const double *y, double *f)
{
    o->rate(o->context, x, y, f);
    o->rates++;
}

/* A first step of which f shares a hundredth of the way that y would take to change by itself. */
static double first_step(const ung__ode *o, const double *f, double length)
{
    double speed = 1e-300;
    for (int k = 0; k < o->states; k++)
        speed = ung__max(ung__abs(f[k]) / (ung__abs(o->y[k]) + o->absolute[k] / o->relative), speed);
    return ung__min(0.01 / speed, length);
}

static double scaled_step(double step, double error, double power, double least, double most)
{
    return step * ung__clamp(0.9 * ung__pow(ung__clamp(error, 1e-15, 1e15), power), least, most);
}

/* Whether a step of this size still moves x. */
static int too_small(const ung__ode *o, double step)
{
    return !(step > 4e-16 * ung__abs(o->x)) || !(step > 1e-290);
}

static void accept(ung__ode *o, double x, const double *y, int kind)
{
    o->before_x = o->x;
    for (int k = 0; k < o->states; k++) {
        o->before_y[k] = o->y[k];
        o->y[k] = y[k];
    }
    o->x = x;
    o->dense_kind = kind;
    o->steps++;
}

/* ---- Radau IIA ---- */

typedef struct radau {
    double h, f[UNG__STATES_MOST], change[UNG__RADAU][UNG__STATES_MOST];
    double jacobian[UNG__STATES_MOST][UNG__STATES_MOST];
    system stages, one; /* I - h A x J and I - h gamma J */
} radau;

/* What the polynomial through 0 and the stages' changes is at the share t of the step. */
static void polynomial(int states, double (*stage)[UNG__STATES_MOST], double t, double *y)
{
    double share[UNG__RADAU];
    for (int i = 0; i < UNG__RADAU; i++) {
        double product = t;
        for (int j = 0; j < UNG__RADAU; j++)
            product *= j == i ? 1 : t - node[j];
        share[i] = product / divisor[i];
    }
    for (int k = 0; k < states; k++) {
        y[k] = 0;
        for (int i = 0; i < UNG__RADAU; i++)
            y[k] += share[i] * stage[i][k];
    }
}

static int prepare(const ung__ode *o, radau *r)
{
    const int n = o->coupled;
    r->stages.size = UNG__RADAU * n;
    r->one.size = n;
    for (int i = 0; i < UNG__RADAU; i++)
        for (int j = 0; j < UNG__RADAU; j++)
            for (int k = 0; k < n; k++)
                for (int l = 0; l < n; l++)
                    r->stages.a[i * n + k][j * n + l] =
                        (i == j && k == l ? 1.0 : 0.0) - r->h * weight[i][j] * r->jacobian[k][l];
    for (int k = 0; k < n; k++)
        for (int l = 0; l < n; l++)
            r->one.a[k][l] = (k == l ? 1.0 : 0.0) - r->h * GAMMA * r->jacobian[k][l];
    return factor(&r->stages) && factor(&r->one);
}

/* Where the stages are looked for: the last step's polynomial, run on. */
static void predict(const ung__ode *o, radau *r)
{
    const double length = o->x - o->before_x;
    double end[UNG__STATES_MOST];
    for (int k = 0; k < o->states; k++)
        end[k] = o->y[k] - o->before_y[k];
    for (int i = 0; i < UNG__RADAU; i++) {
        if (o->dense_kind != 1 || node[i] * r->h > 2 * length) {
            for (int k = 0; k < o->states; k++)
                r->change[i][k] = o->dense_kind == 1 ? 0 : node[i] * r->h * r->f[k];
            continue;
        }
        polynomial(o->states, (double(*)[UNG__STATES_MOST])(uintptr_t)o->dense, 1 + node[i] * r->h / length, r->change[i]);
        for (int k = 0; k < o->states; k++)
            r->change[i][k] -= end[k];
    }
}

/* The stages, by the simplified method of Newton, to a hundredth of what is tolerated or to rounding. */
static int settle(ung__ode *o, radau *r)
{
    const int n = o->coupled;
    double f[UNG__RADAU][UNG__STATES_MOST], y[UNG__STATES_MOST], off[SYSTEM], before = 0;
    for (int round = 0; round < NEWTON_MOST; round++) {
        for (int i = 0; i < UNG__RADAU; i++) {
            for (int k = 0; k < o->states; k++)
                y[k] = o->y[k] + r->change[i][k];
            rate(o, o->x + node[i] * r->h, y, f[i]);
        }
        for (int i = 0; i < UNG__RADAU; i++)
            for (int k = 0; k < n; k++) {
                double sum = 0;
                for (int j = 0; j < UNG__RADAU; j++)
                    sum += weight[i][j] * f[j][k];
                off[i * n + k] = r->h * sum - r->change[i][k];
            }
        solve(&r->stages, off);
        double most = 0;
        for (int i = 0; i < UNG__RADAU; i++) {
            for (int k = 0; k < n; k++) {
                r->change[i][k] += off[i * n + k];
                y[k] = o->y[k] + r->change[i][k];
            }
            most = ung__max(greatest(o, n, off + i * n, y), most);
        }
        if (!(most < 1e100))
            return 0;
        const double shrink = round > 0 && before > 0 ? most / before : 1;
        const int settled = most <= 1e-3 || (round > 0 && shrink < 1 && most * shrink <= 0.01 * (1 - shrink));
        const int idle = round > 1 && shrink >= 1; /* as near as rounding lets it come */
        for (int i = 0; (settled || idle) && i < UNG__RADAU; i++)
            for (int k = n; k < o->states; k++) {
                double sum = 0;
                for (int j = 0; j < UNG__RADAU; j++)
                    sum += weight[i][j] * f[j][k];
                r->change[i][k] = r->h * sum;
            }
        if (settled || idle)
            return settled || most <= 0.1;
        before = most;
    }
    return 0;
}

/* The difference from the embedded formula, smoothed, as a share of what is tolerated.  The formula's order is 5 and
 * the step's is 9: what is tolerated of the difference is its 6/10th power (Hairer and Wanner's choice), over 10. */
static double doubt(ung__ode *o, radau *r)
{
    const int n = o->states;
    const int coupled = o->coupled;
    const double loose = 0.1 * ung__pow(o->relative, -0.4);
    double error[UNG__STATES_MOST], end[UNG__STATES_MOST], f[UNG__STATES_MOST], sum[UNG__STATES_MOST];
    for (int k = 0; k < n; k++) {
        sum[k] = 0;
        for (int i = 0; i < UNG__RADAU; i++)
            sum[k] += embedded[i] * r->change[i][k];
        error[k] = sum[k] + r->h * GAMMA * r->f[k];
        end[k] = o->y[k] + r->change[UNG__RADAU - 1][k];
    }
    solve(&r->one, error);
    double share = greatest(o, n, error, end) / loose;
    if (share >= 1) { /* at the beginning of a fast decay the first look exaggerates */
        for (int k = 0; k < n; k++)
            error[k] += o->y[k];
        rate(o, o->x, error, f);
        for (int k = 0; k < n; k++)
            error[k] = sum[k] + r->h * GAMMA * (k < coupled ? f[k] : r->f[k]);
        solve(&r->one, error);
        share = ung__min(greatest(o, n, error, end) / loose, share);
    }
    return share;
}

static void take(ung__ode *o, const radau *r, double x)
{
    double end[UNG__STATES_MOST];
    for (int k = 0; k < o->states; k++)
        end[k] = o->y[k] + r->change[UNG__RADAU - 1][k];
    accept(o, x, end, 1);
    for (int i = 0; i < UNG__RADAU; i++)
        for (int k = 0; k < o->states; k++)
            o->dense[i][k] = r->change[i][k];
}

int ung__implicit_step(ung__ode *o, double end)
{
    radau r;
    rate(o, o->x, o->y, r.f);
    o->jacobian(o->context, o->x, o->y, r.jacobian);
    double h = o->step > 0 ? o->step : first_step(o, r.f, end - o->x);
    for (int again = 0; !too_small(o, h); again = 1) {
        const int last = h >= (end - o->x) * (1 - 1e-12);
        r.h = last ? end - o->x : h > 0.5 * (end - o->x) ? 0.5 * (end - o->x) : h;
        if (!(r.h > 0))
            return 0;
        double share = 1e15;
        int fine = prepare(o, &r);
        if (fine) {
            predict(o, &r);
            fine = settle(o, &r);
            share = fine ? doubt(o, &r) : 1e15;
        }
        if (fine && share < 1) {
            const double next = scaled_step(r.h, share, -1.0 / 6, 0.2, again ? 1 : 8);
            take(o, &r, last ? end : o->x + r.h);
            o->step = last ? ung__max(next, o->step) : next;
            return 1;
        }
        o->rejected++;
        h = fine ? scaled_step(r.h, share, -1.0 / 6, 0.1, 0.9) : 0.3 * r.h;
    }
    return 0;
}

int ung__implicit_leap(ung__ode *o, double end)
{
    radau r;
    rate(o, o->x, o->y, r.f);
    o->jacobian(o->context, o->x, o->y, r.jacobian);
    r.h = end - o->x;
    if (!prepare(o, &r))
        return 0;
    predict(o, &r);
    if (!settle(o, &r))
        return 0;
    take(o, &r, end);
    return 1;
}

/* ---- Dormand and Prince ---- */

static const double a7[7][6] = {{0},
                                {1.0 / 5},
                                {3.0 / 40, 9.0 / 40},
                                {44.0 / 45, -56.0 / 15, 32.0 / 9},
                                {19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729},
                                {9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656},
                                {35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84}};
static const double c7[7] = {0, 0.2, 0.3, 0.8, 8.0 / 9, 1, 1};
static const double e7[7] = {71.0 / 57600,       0,          -71.0 / 16695, 71.0 / 1920,
                             -17253.0 / 339200, 22.0 / 525, -1.0 / 40};
/* Of the polynomial of order 4 (Shampine 1986, as Hairer, Norsett and Wanner 1993, II.6, give it). */
static const double d7[7] = {-12715105075.0 / 11282082432.0, 0, 87487479700.0 / 32700410799.0,
                             -10690763975.0 / 1880347072.0,  701980252875.0 / 199316789632.0,
                             -1453857185.0 / 822651844.0,    69997945.0 / 29380423.0};

int ung__explicit_step(ung__ode *o, double end)
{
    const int n = o->states;
    double f[7][UNG__STATES_MOST], y[UNG__STATES_MOST], error[UNG__STATES_MOST];
    rate(o, o->x, o->y, f[0]);
    double h = o->step > 0 ? o->step : first_step(o, f[0], end - o->x);
    for (int again = 0; !too_small(o, h); again = 1) {
        const int last = h >= (end - o->x) * (1 - 1e-12);
        h = last ? end - o->x : h > 0.5 * (end - o->x) ? 0.5 * (end - o->x) : h;
        if (!(h > 0))
            return 0;
        for (int s = 1; s < 7; s++) {
            for (int k = 0; k < n; k++) {
                double sum = 0;
                for (int j = 0; j < s; j++)
                    sum += a7[s][j] * f[j][k];
                y[k] = o->y[k] + h * sum;
            }
            rate(o, o->x + c7[s] * h, y, f[s]);
        }
        for (int k = 0; k < n; k++) {
            error[k] = 0;
            for (int s = 0; s < 7; s++)
                error[k] += h * e7[s] * f[s][k];
        }
        const double share = greatest(o, n, error, y);
        const double next = scaled_step(h, share, -0.2, share < 1 ? 0.2 : 0.1, share >= 1 ? 0.9 : again ? 1 : 5);
        if (share < 1) {
            for (int k = 0; k < n; k++) {
                const double change = y[k] - o->y[k], bend = h * f[0][k] - change;
                double sum = 0;
                for (int s = 0; s < 7; s++)
                    sum += d7[s] * f[s][k];
                o->dense[0][k] = change;
                o->dense[1][k] = bend;
                o->dense[2][k] = change - h * f[6][k] - bend;
                o->dense[3][k] = h * sum;
            }
            accept(o, last ? end : o->x + h, y, 2);
            o->step = last ? ung__max(next, o->step) : next;
            return 1;
        }
        o->rejected++;
        h = next;
    }
    return 0;
}

/* ---- Within a step ---- */

void ung__ode_at(const ung__ode *o, double x, double *y)
{
    const double length = o->x - o->before_x, t = length > 0 ? (x - o->before_x) / length : 1;
    if (o->dense_kind == 1)
        polynomial(o->states, (double(*)[UNG__STATES_MOST])(uintptr_t)o->dense, t, y);
    for (int k = 0; k < o->states; k++) {
        const double u = 1 - t;
        const double inner = o->dense[1][k] + t * (o->dense[2][k] + u * o->dense[3][k]);
        const double change = o->dense_kind == 1 ? y[k] : t * (o->dense[0][k] + u * inner);
        y[k] = o->before_y[k] + change;
    }
}

double ung__ode_event(const ung__ode *o, ung__event *event, double *y)
{
    double left = o->before_x, right = o->x, at = right;
    double f_left = event(o->context, left, o->before_y), f_right = event(o->context, right, o->y);
    int side = 0;
    for (int k = 0; k < o->states; k++)
        y[k] = o->y[k];
    /* The rule of false position in Illinois' form; now and then a halving, so that it always closes. */
    for (int round = 0; round < 100 && right - left > 1e-15 * ung__abs(right) && f_right != 0; round++) {
        const double share = round % 8 == 7 ? 0.5 : f_left / (f_left - f_right);
        at = ung__clamp(left + share * (right - left), left, right);
        ung__ode_at(o, at, y);
        const double f = event(o->context, at, y);
        if (f == 0 || at <= left || at >= right)
            break;
        if ((f > 0) == (f_left > 0)) {
            left = at;
            f_left = f;
            f_right = side == 1 ? f_right / 2 : f_right;
            side = 1;
        } else {
            right = at;
            f_right = f;
            f_left = side == 2 ? f_left / 2 : f_left;
            side = 2;
        }
    }
    return at;
}
