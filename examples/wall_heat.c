/* Invented scenario: adhesive on 5 mm of horn on a warm day, laid at once and in half the thickness. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_wall_heat_in film = ung_wall_heat_standard();
    film.horn_mm = 5, film.horn_c = 30;
    film.start_c = 25, film.ambient_c = 25;
    film.reference_time_s = 360, film.reference_temperature_c = 20;
    const double thickness[] = {2, 1};
    for (int k = 0; k < 2; k++) {
        ung_wall_heat_out out;
        ung_fault fault;
        char text[UNG_FAULT_TEXT];
        film.adhesive_mm = thickness[k];
        if (ung_wall_heat(&film, &out, &fault) < 0)
            return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
        printf("%g mm: inner face %.1f C after %.0f s, above 44 C for %.0f s\n",
               thickness[k], out.inner_peak_c, out.inner_peak_time_s,
               out.time_above_44_s);
        ung_caution caution[UNG_CAUTIONS_MOST];
        size_t n = ung_wall_heat_cautions(&film, &out, caution,
                                          UNG_CAUTIONS_MOST);
        for (size_t i = 0; i < n; i++)
            printf("%s: %s\n", ung_severity_text(caution[i].severity),
                   caution[i].text);
    }
    return 0;
}
