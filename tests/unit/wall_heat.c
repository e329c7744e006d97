/* Heat of a curing film: known solutions of conduction, balances, refinement, burns. */
#define UNG__WALL_MOST 640
#include "../common.h"

#include "cure/wall.h"

static ung__wall_case plain(double rise, int tissue)
{
    return (ung__wall_case){
        .layer = {{2e-3, 0.2, 1.9e6, 40}, {5e-3, 0.25, 2.4e6, 24}, {5e-3, 0.5, 3.6e6, tissue ? 12 : 0}},
        .exchange = 10, .ambient = 25, .body = 37, .start = 25, .horn = 30, .rise = rise,
        .rate = log((0.01 + 0.1) / (0.01 * 0.9)) / (1.01 * 360), .energy = 52000 / 8.31446261815324,
        .reference = 293.15, .initiation = 0.01, .gel = 0.1, .final = 1, .tolerance = 0.01};
}

/* A slab of one stuff, uniform at first, its outer face brought to another temperature, the inner face insulated:
 * share of the difference left there (Carslaw and Jaeger 1959, 3.3 (8), from memory). */
static double slab_left(double fourier)
{
    double sum = 0;
    for (int n = 200; n >= 0; n--)
        sum += (n % 2 ? -1 : 1) * 4 / ((double)PI_L * (2 * n + 1)) * exp(-pow((2 * n + 1) * (double)PI_L / 2, 2) * fourier);
    return sum;
}

START_TEST(cooling_slab)
{
    ung__wall_case c = plain(0, 0);
    c.layer[0] = (ung__wall_layer){2e-3, 0.25, 2.4e6, 40};
    c.exchange = 1e9; /* as good as held */
    c.start = c.horn = 60;
    c.ambient = 20;
    ung__wall_course r = ung__wall_run(&c);
    double per_second = 0.25 / 2.4e6 / (7e-3 * 7e-3), low = 0, high = 3000, damage = 0;
    for (int i = 0; i < 60; i++) {
        double middle = (low + high) / 2;
        *(20 + 40 * slab_left(per_second * middle) > 44 ? &low : &high) = middle;
    }
    int n = 20000;
    for (int i = 0; i < n; i++)
        damage += low / n * 3.1e98 * exp(-75000 / (293.15 + 40 * slab_left(per_second * low * (i + 0.5) / n)));
    ck_near(r.above, low, 0.3); /* cells of 0.1 to 0.4 mm, and steps of 0.01 C */
    ck_relative(r.damage, damage, 0.01);
    ck_near(r.inner_peak, 60, 0.02);
}
END_TEST

/* Resistances in series; without heat of cure a cold horn warms up to that. */
START_TEST(steady)
{
    ung__wall_case c = plain(0, 1);
    c.horn = 5;
    double outside = 1.0 / 10 + 2e-3 / 0.2 + 5e-3 / 0.25, inside = 5e-3 / 0.5;
    ung__wall_course r = ung__wall_run(&c);
    ck_near(r.inner_peak, (25 * inside + 37 * outside) / (inside + outside), 0.02); /* error of the steps */
    ck_assert(r.inner_peak_time > 600);
}
END_TEST

/* With no exchange all heat of the cure stays, shared by film and horn. */
START_TEST(balance)
{
    for (int k = 0; k < 2; k++) {
        ung__wall_case c = plain(k ? 120 : 157.9, 0);
        c.exchange = 1e-12;
        c.final = k ? 0.8 : 1;
        c.start = c.horn = 25;
        ung__wall_course r = ung__wall_run(&c);
        double heat = c.rise * c.final * 2e-3 * 1.9e6;
        ck_relative(r.heat, heat, 1e-7); /* linear sums are kept to rounding; a cure of 1 leaves a rest */
        ck_near(r.inner_peak, 25 + heat / (2e-3 * 1.9e6 + 5e-3 * 2.4e6), 0.1);
    }
}
END_TEST

/* At a constant temperature: times to damage 1 of the integral, 6.90 min at 49 C, 14.2 at 48, 98.5 s at 51, each
 * printed to three digits; near what burned skin at 49 C (from memory Moritz and Henriques 1947: 8 to 9 min). */
START_TEST(burns)
{
    ck_printed(1 / ung__wall_harm(49) / 60, 6.90, 3);
    ck_printed(1 / ung__wall_harm(48) / 60, 14.2, 3);
    ck_printed(1 / ung__wall_harm(51), 98.5, 3);
    ck_printed(0.53 / ung__wall_harm(55), 3.11, 3);
    ung__wall_case c = plain(0, 0);
    c.exchange = 1e-12;
    c.start = c.horn = c.ambient = 49;
    ung__wall_course r = ung__wall_run(&c);
    ck_near(r.above, 21600, 1e-6);
    ck_relative(r.damage, 21600 * 3.1e98 * exp(-75000 / 322.15), 1e-6);
}
END_TEST

/* A film that stays at the reference temperature gels at the reference time. */
START_TEST(film_time)
{
    ung__wall_case c = plain(0, 0);
    c.start = c.horn = c.ambient = 20;
    ck_near(ung__wall_run(&c).gel, 360, 0.1); /* error of the steps */
    c.start = c.horn = c.ambient = 25; /* 360 s times the Arrhenius factor */
    ck_near(ung__wall_run(&c).gel, 251.722013348621, 0.1);
}
END_TEST

START_TEST(refined)
{
    random_state = 5;
    for (size_t k = 0; k < scaled(20); k++) {
        ung__wall_case c = plain(random_between(115, 200), k % 2);
        c.layer[0].thickness = random_between(0.5e-3, 3e-3);
        c.layer[1].thickness = random_between(4e-3, 12e-3);
        c.start = random_between(5, 35), c.horn = random_between(10, 35), c.ambient = random_between(0, 38);
        c.exchange = random_between(8, 60), c.energy = random_between(45e3, 62e3) / 8.31446261815324;
        c.final = k % 4 < 2 ? 1 : 0.8;
        ung__wall_course r = ung__wall_run(&c);
        for (int l = 0; l < 3; l++)
            c.layer[l].cells *= 3;
        c.tolerance = 0.001;
        ung__wall_course s = ung__wall_run(&c);
        ck_near(r.inner_peak, s.inner_peak, 0.1);
        ck_near(r.film_peak, s.film_peak, s.film_peak < 100 ? 1 : 3); /* as the contract says */
        ck_relative(r.gel, s.gel, 1e-3);
        ck_near(r.above, s.above, 10);
        ck_near(r.damage, s.damage, 0.01 * s.damage + 1e-4);
    }
}
END_TEST

static ung_wall_heat_in usual(double film)
{
    ung_wall_heat_in in = ung_wall_heat_standard();
    in.adhesive_mm = film, in.horn_mm = 5, in.horn_c = 30, in.start_c = 25, in.ambient_c = 25;
    in.reference_time_s = 360, in.reference_temperature_c = 20;
    return in;
}

START_TEST(by_contract)
{
    ung_wall_heat_out out;
    ung_fault fault;
    ung_wall_heat_in in = usual(2);
    ck_assert_int_eq(ung_wall_heat(&in, &out, &fault), UNG_OK);
    ung__wall_case c = plain(300 / 1.9, 0);
    for (int l = 0; l < 2; l++)
        c.layer[l].cells *= 3;
    c.tolerance = 0.001;
    ung__wall_course fine = ung__wall_run(&c);
    ck_near(out.inner_peak_c, fine.inner_peak, 0.1);
    ck_near(out.film_gel_time_s, fine.gel, 0.1);
    const ung_calculation *w = ung_calculation_find("wall_heat");
    ck_assert(has_caution(w, &in.adhesive_mm, &out.film_peak_c, "inner_hot"));
    ck_assert(has_caution(w, &in.adhesive_mm, &out.film_peak_c, "burns"));
    in.adhesive_mm = 1;
    ck_assert_int_eq(ung_wall_heat(&in, &out, &fault), UNG_OK);
    ck_assert(!has_caution(w, &in.adhesive_mm, &out.film_peak_c, "inner_hot"));
    ck_assert(has_caution(w, &in.adhesive_mm, &out.film_peak_c, "inner_warm"));
    in.tissue_count = 1;
    ck_assert_int_eq(ung_wall_heat(&in, &out, &fault), UNG_OK);
    ck_assert(out.inner_peak_c < 44 && out.time_above_44_s == 0 && out.burn_damage_ratio == 0);
    in.gel_fraction = 0.8, in.final_fraction = 0.8;
    ck_assert_int_eq(ung_wall_heat(&in, &out, &fault), UNG_RELATION);
    in = usual(1);
    in.heat_j_g = 480; /* 252.6 C */
    ck_assert_int_eq(ung_wall_heat(&in, &out, &fault), UNG_RELATION);
    in.heat_j_g = 474; /* 249.5 C */
    ck_assert_int_eq(ung_wall_heat(&in, &out, &fault), UNG_OK);
    in.start_c = 72; /* Fahrenheit */
    ck_assert_int_lt(ung_wall_heat(&in, &out, &fault), 0);
    char text[UNG_FAULT_TEXT];
    ck_assert_ptr_nonnull(strstr(ung_fault_text(&fault, text), "start_c"));
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *t = begin(&runner, "wall_heat");
    tcase_add_test(t, cooling_slab);
    tcase_add_test(t, steady);
    tcase_add_test(t, balance);
    tcase_add_test(t, burns);
    tcase_add_test(t, film_time);
    tcase_add_test(t, refined);
    tcase_add_test(t, by_contract);
    return finish(runner);
}
