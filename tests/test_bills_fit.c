/* The figures of a regression of bills, each again from the days themselves: residuals and statistics by their
 * definitions, the covariance from differences of the model and a library's inverse, the normal year by its days. */
#include "support.h"

#include <gsl/gsl_linalg.h>
#include <math.h>

#include "lived_bills.h"
#include "panewright/change_point.h"
#include "panewright/date.h"

enum { BILLS = 24, P = PW_CHANGE_PARAMETERS };

/* Base, slopes of heating and cooling, balance points: use on a day of mean t. */
static double day_of(const double x[P], double t)
{
  double y = x[0];
  if (!isnan(x[3])) y += x[1] * fmax(0.0, x[3] - t);
  if (!isnan(x[4])) y += x[2] * fmax(0.0, t - x[4]);
  return y;
}

static double bill_of(const double x[P], const pw_change_period *b)
{
  double sum = 0.0;
  for (size_t k = 0; k < b->n_t; k++)
    sum += day_of(x, b->t[k]);
  return sum / (double)b->n_t;
}

static double year_of(const double x[P], const pw_normal_set *n)
{
  double sum = 0.0;
  for (size_t i = 0; i < n->n; i++)
    sum += n->weight[i] * day_of(x, n->t[i]);
  return sum;
}

/* The parameters that are free: which of x each moves; one that stands for both balance points where they meet. */
static size_t free_of(const pw_change_fit *f, int moves[P][2])
{
  size_t n = 0;
  int meet = f->model == PW_CHANGE_HC && f->p == 4;
  moves[n][0] = moves[n][1] = 0;
  n++;
  for (int k = 1; k < P; k++) {
    if (isnan(f->balance[(k - 1) % 2]) || (meet && k == 4)) continue;
    moves[n][0] = k;
    moves[n++][1] = meet && k == 3 ? 4 : k;
  }
  return n;
}

static void moved(const double x[P], const int which[2], double by, double to[P])
{
  for (int k = 0; k < P; k++)
    to[k] = x[k] + (k == which[0] || k == which[1] ? by : 0.0);
}

static void by_hand(const pw_change_fit *f, const pw_change_period bill[], size_t n,
                    const pw_normal_set *normal, const char *what)
{
  const double x[P] = {f->base, f->slope[0], f->slope[1], f->balance[0], f->balance[1]};
  double r[BILLS], w[BILLS], days = 0.0, use = 0.0, sse = 0.0, sst = 0.0, bias = 0.0,
                             mean = 0.0;
  for (size_t i = 0; i < n; i++) {
    days += bill[i].days;
    use += bill[i].days * bill[i].per_day;
  }
  for (size_t i = 0; i < n; i++) {
    w[i] = bill[i].days * (double)n / days;
    r[i] = bill[i].per_day - bill_of(x, &bill[i]);
    sse += w[i] * r[i] * r[i];
    sst += w[i] * pow(bill[i].per_day - use / days, 2.0);
    bias += w[i] * r[i];
    mean += r[i] / (double)n;
  }
  double own = 0.0, next = 0.0, N = (double)n, p = (double)f->p;
  for (size_t i = 0; i < n; i++) {
    own += (r[i] - mean) * (r[i] - mean);
    if (i) next += (r[i] - mean) * (r[i - 1] - mean);
  }
  double s = sqrt(sse / (N - p)), r2 = 1.0 - sse / sst;
  pw_assert_near(f->sse, sse, 1e-8 * sse, what, "sum of squares");
  pw_assert_near(f->s, s, 1e-8 * s, what, "standard error of a bill");
  pw_assert_near(f->r2, r2, 1e-9, what, "R2 = 1 - SSE / SST");
  pw_assert_near(f->r2_adjusted, 1.0 - (sse / (N - p)) / (sst / (N - 1.0)), 1e-9, what,
                 "adjusted R2, ratio of the mean squares");
  pw_assert_near(f->cv, s / (use / days), 1e-9, what, "CV(RMSE), over the mean use a day");
  pw_assert_near(f->nmbe, bias / ((N - p) * use / days), 1e-9, what, "NMBE");
  pw_assert_near(f->rho, next / own, 1e-8, what, "lag-1 correlation");
  pw_assert_near(f->bic, N * log(sse / N) + p * log(N), 1e-6, what,
                 "Schwarz 1978 for normal errors, from memory");

  int moves[P][2];
  size_t free = free_of(f, moves);
  double slope[BILLS][P], g[P], to[P], back[P];
  assert_int_equal(free, f->p);
  for (size_t c = 0; c < free; c++) {
    const double h = 1e-7; /* no day passes a balance point; the model is straight between */
    moved(x, moves[c], h, to);
    moved(x, moves[c], -h, back);
    for (size_t i = 0; i < n; i++)
      slope[i][c] = (bill_of(to, &bill[i]) - bill_of(back, &bill[i])) / (2.0 * h);
    g[c] = (year_of(to, normal) - year_of(back, normal)) / (2.0 * h);
  }
  gsl_matrix *a = gsl_matrix_calloc(free, free);
  for (size_t i = 0; i < n; i++)
    for (size_t c = 0; c < free; c++)
      for (size_t d = 0; d < free; d++)
        *gsl_matrix_ptr(a, c, d) += w[i] * slope[i][c] * slope[i][d];
  assert_int_equal(gsl_linalg_cholesky_decomp1(a), 0);
  assert_int_equal(gsl_linalg_cholesky_invert(a), 0);
  double variance = 0.0;
  for (size_t c = 0; c < free; c++)
    for (size_t d = 0; d < free; d++) {
      double want = s * s * gsl_matrix_get(a, c, d);
      double scale = s * s * sqrt(gsl_matrix_get(a, c, c) * gsl_matrix_get(a, d, d));
      variance += g[c] * want * g[d];
      for (int u = 0; u < 2; u++) /* where both meet, either row and column is that one's */
        for (int v = 0; v < 2; v++)
          pw_assert_near(f->covariance[moves[c][u] * P + moves[d][v]], want, 1e-5 * scale, what,
                         "covariance, s2 (J' W J)^-1");
    }
  gsl_matrix_free(a);
  pw_normal_use use_of_year;
  pw_normal_use_of(f, normal, &use_of_year);
  double total = year_of(x, normal);
  pw_assert_near(use_of_year.total, total, 1e-9 * total, what, "normal year, sum of its days");
  pw_assert_near(use_of_year.total_se, sqrt(variance), 1e-5 * sqrt(variance), what,
                 "its standard error, sqrt(g' C g)");
}

static void a_fit_by_hand(void **state)
{
  (void)state;
  int met = 0;
  for (int k = 0; k < 12; k++) {
    invented h = k % 3 == 0 ? gas_house : both_house;
    lived l;
    pw_change_period bill[BILLS];
    pw_change_data d;
    char what[32];
    h.seed = (uint64_t)(300 + k);
    if (k % 3 == 2) h.t_heat = h.t_cool = 17.0; /* no day without need: the points may meet */
    live(&l, &h, PW_FUEL_ELECTRICITY, BILLS, 0);
    for (size_t i = 0; i < l.n; i++) {
      int n = l.row[i].to - l.row[i].from;
      bill[i] = (pw_change_period){l.row[i].amount / n, n,
                                   l.weather.t + (l.row[i].from - l.weather.first), (size_t)n};
    }
    assert_int_equal(pw_change_data_init(&d, bill, l.n, NULL), PW_OK);
    for (int m = PW_CHANGE_H; m <= PW_CHANGE_HC; m++) {
      pw_change_fit f;
      assert_int_equal(pw_change_point_fit(&d, NULL, (pw_change_model)m, &f, NULL), PW_OK);
      met += f.model == PW_CHANGE_HC && f.p == 4;
      /* an edge of the range holds a balance point: then there is no slope to take */
      if (f.doubt & (PW_CHANGE_EDGE | PW_CHANGE_EDGE << 1)) continue;
      snprintf(what, sizeof what, "house %d, model %s", k, pw_change_model_name(f.model));
      by_hand(&f, bill, l.n, &l.normal, what);
    }
    pw_change_data_free(&d);
    leave(&l);
  }
  print_message("balance points met in %d fits\n", met);
  assert_true(met > 0);
}

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
      cmocka_unit_test(a_fit_by_hand),
      cmocka_unit_test(a_normal_year_has_its_days),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
