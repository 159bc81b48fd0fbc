/* What a facade receives: beam, sky and ground, hour by hour; and what the sky radiates. */
#ifndef CLIMATE_SKY_H
#define CLIMATE_SKY_H

#include "climate/sun.h"

/* "perez", "hay-davies", "even" */
const char *pw_sky_model_name(pw_sky_model model);

typedef struct pw_facade {
  double azimuth_deg; /* 0 north, 90 east: the way it looks */
  double tilt_deg;    /* 0 horizontal up, 90 vertical, 180 down */
  double albedo;      /* of the ground; below 0: the file's by hour, 0.2 where it has none */
} pw_facade;

/* Irradiance on a plane, W/m2, by where it comes from: an angle-dependent glass treats each part
 * apart. The sky is dome + circumsolar + horizon; the three sum to 0 or more, each alone may be
 * negative (Perez). */
typedef struct pw_plane_sun {
  double cos_incidence; /* of the sun's disc; 0 or less: behind the plane */
  double beam;          /* from the disc */
  double circumsolar;   /* sky close to the sun: same direction as the beam */
  double dome;          /* even sky */
  double horizon;       /* bright or dark band along the horizon */
  double ground;        /* reflected */
} pw_plane_sun;

/* One instant, for a check or a single hour.
 *
 * Given     model, facade, ghi, dni, dhi, normal (extraterrestrial; W/m2, each up to 5000)
 *           zenith_deg (apparent), sun_azimuth_deg; air mass by pw_air_mass
 * Returned  *out
 * Status    PW_OK; PW_E_DOMAIN
 * Notes     Zenith above 90: the Perez sky is 0 and the beam stays (hours that hold sunrise or
 *           sunset; METHODS.md section 2).
 * Source    Perez, Ineichen, Seals, Michalsky, Stewart 1990, Solar Energy 44, 271; Hay & Davies
 *           1980; tables and limits as METHODS.md section 2 prints them.
 */
pw_status pw_sky_plane(pw_sky_model model, const pw_facade *facade, double ghi, double dni,
                       double dhi, double normal, double zenith_deg, double sun_azimuth_deg,
                       pw_plane_sun *out, pw_err *err);

/* Sky brightness of each hour with light, once a site and model; any number of facades then use
 * it. Entries as in the sun year. Caller allocates (500 kB, with the sun). */
typedef struct pw_sky_year {
  pw_sun_year sun;
  pw_sky_model model;
  float ghi[PW_HOURS], dni[PW_HOURS];
  float albedo[PW_HOURS];      /* the file's; 0.2 where it has none */
  float even[PW_HOURS];        /* W/m2 of even dome on the horizontal */
  float circumsolar[PW_HOURS]; /* W/m2 normal to the sun */
  float band[PW_HOURS];        /* W/m2 of horizon band on a vertical */
} pw_sky_year;

/* Sun and sky brightness of each hour of the year.
 *
 * Returned  *sky
 * Status    PW_OK; as pw_sun_of_year; PW_E_DOMAIN no such model. Hours out of range are the reader's
 *           to mend (job/climate_repair): here they are taken as they are.
 */
pw_status pw_sky_of_year(const pw_weather *weather, pw_sky_model model, pw_sky_year *sky,
                         pw_err *err);

/* Hours of one facade: part[hour of the year], 0 where there is no light. Caller allocates
 * (210 kB). */
typedef struct pw_facade_year {
  float cos_incidence[PW_HOURS];
  float beam[PW_HOURS], circumsolar[PW_HOURS], dome[PW_HOURS], horizon[PW_HOURS],
      ground[PW_HOURS];
} pw_facade_year;

/* What one plane receives, hour by hour, of a sky that is at hand.
 *
 * Returned  *out; the three sky parts of an hour are 0 together where they would sum below 0
 * Status    PW_OK; PW_E_DOMAIN azimuth, tilt or albedo of the facade
 */
pw_status pw_facade_of_year(const pw_sky_year *sky, const pw_facade *facade,
                            pw_facade_year *out, pw_err *err);

/* Global split into normal beam and diffuse. zenith_deg true (no guard below 0.065 in its
 * cosine; above 87 degrees all is diffuse). Source: Erbs, Klein, Duffie 1982; METHODS.md 3. */
double pw_sky_diffuse_fraction(double kt);
pw_status pw_sky_split(double ghi, double zenith_deg, int day, double *dni, double *dhi,
                       pw_err *err);

/* Long-wave irradiance of the sky on the horizontal, W/m2, of an hour: the file's when it carries
 * one, else from dew point and cloud.
 *
 * Given     hour, hour_of_day (0..23)
 * Notes     1) Clear sky: 0.711 + 0.56 d + 0.73 d2 + 0.013 cos(2 pi t/24) + 0.00012 (p - 1000),
 *              d dew point in 100 C, t h, p hPa. Cloud: e + (1 - e) sum n_i e_i exp(-z_i/8.2 km),
 *              opaque (e_i 1) at the file's ceiling, 2 km where unknown; thin cloud 0.4 at 8 km.
 *           2) Cloud unknown: a half-covered sky is taken.
 *           3) Other forms of the clear sky, for a range to draw: Clark & Allen 1978, 0.787 + 0.764
 *              ln(dew / 273 K); Brunt 1932, 0.52 + 0.065 sqrt(vapour pressure in hPa). Both from memory,
 *              as is the vapour pressure over a dew point (Magnus).
 * Source    Berdahl & Martin 1984, Solar Energy 32, 663; Martin & Berdahl 1984, Solar Energy 33,
 *           321; coefficients from memory, held against files with long-wave in the tests.
 */
double pw_sky_longwave(const pw_hour *hour, int hour_of_day, pw_clear_sky clear);

/* The black temperature (K) of the whole sky that radiates that much. */
double pw_sky_temperature(const pw_hour *hour, int hour_of_day, pw_clear_sky clear);

/* Clear-sky global, W/m2. Source: Haurwitz 1945: 1098 cos z exp(-0.057/cos z); memory. */
double pw_sky_clear_global(double zenith_deg);

#endif
