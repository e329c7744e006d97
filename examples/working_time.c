/* Invented adhesive: 6 minutes at 20 C, on a day of 32 C. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_working_time_in in = ung_working_time_standard();
    in.reference_time_s = 360, in.reference_temperature_c = 20;
    in.temperature_c = 32, in.wanted_time_s = 240;
    ung_working_time_out out;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_working_time(&in, &out, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("%.0f s, plan with %.0f s\n", out.time_s, out.safe_time_s);
    printf("%.0f s are had at %.1f C\n", in.wanted_time_s,
           out.wanted_temperature_c);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_working_time_cautions(&in, &out, caution,
                                         UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
