/* Invented scenario: one screw pulled and pushed at once. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_screw_combined_in screw = ung_screw_combined_standard();
    screw.axial_design_n = 115, screw.lateral_design_n = 205;
    screw.axial_n = 60, screw.lateral_n = 150;
    ung_screw_combined_out use;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_screw_combined(&screw, &use, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("%.0f N at %.0f deg, %.0f N may be counted on\n", use.load_n,
           use.load_angle_deg, use.capacity_n);
    printf("used %.2f\n", use.use_ratio);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_screw_combined_cautions(&screw, &use, caution,
                                           UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
