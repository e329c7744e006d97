/* Invented scenario: six screws, pushed sideways at the toe. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_screw_group_in load = ung_screw_group_standard();
    load.load_x_n = 0, load.load_y_n = 300;
    load.at_x_mm = 65, load.at_y_mm = 0;
    ung_screw_spot screws[6] = {{40, 42, 1},  {20, 52, 1},  {0, 56, 1},
                                {40, -42, 1}, {20, -52, 1}, {0, -56, 1}};
    ung_screw_force forces[6];
    ung_screw_group_out group;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_screw_group(&load, screws, 6, forces, 6, &group, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    for (int i = 0; i < 6; i++)
        printf("screw %d: %5.1f N along x, %5.1f N along y, %5.1f N\n",
               i + 1, forces[i].force_x_n, forces[i].force_y_n,
               forces[i].force_n);
    printf("screw %.0f carries most, %.2f times its share\n",
           group.worst_row_count, group.group_factor_ratio);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_screw_group_cautions(&load, &group, caution,
                                        UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
