/* Least squares and the weights of draws, by hand, and what they refuse. */
#include "support.h"

#include <math.h>

#include "meter/condition.h"
#include "meter/least_squares.h"

#define N(a) (sizeof(a) / sizeof(a)[0])

static int a_line(void *data, const double b[], double value[], double slope[])
{
  const double *x = data;
  if (b[0] < 0.0) return 0; /* what this model does not take */
  for (size_t i = 0; i < 3; i++) {
    value[i] = b[0] + b[1] * x[i];
    slope[2 * i] = 1.0;
    slope[2 * i + 1] = x[i];
  }
  return 1;
}

/* y = 1 + 2 x at 0, 1, 2, and (by hand) weights 1, 1, 4 on 1, 3, 8: slopes from the normal equations
 * [6 9; 9 17] b = [36; 67]: b = (612 - 603, 402 - 324)/21 = (3/7, 26/7). */
static void lines_by_hand(void **state)
{
  (void)state;
  double x[] = {1, 0, 1, 1, 1, 2}, y[] = {1, 3, 8}, w[] = {1, 1, 4}, at[] = {0, 1, 2};
  pw_least_squares f = {.n = 99};
  pw_err err = {0};
  assert_int_equal(pw_least_squares_fit(x, y, w, 3, 2, &f, &err), PW_OK);
  pw_assert_near(f.coefficient[0], 3.0 / 7.0, 1e-12, "b0", "normal equations by hand");
  pw_assert_near(f.coefficient[1], 26.0 / 7.0, 1e-12, "b1", "normal equations by hand");
  pw_assert_near(f.inverse[0], 17.0 / 21.0, 1e-12, "inverse", "of [6 9; 9 17]");
  pw_assert_near(f.inverse[1], -9.0 / 21.0, 1e-12, "inverse", "of [6 9; 9 17]");
  double b[] = {1.0, 1.0};
  assert_int_equal(pw_least_squares_polish(a_line, at, y, w, 3, 2, b, &f, &err), PW_OK);
  pw_assert_near(b[1], 26.0 / 7.0, 1e-9, "b1 polished", "normal equations by hand");
  b[0] = -1.0;
  assert_int_equal(pw_least_squares_polish(a_line, at, y, w, 3, 2, b, &f, &err), PW_E_DOMAIN);
  pw_assert_near(b[0], -1.0, 0.0, "untouched", "least_squares.h");
  static const size_t shape[][2] = {{3, 0}, {3, PW_LEAST_SQUARES_MAX + 1}, {1, 2}};
  f.n = 99;
  for (size_t i = 0; i < N(shape); i++) {
    assert_int_equal(pw_least_squares_fit(x, y, NULL, shape[i][0], shape[i][1], &f, &err),
                     PW_E_SHAPE);
    assert_int_equal(
        pw_least_squares_polish(a_line, at, y, w, shape[i][0], shape[i][1], b, &f, &err),
        PW_E_SHAPE);
  }
  double *const cell[] = {&x[3], &y[1], &w[2]};
  static const double bad[] = {NAN, INFINITY, -INFINITY};
  for (size_t i = 0; i < N(cell); i++)
    for (size_t k = 0; k < N(bad); k++) {
      double was = *cell[i];
      *cell[i] = bad[k];
      assert_int_equal(pw_least_squares_fit(x, y, w, 3, 2, &f, &err), PW_E_DOMAIN);
      *cell[i] = was;
    }
  w[0] = 0.0;
  assert_int_equal(pw_least_squares_fit(x, y, w, 3, 2, &f, &err), PW_E_DOMAIN);
  assert_int_equal(f.n, 99);
}

/* One bill, sigma 2, discrepancy 0: chi2 = (r/2)^2 by hand. What is no sigma, residual, share or count is refused with nothing changed. */
static void draws_are_weighed(void **state)
{
  (void)state;
  double sigma = 2.0, residual[] = {2.0, 4.0}, lw[] = {0.0, 0.0}, chi2[] = {0.0, 0.0};
  pw_condition_meter m = {.n = 1, .sigma = &sigma};
  pw_err err = {0};
  assert_int_equal(pw_condition_add(&m, residual, 2, lw, NULL, &err), PW_OK);
  assert_int_equal(pw_condition_add(&m, residual, 2, lw, chi2, &err), PW_OK);
  pw_assert_near(chi2[0], 1.0, 1e-12, "chi2", "by hand");
  pw_assert_near(chi2[1], 4.0, 1e-12, "chi2", "by hand");
  pw_assert_near(lw[1], -4.0, 1e-12, "twice -chi2/2", "by hand");
  static const double bad[] = {NAN, INFINITY, -INFINITY, -1e-9};
  double *const cell[] = {&sigma, &residual[1], &m.discrepancy, &m.shared};
  static const char *const field[] = {"sigma", "residual", "discrepancy", "discrepancy"};
  for (size_t i = 0; i < N(cell); i++)
    for (size_t k = 0; k < N(bad); k++) {
      double was = *cell[i];
      if (i == 1 && k == 3) continue; /* a residual may be below 0 */
      *cell[i] = bad[k];
      assert_int_equal(pw_condition_add(&m, residual, 2, lw, chi2, &err), PW_E_DOMAIN);
      assert_string_equal(err.field, field[i]);
      *cell[i] = was;
    }
  m.shared = 1.0 + 1e-9;
  assert_int_equal(pw_condition_add(&m, residual, 2, lw, chi2, &err), PW_E_DOMAIN);
  m.shared = 1.0;
  assert_int_equal(pw_condition_add(&m, residual, 0, lw, chi2, &err), PW_E_SHAPE);
  m.n = 0;
  assert_int_equal(pw_condition_add(&m, residual, 2, lw, chi2, &err), PW_E_SHAPE);
  pw_assert_near(lw[1], -4.0, 1e-12, "unchanged", "condition.h");
  double sort[2], weight[2];
  pw_condition c;
  assert_int_equal(pw_condition_weights(lw, chi2, 0, 1.0, 0.0, sort, weight, &c, &err),
                   PW_E_SHAPE);
  assert_int_equal(pw_condition_weights(lw, chi2, 1, 1.0, 0.0, sort, weight, &c, &err), PW_OK);
  pw_assert_near(c.effective, 1.0, 0.0, "one draw", "definition");
  assert_true(isnan(c.tail));
  assert_int_equal(c.refused, PW_CONDITION_FEW);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(lines_by_hand),
      cmocka_unit_test(draws_are_weighed),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
