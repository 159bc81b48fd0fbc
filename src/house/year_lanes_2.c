/* The year's kernel for two houses side by side; see year_lanes.h. */
#define LANES 2
#define YEAR_LANES year_lanes_2
#include "house/year_lanes.h"
