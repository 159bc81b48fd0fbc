/* What the three methods of the year share. Internal. */
#ifndef HOUSE_YEAR_IMPL_H
#define HOUSE_YEAR_IMPL_H

#include "house/room.h"
#include "house/site.h"

/* A run's inputs, checked and with their sun at hand. */
typedef struct year_case {
  const pw_house *house;
  const pw_weather *weather;
  const pw_house_window *window;
  size_t n;
  pw_year_options options;
  pw_year_workspace *ws;
  const float *part_sun[PW_PARTS_MAX]; /* W/m2 by hour; NULL: none */
  double count[PW_WINDOWS_MAX];
} year_case;

/* The detailed method for up to LANES cases at once, each beside the others as if alone: same workspace,
 * parts, windows, outdoor form and steps. Lanes of ws->window are theirs. On failure *failed is the
 * case. */
typedef pw_status year_lanes(const year_case *const c[], size_t n,
                             pw_year_result *const result[], size_t *failed, pw_err *err);
year_lanes year_lanes_1, year_lanes_2, year_lanes_4, year_lanes_8;

pw_status year_simple(const year_case *c, pw_year_result *result, pw_err *err);
pw_status year_quick(const year_case *c, pw_year_result *result, pw_err *err);

/* C of room air above which an hour counts as warm: a twentieth of a K is rounding, no hour. */
static inline double year_warm_above(const pw_house *house)
{
  return house->warm_c > 0.0 ? house->warm_c + 0.05 : INFINITY;
}

#endif
