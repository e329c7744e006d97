/* Invented scenario: the last shoe lost 2.5 mm of wood at the toe and
   0.8 mm of tape at the heel in 28 days. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_heel_wear_in shoe = ung_heel_wear_standard();
    shoe.ground_length_mm = 128, shoe.shoe_thickness_mm = 22;
    shoe.build_up_mm = 2.5, shoe.build_length_mm = 14;
    shoe.toe_rate_mm_per_day = 2.5 / 28;
    shoe.heel_rate_mm_per_day = 0.8 / 28;
    ung_heel_wear_out wear;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_heel_wear(&shoe, &wear, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("wedge %.1f deg at first, %.1f deg after %.0f days\n",
           wear.wedge_start_deg, wear.wedge_end_deg, shoe.days);
    printf("%s reaches its limit first, after %.0f days\n",
           wear.first_count == 1 ? "the wedge" : "the toe",
           wear.first_days);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_heel_wear_cautions(&shoe, &wear, caution,
                                      UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
