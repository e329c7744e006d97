/* Shape: the outline of the hoof, the belt that tape and adhesive cover, and the thickness of its wall. */
#ifndef UNGULA_SHAPE_H
#define UNGULA_SHAPE_H

#include <ungula/core.h>

#ifdef __cplusplus
extern "C" {
#endif

/* A point of an outline in the bearing plane: x toward the toe, y to the left, from the middle of the length. */
typedef struct ung_point {
    double x_mm, y_mm;
} ung_point;

/* outline_standard: a smooth outline of the trimmed hoof from its length and width, for want of a trace. */
typedef struct ung_outline_standard_in {
    double hoof_length_mm;
    double hoof_width_mm;
    double widest_fraction;
    double heel_width_fraction;
    double toe_width_fraction;
} ung_outline_standard_in;
typedef struct ung_outline_standard_out {
    double perimeter_mm;
    double ground_area_mm2;
    double width_scale_mm; /* W', k1, k2, k3 of the outline's equation */
    double k1_ratio;
    double k2_ratio;
    double k3_ratio;
} ung_outline_standard_out;
UNG_CALCULATION_WITH_LISTS(outline_standard);
/* outline[outline_count] is filled with points at equal steps of the parameter, the first at the toe. */
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_outline_standard(const ung_outline_standard_in *in, ung_point *outline,
                                                                size_t outline_count, ung_outline_standard_out *out,
                                                                ung_fault *fault);

/* wall_from_border: the wall's thickness square to its face, from the width of its border on the ground. */
typedef struct ung_wall_from_border_in {
    double border_width_mm;
    double wall_angle_deg;
} ung_wall_from_border_in;
typedef struct ung_wall_from_border_out {
    double wall_thickness_mm;
} ung_wall_from_border_out;
UNG_CALCULATION(wall_from_border);

/* hoof_band: circumferences and areas of the belt that the adhesive wets and the tape covers. */
typedef struct ung_hoof_band_in {
    double hoof_length_mm;
    double hoof_width_mm;
    double widest_fraction;
    double heel_width_fraction;
    double toe_width_fraction;
    double toe_angle_deg;
    double quarter_angle_deg;
    double heel_angle_deg;
    double low_mm; /* lower edge; below 0 it lies on the shoe */
    double high_toe_mm;
    double high_heel_mm;
    double toe_hairline_mm; /* 0 = not measured */
    double heel_hairline_mm;
    double overhang_mm;
    double upper_layer_mm; /* 60 = the shoe's whole side is upright */
    double edge_bevel_deg;
    double open_heel_fraction;
} ung_hoof_band_in;
typedef struct ung_hoof_band_out {
    double perimeter_mm;
    double ground_area_mm2;
    double circumference_low_mm;
    double circumference_high_mm;
    double wall_area_mm2;
    double bonded_area_mm2;
    double shoe_area_mm2;
    double covered_area_mm2;
    double slant_height_mm;
} ung_hoof_band_out;
UNG_CALCULATION(hoof_band);

/* Traced outlines.  A trace is a list of points round the ground border of the trimmed hoof, in order, in either
 * direction; the first may be repeated at the end.  What needs room to sort takes a workspace of ung_workspace(contract,
 * outline_count) doubles: nothing is allocated. */

/* outline_measure: area, perimeter, extent, centroid and second moments of a traced outline. */
typedef struct ung_outline_measure_in {
    double toe_direction_deg; /* 0: the toe points along x */
} ung_outline_measure_in;
typedef struct ung_outline_measure_out {
    double area_mm2;
    double perimeter_mm;
    double centroid_x_mm;
    double centroid_y_mm;
    double length_mm;
    double width_mm;
    double widest_fraction;
    double second_x_mm4; /* about the centroid: integral of y^2, x^2, x y over the area */
    double second_y_mm4;
    double second_xy_mm4;
    double turn_ratio;    /* +1 counterclockwise, -1 clockwise */
    double repeated_count; /* 1 where the last point repeats the first */
    double gap_ratio;     /* last point to first, over the mean distance of the others */
} ung_outline_measure_out;
UNG_CALCULATION_WITH_LISTS(outline_measure);
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_outline_measure(const ung_outline_measure_in *in,
                                                               const ung_point *outline, size_t outline_count,
                                                               double *work, size_t work_count,
                                                               ung_outline_measure_out *out, ung_fault *fault);

/* outline_resample: points at equal steps of arc length, from the toe, counterclockwise. */
typedef struct ung_outline_resample_in {
    double toe_direction_deg;
} ung_outline_resample_in;
typedef struct ung_outline_resample_out {
    double perimeter_mm;
    double spacing_mm;
} ung_outline_resample_out;
UNG_CALCULATION_WITH_LISTS(outline_resample);
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_outline_resample(const ung_outline_resample_in *in,
                                                                const ung_point *outline, size_t outline_count,
                                                                ung_point *resampled, size_t resampled_count,
                                                                ung_outline_resample_out *out, ung_fault *fault);

/* outline_at: point, outward normal and radius of curvature at a share of one side, from the toe to the rear. */
typedef struct ung_outline_at_in {
    double toe_direction_deg;
    double left_side_count; /* 1: the left side, 0: the right */
    double side_fraction;   /* 0 toe to 1 rear */
} ung_outline_at_in;
typedef struct ung_outline_at_out {
    double x_mm;
    double y_mm;
    double normal_x_ratio;
    double normal_y_ratio;
    double radius_mm; /* may be infinite; negative where hollow */
    double side_length_mm;
    double from_toe_mm;
    double around_fraction; /* of the perimeter, from the toe, counterclockwise */
} ung_outline_at_out;
UNG_CALCULATION_WITH_LISTS(outline_at);
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_outline_at(const ung_outline_at_in *in, const ung_point *outline,
                                                          size_t outline_count, ung_outline_at_out *out,
                                                          ung_fault *fault);

/* outline_inset: the outline moved inward by its own depth at each point. */
typedef struct ung_depth {
    double depth_mm;
} ung_depth;
typedef struct ung_outline_inset_in {
    double depth_mm; /* added to every point's own */
} ung_outline_inset_in;
typedef struct ung_outline_inset_out {
    double area_mm2;
    double perimeter_mm;
    double least_radius_mm; /* of the given outline where it bulges */
    double deepest_mm;
} ung_outline_inset_out;
UNG_CALCULATION_WITH_LISTS(outline_inset);
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_outline_inset(const ung_outline_inset_in *in, const ung_point *outline,
                                                             size_t outline_count, const ung_depth *depths,
                                                             size_t depths_count, ung_point *inset, size_t inset_count,
                                                             double *work, size_t work_count,
                                                             ung_outline_inset_out *out, ung_fault *fault);

/* wall_profile: thickness and angle of the wall all the way round, from a few stations. */
typedef struct ung_wall_station {
    double around_fraction; /* of the perimeter, from the toe, counterclockwise: 0 toe, 0.5 about the rear */
    double wall_thickness_mm;
    double wall_angle_deg;
} ung_wall_station;
typedef struct ung_wall_profile_in {
    double start_fraction; /* where the first row of the profile lies */
} ung_wall_profile_in;
typedef struct ung_wall_profile_out {
    double least_thickness_mm;
    double least_thickness_fraction; /* where: share of the perimeter */
    double steepest_deg;
    double flattest_deg;
} ung_wall_profile_out;
UNG_CALCULATION_WITH_LISTS(wall_profile);
/* stations in rising order; profile is filled at equal steps round the outline, as outline_resample's points. */
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_wall_profile(const ung_wall_profile_in *in,
                                                            const ung_wall_station *stations, size_t stations_count,
                                                            ung_wall_station *profile, size_t profile_count,
                                                            ung_wall_profile_out *out, ung_fault *fault);

/* outline_band: hoof_band on a traced outline, with medial and lateral walls apart. */
typedef struct ung_outline_band_in {
    double toe_direction_deg;
    double toe_angle_deg;
    double left_quarter_angle_deg;
    double right_quarter_angle_deg;
    double heel_angle_deg;
    double low_mm;
    double high_toe_mm;
    double high_heel_mm;
    double toe_hairline_mm;
    double heel_hairline_mm;
    double overhang_mm;
    double upper_layer_mm;
    double edge_bevel_deg;
    double open_heel_fraction;
} ung_outline_band_in;
typedef ung_hoof_band_out ung_outline_band_out;
UNG_CALCULATION_WITH_LISTS(outline_band);
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_outline_band(const ung_outline_band_in *in, const ung_point *outline,
                                                            size_t outline_count, double *work, size_t work_count,
                                                            ung_outline_band_out *out, ung_fault *fault);

/* shoe_footprint: ground face of a shoe beveled all round, and the mean pressure under a load. */
typedef struct ung_shoe_footprint_in {
    double toe_direction_deg;
    double shoe_thickness_mm;
    double overhang_mm;
    double upper_layer_mm;
    double edge_bevel_deg;
    double load_n;
} ung_shoe_footprint_in;
typedef struct ung_shoe_footprint_out {
    double shoe_area_mm2; /* upper face */
    double ground_face_mm2;
    double ground_perimeter_mm;
    double contact_length_mm;
    double contact_width_mm;
    double ground_radius_mm; /* tightest bulge of the ground face's edge */
    double pressure_mpa;
} ung_shoe_footprint_out;
UNG_CALCULATION_WITH_LISTS(shoe_footprint);
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_shoe_footprint(const ung_shoe_footprint_in *in, const ung_point *outline,
                                                              size_t outline_count, double *work, size_t work_count,
                                                              ung_shoe_footprint_out *out, ung_fault *fault);

/* outline_fit: a smooth closed outline from a noisy, uneven trace, with what the trace says about the hoof. */
typedef struct ung_outline_fit_in {
    double toe_direction_deg;
    double harmonics_count;     /* 0: chosen by generalized cross-validation */
    double reference_x1_mm;     /* two marks on the picture, in the trace's units ... */
    double reference_y1_mm;
    double reference_x2_mm;
    double reference_y2_mm;
    double reference_length_mm; /* ... and their true distance; 0: the trace is in millimeters */
} ung_outline_fit_in;
typedef struct ung_outline_fit_out {
    double scale_ratio; /* the trace was multiplied by it */
    double area_mm2;
    double perimeter_mm;
    double length_mm;
    double width_mm;
    double widest_fraction;
    double heel_width_fraction;
    double toe_width_fraction;
    double left_width_fraction;  /* of the width, left of the axis through the toe along toe_direction */
    double left_area_fraction;
    double chosen_harmonics_count;
    double noise_mm;      /* estimated standard deviation of a point's distance from the outline */
    double fit_error_mm;  /* root mean square residual */
    double largest_error_mm;
    double validation_mm2; /* the criterion's value at the choice */
    double neighbor_ratio; /* correlation of neighboring residuals; near 0 for a good fit */
    double largest_gap_deg; /* seen from the fit's center */
} ung_outline_fit_out;
UNG_CALCULATION_WITH_LISTS(outline_fit);
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_outline_fit(const ung_outline_fit_in *in, const ung_point *trace,
                                                           size_t trace_count, ung_point *outline, size_t outline_count,
                                                           double *work, size_t work_count, ung_outline_fit_out *out,
                                                           ung_fault *fault);

#ifdef __cplusplus
}
#endif
#endif
