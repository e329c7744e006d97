/* Invented scenario: what is a No. 8 wood screw? */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_screw_gauge_in number = ung_screw_gauge_standard();
    number.gauge_count = 8;
    ung_screw_gauge_out screw;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_screw_gauge(&number, &screw, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("diameter %.2f mm, root %.2f mm, pitch %.2f mm\n",
           screw.screw_diameter_mm, screw.root_diameter_mm,
           screw.pitch_mm);
    printf("head %.1f mm, at most %.1f mm\n",
           screw.head_diameter_mm, screw.head_largest_mm);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_screw_gauge_cautions(&number, &screw, caution,
                                        UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
