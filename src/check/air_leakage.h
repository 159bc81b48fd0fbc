/* Part of the group `air`. */
#ifndef CHECK_AIR_LEAKAGE_H
#define CHECK_AIR_LEAKAGE_H

#include "check/check.h"

void check_air_leakage(const pw_check_sink *sink);

#endif
