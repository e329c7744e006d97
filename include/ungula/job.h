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

#ifdef __cplusplus
}
#endif
#endif
