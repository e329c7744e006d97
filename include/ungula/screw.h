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

/* screw_through: a screw driven in at the outer face of the wall and down into the shoe. */
typedef struct ung_screw_through_in {
    double wall_thickness_mm;
    double wall_angle_deg;
    double entry_height_mm; /* of the axis on the outer face, above the bearing plane */
    double screw_diameter_mm;
    double screw_length_mm;
    double shoe_thickness_mm;
    double dip_deg; /* below the horizontal */
    double head_recess_mm;
    double pad_mm;
    double sole_horn_mm;
    double overhang_mm;
    double upper_layer_mm; /* 60 = the shoe's whole side is upright */
    double edge_bevel_deg;
    double inner_margin_mm;
    double outer_margin_mm;
    double ground_margin_mm;
    double edge_margin_mm;
    double least_wood_mm;
    double belt_top_mm; /* 0 = not given */
} ung_screw_through_in;
typedef struct ung_screw_through_out {
    double horn_length_mm;
    double grip_mm;
    double exit_inset_mm;
    double wood_length_mm;
    double tip_depth_mm;
    double inner_cover_mm;
    double outer_cover_mm;
    double white_line_cover_mm;
    double ground_cover_mm;
    double edge_cover_mm;
    double margin_mm;
    double shortest_mm; /* both 0: no length keeps every margin */
    double longest_mm;
    double seat_angle_deg;
    double entry_low_mm; /* both 0: no height keeps the horn's margins */
    double entry_high_mm;
} ung_screw_through_out;
UNG_CALCULATION(screw_through);

/* screw_hold: what one screw between horn and wood carries, along its axis and sideways.  Yield and ultimate loads are
 * what breaks it, design loads what may be counted on: separate results, never mixed. */
typedef struct ung_screw_hold_in {
    double point_member_count; /* 1 the horn (screw_depth), 2 the wood (screw_through) */
    double screw_diameter_mm;
    double root_diameter_mm;
    double pitch_mm;
    double head_diameter_mm;
    double horn_length_mm;
    double wood_length_mm;
    double horn_shear_mpa;
    double horn_bearing_mpa;
    double wood_gravity_ratio;
    double yield_mpa;
    double axial_factor_ratio;
    double wanted_axial_n; /* design loads; 0 = not asked */
    double wanted_lateral_n;
} ung_screw_hold_in;
typedef struct ung_screw_hold_out {
    double tsf_ratio;
    double thread_ultimate_n;
    double thread_design_n;
    double head_ultimate_n;
    double head_design_n;
    double axial_ultimate_n;
    double axial_design_n;
    double bearing_length_mm;
    double yield_im_n;
    double yield_is_n;
    double yield_ii_n;
    double yield_iiim_n;
    double yield_iiis_n;
    double yield_iv_n;
    double lateral_yield_n;
    double governing_mode_count; /* 1 to 6 in the order above */
    double lateral_factor_ratio;
    double lateral_design_n;
    double axial_use_ratio; /* may be infinite, as the next three */
    double lateral_use_ratio;
    double horn_shear_needed_mpa;
    double horn_bearing_needed_mpa;
} ung_screw_hold_out;
UNG_CALCULATION(screw_hold);

/* screw_combined: one screw under a pull and a sideways load at once. */
typedef struct ung_screw_combined_in {
    double axial_design_n;
    double lateral_design_n;
    double axial_n;
    double lateral_n;
} ung_screw_combined_in;
typedef struct ung_screw_combined_out {
    double load_n;
    double load_angle_deg;
    double capacity_n;
    double use_ratio; /* may be infinite, as the next two */
    double axial_use_ratio;
    double lateral_use_ratio;
} ung_screw_combined_out;
UNG_CALCULATION(screw_combined);

/* screw_group: how a load off the center of a group of screws spreads over them. */
typedef struct ung_screw_spot {
    double x_mm;
    double y_mm;
    double stiffness_ratio; /* against each other: all 1 where they are alike */
} ung_screw_spot;
typedef struct ung_screw_force {
    double force_x_n;
    double force_y_n;
    double force_n;
} ung_screw_force;
typedef struct ung_screw_group_in {
    double load_x_n;
    double load_y_n;
    double at_x_mm;
    double at_y_mm;
} ung_screw_group_in;
typedef struct ung_screw_group_out {
    double centroid_x_mm;
    double centroid_y_mm;
    double polar_mm2;
    double moment_n_mm;
    double worst_n;
    double worst_row_count; /* number of that screw, from 1 */
    double mean_n;
    double group_factor_ratio;
} ung_screw_group_out;
UNG_CALCULATION_WITH_LISTS(screw_group);
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_screw_group(const ung_screw_group_in *in, const ung_screw_spot *screws,
                                                           size_t screws_count, ung_screw_force *forces,
                                                           size_t forces_count, ung_screw_group_out *out,
                                                           ung_fault *fault);

/* lead_hole: holes to drill for a screw, in wood and in horn, and the countersink for its head. */
typedef struct ung_lead_hole_in {
    double screw_diameter_mm; /* shank */
    double root_diameter_mm;
    double head_diameter_mm;
    double head_angle_deg;
    double wood_gravity_ratio;
    double horn_hole_fraction;
} ung_lead_hole_in;
typedef struct ung_lead_hole_out {
    double withdrawal_hole_mm; /* 0: none needed */
    double lateral_hole_mm;
    double shank_hole_mm;
    double horn_hole_mm;
    double countersink_depth_mm;
} ung_lead_hole_out;
UNG_CALCULATION(lead_hole);

/* screw_gauge: dimensions of a wood screw from its gauge. */
typedef struct ung_screw_gauge_in {
    double gauge_count; /* 4 to 10, 12, 14 */
} ung_screw_gauge_in;
typedef struct ung_screw_gauge_out {
    double screw_diameter_mm;
    double root_diameter_mm;
    double head_diameter_mm;
    double head_largest_mm;
    double pitch_mm;
} ung_screw_gauge_out;
UNG_CALCULATION(screw_gauge);

/* wood_species: specific gravity and density of a wood. */
typedef struct ung_wood_species_in {
    double species_count; /* number in the contract's list */
} ung_wood_species_in;
typedef struct ung_wood_species_out {
    double wood_gravity_ratio;
    double density_kg_m3;
} ung_wood_species_out;
UNG_CALCULATION(wood_species);

#ifdef __cplusplus
}
#endif
#endif
