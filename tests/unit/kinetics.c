/* Cure and cast by temperature: cure_energy, working_time, cast_set. */
#include "../edges.h"

enum { DIGITS = 12 }; /* as printed by an independent recomputation */

static const long double gas = 8.31446261815324L, zero = 273.15L;

static ung_cure_energy_out energy_of(double t1, double c1, double t2, double c2)
{
    ung_cure_energy_in in = ung_cure_energy_standard();
    in.first_time_s = t1, in.first_temperature_c = c1, in.second_time_s = t2, in.second_temperature_c = c2;
    ung_cure_energy_out out;
    ck_assert_int_eq(ung_cure_energy(&in, &out, NULL), UNG_OK);
    return out;
}

static double fahrenheit(double f)
{
    return (f - 32) / 1.8;
}

/* Least squares of ln t on 1/T is the mean of the pairs' slopes, weighted by the squares of their distances in 1/T, so
 * the printed fits of whole tables follow from the pairs' energies.  Printed to a tenth. */
START_TEST(printed_fits)
{
    static const struct {
        double energy;
        int count;
        double celsius[7], minutes[7];
    } fits[] = {
        /* cold-weather acrylic anchor adhesive, technical guide of 2016, tables 23 (gel) and 24 (cure) */
        {62.1, 5, {-5, 0, 5, 20, 30}, {40, 26, 11, 4, 1.5}},
        {51.6, 7, {-23, -18, -5, 0, 5, 20, 30}, {2160, 1440, 360, 240, 120, 60, 30}},
        /* epoxy injection mortar, data of ETA-07/0260, cure in hours by bands of temperature, at their middles */
        {61.6, 6, {7, 12, 17, 24.5, 34.5, 40}, {72 * 60, 48 * 60, 24 * 60, 12 * 60, 8 * 60, 4 * 60}},
    };
    for (size_t k = 0; k < sizeof fits / sizeof *fits; k++) {
        double sum = 0, weights = 0;
        for (int i = 0; i < fits[k].count; i++)
            for (int j = 0; j < i; j++) {
                double a = fits[k].celsius[i], b = fits[k].celsius[j];
                double apart = 1 / (a + 273.15) - 1 / (b + 273.15);
                sum += apart * apart * energy_of(fits[k].minutes[i] * 60, a, fits[k].minutes[j] * 60, b).activation_energy_kj;
                weights += apart * apart;
            }
        ck_near(sum / weights, fits[k].energy, 0.05);
    }
}
END_TEST

/* Energies as printed to a tenth, computed with R = 8.314 and rounded differences: within their last digit. */
START_TEST(printed_energies)
{
    static const struct {
        double t1, c1, t2, c2, energy;
    } series[] = {
        /* cold-weather acrylic anchor adhesive, technical guide of 2016, tables 23 and 24, minutes */
        {40, -5, 26, 0, 52.5},
        {26, 0, 11, 5, 108.7},
        {11, 5, 4, 20, 45.7},
        {4, 20, 1.5, 30, 72.5},
        {40, -5, 1.5, 30, 63.4},
        {120, 5, 60, 20, 31.3},
        {60, 20, 30, 30, 51.2},
        {2160, -23, 30, 30, 50.9},
        /* rule of a data sheet: two-part adhesives double their speed by 10 C, gel 10 to 5 min, cure 60 to 30 min */
        {10, 25, 5, 35, 52.9},
        {60, 25, 30, 35, 52.9},
        /* rule of a data sheet: 8 C halve the time */
        {20, 20, 10, 28, 63.6},
        /* Koh et al. 2015, J Orthop Surg Res 10:178: bone cement, seconds */
        {534 / 60.0, 20, 414 / 60.0, 24, 46.1},
        {534 / 60.0, 20, 381 / 60.0, 28, 31.0},
        /* Ayzenberg, Narvaez & Raphael 2018, Orthopedic Reviews 10:7314: casting tape by the water, minutes */
        {7, 9, 5, 22, 17.9},
        {5, 22, 3.5, 36, 19.3},
        {7, 9, 3.5, 36, 18.6},
    };
    for (size_t i = 0; i < sizeof series / sizeof *series; i++) {
        double t1 = series[i].t1 * 60, t2 = series[i].t2 * 60;
        double e = energy_of(t1, series[i].c1, t2, series[i].c2).activation_energy_kj;
        ck_near(e, series[i].energy, 0.1);
        double turned = energy_of(t2, series[i].c2, t1, series[i].c1).activation_energy_kj;
        ck_relative(turned, e, 1e-14); /* the logarithms of a quotient and of its inverse round apart */
    }
    /* hoof acrylic, supplier's rule: the cure halves from 70 F to 90 F: 46.6 kJ/mol, 11.1 C */
    ung_cure_energy_in in = ung_cure_energy_standard();
    in.first_time_s = 600, in.first_temperature_c = fahrenheit(70);
    in.second_time_s = 300, in.second_temperature_c = fahrenheit(90);
    in.at_temperature_c = fahrenheit(70);
    ung_cure_energy_out out;
    ck_assert_int_eq(ung_cure_energy(&in, &out, NULL), UNG_OK);
    ck_near(out.activation_energy_kj, 46.6, 0.1);
    ck_relative(out.halving_rise_c, 100.0 / 9, 1e-12); /* the rise that was put in; F to C loses some digits */
}
END_TEST

static ung_working_time_in day(double time, double from, double at, double energy)
{
    ung_working_time_in in = ung_working_time_standard();
    in.reference_time_s = time, in.reference_temperature_c = from, in.temperature_c = at;
    in.activation_energy_kj = energy;
    return in;
}

static ung_working_time_out worked(ung_working_time_in in)
{
    ung_working_time_out out;
    ck_assert_int_eq(ung_working_time(&in, &out, NULL), UNG_OK);
    return out;
}

/* Factor per 10 C and halving of given energies, from points made with them in extended precision. */
START_TEST(factors_of_an_energy)
{
    static const struct {
        double energy, at, factor, halving, factor_within, halving_within;
    } rows[] = {
        {52, 20, 2.0213291992862, 9.84420205493, 1e-12, 1e-11}, /* independent recomputation, 12 to 14 digits */
        /* least squares of the anchor adhesive's tables 23 and 24: printed factors and halvings at 20 C */
        {62.1, 20, 2.32, 8.2, 0.005, 0.05},
        {51.6, 20, 2.01, 9.9, 0.006, 0.05}, /* 2.0102: printed from an energy with more digits */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        long double inverse = 1 / (zero - 5) - 1 / (zero + 30);
        double second = (double)(2400 * expl(-1000 * rows[i].energy / gas * inverse));
        ung_cure_energy_in in = {2400, -5, second, 30, rows[i].at};
        ung_cure_energy_out out;
        ck_assert_int_eq(ung_cure_energy(&in, &out, NULL), UNG_OK);
        ck_relative(out.activation_energy_kj, rows[i].energy, 1e-14); /* the accuracy that is promised */
        ck_near(out.ten_degrees_factor, rows[i].factor, rows[i].factor_within);
        ck_near(out.halving_rise_c, rows[i].halving, rows[i].halving_within);
    }
    /* No rise halves a time that hardly depends on temperature: E < R T ln 2 = 1.69 kJ/mol at 20 C. */
    ck_assert(isinf(energy_of(1000, 0, 950, 30).halving_rise_c));  /* 1.18 kJ/mol */
    ck_assert(isfinite(energy_of(1000, 0, 920, 30).halving_rise_c)); /* 1.91 kJ/mol */
    /* The least slope is accepted, and ten degrees then do next to nothing: 1e-6 in 30 C, a third of it in 10. */
    ung_cure_energy_out level = energy_of(1000, 0, 999.999, 30);
    ck_near(level.activation_energy_kj, 2.3e-5, 1e-6);
    ck_near(level.ten_degrees_factor, 1 + 3.1e-7, 1e-8);
}
END_TEST

/* Recomputed in extended precision over the accepted ranges, in the textbook's form with its differences. */
START_TEST(in_extended_precision)
{
    for (size_t i = 0; i < scaled(5000); i++) {
        ung_working_time_in in;
        random_accepted(ung_working_time_contract(), (double *)&in, NULL);
        ung_working_time_out out = worked(in);
        long double from = in.reference_temperature_c + zero, at = in.temperature_c + zero;
        long double inverse = 1 / at - 1 / from, e = 1000 * (long double)in.activation_energy_kj / gas;
        long double steep = fmaxl(e, 62000 / gas), flat = fminl(e, 45000 / gas);
        long double s = in.reference_time_s * expl(steep * inverse), f = in.reference_time_s * expl(flat * inverse);
        ck_relative(out.working_time_s, (double)(in.reference_time_s * expl(e * inverse)), 2e-14); /* as promised */
        ck_relative(out.safe_time_s, (double)fminl(s, f), 2e-14);
        ck_relative(out.longest_time_s, (double)fmaxl(s, f), 2e-14);
        must(out.safe_time_s <= out.working_time_s * (1 + 1e-14));
        must(out.working_time_s <= out.longest_time_s * (1 + 1e-14));
        long double ln = logl((long double)in.wanted_time_s / in.reference_time_s);
        long double need = 1 / from + ln / e;
        long double safe = fminl(1 / (1 / from + ln / steep), 1 / (1 / from + ln / flat));
        if (need <= 0)
            must(isinf(out.wanted_temperature_c));
        else if (1 / need < zero + 100 && 1 / need > zero - 60) /* where the accuracy is promised */
            ck_near(out.wanted_temperature_c, (double)(1 / need - zero), 1e-12);
        if (safe > zero - 60 && safe < zero + 100)
            ck_near(out.safe_temperature_c, (double)(safe - zero), 1e-12);
    }
}
END_TEST

/* Multipliers on a time at 20 C as printed: three digits, two below 1. */
START_TEST(multipliers)
{
    static const double at[] = {-5, 0, 5, 10, 15, 20, 25, 30, 35};
    static const struct {
        double energy, times[9];
    } rows[] = {{45, {5.59, 3.86, 2.71, 1.92, 1.38, 1, 0.73, 0.54, 0.41}},
                {52, {7.31, 4.77, 3.16, 2.12, 1.45, 1, 0.70, 0.49, 0.35}},
                {60, {9.92, 6.06, 3.77, 2.39, 1.53, 1, 0.66, 0.44, 0.30}}};
    for (size_t i = 0; i < 3; i++)
        for (size_t j = 0; j < 9; j++)
            ck_near(worked(day(1000, 20, at[j], rows[i].energy)).working_time_s / 1000, rows[i].times[j], 0.0101);
}
END_TEST

START_TEST(working_times)
{
    ck_printed(worked(day(360, 20, 25, 52)).working_time_s, 251.722013348621, 14); /* independent recomputation */
    ck_printed(worked(day(360, 20, 32, 52)).working_time_s, 155.575738708280, 14);
    ung_working_time_in in = day(360, 20, 32, 52);
    in.wanted_time_s = 240;
    ck_printed(worked(in).wanted_temperature_c, 25.679334587, 11);
    /* At the temperatures that come back the times are the wanted one. */
    for (double wanted = 120; wanted < 1000; wanted += 97) {
        in.wanted_time_s = wanted;
        ung_working_time_out out = worked(in);
        ung_working_time_in then = in;
        then.temperature_c = out.wanted_temperature_c;
        ck_relative(worked(then).working_time_s, wanted, 1e-13); /* 1e-12 C at 7 % a degree */
        then.temperature_c = out.safe_temperature_c;
        ck_relative(worked(then).safe_time_s, wanted, 1e-13);
    }
    ck_assert(ung_working_time_standard().activation_energy_kj == 52);
    ck_assert(ung_working_time_standard().wanted_time_s == 300);
    ck_assert(ung_cure_energy_standard().at_temperature_c == 20);
}
END_TEST

static ung_cast_set_out dipped(double water, double wanted)
{
    ung_cast_set_in in = ung_cast_set_standard();
    in.water_c = water, in.wanted_time_s = wanted;
    ung_cast_set_out out;
    ck_assert_int_eq(ung_cast_set(&in, &out, NULL), UNG_OK);
    return out;
}

/* Ayzenberg, Narvaez & Raphael 2018, Orthopedic Reviews 10:7314: water, minutes, peak. */
static const double measured[3][3] = {{9, 7, 25.2}, {22, 5, 31.1}, {36, 3.5, 36.6}};

/* The line of least squares through y over x, at one place. */
static long double line_at(const long double *x, const long double *y, long double place)
{
    long double mx = (x[0] + x[1] + x[2]) / 3, my = (y[0] + y[1] + y[2]) / 3, xx = 0, xy = 0;
    for (int i = 0; i < 3; i++)
        xx += (x[i] - mx) * (x[i] - mx), xy += (x[i] - mx) * (y[i] - my);
    return my + xy / xx * (place - mx);
}

START_TEST(tape_sets)
{
    long double inverse[3], logs[3], water[3], peaks[3];
    for (int i = 0; i < 3; i++) {
        water[i] = measured[i][0], inverse[i] = 1 / (water[i] + zero);
        logs[i] = logl(60 * measured[i][1]), peaks[i] = measured[i][2];
        ung_cast_set_out out = dipped(measured[i][0], 300);
        ck_relative(out.set_time_s, 60 * measured[i][1], 0.012); /* the fit's residual; the means' spread is 3 to 8 % */
        ck_near(out.peak_c, measured[i][2], 0.4);                /* as the fit's; standard deviations 0.5 to 1.4 */
    }
    /* The fit again from the printed means; its constants have 14 digits, the time e^-6 times e^7.6 of them. */
    for (double w = 0; w <= 36; w += 0.5) {
        ung_cast_set_out out = dipped(w, 300);
        ck_relative(out.set_time_s, (double)expl(line_at(inverse, logs, 1 / (w + zero))), 1e-12);
        ck_relative(out.peak_c, (double)line_at(water, peaks, w), 1e-13);
        ck_relative(out.work_time_s, out.set_time_s / 2, 0);
        if (w > 0 && w <= 36) /* and back; 1e-12 of the time is 4e-11 C */
            ck_near(dipped(20, out.set_time_s).water_for_c, w, 1e-12);
    }
    ck_printed(dipped(9, 300).set_time_s, 421.821442241, DIGITS); /* independent recomputation */
    ck_printed(dipped(20, 300).set_time_s, 313.189459292, DIGITS);
    ck_printed(dipped(24, 300).set_time_s, 282.588824809, DIGITS);
    ck_printed(dipped(36, 300).set_time_s, 210.926629905, DIGITS);
    ck_printed(dipped(24, 300).peak_c, 31.6697440585, DIGITS);
    ck_printed(dipped(24, 360).water_for_c, 14.7494502947, DIGITS);
    /* A maker's note: 3 to 7 min to set, 1.5 to 3.5 min to work, in water of 20 to 25 C. */
    ung_cast_set_out out = dipped(22.5, 300);
    ck_assert(out.set_time_s > 180 && out.set_time_s < 420 && out.work_time_s > 90 && out.work_time_s < 210);
    ung_cast_set_in in = ung_cast_set_standard();
    ck_assert(in.water_c == 21 && in.room_c == 24 && in.layers == 8 && in.wanted_time_s == 300);
}
END_TEST

START_TEST(relations)
{
    const ung_calculation *c = ung_cure_energy_contract();
    ung_cure_energy_in in = {600, 20, 300, 20, 20};
    check_relation(c, 0, (double *)&in); /* equal temperatures do not come by chance */
    check_relation(c, 1, NULL);
    ck_assert_uint_eq(ung_refusal_count(c), 2);
    check_refused(c, (double *)&in, 0);
    in.second_temperature_c = 10; /* colder and quicker */
    check_refused(c, (double *)&in, 1);
    in.second_time_s = 600, in.second_temperature_c = 30;
    check_refused(c, (double *)&in, 1);
}
END_TEST

/* Fahrenheit is refused with the unit named, or asked about. */
START_TEST(fahrenheit_is_noticed)
{
    ung_working_time_in in = day(360, 20, 70, 52);
    ung_working_time_out out;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    ck_assert_int_lt(ung_working_time(&in, &out, &fault), 0);
    ck_assert_ptr_nonnull(strstr(ung_fault_text(&fault, text), "temperature_c"));
    ck_assert_ptr_nonnull(strstr(text, " C"));
    check_rule(ung_working_time_contract(), "fahrenheit", UNG_WARN, UNG_ABOVE, 40);
    check_rule(ung_cast_set_contract(), "fahrenheit_room", UNG_WARN, UNG_ABOVE, 40);
    check_rule(ung_cast_set_contract(), "fahrenheit_water", UNG_WARN, UNG_ABOVE, 32);
    check_rule(ung_cure_energy_contract(), "fahrenheit_first", UNG_WARN, UNG_ABOVE, 40);
    check_rule(ung_cure_energy_contract(), "fahrenheit_second", UNG_WARN, UNG_ABOVE, 40);
    check_rule(ung_cure_energy_contract(), "fahrenheit_at", UNG_WARN, UNG_ABOVE, 40);
}
END_TEST

START_TEST(cautions)
{
    const ung_calculation *c = ung_cure_energy_contract();
    check_cautions(c);
    check_rule(c, "unlikely_low", UNG_WARN, UNG_BELOW, 10);   /* what working_time takes */
    check_rule(c, "unlikely_high", UNG_WARN, UNG_ABOVE, 150); /* the same */
    check_rule(c, "low_energy", UNG_NOTE, UNG_BELOW, 45);     /* the published band */
    check_rule(c, "high_energy", UNG_NOTE, UNG_ABOVE, 62);
    c = ung_working_time_contract();
    check_cautions(c);
    check_rule(c, "minutes", UNG_WARN, UNG_BELOW, 60);
    check_rule(c, "too_short", UNG_WARN, UNG_BELOW, 0);
    check_factors(c, "too_short", 1, -1);
    check_rule(c, "cold", UNG_NOTE, UNG_BELOW, 16); /* two suppliers' windows: 16 to 27 and 18 to 29 C */
    check_rule(c, "hot", UNG_NOTE, UNG_ABOVE, 29);
    check_rule(c, "cold_reference", UNG_NOTE, UNG_BELOW, 15);
    check_rule(c, "hot_reference", UNG_NOTE, UNG_ABOVE, 30);
    c = ung_cast_set_contract();
    check_cautions(c);
    check_rule(c, "warm_water", UNG_WARN, UNG_ABOVE, 24); /* Halanski et al. 2007 */
    check_rule(c, "warm_wanted", UNG_WARN, UNG_ABOVE, 24);
    check_rule(c, "no_such_water", UNG_WARN, UNG_BELOW, 0);
    check_rule(c, "many_layers", UNG_WARN, UNG_ABOVE, 8); /* Ayzenberg et al. 2018 */
    check_rule(c, "cold_water", UNG_NOTE, UNG_BELOW, 9);
    check_rule(c, "cold_wanted", UNG_NOTE, UNG_BELOW, 9);
    check_rule(c, "warm_room", UNG_NOTE, UNG_ABOVE, 29);
    check_rule(c, "cold_room", UNG_NOTE, UNG_BELOW, 19);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "kinetics");
    tcase_add_test(tests, printed_energies);
    tcase_add_test(tests, printed_fits);
    tcase_add_test(tests, factors_of_an_energy);
    tcase_add_test(tests, in_extended_precision);
    tcase_add_test(tests, multipliers);
    tcase_add_test(tests, working_times);
    tcase_add_test(tests, tape_sets);
    tcase_add_test(tests, relations);
    tcase_add_test(tests, fahrenheit_is_noticed);
    tcase_add_test(tests, cautions);
    return finish(runner);
}
