/* Draws near those that bear the bills. The chances u of a draw are put as z = Phi^-1(u), which the spreads make
 * standard normal; what a draw leaves of each bill is taken as straight in z, and as steps from form to form, by least
 * squares over the draws there are:
 *
 *   r = c + sum of the steps of its published forms + B z,   H = I + sum B' P B,   mean = -H^-1 sum B' P (c + steps)
 *
 * P is the inverse of the bills' covariance with the free base taken out (condition.h). New draws take their forms as the
 * spreads have them and the rest from a normal distribution at the mean of these forms, along each main direction of H as
 * wide as twice its variance, nowhere wider than the spreads; the ratio of the two densities goes into their weights, so
 * nothing but the work depends on the choice. */
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_eigen.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <stdlib.h>

#include "base/gsl_quiet.h"
#include "study/range_bills_impl.h"

enum { STEPS = PW_FORM_KINDS * (RANGE_FORMS_MAX - 1), MOST = 1 + IN_COUNT + STEPS };
static const double WIDER = 2.0; /* METHODS section 7: covariance times 2 */
static const double EDGE = 1e-12;

/* A draw is [1, z of what is no choice (0 for a choice), 1 for each form that it has but the first]. */
struct range_slope {
  const double *z; /* z[n * n_in]; borrowed */
  size_t n, n_in, n_choice, wide;
  range_choice choice[PW_FORM_KINDS];
  double normal[MOST * MOST]; /* Cholesky factor of the sum of x x', wide x wide */
  double h[IN_COUNT * IN_COUNT];
  double g[1 + STEPS][IN_COUNT]; /* of c; of each step */
};

static size_t level_of(const range_choice *c, const double z[])
{
  double p = gsl_cdf_ugaussian_P(z[c->input]) * (double)c->n_level;
  return p < (double)c->n_level ? (size_t)p : c->n_level - 1;
}

static void row_of(const range_slope *s, const double z[], double x[MOST])
{
  size_t at = 1 + s->n_in;
  x[0] = 1.0;
  for (size_t j = 0; j < s->n_in; j++)
    x[1 + j] = z[j];
  for (size_t c = 0; c < s->n_choice; c++) {
    size_t level = level_of(&s->choice[c], z);
    x[1 + s->choice[c].input] = 0.0;
    for (size_t k = 1; k < s->choice[c].n_level; k++)
      x[at++] = k == level ? 1.0 : 0.0;
  }
}

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
  }
  for (size_t c = 0; c < near->n_choice; c++) { /* which moves no choice */
    const double *by = near->step[c][level_of(&near->choice[c], z)];
    for (size_t j = 0; j < n_in; j++)
      z[j] += by[j];
  }
  for (size_t j = 0; j < n_in; j++) {
    ratio += 0.5 * (e[j] * e[j] - z[j] * z[j]);
    u[j] = fmin(1.0 - EDGE, fmax(EDGE, gsl_cdf_ugaussian_P(z[j])));
  }
  return ratio;
}

range_slope *range_slope_new(const double z[], size_t n, size_t n_in,
                             const range_choice choice[], size_t n_choice)
{
  range_slope *s = calloc(1, sizeof *s);
  double x[MOST] = {0};
  if (!s) return NULL;
  s->z = z;
  s->n = n;
  s->n_in = n_in;
  s->n_choice = n_choice;
  s->wide = 1 + n_in;
  for (size_t c = 0; c < n_choice; c++) {
    s->choice[c] = choice[c];
    s->wide += choice[c].n_level - 1;
  }
  for (size_t i = 0; i < n; i++) {
    row_of(s, z + i * n_in, x);
    for (size_t a = 0; a < s->wide; a++)
      for (size_t b = 0; b <= a; b++)
        s->normal[a * s->wide + b] += x[a] * x[b];
  }
  for (size_t c = 0; c < n_choice; c++) /* it has no slope */
    s->normal[(1 + choice[c].input) * (s->wide + 1)] = 1.0;
  for (size_t a = 0; a < s->wide; a++)
    for (size_t b = 0; b < a; b++)
      s->normal[b * s->wide + a] = s->normal[a * s->wide + b];
  for (size_t j = 0; j < n_in; j++)
    s->h[j * n_in + j] = 1.0;
  gsl_matrix_view m = gsl_matrix_view_array(s->normal, s->wide, s->wide);
  gsl_error_handler_t *held = pw_gsl_hold();
  int bad = gsl_linalg_cholesky_decomp1(&m.matrix);
  pw_gsl_release(held);
  if (!bad) return s;
  free(s);
  return NULL;
}

/* b[bill * wide]: what each bill's residual is at z = 0 with the first forms, its slopes, its steps. */
static void slopes(range_slope *s, size_t n_bill, const double residual[], double b[])
{
  const size_t wide = s->wide;
  double x[MOST] = {0};
  for (size_t k = 0; k < s->n; k++) {
    row_of(s, s->z + k * s->n_in, x);
    for (size_t i = 0; i < n_bill; i++)
      for (size_t j = 0; j < wide; j++)
        b[i * wide + j] += residual[k * n_bill + i] * x[j];
  }
  gsl_matrix_view m = gsl_matrix_view_array(s->normal, wide, wide);
  gsl_error_handler_t *held = pw_gsl_hold();
  for (size_t i = 0; i < n_bill; i++) {
    gsl_vector_view v = gsl_vector_view_array(b + i * wide, wide);
    gsl_linalg_cholesky_svx(&m.matrix, &v.vector);
  }
  pw_gsl_release(held);
}

/* x' P y of columns x, y of b, P = A^-1 - less A^-1 11' A^-1; a[bill]: the diagonal of A. */
static double product(const double b[], size_t wide, size_t n_bill, const double a[],
                      double less, size_t x, size_t y)
{
  double both = 0.0, of_x = 0.0, of_y = 0.0;
  for (size_t i = 0; i < n_bill; i++) {
    both += b[i * wide + x] * b[i * wide + y] / a[i];
    of_x += b[i * wide + x] / a[i];
    of_y += b[i * wide + y] / a[i];
  }
  return both - less * of_x * of_y;
}

pw_status range_slope_add(range_slope *s, const pw_condition_meter *m, const double residual[],
                          pw_err *err)
{
  const size_t n_in = s->n_in, wide = s->wide;
  double *b = calloc(m->n * (wide + 1), sizeof *b);
  double d2 = m->discrepancy * m->discrepancy, common = d2 * m->shared, ones = 0.0;
  if (!b) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for %zu bills", m->n);
  double *a = b + m->n * wide;
  slopes(s, m->n, residual, b);
  for (size_t i = 0; i < m->n; i++) {
    a[i] = m->sigma[i] * m->sigma[i] + d2 * (1.0 - m->shared);
    ones += 1.0 / a[i];
  }
  /* A free base takes the whole common part away; else Sherman and Morrison, as in meter/condition.c. */
  double less = m->free_base ? 1.0 / ones : common / (1.0 + common * ones);
  for (size_t j = 0; j < n_in; j++) {
    for (size_t k = 0; k < n_in; k++)
      s->h[j * n_in + k] += product(b, wide, m->n, a, less, 1 + j, 1 + k);
    s->g[0][j] -= product(b, wide, m->n, a, less, 1 + j, 0);
    for (size_t t = 1 + n_in; t < wide; t++)
      s->g[t - n_in][j] -= product(b, wide, m->n, a, less, 1 + j, t);
  }
  free(b);
  return PW_OK;
}

void range_slope_free(range_slope *s) { free(s); }

/* to = H^-1 g by the directions of H. */
static void solve(const gsl_vector *value, const gsl_matrix *q, const double g[], size_t n_in,
                  double to[])
{
  for (size_t k = 0; k < n_in; k++) {
    double along = 0.0;
    for (size_t j = 0; j < n_in; j++)
      along += gsl_matrix_get(q, j, k) * g[j];
    for (size_t j = 0; j < n_in; j++)
      to[j] += gsl_matrix_get(q, j, k) * along / fmax(1.0, gsl_vector_get(value, k));
  }
}

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
  *near = (range_near){.n_in = n_in, .n_choice = s->n_choice};
  for (size_t k = 0; k < n_in; k++) {
    double wide = fmin(1.0, sqrt(WIDER / fmax(1.0, gsl_vector_get(value, k))));
    near->log_det += log(wide);
    for (size_t j = 0; j < n_in;
         j++) /* the symmetric root: what no bill tells of stays as drawn */
      for (size_t l = 0; l < n_in; l++)
        near->root[j * n_in + l] += gsl_matrix_get(q, j, k) * wide * gsl_matrix_get(q, l, k);
  }
  solve(value, q, s->g[0], n_in, near->mean);
  for (size_t c = 0, t = 1; c < s->n_choice; c++) {
    near->choice[c] = s->choice[c];
    for (size_t k = 1; k < s->choice[c].n_level; k++)
      solve(value, q, s->g[t++], n_in, near->step[c][k]);
  }
done:
  gsl_matrix_free(h);
  gsl_matrix_free(q);
  gsl_vector_free(value);
  gsl_eigen_symmv_free(w);
  pw_gsl_release(held);
  return status;
}
