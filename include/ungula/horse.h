/* Horse: the loads that a foot carries, and how it grows. */
#ifndef UNGULA_HORSE_H
#define UNGULA_HORSE_H

#include <ungula/core.h>

#ifdef __cplusplus
extern "C" {
#endif

/* limb_load: largest forces on one limb at a gait. */
typedef struct ung_limb_load_in {
    double body_mass_kg; /* with rider and tack */
    double gait_count;   /* 1 stand, 2 walk, 3 trot, 4 gallop at 11.4 m/s */
    double hind_count;   /* 0: fore limb, 1: hind limb */
    double lead_count;   /* gallop: 1 the leading limb, 0 the other */
} ung_limb_load_in;
typedef struct ung_limb_load_out {
    double vertical_n_per_kg;
    double braking_n_per_kg; /* 0 where horizontal_known_count is 0 */
    double propulsive_n_per_kg;
    double vertical_n;
    double braking_n;
    double propulsive_n;
    double horizontal_known_count;
} ung_limb_load_out;
UNG_CALCULATION(limb_load);

/* coffin_lever: moment of the ground force about the coffin joint when the foot breaks over. */
typedef struct ung_coffin_lever_in {
    double vertical_force_n; /* while the foot stands on the breakover line: not the largest of the stance */
    double forward_force_n;
    double breakover_mm;
    double setback_mm;
    double joint_height_mm;
    double wedge_deg;
    double body_mass_kg;
} ung_coffin_lever_in;
typedef struct ung_coffin_lever_out {
    double lever_mm;
    double moment_n_m;
    double moment_before_n_m;
    double change_fraction;
    double moment_n_mm_per_kg;
    double force_n_per_kg;
    double joint_change_deg;
    double tendon_change_fraction;
} ung_coffin_lever_out;
UNG_CALCULATION(coffin_lever);

/* hoof_growth: what grows until the shoe is reset, and when that is due. */
typedef struct ung_hoof_growth_in {
    double growth_mm_per_28_days;
    double days;
    double toe_angle_deg;
    double angle_loss_deg_per_week;
    double toe_limit_mm;
    double least_toe_angle_deg;
} ung_hoof_growth_in;
typedef struct ung_hoof_growth_out {
    double added_mm;
    double forward_mm;
    double down_mm;
    double angle_change_deg;
    double angle_after_deg;
    double length_days;
    double angle_days; /* may be infinite */
    double reset_days;
    double reset_weeks;
    double first_count; /* 1 the toe's length, 2 its angle, 3 six weeks */
} ung_hoof_growth_out;
UNG_CALCULATION(hoof_growth);

#ifdef __cplusplus
}
#endif
#endif
