/* Job: shoe_mass. */
#include "../edges.h"

enum { MOST = 1024 }; /* points of an outline */

static ung_shoe_mass_in shoe(void)
{
    ung_shoe_mass_in in = ung_shoe_mass_standard();
    in.ground_area_mm2 = 14248.953788085;
    in.perimeter_mm = 425.467670085608;
    in.upper_thickness_mm = 6.4;
    in.lower_thickness_mm = 19;
    in.edge_bevel_deg = 45;
    in.screw_count = 0;
    in.body_mass_kg = 500;
    return in;
}

static ung_shoe_mass_out weighed(ung_shoe_mass_in in)
{
    ung_shoe_mass_out out;
    ck_assert_int_eq(ung_shoe_mass(&in, &out, NULL), UNG_OK);
    return out;
}

/* Printed by an independent recomputation (40-digit arithmetic), to 12 digits. */
START_TEST(reference_rows)
{
    ung_shoe_mass_out out = weighed(shoe());
    ck_printed(out.lower_ml, 201.115935527, 12);
    ck_printed(out.upper_ml, 91.1933042437, 12);
    ck_printed(out.wood_g, 163.693174272, 12);
    ck_assert(out.total_g == out.wood_g && out.screws_g == 0 && out.tape_g == 0);
}
END_TEST

/* A circle's lower layer is a frustum of a cone, pi h (R^2 + R r + r^2)/3 (any handbook of mensuration). */
START_TEST(frustum)
{
    ung_shoe_mass_in in = shoe();
    in.ground_area_mm2 = (double)(PI_L * 65 * 65);
    in.perimeter_mm = (double)(PI_L * 130);
    in.upper_thickness_mm = 0;
    ck_printed(weighed(in).lower_ml, 185.656606654, 12);
    for (size_t i = 0; i < scaled(2000); i++) {
        long double r = random_between(20, 100), h = in.lower_thickness_mm = random_between(0, 30);
        in.edge_bevel_deg = random_between(0, 60);
        long double low = r - h * tanl(in.edge_bevel_deg * PI_L / 180);
        if (low <= 0.01L * r)
            continue;
        in.ground_area_mm2 = (double)(PI_L * r * r);
        in.perimeter_mm = (double)(2 * PI_L * r);
        long double frustum = PI_L * h * (r * r + r * low + low * low) / 3;
        /* the accuracy stated, of the cylinder from which the rest is taken */
        ck_near(weighed(in).lower_ml, (double)(frustum / 1000), (double)(PI_L * r * r * h / 1000 * 2e-15L));
    }
}
END_TEST

/* Area of a polygon whose points are moved in by the same depth. */
static double moved_in(const ung_point *outline, size_t points, double depth, double *least_radius)
{
    static ung_point inner[MOST];
    static ung_depth depths[MOST];
    static double work[MOST * 5 + 128];
    must(ung_workspace(ung_outline_inset_contract(), points) <= sizeof work / sizeof *work);
    for (size_t i = 0; i < points; i++)
        depths[i].depth_mm = depth;
    ung_outline_inset_in in = ung_outline_inset_standard();
    ung_outline_inset_out out;
    must(ung_outline_inset(&in, outline, points, depths, points, inner, points, work, sizeof work / sizeof *work, &out,
                           NULL) == UNG_OK);
    *least_radius = out.least_radius_mm;
    return out.area_mm2;
}

/* The lower layer added up from outlines that outline_inset moves in, level by level, against its volume from area and
 * perimeter alone.  Simpson's rule is exact for an area that is quadratic in the depth.  What is left is the polygon: a
 * chord of N lies inside a smooth outline, which takes about 2 pi^2/3 / N^2 of the area (exact for a circle). */
START_TEST(layers_of_moved_outlines)
{
    static ung_point outline[MOST];
    for (size_t i = 0; i < scaled(50); i++) {
        ung_outline_standard_in hoof;
        ung_outline_standard_out shape;
        random_input(ung_outline_standard_contract(), (double *)&hoof, 1.0);
        ung_shoe_mass_in in = shoe();
        in.upper_thickness_mm = 0;
        in.lower_thickness_mm = random_between(10, 22);
        in.edge_bevel_deg = random_between(5, 45);
        double h = in.lower_thickness_mm, inset = h * tan(in.edge_bevel_deg * (double)(PI_L / 180)), error[2];
        int small = 1;
        for (int k = 0; k < 2; k++) {
            size_t points = k ? MOST : MOST / 4;
            must(ung_outline_standard(&hoof, outline, points, &shape, NULL) == UNG_OK);
            double levels[3], radius;
            levels[0] = moved_in(outline, points, 0, &radius);
            small = inset < 0.9 * radius;
            if (!small)
                break;
            in.ground_area_mm2 = shape.ground_area_mm2;
            in.perimeter_mm = shape.perimeter_mm;
            for (int level = 1; level < 3; level++)
                levels[level] = moved_in(outline, points, inset * level / 2, &radius);
            double added = h * (levels[0] + 4 * levels[1] + levels[2]) / 6000;
            error[k] = weighed(in).lower_ml / added - 1;
            ck_near(error[k], 0, 20 / ((double)points * (double)points)); /* a hoof is not a circle: three times that */
        }
        if (small && fabs(error[0]) > 1e-5) /* four times the points, a sixteenth of the error */
            ck_near(error[0] / error[1], 16, 0.5);
    }
}
END_TEST

/* Parts invented in round numbers. */
START_TEST(parts)
{
    ung_shoe_mass_in in = shoe();
    in.ground_area_mm2 = 12000;
    in.perimeter_mm = 400;
    in.upper_thickness_mm = 10;
    in.lower_thickness_mm = 20;
    in.edge_bevel_deg = 0;
    in.removed_ml = 10;
    in.wood_density_g_ml = 0.5;
    in.screw_count = 6;
    in.screw_g = 2;
    in.tape_length_mm = 3000;
    in.tape_width_mm = 50;
    in.tape_g_m2 = 400;
    in.adhesive_ml = 30;
    in.adhesive_density_g_ml = 1.25;
    in.putty_ml = 20;
    in.putty_density_g_ml = 1.5;
    in.cushion_ml = 10;
    in.cushion_density_g_ml = 1;
    ung_shoe_mass_out out = weighed(in);
    ck_assert(out.upper_ml == 120 && out.lower_ml == 240 && out.wood_ml == 350 && out.wood_g == 175);
    ck_assert(out.screws_g == 12 && out.tape_g == 60 && out.adhesive_g == 37.5 && out.packing_g == 40);
    ck_assert(out.total_g == 324.5);
    ck_relative(out.percent_of_body_mass, 0.0649, 4e-16);
    ck_relative(out.multiple_of_280_g_ratio, 324.5 / 280, 2e-16);
    ck_relative(out.multiple_of_700_g_ratio, 324.5 / 700, 2e-16);
    ung_shoe_mass_in standard = ung_shoe_mass_standard(); /* specific gravity 0.5 and 12 percent of water */
    ck_relative(standard.wood_density_g_ml, 0.5 * 1.12, 2e-16);
}
END_TEST

START_TEST(relations)
{
    const ung_calculation *c = ung_shoe_mass_contract();
    ung_shoe_mass_in in = shoe();
    in.edge_bevel_deg = 0;
    in.ground_area_mm2 = (double)(PI_L * 65 * 65); /* a circle, given to nine digits */
    in.perimeter_mm = 408.407045;
    check_accepted(c, (double *)&in);
    in.perimeter_mm = 408.4070440; /* 4e-9 less */
    check_refused(c, (double *)&in, 0);
    in.perimeter_mm = (double)(PI_L * 130); /* of which 45 degrees and the radius leave a point */
    in.ground_area_mm2 *= 1 - 1e-12;
    in.edge_bevel_deg = 45;
    in.lower_thickness_mm = 60;
    check_accepted(c, (double *)&in);
    in.edge_bevel_deg = 48; /* 60 tan 48 = 66.6 */
    check_refused(c, (double *)&in, 1);
    in = shoe(); /* a long thin shoe: 4 by 250 without ends is gone before the bevel passes the mean radius of 80 */
    in.ground_area_mm2 = 1000;
    in.perimeter_mm = 508;
    in.edge_bevel_deg = 45;
    in.lower_thickness_mm = 1.9;
    check_accepted(c, (double *)&in);
    in.lower_thickness_mm = 2.1;
    check_refused(c, (double *)&in, 1);
    in.ground_area_mm2 = 1000; /* with the whole perimeter counted again on the far side it would seem to be there */
    in.lower_thickness_mm = 60;
    in.edge_bevel_deg = 60;
    in.perimeter_mm = 113;
    check_refused(c, (double *)&in, 1);
    in = shoe();
    in.edge_bevel_deg = 0;
    in.ground_area_mm2 = 10000;
    in.upper_thickness_mm = 6;
    in.lower_thickness_mm = 4;
    in.removed_ml = 100;
    check_accepted(c, (double *)&in);
    in.removed_ml = nextafter(100, 101);
    check_refused(c, (double *)&in, 2);
    for (int k = 0; k < 3; k++)
        check_relation(c, k, NULL);
    ck_assert_uint_eq(ung_refusal_count(c), 3);
}
END_TEST

START_TEST(cautions)
{
    const ung_calculation *c = ung_shoe_mass_contract();
    check_cautions(c);
    check_rule(c, "heavy", UNG_WARN, UNG_ABOVE, 700); /* Clayton et al.: 700 g on each hind pastern */
    ck_assert_uint_eq(ung_rule_count(c), 1);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "mass");
    tcase_add_test(tests, reference_rows);
    tcase_add_test(tests, frustum);
    tcase_add_test(tests, layers_of_moved_outlines);
    tcase_add_test(tests, parts);
    tcase_add_test(tests, relations);
    tcase_add_test(tests, cautions);
    return finish(runner);
}
