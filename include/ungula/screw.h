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

/* screw_layout: where on one side of the hoof the screws go, and at which inset and tilt, so that the tightest of their
 * margins is as large as it can be. */
typedef struct ung_screw_station {
    double side_fraction; /* 0 toe to 1 rear, along the wall */
    double from_toe_mm;   /* along the wall */
    double wall_thickness_mm;
    double wall_angle_deg;
    double sole_horn_mm;
} ung_screw_station;
typedef struct ung_screw_place {
    double side_fraction;
    double from_toe_mm;
    double inset_mm;
    double tilt_deg;
    double margin_mm;
    double screw_length_limit_mm;
} ung_screw_place;
typedef struct ung_screw_layout_in {
    double screw_diameter_mm;
    double screw_length_mm;
    double shoe_thickness_mm;
    double spacing_mm;
    double toe_gap_fraction;
    double rear_limit_fraction;
    double tilt_low_deg;
    double tilt_high_deg;
    double tilt_step_deg;
    double inset_step_mm;
    double worst_count; /* 1: margins with the hand's error, 0: without */
    double head_recess_mm;
    double pad_mm;
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
} ung_screw_layout_in;
typedef struct ung_screw_layout_out {
    double least_margin_mm;
    double placed_count;
    double missing_count;
    double weakest_count; /* number of the screw with the least margin, from 1 */
    double binding_count; /* 1 inner, 2 outer, 3 white line, 4 edge, 5 height, 6 spacing, 7 limits */
    double least_embedded_mm;
    double thickest_wall_mm; /* at the screws placed */
    double thickest_sole_mm;
    double stations_usable_count; /* within the limits, with margin */
    double screws_fit_count;      /* that many would keep every margin at this spacing */
    double spacing_fit_mm;        /* this far apart the screws asked for would keep every margin; 0: they do not */
    double screw_length_fit_mm;   /* so long may they be; 0: there is no such length */
} ung_screw_layout_out;
UNG_CALCULATION_WITH_LISTS(screw_layout);
/* stations in rising order from the toe; as many screws are placed as screws has rows. */
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_screw_layout(const ung_screw_layout_in *in,
                                                            const ung_screw_station *stations, size_t stations_count,
                                                            ung_screw_place *screws, size_t screws_count, double *work,
                                                            size_t work_count, ung_screw_layout_out *out,
                                                            ung_fault *fault);

#ifdef __cplusplus
}
#endif
#endif
