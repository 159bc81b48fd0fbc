/* Draws near those that bear the bills. The chances u of a draw are put as z = Phi^-1(u), which the spreads make
 * standard normal; what a draw leaves of each bill is taken as straight in z by least squares over the draws there are:
 *
 *   r = c + B z,   H = I + sum B' P B,   mean = -H^-1 sum B' P c
 *
 * P is the inverse of the bills' covariance with the free base taken out (condition.h). New draws come from a normal
 * distribution at that mean, along each main direction of H as wide as twice its variance, nowhere wider than the
 * spreads; the ratio of the two densities goes into their weights, so nothing but the work depends on the choice. */
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_eigen.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdlib.h>

#include "base/gsl_quiet.h"
#include "study/range_bills_impl.h"

enum { MOST = IN_COUNT + 1 };
static const double WIDER = 2.0; /* METHODS section 7: covariance times 2 */
static const double EDGE = 1e-12;

struct range_slope {
  const double *z; /* z[n * n_in]; borrowed */
  size_t n, n_in;
  double normal[MOST * MOST]; /* Cholesky factor of [1 z]'[1 z], n_in + 1 wide */
  double h[IN_COUNT * IN_COUNT], g[IN_COUNT];
};

void range_near_z(const double u[], size_t n_in, double z[])
{
  for (size_t j = 0; j < n_in; j++)
    z[j] = gsl_cdf_ugaussian_Pinv(fmin(1.0 - EDGE, fmax(EDGE, u[j])));
}

double range_near_draw(const range_near *near, double u[], double z[])
{
  const size_t n_in = near->n_in;
  double e[IN_COUNT], ratio = near->log_det;
  range_near_z(u, n_in, e);
  for (size_t j = 0; j < n_in; j++) {
    z[j] = near->mean[j];
    for (size_t k = 0; k < n_in; k++)
      z[j] += near->root[j * n_in + k] * e[k];
    ratio += 0.5 * (e[j] * e[j] - z[j] * z[j]);
    u[j] = fmin(1.0 - EDGE, fmax(EDGE, gsl_cdf_ugaussian_P(z[j])));
  }
  return ratio;
}

range_slope *range_slope_new(const double z[], size_t n, size_t n_in)
{
  const size_t wide = n_in + 1;
  range_slope *s = calloc(1, sizeof *s);
  if (!s) return NULL;
  s->z = z;
  s->n = n;
  s->n_in = n_in;
  for (size_t i = 0; i < n; i++)
    for (size_t a = 0; a < wide; a++) {
      double x = a ? z[i * n_in + a - 1] : 1.0;
      for (size_t b = 0; b <= a; b++)
        s->normal[a * wide + b] += x * (b ? z[i * n_in + b - 1] : 1.0);
    }
  for (size_t a = 0; a < wide; a++)
    for (size_t b = 0; b < a; b++)
      s->normal[b * wide + a] = s->normal[a * wide + b];
  for (size_t j = 0; j < n_in; j++)
    s->h[j * n_in + j] = 1.0;
  gsl_matrix_view m = gsl_matrix_view_array(s->normal, wide, wide);
  gsl_error_handler_t *held = pw_gsl_hold();
  int bad = gsl_linalg_cholesky_decomp1(&m.matrix);
  pw_gsl_release(held);
  if (!bad) return s;
  free(s);
  return NULL;
}

/* b[bill * wide]: what each bill's residual is at z = 0, and its slopes. */
static void slopes(range_slope *s, size_t n_bill, const double residual[], double b[])
{
  const size_t n_in = s->n_in, wide = n_in + 1;
  gsl_matrix_view m = gsl_matrix_view_array(s->normal, wide, wide);
  gsl_error_handler_t *held = pw_gsl_hold();
  for (size_t i = 0; i < n_bill; i++) {
    double *x = b + i * wide;
    for (size_t k = 0; k < s->n; k++) {
      double r = residual[k * n_bill + i];
      x[0] += r;
      for (size_t j = 0; j < n_in; j++)
        x[j + 1] += r * s->z[k * n_in + j];
    }
    gsl_vector_view v = gsl_vector_view_array(x, wide);
    gsl_linalg_cholesky_svx(&m.matrix, &v.vector);
  }
  pw_gsl_release(held);
}

pw_status range_slope_add(range_slope *s, const pw_condition_meter *m, const double residual[],
                          pw_err *err)
{
  const size_t n_in = s->n_in, wide = n_in + 1;
  double *b = calloc(m->n * wide, sizeof *b), sum[MOST] = {0.0};
  double d2 = m->discrepancy * m->discrepancy, common = d2 * m->shared, ones = 0.0;
  if (!b) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu bills", m->n);
  slopes(s, m->n, residual, b);
  for (size_t i = 0; i < m->n; i++) {
    double a = m->sigma[i] * m->sigma[i] + d2 * (1.0 - m->shared);
    ones += 1.0 / a;
    for (size_t j = 0; j < wide; j++)
      sum[j] += b[i * wide + j] / a;
  }
  /* A free base takes the whole common part away; else Sherman and Morrison, as in meter/condition.c. */
  double less = m->free_base ? 1.0 / ones : common / (1.0 + common * ones);
  for (size_t j = 0; j < n_in; j++) {
    for (size_t i = 0; i < m->n; i++) {
      double a = m->sigma[i] * m->sigma[i] + d2 * (1.0 - m->shared),
             x = b[i * wide + j + 1] / a;
      s->g[j] -= x * b[i * wide];
      for (size_t k = 0; k < n_in; k++)
        s->h[j * n_in + k] += x * b[i * wide + k + 1];
    }
    s->g[j] += less * sum[j + 1] * sum[0];
    for (size_t k = 0; k < n_in; k++)
      s->h[j * n_in + k] -= less * sum[j + 1] * sum[k + 1];
  }
  free(b);
  return PW_OK;
}

void range_slope_free(range_slope *s) { free(s); }

pw_status range_near_of(const range_slope *s, range_near *near, pw_err *err)
{
  const size_t n_in = s->n_in;
  gsl_error_handler_t *held = pw_gsl_hold();
  gsl_matrix *h = gsl_matrix_alloc(n_in, n_in), *q = gsl_matrix_alloc(n_in, n_in);
  gsl_vector *value = gsl_vector_alloc(n_in);
  gsl_eigen_symmv_workspace *w = gsl_eigen_symmv_alloc(n_in);
  pw_status status = PW_OK;
  if (!h || !q || !value || !w) {
    status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for the draws near the bills");
    goto done;
  }
  for (size_t j = 0; j < n_in; j++)
    for (size_t k = 0; k < n_in; k++)
      gsl_matrix_set(h, j, k, s->h[j * n_in + k]);
  if (gsl_eigen_symmv(h, value, q, w) != 0) {
    status = pw_fail(err, PW_E_CONVERGE, NULL, "the draws near the bills have no directions");
    goto done;
  }
  *near = (range_near){.n_in = n_in};
  for (size_t k = 0; k < n_in; k++) {
    double precision = fmax(1.0, gsl_vector_get(value, k)), along = 0.0;
    double wide = fmin(1.0, sqrt(WIDER / precision));
    near->log_det += log(wide);
    for (size_t j = 0; j < n_in; j++)
      along += gsl_matrix_get(q, j, k) * s->g[j];
    for (size_t j = 0; j < n_in; j++) {
      near->mean[j] += gsl_matrix_get(q, j, k) * along / precision;
      near->root[j * n_in + k] = gsl_matrix_get(q, j, k) * wide;
    }
  }
done:
  gsl_matrix_free(h);
  gsl_matrix_free(q);
  gsl_vector_free(value);
  gsl_eigen_symmv_free(w);
  pw_gsl_release(held);
  return status;
}
