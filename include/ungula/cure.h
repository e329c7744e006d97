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
/* cure_energy: how strongly an adhesive's time depends on its temperature, from two times of its data sheet. */
typedef struct ung_cure_energy_in {
    double first_time_s;
    double first_temperature_c;
    double second_time_s;
    double second_temperature_c;
    double at_temperature_c;
} ung_cure_energy_in;
typedef struct ung_cure_energy_out {
    double activation_energy_kj;
    double ten_degrees_factor; /* how many times shorter 10 C above at_temperature_c */
    double halving_rise_c;     /* may be infinite: no rise halves the time */
} ung_cure_energy_out;
UNG_CALCULATION(cure_energy);

/* working_time: the data sheet's working time at today's temperature, and how warm it may be for the work. */
typedef struct ung_working_time_in {
    double reference_time_s;
    double reference_temperature_c;
    double temperature_c; /* of the adhesive, not of the air */
    double activation_energy_kj;
    double wanted_time_s;
} ung_working_time_in;
typedef struct ung_working_time_out {
    double working_time_s;
    double safe_time_s; /* plan with this */
    double longest_time_s;
    double wanted_temperature_c; /* may be infinite: none is hot enough */
    double safe_temperature_c;   /* may be infinite: none is hot enough */
} ung_working_time_out;
UNG_CALCULATION(working_time);

/* cup_curve: the same cup, with its course over time. */
typedef struct ung_cure_time {
    double time_s; /* since mixing; no row may come before the one before it */
} ung_cure_time;
typedef struct ung_cure_point {
    double temperature_c;
    double cured_fraction;
} ung_cure_point;
typedef ung_cup_cure_in ung_cup_curve_in;
typedef ung_cup_cure_out ung_cup_curve_out;
UNG_CALCULATION_WITH_LISTS(cup_curve);
UNG_PUBLIC UNG_NEEDS_IN_AND_OUT ung_status ung_cup_curve(const ung_cup_curve_in *in, const ung_cure_time *times,
                                                         size_t times_count, ung_cure_point *curve, size_t curve_count,
                                                         ung_cup_curve_out *out, ung_fault *fault);

/* wall_heat: a curing film on the horn: how hot the horn's inner face gets, and whether that burns. */
typedef struct ung_wall_heat_in {
    double adhesive_mm;
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
