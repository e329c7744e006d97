/* Invented scenario: a data sheet gives 11 minutes at 5 C and 4 minutes at 20 C. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_cure_energy_in in = ung_cure_energy_standard();
    in.first_time_s = 11 * 60, in.first_temperature_c = 5;
    in.second_time_s = 4 * 60, in.second_temperature_c = 20;
    ung_cure_energy_out out;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_cure_energy(&in, &out, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("activation energy %.1f kJ/mol\n", out.activation_energy_kj);
    printf("10 C warmer: %.2f times as quick; half the time at %.1f C more\n",
           out.ten_degrees_factor, out.halving_rise_c);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_cure_energy_cautions(&in, &out, caution, UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
