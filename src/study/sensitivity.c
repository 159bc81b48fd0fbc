#include "study/sensitivity.h"

#include <gsl/gsl_sort_double.h>
#include <math.h>
#include <stdlib.h>

static int by_value(const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

/* Between lower and upper, where either may be infinite. */
static double between(double lower, double upper, double share)
{
  if (share <= 0.0 || lower == upper) return lower;
  if (share >= 1.0) return upper;
  return isinf(upper) || isinf(lower) ? (isinf(lower) ? lower : upper)
                                      : lower + share * (upper - lower);
}

/* pair[2 k] is the k-th value in order, pair[2 k + 1] its weight; all is the sum of the weights. */
static double weighted_quantile(const double pair[], size_t n, double all, double p)
{
  double reach = all - pair[2 * n - 1];
  double below = 0.0;
  for (size_t k = 0; k + 1 < n; k++) {
    double here = below / reach, next = (below + pair[2 * k + 1]) / reach;
    if (p <= next && next > here)
      return between(pair[2 * k], pair[2 * k + 2], (p - here) / (next - here));
    below += pair[2 * k + 1];
  }
  return pair[2 * n - 2];
}

static double plain_quantile(const double sorted[], size_t n, double p)
{
  double at = p * (double)(n - 1);
  size_t k = (size_t)at;
  return k + 1 < n ? between(sorted[k], sorted[k + 1], at - (double)k) : sorted[n - 1];
}

static pw_status check(const double value[], size_t stride, size_t n, const double weight[],
                       double *all, pw_err *err)
{
  if (n == 0) return pw_fail(err, PW_E_SHAPE, "n", "no draws");
  *all = 0.0;
  for (size_t i = 0; i < n; i++) {
    if (isnan(value[i * stride]))
      return pw_fail(err, PW_E_DOMAIN, "value", "draw %zu is not a number", i);
    double w = weight ? weight[i] : 1.0;
    if (!(w >= 0.0 && isfinite(w)))
      return pw_fail(err, PW_E_DOMAIN, "weight", "%g in draw %zu, want 0 or more", w, i);
    *all += w;
  }
  if (!(*all > 0.0)) return pw_fail(err, PW_E_DOMAIN, "weight", "weights sum to 0");
  return PW_OK;
}

/* The values, with their weights where they have any, sorted into work. */
static void in_order(const double value[], size_t stride, size_t n, const double weight[],
                     double work[])
{
  for (size_t i = 0; i < n; i++) {
    work[weight ? 2 * i : i] = value[i * stride];
    if (weight) work[2 * i + 1] = weight[i];
  }
  if (weight)
    qsort(work, n, 2 * sizeof *work, by_value);
  else
    gsl_sort(work, 1, n);
}

pw_status pw_band_of(const double value[], size_t stride, size_t n, const double weight[],
                     double work[], pw_band *band, pw_err *err)
{
  double all = 0.0;
  pw_status s = check(value, stride, n, weight, &all, err);
  if (s != PW_OK) return s;
  pw_band b = {.n = n};
  double sum = 0.0, square = 0.0, finite = 0.0;
  for (size_t i = 0; i < n; i++) {
    double v = value[i * stride], w = weight ? weight[i] : 1.0;
    if (isfinite(v)) {
      sum += w * v;
      finite += w;
    } else {
      b.n_infinite++;
    }
  }
  b.mean = finite > 0.0 ? sum / finite : (double)NAN;
  for (size_t i = 0; i < n; i++) {
    double v = value[i * stride];
    if (isfinite(v)) square += (weight ? weight[i] : 1.0) * (v - b.mean) * (v - b.mean);
  }
  b.sd = finite > 0.0 ? sqrt(square / finite) : (double)NAN;
  double q[3];
  static const double p[3] = {0.1, 0.5, 0.9};
  in_order(value, stride, n, weight, work);
  for (int i = 0; i < 3; i++)
    q[i] = weight ? weighted_quantile(work, n, all, p[i]) : plain_quantile(work, n, p[i]);
  b.p10 = q[0];
  b.p50 = q[1];
  b.p90 = q[2];
  *band = b;
  return PW_OK;
}

pw_status pw_quantiles_of(const double value[], size_t stride, size_t n, const double weight[],
                          double work[], double out[], size_t n_out, pw_err *err)
{
  double all = 0.0;
  pw_status s = check(value, stride, n, weight, &all, err);
  if (s == PW_OK && n_out < 2)
    s = pw_fail(err, PW_E_SHAPE, "n_out", "%zu quantiles, want 2 or more", n_out);
  if (s != PW_OK) return s;
  in_order(value, stride, n, weight, work);
  for (size_t k = 0; k < n_out; k++) {
    double p = (double)k / (double)(n_out - 1);
    if (weight)
      out[k] = weighted_quantile(work, n, all, p);
    else /* as many as there are: the values themselves, to the last digit */
      out[k] = n_out == n ? work[k] : plain_quantile(work, n, p);
  }
  return PW_OK;
}

double pw_chance_above(const double value[], size_t stride, size_t n, const double weight[],
                       double limit)
{
  double above = 0.0, all = 0.0;
  for (size_t i = 0; i < n; i++) {
    double w = weight ? weight[i] : 1.0;
    if (value[i * stride] > limit) above += w;
    all += w;
  }
  return all > 0.0 ? above / all : (double)NAN;
}

pw_status pw_sensitivity_of(const double a[], const double b[], const double ab[],
                            size_t stride, size_t n, pw_sensitivity *s, pw_err *err)
{
  if (n < 2) return pw_fail(err, PW_E_SHAPE, "n", "%zu draws, want 2 or more", n);
  double mean = 0.0, variance = 0.0;
  for (size_t i = 0; i < n; i++) {
    size_t k = i * stride;
    if (!(isfinite(a[k]) && isfinite(b[k]) && isfinite(ab[k])))
      return pw_fail(err, PW_E_DOMAIN, "value", "draw %zu is not finite", i);
    mean += a[k] + b[k];
  }
  mean /= 2.0 * (double)n;
  for (size_t i = 0; i < n; i++) {
    double da = a[i * stride] - mean, db = b[i * stride] - mean;
    variance += da * da + db * db;
  }
  variance /= 2.0 * (double)n;
  *s = (pw_sensitivity){0};
  /* Rounding alone is no variance. */
  if (!(variance > 1e-28 * mean * mean)) return PW_OK;

  double first = 0.0, total = 0.0;
  for (size_t i = 0; i < n; i++) {
    size_t k = i * stride;
    double f = (b[k] - mean) * (ab[k] - a[k]) / variance; /* Saltelli 2010, table 2 (b) */
    double t = 0.5 * (a[k] - ab[k]) * (a[k] - ab[k]) / variance; /* Jansen 1999; there (f) */
    first += f;
    total += t;
  }
  s->first_order = first / (double)n;
  s->total = total / (double)n;
  return PW_OK;
}
