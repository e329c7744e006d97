/* Laws that hold whatever the numbers are: scaling, symmetry, monotony, limits that tie calculations together, and
 * searches that know nothing of the formulas. */
#include "../edges.h"

/* ---- Scaling ---- */

static double scale_of(const char *name, double k)
{
    const char *unit = ung_field_unit(name);
    int length = strcmp(unit, "mm") == 0 || strcmp(unit, "mm/day") == 0 || strcmp(unit, "mm/28 days") == 0;
    int volume = strcmp(unit, "mL") == 0 || strcmp(unit, "g") == 0;
    return length ? k : strcmp(unit, "mm2") == 0 ? k * k : volume ? k * k * k : 1;
}

/* All lengths by 2 (areas by 4, volumes by 8): every operation scales without rounding, so the results are the same
 * bits.  Upper layers stay below 60, which means the whole side. */
START_TEST(scaling)
{
    for (size_t which = 0; which < ung_calculation_count(); which++) {
        const ung_calculation *c = ung_calculation_at(which);
        size_t n = ung_input_count(c), done = 0;
        int takes_lists = 0;
        for (size_t j = 0; j < ung_list_count(c); j++)
            takes_lists |= !ung_list_at(c, j)->is_result;
        if (takes_lists)
            continue; /* their rows would have to be scaled too: tests/unit/outline.c does that */
        /* Strengths with a factor that depends on the size, sizes by number, loads. */
        static const char *const other[] = {"screw_hold", "screw_gauge", "wood_species", "bond_hold", "limb_load", "hold",
                                           "coffin_lever", "shoe_mass", "cup_cure", "wall_heat"};
        int scales = 1;
        for (size_t k = 0; k < sizeof other / sizeof *other; k++)
            scales &= strcmp(ung_calculation_name(c), other[k]) != 0;
        if (!scales)
            continue;
        double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST], twice[UNG_FIELDS_MOST], of_twice[UNG_FIELDS_MOST];
        for (size_t trial = 0; done < scaled(500) && trial < scaled(50000); trial++) {
            random_input(c, in, 0.5);
            int inside = 1;
            for (size_t j = 0; j < n; j++) {
                const ung_field *f = ung_input(c, j);
                double k = scale_of(f->name, 2);
                if (in[j] * k > f->upper || in[j] * k < f->lower) /* halfway into what can be doubled */
                    in[j] = f->lower >= 0 ? random_between(f->lower, fmax(f->upper / k, f->lower))
                                          : random_between(f->lower / k, f->upper / k);
                if (strcmp(f->name, "upper_layer_mm") == 0)
                    in[j] = random_between(0, 29.9);
                twice[j] = in[j] * k;
                inside &= twice[j] <= f->upper && twice[j] >= f->lower;
            }
            if (!inside || call(c, in, out, NULL) != UNG_OK)
                continue;
            must_msg(call(c, twice, of_twice, NULL) == UNG_OK, "%s", ung_calculation_name(c));
            done++;
            for (size_t j = 0; j < ung_output_count(c); j++) {
                const char *name = ung_output(c, j)->name;
                must_msg(of_twice[j] == out[j] * scale_of(name, 2), "%s, %s: %.17g, twice as large %.17g",
                         ung_calculation_name(c), name, out[j], of_twice[j]);
            }
        }
        must_msg(done >= scaled(100), "%s: only %zu accepted", ung_calculation_name(c), done);
    }
}
END_TEST

/* ---- Monotony: more of one input, never less (or never more) of a result ---- */

START_TEST(monotony)
{
    static const struct {
        const char *calculation, *input;
        int sign;
        const char *output;
    } laws[] = {
        {"wall_from_border", "border_width_mm", 1, "wall_thickness_mm"},
        {"outline_standard", "hoof_length_mm", 1, "perimeter_mm"},
        {"outline_standard", "hoof_width_mm", 1, "perimeter_mm"},
        {"outline_standard", "hoof_width_mm", 1, "ground_area_mm2"},
        {"hoof_band", "low_mm", -1, "covered_area_mm2"},
        {"hoof_band", "high_heel_mm", 1, "wall_area_mm2"},
        {"hoof_band", "low_mm", -1, "wall_area_mm2"},
        {"hoof_band", "overhang_mm", 1, "shoe_area_mm2"},
        {"hoof_band", "open_heel_fraction", -1, "bonded_area_mm2"},
        {"hoof_band", "edge_bevel_deg", -1, "circumference_low_mm"},
        {"screw_depth", "screw_length_mm", 1, "embedded_mm"},
        {"screw_depth", "screw_length_mm", -1, "margin_mm"},
        {"screw_depth", "screw_length_mm", -1, "inner_cover_mm"},
        {"screw_depth", "screw_length_mm", -1, "outer_cover_mm"},
        {"screw_depth", "screw_length_mm", -1, "white_line_cover_mm"},
        {"screw_depth", "screw_length_mm", -1, "margin_worst_mm"},
        {"screw_depth", "screw_diameter_mm", -1, "margin_mm"},
        {"screw_depth", "screw_diameter_mm", -1, "depth_limit_mm"},
        {"screw_depth", "wall_thickness_mm", 1, "inner_cover_mm"},
        {"screw_depth", "wall_thickness_mm", 1, "depth_limit_mm"},
        {"screw_depth", "sole_horn_mm", 1, "inner_cover_mm"},
        {"screw_depth", "inner_margin_mm", -1, "depth_limit_mm"},
        {"screw_depth", "outer_margin_mm", -1, "margin_worst_mm"},
        {"screw_depth", "seat_allowance_mm", -1, "margin_worst_mm"},
        {"screw_depth", "overhang_mm", 1, "edge_cover_mm"},
        {"screw_depth", "height_limit_mm", 1, "depth_limit_mm"},
        {"glue_volume", "film_mm", 1, "mixed_ml"},
        {"glue_volume", "groove_spacing_mm", -1, "first_coat_ml"},
        {"glue_volume", "waste_fraction", 1, "mixed_ml"},
        {"glue_volume", "pack_ml", -1, "packs_count"},
        {"glue_volume", "nozzle_ml", 1, "packs_separate_count"},
        {"glue_volume", "ratio_a_to_b", 1, "part_a_ml"},
        {"cast_length", "overlap_fraction", 1, "path_length_mm"},
        {"cast_length", "passes_count", 1, "path_length_mm"},
        {"cast_length", "passes_count", 1, "edge_plies_count"},
        {"cast_length", "anchor_turns", 1, "path_length_mm"},
        {"cast_length", "stretch_fraction", -1, "tape_length_mm"},
        {"cast_length", "roll_length_mm", -1, "rolls_count"},
        {"cast_length", "toe_angle_deg", -1, "edge_strain_fraction"},
        {"cast_length", "circumference_low_mm", 1, "path_length_mm"},
        {"heel_bevel", "bevel_angle_deg", -1, "wood_left_mm"},
        {"heel_bevel", "bevel_angle_deg", 1, "face_length_mm"},
        {"heel_bevel", "bevel_angle_deg", 1, "removed_ml"},
        {"heel_bevel", "bevel_run_mm", -1, "lap_left_mm"},
        {"heel_bevel", "bevel_run_mm", -1, "wedge_after_deg"},
        {"heel_bevel", "bevel_run_mm", -1, "angle_limit_deg"},
        {"heel_bevel", "build_up_mm", 1, "wedge_before_deg"},
        {"heel_bevel", "build_length_mm", 1, "run_to_clear_mm"},
        {"heel_bevel", "least_edge_mm", -1, "angle_limit_deg"},
        {"heel_wear", "toe_rate_mm_per_day", 1, "heel_up_mm"},
        {"heel_wear", "heel_rate_mm_per_day", -1, "wedge_end_deg"},
        {"heel_wear", "wedge_limit_deg", 1, "wedge_days"},
        {"heel_wear", "days", -1, "toe_left_mm"},
        {"packing_volume", "rear_fraction", 1, "line_ratio"},
        {"packing_volume", "rear_fraction", 1, "rear_dish_fraction"},
        {"packing_volume", "rear_fraction", -1, "front_ml"},
        {"packing_volume", "dish_depth_mm", 1, "rear_ml"},
        {"dam_volume", "rope_height_mm", 1, "dam_ml"},
        {"coffin_lever", "setback_mm", -1, "moment_n_m"},
        {"coffin_lever", "wedge_deg", -1, "tendon_change_fraction"},
        {"hoof_growth", "angle_loss_deg_per_week", -1, "reset_days"},
        {"hoof_growth", "toe_angle_deg", -1, "forward_mm"},
        {"shoe_mass", "edge_bevel_deg", -1, "lower_ml"},
        {"shoe_mass", "perimeter_mm", -1, "wood_g"},
    };
    for (size_t l = 0; l < sizeof laws / sizeof *laws; l++) {
        const ung_calculation *c = ung_calculation_find(laws[l].calculation);
        size_t j = input_named(c, laws[l].input), o = 0;
        while (strcmp(ung_output(c, o)->name, laws[l].output) != 0)
            o++;
        for (size_t trial = 0; trial < scaled(200); trial++) {
            double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST], more[UNG_FIELDS_MOST], of_more[UNG_FIELDS_MOST];
            random_accepted(c, in, out);
            memcpy(more, in, sizeof more);
            const ung_field *f = ung_input(c, j);
            more[j] = f->whole ? fmin(in[j] + 1, f->upper) : random_between(in[j], f->upper);
            if (call(c, more, of_more, NULL) != UNG_OK)
                continue;
            /* One rounding of the largest length or area in the room (some 1e5) may go the wrong way. */
            double slack = 1e-12 * (fabs(out[o]) + 100);
            must_msg(isinf(out[o]) || (of_more[o] - out[o]) * laws[l].sign >= -slack,
                     "%s: %s %.17g -> %.17g, %s %.17g -> %.17g", laws[l].calculation, laws[l].input, in[j], more[j],
                     laws[l].output, out[o], of_more[o]);
        }
    }
}
END_TEST

/* ---- Symmetry ---- */

/* Front and rear exchanged: the widest station from the other end, the two widths and the two heights, and the heel's
 * angle, which the trade measures the other way. */
START_TEST(band_turned_round)
{
    for (size_t trial = 0; trial < scaled(300); trial++) {
        ung_hoof_band_in in = ung_hoof_band_standard(), turned;
        ung_hoof_band_out out, of_turned;
        in.hoof_length_mm = random_between(90, 170);
        in.hoof_width_mm = random_between(90, 160);
        in.widest_fraction = random_between(0.44, 0.56);
        in.heel_width_fraction = random_between(0.58, 0.66);
        in.toe_width_fraction = random_between(0.58, 0.66);
        in.toe_angle_deg = random_between(60, 100);
        in.heel_angle_deg = random_between(80, 120);
        in.quarter_angle_deg = random_between(65, 110);
        in.low_mm = random_between(-30, 9);
        in.high_toe_mm = random_between(10, 40);
        in.high_heel_mm = random_between(10, 40);
        turned = in;
        turned.widest_fraction = 1 - in.widest_fraction;
        turned.heel_width_fraction = in.toe_width_fraction;
        turned.toe_width_fraction = in.heel_width_fraction;
        turned.toe_angle_deg = 180 - in.heel_angle_deg;
        turned.heel_angle_deg = 180 - in.toe_angle_deg;
        turned.high_toe_mm = in.high_heel_mm;
        turned.high_heel_mm = in.high_toe_mm;
        ung_status status = ung_hoof_band(&in, &out, NULL);
        must(ung_hoof_band(&turned, &of_turned, NULL) == status);
        if (status != UNG_OK)
            continue;
        /* 1e-12: one minus a fraction and 180 minus an angle are rounded, and the outline's system passes that on. */
        ck_relative(of_turned.perimeter_mm, out.perimeter_mm, 1e-12);
        ck_relative(of_turned.ground_area_mm2, out.ground_area_mm2, 1e-12);
        ck_relative(of_turned.circumference_low_mm, out.circumference_low_mm, 1e-12);
        ck_relative(of_turned.circumference_high_mm, out.circumference_high_mm, 1e-12);
        ck_relative(of_turned.wall_area_mm2, out.wall_area_mm2, 1e-12);
        ck_relative(of_turned.slant_height_mm, out.slant_height_mm, 1e-12);
    }
}
END_TEST

/* An even number of passes without an anchor is the same tape upside down. */
START_TEST(tape_upside_down)
{
    const ung_calculation *c = ung_cast_length_contract();
    for (size_t trial = 0; trial < scaled(2000); trial++) {
        ung_cast_length_in in, turned;
        ung_cast_length_out out, of_turned;
        random_accepted(c, (double *)&in, NULL);
        in.anchor_turns = 0;
        in.passes_count = 2 + 2 * (double)random_below(6);
        turned = in;
        turned.circumference_low_mm = in.circumference_high_mm;
        turned.circumference_high_mm = in.circumference_low_mm;
        must(ung_cast_length(&in, &out, NULL) == UNG_OK && ung_cast_length(&turned, &of_turned, NULL) == UNG_OK);
        ck_relative(of_turned.path_length_mm, out.path_length_mm, 1e-14); /* the accuracy stated */
        ck_relative(of_turned.edge_strain_fraction, out.edge_strain_fraction, 0);
    }
}
END_TEST

/* ---- Calculations tied together ---- */

/* The belt's outline is the outline. */
START_TEST(band_has_the_outline)
{
    const ung_calculation *c = ung_hoof_band_contract();
    for (size_t trial = 0; trial < scaled(100); trial++) {
        ung_hoof_band_in in;
        ung_hoof_band_out out;
        ung_outline_standard_out outline;
        ung_point points[3];
        random_accepted(c, (double *)&in, (double *)&out);
        ung_outline_standard_in same = {in.hoof_length_mm, in.hoof_width_mm, in.widest_fraction,
                                        in.heel_width_fraction, in.toe_width_fraction};
        must(ung_outline_standard(&same, points, 3, &outline, NULL) == UNG_OK);
        /* Both settle on their own number of nodes: the accuracy stated for accepted ranges. */
        ck_relative(out.perimeter_mm, outline.perimeter_mm, 1e-9);
        ck_relative(out.ground_area_mm2, outline.ground_area_mm2, 0);
    }
}
END_TEST

/* On a cone the belt's circumference changes evenly along the slant, as cast_length takes it: a level turn half a tape
 * above the lower edge is as long as the upper edge of a belt that ends there. */
START_TEST(circular_belt_ties_to_tape)
{
    for (size_t trial = 0; trial < scaled(200); trial++) {
        double angle = random_between(60, 89), diameter = random_between(110, 150), width = random_between(20, 50);
        ung_hoof_band_in in = ung_hoof_band_standard();
        ung_hoof_band_out whole, part;
        in.hoof_length_mm = in.hoof_width_mm = diameter;
        in.widest_fraction = 0.5;
        in.heel_width_fraction = in.toe_width_fraction = 0.6;
        in.toe_angle_deg = in.quarter_angle_deg = angle;
        in.heel_angle_deg = 180 - angle;
        in.low_mm = 0;
        in.high_toe_mm = in.high_heel_mm = random_between(50, 70);
        must(ung_hoof_band(&in, &whole, NULL) == UNG_OK);
        ck_relative(whole.slant_height_mm, in.high_toe_mm / (double)sinl(angle * PI_L / 180), 2e-13);
        in.high_toe_mm = in.high_heel_mm = width / 2 * (double)sinl(angle * PI_L / 180);
        must(ung_hoof_band(&in, &part, NULL) == UNG_OK);

        ung_cast_length_in tape = ung_cast_length_standard();
        ung_cast_length_out with, without;
        tape.circumference_low_mm = whole.circumference_low_mm;
        tape.circumference_high_mm = whole.circumference_high_mm;
        tape.band_height_mm = whole.slant_height_mm;
        tape.tape_width_mm = width;
        tape.anchor_turns = 1;
        must(ung_cast_length(&tape, &with, NULL) == UNG_OK);
        tape.anchor_turns = 0;
        must(ung_cast_length(&tape, &without, NULL) == UNG_OK);
        /* A difference of two paths of some 3000 mm, each within 1e-14, and a belt within 1e-13. */
        ck_relative(with.path_length_mm - without.path_length_mm, part.circumference_high_mm, 5e-13);
        /* A belt covered once: the area of the tape laid is layers times the belt's area. */
        ck_relative(with.layers * whole.wall_area_mm2, with.path_length_mm * width, 5e-13);
    }
}
END_TEST

/* Two belts, one above the other, are one: at a level between them, and where the belt passes from shoe to wall. */
START_TEST(belts_add_up)
{
    const ung_calculation *c = ung_hoof_band_contract();
    for (size_t trial = 0; trial < scaled(200); trial++) {
        ung_hoof_band_in in, lower, upper;
        ung_hoof_band_out out, of_lower, of_upper;
        do {
            random_input(c, (double *)&in, 1);
            in.low_mm = random_between(-40, 0);
        } while (ung_hoof_band(&in, &out, NULL) != UNG_OK);
        lower = upper = in;
        double level = random_between(0.5, 0.99) * fmin(in.high_toe_mm, in.high_heel_mm);
        lower.high_toe_mm = lower.high_heel_mm = upper.low_mm = level;
        must(ung_hoof_band(&lower, &of_lower, NULL) == UNG_OK && ung_hoof_band(&upper, &of_upper, NULL) == UNG_OK);
        ck_relative(of_lower.wall_area_mm2 + of_upper.wall_area_mm2, out.wall_area_mm2, 1e-12); /* each within 1e-13 of its sum */
        ck_relative(of_lower.circumference_high_mm, of_upper.circumference_low_mm, 2e-13);
        must(of_upper.shoe_area_mm2 == 0);
        ck_relative(of_lower.shoe_area_mm2, out.shoe_area_mm2, 2e-13); /* nodes may differ, and with them the perimeter */
        lower = in;
        lower.low_mm = 0;
        must(ung_hoof_band(&lower, &of_lower, NULL) == UNG_OK);
        ck_relative(of_lower.wall_area_mm2, out.wall_area_mm2, 0);
        ck_relative(of_lower.circumference_low_mm, out.perimeter_mm, 2e-13);
        /* Of the shoe's side: a frustum of the parallel curves, between two depths. */
        double deep = -in.low_mm, leans = in.upper_layer_mm >= 60 ? 0 : fmax(0, deep - in.upper_layer_mm);
        long double bevel = in.edge_bevel_deg * PI_L / 180, top = out.perimeter_mm + 2 * PI_L * in.overhang_mm;
        long double bottom = top - 2 * PI_L * leans * tanl(bevel);
        ck_relative(out.circumference_low_mm, (double)(deep > 0 ? bottom : out.perimeter_mm), 1e-14);
        long double side = top * (deep - leans) + (top + bottom) / 2 * leans / cosl(bevel);
        if (deep > 0)
            ck_relative(out.shoe_area_mm2, (double)side, 1e-14); /* a few roundings */
        ck_relative(out.slant_height_mm, (double)(of_lower.slant_height_mm + deep - leans + leans / cosl(bevel)), 2e-13);
    }
}
END_TEST

/* ---- The screw against a search ---- */

/* Distance to the sensitive region, knowing only that it is what lies inward of the inner face and above the floor:
 * the nearest point of its two boundary rays, negative inside. */
typedef struct region {
    long double t, s, c, floor, corner; /* thickness, sine and cosine of the wall's angle */
} region;

static long double to_ray(long double u, long double z, long double from_u, long double from_z, long double du, long double dz)
{
    long double along = (u - from_u) * du + (z - from_z) * dz;
    if (along < 0)
        along = 0;
    return hypotl(u - from_u - along * du, z - from_z - along * dz);
}

static long double to_region(const region *r, long double u, long double z)
{
    long double corner_u = r->floor * r->c / r->s + r->t / r->s;
    long double distance = fminl(to_ray(u, z, corner_u, r->floor, 1, 0), to_ray(u, z, corner_u, r->floor, r->c, r->s));
    int inside = z >= r->floor && u >= z * r->c / r->s + r->t / r->s;
    return inside ? -distance : distance;
}

typedef struct found {
    long double inner, outer, white, edge, margin, tip;
} found;

/* Covers of an axis by walking along it.  The distance to a convex set is convex along a line: a ternary search
 * (whose error is a distance of 1e-12 along the axis) finds its least value; the others are seen on samples that
 * include every bend. */
static found covers(const ung_screw_depth_in *in, double tilt_deg, long double e)
{
    region r = {in->wall_thickness_mm, sinl(in->wall_angle_deg * PI_L / 180), cosl(in->wall_angle_deg * PI_L / 180),
                in->sole_horn_mm, 0};
    long double sin_t = sinl(tilt_deg * PI_L / 180), cos_t = cosl(tilt_deg * PI_L / 180), radius = in->screw_diameter_mm / 2;
    found f = {INFINITY, INFINITY, INFINITY, INFINITY, 0, e * cos_t};
    long double low = 0, high = e;
    for (int i = 0; i < 90; i++) {
        long double a = low + (high - low) / 3, b = high - (high - low) / 3;
        if (to_region(&r, in->inset_mm + a * sin_t, a * cos_t) < to_region(&r, in->inset_mm + b * sin_t, b * cos_t))
            high = b;
        else
            low = a;
    }
    enum { SAMPLES = 64 };
    for (int i = 0; i <= SAMPLES + 1; i++) {
        long double l = i <= SAMPLES ? e * i / SAMPLES : (low + high) / 2;
        long double u = in->inset_mm + l * sin_t, z = l * cos_t;
        f.inner = fminl(f.inner, to_region(&r, u, z) - radius);
        f.outer = fminl(f.outer, u * r.s - z * r.c - radius);
        /* The white line's samples are spread up to the sole horn or the tip, whichever is lower. */
        long double reach = fminl(e, r.floor / cos_t) * fminl(i, SAMPLES) / SAMPLES;
        u = in->inset_mm + reach * sin_t;
        z = reach * cos_t;
        f.white = fminl(f.white, r.t - (u * r.s - z * r.c) - radius);
    }
    long double whole = (long double)in->shoe_thickness_mm - in->head_recess_mm, upper = in->upper_layer_mm;
    long double bevel = in->edge_bevel_deg * PI_L / 180;
    int beveled = in->upper_layer_mm < 60 && in->upper_layer_mm < in->shoe_thickness_mm;
    for (int i = 0; i <= SAMPLES; i++) {
        long double d = whole * i / SAMPLES;
        long double u = in->inset_mm - (d + in->pad_mm) * sin_t / cos_t + in->overhang_mm;
        /* To the nearest point of the upright side, a ray up from the shelf's edge, and of the beveled one, a ray down
         * and inward from it; outside, to the plane that is passed the farthest. */
        long double below = d - upper, along = below * cosl(bevel) + u * sinl(bevel);
        long double to_upright = hypotl(u, fmaxl(below, 0)), to_bevel = hypotl(u - fmaxl(along, 0) * sinl(bevel),
                                                                              below - fmaxl(along, 0) * cosl(bevel));
        long double passed = fminl(u, (u - below * tanl(bevel)) * cosl(bevel));
        long double inside = fminl(to_upright, to_bevel);
        f.edge = fminl(f.edge, (!beveled ? u : passed < 0 ? passed : inside) - radius);
    }
    f.margin = fminl(fminl(f.inner - in->inner_margin_mm, f.outer - in->outer_margin_mm),
                     fminl(f.white - in->white_line_margin_mm, f.edge - in->edge_margin_mm));
    f.margin = fminl(f.margin, in->height_limit_mm - f.tip);
    return f;
}

/* Screws that end near a place where a formula changes its way: the corner of wall and sole, an axis parallel to the
 * wall, or one parallel to the bisector of wall and floor. */
static void near_a_change(ung_screw_depth_in *in)
{
    random_input(ung_screw_depth_contract(), (double *)in, 0.8);
    double small[3];
    for (int i = 0; i < 3; i++)
        small[i] = pow(10, random_between(-4, i == 0 ? -0.5 : -1.5)) /* degrees, then mm */ * (random_bits() & 1 ? 1 : -1);
    size_t kind = random_below(3);
    if (kind == 1)
        in->tilt_deg = fmin(fmax(90 - in->wall_angle_deg + small[0] * (double)random_below(2), -60), 60);
    if (kind == 2)
        in->tilt_deg = fmin(fmax(90 - in->wall_angle_deg / 2 + small[0] * (double)random_below(2), -60), 60);
    double b = in->wall_angle_deg * (double)PI_L / 180, tilt = in->tilt_deg * (double)PI_L / 180;
    double corner_u = (in->wall_thickness_mm + in->sole_horn_mm * cos(b)) / sin(b);
    double height = in->sole_horn_mm + small[1], u = corner_u + small[2];
    if (kind == 1 && random_bits() & 1) { /* in the middle of the wall, nothing else in the way */
        in->inset_mm = fmin(fmax(in->wall_thickness_mm / 2 / sin(b), 1), 80);
        in->outer_margin_mm = in->white_line_margin_mm = 0;
        in->overhang_mm = in->upper_layer_mm = 60;
        in->screw_diameter_mm = 1.5;
    } else if (kind == 0 || random_bits() & 1) {
        in->inset_mm = fmin(fmax(u - height * tan(tilt), 1), 80);
        double wood = (in->shoe_thickness_mm - in->head_recess_mm + in->pad_mm) / cos(tilt);
        in->screw_length_mm = fmin(fmax(wood + height / cos(tilt), 8), 150);
    }
}

START_TEST(screw_covers_by_search)
{
    const ung_calculation *c = ung_screw_depth_contract();
    const double stated = 1e-11; /* mm, the accuracy stated */
    for (size_t trial = 0; trial < scaled(3000); trial++) {
        ung_screw_depth_in in;
        ung_screw_depth_out out;
        random_accepted(c, (double *)&in, (double *)&out);
        if (trial % 4 == 0) /* a fourth of them near the wall, as real screws are */
            random_input(c, (double *)&in, 1);
        if (trial % 4 >= 2)
            near_a_change(&in);
        if (ung_screw_depth(&in, &out, NULL) != UNG_OK)
            continue;
        long double cos_t = cosl(in.tilt_deg * PI_L / 180);
        long double wood = ((long double)in.shoe_thickness_mm - in.head_recess_mm + in.pad_mm) / cos_t;
        long double e = fmaxl(0, in.screw_length_mm - wood);
        ck_near(out.embedded_mm, (double)e, stated);
        found f = covers(&in, in.tilt_deg, e);
        ck_near(out.tip_height_mm, (double)f.tip, stated);
        ck_near(out.inner_cover_mm, (double)f.inner, stated);
        ck_near(out.outer_cover_mm, (double)f.outer, stated);
        ck_near(out.white_line_cover_mm, (double)f.white, stated);
        ck_near(out.edge_cover_mm, (double)f.edge, stated);
        ck_near(out.margin_mm, (double)f.margin, stated);
        long double deeper = e + in.seat_allowance_mm, worst = INFINITY;
        for (int side = -1; side <= 1; side++)
            worst = fminl(worst, covers(&in, in.tilt_deg + side * in.tilt_error_deg, deeper).margin);
        ck_near(out.margin_worst_mm, (double)worst, stated);
    }
}
END_TEST

/* The limit is a limit: at it every margin is kept, a little beyond one is not; 0 where the entry fails. */
START_TEST(screw_depth_limit)
{
    const ung_calculation *c = ung_screw_depth_contract();
    size_t positive = 0;
    for (size_t trial = 0; trial < scaled(40000); trial++) {
        ung_screw_depth_in in, at;
        ung_screw_depth_out out, there;
        if (trial % 3 == 2)
            near_a_change(&in);
        else
            random_input(c, (double *)&in, trial % 2 ? 1 : 0.7);
        if (trial % 2) { /* one of the margins is made to hold just to this depth, small or large */
            long double depth = pow(10, random_between(-4, 1.3));
            found f = covers(&in, in.tilt_deg, depth), g = covers(&in, in.tilt_deg, depth + 0.01L);
            found far = covers(&in, in.tilt_deg, 60);
            size_t which = random_below(4);
            if (which == 0 && f.inner >= 0 && f.inner <= 15 && g.inner < f.inner)
                in.inner_margin_mm = (double)f.inner;
            if (which == 1 && f.outer >= 0 && f.outer <= 15 && g.outer < f.outer)
                in.outer_margin_mm = (double)f.outer;
            if (which == 2 && f.white >= 0 && f.white <= 10 && g.white < f.white) {
                in.white_line_margin_mm = (double)f.white;
                in.inner_margin_mm = 0;
            }
            if (which == 3 && far.inner >= 0 && far.inner <= 14) /* just not kept somewhere along a long axis */
                in.inner_margin_mm = (double)far.inner + pow(10, random_between(-5, -2.5));
        }
        if (ung_screw_depth(&in, &out, NULL) != UNG_OK)
            continue;
        at = in;
        double wood = out.screw_length_limit_mm - out.depth_limit_mm;
        found entry = covers(&in, in.tilt_deg, 0);
        if (out.depth_limit_mm == 0) {
            must_msg((double)entry.margin < 1e-9 || (double)covers(&in, in.tilt_deg, 1e-6).margin < 1e-9,
                     "the entry keeps its margins by %g, and no depth is allowed", (double)entry.margin);
            continue;
        }
        positive++;
        must(entry.margin >= -1e-9);
        must(covers(&in, in.tilt_deg, out.depth_limit_mm).margin >= -1e-9);
        /* 1e-6 beyond: where the axis grazes a margin the first micrometers count for little, hence 1e-3 there; and one
         * parallel to a face at exactly the margin may pass or not (a rounding of lengths below 150). */
        int beyond = covers(&in, in.tilt_deg, out.depth_limit_mm + 1e-6).margin < 0 ||
                     covers(&in, in.tilt_deg, out.depth_limit_mm + 1e-3).margin < 1e-13;
        must_msg(beyond, "depth_limit %.17g is not the limit", out.depth_limit_mm);
        at.screw_length_mm = wood + out.depth_limit_mm;
        if (at.screw_length_mm >= 8 && at.screw_length_mm <= 150) {
            must(ung_screw_depth(&at, &there, NULL) == UNG_OK);
            must(there.margin_mm >= -1e-9);
            must(there.depth_limit_mm == out.depth_limit_mm); /* a screw's length does not change it */
        }
        at.screw_length_mm += 1e-6;
        if (at.screw_length_mm >= 8 && at.screw_length_mm <= 150) {
            must(ung_screw_depth(&at, &there, NULL) == UNG_OK);
            must(there.margin_mm < 1e-9);
        }
    }
    must(positive > scaled(20000) / 100);
}
END_TEST

/* A screw parallel to the wall in its middle has the same horn on both sides, and the largest diameter just fits. */
START_TEST(screw_in_the_middle)
{
    const ung_calculation *c = ung_screw_depth_contract();
    size_t done = 0;
    for (size_t trial = 0; trial < scaled(5000); trial++) {
        ung_screw_depth_in in;
        ung_screw_depth_out out;
        random_accepted(c, (double *)&in, (double *)&out);
        in.wall_angle_deg = random_between(45, 100);
        in.sole_horn_mm = 0;
        if (ung_screw_depth(&in, &out, NULL) != UNG_OK)
            continue;
        in.tilt_deg = out.parallel_tilt_deg;
        in.inset_mm = out.centred_inset_mm;
        in.screw_diameter_mm = out.largest_diameter_mm;
        /* Long enough that the horn is nearest square to the wall, not at the corner on the ground. */
        double square = in.wall_thickness_mm / 2 * cos(in.wall_angle_deg * (double)PI_L / 180);
        if (ung_screw_depth(&in, &out, NULL) != UNG_OK || out.embedded_mm == 0 || out.tip_height_mm < square)
            continue;
        done++;
        /* An angle rounded at 1e-14 degrees over a screw of 150 mm; the covers' own accuracy is 1e-11. */
        ck_near(out.inner_cover_mm + in.screw_diameter_mm / 2, in.wall_thickness_mm / 2, 2e-11);
        ck_near(out.outer_cover_mm + in.screw_diameter_mm / 2, in.wall_thickness_mm / 2, 2e-11);
        ck_near(out.inner_cover_mm + out.outer_cover_mm, in.inner_margin_mm + in.outer_margin_mm, 2e-11);
    }
    must(done > scaled(5000) / 200);
}
END_TEST

/* ---- Balances ---- */

START_TEST(sums_are_sums)
{
    for (size_t trial = 0; trial < scaled(2000); trial++) {
        ung_glue_volume_in glue;
        ung_glue_volume_out g;
        random_accepted(ung_glue_volume_contract(), (double *)&glue, (double *)&g);
        long double first = (glue.bonded_area_mm2 * (glue.film_mm + (long double)glue.groove_depth_mm *
                             glue.groove_width_mm / (2 * glue.groove_spacing_mm)) +
                             (long double)glue.wood_area_mm2 * glue.wood_film_mm) / 1000;
        long double top = (long double)glue.top_area_mm2 * glue.top_film_mm / 1000, waste = 1 + (long double)glue.waste_fraction;
        /* 1e-15: the accuracy stated, of sums of positive terms. */
        ck_relative(g.net_ml, (double)(first + top), 1e-15);
        ck_relative(g.first_coat_ml, (double)(first * waste), 1e-15);
        ck_relative(g.top_coat_ml, (double)(top * waste), 1e-15);
        ck_relative(g.mixed_ml, (double)((first + top) * waste), 1e-15);
        ck_relative(g.part_a_ml + g.part_b_ml, g.mixed_ml, 1e-15);
        ck_relative(g.part_a_ml, g.part_b_ml * glue.ratio_a_to_b, 1e-15);
        double each = glue.pack_ml - glue.nozzle_ml;
        /* Whole packs forgive a quotient 1e-9 above a whole number. */
        must(g.packs_count >= 1 && floor(g.packs_count) == g.packs_count);
        must(g.packs_count * each >= g.mixed_ml - 2e-9 * each);
        must(g.packs_count == 1 || (g.packs_count - 1) * each < g.mixed_ml * (1 + 1e-15));
        must(g.packs_separate_count >= g.packs_count - 1 && g.packs_separate_count <= g.packs_count + 1);
        ck_near(g.leftover_ml, g.packs_count * each - g.mixed_ml, 4e-16 * g.packs_count * each);

        ung_cast_length_in tape;
        ung_cast_length_out t;
        random_accepted(ung_cast_length_contract(), (double *)&tape, (double *)&t);
        must(t.rolls_count >= 1 && floor(t.rolls_count) == t.rolls_count);
        must(t.rolls_count * tape.roll_length_mm >= t.tape_length_mm - 2e-9 * tape.roll_length_mm);
        must(t.rolls_count == 1 || (t.rolls_count - 1) * tape.roll_length_mm < t.tape_length_mm * (1 + 1e-15));
        ck_near(t.leftover_mm, t.rolls_count * tape.roll_length_mm - t.tape_length_mm,
                4e-16 * t.rolls_count * tape.roll_length_mm);
        ck_relative(t.tape_length_mm * (1 + tape.stretch_fraction), t.path_length_mm * (1 + tape.waste_fraction), 1e-15);
        ck_relative(t.thickness_mm, t.layers * tape.ply_mm, 4e-16);

        ung_heel_bevel_in bevel;
        ung_heel_bevel_out b;
        random_accepted(ung_heel_bevel_contract(), (double *)&bevel, (double *)&b);
        ck_near(b.contact_length_mm + bevel.bevel_run_mm, bevel.ground_length_mm, 1e-13);
        ck_relative(b.contact_fraction * bevel.ground_length_mm, b.contact_length_mm, 4e-16);
        /* Pythagoras on the face; 2e-15 is the accuracy stated for each length. */
        ck_relative(hypot(bevel.bevel_run_mm, b.rise_mm), b.face_length_mm, 5e-15);
        must(b.wood_left_mm <= bevel.shoe_thickness_mm && b.wedge_after_deg <= b.wedge_before_deg);
        long double rest = (long double)bevel.ground_length_mm - bevel.build_length_mm;
        ck_near(b.wedge_before_deg, (double)(atanl(bevel.build_up_mm / rest) * 180 / PI_L), 9e-14);
        if (bevel.bevel_run_mm > 0 && b.angle_limit_deg > 0 && b.angle_limit_deg < 75) /* the wood that may go */
            ck_relative(bevel.bevel_run_mm * (double)tanl(b.angle_limit_deg * PI_L / 180),
                        bevel.shoe_thickness_mm - bevel.least_edge_mm, 5e-15);
        if (bevel.wrapped_before_count == 0) { /* how far the tape still stands proud where the bevel has not cut */
            long double past = fmaxl(0, (long double)bevel.bevel_run_mm - bevel.build_length_mm);
            long double proud = fmaxl(0, bevel.build_up_mm - past * tanl(bevel.bevel_angle_deg * PI_L / 180));
            ck_near(b.wedge_after_deg, (double)(atanl(proud / rest) * 180 / PI_L), 9e-14);
            ung_heel_bevel_in cleared = bevel; /* at run_to_clear nothing stands proud, a little before it something */
            cleared.bevel_run_mm = b.run_to_clear_mm * (1 + 1e-12);
            if (cleared.bevel_run_mm <= 150 && ung_heel_bevel(&cleared, &b, NULL) == UNG_OK)
                must(b.wedge_after_deg == 0);
        }
    }
}
END_TEST

/* ---- Cautions ---- */

START_TEST(cautions_are_sorted)
{
    for (size_t which = 0; which < ung_calculation_count(); which++) {
        const ung_calculation *c = ung_calculation_at(which);
        for (size_t trial = 0; trial < scaled(300); trial++) {
            double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST];
            ung_caution caution[UNG_CAUTIONS_MOST], fewer[UNG_CAUTIONS_MOST];
            random_accepted(c, in, out);
            size_t n = ung_cautions(c, in, out, caution, UNG_CAUTIONS_MOST), held = 0;
            must(n <= ung_rule_count(c));
            for (size_t i = 1; i < n; i++)
                must(caution[i].severity <= caution[i - 1].severity);
            for (size_t k = 0; k < ung_rule_count(c); k++) { /* exactly those whose rule holds */
                const ung_rule *r = ung_rule_at(c, k);
                int holds = guard_holds(c, r, in, out) && rule_compares(rule_value(c, r, in, out), r->comparison, r->limit);
                must(holds == has_caution(c, in, out, r->code));
                held += (size_t)holds;
            }
            must(held == n && ung_cautions(c, in, out, NULL, 0) == n);
            for (size_t capacity = 0; capacity < n; capacity++) {
                memset(fewer, 0x5a, sizeof fewer);
                must(ung_cautions(c, in, out, fewer, capacity) == n);
                for (size_t i = 0; i < capacity; i++)
                    must(fewer[i].code == caution[i].code && fewer[i].severity == caution[i].severity &&
                         fewer[i].value == caution[i].value && fewer[i].limit == caution[i].limit);
                for (size_t b = capacity * sizeof *fewer; b < sizeof fewer; b++)
                    must(((unsigned char *)fewer)[b] == 0x5a);
            }
            for (size_t i = 0; i < ung_output_count(c); i++)
                out[i] = NAN;
            must(ung_cautions(c, in, out, caution, UNG_CAUTIONS_MOST) == 0); /* a refused result has a fault instead */
        }
    }
}
END_TEST

/* Whether a value of this input lifts the caution: accepted, the caution gone, no stop that was not there.  nearer:
 * asked of a value nearer than the one found, where results that stay on the limit but for their rounding count as not. */
static int lifts(const ung_calculation *c, const double *in, const double *out, size_t j, double value,
                 const char *code, int nearer)
{
    double x[UNG_FIELDS_MOST], y[UNG_FIELDS_MOST];
    memcpy(x, in, sizeof x);
    x[j] = value;
    if (ung_call(c, x, NULL, y, NULL) != UNG_OK || has_caution(c, x, y, code))
        return 0;
    for (size_t k = 0; k < ung_rule_count(c); k++) { /* on the limit itself, a rounding this side of it */
        const ung_rule *r = ung_rule_at(c, k);
        if (strcmp(r->code, code) == 0 && nearer && r->comparison != UNG_EQUAL &&
            fabs(rule_value(c, r, x, y) - r->limit) <= 1e-14 * fabs(r->limit))
            return 0;
    }
    for (size_t k = 0; k < ung_rule_count(c); k++) {
        const ung_rule *r = ung_rule_at(c, k);
        if (r->severity == UNG_STOP && has_caution(c, x, y, r->code) && !has_caution(c, in, out, r->code))
            return 0;
    }
    return 1;
}

START_TEST(lifting_a_caution)
{
    size_t found_some = 0, found_none = 0;
    for (size_t which = 0; which < ung_calculation_count(); which++) {
        const ung_calculation *c = ung_calculation_at(which);
        if (ung_list_count(c) || !ung_rule_count(c))
            continue;
        int slow = c->kernel[0] == c->kernel[UNG_WIDTHS - 1];
        for (size_t trial = 0; trial < scaled(slow ? 4 : 60); trial++) {
            double in[UNG_FIELDS_MOST], out[UNG_FIELDS_MOST], value;
            ung_caution caution[UNG_CAUTIONS_MOST];
            ung_fault fault;
            random_accepted(c, in, out);
            size_t n = ung_cautions(c, in, out, caution, UNG_CAUTIONS_MOST);
            for (size_t i = 0; i < n; i++)
                for (size_t j = 0; j < ung_input_count(c); j++) {
                    const ung_field *f = ung_input(c, j);
                    must(ung_caution_lift(c, in, caution[i].code, j, &value, &fault) == UNG_OK);
                    must(fault.status == UNG_OK);
                    int none = isnan(value);
                    none ? found_none++ : found_some++;
                    if (!none)
                        must_msg(lifts(c, in, out, j, value, caution[i].code, 0), "%s: %s = %.17g does not lift %s",
                                 ung_calculation_name(c), f->name, value, caution[i].code);
                    /* Away from a single value (rules and guards that compare with EQUAL) there is no nearest one. */
                    int exact = 0;
                    for (size_t k = 0; k < ung_rule_count(c); k++) {
                        const ung_rule *r = ung_rule_at(c, k);
                        exact |= !strcmp(r->code, caution[i].code) &&
                                 (r->comparison == UNG_EQUAL || (r->guard >= 0 && r->guard_comparison == UNG_EQUAL));
                    }
                    /* The steps in time of wall_heat change with its inputs: within their error its peaks go up and down. */
                    if (exact || strcmp(ung_calculation_name(c), "wall_heat") == 0)
                        continue;
                    /* Nothing nearer does, halfway included; and nothing at all where there is no value. */
                    double reach = none ? f->upper - f->lower : fabs(value - in[j]);
                    if (reach <= 1e-14 * (f->upper - f->lower)) /* from 0, anything at all: the search ends at a rounding */
                        continue;
                    for (int k = -64; k <= 64; k++) {
                        double nearer = in[j] + reach * (none ? k / 64.0 : k / 65.0);
                        if (f->whole)
                            nearer = k < 0 ? ceil(nearer) : floor(nearer);
                        if (k && nearer >= f->lower && nearer <= f->upper && (none || fabs(nearer - in[j]) < reach))
                            must_msg(!lifts(c, in, out, j, nearer, caution[i].code, 1),
                                     "%s: %s = %.17g for %.17g lifts %s, not only %.17g", ung_calculation_name(c), f->name,
                                     nearer, in[j], caution[i].code, value);
                    }
                    if (!none && !f->whole)
                        must_msg(!lifts(c, in, out, j, in[j] + (value - in[j]) * (1 - 1e-9), caution[i].code, 1),
                                 "%s: %s = %.17g for %.17g is not the nearest that lifts %s", ung_calculation_name(c),
                                 f->name, value, in[j], caution[i].code);
                }
            for (size_t k = 0; k < ung_rule_count(c); k++) { /* what does not stand need not be lifted */
                const char *code = ung_rule_at(c, k)->code;
                if (has_caution(c, in, out, code))
                    continue;
                must(ung_caution_lift(c, in, code, 0, &value, NULL) == UNG_OK && value == in[0]);
            }
            must(ung_caution_lift(c, in, "no such code", 0, &value, &fault) == UNG_UNKNOWN && isnan(value));
            must(same_text(fault.field, "code"));
            const char *code = ung_rule_at(c, 0)->code;
            must(ung_caution_lift(c, in, code, ung_input_count(c), &value, &fault) == UNG_UNKNOWN && isnan(value));
            must(same_text(fault.field, "input"));
            in[0] = NAN;
            must(ung_caution_lift(c, in, code, 0, &value, &fault) != UNG_OK && isnan(value));
        }
    }
    must(found_some > 0 && found_none > 0);
}
END_TEST

int main(void)
{
    SRunner *runner;
    TCase *tests = begin(&runner, "laws");
    tcase_add_test(tests, scaling);
    tcase_add_test(tests, monotony);
    tcase_add_test(tests, band_turned_round);
    tcase_add_test(tests, tape_upside_down);
    tcase_add_test(tests, band_has_the_outline);
    tcase_add_test(tests, circular_belt_ties_to_tape);
    tcase_add_test(tests, belts_add_up);
    tcase_add_test(tests, screw_covers_by_search);
    tcase_add_test(tests, screw_depth_limit);
    tcase_add_test(tests, screw_in_the_middle);
    tcase_add_test(tests, sums_are_sums);
    tcase_add_test(tests, cautions_are_sorted);
    tcase_add_test(tests, lifting_a_caution);
    return finish(runner);
}
