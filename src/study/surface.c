#include "study/surface.h"
#include "base/gsl_quiet.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

size_t surface_terms(size_t n_dim) { return 1 + n_dim + n_dim * (n_dim + 1) / 2; }

static void terms_at(const double z[], size_t n_dim, double term[])
{
  size_t k = 0;
  term[k++] = 1.0;
  for (size_t i = 0; i < n_dim; i++)
    term[k++] = z[i];
  for (size_t i = 0; i < n_dim; i++)
    for (size_t j = i; j < n_dim; j++)
      term[k++] = z[i] * z[j];
}

typedef struct fit {
  size_t n, m, q;         /* runs, terms, outputs */
  gsl_matrix *x, *y;      /* design, results */
  gsl_matrix *a, *solve;  /* normal matrix; its inverse times x' */
  gsl_matrix *c, *fitted; /* coefficients; fitted results */
} fit;

static void fit_free(fit *f)
{
  gsl_matrix *const all[] = {f->x, f->y, f->a, f->solve, f->c, f->fitted};
  for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
    if (all[i]) gsl_matrix_free(all[i]);
}

static pw_status fit_init(fit *f, const double z[], const double y[], size_t n_dim, pw_err *err)
{
  f->x = gsl_matrix_alloc(f->n, f->m);
  f->y = gsl_matrix_alloc(f->n, f->q);
  f->a = gsl_matrix_alloc(f->m, f->m);
  f->solve = gsl_matrix_alloc(f->m, f->n);
  f->c = gsl_matrix_alloc(f->m, f->q);
  f->fitted = gsl_matrix_alloc(f->n, f->q);
  if (!f->x || !f->y || !f->a || !f->solve || !f->c || !f->fitted)
    return pw_fail(err, PW_E_NOMEM, "draws", "no memory for the response surface");
  for (size_t i = 0; i < f->n; i++) {
    terms_at(z + i * n_dim, n_dim, gsl_matrix_ptr(f->x, i, 0));
    memcpy(gsl_matrix_ptr(f->y, i, 0), y + i * f->q, f->q * sizeof *y);
  }
  return PW_OK;
}

/* Solves with one ridge; the normal matrix is n-fold means so that the ridge has no unit. */
static pw_status solve(fit *f, size_t n_dim, double ridge, pw_err *err)
{
  gsl_blas_dsyrk(CblasLower, CblasTrans, 1.0 / (double)f->n, f->x, 0.0, f->a);
  for (size_t k = 0; k < f->m; k++)
    *gsl_matrix_ptr(f->a, k, k) += k > n_dim ? ridge : 1e-12;
  if (gsl_linalg_cholesky_decomp1(f->a) != GSL_SUCCESS)
    return pw_fail(err, PW_E_CONVERGE, "draws",
                   "response surface: the runs do not tell enough");
  /* solve = a^-1 x' / n: two triangular systems for all runs at once. */
  for (size_t i = 0; i < f->n; i++)
    for (size_t k = 0; k < f->m; k++)
      gsl_matrix_set(f->solve, k, i, gsl_matrix_get(f->x, i, k) / (double)f->n);
  gsl_blas_dtrsm(CblasLeft, CblasLower, CblasNoTrans, CblasNonUnit, 1.0, f->a, f->solve);
  gsl_blas_dtrsm(CblasLeft, CblasLower, CblasTrans, CblasNonUnit, 1.0, f->a, f->solve);
  gsl_blas_dgemm(CblasNoTrans, CblasNoTrans, 1.0, f->solve, f->y, 0.0, f->c);
  gsl_blas_dgemm(CblasNoTrans, CblasNoTrans, 1.0, f->x, f->c, 0.0, f->fitted);
  return PW_OK;
}

/* Leave-one-out residuals into left_out; returns their weighted sum of squares. */
static double leave_one_out(const fit *f, const double focus[], double left_out[])
{
  double sum = 0.0;
  for (size_t i = 0; i < f->n; i++) {
    double h = 0.0;
    for (size_t k = 0; k < f->m; k++)
      h += gsl_matrix_get(f->x, i, k) * gsl_matrix_get(f->solve, k, i);
    double free_share = fmax(1e-6, 1.0 - h);
    for (size_t o = 0; o < f->q; o++) {
      double e = (gsl_matrix_get(f->y, i, o) - gsl_matrix_get(f->fitted, i, o)) / free_share;
      left_out[i * f->q + o] = e;
      sum += focus[o] * e * e;
    }
  }
  return sum;
}

static pw_status climb(fit *f, size_t n_dim, const double focus[], surface *s, double trial[],
                       pw_err *err)
{
  static const double ladder[] = {1e-5, 1e-4, 3e-4, 1e-3, 3e-3, 1e-2, 3e-2, 0.1, 1.0};
  double best = INFINITY;
  for (size_t k = 0; k < sizeof ladder / sizeof ladder[0]; k++) {
    pw_status status = solve(f, n_dim, ladder[k], err);
    if (status != PW_OK) return status;
    double sum = leave_one_out(f, focus, trial);
    if (!(sum < best)) continue;
    best = sum;
    s->ridge = ladder[k];
    memcpy(s->left_out, trial, f->n * f->q * sizeof *trial);
    for (size_t t = 0; t < f->m; t++)
      memcpy(s->coefficient + t * f->q, gsl_matrix_ptr(f->c, t, 0), f->q * sizeof *trial);
  }
  return isfinite(best) ? PW_OK
                        : pw_fail(err, PW_E_CONVERGE, "draws", "response surface: not finite");
}

pw_status surface_fit(const double z[], const double y[], size_t n_run, size_t n_dim,
                      size_t n_out, const double focus[], surface *s, pw_err *err)
{
  if (n_dim > SURFACE_DIMS_MAX)
    return pw_fail(err, PW_E_SHAPE, "draws", "%zu inputs, want %d or fewer", n_dim,
                   SURFACE_DIMS_MAX);
  if (n_run < 2 * (1 + n_dim))
    return pw_fail(err, PW_E_SHAPE, "draws", "%zu runs for %zu inputs, want %zu or more", n_run,
                   n_dim, 2 * (1 + n_dim));
  surface out = {
      .n_dim = n_dim, .n_out = n_out, .n_term = surface_terms(n_dim), .n_run = n_run};
  fit f = {.n = n_run, .m = out.n_term, .q = n_out};
  out.coefficient = calloc(out.n_term * n_out, sizeof *out.coefficient);
  out.left_out = calloc(n_run * n_out, sizeof *out.left_out);
  double *trial = calloc(n_run * n_out, sizeof *trial);
  gsl_error_handler_t *held = pw_gsl_hold();
  pw_status status =
      out.coefficient && out.left_out && trial
          ? fit_init(&f, z, y, n_dim, err)
          : pw_fail(err, PW_E_NOMEM, "draws", "no memory for the response surface");
  if (status == PW_OK) status = climb(&f, n_dim, focus, &out, trial, err);
  pw_gsl_release(held);
  fit_free(&f);
  free(trial);
  if (status == PW_OK)
    *s = out;
  else
    surface_free(&out);
  return status;
}

void surface_free(surface *s)
{
  if (!s) return;
  free(s->coefficient);
  free(s->left_out);
  *s = (surface){0};
}

enum { BESIDE = 8 }; /* outputs summed in registers */

/* y[0..n) = sum over the terms of factor[k] c[k * stride + 0..n), n at most BESIDE. */
static void sum_terms(const double factor[], size_t n_term, const double c[], size_t stride,
                      size_t n, double y[])
{
  double sum[BESIDE] = {0.0};
  if (n == BESIDE)
    for (size_t k = 0; k < n_term; k++)
      for (size_t o = 0; o < BESIDE; o++)
        sum[o] += factor[k] * c[k * stride + o];
  else
    for (size_t k = 0; k < n_term; k++)
      for (size_t o = 0; o < n; o++)
        sum[o] += factor[k] * c[k * stride + o];
  for (size_t o = 0; o < n; o++)
    y[o] = sum[o];
}

void surface_at(const surface *s, const double z[], double y[])
{
  double term[SURFACE_TERMS_MAX];
  terms_at(z, s->n_dim, term);
  for (size_t o = 0; o < s->n_out; o += BESIDE)
    sum_terms(term, s->n_term, s->coefficient + o, s->n_out,
              s->n_out - o < BESIDE ? s->n_out - o : BESIDE, y + o);
}

/* Where z_i z_j, i <= j, stands among the terms. */
static size_t pair(size_t n_dim, size_t i, size_t j)
{
  return 1 + n_dim + i * n_dim - i * (i - 1) / 2 + (j - i);
}

void surface_moved(const surface *s, const double z[], const double at[], size_t i, double to,
                   double y[])
{
  const double by = to - z[i];
  memcpy(y, at, s->n_out * sizeof *y);
  for (size_t j = 0; j <= s->n_dim; j++) {
    /* j = n_dim stands for the straight term */
    const size_t k = j == s->n_dim ? 1 + i : pair(s->n_dim, i < j ? i : j, i < j ? j : i);
    const double *c = s->coefficient + k * s->n_out;
    const double factor = by * (j == s->n_dim ? 1.0 : j == i ? z[i] + to : z[j]);
    for (size_t o = 0; o < s->n_out; o++)
      y[o] += factor * c[o];
  }
}
