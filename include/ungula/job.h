/* Job: what joins the calculations. */
#ifndef UNGULA_JOB_H
#define UNGULA_JOB_H

#include <ungula/core.h>

#ifdef __cplusplus
extern "C" {
#endif

/* hold: the load of a gait beside what bond alone and screws alone carry. */
typedef struct ung_hold_in {
    double body_mass_kg;
    double shoe_mass_g;
    double acceleration_ms2;
    double shear_n_per_kg;
    double pull_extra_n;
    double screw_count;
    double axial_design_n; /* of one screw (screw_hold); 0: no such path */
    double lateral_design_n;
    double group_factor_ratio;
    double bond_capacity_first_n; /* bond_hold; 0: no such path */
    double bond_capacity_mean_n;
    double divisor_ratio;
    double axis_tilt_deg;   /* between the screws' axes and the pull, which is straight off the ground */
    double peel_pull_n;     /* lift at the heel's end of the bond, not part of the pull */
    double peel_width_mm;
    double peel_strength_n_per_mm; /* 0: not given, not counted */
    double grip_n;          /* of the cast; 0: not given, not counted */
} ung_hold_in;
typedef struct ung_hold_out {
    double pull_n;
    double shear_n;
    double demand_n;
    double screws_only_use_ratio; /* may be infinite: no such path */
    double bond_only_use_ratio;
    double bond_mean_use_ratio;
    double single_path_use_ratio;
    double governing_count; /* 1 screws, 2 bond: the path that carries it; 0 none */
    double redundant_count; /* 1: each path alone carries the load */
    double loss_without_screws_ratio;
    double needed_screw_n;
    double needed_bond_n;
    double reserve_use_ratio; /* of the stronger path with divisor_ratio as reserve */
    double peel_n_per_mm;
    double peel_use_ratio; /* 0: not counted */
    double needed_peel_n_per_mm;
    double grip_use_ratio; /* 0: not counted */
    double needed_grip_n;
    double least_ratio;    /* capacity over load of the part that gives first */
    double weakest_part_count;  /* 1 screws, 2 bond's first crack, 3 peel at the heel, 4 the cast's grip, 0 none */
} ung_hold_out;
UNG_CALCULATION(hold);

/* shoe_mass: what the shoe weighs with all that is on it. */
typedef struct ung_shoe_mass_in {
    double ground_area_mm2; /* of the shoe's upper face */
    double perimeter_mm;
    double upper_thickness_mm;
    double lower_thickness_mm;
    double edge_bevel_deg;
    double removed_ml;
    double wood_density_g_ml;
    double screw_count;
    double screw_g;
    double tape_length_mm;
    double tape_width_mm;
    double tape_g_m2;
    double adhesive_ml;
    double adhesive_density_g_ml;
    double putty_ml;
    double putty_density_g_ml;
    double cushion_ml;
    double cushion_density_g_ml;
    double body_mass_kg;
} ung_shoe_mass_in;
typedef struct ung_shoe_mass_out {
    double upper_ml;
    double lower_ml;
    double wood_ml;
    double wood_g;
    double screws_g;
    double tape_g;
    double adhesive_g;
    double packing_g;
    double total_g;
    double percent_of_body_mass;
    double multiple_of_280_g_ratio;
    double multiple_of_700_g_ratio;
} ung_shoe_mass_out;
UNG_CALCULATION(shoe_mass);

#ifdef __cplusplus
}
#endif
#endif
