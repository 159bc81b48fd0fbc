/* meter/bill_periods: bills of one fuel to periods whose use is true, row by row by hand; days are counted from an arbitrary one. Limits of
 * reference/meter/limits.csv: 70 days of estimates, 10 of a short bill, 36 months. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "meter/bill_periods.h"

enum { MOST = 60 };

typedef struct fixture {
  pw_bill_row row[MOST];
  size_t n;
  pw_bill_period p[PW_BILL_PERIODS_MAX];
  size_t n_period;
  pw_bill_refusal refused;
  pw_bill_findings f;
} fixture;

static fixture read;

static void begin(void) { memset(&read, 0, sizeof read); }

static pw_bill_row *bill(int from, int to, double amount, pw_read_kind kind)
{
  assert_true(read.n < MOST);
  read.row[read.n] = (pw_bill_row){from, to, amount, (double)NAN, kind, (double)NAN};
  return &read.row[read.n++];
}

/* n bills of 30 days, 100 each. */
static void months(int first, int n)
{
  for (int i = 0; i < n; i++)
    bill(first + 30 * i, first + 30 * i + 30, 100.0, PW_READ_ACTUAL);
}

static void of(pw_fuel fuel)
{
  pw_err err = {0};
  memset(&read.f, 0, sizeof read.f);
  if (pw_bill_periods_of(read.row, read.n, fuel, read.p, &read.n_period, &read.refused, &read.f,
                         &err) != PW_OK)
    fail_msg("%s", err.text);
}

static void period(size_t i, int from, int to, double use, size_t n_row)
{
  assert_true(i < read.n_period);
  assert_int_equal(read.p[i].from, from);
  assert_int_equal(read.p[i].to, to);
  assert_int_equal(read.p[i].n_row, n_row);
  pw_assert_near(read.p[i].use, use, 1e-9, "use", "by hand");
}

/* The k-th finding of a kind; count 0: there is none. */
static void found(pw_bill_finding_kind kind, size_t k, int from, int to, size_t count,
                  double value)
{
  for (size_t i = 0; i < read.f.n; i++) {
    const pw_bill_finding *x = &read.f.finding[i];
    if (x->kind != kind || k-- > 0) continue;
    assert_int_equal(x->from, from);
    assert_int_equal(x->to, to);
    assert_int_equal(x->count, count);
    if (!isnan(value)) pw_assert_near(x->value, value, 1e-9, "finding", "by hand");
    return;
  }
  fail_msg("no such finding");
}

static size_t count(pw_bill_finding_kind kind)
{
  size_t n = 0;
  for (size_t i = 0; i < read.f.n; i++)
    n += read.f.finding[i].kind == kind;
  return n;
}

static void order_and_doubles(void **state)
{
  (void)state;
  begin();
  bill(60, 90, 30.0, PW_READ_ACTUAL);
  bill(0, 30, 10.0, PW_READ_ACTUAL);
  bill(30, 60, 20.0, PW_READ_ACTUAL);
  bill(0, 30, 10.0, PW_READ_ACTUAL);
  of(PW_FUEL_GAS);
  assert_int_equal(read.n_period, 3);
  for (size_t i = 0; i < 3; i++)
    period(i, 30 * (int)i, 30 * (int)i + 30, 10.0 * (double)(i + 1), 1);
  found(PW_BILL_DOUBLE, 0, 0, 30, 1, 10.0);
  assert_int_equal(read.refused, PW_BILL_ACCEPTED);
  read.row[3].amount = 11.0; /* the same days, another amount: billed twice */
  of(PW_FUEL_GAS);
  assert_int_equal(count(PW_BILL_DOUBLE), 0);
  found(PW_BILL_OVERLAP, 0, 0, 30, 1, 11.0);
  assert_int_equal(read.refused, PW_BILL_REFUSED_OVERLAP);
  assert_int_equal(read.n_period, 0);
}

/* Days billed twice, from the later beginning to the earlier end. */
static void overlaps_tell_their_days(void **state)
{
  (void)state;
  static const struct {
    int from, to, twice_from, twice_to;
  } row[] = {{50, 90, 50, 60}, {59, 61, 59, 60}, {10, 70, 10, 60}, {60, 90, 0, 0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    begin();
    months(0, 2);
    bill(row[i].from, row[i].to, 70.0, PW_READ_ACTUAL);
    of(PW_FUEL_GAS);
    if (row[i].twice_to) {
      found(PW_BILL_OVERLAP, 0, row[i].twice_from, row[i].twice_to, 1, 70.0);
      assert_int_equal(read.refused, PW_BILL_REFUSED_OVERLAP);
    } else
      assert_int_equal(read.refused, PW_BILL_ACCEPTED);
  }
  begin(); /* by the last day the one within comes first; what is billed twice is its own days */
  bill(0, 30, 1.0, PW_READ_ACTUAL);
  bill(30, 90, 2.0, PW_READ_ACTUAL);
  bill(40, 60, 3.0, PW_READ_ACTUAL);
  of(PW_FUEL_GAS);
  found(PW_BILL_OVERLAP, 0, 30, 60, 1, 2.0);
}

/* Deliveries tell one day: each counts from the one before, the first fills what nobody knows. */
static void deliveries_count_from_the_one_before(void **state)
{
  (void)state;
  begin();
  bill(PW_BILL_NO_DAY, 100, 500.0, PW_READ_ACTUAL);
  bill(PW_BILL_NO_DAY, 160, 120.0, PW_READ_ACTUAL);
  bill(PW_BILL_NO_DAY, 230, 130.0, PW_READ_ACTUAL);
  of(PW_FUEL_PROPANE);
  assert_int_equal(read.n_period, 2);
  period(0, 100, 160, 120.0, 1);
  period(1, 160, 230, 130.0, 1);
  found(PW_BILL_FIRST, 0, 100, 100, 1, 500.0);
  bill(PW_BILL_NO_DAY, 160, 40.0, PW_READ_ACTUAL); /* two on one day */
  of(PW_FUEL_PROPANE);
  found(PW_BILL_OVERLAP, 0, 160, 160, 1, (double)NAN);
  assert_int_equal(read.refused, PW_BILL_REFUSED_OVERLAP);
}

/* An estimate is true together with the next read, up to 70 days; not without one. */
static void estimates_wait_for_a_read(void **state)
{
  (void)state;
  for (int days = 70; days <= 71; days++) {
    begin();
    bill(0, 20, 10.0, PW_READ_ESTIMATED);
    bill(20, 40, 15.0, PW_READ_ESTIMATED);
    bill(40, days, 50.0, PW_READ_ACTUAL);
    bill(days, days + 30, 40.0, PW_READ_ACTUAL);
    of(PW_FUEL_GAS);
    found(days > 70 ? PW_BILL_ESTIMATE_DROPPED : PW_BILL_JOINED, 0, 0, days, 3, 75.0);
    assert_int_equal(read.n_period, days > 70 ? 1 : 2);
    if (days == 70) period(0, 0, 70, 75.0, 3);
    period(read.n_period - 1, days, days + 30, 40.0, 1);
  }
  begin(); /* the last ones */
  months(0, 1);
  bill(30, 60, 10.0, PW_READ_ESTIMATED);
  bill(60, 90, 11.0, PW_READ_ESTIMATED);
  of(PW_FUEL_GAS);
  assert_int_equal(read.n_period, 1);
  found(PW_BILL_ESTIMATE_LAST, 0, 30, 90, 2, 21.0);
  bill(95, 125, 12.0, PW_READ_ACTUAL); /* days without a bill part it from the next read */
  of(PW_FUEL_GAS);
  found(PW_BILL_ESTIMATE_DROPPED, 0, 30, 90, 2, 21.0);
  found(PW_BILL_GAP, 0, 90, 95, 0, 0.0);
  assert_int_equal(read.n_period, 2);
  period(1, 95, 125, 12.0, 1);
  read.row[3] = (pw_bill_row){90, 125, (double)NAN, (double)NAN, PW_READ_ACTUAL, (double)NAN};
  of(PW_FUEL_GAS); /* so does a bill without an amount */
  found(PW_BILL_ESTIMATE_DROPPED, 0, 30, 90, 2, 21.0);
  found(PW_BILL_MISSING, 0, 90, 125, 1, 0.0);
  assert_int_equal(read.n_period, 1);
}

/* What is below 0 makes good the bills before it, as many as it takes: 80 - 150 is still below, 100 + 80 - 150 is not. */
static void a_true_up_takes_what_came_before(void **state)
{
  (void)state;
  begin();
  bill(0, 30, 70.0, PW_READ_ACTUAL);
  bill(30, 60, 100.0, PW_READ_ACTUAL);
  bill(60, 90, 80.0, PW_READ_ACTUAL);
  bill(90, 120, -150.0, PW_READ_CORRECTED);
  bill(120, 150, 60.0, PW_READ_ACTUAL);
  of(PW_FUEL_GAS);
  assert_int_equal(read.n_period, 3);
  period(0, 0, 30, 70.0, 1);
  period(1, 30, 120, 30.0, 3);
  period(2, 120, 150, 60.0, 1);
  found(PW_BILL_CORRECTED, 0, 30, 120, 3, 30.0);
  read.row[3].amount = -300.0; /* more than all: nothing is left of it */
  of(PW_FUEL_GAS);
  assert_int_equal(read.n_period, 1);
  period(0, 120, 150, 60.0, 1);
  found(PW_BILL_CORRECTED, 0, 0, 120, 4, -50.0);
  read.row[3].amount = -150.0;
  read.row[3].from = 91; /* a day apart: not of those bills */
  of(PW_FUEL_GAS);
  assert_int_equal(read.n_period, 4);
  found(PW_BILL_CORRECTED, 0, 91, 120, 1, -150.0);
}

/* A gas bill of 0 may be; electricity is never 0 in a house that is lived in. */
static void nothing_used(void **state)
{
  (void)state;
  for (int k = 0; k < 2; k++) {
    begin();
    months(0, 2);
    read.row[1].amount = 0.0;
    of(k ? PW_FUEL_ELECTRICITY : PW_FUEL_GAS);
    assert_int_equal(read.n_period, k ? 1 : 2);
    found(PW_BILL_ZERO, 0, 30, 60, 1, k);
  }
}

/* Under 10 days is no month of its own: with the one before, else with the one after. */
static void short_bills_go_with_a_neighbour(void **state)
{
  (void)state;
  for (int days = 9; days <= 10; days++) {
    begin();
    months(0, 1);
    bill(30, 30 + days, 33.0, PW_READ_ACTUAL);
    bill(30 + days, 70, 90.0, PW_READ_ACTUAL);
    of(PW_FUEL_GAS);
    assert_int_equal(read.n_period, days > 9 ? 3 : 2);
    if (days > 9) continue;
    period(0, 0, 39, 133.0, 2);
    period(1, 39, 70, 90.0, 1);
    found(PW_BILL_SHORT, 0, 30, 39, 1, 33.0);
  }
  begin();
  bill(0, 9, 33.0, PW_READ_ACTUAL);
  bill(9, 40, 90.0, PW_READ_ACTUAL);
  bill(45, 51, 7.0, PW_READ_ACTUAL); /* days between: by itself */
  of(PW_FUEL_GAS);
  assert_int_equal(read.n_period, 2);
  period(0, 0, 40, 123.0, 2);
  period(1, 45, 51, 7.0, 1);
}

/* 36 months and 20 days, 1115, before the last day. */
static void old_bills_are_left_out(void **state)
{
  (void)state;
  begin();
  bill(0, 30, 1.0, PW_READ_ACTUAL);
  bill(30, 60, 2.0, PW_READ_ACTUAL);
  months(60, 36);
  read.row[read.n - 1].to = 1145; /* from 30 on, it is 1115 */
  of(PW_FUEL_GAS);
  assert_int_equal(read.n_period, 37);
  period(0, 30, 60, 2.0, 1);
  found(PW_BILL_OLD, 0, 0, 30, 1, 0.0);
  read.row[read.n - 1].to = 1146;
  of(PW_FUEL_GAS);
  assert_int_equal(read.n_period, 36);
  found(PW_BILL_OLD, 0, 0, 60, 2, 0.0);
}

/* At least three bills begin the day after the one before ends, and most do: `to` may be their last day. */
static void last_days_are_told_from_read_dates(void **state)
{
  (void)state;
  for (int apart = 2; apart <= 4; apart++)
    for (int n = 5; n <= 8; n++) {
      begin();
      for (int i = 0; i < n; i++)
        bill(30 * i + (i > 0 && i <= apart ? 1 : 0), 30 * i + 30, 10.0, PW_READ_ACTUAL);
      of(PW_FUEL_GAS);
      int said = apart >= 3 && 2 * apart > n - 1;
      assert_int_equal(count(PW_BILL_LAST_DAY), said);
      if (said) found(PW_BILL_LAST_DAY, 0, 0, 30 * n, (size_t)apart, 0.0);
    }
}

/* Electricity below 0 that no estimate explains, and generation that is told of some bills alone. */
static void solar_cells_are_found(void **state)
{
  (void)state;
  begin();
  months(0, 4);
  read.row[2].amount = -20.0;
  of(PW_FUEL_ELECTRICITY);
  assert_int_equal(read.refused, PW_BILL_REFUSED_SOLAR);
  found(PW_BILL_SOLAR, 0, 60, 90, 1, -20.0);
  of(PW_FUEL_GAS); /* a gas meter has none */
  assert_int_equal(read.refused, PW_BILL_ACCEPTED);
  for (int back = 1; back <= 3; back++) {
    begin();
    months(0, 5);
    read.row[4].amount = -20.0;
    read.row[4 - back].read = PW_READ_ESTIMATED;
    of(PW_FUEL_ELECTRICITY);
    assert_int_equal(read.refused == PW_BILL_REFUSED_SOLAR, back > 2);
  }
  read.row[4].read = PW_READ_CORRECTED;
  of(PW_FUEL_ELECTRICITY);
  assert_int_equal(read.refused, PW_BILL_ACCEPTED);
  begin();
  months(0, 4);
  for (size_t i = 0; i < 4; i++) {
    read.row[i].generation = 50.0;
    read.row[i].amount = i == 1 ? -20.0 : 100.0;
  }
  of(PW_FUEL_ELECTRICITY);
  assert_int_equal(read.refused, PW_BILL_ACCEPTED);
  period(0, 0, 30, 150.0, 1);
  period(1, 30, 60, 30.0, 1);
  read.row[3].generation = (double)NAN;
  of(PW_FUEL_ELECTRICITY);
  assert_int_equal(read.refused, PW_BILL_REFUSED_SOLAR);
  found(PW_BILL_SOLAR, 0, 0, 120, 1, (double)NAN);
}

/* Wanted: 330 days of a year closed by reads of their own (joined bills count where they are under 40 days). */
static void a_year_must_be_covered(void **state)
{
  (void)state;
  for (int n = 10; n <= 11; n++) {
    begin();
    months(0, n);
    of(PW_FUEL_GAS);
    assert_int_equal(count(PW_BILL_SCARCE), n < 11);
    if (n < 11) found(PW_BILL_SCARCE, 0, 0, 300, 10, 300.0);
  }
  begin(); /* one pair of twelve months joined to 60 days: 300 of its own reads, in any year */
  months(0, 12);
  read.row[5].read = PW_READ_ESTIMATED;
  of(PW_FUEL_GAS);
  assert_int_equal(count(PW_BILL_SCARCE), 1);
  read.row[5].to = read.row[6].from = 171; /* 21 and 39 days: 60 still */
  of(PW_FUEL_GAS);
  assert_int_equal(count(PW_BILL_SCARCE), 1);
}

static void what_is_no_bill_is_refused(void **state)
{
  (void)state;
  static pw_bill_row many[PW_BILL_PERIODS_MAX + 1];
  pw_err err = {0};
  begin();
  months(0, 2);
  read.row[1].to = 30;
  assert_int_equal(pw_bill_periods_of(read.row, 2, PW_FUEL_GAS, read.p, &read.n_period,
                                      &read.refused, &read.f, &err),
                   PW_E_DOMAIN);
  for (int i = 0; i <= PW_BILL_PERIODS_MAX; i++)
    many[i] = (pw_bill_row){i, i + 1, 1.0, (double)NAN, PW_READ_ACTUAL, (double)NAN};
  assert_int_equal(pw_bill_periods_of(many, PW_BILL_PERIODS_MAX + 1, PW_FUEL_GAS, read.p,
                                      &read.n_period, &read.refused, &read.f, &err),
                   PW_E_SHAPE);
  assert_int_equal(pw_bill_periods_of(many, PW_BILL_PERIODS_MAX, PW_FUEL_GAS, read.p,
                                      &read.n_period, &read.refused, &read.f, &err),
                   PW_OK);
  assert_int_equal(read.f.n,
                   PW_BILL_FINDINGS_MAX); /* each is short; what finds no room is counted */
  assert_true(read.f.lost > 200);
  assert_int_equal(pw_bill_periods_of(many, 0, PW_FUEL_GAS, read.p, &read.n_period,
                                      &read.refused, &read.f, &err),
                   PW_OK);
  assert_int_equal(read.refused, PW_BILL_REFUSED_FEW);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(order_and_doubles),
      cmocka_unit_test(overlaps_tell_their_days),
      cmocka_unit_test(deliveries_count_from_the_one_before),
      cmocka_unit_test(estimates_wait_for_a_read),
      cmocka_unit_test(a_true_up_takes_what_came_before),
      cmocka_unit_test(nothing_used),
      cmocka_unit_test(short_bills_go_with_a_neighbour),
      cmocka_unit_test(old_bills_are_left_out),
      cmocka_unit_test(last_days_are_told_from_read_dates),
      cmocka_unit_test(solar_cells_are_found),
      cmocka_unit_test(a_year_must_be_covered),
      cmocka_unit_test(what_is_no_bill_is_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
