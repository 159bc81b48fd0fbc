/* Regression of bills at its ends: what it refuses, bills of one temperature or one use, fewer bills than a model wants, the
 * normal year of odd days, avoided use of days without weather. By hand or by the definitions of reference/meter/METHODS.md. */
#include "refused_by.h"

#include <math.h>
#include <stdlib.h>

#include "meter/after.h"
#include "meter/change_point.h"
#include "meter/normal_use.h"
#include "meter/odd_bills.h"

#define N(a) (sizeof(a) / sizeof(a)[0])

enum { BILLS = 8, MOST = 14 };

/* Bills of one day each: use y at the temperature t. */
static void lay(const double y[], const double t[], size_t n, pw_change_data *data)
{
  pw_change_period p[MOST];
  pw_err err = {0};
  for (size_t i = 0; i < n; i++)
    p[i] = (pw_change_period){y[i], 1.0, &t[i], 1};
  if (pw_change_data_init(data, p, n, &err) != PW_OK) fail_msg("%s", err.text);
}

static void bills_refused(void **state)
{
  (void)state;
  const double good = 10.0, bad[] = {(double)NAN, INFINITY, -INFINITY};
  pw_change_period p = {1.0, 30.0, &good, 1};
  pw_change_data d;
  pw_err err = {0};
  p.n_t = 0;
  refused(pw_change_data_init(&d, &p, 1, &err), PW_E_SHAPE, &err, "t");
  for (size_t i = 0; i < N(bad); i++) {
    p = (pw_change_period){bad[i], 30.0, &good, 1};
    refused(pw_change_data_init(&d, &p, 1, &err), PW_E_DOMAIN, &err, "period");
    p = (pw_change_period){i ? copysign(1e101, bad[i]) : 1.0, i ? 30.0 : -1.0, &good, 1};
    refused(pw_change_data_init(&d, &p, 1, &err), PW_E_DOMAIN, &err,
            "period"); /* squares overflow */
    p = (pw_change_period){1.0, bad[i], &good, 1};
    refused(pw_change_data_init(&d, &p, 1, &err), PW_E_DOMAIN, &err, "period");
    p = (pw_change_period){1.0, 30.0, &bad[i], 1};
    refused(pw_change_data_init(&d, &p, 1, &err), PW_E_DOMAIN, &err, "period");
  }
  p = (pw_change_period){1.0, 0.0, &good, 1};
  refused(pw_change_data_init(&d, &p, 1, &err), PW_E_DOMAIN, &err, "period");
  assert_true(d.n == 0 && !d.h); /* zeroed */
  pw_change_data_free(NULL);
  pw_daily_free(NULL);
  pw_normal_set_free(NULL);
  pw_meter_use_free(NULL);
  pw_after_free(NULL);
}

/* A model wants more bills than it has parameters: 1, 3, 3, 5, 4. Bills that are left out do not count. */
static void models_want_bills(void **state)
{
  (void)state;
  static const double y[BILLS] = {9, 7, 5, 3, 3, 4, 6, 8},
                      t[BILLS] = {0, 4, 8, 12, 16, 20, 24, 28};
  static const size_t parameters[PW_CHANGE_COUNT] = {1, 3, 3, 5, 4};
  pw_change_data d;
  pw_change_fit f = {.n = 77}, tried[4];
  pw_err err = {0};
  lay(y, t, BILLS, &d);
  for (int m = 0; m < PW_CHANGE_COUNT; m++) {
    unsigned char out[BILLS];
    for (size_t i = 0; i < BILLS; i++)
      out[i] = i >= parameters[m];
    refused(pw_change_point_fit(&d, out, (pw_change_model)m, &f, &err), PW_E_SHAPE, &err, "n");
    out[parameters[m]] = 0;
    assert_int_equal(pw_change_point_fit(&d, out, (pw_change_model)m, &f, &err), PW_OK);
    assert_int_equal(f.n, parameters[m] + 1);
  }
  for (int m = -1; m <= PW_CHANGE_COUNT; m += 1 + PW_CHANGE_COUNT) {
    refused(pw_change_point_fit(&d, NULL, (pw_change_model)m, &f, &err), PW_E_DOMAIN, &err,
            "model");
    assert_string_equal(pw_change_model_name((pw_change_model)m), "?");
  }
  static const unsigned char none[BILLS] = {1, 1, 1, 1, 1, 1, 1, 1};
  refused(pw_change_point_choose(&d, none, 1, &f, tried, &err), PW_E_SHAPE, &err, "n");
  /* Four bills: base, heating and cooling are tried, both together are not. */
  static const unsigned char four[BILLS] = {0, 1, 0, 1, 1, 0, 1, 0};
  assert_int_equal(pw_change_point_choose(&d, four, 1, &f, tried, &err), PW_OK);
  assert_true(tried[0].n == 4 && tried[1].n == 4 && tried[2].n == 4 && tried[3].n == 0);
  pw_change_data_free(&d);
}

/* All days of 10 C: no term can be told, so the base is chosen, the mean of the bills; the grid is as wide as a Jacobian all
 * the same. All bills alike: nothing is left to explain, and no residual to follow another. */
static void one_temperature_or_one_use(void **state)
{
  (void)state;
  static const double y[BILLS] = {1, 2, 3, 4, 5, 6, 7, 8},
                      warm[BILLS] = {10, 10, 10, 10, 10, 10, 10, 10},
                      same[BILLS] = {3, 3, 3, 3, 3, 3, 3, 3},
                      t[BILLS] = {0, 4, 8, 12, 16, 20, 24, 28};
  pw_change_data d;
  pw_change_fit f, tried[4];
  pw_err err = {0};
  lay(y, warm, BILLS, &d);
  if (pw_change_point_choose(&d, NULL, 1, &f, tried, &err) != PW_OK) fail_msg("%s", err.text);
  assert_int_equal(f.model, PW_CHANGE_BASE);
  pw_assert_near(f.base, 4.5, 1e-12, "base", "mean");
  for (int m = PW_CHANGE_H; m <= PW_CHANGE_HC; m++)
    assert_true(tried[m].doubt != 0);
  pw_change_data_free(&d);
  lay(same, t, BILLS, &d);
  if (pw_change_point_choose(&d, NULL, 1, &f, tried, &err) != PW_OK) fail_msg("%s", err.text);
  assert_int_equal(f.model, PW_CHANGE_BASE);
  pw_assert_near(f.base, 3.0, 1e-12, "base", "mean");
  pw_assert_near(f.r2, 0.0, 0.0, "R2", "nothing to explain");
  pw_assert_near(f.rho, 0.0, 1e-9, "rho", "no residual");
  assert_true(isfinite(f.bic) && isfinite(f.cv));
  if (pw_change_point_fit(&d, NULL, PW_CHANGE_H, &f, &err) != PW_OK) fail_msg("%s", err.text);
  pw_assert_near(f.slope[0], 0.0, 1e-6, "slope", "no use for cold");
  assert_true(isfinite(f.r2) && isfinite(f.rho) && f.doubt);
  pw_change_data_free(&d);
}

/* Two bills judge each other by one alone: too few, so none is odd. */
static void too_few_to_be_odd(void **state)
{
  (void)state;
  static const double y[2] = {1, 100}, t[2] = {0, 10};
  unsigned char out[2] = {0, 0};
  pw_change_data d;
  odd_one odd = {.t = 9.0};
  size_t k = 7;
  double f = 7.0, shift = 7.0;
  pw_err err = {0};
  lay(y, t, 2, &d);
  assert_int_equal(odd_bill(&d, out, 0, &odd, &err), PW_OK);
  assert_true(odd.t == 0.0 && !out[0] && !out[1]);
  assert_int_equal(odd_break(&d, out, PW_CHANGE_H, &k, &f, &shift, &err), PW_E_SHAPE);
  assert_true(k == 0 && f == 0.0 && shift == 0.0);
  pw_change_data_free(&d);
}

/* Seven bills of 10 a day, then seven of 12, without any rest: what is left is taken as the rounding of the figures, 5e-4 of the
 * mean of 11, 0.0055 a bill. By hand: all about 11 is 14 x 1; f = (14 - 14 x 0.0055^2) / 1 over 14 x 0.0055^2 / (14 - 2) =
 * 13.9995765 x 12 / 4.235e-4 = 396682; shift sqrt(1 - 0.0055^2) / 11 = 0.0909077. In another unit they are the same. */
static void a_break_of_bills_without_rest(void **state)
{
  (void)state;
  static const double times[] = {1.0, 1000.0, 1e-3};
  const unsigned char out[MOST] = {0};
  double y[MOST], t[MOST];
  for (size_t u = 0; u < N(times); u++) {
    pw_change_data d;
    size_t k = 0;
    double f = 0.0, shift = 0.0;
    pw_err err = {0};
    for (int i = 0; i < MOST; i++) {
      y[i] = times[u] * (i < 7 ? 10.0 : 12.0);
      t[i] = 3.0 * (i % 7);
    }
    lay(y, t, MOST, &d);
    assert_int_equal(odd_break(&d, out, PW_CHANGE_BASE, &k, &f, &shift, &err), PW_OK);
    assert_int_equal(k, 7);
    pw_assert_near(f, 396682.0, 1.0, "F", "by hand");
    pw_assert_near(shift, 0.0909077, 1e-7, "shift", "by hand");
    pw_change_data_free(&d);
  }
}

/* ---------------------------------------------------------------- normal year */

/* A typical year of 366 days counts its first 365; a day without a temperature is shared out over the others (15 at most); one
 * that is infinite is no temperature. */
static void days_of_a_normal_year(void **state)
{
  (void)state;
  static double t[366];
  pw_daily year = {.typical = 1, .n = 366, .t = t};
  pw_normal_set s;
  pw_err err = {0};
  for (int i = 0; i < 366; i++)
    t[i] = 10.0;
  t[365] = 99.0;
  assert_int_equal(pw_normal_set_of(&year, &s, &err), PW_OK);
  assert_int_equal(s.n, 365);
  assert_true(s.t[364] == 10.0 && s.weight[0] == 1.0 && s.year_first == 0);
  pw_normal_set_free(&s);
  for (int missing = 15; missing <= 16; missing++) {
    for (int i = 0; i < missing; i++)
      t[i * 20] = (double)NAN;
    refused(pw_normal_set_of(&year, &s, &err), missing > 15 ? PW_E_DATA : PW_OK, &err,
            "normal");
    if (missing > 15) continue;
    double sum = 0.0;
    for (size_t i = 0; i < s.n; i++)
      sum += s.weight[i];
    pw_assert_near(sum, 365.0, 1e-9, "weights", "days of a year");
    pw_normal_set_free(&s);
  }
  for (int i = 0; i < 366; i++)
    t[i] = 10.0;
  t[7] = -INFINITY;
  refused(pw_normal_set_of(&year, &s, &err), PW_E_DOMAIN, &err, "normal");
  assert_true(s.n == 0 && !s.t);
}

/* ---------------------------------------------------------------- avoided use */

/* Use 10 a day at 10 C by a base of 2 and 0.8 below 20 C. Twenty days from day 100, weather of all, or of 18 of them (nine in
 * ten suffice) before, after, in gaps; or of fewer; or of a year without a date. */
static void days_without_weather(void **state)
{
  (void)state;
  static const struct {
    int typical, first, n, gaps, counts;
  } row[] = {{0, 100, 20, 0, 1}, {0, 102, 18, 0, 1}, {0, 103, 17, 0, 0}, {0, 80, 38, 0, 1},
             {0, 80, 37, 0, 0},  {0, 100, 20, 2, 1}, {0, 100, 20, 3, 0}, {1, 100, 20, 0, 0}};
  const pw_change_fit fit = {
      .base = 2.0, .slope = {0.8, 0.0}, .balance = {20.0, (double)NAN}, .s = 0.5};
  const pw_bill_period bill = {100, 120, 150.0, 1};
  for (size_t i = 0; i < N(row); i++) {
    double t[40];
    for (int k = 0; k < 40; k++)
      t[k] = k % 6 == 1 && k / 6 < row[i].gaps ? (double)NAN : 10.0;
    const pw_daily w = {row[i].typical, row[i].first, (size_t)row[i].n, t};
    pw_avoided a;
    pw_avoided_of(&fit, 20.0, &bill, 1, &w, &a);
    assert_int_equal(a.n, row[i].counts);
    if (a.n) {
      pw_assert_near(a.expected, 200.0, 1e-9, "expected", "20 x (2 + 0.8 x 10)");
      pw_assert_near(a.avoided, 50.0, 1e-9, "avoided", "200 less 150");
      pw_assert_near(a.fraction, 0.25, 1e-12, "share", "by hand");
      pw_assert_near(a.se, 10.0, 1e-9, "error", "0.5 sqrt(20 x 20)");
    } else {
      assert_true(a.expected == 0.0 && isnan(a.fraction));
    }
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(bills_refused),
      cmocka_unit_test(models_want_bills),
      cmocka_unit_test(one_temperature_or_one_use),
      cmocka_unit_test(too_few_to_be_odd),
      cmocka_unit_test(a_break_of_bills_without_rest),
      cmocka_unit_test(days_of_a_normal_year),
      cmocka_unit_test(days_without_weather),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
