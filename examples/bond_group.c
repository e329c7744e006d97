/* Invented scenario: bond on both quarters and the toe, pulled at the heel. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_bond_group_in load = ung_bond_group_standard();
    load.load_x_n = 0, load.load_y_n = 500, load.at_x_mm = -50;
    load.at_y_mm = 0;
    ung_patch patch[3] = {
        {60, 0, 3000, 0}, {-10, 62, 4000, 0}, {-10, -62, 4000, 0}};
    ung_patch_stress stress[3];
    ung_bond_group_out out;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_bond_group(&load, patch, 3, stress, 3, &out, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    for (int i = 0; i < 3; i++)
        printf("patch %d: %.4f MPa\n", i, stress[i].shear_mpa);
    printf("worst over mean: %.2f\n", out.group_factor_ratio);
    return 0;
}
