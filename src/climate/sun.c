#include "climate/sun.h"

#include <math.h>
#include <stddef.h>

#include "base/own_math.h"
#include "panewright/units.h"

/* A term A cos(B + C t) of the Earth's heliocentric longitude or distance; t in Julian millennia
 * from 2000. Units 1e-8 rad, 1e-8 au. Longitude terms below 100 are left out: together they stay
 * under 0.001 degree. */
typedef struct term {
  double a, b, c;
} term;

static const term longitude_0[] = {{3341656, 4.6692568, 6283.07585},
                                   {34894, 4.6261, 12566.1517},
                                   {3497, 2.7441, 5753.3849},
                                   {3418, 2.8289, 3.5231},
                                   {3136, 3.6277, 77713.7715},
                                   {2676, 4.4181, 7860.4194},
                                   {2343, 6.1352, 3930.2097},
                                   {1324, 0.7425, 11506.7698},
                                   {1273, 2.0371, 529.691},
                                   {1199, 1.1096, 1577.3435},
                                   {990, 5.233, 5884.927},
                                   {902, 2.045, 26.298},
                                   {857, 3.508, 398.149},
                                   {780, 1.179, 5223.694},
                                   {753, 2.533, 5507.553},
                                   {505, 4.583, 18849.228},
                                   {492, 4.205, 775.523},
                                   {357, 2.92, 0.067},
                                   {317, 5.849, 11790.629},
                                   {284, 1.899, 796.298},
                                   {271, 0.315, 10977.079},
                                   {243, 0.345, 5486.778},
                                   {206, 4.806, 2544.314},
                                   {205, 1.869, 5573.143},
                                   {202, 2.458, 6069.777},
                                   {156, 0.833, 213.299},
                                   {132, 3.411, 2942.463},
                                   {126, 1.083, 20.775}};
static const term longitude_1[] = {
    {206059, 2.678235, 6283.07585}, {4303, 2.6351, 12566.1517}, {425, 1.59, 3.523},
    {119, 5.796, 26.298},           {109, 2.966, 1577.344},     {93, 2.59, 18849.23}};
static const term longitude_2[] = {
    {8720, 1.0721, 6283.0758}, {309, 0.867, 12566.152}, {27, 0.05, 3.52}};
static const term distance_0[] = {{1670700, 3.0984635, 6283.07585},
                                  {13956, 3.05525, 12566.1517}};
#define LENGTH(a) (sizeof(a) / sizeof(a)[0])

static const double delta_t =
    67.0; /* s, terrestrial less universal time; METHODS.md section 1 */
static const double day_2000 = 2451545.0; /* Julian day of 1 January 2000, 12 h */
static const double sun_radius_deg = 0.26667, horizon_refraction_deg = 0.5667; /* NREL report */
static const double parallax_deg = 8.794 / 3600.0; /* of the sun, equatorial */

static double sum(const term *row, size_t n, double t)
{
  double s = 0.0;
  for (size_t i = 0; i < n; i++)
    s += row[i].a * pw_cos(row[i].b + row[i].c * t);
  return s;
}

/* Apparent geocentric place of the sun, and what turns universal time into its hour angle. */
typedef struct place {
  double ascension, declination; /* rad; ascension not reduced to a turn */
  double equinoxes;              /* rad, nutation in right ascension */
  double mean_longitude;         /* rad */
} place;

static void ephemeris(double jd, place *p)
{
  double century = (jd + delta_t / 86400.0 - day_2000) / 36525.0, t = century / 10.0;
  double l = 175347046.0 + sum(longitude_0, LENGTH(longitude_0), t) +
             t * (628331966747.0 + sum(longitude_1, LENGTH(longitude_1), t) +
                  t * (52919.0 + sum(longitude_2, LENGTH(longitude_2), t)));
  double r = 1.00013989 + 1e-8 * sum(distance_0, LENGTH(distance_0), t);
  double mean_sun = pw_rad(280.4665 + 36000.7698 * century);
  double moon = pw_rad(218.3165 + 481267.8813 * century);
  double node = pw_rad(125.04452 - 1934.136261 * century);
  /* Meeus ch. 22: the four leading terms of nutation, within 0.5 second of arc. */
  double psi = pw_rad((-17.20 * pw_sin(node) - 1.32 * pw_sin(2.0 * mean_sun) -
                       0.23 * pw_sin(2.0 * moon) + 0.21 * pw_sin(2.0 * node)) /
                      3600.0);
  double eps = pw_rad((9.20 * pw_cos(node) + 0.57 * pw_cos(2.0 * mean_sun) +
                       0.10 * pw_cos(2.0 * moon) - 0.09 * pw_cos(2.0 * node)) /
                      3600.0);
  /* Meeus eq. (22.2) */
  eps += pw_rad(23.4392911 -
                century * (46.8150 + century * (0.00059 - century * 0.001813)) / 3600.0);
  double aberration = -pw_rad(20.4898 / 3600.0) / r; /* NREL report, eq. (27) */
  double lambda = l * 1e-8 + PW_PI + psi + aberration;
  double turns = floor(lambda / (2.0 * PW_PI));
  double ra = pw_atan2(pw_sin(lambda) * pw_cos(eps),
                       pw_cos(lambda)); /* latitude below 1.2 seconds: left out */
  if (ra < 0.0) ra += 2.0 * PW_PI;
  p->ascension = ra + 2.0 * PW_PI * turns;
  p->declination = pw_asin(pw_sin(eps) * pw_sin(lambda));
  p->equinoxes = psi * pw_cos(eps);
  /* NREL report, eq. (A2): the mean longitude that the equation of time is counted from */
  p->mean_longitude =
      pw_rad(280.4664567 +
             t * (360007.6982779 + t * (0.03032028 + t * (1.0 / 49931.0 - t / 15300.0))));
}

/* Apparent sidereal time at Greenwich less its daily turn, rad. Meeus eq. (12.4). */
static double sidereal(double jd, double equinoxes)
{
  double d = jd - day_2000, c = d / 36525.0;
  double mean = 280.46061837 + 360.98564736629 * d + c * c * (0.000387933 - c / 38710000.0);
  return pw_rad(fmod(mean, 360.0)) + equinoxes;
}

/* Refraction, deg, at an elevation free of it. NREL report eq. (42). */
static double refraction(double elevation_deg, double density)
{
  if (elevation_deg < -(sun_radius_deg + horizon_refraction_deg)) return 0.0;
  return density * 1.02 /
         (60.0 * pw_tan(pw_rad(elevation_deg + 10.3 / (elevation_deg + 5.11))));
}

double pw_julian_day(int year, int month, int day, double hour)
{
  if (month <= 2) { /* Meeus ch. 7 */
    year--;
    month += 12;
  }
  int century = year / 100, leap = 2 - century + century / 4;
  return floor(365.25 * (year + 4716)) + floor(30.6001 * (month + 1)) + day + leap - 1524.5 +
         hour / 24.0;
}

pw_status pw_sun_at(double jd, double latitude_deg, double longitude_deg, double pressure,
                    double t, pw_sun *sun, pw_err *err)
{
  if (!(jd >= 2433282.5 && jd <= 2488434.5))
    return pw_fail(err, PW_E_DOMAIN, "jd", "Julian day %.1f, want years 1950 to 2100", jd);
  if (!(fabs(latitude_deg) <= 90.0))
    return pw_fail(err, PW_E_DOMAIN, "latitude_deg", "latitude %g, want -90 to 90",
                   latitude_deg);
  if (!(fabs(longitude_deg) <= 360.0))
    return pw_fail(err, PW_E_DOMAIN, "longitude_deg", "longitude %g, want -180 to 180",
                   longitude_deg);
  if (pressure == 0.0) pressure = 101325.0;
  if (t == 0.0) t = 285.15;
  if (!(pressure >= 2e4 && pressure <= 1.2e5))
    return pw_fail(err, PW_E_DOMAIN, "pressure", "%g Pa, want 20000 to 120000", pressure);
  if (!(t >= 180.0 && t <= 340.0))
    return pw_fail(err, PW_E_DOMAIN, "t", "%g K, want 180 to 340", t);

  place p;
  ephemeris(jd, &p);
  double h = sidereal(jd, p.equinoxes) + pw_rad(longitude_deg) - p.ascension;
  double phi = pw_rad(latitude_deg);
  double east = -pw_cos(p.declination) * pw_sin(h);
  double north =
      pw_cos(phi) * pw_sin(p.declination) - pw_sin(phi) * pw_cos(p.declination) * pw_cos(h);
  double up =
      pw_sin(phi) * pw_sin(p.declination) + pw_cos(phi) * pw_cos(p.declination) * pw_cos(h);
  double z = pw_atan2(pw_hypot(east, north), up) * (180.0 / PW_PI);
  z += parallax_deg * pw_sin(pw_rad(z));
  double density = pressure / 101000.0 * 283.0 / t;
  double azimuth = pw_atan2(east, north) * (180.0 / PW_PI);
  double minutes =
      remainder(p.mean_longitude - pw_rad(0.0057183) - p.ascension + p.equinoxes, 2.0 * PW_PI) *
      (720.0 / PW_PI); /* NREL report eq. (A1) */
  *sun =
      (pw_sun){z, z - refraction(90.0 - z, density), azimuth < 0.0 ? azimuth + 360.0 : azimuth,
               p.declination * (180.0 / PW_PI), minutes};
  return PW_OK;
}

double pw_sun_extraterrestrial(int day)
{
  double b = 2.0 * PW_PI * (day - 1) / 365.0;
  return 1366.1 * (1.00011 + 0.034221 * pw_cos(b) + 0.00128 * pw_sin(b) +
                   0.000719 * pw_cos(2.0 * b) + 0.000077 * pw_sin(2.0 * b));
}

double pw_air_mass(double z)
{
  if (!(z <= 90.0)) return NAN;
  return 1.0 / (pw_cos(pw_rad(z)) + 0.50572 * pw_power(96.07995 - z, -1.6364));
}

/* The sun's path of one day: quadratics in the day's share 0..1 through three daily places. */
typedef struct path {
  double hour_angle[3], declination[3];
  double sin_noon, cos_noon; /* of the declination at mid-day */
} path;

static void quadratic(double a, double b, double c, double out[3])
{
  out[0] = a;
  out[1] = -1.5 * a + 2.0 * b - 0.5 * c;
  out[2] = 0.5 * a - b + 0.5 * c;
}

/* Paths of the days of one month, hour angle at the site's own meridian. */
static void month_paths(const pw_weather *w, int month, path day[31])
{
  enum { NODES = 33 };
  double h[NODES] = {0}, d[NODES] = {0};
  int n = pw_month_days[month];
  int year = w->year[month] ? w->year[month] : 2001;
  double jd0 = pw_julian_day(year, month + 1, 1, -w->site.tz_h + w->sun_shift_h[month]);
  for (int i = 0; i < n + 2; i++) {
    place p;
    ephemeris(jd0 + i, &p);
    /* Reduced to the turn in which a day adds 2 pi less the change of ascension, plus sidereal. */
    h[i] = sidereal(jd0 + i, p.equinoxes) + pw_rad(w->site.longitude_deg) - p.ascension;
    h[i] = remainder(h[i], 2.0 * PW_PI);
    if (i > 0) h[i] = h[0] + remainder(h[i] - h[0], 2.0 * PW_PI) + 2.0 * PW_PI * i;
    d[i] = p.declination;
  }
  for (int i = 0; i < n; i++) {
    quadratic(h[i], h[i + 1], h[i + 2], day[i].hour_angle);
    quadratic(d[i], d[i + 1], d[i + 2], day[i].declination);
    double noon = d[i] + 0.5 * (day[i].declination[1] + 0.5 * day[i].declination[2]);
    pw_sin_cos(noon, &day[i].sin_noon, &day[i].cos_noon);
  }
}

/* Turns a sine and cosine by a small angle; the error is its third power over 6. */
static void turn(double *sine, double *cosine, double small)
{
  double flat = 1.0 - 0.5 * small * small, s = *sine;
  *sine = s * flat + *cosine * small;
  *cosine = *cosine * flat - s * small;
}

/* One hour's entry. Declination within a day (0.2 degree) and refraction with parallax (0.6 degree)
 * are small turns: 1e-8 and 2e-7 rad off at most, and half the time of sines taken anew. */
static void add_hour(pw_sun_year *y, int hour, const path *day, double share, double sin_lat,
                     double cos_lat, double normal)
{
  double h = day->hour_angle[0] + share * (day->hour_angle[1] + share * day->hour_angle[2]);
  double sin_d = day->sin_noon, cos_d = day->cos_noon, sin_h, cos_h;
  pw_sin_cos(h, &sin_h, &cos_h);
  double from_noon = share - 0.5;
  turn(&sin_d, &cos_d, from_noon * (day->declination[1] + (share + 0.5) * day->declination[2]));
  double east = -cos_d * sin_h, north = cos_lat * sin_d - sin_lat * cos_d * cos_h;
  double up = sin_lat * sin_d + cos_lat * cos_d * cos_h;
  double flat = sqrt(east * east + north * north);
  double bare = pw_atan2(up, flat) * (180.0 / PW_PI), elevation = bare - parallax_deg * flat;
  elevation += refraction(elevation, 101325.0 / 101000.0 * 283.0 / 285.15);
  double z = pw_rad(90.0 - elevation), sin_z = flat, cos_z = up;
  turn(&cos_z, &sin_z, pw_rad(elevation - bare));
  double stretch = flat > 0.0 ? sin_z / flat : 0.0;
  size_t i = y->n++;
  y->hour[i] = (short)hour;
  y->east[i] = (float)(east * stretch);
  y->north[i] = (float)(north * stretch);
  y->up[i] = (float)cos_z;
  y->zenith[i] = (float)z;
  y->air_mass[i] = elevation >= 0.0
                       ? (float)(1.0 / (cos_z + 0.50572 * pw_power(6.07995 + elevation,
                                                                   -1.6364))) /* K. & Young */
                       : 0.0f;
  y->normal[i] = (float)normal;
}

pw_status pw_sun_of_year(const pw_weather *w, pw_sun_year *year, pw_err *err)
{
  if (!(fabs(w->site.latitude_deg) <= 90.0))
    return pw_fail(err, PW_E_DOMAIN, "latitude_deg", "latitude %g, want -90 to 90",
                   w->site.latitude_deg);
  if (!(fabs(w->site.longitude_deg) <= 180.0))
    return pw_fail(err, PW_E_DOMAIN, "longitude_deg", "longitude %g, want -180 to 180",
                   w->site.longitude_deg);
  if (!(fabs(w->site.tz_h) <= 14.0))
    return pw_fail(err, PW_E_DOMAIN, "tz_h", "time zone %g h, want -14 to 14", w->site.tz_h);
  double sin_lat = pw_sin(pw_rad(w->site.latitude_deg)),
         cos_lat = pw_cos(pw_rad(w->site.latitude_deg));
  path day[31] = {0};
  year->n = 0;
  for (int month = 0; month < 12; month++) {
    int y = w->year[month] ? w->year[month] : 2001;
    if (y < 1950 || y > 2100)
      return pw_fail(err, PW_E_DOMAIN, "year", "year %d, want 1950 to 2100", y);
    int leap = month > 1 && (y % 4 == 0 && (y % 100 != 0 || y % 400 == 0));
    month_paths(w, month, day);
    for (int d = 0; d < pw_month_days[month]; d++) {
      int of_year = pw_month_start[month] + d;
      double normal = pw_sun_extraterrestrial(of_year + 1 + leap);
      for (int k = 0; k < 24; k++) {
        const pw_hour *hour = &w->hour[of_year * 24 + k];
        if (!(hour->ghi > 0.0f || hour->dni > 0.0f || hour->dhi > 0.0f)) continue;
        add_hour(year, of_year * 24 + k, &day[d], (k + 0.5) / 24.0, sin_lat, cos_lat, normal);
      }
    }
  }
  return PW_OK;
}
