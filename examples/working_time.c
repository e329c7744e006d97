/* Invented scenario: 6 minutes at 20 C on the data sheet, a day of 32 C. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_working_time_in in = ung_working_time_standard();
    in.reference_time_s = 360, in.reference_temperature_c = 20;
    in.temperature_c = 32;
    in.wanted_time_s = 240;
    ung_working_time_out out;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_working_time(&in, &out, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("working time %.0f s, plan with %.0f s\n", out.working_time_s,
           out.safe_time_s);
    printf("4 minutes to work: keep the adhesive below %.1f C\n",
           out.safe_temperature_c);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_working_time_cautions(&in, &out, caution, UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
