/* From bills to periods, each rule by hand (reference/meter/METHODS.md section 1, limits.csv): what is joined, dropped, refused,
 * and what is told of it. Days count from any day. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "meter/bill_periods.h"
#include "meter/condition.h"
#include "meter/least_squares.h"

#define N(a) (sizeof(a) / sizeof(a)[0])
#define NO PW_BILL_NO_DAY

enum { A = PW_READ_ACTUAL, E = PW_READ_ESTIMATED, M = PW_READ_MISSING, C = PW_READ_CORRECTED };

static const char *const word[PW_BILL_FINDING_COUNT] = {[PW_BILL_JOINED] = "joined",
                                                        [PW_BILL_ESTIMATE_DROPPED] = "dropped",
                                                        [PW_BILL_ESTIMATE_LAST] = "last",
                                                        [PW_BILL_MISSING] = "missing",
                                                        [PW_BILL_GAP] = "gap",
                                                        [PW_BILL_OVERLAP] = "overlap",
                                                        [PW_BILL_DOUBLE] = "double",
                                                        [PW_BILL_SHORT] = "short",
                                                        [PW_BILL_ZERO] = "zero",
                                                        [PW_BILL_CORRECTED] = "corrected",
                                                        [PW_BILL_SOLAR] = "solar",
                                                        [PW_BILL_FIRST] = "first",
                                                        [PW_BILL_OLD] = "old",
                                                        [PW_BILL_SCARCE] = "scarce",
                                                        [PW_BILL_LAST_DAY] = "last_day"};

typedef struct bill {
  int from, to;
  double amount;
  int read;
  double generation;
} bill;

/* What comes of bills: periods "from-to=use", refusal "!n", then findings "word from-to xcount"; scarce is left out, for a year is
 * not what these are about. Any order of the rows gives the same. */
static const char *what(const bill b[], size_t n, pw_fuel fuel)
{
  static char text[2][1024];
  for (int turned = 0; turned < 2; turned++) {
    pw_bill_row row[64];
    pw_bill_period p[PW_BILL_PERIODS_MAX];
    size_t n_period = 0, used = 0;
    pw_bill_refusal refused;
    pw_bill_findings f = {0};
    pw_err err = {0};
    for (size_t i = 0; i < n; i++) {
      const bill *one = &b[turned ? n - 1 - i : i];
      row[i] =
          (pw_bill_row){.from = one->from,
                        .to = one->to,
                        .amount = one->amount,
                        .read = (pw_read_kind)one->read,
                        .generation = one->generation > 0.0 ? one->generation : (double)NAN,
                        .cost = (double)NAN};
    }
    if (pw_bill_periods_of(row, n, fuel, p, &n_period, &refused, &f, &err) != PW_OK)
      fail_msg("%s", err.text);
    text[turned][0] = '\0';
    for (size_t i = 0; i < n_period; i++)
      used += (size_t)snprintf(text[turned] + used, sizeof text[0] - used, "%d-%d=%g ",
                               p[i].from, p[i].to, p[i].use);
    if (refused != PW_BILL_ACCEPTED)
      used +=
          (size_t)snprintf(text[turned] + used, sizeof text[0] - used, "!%d ", (int)refused);
    for (size_t i = 0; i < f.n; i++)
      if (f.finding[i].kind != PW_BILL_SCARCE)
        used += (size_t)snprintf(text[turned] + used, sizeof text[0] - used, "%s %d-%d x%zu ",
                                 word[f.finding[i].kind], f.finding[i].from, f.finding[i].to,
                                 f.finding[i].count);
  }
  if (strcmp(text[0], text[1]) != 0) fail_msg("order changes '%s' to '%s'", text[0], text[1]);
  return text[0];
}

#define GIVES(fuel, want, ...)                                                                 \
  do {                                                                                         \
    const bill b[] = {__VA_ARGS__};                                                            \
    assert_string_equal(what(b, N(b), fuel), want);                                            \
  } while (0)

static void estimates(void **state)
{
  (void)state;
  GIVES(PW_FUEL_GAS, "0-60=30 60-90=5 joined 0-60 x2 ", {0, 30, 10, E, 0}, {30, 60, 20, A, 0},
        {60, 90, 5, A, 0});
  GIVES(PW_FUEL_GAS, "0-70=30 joined 0-70 x2 ", {0, 35, 10, E, 0}, {35, 70, 20, A, 0});
  GIVES(PW_FUEL_GAS, "71-99=5 dropped 0-71 x2 ", {0, 35, 10, E, 0}, {35, 71, 20, A, 0},
        {71, 99, 5, A, 0});
  GIVES(PW_FUEL_GAS, "0-30=5 last 30-90 x2 ", {0, 30, 5, A, 0}, {30, 60, 6, E, 0},
        {60, 90, 7, E, 0});
  GIVES(PW_FUEL_GAS, "60-90=7 dropped 0-30 x1 missing 30-60 x1 ", {0, 30, 6, E, 0},
        {30, 60, 6, M, 0}, {60, 90, 7, A, 0});
  GIVES(PW_FUEL_GAS, "60-90=7 dropped 0-30 x1 missing 30-60 x1 ", {0, 30, 6, E, 0},
        {30, 60, NAN, A, 0}, {60, 90, 7, A, 0});
  GIVES(PW_FUEL_GAS, "40-70=7 dropped 0-30 x1 gap 30-40 x0 ", {0, 30, 6, E, 0},
        {40, 70, 7, A, 0});
  GIVES(PW_FUEL_GAS, "!3 missing 0-30 x1 ", {0, 30, NAN, A, 0});
}

static void doubles_and_overlaps(void **state)
{
  (void)state;
  GIVES(PW_FUEL_GAS, "0-30=10 30-60=8 double 0-30 x1 ", {0, 30, 10, A, 0}, {0, 30, 10, A, 0},
        {30, 60, 8, A, 0});
  GIVES(PW_FUEL_GAS, "!3 double 0-30 x1 missing 0-30 x1 ", {0, 30, NAN, A, 0},
        {0, 30, NAN, A, 0});
  /* The same days, another amount, another read or other sun: billed twice. */
  GIVES(PW_FUEL_GAS, "!1 overlap 0-30 x1 ", {0, 30, 10, A, 0}, {0, 30, 11, A, 0});
  GIVES(PW_FUEL_GAS, "!1 overlap 0-30 x1 ", {0, 30, 10, A, 0}, {0, 30, 10, E, 0});
  GIVES(PW_FUEL_GAS, "!1 overlap 0-30 x1 ", {0, 30, 10, A, 0}, {0, 30, NAN, A, 0});
  GIVES(PW_FUEL_GAS, "!1 overlap 5-30 x1 ", {0, 30, 10, A, 0}, {5, 30, 10, A, 0});
  GIVES(PW_FUEL_GAS, "!1 overlap 20-30 x1 ", {0, 30, 10, A, 0}, {20, 50, 10, A, 0});
  GIVES(PW_FUEL_GAS, "!1 overlap 10-20 x1 ", {0, 20, 10, A, 0}, {10, 30, 9, A, 0});
}

static void deliveries(void **state)
{
  (void)state;
  GIVES(PW_FUEL_OIL, "30-70=20 70-100=9 first 30-30 x1 ", {NO, 30, 10, A, 0},
        {NO, 70, 20, A, 0}, {NO, 100, 9, A, 0});
  GIVES(PW_FUEL_OIL, "!1 first 30-30 x1 overlap 30-30 x1 ", {NO, 30, 10, A, 0},
        {NO, 30, 20, A, 0});
  GIVES(PW_FUEL_OIL, "0-30=4 30-70=20 ", {0, 30, 4, A, 0}, {NO, 70, 20, A, 0});
}

static void below_zero(void **state)
{
  (void)state;
  GIVES(PW_FUEL_GAS, "0-60=6 corrected 0-60 x2 ", {0, 30, 10, A, 0}, {30, 60, -4, C, 0});
  GIVES(PW_FUEL_GAS, "0-90=1 corrected 0-90 x3 ", {0, 30, 4, A, 0}, {30, 60, 1, A, 0},
        {60, 90, -4, C, 0});
  /* More than all before it, or with a gap before it: no use that could be. */
  GIVES(PW_FUEL_GAS, "!3 corrected 0-60 x2 ", {0, 30, 3, A, 0}, {30, 60, -4, C, 0});
  GIVES(PW_FUEL_GAS, "0-30=3 gap 30-40 x0 corrected 40-60 x1 ", {0, 30, 3, A, 0},
        {40, 60, -4, C, 0});
  /* Nothing used: a gas meter may stand still, one of electricity hardly. */
  GIVES(PW_FUEL_GAS, "0-30=0 30-60=2 zero 0-30 x1 ", {0, 30, 0, A, 0}, {30, 60, 2, A, 0});
  GIVES(PW_FUEL_ELECTRICITY, "30-60=2 zero 0-30 x1 ", {0, 30, 0, A, 0}, {30, 60, 2, A, 0});
}

static void solar_cells(void **state)
{
  (void)state;
  GIVES(PW_FUEL_ELECTRICITY, "!2 solar 30-60 x1 ", {0, 30, 10, A, 0}, {30, 60, -4, A, 0});
  GIVES(PW_FUEL_ELECTRICITY, "0-30=15 30-60=2 ", {0, 30, 10, A, 5}, {30, 60, -4, A, 6});
  /* Generation of one bill of two; of one of two with the other missing. */
  GIVES(PW_FUEL_ELECTRICITY, "!2 solar 0-60 x1 ", {0, 30, 10, A, 5}, {30, 60, 4, A, 0});
  GIVES(PW_FUEL_ELECTRICITY, "0-30=15 missing 30-60 x1 ", {0, 30, 10, A, 5}, {30, 60, 4, M, 0});
  GIVES(PW_FUEL_ELECTRICITY, "0-30=15 missing 30-60 x1 ", {0, 30, 10, A, 5},
        {30, 60, NAN, A, 0});
  /* Below 0 because an estimate one or two bills before was too high, or a correction. */
  GIVES(PW_FUEL_ELECTRICITY, "0-60=6 joined 0-60 x2 ", {0, 30, 10, E, 0}, {30, 60, -4, A, 0});
  GIVES(PW_FUEL_ELECTRICITY, "0-90=7 joined 0-60 x2 corrected 0-90 x3 ", {0, 30, 10, E, 0},
        {30, 60, 1, A, 0}, {60, 90, -4, A, 0});
  GIVES(PW_FUEL_ELECTRICITY, "0-60=6 corrected 0-60 x2 ", {0, 30, 10, A, 0},
        {30, 60, -4, C, 0});
  GIVES(PW_FUEL_GAS, "0-60=6 corrected 0-60 x2 ", {0, 30, 10, A, 0}, {30, 60, -4, A, 0});
}

static void short_bills(void **state)
{
  (void)state;
  GIVES(PW_FUEL_GAS, "0-39=11 39-60=8 short 30-39 x1 ", {0, 30, 10, A, 0}, {30, 39, 1, A, 0},
        {39, 60, 8, A, 0});
  GIVES(PW_FUEL_GAS, "0-30=10 30-40=1 40-60=8 ", {0, 30, 10, A, 0}, {30, 40, 1, A, 0},
        {40, 60, 8, A, 0});
  GIVES(PW_FUEL_GAS, "0-39=11 short 0-9 x1 ", {0, 9, 1, A, 0}, {9, 39, 10, A, 0});
  GIVES(PW_FUEL_GAS, "0-9=1 20-50=10 gap 9-20 x0 short 0-9 x1 ", {0, 9, 1, A, 0},
        {20, 50, 10, A, 0});
}

/* 36 months of 365/12 days and 20 more: 1115 days before the last day. */
static void old_bills(void **state)
{
  (void)state;
  GIVES(PW_FUEL_GAS, "1130-1160=2 gap 30-1130 x0 old 0-30 x1 ", {0, 30, 9, A, 0},
        {1130, 1160, 2, A, 0});
  GIVES(PW_FUEL_GAS, "0-30=9 1085-1115=2 gap 30-1085 x0 ", {0, 30, 9, A, 0},
        {1085, 1115, 2, A, 0});
}

/* A finding more than there is room for is counted; refusals by shape; a bill that ends before it begins. */
static void what_cannot_be(void **state)
{
  (void)state;
  pw_bill_findings f = {0};
  for (int i = 0; i < PW_BILL_FINDINGS_MAX + 3; i++)
    pw_bill_find(&f, PW_BILL_GAP, i, i + 1, 0, 0.0);
  assert_int_equal(f.n, PW_BILL_FINDINGS_MAX);
  assert_int_equal(f.lost, 3);
  pw_bill_row *row = calloc(PW_BILL_PERIODS_MAX + 1, sizeof *row);
  pw_bill_period p[PW_BILL_PERIODS_MAX];
  size_t n = 7;
  pw_bill_refusal refused;
  pw_err err = {0};
  assert_non_null(row);
  assert_int_equal(
      pw_bill_periods_of(row, PW_BILL_PERIODS_MAX + 1, PW_FUEL_GAS, p, &n, &refused, &f, &err),
      PW_E_SHAPE);
  for (int bad = 0; bad < 2; bad++) {
    row[0] = (pw_bill_row){.from = 5, .to = 5 - bad, .amount = 1.0};
    assert_int_equal(pw_bill_periods_of(row, 1, PW_FUEL_GAS, p, &n, &refused, &f, &err),
                     PW_E_DOMAIN);
    assert_string_equal(err.field, "to");
  }
  assert_int_equal(n, 7);
  assert_int_equal(pw_bill_periods_of(row, 0, PW_FUEL_GAS, p, &n, &refused, &f, &err), PW_OK);
  assert_int_equal(n, 0);
  assert_int_equal(refused, PW_BILL_REFUSED_FEW);
  free(row);
}

/* ---------------------------------------------------------------- least squares, weights of draws */

static int a_line(void *data, const double b[], double value[], double slope[])
{
  const double *x = data;
  if (b[0] < 0.0) return 0; /* what this model does not take */
  for (size_t i = 0; i < 3; i++) {
    value[i] = b[0] + b[1] * x[i];
    slope[2 * i] = 1.0;
    slope[2 * i + 1] = x[i];
  }
  return 1;
}

/* y = 1 + 2 x at 0, 1, 2, and (by hand) weights 1, 1, 4 on 1, 3, 8: slopes from the normal equations
 * [6 9; 9 17] b = [36; 67]: b = (612 - 603, 402 - 324)/21 = (3/7, 26/7). */
static void lines_by_hand(void **state)
{
  (void)state;
  double x[] = {1, 0, 1, 1, 1, 2}, y[] = {1, 3, 8}, w[] = {1, 1, 4}, at[] = {0, 1, 2};
  pw_least_squares f = {.n = 99};
  pw_err err = {0};
  assert_int_equal(pw_least_squares_fit(x, y, w, 3, 2, &f, &err), PW_OK);
  pw_assert_near(f.coefficient[0], 3.0 / 7.0, 1e-12, "b0", "normal equations by hand");
  pw_assert_near(f.coefficient[1], 26.0 / 7.0, 1e-12, "b1", "normal equations by hand");
  pw_assert_near(f.inverse[0], 17.0 / 21.0, 1e-12, "inverse", "of [6 9; 9 17]");
  pw_assert_near(f.inverse[1], -9.0 / 21.0, 1e-12, "inverse", "of [6 9; 9 17]");
  double b[] = {1.0, 1.0};
  assert_int_equal(pw_least_squares_polish(a_line, at, y, w, 3, 2, b, &f, &err), PW_OK);
  pw_assert_near(b[1], 26.0 / 7.0, 1e-9, "b1 polished", "normal equations by hand");
  b[0] = -1.0;
  assert_int_equal(pw_least_squares_polish(a_line, at, y, w, 3, 2, b, &f, &err), PW_E_DOMAIN);
  pw_assert_near(b[0], -1.0, 0.0, "untouched", "least_squares.h");
  static const size_t shape[][2] = {{3, 0}, {3, PW_LEAST_SQUARES_MAX + 1}, {1, 2}};
  f.n = 99;
  for (size_t i = 0; i < N(shape); i++) {
    assert_int_equal(pw_least_squares_fit(x, y, NULL, shape[i][0], shape[i][1], &f, &err),
                     PW_E_SHAPE);
    assert_int_equal(
        pw_least_squares_polish(a_line, at, y, w, shape[i][0], shape[i][1], b, &f, &err),
        PW_E_SHAPE);
  }
  double *const cell[] = {&x[3], &y[1], &w[2]};
  static const double bad[] = {NAN, INFINITY, -INFINITY};
  for (size_t i = 0; i < N(cell); i++)
    for (size_t k = 0; k < N(bad); k++) {
      double was = *cell[i];
      *cell[i] = bad[k];
      assert_int_equal(pw_least_squares_fit(x, y, w, 3, 2, &f, &err), PW_E_DOMAIN);
      *cell[i] = was;
    }
  w[0] = 0.0;
  assert_int_equal(pw_least_squares_fit(x, y, w, 3, 2, &f, &err), PW_E_DOMAIN);
  assert_int_equal(f.n, 99);
}

/* One bill, sigma 2, discrepancy 0: chi2 = (r/2)^2 by hand. What is no sigma, residual, share or count is refused with nothing changed. */
static void draws_are_weighed(void **state)
{
  (void)state;
  double sigma = 2.0, residual[] = {2.0, 4.0}, lw[] = {0.0, 0.0}, chi2[] = {0.0, 0.0};
  pw_condition_meter m = {.n = 1, .sigma = &sigma};
  pw_err err = {0};
  assert_int_equal(pw_condition_add(&m, residual, 2, lw, NULL, &err), PW_OK);
  assert_int_equal(pw_condition_add(&m, residual, 2, lw, chi2, &err), PW_OK);
  pw_assert_near(chi2[0], 1.0, 1e-12, "chi2", "by hand");
  pw_assert_near(chi2[1], 4.0, 1e-12, "chi2", "by hand");
  pw_assert_near(lw[1], -4.0, 1e-12, "twice -chi2/2", "by hand");
  static const double bad[] = {NAN, INFINITY, -INFINITY, -1e-9};
  double *const cell[] = {&sigma, &residual[1], &m.discrepancy, &m.shared};
  static const char *const field[] = {"sigma", "residual", "discrepancy", "discrepancy"};
  for (size_t i = 0; i < N(cell); i++)
    for (size_t k = 0; k < N(bad); k++) {
      double was = *cell[i];
      if (i == 1 && k == 3) continue; /* a residual may be below 0 */
      *cell[i] = bad[k];
      assert_int_equal(pw_condition_add(&m, residual, 2, lw, chi2, &err), PW_E_DOMAIN);
      assert_string_equal(err.field, field[i]);
      *cell[i] = was;
    }
  m.shared = 1.0 + 1e-9;
  assert_int_equal(pw_condition_add(&m, residual, 2, lw, chi2, &err), PW_E_DOMAIN);
  m.shared = 1.0;
  assert_int_equal(pw_condition_add(&m, residual, 0, lw, chi2, &err), PW_E_SHAPE);
  m.n = 0;
  assert_int_equal(pw_condition_add(&m, residual, 2, lw, chi2, &err), PW_E_SHAPE);
  pw_assert_near(lw[1], -4.0, 1e-12, "unchanged", "condition.h");
  double sort[2], weight[2];
  pw_condition c;
  assert_int_equal(pw_condition_weights(lw, chi2, 0, 1.0, 0.0, sort, weight, &c, &err),
                   PW_E_SHAPE);
  assert_int_equal(pw_condition_weights(lw, chi2, 1, 1.0, 0.0, sort, weight, &c, &err), PW_OK);
  pw_assert_near(c.effective, 1.0, 0.0, "one draw", "definition");
  assert_true(isnan(c.tail));
  assert_int_equal(c.refused, PW_CONDITION_FEW);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(estimates),     cmocka_unit_test(doubles_and_overlaps),
      cmocka_unit_test(deliveries),    cmocka_unit_test(below_zero),
      cmocka_unit_test(solar_cells),   cmocka_unit_test(short_bills),
      cmocka_unit_test(old_bills),     cmocka_unit_test(what_cannot_be),
      cmocka_unit_test(lines_by_hand), cmocka_unit_test(draws_are_weighed),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
