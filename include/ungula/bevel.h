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

#ifdef __cplusplus
}
#endif
#endif
