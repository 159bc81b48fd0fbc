/* The balance points of least SSE. For balance points held the problem is linear, so SSE is a function
 * of one or two temperatures: continuous, but with several minima; a grid sees them all, the best
 * cells are refined. */
#include <float.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_multimin.h>
#include <math.h>
#include <string.h>

#include "base/gsl_quiet.h"
#include "change_impl.h"

enum { CELLS = 3 }; /* local minima that are refined */

size_t change_room(size_t n, size_t n_grid) { return 6 * n + 2 * n * n_grid; }

static double dot(const double *restrict a, const double *restrict b, size_t n)
{
  double s0 = 0.0, s1 = 0.0, s2 = 0.0, s3 = 0.0;
  size_t i = 0;
  for (; i + 4 <= n; i += 4) {
    s0 += a[i] * b[i];
    s1 += a[i + 1] * b[i + 1];
    s2 += a[i + 2] * b[i + 2];
    s3 += a[i + 3] * b[i + 3];
  }
  for (; i < n; i++)
    s0 += a[i] * b[i];
  return (s0 + s1) + (s2 + s3);
}

/* root w (x - weighted mean), of one kind of degree days at t. */
static void column(const change_view *v, int cooling, double t, double *to)
{
  double mean = 0.0;
  for (size_t k = 0; k < v->n; k++) {
    to[k] = cooling ? pw_change_cooling(v->data, v->index[k], t, NULL)
                    : pw_change_heating(v->data, v->index[k], t, NULL);
    mean += v->w[k] * to[k];
  }
  mean /= (double)v->n;
  for (size_t k = 0; k < v->n; k++)
    to[k] = v->root[k] * (to[k] - mean);
}

/* SSE of y on x alone, from the residuals, so that an exact fit keeps its digits. */
static double sse_of_one(const change_view *v, const double *x)
{
  double xx = dot(x, x, v->n), sse = 0.0;
  double b = xx > 0.0 ? dot(x, v->y, v->n) / xx : 0.0;
  for (size_t k = 0; k < v->n; k++) {
    double e = v->y[k] - b * x[k];
    sse += e * e;
  }
  return sse;
}

static double sse_of_two(const change_view *v, const double *x, const double *z)
{
  double xx = dot(x, x, v->n), zz = dot(z, z, v->n), xz = dot(x, z, v->n);
  double det = xx * zz - xz * xz;
  if (!(det > 1e-12 * xx * zz)) return fmin(sse_of_one(v, x), sse_of_one(v, z));
  double xy = dot(x, v->y, v->n), zy = dot(z, v->y, v->n), sse = 0.0;
  double b = (zz * xy - xz * zy) / det, c = (xx * zy - xz * xy) / det;
  for (size_t k = 0; k < v->n; k++) {
    double e = v->y[k] - b * x[k] - c * z[k];
    sse += e * e;
  }
  return sse;
}

/* SSE where one temperature decides: H, C, or both at one balance point. */
static double sse_at(const change_view *v, pw_change_model model, double t)
{
  if (model == PW_CHANGE_ONE) {
    column(v, 0, t, v->one);
    column(v, 1, t, v->two);
    return sse_of_two(v, v->one, v->two);
  }
  column(v, model == PW_CHANGE_C, t, v->one);
  return sse_of_one(v, v->one);
}

static double golden(const change_view *v, pw_change_model model, double a, double b,
                     double *sse)
{
  const double ratio = 0.6180339887498949;
  double p = b - ratio * (b - a), q = a + ratio * (b - a);
  double fp = sse_at(v, model, p), fq = sse_at(v, model, q);
  while (b - a > 1e-7) {
    if (fp <= fq) {
      b = q;
      q = p;
      fq = fp;
      p = b - ratio * (b - a);
      fp = sse_at(v, model, p);
    } else {
      a = p;
      p = q;
      fp = fq;
      q = a + ratio * (b - a);
      fq = sse_at(v, model, q);
    }
  }
  *sse = fmin(fp, fq);
  return fp <= fq ? p : q;
}

static double grid_t(const change_view *v, size_t g)
{
  return fmin(fmax(v->data->low + v->data->step * (double)g, v->low), v->high);
}

typedef struct cell {
  double sse;
  size_t g, k;
} cell;

/* Keeps the best few, in rising order. */
static void keep(cell best[CELLS], cell c)
{
  for (size_t i = 0; i < CELLS; i++)
    if (c.sse < best[i].sse) {
      cell worse = best[i];
      best[i] = c;
      c = worse;
    }
}

static double search_one(const change_view *v, pw_change_model model, double *least)
{
  cell best[CELLS] = {{INFINITY, 0, 0}, {INFINITY, 0, 0}, {INFINITY, 0, 0}};
  size_t n = v->n;
  double before = INFINITY, here = INFINITY, at = v->low;
  for (size_t g = v->first; g <= v->last + 1; g++) {
    double next = INFINITY;
    if (g <= v->last)
      next = model == PW_CHANGE_ONE
                 ? sse_of_two(v, v->x + g * n, v->z + g * n)
                 : sse_of_one(v, (model == PW_CHANGE_C ? v->z : v->x) + g * n);
    if (here <= before && here <= next) keep(best, (cell){here, g - 1, 0});
    before = here;
    here = next;
  }
  *least = INFINITY;
  for (size_t i = 0; i < CELLS && isfinite(best[i].sse); i++) {
    double sse, t = grid_t(v, best[i].g);
    double low = fmax(t - v->data->step, v->low), high = fmin(t + v->data->step, v->high);
    t = golden(v, model, low, high, &sse);
    /* An end is never met by golden section, so it is asked. */
    double end[2] = {low, high};
    for (int k = 0; k < 2; k++) {
      double there = sse_at(v, model, end[k]);
      if (there < sse) {
        sse = there;
        t = end[k];
      }
    }
    if (sse < *least) {
      *least = sse;
      at = t;
    }
  }
  return at;
}

static double outside(const gsl_vector *at, void *data)
{
  const change_view *v = data;
  double th = gsl_vector_get(at, 0), tc = gsl_vector_get(at, 1);
  double over = fmax(v->low - th, 0.0) + fmax(tc - v->high, 0.0) + fmax(th - tc, 0.0);
  if (over > 0.0) return v->sst * (1.0 + over);
  column(v, 0, th, v->one);
  column(v, 1, tc, v->two);
  return sse_of_two(v, v->one, v->two);
}

static double simplex(const change_view *v, double balance[2])
{
  double sse = INFINITY;
  double step_of[2] = {-0.5 * v->data->step, 0.5 * v->data->step};
  gsl_vector_view at = gsl_vector_view_array(balance, 2);
  gsl_vector_view step = gsl_vector_view_array(step_of, 2);
  gsl_multimin_function f = {outside, 2, (void *)(size_t)v};
  gsl_error_handler_t *held = pw_gsl_hold();
  gsl_multimin_fminimizer *m =
      gsl_multimin_fminimizer_alloc(gsl_multimin_fminimizer_nmsimplex2, 2);
  if (!m) {
    pw_gsl_release(held);
    return sse;
  }
  int code = gsl_multimin_fminimizer_set(m, &f, &at.vector, &step.vector);
  for (int k = 0; code == GSL_SUCCESS && k < 200; k++) {
    code = gsl_multimin_fminimizer_iterate(m);
    if (gsl_multimin_test_size(gsl_multimin_fminimizer_size(m), 1e-6) == GSL_SUCCESS) break;
  }
  sse = gsl_multimin_fminimizer_minimum(m);
  balance[0] = gsl_vector_get(gsl_multimin_fminimizer_x(m), 0);
  balance[1] = gsl_vector_get(gsl_multimin_fminimizer_x(m), 1);
  gsl_multimin_fminimizer_free(m);
  pw_gsl_release(held);
  return sse;
}

/* Row g of the grid: SSE of (g, k) for k from g up, without residuals (digits do not matter here). */
static void scan_row(const change_view *v, size_t g, const double xy[], const double zy[],
                     const double xx[], const double zz[], double row[])
{
  const double *x = v->x + g * v->n;
  for (size_t k = g; k <= v->last; k++) {
    double xz = dot(x, v->z + k * v->n, v->n), det = xx[g] * zz[k] - xz * xz;
    row[k] = det > 1e-9 * xx[g] * zz[k] ? v->sst - (xy[g] * (zz[k] * xy[g] - xz * zy[k]) +
                                                    zy[k] * (xx[g] * zy[k] - xz * xy[g])) /
                                                       det
                                        : v->sst;
  }
}

enum { GRID_ROOM = 512 };

static int search_two(const change_view *v, double balance[2])
{
  double xy[GRID_ROOM], zy[GRID_ROOM], xx[GRID_ROOM], zz[GRID_ROOM], row[GRID_ROOM];
  double row_best[GRID_ROOM];
  size_t row_k[GRID_ROOM];
  cell best[CELLS] = {{INFINITY, 0, 0}, {INFINITY, 0, 0}, {INFINITY, 0, 0}};
  for (size_t g = v->first; g <= v->last; g++) {
    const double *x = v->x + g * v->n, *z = v->z + g * v->n;
    xy[g] = dot(x, v->y, v->n);
    zy[g] = dot(z, v->y, v->n);
    xx[g] = dot(x, x, v->n);
    zz[g] = dot(z, z, v->n);
  }
  for (size_t g = v->first; g <= v->last; g++) {
    scan_row(v, g, xy, zy, xx, zz, row);
    row_best[g] = INFINITY;
    row_k[g] = g;
    for (size_t k = g; k <= v->last; k++)
      if (row[k] < row_best[g]) {
        row_best[g] = row[k];
        row_k[g] = k;
      }
  }
  /* Minima of the rows' best: at most one a valley. */
  for (size_t g = v->first; g <= v->last; g++)
    if ((g == v->first || row_best[g] <= row_best[g - 1]) &&
        (g == v->last || row_best[g] <= row_best[g + 1]))
      keep(best, (cell){row_best[g], g, row_k[g]});
  double least = INFINITY, meeting;
  double both = search_one(v, PW_CHANGE_ONE, &meeting);
  for (size_t i = 0; i < CELLS && isfinite(best[i].sse); i++) {
    double at[2] = {grid_t(v, best[i].g), grid_t(v, best[i].k)};
    double sse = simplex(v, at);
    if (sse < least) {
      least = sse;
      balance[0] = at[0];
      balance[1] = at[1];
    }
  }
  /* Where the constraint holds the minimum down, the simplex creeps along it: then both meet. */
  if (!(least < meeting) ||
      (balance[1] - balance[0] < 1e-3 && least > meeting * (1.0 - 1e-6))) {
    balance[0] = balance[1] = both;
    return 1;
  }
  return 0;
}

int change_search(const change_view *v, pw_change_model model, double balance[2])
{
  double least;
  balance[0] = balance[1] = (double)NAN;
  if (model == PW_CHANGE_BASE) return 0;
  if (model == PW_CHANGE_HC) return search_two(v, balance);
  double t = search_one(v, model, &least);
  if (model != PW_CHANGE_C) balance[0] = t;
  if (model != PW_CHANGE_H) balance[1] = t;
  return model == PW_CHANGE_ONE;
}
