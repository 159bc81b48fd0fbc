/* A response surface: a smooth model of many results of many inputs, fitted to a few runs of the real
 * one, with its own honest estimate of the error it makes. Internal. */
#ifndef STUDY_SURFACE_H
#define STUDY_SURFACE_H

#include <stddef.h>

#include "panewright/status.h"

enum {
  SURFACE_DIMS_MAX = 64,
  SURFACE_TERMS_MAX = 1 + SURFACE_DIMS_MAX + SURFACE_DIMS_MAX * (SURFACE_DIMS_MAX + 1) / 2
};

/* y_o(z) = c_o0 + sum c_oi z_i + sum c_oij z_i z_j, each z about -1 .. 1. */
typedef struct surface {
  size_t n_dim, n_out, n_term;
  double *coefficient; /* [n_term * n_out], owned */
  double *
      left_out; /* [n_run * n_out], owned: what each run misses when it is left out of the fit */
  size_t n_run;
  double ridge; /* weight that keeps the second-order terms small where the runs do not speak */
} surface;

/* Least squares with a ridge on the second-order terms; the ridge is the one of a ladder with the
 * least leave-one-out error, summed over the outputs that focus[n_out] weighs.
 *
 * Given     z[n_run * n_dim], y[n_run * n_out]
 * Status    PW_OK; PW_E_SHAPE fewer runs than 2 (1 + n_dim), or more inputs than SURFACE_DIMS_MAX; PW_E_NOMEM; PW_E_CONVERGE
 * Notes     Leave-one-out residual e_i / (1 - h_ii), h the hat matrix: closed form, no refits.
 */
pw_status surface_fit(const double z[], const double y[], size_t n_run, size_t n_dim,
                      size_t n_out, const double focus[], surface *s, pw_err *err);
void surface_free(surface *s);

/* All outputs at one point. */
void surface_at(const surface *s, const double z[], double y[]);

/* All outputs at z with z[i] put to `to`; at[n_out]: those at z. Exact but for rounding. */
void surface_moved(const surface *s, const double z[], const double at[], size_t i, double to,
                   double y[]);

#endif
