/* Invented scenario: four widths of tape; the third is in inches. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_cast_length_in foot[4];
    ung_cast_length_out tape[4];
    double width_mm[4] = {50.8, 76.2, 4, 101.6};
    for (int i = 0; i < 4; i++) {
        foot[i] = ung_cast_length_standard();
        foot[i].circumference_low_mm = 420;
        foot[i].circumference_high_mm = 350;
        foot[i].band_height_mm = 90;
    }
    /* 12 inputs and 9 results, in their order; NULL: standard values */
    ung_column in[12] = {UNG_MEMBER(foot, circumference_low_mm),
                         UNG_MEMBER(foot, circumference_high_mm),
                         UNG_MEMBER(foot, band_height_mm),
                         UNG_COLUMN(width_mm)};
    ung_target out[9] = {[2] = UNG_TARGET_MEMBER(tape, tape_length_mm),
                         [3] = UNG_TARGET_MEMBER(tape, rolls_count)};
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_batch(ung_cast_length_contract(), 4, in, out, UNG_GO_ON,
                  &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    if (fault.count)
        printf("refused: %zu, the first: %s\n", fault.count,
               ung_fault_text(&fault, text));
    for (int i = 0; i < 4; i++)
        printf("%5.1f mm wide: %.0f mm of tape, rolls: %.0f\n",
               width_mm[i], tape[i].tape_length_mm, tape[i].rolls_count);
    return 0;
}
