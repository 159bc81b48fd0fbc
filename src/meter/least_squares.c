#include "meter/least_squares.h"
#include "base/gsl_quiet.h"

#include <float.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static pw_status check(const double x[], const double y[], const double w[], size_t n, size_t p,
                       pw_err *err)
{
  if (p < 1 || p > PW_LEAST_SQUARES_MAX || n < p)
    return pw_fail(err, PW_E_SHAPE, "n", "%zu rows for %zu coefficients", n, p);
  for (size_t i = 0; i < n; i++) {
    int good = isfinite(y[i]) && (!w || (w[i] > 0.0 && isfinite(w[i])));
    for (size_t k = 0; k < p; k++)
      good &= isfinite(x[i * p + k]);
    if (!good) return pw_fail(err, PW_E_DOMAIN, "x", "row %zu is not finite", i);
  }
  return PW_OK;
}

/* Parts of one piece of memory: GSL's own fit takes more inside, and does not look whether it got it. */
typedef struct desk {
  double *u, *s, *v, *scale; /* u[n p], v[p p], the others [p] */
} desk;

/* Rows times the root of their weights, columns scaled to a mean of about 1 by powers of 2. */
static void balance(const double x[], const double w[], size_t n, size_t p, const desk *d)
{
  for (size_t k = 0; k < p; k++) {
    double sum = 0.0;
    for (size_t i = 0; i < n; i++) {
      d->u[i * p + k] = x[i * p + k] * (w ? sqrt(w[i]) : 1.0);
      sum += fabs(d->u[i * p + k]);
    }
    int power = 0;
    if (sum > 0.0) frexp(sum / (double)n, &power);
    d->scale[k] = ldexp(1.0, -power);
    for (size_t i = 0; i < n; i++)
      d->u[i * p + k] *= d->scale[k];
  }
}

/* b = V S^-1 U' y and (X' W X)^-1 = V S^-2 V'; singular values that are naught beside the largest take no part. */
static void solve(const double y[], const double w[], size_t n, size_t p, const desk *d,
                  pw_least_squares *fit)
{
  for (size_t j = 0; j < p && d->s[j] > DBL_EPSILON * d->s[0]; j++) {
    double along = 0.0;
    for (size_t i = 0; i < n; i++)
      along += d->u[i * p + j] * (w ? sqrt(w[i]) : 1.0) * y[i];
    for (size_t k = 0; k < p; k++) {
      double vk = d->v[k * p + j] / d->s[j] * d->scale[k];
      fit->coefficient[k] += vk * along;
      for (size_t l = 0; l < p; l++)
        fit->inverse[k * p + l] += vk * (d->v[l * p + j] / d->s[j] * d->scale[l]);
    }
  }
}

static double squares_left(const double x[], const double y[], const double w[], size_t n,
                           size_t p, const double b[])
{
  double sse = 0.0;
  for (size_t i = 0; i < n; i++) {
    double left = y[i];
    for (size_t k = 0; k < p; k++)
      left -= x[i * p + k] * b[k];
    sse += (w ? w[i] : 1.0) * left * left;
  }
  return sse;
}

pw_status pw_least_squares_fit(const double x[], const double y[], const double w[], size_t n,
                               size_t p, pw_least_squares *fit, pw_err *err)
{
  pw_status status = check(x, y, w, n, p, err);
  if (status != PW_OK) return status;
  double *room = malloc((n * p + p * p + 2 * p) * sizeof *room);
  if (!room) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu rows", n);
  desk d = {.u = room, .s = room + n * p};
  d.v = d.s + p;
  d.scale = d.v + p * p;
  balance(x, w, n, p, &d);
  gsl_matrix_view u = gsl_matrix_view_array(d.u, n, p), v = gsl_matrix_view_array(d.v, p, p);
  gsl_vector_view s = gsl_vector_view_array(d.s, p);
  gsl_error_handler_t *held = pw_gsl_hold();
  int code = gsl_linalg_SV_decomp_jacobi(&u.matrix, &v.matrix, &s.vector);
  pw_gsl_release(held);
  if (code == GSL_SUCCESS) {
    *fit = (pw_least_squares){.n = n, .p = p};
    solve(y, w, n, p, &d, fit);
    fit->sse = squares_left(x, y, w, n, p, fit->coefficient);
  } else {
    status = pw_fail(err, PW_E_CONVERGE, NULL, "least squares: %s", gsl_strerror(code));
  }
  free(room);
  return status;
}

/* Sum of squares at b, or NAN outside the model; residual[n]. */
static double squares(pw_curve_model model, void *data, const double y[], const double w[],
                      size_t n, const double b[], double residual[], double slope[])
{
  double sse = 0.0;
  if (!model(data, b, residual, slope)) return (double)NAN;
  for (size_t i = 0; i < n; i++) {
    residual[i] = y[i] - residual[i];
    sse += (w ? w[i] : 1.0) * residual[i] * residual[i];
  }
  return sse;
}

enum { STEPS = 60 };

pw_status pw_least_squares_polish(pw_curve_model model, void *data, const double y[],
                                  const double w[], size_t n, size_t p, double b[],
                                  pw_least_squares *fit, pw_err *err)
{
  if (p < 1 || p > PW_LEAST_SQUARES_MAX || n < p)
    return pw_fail(err, PW_E_SHAPE, "n", "%zu rows for %zu coefficients", n, p);
  double *room = malloc(2 * n * (p + 1) * sizeof *room);
  if (!room) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu rows", n);
  double *residual = room, *slope = room + n, *residual_to = slope + n * p,
         *slope_to = residual_to + n, at[PW_LEAST_SQUARES_MAX];
  pw_least_squares step = {.n = 0};
  memcpy(at, b, p * sizeof *at);
  double sse = squares(model, data, y, w, n, at, residual, slope);
  pw_status status = isfinite(sse) ? PW_OK
                                   : pw_fail(err, PW_E_DOMAIN, "b",
                                             "the start is outside what the model takes");
  for (int k = 0; status == PW_OK && k < STEPS; k++) {
    double to[PW_LEAST_SQUARES_MAX], part = 1.0, there = sse;
    status = pw_least_squares_fit(slope, residual, w, n, p, &step, err);
    if (status != PW_OK) break;
    for (int half = 0; half < 12; half++) {
      for (size_t i = 0; i < p; i++)
        to[i] = at[i] + part * step.coefficient[i];
      there = squares(model, data, y, w, n, to, residual_to, slope_to);
      if (there < sse) break;
      part *= 0.5;
    }
    if (!(there < sse)) break;
    sse = there;
    memcpy(at, to, p * sizeof *at);
    memcpy(residual, residual_to, n * sizeof *residual);
    memcpy(slope, slope_to, n * p * sizeof *slope);
  }
  free(room);
  if (status != PW_OK) return status;
  *fit = step;
  fit->sse = sse;
  memcpy(fit->coefficient, at, p * sizeof *at);
  memcpy(b, at, p * sizeof *at);
  return PW_OK;
}
