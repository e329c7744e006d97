/* Invented scenario: the water is warm, and six minutes are wanted. */
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
    printf("set after %.0f s, to be smoothed for %.0f s\n",
           out.set_time_s, out.work_time_s);
    printf("%.0f s would take water of %.1f C\n",
           in.wanted_time_s, out.water_for_c);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_cast_set_cautions(&in, &out, caution,
                                     UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
