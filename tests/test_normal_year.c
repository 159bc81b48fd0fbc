/* The normal year of a regression of bills, by its days. */
#include "support.h"

#include <math.h>
#include <stdlib.h>

#include "base/date.h"
#include "meter/normal_use.h"

/* A normal year has 365 days, however many years it is made of and whatever days of it have no weather; a day of
 * the year weighs the same as any other; 29 February is none of it. */
static void a_normal_year_has_its_days(void **state)
{
  (void)state;
  static const int gone_days[] = {0, 4, 15, 16};
  for (size_t k = 0; k < sizeof gone_days / sizeof gone_days[0]; k++) {
    const int gone = gone_days[k];
    int n = 4 * 365 + 1, first = pw_date_day(20200101); /* four years, one of them leap */
    pw_daily w = {0, first, (size_t)n, malloc((size_t)n * sizeof(double))};
    for (int i = 0; i < n; i++) {
      int date = pw_date_of_day(first + i);
      int skipped = date / 100 % 100 == 7 && date % 100 <= gone; /* 1 July on, in every year */
      int later =
          date / 10000 > 2021 && date / 100 % 100 == 10; /* October in two years of four */
      w.t[i] = skipped || later ? (double)NAN : date % 10000 == 229 ? 400.0 : date / 100 % 100;
    }
    pw_normal_set set;
    pw_err err = {0};
    pw_status status = pw_normal_set_of(&w, &set, &err);
    if (gone > 15) {
      assert_int_equal(status, PW_E_DATA);
      assert_string_equal(err.field, "normal");
      pw_daily_free(&w);
      continue;
    }
    assert_int_equal(status, PW_OK);
    double days = 0.0, month[13] = {0.0};
    static const int length[13] = {0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    for (size_t i = 0; i < set.n; i++) {
      assert_in_range((int)set.t[i], 1, 12);
      days += set.weight[i];
      month[(int)set.t[i]] += set.weight[i];
    }
    pw_assert_near(days, 365.0, 1e-9, "days of the normal year", "calendar");
    for (int m = 1; m <= 12; m++)
      pw_assert_near(month[m], (length[m] - (m == 7 ? gone : 0)) * 365.0 / (365.0 - gone), 1e-9,
                     "days of a month", "calendar, those without weather shared out");
    pw_normal_set_free(&set);
    pw_daily_free(&w);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_normal_year_has_its_days),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
