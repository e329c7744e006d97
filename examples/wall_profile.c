/* Invented scenario: a wall measured at toe, both quarters and both heels, asked for at six places. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    const ung_wall_station stations[] = {
        {0.00, 9.5, 51}, {0.22, 7.5, 74}, {0.40, 6.5, 126},
        {0.60, 6.0, 124}, {0.78, 7.0, 80},
    };
    ung_wall_profile_in where = ung_wall_profile_standard();
    ung_wall_station profile[6];
    ung_wall_profile_out wall;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_wall_profile(&where, stations, 5, profile, 6, &wall, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    for (int i = 0; i < 6; i++)
        printf("%.3f round: %.2f mm, %.1f deg\n", profile[i].around_fraction,
               profile[i].wall_thickness_mm, profile[i].wall_angle_deg);
    printf("thinnest %.1f mm at %.2f\n", wall.least_thickness_mm,
           wall.least_thickness_fraction);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_wall_profile_cautions(&where, &wall, caution,
                                         UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
