/* What carries the load: bond_hold, bond_group, limb_load, hold. */
#include "../edges.h"

static ung_bond_hold_in bond(void)
{
    ung_bond_hold_in in = ung_bond_hold_standard();
    in.bonded_area_mm2 = 10000;
    in.lap_mm = 40;
    in.adhesive_shear_modulus_mpa = 400;
    in.horn_thickness_mm = 8;
    in.cover_modulus_mpa = 2500;
    in.cover_thickness_mm = 2.1;
    in.shear_strength_mpa = 2;
    in.demand_n = 600;
    return in;
}

START_TEST(volkersen)
{
    ung_bond_hold_in in = bond();
    ung_bond_hold_out out;
    /* Two independent evaluations (30 digits) of Volkersen 1938 for unequal members: horn 708 MPa x 8, cover 2500 x 2.1. */
    ck_assert_int_eq(ung_bond_hold(&in, &out, NULL), UNG_OK);
    ck_printed(out.shear_lag_per_mm, 0.383160469147, 12);
    ck_printed(out.peak_ratio, 7.9539006238, 11);

    /* Aluminum 70 GPa x 2 mm on itself, G 1 GPa, film 0.2 mm: a Volkersen example in print doubles the lap and changes the
     * peak by a factor 1.003; digits recomputed.  Members of 70 GPa are beyond horn's range: half the modulus and a tenth
     * of the adhesive's with a film of ten times give the same w, since w^2 = G/film (1/E1t1 + 1/E2t2). */
    in.horn_modulus_mpa = 7000, in.horn_thickness_mm = 20;
    in.cover_modulus_mpa = 7000, in.cover_thickness_mm = 20;
    in.adhesive_shear_modulus_mpa = 1000, in.film_mm = 0.2;
    in.lap_mm = 25;
    ck_assert_int_eq(ung_bond_hold(&in, &out, NULL), UNG_OK);
    ck_printed(out.shear_lag_per_mm, 0.267261241912, 12);
    ck_printed(out.peak_ratio, 3.34915372456, 12);
    double peak = out.peak_ratio / 25;
    in.lap_mm = 50;
    ck_assert_int_eq(ung_bond_hold(&in, &out, NULL), UNG_OK);
    ck_printed(out.peak_ratio, 6.68155205667, 12);
    ck_printed(peak / (out.peak_ratio / 50), 1.00250770963, 12);
    ck_relative(out.effective_lap_mm, 6 / 0.26726124191242438, 1e-15);

    /* Shigley, Mechanical Engineering Design, 9th ed., Ex. 9-7 (inputs seen; results from memory and recomputed): a double
     * lap of 1 by 1 in, aluminum 0.150 in outside, steel 0.100 in between, adhesive 0.020 in of 0.2e6 psi, 2000 lbf.  Each
     * half is a single lap with half of the middle: 1.5e6 lbf/in either way, so the second member counts half its
     * thickness.  Ends 1923.03227 psi over a mean of 1000 psi.  As stiff: 20 mm of a softer material. */
    const double psi = 4.4482216152605 / (25.4 * 25.4), inch = 25.4;
    in.horn_thickness_mm = in.cover_thickness_mm = 20;
    in.horn_modulus_mpa = 10e6 * psi * 0.150 * inch / 20;
    in.cover_modulus_mpa = 30e6 * psi * 0.100 * inch / 2 / 20;
    in.adhesive_shear_modulus_mpa = 0.2e6 * psi, in.film_mm = 0.020 * inch, in.lap_mm = inch;
    in.bonded_area_mm2 = 2 * inch * inch, in.demand_n = 2000 * 4.4482216152605;
    ck_assert_int_eq(ung_bond_hold(&in, &out, NULL), UNG_OK);
    ck_printed(out.shear_lag_per_mm * inch, 3.6514837167, 11);
    ck_printed(out.peak_ratio, 1.92303, 6);
    ck_printed(out.mean_mpa / psi, 1000, 12);
    ck_printed(out.peak_mpa / psi, 1923.03227096, 12);
}
END_TEST

/* The differential equation itself, integrated by the C library's functions: for random members the stress at the worse
 * end over its mean, by the hyperbolic functions of libm in long double (another route: cosh and sinh, not coth and tanh). */
START_TEST(shear_lag_over_the_whole_range)
{
    for (size_t i = 0; i < scaled(20000); i++) {
        ung_bond_hold_in in;
        ung_bond_hold_out out;
        random_accepted(ung_bond_hold_contract(), (double *)&in, (double *)&out);
        long double a = (long double)in.horn_modulus_mpa * in.horn_thickness_mm;
        long double b = (long double)in.cover_modulus_mpa * in.cover_thickness_mm;
        long double w = sqrtl(in.adhesive_shear_modulus_mpa / (long double)in.film_mm * (1 / a + 1 / b));
        long double half = w * in.lap_mm / 2, psi = a / b, q = (psi - 1) / (psi + 1);
        long double wanted = half > 5000 ? half * (1 + fabsl(q)) : half * (coshl(half) / sinhl(half) + fabsl(q) * sinhl(half) / coshl(half));
        ck_relative(out.peak_ratio, (double)wanted, 1e-14); /* a few roundings, tanh within 1 ulp */
        must(out.peak_ratio >= 1);
    }
    ung_bond_hold_in in = bond(); /* short, stiff and thick: the stress is even */
    ung_bond_hold_out out;
    in.lap_mm = 2, in.film_mm = 10, in.adhesive_shear_modulus_mpa = 1;
    in.horn_modulus_mpa = 15000, in.horn_thickness_mm = 20, in.cover_modulus_mpa = 50000, in.cover_thickness_mm = 20;
    ck_assert_int_eq(ung_bond_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.peak_ratio, 1, 1e-6);
    /* The least argument of the hyperbolic functions that is accepted, 6.6e-4: 1 + x^2/3 + q x^2 to terms of x^4/45. */
    double x = out.shear_lag_per_mm * 1, q = (50000. - 15000) / (50000 + 15000);
    ck_assert(x > 6.5e-4 && x < 6.6e-4);
    ck_relative(out.peak_ratio, 1 + x * x / 3 + q * x * x, 1e-12);
    ck_relative(out.peak_ratio, 1 + x * x * (1. / 3 + q) - x * x * x * x * (1. / 45 + q / 3), 2e-16 * 4);
}
END_TEST

/* The inverse question: with the needed strength, the use is the wanted one. */
START_TEST(needed_strength_is_enough)
{
    for (size_t i = 0; i < scaled(5000); i++) {
        ung_bond_hold_in in;
        ung_bond_hold_out out, again;
        random_accepted(ung_bond_hold_contract(), (double *)&in, (double *)&out);
        double mean = out.needed_mean_mpa, first = out.needed_first_mpa, divisor = in.divisor_ratio;
        if (mean >= 0.05 && mean <= 40) {
            in.shear_strength_mpa = mean;
            ck_assert_int_eq(ung_bond_hold(&in, &again, NULL), UNG_OK);
            ck_relative(again.use_mean_ratio * divisor, 1, 1e-12);
        }
        if (first >= 0.05 && first <= 40) {
            in.shear_strength_mpa = first;
            ck_assert_int_eq(ung_bond_hold(&in, &again, NULL), UNG_OK);
            ck_relative(again.use_first_ratio * divisor, 1, 1e-12);
        }
    }
    ung_bond_hold_in in = bond();
    ung_bond_hold_out out;
    ck_assert_int_eq(ung_bond_hold(&in, &out, NULL), UNG_OK); /* 600 N on 10000 mm2: 0.06 MPa; 10000 N carried */
    ck_relative(out.mean_mpa, 0.06, 1e-15);
    ck_relative(out.capacity_mean_n, 10000, 1e-15);
    ck_relative(out.peak_mpa, 0.06 * 7.9539006238, 1e-10);
    ck_relative(out.use_first_ratio, 0.06 * 7.9539006238, 1e-10);
    ck_relative(out.use_mean_ratio, 0.06, 1e-15);
    ck_relative(out.capacity_first_n, 10000 / 7.9539006238, 1e-10);
    ck_relative(out.needed_mean_mpa, 0.12, 1e-15); /* the standard preparation halves the strength */
    ck_relative(out.needed_first_mpa, 0.12 * 7.9539006238, 1e-10);
}
END_TEST

/* Bhandari, Design of Machine Elements, Example 8.10: weld lines of 50, 50 and 100 mm in a C, 60 kN at 150 mm beyond the
 * plate's edge.  Printed throat 20.186421 mm at 100 MPa; the line's width of 1 mm makes areas of the lengths. */
START_TEST(weld_lines_of_a_handbook)
{
    ung_bond_group_in in = ung_bond_group_standard();
    in.load_x_n = 0, in.load_y_n = -30000 /* half, and results twice */, in.at_x_mm = 12.5 + 187.5, in.at_y_mm = 0;
    /* The two legs lie at y +-50, the web at x 0; a line's own polar moment is l^3/12. */
    ung_patch patch[3] = {{25, 50, 50, 50. * 50 * 50 / 12}, {25, -50, 50, 50. * 50 * 50 / 12},
                          {0, 0, 100, 100. * 100 * 100 / 12}};
    ung_patch_stress stress[3];
    ung_bond_group_out out;
    ck_assert_int_eq(ung_bond_group(&in, patch, 3, stress, 3, &out, NULL), UNG_OK);
    ck_relative(out.total_area_mm2, 200, 1e-15);
    ck_relative(out.centroid_x_mm, 12.5, 1e-15);
    ck_near(out.centroid_y_mm, 0, 1e-13);
    ck_relative(out.polar_moment_mm4, 385416.66666666667, 1e-14);
    ck_relative(out.moment_n_mm, -30000 * 187.5, 1e-14);
    /* The worst point is the far end of a leg, at (50, 50): direct and turning stress there, per mm of throat. */
    double turn = out.moment_n_mm / out.polar_moment_mm4;
    double x = -turn * 50, y = -30000 / out.total_area_mm2 + turn * (50 - out.centroid_x_mm);
    ck_relative(2 * hypot(x, y), 2018.6421171367, 1e-12);
    ck_printed(2 * hypot(x, y) / 100, 20.186421, 8);
    /* In many short pieces the lines need no moment of their own, and the last piece comes near that point. */
    enum { PIECES = 400 };
    static ung_patch line[PIECES];
    static ung_patch_stress found[PIECES];
    for (int i = 0; i < PIECES; i++) {
        double s = (i + 0.5) * 200 / PIECES;
        line[i] = (ung_patch){s < 50 ? 50 - s : s < 150 ? 0 : s - 150, s < 50 ? 50 : s < 150 ? 100 - s : -50, 0.5, 0};
    }
    ck_assert_int_eq(ung_bond_group(&in, line, PIECES, found, PIECES, &out, NULL), UNG_OK);
    ck_relative(2 * out.worst_mpa, 2018.6421171367, 5e-3); /* a piece's middle is a quarter millimeter short of the end */
    ck_assert(out.worst_row_count == 1 || out.worst_row_count == PIECES);
    ck_relative(out.group_factor_ratio, out.worst_mpa / 150, 1e-14);
}
END_TEST

START_TEST(groups)
{
    ung_bond_group_in in = ung_bond_group_standard();
    in.load_x_n = 300, in.load_y_n = 400, in.at_x_mm = in.at_y_mm = 0;
    ung_patch patch[2] = {{-1e-3, 0, 100, 0}, {1e-3, 0, 300, 0}};
    ung_patch_stress stress[2];
    ung_bond_group_out out;
    ung_fault fault;
    ung_patch one[1] = {{3, 4, 250, 0}};
    in.at_x_mm = 3, in.at_y_mm = 4; /* through the only patch: no moment */
    ck_assert_int_eq(ung_bond_group(&in, one, 1, stress, 1, &out, &fault), UNG_OK);
    ck_assert(stress[0].shear_mpa == 2 && out.worst_mpa == 2 && out.mean_mpa == 2 && out.group_factor_ratio == 1);
    ck_assert(stress[0].shear_x_mpa == 300. / 250 && stress[0].shear_y_mpa == 400. / 250);
    in.at_x_mm = 13; /* beside it: a point cannot turn */
    ck_assert_int_eq(ung_bond_group(&in, one, 1, stress, 1, &out, &fault), UNG_RELATION);
    ck_assert_str_eq(fault.field, "patches");
    ck_assert(isnan(stress[0].shear_mpa) && isnan(out.worst_mpa));
    one[0].own_moment_mm4 = 1e4;
    ck_assert_int_eq(ung_bond_group(&in, one, 1, stress, 1, &out, &fault), UNG_OK);
    in.load_x_n = in.load_y_n = 0; /* no load, no stress */
    ck_assert_int_eq(ung_bond_group(&in, patch, 2, stress, 2, &out, &fault), UNG_OK);
    ck_assert(out.worst_mpa == 0 && out.group_factor_ratio == 1 && out.centroid_x_mm == 0.5e-3);
    /* Shares do not depend on the units: a millionth of a newton on two patches of 0.001 mm2 at -1 and 1 mm, halfway to
     * the second: mean 5e-4 MPa, turning 5e-7 N mm over 0.002 mm4 times 1 mm. */
    ung_patch small[2] = {{-1, 0, 1e-3, 0}, {1, 0, 1e-3, 0}};
    in = (ung_bond_group_in){0, 1e-6, 0.5, 0};
    ck_assert_int_eq(ung_bond_group(&in, small, 2, stress, 2, &out, &fault), UNG_OK);
    ck_relative(out.worst_mpa, 7.5e-4, 4e-16 * 4);
    ck_relative(out.group_factor_ratio, 1.5, 4e-16 * 4);
    ck_assert(out.worst_row_count == 2);
    /* A thousandth of a millimeter from the middle: choice.  Nearer, a load without moment is shared all the same. */
    ung_patch near[2] = {{-0.001001, 0, 1, 0}, {0.001001, 0, 1, 0}};
    in = (ung_bond_group_in){0, 10, 0.001, 0};
    ck_assert_int_eq(ung_bond_group(&in, near, 2, stress, 2, &out, NULL), UNG_OK);
    near[0].x_mm = -0.000999, near[1].x_mm = 0.000999;
    ck_assert_int_eq(ung_bond_group(&in, near, 2, stress, 2, &out, NULL), UNG_RELATION);
    near[0].own_moment_mm4 = 5e-324; /* however small the number that is given */
    ck_assert_int_eq(ung_bond_group(&in, near, 2, stress, 2, &out, NULL), UNG_RELATION);
    in = (ung_bond_group_in){10, 0, 0, 0};
    ck_assert_int_eq(ung_bond_group(&in, near, 2, stress, 2, &out, NULL), UNG_OK);
    ck_assert(stress[1].shear_x_mpa == 5 && stress[1].shear_y_mpa == 0 && out.group_factor_ratio == 1);
    /* Equilibrium: the patches' forces make the load and its moment. */
    for (size_t k = 0; k < scaled(500); k++) {
        ung_patch p[6];
        ung_patch_stress s[6];
        for (int i = 0; i < 6; i++)
            p[i] = (ung_patch){random_between(-80, 80), random_between(-80, 80), random_between(1, 5000), 0};
        in = (ung_bond_group_in){random_between(-900, 900), random_between(-900, 900), random_between(-90, 90), random_between(-90, 90)};
        must(ung_bond_group(&in, p, 6, s, 6, &out, NULL) == UNG_OK);
        double fx = 0, fy = 0, m = 0;
        for (int i = 0; i < 6; i++) {
            fx += s[i].shear_x_mpa * p[i].area_mm2;
            fy += s[i].shear_y_mpa * p[i].area_mm2;
            m += p[i].area_mm2 * (s[i].shear_y_mpa * p[i].x_mm - s[i].shear_x_mpa * p[i].y_mm);
        }
        must(fabs(fx - in.load_x_n) < 1e-9 && fabs(fy - in.load_y_n) < 1e-9); /* sums of six products below 1e5 */
        must(fabs(m - (in.load_y_n * in.at_x_mm - in.load_x_n * in.at_y_mm)) < 1e-6);
    }
}
END_TEST

/* The printed table, each row with its source in the contract. */
START_TEST(gaits)
{
    static const struct {
        double gait, hind, lead, vertical, braking, propulsive, known;
    } rows[] = {
        {1, 0, 0, 2.84, 0, 0, 1},      {1, 1, 0, 2.06, 0, 0, 1},       {2, 0, 0, 6.32, 0, 0.81, 0},
        {3, 0, 0, 11.59, 1.13, 0.84, 1}, {3, 1, 0, 10.21, 0.79, 1.17, 1}, {4, 0, 0, 14.0, 0, 0, 0},
        {4, 0, 1, 13.6, 0, 0, 0},      {4, 1, 0, 13.6, 0, 0, 0},       {4, 1, 1, 12.3, 0, 0, 0},
        {3, 0, 1, 11.59, 1.13, 0.84, 1},
    };
    ung_limb_load_in in = ung_limb_load_standard();
    ung_limb_load_out out;
    in.body_mass_kg = 500;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        in.gait_count = rows[i].gait, in.hind_count = rows[i].hind, in.lead_count = rows[i].lead;
        ck_assert_int_eq(ung_limb_load(&in, &out, NULL), UNG_OK);
        ck_assert(out.vertical_n_per_kg == rows[i].vertical && out.vertical_n == rows[i].vertical * 500);
        ck_assert(out.braking_n_per_kg == rows[i].braking && out.braking_n == rows[i].braking * 500);
        ck_assert(out.propulsive_n_per_kg == rows[i].propulsive && out.propulsive_n == rows[i].propulsive * 500);
        ck_assert(out.horizontal_known_count == rows[i].known);
    }
    /* A horse that stands carries its weight: 2 fore and 2 hind limbs, within the table's rounding to 0.005 N/kg each. */
    ck_near(2 * 2.84 + 2 * 2.06, 9.81, 0.02);
    in.gait_count = 2, in.hind_count = 1;
    check_refused(ung_limb_load_contract(), (double *)&in, 0);
}
END_TEST

START_TEST(paths)
{
    ung_hold_in in = ung_hold_standard();
    ung_hold_out out;
    in.body_mass_kg = 500, in.shoe_mass_g = 450; /* 0.45 kg x 551 m/s2, 500 kg x 1.13 N/kg */
    in.screw_count = 4, in.axial_design_n = 80, in.lateral_design_n = 300;
    in.bond_capacity_first_n = 2000, in.bond_capacity_mean_n = 10000;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_printed(out.pull_n, 247.95, 5);
    ck_printed(out.shear_n, 565, 3);
    double load = hypot(247.95, 565);
    ck_relative(out.demand_n, load, 1e-15);
    ck_relative(out.bond_only_use_ratio, load / 2000, 1e-15);
    ck_relative(out.bond_mean_use_ratio, load / 10000, 1e-15);
    /* Hankinson (NDS-2018, 12.4-1): strength of one screw under a load at this angle, W axial and Z lateral. */
    double sine = 247.95 / load, cosine = 565 / load, strength = 80. * 300 / (80 * cosine * cosine + 300 * sine * sine);
    ck_relative(out.screws_only_use_ratio, load / 4 / strength, 1e-14);
    ck_assert(out.governing_count == 2 && out.redundant_count == 1 && out.loss_without_screws_ratio == 1);
    in.group_factor_ratio = 1.5;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.screws_only_use_ratio, 1.5 * load / 4 / strength, 1e-14);

    /* The printed combined example: W = Z = 100 and equal parts reach unity at 70.71 each. */
    in = (ung_hold_in){100, 50, 0, 70.71067811865476 / 100, 70.71067811865476, 1, 100, 100, 1, 0, 0, 1, 0, 0, 90, 0, 0};
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.screws_only_use_ratio, 1, 1e-14);
    ck_assert(isinf(out.bond_only_use_ratio) && isinf(out.bond_mean_use_ratio) && out.governing_count == 1);
    ck_assert(isinf(out.loss_without_screws_ratio) && out.redundant_count == 0);
    in.screw_count = 0; /* nothing carries it */
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_assert(isinf(out.screws_only_use_ratio) && isinf(out.single_path_use_ratio) && out.governing_count == 0);

    /* Put the needed strengths in: the wanted reserve comes out. */
    size_t needs[2][2] = {{0}};
    for (size_t i = 0; i < scaled(5000); i++) {
        ung_hold_out again;
        random_accepted(ung_hold_contract(), (double *)&in, (double *)&out);
        if (in.screw_count < 1 || out.demand_n < 1 || out.needed_screw_n > 50000)
            continue;
        in.axial_design_n = in.lateral_design_n = out.needed_screw_n;
        in.bond_capacity_first_n = out.needed_bond_n;
        in.bond_capacity_mean_n = fmax(in.bond_capacity_mean_n, out.needed_bond_n);
        int peels = out.needed_peel_n_per_mm > 1e-6 && out.needed_peel_n_per_mm <= 200;
        int grips = out.needed_grip_n > 1e-6 && out.needed_grip_n <= 50000;
        in.peel_strength_n_per_mm = peels ? out.needed_peel_n_per_mm : 0;
        in.grip_n = grips ? out.needed_grip_n : 0;
        must(ung_hold(&in, &again, NULL) == UNG_OK);
        ck_relative(again.screws_only_use_ratio * in.divisor_ratio, 1, 1e-12);
        ck_relative(again.bond_only_use_ratio * in.divisor_ratio, 1, 1e-12);
        ck_relative(again.reserve_use_ratio, again.single_path_use_ratio * in.divisor_ratio, 1e-15);
        ck_relative(again.peel_use_ratio * in.divisor_ratio, peels, 1e-12); /* 0 where it is not counted */
        ck_relative(again.grip_use_ratio * in.divisor_ratio, grips, 1e-12);
        ck_relative(again.least_ratio, in.divisor_ratio, 1e-12); /* every part was given what it needs */
        ck_assert(again.weakest_part_count >= 1 && again.weakest_part_count <= 4);
        needs[peels][grips]++;
        double larger = again.bond_only_use_ratio > again.screws_only_use_ratio ? again.bond_only_use_ratio : again.screws_only_use_ratio;
        must(again.single_path_use_ratio <= larger);
    }
    ck_assert(needs[0][1] > 0 && needs[1][0] > 0 && needs[1][1] > 0);
    /* Screws four times as strong as the bond: without them the use is four times as high. */
    in = (ung_hold_in){100, 50, 0, 1, 0, 1, 400, 400, 1, 100, 200, 1, 0, 0, 90, 0, 0};
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_assert(out.screws_only_use_ratio == 0.25 && out.bond_only_use_ratio == 1 && out.loss_without_screws_ratio == 4);
    ck_assert(out.governing_count == 1 && out.redundant_count == 1 && out.bond_mean_use_ratio == 0.5);
    in.bond_capacity_first_n = 100 / 1.005; /* the bond alone just does not carry it */
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_assert(out.redundant_count == 0 && out.governing_count == 1);
    in.axial_design_n = in.lateral_design_n = 20000; /* 200 times as strong */
    in.bond_capacity_first_n = 100;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.loss_without_screws_ratio, 200, 4e-15); /* a few roundings */
    in.screw_count = 0; /* without screws: what a single one would need (choice) */
    in.divisor_ratio = 3;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_assert(out.needed_screw_n == 300 && out.needed_bond_n == 300);
    /* Shares do not depend on the unit of force: 0.005 N on what carries 0.005 N, 0.005^2/0.005 sideways and 0 axially. */
    in = (ung_hold_in){50, 50, 0, 0.0001, 0, 1, 0.005, 0.005, 1, 0.005, 0.005, 1, 0, 0, 90, 0, 0};
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.screws_only_use_ratio, 1, 1e-14);
    ck_relative(out.bond_only_use_ratio, 1, 1e-14);
    ck_relative(out.bond_mean_use_ratio, 1, 1e-14);
    in.shear_n_per_kg = 0; /* and the same as pull */
    in.pull_extra_n = 0.005;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.screws_only_use_ratio, 1, 1e-14);
}
END_TEST

/* A leaning screw: the shear from every horizontal direction, by vectors, against the direction that is taken. */
START_TEST(leaning_screws)
{
    enum { DIRECTIONS = 3600 };
    ung_hold_in in;
    ung_hold_out out;
    size_t slips = 0, weak[2] = {0};
    for (size_t trial = 0; trial < scaled(1000); trial++) {
        random_accepted(ung_hold_contract(), (double *)&in, (double *)&out);
        double w = in.axial_design_n, z = in.lateral_design_n;
        if (out.demand_n < 1 || in.screw_count < 1 || fmin(w, z) < 1)
            continue;
        double tilt = in.axis_tilt_deg * 3.14159265358979323846 / 180, worst = 0;
        for (int k = 0; k < DIRECTIONS; k++) {
            double turn = 2 * 3.14159265358979323846 * k / DIRECTIONS;
            double load[3] = {out.shear_n * cos(turn), out.shear_n * sin(turn), out.pull_n};
            double axis[3] = {sin(tilt), 0, cos(tilt)}, axial = 0, lateral = 0;
            for (int i = 0; i < 3; i++)
                axial += load[i] * axis[i];
            for (int i = 0; i < 3; i++)
                lateral += (load[i] - axial * axis[i]) * (load[i] - axial * axis[i]);
            worst = fmax(worst, (axial * axial / w + lateral / z) / out.demand_n);
        }
        /* Between two directions the axial share is off by half a step, 9e-4 of the shear, and that squared. */
        ck_relative(out.screws_only_use_ratio * in.screw_count / in.group_factor_ratio, worst, 2e-6);
        must(out.screws_only_use_ratio * in.screw_count / in.group_factor_ratio >= worst * (1 - 1e-12));
        weak[w < z]++;
        slips += w >= z && out.pull_n * cos(tilt) < out.shear_n * sin(tilt);
    }
    ck_assert(weak[0] > 0 && weak[1] > 0 && slips > 0);

    /* By hand: 300 N off the ground and 400 N along it on an axis that leans by 3 in 4.  At most 480 N along it, with
     * 140 N across; at least none, with 500 N across. */
    in = (ung_hold_in){100, 300, 1000, 4, 0, 1, 100, 200, 1, 0, 0, 1, 36.86989764584402, 0, 90, 0, 0};
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.screws_only_use_ratio, (480 * 480 / 100. + 140 * 140 / 200.) / 500, 1e-14);
    in.axial_design_n = 200, in.lateral_design_n = 100;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.screws_only_use_ratio, 5, 1e-14);
    in.axis_tilt_deg = 90; /* lying: W and Z change places, the shear along the axis or across it */
    in.axial_design_n = 100, in.lateral_design_n = 200;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.screws_only_use_ratio, (400 * 400 / 100. + 300 * 300 / 200.) / 500, 1e-14);
    in.lateral_design_n = 100; /* equal strengths: no direction is worse */
    for (in.axis_tilt_deg = 0; in.axis_tilt_deg <= 90; in.axis_tilt_deg += 7.5) {
        ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
        ck_relative(out.screws_only_use_ratio, 5, 1e-14);
    }
    /* The steeper lean of 4 in 3 puts all of the load on the axis. */
    in.axis_tilt_deg = 53.13010235415598, in.lateral_design_n = 20000;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.screws_only_use_ratio, 5, 1e-14);
}
END_TEST

/* Peel, grip, and which part gives first, on plain numbers: pull 300 N, shear 400 N, together 500 N. */
START_TEST(weakest_part)
{
    const ung_calculation *c = ung_hold_contract();
    ung_hold_in in = {100, 300, 1000, 4, 0, 1, 2000, 2000, 1, 1000, 5000, 2, 0, 180, 90, 8, 1000};
    ung_hold_out out;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_assert(out.screws_only_use_ratio == 0.25 && out.bond_only_use_ratio == 0.5 && out.reserve_use_ratio == 0.5);
    ck_assert(out.peel_n_per_mm == 2 && out.peel_use_ratio == 0.25 && out.needed_peel_n_per_mm == 4);
    ck_relative(out.grip_use_ratio, 0.3, 1e-15);
    ck_assert(out.needed_grip_n == 600 && out.least_ratio == 2 && out.weakest_part_count == 2 && out.governing_count == 1);
    in.peel_strength_n_per_mm = 2.5;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.least_ratio, 1.25, 1e-15);
    ck_assert(out.weakest_part_count == 3);
    in.grip_n = 200;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.least_ratio, 2. / 3, 1e-15);
    ck_assert(out.weakest_part_count == 4 && has_caution(c, (double *)&in, (double *)&out, "grip_slips"));
    ck_assert(out.single_path_use_ratio == 0.25); /* neither is a path */
    in.axial_design_n = in.lateral_design_n = 100;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_assert(out.weakest_part_count == 1 && out.governing_count == 2);
    ck_relative(out.least_ratio, 0.2, 1e-15);
    in.peel_strength_n_per_mm = in.grip_n = 0; /* not given: not counted, and the needs are the same */
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_assert(out.peel_use_ratio == 0 && out.grip_use_ratio == 0);
    ck_assert(out.needed_peel_n_per_mm == 4 && out.needed_grip_n == 600);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "peel_not_counted"));
    in.screw_count = 0; /* a part that is not there does not give */
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_assert(out.weakest_part_count == 2 && out.least_ratio == 2);
    in.bond_capacity_first_n = in.bond_capacity_mean_n = 0;
    in.grip_n = 1000; /* the tape is no path */
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_assert(out.weakest_part_count == 0 && out.least_ratio == 0 && isinf(out.reserve_use_ratio));
    in.bond_capacity_first_n = in.bond_capacity_mean_n = 1000;
    in.shoe_mass_g = 50, in.acceleration_ms2 = 0, in.shear_n_per_kg = 0; /* no load */
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_assert(out.weakest_part_count == 0 && isinf(out.least_ratio) && out.needed_grip_n == 0);
    in.peel_strength_n_per_mm = 4;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_assert(out.weakest_part_count == 3 && out.least_ratio == 2);
    in.grip_n = in.peel_strength_n_per_mm = 0.005, in.pull_extra_n = in.peel_pull_n = 0.005; /* little is not nothing */
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.grip_use_ratio, 1, 1e-14);
    ck_relative(out.peel_use_ratio, 1. / 90, 1e-14);
    ck_relative(out.least_ratio, 1, 1e-14);
    in.grip_n = 1;
    in.peel_strength_n_per_mm = 1;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_relative(out.least_ratio, 200, 1e-14);
    ck_assert(out.weakest_part_count == 4);
    in.grip_n = in.peel_strength_n_per_mm = 0, in.screw_count = 1; /* little strength is not none either */
    for (double strength = 0.005; strength < 10; strength *= 1000) /* 0.005 N and 5 N */
        for (int part = 1; part <= 2; part++) {
            in.axial_design_n = in.lateral_design_n = part == 1 ? strength : 0;
            in.bond_capacity_first_n = in.bond_capacity_mean_n = part == 2 ? strength : 0;
            ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
            ck_relative(out.least_ratio, strength / 0.005, 1e-14);
            ck_assert(out.weakest_part_count == part);
        }

    /* A peel crack: a stop where the screws do not carry the load, whatever the bond does, and a warning otherwise. */
    in = (ung_hold_in){100, 300, 1000, 4, 180, 1, 2000, 2000, 1, 1000, 5000, 1, 0, 180, 90, 1.99, 0};
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "peel_crack"));
    ck_assert(!has_caution(c, (double *)&in, (double *)&out, "peel_opens"));
    ck_assert(!has_caution(c, (double *)&in, (double *)&out, "peel_beside"));
    in.screw_count = 0;
    ck_assert_int_eq(ung_hold(&in, &out, NULL), UNG_OK);
    ck_assert(has_caution(c, (double *)&in, (double *)&out, "peel_opens"));
    ck_assert(!has_caution(c, (double *)&in, (double *)&out, "does_not_hold"));
    in.bond_capacity_mean_n = nextafter(in.bond_capacity_first_n, 0);
    check_refused(c, (double *)&in, 0);
    in.bond_capacity_mean_n = in.bond_capacity_first_n;
    check_accepted(c, (double *)&in);
    check_relation(c, 0, NULL);
    ck_assert_uint_eq(ung_refusal_count(c), 1);
}
END_TEST

/* What lifts a stop may lie in a window that ends where the values no longer fit together: a bond whose first crack
 * would have to come at 500 N and whose whole carries little more, in a range of a million newtons. */
START_TEST(lifting_up_to_a_refusal)
{
    const ung_calculation *c = ung_hold_contract();
    const size_t first = offsetof(ung_hold_in, bond_capacity_first_n) / sizeof(double);
    ung_hold_in in = {100, 300, 1000, 4, 0, 1, 0, 0, 1, 218, 501, 1, 0, 0, 90, 0, 0};
    double value;
    ck_assert_int_eq(ung_caution_lift(c, (double *)&in, "does_not_hold", first, &value, NULL), UNG_OK);
    ck_relative(value, 500, 1e-12);
    in.bond_capacity_mean_n = 499;
    ck_assert_int_eq(ung_caution_lift(c, (double *)&in, "does_not_hold", first, &value, NULL), UNG_OK);
    ck_assert(isnan(value));
}
END_TEST

START_TEST(cautions)
{
    check_cautions(ung_bond_hold_contract());
    check_rule(ung_bond_hold_contract(), "overload", UNG_STOP, UNG_ABOVE, 1);
    check_rule(ung_bond_hold_contract(), "starts_at_edge", UNG_WARN, UNG_ABOVE, 1);
    check_rule(ung_bond_hold_contract(), "beyond_horn", UNG_WARN, UNG_ABOVE, 10); /* the horn's weak plane */
    check_rule(ung_bond_hold_contract(), "lap_saturated", UNG_NOTE, UNG_ABOVE, 0);
    check_factors(ung_bond_hold_contract(), "lap_saturated", 1, -1);
    check_rule(ung_bond_group_contract(), "uneven", UNG_NOTE, UNG_ABOVE, 2); /* choice, as for screws */
    check_cautions(ung_limb_load_contract());
    check_rule(ung_limb_load_contract(), "horizontal_unknown", UNG_WARN, UNG_EQUAL, 0);
    check_cautions(ung_hold_contract());
    check_rule(ung_hold_contract(), "does_not_hold", UNG_STOP, UNG_ABOVE, 1);
    check_rule(ung_hold_contract(), "bond_alone_fails", UNG_WARN, UNG_ABOVE, 1);
    check_rule(ung_hold_contract(), "screws_alone_fail", UNG_WARN, UNG_ABOVE, 1);
    check_rule(ung_hold_contract(), "peel_opens", UNG_STOP, UNG_ABOVE, 1);
    check_guard(ung_hold_contract(), "peel_opens", UNG_ABOVE, 1);
    check_rule(ung_hold_contract(), "peel_crack", UNG_WARN, UNG_ABOVE, 1);
    check_rule(ung_hold_contract(), "no_reserve", UNG_WARN, UNG_ABOVE, 1);
    check_guard(ung_hold_contract(), "no_reserve", UNG_BELOW, nextafter(1, 2)); /* at most 1 */
    check_rule(ung_hold_contract(), "peel_not_counted", UNG_NOTE, UNG_EQUAL, 0);
    check_guard(ung_hold_contract(), "peel_not_counted", UNG_ABOVE, 0);
    check_rule(ung_hold_contract(), "peel_beside", UNG_NOTE, UNG_ABOVE, 0);
    check_factors(ung_hold_contract(), "peel_beside", 1, -1);
    check_rule(ung_hold_contract(), "grip_slips", UNG_NOTE, UNG_ABOVE, 1);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "hold");
    tcase_add_test(tests, volkersen);
    tcase_add_test(tests, shear_lag_over_the_whole_range);
    tcase_add_test(tests, needed_strength_is_enough);
    tcase_add_test(tests, weld_lines_of_a_handbook);
    tcase_add_test(tests, groups);
    tcase_add_test(tests, gaits);
    tcase_add_test(tests, paths);
    tcase_add_test(tests, leaning_screws);
    tcase_add_test(tests, weakest_part);
    tcase_add_test(tests, lifting_up_to_a_refusal);
    tcase_add_test(tests, cautions);
    return finish(runner);
}
