/* The version, from configure.ac. */
#include "core/contract.h"

#ifndef UNG_VERSION
#error "UNG_VERSION is given by the build"
#endif

const char *ung_version(void)
{
    return UNG_VERSION;
}
