/* Invented scenario: a shoe of 30 mm with 8 mm upright and a bevel of 40
 * degrees below, under a standard outline. */
#include <stdio.h>
#include <ungula.h>

enum { POINTS = 360 };

int main(void)
{
    ung_outline_standard_in hoof = ung_outline_standard_standard();
    hoof.hoof_length_mm = 132;
    hoof.hoof_width_mm = 126;
    ung_point outline[POINTS];
    double work[POINTS * 7 + 128]; /* ung_workspace(contract, POINTS) */
    ung_outline_standard_out shape;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_outline_standard(&hoof, outline, POINTS, &shape, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    ung_shoe_footprint_in shoe = ung_shoe_footprint_standard();
    shoe.shoe_thickness_mm = 30;
    shoe.overhang_mm = 3;
    shoe.upper_layer_mm = 8;
    shoe.edge_bevel_deg = 40;
    shoe.load_n = 1600;
    ung_shoe_footprint_out foot;
    if (ung_shoe_footprint(&shoe, outline, POINTS, work, sizeof work / sizeof *work, &foot, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("upper face %.0f mm2, ground face %.0f mm2\n", foot.shoe_area_mm2, foot.ground_face_mm2);
    printf("on the ground %.1f x %.1f mm, tightest radius %.1f mm\n",
           foot.contact_length_mm, foot.contact_width_mm, foot.ground_radius_mm);
    printf("mean pressure %.3f MPa\n", foot.pressure_mpa);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_shoe_footprint_cautions(&shoe, &foot, caution, UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity), caution[i].text);
    return 0;
}
