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
/* cure_energy: how strongly heat speeds an adhesive, from two times of its data sheet. */
typedef struct ung_cure_energy_in {
    double first_time_s;
    double first_temperature_c;
    double second_time_s;
    double second_temperature_c;
    double at_temperature_c;
} ung_cure_energy_in;
typedef struct ung_cure_energy_out {
    double activation_energy_kj;
    double ten_degrees_factor;
    double halving_c; /* may be infinite */
    double apart_c;
} ung_cure_energy_out;
UNG_CALCULATION(cure_energy);

/* working_time: how long the adhesive can be worked at its temperature, and which temperature a wanted time takes. */
typedef struct ung_working_time_in {
    double reference_time_s;
    double reference_temperature_c;
    double temperature_c;
    double activation_energy_kj;
    double wanted_time_s;
} ung_working_time_in;
typedef struct ung_working_time_out {
    double time_s;
    double safe_time_s;
    double time_factor;
    double wanted_temperature_c; /* may be infinite */
} ung_working_time_out;
UNG_CALCULATION(working_time);

#ifdef __cplusplus
}
#endif
#endif
