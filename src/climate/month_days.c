/* The days of a made year: how bright, how warm, how far the temperature swings. */
#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdint.h>

#include "base/own_math.h"
#include "base/random.h"
#include "climate/month_impl.h"
#include "panewright/units.h"

/* Of the seeds 1 to 10 the one whose wind, clearness and warmth have least to do with each other within
 * a month and keep their memory best; no year's result was looked at. */
enum { SEED = 2 };

/* Uniform with mean 0 and variance 1. */
static double draw(uint64_t *state)
{
  return (pw_random_share(state) - 0.5) * 3.4641016151377544;
}

static void remember(double memory, uint64_t *state, size_t n, double score[])
{
  double x = draw(state), fresh = sqrt(1.0 - memory * memory);
  for (size_t i = 0; i < n; i++) {
    x = memory * x + fresh * draw(state);
    score[i] = x;
  }
}

void month_draw(month_draws *d)
{
  uint64_t state = SEED;
  remember(MADE(clear_memory), &state, MONTH_YEAR_DAYS, d->clear);
  remember(MADE(warm_memory), &state, MONTH_YEAR_DAYS, d->warm);
  remember(MADE(wind_memory), &state, PW_HOURS, d->wind);
}

/* The normal scores z[n], from low to high, in the order of score[n]. */
static void in_order_of(const double score[], int n, const double z[], double out[])
{
  for (int i = 0; i < n; i++) {
    int rank = 0;
    for (int j = 0; j < n; j++)
      rank += score[j] < score[i] || (j < i && score[j] == score[i]);
    out[i] = z[rank];
  }
}

/* score[n] brought to mean 0 and variance 1. */
static void standardise(double score[], int n)
{
  double mean = 0.0, square = 0.0;
  for (int i = 0; i < n; i++)
    mean += score[i] / n;
  for (int i = 0; i < n; i++) {
    score[i] -= mean;
    square += score[i] * score[i] / n;
  }
  for (int i = 0; i < n && square > 0.0; i++)
    score[i] /= sqrt(square);
}

/* fresh[n] less what it shares with with[n], and as much of with as correlates by that much. */
static void correlate(double fresh[], const double with[], int n, double by)
{
  double z[MONTH_DAYS_MAX], shared = 0.0;
  for (int i = 0; i < n; i++)
    z[i] = with[i];
  standardise(z, n);
  standardise(fresh, n);
  for (int i = 0; i < n; i++)
    shared += fresh[i] * z[i] / n;
  for (int i = 0; i < n; i++)
    fresh[i] -= shared * z[i];
  standardise(fresh, n);
  for (int i = 0; i < n; i++)
    fresh[i] = by * z[i] + sqrt(1.0 - by * by) * fresh[i];
}

/* ---------------------------------------------------------------- sun */

/* Daily clearness at the share q of days, for a monthly mean k; Bendt, Collares-Pereira & Rabl 1981
 * with the fit of its parameter by Herzog 1985 (Duffie & Beckman, Solar Engineering, 2.9; memory). */
static double clearness_quantile(double k, double q)
{
  const double low = 0.05;
  double off = (k - 0.75) * (k - 0.75), off4 = off * off;
  double high = 0.6313 + 0.267 * k - 11.9 * off4 * off4;
  if (!(k > low + 0.02) || !(high - k > 0.02)) return k;
  double xi = (high - low) / (high - k);
  double g = -1.498 + (1.184 * xi - 27.182 * pw_exp(-1.5 * xi)) / (high - low);
  if (fabs(g) < 1e-3) return low + q * (high - low);
  return pw_log((1.0 - q) * pw_exp(g * low) + q * pw_exp(g * high)) / g;
}

/* Diffuse share of a day's sun; Erbs, Klein & Duffie 1982, daily form (Duffie & Beckman 2.11;
 * memory). Sunset hour angle in rad. */
static double daily_diffuse(double k, double sunset)
{
  if (sunset < pw_rad(81.4))
    return k < 0.715 ? 1.0 + k * (-0.2727 + k * (2.4495 + k * (-11.9514 + k * 9.3879))) : 0.143;
  return k < 0.722 ? 1.0 + k * (0.2832 + k * (-2.5557 + k * 0.8448)) : 0.175;
}

/* clear: normal scores of the days, NULL: all alike. */
static void plan_sun(const pw_month_normal *normal, int n, double k, const double clear[],
                     month_day day[])
{
  double ghi = 0.0, dhi = 0.0;
  for (int i = 0; i < n; i++) {
    double kd = clear ? clearness_quantile(k, gsl_cdf_ugaussian_P(clear[i])) : k;
    day[i].ghi = kd * day[i].outside;
    day[i].dhi = day[i].ghi * (clear ? daily_diffuse(kd, day[i].sunset) : 1.0);
    ghi += day[i].ghi;
    dhi += day[i].dhi;
  }
  double to_ghi = ghi > 0.0 ? normal->ghi * 1000.0 * n / ghi : 0.0;
  double to_dhi = dhi > 0.0 ? normal->dhi * 1000.0 * n / dhi : 0.0;
  for (int i = 0; i < n; i++) {
    day[i].ghi *= to_ghi;
    day[i].dhi = fmin(day[i].dhi * to_dhi, day[i].ghi);
  }
}

/* ---------------------------------------------------------------- temperature */

/* The spread of a month's daily means. */
typedef struct spread {
  double deviation, skew;
} spread;

/* Cornish & Fisher 1938, to the skewness. */
static double from_mean(const spread *s, double z)
{
  return s->deviation * (z + s->skew / 6.0 * (z * z - 1.0));
}

/* The deviation at which the month's heating and cooling degree-days, counted from the daily extremes,
 * are met together; within a factor 2 of the one given. */
static double deviation_by_degree_days(const pw_month_normal *normal, const double z[], int n,
                                       spread s)
{
  double base = 18.333 - 0.5 * (normal->t_day_max + normal->t_day_min);
  double low = 0.5 * s.deviation, high = 2.0 * s.deviation;
  for (int round = 0; round < 15; round++) {
    double away = 0.0;
    s.deviation = 0.5 * (low + high);
    for (int i = 0; i < n; i++)
      away += 1.8 * fabs(base - from_mean(&s, z[i]));
    if (away < normal->hdd65 + normal->cdd65)
      low = s.deviation;
    else
      high = s.deviation;
  }
  return s.deviation;
}

/* From how far the month's extremes run past its mean daily ones; where both kinds of degree-days are
 * there (10 F days or more), these tell more. */
static spread spread_of(const pw_month_normal *normal, const double z[], int n)
{
  double up = fmax(normal->t_highest - normal->t_day_max, 0.0);
  double down = fmax(normal->t_day_min - normal->t_lowest, 0.0), reach = 0.5 * (up + down);
  spread s = {MADE(spread_reach) * reach, 0.0};
  if (!(reach > 0.0)) return s;
  s.skew = fmin(fmax(MADE(skew) + MADE(skew_reach) * (up - down) / reach, -0.8), 0.8);
  if (fmin(normal->hdd65, normal->cdd65) >= 10.0)
    s.deviation = deviation_by_degree_days(normal, z, n, s);
  return s;
}

/* Top less bottom of the month's mean daily curve over its mean daily range. */
static double swing_share(const pw_month_normal *normal, double k)
{
  double range = normal->t_day_max - normal->t_day_min;
  double reach =
      0.5 * (normal->t_highest - normal->t_day_max + normal->t_day_min - normal->t_lowest);
  double share = MADE(swing) + MADE(swing_clearness) * k +
                 MADE(swing_reach) * (range > 0.5 ? fmax(reach, 0.0) / range : 0.0);
  return fmin(fmax(share, 0.3), 1.0);
}

/* The tails of the spread must not run past what the place has seen: daily means are held so that the
 * hours stay within the month's own extremes, the month's mean kept. */
static void keep_within(const pw_month_normal *normal, int n, month_day day[])
{
  for (int round = 0; round < 20; round++) {
    double off = 0.0;
    for (int i = 0; i < n; i++) {
      double half = day[i].t_swing / 2.0;
      double low = fmin(normal->t_lowest + half, normal->t_mean);
      double high = fmax(normal->t_highest - half, normal->t_mean);
      day[i].t_mean = fmin(fmax(day[i].t_mean, low), high);
      off += (day[i].t_mean - normal->t_mean) / n;
    }
    for (int i = 0; i < n; i++)
      day[i].t_mean -= off;
    if (fabs(off) < 1e-6) return;
  }
}

/* Means by the scores of warm, swings by the day's clearness. */
static void plan_air(const pw_month_normal *normal, int n, double k, const double z[],
                     const double warm[], month_day day[])
{
  const spread s = spread_of(normal, z, n);
  double swing[MONTH_DAYS_MAX], swing_mean = 0.0, off = 0.0;
  for (int i = 0; i < n; i++) {
    double clear = k > 0.0 && day[i].outside > 0.0 ? day[i].ghi / day[i].outside / k : 1.0;
    swing[i] = fmax(1.0 + MADE(swing_day) * (clear - 1.0), 0.2);
    swing_mean += swing[i] / n;
    day[i].t_mean = normal->t_mean + from_mean(&s, warm[i]);
    off += (day[i].t_mean - normal->t_mean) / n;
  }
  double range = swing_share(normal, k) * (normal->t_day_max - normal->t_day_min);
  for (int i = 0; i < n; i++) {
    day[i].t_mean -= off;
    day[i].t_swing = range * swing[i] / swing_mean;
  }
  keep_within(normal, n, day);
}

void month_plan(const pw_place *p, int month, const month_draws *draws,
                month_day year[MONTH_YEAR_DAYS])
{
  int n = pw_month_days[month], first = pw_month_start[month];
  const pw_month_normal *normal = &p->month[month];
  month_day *day = &year[first];
  double outside = 0.0; /* kWh/m2 a day */
  for (int i = 0; i < n; i++)
    outside += day[i].outside / (1000.0 * n);
  double k = outside > 0.0 ? normal->ghi / outside : 0.0;
  if (!draws) {
    plan_sun(normal, n, k, NULL, day);
    for (int i = 0; i < n; i++) {
      day[i].t_mean = normal->t_mean;
      day[i].t_swing = normal->t_day_max - normal->t_day_min;
    }
    return;
  }
  double z[MONTH_DAYS_MAX] = {0}, clear[MONTH_DAYS_MAX], warm[MONTH_DAYS_MAX],
         score[MONTH_DAYS_MAX];
  for (int i = 0; i < n; i++) {
    z[i] = gsl_cdf_ugaussian_Pinv((i + 0.5) / n);
    score[i] = draws->warm[first + i];
  }
  in_order_of(&draws->clear[first], n, z, clear);
  double with = MADE(warm_clear) + MADE(warm_clear_sun) * outside;
  correlate(score, clear, n, fmin(fmax(with, -0.8), 0.8));
  in_order_of(score, n, z, warm);
  plan_sun(normal, n, k, clear, day);
  plan_air(normal, n, k, z, warm, day);
}
