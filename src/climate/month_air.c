/* The air of a made year by the hour: temperature, dew point, wind. */
#include <gsl/gsl_cdf.h>
#include <math.h>

#include "base/own_math.h"
#include "climate/month_impl.h"
#include "panewright/units.h"

/* The day's curve of temperature, top less bottom nearly 1, mean 0, solar time. Its paper counts
 * hours from 1 for the first: hence the half hour. Erbs, Klein & Beckman 1983, ASHRAE Journal 25(6);
 * memory, held against the hourly files (within 0.05 of their mean curve). */
static double day_curve(double solar_h)
{
  double t = 2.0 * PW_PI * (solar_h - 0.5) / 24.0;
  return 0.4632 * pw_cos(t - 3.805) + 0.0984 * pw_cos(2.0 * t - 0.360) +
         0.0168 * pw_cos(3.0 * t - 0.822) + 0.0138 * pw_cos(4.0 * t - 3.513);
}

/* The wind of a month: its daily curve, half an hour behind the temperature's, and the shape of the
 * Weibull spread that is left about it. */
typedef struct windy {
  double curve[24];
  double shape;
} windy;

static windy wind_of(const pw_month_normal *normal, double noon_h)
{
  windy w;
  double speed = fmax(normal->wind, 0.5), curved = 0.0;
  double pull = fmin(MADE(wind_pull) + MADE(wind_pull_sun) * normal->ghi / speed, 1.3);
  for (int k = 0; k < 24; k++) {
    double c = pull * day_curve(k + 12.0 - noon_h);
    w.curve[k] = 1.0 + c;
    curved += c * c / 24.0;
  }
  /* Justus et al. 1978: deviation over mean = shape^(-1/1.086) */
  double deviation = pw_power(MADE(wind_shape) * sqrt(speed), -1.0 / 1.086);
  w.shape = pw_power(sqrt(fmax(deviation * deviation - curved, 0.04)), -1.086);
  return w;
}

/* Speed over its mean, but for a factor, at a normal score. */
static double gust(const windy *w, double score)
{
  double q = fmin(fmax(gsl_cdf_ugaussian_Q(score), 1e-3), 0.999);
  return pw_power(-pw_log(q), 1.0 / w->shape);
}

/* What stands at noon of a day so that straight lines from noon to noon keep the day's mean. */
static double at_noon(const month_day day[MONTH_YEAR_DAYS], int i)
{
  int before = (i + MONTH_YEAR_DAYS - 1) % MONTH_YEAR_DAYS, after = (i + 1) % MONTH_YEAR_DAYS;
  return day[i].t_mean + (2.0 * day[i].t_mean - day[before].t_mean - day[after].t_mean) / 8.0;
}

/* Adds up what a month's hours miss of its means and mends it; the dew point moves with the day's air
 * and stays below it. */
static void keep_means(const pw_month_normal *normal, int first, int n,
                       const month_day day[MONTH_YEAR_DAYS], pw_hour hour[PW_HOURS])
{
  double t = 0.0, wind = 0.0;
  for (int i = 24 * first; i < 24 * (first + n); i++) {
    t += (double)hour[i].t_air / (24.0 * n);
    wind += (double)hour[i].wind / (24.0 * n);
  }
  for (int i = 24 * first; i < 24 * (first + n); i++) {
    pw_hour *h = &hour[i];
    h->t_air += (float)(normal->t_mean - t);
    double dew = normal->t_dew + day[i / 24].t_mean - normal->t_mean;
    h->t_dew = (float)fmin(dew, (double)h->t_air);
    h->wind *= (float)(normal->wind / wind);
  }
}

void month_air_hours(const pw_place *p, int month, const month_day day[MONTH_YEAR_DAYS],
                     const month_draws *draws, pw_hour hour[PW_HOURS])
{
  const pw_month_normal *normal = &p->month[month];
  int first = pw_month_start[month], n = pw_month_days[month];
  double noon_h = day[first + n / 2].noon_h, curve[24];
  const windy wind = wind_of(normal, noon_h);
  for (int k = 0; k < 24; k++)
    curve[k] = day_curve(k + 0.5 + 12.0 - noon_h);
  for (int i = first; i < first + n; i++) {
    double now = day[i].t_mean, before = now, after = now;
    if (draws) {
      now = at_noon(day, i);
      before = at_noon(day, (i + MONTH_YEAR_DAYS - 1) % MONTH_YEAR_DAYS);
      after = at_noon(day, (i + 1) % MONTH_YEAR_DAYS);
    }
    for (int k = 0; k < 24; k++) {
      pw_hour *h = &hour[24 * i + k];
      double past = (k + 0.5 - 12.0) / 24.0; /* days since noon */
      double base = past < 0.0 ? now + past * (now - before) : now + past * (after - now);
      h->t_air = (float)(base + day[i].t_swing * curve[k]);
      h->wind = draws ? (float)(wind.curve[k] * gust(&wind, draws->wind[24 * i + k])) : 1.0f;
    }
  }
  keep_means(normal, first, n, day, hour);
}
