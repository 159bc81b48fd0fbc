/* A year of two halves, one cold and one warm, with light in one hour a day, and a common double unit: for houses by hand. */
#ifndef TESTS_HALVED_YEAR_H
#define TESTS_HALVED_YEAR_H

#include <stdlib.h>

#include "panewright/glazing.h"
#include "panewright/weather.h"

/* To be freed; NULL where there is no memory or the unit is refused. */
static inline pw_weather *halved_year(float cold, float warm, pw_glazing *glass)
{
  pw_buildup b;
  pw_weather *w = calloc(1, sizeof *w);
  if (!w || pw_buildup_parse("3mm clear / 12mm air / 3mm clear", &b, NULL) != PW_OK ||
      pw_glazing_build(&b, glass, NULL) != PW_OK) {
    free(w);
    return NULL;
  }
  w->site = (pw_site){.name = "x", .latitude_deg = 40.0, .longitude_deg = -105.0, .tz_h = -7.0};
  for (int i = 0; i < PW_HOURS; i++) {
    w->hour[i] = (pw_hour){
        .t_air = i < 4380 ? cold : warm, .t_dew = -2.0f, .wind = 3.0f, .pressure = 1e5f};
    if (i % 24 == 12) w->hour[i].ghi = w->hour[i].dhi = 300.0f;
    if (i % 24 == 12) w->hour[i].dni = 500.0f;
  }
  return w;
}

#endif
