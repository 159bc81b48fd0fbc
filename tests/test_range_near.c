/* Draws near the bills: where they lie and what they weigh, by closed forms; what they do to a range's bands is in test_range_bills. */
#include "support.h"

#include <math.h>
#include <stdlib.h>

#include "study/range_bills_impl.h"
#include "study/sobol.h"

/* Input 2 a choice of three that moves one datum by 0, 2, -1; input 0 by 1.5 a standard deviation; the datum at 1, variance
 * 0.25. With a form given z0 is normal: mean 1.5 (1 - step) / (1.5^2 + 0.25), variance 0.25 / (1.5^2 + 0.25). */
static void steps_of_a_choice(double z[], double residual[])
{
  enum { N = 4096 };
  static const double step[3] = {0.0, 2.0, -1.0}, slope = 1.5, variance = 0.25;
  const range_choice choice = {2, 3};
  double sigma = sqrt(variance), u[2 * IN_COUNT], at[IN_COUNT], sum[2] = {0.0, 0.0};
  const pw_condition_meter m = {1, &sigma, 0.0, 0.0, 0};
  const double precision = slope * slope / variance + 1.0;
  range_near near;
  pw_sobol sobol;
  assert_int_equal(pw_sobol_init(&sobol, 2 * IN_COUNT, N, 5, NULL), PW_OK);
  for (size_t k = 0; k < N; k++) {
    pw_sobol_point(&sobol, k, u);
    range_near_z(u, IN_COUNT, z + k * IN_COUNT);
    residual[k] = 1.0 - step[(int)(3.0 * u[2])] - slope * z[k * IN_COUNT];
  }
  range_slope *s = range_slope_new(z, N, IN_COUNT, &choice, 1);
  assert_non_null(s);
  assert_int_equal(range_slope_add(s, &m, residual, NULL), PW_OK);
  assert_int_equal(range_near_of(s, &near, NULL), PW_OK);
  range_slope_free(s);
  for (size_t k = 0; k < N; k++) {
    pw_sobol_point(&sobol, k, u);
    int level = (int)(3.0 * u[2]);
    double ratio = range_near_draw(&near, u, at), e = 0.0, want = slope * (1.0 - step[level]);
    assert_int_equal((int)(3.0 * u[2]), level); /* a choice is as the spreads have it */
    want /= slope * slope + variance;
    e = (at[0] - want) * sqrt(precision / 2.0); /* variance times 2 */
    sum[0] += e / N;
    sum[1] += e * e / N;
    double density = 0.5 * (e * e - at[0] * at[0]) - 0.5 * log(precision / 2.0);
    pw_assert_near(ratio, density, 1e-6 * (1.0 + fabs(density)), "ratio",
                   "two normal densities");
  }
  pw_assert_near(sum[0], 0.0, 0.01, "mean by form", "conjugate normal");
  pw_assert_near(sum[1], 1.0, 0.02, "variance by form", "conjugate normal");
}

/* Where draws near the bills lie: the three-parameter case of twelve bills in closed form (Kalman), reference
 * bills/conditioning_cases.csv rows 8 to 10: posterior means and standard deviations, data without noise from the
 * parameters 0.1, -0.2, 0.15. The new draws are twice as wide in variance. Then: a mean over them, weighed back, is one
 * over the spreads (1, 0 and 1 of a standard normal). */
static void near_is_where_the_closed_form_lies(void **state)
{
  (void)state;
  static const double H[12] = {20, 18, 12, 6, 1, 0, 0, 0, 2, 8, 14, 19},
                      C[12] = {0, 0, 0, 1, 4, 9, 12, 11, 6, 1, 0, 0}, sd[3] = {0.15, 0.25, 0.3},
                      truth[3] = {0.1, -0.2, 0.15};
  static const struct {
    double discrepancy, shared, mean[3], sd[3];
  } row[] = {{0.0, 0.0, {0.1003, -0.2000, 0.1413}, {0.0149, 0.0344, 0.1281}},
             {1.0, 0.0, {0.0998, -0.1961, 0.1242}, {0.0264, 0.0635, 0.2132}},
             {1.0, 0.5, {0.0979, -0.1986, 0.1303}, {0.0320, 0.0532, 0.1874}}};
  enum { N = 4096 };
  double *z = calloc(N * IN_COUNT, sizeof *z), *residual = calloc(N * 12, sizeof *residual);
  double sigma[12], u[2 * IN_COUNT];
  pw_sobol sobol;
  range_near near;
  assert_true(z && residual);
  assert_int_equal(pw_sobol_init(&sobol, 2 * IN_COUNT, N, 5, NULL), PW_OK);
  for (size_t k = 0; k < N; k++) {
    pw_sobol_point(&sobol, k, u);
    range_near_z(u, IN_COUNT, z + k * IN_COUNT);
    for (int i = 0; i < 12; i++) {
      const double x[3] = {30.0, 0.9 * H[i], 0.4 * C[i]};
      sigma[i] = 0.5;
      for (int j = 0; j < 3; j++)
        residual[k * 12 + (size_t)i] += x[j] * (truth[j] - sd[j] * z[k * IN_COUNT + (size_t)j]);
    }
  }
  for (int c = 0; c < 3; c++) {
    const pw_condition_meter m = {12, sigma, row[c].discrepancy, row[c].shared, 0};
    range_slope *slope = range_slope_new(z, N, IN_COUNT, NULL, 0);
    assert_non_null(slope);
    assert_int_equal(range_slope_add(slope, &m, residual, NULL), PW_OK);
    assert_int_equal(range_near_of(slope, &near, NULL), PW_OK);
    range_slope_free(slope);
    for (int j = 0; j < 3; j++) {
      double wide = 0.0;
      for (int k = 0; k < IN_COUNT; k++)
        wide += pow(near.root[j * IN_COUNT + k], 2.0);
      pw_assert_near(sd[j] * near.mean[j], row[c].mean[j], 6e-5, "mean", "conditioning_cases");
      /* not wider than the spread, so the least known one may be less than root 2 wider */
      assert_true(sd[j] * sqrt(wide) <= 1.415 * row[c].sd[j] + 6e-5);
      assert_true(sd[j] * sqrt(wide) >= row[c].sd[j] - 6e-5);
    }
  }
  near = (range_near){.n_in = IN_COUNT, .log_det = log(0.9)};
  for (int j = 0; j < IN_COUNT; j++)
    near.root[j * IN_COUNT + j] = j ? 1.0 : 0.9;
  near.mean[0] = 0.3;
  double sum[3] = {0.0, 0.0, 0.0}, at[IN_COUNT];
  for (size_t k = 0; k < N; k++) {
    pw_sobol_point(&sobol, k, u);
    double w = exp(range_near_draw(&near, u, at)) / N;
    for (int q = 0; q < 3; q++)
      sum[q] += w * pow(at[0], q);
  }
  pw_assert_near(sum[0], 1.0, 0.02, "weights", "mean of a ratio of densities");
  pw_assert_near(sum[1], 0.0, 0.03, "first moment", "standard normal");
  pw_assert_near(sum[2], 1.0, 0.05, "second moment", "standard normal");
  steps_of_a_choice(z, residual);
  free(z);
  free(residual);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(near_is_where_the_closed_form_lies)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
