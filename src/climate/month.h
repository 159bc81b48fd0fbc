/* A year of hours made from monthly normals when no hourly file is at hand. */
#ifndef CLIMATE_MONTH_H
#define CLIMATE_MONTH_H

#include "climate/sky.h"
#include "panewright/place.h"

/* How a year of hours is made of monthly means. */
typedef enum pw_month_method {
  PW_MONTH_VARIED_DAYS = 0, /* days spread as sun and temperature spread: the default */
  PW_MONTH_AVERAGE_DAY      /* every day of a month alike but for the sun's path */
} pw_month_method;

/* A synthetic year.
 *
 * Given     place, method
 * Returned  *weather, synthetic = 1; monthly means of ghi, dhi, temperature, dew point and wind are
 *           the place's own (dew point where it stays below the air), of dni where an extinction of 0
 *           to 2 by air mass can give it
 * Status    PW_OK; PW_E_DOMAIN values that no climate has
 * Notes     1) Sun of the hours: beam by Beer's law through the air mass of the hour, the day's beam
 *              kept, the month's extinction so that its normal beam is met too: low sun on east and
 *              west walls comes out right but for mornings unlike afternoons (fog, storms). Diffuse
 *              by Liu & Jordan.
 *           2) Air: temperature by the daily curve of Erbs, Klein & Beckman 1983, day by day in solar
 *              time, from noon to noon in straight lines; dew point moves with the day's air and stays
 *              below it; wind with a daily curve and a Weibull spread; pressure by elevation; cloud by
 *              pw_month_cloud, sky long-wave from it (sky.h).
 *           3) Varied days: the month's days take the quantiles of the daily clearness (Bendt,
 *              Collares-Pereira & Rabl 1981) and of a skewed normal spread of temperature, as wide as
 *              the month's extremes and degree-days tell, in an order with memory and correlated as in
 *              real months; bright days swing farther. Draws are fixed: the same year each time.
 *           4) Average day: every day at its mean, wind too: no spell of cold or cloud.
 *           5) Error beside hourly files: pw_month_spread.
 * Source    METHODS.md sections 4 and 12, constants with source in reference/climate/made_year.csv;
 *           papers from memory; held against the places' degree-days and nine hourly files in
 *           tests/test_month.c and `check --group weather`.
 */
pw_status pw_month_year(const pw_place *place, pw_month_method method, pw_weather *weather,
                        pw_err *err);

/* Cloud of a day, 0..1, by its global and that of a clear sky (any unit, both alike); total has thin
 * cloud too. Source: reference/climate/made_year.csv. */
void pw_month_cloud(double ghi, double ghi_clear, double *opaque, double *total);

/* Sun on a facade by month, kWh/m2: beam, sky and ground together. */
pw_status pw_month_facade(const pw_sky_year *sky, const pw_facade *facade, double kwh[12],
                          pw_err *err);

/* What a synthetic year is off by beside the hourly files of its stations: mean ratio of synthetic to
 * hourly, and the standard deviation of the ratio over the stations. For the range study. */
typedef struct pw_month_spread {
  double ratio, deviation;
  double worst; /* the ratio farthest from 1 */
  int stations;
} pw_month_spread;

/* Yearly sun on a vertical facade (nearest of the eight compass points). */
pw_status pw_month_sun_spread(double azimuth_deg, pw_month_spread *spread, pw_err *err);
/* Degree-hours of heating below 18.3 C (heating 1) or of cooling above it (heating 0). */
pw_status pw_month_degree_spread(int heating, pw_month_spread *spread, pw_err *err);

/* Heating or cooling that new windows save: what three packages save in the house of
 * examples/harrow_bend, places and packages with 500 kWh or more. ratio is that of the sums, deviation
 * that of single ratios about it; without: a station that is left out, NULL none. */
pw_status pw_month_saved_spread(int heating, const char *without, pw_month_spread *spread,
                                pw_err *err);
/* What the sun on windows of this area by compass point (N, NE, .. NW) is off by beyond what it is off by
 * on four walls alike: mornings unlike afternoons. PW_E_DOMAIN no area above 0. */
pw_status pw_month_walls_spread(const double area[8], pw_month_spread *spread, pw_err *err);

#endif
