/* Invented scenario: three thin screws in the outer wall of a hoof, of which seven places were measured. */
#include <stdio.h>
#include <ungula.h>

enum { PLACES = 7, SCREWS = 3 };

int main(void)
{
    const ung_screw_station wall[PLACES] = {
        {0.15, 32, 10.5, 58, 6}, {0.22, 46, 10.2, 63, 6},
        {0.29, 61, 9.9, 68, 6},  {0.36, 76, 9.7, 72, 5.5},
        {0.43, 91, 9.4, 76, 5},  {0.50, 106, 9.2, 80, 5},
        {0.57, 120, 8.8, 85, 5},
    };
    ung_screw_layout_in screw = ung_screw_layout_standard();
    screw.screw_diameter_mm = 3, screw.screw_length_mm = 34;
    screw.shoe_thickness_mm = 22, screw.head_recess_mm = 2;
    screw.overhang_mm = 6;
    screw.spacing_mm = 25;
    screw.inner_margin_mm = 1.5, screw.outer_margin_mm = 1;
    screw.seat_allowance_mm = 1, screw.tilt_error_deg = 3;
    ung_screw_place place[SCREWS];
    double work[5 * PLACES]; /* ung_workspace(contract, PLACES) */
    ung_screw_layout_out layout;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_screw_layout(&screw, wall, PLACES, place, SCREWS, work,
                         5 * PLACES, &layout, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    for (int i = 0; i < SCREWS; i++)
        printf("%3.0f mm from the toe: inset %.1f mm, tilt %.1f deg, "
               "margin %.2f mm\n", place[i].from_toe_mm, place[i].inset_mm,
               place[i].tilt_deg, place[i].margin_mm);
    printf("bound by %.0f; farthest apart %.0f mm, longest %.1f mm\n",
           layout.binding_count, layout.spacing_fit_mm,
           layout.screw_length_fit_mm);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_screw_layout_cautions(&screw, &layout, caution,
                                         UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
