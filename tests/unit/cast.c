/* Cast: cast_length. */
#include "../edges.h"

static ung_cast_length_in tape(double low, double high, double height, double width)
{
    ung_cast_length_in in = ung_cast_length_standard();
    in.circumference_low_mm = low;
    in.circumference_high_mm = high;
    in.band_height_mm = height;
    in.tape_width_mm = width;
    return in;
}

static ung_cast_length_out computed(ung_cast_length_in in)
{
    ung_cast_length_out out;
    ck_assert_int_eq(ung_cast_length(&in, &out, NULL), UNG_OK);
    return out;
}

static void check_tape(ung_cast_length_in in, int digits, double turns, double path, double length, double layers,
                       double edge, double strain)
{
    ung_cast_length_out out = computed(in);
    ck_printed(out.turns_per_pass, turns, digits);
    ck_printed(out.path_length_mm, path, digits);
    ck_printed(out.tape_length_mm, length, digits);
    ck_printed(out.layers, layers, digits);
    ck_assert(out.edge_plies_count == edge);
    ck_printed(out.edge_strain_fraction, strain, digits);
    ck_printed(out.thickness_mm, layers * 0.7, digits - 1);
    ck_assert(out.rolls_count == 1);
    ck_printed(out.leftover_mm, 3657.6 - length, digits - 1);
}

/* As printed by an independent recomputation of the model (40-digit arithmetic): rows of 13 and of 12 digits. */
START_TEST(reference_rows)
{
    ung_cast_length_in in = tape(405, 345, 100, 50.8);
    check_tape(in, 13, 2.937007874016, 2595.846282765, 2725.638596903, 3.516506431052, 1, 0.284797694068);
    /* Climbs, from two passes and the level turns: an anchor and the second pass end below, the first above. */
    double slope = -0.6, bottom = 405 + slope * 25.4, top = 345 - slope * 25.4;
    ck_near((computed(in).path_length_mm - 2 * bottom - top) / 2, 728.0431413825, 2e-10);
    in = tape(405, 345, 100, 76.2);
    check_tape(in, 12, 1.62467191601, 1603.05609661, 1683.20890144, 3.25740998831, 1, 0.427196541102);
    bottom = 405 + slope * 38.1;
    top = 345 - slope * 38.1;
    ck_near((computed(in).path_length_mm - 2 * bottom - top) / 2, 235.4580483058, 2e-10);
    in = tape(425.467670085608, 391.669479843991, 71.282447518679, 101.6);
    check_tape(in, 13, 1, 1225.705724894, 1286.991011139, 3, 3, 0.5017250999112);
}
END_TEST

/* One climb without its anchor and level turn: a helix of constant pitch along the slant. */
static double climb(double bottom, double top, double slant, double pitch)
{
    /* No overlap, so that the tape is as wide as the pitch; the belt reaches half a width beyond at either end. */
    double slope = (top - bottom) / slant;
    ung_cast_length_in in = tape(bottom - slope * pitch / 2, top + slope * pitch / 2, slant + pitch, pitch);
    in.overlap_fraction = in.anchor_turns = 0;
    in.passes_count = 1;
    return computed(in).path_length_mm - top;
}

/* Helices: n sqrt((pi d)^2 + P^2), for d 100, P 30, n 5 and d 120, P 25, n 6 computed to 18 digits.
 * Conical helix of constant axial pitch: integral of sqrt(1 + (dr/dz)^2 + (2 pi r/P)^2) dz, for r 65 to 55 over 80 and
 * P 20 computed to 18 digits; along the slant sqrt(80^2 + 10^2) the pitch is longer by slant/80.
 * (Layered coils, pi N (D + N t), are not what this models: here a ply has no thickness of its own.)
 * 1e-14 is the accuracy stated for path_length; here a level turn is taken off again, which rounds once more. */
START_TEST(helices)
{
    ck_relative(climb((double)(100 * PI_L), (double)(100 * PI_L), 150, 30), 1577.94204591687703, 2e-14);
    ck_relative(climb((double)(120 * PI_L), (double)(120 * PI_L), 150, 25), 2266.91484655350994, 2e-14);
    double slant = sqrt(6500);
    ck_relative(climb((double)(130 * PI_L), (double)(110 * PI_L), slant, 20 * slant / 80), 1510.12314725205062, 2e-14);
    ck_relative(climb((double)(110 * PI_L), (double)(130 * PI_L), slant, 20 * slant / 80), 1510.12314725205062, 2e-14);
}
END_TEST

START_TEST(anchors_passes_and_edges)
{
    ung_cast_length_in in = tape(400, 400, 100, 50); /* level everywhere: a turn is 400 */
    in.waste_fraction = 0;
    double one_climb = 100.0 / 2 * sqrt(16.0 * 16 + 1); /* 50 mm up at 25 a turn: c = 400/25 */
    for (int passes = 1; passes <= 12; passes++)
        for (int anchor = 0; anchor <= 10; anchor++) {
            in.passes_count = passes;
            in.anchor_turns = anchor * 0.5;
            ung_cast_length_out out = computed(in);
            ck_relative(out.path_length_mm, in.anchor_turns * 400 + passes * (one_climb + 400), 1e-14);
            ck_relative(out.layers, out.path_length_mm * 50 / 40000, 1e-15);
            int below = anchor / 2 + passes / 2, above = (passes + 1) / 2;
            ck_assert(out.edge_plies_count == (below < above ? below : above));
            ck_assert(out.turns_per_pass == 3);
        }
    in.tape_width_mm = 100; /* as wide as the belt: level turns only */
    in.passes_count = 3;
    in.anchor_turns = 1.5;
    ck_assert(computed(in).edge_plies_count == 4 && computed(in).path_length_mm == 1800);
    in.tape_width_mm = 120;
    ck_assert(computed(in).layers == 4.5 && computed(in).turns_per_pass == 1);
    in.stretch_fraction = 0.25;
    in.waste_fraction = 0.1;
    ck_relative(computed(in).tape_length_mm, 1800 / 1.25 * 1.1, 1e-15);
    in.stretch_fraction = in.waste_fraction = 0;
    in.roll_length_mm = 600;
    ck_assert(computed(in).rolls_count == 3 && computed(in).leftover_mm == 0);
    in.roll_length_mm = 600 * (1 - 3.2e-10); /* a quotient 1e-9 above 3 is still forgiven */
    ck_assert(computed(in).rolls_count == 3);
    in.roll_length_mm = 600 * (1 - 3.5e-10);
    ck_assert(computed(in).rolls_count == 4);
    in.toe_angle_deg = 60; /* half of w/2 over the radius */
    in.circumference_high_mm = 500;
    ck_relative(computed(in).edge_strain_fraction, (double)(60 * 0.5L / (400 / (2 * PI_L))), 1e-15);
    in.circumference_low_mm = 600;
    ck_relative(computed(in).edge_strain_fraction, (double)(60 * 0.5L / (500 / (2 * PI_L))), 1e-15);
}
END_TEST

/* The climb against its integral, where both circumferences are nearly equal too: composite Gauss-Legendre of 5 points
 * (Abramowitz and Stegun, table 25.4) in long double; 1e-14 is the accuracy stated. */
static long double integral(long double c0, long double c1, long double slant)
{
    static const long double x[] = {0, 0.538469310105683091L, 0.906179845938663993L};
    static const long double w[] = {0.568888888888888889L, 0.478628670499366468L, 0.236926885056189088L};
    enum { PANELS = 64 };
    long double sum = 0;
    for (int i = 0; i < PANELS; i++)
        for (int k = -2; k <= 2; k++) {
            long double at = (i + 0.5L + (k < 0 ? -1 : 1) * x[abs(k)] / 2) / PANELS, c = c0 + (c1 - c0) * at;
            sum += w[abs(k)] * sqrtl(c * c + 1);
        }
    return sum / (2 * PANELS) * slant;
}

START_TEST(climb_is_the_integral)
{
    for (size_t i = 0; i < scaled(3000); i++) {
        double width = random_between(10, 100), overlap = random_between(0, 0.9), slant = random_between(1, 200);
        double low = random_between(100, 900), apart = pow(10, random_between(-15, 2)) * (random_bits() & 1 ? 1 : -1);
        ung_cast_length_in in = tape(low, fmin(fmax(low + apart, 100), 900), slant + width, width);
        in.overlap_fraction = overlap;
        in.passes_count = 2;
        in.anchor_turns = 0;
        long double s = in.band_height_mm, slope = ((long double)in.circumference_high_mm - low) / s;
        long double bottom = low + slope * width / 2, top = in.circumference_high_mm - slope * width / 2;
        long double pitch = width * (1 - (long double)overlap);
        long double path = 2 * integral(bottom / pitch, top / pitch, s - width) + bottom + top;
        ck_relative(computed(in).path_length_mm, (double)path, 1e-14);
    }
}
END_TEST

START_TEST(cautions)
{
    const ung_calculation *c = ung_cast_length_contract();
    check_cautions(c);
    check_rule(c, "edge_stretch", UNG_WARN, UNG_ABOVE, 0.55); /* practice: tapes stretch 0.35 to 0.55 */
    check_rule(c, "wide_tape", UNG_WARN, UNG_ABOVE, 0);
    check_rule(c, "thin", UNG_WARN, UNG_BELOW, 3);      /* practice */
    check_rule(c, "thin_edge", UNG_WARN, UNG_BELOW, 2); /* practice */
    check_rule(c, "thick", UNG_WARN, UNG_ABOVE, 10);    /* choice: thicker is hotter */
    check_rule(c, "pleats", UNG_NOTE, UNG_ABOVE, 0);
    check_factors(c, "edge_stretch", 1, 1); /* the tape's own stretch and the edge's come on top of each other */
    check_factors(c, "wide_tape", 1, -1);
    check_factors(c, "pleats", 1, -1);
    ck_assert_uint_eq(ung_refusal_count(c), 0);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "cast");
    tcase_add_test(tests, reference_rows);
    tcase_add_test(tests, helices);
    tcase_add_test(tests, anchors_passes_and_edges);
    tcase_add_test(tests, climb_is_the_integral);
    tcase_add_test(tests, cautions);
    return finish(runner);
}
