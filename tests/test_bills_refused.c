/* Bills that must be refused, each for its reason. */
#include <math.h>
#include <stdlib.h>

#include "lived_bills.h"

static void refused(lived *l, pw_fuel fuel, pw_bill_refusal want)
{
  again(l, fuel);
  assert_int_equal(l->use.refused, want);
}

static void too_little_is_refused(void **state)
{
  (void)state;
  lived l;
  live(&l, &gas_house, PW_FUEL_GAS, 24, 0);
  l.n = 8;
  refused(&l, PW_FUEL_GAS, PW_BILL_REFUSED_FEW);
  l.n = 9;
  again(&l, PW_FUEL_GAS);
  assert_int_equal(l.use.refused, PW_BILL_ACCEPTED);
  invent_bills(&gas_house, &l.weather, l.row, 6, 61);
  l.n = 6;
  again(&l, PW_FUEL_GAS);
  assert_int_equal(l.use.refused, PW_BILL_ACCEPTED);
  l.n = 5;
  refused(&l, PW_FUEL_GAS, PW_BILL_REFUSED_FEW);
  leave(&l);
}

static void what_cannot_be_true_is_refused(void **state)
{
  (void)state;
  lived l;
  live(&l, &both_house, PW_FUEL_ELECTRICITY, 24, 0);
  pw_bill_row kept = l.row[5];
  l.row[5].to += 3;
  refused(&l, PW_FUEL_ELECTRICITY, PW_BILL_REFUSED_OVERLAP);
  assert_int_equal(find(&l.use, PW_BILL_OVERLAP)->to - find(&l.use, PW_BILL_OVERLAP)->from, 3);
  l.row[5] = kept;
  l.row[5].amount = -40.0;
  refused(&l, PW_FUEL_ELECTRICITY, PW_BILL_REFUSED_SOLAR);
  /* With what the cells gave the use is known, and it is the house that it was. */
  l.row[5] = kept;
  again(&l, PW_FUEL_ELECTRICITY);
  double total = l.use.normal.total;
  for (size_t i = 0; i < l.n; i++) {
    l.row[i].generation = 500.0;
    l.row[i].amount -= 500.0;
  }
  again(&l, PW_FUEL_ELECTRICITY);
  assert_int_equal(l.use.refused, PW_BILL_ACCEPTED);
  pw_assert_near(l.use.normal.total, total, 1e-9 * total, "total", "property");
  l.row[3].generation = (double)NAN;
  refused(&l, PW_FUEL_ELECTRICITY, PW_BILL_REFUSED_SOLAR);
  leave(&l);
}

static void weather_of_other_days_is_refused(void **state)
{
  (void)state;
  lived l;
  live(&l, &gas_house, PW_FUEL_GAS, 24, 0);
  l.weather.first += 2000;
  refused(&l, PW_FUEL_GAS, PW_BILL_REFUSED_WEATHER);
  l.weather.first -= 2000;
  l.weather.typical = 1;
  refused(&l, PW_FUEL_GAS, PW_BILL_REFUSED_WEATHER);
  l.weather.typical = 0;
  /* A bill with nine days in ten has weather enough, one with eight has not. */
  int from = l.row[3].from - l.weather.first, days = l.row[3].to - l.row[3].from;
  for (int d = 0; d < days / 10; d++)
    l.weather.t[from + d] = (double)NAN;
  again(&l, PW_FUEL_GAS);
  assert_int_equal(l.use.n_used, 24);
  for (int d = 0; d < days / 5 + 1; d++)
    l.weather.t[from + d] = (double)NAN;
  again(&l, PW_FUEL_GAS);
  assert_int_equal(l.use.n_used, 23);
  assert_int_equal(find(&l.use, PW_BILL_WEATHER)->from, l.row[3].from);
  leave(&l);
}

static void a_house_of_chance_is_refused(void **state)
{
  (void)state;
  lived l;
  uint64_t s = 4;
  live(&l, &gas_house, PW_FUEL_GAS, 24, 0);
  for (size_t i = 0; i < l.n; i++)
    l.row[i].amount = 20.0 + 80.0 * chance(&s);
  refused(&l, PW_FUEL_GAS, PW_BILL_REFUSED_SCATTER);
  leave(&l);
}

/* The bills of two summers did not see the winter of a house that heats; those of two winters did. */
static void an_unseen_season_is_refused(void **state)
{
  (void)state;
  for (int winter = 0; winter < 2; winter++) {
    lived l;
    size_t n = 0;
    live(&l, &gas_house, PW_FUEL_GAS, 24, 0);
    for (size_t i = 0; i < l.n; i++) {
      int day = (l.row[i].from - 18628) % 365; /* since 1 January 2021 */
      if ((day > 105 && day < 260) != winter) l.row[n++] = l.row[i];
    }
    l.n = n;
    assert_true(n >= 9);
    again(&l, PW_FUEL_GAS);
    assert_int_equal(l.use.refused, winter ? PW_BILL_ACCEPTED : PW_BILL_REFUSED_SEASON);
    if (!winter)
      pw_assert_near(find(&l.use, PW_BILL_SEASON)->value, 0.0, 0.0, "season", "winter");
    leave(&l);
  }
}

/* Use that hangs on no weather claims no season; but where a normal year has one (100 K days below 16 C, or above 21 C) and the bills saw less than a
 * quarter of it, that is told. Daily means go as a cosine round `mean`; bills of the warm or of the cold half year alone. */
static void a_season_that_is_there_is_missed(void **state)
{
  (void)state;
  static const struct {
    double mean, swing;
    int winter; /* bills of that half year */
    int no_winter, no_summer;
  } row[] = {{18.6, 2.5, 0, 0, 0}, /* 16.1 to 21.1: neither season */
             {17.5, 3.0, 0, 1, 0}, /* 14.5: some 125 K days of winter, unseen */
             {17.5, 3.0, 1, 0, 0}, /* seen */
             {21.0, 2.5, 1, 0, 1}, /* 23.5: some 290 K days of summer, unseen */
             {21.0, 2.5, 0, 0, 0}, {18.6, 9.0, 0, 1, 0}, /* both, and one half year */
             {18.6, 9.0, 1, 0, 1}};
  for (size_t r = 0; r < sizeof row / sizeof row[0]; r++) {
    lived l = {.n = 0};
    uint64_t s = 11;
    l.weather =
        (pw_daily){0, INVENTED_FIRST, INVENTED_DAYS, malloc(INVENTED_DAYS * sizeof(double))};
    for (int i = 0; i < INVENTED_DAYS; i++) /* coldest on the first day */
      l.weather.t[i] = row[r].mean - row[r].swing * cos(6.283185307179586 * i / 365.25);
    assert_int_equal(pw_normal_set_of(&l.weather, &l.normal, NULL), PW_OK);
    for (int k = 0; k < 36; k++) {
      int from = (int)(30.4 * k), to = (int)(30.4 * (k + 1));
      int winter = cos(6.283185307179586 * (0.5 * (from + to)) / 365.25) > 0.0;
      if (winter == row[r].winter)
        l.row[l.n++] = (pw_bill_row){INVENTED_FIRST + from,
                                     INVENTED_FIRST + to,
                                     10.0 * (to - from) * (0.98 + 0.04 * chance(&s)),
                                     (double)NAN,
                                     PW_READ_ACTUAL,
                                     (double)NAN};
    }
    again(&l, PW_FUEL_ELECTRICITY);
    if (l.use.fit.model != PW_CHANGE_BASE) fail_msg("row %zu: model %d", r, l.use.fit.model);
    int no_winter = 0, no_summer = 0;
    for (size_t i = 0; i < l.use.findings.n; i++)
      if (l.use.findings.finding[i].kind == PW_BILL_SEASON) {
        no_winter += l.use.findings.finding[i].value == 0.0;
        no_summer += l.use.findings.finding[i].value == 1.0;
      }
    if (no_winter != row[r].no_winter || no_summer != row[r].no_summer)
      fail_msg("row %zu: winter %d, summer %d", r, no_winter, no_summer);
    leave(&l);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(too_little_is_refused),
      cmocka_unit_test(what_cannot_be_true_is_refused),
      cmocka_unit_test(weather_of_other_days_is_refused),
      cmocka_unit_test(a_house_of_chance_is_refused),
      cmocka_unit_test(an_unseen_season_is_refused),
      cmocka_unit_test(a_season_that_is_there_is_missed),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
