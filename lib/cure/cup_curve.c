/* Temperature and cure of a mixed cup at the times that are asked for. */
#include <ungula/cure.h>

#include "cure/cup.h"

#define NAME cup_curve
#define ROOM cure
#define TITLE "temperature and cure of a mixed cup over time"
#define ABOUT                                                                                                        \
    "The cup of cup_cure, with the same equations, fields and results, and its course: temperature and cured share " \
    "at each of the times, which must not fall from row to row. Once the cure has stopped (at final_fraction, or "   \
    "where 1e-13 of the heat is left) the temperature goes to the ambient's:\n"                                      \
    "\n"                                                                                                             \
    "    T = ambient + (T_stop - ambient) exp(-exchange surface (t - t_stop)/(mass c))"
#define ACCURACY "Relative error below 1e-8 of every result (of a temperature in kelvin)."
#define SOURCES(S) CUP_SOURCES(S)
#define INPUTS(F) CUP_INPUTS(F)
#define OUTPUTS(F) CUP_OUTPUTS(F)
#define REFUSALS(R) CUP_REFUSALS(R)
#define LIST_REFUSALS(R) R(0, "a time must not come before the one in the row before it")
#define CAUTIONS(C) CUP_CAUTIONS(C)
#define STANDING(S) CUP_STANDING(S)
#define TIME_FIELDS(F, type) F(type, time_s, 0, 1e9, "since mixing")
#define CURVE_FIELDS(F, type)                                                                                        \
    F(type, temperature_c, -273.15, 1e4, "of the cup")                                                               \
    F(type, cured_fraction, 0, 1, "share cured")
#define LISTS(L)                                                                                                     \
    L(GIVEN, times, ung_cure_time, 1, 1000000, NO_FIELD, TIME_FIELDS, "when the course is asked for, in rising order") \
    L(FILLED, curve, ung_cure_point, 1, 1000000, 0, CURVE_FIELDS, "the course at those times")

/* The place in the last step where so much time has passed; the states there are those of a step to just there. */
static void place_at(const ung__ode *o, double time, ung__ode *q)
{
    const double length = o->x - o->before_x, passed = o->y[o->coupled] - o->before_y[o->coupled];
    double low = o->before_x, high = o->x;
    double x = ung__clamp(low + length * (time - o->before_y[o->coupled]) / passed, low, high);
    for (int round = 0; round < 60; round++) {
        ung__cup_again(o, 1, x, q);
        const double off = time - ung__cup_time(q);
        low = off >= 0 ? x : low;
        high = off <= 0 ? x : high;
        const double slow = ung__cup_slowness((const ung__cup *)o->context, q->y[UNG__ABOVE]);
        double next = x + off / slow;
        next = next > low && next < high ? next : 0.5 * (low + high);
        if (ung__abs(off) <= 1e-12 * time || next == x)
            break;
        x = next;
    }
}

static ung_cup_curve_out formula(const ung_cup_curve_in *in, const ung_rows *rows, ung__where *where)
{
    ung_cup_curve_out out = {0};
    const double *time = rows[0].data;
    const size_t n = rows[0].count;
    where->refusal = ung__cup_refusal(in);
    if (where->refusal != 0)
        return out;
    for (size_t k = 1; k < n; k++)
        if (time[k] < time[k - 1]) {
            *where = (ung__where){4, (double)k, (double)(k - 1), time[k], UNG__NAN, "s"};
            return out;
        }
    const ung__cup c = ung__cup_of(in);
    out = ung__cup_results(in, &c);
    ung__ode o = ung__cup_begin(&c), q;
    for (size_t k = 0; k < n; k++) {
        while (ung__cup_time(&o) < time[k] && o.x < c.last && ung__implicit_step(&o, c.last)) {
        }
        const double after = time[k] - ung__cup_time(&o);
        double above = o.y[UNG__ABOVE], x = o.x;
        const int stopped = after >= 0 && o.x >= c.last && in->final_fraction < 1;
        if (after > 0) {
            above *= ung__exp(-ung__min(c.cooling * after, 700));
        } else if (after < 0) {
            place_at(&o, time[k], &q);
            above = q.y[UNG__ABOVE];
            x = q.x;
        }
        rows[1].data[2 * k] = in->ambient_c + above;
        rows[1].data[2 * k + 1] = stopped ? in->final_fraction : ung__cup_share(&c, x);
    }
    return out;
}

#include "core/define.h"
