/* Invented scenario: 55 g of adhesive left in its cup on a warm day, and the same spread thin. */
#include <stdio.h>
#include <ungula.h>

static int show(const ung_cup_cure_in *cup)
{
    ung_cup_cure_out out;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_cup_cure(cup, &out, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("gels after %.0f s, %.0f C after %.0f s (a film: %.0f s)\n",
           out.gel_time_s, out.peak_temperature_c, out.peak_time_s,
           out.film_time_s);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_cup_cure_cautions(cup, &out, caution,
                                     UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}

int main(void)
{
    ung_cup_cure_in cup = ung_cup_cure_standard();
    cup.reference_time_s = 360, cup.reference_temperature_c = 20;
    cup.ambient_c = 25, cup.start_c = 25;
    cup.mass_g = 55, cup.surface_cm2 = 95;
    if (show(&cup))
        return 1;
    cup.surface_cm2 = 1100; /* a millimeter thick, both faces */
    cup.exchange_w_m2k = 60;
    return show(&cup);
}
