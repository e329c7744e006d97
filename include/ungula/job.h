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
/* job_timeline: whether the work gets done before the adhesive sets, and before which step a fresh batch is mixed.
 * 1 to 64 steps in the order of the work; work: ung_workspace(ung_job_timeline_contract(), steps_count) doubles. */
typedef struct ung_job_step {
    double low_s; /* low <= likely <= high */
    double likely_s;
    double high_s;
    double working_count; /* 1: from mixing to closing, while the adhesive has to be workable; 0: before or after */
} ung_job_step;
typedef struct ung_step_time {
    double mean_s;
    double finish_s;            /* mean time from mixing to the end of the step, with one batch */
    double chance_fraction;     /* of passing the working time by then, with one batch */
    double own_chance_fraction; /* the same with the batches of the plan */
    double batch_count;         /* number of its batch, 0: needs none */
} ung_step_time;
typedef struct ung_job_timeline_in {
    double working_time_s;
    double spread_fraction;
    double pace_fraction;
    double limit_fraction;
    double triangular_count; /* 0: beta-PERT, 1: triangular */
    double samples_count;    /* 0: the normal approximation alone */
    double seed_count;
} ung_job_timeline_in;
typedef struct ung_job_timeline_out {
    double mean_s;
    double sd_s;
    double slack_s;
    double normal_chance_fraction;
    double chance_fraction;
    double standard_error_fraction;
    double done_by_s;
    double needed_working_time_s; /* may be infinite */
    double batches_count;
    double fresh_before_count; /* number of the first step before which a fresh batch is mixed, 0: none */
    double impossible_count;   /* number of the first step that one batch does not last for, 0: none */
} ung_job_timeline_out;
UNG_CALCULATION_WITH_LISTS(job_timeline);
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_job_timeline(const ung_job_timeline_in *in, const ung_job_step *steps,
                                                            size_t steps_count, ung_step_time *times,
                                                            size_t times_count, double *work, size_t work_count,
                                                            ung_job_timeline_out *out, ung_fault *fault);

#ifdef __cplusplus
}
#endif
#endif
