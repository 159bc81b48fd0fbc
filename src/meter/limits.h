/* The limits of reference/meter/limits.csv by their key. */
#ifndef METER_LIMITS_H
#define METER_LIMITS_H

#include "gen/reference.h"

#define METER_LIMIT(key) (pw_ref_meter_limits[pw_ref_meter_limits__##key].value)

#endif
