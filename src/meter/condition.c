#include "meter/condition.h"

#include <math.h>
#include <stdlib.h>

#include "limits.h"
#include "meter/quantile.h"

static pw_status check(const pw_condition_meter *m, const double residual[], size_t n_draw,
                       pw_err *err)
{
  if (n_draw < 1 || m->n < 1)
    return pw_fail(err, PW_E_SHAPE, "n", "%zu draws, %zu bills", n_draw, m->n);
  if (!(m->discrepancy >= 0.0 && isfinite(m->discrepancy)) ||
      !(m->shared >= 0.0 && m->shared <= 1.0))
    return pw_fail(err, PW_E_DOMAIN, "discrepancy", "%g, shared %g", m->discrepancy, m->shared);
  for (size_t i = 0; i < m->n; i++)
    if (!(m->sigma[i] > 0.0 && isfinite(m->sigma[i])))
      return pw_fail(err, PW_E_DOMAIN, "sigma", "%g of bill %zu, want above 0", m->sigma[i], i);
  for (size_t k = 0; k < n_draw * m->n; k++)
    if (!isfinite(residual[k]))
      return pw_fail(err, PW_E_DOMAIN, "residual", "draw %zu, bill %zu", k / m->n, k % m->n);
  return PW_OK;
}

pw_status pw_condition_add(const pw_condition_meter *m, const double residual[], size_t n_draw,
                           double log_weight[], double chi2[], pw_err *err)
{
  pw_status status = check(m, residual, n_draw, err);
  if (status != PW_OK) return status;
  double d2 = m->discrepancy * m->discrepancy, common = d2 * m->shared, ones = 0.0;
  for (size_t i = 0; i < m->n; i++)
    ones += 1.0 / (m->sigma[i] * m->sigma[i] + d2 * (1.0 - m->shared));
  /* S^-1 = A^-1 - s A^-1 11' A^-1, A the diagonal */
  double s = common / (1.0 + common * ones), whole = ones - s * ones * ones;
  for (size_t k = 0; k < n_draw; k++) {
    const double *r = residual + k * m->n;
    double rr = 0.0, r1 = 0.0;
    for (size_t i = 0; i < m->n; i++) {
      double a = m->sigma[i] * m->sigma[i] + d2 * (1.0 - m->shared);
      rr += r[i] * r[i] / a;
      r1 += r[i] / a;
    }
    double form = rr - s * r1 * r1, over = r1 - s * ones * r1;
    /* A constant a day takes the mean away, but only where it is above 0. */
    if (m->free_base && over > 0.0) form -= over * over / whole;
    log_weight[k] -= 0.5 * form;
    if (chi2) chi2[k] += form;
  }
  return PW_OK;
}

static int falling(const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x < y) - (x > y);
}

/* Index k of a generalised Pareto distribution of n exceedances in rising order (Zhang and Stephens,
 * Technometrics 51 (2009), from memory), drawn towards 1/2 as smoothed importance sampling does. */
static double pareto_index(const double x[], size_t n)
{
  enum { MOST = 200 };
  double theta[MOST], likely[MOST], best = -INFINITY, sum = 0.0, mean = 0.0, k = 0.0;
  size_t m = 30 + (size_t)sqrt((double)n);
  double quarter = x[(size_t)floor((double)n / 4.0 + 0.5) - 1], count = (double)n;
  if (m > MOST) m = MOST;
  if (!(quarter > 0.0)) return (double)NAN;
  for (size_t j = 0; j < m; j++) {
    theta[j] = 1.0 / x[n - 1] + (1.0 - sqrt((double)m / ((double)j + 0.5))) / (3.0 * quarter);
    double at = 0.0;
    for (size_t i = 0; i < n; i++)
      at += log1p(-theta[j] * x[i]) / count;
    likely[j] = count * (log(-theta[j] / at) - at - 1.0);
    if (likely[j] > best) best = likely[j];
  }
  for (size_t j = 0; j < m; j++) {
    double w = exp(likely[j] - best);
    sum += isfinite(w) ? w : 0.0;
    mean += isfinite(w) ? w * theta[j] : 0.0;
  }
  mean /= sum;
  for (size_t i = 0; i < n; i++)
    k += log1p(-mean * x[i]) / count;
  return (k * count + 0.5 * 10.0) / (count + 10.0);
}

/* Of the largest weights: a fifth of all, at most 3 sqrt(n). sort[] holds the weights, falling. */
static double tail_index(double sort[], size_t n)
{
  size_t m = (size_t)fmin(0.2 * (double)n, 3.0 * sqrt((double)n));
  if (m < 20) return (double)NAN;
  double cut = sort[m];
  for (size_t i = 0; i < m / 2; i++) {
    double spare = sort[i];
    sort[i] = sort[m - 1 - i];
    sort[m - 1 - i] = spare;
  }
  for (size_t i = 0; i < m; i++)
    sort[i] -= cut;
  return pareto_index(sort, m);
}

pw_status pw_condition_weights(const double log_weight[], const double chi2[], size_t n,
                               double freedom, double least_share, double sort[],
                               double weight[], pw_condition *c, pw_err *err)
{
  double most = -INFINITY, sum = 0.0, squares = 0.0;
  if (n < 1) return pw_fail(err, PW_E_SHAPE, "n", "no draw");
  *c = (pw_condition){.best_chi2 = INFINITY};
  for (size_t k = 0; k < n; k++) {
    most = fmax(most, log_weight[k]);
    c->best_chi2 = fmin(c->best_chi2, chi2[k]);
  }
  for (size_t k = 0; k < n; k++) {
    weight[k] = sort[k] = exp(log_weight[k] - most);
    sum += weight[k];
    squares += weight[k] * weight[k];
  }
  c->effective = sum * sum / squares;
  if (n > 1) qsort(sort, n, sizeof *sort, falling);
  c->tail = tail_index(sort, n);
  c->chi2_limit = meter_chi2(METER_LIMIT(far_chance), fmax(freedom, 1.0));
  if (c->best_chi2 > c->chi2_limit)
    c->refused = PW_CONDITION_FAR;
  else if (!(c->effective >= METER_LIMIT(least_effective) &&
             c->effective >= least_share * (double)n))
    c->refused = PW_CONDITION_FEW;
  else if (c->tail > METER_LIMIT(most_tail))
    c->refused = PW_CONDITION_TAIL;
  return PW_OK;
}
