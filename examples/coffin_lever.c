/* Invented scenario: the breakover line is moved back by 8 mm. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_coffin_lever_in foot = ung_coffin_lever_standard();
    foot.body_mass_kg = 520, foot.vertical_force_n = 2 * 520;
    foot.breakover_mm = 84, foot.setback_mm = 8;
    ung_coffin_lever_out lever;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_coffin_lever(&foot, &lever, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("moment %.1f N m instead of %.1f N m (%.0f %%)\n",
           lever.moment_n_m, lever.moment_before_n_m,
           100 * lever.change_fraction);
    printf("%.0f N mm for each kilogram\n", lever.moment_n_mm_per_kg);
    return 0;
}
