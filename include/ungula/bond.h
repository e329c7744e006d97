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

/* bond_hold: mean stress, peak stress and capacity of the bond between horn and tape or wood. */
typedef struct ung_bond_hold_in {
    double bonded_area_mm2;
    double lap_mm;
    double film_mm;
    double adhesive_shear_modulus_mpa;
    double horn_modulus_mpa;
    double horn_thickness_mm;
    double cover_modulus_mpa;
    double cover_thickness_mm;
    double shear_strength_mpa; /* no published value on horn */
    double preparation_factor;
    double demand_n;
    double divisor_ratio;
} ung_bond_hold_in;
typedef struct ung_bond_hold_out {
    double shear_lag_per_mm;
    double peak_ratio;
    double mean_mpa;
    double peak_mpa;
    double capacity_mean_n;
    double capacity_first_n;
    double use_mean_ratio;
    double use_first_ratio;
    double effective_lap_mm;
    double needed_mean_mpa;  /* strength at which use_mean_ratio would be 1/divisor */
    double needed_first_mpa; /* strength at which use_first_ratio would be 1/divisor */
} ung_bond_hold_out;
UNG_CALCULATION(bond_hold);

/* bond_group: bonded patches under a load that does not pass through their middle. */
typedef struct ung_patch {
    double x_mm;
    double y_mm;
    double area_mm2;
    double own_moment_mm4; /* polar second moment about the patch's own middle; 0: small */
} ung_patch;
typedef struct ung_patch_stress {
    double shear_x_mpa;
    double shear_y_mpa;
    double shear_mpa;
} ung_patch_stress;
typedef struct ung_bond_group_in {
    double load_x_n;
    double load_y_n;
    double at_x_mm;
    double at_y_mm;
} ung_bond_group_in;
typedef struct ung_bond_group_out {
    double total_area_mm2;
    double centroid_x_mm;
    double centroid_y_mm;
    double polar_moment_mm4;
    double moment_n_mm;
    double mean_mpa;
    double worst_mpa;
    double worst_row_count;
    double group_factor_ratio; /* worst over mean */
} ung_bond_group_out;
UNG_CALCULATION_WITH_LISTS(bond_group);
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_bond_group(const ung_bond_group_in *in, const ung_patch *patches,
                                                          size_t patches_count, ung_patch_stress *stresses,
                                                          size_t stresses_count, ung_bond_group_out *out,
                                                          ung_fault *fault);

#ifdef __cplusplus
}
#endif
#endif
