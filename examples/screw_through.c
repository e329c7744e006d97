/* Invented scenario: a screw of 3.5 x 28 mm through 10.5 mm of wall. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_screw_through_in screw = ung_screw_through_standard();
    screw.wall_thickness_mm = 10.5, screw.wall_angle_deg = 78;
    screw.sole_horn_mm = 5, screw.entry_height_mm = 7, screw.dip_deg = 50;
    screw.screw_diameter_mm = 3.5, screw.screw_length_mm = 28;
    screw.shoe_thickness_mm = 22, screw.overhang_mm = 4;
    screw.belt_top_mm = 30;
    ung_screw_through_out fit;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_screw_through(&screw, &fit, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("%.1f mm in the horn, %.1f mm in the wood\n",
           fit.horn_length_mm, fit.wood_length_mm);
    printf("horn left: %.1f mm inward, %.1f mm outward, "
           "%.1f mm to the white line\n", fit.inner_cover_mm,
           fit.outer_cover_mm, fit.white_line_cover_mm);
    printf("wood left: %.1f mm to the ground, %.1f mm to the side\n",
           fit.ground_cover_mm, fit.edge_cover_mm);
    printf("margin %.2f mm; screws of %.1f to %.1f mm fit\n",
           fit.margin_mm, fit.shortest_mm, fit.longest_mm);
    printf("entry from %.1f to %.1f mm up\n",
           fit.entry_low_mm, fit.entry_high_mm);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_screw_through_cautions(&screw, &fit, caution,
                                          UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
