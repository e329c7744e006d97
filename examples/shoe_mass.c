/* Invented scenario: a shoe of two layers of plywood, beveled. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_shoe_mass_in shoe = ung_shoe_mass_standard();
    shoe.ground_area_mm2 = 13900, shoe.perimeter_mm = 420;
    shoe.upper_thickness_mm = 6.4, shoe.lower_thickness_mm = 19;
    shoe.edge_bevel_deg = 45, shoe.removed_ml = 8;
    shoe.screw_count = 6;
    shoe.tape_length_mm = 2800, shoe.tape_width_mm = 76.2;
    shoe.adhesive_ml = 40, shoe.putty_ml = 26, shoe.cushion_ml = 20;
    shoe.body_mass_kg = 520;
    ung_shoe_mass_out mass;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_shoe_mass(&shoe, &mass, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("wood %.0f g, tape %.0f g, adhesive %.0f g, packing %.0f g\n",
           mass.wood_g, mass.tape_g, mass.adhesive_g, mass.packing_g);
    printf("all together %.0f g, %.2f %% of the horse\n", mass.total_g,
           mass.percent_of_body_mass);
    return 0;
}
