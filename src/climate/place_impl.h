/* Shared by place.c and place_find.c. */
#ifndef CLIMATE_PLACE_IMPL_H
#define CLIMATE_PLACE_IMPL_H

#include <stddef.h>

/* What a place is called and where it lies; texts static. */
typedef struct place_name {
  const char *station, *name, *state;
  double lat_deg, lon_deg;
} place_name;

place_name place_name_of(size_t index); /* index < pw_place_count() */

/* A word of the enum of climate2's zones: "4B"; "" for none. */
const char *place_zone_name(int zone);

/* Places of the first set stand first: so many. */
size_t place_first_set(void);

#endif
