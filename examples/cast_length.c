/* Invented scenario: tape of 2 inches (50.8 mm) for one foot's belt. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_hoof_band_in hoof = ung_hoof_band_standard();
    hoof.hoof_length_mm = 132, hoof.hoof_width_mm = 126;
    hoof.low_mm = -22, hoof.high_toe_mm = 36, hoof.high_heel_mm = 20;
    hoof.toe_hairline_mm = 64, hoof.heel_hairline_mm = 30;
    ung_hoof_band_out belt;
    ung_cast_length_in foot = ung_cast_length_standard();
    ung_cast_length_out tape;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_hoof_band(&hoof, &belt, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    foot.circumference_low_mm = belt.circumference_low_mm;
    foot.circumference_high_mm = belt.circumference_high_mm;
    foot.band_height_mm = belt.slant_height_mm;
    foot.toe_angle_deg = hoof.toe_angle_deg;
    foot.tape_width_mm = 50.8;
    if (ung_cast_length(&foot, &tape, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("%.0f mm of tape, rolls: %.0f\n",
           tape.tape_length_mm, tape.rolls_count);
    printf("%.1f plies in the mean, %.0f at the thinner edge\n",
           tape.layers, tape.edge_plies_count);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_cast_length_cautions(&foot, &tape, caution,
                                        UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
