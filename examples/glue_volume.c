/* Invented scenario: adhesive for one foot, 1.6 mm thick on the wall. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_hoof_band_in hoof = ung_hoof_band_standard();
    hoof.hoof_length_mm = 132, hoof.hoof_width_mm = 126;
    hoof.low_mm = -22, hoof.high_toe_mm = 36, hoof.high_heel_mm = 20;
    hoof.toe_hairline_mm = 64, hoof.heel_hairline_mm = 30;
    ung_hoof_band_out belt;
    ung_glue_volume_in coats = ung_glue_volume_standard();
    ung_glue_volume_out glue;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_hoof_band(&hoof, &belt, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    coats.bonded_area_mm2 = belt.bonded_area_mm2, coats.film_mm = 1.6;
    coats.wood_area_mm2 = belt.shoe_area_mm2;
    coats.top_area_mm2 = belt.covered_area_mm2;
    if (ung_glue_volume(&coats, &glue, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("first coat %.1f mL, top coat %.1f mL\n",
           glue.first_coat_ml, glue.top_coat_ml);
    printf("packs: %.0f, or %.0f where each coat is mixed apart\n",
           glue.packs_count, glue.packs_separate_count);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_glue_volume_cautions(&coats, &glue, caution,
                                        UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
