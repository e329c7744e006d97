/* Invented scenario: the white line of a standard outline, 11 mm in at the
 * toe and 7 mm in at the heels. */
#include <stdio.h>
#include <ungula.h>

enum { POINTS = 72 };

int main(void)
{
    ung_outline_standard_in hoof = ung_outline_standard_standard();
    hoof.hoof_length_mm = 132;
    hoof.hoof_width_mm = 126;
    ung_point outline[POINTS], white_line[POINTS];
    ung_depth depths[POINTS];
    double work[POINTS * 5 + 128]; /* ung_workspace(contract, POINTS) */
    ung_outline_standard_out shape;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_outline_standard(&hoof, outline, POINTS, &shape, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    for (int i = 0; i < POINTS; i++)
        depths[i].depth_mm = 9 + 2 * outline[i].x_mm / 66;
    ung_outline_inset_in inset = ung_outline_inset_standard();
    ung_outline_inset_out inner;
    if (ung_outline_inset(&inset, outline, POINTS, depths, POINTS, white_line, POINTS,
                          work, sizeof work / sizeof *work, &inner, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("inside the border %.0f mm2, inside the white line %.0f mm2\n",
           shape.ground_area_mm2, inner.area_mm2);
    printf("tightest radius of the outline %.1f mm\n", inner.least_radius_mm);
    printf("toe: border at %.1f mm, white line at %.1f mm\n",
           outline[0].x_mm, white_line[0].x_mm);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_outline_inset_cautions(&inset, &inner, caution, UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity), caution[i].text);
    return 0;
}
