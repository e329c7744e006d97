/* Invented data sheet: 10 minutes at 10 C, 4 minutes at 25 C. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_cure_energy_in in = ung_cure_energy_standard();
    in.first_time_s = 600, in.first_temperature_c = 10;
    in.second_time_s = 240, in.second_temperature_c = 25;
    ung_cure_energy_out out;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_cure_energy(&in, &out, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("%.1f kJ/mol: 10 C more make it %.2f times as fast\n",
           out.activation_energy_kj, out.ten_degrees_factor);
    printf("half the time for %.1f C more\n", out.halving_c);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_cure_energy_cautions(&in, &out, caution,
                                        UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
