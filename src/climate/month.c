/* A year of hours from monthly means. */
#include "panewright/month.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "panewright/units.h"

enum { DAYS_MAX = 31 };

/* What the days of one month are given. */
typedef struct day_plan {
  double ghi[DAYS_MAX], dhi[DAYS_MAX]; /* Wh/m2 */
  double t[DAYS_MAX];                  /* C, mean */
} day_plan;

/* The sun of one day at the place. */
typedef struct day_sun {
  double declination, sunset; /* rad; sunset hour angle */
  double noon_h;              /* local standard time of solar noon */
  double extraterrestrial;    /* Wh/m2 of the day on the horizontal */
} day_sun;

static day_sun sun_of_day(const pw_site *site, int month, int day)
{
  pw_sun sun = {0};
  pw_sun_at(pw_julian_day(2001, month + 1, day + 1, 12.0 - site->tz_h), 0.0, 0.0, 0.0, 0.0,
            &sun, NULL);
  double d = pw_rad(sun.declination_deg), lat = pw_rad(site->latitude_deg);
  double c = -tan(lat) * tan(d);
  day_sun s = {.declination = d,
               .sunset = c <= -1.0  ? PW_PI
                         : c >= 1.0 ? 0.0
                                    : acos(c),
               .noon_h = 12.0 - sun.equation_of_time_min / 60.0 + site->tz_h -
                         site->longitude_deg / 15.0};
  double normal = pw_sun_extraterrestrial(pw_month_start[month] + day + 1);
  s.extraterrestrial = 24.0 / PW_PI * normal *
                       (cos(lat) * cos(d) * sin(s.sunset) + s.sunset * sin(lat) * sin(d));
  return s;
}

/* Order in which a month's days take the quantiles of temperature: spells of about a week, warm
 * and cold by turns (assumed; a real month has no fixed order). A permutation of 0..n-1. */
static void spell_order(int n, int order[DAYS_MAX])
{
  /* ranks 0, 4, 8 .. going up, then those between going down: neighbours stay close in rank */
  int k = 0;
  static const int lane[4] = {0, 2, 1, 3};
  for (int l = 0; l < 4; l++) {
    int count = (n - lane[l] + 3) / 4;
    for (int i = 0; i < count; i++) {
      int rank = lane[l] + 4 * (l % 2 == 0 ? i : count - 1 - i);
      order[k++] = rank;
    }
  }
}

/* Order of the clearness quantiles: steps of the golden section, so that it has no bond with the
 * temperature and bright and dull days mix. A permutation of 0..n-1. */
static void mixed_order(int n, int order[DAYS_MAX])
{
  double key[DAYS_MAX];
  for (int i = 0; i < n; i++)
    key[i] = fmod(0.5 + i * 0.6180339887498949, 1.0);
  for (int i = 0; i < n; i++) {
    order[i] = 0;
    for (int j = 0; j < n; j++)
      order[i] += key[j] < key[i];
  }
}

/* Daily clearness at the share q of days, for a monthly mean k; Bendt, Collares-Pereira & Rabl 1981
 * with the fit of its parameter by Herzog 1985 (Duffie & Beckman, Solar Engineering, 2.9; memory). */
static double clearness_quantile(double k, double q)
{
  const double low = 0.05;
  double high = 0.6313 + 0.267 * k - 11.9 * pow(k - 0.75, 8.0);
  if (!(k > low + 0.02) || !(high - k > 0.02)) return k;
  double xi = (high - low) / (high - k);
  double g = -1.498 + (1.184 * xi - 27.182 * exp(-1.5 * xi)) / (high - low);
  if (fabs(g) < 1e-3) return low + q * (high - low);
  return log((1.0 - q) * exp(g * low) + q * exp(g * high)) / g;
}

/* Diffuse share of a day's sun; Erbs, Klein & Duffie 1982, daily form (Duffie & Beckman 2.11;
 * memory). Sunset hour angle in rad. */
static double daily_diffuse(double k, double sunset)
{
  if (sunset < pw_rad(81.4))
    return k < 0.715 ? 1.0 + k * (-0.2727 + k * (2.4495 + k * (-11.9514 + k * 9.3879))) : 0.143;
  return k < 0.722 ? 1.0 + k * (0.2832 + k * (-2.5557 + k * 0.8448)) : 0.175;
}

/* Scales v[n] so that its mean is the given one. */
static void keep_mean(double v[], int n, double mean)
{
  double sum = 0.0;
  for (int i = 0; i < n; i++)
    sum += v[i];
  if (!(sum > 0.0)) return;
  for (int i = 0; i < n; i++)
    v[i] *= mean * n / sum;
}

/* Standard width of the daily means of a month: sigma_m sqrt(N) of Erbs, Klein & Beckman 1983,
 * ASHRAE Journal, from the month's mean and the spread of the twelve (C); memory. Their daily
 * distribution is logistic in it: Q = 1 / (1 + exp(-3.396 h)). */
static double temperature_width(const pw_place *p, int month)
{
  double mean = 0.0, square = 0.0;
  for (int m = 0; m < 12; m++)
    mean += p->month[m].t_mean / 12.0;
  for (int m = 0; m < 12; m++)
    square += (p->month[m].t_mean - mean) * (p->month[m].t_mean - mean) / 11.0;
  double sigma = 1.45 - 0.0290 * p->month[month].t_mean + 0.0664 * sqrt(square);
  return fmax(sigma, 0.0) * sqrt(pw_month_days[month]);
}

/* The tails of the logistic spread run past what the place has seen: daily means are held so that
 * the hours stay within the month's own extremes, the month's mean kept. */
static void keep_within(const pw_month_normal *normal, double t[], int n)
{
  double swing = (normal->t_day_max - normal->t_day_min) / 2.0;
  double low = normal->t_lowest + swing, high = normal->t_highest - swing;
  if (!(low < normal->t_mean && normal->t_mean < high)) return;
  for (int round = 0; round < 20; round++) {
    double off = 0.0;
    for (int i = 0; i < n; i++) {
      t[i] = fmin(fmax(t[i], low), high);
      off += (t[i] - normal->t_mean) / n;
    }
    for (int i = 0; i < n; i++)
      t[i] -= off;
    if (fabs(off) < 1e-6) return;
  }
}

static void plan_days(const pw_place *p, int month, pw_month_method method,
                      const day_sun sun[DAYS_MAX], day_plan *plan)
{
  int n = pw_month_days[month], warm[DAYS_MAX] = {0}, bright[DAYS_MAX] = {0};
  const pw_month_normal *normal = &p->month[month];
  double outside = 0.0;
  for (int i = 0; i < n; i++)
    outside += sun[i].extraterrestrial / n;
  double k = outside > 0.0 ? normal->ghi * 1000.0 / outside : 0.0;
  double width = temperature_width(p, month), offset = 0.0;
  spell_order(n, warm);
  mixed_order(n, bright);
  for (int i = 0; i < n; i++) {
    double kd = k;
    plan->t[i] = normal->t_mean;
    if (method == PW_MONTH_VARIED_DAYS) {
      double q = (warm[i] + 0.5) / n;
      plan->t[i] += width / 3.396 * log(q / (1.0 - q));
      kd = clearness_quantile(k, (bright[i] + 0.5) / n);
    }
    offset += (plan->t[i] - normal->t_mean) / n;
    plan->ghi[i] = kd * sun[i].extraterrestrial;
    plan->dhi[i] = plan->ghi[i] *
                   (method == PW_MONTH_VARIED_DAYS ? daily_diffuse(kd, sun[i].sunset) : 1.0);
  }
  for (int i = 0; i < n; i++)
    plan->t[i] -= offset;
  keep_within(normal, plan->t, n);
  keep_mean(plan->ghi, n, normal->ghi * 1000.0);
  keep_mean(plan->dhi, n, normal->dhi * 1000.0);
  for (int i = 0; i < n; i++)
    plan->dhi[i] = fmin(plan->dhi[i], plan->ghi[i]);
}

/* Shares of a day's global and diffuse in the hour [from, from + 1] (local standard time): the day's
 * curves integrated over the sunlit part. METHODS.md section 4: Liu & Jordan 1960; Collares-Pereira
 * & Rabl 1979. */
static void hour_shares(const day_sun *s, double from, double *global, double *diffuse)
{
  double ws = s->sunset;
  double w0 = fmax((from - s->noon_h) * (PW_PI / 12.0), -ws);
  double w1 = fmin((from + 1.0 - s->noon_h) * (PW_PI / 12.0), ws);
  *global = *diffuse = 0.0;
  if (!(w1 > w0)) return;
  double a = 0.409 + 0.5016 * sin(ws - PW_PI / 3.0),
         b = 0.6609 - 0.4767 * sin(ws - PW_PI / 3.0);
  static const double at[3] = {0.0, 0.5, 1.0}, weight[3] = {1.0 / 6.0, 4.0 / 6.0, 1.0 / 6.0};
  for (int i = 0; i < 3; i++) {
    double w = w0 + at[i] * (w1 - w0);
    double rd = (cos(w) - cos(ws)) * weight[i] * (w1 - w0); /* normalised by the caller */
    *diffuse += rd;
    *global += rd * (a + b * cos(w));
  }
}

/* Sun of the hours of one day; beam only where the mid-hour sun stands 2 degrees up, else it would
 * be divided by nearly nothing: it counts as diffuse then. */
static void fill_sun(const pw_site *site, const day_sun *s, double ghi, double dhi,
                     pw_hour hour[24])
{
  double g[24], d[24], g_sum = 0.0, d_sum = 0.0, lat = pw_rad(site->latitude_deg);
  for (int h = 0; h < 24; h++) {
    hour_shares(s, h, &g[h], &d[h]);
    g_sum += g[h];
    d_sum += d[h];
  }
  for (int h = 0; h < 24; h++) {
    double global = g_sum > 0.0 ? ghi * g[h] / g_sum : 0.0;
    double diffuse = d_sum > 0.0 ? fmin(dhi * d[h] / d_sum, global) : 0.0;
    double w = (h + 0.5 - s->noon_h) * (PW_PI / 12.0);
    double up = sin(lat) * sin(s->declination) + cos(lat) * cos(s->declination) * cos(w);
    double beam = up > 0.0349 ? (global - diffuse) / up : 0.0;
    if (!(beam > 0.0)) {
      beam = 0.0;
      diffuse = global;
    }
    hour[h].ghi = (float)global;
    hour[h].dhi = (float)diffuse;
    hour[h].dni = (float)fmin(beam, 1100.0);
  }
}

/* Share of the cloud seen by the sun that is opaque to long-wave: mean over nine hourly files
 * (opaque cloud of the file over cloud by this way; stations 0.60 to 0.90). */
static const double opaque_share = 0.785;

/* Cloud of the day: what the Haurwitz clear sky would have brought, against what came. */
static double cloud_of_day(const pw_site *site, const day_sun *s, double ghi)
{
  double clear = 0.0, lat = pw_rad(site->latitude_deg);
  for (int h = 0; h < 48; h++) {
    double w = (h / 2.0 + 0.25 - s->noon_h) * (PW_PI / 12.0);
    double up = sin(lat) * sin(s->declination) + cos(lat) * cos(s->declination) * cos(w);
    clear += 0.5 * pw_sky_clear_global(acos(fmin(fmax(up, -1.0), 1.0)) * (180.0 / PW_PI));
  }
  return clear > 0.0 ? pw_sky_cloud(ghi, clear) : 0.5;
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
    if (!(fabs(n->t_mean) <= 60.0 && n->t_day_max >= n->t_day_min && n->t_dew >= -90.0 &&
          n->t_dew <= 45.0 && n->wind >= 0.0 && n->wind <= 60.0))
      return pw_fail(err, PW_E_DOMAIN, "t_mean", "month %d: %g C, dew point %g C, wind %g m/s",
                     m + 1, n->t_mean, n->t_dew, n->wind);
  }
  return PW_OK;
}

pw_status pw_month_year(const pw_place *p, pw_month_method method, pw_weather *w, pw_err *err)
{
  pw_status status = in_range(p, err);
  if (status != PW_OK) return status;
  memset(w, 0, sizeof *w);
  w->site = p->site;
  w->synthetic = 1;
  snprintf(w->source, sizeof w->source, "made from monthly means of %.90s", p->source);
  double pressure = pw_standard_pressure(p->site.elevation);
  for (int m = 0; m < 12; m++) {
    const pw_month_normal *normal = &p->month[m];
    day_sun sun[DAYS_MAX] = {0};
    day_plan plan = {0};
    w->year[m] = 2001;
    for (int i = 0; i < pw_month_days[m]; i++)
      sun[i] = sun_of_day(&p->site, m, i);
    plan_days(p, m, method, sun, &plan);
    double swing = (normal->t_day_max - normal->t_day_min) / 2.0;
    for (int i = 0; i < pw_month_days[m]; i++) {
      pw_hour *hour = &w->hour[(pw_month_start[m] + i) * 24];
      fill_sun(&p->site, &sun[i], plan.ghi[i], plan.dhi[i], hour);
      float cloud = (float)cloud_of_day(&p->site, &sun[i], plan.ghi[i]);
      for (int h = 0; h < 24; h++) {
        /* METHODS.md section 4; the hour's mean stands at its middle */
        double t = plan.t[i] + swing * cos(2.0 * PW_PI * (h + 0.5 - 15.0) / 24.0);
        double dew =
            normal->t_dew + (plan.t[i] - normal->t_mean); /* moves with the day's air */
        hour[h].t_air = (float)t;
        hour[h].t_dew = (float)fmin(dew, t);
        hour[h].wind = (float)normal->wind;
        hour[h].pressure = (float)pressure;
        hour[h].cloud = (float)opaque_share * cloud;
        hour[h].cloud_total = cloud;
        hour[h].ceiling = hour[h].albedo = hour[h].ir_down = -1.0f;
      }
    }
  }
  return PW_OK;
}
