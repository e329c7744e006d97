/* What the rates of the cure room share. */
#ifndef UNG_CURE_ARRHENIUS_H
#define UNG_CURE_ARRHENIUS_H

#include "core/elementary.h"

#define UNG__GAS 8.31446261815324 /* J/(mol K), exact since 2019 */
#define UNG__KELVIN 273.15

#endif
