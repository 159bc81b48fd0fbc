/* The response surface: what it meets, what it says of its own error, how it is walked along an axis. */
#include "support.h"

#include <gsl/gsl_multifit.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "study/range_reduced.h"

/* Closed form: a quadratic is met to rounding when the runs tell enough, and left-out residuals are
 * those of a fit without the run (checked by leaving one out by hand). */
static void a_quadratic_is_met_and_the_error_known(void **state)
{
  (void)state;
  enum { N = 60, D = 3 };
  double z[N * D], y[N], rough[N], focus = 1.0, got = 0.0;
  unsigned seed = 7;
  for (int i = 0; i < N; i++) {
    for (int d = 0; d < D; d++)
      z[i * D + d] = 2.0 * (seed = seed * 1103515245u + 12345u) / 4294967296.0 - 1.0;
    const double *p = z + i * D;
    y[i] = 3.0 + p[0] - 2.0 * p[1] + 0.5 * p[0] * p[2] - p[1] * p[1];
    rough[i] = y[i] + 0.3 * sin(9.0 * p[2]);
  }
  surface s;
  assert_int_equal(surface_fit(z, y, N, D, 1, &focus, &s, NULL), PW_OK);
  const double at[D] = {0.3, -0.4, 0.9};
  surface_at(&s, at, &got);
  pw_assert_near(got, 3.0 + 0.3 + 0.8 + 0.5 * 0.27 - 0.16, 2e-3, "value", "closed form");
  for (size_t i = 0; i < D; i++) { /* one step along an axis, and all of it anew */
    double moved[D] = {at[0], at[1], at[2]}, stepped = 0.0, anew = 0.0;
    moved[i] = -0.7;
    surface_moved(&s, at, &got, i, moved[i], &stepped);
    surface_at(&s, moved, &anew);
    pw_assert_near(stepped, anew, 1e-13, "moved along an axis", "the surface there");
  }
  surface_free(&s);
  /* Left-out residuals beside refits without the run, 24 runs for 10 terms. */
  enum { FEW = 24 };
  double told = 0.0, by_hand = 0.0;
  for (int k = 0; k < FEW; k++) {
    double zk[FEW * D], yk[FEW];
    int n = 0;
    for (int i = 0; i < FEW; i++) {
      if (i == k) continue;
      memcpy(zk + n * D, z + i * D, D * sizeof *z);
      yk[n++] = rough[i];
    }
    assert_int_equal(surface_fit(zk, yk, FEW - 1, D, 1, &focus, &s, NULL), PW_OK);
    surface_at(&s, z + k * D, &got);
    by_hand += (rough[k] - got) * (rough[k] - got) / FEW;
    surface_free(&s);
  }
  assert_int_equal(surface_fit(z, rough, FEW, D, 1, &focus, &s, NULL), PW_OK);
  for (int i = 0; i < FEW; i++)
    told += s.left_out[i] * s.left_out[i] / FEW;
  surface_free(&s);
  print_message("left out: told %.3f, by hand %.3f\n", sqrt(told), sqrt(by_hand));
  pw_assert_near(sqrt(told / by_hand), 1.0, 0.15, "left-out error", "refits by hand");
  pw_err err;
  assert_int_equal(surface_fit(z, y, 7, D, 1, &focus, &s, &err), PW_E_SHAPE);
}

enum { RUNS = 40, INPUTS = 4, TERMS = 1 + INPUTS + INPUTS * (INPUTS + 1) / 2 };

/* The terms as surface.h orders them. */
static void terms_of(const double z[INPUTS], double term[TERMS])
{
  size_t k = 0;
  term[k++] = 1.0;
  for (size_t i = 0; i < INPUTS; i++)
    term[k++] = z[i];
  for (size_t i = 0; i < INPUTS; i++)
    for (size_t j = i; j < INPUTS; j++)
      term[k++] = z[i] * z[j];
}

/* Least squares by GSL over the runs (without one, or all: without = RUNS) and a row a second-order term that holds it
 * towards 0 with the weight; the value of the fit at z. */
static double by_gsl(const double z[], const double y[], size_t without, double weight,
                     const double at[])
{
  gsl_matrix *x = gsl_matrix_calloc(RUNS + TERMS, TERMS), *cov = gsl_matrix_alloc(TERMS, TERMS);
  gsl_vector *right = gsl_vector_calloc(RUNS + TERMS), *c = gsl_vector_alloc(TERMS);
  gsl_multifit_linear_workspace *w = gsl_multifit_linear_alloc(RUNS + TERMS, TERMS);
  double term[TERMS], square = 0.0, value = 0.0;
  assert_true(x && cov && right && c && w);
  for (size_t i = 0; i < RUNS; i++) {
    if (i == without) continue;
    terms_of(z + i * INPUTS, term);
    memcpy(gsl_matrix_ptr(x, i, 0), term, sizeof term);
    gsl_vector_set(right, i, y[i]);
  }
  for (size_t k = 1 + INPUTS; k < TERMS; k++)
    gsl_matrix_set(x, RUNS + k, k, sqrt(weight));
  gsl_multifit_linear(x, right, c, cov, &square, w);
  terms_of(at, term);
  for (size_t k = 0; k < TERMS; k++)
    value += term[k] * gsl_vector_get(c, k);
  gsl_multifit_linear_free(w);
  gsl_matrix_free(x);
  gsl_matrix_free(cov);
  gsl_vector_free(right);
  gsl_vector_free(c);
  return value;
}

/* Library: GSL's least squares, each run left out in turn, at the ridge that the surface tells. */
static void fit_and_residuals_are_those_of_least_squares(void **state)
{
  (void)state;
  double z[RUNS * INPUTS], y[RUNS], focus = 1.0, got = 0.0;
  unsigned seed = 11;
  for (size_t i = 0; i < RUNS; i++) {
    for (size_t d = 0; d < INPUTS; d++)
      z[i * INPUTS + d] = 2.0 * (seed = seed * 1103515245u + 12345u) / 4294967296.0 - 1.0;
    const double *p = z + i * INPUTS;
    y[i] =
        10.0 + 3.0 * p[0] - p[1] + p[0] * p[2] + 0.6 * cos(4.0 * p[3]) + 0.2 * sin(9.0 * p[1]);
  }
  surface s;
  assert_int_equal(surface_fit(z, y, RUNS, INPUTS, 1, &focus, &s, NULL), PW_OK);
  const double at[INPUTS] = {0.3, -0.4, 0.9, -0.2}, weight = s.ridge * RUNS;
  surface_at(&s, at, &got);
  pw_assert_near(got, by_gsl(z, y, RUNS, weight, at), 1e-9, "value", "GSL least squares");
  for (size_t i = 0; i < RUNS; i++)
    pw_assert_near(s.left_out[i], y[i] - by_gsl(z, y, i, weight, z + i * INPUTS), 1e-9,
                   "left-out residual", "GSL least squares without the run");
  surface_free(&s);
}

/* What the surface misses of a saving, by hand: 240 $ for 12 x 100 kWh of heating, 0.2 $/kWh, and 60 $ for 12 x 50 of cooling,
 * 0.1 $/kWh. The first run misses 1 kWh of the old windows' heating every month, of the first package's half: 12 x 0.5 x 0.2 =
 * 1.2 $; of the second's the same: 0. The second run misses 2 kWh of cooling in January, -1, 0: 0.3 and 0.2 $. The third, 3 and
 * -3 kWh in March and April: 0. Roots of the means: sqrt((1.44 + 0.09) / 3) = 0.714143, sqrt(0.04 / 3) = 0.115470. */
static void what_is_missed_of_a_saving_by_hand(void **state)
{
  (void)state;
  enum { N = 3, OUT = 4 * RANGE_MONTHS };
  static double missed[N * OUT];
  pw_compare *c = calloc(1, sizeof *c);
  range_case *rc = calloc(1, sizeof *rc);
  pw_range *range = calloc(1, sizeof *range);
  assert_true(c && rc && range);
  c->billed.existing_set.bill.heating_cost = 240.0;
  c->billed.existing_set.bill.cooling_cost = 60.0;
  for (size_t m = 0; m < 12; m++) {
    c->lived.existing_set.needs.heating_kwh[m] = 100.0;
    c->lived.existing_set.needs.cooling_kwh[m] = 50.0;
    missed[m] = 1.0;
    missed[RANGE_MONTHS + m] = 0.5;
    missed[2 * RANGE_MONTHS + m] = 1.0;
  }
  missed[OUT + 12] = 2.0; /* cooling of January */
  missed[OUT + RANGE_MONTHS + 12] = -1.0;
  missed[2 * OUT + 2] = 3.0;
  missed[2 * OUT + 3] = -3.0;
  rc->compare = c;
  rc->n_set = 4;
  range->n_package = 2;
  const range_reduced r = {.rc = rc, .surface = {.n_out = OUT, .left_out = missed, .n_run = N}};
  range_reduced_errors(&r, range);
  pw_assert_near(range->package[0].surface_error, 0.714143, 1e-6, "first, $", "by hand");
  pw_assert_near(range->package[1].surface_error, 0.115470, 1e-6, "second, $", "by hand");
  free(range);
  free(rc);
  free(c);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_quadratic_is_met_and_the_error_known),
      cmocka_unit_test(fit_and_residuals_are_those_of_least_squares),
      cmocka_unit_test(what_is_missed_of_a_saving_by_hand),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
