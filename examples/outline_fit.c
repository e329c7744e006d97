/* Invented scenario: twenty points of a rough trace in a picture, where 50 mm of a ruler are 200 units long. */
#include <stdio.h>
#include <ungula.h>

enum { POINTS = 20 };

int main(void)
{
    const ung_point trace[POINTS] = {
        {268, 2},    {254, 83},    {220, 155},  {160, 216},  {81, 250},
        {-4, 257},   {-90, 240},   {-172, 212}, {-226, 168}, {-262, 82},
        {-271, -3},  {-258, -85},  {-229, -161}, {-167, -214}, {-88, -239},
        {-2, -257},  {84, -251},   {157, -214}, {218, -157}, {257, -79},
    };
    ung_outline_fit_in picture = ung_outline_fit_standard();
    picture.reference_x1_mm = -100, picture.reference_y1_mm = 330;
    picture.reference_x2_mm = 100, picture.reference_y2_mm = 330;
    picture.reference_length_mm = 50;
    ung_point outline[8];
    double work[POINTS]; /* ung_workspace(contract, POINTS) */
    ung_outline_fit_out fit;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_outline_fit(&picture, trace, POINTS, outline, 8, work, POINTS,
                        &fit, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("length %.1f mm, width %.1f mm, widest at %.2f\n",
           fit.length_mm, fit.width_mm, fit.widest_fraction);
    printf("noise %.2f mm with %.0f harmonics\n", fit.noise_mm,
           fit.chosen_harmonics_count);
    for (int i = 0; i < 8; i++)
        printf("x %6.1f mm, y %6.1f mm\n",
               outline[i].x_mm, outline[i].y_mm);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_outline_fit_cautions(&picture, &fit, caution,
                                        UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
