/* Packing: putty and cushion between sole and shoe. */
#ifndef UNGULA_PACKING_H
#define UNGULA_PACKING_H

#include <ungula/core.h>

#ifdef __cplusplus
extern "C" {
#endif

/* packing_volume: how much putty and cushion fill the space between sole and shoe. */
typedef struct ung_packing_volume_in {
    double sole_area_mm2; /* inside the white line */
    double dish_depth_mm;
    double gap_mm;
    double frog_length_mm;
    double frog_width_mm;
    double frog_height_mm;
    double frog_groove_count;
    double frog_groove_length_mm;
    double frog_groove_width_mm;
    double frog_groove_depth_mm;
    double rear_fraction; /* of the sole's area that putty takes; cushion takes the rest */
    double part_count;
    double putty_density_g_ml;
    double cushion_density_g_ml;
    double waste_fraction;
} ung_packing_volume_in;
typedef struct ung_packing_volume_out {
    double dish_ml;
    double layer_ml;
    double frog_ml;
    double grooves_ml;
    double cavity_ml;
    double line_ratio;
    double rear_dish_fraction;
    double rear_ml;
    double front_ml;
    double part_each_ml;
    double putty_g;
    double cushion_g;
} ung_packing_volume_out;
UNG_CALCULATION(packing_volume);

/* dam_volume: how much putty a rope and pads take. */
typedef struct ung_dam_volume_in {
    double rope_length_mm;
    double rope_width_mm;
    double rope_height_mm;
    double groove_room_mm; /* 0: not measured */
    double pad_count;
    double pad_length_mm;
    double pad_width_mm;
    double pad_height_mm;
    double part_count;
    double putty_density_g_ml;
    double waste_fraction;
} ung_dam_volume_in;
typedef struct ung_dam_volume_out {
    double rope_ml;
    double pads_ml;
    double dam_ml;
    double part_each_ml;
    double putty_g;
} ung_dam_volume_out;
UNG_CALCULATION(dam_volume);

#ifdef __cplusplus
}
#endif
#endif
