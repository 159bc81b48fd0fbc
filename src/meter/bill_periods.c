#include "meter/bill_periods.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "limits.h"

enum { YEAR = 365, LEAST_COVERED = 330, MONTH_MOST = 40 };

void pw_bill_find(pw_bill_findings *f, pw_bill_finding_kind kind, int from, int to,
                  size_t count, double value)
{
  if (f->n < PW_BILL_FINDINGS_MAX)
    f->finding[f->n++] = (pw_bill_finding){kind, from, to, count, value};
  else
    f->lost++;
}

/* By the last day, then the first, so that deliveries without a first day stand in their place. */
static int in_time(const void *a, const void *b)
{
  const pw_bill_row *x = a, *y = b;
  if (x->to != y->to) return x->to < y->to ? -1 : 1;
  if (x->from != y->from) return x->from < y->from ? -1 : 1;
  if (x->read != y->read) return x->read < y->read ? -1 : 1;
  return (x->amount > y->amount) - (x->amount < y->amount);
}

static int same_number(double a, double b) { return a == b || (isnan(a) && isnan(b)); }

static int same_bill(const pw_bill_row *a, const pw_bill_row *b)
{
  return a->from == b->from && a->to == b->to && a->read == b->read &&
         same_number(a->amount, b->amount) && same_number(a->generation, b->generation);
}

/* Doubles go, first days are filled, overlaps are named. Returns the rows that stay. */
static size_t order_rows(pw_bill_row r[], size_t n, pw_bill_refusal *refused,
                         pw_bill_findings *f)
{
  size_t kept = 0;
  if (n > 1) qsort(r, n, sizeof *r, in_time);
  for (size_t i = 0; i < n; i++) {
    pw_bill_row one = r[i];
    if (kept && same_bill(&one, &r[kept - 1])) {
      pw_bill_find(f, PW_BILL_DOUBLE, one.from, one.to, 1, one.amount);
      continue;
    }
    if (one.from == PW_BILL_NO_DAY) {
      if (!kept) {
        pw_bill_find(f, PW_BILL_FIRST, one.to, one.to, 1, one.amount);
        /* Its last day is where the next one begins. */
        r[kept++] =
            (pw_bill_row){one.to, one.to, 0.0, (double)NAN, PW_READ_MISSING, (double)NAN};
        continue;
      }
      one.from = r[kept - 1].to;
      if (one.from == one.to) {
        pw_bill_find(f, PW_BILL_OVERLAP, one.from, one.to, 1, one.amount);
        *refused = PW_BILL_REFUSED_OVERLAP;
        continue;
      }
    }
    if (kept && one.from < r[kept - 1].to) {
      pw_bill_find(f, PW_BILL_OVERLAP, one.from,
                   r[kept - 1].to < one.to ? r[kept - 1].to : one.to, 1, one.amount);
      *refused = PW_BILL_REFUSED_OVERLAP;
    }
    r[kept++] = one;
  }
  if (kept && r[0].from == r[0].to) memmove(r, r + 1, --kept * sizeof *r);
  return kept;
}

/* Solar cells behind an electric meter: with their generation the use is known, without it a bill
 * below 0 that no estimate explains tells of them. */
static void solar(pw_bill_row r[], size_t n, pw_bill_refusal *refused, pw_bill_findings *f)
{
  size_t given = 0, below = 0, known = 0;
  for (size_t i = 0; i < n; i++) {
    if (r[i].read == PW_READ_MISSING || isnan(r[i].amount)) continue;
    known++;
    if (!isnan(r[i].generation)) given++;
  }
  for (size_t i = 0; i < n; i++) {
    if (isnan(r[i].amount) || r[i].read == PW_READ_MISSING) continue;
    if (!isnan(r[i].generation)) {
      r[i].amount += r[i].generation;
      continue;
    }
    int explained = r[i].read == PW_READ_CORRECTED ||
                    (i > 0 && r[i - 1].read == PW_READ_ESTIMATED) ||
                    (i > 1 && r[i - 2].read == PW_READ_ESTIMATED);
    if (r[i].amount < 0.0 && !explained) {
      pw_bill_find(f, PW_BILL_SOLAR, r[i].from, r[i].to, 1, r[i].amount);
      below++;
    }
  }
  if (below || (given && given < known)) *refused = PW_BILL_REFUSED_SOLAR;
  if (!below && given && given < known)
    pw_bill_find(f, PW_BILL_SOLAR, r[0].from, r[n - 1].to, known - given, (double)NAN);
}

/* A run of estimated bills up to the read that closes it, or what comes of it otherwise. Returns the row
 * after the run; *to gets the period when there is one. */
static size_t close_estimate(const pw_bill_row r[], size_t n, size_t i, pw_bill_period *to,
                             pw_bill_findings *f)
{
  size_t k = i;
  *to = (pw_bill_period){r[i].from, r[i].to, 0.0, 0};
  for (; k < n && (k == i || r[k].from == r[k - 1].to); k++) {
    if (r[k].read == PW_READ_MISSING || isnan(r[k].amount)) break;
    to->use += r[k].amount;
    to->to = r[k].to;
    to->n_row++;
    if (r[k].read != PW_READ_ESTIMATED) {
      int joined = to->to - to->from <= METER_LIMIT(join_days);
      pw_bill_find(f, joined ? PW_BILL_JOINED : PW_BILL_ESTIMATE_DROPPED, to->from, to->to,
                   to->n_row, to->use);
      if (!joined) to->n_row = 0;
      return k + 1;
    }
  }
  pw_bill_find(f, k == n ? PW_BILL_ESTIMATE_LAST : PW_BILL_ESTIMATE_DROPPED, to->from, to->to,
               to->n_row, to->use);
  to->n_row = 0;
  return k;
}

/* Bills whose last day counts leave a day between each two; read dates leave none. */
static void judge_last_days(const pw_bill_row r[], size_t n, pw_bill_findings *f)
{
  size_t apart = 0;
  for (size_t i = 1; i < n; i++)
    apart += r[i].from == r[i - 1].to + 1;
  if (apart >= 3 && 2 * apart > n - 1)
    pw_bill_find(f, PW_BILL_LAST_DAY, r[0].from, r[n - 1].to, apart, 0.0);
}

static size_t read_periods(const pw_bill_row r[], size_t n, pw_fuel fuel, pw_bill_period p[],
                           pw_bill_findings *f)
{
  size_t kept = 0;
  for (size_t i = 0; i < n;) {
    pw_bill_period one = {r[i].from, r[i].to, r[i].amount, 1};
    if (i > 0 && r[i].from > r[i - 1].to)
      pw_bill_find(f, PW_BILL_GAP, r[i - 1].to, r[i].from, 0, 0.0);
    if (r[i].read == PW_READ_MISSING || isnan(r[i].amount)) {
      pw_bill_find(f, PW_BILL_MISSING, r[i].from, r[i].to, 1, 0.0);
      i++;
      continue;
    }
    if (r[i].read == PW_READ_ESTIMATED) {
      i = close_estimate(r, n, i, &one, f);
      if (!one.n_row) continue;
    } else {
      i++;
    }
    if (one.use < 0.0) {
      /* A true-up: the sum with the bills before it is true. */
      while (kept && p[kept - 1].to == one.from && one.use < 0.0) {
        one.from = p[kept - 1].from;
        one.use += p[kept - 1].use;
        one.n_row += p[--kept].n_row;
      }
      pw_bill_find(f, PW_BILL_CORRECTED, one.from, one.to, one.n_row, one.use);
      if (one.use < 0.0) continue;
    } else if (one.use == 0.0) {
      int drop = fuel == PW_FUEL_ELECTRICITY;
      pw_bill_find(f, PW_BILL_ZERO, one.from, one.to, 1, drop);
      if (drop) continue;
    }
    p[kept++] = one;
  }
  return kept;
}

/* Bills of under 10 days go with the neighbour before them, else with the one after. */
static size_t join_short(pw_bill_period p[], size_t n, pw_bill_findings *f)
{
  size_t kept = 0;
  for (size_t i = 0; i < n; i++) {
    int brief = p[i].to - p[i].from < METER_LIMIT(short_days);
    if (brief) pw_bill_find(f, PW_BILL_SHORT, p[i].from, p[i].to, 1, p[i].use);
    int before = kept && p[kept - 1].to == p[i].from &&
                 (brief || p[kept - 1].to - p[kept - 1].from < METER_LIMIT(short_days));
    if (!before) {
      p[kept++] = p[i];
      continue;
    }
    p[kept - 1].to = p[i].to;
    p[kept - 1].use += p[i].use;
    p[kept - 1].n_row += p[i].n_row;
  }
  return kept;
}

static size_t drop_old(pw_bill_period p[], size_t n, pw_bill_findings *f)
{
  int old = (int)(METER_LIMIT(most_months) * YEAR / 12.0) + 20; /* a read may come late */
  size_t first = 0;
  while (n && first < n && p[first].from < p[n - 1].to - old)
    first++;
  if (!first) return n;
  pw_bill_find(f, PW_BILL_OLD, p[0].from, p[first - 1].to, first, 0.0);
  memmove(p, p + first, (n - first) * sizeof *p);
  return n - first;
}

/* Wanted: a year in which at most one month is not closed by reads of its own. */
static void judge_cover(const pw_bill_period p[], size_t n, pw_bill_findings *f)
{
  int most = 0;
  for (size_t i = 0; i < n; i++) {
    int covered = 0;
    for (size_t k = i; k < n && p[k].to <= p[i].from + YEAR + 10; k++)
      if (p[k].n_row == 1 || p[k].to - p[k].from < MONTH_MOST) covered += p[k].to - p[k].from;
    if (covered > most) most = covered;
  }
  if (n && most < LEAST_COVERED)
    pw_bill_find(f, PW_BILL_SCARCE, p[0].from, p[n - 1].to, n, most);
}

pw_status pw_bill_periods_of(const pw_bill_row row[], size_t n, pw_fuel fuel,
                             pw_bill_period period[], size_t *n_period,
                             pw_bill_refusal *refused, pw_bill_findings *f, pw_err *err)
{
  if (n > PW_BILL_PERIODS_MAX)
    return pw_fail(err, PW_E_SHAPE, "n", "%zu bills of one fuel, want at most %d", n,
                   PW_BILL_PERIODS_MAX);
  for (size_t i = 0; i < n; i++)
    if (row[i].from != PW_BILL_NO_DAY && !(row[i].from < row[i].to))
      return pw_fail(err, PW_E_DOMAIN, "to", "bill %zu does not end after it begins", i);
  *refused = PW_BILL_ACCEPTED;
  *n_period = 0;
  pw_bill_row *r = malloc((n + 1) * sizeof *r);
  if (!r) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu bills", n);
  memcpy(r, row, n * sizeof *r);
  n = order_rows(r, n, refused, f);
  if (fuel == PW_FUEL_ELECTRICITY) solar(r, n, refused, f);
  if (*refused == PW_BILL_ACCEPTED) {
    judge_last_days(r, n, f);
    size_t kept = read_periods(r, n, fuel, period, f);
    kept = join_short(period, kept, f);
    kept = drop_old(period, kept, f);
    judge_cover(period, kept, f);
    *n_period = kept;
    if (!kept) *refused = PW_BILL_REFUSED_FEW;
  }
  free(r);
  return PW_OK;
}
