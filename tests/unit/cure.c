/* Cure: cup_cure. */
#include "../edges.h"

#include "cure/cup.h"

/* Every cup of these tests gels in 360 s at 20 C as a film. */
static ung_cup_cure_in cup(double mass, double surface, double exchange, double ambient, double start)
{
    ung_cup_cure_in in = ung_cup_cure_standard();
    in.mass_g = mass;
    in.surface_cm2 = surface;
    in.exchange_w_m2k = exchange;
    in.ambient_c = ambient;
    in.start_c = start;
    in.reference_time_s = 360;
    in.reference_temperature_c = 20;
    return in;
}

static ung_cup_cure_out cured(const ung_cup_cure_in *in)
{
    ung_cup_cure_out out;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    must_msg(ung_cup_cure(in, &out, &fault) == UNG_OK, "%s", ung_fault_text(&fault, text));
    return out;
}

/* Computed apart, in the variables a and T, by an explicit method of order 8 at a tolerance of 1e-13 (SciPy 1.10,
 * DOP853, events at its own peak); the times of films by their formula. */
START_TEST(worked_examples)
{
    static const struct {
        double mass, surface, exchange, ambient, gel, film, peak, peak_time;
    } all[] = {{55, 95, 10, 25, 186.599091837, 251.722013348621, 181.403702631, 214.46793421},
               {55, 95, 10, 32, 116.270187243, 155.575738708280, 188.895854496, 134.70160642},
               {20, 400, 30, 25, 224.925173701, 251.722013348621, 121.510591102, 319.76361556}};
    for (size_t i = 0; i < sizeof all / sizeof *all; i++) {
        const ung_cup_cure_in in = cup(all[i].mass, all[i].surface, all[i].exchange, all[i].ambient, all[i].ambient);
        const ung_cup_cure_out out = cured(&in);
        /* a few units of the last printed digit; what is promised is 1e-8 */
        ck_relative(out.gel_time_s, all[i].gel, 5e-11);
        ck_relative(out.film_time_s, all[i].film, 1e-14);
        ck_near(out.peak_temperature_c, all[i].peak, 1e-8);
        ck_relative(out.peak_time_s, all[i].peak_time, 1e-10);
        ck_relative(out.adiabatic_rise_c, 300 / 1.9, 1e-15);
    }
}
END_TEST

/* The numbers of the text, from the calculation. */
START_TEST(text)
{
    const char *about = ung_calculation_about(ung_cup_cure_contract());
    const ung_cup_cure_in cups[] = {cup(55, 95, 10, 25, 25), cup(20, 400, 30, 25, 25), cup(5, 100, 115, 25, 25)};
    for (size_t i = 0; i < 3; i++) {
        char line[100];
        const ung_cup_cure_out out = cured(cups + i);
        snprintf(line, sizeof line, "gel after %.1f s, peak %.1f C after %.1f s", out.gel_time_s,
                 out.peak_temperature_c, out.peak_time_s);
        ck_assert_msg(strstr(about, line) != NULL, "not in the text: %s", line);
    }
}
END_TEST

/* ---- Closed forms, on the inside ---- */

static ung__cup inside(double initiation, double rise, double cooling, double inverse_rate, double energy, double base)
{
    ung__cup c = {.ambient = base, .rise = rise, .cooling = cooling, .initiation = initiation,
                  .inverse_rate = inverse_rate, .energy = energy, .inverse_base = 1 / base};
    c.fixture = ung__cup_place(initiation, 0.6);
    c.last = log(1e13 / initiation);
    return c;
}

/* At one temperature, k1 = 1e-4 and k2 = 2e-2 1/s: a = (1 - e)/(1 + k2/k1 e), e = exp(-(k1 + k2) t).  Without heat the
 * run is the quadrature of a constant, so nothing is left but rounding: some 1e-14. */
START_TEST(one_temperature)
{
    const double k1 = 1e-4, k2 = 2e-2;
    for (int t = 100; t <= 600; t += 100) {
        const double e = exp(-(k1 + k2) * t), a = (1 - e) / (1 + k2 / k1 * e);
        ung__cup c = inside(k1 / k2, 0, 1e-3, 1 / (k1 + k2), 6000, 300);
        c.gel = ung__cup_place(k1 / k2, a);
        ck_relative(ung__cup_gel_time(&c), t, 2e-13);
        ck_relative(ung__cup_share(&c, c.gel), a, 1e-13);
        /* da/dx is the slope of the share, by the derivative's own formula: k (i + a)(1 - a)/(k (1 + i)) */
        ck_relative(ung__cup_bell(&c, c.gel), (k1 / k2 + a) * (1 - a) / (1 + k1 / k2), 1e-13);
    }
}
END_TEST

/* Without cooling T = T0 + rise a, and time is an integral over a; here by Simpson's rule in long double, in the
 * variable y = ln((i + a)/(1 - a)), in which the integrand is smooth. */
static double kept_heat(const ung__cup *c, double a)
{
    const long double i = c->initiation, from = logl(i), to = logl((i + a) / (1 - a));
    const int n = 4000;
    long double sum = 0;
    for (int k = 0; k <= n; k++) {
        const long double e = expl(from + (to - from) * k / n), share = (e - i) / (1 + e);
        const long double kelvin = c->ambient + c->rise * share;
        const long double f = c->inverse_rate * expl(c->energy * (1 / kelvin - (long double)c->inverse_base));
        sum += f * (k == 0 || k == n ? 1 : k % 2 ? 4 : 2);
    }
    return (double)(sum * (to - from) / (3 * n));
}

START_TEST(no_cooling)
{
    static const double shares[] = {0.01, 0.1, 0.6, 0.9, 0.999};
    for (size_t k = 0; k < 5; k++) {
        ung__cup c = inside(0.01, 158, 0, 100, 6254, 293.15);
        c.gel = ung__cup_place(0.01, shares[k]);
        /* local errors of 1e-11, a few steps */
        ck_relative(ung__cup_gel_time(&c), kept_heat(&c, shares[k]), 1e-10);
    }
}
END_TEST

/* First order, A = 1e6 1/s, E = 50 kJ/mol, 20 C, adiabatic rise 150 K: times by quadrature, 5 digits.  As the rate
 * k (i + a)(1 - a) with a great i. */
START_TEST(first_order)
{
    static const double all[][2] = {{0.05, 32.457}, {0.1, 53.203}, {0.2, 76.009}, {0.5, 95.696}, {0.9, 101.323}, {0.99, 103.504}};
    for (size_t k = 0; k < 6; k++) {
        const double energy = 50000 / 8.314, base = 293.15;
        ung__cup c = inside(1e8, 150, 0, exp(energy / base) / 1e6, energy, base);
        c.gel = ung__cup_place(1e8, all[k][0]);
        ck_near(ung__cup_gel_time(&c), all[k][1], 5.1e-4);
    }
}
END_TEST

/* ---- The inside of the run ---- */

/* Of a rate by a state, by its difference on both sides: with a step of 1e-5 of the scale it errs by 1e-10 of what it
 * bends, and roundings are 1e-11. */
static double by_difference(ung__rate *rate, const ung__cup *c, double x, const double *y, int i, int j, double step)
{
    double low[3] = {y[0], y[1], y[2]}, high[3] = {y[0], y[1], y[2]}, f_low[3], f_high[3];
    low[j] -= step;
    high[j] += step;
    rate(c, x, low, f_low);
    rate(c, x, high, f_high);
    return (f_high[i] - f_low[i]) / (high[j] - low[j]);
}

/* Each Jacobian is the derivative of its rates; where several terms add up, each of them must be right. */
START_TEST(jacobians)
{
    for (int film = 0; film < 2; film++)
        for (double x = 0; x < 12; x += 1.5)
            for (double above = -30; above < 100; above += 13)
                for (double slope = -0.03; slope < 0.04; slope += 0.02) {
                    ung__cup c = inside(0.01, 158, film ? 0.01 : 1e-3, 300, 6254, 293.15);
                    c.film = film;
                    double y[3] = {above, slope, 0}, j[UNG__STATES_MOST][UNG__STATES_MOST];
                    ung__rate *const rate = film ? ung__film_rate : ung__cup_rate;
                    (film ? ung__film_jacobian : ung__cup_jacobian)(&c, x, y, j);
                    for (int i = 0; i <= film; i++)
                        for (int k = 0; k <= film; k++) {
                            const double d = by_difference(rate, &c, x, y, i, k, k == 0 ? 1e-3 : 1e-5);
                            /* of the largest number that the sums are made of */
                            const double size = i == 1 && k == 0 ? 0.01 : 1;
                            must_msg(fabs(j[i][k] - d) <= 1e-7 * fmax(fabs(d), size), "%d %d: %g, not %g", i, k, j[i][k], d);
                        }
                }
}
END_TEST

/* A film is what the surroundings hold at least four times as firmly as it could run away: they take up
 * cooling S, S the slowness, and a warmer film heats itself by at most (1 + i)/4 rise E/(R T^2) more; S at the warmer of
 * start and ambient, T at the colder. */
START_TEST(films)
{
    static const double starts[] = {-25, 0, 25};
    for (int k = 0; k < 3; k++) {
        ung__cup c = inside(0.3, 158, 1, 300, 6254, 293.15);
        c.above = starts[k];
        const double hot = 293.15 + fmax(c.above, 0), cold = 293.15 + fmin(c.above, 0);
        const double slow = 300 * exp(6254 * (1 / hot - 1 / 293.15));
        const double least = 1.3 * 158 * 6254 / (cold * cold) / slow;
        c.cooling = least * (1 + 1e-9);
        must(ung__cup_is_film(&c));
        c.cooling = least * (1 - 1e-9);
        must(!ung__cup_is_film(&c));
    }
}
END_TEST

/* No trial step is colder than 100 K, where 1/T would have no sense. */
START_TEST(absolute_temperatures)
{
    const ung__cup c = inside(0.01, 158, 1e-3, 300, 1000, 293.15);
    static const double above[] = {-193.15, -200, -293.15, -1e9};
    for (int k = 0; k < 4; k++) {
        const double y[3] = {above[k], 0, 0};
        double f[3];
        ck_relative(ung__cup_slowness(&c, above[k]), 300 * exp(1000 * (0.01 - 1 / 293.15)), 1e-13);
        ung__film_rate(&c, 0, y, f);
        must(isfinite(f[0]) && isfinite(f[1]) && isfinite(f[2]));
    }
}
END_TEST

/* ---- Behavior ---- */

/* A cup that is its own reference gels when the reference does. */
START_TEST(own_reference)
{
    static const double masses[] = {0.5, 5, 55, 400, 1000}, surfaces[] = {100, 27, 95, 1, 300};
    for (size_t k = 0; k < 5; k++)
        for (int gel = 1; gel <= 9; gel += 4) {
            ung_cup_cure_in in = cup(masses[k], surfaces[k], 10, 20, 20);
            in.reference_mass_g = masses[k];
            in.reference_surface_cm2 = surfaces[k];
            in.gel_fraction = 0.1 * gel;
            ck_relative(cured(&in).gel_time_s, 360, 1e-9); /* the search ends at 1e-12, steps err by 1e-11 */
        }
}
END_TEST

START_TEST(peaks)
{
    ung_cup_cure_in in = cup(1, 100, 500, 25, 45); /* a thin film only cools */
    ung_cup_cure_out out = cured(&in);
    ck_assert(out.peak_temperature_c == 45 && out.peak_time_s == 0);
    in = cup(500, 1, 1, 20, 45); /* a block only warms, and hardly cools */
    out = cured(&in);
    ck_near(out.peak_temperature_c, 45 + out.adiabatic_rise_c, 0.01);
    in = cup(500, 1, 1, 45, -25); /* it stops while it is colder than the ambient, and only warms up to that */
    in.final_fraction = 0.3;
    in.heat_j_g = 10;
    out = cured(&in);
    ck_assert(out.peak_temperature_c == 45 && out.peak_time_s == INFINITY && isfinite(out.gel_time_s));
    in = cup(55, 95, 10, 25, 25); /* still warming when it stops: at that time */
    in.final_fraction = 0.6;
    out = cured(&in);
    ck_assert(out.peak_time_s == out.fixture_time_s);
    ck_assert(out.peak_temperature_c < 25 + out.adiabatic_rise_c);
    in.final_fraction = nextafter(0.6, 0);
    ck_assert(cured(&in).fixture_time_s == INFINITY);
    in.final_fraction = 1;
    in.gel_fraction = 0.9; /* whichever comes first */
    out = cured(&in);
    ck_assert(out.fixture_time_s < out.gel_time_s && out.gel_time_s < out.peak_time_s);
    in = cup(1, 100, 500, 25, 25); /* a film that warms by less than a hundredth of a degree a second, as it stops */
    in.final_fraction = 0.3;
    out = cured(&in);
    ck_assert(out.peak_time_s > out.gel_time_s && out.peak_time_s < INFINITY);
    ck_relative(out.peak_time_s, out.film_time_s * log(0.31 / (0.01 * 0.7)) / log(0.11 / (0.01 * 0.9)), 0.02);
    in = cup(0.5, 1000, 500, 25, 5); /* and one that warms from the cold, by less than that at all */
    out = cured(&in);
    ck_assert(out.peak_temperature_c > 25 && out.peak_temperature_c < 25.1 && out.peak_time_s < INFINITY);
    in.heat_j_g = 10;
    out = cured(&in);
    ck_assert(out.peak_temperature_c > 25 && out.peak_temperature_c < 25.01 && out.peak_time_s < INFINITY);
}
END_TEST

/* The curve goes through the results; after the cure it falls as the ambient draws it; and where it is at other times is
 * told by an explicit method on the two equations as they stand. */
typedef struct plain {
    double k_ref, energy, base, i, rise, cooling, ambient;
} plain;

static void plain_rate(const void *context, double x, const double *y, double *f)
{
    const plain *p = (const plain *)context;
    (void)x;
    const double k = p->k_ref * exp(-p->energy * (1 / (p->ambient + y[1]) - 1 / p->base));
    f[0] = k * (p->i + y[0]) * (1 - y[0]);
    f[1] = p->rise * f[0] - p->cooling * y[1];
}

START_TEST(curve)
{
    const ung_cup_curve_in cups[] = {cup(55, 95, 10, 25, 25), cup(20, 400, 30, 25, 10), cup(5, 100, 115, 25, 35)};
    for (size_t k = 0; k < 3; k++) {
        enum { MANY = 40 };
        ung_cure_time times[MANY + 3];
        ung_cure_point point[MANY + 3];
        ung_cup_curve_out out;
        const ung_cup_cure_out alone = cured(cups + k);
        for (size_t j = 0; j < MANY; j++)
            times[j].time_s = 20.0 * (double)j;
        times[MANY].time_s = times[MANY + 1].time_s = 1e4; /* twice the same is twice the same */
        times[MANY + 2].time_s = 1e9;
        must(ung_cup_curve(cups + k, times, MANY + 3, point, MANY + 3, &out, NULL) == UNG_OK);
        must(memcmp(&out, &alone, sizeof out) == 0);
        must(memcmp(point + MANY, point + MANY + 1, sizeof *point) == 0);
        must(point[0].temperature_c == cups[k].start_c && point[0].cured_fraction == 0);
        must(point[MANY + 2].temperature_c == 25 && point[MANY + 2].cured_fraction > 1 - 1e-12);
        const double i = 0.01;
        const plain p = {log((i + 0.1) / (i * 0.9)) / (1.01 * 360), 52000 / 8.31446261815324, 293.15, i, 300 / 1.9,
                         1e-4 * cups[k].exchange_w_m2k * cups[k].surface_cm2 / (cups[k].mass_g * 1.9), 298.15};
        ung__ode o = {.states = 2, .coupled = 2, .rate = plain_rate, .context = &p, .relative = 1e-12,
                      .absolute = {1e-14, 1e-12}, .y = {0, cups[k].start_c - 25}};
        for (size_t j = 1; j < MANY; j++) { /* the promised 1e-8 of kelvins, less what steps of the other method err */
            while (o.x < times[j].time_s)
                must(ung__explicit_step(&o, times[j].time_s));
            ck_near(point[j].temperature_c, 25 + o.y[1], 3e-9 * 300);
            ck_near(point[j].cured_fraction, o.y[0], 1e-8 * o.y[0]);
        }
        times[0].time_s = out.gel_time_s;
        times[1].time_s = fmin(out.peak_time_s, 1e9);
        size_t n = times[1].time_s >= times[0].time_s ? 2 : 1;
        must(ung_cup_curve(cups + k, times, n, point, n, &out, NULL) == UNG_OK);
        ck_relative(point[0].cured_fraction, 0.1, 1e-9);
        if (n == 2)
            ck_near(point[1].temperature_c, out.peak_temperature_c, 1e-8);
    }
    /* stopped at 0.5: the curve stays there, and falls by the exponential from the peak */
    ung_cup_curve_in in = cups[0];
    in.final_fraction = 0.5;
    const ung_cup_cure_out stops = cured(&in);
    ung_cure_time times[] = {{stops.peak_time_s}, {stops.peak_time_s + 500}};
    ung_cure_point point[2];
    ung_cup_curve_out out;
    must(ung_cup_curve(&in, times, 2, point, 2, &out, NULL) == UNG_OK);
    ck_near(point[0].temperature_c, stops.peak_temperature_c, 1e-8);
    must(point[1].cured_fraction == 0.5);
    ck_relative(point[1].temperature_c - 25, (stops.peak_temperature_c - 25) * exp(-500 * 0.095 / (0.055 * 1900)),
                1e-10);
    ung_cup_curve_in film = cup(0.5, 1000, 500, 25, 25); /* which cools within hundredths of a second */
    film.final_fraction = 0.4; /* before its peak, so that it is hottest where it stops */
    const double cooling = 1e-4 * 500 * 1000 / (0.5 * 1.9), stop = cured(&film).peak_time_s;
    ung_cure_time soon[] = {{stop + 0.001}, {stop + 0.006}};
    must(ung_cup_curve(&film, soon, 2, point, 2, &out, NULL) == UNG_OK);
    /* the temperature, some 25 C, is rounded to 4e-15, and what is above it is hundredths of a degree */
    ck_relative((point[1].temperature_c - 25) / (point[0].temperature_c - 25), exp(-0.005 * cooling), 1e-8);
    const ung_calculation *c = ung_cup_curve_contract();
    ung_fault fault;
    times[1].time_s = nextafter(times[0].time_s, 0);
    must(ung_cup_curve(&in, times, 2, point, 2, &out, &fault) == UNG_RELATION);
    must(fault.index == 1 && fault.other_index == 0 && fault.value == times[1].time_s && isnan(point[0].temperature_c));
    ck_assert_str_eq(fault.unit, "s");
    ck_assert_str_eq(fault.text, ung_refusal(c, 3));
}
END_TEST

/* The sheets' fixture time over working time is 1.8 to 2.1; by the formula at one temperature 2.00825. */
START_TEST(fixture_over_gel)
{
    const double i = 0.01;
    ck_printed(ung__cup_place(i, 0.6) / ung__cup_place(i, 0.1), 2.00825, 6);
}
END_TEST

START_TEST(relations)
{
    const ung_calculation *c = ung_cup_cure_contract();
    ung_cup_cure_in in = cup(55, 95, 10, 25, 25);
    in.gel_fraction = in.final_fraction = 0.5;
    check_refused(c, (double *)&in, 0);
    in.final_fraction = nextafter(0.5, 1);
    check_accepted(c, (double *)&in);
    in = cup(55, 95, 10, 25, 25);
    in.reference_mass_g = 10;
    check_refused(c, (double *)&in, 1);
    in.reference_surface_cm2 = nextafter(1, 0);
    check_refused(c, (double *)&in, 1);
    in.reference_surface_cm2 = 1;
    check_accepted(c, (double *)&in);
    in.reference_mass_g = nextafter(0.5, 0);
    check_refused(c, (double *)&in, 2);
    in.reference_mass_g = 0.5;
    check_accepted(c, (double *)&in);
    in.reference_mass_g = 1e-3; /* however little */
    in.reference_surface_cm2 = 0;
    check_refused(c, (double *)&in, 1);
    in.reference_mass_g = 0;
    in.reference_surface_cm2 = 1e-3;
    check_refused(c, (double *)&in, 2);
    for (int k = 0; k < 3; k++)
        check_relation(c, k, NULL);
    ck_assert_uint_eq(ung_refusal_count(c), 3);
}
END_TEST

START_TEST(cautions)
{
    const ung_calculation *c = ung_cup_cure_contract();
    check_cautions(c);
    check_rule(c, "boils", UNG_WARN, UNG_ABOVE, 100); /* methyl methacrylate boils at 100 to 101 C (data pages) */
    check_rule(c, "hot", UNG_WARN, UNG_ABOVE, 60);    /* choice */
    check_rule(c, "runaway", UNG_WARN, UNG_ABOVE, 450); /* about 0.47 L: Handbook of Adhesive Technology */
    check_rule(c, "ambient_unit", UNG_NOTE, UNG_ABOVE, 40); /* choice */
    check_rule(c, "start_unit", UNG_NOTE, UNG_ABOVE, 40);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "cure");
    tcase_set_timeout(tests, 60);
    tcase_add_test(tests, jacobians);
    tcase_add_test(tests, films);
    tcase_add_test(tests, absolute_temperatures);
    tcase_add_test(tests, worked_examples);
    tcase_add_test(tests, text);
    tcase_add_test(tests, one_temperature);
    tcase_add_test(tests, no_cooling);
    tcase_add_test(tests, first_order);
    tcase_add_test(tests, own_reference);
    tcase_add_test(tests, peaks);
    tcase_add_test(tests, curve);
    tcase_add_test(tests, fixture_over_gel);
    tcase_add_test(tests, relations);
    tcase_add_test(tests, cautions);
    return finish(runner);
}
