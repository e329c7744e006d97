/* Invented scenario: a belt round a hoof traced with twelve points, steeper on its right side. */
#include <stdio.h>
#include <ungula.h>

enum { POINTS = 12 };

int main(void)
{
    const ung_point trace[POINTS] = {
        {67, 0},   {57, 34},   {31, 58},   {-4, 64},  {-41, 57}, {-64, 36},
        {-68, 0},  {-64, -34}, {-42, -54}, {-5, -61}, {30, -56}, {57, -33},
    };
    ung_outline_band_in belt = ung_outline_band_standard();
    belt.toe_angle_deg = 51, belt.heel_angle_deg = 49;
    belt.left_quarter_angle_deg = 74, belt.right_quarter_angle_deg = 86;
    belt.low_mm = -22;
    belt.high_toe_mm = 38, belt.high_heel_mm = 22;
    belt.toe_hairline_mm = 62, belt.heel_hairline_mm = 33;
    double work[5 * POINTS + 128]; /* ung_workspace(contract, POINTS) */
    ung_outline_band_out band;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_outline_band(&belt, trace, POINTS, work,
                         sizeof work / sizeof *work, &band, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("perimeter %.1f mm, ground area %.0f mm2\n",
           band.perimeter_mm, band.ground_area_mm2);
    printf("around the belt: %.1f mm below, %.1f mm above\n",
           band.circumference_low_mm, band.circumference_high_mm);
    printf("to bond %.0f mm2, to cover %.0f mm2, %.1f mm high\n",
           band.bonded_area_mm2, band.covered_area_mm2,
           band.slant_height_mm);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_outline_band_cautions(&belt, &band, caution,
                                         UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
