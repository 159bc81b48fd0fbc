/* Months out of hours, and what a made year is off by. */
#include <math.h>
#include <string.h>

#include "base/own_math.h"
#include "climate/month.h"
#include "gen/reference.h"
#include "panewright/units.h"

pw_status pw_month_facade(const pw_sky_year *sky, const pw_facade *facade, double kwh[12],
                          pw_err *err)
{
  double a = pw_rad(facade->azimuth_deg), t = pw_rad(facade->tilt_deg);
  if (!(fabs(facade->azimuth_deg) <= 720.0 && facade->tilt_deg >= 0.0 &&
        facade->tilt_deg <= 180.0))
    return pw_fail(err, PW_E_DOMAIN, "azimuth_deg", "azimuth %g, tilt %g", facade->azimuth_deg,
                   facade->tilt_deg);
  double e = pw_sin(a) * pw_sin(t), n = pw_cos(a) * pw_sin(t), u = pw_cos(t), sum[12] = {0};
  int m = 0;
  for (size_t i = 0; i < sky->sun.n; i++) {
    while (m < 11 && sky->sun.hour[i] >= pw_month_start[m + 1] * 24)
      m++;
    double c = fmax((double)sky->sun.east[i] * e + (double)sky->sun.north[i] * n +
                        (double)sky->sun.up[i] * u,
                    0.0);
    double albedo = facade->albedo >= 0.0 ? facade->albedo : (double)sky->albedo[i];
    double vault = (double)sky->circumsolar[i] * c + (double)sky->even[i] * (1.0 + u) / 2.0 +
                   (double)sky->band[i] * pw_sin(t);
    sum[m] += (double)sky->dni[i] * c + fmax(vault, 0.0) +
              (double)sky->ghi[i] * albedo * (1.0 - u) / 2.0;
  }
  for (m = 0; m < 12; m++)
    kwh[m] = sum[m] / 1000.0;
  return PW_OK;
}

/* Rows of one quantity in fallback_spread.csv. */
static pw_status spread_of(const char *quantity, pw_month_spread *spread, pw_err *err)
{
  double sum = 0.0, square = 0.0;
  pw_month_spread s = {.worst = 1.0};
  for (size_t i = 0; i < pw_ref_climate_fallback_spread__n; i++) {
    if (strcmp(pw_ref_climate_fallback_spread[i].quantity, quantity) != 0) continue;
    double r = pw_ref_climate_fallback_spread[i].ratio;
    sum += r;
    square += r * r;
    s.stations++;
    if (fabs(r - 1.0) > fabs(s.worst - 1.0)) s.worst = r;
  }
  if (s.stations < 2) return pw_fail(err, PW_E_DATA, NULL, "no rows for '%s'", quantity);
  s.ratio = sum / s.stations;
  s.deviation = sqrt(fmax(square - sum * s.ratio, 0.0) / (s.stations - 1));
  *spread = s;
  return PW_OK;
}

pw_status pw_month_sun_spread(double azimuth_deg, pw_month_spread *spread, pw_err *err)
{
  static const char *const side[8] = {"sun N", "sun NE", "sun E", "sun SE",
                                      "sun S", "sun SW", "sun W", "sun NW"};
  if (!(fabs(azimuth_deg) <= 720.0))
    return pw_fail(err, PW_E_DOMAIN, "azimuth_deg", "azimuth %g, want 0 to 360", azimuth_deg);
  return spread_of(side[((int)lround(azimuth_deg / 45.0) % 8 + 8) % 8], spread, err);
}

pw_status pw_month_degree_spread(int heating, pw_month_spread *spread, pw_err *err)
{
  return spread_of(heating ? "heating degree-hours" : "cooling degree-hours", spread, err);
}

/* Pairs of a station and a package that save less than this say little by a ratio, kWh. */
static const double saved_least = 500.0;

pw_status pw_month_saved_spread(int heating, const char *without, pw_month_spread *spread,
                                pw_err *err)
{
  const char *quantity = heating ? "heating saved" : "cooling saved", *last = "";
  double made = 0.0, file = 0.0, square = 0.0;
  int pairs = 0;
  pw_month_spread s = {.worst = 1.0};
  for (int pass = 0; pass < 2; pass++) /* the ratio of the sums, then what lies about it */
    for (size_t i = 0; i < pw_ref_climate_fallback_spread__n; i++) {
      const pw_ref_climate_fallback_spread_row *r = &pw_ref_climate_fallback_spread[i];
      if (strncmp(r->quantity, quantity, strlen(quantity)) != 0 || r->hourly < saved_least ||
          (without && strcmp(r->station, without) == 0))
        continue;
      if (pass) {
        square += (r->ratio - s.ratio) * (r->ratio - s.ratio);
        if (fabs(r->ratio - 1.0) > fabs(s.worst - 1.0)) s.worst = r->ratio;
        continue;
      }
      made += r->made;
      file += r->hourly;
      s.ratio = made / file;
      pairs++;
      s.stations += strcmp(last, r->station) != 0;
      last = r->station;
    }
  if (s.stations < 2) return pw_fail(err, PW_E_DATA, NULL, "no rows for '%s'", quantity);
  s.deviation = sqrt(square / pairs * s.stations / (s.stations - 1.0));
  *spread = s;
  return PW_OK;
}

/* Year's sun on the eight walls of a station, from its rows. */
typedef struct walls {
  double hourly[8], made[8];
} walls;

/* The walls' part of a mix by compass point. */
static double mix(const double share[8], const double sun[8])
{
  double sum = 0.0;
  for (size_t k = 0; k < 8; k++)
    sum += share[k] * sun[k];
  return sum;
}

pw_status pw_month_walls_spread(const double area[8], pw_month_spread *spread, pw_err *err)
{
  static const double around[8] = {0.25, 0.0, 0.25, 0.0, 0.25, 0.0, 0.25, 0.0};
  double sum = 0.0, square = 0.0;
  pw_month_spread s = {.worst = 1.0};
  walls w = {0};
  size_t k = 0;
  for (size_t i = 0; i < pw_ref_climate_fallback_spread__n; i++) {
    const pw_ref_climate_fallback_spread_row *r = &pw_ref_climate_fallback_spread[i];
    if (strncmp(r->quantity, "sun ", 4) != 0) continue;
    w.hourly[k] = r->hourly; /* eight rows a station, north first, clockwise */
    w.made[k] = r->made;
    if (++k < 8) continue;
    k = 0;
    double hourly = mix(area, w.hourly);
    if (!(hourly > 0.0)) return pw_fail(err, PW_E_DOMAIN, "area", "no area on any wall");
    if (!isfinite(hourly)) return pw_fail(err, PW_E_DOMAIN, "area", "areas beyond all walls");
    double ratio = mix(area, w.made) / hourly * (mix(around, w.hourly) / mix(around, w.made));
    sum += ratio;
    square += ratio * ratio;
    s.stations++;
    if (fabs(ratio - 1.0) > fabs(s.worst - 1.0)) s.worst = ratio;
  }
  if (s.stations < 2) return pw_fail(err, PW_E_DATA, NULL, "no rows of sun");
  s.ratio = sum / s.stations;
  s.deviation = sqrt(fmax(square - sum * s.ratio, 0.0) / (s.stations - 1));
  *spread = s;
  return PW_OK;
}
