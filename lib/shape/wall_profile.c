/* Thickness and angle of the wall all the way round, from a few stations: periodic monotone cubics. */
#include <ungula/shape.h>

#include "core/contract.h"

#define NAME wall_profile
#define ROOM shape
#define TITLE "thickness and angle of the wall all the way round, from a few stations"
#define ABOUT                                                                                                        \
    "Between stations, each given by its share of the perimeter from the toe counterclockwise, thickness and "       \
    "angle follow cubics that neither overshoot nor turn between two stations, and that close smoothly round "       \
    "the hoof.\n"                                                                                                    \
    "\n"                                                                                                             \
    "    h_i = x_(i+1) - x_i,  d_i = (y_(i+1) - y_i)/h_i       the last station is followed by the first, a turn on\n"\
    "    slope m_i = 0 where d_(i-1) and d_i differ in sign or one of them is 0, otherwise\n"                        \
    "    m_i = (w1 + w2)/(w1/d_(i-1) + w2/d_i),  w1 = 2 h_i + h_(i-1),  w2 = h_i + 2 h_(i-1)\n"                      \
    "    y = cubic with the values y_i, y_(i+1) and the slopes m_i, m_(i+1) at its ends\n"                           \
    "\n"                                                                                                             \
    "So the least thickness and the steepest and flattest walls are at stations. Fractions below 0.5 are one "       \
    "side, those above it the other: on a left fore with the toe ahead, counterclockwise seen from above "           \
    "starts to the left, so below 0.5 is lateral; on a right fore it is medial. Seen from below the sides "          \
    "change places. The profile is filled at equal steps of the perimeter from start_fraction, as "                  \
    "outline_resample's points."
#define ACCURACY                                                                                                     \
    "Values: absolute error below 1e-13 (held against an independent monotone interpolation); no value lies "        \
    "outside those of its two stations."
#define SOURCES(S)                                                                                                   \
    S(MEMORY, "Fritsch FN, Carlson RE 1980. Monotone piecewise cubic interpolation. SIAM J Numer Anal 17:238-246", \
      "slopes with which a cubic is monotone")                                                                       \
    S(MEMORY,                                                                                                        \
      "Fritsch FN, Butland J 1984. A method for constructing local monotone piecewise cubic interpolants. SIAM J Sci Stat Comput 5:300-304", \
      "these slopes: weighted harmonic means")                                                                       \
    S(CHOICE, "Closed round the hoof: the last station is the first one's neighbor", "the slopes at the first and last")      \
    S(CHOICE, "Project's choice", "caution below 5 mm of horn")
#define INPUTS(F)                                                                                                    \
    F(start_fraction, 0, 1, 0, 1, 0, NEUTRAL, MEASURE, "where the first row of the profile lies; 0 = the toe")
#define OUTPUTS(F)                                                                                                   \
    F(least_thickness_mm, FINITE, "thinnest wall")                                                                   \
    F(least_thickness_fraction, FINITE, "where that is; the first place if there are more")                          \
    F(steepest_deg, FINITE, "greatest wall angle")                                                                   \
    F(flattest_deg, FINITE, "least wall angle")
#define REFUSALS(R)
#define LIST_REFUSALS(R)                                                                                             \
    R(0, "stations must be in rising order of around_fraction, at least a millionth of the perimeter apart")         \
    R(0, "the last station must come before the first one, a turn on: 0 and 1 are the same place")
#define CAUTIONS(C)                                                                                                  \
    C(WARN, thin_wall, OUT(least_thickness_mm), 1, NO_FIELD, 0, BELOW, 5, NO_GUARD,                                  \
      "less than 5 mm of horn somewhere: screws have little room there")
#define STANDING(S)                                                                                                  \
    S("Between stations nothing was measured: put one wherever a screw or a rasp is to go.")
#define STATION_FIELDS(F, type)                                                                                      \
    F(type, around_fraction, 0, 1, "share of the perimeter from the toe, counterclockwise")                          \
    F(type, wall_thickness_mm, 2, 20, "horn square to the wall")                                                     \
    F(type, wall_angle_deg, 35, 150, "inside the horn, bearing plane to outer face")
#define LISTS(L)                                                                                                     \
    L(GIVEN, stations, ung_wall_station, 2, 64, NO_FIELD, STATION_FIELDS, "where the wall was measured, in rising order") \
    L(FILLED, profile, ung_wall_station, 1, 1000000, NO_FIELD, STATION_FIELDS, "the wall at equal steps of the perimeter")

enum { STATIONS_MOST = 64 };

/* Stations and what belongs to them, with the first once more at the end, a turn on. */
typedef struct curve {
    size_t count;
    double x[STATIONS_MOST + 1], y[2][STATIONS_MOST + 1], slope[2][STATIONS_MOST + 1];
} curve;

static double mean_slope(double before, double after, double h_before, double h_after)
{
    if (!(before > 0 && after > 0) && !(before < 0 && after < 0))
        return 0;
    double w1 = 2 * h_after + h_before, w2 = h_after + 2 * h_before;
    return (w1 + w2) / (w1 / before + w2 / after);
}

static void set_slopes(curve *c, int which)
{
    const double *x = c->x, *y = c->y[which];
    size_t n = c->count;
    for (size_t i = 0; i < n; i++) {
        double h_before = i ? x[i] - x[i - 1] : x[n] - x[n - 1], h_after = x[i + 1] - x[i];
        double rise = i ? y[i] - y[i - 1] : y[n] - y[n - 1];
        c->slope[which][i] = mean_slope(rise / h_before, (y[i + 1] - y[i]) / h_after, h_before, h_after);
    }
    c->slope[which][n] = c->slope[which][0];
}

/* Between stations i and i + 1; held between their values, so that rounding cannot overshoot either. */
static double value_at(const curve *c, int which, size_t i, double x)
{
    double h = c->x[i + 1] - c->x[i], t = (x - c->x[i]) / h, u = 1 - t;
    double a = c->y[which][i], b = c->y[which][i + 1], p = c->slope[which][i] * h, q = c->slope[which][i + 1] * h;
    double y = a + t * t * (3 - 2 * t) * (b - a) + t * u * (u * p - t * q);
    return ung__clamp(y, ung__min(a, b), ung__max(a, b));
}

static ung_wall_profile_out formula(const ung_wall_profile_in *in, const ung_rows *rows, ung__where *where)
{
    const ung_wall_station *station = (const ung_wall_station *)(const void *)rows[0].data;
    ung_wall_station *profile = (ung_wall_station *)(void *)rows[1].data;
    ung_wall_profile_out out = {station[0].wall_thickness_mm, station[0].around_fraction, station[0].wall_angle_deg,
                                station[0].wall_angle_deg};
    curve c;
    size_t n = c.count = rows[0].count;
    for (size_t i = 0; i <= n; i++) {
        const ung_wall_station *s = station + (i < n ? i : 0);
        c.x[i] = i < n ? s->around_fraction : s->around_fraction + 1;
        c.y[0][i] = s->wall_thickness_mm;
        c.y[1][i] = s->wall_angle_deg;
        if (i > 0 && c.x[i] - c.x[i - 1] < 1e-6) {
            where->refusal = i < n ? 1 : 2;
            where->row = (double)(i < n ? i : n - 1);
            where->other_row = (double)(i < n ? i - 1 : 0);
            return out;
        }
        if (s->wall_thickness_mm < out.least_thickness_mm) {
            out.least_thickness_mm = s->wall_thickness_mm;
            out.least_thickness_fraction = s->around_fraction;
        }
        out.steepest_deg = ung__max(out.steepest_deg, s->wall_angle_deg);
        out.flattest_deg = ung__min(out.flattest_deg, s->wall_angle_deg);
    }
    set_slopes(&c, 0);
    set_slopes(&c, 1);
    size_t i = 0;
    for (size_t k = 0; k < rows[1].count; k++) {
        double at = in->start_fraction + (double)k / (double)rows[1].count;
        double fraction = at >= 1 ? at - 1 : at; /* 2 cannot be reached: start <= 1 and the step ends before 1 */
        double x = fraction < c.x[0] ? fraction + 1 : fraction;
        while (i + 1 < n && x >= c.x[i + 1])
            i++;
        while (i > 0 && x < c.x[i])
            i--;
        profile[k] = (ung_wall_station){fraction, value_at(&c, 0, i, x), value_at(&c, 1, i, x)};
    }
    return out;
}

#include "core/define.h"
