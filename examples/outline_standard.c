/* Invented scenario: eight points of a hoof that nobody traced. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_outline_standard_in hoof = ung_outline_standard_standard();
    hoof.hoof_length_mm = 132;
    hoof.hoof_width_mm = 126;
    ung_point outline[8];
    ung_outline_standard_out shape;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_outline_standard(&hoof, outline, 8, &shape, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("perimeter %.1f mm, ground area %.0f mm2\n",
           shape.perimeter_mm, shape.ground_area_mm2);
    for (int i = 0; i < 8; i++)
        printf("x %6.1f mm, y %6.1f mm\n",
               outline[i].x_mm, outline[i].y_mm);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_outline_standard_cautions(&hoof, &shape, caution,
                                             UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
