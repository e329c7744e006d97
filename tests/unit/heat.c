/* Times and temperatures: cast_set, cure_energy, working_time. */
#include "../edges.h"

#define GAS_L 8.31446261815324L
#define KELVIN_L 273.15L

static ung_cure_energy_out energy(double first_s, double first_c, double second_s, double second_c, double at_c)
{
    ung_cure_energy_in in = {first_s, first_c, second_s, second_c, at_c};
    ung_cure_energy_out out;
    ck_assert_int_eq(ung_cure_energy(&in, &out, NULL), UNG_OK);
    return out;
}

/* Energies that go with printed times, in kJ/mol to one decimal: pairs of a cold-weather acrylic's table (gel 40, 26,
 * 11, 4, 1.5 min at -5, 0, 5, 20, 30 C; cure 2160, 120, 60, 30 min at -23, 5, 20, 30 C), a hoof acrylic's rule (half at
 * 90 F against 70 F), two general rules (half for 10 C, for 8 C), bone cement of Koh and others 2015, J Orthop Surg
 * Res 10:178 (534, 414, 381 s at 20, 24, 28 C), and casting tape of Ayzenberg and others 2018 (7, 5, 3.5 min in water
 * of 9, 22, 36 C).  Worked by hand with R = 8.314, which is half a unit of their fifth digit. */
START_TEST(printed_series)
{
    static const struct {
        double first_min, first_c, second_min, second_c, kj;
    } series[] = {
        {40, -5, 26, 0, 52.5},       {26, 0, 11, 5, 108.7},          {11, 5, 4, 20, 45.7},
        {4, 20, 1.5, 30, 72.5},      {40, -5, 1.5, 30, 63.4},        {120, 5, 60, 20, 31.3},
        {60, 20, 30, 30, 51.2},      {2160, -23, 30, 30, 50.9},      {2, 190 / 9.0, 1, 290 / 9.0, 46.6},
        {10, 25, 5, 35, 52.9},       {2, 20, 1, 28, 63.6},           {534 / 60.0, 20, 414 / 60.0, 24, 46.1},
        {7, 9, 5, 22, 17.9},         {5, 22, 3.5, 36, 19.3},         {534 / 60.0, 20, 381 / 60.0, 28, 31.0},
    };
    for (size_t i = 0; i < sizeof series / sizeof *series; i++) {
        double first = series[i].first_min * 60, second = series[i].second_min * 60;
        ung_cure_energy_out out = energy(first, series[i].first_c, second, series[i].second_c, 20);
        ck_near(out.activation_energy_kj, series[i].kj, 0.0501 + 5e-5 * series[i].kj);
        ck_relative(out.apart_c, series[i].second_c - series[i].first_c, 1e-15);
        out = energy(second, series[i].second_c, first, series[i].first_c, 20); /* either way round */
        ck_near(out.activation_energy_kj, series[i].kj, 0.0501 + 5e-5 * series[i].kj);
    }
}
END_TEST

/* For E of 52 kJ/mol at 20 C, and against long double; 1e-13 is the accuracy stated. */
START_TEST(factors)
{
    double hot = (double)(360 * expl(52000 / GAS_L * (1 / 303.15L - 1 / 293.15L)));
    ung_cure_energy_out out = energy(360, 20, hot, 30, 20);
    ck_relative(out.activation_energy_kj, 52, 1e-13);
    ck_relative(out.ten_degrees_factor, 2.0213291992862, 1e-13);
    ck_relative(out.halving_c, 9.84420205493, 1e-12); /* as many digits are printed */
    for (size_t i = 0; i < scaled(2000); i++) {
        double t1 = random_between(-40, 50), t2 = random_between(t1 + 5, 60), at = random_between(-40, 60);
        double first = random_between(10, 1e6), second = first * random_between(0.01, 0.9);
        if (second < 1)
            continue;
        long double k = KELVIN_L, e = logl((long double)first / second) / (1 / (t1 + k) - 1 / (t2 + k)), t = at + k;
        out = energy(first, t1, second, t2, at);
        ck_relative(out.activation_energy_kj, (double)(e * GAS_L / 1000), 1e-13);
        ck_relative(out.ten_degrees_factor, (double)expl(e * (1 / t - 1 / (t + 10))), 1e-13);
        long double inverse = 1 / t - logl(2) / e;
        if (inverse > 0.01L / t) /* nearer to no such temperature the digits go */
            ck_relative(out.halving_c, (double)(1 / inverse - t), 1e-11);
        else if (inverse < 0)
            ck_assert(out.halving_c == INFINITY);
    }
}
END_TEST

static ung_working_time_out work(double reference_s, double reference_c, double c, double kj, double wanted)
{
    ung_working_time_in in = {reference_s, reference_c, c, kj, wanted};
    ung_working_time_out out;
    ck_assert_int_eq(ung_working_time(&in, &out, NULL), UNG_OK);
    return out;
}

/* Multipliers on a time at 20 C, worked by hand to two decimals; and three times with 15 digits (30-digit arithmetic). */
START_TEST(working_times)
{
    static const struct {
        double kj, factor[9];
    } rows[] = {
        {45, {5.59, 3.86, 2.71, 1.92, 1.38, 1, 0.73, 0.54, 0.41}},
        {52, {7.31, 4.77, 3.16, 2.12, 1.45, 1, 0.70, 0.49, 0.35}},
        {60, {9.92, 6.06, 3.77, 2.39, 1.53, 1, 0.66, 0.44, 0.30}},
    };
    for (int r = 0; r < 3; r++)
        for (int i = 0; i < 9; i++) {
            ung_working_time_out out = work(360, 20, -5 + 5 * i, rows[r].kj, 300);
            ck_near(out.time_factor, rows[r].factor[i], 0.0051); /* half a printed unit */
            ck_relative(out.time_s, 360 * out.time_factor, 1e-15);
        }
    ck_relative(work(360, 20, 25, 52, 240).time_s, 251.722013348621, 1e-14);
    ck_relative(work(360, 20, 32, 52, 240).time_s, 155.575738708280, 1e-14);
    ck_near(work(360, 20, 32, 52, 240).wanted_temperature_c, 25.679334587, 1e-9);
    for (size_t i = 0; i < scaled(3000); i++) {
        double s = random_between(10, 20000), ref = random_between(0, 40), c = random_between(-25, 45);
        double e = random_between(10, 150), wanted = random_between(10, 20000);
        ung_working_time_out out = work(s, ref, c, e, wanted);
        long double apart = 1000 / GAS_L * (1 / (c + KELVIN_L) - 1 / (ref + KELVIN_L));
        ck_relative(out.time_s, (double)(s * expl(e * apart)), 1e-14);
        ck_relative(out.time_factor, (double)expl(e * apart), 1e-14);
        long double safe = c > ref ? fmaxl(e, 62) : fminl(e, 45);
        ck_relative(out.safe_time_s, (double)(s * expl(safe * apart)), 1e-14);
        must(out.safe_time_s <= out.time_s * (1 + 1e-15));
        long double inverse = 1 / (ref + KELVIN_L) + GAS_L / 1000 / e * logl((long double)wanted / s);
        if (inverse > 1e-4L) /* up to 10 000 K; the digits go with 1/inverse */
            ck_near(out.wanted_temperature_c, (double)(1 / inverse - KELVIN_L), (double)(1e-15 / (inverse * inverse)));
        else if (inverse < 0)
            ck_assert(out.wanted_temperature_c == INFINITY);
        if (out.wanted_temperature_c > -25 && out.wanted_temperature_c < 45) /* there and back */
            ck_relative(work(s, ref, out.wanted_temperature_c, e, wanted).time_s, wanted, 1e-12);
    }
    ck_assert(work(360, 20, 20, 52, 360).time_s == 360 && work(360, 20, 20, 52, 360).safe_time_s == 360);
}
END_TEST

static ung_cast_set_out tape_in(double water, double wanted)
{
    ung_cast_set_in in = ung_cast_set_standard();
    ung_cast_set_out out;
    in.water_c = water;
    in.wanted_time_s = wanted;
    ck_assert_int_eq(ung_cast_set(&in, &out, NULL), UNG_OK);
    return out;
}

/* Ayzenberg and others 2018: 7.0, 5.0, 3.5 min (standard deviations 0.5, 0.4, 0.1) and 25.2, 31.1, 36.6 C (0.5, 1.4,
 * 0.8) in water of 9, 22, 36 C; the lines are fitted here again, of ln t on 1/T and of the peak on the water. */
START_TEST(published_tape)
{
    static const double water[] = {9, 22, 36}, minutes[] = {7, 5, 3.5}, peak[] = {25.2, 31.1, 36.6};
    long double x = 0, y = 0, xx = 0, xy = 0, w = 0, p = 0, ww = 0, wp = 0;
    for (int i = 0; i < 3; i++) {
        x += 1 / (water[i] + KELVIN_L) / 3, y += logl(minutes[i]) / 3;
        w += water[i] / 3.0L, p += peak[i] / 3.0L;
    }
    for (int i = 0; i < 3; i++) {
        long double dx = 1 / (water[i] + KELVIN_L) - x, dw = water[i] - w;
        xx += dx * dx, xy += dx * (logl(minutes[i]) - y);
        ww += dw * dw, wp += dw * (peak[i] - p);
    }
    for (int c = 0; c <= 36; c++) { /* the printed constants have 15 digits: 1e-13 */
        ung_cast_set_out out = tape_in(c, 300);
        ck_relative(out.set_time_s, (double)(60 * expl(y + xy / xx * (1 / (c + KELVIN_L) - x))), 1e-13);
        ck_relative(out.peak_c, (double)(p + wp / ww * (c - w)), 1e-13);
        ck_relative(out.work_time_s, out.set_time_s / 2, 0);
        if (out.set_time_s >= 10)
            ck_near(tape_in(20, out.set_time_s).water_for_c, c, 1e-11); /* there and back */
    }
    for (int i = 0; i < 3; i++) { /* the accuracy stated of the fit */
        ck_near(tape_in(water[i], 300).set_time_s, 60 * minutes[i], 0.2 * 60);
        ck_near(tape_in(water[i], 300).peak_c, peak[i], 0.4);
    }
    /* The same with 40-digit arithmetic, as printed. */
    ck_printed(tape_in(9, 300).set_time_s, 421.821442241, 12);
    ck_printed(tape_in(20, 300).set_time_s, 313.189459292, 12);
    ck_printed(tape_in(24, 300).set_time_s, 282.588824809, 12);
    ck_printed(tape_in(36, 300).set_time_s, 210.926629905, 12);
    ck_printed(tape_in(24, 300).peak_c, 31.6697440585, 12);
    ck_printed(tape_in(24, 360).water_for_c, 14.7494502947, 12);
}
END_TEST

START_TEST(cautions)
{
    const ung_calculation *c = ung_cast_set_contract();
    check_cautions(c);
    check_rule(c, "hot_water", UNG_WARN, UNG_ABOVE, 24); /* Halanski and others 2007 */
    check_rule(c, "cold_water", UNG_NOTE, UNG_BELOW, 9); /* measured from 9 C */
    check_rule(c, "warm_room", UNG_NOTE, UNG_ABOVE, 29); /* 5 C from the room of the series */
    check_rule(c, "cold_room", UNG_NOTE, UNG_BELOW, 19);
    check_rule(c, "thick", UNG_WARN, UNG_ABOVE, 8);      /* measured with 8 plies */
    check_rule(c, "room_unit", UNG_WARN, UNG_ABOVE, 39.5);
    check_rule(c, "wanted_hot_water", UNG_WARN, UNG_ABOVE, 24);
    check_rule(c, "wanted_cold_water", UNG_NOTE, UNG_BELOW, 9);
    c = ung_cure_energy_contract();
    check_cautions(c);
    check_rule(c, "beyond", UNG_WARN, UNG_ABOVE, 150); /* what working_time takes */
    check_rule(c, "too_low", UNG_WARN, UNG_BELOW, 10);
    check_rule(c, "above_band", UNG_NOTE, UNG_ABOVE, 62); /* practice */
    check_rule(c, "below_band", UNG_NOTE, UNG_BELOW, 45);
    check_rule(c, "close", UNG_NOTE, UNG_BELOW, 8);
    check_rule(c, "first_unit", UNG_WARN, UNG_ABOVE, 40);
    check_rule(c, "second_unit", UNG_WARN, UNG_ABOVE, 40);
    ck_assert_uint_eq(ung_refusal_count(c), 2);
    c = ung_working_time_contract();
    check_cautions(c);
    check_rule(c, "short_time", UNG_WARN, UNG_BELOW, 120);
    check_rule(c, "cold", UNG_WARN, UNG_BELOW, 16); /* practice */
    check_rule(c, "warm", UNG_NOTE, UNG_ABOVE, 29); /* practice */
    check_rule(c, "unit", UNG_WARN, UNG_ABOVE, 39.5);
    check_rule(c, "reference_unit", UNG_WARN, UNG_ABOVE, 35);
    check_rule(c, "wanted_too_hot", UNG_NOTE, UNG_ABOVE, 38);
    check_rule(c, "wanted_too_cold", UNG_NOTE, UNG_BELOW, 0);
}
END_TEST

START_TEST(refusals)
{
    ung_cure_energy_in in = {600, 10, 240, 10.5, 20};
    ung_cure_energy_out out;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    ck_assert_int_eq(ung_cure_energy(&in, &out, &fault), UNG_RELATION);
    ck_assert(strstr(ung_fault_text(&fault, text), "first_temperature_c is 10 C with second_temperature_c 10.5 C"));
    in.second_temperature_c = 9; /* colder and faster */
    ck_assert_int_eq(ung_cure_energy(&in, &out, &fault), UNG_RELATION);
    ck_assert(strstr(ung_fault_text(&fault, text), "first_time_s is 600 s with second_time_s 240 s"));
    in.second_temperature_c = 11; /* exactly 1 C apart is accepted */
    ck_assert_int_eq(ung_cure_energy(&in, &out, &fault), UNG_OK);
    in.second_time_s = 600;
    ck_assert_int_eq(ung_cure_energy(&in, &out, &fault), UNG_RELATION);
    ung_working_time_in warm = {360, 70, 70, 52, 300}; /* Fahrenheit */
    ung_working_time_out time;
    ck_assert_int_eq(ung_working_time(&warm, &time, &fault), UNG_RANGE);
    ck_assert(strstr(ung_fault_text(&fault, text), "reference_temperature_c is 70 C; accepted values are 0 to 40 C"));
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "heat");
    tcase_add_test(tests, printed_series);
    tcase_add_test(tests, factors);
    tcase_add_test(tests, working_times);
    tcase_add_test(tests, published_tape);
    tcase_add_test(tests, cautions);
    tcase_add_test(tests, refusals);
    return finish(runner);
}
