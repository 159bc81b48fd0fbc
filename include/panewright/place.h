/* Built-in places with monthly normals, and the year of hours made of them (month.h says how). */
#ifndef PANEWRIGHT_PLACE_H
#define PANEWRIGHT_PLACE_H

#include "panewright/weather.h"

typedef struct pw_month_normal {
  double t_mean, t_day_max, t_day_min; /* C: mean, mean of the daily highest and lowest */
  double t_lowest, t_highest;          /* C, of the month */
  double t_dew;                        /* C, mean */
  double wind;                         /* m/s, mean */
  double ghi, dni, dhi;                /* kWh/m2 a day, mean */
  double hdd65, cdd65;                 /* F days of the month, from daily extremes */
} pw_month_normal;

typedef struct pw_place {
  pw_site site; /* name with its state at the end, as the data set prints it */
  char station[12], state[4];
  char source[96];
  pw_month_normal month[12];
  double t_lowest, t_highest; /* C, of the year */
} pw_place;

/* How many places are built in. */
size_t pw_place_count(void);

/* PW_E_DOMAIN when there is no such index. The first 94 are those of reference/climate/monthly_climate.csv,
 * the others those of reference/climate2/monthly_more.csv. */
pw_status pw_place_get(size_t index, pw_place *place, pw_err *err);

/* The place nearest on the globe, and how far it is (km, may be NULL). */
pw_status pw_place_nearest(double latitude_deg, double longitude_deg, size_t *index,
                           double *distance_km, pw_err *err);

/* The place that a text means, by pw_place_look (place_find.h), and how far it is from what was named (km,
 * may be NULL). */
pw_status pw_place_find(const char *text, size_t *index, double *distance_km, pw_err *err);

/* The year made of varied days of the place of that index. Status as pw_place_get and pw_month_year. */
pw_status pw_place_year(size_t index, pw_weather *weather, pw_err *err);

#endif
