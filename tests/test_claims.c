/* What a program pays and what a job costs: rows at their edges by hand, what is refused and by which name. */
#include "support.h"

#include <math.h>
#include <string.h>

#include <stdio.h>
#include <stdlib.h>

#include "money/price.h"
#include "money/program.h"

#define N(a) (sizeof(a) / sizeof(a)[0])

/* ---------------------------------------------------------------- programs */

/* A row of no program that there is. */
static pw_program_row a_row(pw_row_kind kind, pw_basis basis, double value)
{
  pw_program_row r = {.kind = kind, .basis = basis, .value = value, .step = 0.01, .si = 1.0};
  strcpy(r.program, "P");
  return r;
}

static const pw_label good_label = {1.0, 0.2, 0.5, 0.0001};

static pw_amount amount_of(const pw_program *p, pw_claim claim)
{
  pw_program_result r = {.verdict = PW_VERDICT_MEETS};
  pw_amount a;
  pw_err err = {0};
  if (pw_program_amount(p, "", 20260601, &r, &claim, &a, &err) != PW_OK)
    fail_msg("%s", err.text);
  return a;
}

/* 30 % of the product of $1000 (labour not counted) is $300, 10 % of it a cap of $100; a product whose cost nobody gave brings
 * nothing, and caps at nothing. Half a cent goes up: 1/3 of $0.015 is $0.01. */
static void shares_of_the_product(void **state)
{
  (void)state;
  pw_program_row row[2] = {a_row(PW_ROW_AMOUNT, PW_BASIS_PRODUCT_COST, 0.3),
                           a_row(PW_ROW_CAP, PW_BASIS_PRODUCT_COST, 0.1)};
  pw_program p = {.n_row = 1, .row = row};
  pw_claim claim = {.cost = 5000.0, .product_cost = 1000.0};
  pw_amount a = amount_of(&p, claim);
  pw_assert_near(a.total, 300.0, 1e-9, "30 % of the product", "by hand");
  p.n_row = 2;
  a = amount_of(&p, claim);
  pw_assert_near(a.total, 100.0, 1e-9, "at most 10 % of it", "by hand");
  assert_int_equal(a.line[1].says.led_by, PW_SAY_CAP);
  claim.product_cost = 0.0;
  a = amount_of(&p, claim);
  pw_assert_near(a.total, 0.0, 0.0, "product not known", "program.h");
  assert_int_equal(a.line[0].says.number, PW_SAY_AMOUNT_PRODUCT_UNKNOWN);
  row[0] = a_row(PW_ROW_AMOUNT, PW_BASIS_FIXED, 50.0);
  a = amount_of(&p, claim);
  pw_assert_near(a.total, 0.0, 0.0, "a cap that is not known", "program.h");
  pw_assert_near(a.line[0].value, 50.0, 0.0, "the amount before it", "by hand");
  row[0] = a_row(PW_ROW_AMOUNT, PW_BASIS_OPENING, 0.005);
  p.n_row = 1;
  claim.n_opening = 1.0;
  a = amount_of(&p, claim);
  pw_assert_near(a.total, 0.01, 1e-12, "half a cent goes up", "by hand");
  /* No row pays for the group that was met; more rows than lines still add up. */
  strcpy(row[0].group, "another");
  a = amount_of(&p, claim);
  assert_int_equal(a.line[0].says.number, PW_SAY_AMOUNT_NONE);
  pw_program_row many[PW_LINES_MAX + 3];
  for (size_t i = 0; i < N(many); i++)
    many[i] = a_row(PW_ROW_AMOUNT, PW_BASIS_FIXED, 2.0);
  p = (pw_program){.n_row = N(many), .row = many};
  a = amount_of(&p, claim);
  assert_int_equal(a.n_line, PW_LINES_MAX);
  pw_assert_near(a.total, 2.0 * (double)N(many), 1e-9, "all rows", "by hand");
}

static pw_status ask_claim(const void *claim, pw_err *err)
{
  pw_program_row row = a_row(PW_ROW_AMOUNT, PW_BASIS_FIXED, 1.0);
  const pw_program p = {.n_row = 1, .row = &row};
  pw_program_result r = {.verdict = PW_VERDICT_MEETS};
  pw_amount a;
  return pw_program_amount(&p, "", 20260601, &r, claim, &a, err);
}

static void numbers_of_a_claim(void **state)
{
  (void)state;
  const pw_claim claim = {
      .n_opening = 1, .area = 1, .cost = 1, .product_cost = 1, .earlier = 0};
  static const pw_span field[] = {
      {"n_opening", offsetof(pw_claim, n_opening), "d)", 0.0, INFINITY},
      {"area", offsetof(pw_claim, area), "d)", 0.0, INFINITY},
      {"cost", offsetof(pw_claim, cost), "d)", 0.0, INFINITY},
      {"product_cost", offsetof(pw_claim, product_cost), "d)", 0.0, INFINITY},
      {"earlier", offsetof(pw_claim, earlier), "d)", 0.0, INFINITY}};
  pw_assert_spans(&claim, sizeof claim, field, N(field), ask_claim);
}

/* Dates at the edge: the first and the last day count, the day before and after refuse the amount and name both days. */
static void days_of_a_program(void **state)
{
  (void)state;
  pw_program_row row = a_row(PW_ROW_CRITERION, PW_BASIS_FIXED, 5.0);
  pw_program p = {.n_row = 1, .row = &row};
  row.from = 20260215;
  row.to = 20261130;
  static const struct {
    pw_date date;
    pw_verdict verdict;
    const char *says;
  } day[] = {
      {20260214, PW_VERDICT_EARLY, "P begins 2026-02-15 and the install date is 2026-02-14"},
      {20260215, PW_VERDICT_MEETS, NULL},
      {20261130, PW_VERDICT_MEETS, NULL},
      {20261201, PW_VERDICT_ENDED, "P ended 2026-11-30 and the install date is 2026-12-01"},
      {0, PW_VERDICT_NO_DATE, NULL}};
  for (size_t i = 0; i < N(day); i++) {
    pw_program_result r;
    pw_err err = {0};
    assert_int_equal(pw_program_judge(&p, "", &good_label, day[i].date, &r, &err), PW_OK);
    assert_int_equal(r.verdict, day[i].verdict);
    assert_int_equal(pw_program_open(&p, &r, &err), day[i].says ? PW_E_DOMAIN : PW_OK);
    if (day[i].says && !strstr(err.text, day[i].says)) fail_msg("%s", err.text);
  }
  row.to = 0; /* open ended: never over */
  pw_program_result r;
  assert_int_equal(pw_program_judge(&p, "", &good_label, 20991231, &r, NULL), PW_OK);
  assert_int_equal(r.verdict, PW_VERDICT_MEETS);
  pw_err err = {0};
  p.n_row = 0;
  assert_int_equal(pw_program_judge(&p, "", &good_label, 0, &r, &err), PW_E_SHAPE);
  pw_program_row *many = calloc(PW_RESULTS_MAX + 1, sizeof *many);
  assert_non_null(many);
  for (size_t i = 0; i <= PW_RESULTS_MAX; i++)
    many[i] = a_row(PW_ROW_CRITERION, PW_BASIS_FIXED, 5.0);
  p = (pw_program){.n_row = PW_RESULTS_MAX + 1, .row = many};
  assert_int_equal(pw_program_judge(&p, "", &good_label, 0, &r, &err), PW_E_SHAPE);
  p.n_row = PW_RESULTS_MAX;
  assert_int_equal(pw_program_judge(&p, "", &good_label, 0, &r, &err), PW_OK);
  free(many);
}

/* ---------------------------------------------------------------- prices of a job */

typedef struct small_job {
  pw_job job;
  pw_opening opening[2];
  pw_package package;
  pw_price_row price[PW_PRICE_PARTS_MAX + 6];
} small_job;

static small_job *a_job(void)
{
  small_job *j = calloc(1, sizeof *j);
  assert_non_null(j);
  pw_package_init(&j->package);
  strcpy(j->package.name, "good");
  for (size_t i = 0; i < 2; i++) {
    pw_opening_init(&j->opening[i]);
    strcpy(j->opening[i].tag, i ? "B" : "A");
    j->opening[i].quantity = 1;
    j->opening[i].width[1] = j->opening[i].height[1] = 1.0;
  }
  j->job = (pw_job){.n_opening = 2,
                    .opening = j->opening,
                    .n_package = 1,
                    .package = &j->package,
                    .price = j->price};
  return j;
}

static pw_given dollars(double value)
{
  return (pw_given){.value = value, .origin = PW_ORIGIN_STATED, .line = 2};
}

static void prices_of_a_job(void **state)
{
  (void)state;
  small_job *j = a_job();
  const double area[] = {1.0, 2.0};
  pw_price p;
  pw_err err = {0};
  pw_price_row *windows = &j->price[0], *permit = &j->price[1], *off = &j->price[2];
  windows->per_opening = dollars(100.0);
  windows->per_area = dollars(10.0);
  strcpy(permit->item, "permit");
  permit->per_job = dollars(50.0);
  strcpy(off->item, "discount");
  off->per_job = dollars(1000.0); /* more than all: nothing is paid for windows, never less */
  j->job.n_price = 2;
  assert_int_equal(pw_price_of(&j->job, 0, area, NULL, &p, &err), PW_OK);
  pw_assert_near(p.value, 2 * 100.0 + 3 * 10.0 + 50.0, 1e-9, "two windows and a permit",
                 "by hand");
  j->job.n_price = 3;
  assert_int_equal(pw_price_of(&j->job, 0, area, NULL, &p, &err), PW_OK);
  pw_assert_near(p.value, 50.0, 1e-9, "all taken off but the permit", "by hand");
  static const int none[] = {0, 0}, one[] = {0, 3};
  assert_int_equal(pw_price_of(&j->job, 0, area, none, &p, &err), PW_OK);
  pw_assert_near(p.value, 0.0, 0.0, "no work, no permit", "price.h");
  j->job.n_price = 2;
  assert_int_equal(pw_price_of(&j->job, 0, area, one, &p, &err), PW_OK);
  pw_assert_near(p.value, 3 * 120.0 + 50.0, 1e-9, "three of B", "by hand");
  pw_given bad[] = {dollars(-1.0)};
  for (size_t i = 0; i < N(bad); i++) {
    permit->per_job = bad[i];
    assert_int_equal(pw_price_of(&j->job, 0, area, NULL, &p, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "price");
  }
  permit->per_job = dollars(50.0);
  j->opening[0].price_options = dollars(30.0); /* stands for all options of that window */
  assert_int_equal(pw_price_of(&j->job, 0, area, NULL, &p, &err), PW_OK);
  pw_assert_near(p.value, 230.0 + 30.0 + 50.0, 1e-9, "options of one", "by hand");
  j->opening[0].price_options = (pw_given){0};
  /* Two rows that fit alike, told by their lines. */
  j->price[2] = (pw_price_row){.per_opening = dollars(7.0)};
  j->job.n_price = 3;
  assert_int_equal(pw_price_of(&j->job, 0, area, NULL, &p, &err), PW_E_DATA);
  /* More parts than there is room for. */
  for (size_t i = 0; i < PW_PRICE_PARTS_MAX + 4; i++) {
    j->price[2 + i] = (pw_price_row){.per_job = dollars(1.0)};
    snprintf(j->price[2 + i].item, sizeof j->price[0].item, "item %zu", i);
  }
  j->job.n_price = 2 + PW_PRICE_PARTS_MAX + 4;
  assert_int_equal(pw_price_of(&j->job, 0, area, NULL, &p, &err), PW_E_SHAPE);
  assert_string_equal(err.field, "prices");
  free(j);
}

/* packages.csv alone: 2 x $100 + 3 m2 x $10; a price that is none is refused. */
static void prices_by_package(void **state)
{
  (void)state;
  small_job *j = a_job();
  const double area[] = {1.0, 2.0};
  pw_price p;
  pw_err err = {0};
  j->package.price_per_opening = dollars(100.0);
  j->package.price_per_area = dollars(10.0);
  assert_int_equal(pw_price_of(&j->job, 0, area, NULL, &p, &err), PW_OK);
  pw_assert_near(p.value, 230.0, 1e-9, "two windows", "by hand");
  j->package.price_per_area = dollars(-10.0);
  assert_int_equal(pw_price_of(&j->job, 0, area, NULL, &p, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "price_per_area");
  free(j);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(shares_of_the_product), cmocka_unit_test(numbers_of_a_claim),
      cmocka_unit_test(days_of_a_program),     cmocka_unit_test(prices_of_a_job),
      cmocka_unit_test(prices_by_package),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
