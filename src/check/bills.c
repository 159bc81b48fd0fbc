/* Regression of bills: NIST's certified sets through the same least squares, change points on period
 * means, and six invented houses through the readers. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/table.h"
#include "check/bills.h"
#include "check/open_data.h"
#include "check/table_rows.h"
#include "job/bills_file.h"
#include "job/csv.h"
#include "job/daily_file.h"
#include "meter/change_point.h"
#include "meter/least_squares.h"
#include "meter/meter_use.h"
#include "panewright/rates.h"

enum { ROWS_MAX = 64, TERMS_MAX = 7 };

/* ---- NIST */

/* y = b1 (1 - exp(-b2 x)) or y = b1 (1 - (1 + b2 x / 2)^-2). */
typedef struct misra {
  int b;
  size_t n;
  const double *x;
} misra;

static int misra_model(void *data, const double b[], double value[], double slope[])
{
  const misra *m = data;
  for (size_t i = 0; i < m->n; i++) {
    double half = 1.0 + 0.5 * b[1] * m->x[i], e = exp(-b[1] * m->x[i]);
    if (m->b && !(half > 0.0)) return 0;
    value[i] = b[0] * (1.0 - (m->b ? pow(half, -2.0) : e));
    slope[2 * i] = value[i] / b[0];
    slope[2 * i + 1] = b[0] * m->x[i] * (m->b ? pow(half, -3.0) : e);
  }
  return 1;
}

typedef struct nist_fit {
  pw_least_squares fit;
  double sst; /* about the mean, or about 0 without a constant */
  int first;  /* number of the first coefficient */
} nist_fit;

static pw_status fit_nist(const char *set, nist_fit *f, pw_err *err)
{
  const pw_table *t;
  double x[ROWS_MAX * TERMS_MAX], y[ROWS_MAX], one[ROWS_MAX], mean = 0.0;
  int is_misra = strncmp(set, "Misra1", 6) == 0, constant = strncmp(set, "NoInt", 5) != 0;
  size_t n = 0, p = 0;
  pw_status status = row_table("meter/nist_data", &t, err);
  for (size_t i = 0; status == PW_OK && i < t->n_row && n < ROWS_MAX; i++) {
    if (strncmp(row_text(t, i, "set"), set, is_misra ? 6 : TERMS_MAX * 4) != 0) continue;
    p = 0;
    if (constant && !is_misra) x[n * TERMS_MAX + p++] = 1.0;
    for (int k = 1; k <= 6 && p < TERMS_MAX; k++) {
      char name[4];
      snprintf(name, sizeof name, "x%d", k);
      double v = row_number(t, i, name);
      if (!isnan(v)) x[n * TERMS_MAX + p++] = v;
    }
    one[n] = x[n * TERMS_MAX];
    y[n++] = row_number(t, i, "y");
  }
  if (status != PW_OK) return status;
  for (size_t i = 0; i < n; i++) {
    mean += constant ? y[i] / (double)n : 0.0;
    for (size_t k = 0; k < p; k++)
      x[i * p + k] = x[i * TERMS_MAX + k];
  }
  f->sst = 0.0;
  f->first = constant && !is_misra ? 0 : 1;
  for (size_t i = 0; i < n; i++)
    f->sst += (y[i] - mean) * (y[i] - mean);
  if (!is_misra) return pw_least_squares_fit(x, y, NULL, n, p, &f->fit, err);
  misra m = {set[6] == 'b', n, one};
  double b[2] = {500.0, 1e-4};
  return pw_least_squares_polish(misra_model, &m, y, NULL, n, 2, b, &f->fit, err);
}

static double nist_value(const nist_fit *f, const char *quantity)
{
  const pw_least_squares *l = &f->fit;
  double s2 = l->sse / (double)(l->n - l->p);
  const char *name = strncmp(quantity, "se ", 3) == 0 ? quantity + 3 : quantity;
  if (strcmp(quantity, "residual sd") == 0) return sqrt(s2);
  if (strcmp(quantity, "residual SS") == 0) return l->sse;
  if (strcmp(quantity, "R2") == 0) return 1.0 - l->sse / f->sst;
  size_t k = (size_t)(name[1] - '0' - f->first);
  if ((name[0] != 'B' && name[0] != 'b') || k >= l->p) return (double)NAN;
  return name != quantity ? sqrt(s2 * l->inverse[k * l->p + k]) : l->coefficient[k];
}

static pw_status nist_rows(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t;
  pw_status status = row_table("meter/nist_certified", &t, err);
  nist_fit f = {.first = 0};
  const char *set = "";
  for (size_t i = 0; status == PW_OK && i < t->n_row; i++) {
    const char *of = row_text(t, i, "set"), *quantity = row_text(t, i, "quantity");
    if (strcmp(of, set) != 0) status = fit_nist(of, &f, err);
    if (status != PW_OK) return status;
    set = of;
    double want = row_number(t, i, "value");
    /* 8 digits; standard errors of the two that are not linear 5, as the set's README asks */
    int se = strncmp(quantity, "se ", 3) == 0, misra_set = strncmp(of, "Misra", 5) == 0;
    pw_check_give(sink, of, quantity, "-", nist_value(&f, quantity), want,
                  fabs(want) * (se && misra_set ? 1e-5 : 1e-8), row_text(t, i, "source"),
                  row_text(t, i, "how_known"));
  }
  return status;
}

/* ---- change points on period means */

static size_t numbers(const char *text, double v[ROWS_MAX])
{
  size_t n = 0;
  char *end;
  for (; n < ROWS_MAX; text = end) {
    double x = strtod(text, &end);
    if (end == text) break;
    v[n++] = x;
  }
  return n;
}

static pw_change_model model_of(const char *name)
{
  return strcmp(name, "H") == 0    ? PW_CHANGE_H
         : strcmp(name, "C") == 0  ? PW_CHANGE_C
         : strcmp(name, "HC") == 0 ? PW_CHANGE_HC
         : strcmp(name, "4P") == 0 ? PW_CHANGE_ONE
                                   : PW_CHANGE_BASE;
}

static pw_status fit_case(const pw_table *t, size_t i, pw_change_fit *fit, pw_err *err)
{
  double x[ROWS_MAX], y[ROWS_MAX];
  size_t n = numbers(row_text(t, i, "x"), x), m = numbers(row_text(t, i, "y"), y);
  pw_change_period period[ROWS_MAX];
  pw_change_data data;
  if (n != m) return pw_fail(err, PW_E_DATA, "x", "%zu x, %zu y", n, m);
  for (size_t k = 0; k < n; k++)
    period[k] = (pw_change_period){y[k], 1.0, &x[k], 1};
  pw_status status = pw_change_data_init(&data, period, n, err);
  if (status == PW_OK)
    status = pw_change_point_fit(&data, NULL, model_of(row_text(t, i, "model")), fit, err);
  pw_change_data_free(&data);
  return status;
}

static double case_value(const pw_change_fit *f, const char *quantity)
{
  int heats = !isnan(f->balance[0]);
  if (strcmp(quantity, "base") == 0) return f->base;
  if (strcmp(quantity, "slope1") == 0) return f->slope[heats ? 0 : 1];
  if (strcmp(quantity, "slope2") == 0) return f->slope[1];
  if (strcmp(quantity, "balance1") == 0) return f->balance[heats ? 0 : 1];
  if (strcmp(quantity, "balance2") == 0) return f->balance[1];
  if (strcmp(quantity, "SSE") == 0) return f->sse;
  if (strcmp(quantity, "R2") == 0) return f->r2;
  return strcmp(quantity, "CV(RMSE)") == 0 ? f->cv : (double)NAN;
}

static pw_status change_rows(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t;
  pw_status status = row_table("meter/change_cases", &t, err);
  for (size_t i = 0; status == PW_OK && i < t->n_row; i++) {
    const char *id = row_text(t, i, "case"), *quantity = row_text(t, i, "quantity");
    const char *source = row_text(t, i, "source"), *how = row_text(t, i, "how_known");
    double want = row_number(t, i, "value");
    pw_change_fit f;
    status = fit_case(t, i, &f, err);
    if (status != PW_OK) return status;
    double ours = case_value(&f, quantity);
    /* The minimum may only be lower; an exact case leaves rounding. */
    if (strcmp(quantity, "SSE") == 0) {
      pw_check_give_range(sink, id, quantity, "-", ours, 0.0, fmax(1.001 * want, 1e-9), 0,
                          source, how);
      continue;
    }
    if (strcmp(quantity, "CV(RMSE)") == 0 && want < 1e-9) {
      pw_check_give_range(sink, id, quantity, "-", ours, 0.0, 1e-6, 0, source, how);
      continue;
    }
    double tolerance =
        strncmp(quantity, "balance", 7) == 0 ? 0.1 : fmax(0.01 * fabs(want), 1e-6);
    if (strncmp(id, "trap", 4) == 0) /* flat minima, F: ours has the lower SSE */
      tolerance = strncmp(quantity, "balance", 7) == 0 ? 0.5 : 0.03 * fabs(want);
    if (strcmp(quantity, "R2") == 0) tolerance = 1e-3;
    pw_check_give(sink, id, quantity, "-", ours, want, tolerance, source, how);
  }
  return status;
}

/* ---- invented houses */

static const char *text_at(const pw_csv *csv, size_t row, const char *name)
{
  return pw_csv_at(csv, row, pw_csv_column_of(csv, name));
}

static double number_at(const pw_csv *csv, size_t row, const char *name)
{
  const char *text = text_at(csv, row, name);
  char *end;
  double v = strtod(text, &end);
  return end == text ? (double)NAN : v;
}

/* The rows of one house as a file of their own, through the reader. */
static pw_status bills_of(const pw_csv *all, const char *house, pw_bills *bills, pw_err *err)
{
  char text[16384];
  pw_notes notes = {0};
  size_t n = (size_t)snprintf(text, sizeof text, "fuel,from,to,amount,unit,read\n");
  for (size_t i = 0; i < all->n_row && n + 200 < sizeof text; i++) {
    if (strcmp(text_at(all, i, "house"), house) != 0) continue;
    n += (size_t)snprintf(text + n, sizeof text - n, "%.20s,%.20s,%.20s,%.20s,%.20s,%.20s\n",
                          text_at(all, i, "fuel"), text_at(all, i, "from"),
                          text_at(all, i, "to"), text_at(all, i, "amount"),
                          text_at(all, i, "unit"), text_at(all, i, "read"));
  }
  pw_status status = pw_bills_parse(house, text, n, bills, &notes, err);
  pw_notes_free(&notes);
  return status;
}

static pw_status use_of(const pw_check_sink *sink, const pw_csv *bills_csv, const pw_csv *want,
                        size_t row, pw_meter_use *use, pw_err *err)
{
  char name[64], path[PW_CHECK_PATH];
  pw_bills bills = {0};
  pw_daily weather = {0}, days = {0};
  pw_normal_set normal = {0};
  const char *place = text_at(want, row, "weather");
  const char *house = text_at(want, row, "house");
  pw_fuel fuel =
      strcmp(text_at(want, row, "fuel"), "gas") == 0 ? PW_FUEL_GAS : PW_FUEL_ELECTRICITY;
  snprintf(name, sizeof name, "weather_%.40s.csv", place);
  pw_status status = pw_check_file(sink, "bills", name, path, err);
  if (status == PW_OK) status = pw_daily_read(path, (double)NAN, &weather, NULL, NULL, err);
  snprintf(name, sizeof name, "normal_%.40s.csv", place);
  if (status == PW_OK) status = pw_check_file(sink, "bills", name, path, err);
  if (status == PW_OK) status = pw_daily_read(path, (double)NAN, &days, NULL, NULL, err);
  if (status == PW_OK) status = pw_normal_set_of(&days, &normal, err);
  if (status == PW_OK) status = bills_of(bills_csv, house, &bills, err);
  if (status == PW_OK)
    status = pw_meter_use_of(fuel, bills.fuel[fuel].row, bills.fuel[fuel].n, &weather, &normal,
                             PW_BILL_NO_DAY, use, err);
  pw_bills_free(&bills);
  pw_daily_free(&weather);
  pw_daily_free(&days);
  pw_normal_set_free(&normal);
  return status;
}

static void give_house(const pw_check_sink *sink, const pw_csv *want, size_t row,
                       const pw_meter_use *u)
{
  static const char *const source =
      "another program on invented houses (table expected_visible)";
  const char *house = text_at(want, row, "house");
  const struct {
    const char *column, *quantity;
    double ours, tolerance;
  } one[] = {{"n_used", "bills used", (double)u->n_used, 0.0},
             /* a hundredth more than the rounding of what is printed */
             {"base_per_day", "base a day", u->fit.base, 0.01 * fabs(u->fit.base)},
             {"r2", "R2", u->fit.r2, 2e-4},
             {"cvrmse", "CV(RMSE)", u->fit.cv, 2e-4},
             {"nac", "use of the normal year", u->normal.total, 0.005 * u->normal.total},
             {"nac_se", "its standard error", u->normal.total_se, 0.02 * u->normal.total_se},
             {"heating", "its heating part", u->normal.part[1], 0.005 * u->normal.total},
             {"cooling", "its cooling part", u->normal.part[2], 0.005 * u->normal.total}};
  for (size_t k = 0; k < sizeof one / sizeof one[0]; k++)
    pw_check_give(sink, house, one[k].quantity, "-", one[k].ours,
                  number_at(want, row, one[k].column), one[k].tolerance, source, "computed");
  pw_check_give(sink, house, "model of that name", "-",
                strcmp(pw_change_model_name(u->fit.model), text_at(want, row, "model")) == 0,
                1.0, 0.0, source, "computed");
  double v[ROWS_MAX], w[ROWS_MAX];
  size_t n = numbers(text_at(want, row, "slopes"), v);
  numbers(text_at(want, row, "balance_c"), w);
  for (size_t k = 0, side = 0; side < 2 && k < n; side++) {
    if (isnan(u->fit.balance[side])) continue;
    pw_check_give(sink, house, side ? "slope, cooling" : "slope, heating", "-",
                  u->fit.slope[side], v[k], 0.01 * fabs(v[k]), source, "computed");
    pw_check_give(sink, house, side ? "balance point, cooling" : "balance point, heating", "C",
                  u->fit.balance[side], w[k], 0.1, source, "computed");
    k++;
  }
  double truth = number_at(want, row, "nac_true");
  pw_check_give_range(sink, house, "use of the normal year, standard errors off the truth", "-",
                      (u->normal.total - truth) / u->normal.total_se, -3.5, 3.5, 0,
                      "the invented house itself", "computed");
}

static pw_status house_rows(const pw_check_sink *sink, pw_err *err)
{
  char path[PW_CHECK_PATH];
  pw_csv bills = {.n_row = 0}, want = {.n_row = 0};
  pw_status status = pw_check_file(sink, "bills", "bills_visible.csv", path, err);
  if (status == PW_OK) status = pw_csv_read(path, &bills, err);
  if (status == PW_OK) status = pw_check_file(sink, "bills", "expected_visible.csv", path, err);
  if (status == PW_OK) status = pw_csv_read(path, &want, err);
  for (size_t i = 0; status == PW_OK && i < want.n_row; i++) {
    pw_meter_use use;
    status = use_of(sink, &bills, &want, i, &use, err);
    if (status != PW_OK) break;
    give_house(sink, &want, i, &use);
    pw_meter_use_free(&use);
  }
  pw_csv_free(&bills);
  pw_csv_free(&want);
  return status;
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  pw_status status = nist_rows(sink, err);
  if (status == PW_OK) status = change_rows(sink, err);
  if (status == PW_OK) status = bills_condition_rows(sink, err);
  return status == PW_OK ? house_rows(sink, err) : status;
}

extern const pw_check_group pw_check_bills;
const pw_check_group pw_check_bills = {
    "bills", "regression of bills: NIST StRD, change points, six invented houses", run};
