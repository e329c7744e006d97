/* Invented scenario: six points at equal steps round a rough trace, made
 * clockwise with the toe along y. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    const ung_point outline[] = {{-18, 60}, {22, 60}, {58, 10}, {49, -55}, {-50, -55}, {-57, 10}};
    ung_outline_resample_in trace = ung_outline_resample_standard();
    trace.toe_direction_deg = 90;
    ung_point even[6];
    ung_outline_resample_out steps;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_outline_resample(&trace, outline, 6, even, 6, &steps, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("perimeter %.1f mm in steps of %.1f mm\n", steps.perimeter_mm, steps.spacing_mm);
    for (int i = 0; i < 6; i++)
        printf("x %6.1f mm, y %6.1f mm\n", even[i].x_mm, even[i].y_mm);
    return 0;
}
