/* Cure: times and temperatures of the adhesive as it sets. */
#ifndef UNGULA_CURE_H
#define UNGULA_CURE_H

#include <ungula/core.h>

#ifdef __cplusplus
extern "C" {
#endif

/* cup_cure: a mixed cup that heats itself: when it gels, and how hot it gets. */
typedef struct ung_cup_cure_in {
    double mass_g;
    double surface_cm2;
    double exchange_w_m2k;
    double ambient_c;
    double start_c;
    double reference_time_s;
    double reference_temperature_c;
    double reference_mass_g; /* 0: a film that stays at the reference temperature */
    double reference_surface_cm2;
    double activation_energy_kj;
    double heat_j_g;
    double heat_capacity_j_gk;
    double initiation_fraction;
    double gel_fraction;
    double final_fraction;
} ung_cup_cure_in;
typedef struct ung_cup_cure_out {
    double gel_time_s;
    double fixture_time_s; /* may be infinite: never so far cured */
    double peak_temperature_c;
    double peak_time_s; /* may be infinite: it only warms up to the ambient */
    double film_time_s;
    double adiabatic_rise_c;
} ung_cup_cure_out;
UNG_CALCULATION(cup_cure);

/* wall_heat: a curing film on the horn: how hot the horn's inner face gets, and whether that burns. */
typedef struct ung_wall_heat_in {
    double film_mm;
    double horn_mm;
    double start_c; /* of the adhesive */
    double horn_c;
    double ambient_c;
    double exchange_w_m2k;
    double reference_time_s;
    double reference_temperature_c;
    double activation_energy_kj;
    double heat_j_g;
    double density_g_ml;
    double initiation_fraction;
    double gel_fraction;
    double final_fraction;
    double film_conductivity_w_mk;
    double horn_conductivity_w_mk;
    double film_capacity_mj_m3k;
    double horn_capacity_mj_m3k;
    double body_c;
    double tissue_count; /* 1: the inner face lies on living tissue; 0: no heat passes it */
    double tissue_mm;
    double tissue_conductivity_w_mk;
    double tissue_capacity_mj_m3k;
} ung_wall_heat_in;
typedef struct ung_wall_heat_out {
    double film_peak_c;
    double inner_peak_c; /* at the horn's inner face */
    double inner_peak_time_s;
    double time_above_44_s;
    double burn_damage_ratio; /* 1: a burn begins */
    double film_gel_time_s;   /* may be infinite: not in the six hours that are followed */
} ung_wall_heat_out;
UNG_CALCULATION(wall_heat);

#ifdef __cplusplus
}
#endif
#endif
