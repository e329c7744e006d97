/* Invented scenario: the whole job for a pony, its right and left wall apart.
 * Prints what to bring and to do, and what is doubtful or was left out. */
#include <stdio.h>
#include <ungula.h>

static ung_job_plan_in pony(void)
{
    ung_job_plan_in p = ung_job_plan_standard();
    p.hoof_length_mm = 105, p.hoof_width_mm = 98;
    p.toe_angle_deg = 54, p.quarter_angle_deg = 80, p.heel_angle_deg = 52;
    p.high_toe_mm = 34, p.high_heel_mm = 20, p.overhang_mm = 4;
    p.toe_hairline_mm = 56, p.heel_hairline_mm = 30;
    p.shoe_thickness_mm = 20, p.upper_layer_mm = 8, p.species_count = 20;
    p.border_width_mm = 9, p.wall_angle_deg = 80, p.sole_horn_mm = 4;
    p.other_border_width_mm = 8.4, p.other_inset_mm = 4.2;
    p.gauge_count = 6, p.screw_count = 4; /* the length is looked for */
    p.inset_mm = 4.5, p.tilt_deg = 10, p.head_recess_mm = 2;
    p.tilt_error_deg = 3;
    p.tape_width_mm = 50.8, p.stretch_fraction = 0.2; /* so are the passes */
    p.ground_length_mm = 100, p.bevel_run_mm = 10, p.bevel_angle_deg = 20;
    p.width_start_mm = 80, p.width_end_mm = 72, p.build_length_mm = 6;
    p.sole_area_mm2 = 6000, p.dish_depth_mm = 4, p.rope_length_mm = 90;
    p.body_mass_kg = 230, p.gait_count = 2;
    p.horn_shear_mpa = 10, p.horn_bearing_mpa = 25; /* three strengths */
    p.shear_strength_mpa = 2; /* that nobody published: measure yours */
    p.adhesive_shear_modulus_mpa = 300, p.cover_modulus_mpa = 2500;
    p.reference_time_s = 480, p.reference_temperature_c = 22;
    p.temperature_c = 20, p.surface_cm2 = 300; /* a tray, not a cup */
    return p;
}

static const char *const kind[] = {"bring", "do", "later"};

int main(void)
{
    ung_job_plan_in in = pony();
    static ung_job_plan_out plan;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_job_plan(&in, &plan, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;

    ung_plan_item item[UNG_PLAN_ITEMS_MOST];
    size_t n = ung_plan_items(&plan, item, UNG_PLAN_ITEMS_MOST);
    for (size_t i = 0; i < n; i++) {
        ung_plan_words(item[i].code, item[i].quantity, item[i].unit, "en",
                       text, sizeof text);
        printf("%-6s %s%s%s\n", kind[item[i].kind], text,
               item[i].caution ? "  ! " : "",
               item[i].caution ? item[i].caution : "");
    }
    ung_plan_caution caution[128];
    n = ung_job_plan_cautions(&plan, caution, 128);
    for (size_t i = 0; i < n && i < 128; i++)
        printf("%-6s %s, %s: %s\n",
               ung_severity_text(caution[i].caution.severity),
               ung_plan_step(caution[i].step).name, caution[i].caution.code,
               caution[i].caution.text);
    for (size_t i = 0; i < UNG_PLAN_STEP_COUNT; i++)
        if (plan.state[i] >= UNG_STEP_LACKS)
            printf("%-6s %s: %s\n", "not", ung_plan_step(i).name,
                   ung_fault_text(plan.fault + i, text));
    return 0;
}
