/* Invented scenario: a bevel takes off tape 2.5 mm thick under the heel. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_heel_bevel_in heel = ung_heel_bevel_standard();
    heel.ground_length_mm = 128, heel.shoe_thickness_mm = 22;
    heel.width_start_mm = 92, heel.width_end_mm = 78;
    heel.build_up_mm = 2.5, heel.build_length_mm = 14;
    heel.bevel_run_mm = 18, heel.bevel_angle_deg = 30;
    ung_heel_bevel_out bevel;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_heel_bevel(&heel, &bevel, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("wedge %.1f deg before, %.1f deg after\n",
           bevel.wedge_before_deg, bevel.wedge_after_deg);
    printf("wood left at the rear edge %.1f mm, ground face %.0f mm\n",
           bevel.wood_left_mm, bevel.contact_length_mm);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_heel_bevel_cautions(&heel, &bevel, caution,
                                       UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
