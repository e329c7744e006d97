/* Cast: water-activated casting tape round hoof and shoe. */
#ifndef UNGULA_CAST_H
#define UNGULA_CAST_H

#include <ungula/core.h>

#ifdef __cplusplus
extern "C" {
#endif

/* cast_length: how much tape, how many rolls, how many plies, and how far its edges must stretch. */
typedef struct ung_cast_length_in {
    double circumference_low_mm;
    double circumference_high_mm;
    double band_height_mm; /* along the wall: slant_height_mm of hoof_band */
    double tape_width_mm;
    double overlap_fraction;
    double passes_count;
    double anchor_turns;
    double stretch_fraction;
    double waste_fraction;
    double roll_length_mm;
    double ply_mm;
    double toe_angle_deg;
} ung_cast_length_in;
typedef struct ung_cast_length_out {
    double turns_per_pass;
    double path_length_mm;
    double tape_length_mm;
    double rolls_count;
    double leftover_mm;
    double layers;
    double edge_plies_count;
    double thickness_mm;
    double edge_strain_fraction;
} ung_cast_length_out;
UNG_CALCULATION(cast_length);

/* cast_set: how long dipped tape can be worked, when it has set, how warm it gets, and the water for a wanted time. */
typedef struct ung_cast_set_in {
    double water_c;
    double room_c; /* only for cautions: no published series varies it */
    double layers; /* only for cautions */
    double wanted_time_s;
} ung_cast_set_in;
typedef struct ung_cast_set_out {
    double set_time_s;
    double work_time_s;
    double peak_c;
    double water_for_c;
} ung_cast_set_out;
UNG_CALCULATION(cast_set);

#ifdef __cplusplus
}
#endif
#endif
