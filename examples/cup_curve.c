/* Invented scenario: a cup of 55 g on a warm day, looked at every half minute. */
#include <stdio.h>
#include <ungula.h>

enum { TIMES = 6 };

int main(void)
{
    const ung_cure_time times[TIMES] = {{120}, {150}, {180},
                                        {210}, {240}, {1800}};
    ung_cure_point curve[TIMES];
    ung_cup_curve_in cup = ung_cup_curve_standard();
    cup.reference_time_s = 360, cup.reference_temperature_c = 20;
    cup.ambient_c = 25, cup.start_c = 25;
    cup.mass_g = 55, cup.surface_cm2 = 95;
    ung_cup_curve_out out;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_cup_curve(&cup, times, TIMES, curve, TIMES, &out, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    for (int i = 0; i < TIMES; i++)
        printf("%4.0f s  %5.1f C  %3.0f %%\n", times[i].time_s,
               curve[i].temperature_c, 100 * curve[i].cured_fraction);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_cup_curve_cautions(&cup, &out, caution,
                                      UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
