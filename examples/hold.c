/* Invented scenario: four leaning screws and a bond carry a shoe of 450 g at a trot, and a heel is trodden on. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_hold_in job = ung_hold_standard();
    job.body_mass_kg = 500, job.shoe_mass_g = 450;
    job.screw_count = 4;
    job.axial_design_n = 60, job.lateral_design_n = 260;
    job.axis_tilt_deg = 12;
    job.bond_capacity_first_n = 2400, job.bond_capacity_mean_n = 11000;
    job.peel_pull_n = job.pull_extra_n = 150; /* at the heel's end, 90 mm wide */
    job.divisor_ratio = 2;
    ung_hold_out out;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_hold(&job, &out, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("pull %.2f N, shear %.0f N\n", out.pull_n, out.shear_n);
    printf("screws alone %.2f, bond alone %.2f of what they carry\n",
           out.screws_only_use_ratio, out.bond_only_use_ratio);
    printf("the stronger path is the %s\n",
           out.governing_count == 1 ? "screws" : "bond");
    const char *const part[] = {"nothing", "the screws", "the bond", "peel", "the cast"};
    printf("%s would give first, at %.2f times this load\n",
           part[(int)out.weakest_part_count], out.least_ratio);
    printf("needed for twice the load: screws %.0f N each, bond %.0f N,\n"
           "  peel %.2f N/mm, or a cast that grips with %.0f N\n",
           out.needed_screw_n, out.needed_bond_n, out.needed_peel_n_per_mm,
           out.needed_grip_n);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_hold_cautions(&job, &out, caution, UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
