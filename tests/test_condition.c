/* Weights of draws by bills: the closed inverse beside a matrix, what a free base may change, refusals. Posteriors in
 * closed form are in panewright check --group bills. */
#include "support.h"

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

/* Weights u^-0.9 of u = 1/N .. 1: a Pareto tail of index 0.9, above 0.7, though the effective draws would do. Equal weights have
 * no tail at all; a draw whose weight is no number leaves none that could be counted. */
static void tails_by_their_index(void **state)
{
  (void)state;
  enum { ALL = 20000 };
  static double log_weight[ALL], chi2[ALL], sort[ALL], weight[ALL];
  pw_condition c;
  for (int i = 0; i < ALL; i++)
    log_weight[i] = -0.9 * log((i + 1.0) / ALL);
  assert_int_equal(
      pw_condition_weights(log_weight, chi2, ALL, 11.0, 0.0, sort, weight, &c, NULL), PW_OK);
  pw_assert_near(c.tail, 0.9, 0.05, "tail", "Pareto index, by the quantiles");
  assert_true(c.effective > 50.0);
  assert_int_equal(c.refused, PW_CONDITION_TAIL);
  for (int i = 0; i < ALL; i++)
    log_weight[i] = 3.0;
  assert_int_equal(
      pw_condition_weights(log_weight, chi2, ALL, 11.0, 0.0, sort, weight, &c, NULL), PW_OK);
  assert_true(isnan(c.tail));
  pw_assert_near(c.effective, ALL, 1e-6, "effective", "all");
  assert_int_equal(c.refused, 0);
  log_weight[5] = (double)NAN;
  assert_int_equal(
      pw_condition_weights(log_weight, chi2, ALL, 11.0, 0.0, sort, weight, &c, NULL), PW_OK);
  assert_int_equal(c.refused, PW_CONDITION_FEW);
}

/* Few weights, where each step of the fit is seen: the fifth largest, less the next one, of u^-a of u = (i + 1/2) / n. Zhang and
 * Stephens 2009 as they give it (from memory: prior of theta by the quarter's order statistic [n/4 + 1/2], 30 + sqrt(n) nodes;
 * drawn towards 1/2 by ten), worked apart from this program by a short script of those formulas. */
static void few_weights_by_every_step(void **state)
{
  (void)state;
  static const struct {
    size_t n;
    double a, k;
  } row[] = {{120, 0.8, 0.6779883}, {120, 1.5, 1.1106982}, {110, 0.8, 0.6609653},
             {110, 1.5, 1.0767802}, {101, 0.8, 0.6634319}, {101, 1.5, 1.0646753}};
  for (size_t r = 0; r < sizeof row / sizeof row[0]; r++) {
    double log_weight[120], chi2[120] = {0}, sort[120], weight[120];
    pw_condition c;
    for (size_t i = 0; i < row[r].n; i++) /* in no order */
      log_weight[i * 7 % row[r].n] =
          -row[r].a * log(((double)i + 0.5) / (double)row[r].n) + 5.0;
    assert_int_equal(
        pw_condition_weights(log_weight, chi2, row[r].n, 11.0, 0.0, sort, weight, &c, NULL),
        PW_OK);
    pw_assert_near(c.tail, row[r].k, 1e-6, "tail index", "Zhang and Stephens, worked apart");
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
  const struct CMUnitTest tests[] = {cmocka_unit_test(the_closed_inverse_is_the_matrix),
                                     cmocka_unit_test(a_free_base_takes_the_constant_away),
                                     cmocka_unit_test(weights_are_judged),
                                     cmocka_unit_test(a_heavy_tail_is_seen),
                                     cmocka_unit_test(tails_by_their_index),
                                     cmocka_unit_test(few_weights_by_every_step),
                                     cmocka_unit_test(what_is_wrong_is_refused)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
