/* Where the sun stands, and what that alone decides: extraterrestrial irradiance, air mass. */
#ifndef CLIMATE_SUN_H
#define CLIMATE_SUN_H

#include "panewright/weather.h"

typedef struct pw_sun {
  double zenith_deg; /* of the centre of the disc, seen from the ground, no refraction */
  double apparent_zenith_deg; /* with refraction */
  double azimuth_deg;         /* 0 north, 90 east */
  double declination_deg;     /* apparent, geocentric */
  double equation_of_time_min;
} pw_sun;

/* The Julian day of a calendar instant (Gregorian), UTC; hour may lie outside 0..24. */
double pw_julian_day(int year, int month, int day, double hour);

/* Sun seen from a place at an instant.
 *
 * Given     jd            Julian day, UT (within a second of UTC); 1950..2100
 *           latitude_deg, longitude_deg (north and east positive)
 *           pressure (Pa), t (K) for the refraction; 0 means 101325 Pa and 285.15 K
 * Returned  *sun
 * Status    PW_OK; PW_E_DOMAIN
 * Notes     1) Worst error 0.0004 degree beside the NREL algorithm (46 positions) and beside an
 *              independent astronomical library over 1950..2100 (123); `panewright check`.
 *           2) Terrestrial less universal time is taken as 67 s; 140 s more or less move the sun
 *              by 0.002 degree.
 *           3) Refraction counts down to 0.83 degree below the horizon, as there.
 * Source    Longitude: the leading terms of the VSOP87 series as Reda & Andreas 2004,
 *           NREL/TP-560-34302, Table A4.2, and Meeus, Astronomical Algorithms (1998), Appendix III
 *           print them (terms from memory, checked against the published positions); nutation,
 *           obliquity, sidereal time: Meeus ch. 12, 22; refraction: eq. (42) of the report.
 */
pw_status pw_sun_at(double jd, double latitude_deg, double longitude_deg, double pressure,
                    double t, pw_sun *sun, pw_err *err);

/* Extraterrestrial irradiance on a plane facing the sun, W/m2, day of the year 1..366.
 * Source: Spencer 1971 series with 1366.1 W/m2; METHODS.md section 1. */
double pw_sun_extraterrestrial(int day);

/* Relative optical air mass for an apparent zenith (deg); NAN above 90.
 * Source: Kasten & Young 1989, Applied Optics 28, 4735. */
double pw_air_mass(double apparent_zenith_deg);

/* The sun of every hour of a weather year, once a site; any number of facades then use it. Only the
 * hours with light (4500 to 5000 of a year) are kept, tightly, in index 0..n-1. Caller allocates
 * (260 kB). */
typedef struct pw_sun_year {
  size_t n;             /* hours with light */
  short hour[PW_HOURS]; /* hour of the year, 0..8759 */
  float east[PW_HOURS], north[PW_HOURS],
      up[PW_HOURS];         /* unit vector to the sun, refraction included */
  float zenith[PW_HOURS];   /* rad, with refraction */
  float air_mass[PW_HOURS]; /* relative; 0 when the sun is down */
  float normal[PW_HOURS];   /* W/m2, extraterrestrial */
} pw_sun_year;

/* Given     weather: hours with any of ghi, dni, dhi above 0 are taken
 * Returned  *year
 * Status    PW_OK; PW_E_DOMAIN the site or a year
 * Notes     Ephemeris once a day, quadratic between (below 2e-5 degree off); refraction for
 *           1013.25 hPa and 12 C, as in METHODS.md section 1.
 */
pw_status pw_sun_of_year(const pw_weather *weather, pw_sun_year *year, pw_err *err);

#endif
