#include "study/surface.h"
#include "base/gsl_quiet.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static size_t surface_terms(size_t n_dim) { return 1 + n_dim + n_dim * (n_dim + 1) / 2; }

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

/* Least squares with a ridge on the second-order terms alone, Q beside the straight ones L: the straight terms are taken
 * out of both by a rotation U (pivoted QR of L, whose rank may be less: an input that keeps its middle), and what is left,
 * fewer rows than terms, is solved in the rows:
 *
 *   b = Q' U2 (K + n ridge I)^-1 U2' y,  K = U2' Q Q' U2,  then L a = U1 U1' (y - Q b)
 *
 * K = V T V', T of three diagonals: with W = U2 V in the place of U2 one ridge more costs a few steps a row of T. The
 * residuals are n ridge W (T + n ridge I)^-1 W' y; of that matrix, 1 less the hat matrix, the diagonal is each run's own
 * share. */
typedef struct fit {
  size_t n, p, rank, left, q,
      n_out; /* runs, straight terms, of rank, n - rank; second-order terms; outputs */
  gsl_matrix *straight, *second, *y; /* [n * p], [n * q], [n * n_out] */
  gsl_matrix *u, *r;                 /* [n * n], [n * p] of the QR */
  gsl_permutation *order;
  gsl_vector *diagonal, *beside; /* of T, [left] and [left - 1] */
  gsl_vector *pivot, *factor;    /* T + n ridge I = F D F': D, and what F has below its ones */
  gsl_matrix *w;                 /* W' [left * n] */
  gsl_matrix *turned, *solved;   /* W' y, and that by the inverse: [left * n_out] */
  gsl_matrix *rest;              /* residuals [n * n_out] */
  gsl_vector *own, *run;         /* own shares by n ridge; a row of W' under F: [n] */
} fit;

static void fit_free(fit *f)
{
  gsl_matrix *const all[] = {f->straight, f->second, f->y,      f->u,   f->r,
                             f->w,        f->turned, f->solved, f->rest};
  gsl_vector *const line[] = {f->diagonal, f->beside, f->pivot, f->factor, f->own, f->run};
  for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
    if (all[i]) gsl_matrix_free(all[i]);
  for (size_t i = 0; i < sizeof line / sizeof line[0]; i++)
    if (line[i]) gsl_vector_free(line[i]);
  if (f->order) gsl_permutation_free(f->order);
}

static pw_status no_memory(pw_err *err)
{
  return pw_fail(err, PW_E_NOMEM, "draws", "no memory for the response surface");
}

/* The terms of each run, and the rotation. */
static pw_status lay_out(fit *f, const double z[], const double y[], size_t n_dim, pw_err *err)
{
  double term[SURFACE_TERMS_MAX];
  f->straight = gsl_matrix_alloc(f->n, f->p);
  f->second = gsl_matrix_alloc(f->n, f->q);
  f->y = gsl_matrix_alloc(f->n, f->n_out);
  f->u = gsl_matrix_alloc(f->n, f->n);
  f->r = gsl_matrix_alloc(f->n, f->p);
  f->order = gsl_permutation_alloc(f->p);
  gsl_vector *tau = gsl_vector_alloc(f->p), *norm = gsl_vector_alloc(f->p);
  pw_status s = f->straight && f->second && f->y && f->u && f->r && f->order && tau && norm
                    ? PW_OK
                    : no_memory(err);
  for (size_t i = 0; s == PW_OK && i < f->n; i++) {
    terms_at(z + i * n_dim, n_dim, term);
    memcpy(gsl_matrix_ptr(f->straight, i, 0), term, f->p * sizeof *term);
    memcpy(gsl_matrix_ptr(f->second, i, 0), term + f->p, f->q * sizeof *term);
    memcpy(gsl_matrix_ptr(f->y, i, 0), y + i * f->n_out, f->n_out * sizeof *y);
  }
  int sign;
  if (s == PW_OK && gsl_linalg_QRPT_decomp2(f->straight, f->u, f->r, tau, f->order, &sign,
                                            norm) != GSL_SUCCESS)
    s = pw_fail(err, PW_E_CONVERGE, "draws", "response surface: the runs do not tell enough");
  if (tau) gsl_vector_free(tau);
  if (norm) gsl_vector_free(norm);
  if (s != PW_OK) return s;
  const double tiny = 1e-10 * fabs(gsl_matrix_get(f->r, 0, 0));
  while (f->rank < f->p && fabs(gsl_matrix_get(f->r, f->rank, f->rank)) > tiny)
    f->rank++;
  f->left = f->n - f->rank;
  return PW_OK;
}

/* What the straight terms leave of second-order terms and results, turned so that K has three diagonals. */
static pw_status reduce(fit *f, pw_err *err)
{
  gsl_matrix *seen = gsl_matrix_alloc(f->left, f->q); /* U2' Q */
  gsl_matrix *k = gsl_matrix_alloc(f->left, f->left), *v = gsl_matrix_alloc(f->left, f->left);
  gsl_vector *tau = gsl_vector_alloc(f->left - 1);
  f->diagonal = gsl_vector_alloc(f->left);
  f->beside = gsl_vector_alloc(f->left - 1);
  f->pivot = gsl_vector_alloc(f->left);
  f->factor = gsl_vector_alloc(f->left - 1);
  f->w = gsl_matrix_alloc(f->left, f->n);
  f->turned = gsl_matrix_alloc(f->left, f->n_out);
  f->solved = gsl_matrix_alloc(f->left, f->n_out);
  f->rest = gsl_matrix_alloc(f->n, f->n_out);
  f->own = gsl_vector_alloc(f->n);
  f->run = gsl_vector_alloc(f->n);
  pw_status s = seen && k && v && tau && f->diagonal && f->beside && f->pivot && f->factor &&
                        f->w && f->turned && f->solved && f->rest && f->own && f->run
                    ? PW_OK
                    : no_memory(err);
  if (s == PW_OK) {
    gsl_matrix_const_view u2 = gsl_matrix_const_submatrix(f->u, 0, f->rank, f->n, f->left);
    gsl_blas_dgemm(CblasTrans, CblasNoTrans, 1.0, &u2.matrix, f->second, 0.0, seen);
    gsl_blas_dsyrk(CblasLower, CblasNoTrans, 1.0, seen, 0.0, k); /* the lower half is read */
    if (gsl_linalg_symmtd_decomp(k, tau) != GSL_SUCCESS ||
        gsl_linalg_symmtd_unpack(k, tau, v, f->diagonal, f->beside) != GSL_SUCCESS) {
      s = pw_fail(err, PW_E_CONVERGE, "draws", "response surface: the runs do not tell enough");
    } else {
      gsl_blas_dgemm(CblasTrans, CblasTrans, 1.0, v, &u2.matrix, 0.0, f->w);
      gsl_blas_dgemm(CblasNoTrans, CblasNoTrans, 1.0, f->w, f->y, 0.0, f->turned);
    }
  }
  if (seen) gsl_matrix_free(seen);
  if (k) gsl_matrix_free(k);
  if (v) gsl_matrix_free(v);
  if (tau) gsl_vector_free(tau);
  return s;
}

/* T + weight I = F D F'. */
static pw_status factor(fit *f, double weight, pw_err *err)
{
  double *d = f->pivot->data, *l = f->factor->data;
  for (size_t k = 0; k < f->left; k++) {
    d[k] = f->diagonal->data[k] + weight;
    if (k > 0) d[k] -= l[k - 1] * f->beside->data[k - 1];
    if (!(d[k] > 0.0))
      return pw_fail(err, PW_E_CONVERGE, "draws",
                     "response surface: the runs do not tell enough");
    if (k + 1 < f->left) l[k] = f->beside->data[k] / d[k];
  }
  return PW_OK;
}

/* to[0..n) += by * from[0..n). */
static void add_row(double *to, double by, const double *from, size_t n)
{
  for (size_t i = 0; i < n; i++)
    to[i] += by * from[i];
}

/* Solves with one ridge; it weighs means over the runs, so that it has no unit. */
static pw_status solve(fit *f, double ridge, pw_err *err)
{
  const double weight = ridge * (double)f->n, *l = f->factor->data, *d = f->pivot->data;
  pw_status s = factor(f, weight, err);
  if (s != PW_OK) return s;
  gsl_matrix_memcpy(f->solved, f->turned);
  for (size_t k = 1; k < f->left; k++)
    add_row(gsl_matrix_ptr(f->solved, k, 0), -l[k - 1], gsl_matrix_ptr(f->solved, k - 1, 0),
            f->n_out);
  for (size_t k = f->left; k-- > 0;) {
    double *row = gsl_matrix_ptr(f->solved, k, 0);
    for (size_t o = 0; o < f->n_out; o++)
      row[o] /= d[k];
    if (k + 1 < f->left) add_row(row, -l[k], gsl_matrix_ptr(f->solved, k + 1, 0), f->n_out);
  }
  gsl_blas_dgemm(CblasTrans, CblasNoTrans, weight, f->w, f->solved, 0.0, f->rest);
  return PW_OK;
}

/* The diagonal of W (T + weight I)^-1 W', once factor() is done. */
static void own_shares(fit *f)
{
  double *own = f->own->data, *run = f->run->data;
  gsl_vector_set_zero(f->own);
  gsl_vector_set_zero(f->run);
  for (size_t k = 0; k < f->left; k++) {
    const double *w = gsl_matrix_const_ptr(f->w, k, 0);
    const double l = k > 0 ? f->factor->data[k - 1] : 0.0, part = 1.0 / f->pivot->data[k];
    for (size_t i = 0; i < f->n; i++) {
      run[i] = w[i] - l * run[i];
      own[i] += part * run[i] * run[i];
    }
  }
}

/* Leave-one-out residuals into left_out; returns their weighted sum of squares. */
static double leave_one_out(fit *f, double ridge, const double focus[], double left_out[])
{
  double sum = 0.0;
  own_shares(f);
  for (size_t i = 0; i < f->n; i++) {
    double free_share = fmax(1e-6, ridge * (double)f->n * f->own->data[i]);
    for (size_t o = 0; o < f->n_out; o++) {
      double e = gsl_matrix_get(f->rest, i, o) / free_share;
      left_out[i * f->n_out + o] = e;
      sum += focus[o] * e * e;
    }
  }
  return sum;
}

static pw_status climb(fit *f, const double focus[], surface *s, double trial[], pw_err *err)
{
  static const double ladder[] = {1e-5, 1e-4, 3e-4, 1e-3, 3e-3, 1e-2, 3e-2, 0.1, 1.0};
  double best = INFINITY;
  for (size_t k = 0; k < sizeof ladder / sizeof ladder[0]; k++) {
    pw_status status = solve(f, ladder[k], err);
    if (status != PW_OK) return status;
    double sum = leave_one_out(f, ladder[k], focus, trial);
    if (!(sum < best)) continue;
    best = sum;
    s->ridge = ladder[k];
    memcpy(s->left_out, trial, f->n * f->n_out * sizeof *trial);
  }
  return isfinite(best) ? PW_OK
                        : pw_fail(err, PW_E_CONVERGE, "draws", "response surface: not finite");
}

/* The coefficients with the surface's ridge: the second-order ones, then the straight ones of what those leave. */
static pw_status tell(fit *f, surface *s, pw_err *err)
{
  pw_status status = solve(f, s->ridge, err);
  gsl_matrix *wy = gsl_matrix_alloc(f->n, f->n_out), *a = gsl_matrix_alloc(f->rank, f->n_out);
  if (status == PW_OK && !(wy && a)) status = no_memory(err);
  if (status == PW_OK) {
    gsl_matrix_const_view u1 = gsl_matrix_const_submatrix(f->u, 0, 0, f->n, f->rank);
    gsl_matrix_const_view r = gsl_matrix_const_submatrix(f->r, 0, 0, f->rank, f->rank);
    gsl_matrix_view b = gsl_matrix_view_array(s->coefficient + f->p * f->n_out, f->q, f->n_out);
    gsl_blas_dgemm(CblasTrans, CblasNoTrans, 1.0, f->w, f->solved, 0.0, wy);
    gsl_blas_dgemm(CblasTrans, CblasNoTrans, 1.0, f->second, wy, 0.0, &b.matrix);
    gsl_matrix_memcpy(f->rest, f->y);
    gsl_blas_dgemm(CblasNoTrans, CblasNoTrans, -1.0, f->second, &b.matrix, 1.0, f->rest);
    gsl_blas_dgemm(CblasTrans, CblasNoTrans, 1.0, &u1.matrix, f->rest, 0.0, a);
    gsl_blas_dtrsm(CblasLeft, CblasUpper, CblasNoTrans, CblasNonUnit, 1.0, &r.matrix, a);
    for (size_t k = 0; k < f->rank; k++)
      memcpy(s->coefficient + gsl_permutation_get(f->order, k) * f->n_out,
             gsl_matrix_ptr(a, k, 0), f->n_out * sizeof(double));
  }
  if (wy) gsl_matrix_free(wy);
  if (a) gsl_matrix_free(a);
  return status;
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
  fit f = {.n = n_run, .p = 1 + n_dim, .q = out.n_term - 1 - n_dim, .n_out = n_out};
  out.coefficient = calloc(out.n_term * n_out, sizeof *out.coefficient);
  out.left_out = calloc(n_run * n_out, sizeof *out.left_out);
  double *trial = calloc(n_run * n_out, sizeof *trial);
  gsl_error_handler_t *held = pw_gsl_hold();
  pw_status status =
      out.coefficient && out.left_out && trial ? lay_out(&f, z, y, n_dim, err) : no_memory(err);
  if (status == PW_OK) status = reduce(&f, err);
  if (status == PW_OK) status = climb(&f, focus, &out, trial, err);
  if (status == PW_OK) status = tell(&f, &out, err);
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
        /* NOLINTNEXTLINE(clang-analyzer-core.UndefinedBinaryOperatorResult): terms_at fills all */
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
