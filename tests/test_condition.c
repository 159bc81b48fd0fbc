/* Weights of draws by bills: the closed inverse beside a matrix, what a free base may change, refusals. Posteriors in
 * closed form are in panewright check --group bills. */
#include "support.h"

#include <gsl/gsl_integration.h>
#include <gsl/gsl_linalg.h>
#include <math.h>
#include <string.h>

#include "meter/condition.h"

enum { N = 5, DRAWS = 3 };
static const double sigma[N] = {0.5, 0.7, 0.4, 1.1, 0.6};
static const double residual[DRAWS * N] = {0.3, -0.2, 0.9,  0.1, -0.7, 1.0, 1.3, 0.8,
                                           1.9, 0.6,  -2.0, 0.4, 0.1,  3.0, -0.3};

/* r' S^-1 r by Cholesky of S as METHODS section 7 writes it. */
static double form(const double r[N], double discrepancy, double shared)
{
  double a[N * N], b[N];
  gsl_matrix_view m = gsl_matrix_view_array(a, N, N);
  gsl_vector_view x = gsl_vector_view_array(b, N);
  double sum = 0.0, d2 = discrepancy * discrepancy;
  for (int i = 0; i < N; i++) {
    b[i] = r[i];
    for (int k = 0; k < N; k++)
      a[i * N + k] = d2 * shared + (i == k ? sigma[i] * sigma[i] + d2 * (1.0 - shared) : 0.0);
  }
  assert_int_equal(gsl_linalg_cholesky_decomp(&m.matrix), 0);
  assert_int_equal(gsl_linalg_cholesky_svx(&m.matrix, &x.vector), 0);
  for (int i = 0; i < N; i++)
    sum += r[i] * b[i];
  return sum;
}

static void the_closed_inverse_is_the_matrix(void **state)
{
  (void)state;
  for (int k = 0; k < 4; k++) {
    double log_weight[DRAWS] = {0.0}, chi2[DRAWS] = {0.0};
    const pw_condition_meter m = {
        .n = N, .sigma = sigma, .discrepancy = 0.4 * k, .shared = k == 3 ? 1.0 : 0.25 * k};
    assert_int_equal(pw_condition_add(&m, residual, DRAWS, log_weight, chi2, NULL), PW_OK);
    for (int i = 0; i < DRAWS; i++) {
      double want = form(residual + i * N, m.discrepancy, m.shared);
      pw_assert_near(chi2[i], want, 1e-9 * (1.0 + want), "r S^-1 r", "Cholesky");
      pw_assert_near(log_weight[i], -0.5 * want, 1e-9 * (1.0 + want), "log weight", "Cholesky");
    }
  }
}

/* A base of the meter, whatever it is above 0, changes no weight; and it is the one of least form. */
static void a_free_base_takes_the_constant_away(void **state)
{
  (void)state;
  const pw_condition_meter m = {
      .n = N, .sigma = sigma, .discrepancy = 0.5, .shared = 0.4, .free_base = 1};
  double chi2[3][DRAWS] = {{0.0}}, log_weight[DRAWS] = {0.0}, moved[DRAWS * N];
  for (int k = 0; k < 3; k++) {
    for (int i = 0; i < DRAWS * N; i++)
      moved[i] = residual[i] + 10.0 * (k + 1);
    assert_int_equal(pw_condition_add(&m, moved, DRAWS, log_weight, chi2[k], NULL), PW_OK);
  }
  for (int i = 0; i < DRAWS; i++) {
    pw_assert_near(chi2[1][i], chi2[0][i], 1e-9, "chi2", "property");
    pw_assert_near(chi2[2][i], chi2[0][i], 1e-9, "chi2", "property");
    double least = INFINITY, r[N];
    for (double a = -5.0; a <= 5.0; a += 1e-3) {
      for (int k = 0; k < N; k++)
        r[k] = residual[i * N + k] - a;
      least = fmin(least, form(r, 0.5, 0.4));
    }
    pw_assert_near(chi2[0][i], least, 1e-4, "chi2", "least over the base");
  }
  /* A base below 0 is none: what a draw predicts too much counts against it. */
  for (int i = 0; i < DRAWS * N; i++)
    moved[i] = residual[i] - 10.0;
  double below[DRAWS] = {0.0};
  assert_int_equal(pw_condition_add(&m, moved, DRAWS, log_weight, below, NULL), PW_OK);
  for (int i = 0; i < DRAWS; i++)
    pw_assert_near(below[i], form(moved + i * N, 0.5, 0.4), 1e-7, "chi2", "no base");
}

/* Likelihood of residuals of n bills at one sigma_d times its half-normal density, written apart: S as METHODS section 7
 * writes it, by Cholesky. A free base of any size: it is the one of least form, and the likelihood of what is left has
 * 1' S^-1 1 beside the determinant (the determinant of r' S^-1 r over the contrasts: restricted likelihood, textbook, from
 * memory); below 0 it is 0. */
enum { MANY_BILLS = 24 };
typedef struct one_house {
  size_t n;
  double sigma[MANY_BILLS], r[MANY_BILLS], scale, shared;
  int free_base, power; /* times sigma_d to that power */
} one_house;

static double likely(double x, void *context)
{
  const one_house *h = context;
  double a[MANY_BILLS * MANY_BILLS], u[MANY_BILLS], v[MANY_BILLS], log_det = 0.0;
  double rr = 0.0, r1 = 0.0, one = 0.0;
  gsl_matrix_view m = gsl_matrix_view_array(a, h->n, h->n);
  gsl_vector_view of_one = gsl_vector_view_array(u, h->n),
                  of_r = gsl_vector_view_array(v, h->n);
  for (size_t i = 0; i < h->n; i++) {
    u[i] = 1.0;
    v[i] = h->r[i];
    for (size_t k = 0; k < h->n; k++)
      a[i * h->n + k] = x * x * (i == k ? 1.0 : h->shared);
    a[i * h->n + i] += h->sigma[i] * h->sigma[i];
  }
  gsl_linalg_cholesky_decomp(&m.matrix);
  for (size_t i = 0; i < h->n; i++)
    log_det += 2.0 * log(gsl_matrix_get(&m.matrix, i, i));
  gsl_linalg_cholesky_svx(&m.matrix, &of_one.vector);
  gsl_linalg_cholesky_svx(&m.matrix, &of_r.vector);
  for (size_t i = 0; i < h->n; i++) {
    rr += h->r[i] * v[i];
    r1 += v[i];
    one += u[i];
  }
  if (h->free_base) log_det += log(one);
  if (h->free_base && r1 > 0.0) rr -= r1 * r1 / one;
  double density = sqrt(2.0 / M_PI) / h->scale * exp(-0.5 * pow(x / h->scale, 2.0));
  return pow(x, h->power) * density * exp(-0.5 * (rr + log_det));
}

static double integral(one_house *h, int power)
{
  gsl_integration_workspace *w = gsl_integration_workspace_alloc(1000);
  gsl_function f = {likely, h};
  double value, error;
  h->power = power;
  assert_int_equal(gsl_integration_qagiu(&f, 0.0, 0.0, 1e-9, 1000, w, &value, &error), 0);
  gsl_integration_workspace_free(w);
  return value;
}

/* A year or two of bills, noise of winter ten times that of summer, and what a draw leaves of them: near, nearest, far, all
 * too low, all too high. */
static one_house a_house(int kind, size_t n, int free_base)
{
  one_house h = {.n = n, .scale = 0.8, .shared = 0.4, .free_base = free_base};
  static const double times[5] = {1.0, 0.0, 5.0, 0.5, 0.5}, off[5] = {0.0, 0.0, 0.0, 1.5, -1.5};
  for (size_t i = 0; i < n; i++) {
    h.sigma[i] = 0.55 + 0.45 * cos(M_PI * (double)i / 6.0);
    h.r[i] = off[kind] + times[kind] * 0.3 * sin(2.5 * (double)(i * i));
  }
  return h;
}

/* sigma_d drawn: the Gauss rule beside GSL's adaptive integral to infinity. */
static void a_discrepancy_that_is_drawn_is_integrated_out(void **state)
{
  (void)state;
  for (int kind = 0; kind < 5; kind++)
    for (int k = 0; k < 4; k++) {
      one_house h = a_house(kind, k & 1 ? 12 : MANY_BILLS, k / 2);
      const pw_condition_meter m = {h.n, h.sigma, h.scale, h.shared, h.free_base, 1};
      double log_weight = 3.0, chi2[2] = {0.0, 0.0}, found, want = integral(&h, 0);
      assert_int_equal(pw_condition_add(&m, h.r, 1, &log_weight, &chi2[0], NULL), PW_OK);
      pw_assert_near(log_weight, 3.0 + log(want), 1e-5, "log weight", "gsl_integration_qagiu");
      assert_int_equal(pw_condition_found(&m, h.r, 1, &found, NULL), PW_OK);
      pw_assert_near(found, integral(&h, 1) / want, 1e-5, "sigma_d found",
                     "gsl_integration_qagiu");
      /* What contradicts every draw is judged by S at the scale, which is the mean of S. */
      const pw_condition_meter fixed = {h.n, h.sigma, h.scale, h.shared, h.free_base, 0};
      assert_int_equal(pw_condition_add(&fixed, h.r, 1, &log_weight, &chi2[1], NULL), PW_OK);
      assert_true(chi2[0] == chi2[1]);
    }
}

/* No scale: no discrepancy. A very small one: the same but for a constant of all draws. Draws that fit find a smaller
 * sigma_d than draws that do not. */
static void limits_of_a_drawn_discrepancy(void **state)
{
  (void)state;
  double log_weight[3][DRAWS] = {{0.0}}, found[2];
  for (int k = 0; k < 3; k++) {
    const pw_condition_meter m = {.n = N,
                                  .sigma = sigma,
                                  .discrepancy = k == 2 ? 1e-7 : 0.0,
                                  .shared = 0.4,
                                  .drawn = k > 0};
    assert_int_equal(pw_condition_add(&m, residual, DRAWS, log_weight[k], NULL, NULL), PW_OK);
  }
  for (int i = 0; i < DRAWS; i++) {
    double apart = log_weight[2][i] - log_weight[2][0];
    assert_true(log_weight[1][i] == log_weight[0][i]);
    pw_assert_near(apart, log_weight[0][i] - log_weight[0][0], 1e-9, "log weight", "limit");
  }
  for (int k = 0; k < 2; k++) {
    one_house h = a_house(k ? 2 : 1, MANY_BILLS, 1);
    const pw_condition_meter m = {h.n, h.sigma, h.scale, h.shared, 1, 1};
    assert_int_equal(pw_condition_found(&m, h.r, 1, &found[k], NULL), PW_OK);
  }
  print_message("sigma_d of scale 0.8: found %.3f where the bills fit, %.3f where not\n",
                found[0], found[1]);
  assert_true(found[0] < 0.3 && found[1] > 0.9);
}

static void weights_are_judged(void **state)
{
  (void)state;
  enum { MANY = 400 };
  double log_weight[MANY], chi2[MANY], sort[MANY], weight[MANY], sum = 0.0, squares = 0.0;
  pw_condition c;
  for (int i = 0; i < MANY; i++) {
    log_weight[i] = -1e-5 * i * i;
    chi2[i] = -2.0 * log_weight[i];
  }
  assert_int_equal(
      pw_condition_weights(log_weight, chi2, MANY, 11.0, 0.01, sort, weight, &c, NULL), PW_OK);
  for (int i = 0; i < MANY; i++) {
    sum += weight[i];
    squares += weight[i] * weight[i];
  }
  pw_assert_near(weight[0], 1.0, 0.0, "largest", "property");
  pw_assert_near(c.effective, sum * sum / squares, 1e-9, "effective", "1 / sum w^2");
  pw_assert_near(c.chi2_limit, 31.26, 0.01, "99.9 % of chi2(11)", "tables, from memory");
  assert_int_equal(c.refused, PW_CONDITION_ACCEPTED);
  for (int i = 0; i < MANY; i++)
    chi2[i] += 40.0;
  pw_condition_weights(log_weight, chi2, MANY, 11.0, 0.01, sort, weight, &c, NULL);
  assert_int_equal(c.refused, PW_CONDITION_FAR);
  for (int i = 0; i < MANY; i++) {
    log_weight[i] *= 100.0;
    chi2[i] = 0.0;
  }
  pw_condition_weights(log_weight, chi2, MANY, 11.0, 0.01, sort, weight, &c, NULL);
  assert_int_equal(c.refused, PW_CONDITION_FEW);
}

/* Weights of a Pareto tail of index 1 (u^-1) carry all in a few draws; the index is found. */
static void a_heavy_tail_is_seen(void **state)
{
  (void)state;
  enum { MANY = 4000 };
  static double log_weight[MANY], chi2[MANY], sort[MANY], weight[MANY];
  for (int k = 1; k <= 2; k++) {
    pw_condition c;
    for (int i = 0; i < MANY; i++)
      log_weight[i] = -(k == 1 ? 1.0 : 0.3) * log((i + 0.5) / MANY);
    assert_int_equal(
        pw_condition_weights(log_weight, chi2, MANY, 11.0, 0.01, sort, weight, &c, NULL),
        PW_OK);
    pw_assert_near(c.tail, k == 1 ? 1.0 : 0.3, 0.12, "tail index", "as made");
    if (k == 1) assert_true(c.refused != PW_CONDITION_ACCEPTED);
    if (k == 2) assert_int_equal(c.refused, PW_CONDITION_ACCEPTED);
  }
}

static void what_is_wrong_is_refused(void **state)
{
  (void)state;
  double log_weight[DRAWS] = {7.0, 7.0, 7.0}, bad[N];
  pw_condition_meter m = {.n = N, .sigma = sigma, .shared = 1.5};
  assert_int_equal(pw_condition_add(&m, residual, DRAWS, log_weight, NULL, NULL), PW_E_DOMAIN);
  m.shared = 0.5;
  assert_int_equal(pw_condition_add(&m, residual, 0, log_weight, NULL, NULL), PW_E_SHAPE);
  memcpy(bad, sigma, sizeof bad);
  bad[2] = 0.0;
  m.sigma = bad;
  assert_int_equal(pw_condition_add(&m, residual, DRAWS, log_weight, NULL, NULL), PW_E_DOMAIN);
  assert_true(log_weight[0] == 7.0);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_closed_inverse_is_the_matrix),
      cmocka_unit_test(a_free_base_takes_the_constant_away),
      cmocka_unit_test(a_discrepancy_that_is_drawn_is_integrated_out),
      cmocka_unit_test(limits_of_a_drawn_discrepancy),
      cmocka_unit_test(weights_are_judged),
      cmocka_unit_test(a_heavy_tail_is_seen),
      cmocka_unit_test(what_is_wrong_is_refused)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
