/* The built-in places on a terminal, as CSV and as JSON. */
#ifndef OUT_PLACE_OUT_H
#define OUT_PLACE_OUT_H

#include <stdio.h>

#include "climate/place_find.h"
#include "out/grid.h"

typedef struct pw_place_print {
  pw_format format;
  int si;
  FILE *f;
} pw_place_print;

/* All of them. PW_E_IO when writing fails. */
pw_status pw_places_print(const pw_place_print *as, pw_err *err);

/* What a text that is still being written may become. */
pw_status pw_places_like_print(const pw_place_print *as, const char *text, pw_err *err);

/* One by month; hit: how it was meant; kwh: sun on its walls north, east, south, west, kWh/m2. */
pw_status pw_place_months_print(const pw_place_print *as, const pw_place *place,
                                const pw_place_hit *hit, double kwh[4][12], pw_err *err);

#endif
