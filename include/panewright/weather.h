/* A year of weather, hour by hour, in local standard time. */
#ifndef PANEWRIGHT_WEATHER_H
#define PANEWRIGHT_WEATHER_H

#include <stddef.h>

#include "panewright/status.h"

enum { PW_HOURS = 8760 };

/* Models of the sky: how its light is spread, and what a clear one radiates (sky.h). */
typedef enum pw_sky_model {
  PW_SKY_PEREZ = 0, /* Perez et al. 1990; the default */
  PW_SKY_HAY_DAVIES,
  PW_SKY_EVEN,
  PW_SKY_MODEL_COUNT
} pw_sky_model;

typedef enum pw_clear_sky {
  PW_CLEAR_BERDAHL = 0, /* Berdahl & Martin 1984 */
  PW_CLEAR_CLARK,       /* Clark & Allen 1978: the warmest */
  PW_CLEAR_BRUNT        /* Brunt 1932: the coldest */
} pw_clear_sky;

typedef struct pw_site {
  char name[64];
  double latitude_deg, longitude_deg; /* north and east positive */
  double tz_h;                        /* local standard time less UTC */
  double elevation;                   /* m */
} pw_site;

/* Hour i covers i .. i+1 h after the start of 1 January; flows are means over it, states the
 * value that stands for it. No 29 February. */
typedef struct pw_hour {
  float ghi, dni, dhi; /* W/m2 */
  float t_air, t_dew;  /* C */
  float wind;          /* m/s */
  float pressure;      /* Pa */
  float cloud;         /* 0..1, opaque; below 0 not known */
  float cloud_total;   /* 0..1, with thin cloud; below 0 not known */
  float ceiling;       /* m, cloud base above ground; below 0 not known */
  float ir_down;       /* W/m2 long-wave from the sky on the horizontal; below 0 not known */
  float albedo;        /* ground reflectance; below 0 not known */
} pw_hour;

typedef struct pw_weather {
  pw_site site;
  pw_hour hour[PW_HOURS];
  int year[12];           /* calendar year of each month (typical years mix them); 0: 2001 is
                             taken for the sun, a year in the middle of the leap cycle */
  double sun_shift_h[12]; /* by month: the sun of hour i is taken at i + 0.5 h + this (files
                             whose radiation stamp is not mid-hour); 0 for most */
  double state_late_h;    /* temperature, dew point, wind and pressure are readings taken this
                             long after the middle of their hour: 0.5 where a stamp ends it */
  size_t repaired;        /* hours filled by interpolation */
  int synthetic;          /* 1 when made from monthly normals */
  char source[160];       /* data set and file or station, for print */
} pw_weather;

/* Days of a month 0..11, and of the year before it; no 29 February. */
extern const int pw_month_days[12], pw_month_start[12];

/* The month 0..11 of a day of the year 0..364. */
int pw_month_of_day(int day);

/* Pressure (Pa) of the standard atmosphere at an elevation (m).
 * Source: ISO 2533 troposphere; psychro.csv rows pressure_at_altitude. */
double pw_standard_pressure(double elevation);

#endif
