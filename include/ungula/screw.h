/* Screw: fasteners in the hoof wall and in the shoe. */
#ifndef UNGULA_SCREW_H
#define UNGULA_SCREW_H

#include <ungula/core.h>

#ifdef __cplusplus
extern "C" {
#endif

/* screw_depth: how deep a screw driven from the shoe up into the wall may go, and what horn is left round it. */
typedef struct ung_screw_depth_in {
    double wall_thickness_mm;
    double wall_angle_deg;
    double inset_mm;
    double screw_diameter_mm;
    double screw_length_mm;
    double shoe_thickness_mm;
    double tilt_deg;
    double head_recess_mm;
    double pad_mm;
    double sole_horn_mm;
    double height_limit_mm;
    double overhang_mm;
    double upper_layer_mm; /* 60 = the shoe's whole side is upright */
    double edge_bevel_deg;
    double inner_margin_mm;
    double outer_margin_mm;
    double white_line_margin_mm;
    double edge_margin_mm;
    double seat_allowance_mm;
    double tilt_error_deg;
} ung_screw_depth_in;
typedef struct ung_screw_depth_out {
    double embedded_mm;
    double hold_length_mm;
    double tip_height_mm;
    double inner_cover_mm;
    double outer_cover_mm;
    double white_line_cover_mm;
    double edge_cover_mm;
    double head_inset_mm;
    double margin_mm;
    double margin_worst_mm;
    double depth_limit_mm;
    double screw_length_limit_mm;
    double parallel_tilt_deg;
    double centred_inset_mm;
    double largest_diameter_mm;
} ung_screw_depth_out;
UNG_CALCULATION(screw_depth);

#ifdef __cplusplus
}
#endif
#endif
