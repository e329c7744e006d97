/* Invented scenario: a screw of 4 x 38 mm into a quarter of 9.5 mm. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_screw_depth_in screw = ung_screw_depth_standard();
    screw.wall_thickness_mm = 9.5, screw.wall_angle_deg = 80;
    screw.sole_horn_mm = 5;
    screw.shoe_thickness_mm = 22, screw.overhang_mm = 4;
    screw.screw_diameter_mm = 4, screw.screw_length_mm = 38;
    screw.head_recess_mm = 2;
    screw.inset_mm = 5.2, screw.tilt_deg = 8;
    ung_screw_depth_out fit;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_screw_depth(&screw, &fit, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("%.1f mm in the horn, tip %.1f mm up\n",
           fit.embedded_mm, fit.tip_height_mm);
    printf("horn left: %.1f mm inward, %.1f mm outward\n",
           fit.inner_cover_mm, fit.outer_cover_mm);
    printf("margin %.2f mm, with a hand's error %.2f mm\n",
           fit.margin_mm, fit.margin_worst_mm);
    printf("longest screw %.1f mm\n", fit.screw_length_limit_mm);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_screw_depth_cautions(&screw, &fit, caution,
                                        UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
