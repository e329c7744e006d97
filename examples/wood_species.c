/* Invented scenario: a shoe of structural plywood. */
#include <stdio.h>
#include <ungula.h>

int main(void)
{
    ung_wood_species_in number = ung_wood_species_standard();
    number.species_count = 20;
    ung_wood_species_out wood;
    ung_fault fault;
    char text[UNG_FAULT_TEXT];
    if (ung_wood_species(&number, &wood, &fault) < 0)
        return fprintf(stderr, "%s\n", ung_fault_text(&fault, text)), 1;
    printf("specific gravity %.2f, density %.0f kg/m3\n",
           wood.wood_gravity_ratio, wood.density_kg_m3);
    ung_caution caution[UNG_CAUTIONS_MOST];
    size_t n = ung_wood_species_cautions(&number, &wood, caution,
                                         UNG_CAUTIONS_MOST);
    for (size_t i = 0; i < n; i++)
        printf("%s: %s\n", ung_severity_text(caution[i].severity),
               caution[i].text);
    return 0;
}
