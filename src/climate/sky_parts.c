/* Pieces of sky that need no facade: global split, clear sky, cloud, long-wave. */
#include <math.h>

#include "base/own_math.h"
#include "climate/sky.h"
#include "panewright/units.h"

double pw_sky_diffuse_fraction(double kt)
{
  if (kt <= 0.22) return 1.0 - 0.09 * kt; /* Erbs, Klein, Duffie 1982, eq. (1) */
  if (kt > 0.80) return 0.165;
  return 0.9511 + kt * (-0.1604 + kt * (4.388 + kt * (-16.638 + kt * 12.336)));
}

pw_status pw_sky_split(double ghi, double zenith_deg, int day, double *dni, double *dhi,
                       pw_err *err)
{
  if (!(ghi >= 0.0 && ghi <= 2000.0))
    return pw_fail(err, PW_E_DOMAIN, "ghi", "global %g W/m2, want 0 to 2000", ghi);
  if (!(zenith_deg >= 0.0 && zenith_deg <= 180.0))
    return pw_fail(err, PW_E_DOMAIN, "zenith_deg", "zenith %g, want 0 to 180", zenith_deg);
  if (day < 1 || day > 366)
    return pw_fail(err, PW_E_DOMAIN, "day", "day %d, want 1 to 366", day);
  double cos_z = pw_cos(pw_rad(zenith_deg));
  double kt = ghi / (pw_sun_extraterrestrial(day) * fmax(cos_z, 0.065));
  double diffuse = ghi * pw_sky_diffuse_fraction(fmin(kt, 1.0));
  double normal = (ghi - diffuse) / cos_z;
  if (zenith_deg > 87.0) {
    normal = 0.0;
    diffuse = ghi;
  }
  *dni = normal;
  *dhi = diffuse;
  return PW_OK;
}

double pw_sky_clear_global(double zenith_deg)
{
  double c = pw_cos(pw_rad(zenith_deg));
  return c > 0.0 ? 1098.0 * c * pw_exp(-0.057 / c) : 0.0; /* Haurwitz 1945 */
}

/* Emissivity of a sky without cloud. */
static double clear_sky(const pw_hour *h, int hour_of_day, pw_clear_sky form)
{
  double dew = (double)h->t_dew, d = dew / 100.0;
  if (form == PW_CLEAR_CLARK) return 0.787 + 0.764 * pw_log(pw_k(dew) / 273.0);
  if (form == PW_CLEAR_BRUNT)
    return 0.52 + 0.065 * sqrt(6.112 * pw_exp(17.62 * dew / (243.12 + dew)));
  /* Berdahl & Martin 1984, monthly form with its daily and pressure terms */
  return 0.711 + d * (0.56 + 0.73 * d) +
         0.013 * pw_cos(2.0 * PW_PI * (hour_of_day + 0.5) / 24.0) +
         0.00012 * ((double)h->pressure / 100.0 - 1000.0);
}

double pw_sky_longwave(const pw_hour *h, int hour_of_day, pw_clear_sky clear)
{
  if (h->ir_down >= 0.0f) return (double)h->ir_down;
  double e = clear_sky(h, hour_of_day, clear);
  double opaque = h->cloud >= 0.0f ? (double)h->cloud : 0.5;
  double thin = h->cloud_total > h->cloud ? (double)h->cloud_total - opaque : 0.0;
  double base = h->ceiling >= 0.0f ? (double)h->ceiling : 2000.0;
  /* Martin & Berdahl 1984: a cloud counts less the higher, and colder, its base stands */
  double cover =
      opaque * pw_exp(-base / 8200.0) + fmax(thin, 0.0) * 0.4 * pw_exp(-8000.0 / 8200.0);
  e = fmin(e + (1.0 - e) * cover, 1.0);
  double t = pw_k((double)h->t_air);
  return e * PW_SIGMA * t * t * t * t;
}

double pw_sky_temperature(const pw_hour *hour, int hour_of_day, pw_clear_sky clear)
{
  return sqrt(sqrt(pw_sky_longwave(hour, hour_of_day, clear) / PW_SIGMA));
}
