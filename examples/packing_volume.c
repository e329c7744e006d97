/* Invented scenario: a sole 8 mm deep, with frog and two grooves. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_packing_volume_in sole = ung_packing_volume_standard();
    sole.sole_area_mm2 = 10400, sole.dish_depth_mm = 8, sole.gap_mm = 1;
    sole.frog_length_mm = 72, sole.frog_width_mm = 44;
    sole.frog_height_mm = 6;
    sole.frog_groove_count = 2, sole.frog_groove_length_mm = 68;
    sole.frog_groove_width_mm = 12, sole.frog_groove_depth_mm = 10;
    ung_packing_volume_out packing;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_packing_volume(&sole, &packing, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("putty behind the line %.1f mL: mix %.1f mL of each part\n",
           packing.rear_ml, packing.part_each_ml);
    printf("cushion before it %.1f mL (%.0f g with waste)\n",
           packing.front_ml, packing.cushion_g);
    return 0;
}
