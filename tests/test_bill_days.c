/* meter/bill_periods: how days of bills are read, each finding with its days, by hand. Day numbers are counted from any day. */
#include "support.h"

#include <math.h>
#include <stdlib.h>

#include "meter/bill_periods.h"

typedef struct read_bills {
  pw_bill_period period[PW_BILL_PERIODS_MAX];
  size_t n;
  pw_bill_refusal refused;
  pw_bill_findings found;
} read_bills;

static read_bills *read(const pw_bill_row row[], size_t n)
{
  read_bills *r = calloc(1, sizeof *r);
  pw_err err = {0};
  assert_non_null(r);
  if (pw_bill_periods_of(row, n, PW_FUEL_GAS, r->period, &r->n, &r->refused, &r->found, &err) !=
      PW_OK)
    fail_msg("%s", err.text);
  return r;
}

static const pw_bill_finding *find(const read_bills *r, pw_bill_finding_kind kind)
{
  for (size_t i = 0; i < r->found.n; i++)
    if (r->found.finding[i].kind == kind) return &r->found.finding[i];
  return NULL;
}

/* n bills of thirty days, the next one beginning `apart` days after the last has ended. */
static void months(pw_bill_row row[], size_t n, int apart)
{
  for (size_t i = 0; i < n; i++)
    row[i] = (pw_bill_row){.from = 100 + (int)i * (30 + apart),
                           .to = 130 + (int)i * (30 + apart),
                           .amount = 50.0,
                           .generation = NAN,
                           .cost = NAN};
}

/* Read dates follow each other; bills whose last day counts leave a day between each two: told once, with the first and the last
 * day and how many, and only where it is the rule of that pile. */
static void last_days_are_told_from_read_dates(void **state)
{
  (void)state;
  pw_bill_row row[14];
  months(row, 14, 0);
  read_bills *r = read(row, 14);
  assert_null(find(r, PW_BILL_LAST_DAY));
  assert_int_equal(r->n, 14);
  free(r);
  months(row, 14, 1);
  r = read(row, 14);
  const pw_bill_finding *f = find(r, PW_BILL_LAST_DAY);
  assert_non_null(f);
  assert_int_equal(f->from, 100);
  assert_int_equal(f->to, 130 + 13 * 31);
  assert_int_equal(f->count, 13);
  free(r);
  /* six of thirteen gaps are no rule, seven are; nor are two of two */
  months(row, 14, 0);
  for (int k = 1; k < 14; k++) {
    row[k].from = row[k - 1].to + (k <= 6);
    row[k].to = row[k].from + 30;
  }
  r = read(row, 14);
  assert_null(find(r, PW_BILL_LAST_DAY));
  free(r);
  row[7].from++;
  r = read(row, 14);
  f = find(r, PW_BILL_LAST_DAY);
  assert_non_null(f);
  assert_int_equal(f->count, 7);
  free(r);
}

/* A year of which eleven months are closed by reads of their own is enough, ten are not: 330 days in any 375. */
static void a_year_of_reads_is_wanted(void **state)
{
  (void)state;
  pw_bill_row row[14];
  months(row, 11, 0);
  read_bills *r = read(row, 11);
  assert_null(find(r, PW_BILL_SCARCE));
  free(r);
  months(row, 10, 0);
  r = read(row, 10);
  const pw_bill_finding *f = find(r, PW_BILL_SCARCE);
  assert_non_null(f);
  assert_int_equal(f->from, 100);
  assert_int_equal(f->to, 130 + 9 * 30);
  assert_int_equal(f->count, 10);
  pw_assert_near(f->value, 300.0, 0.0, "days covered", "by hand");
  free(r);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(last_days_are_told_from_read_dates),
                                     cmocka_unit_test(a_year_of_reads_is_wanted)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
