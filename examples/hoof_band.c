/* Invented scenario: the hairline was measured at the toe alone. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_hoof_band_in hoof = ung_hoof_band_standard();
    hoof.hoof_length_mm = 132, hoof.hoof_width_mm = 126;
    hoof.low_mm = -22, hoof.high_toe_mm = 36, hoof.high_heel_mm = 20;
    hoof.toe_hairline_mm = 64;
    ung_hoof_band_out belt;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_hoof_band(&hoof, &belt, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("round the belt %.0f mm below, %.0f mm above\n",
           belt.circumference_low_mm, belt.circumference_high_mm);
    printf("to bond %.0f mm2 of wall, to cover %.0f mm2\n",
           belt.bonded_area_mm2, belt.covered_area_mm2);
    printf("height along wall and shoe %.1f mm\n", belt.slant_height_mm);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_hoof_band_cautions(&hoof, &belt, caution,
                                      UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
