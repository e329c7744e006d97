/* Invented scenario: a No. 8 screw from below; the strengths are guesses. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_screw_hold_in screw = ung_screw_hold_standard();
    screw.point_member_count = 1;
    screw.screw_diameter_mm = 4.17, screw.root_diameter_mm = 3.33;
    screw.pitch_mm = 1.69, screw.head_diameter_mm = 7.9;
    screw.horn_length_mm = 16, screw.wood_length_mm = 20;
    screw.horn_shear_mpa = 8, screw.horn_bearing_mpa = 20;
    screw.wanted_axial_n = 60, screw.wanted_lateral_n = 150;
    ung_screw_hold_out hold;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_screw_hold(&screw, &hold, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("pulls out at %.0f N; %.0f N may be counted on\n",
           hold.axial_ultimate_n, hold.axial_design_n);
    printf("yields sideways at %.0f N (mode %.0f); "
           "%.0f N may be counted on\n", hold.lateral_yield_n,
           hold.governing_mode_count, hold.lateral_design_n);
    printf("used %.2f along the axis, %.2f sideways\n",
           hold.axial_use_ratio, hold.lateral_use_ratio);
    printf("horn needs %.1f MPa in shear, %.1f MPa in bearing\n",
           hold.horn_shear_needed_mpa, hold.horn_bearing_needed_mpa);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_screw_hold_cautions(&screw, &hold, caution,
                                       UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
