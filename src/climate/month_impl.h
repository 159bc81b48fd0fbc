/* What the parts of the year maker share. Internal.
 *
 *   month_draw -> month_sun_path -> month_plan (days) -> month_sun_hours, month_air_hours (hours)
 */
#ifndef CLIMATE_MONTH_IMPL_H
#define CLIMATE_MONTH_IMPL_H

#include "climate/month.h"
#include "gen/reference.h"

enum { MONTH_YEAR_DAYS = 365, MONTH_DAYS_MAX = 31 };

/* A constant of reference/climate/made_year.csv. */
#define MADE(key) pw_ref_climate_made_year[pw_ref_climate_made_year__##key].value

/* One day of the year that is made. */
typedef struct month_day {
  double declination, sunset; /* rad; sunset hour angle */
  double noon_h;              /* local standard time of solar noon */
  double outside;             /* Wh/m2 of the day on the horizontal, outside the air */
  double ghi, dhi;            /* Wh/m2 */
  double t_mean;              /* C */
  double t_swing;             /* K, top less bottom of its daily curve */
} month_day;

/* Normal scores that are the same for every place, so that two places differ by their normals alone. */
typedef struct month_draws {
  double clear[MONTH_YEAR_DAYS], warm[MONTH_YEAR_DAYS]; /* with memory from day to day */
  double wind[PW_HOURS];                                /* and from hour to hour */
} month_draws;

void month_draw(month_draws *draws);

/* Declination to outside of every day. */
void month_sun_path(const pw_site *site, month_day day[MONTH_YEAR_DAYS]);

/* Sine of the sun's height over the horizon at a local standard time. */
double month_sun_up(const pw_site *site, const month_day *day, double time_h);

/* Global to swing of every day of the month. draws NULL: days alike. */
void month_plan(const pw_place *place, int month, const month_draws *draws,
                month_day day[MONTH_YEAR_DAYS]);

/* Global, beam and diffuse of every hour of the month. */
void month_sun_hours(const pw_place *place, int month, const month_day day[MONTH_YEAR_DAYS],
                     pw_hour hour[PW_HOURS]);

/* Temperature, dew point and wind of every hour of the month; the days of its neighbours must be
 * planned. draws NULL: no memory from day to day, wind at its mean. */
void month_air_hours(const pw_place *place, int month, const month_day day[MONTH_YEAR_DAYS],
                     const month_draws *draws, pw_hour hour[PW_HOURS]);

#endif
