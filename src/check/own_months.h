/* The months of an hourly year, as a place's normals are counted. */
#ifndef CHECK_OWN_MONTHS_H
#define CHECK_OWN_MONTHS_H

#include "climate/month.h"

/* Given weather, any hourly year. Returned *place: its site and twelve months; no names, no year's
 * extremes. Degree-days by daily extremes, as in reference/climate/monthly_climate.csv. */
void pw_check_own_months(const pw_weather *weather, pw_place *place);

#endif
