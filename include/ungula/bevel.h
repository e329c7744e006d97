/* Bevel: dressing off the rear of the shoe's ground face. */
#ifndef UNGULA_BEVEL_H
#define UNGULA_BEVEL_H

#include <ungula/core.h>

#ifdef __cplusplus
extern "C" {
#endif

/* heel_bevel: what a bevel at the heel removes and leaves, and the wedge that tape under the heel makes. */
typedef struct ung_heel_bevel_in {
    double ground_length_mm;
    double shoe_thickness_mm;
    double bevel_run_mm;
    double bevel_angle_deg;
    double width_start_mm;
    double width_end_mm;
    double build_up_mm;
    double build_length_mm;
    double wrapped_before_count; /* 1: tape first, then bevel; 0: bevel first */
    double least_edge_mm;
} ung_heel_bevel_in;
typedef struct ung_heel_bevel_out {
    double rise_mm;
    double edge_left_mm;
    double wood_left_mm;
    double face_length_mm;
    double removed_ml;
    double contact_length_mm;
    double contact_fraction;
    double wedge_before_deg;
    double wedge_after_deg;
    double lap_left_mm;
    double angle_limit_deg;
    double run_to_clear_mm; /* may be infinite */
} ung_heel_bevel_out;
UNG_CALCULATION(heel_bevel);

/* heel_wear: how wear at toe and heel turns the shoe, and when it reaches a limit. */
typedef struct ung_heel_wear_in {
    double ground_length_mm;
    double build_up_mm;
    double build_length_mm;
    double shoe_thickness_mm;
    double toe_rate_mm_per_day;
    double heel_rate_mm_per_day;
    double days;
    double wedge_limit_deg;
    double least_toe_mm;
    double base_length_mm; /* 0: ground_length - build_length */
    double heel_cover_mm;  /* 0: the heel's rate never ends */
} ung_heel_wear_in;
typedef struct ung_heel_wear_out {
    double heel_up_mm; /* negative: heel down */
    double wedge_start_deg;
    double wedge_end_deg;
    double toe_left_mm;
    double wedge_days; /* these may be infinite */
    double toe_days;
    double first_days;
    double first_count; /* 1 the wedge, 2 the toe, 0 neither */
} ung_heel_wear_out;
UNG_CALCULATION(heel_wear);

#ifdef __cplusplus
}
#endif
#endif
