/* The year's kernel for one house; see year_lanes.h. */
#define LANES 1
#define YEAR_LANES year_lanes_1
#include "house/year_lanes.h"
