/* Readings of one series become bills: periods of a week and more as they are, shorter ones by calendar month
 * of the meter's local time. */
#include <math.h>

#include "base/date.h"
#include "job/usage_feed_impl.h"

enum { LONG_S = 7 * FEED_DAY_S };
/* Of a month's days that readings must cover; of its time that may be estimated before it counts so. */
static const double COVER = 0.99, ESTIMATED = 0.1;

/* Standard time where the feed does not say: by option, else so that the first reading begins at
 * midnight (billing periods begin so in winter and in summer time: the later one is standard). */
void feed_find_clock(feed_desk *d, const feed_series *s)
{
  feed_clock *c = &d->f.clock;
  if (c->said || s->n == 0) return;
  if (!isnan(d->o->zone_h)) {
    c->tz_s = 3600.0 * d->o->zone_h;
    return;
  }
  const feed_reading *r = d->f.reading + s->first;
  double most = 0.0;
  for (size_t i = 0; i < s->n; i++) {
    double past = fmod(r[i].start, FEED_DAY_S);
    if (r[i].duration < LONG_S && i > 0) break;
    if (past > most) most = past;
  }
  if (most > 12.0 * 3600.0) most -= FEED_DAY_S;
  c->tz_s = -most;
  pw_notes_warn(
      d->notes, d->f.name, 0,
      "the feed does not say its local time; taken so that its first reading begins at "
      "midnight (UTC%+.4g h); --zone says otherwise",
      c->tz_s / 3600.0);
}

static int local_day(const feed_desk *d, double utc)
{
  return (int)floor(feed_local(&d->f.clock, utc) / FEED_DAY_S);
}

/* The read date nearest to an instant: bills run from midnight to midnight, give or take summer time. */
static int read_day(const feed_desk *d, double utc)
{
  return (int)floor(feed_local(&d->f.clock, utc) / FEED_DAY_S + 0.5);
}

static int is_estimated(const feed_reading *r) { return r->quality == 8 || r->quality == 9; }

static pw_status add(feed_desk *d, const feed_series *s, const pw_bill_row *row)
{
  pw_bills_fuel *b = &d->bills.fuel[s->fuel];
  pw_err why = {0};
  pw_status status = pw_bills_add(b, row, &why);
  if (status == PW_E_SHAPE)
    return pw_fail_at(d->err, PW_E_DATA, d->f.name, 0, 0, "%.200s", why.text);
  return status;
}

static double money_of(const feed_series *s, double cost)
{
  int dollars = !s->type || s->type->currency < 0 || s->type->currency == 840;
  return dollars ? 1e-5 * cost : (double)NAN;
}

pw_status feed_add_period(feed_desk *d, const feed_series *s, const feed_reading *r)
{
  pw_bill_row row = {.from = read_day(d, r->start),
                     .to = read_day(d, r->start + r->duration),
                     .amount = r->value * s->scale,
                     .generation = (double)NAN,
                     .read = is_estimated(r) ? PW_READ_ESTIMATED : PW_READ_ACTUAL,
                     .cost = money_of(s, r->cost)};
  return row.to > row.from ? add(d, s, &row) : PW_OK;
}

typedef struct month {
  int key, from, to; /* yyyymm; local days of its first and last reading */
  double value, cost, seconds, estimated, first_s, last_s;
} month;

static pw_status add_month(feed_desk *d, const feed_series *s, const month *m)
{
  pw_bill_row row = {.from = m->from,
                     .to = m->to,
                     .amount = m->value * s->scale,
                     .generation = (double)NAN,
                     .read = m->estimated > ESTIMATED * m->seconds ? PW_READ_ESTIMATED
                                                                   : PW_READ_ACTUAL,
                     .cost = money_of(s, m->cost)};
  if (m->seconds < COVER * (m->last_s - m->first_s)) {
    pw_notes_warn(d->notes, d->f.name, 0, "%d-%02d: %.0f of %.0f hours have readings; missing",
                  m->key / 100, m->key % 100, m->seconds / 3600.0,
                  (m->last_s - m->first_s) / 3600.0);
    row.amount = row.cost = (double)NAN;
    row.read = PW_READ_MISSING;
  } else if (m->estimated > 0.0) {
    pw_notes_warn(d->notes, d->f.name, 0, "%d-%02d: %.1f %% of its time is estimated",
                  m->key / 100, m->key % 100, 100.0 * m->estimated / m->seconds);
  }
  return row.to > row.from ? add(d, s, &row) : PW_OK;
}

pw_status feed_add_readings(feed_desk *d, const feed_series *s)
{
  month m = {.key = 0};
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < s->n; i++) {
    const feed_reading *r = d->f.reading + s->first + i;
    if (r->duration >= LONG_S) {
      status = feed_add_period(d, s, r);
      continue;
    }
    int day = local_day(d, r->start), key = pw_date_of_day(day) / 100;
    if (key != m.key) {
      if (m.key) status = add_month(d, s, &m);
      if (status != PW_OK) return status;
      m = (month){.key = key, .from = day, .cost = 0.0, .first_s = r->start};
    }
    m.value += r->value;
    m.cost += r->cost; /* NAN when one has none */
    m.seconds += r->duration;
    if (is_estimated(r)) m.estimated += r->duration;
    m.last_s = r->start + r->duration;
    m.to = read_day(d, m.last_s);
  }
  return status == PW_OK && m.key ? add_month(d, s, &m) : status;
}
