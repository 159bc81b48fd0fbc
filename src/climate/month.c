/* A year of hours from monthly means. */
#include "climate/month.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/own_math.h"
#include "climate/month_impl.h"
#include "panewright/units.h"

/* Cloud of a day by what the Haurwitz clear sky would have brought against what came. */
static void cloud_of_day(const pw_site *site, const month_day *day, pw_hour hour[24])
{
  double clear = 0.0;
  for (int h = 0; h < 24; h++) {
    double up = month_sun_up(site, day, h + 0.5);
    clear += pw_sky_clear_global(pw_acos(fmin(fmax(up, -1.0), 1.0)) * (180.0 / PW_PI));
  }
  double opaque, total;
  pw_month_cloud(day->ghi, clear, &opaque, &total);
  for (int h = 0; h < 24; h++) {
    hour[h].cloud = (float)opaque;
    hour[h].cloud_total = (float)total;
  }
}

static pw_status in_range(const pw_place *p, pw_err *err)
{
  if (!(fabs(p->site.latitude_deg) <= 90.0 && fabs(p->site.longitude_deg) <= 180.0))
    return pw_fail(err, PW_E_DOMAIN, "latitude_deg", "latitude %g, longitude %g",
                   p->site.latitude_deg, p->site.longitude_deg);
  for (int m = 0; m < 12; m++) {
    const pw_month_normal *n = &p->month[m];
    if (!(n->ghi >= 0.0 && n->ghi <= 15.0 && n->dhi >= 0.0 && n->dhi <= n->ghi))
      return pw_fail(
          err, PW_E_DOMAIN, "ghi",
          "month %d: global %g, diffuse %g kWh/m2 a day, want 0 to 15, diffuse not above",
          m + 1, n->ghi, n->dhi);
    if (!(n->dni >= 0.0 && n->dni <= 20.0))
      return pw_fail(err, PW_E_DOMAIN, "dni", "month %d: beam %g kWh/m2 a day, want 0 to 20",
                     m + 1, n->dni);
    if (!(fabs(n->t_mean) <= 60.0 && n->t_day_max >= n->t_day_min && n->t_dew >= -90.0 &&
          n->t_dew <= 45.0 && n->wind >= 0.0 && n->wind <= 60.0))
      return pw_fail(err, PW_E_DOMAIN, "t_mean", "month %d: %g C, dew point %g C, wind %g m/s",
                     m + 1, n->t_mean, n->t_dew, n->wind);
  }
  return PW_OK;
}

void pw_month_cloud(double ghi, double ghi_clear, double *opaque, double *total)
{
  double lost = ghi_clear > 0.0 ? 1.0 - ghi / ghi_clear : 0.35; /* no sun: half covered */
  double o = MADE(cloud) + lost * (MADE(cloud_lost) + lost * MADE(cloud_lost_square));
  *opaque = fmin(fmax(o, 0.0), 1.0);
  *total = *opaque + MADE(cloud_thin) * *opaque * (1.0 - *opaque);
}

pw_status pw_month_year(const pw_place *p, pw_month_method method, pw_weather *w, pw_err *err)
{
  month_day day[MONTH_YEAR_DAYS];
  month_draws all = {0}, *draws = method == PW_MONTH_VARIED_DAYS ? &all : NULL;
  pw_status status = in_range(p, err);
  if (status != PW_OK) return status;
  memset(w, 0, sizeof *w);
  w->site = p->site;
  w->synthetic = 1;
  snprintf(w->source, sizeof w->source, "made from monthly means of %.90s", p->source);
  double pressure = pw_standard_pressure(p->site.elevation);
  if (draws) month_draw(draws);
  month_sun_path(&p->site, day);
  for (int m = 0; m < 12; m++)
    month_plan(p, m, draws, day);
  for (int m = 0; m < 12; m++) {
    w->year[m] = 2001;
    month_sun_hours(p, m, day, w->hour);
    month_air_hours(p, m, day, draws, w->hour);
  }
  for (int i = 0; i < PW_HOURS; i++) {
    pw_hour *h = &w->hour[i];
    if (i % 24 == 0) cloud_of_day(&p->site, &day[i / 24], h);
    h->pressure = (float)pressure;
    h->ceiling = h->albedo = h->ir_down = -1.0f;
  }
  return PW_OK;
}

pw_status pw_place_year(size_t index, pw_weather *weather, pw_err *err)
{
  pw_place place;
  pw_status status = pw_place_get(index, &place, err);
  return status == PW_OK ? pw_month_year(&place, PW_MONTH_VARIED_DAYS, weather, err) : status;
}
