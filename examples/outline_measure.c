/* Invented scenario: a hoof traced with ten points, closed by the first. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    const ung_point outline[] = {{64, 3}, {55, 35}, {28, 57}, {-14, 61},
                                 {-50, 46}, {-58, 12}, {-57, -14},
                                 {-48, -45}, {-9, -60}, {40, -51}, {64, 3}};
    ung_outline_measure_in trace = ung_outline_measure_standard();
    double work[256]; /* ung_workspace(ung_outline_measure_contract(), 11) */
    ung_outline_measure_out shape;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_outline_measure(&trace, outline, 11, work, 256, &shape, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("area %.0f mm2, perimeter %.1f mm\n", shape.area_mm2, shape.perimeter_mm);
    printf("length %.1f mm, width %.1f mm, widest %.2f behind the toe\n",
           shape.length_mm, shape.width_mm, shape.widest_fraction);
    printf("center of the area %.2f, %.2f mm\n", shape.centroid_x_mm, shape.centroid_y_mm);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_outline_measure_cautions(&trace, &shape, caution, UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity), caution[i].text);
    return 0;
}
