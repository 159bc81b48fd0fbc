#include "study/pareto.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/select.h"

enum { SMALL = 24 }; /* below, every pair is looked at */

/* Points told apart by their place in the order of all dimensions; beaten[place]. */
typedef struct field {
  const double *v;
  size_t n_dim;
  const size_t *order; /* place -> index in v */
  unsigned char *beaten;
  double *value; /* scratch for medians */
} field;

static double at(const field *f, size_t place, size_t dim)
{
  return f->v[f->order[place] * f->n_dim + dim];
}

/* Nowhere worse in dimensions 0..top. */
static int covers(const field *f, size_t a, size_t b, size_t top)
{
  const double *x = f->v + f->order[a] * f->n_dim, *y = f->v + f->order[b] * f->n_dim;
  for (size_t d = 0; d <= top; d++)
    if (x[d] > y[d]) return 0;
  return 1;
}

static void each_pair(const field *f, const size_t low[], size_t n_low, const size_t high[],
                      size_t n_high, size_t top)
{
  for (size_t j = 0; j < n_high; j++)
    for (size_t i = 0; i < n_low && !f->beaten[high[j]]; i++)
      if (covers(f, low[i], high[j], top)) f->beaten[high[j]] = 1;
}

/* A value that parts the points: some are above it and some are not. NAN when all are alike. */
static double middle(const field *f, const size_t low[], size_t n_low, const size_t high[],
                     size_t n_high, size_t dim)
{
  size_t n = 0;
  double most = -INFINITY, next = -INFINITY;
  for (size_t i = 0; i < n_low; i++)
    f->value[n++] = at(f, low[i], dim);
  for (size_t j = 0; j < n_high; j++)
    f->value[n++] = at(f, high[j], dim);
  double cut = pw_select(f->value, n, (n - 1) / 2);
  for (size_t i = 0; i < n; i++)
    most = fmax(most, f->value[i]);
  if (cut < most) return cut;
  for (size_t i = 0; i < n; i++) /* half of them share the highest value: the next one below */
    if (f->value[i] < most) next = fmax(next, f->value[i]);
  return isfinite(next) ? next : (double)NAN;
}

/* Moves those at or below cut to the front, keeping both parts' order; returns their count. */
static size_t part(const field *f, size_t list[], size_t n, size_t dim, double cut,
                   size_t spare[])
{
  size_t n_low = 0, n_high = 0;
  for (size_t i = 0; i < n; i++) {
    if (at(f, list[i], dim) <= cut)
      list[n_low++] = list[i];
    else
      spare[n_high++] = list[i];
  }
  memcpy(list + n_low, spare, n_high * sizeof *spare);
  return n_low;
}

/* Dimension 0 alone is left: the best of low beats all that is not better. */
static void sweep(const field *f, const size_t low[], size_t n_low, const size_t high[],
                  size_t n_high)
{
  double best = INFINITY;
  for (size_t i = 0; i < n_low; i++)
    best = fmin(best, at(f, low[i], 0));
  for (size_t j = 0; j < n_high; j++)
    if (at(f, high[j], 0) >= best) f->beaten[high[j]] = 1;
}

/* Marks those of high that one of low covers in dimensions 0..top; in all others low is known to be
 * nowhere worse. Reorders both lists; spare has room for the longer one. */
static void strike(const field *f, size_t low[], size_t n_low, size_t high[], size_t n_high,
                   size_t top, size_t spare[])
{
  if (n_low == 0 || n_high == 0) return;
  if (top == 0) {
    sweep(f, low, n_low, high, n_high);
    return;
  }
  if (n_low * n_high <= (size_t)SMALL * SMALL || n_low <= 2 || n_high <= 2) {
    each_pair(f, low, n_low, high, n_high, top);
    return;
  }
  double cut = middle(f, low, n_low, high, n_high, top);
  if (isnan(cut)) {
    strike(f, low, n_low, high, n_high, top - 1, spare);
    return;
  }
  size_t l = part(f, low, n_low, top, cut, spare), h = part(f, high, n_high, top, cut, spare);
  strike(f, low, l, high, h, top, spare);
  strike(f, low + l, n_low - l, high + h, n_high - h, top, spare);
  strike(f, low, l, high + h, n_high - h, top - 1, spare);
}

/* Places begin..end, in the order of all dimensions: no later one covers an earlier one. */
static void halve(const field *f, size_t begin, size_t end, size_t work[], size_t n_all)
{
  size_t n = end - begin, half = begin + n / 2, n_low = 0, n_high = 0;
  if (n < 2) return;
  if (n <= SMALL) {
    for (size_t j = begin + 1; j < end; j++)
      for (size_t i = begin; i < j && !f->beaten[j]; i++)
        if (!f->beaten[i] && covers(f, i, j, f->n_dim - 1)) f->beaten[j] = 1;
    return;
  }
  halve(f, begin, half, work, n_all);
  halve(f, half, end, work, n_all);
  size_t *low = work, *high = work + n_all, *spare = work + 2 * n_all;
  for (size_t i = begin; i < half; i++)
    if (!f->beaten[i]) low[n_low++] = i;
  for (size_t i = half; i < end; i++)
    if (!f->beaten[i]) high[n_high++] = i;
  strike(f, low, n_low, high, n_high, f->n_dim - 1, spare);
}

typedef struct keyed {
  const double *v;
  size_t n_dim, index;
} keyed;

static int compare_points(const void *a, const void *b)
{
  const keyed *x = a, *y = b;
  for (size_t d = 0; d < x->n_dim; d++) {
    if (x->v[d] < y->v[d]) return -1;
    if (x->v[d] > y->v[d]) return 1;
  }
  return (x->index > y->index) - (x->index < y->index);
}

static int alike(const double a[], const double b[], size_t n_dim)
{
  for (size_t d = 0; d < n_dim; d++)
    if (a[d] != b[d]) return 0;
  return 1;
}

static int compare_size(const void *a, const void *b)
{
  size_t x = *(const size_t *)a, y = *(const size_t *)b;
  return (x > y) - (x < y);
}

/* Everything that the search needs, in one go. */
typedef struct desk {
  keyed *point;
  size_t *order, *work;
  unsigned char *beaten;
  double *value;
} desk;

static void desk_free(desk *d)
{
  free(d->point);
  free(d->order);
  free(d->work);
  free(d->beaten);
  free(d->value);
}

static int desk_init(desk *d, size_t n)
{
  *d = (desk){malloc(n * sizeof *d->point), malloc(n * sizeof *d->order),
              malloc(3 * n * sizeof *d->work), calloc(n, 1), malloc(n * sizeof *d->value)};
  return d->point && d->order && d->work && d->beaten && d->value;
}

pw_status pw_pareto(const double v[], size_t n, size_t n_dim, size_t front[], size_t *n_front,
                    pw_err *err)
{
  if (n_dim < 1 || n_dim > PW_PARETO_MAX)
    return pw_fail(err, PW_E_SHAPE, "n_dim", "%zu dimensions, want 1 to %d", n_dim,
                   PW_PARETO_MAX);
  for (size_t i = 0; i < n * n_dim; i++)
    if (!isfinite(v[i]))
      return pw_fail(err, PW_E_DOMAIN, "v", "point %zu: %g", i / n_dim, v[i]);
  *n_front = 0;
  if (n == 0) return PW_OK;
  desk d = {0};
  if (n > (size_t)-1 / (8 * sizeof *d.point) || !desk_init(&d, n)) {
    desk_free(&d);
    return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu points", n);
  }
  for (size_t i = 0; i < n; i++)
    d.point[i] = (keyed){v + i * n_dim, n_dim, i};
  qsort(d.point, n, sizeof *d.point, compare_points);
  size_t m = 0; /* one of each; its likes share its fate */
  for (size_t i = 0; i < n; i++)
    if (m == 0 || !alike(d.point[i].v, v + d.order[m - 1] * n_dim, n_dim))
      d.order[m++] = d.point[i].index;
  const field f = {v, n_dim, d.order, d.beaten, d.value};
  halve(&f, 0, m, d.work, m);
  for (size_t i = 0, k = 0; i < n; i++) {
    if (i > 0 && k + 1 < m && d.point[i].index == d.order[k + 1]) k++;
    if (!d.beaten[k]) front[(*n_front)++] = d.point[i].index;
  }
  qsort(front, *n_front, sizeof *front, compare_size);
  desk_free(&d);
  return PW_OK;
}
