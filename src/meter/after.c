#include "meter/after.h"

#include <math.h>
#include <stdlib.h>

#include "change_variance.h"
#include "limits.h"
#include "meter/quantile.h"

static const double TENTH = 0.9; /* one-sided: 10 to 90 % */

/* ---------------------------------------------------------------- forms */

/* Adds the days of a period to g; 0 when too few of them have weather. */
static int add_days(const pw_change_fit *fit, const pw_bill_period *p, const pw_daily *w,
                    double g[PW_CHANGE_PARAMETERS])
{
  double sum[PW_CHANGE_PARAMETERS] = {0.0}, length = p->to - p->from, n = 0.0;
  for (int day = p->from; day < p->to; day++) {
    long k = (long)day - w->first;
    if (w->typical || k < 0 || (size_t)k >= w->n || isnan(w->t[k])) continue;
    double cold = fit->balance[0] - w->t[k], hot = w->t[k] - fit->balance[1];
    n++;
    if (cold > 0.0) { /* a term that is not there has a balance point of NAN */
      sum[1] += cold;
      sum[3] += fit->slope[0];
    }
    if (hot > 0.0) {
      sum[2] += hot;
      sum[4] -= fit->slope[1];
    }
  }
  if (!(n >= METER_LIMIT(least_weather) * length)) return 0;
  g[0] += length;
  for (int k = 1; k < PW_CHANGE_PARAMETERS; k++)
    g[k] += sum[k] * length / n;
  return 1;
}

void pw_avoided_of(const pw_change_fit *fit, double mean_days, const pw_bill_period period[],
                   size_t n, const pw_daily *weather, pw_avoided *avoided)
{
  double g[PW_CHANGE_PARAMETERS] = {0.0}, scatter = 0.0;
  pw_avoided a = {.n = 0};
  for (size_t i = 0; i < n; i++) {
    double days = period[i].to - period[i].from;
    if (!add_days(fit, &period[i], weather, g)) continue;
    a.n++;
    a.days += days;
    a.measured += period[i].use;
    scatter += fit->s * fit->s * days * mean_days;
  }
  a.expected = fit->base * g[0] + fit->slope[0] * g[1] + fit->slope[1] * g[2];
  a.avoided = a.expected - a.measured;
  a.se = sqrt(scatter + change_variance(fit, g));
  a.fraction = a.expected != 0.0 ? a.avoided / a.expected : (double)NAN;
  *avoided = a;
}

double pw_fractional(double k, double cv, double n, double p, double rho, double m,
                     double share, double confidence)
{
  double worth = n * (1.0 - rho) / (1.0 + rho);
  double t = meter_student(0.5 + 0.5 * confidence, worth - p);
  return t * k * cv * sqrt(n / worth * (1.0 + 2.0 / worth) / m) / share;
}

double pw_fractional_factor(double months, int daily)
{
  return daily ? (-0.00024 * months + 0.03535) * months + 1.00286
               : (-0.00022 * months + 0.03306) * months + 0.94054;
}

void pw_drift_of(const double change[], const double se[], size_t n, pw_drift *drift)
{
  double mean = 0.0, square = 0.0, own = 0.0, count = (double)n;
  *drift = (pw_drift){.n = n};
  if (n == 0) return;
  for (size_t i = 0; i < n; i++) {
    mean += change[i] / count;
    own += se[i] * se[i] / (count * count);
  }
  for (size_t i = 0; i < n; i++)
    square += (change[i] - mean) * (change[i] - mean);
  double spread = n > 1 ? square / (count - 1.0) / count : 0.0;
  drift->mean = mean;
  drift->se = sqrt(fmax(own, spread));
}

pw_after_verdict pw_after_beside(double saving, double low, double high, double p10, double p90)
{
  if (saving < p10) return high < p10 ? PW_AFTER_BELOW : PW_AFTER_BELOW_UNSURE;
  if (saving > p90) return low > p90 ? PW_AFTER_ABOVE : PW_AFTER_ABOVE_UNSURE;
  return PW_AFTER_INSIDE;
}

pw_after_net pw_after_net_of(const pw_after *a, const pw_drift *drift)
{
  double total = a->before.normal.total;
  pw_after_net net = {a->saving, a->se, a->low, a->high};
  if (drift->n == 0) return net;
  net.saving -= drift->mean * total;
  net.se = hypot(a->se, drift->se * total);
  double half = meter_student(TENTH, a->freedom) * net.se;
  net.low = net.saving - half;
  net.high = net.saving + half;
  return net;
}

/* ---------------------------------------------------------------- bills apart */

static int in_time(const void *a, const void *b)
{
  const pw_bill_row *x = a, *y = b;
  if (x->to != y->to) return x->to < y->to ? -1 : 1;
  return (x->from > y->from) - (x->from < y->from);
}

static int starts(const pw_bill_row row[], size_t i)
{
  if (row[i].from != PW_BILL_NO_DAY) return row[i].from;
  return i ? row[i - 1].to : PW_BILL_NO_DAY;
}

/* Sorted rows: those before the work come first, those after it from *later on; between them those left out. */
static void part(pw_bill_row row[], size_t n, const pw_work *work, size_t *before,
                 size_t *later)
{
  if (n > 1) qsort(row, n, sizeof *row, in_time);
  *before = 0;
  while (*before < n && row[*before].to <= work->from)
    (*before)++;
  *later = *before;
  while (*later < n && starts(row, *later) <= work->to)
    (*later)++;
  /* Up from a guess only the next actual read is true. */
  while (*later > 0 && *later < n && row[*later - 1].read == PW_READ_ESTIMATED)
    (*later)++;
  if (*later < n) row[*later].from = starts(row, *later);
}

/* ---------------------------------------------------------------- the whole */

static int found(const pw_meter_use *u, pw_bill_finding_kind kind)
{
  for (size_t i = 0; i < u->findings.n; i++)
    if (u->findings.finding[i].kind == kind) return 1;
  return 0;
}

static double mean_days(const pw_meter_use *u)
{
  double days = 0.0;
  for (size_t i = 0; i < u->n_period; i++)
    if (u->period[i].place == PW_METER_USED)
      days += u->period[i].bill.to - u->period[i].bill.from;
  return days / (double)u->n_used;
}

static pw_status so_far(pw_after *a, const pw_daily *weather, pw_err *err)
{
  const pw_meter_use *u = &a->after;
  size_t n = 0;
  pw_bill_period *p = malloc((u->n_period + 1) * sizeof *p);
  a->as_before = malloc((u->n_period + 1) * sizeof *a->as_before);
  if (!p || !a->as_before) {
    free(p);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for bills");
  }
  for (size_t i = 0; i < u->n_period; i++)
    if (u->period[i].place != PW_METER_OUTLIER) p[n++] = u->period[i].bill;
  for (size_t i = 0; i < u->n_period; i++) {
    pw_avoided one;
    pw_avoided_of(&a->before.fit, 1.0, &u->period[i].bill, 1, weather, &one);
    a->as_before[i] = one.n ? one.expected / one.days : (double)NAN;
  }
  pw_avoided_of(&a->before.fit, mean_days(&a->before), p, n, weather, &a->so_far);
  free(p);
  const pw_change_fit *f = &a->before.fit;
  const double months = 12.0 * a->so_far.days / 365.0;
  a->fractional =
      a->so_far.n == 0 || !(a->so_far.fraction > 0.0)
          ? (double)NAN
          : pw_fractional(pw_fractional_factor(months, 0), f->cv, (double)f->n, (double)f->p,
                          0.0, (double)a->so_far.n, a->so_far.fraction, 0.68);
  return PW_OK;
}

static void at_normal(pw_after *a)
{
  const pw_normal_use *b = &a->before.normal, *l = &a->after.normal;
  /* Twelve bills of a fuel that heats alone cover less than they say: METHODS section 3. */
  double wider = a->fuel == PW_FUEL_ELECTRICITY ? 1.0 : METER_LIMIT(wider_fuel);
  double vb = b->total_se * b->total_se, vl = l->total_se * l->total_se;
  double fb = (double)(a->before.fit.n - a->before.fit.p),
         fl = (double)(a->after.fit.n - a->after.fit.p);
  a->saving = b->total - l->total;
  a->se = wider * sqrt(vb + vl);
  a->freedom = (vb + vl) * (vb + vl) / (vb * vb / fb + vl * vl / fl);
  double half = meter_student(TENTH, a->freedom) * a->se;
  a->low = a->saving - half;
  a->high = a->saving + half;
  for (int k = 0; k < 3; k++) {
    a->part[k] = b->part[k] - l->part[k];
    a->part_se[k] = wider * hypot(b->part_se[k], l->part_se[k]);
  }
}

static pw_after_refusal judge(const pw_after *a, const pw_work *work, int moved)
{
  if (moved != PW_BILL_NO_DAY && moved >= work->from) return PW_AFTER_CHANGE;
  if (a->before.refused != PW_BILL_ACCEPTED) return PW_AFTER_BEFORE;
  if (found(&a->after, PW_BILL_OCCUPANCY)) return PW_AFTER_CHANGE;
  if (a->after.refused != PW_BILL_ACCEPTED) return PW_AFTER_LATER;
  return a->after.has_normal ? PW_AFTER_ACCEPTED : PW_AFTER_NORMAL;
}

pw_status pw_after_of(pw_fuel fuel, const pw_bill_row row[], size_t n, const pw_daily *weather,
                      const pw_normal_set *normal, const pw_work *work, int moved,
                      pw_after *after, pw_err *err)
{
  size_t before, later;
  pw_after a = {.fuel = fuel, .fractional = (double)NAN};
  *after = a;
  pw_bill_row *r = malloc((n + 1) * sizeof *r);
  if (!r) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu bills", n);
  for (size_t i = 0; i < n; i++)
    r[i] = row[i];
  part(r, n, work, &before, &later);
  a.n_work = later - before;
  int early = moved != PW_BILL_NO_DAY && moved < work->from ? moved : PW_BILL_NO_DAY;
  pw_status status = pw_meter_use_of(fuel, r, before, weather, normal, early, &a.before, err);
  if (status == PW_OK)
    status = pw_meter_use_of(fuel, r + later, n - later, weather, normal, PW_BILL_NO_DAY,
                             &a.after, err);
  free(r);
  if (status == PW_OK && weather && a.before.refused == PW_BILL_ACCEPTED)
    status = so_far(&a, weather, err);
  if (status != PW_OK) {
    pw_after_free(&a);
    return status;
  }
  a.refused = later == n ? PW_AFTER_NONE : judge(&a, work, moved);
  if (a.refused == PW_AFTER_ACCEPTED) at_normal(&a);
  *after = a;
  return PW_OK;
}

void pw_after_free(pw_after *after)
{
  if (!after) return;
  pw_meter_use_free(&after->before);
  pw_meter_use_free(&after->after);
  free(after->as_before);
  *after = (pw_after){.n_work = 0};
}
