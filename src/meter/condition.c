#include "meter/condition.h"

#include <gsl/gsl_integration.h>
#include <math.h>
#include <stdlib.h>

#include "base/gsl_quiet.h"
#include "limits.h"
#include "meter/quantile.h"

/* Points of the Gauss rule over sigma_d; the largest sigma_d, over the scale of its half-normal: one in 2e-9 is above. */
enum { POINTS = 48 };
static const double FARTHEST = 6.0;

static int is_drawn(const pw_condition_meter *m) { return m->drawn && m->discrepancy > 0.0; }

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

pw_condition_spread pw_condition_spread_at(const pw_condition_meter *m, double discrepancy,
                                           double over[])
{
  double d2 = discrepancy * discrepancy, common = d2 * m->shared;
  pw_condition_spread s = {.ones = 0.0};
  for (size_t i = 0; i < m->n; i++) {
    double a = m->sigma[i] * m->sigma[i] + d2 * (1.0 - m->shared);
    over[i] = 1.0 / a;
    s.ones += over[i];
    s.log_det += log(a);
  }
  s.less = common / (1.0 + common * s.ones);
  s.whole = s.ones - s.less * s.ones * s.ones;
  s.log_det += m->free_base ? log(s.ones) : log1p(common * s.ones);
  return s;
}

/* r' S^-1 r. A constant a day takes the mean away, but only where it is above 0. */
static double form_of(const pw_condition_meter *m, const pw_condition_spread *s,
                      const double over[], const double r[])
{
  double rr = 0.0, r1 = 0.0;
  for (size_t i = 0; i < m->n; i++) {
    rr += r[i] * r[i] * over[i];
    r1 += r[i] * over[i];
  }
  double form = rr - s->less * r1 * r1, above = r1 - s->less * s->ones * r1;
  return m->free_base && above > 0.0 ? form - above * above / s->whole : form;
}

/* Gauss rule over the half-normal. Its variable is the root of sigma_d, which sets more points to small ones, where bills
 * that lie close tell the most. */
typedef struct mixture {
  double discrepancy[POINTS], share[POINTS]; /* share: ln of the weight and of det S^-1/2 */
  pw_condition_spread spread[POINTS];
  double *over; /* [POINTS * bills]; owned */
} mixture;

static pw_status mixture_of(const pw_condition_meter *m, mixture *mix, pw_err *err)
{
  gsl_error_handler_t *held = pw_gsl_hold();
  gsl_integration_glfixed_table *rule = gsl_integration_glfixed_table_alloc(POINTS);
  pw_gsl_release(held);
  mix->over = malloc(POINTS * m->n * sizeof *mix->over);
  if (!rule || !mix->over) {
    if (rule) gsl_integration_glfixed_table_free(rule);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the quadrature");
  }
  for (size_t q = 0; q < POINTS; q++) {
    double root = 0.0, width = 0.0;
    gsl_integration_glfixed_point(0.0, sqrt(FARTHEST), q, &root, &width, rule);
    double x = root * root;
    mix->discrepancy[q] = x * m->discrepancy;
    mix->spread[q] = pw_condition_spread_at(m, mix->discrepancy[q], mix->over + q * m->n);
    mix->share[q] =
        log(width * 2.0 * root * sqrt(2.0 / M_PI)) - 0.5 * (x * x + mix->spread[q].log_det);
  }
  gsl_integration_glfixed_table_free(rule);
  return PW_OK;
}

/* ln of a draw's mean likelihood; *found: the mean of sigma_d by it. */
static double mean_over(const pw_condition_meter *m, const mixture *mix, const double r[],
                        double *found)
{
  double at[POINTS], most = -INFINITY, sum = 0.0, first = 0.0;
  for (size_t q = 0; q < POINTS; q++) {
    at[q] = mix->share[q] - 0.5 * form_of(m, &mix->spread[q], mix->over + q * m->n, r);
    most = fmax(most, at[q]);
  }
  for (size_t q = 0; q < POINTS; q++) {
    double e = exp(at[q] - most);
    sum += e;
    first += e * mix->discrepancy[q];
  }
  *found = first / sum;
  return most + log(sum);
}

/* log_mean[n_draw] and found[n_draw] of mean_over. */
static pw_status means_over(const pw_condition_meter *m, const double residual[], size_t n_draw,
                            double log_mean[], double found[], pw_err *err)
{
  mixture mix = {.over = NULL};
  pw_status status = mixture_of(m, &mix, err);
  for (size_t k = 0; status == PW_OK && k < n_draw; k++)
    log_mean[k] = mean_over(m, &mix, residual + k * m->n, &found[k]);
  free(mix.over);
  return status;
}

pw_status pw_condition_add(const pw_condition_meter *m, const double residual[], size_t n_draw,
                           double log_weight[], double chi2[], pw_err *err)
{
  pw_status status = check(m, residual, n_draw, err);
  if (status != PW_OK) return status;
  double *over = malloc((m->n + 2 * n_draw) * sizeof *over);
  if (!over) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu draws", n_draw);
  double *log_mean = over + m->n;
  if (is_drawn(m)) status = means_over(m, residual, n_draw, log_mean, log_mean + n_draw, err);
  pw_condition_spread s = pw_condition_spread_at(m, m->discrepancy, over);
  for (size_t k = 0; status == PW_OK && k < n_draw; k++) {
    double form = form_of(m, &s, over, residual + k * m->n);
    log_weight[k] += is_drawn(m) ? log_mean[k] : -0.5 * form;
    if (chi2) chi2[k] += form;
  }
  free(over);
  return status;
}

pw_status pw_condition_found(const pw_condition_meter *m, const double residual[],
                             size_t n_draw, double *discrepancy, pw_err *err)
{
  double most = -INFINITY, sum = 0.0, first = 0.0;
  pw_status status = check(m, residual, n_draw, err);
  if (status == PW_OK) *discrepancy = m->discrepancy;
  if (status != PW_OK || !is_drawn(m)) return status;
  double *log_mean = malloc(2 * n_draw * sizeof *log_mean);
  if (!log_mean) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu draws", n_draw);
  double *found = log_mean + n_draw;
  status = means_over(m, residual, n_draw, log_mean, found, err);
  for (size_t k = 0; status == PW_OK && k < n_draw; k++)
    most = fmax(most, log_mean[k]);
  for (size_t k = 0; status == PW_OK && k < n_draw; k++) {
    sum += exp(log_mean[k] - most);
    first += exp(log_mean[k] - most) * found[k];
  }
  if (status == PW_OK) *discrepancy = first / sum;
  free(log_mean);
  return status;
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
  if (!(quarter > 0.0) || !(x[n - 1] > 0.0)) return (double)NAN;
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
  if (m < 20 || m >= n) return (double)NAN;
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
  else if (c->effective < METER_LIMIT(least_effective) ||
           c->effective < least_share * (double)n)
    c->refused = PW_CONDITION_FEW;
  else if (c->tail > METER_LIMIT(most_tail))
    c->refused = PW_CONDITION_TAIL;
  return PW_OK;
}
