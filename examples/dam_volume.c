/* Invented scenario: a rope of putty round the heels, and one pad. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_dam_volume_in dam = ung_dam_volume_standard();
    dam.rope_length_mm = 160, dam.pad_count = 1;
    dam.groove_room_mm = 12;
    ung_dam_volume_out putty;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_dam_volume(&dam, &putty, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("mix %.1f mL of each part, %.0f g in all\n",
           putty.part_each_ml, putty.putty_g);
    dam.rope_height_mm = 15;
    if (ung_dam_volume(&dam, &putty, &fault) < 0)
        printf("%s\n", ung_fault_text(&fault, text));
    return 0;
}
