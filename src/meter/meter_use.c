#include "meter/meter_use.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "limits.h"
#include "meter/quantile.h"
#include "odd_bills.h"

enum { LEAST_DAYS = 175 }; /* six months */

typedef struct desk {
  pw_meter_use *use;
  size_t n;      /* periods with weather */
  size_t *place; /* of each in use->period */
  pw_change_data data;
  unsigned char *out;
  int may_cool;
} desk;

static int rising(const void *a, const void *b)
{
  int x = *(const int *)a, y = *(const int *)b;
  return (x > y) - (x < y);
}

/* Whether bills still in use are too few, monthly ones or longer ones. */
static int too_few(const desk *d)
{
  int days[PW_BILL_PERIODS_MAX], first = 0, last = 0;
  size_t n = 0;
  for (size_t k = 0; k < d->n; k++) {
    const pw_bill_period *b = &d->use->period[d->place[k]].bill;
    if (d->out[k]) continue;
    if (n == 0) first = b->from;
    last = b->to;
    days[n++] = b->to - b->from;
  }
  if (n == 0 || last - first < LEAST_DAYS) return 1;
  if (n > 1) qsort(days, n, sizeof *days, rising);
  return n < (size_t)(days[n / 2] > METER_LIMIT(long_days) ? METER_LIMIT(few_long)
                                                           : METER_LIMIT(few_monthly));
}

/* Daily means of each period's days that are there. */
static pw_status pair(desk *d, const pw_daily *weather, pw_err *err)
{
  pw_meter_use *u = d->use;
  size_t days = 0, used = 0;
  for (size_t i = 0; i < u->n_period; i++)
    days += (size_t)(u->period[i].bill.to - u->period[i].bill.from);
  double *t = malloc((days + 1) * sizeof *t);
  pw_change_period *p = malloc((u->n_period + 1) * sizeof *p);
  d->place = malloc((u->n_period + 1) * sizeof *d->place);
  d->out = calloc(u->n_period + 1, 1);
  pw_status status = PW_OK;
  if (!t || !p || !d->place || !d->out)
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu days", days);
  for (size_t i = 0; status == PW_OK && i < u->n_period; i++) {
    pw_meter_period *m = &u->period[i];
    double sum = 0.0, length = m->bill.to - m->bill.from;
    size_t n = 0;
    for (int day = m->bill.from; day < m->bill.to; day++) {
      long k = (long)day - weather->first;
      if (weather->typical || k < 0 || (size_t)k >= weather->n || isnan(weather->t[k]))
        continue;
      t[used + n++] = weather->t[k];
      sum += weather->t[k];
    }
    m->t_mean = n ? sum / (double)n : (double)NAN;
    if (!((double)n >= METER_LIMIT(least_weather) * length)) {
      m->place = PW_METER_NO_WEATHER;
      pw_bill_find(&u->findings, PW_BILL_WEATHER, m->bill.from, m->bill.to, 1,
                   (double)n / length);
      continue;
    }
    p[d->n] = (pw_change_period){m->bill.use / length, length, t + used, n};
    d->place[d->n++] = i;
    used += n;
  }
  if (status == PW_OK && d->n) status = pw_change_data_init(&d->data, p, d->n, err);
  free(t);
  free(p);
  return status;
}

/* Leaves out bills before a day, and the one that holds it. */
static void only_from(desk *d, int day)
{
  size_t n = 0;
  int first = 0, last = 0;
  for (size_t k = 0; k < d->n; k++) {
    pw_meter_period *m = &d->use->period[d->place[k]];
    if (m->bill.from >= day) continue;
    d->out[k] = 1;
    m->place = PW_METER_BEFORE;
    if (n++ == 0) first = m->bill.from;
    last = m->bill.to;
  }
  if (n) pw_bill_find(&d->use->findings, PW_BILL_MOVED, first, last, n, 0.0);
}

/* At most two bills that the others do not bear, one at a time. */
static pw_status leave_odd(desk *d, pw_err *err)
{
  for (int round = 0; round < METER_LIMIT(odd_most); round++) {
    odd_one odd;
    pw_status status = odd_bill(&d->data, d->out, d->may_cool, &odd, err);
    if (status != PW_OK) return status;
    double off = fabs(d->data.per_day[odd.i] - odd.said);
    if (!(fabs(odd.t) > METER_LIMIT(odd_t) && off > METER_LIMIT(odd_share) * odd.said &&
          off > METER_LIMIT(odd_of_mean) * odd.mean))
      break;
    d->out[odd.i] = 1;
    d->use->period[d->place[odd.i]].place = PW_METER_OUTLIER;
  }
  return PW_OK;
}

/* What a bill that is left out is over what the others say, units a day. */
static double over(const desk *d, size_t k)
{
  return d->data.per_day[k] - pw_change_point_at(&d->use->fit, &d->data, k);
}

/* Whether bill k, which is left out, and the one after it are off to either side and together as the others say: a misread that
 * the next read made good. */
static int is_misread(const desk *d, size_t k)
{
  if (k + 1 >= d->n) return 0;
  const pw_meter_period *a = &d->use->period[d->place[k]],
                        *b = &d->use->period[d->place[k + 1]];
  if (b->place != PW_METER_OUTLIER || a->bill.to != b->bill.from) return 0;
  double x = over(d, k) * d->data.days[k], y = over(d, k + 1) * d->data.days[k + 1];
  return x * y < 0.0 && fabs(x + y) < METER_LIMIT(misread_share) * fmax(fabs(x), fabs(y));
}

/* Named at the end, since a change of the house may have made some of them. */
static void name_odd(const desk *d)
{
  for (size_t k = 0; k < d->n; k++) {
    const pw_meter_period *m = &d->use->period[d->place[k]];
    if (m->place != PW_METER_OUTLIER) continue;
    if (is_misread(d, k)) {
      pw_bill_find(&d->use->findings, PW_BILL_READ_ERROR, m->bill.from,
                   d->use->period[d->place[k + 1]].bill.to, 2, over(d, k) * d->data.days[k]);
      k++;
      continue;
    }
    pw_bill_find(&d->use->findings, PW_BILL_OUTLIER, m->bill.from, m->bill.to, m->bill.n_row,
                 d->data.per_day[k] / pw_change_point_at(&d->use->fit, &d->data, k));
  }
}

/* A change of the house: the later part stays, without the bill that holds it. */
static pw_status leave_before_break(desk *d, int *found, pw_err *err)
{
  pw_meter_use *u = d->use;
  size_t at;
  double f, shift;
  *found = 0;
  pw_status status = odd_break(&d->data, d->out, u->fit.model, &at, &f, &shift, err);
  if (status != PW_OK || !(f > METER_LIMIT(break_f) && shift > METER_LIMIT(break_shift)))
    return status;
  const pw_bill_period *b = &u->period[d->place[at]].bill;
  pw_bill_find(&u->findings, PW_BILL_OCCUPANCY, b->from, b->to, 1, f);
  for (size_t k = 0; k < d->n; k++) {
    pw_meter_period *m = &u->period[d->place[k]];
    if (k <= at) {
      d->out[k] = 1;
      m->place = PW_METER_BEFORE;
    } else if (m->place == PW_METER_OUTLIER) {
      d->out[k] = 0; /* judged again among its own */
      m->place = PW_METER_USED;
    }
  }
  *found = 1;
  return PW_OK;
}

static pw_status choose(desk *d, pw_err *err)
{
  pw_meter_use *u = d->use;
  pw_status status =
      pw_change_point_choose(&d->data, d->out, d->may_cool, &u->fit, u->tried, err);
  u->fitted = status == PW_OK;
  return status;
}

static pw_status fit(desk *d, pw_err *err)
{
  int broken = 0;
  pw_status status = leave_odd(d, err);
  if (status == PW_OK) status = choose(d, err);
  if (status == PW_OK) status = leave_before_break(d, &broken, err);
  if (status != PW_OK || !broken) return status;
  if (too_few(d)) {
    d->use->refused = PW_BILL_REFUSED_BREAK;
    return PW_OK;
  }
  status = leave_odd(d, err);
  return status == PW_OK ? choose(d, err) : status;
}

/* Whether the days of the bills saw a fair part of a season; 1 where there is none to see. */
static int season_seen(const desk *d, const pw_normal_set *normal, int side, double balance)
{
  double year = 0.0, seen = 0.0;
  for (size_t i = 0; i < normal->n; i++) {
    double over = side ? normal->t[i] - balance : balance - normal->t[i];
    year += normal->weight[i] * fmax(over, 0.0);
  }
  for (size_t k = 0; k < d->n; k++)
    if (!d->out[k])
      seen += d->data.days[k] * (side ? pw_change_cooling(&d->data, k, balance, NULL)
                                      : pw_change_heating(&d->data, k, balance, NULL));
  return year < METER_LIMIT(season_least) || seen >= METER_LIMIT(season_seen) * year;
}

static void judge_seasons(desk *d, const pw_normal_set *normal)
{
  static const double without[2] = {16.0, 21.0}; /* C, where the model has no balance point */
  pw_meter_use *u = d->use;
  int first = u->period[0].bill.from, last = u->period[u->n_period - 1].bill.to, unseen = 0;
  int sides = d->may_cool ? 2 : 1;
  for (int side = 0; side < sides; side++) {
    int claims = !isnan(u->fit.balance[side]);
    if (season_seen(d, normal, side, claims ? u->fit.balance[side] : without[side])) continue;
    pw_bill_find(&u->findings, PW_BILL_SEASON, first, last, 1, side);
    unseen++;
    if (claims) u->refused = PW_BILL_REFUSED_SEASON;
  }
  if (unseen == sides) u->refused = PW_BILL_REFUSED_SEASON;
}

/* A term that would have been taken but for its balance point at the edge of what was seen. */
static void judge_edges(desk *d)
{
  const double strong = 10.0; /* of BIC; own rule */
  pw_meter_use *u = d->use;
  int first = u->period[0].bill.from, last = u->period[u->n_period - 1].bill.to;
  for (int m = PW_CHANGE_H; m <= PW_CHANGE_HC; m++) {
    const pw_change_fit *f = &u->tried[m];
    unsigned edge = f->doubt & (PW_CHANGE_EDGE | (unsigned)PW_CHANGE_EDGE << 1);
    if (!f->n || !edge || f->doubt != edge || f->bic > u->fit.bic) continue;
    pw_bill_find(&u->findings, PW_BILL_EDGE, first, last, 1, edge != PW_CHANGE_EDGE);
    if (f->bic < u->fit.bic - strong && u->fit.model == PW_CHANGE_BASE)
      u->refused = PW_BILL_REFUSED_EDGE;
  }
}

static void judge(desk *d, const pw_normal_set *normal)
{
  pw_meter_use *u = d->use;
  judge_edges(d);
  if (normal) judge_seasons(d, normal);
  if (!(u->fit.cv <= METER_LIMIT(most_cv))) u->refused = PW_BILL_REFUSED_SCATTER;
  if (u->fit.model == PW_CHANGE_HC)
    pw_bill_find(&u->findings, PW_BILL_SPLIT, u->period[0].bill.from,
                 u->period[u->n_period - 1].bill.to, u->fit.n, 0.0);
}

static void say_normal(desk *d, const pw_normal_set *normal)
{
  pw_meter_use *u = d->use;
  pw_normal_use_of(&u->fit, normal, &u->normal);
  u->has_normal = 1;
  double t = meter_student(0.975, (double)(u->fit.n - u->fit.p));
  double half = t * u->normal.total_se * (d->may_cool ? 1.0 : METER_LIMIT(wider_fuel));
  u->low = u->normal.total - half;
  u->high = u->normal.total + half;
}

/* Everything after the periods are known. */
static pw_status work(desk *d, const pw_daily *weather, const pw_normal_set *normal, int moved,
                      pw_err *err)
{
  pw_meter_use *u = d->use;
  if (!weather) {
    u->refused = PW_BILL_REFUSED_WEATHER;
    return PW_OK;
  }
  pw_status status = pair(d, weather, err);
  if (status != PW_OK) return status;
  if (d->n && moved != PW_BILL_NO_DAY) only_from(d, moved);
  if (d->n == 0 || too_few(d)) {
    u->refused = d->n < u->n_period ? PW_BILL_REFUSED_WEATHER : PW_BILL_REFUSED_FEW;
    return PW_OK;
  }
  status = fit(d, err);
  if (status != PW_OK) return status;
  name_odd(d);
  if (u->refused == PW_BILL_ACCEPTED) judge(d, normal);
  for (size_t k = 0; k < d->n; k++)
    u->period[d->place[k]].fitted = pw_change_point_at(&u->fit, &d->data, k);
  if (normal) say_normal(d, normal);
  return PW_OK;
}

static pw_status take_periods(pw_fuel fuel, const pw_bill_row row[], size_t n, pw_meter_use *u,
                              pw_err *err)
{
  pw_bill_period *p = malloc(PW_BILL_PERIODS_MAX * sizeof *p);
  if (!p) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for bills");
  pw_status status =
      pw_bill_periods_of(row, n, fuel, p, &u->n_period, &u->refused, &u->findings, err);
  if (status == PW_OK) {
    u->period = calloc(u->n_period + 1, sizeof *u->period);
    if (!u->period) status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for bills");
  }
  for (size_t i = 0; status == PW_OK && i < u->n_period; i++)
    u->period[i] = (pw_meter_period){p[i], (double)NAN, (double)NAN, PW_METER_USED};
  free(p);
  return status;
}

pw_status pw_meter_use_of(pw_fuel fuel, const pw_bill_row row[], size_t n,
                          const pw_daily *weather, const pw_normal_set *normal, int moved,
                          pw_meter_use *use, pw_err *err)
{
  desk d = {.use = use, .may_cool = fuel == PW_FUEL_ELECTRICITY};
  *use = (pw_meter_use){.fuel = fuel};
  pw_status status = take_periods(fuel, row, n, use, err);
  if (status == PW_OK && use->refused == PW_BILL_ACCEPTED)
    status = work(&d, weather, normal, moved, err);
  for (size_t i = 0; i < use->n_period && status == PW_OK; i++)
    use->n_used += use->period[i].place == PW_METER_USED;
  pw_change_data_free(&d.data);
  free(d.place);
  free(d.out);
  if (status != PW_OK) pw_meter_use_free(use);
  return status;
}

void pw_meter_use_free(pw_meter_use *use)
{
  if (!use) return;
  free(use->period);
  *use = (pw_meter_use){.n_used = 0};
}
