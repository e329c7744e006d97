/* Invented scenario: tape dipped in water of 26 C; 6 minutes would suit better. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_cast_set_in in = ung_cast_set_standard();
    in.water_c = 26;
    in.wanted_time_s = 360;
    ung_cast_set_out out;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_cast_set(&in, &out, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("work %.0f s, set at %.0f s, peak %.0f C\n", out.work_time_s,
           out.set_time_s, out.peak_c);
    printf("6 minutes to set: water of %.0f C\n", out.water_for_c);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_cast_set_cautions(&in, &out, caution, UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
