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
  const site_facade *window_sun[PW_WINDOWS_MAX];
  double count[PW_WINDOWS_MAX];
} year_case;

/* Sums of an hour over windows that do not depend on the method. */
void year_count_sun(const year_case *c, pw_year_result *result);

pw_status year_detailed(const year_case *c, pw_year_result *result, pw_err *err);
pw_status year_simple(const year_case *c, pw_year_result *result, pw_err *err);
pw_status year_quick(const year_case *c, pw_year_result *result, pw_err *err);

/* 1: the air of the hour is above what the house asks about; a twentieth of a K is rounding, no hour. */
static inline double year_is_warm(const pw_house *house, double t_air_c)
{
  return house->warm_c > 0.0 && t_air_c > house->warm_c + 0.05 ? 1.0 : 0.0;
}

/* Takes one hour's need (W, both positive) into the sums. */
void year_count_need(pw_year_result *result, int hour, double heat, double cool);

#endif
