/* Invented scenario: five places on the left side of a standard outline, and
 * how round it is there. */
#include <stdio.h>
#include <ungula.h>

enum { POINTS = 360 };

int main(void)
{
    ung_outline_standard_in hoof = ung_outline_standard_standard();
    hoof.hoof_length_mm = 132;
    hoof.hoof_width_mm = 126;
    ung_point outline[POINTS];
    ung_outline_standard_out shape;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_outline_standard(&hoof, outline, POINTS, &shape, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    ung_outline_at_in place = ung_outline_at_standard();
    place.left_side_count = 1;
    for (int quarter = 0; quarter <= 4; quarter++) {
        place.side_fraction = quarter / 4.0;
        ung_outline_at_out at;
        if (ung_outline_at(&place, outline, POINTS, &at, &fault) < 0)
            return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
        printf("%5.1f mm from the toe: x %5.1f, y %5.1f mm, radius %5.1f mm\n",
               at.from_toe_mm, at.x_mm, at.y_mm, at.radius_mm);
    }
    return 0;
}
