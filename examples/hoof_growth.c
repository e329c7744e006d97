/* Invented scenario: a toe of 53 degrees, standard growth. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_hoof_growth_in hoof = ung_hoof_growth_standard();
    hoof.toe_angle_deg = 53;
    ung_hoof_growth_out growth;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_hoof_growth(&hoof, &growth, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("in %.0f days %.1f mm of wall, the toe at %.1f deg\n",
           hoof.days, growth.added_mm, growth.angle_after_deg);
    printf("reset after %.1f weeks at the latest\n", growth.reset_weeks);
    return 0;
}
