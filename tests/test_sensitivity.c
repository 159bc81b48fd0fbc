/* study/sensitivity by hand: the indices of four draws, weighted quantiles, what a stride leaves out. */
#include "support.h"

#include <math.h>

#include "study/sensitivity.h"

/* a 1 3 2 6, b 2 4 7 1, ab 1.5 3.5 4 5, every other one of the rows. Mean of both samples 3.25, variance 4.4375. First order by
 * Saltelli 2010 (b): mean of (b - 3.25)(ab - a) / 4.4375 = (-0.625 + 0.375 + 7.5 + 2.25) / 17.75 = 0.535211; total by Jansen
 * (f): mean of (a - ab)^2 / 8.875 = (0.25 + 0.25 + 4 + 1) / 35.5 = 0.154930. */
static void indices_by_hand(void **state)
{
  (void)state;
  const double a[] = {1, 90, 3, -7, 2, 44, 6}, b[] = {2, -9, 4, 8, 7, 61, 1};
  const double ab[] = {1.5, 17, 3.5, 20, 4, -3, 5};
  pw_sensitivity s;
  assert_int_equal(pw_sensitivity_of(a, b, ab, 2, 4, &s, NULL), PW_OK);
  pw_assert_near(s.first_order, 9.5 / 17.75, 1e-12, "first order", "by hand");
  pw_assert_near(s.total, 5.5 / 35.5, 1e-12, "total", "by hand");
}

static void what_has_no_index(void **state)
{
  (void)state;
  const double same[] = {5, 5, 5}, other[] = {5, 6, NAN};
  pw_sensitivity s = {1, 1};
  pw_err err;
  assert_int_equal(pw_sensitivity_of(same, same, same, 1, 3, &s, NULL), PW_OK);
  assert_true(s.first_order == 0.0 && s.total == 0.0);
  assert_int_equal(pw_sensitivity_of(same, other, same, 1, 3, &s, &err), PW_E_DOMAIN);
  assert_int_equal(pw_sensitivity_of(other, same, same, 1, 2, &s, &err), PW_OK);
  assert_int_equal(pw_sensitivity_of(other, same, same, 1, 1, &s, &err), PW_E_SHAPE);
}

/* 4 1 3 2 with weights 1 2 3 2: in order 1 2 3 4 at 0/7, 2/7, 4/7, 7/7 of the running sum; mean 19/8. By hand: 0.1 lies 0.35 of
 * the way from 1 to 2, 0.5 three quarters from 2 to 3, 0.9 23/30 from 3 to 4. */
static void weighted_quantiles_by_hand(void **state)
{
  (void)state;
  const double v[] = {4, -50, 1, 70, 3, 80, 2}, w[] = {1, 2, 3, 2};
  double work[8], out[5];
  pw_band b;
  assert_int_equal(pw_band_of(v, 2, 4, w, work, &b, NULL), PW_OK);
  pw_assert_near(b.p10, 1.35, 1e-12, "p10", "by hand");
  pw_assert_near(b.p50, 2.75, 1e-12, "p50", "by hand");
  pw_assert_near(b.p90, 3.0 + 23.0 / 30.0, 1e-12, "p90", "by hand");
  pw_assert_near(b.mean, 19.0 / 8.0, 1e-12, "mean", "by hand");
  pw_assert_near(b.sd, sqrt(7.875 / 8.0), 1e-12, "sd", "by hand");
  assert_int_equal(b.n, 4);
  assert_int_equal(pw_quantiles_of(v, 2, 4, w, work, out, 5, NULL), PW_OK);
  const double want[] = {1.0, 1.875, 2.75, 3.0 + 5.0 / 12.0, 4.0};
  for (int i = 0; i < 5; i++)
    pw_assert_near(out[i], want[i], 1e-12, "quarters", "by hand");
}

/* As many quantiles as values are the values; three of four lie at 0, 1.5 and 3 of the order. */
static void plain_quantiles_by_hand(void **state)
{
  (void)state;
  const double v[] = {4, -50, 1, 70, 3, 80, 2};
  double work[8], out[5];
  pw_err err;
  assert_int_equal(pw_quantiles_of(v, 2, 4, NULL, work, out, 4, NULL), PW_OK);
  for (int i = 0; i < 4; i++)
    assert_true(out[i] == i + 1);
  assert_int_equal(pw_quantiles_of(v, 2, 4, NULL, work, out, 3, NULL), PW_OK);
  assert_true(out[0] == 1.0 && out[1] == 2.5 && out[2] == 4.0);
  assert_int_equal(pw_quantiles_of(v, 2, 4, NULL, work, out, 1, &err), PW_E_SHAPE);
  assert_int_equal(pw_quantiles_of(v, 2, 0, NULL, work, out, 3, &err), PW_E_SHAPE);
  const double none[] = {0, 0, 0, 0}, worse[] = {1, 1, INFINITY, 1};
  assert_int_equal(pw_quantiles_of(v, 2, 4, none, work, out, 3, &err), PW_E_DOMAIN);
  assert_int_equal(pw_quantiles_of(v, 2, 4, worse, work, out, 3, &err), PW_E_DOMAIN);
  assert_true(isnan(pw_chance_above(v, 1, 4, none, 0.0)));
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(indices_by_hand),
      cmocka_unit_test(what_has_no_index),
      cmocka_unit_test(weighted_quantiles_by_hand),
      cmocka_unit_test(plain_quantiles_by_hand),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
