/* Invented scenario: a saddle horse of 520 kg trots on a fore limb. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_limb_load_in limb = ung_limb_load_standard();
    limb.body_mass_kg = 520;
    limb.gait_count = 3; /* trot */
    ung_limb_load_out load;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_limb_load(&limb, &load, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("trot: %.0f N vertical, %.0f N braking\n",
           load.vertical_n, load.braking_n);
    limb.gait_count = 2, limb.hind_count = 1;
    if (ung_limb_load(&limb, &load, &fault) < 0)
        printf("%s\n", ung_fault_text(&fault, text));
    return 0;
}
