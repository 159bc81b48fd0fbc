/* What a draw predicts for bills under the weather of their own days.
 *
 * A draw is known by its needs of twelve months in the comparison's weather. Their answer to temperature is a
 * slope and a balance point, fitted to the months' own degree days; what a month needs beyond them (sun, gains,
 * ground) stays with the month:
 *
 *   need of bill i a day = b H_i(t) + sum over months of share_im (y_m - b d_m H_m(t)) / d_m, at least 0
 *
 * So under the comparison's own weather the months come back as they are, whatever the fit. What this misses is
 * seen on the house as it stands, lived hour by hour in the weather of the bills' days (hours of the
 * comparison's days, moved to the daily means; their sun and wind: METHODS section 7), and is added to every draw
 * in proportion to its need. Held against the hourly year of other windows in tests/test_range_bills.c. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "meter/limits.h"
#include "study/compare_year.h"
#include "study/range_bills_impl.h"

enum { MONTHS = 12, BALANCES = 41 };
/* Balance points looked at, C: heating from the first, cooling from the second. */
static const double FIRST[2] = {4.0, 8.0}, STEP = 0.5;

struct range_response {
  size_t n_bill;
  const double (*share)[12]; /* borrowed */
  double days[MONTHS];
  double month[2][BALANCES][MONTHS]; /* degree days a day of the comparison's weather */
  double square[2][BALANCES];        /* of d_m H_m */
  double *bill;                      /* [(side * BALANCES + balance) * n_bill + i]; owned */
  double *missed; /* [side * n_bill + i]: kWh a day a kWh of the months' sum; owned */
};

/* ---------------------------------------------------------------- bills made ready */

static int month_of(int day) { return pw_date_of_day(day) / 100 % 100 - 1; }

static pw_status take_periods(pw_range_meter *m, const pw_meter_use *use, double unit_kwh,
                              const pw_daily *weather, pw_err *err)
{
  size_t days = 0, used = 0;
  for (size_t i = 0; i < use->n_period; i++)
    days += (size_t)(use->period[i].bill.to - use->period[i].bill.from);
  double *t = malloc((days + 1) * sizeof *t), sum = 0.0, all = 0.0;
  pw_change_period *p = malloc((use->n_period + 1) * sizeof *p);
  m->share = calloc(use->n_period + 1, sizeof *m->share);
  m->from = malloc((use->n_period + 1) * sizeof *m->from);
  m->to = malloc((use->n_period + 1) * sizeof *m->to);
  pw_status status = PW_OK;
  size_t n = 0;
  if (!t || !p || !m->share || !m->from || !m->to)
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu days", days);
  for (size_t i = 0; status == PW_OK && i < use->n_period; i++) {
    const pw_meter_period *b = &use->period[i];
    double length = b->bill.to - b->bill.from;
    size_t first = used;
    if (b->place != PW_METER_USED) continue;
    for (int day = b->bill.from; day < b->bill.to; day++) {
      long k = (long)day - weather->first;
      m->share[n][month_of(day)] += 1.0 / length;
      if (k >= 0 && (size_t)k < weather->n && !isnan(weather->t[k])) t[used++] = weather->t[k];
    }
    m->from[n] = b->bill.from;
    m->to[n] = b->bill.to;
    p[n++] =
        (pw_change_period){b->bill.use * unit_kwh / length, length, t + first, used - first};
    sum += b->bill.use * unit_kwh;
    all += length;
  }
  if (status == PW_OK && n) status = pw_change_data_init(&m->data, p, n, err);
  if (status == PW_OK && n) {
    m->n = n;
    m->mean = sum / all;
  }
  free(t);
  free(p);
  return status;
}

pw_status pw_range_bills_add(pw_range_bills *bills, const pw_meter_use *use, double unit_kwh,
                             const pw_daily *weather, pw_err *err)
{
  pw_range_meter *m = &bills->meter[use->fuel];
  if (m->n) return pw_fail(err, PW_E_SHAPE, "fuel", "its bills stand twice");
  m->refused = use->refused;
  if (use->refused != PW_BILL_ACCEPTED) return PW_OK;
  if (!bills->weather.n) {
    bills->weather = *weather;
    bills->weather.t = malloc(weather->n * sizeof *weather->t);
    if (!bills->weather.t) {
      bills->weather.n = 0;
      return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu days", weather->n);
    }
    memcpy(bills->weather.t, weather->t, weather->n * sizeof *weather->t);
  }
  return take_periods(m, use, unit_kwh, weather, err);
}

void pw_range_bills_free(pw_range_bills *bills)
{
  for (int f = 0; bills && f < PW_FUEL_COUNT; f++) {
    pw_change_data_free(&bills->meter[f].data);
    free(bills->meter[f].share);
    free(bills->meter[f].from);
    free(bills->meter[f].to);
    bills->meter[f] = (pw_range_meter){.n = 0};
  }
  if (bills) pw_daily_free(&bills->weather);
}

/* ---------------------------------------------------------------- response */

/* Daily means of the comparison's weather, a month a period. */
static pw_status months_of(const pw_weather *w, pw_change_data *data, pw_err *err)
{
  double t[365];
  pw_change_period p[MONTHS];
  for (int d = 0; d < 365; d++) {
    t[d] = 0.0;
    for (int h = 0; h < 24; h++)
      t[d] += (double)w->hour[24 * d + h].t_air / 24.0;
  }
  for (int m = 0; m < MONTHS; m++)
    p[m] = (pw_change_period){0.0, pw_month_days[m], t + pw_month_start[m],
                              (size_t)pw_month_days[m]};
  return pw_change_data_init(data, p, MONTHS, err);
}

/* Degree days of months and bills at each balance point. */
static void fill(range_response *r, const pw_change_data *months, const pw_range_meter *meter)
{
  for (int m = 0; m < MONTHS; m++)
    r->days[m] = pw_month_days[m];
  for (int side = 0; side < 2; side++)
    for (size_t g = 0; g < BALANCES; g++) {
      double t = FIRST[side] + STEP * (double)g;
      double *bill = r->bill + ((size_t)side * BALANCES + g) * r->n_bill;
      for (size_t m = 0; m < MONTHS; m++) {
        double h = side ? pw_change_cooling(months, m, t, NULL)
                        : pw_change_heating(months, m, t, NULL);
        r->month[side][g][m] = h;
        r->square[side][g] += h * h * r->days[m] * r->days[m];
      }
      for (size_t i = 0; i < r->n_bill; i++)
        bill[i] = side ? pw_change_cooling(&meter->data, i, t, NULL)
                       : pw_change_heating(&meter->data, i, t, NULL);
    }
}

/* What the months' answer misses of the house as it stands. */
static void learn(range_response *r, const range_case *rc, const pw_range_bills *bills,
                  const pw_range_meter *meter, const double *daily)
{
  const pw_needs *needs = &rc->compare->lived.existing_set.needs;
  for (int side = 0; side < 2; side++) {
    const double *month = side ? needs->cooling_kwh : needs->heating_kwh;
    double *missed = r->missed + (size_t)side * r->n_bill, sum = 0.0;
    for (size_t m = 0; m < MONTHS; m++)
      sum += month[m];
    if (!(sum > 0.0)) continue;
    range_response_at(r, side, month, missed);
    for (size_t i = 0; i < r->n_bill; i++) {
      double lived = 0.0;
      for (int day = meter->from[i]; day < meter->to[i]; day++)
        lived += daily[(size_t)side * bills->weather.n + (size_t)(day - bills->weather.first)];
      missed[i] = (lived / (double)(meter->to[i] - meter->from[i]) - missed[i]) / sum;
    }
  }
}

static int within(const pw_range_bills *bills, const pw_range_meter *m)
{
  for (size_t i = 0; i < m->n; i++)
    if (m->from[i] < bills->weather.first ||
        (size_t)(m->to[i] - bills->weather.first) > bills->weather.n)
      return 0;
  return 1;
}

pw_status range_response_new(const range_case *rc, const pw_range_bills *bills,
                             const pw_range_meter *meter, const double *daily,
                             range_response **response, pw_err *err)
{
  pw_change_data months;
  range_response *r = calloc(1, sizeof *r);
  *response = NULL;
  pw_status status = months_of(rc->weather, &months, err);
  if (status != PW_OK) {
    free(r);
    return status;
  }
  if (r) r->bill = malloc(2 * BALANCES * meter->n * sizeof *r->bill);
  if (r) r->missed = calloc(2 * meter->n, sizeof *r->missed);
  if (!r || !r->bill || !r->missed) {
    range_response_free(r);
    pw_change_data_free(&months);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu bills", meter->n);
  }
  r->n_bill = meter->n;
  r->share = (const double(*)[12])meter->share;
  fill(r, &months, meter);
  pw_change_data_free(&months);
  if (daily && within(bills, meter)) learn(r, rc, bills, meter, daily);
  *response = r;
  return PW_OK;
}

void range_response_free(range_response *r)
{
  if (r) free(r->bill);
  if (r) free(r->missed);
  free(r);
}

/* The balance point whose degree days bear the months best, and their slope. */
static size_t answer(const range_response *r, int side, const double month[12], double *slope)
{
  size_t at = 0;
  double least = INFINITY;
  *slope = 0.0;
  for (size_t g = 0; g < BALANCES; g++) {
    double xy = 0.0, sse = 0.0;
    if (!(r->square[side][g] > 0.0)) continue;
    for (size_t m = 0; m < MONTHS; m++)
      xy += r->month[side][g][m] * r->days[m] * month[m];
    double b = xy / r->square[side][g];
    for (size_t m = 0; m < MONTHS; m++) {
      double e = month[m] - b * r->month[side][g][m] * r->days[m];
      sse += e * e;
    }
    if (sse < least) {
      least = sse;
      at = g;
      *slope = b;
    }
  }
  return at;
}

void range_response_at(const range_response *r, int side, const double month[12],
                       double per_day[])
{
  double b, sum = 0.0;
  size_t g = answer(r, side, month, &b);
  const double *bill = r->bill + ((size_t)side * BALANCES + g) * r->n_bill;
  for (size_t m = 0; m < MONTHS; m++)
    sum += month[m];
  for (size_t i = 0; i < r->n_bill; i++) {
    double need = b * bill[i] + r->missed[(size_t)side * r->n_bill + i] * sum;
    for (size_t m = 0; m < MONTHS; m++)
      need += r->share[i][m] * (month[m] / r->days[m] - b * r->month[side][g][m]);
    per_day[i] = fmax(0.0, need);
  }
}

/* ---------------------------------------------------------------- the bills' own days */

/* The comparison's year with each day moved to the mean of that day of a calendar year. */
static void move_year(const pw_weather *from, const pw_daily *days, int year, pw_weather *to)
{
  *to = *from;
  for (int d = 0; d < 365; d++) {
    int month = pw_month_of_day(d);
    long k =
        (long)pw_date_day(year * 10000 + (month + 1) * 100 + d - pw_month_start[month] + 1) -
        days->first;
    double mean = 0.0;
    if (k < 0 || (size_t)k >= days->n || isnan(days->t[k])) continue;
    for (int h = 0; h < 24; h++)
      mean += (double)from->hour[24 * d + h].t_air / 24.0;
    for (int h = 0; h < 24; h++) { /* the dew point goes along: humidity stays */
      to->hour[24 * d + h].t_air += (float)(days->t[k] - mean);
      to->hour[24 * d + h].t_dew += (float)(days->t[k] - mean);
    }
  }
}

/* Needs of the days of a calendar year; 29 February has those of the day before. */
static void take_year(const pw_year_hours *h, const pw_daily *days, int year, double *daily)
{
  int first = pw_date_day(year * 10000 + 101), last = pw_date_day((year + 1) * 10000 + 101);
  for (int day = first; day < last; day++) {
    long k = (long)day - days->first;
    int leap = last - first == 366 && day - first >= 59, d = day - first - leap;
    if (k < 0 || (size_t)k >= days->n) continue;
    for (int hour = 24 * d; hour < 24 * d + 24; hour++) {
      daily[k] += 1e-3 * (double)h->heating_w[hour];
      daily[days->n + (size_t)k] += 1e-3 * (double)h->cooling_w[hour];
    }
  }
}

pw_status range_bills_live(const range_case *rc, const pw_range_bills *bills, double **daily,
                           pw_err *err)
{
  const pw_daily *days = &bills->weather;
  *daily = NULL;
  if (rc->method == PW_YEAR_QUICK || !days->n) return PW_OK;
  double *need = calloc(2 * days->n, sizeof *need);
  pw_weather *w = malloc(sizeof *w);
  pw_compare *own = malloc(sizeof *own); /* borrows all from the comparison but the ground */
  pw_status status = PW_OK;
  if (!need || !w || !own)
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu days", days->n);
  int from = 0, to = -1; /* calendar years that hold a bill */
  for (int f = 0; f < PW_FUEL_COUNT; f++)
    for (size_t i = 0; i < bills->meter[f].n; i++) {
      int first = pw_date_of_day(bills->meter[f].from[i]) / 10000;
      int last = pw_date_of_day(bills->meter[f].to[i] - 1) / 10000;
      if (to < from || first < from) from = first;
      if (last > to) to = last;
    }
  for (int year = from; status == PW_OK && year <= to; year++) {
    pw_compare_hours hours = {0};
    move_year(rc->weather, days, year, w);
    *own = *rc->compare;
    own->n_package = 0; /* only the existing windows are lived with */
    pw_house_ground(&own->lived.house, w, PW_GROUND_YEAR, own->lived.house.ground_c);
    status = pw_compare_hours_run(own, w, rc->method, NULL, &hours, err);
    if (status == PW_OK) take_year(&hours.set[0], days, year, need);
    pw_compare_hours_free(&hours);
  }
  free(w);
  free(own);
  if (status == PW_OK)
    *daily = need;
  else
    free(need);
  return status;
}

/* ---------------------------------------------------------------- weights */

/* Which of heating and cooling a fuel's meter counts. */
static void counts(const range_case *rc, int fuel, int of[2])
{
  of[0] = rc->rates.heats && (int)rc->rates.heating_fuel == fuel;
  of[1] = rc->rates.cools && fuel == PW_FUEL_ELECTRICITY;
}

static pw_status weigh_meter(const range_case *rc, const pw_range_bills *bills,
                             const pw_range_meter *m, const double *daily, const int of[2],
                             const range_drawn *drawn, range_slope *slope, double log_weight[],
                             double chi2[], pw_err *err)
{
  const range_need *need = drawn->need;
  size_t n = drawn->n;
  range_response *r = NULL;
  double *residual = malloc(n * m->n * sizeof *residual);
  double *sigma = malloc(m->n * sizeof *sigma), *one = malloc(m->n * sizeof *one);
  pw_status status = PW_OK;
  if (!residual || !sigma || !one)
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu bills", m->n);
  if (status == PW_OK) status = range_response_new(rc, bills, m, daily, &r, err);
  for (size_t i = 0; status == PW_OK && i < m->n; i++) /* more for short bills */
    sigma[i] = METER_LIMIT(bill_noise) * fmax(m->data.per_day[i], 0.2 * m->mean) *
               sqrt(30.0 / m->data.days[i]);
  for (size_t k = 0; status == PW_OK && k < n; k++) {
    double *row = residual + k * m->n;
    memcpy(row, m->data.per_day, m->n * sizeof *row);
    for (int side = 0; side < 2; side++) {
      if (!of[side]) continue;
      range_response_at(r, side, need[k].month[side], one);
      for (size_t i = 0; i < m->n; i++)
        row[i] -= need[k].per_need[side] * one[i];
    }
  }
  const pw_condition_meter meter = {.n = m->n,
                                    .sigma = sigma,
                                    .discrepancy = METER_LIMIT(discrepancy) * m->mean,
                                    .shared = METER_LIMIT(discrepancy_shared),
                                    .free_base = 1};
  if (status == PW_OK) status = pw_condition_add(&meter, residual, n, log_weight, chi2, err);
  if (status == PW_OK && slope) status = range_slope_add(slope, &meter, residual, err);
  range_response_free(r);
  free(residual);
  free(sigma);
  free(one);
  return status;
}

pw_status range_bills_weigh(const range_case *rc, const pw_range_bills *bills,
                            const double *daily, const range_drawn *drawn, range_slope *slope,
                            pw_range_conditioned *what, pw_err *err)
{
  size_t n = drawn->n;
  double *room = calloc(3 * n, sizeof *room), freedom = 0.0;
  if (!room) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu draws", n);
  if (drawn->ratio) memcpy(room, drawn->ratio, n * sizeof *room);
  pw_status status = PW_OK;
  for (int f = 0; status == PW_OK && f < PW_FUEL_COUNT; f++) {
    const pw_range_meter *m = &bills->meter[f];
    int of[2];
    counts(rc, f, of);
    if (m->n || m->refused != PW_BILL_ACCEPTED) what->given = 1;
    if (m->n < 2 || !(of[0] || of[1])) continue;
    status = weigh_meter(rc, bills, m, daily, of, drawn, slope, room, room + n, err);
    what->n_bill[f] = m->n;
    freedom += (double)m->n - 1.0;
  }
  if (status == PW_OK && freedom > 0.0) {
    status = pw_condition_weights(room, room + n, n, freedom,
                                  drawn->near ? 0.0 : METER_LIMIT(least_effective_share),
                                  room + 2 * n, drawn->weight, &what->condition, err);
    what->used = status == PW_OK && what->condition.refused == PW_CONDITION_ACCEPTED;
  }
  free(room);
  return status;
}
