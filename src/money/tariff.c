#include "money/tariff.h"

#include <math.h>

#include "panewright/weather.h"

/* The n-th Sunday on or after a day of the year. */
static int sunday(int first_weekday, int day, int n)
{
  int weekday = (first_weekday + day) % 7; /* 0 Monday .. 6 Sunday */
  return day + (6 - weekday) + 7 * (n - 1);
}

/* US daylight saving: from 2:00 standard on the second Sunday of March to 1:00 standard (2:00
 * daylight) on the first Sunday of November. 15 USC 260a as amended in 2005, from memory. */
static int daylight_saving(const pw_tariff *tariff, int hour)
{
  int begin = sunday(tariff->first_weekday, pw_month_start[2], 2) * 24 + 2;
  int end = sunday(tariff->first_weekday, pw_month_start[10], 1) * 24 + 1;
  return hour >= begin && hour < end;
}

static int covers(const pw_period *p, int month, int weekday, int clock_hour)
{
  if (p->months && !(p->months >> month & 1u)) return 0;
  if (p->days == PW_DAYS_WEEKDAY && weekday > 4) return 0;
  if (p->days == PW_DAYS_WEEKEND && weekday <= 4) return 0;
  if (p->from_h == p->to_h) return 1;
  double mid = clock_hour + 0.5;
  if (p->from_h < p->to_h) return mid > p->from_h && mid < p->to_h;
  return mid > p->from_h || mid < p->to_h;
}

double pw_tariff_hour_price(const pw_tariff *tariff, size_t hour)
{
  if (tariff->kind == PW_TARIFF_FLAT) return tariff->flat;
  if (tariff->kind == PW_TARIFF_TIERED) return tariff->tier[0].price;
  int h = (int)(hour % PW_YEAR_HOURS);
  if (tariff->clock && daylight_saving(tariff, h)) h = (h + 1) % PW_YEAR_HOURS;
  int day = h / 24;
  int month = pw_month_of_day(day);
  int weekday = (tariff->first_weekday + day) % 7;
  for (size_t i = tariff->n_period; i-- > 0;)
    if (covers(&tariff->period[i], month, weekday, h % 24)) return tariff->period[i].price;
  return (double)NAN;
}

static pw_status check_price(const char *field, double price, pw_err *err)
{
  if (!(price >= 0.0 && isfinite(price)))
    return pw_fail(err, PW_E_DOMAIN, field, "price %g $/kWh, want 0 or more", price);
  return PW_OK;
}

static pw_status check_tiers(const pw_tariff *tariff, pw_err *err)
{
  if (!(tariff->n_tier >= 1 && tariff->n_tier <= PW_TIERS_MAX))
    return pw_fail(err, PW_E_SHAPE, "tier", "%zu tiers, want 1 to %d", tariff->n_tier,
                   PW_TIERS_MAX);
  double below = 0.0;
  for (size_t i = 0; i < tariff->n_tier; i++) {
    pw_status s = check_price("tier", tariff->tier[i].price, err);
    if (s != PW_OK) return s;
    if (!(tariff->tier[i].upto_kwh > below))
      return pw_fail(err, PW_E_DOMAIN, "tier",
                     "tiers out of order: tier %zu ends at %g kWh, the one before at %g", i + 1,
                     tariff->tier[i].upto_kwh, below);
    below = tariff->tier[i].upto_kwh;
  }
  if (isfinite(below))
    return pw_fail(err, PW_E_DOMAIN, "tier", "the last tier ends at %g kWh, want no end",
                   below);
  for (int m = 0; m < 12; m++)
    if (!(tariff->base_kwh[m] >= 0.0 && isfinite(tariff->base_kwh[m])))
      return pw_fail(err, PW_E_DOMAIN, "base_kwh", "%g kWh in month %d, want 0 or more",
                     tariff->base_kwh[m], m + 1);
  return PW_OK;
}

static pw_status check_periods(const pw_tariff *tariff, pw_err *err)
{
  if (!(tariff->n_period >= 1 && tariff->n_period <= PW_PERIODS_MAX))
    return pw_fail(err, PW_E_SHAPE, "period", "%zu periods, want 1 to %d", tariff->n_period,
                   PW_PERIODS_MAX);
  for (size_t i = 0; i < tariff->n_period; i++) {
    const pw_period *p = &tariff->period[i];
    pw_status s = check_price("period", p->price, err);
    if (s != PW_OK) return s;
    if (!(p->from_h >= 0.0 && p->from_h <= 24.0 && p->to_h >= 0.0 && p->to_h <= 24.0))
      return pw_fail(err, PW_E_DOMAIN, "period", "hours %g to %g, want 0 to 24", p->from_h,
                     p->to_h);
  }
  for (size_t h = 0; h < PW_YEAR_HOURS; h++)
    if (isnan(pw_tariff_hour_price(tariff, h)))
      return pw_fail(err, PW_E_DOMAIN, "period",
                     "no price for month %d, hour %zu of the day; want every hour covered",
                     pw_month_of_day((int)(h / 24)) + 1, h % 24);
  return PW_OK;
}

pw_status pw_tariff_check(const pw_tariff *tariff, pw_err *err)
{
  if (!(tariff->first_weekday >= 0 && tariff->first_weekday <= 6))
    return pw_fail(err, PW_E_DOMAIN, "first_weekday", "%d, want 0 (Monday) to 6 (Sunday)",
                   tariff->first_weekday);
  switch (tariff->kind) {
  case PW_TARIFF_FLAT:
    return check_price("flat", tariff->flat, err);
  case PW_TARIFF_TIERED:
    return check_tiers(tariff, err);
  case PW_TARIFF_TIME:
    return check_periods(tariff, err);
  }
  return pw_fail(err, PW_E_DOMAIN, "kind", "kind %d is not a tariff", (int)tariff->kind);
}

static double charge(const pw_tariff *tariff, double kwh)
{
  double cost = 0.0, below = 0.0;
  for (size_t i = 0; i < tariff->n_tier && kwh > below; i++) {
    double upto = fmin(kwh, tariff->tier[i].upto_kwh);
    cost += (upto - below) * tariff->tier[i].price;
    below = tariff->tier[i].upto_kwh;
  }
  return cost;
}

double pw_tariff_tier_cost(const pw_tariff *tariff, int month, double kwh)
{
  double base = tariff->base_kwh[month];
  return charge(tariff, base + kwh) - charge(tariff, base);
}

void pw_tariff_month_mean(const pw_tariff *tariff, double price[12])
{
  for (int m = 0; m < 12; m++) {
    double sum = 0.0;
    size_t begin = (size_t)pw_month_start[m] * 24, end = begin + (size_t)pw_month_days[m] * 24;
    for (size_t h = begin; h < end; h++)
      sum += pw_tariff_hour_price(tariff, h);
    price[m] = sum / (double)(end - begin);
  }
}

int pw_year_month(size_t hour) { return pw_month_of_day((int)(hour / 24)); }
