/* Horse: the loads that a foot carries. */
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

#ifdef __cplusplus
}
#endif
#endif
