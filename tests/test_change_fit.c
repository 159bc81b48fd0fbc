/* meter/change_point: the figures of one fit beside their definitions, worked out apart from the program: coefficients and covariance
 * by normal equations solved here (Gauss-Newton, as in any text on nonlinear regression), the
 * goodness of fit as ASHRAE Guideline 14 defines it (from memory), doubts at their limits (reference/meter/limits.csv). */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "meter/change_point.h"

enum { MONTHS = 24, DAYS = 30, MOST = 5 };

/* Two years of bills of 27 to 33 days; daily means from -2 to 32 C; noise by a fixed pattern of no mean. */
typedef struct bills {
  double t[MONTHS][DAYS];
  pw_change_period p[MONTHS];
  pw_change_data d;
} bills;

static void bills_of(bills *b, double heat, double t_heat, double cool, double t_cool,
                     double noise)
{
  static const double off[] = {0.9, -1.2, 0.4,  1.3,  -0.7, -1.1,
                               0.2, 1.4,  -0.6, -0.9, 1.0,  -0.7};
  for (int i = 0; i < MONTHS; i++) {
    double h = 0.0, c = 0.0;
    for (int k = 0; k < DAYS; k++) {
      b->t[i][k] =
          15.0 - 11.0 * cos(6.283185307179586 * (i + k / 30.0) / 12.0) + 5.0 * sin(2.1 * k + i);
      h += fmax(0.0, t_heat - b->t[i][k]) / DAYS;
      c += fmax(0.0, b->t[i][k] - t_cool) / DAYS;
    }
    b->p[i] =
        (pw_change_period){20.0 + heat * h + cool * c + noise * off[(5 * i + i / 12) % 12],
                           27.0 + i % 7, b->t[i], DAYS};
  }
  assert_int_equal(pw_change_data_init(&b->d, b->p, MONTHS, NULL), PW_OK);
}

static double clipped(const bills *b, int i, double balance, int side)
{
  double sum = 0.0;
  for (int k = 0; k < DAYS; k++)
    sum += fmax(0.0, side ? b->t[i][k] - balance : balance - b->t[i][k]) / DAYS;
  return sum;
}

/* The model itself, of five parameters: base, slopes, balance points. */
static double model_at(const bills *b, int i, const double q[MOST])
{
  return q[0] + (q[1] != 0.0 ? q[1] * clipped(b, i, q[3], 0) : 0.0) +
         (q[2] != 0.0 ? q[2] * clipped(b, i, q[4], 1) : 0.0);
}

/* inverse[n * n] of a[n * n] by Gauss and Jordan. */
static void invert(double a[], double inverse[], size_t n)
{
  for (size_t i = 0; i < n * n; i++)
    inverse[i] = i / n == i % n ? 1.0 : 0.0;
  for (size_t c = 0; c < n; c++) {
    double by = a[c * n + c];
    for (size_t k = 0; k < n; k++) {
      a[c * n + k] /= by;
      inverse[c * n + k] /= by;
    }
    for (size_t r = 0; r < n; r++) {
      double times = a[r * n + c];
      for (size_t k = 0; k < n && r != c; k++) {
        a[r * n + k] -= times * a[c * n + k];
        inverse[r * n + k] -= times * inverse[c * n + k];
      }
    }
  }
}

/* Parameters of the fit as the model takes them, and which of them a step moves together: group[j] of free parameter j. */
static size_t free_of(const pw_change_fit *f, double q[MOST], int group[MOST][MOST])
{
  size_t n = 1;
  memset(group, 0, sizeof(int) * MOST * MOST);
  q[0] = f->base;
  group[0][0] = 1;
  for (int side = 0; side < 2; side++) {
    q[1 + side] = f->slope[side];
    q[3 + side] = isnan(f->balance[side]) ? 0.0 : f->balance[side];
    if (!isnan(f->balance[side])) group[n++][1 + side] = 1;
  }
  for (int side = 0; side < 2; side++)
    if (!isnan(f->balance[side])) group[n++][3 + side] = 1;
  if (n == MOST && f->balance[0] == f->balance[1]) group[3][4] = 1, n = 4;
  return n;
}

/* s^2 (J' W J)^-1 with J = [1, H, C, b (share of days below t_h), -c (share of days not below t_c)], each of all five parameters with each. */
static void covariance_of(const bills *b, const pw_change_fit *f, double out[MOST * MOST])
{
  double q[MOST], mean_days = 0.0, normal[MOST * MOST] = {0}, inverse[MOST * MOST];
  int group[MOST][MOST];
  size_t n = free_of(f, q, group);
  assert_int_equal(n, f->p);
  for (int i = 0; i < MONTHS; i++)
    mean_days += b->p[i].days / MONTHS;
  for (int i = 0; i < MONTHS; i++) {
    double below = 0.0, slope[MOST] = {0};
    for (int k = 0; k < DAYS; k++)
      below += b->t[i][k] < q[3] ? 1.0 / DAYS : 0.0;
    double above = 1.0;
    for (int k = 0; k < DAYS; k++)
      above -= b->t[i][k] < q[4] ? 1.0 / DAYS : 0.0;
    const double by[MOST] = {1.0, clipped(b, i, q[3], 0), clipped(b, i, q[4], 1), q[1] * below,
                             -q[2] * above};
    for (size_t j = 0; j < n; j++)
      for (int k = 0; k < MOST; k++)
        slope[j] += group[j][k] * by[k];
    for (size_t j = 0; j < n; j++)
      for (size_t k = 0; k < n; k++)
        normal[j * n + k] += b->p[i].days / mean_days * slope[j] * slope[k];
  }
  invert(normal, inverse, n);
  memset(out, 0, sizeof(double) * MOST * MOST);
  for (size_t j = 0; j < n; j++)
    for (size_t k = 0; k < n; k++)
      for (int a = 0; a < MOST; a++)
        for (int c = 0; c < MOST; c++)
          if (group[j][a] && group[k][c]) out[a * MOST + c] = f->s * f->s * inverse[j * n + k];
}

static pw_change_fit fit_of(const bills *b, pw_change_model model)
{
  pw_change_fit f;
  pw_err err = {0};
  if (pw_change_point_fit(&b->d, NULL, model, &f, &err) != PW_OK) fail_msg("%s", err.text);
  return f;
}

static void hold(const bills *b, const pw_change_fit *f)
{
  double want[MOST * MOST];
  covariance_of(b, f, want);
  for (int a = 0; a < MOST; a++)
    for (int c = 0; c < MOST; c++) {
      double scale = sqrt(want[a * MOST + a] * want[c * MOST + c]);
      pw_assert_near(f->covariance[a * MOST + c], want[a * MOST + c], 1e-5 * scale + 1e-12,
                     "covariance", "s^2 (J' W J)^-1 by normal equations");
    }
}

static void covariance_by_normal_equations(void **state)
{
  (void)state;
  static const struct {
    double heat, t_heat, cool, t_cool;
    pw_change_model model;
    size_t p;
  } row[] = {{0.0, 0.0, 0.0, 0.0, PW_CHANGE_BASE, 1},
             {1.2, 15.3, 0.0, 0.0, PW_CHANGE_H, 3},
             {0.0, 0.0, 2.1, 19.4, PW_CHANGE_C, 3},
             {1.2, 13.3, 2.1, 20.4, PW_CHANGE_HC, 5},
             {1.2, 16.3, 2.1, 16.3, PW_CHANGE_ONE, 4},
             {1.2, 16.3, 2.1, 16.3, PW_CHANGE_HC, 4}}; /* the house has one: both meet */
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    bills b;
    bills_of(&b, row[i].heat, row[i].t_heat, row[i].cool, row[i].t_cool, 0.5);
    const pw_change_fit f = fit_of(&b, row[i].model);
    assert_int_equal(f.p, row[i].p);
    assert_int_equal(f.n, MONTHS);
    hold(&b, &f);
    pw_change_data_free(&b.d);
  }
}

/* Sums by their definitions, with weights of mean 1. */
static void figures_by_their_definitions(void **state)
{
  (void)state;
  for (int k = 0; k < 2; k++) {
    bills b;
    bills_of(&b, 1.2, 13.3, 2.1, 20.4, 0.5);
    const pw_change_fit f = fit_of(&b, k ? PW_CHANGE_HC : PW_CHANGE_H);
    const double n = MONTHS, p = k ? 5.0 : 3.0,
                 q[MOST] = {f.base, f.slope[0], f.slope[1], f.balance[0], f.balance[1]};
    double days = 0.0, mean = 0.0, sse = 0.0, sst = 0.0, bias = 0.0, e[MONTHS], e_mean = 0.0;
    for (int i = 0; i < MONTHS; i++) {
      days += b.p[i].days / n;
      mean += b.p[i].days * b.p[i].per_day;
    }
    mean /= days * n;
    for (int i = 0; i < MONTHS; i++) {
      double w = b.p[i].days / days;
      e[i] = b.p[i].per_day - model_at(&b, i, q);
      sse += w * e[i] * e[i];
      sst += w * (b.p[i].per_day - mean) * (b.p[i].per_day - mean);
      bias += w * e[i];
      e_mean += e[i] / n;
      pw_assert_near(pw_change_point_at(&f, &b.d, (size_t)i), model_at(&b, i, q), 1e-9,
                     "a bill", "the model");
    }
    double own = 0.0, next = 0.0;
    for (int i = 0; i < MONTHS; i++) {
      own += (e[i] - e_mean) * (e[i] - e_mean);
      if (i > 0) next += (e[i] - e_mean) * (e[i - 1] - e_mean);
    }
    double r2 = 1.0 - sse / sst;
    pw_assert_near(f.mean, mean, 1e-9, "mean", "weighted");
    pw_assert_near(f.sse, sse, 1e-9 * sse, "SSE", "definition");
    pw_assert_near(f.sst, sst, 1e-9 * sst, "SST", "definition");
    pw_assert_near(f.s, sqrt(sse / (n - p)), 1e-9, "s", "definition");
    pw_assert_near(f.r2, r2, 1e-9, "R2", "definition");
    pw_assert_near(f.r2_adjusted, 1.0 - (1.0 - r2) * (n - 1.0) / (n - p), 1e-9, "R2 adjusted",
                   "definition");
    pw_assert_near(f.cv, sqrt(sse / (n - p)) / mean, 1e-9, "CV(RMSE)", "Guideline 14");
    pw_assert_near(f.nmbe, bias / ((n - p) * mean), 1e-12, "NMBE", "Guideline 14");
    pw_assert_near(f.rho, next / own, 1e-6, "rho", "definition");
    pw_assert_near(f.bic, n * log(sse / n) + p * log(n), 1e-6, "BIC", "Schwarz 1978");
    pw_change_data_free(&b.d);
  }
}

/* t of a slope with its balance point held: the linear fit alone, solved here. */
static void t_with_the_balance_held(void **state)
{
  (void)state;
  bills b;
  bills_of(&b, 1.2, 13.3, 2.1, 20.4, 0.5);
  const pw_change_fit f = fit_of(&b, PW_CHANGE_HC);
  double days = 0.0, normal[9] = {0}, inverse[9], right[3] = {0};
  for (int i = 0; i < MONTHS; i++)
    days += b.p[i].days / MONTHS;
  for (int i = 0; i < MONTHS; i++) {
    const double x[3] = {1.0, clipped(&b, i, f.balance[0], 0), clipped(&b, i, f.balance[1], 1)};
    for (int r = 0; r < 3; r++) {
      right[r] += b.p[i].days / days * x[r] * b.p[i].per_day;
      for (int c = 0; c < 3; c++)
        normal[3 * r + c] += b.p[i].days / days * x[r] * x[c];
    }
  }
  invert(normal, inverse, 3);
  double q[3] = {0};
  for (int r = 0; r < 3; r++)
    for (int c = 0; c < 3; c++)
      q[r] += inverse[3 * r + c] * right[c];
  pw_assert_near(f.base, q[0], 1e-6, "base", "normal equations");
  pw_assert_near(f.slope[0], q[1], 1e-7, "slope H", "normal equations");
  pw_assert_near(f.slope[1], q[2], 1e-7, "slope C", "normal equations");
  pw_assert_near(f.t[0], q[1] / (f.s * sqrt(inverse[4])), 1e-4, "t H", "definition");
  pw_assert_near(f.t[1], q[2] / (f.s * sqrt(inverse[8])), 1e-4, "t C", "definition");
  assert_int_equal(f.doubt, 0);
  pw_change_data_free(&b.d);
}

/* A bill that is left out is as if it were not there; with as many bills as parameters none can be fitted. */
static void what_is_left_out_is_not_there(void **state)
{
  (void)state;
  bills b;
  unsigned char out[MONTHS] = {[3] = 1, [20] = 1};
  pw_change_period kept[MONTHS];
  pw_change_data d;
  pw_change_fit f, g;
  size_t n = 0;
  bills_of(&b, 1.2, 13.3, 2.1, 20.4, 0.5);
  for (int i = 0; i < MONTHS; i++)
    if (!out[i]) kept[n++] = b.p[i];
  assert_int_equal(pw_change_data_init(&d, kept, n, NULL), PW_OK);
  assert_int_equal(pw_change_point_fit(&b.d, out, PW_CHANGE_HC, &f, NULL), PW_OK);
  assert_int_equal(pw_change_point_fit(&d, NULL, PW_CHANGE_HC, &g, NULL), PW_OK);
  pw_assert_near(f.base, g.base, 1e-4, "base", "the same bills");
  pw_assert_near(f.sse, g.sse, 1e-6 * g.sse, "SSE", "the same bills");
  pw_assert_near(f.covariance[0], g.covariance[0], 1e-3 * g.covariance[0], "covariance",
                 "the same bills");
  pw_change_data_free(&d);
  static const struct {
    pw_change_model model;
    size_t most;
  } row[] = {{PW_CHANGE_BASE, 1},
             {PW_CHANGE_H, 3},
             {PW_CHANGE_C, 3},
             {PW_CHANGE_HC, 5},
             {PW_CHANGE_ONE, 4}};
  for (size_t r = 0; r < sizeof row / sizeof row[0]; r++) {
    pw_err err = {0};
    memset(out, 1, sizeof out);
    for (size_t i = 0; i < row[r].most; i++)
      out[5 * i % MONTHS] = 0;
    assert_int_equal(pw_change_point_fit(&b.d, out, row[r].model, &f, &err), PW_E_SHAPE);
    out[1] = out[12] = 0;
    assert_int_equal(pw_change_point_fit(&b.d, out, row[r].model, &f, NULL), PW_OK);
  }
  assert_int_equal(pw_change_point_fit(&b.d, NULL, PW_CHANGE_COUNT, &f, NULL), PW_E_DOMAIN);
  pw_change_data_free(&b.d);
}

/* Why a term is not believed: a slope below 0 on either side, one lost in the noise. */
static void doubts_have_their_side(void **state)
{
  (void)state;
  bills b;
  bills_of(&b, -0.4, 15.0, 1.0, 20.0, 0.3);
  assert_true(fit_of(&b, PW_CHANGE_H).doubt & PW_CHANGE_SIGN);
  pw_change_data_free(&b.d);
  bills_of(&b, 1.0, 13.0, -0.5, 20.0, 0.3);
  pw_change_fit f = fit_of(&b, PW_CHANGE_HC);
  assert_true(f.doubt & PW_CHANGE_SIGN << 1);
  assert_false(f.doubt & PW_CHANGE_SIGN);
  pw_change_data_free(&b.d);
  bills_of(&b, 0.0, 13.0, 0.0, 20.0, 5.0);
  f = fit_of(&b, PW_CHANGE_C);
  assert_true(fabs(f.t[1]) >= 2.0 || f.doubt & PW_CHANGE_WEAK << 1);
  assert_false(f.doubt &
               (PW_CHANGE_WEAK | PW_CHANGE_SIGN | PW_CHANGE_EDGE | PW_CHANGE_FEW_DAYS));
  pw_change_fit best, tried[4];
  assert_int_equal(pw_change_point_choose(&b.d, NULL, 1, &best, tried, NULL), PW_OK);
  assert_int_equal(tried[0].n, MONTHS);
  assert_int_equal(tried[3].p, 5);
  pw_change_data_free(&b.d);
  /* all that is there: both terms; where it may not cool: heating alone, and the others untried */
  bills_of(&b, 1.2, 13.3, 2.1, 20.4, 0.2);
  assert_int_equal(pw_change_point_choose(&b.d, NULL, 1, &best, tried, NULL), PW_OK);
  assert_int_equal(best.model, PW_CHANGE_HC);
  assert_int_equal(pw_change_point_choose(&b.d, NULL, 0, &best, tried, NULL), PW_OK);
  assert_true(best.model == PW_CHANGE_H || best.model == PW_CHANGE_BASE);
  assert_int_equal(tried[1].n, MONTHS);
  assert_int_equal(tried[2].n + tried[3].n, 0);
  pw_change_data_free(&b.d);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(covariance_by_normal_equations),
      cmocka_unit_test(figures_by_their_definitions),
      cmocka_unit_test(t_with_the_balance_held),
      cmocka_unit_test(what_is_left_out_is_not_there),
      cmocka_unit_test(doubts_have_their_side),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
