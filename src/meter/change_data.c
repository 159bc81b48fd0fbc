/* Degree days of the bills' own days. H_i(t) is piecewise straight with a corner at each daily mean, so
 * sorted means and their sums give it exactly at any t. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "change_impl.h"

static const double GRID_STEP = 0.25; /* K; METHODS section 2 */
enum { GRID_MAX = 480 };              /* wider ranges take a wider step */

static int rising(const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

/* Days of bill i below t. */
static size_t count_below(const pw_change_data *d, size_t i, double t)
{
  const double *v = d->sorted + d->start[i];
  size_t low = 0, high = d->start[i + 1] - d->start[i];
  while (low < high) {
    size_t middle = (low + high) / 2;
    if (v[middle] < t)
      low = middle + 1;
    else
      high = middle;
  }
  return low;
}

double pw_change_heating(const pw_change_data *d, size_t i, double balance, double *share)
{
  size_t n = d->start[i + 1] - d->start[i], k = count_below(d, i, balance);
  /* sums stand one longer than the days: sum[start + i ..] */
  const double *sum = d->sum + d->start[i] + i;
  if (share) *share = (double)k / (double)n;
  return ((double)k * balance - sum[k]) / (double)n;
}

double pw_change_cooling(const pw_change_data *d, size_t i, double balance, double *share)
{
  size_t n = d->start[i + 1] - d->start[i], k = count_below(d, i, balance);
  const double *sum = d->sum + d->start[i] + i;
  if (share) *share = (double)(n - k) / (double)n;
  return (sum[n] - sum[k] - (double)(n - k) * balance) / (double)n;
}

static pw_status check(const pw_change_period period[], size_t n, size_t *days, pw_err *err)
{
  const double most = 1e50; /* so that squares and their products are numbers */
  if (n < 1) return pw_fail(err, PW_E_SHAPE, "n", "no bill");
  *days = 0;
  for (size_t i = 0; i < n; i++) {
    if (period[i].n_t < 1) return pw_fail(err, PW_E_SHAPE, "t", "bill %zu has no day", i);
    int good =
        fabs(period[i].per_day) <= most && period[i].days > 0.0 && period[i].days <= most;
    for (size_t k = 0; k < period[i].n_t; k++)
      good &= fabs(period[i].t[k]) <= most;
    if (!good)
      return pw_fail(err, PW_E_DOMAIN, "period", "bill %zu has a value that is not finite", i);
    *days += period[i].n_t;
  }
  return PW_OK;
}

static void lay_grid(pw_change_data *d)
{
  double high = -INFINITY;
  d->low = INFINITY;
  for (size_t i = 0; i < d->n; i++) {
    d->low = fmin(d->low, d->sorted[d->start[i]]);
    high = fmax(high, d->sorted[d->start[i + 1] - 1]);
  }
  d->step = fmax(GRID_STEP, (high - d->low) / (GRID_MAX - 2));
  d->n_grid = (size_t)((high - d->low) / d->step) + 2;
  if (d->n_grid < PW_CHANGE_PARAMETERS)
    d->n_grid = PW_CHANGE_PARAMETERS; /* room of a Jacobian */
}

pw_status pw_change_data_init(pw_change_data *data, const pw_change_period period[], size_t n,
                              pw_err *err)
{
  size_t days = 0;
  *data = (pw_change_data){.n = 0};
  pw_status status = check(period, n, &days, err);
  if (status != PW_OK) return status;
  pw_change_data d = {.n = n};
  d.per_day = malloc(n * sizeof(double));
  d.days = malloc(n * sizeof(double));
  d.sorted = malloc(days * sizeof(double));
  d.sum = malloc((days + n) * sizeof(double));
  d.start = malloc((n + 1) * sizeof *d.start);
  if (!d.per_day || !d.days || !d.sorted || !d.sum || !d.start) goto no_memory;
  d.start[0] = 0;
  for (size_t i = 0; i < n; i++) {
    double *at = d.sorted + d.start[i], *sum = d.sum + d.start[i] + i;
    d.per_day[i] = period[i].per_day;
    d.days[i] = period[i].days;
    memcpy(at, period[i].t, period[i].n_t * sizeof *at);
    qsort(at, period[i].n_t, sizeof *at, rising);
    sum[0] = 0.0;
    for (size_t k = 0; k < period[i].n_t; k++)
      sum[k + 1] = sum[k] + at[k];
    d.start[i + 1] = d.start[i] + period[i].n_t;
  }
  lay_grid(&d);
  d.h = malloc(d.n_grid * n * sizeof(double));
  d.c = malloc(d.n_grid * n * sizeof(double));
  d.room = malloc(change_room(n, d.n_grid) * sizeof(double));
  d.index = malloc(n * sizeof *d.index);
  if (!d.h || !d.c || !d.room || !d.index) goto no_memory;
  for (size_t g = 0; g < d.n_grid; g++)
    for (size_t i = 0; i < n; i++) {
      double t = d.low + d.step * (double)g;
      d.h[g * n + i] = pw_change_heating(&d, i, t, NULL);
      d.c[g * n + i] = pw_change_cooling(&d, i, t, NULL);
    }
  *data = d;
  return PW_OK;
no_memory:
  pw_change_data_free(&d);
  return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu bills", n);
}

void pw_change_data_free(pw_change_data *data)
{
  if (!data) return;
  free(data->per_day);
  free(data->days);
  free(data->sorted);
  free(data->sum);
  free(data->start);
  free(data->h);
  free(data->c);
  free(data->room);
  free(data->index);
  *data = (pw_change_data){.n = 0};
}
