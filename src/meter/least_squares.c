#include "meter/least_squares.h"
#include "base/gsl_quiet.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_multifit.h>
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

pw_status pw_least_squares_fit(const double x[], const double y[], const double w[], size_t n,
                               size_t p, pw_least_squares *fit, pw_err *err)
{
  pw_status status = check(x, y, w, n, p, err);
  if (status != PW_OK) return status;
  double one[PW_LEAST_SQUARES_MAX], cov[PW_LEAST_SQUARES_MAX * PW_LEAST_SQUARES_MAX], sse = 0.0;
  double *weight = malloc(n * sizeof *weight);
  gsl_error_handler_t *held = pw_gsl_hold_default();
  gsl_multifit_linear_workspace *work = gsl_multifit_linear_alloc(n, p);
  if (!weight || !work) {
    free(weight);
    gsl_multifit_linear_free(work);
    pw_gsl_release(held);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu rows", n);
  }
  for (size_t i = 0; i < n; i++)
    weight[i] = w ? w[i] : 1.0;
  gsl_matrix_const_view xv = gsl_matrix_const_view_array(x, n, p);
  gsl_vector_const_view yv = gsl_vector_const_view_array(y, n);
  gsl_vector_const_view wv = gsl_vector_const_view_array(weight, n);
  gsl_vector_view bv = gsl_vector_view_array(one, p);
  gsl_matrix_view cv = gsl_matrix_view_array(cov, p, p);
  int code = gsl_multifit_wlinear(&xv.matrix, &wv.vector, &yv.vector, &bv.vector, &cv.matrix,
                                  &sse, work);
  pw_gsl_release(held);
  gsl_multifit_linear_free(work);
  free(weight);
  if (code != GSL_SUCCESS)
    return pw_fail(err, PW_E_CONVERGE, NULL, "least squares: %s", gsl_strerror(code));
  *fit = (pw_least_squares){.n = n, .p = p, .sse = sse};
  memcpy(fit->coefficient, one, p * sizeof *one);
  memcpy(fit->inverse, cov, p * p * sizeof *cov);
  return PW_OK;
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
    for (int half = 0; half < 12; half++, part *= 0.5) {
      for (size_t i = 0; i < p; i++)
        to[i] = at[i] + part * step.coefficient[i];
      there = squares(model, data, y, w, n, to, residual_to, slope_to);
      if (there < sse) break;
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
