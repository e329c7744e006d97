/* Invented scenario: a border of 17.5 mm at the toe, which seems much. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_wall_from_border_in toe = ung_wall_from_border_standard();
    toe.border_width_mm = 17.5;
    toe.wall_angle_deg = 52;
    ung_wall_from_border_out wall;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_wall_from_border(&toe, &wall, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("wall thickness %.1f mm\n", wall.wall_thickness_mm);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_wall_from_border_cautions(&toe, &wall, caution,
                                             UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
