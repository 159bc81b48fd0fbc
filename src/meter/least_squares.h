/* Weighted linear least squares with the covariance of its coefficients, and the last digits of a model
 * that is not linear. */
#ifndef METER_LEAST_SQUARES_H
#define METER_LEAST_SQUARES_H

#include <stddef.h>

#include "panewright/status.h"

enum { PW_LEAST_SQUARES_MAX = 8 }; /* coefficients */

typedef struct pw_least_squares {
  size_t n, p;
  double coefficient[PW_LEAST_SQUARES_MAX];
  double inverse[PW_LEAST_SQUARES_MAX * PW_LEAST_SQUARES_MAX]; /* (X' W X)^-1, p x p, row-major;
                                                                  times s^2 it is the covariance */
  double sse;                                                  /* sum of w (y - X b)^2 */
} pw_least_squares;

/* Fits y = X b.
 *
 * Given     x[n * p] row-major; y[n]; w[n] weights above 0, or NULL for 1; p <= n, at most
 *           PW_LEAST_SQUARES_MAX
 * Returned  *fit
 * Status    PW_OK; PW_E_SHAPE too few rows or too many columns; PW_E_DOMAIN a value that is not
 *           finite; PW_E_NOMEM; PW_E_CONVERGE. On failure *fit is untouched.
 * Notes     Columns that say the same (to 1e-15 of the largest singular value) share the coefficient.
 * Source    Singular values (GSL multifit); held against NIST StRD Norris, NoInt1, NoInt2, Longley
 *           (panewright check --group bills).
 */
pw_status pw_least_squares_fit(const double x[], const double y[], const double w[], size_t n,
                               size_t p, pw_least_squares *fit, pw_err *err);

/* A model y = f(b): fills value[n] and the derivatives slope[n * p], row-major. 0 when b is outside
 * what the model takes. */
typedef int (*pw_curve_model)(void *data, const double b[], double value[], double slope[]);

/* Gauss-Newton from a start that is near: steps are taken while the weighted sum of squares falls.
 *
 * Given     model, data; y[n], w[n] or NULL; b[p] the start
 * Returned  b[p]; *fit: coefficient is b, inverse from the derivatives at b, sse there
 * Status    as pw_least_squares_fit; PW_E_DOMAIN the start is outside the model. On failure b is
 *           untouched.
 * Source    held against NIST StRD Misra1a, Misra1b.
 */
pw_status pw_least_squares_polish(pw_curve_model model, void *data, const double y[],
                                  const double w[], size_t n, size_t p, double b[],
                                  pw_least_squares *fit, pw_err *err);

#endif
