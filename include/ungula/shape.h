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

#ifdef __cplusplus
}
#endif
#endif
