/* Bond: the adhesive between horn, wood and tape. */
#ifndef UNGULA_BOND_H
#define UNGULA_BOND_H

#include <ungula/core.h>

#ifdef __cplusplus
extern "C" {
#endif

/* glue_volume: how much adhesive the bonded area takes, coat by coat, and how many packs to bring. */
typedef struct ung_glue_volume_in {
    double bonded_area_mm2;
    double film_mm;
    double groove_depth_mm;
    double groove_width_mm;
    double groove_spacing_mm;
    double wood_area_mm2;
    double wood_film_mm;
    double top_area_mm2;
    double top_film_mm;
    double waste_fraction;
    double ratio_a_to_b;
    double pack_ml;
    double nozzle_ml;
} ung_glue_volume_in;
typedef struct ung_glue_volume_out {
    double net_ml;
    double first_coat_ml;
    double top_coat_ml;
    double mixed_ml;
    double part_a_ml;
    double part_b_ml;
    double packs_count;
    double packs_separate_count;
    double leftover_ml;
} ung_glue_volume_out;
UNG_CALCULATION(glue_volume);

#ifdef __cplusplus
}
#endif
#endif
