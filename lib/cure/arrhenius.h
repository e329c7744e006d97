/* How a cure time follows the temperature: t ~ exp(E/(R T)) (Arrhenius), written so that nothing cancels. */
#ifndef UNG_CURE_ARRHENIUS_H
#define UNG_CURE_ARRHENIUS_H

#include "core/elementary.h"

#define UNG__GAS_J_MOL_K 8.31446261815324 /* molar gas constant, exact in the SI of 2019 */
#define UNG__KELVIN_OF_0_C 273.15

/* t(T)/t(T0) = exp(E/R (1/T - 1/T0)), E in kJ/mol, temperatures in C. */
UNG_INLINE double ung__time_ratio(double energy_kj, double at_c, double from_c)
{
    double inverse = (from_c - at_c) / ((at_c + UNG__KELVIN_OF_0_C) * (from_c + UNG__KELVIN_OF_0_C));
    return ung__exp(1000 * energy_kj / UNG__GAS_J_MOL_K * inverse);
}

/* How far above T0 the time is e^(-fall) of what it is there: T0 q/(1 - q), q = T0 R fall/E; infinite where no
 * temperature is hot enough (q >= 1). */
UNG_INLINE double ung__rise_for(double energy_kj, double from_c, double fall)
{
    double kelvin = from_c + UNG__KELVIN_OF_0_C;
    double q = kelvin * UNG__GAS_J_MOL_K * fall / (1000 * energy_kj), rest = 1 - q;
    double divisor = rest > 0 ? rest : 1;
    return rest > 0 ? kelvin * q / divisor : UNG__INFINITY;
}

#endif
