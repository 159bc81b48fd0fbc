/* climate/place, month: a year of each place that test_month has not. */
#include "month_means.h"
#include "support.h"

#include <stdlib.h>

#include "climate/month.h"

/* Each of the 917 further places makes a year that has its own months. */
static void every_further_place_makes_its_months(void **state)
{
  (void)state;
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  assert_int_equal(pw_place_count(), 1011);
  for (size_t i = 94; i < pw_place_count(); i++) {
    pw_place p;
    month_means mean[12];
    pw_err err = {0};
    assert_int_equal(pw_place_get(i, &p, NULL), PW_OK);
    if (pw_month_year(&p, PW_MONTH_VARIED_DAYS, w, &err) != PW_OK)
      fail_msg("%s: %s", p.site.name, err.text);
    month_means_of(w, mean);
    for (int m = 0; m < 12; m++) {
      pw_assert_near(mean[m].t_mean, p.month[m].t_mean, 1e-3, p.site.name, "monthly_more.csv");
      pw_assert_near(mean[m].ghi, p.month[m].ghi * pw_month_days[m], 1e-3, p.site.name,
                     "monthly_more.csv");
      pw_assert_near(mean[m].wind, p.month[m].wind, 1e-3, p.site.name, "monthly_more.csv");
    }
  }
  free(w);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(every_further_place_makes_its_months)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
