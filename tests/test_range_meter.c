/* study/range_bills: the bills that a regression used, made ready for draws: use a day in kWh, days by month, weather of their own days. */
#include <string.h>

#include "base/date.h"
#include "lived_bills.h"
#include "study/range_bills.h"

static void bills_come_over_whole(void **state)
{
  (void)state;
  lived l;
  pw_range_bills b = {.weather = {0}};
  pw_err err = {0};
  const double unit = 29.3; /* kWh in a therm, rounded */
  live(&l, &gas_house, PW_FUEL_GAS, 24, 0);
  l.row[7].amount *= 3.0; /* one is left out as odd */
  again(&l, PW_FUEL_GAS);
  if (pw_range_bills_add(&b, &l.use, unit, &l.weather, &err) != PW_OK) fail_msg("%s", err.text);
  const pw_range_meter *m = &b.meter[PW_FUEL_GAS];
  assert_int_equal(m->n, 23);
  assert_int_equal(m->data.n, 23);
  double use = 0.0, days = 0.0;
  for (size_t i = 0; i < m->n; i++) {
    const pw_bill_row *row = &l.row[i < 7 ? i : i + 1];
    double month[12] = {0.0}, all = 0.0, heat = 0.0;
    assert_int_equal(m->from[i], row->from);
    assert_int_equal(m->to[i], row->to);
    pw_assert_near(m->data.per_day[i], unit * row->amount / (row->to - row->from), 1e-9,
                   "a day", "the bill");
    pw_assert_near(m->data.days[i], row->to - row->from, 0.0, "days", "the bill");
    for (int day = row->from; day < row->to; day++) {
      month[pw_date_of_day(day) / 100 % 100 - 1] += 1.0 / (row->to - row->from);
      heat += fmax(0.0, 18.0 - l.weather.t[day - l.weather.first]) / (row->to - row->from);
    }
    for (int k = 0; k < 12; k++) {
      pw_assert_near(m->share[i][k], month[k], 1e-12, "share of a month", "its days");
      all += m->share[i][k];
    }
    pw_assert_near(all, 1.0, 1e-12, "months", "all days");
    pw_assert_near(pw_change_heating(&m->data, i, 18.0, NULL), heat, 1e-9, "degree days",
                   "weather of its days");
    use += unit * row->amount;
    days += row->to - row->from;
  }
  pw_assert_near(m->mean, use / days, 1e-9, "mean", "weighted by days");
  assert_int_equal(b.weather.n, l.weather.n);
  assert_memory_equal(b.weather.t, l.weather.t, l.weather.n * sizeof *l.weather.t);
  assert_ptr_not_equal(b.weather.t, l.weather.t);
  assert_int_equal(pw_range_bills_add(&b, &l.use, unit, &l.weather, &err),
                   PW_E_SHAPE); /* twice */
  pw_range_bills_free(&b);
  leave(&l);
}

/* What its regression refused is not taken, and why stands there. */
static void refused_bills_are_not_taken(void **state)
{
  (void)state;
  lived l;
  pw_range_bills b = {.weather = {0}};
  live(&l, &gas_house, PW_FUEL_GAS, 24, 0);
  l.n = 8;
  again(&l, PW_FUEL_GAS);
  assert_int_equal(pw_range_bills_add(&b, &l.use, 29.3, &l.weather, NULL), PW_OK);
  assert_int_equal(b.meter[PW_FUEL_GAS].n, 0);
  assert_int_equal(b.meter[PW_FUEL_GAS].refused, PW_BILL_REFUSED_FEW);
  assert_int_equal(b.weather.n, 0);
  pw_range_bills_free(&b);
  leave(&l);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(bills_come_over_whole),
      cmocka_unit_test(refused_bills_are_not_taken),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
