/* Invented scenario: a metric screw of 4 mm into beech and into horn. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_lead_hole_in screw = ung_lead_hole_standard();
    screw.screw_diameter_mm = 4, screw.root_diameter_mm = 2.8;
    screw.head_diameter_mm = 7.5;
    screw.wood_gravity_ratio = 0.64;
    ung_lead_hole_out hole;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_lead_hole(&screw, &hole, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("wood: drill %.1f mm for the thread, %.1f mm for the shank\n",
           hole.lateral_hole_mm, hole.shank_hole_mm);
    printf("horn: drill %.1f mm\n", hole.horn_hole_mm);
    printf("countersink %.2f mm deep\n", hole.countersink_depth_mm);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_lead_hole_cautions(&screw, &hole, caution,
                                      UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
