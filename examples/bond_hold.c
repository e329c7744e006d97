/* Invented scenario: a first coat of 1 mm on 11000 mm2 of dry, rasped wall. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_bond_hold_in bond = ung_bond_hold_standard();
    bond.bonded_area_mm2 = 11000, bond.lap_mm = 35;
    bond.adhesive_shear_modulus_mpa = 300;
    bond.horn_thickness_mm = 8;
    bond.cover_modulus_mpa = 2500, bond.cover_thickness_mm = 2.1;
    bond.shear_strength_mpa = 2; /* from a test of one's own */
    bond.demand_n = 617, bond.divisor_ratio = 2;
    ung_bond_hold_out hold;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_bond_hold(&bond, &hold, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("mean %.3f MPa, peak %.3f MPa\n", hold.mean_mpa, hold.peak_mpa);
    printf("use %.2f of the whole, %.2f to the first crack\n",
           hold.use_mean_ratio, hold.use_first_ratio);
    printf("needed for twice the load: %.2f MPa, or %.2f to the edge\n",
           hold.needed_mean_mpa, hold.needed_first_mpa);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_bond_hold_cautions(&bond, &hold, caution,
                                      UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
