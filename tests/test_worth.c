/* Worth of an outlay. The textbook examples stand in reference/worth.csv (src/check/money.c). */
#include "support.h"

#include <math.h>
#include <string.h>

#include "money/worth.h"

/* Closed form for an even saving: NPV = s (1 - (1+r)^-n) / r - c; at whole years the discounted
 * payback is n with s (1 - (1+r)^-n) / r = c. */
static void an_even_saving_meets_its_closed_form(void **state)
{
  (void)state;
  double factor12 = (1.0 - pow(1.03, -12.0)) / 0.03;
  pw_invest i = {.price = 500.0 * factor12 + 1000.0,
                 .incentive = 1000.0,
                 .saving_year = 500.0,
                 .discount = 0.03};
  pw_worth w;
  assert_int_equal(pw_worth_of(&i, &w, NULL), PW_OK);
  assert_int_equal(w.n_year, 25);
  pw_assert_near(w.simple_payback, factor12, 1e-12, "simple payback", "outlay over saving");
  pw_assert_near(w.discounted_payback, 12.0, 1e-9, "discounted payback", "closed form");
  pw_assert_near(w.net_present_worth, 500.0 * ((1.0 - pow(1.03, -25.0)) / 0.03 - factor12),
                 1e-8, "net present worth", "closed form");
  assert_int_equal(w.internal_rate.kind, PW_IRR_ONE);
  double zero = NAN;
  assert_int_equal(
      pw_net_present_worth(w.internal_rate.rate, w.cash, w.n_year + 1, &zero, NULL), PW_OK);
  pw_assert_near(zero, 0.0, 1e-7, "worth at the internal rate", "definition");
  pw_assert_near(w.cumulative[25], 500.0 * 25 - 500.0 * factor12, 1e-9, "undiscounted sum",
                 "sum");
  pw_assert_near(w.discounted[25], w.net_present_worth, 0.0, "last point of the picture",
                 "same");
  assert_int_equal(w.notes, 0);
}

/* Escalation equal to the discount cancels it: Handbook 135 sets UPV* = n then, the worth is the plain
 * sum. */
static void escalation_and_discount_cancel(void **state)
{
  (void)state;
  pw_invest i = {.price = 100.0,
                 .saving_year = 10.0,
                 .escalation = 0.02,
                 .discount = 0.02,
                 .horizon = 20.0};
  pw_worth w;
  assert_int_equal(pw_worth_of(&i, &w, NULL), PW_OK);
  pw_assert_near(w.net_present_worth, 20.0 * 10.0 - 100.0, 1e-10, "worth", "Handbook 135");
}

/* NIST Handbook 135, modified uniform present value of an amount at the prices of the base date (closed
 * form, from memory): UPV* = (1 + e) / (d - e) (1 - ((1 + e) / (1 + d))^n). */
static void escalation_starts_in_year_one(void **state)
{
  (void)state;
  static const double e[] = {0.02, -0.01, 0.05}, d = 0.03;
  for (size_t i = 0; i < 3; i++) {
    pw_invest v = {.price = 500.0,
                   .saving_year = 100.0,
                   .escalation = e[i],
                   .discount = d,
                   .horizon = 15.0};
    pw_worth w;
    double upv = (1.0 + e[i]) / (d - e[i]) * (1.0 - pow((1.0 + e[i]) / (1.0 + d), 15.0));
    assert_int_equal(pw_worth_of(&v, &w, NULL), PW_OK);
    pw_assert_near(w.net_present_worth, 100.0 * upv - 500.0, 1e-9, "worth", "Handbook 135");
    pw_assert_near(w.cash[1], 100.0 * (1.0 + e[i]), 1e-12, "year 1", "Handbook 135");
  }
}

static void life_ends_the_savings_and_flags_a_long_payback(void **state)
{
  (void)state;
  pw_invest i = {.price = 10000.0, .saving_year = 200.0, .life = 20.5};
  pw_worth w;
  assert_int_equal(pw_worth_of(&i, &w, NULL), PW_OK);
  assert_true(w.notes & PW_WORTH_BEYOND_LIFE);
  assert_true(w.notes & PW_WORTH_ENDS_WITH_LIFE);
  assert_true(isinf(w.discounted_payback));
  pw_assert_near(w.cash[20], 200.0, 0.0, "year 20", "full");
  pw_assert_near(w.cash[21], 100.0, 1e-12, "year 21", "half a year of life");
  pw_assert_near(w.cash[22], 0.0, 0.0, "year 22", "ended");
  pw_assert_near(w.simple_payback, 50.0, 1e-12, "payback", "10000 / 200");
  i.saving_year = -50.0;
  assert_int_equal(pw_worth_of(&i, &w, NULL), PW_OK);
  assert_true(isinf(w.simple_payback));
  assert_true(w.notes & PW_WORTH_NO_PAYBACK);
  assert_true(w.notes & PW_WORTH_NO_RATE);
  assert_true(isnan(w.internal_rate.rate));
  assert_int_equal(w.internal_rate.kind, PW_IRR_NONE);
}

static void a_spared_replacement_counts_once(void **state)
{
  (void)state;
  pw_invest i = {.price = 1000.0, .saving_year = 10.0, .residual = 5.0, .avoided = 400.0};
  pw_worth w;
  assert_int_equal(pw_worth_of(&i, &w, NULL), PW_OK);
  double sum = 0.0;
  for (size_t y = 1; y <= w.n_year; y++)
    sum += w.cash[y];
  pw_assert_near(sum, 25 * 10.0 + 400.0, 1e-9, "sum", "by hand");
  pw_assert_near(w.cash[6], 410.0, 1e-12, "the year after five", "by hand");
}

static void free_windows_pay_back_at_once(void **state)
{
  (void)state;
  pw_invest i = {.price = 100.0, .incentive = 150.0, .saving_year = 10.0};
  pw_worth w;
  assert_int_equal(pw_worth_of(&i, &w, NULL), PW_OK);
  pw_assert_near(w.outlay, 0.0, 0.0, "never below 0", "definition");
  pw_assert_near(w.simple_payback, 0.0, 0.0, "payback", "definition");
  assert_int_equal(w.internal_rate.kind, PW_IRR_NONE);
}

static void impossible_money_is_refused(void **state)
{
  (void)state;
  pw_err err;
  pw_worth w = {.outlay = 5.0};
  const struct {
    pw_invest i;
    const char *field;
  } row[] = {
      {{.price = -1.0}, "price"},
      {{.price = 1.0, .incentive = -1.0}, "incentive"},
      {{.price = 1.0, .discount = -1.0}, "discount"},
      {{.price = 1.0, .discount = -1.5}, "discount"},
      {{.price = 1.0, .escalation = NAN}, "escalation"},
      {{.price = 1.0, .horizon = 61.0}, "horizon"},
      {{.price = 1.0, .saving_year = INFINITY}, "saving_year"},
  };
  for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
    assert_int_equal(pw_worth_of(&row[k].i, &w, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, row[k].field);
  }
  pw_assert_near(w.outlay, 5.0, 0.0, "untouched", "contract");
  double v = 3.0, cash[2] = {-1.0, 2.0};
  assert_int_equal(pw_net_present_worth(-1.0, cash, 2, &v, &err), PW_E_DOMAIN);
  assert_int_equal(pw_installed_price(-5.0, 0.0, 1.0, 1.0, &v, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "price_per_opening");
  assert_int_equal(pw_installed_price(400.0, 100.0, 12.0, 20.0, &v, &err), PW_OK);
  pw_assert_near(v, 6800.0, 1e-9, "12 x 400 + 20 x 100", "by hand");
}

static void lives_come_from_the_table(void **state)
{
  (void)state;
  pw_assert_near(pw_window_life(PW_FRAME_VINYL).value, 30.0, 0.0, "vinyl", "money.csv");
  pw_assert_near(pw_window_life(PW_FRAME_ALUMINIUM).value, 20.0, 0.0, "aluminium", "money.csv");
  pw_assert_near(pw_residual_life(PW_FRAME_ALUMINIUM, 1974, 2026).value, 0.0, 0.0, "1974",
                 "gone");
  pw_assert_near(pw_residual_life(PW_FRAME_ALUMINIUM, 2016, 2026).value, 10.0, 0.0, "2016",
                 "20-10");
  pw_given unknown = pw_residual_life(PW_FRAME_ALUMINIUM, 0, 2026);
  assert_int_equal(unknown.origin, PW_ORIGIN_ASSUMED);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(an_even_saving_meets_its_closed_form),
      cmocka_unit_test(escalation_and_discount_cancel),
      cmocka_unit_test(escalation_starts_in_year_one),
      cmocka_unit_test(life_ends_the_savings_and_flags_a_long_payback),
      cmocka_unit_test(a_spared_replacement_counts_once),
      cmocka_unit_test(free_windows_pay_back_at_once),
      cmocka_unit_test(impossible_money_is_refused),
      cmocka_unit_test(lives_come_from_the_table),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
