#include "money/worth.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>
#include <math.h>
#include <string.h>

#include "base/gsl_quiet.h"
#include "base/table.h"

/* ---------------------------------------------------------------- net present worth, rate */

/* Horner from the last year, so that no power is formed. */
static double worth_at(double factor, const double cash[], size_t n)
{
  double sum = 0.0;
  for (size_t i = n; i-- > 0;)
    sum = sum * factor + cash[i];
  return sum;
}

pw_status pw_net_present_worth(double rate, const double cash[], size_t n, double *worth,
                               pw_err *err)
{
  if (n == 0) return pw_fail(err, PW_E_SHAPE, "cash", "no years, want 1 or more");
  if (!(rate > -1.0 && isfinite(rate)))
    return pw_fail(err, PW_E_DOMAIN, "discount", "%g %%, want above -100 %%", 100.0 * rate);
  *worth = worth_at(1.0 / (1.0 + rate), cash, n); /* NIST Handbook 135, present value */
  return PW_OK;
}

typedef struct flow {
  const double *cash;
  size_t n;
} flow;

/* Over x = ln(1 + rate) the discount factor is exp(-x): even steps in x are even in compounding. */
static double worth_of_log(double x, void *params)
{
  const flow *f = params;
  return worth_at(exp(-x), f->cash, f->n);
}

static pw_status root_of(const flow *f, double low, double high, double *x, int *iterations,
                         pw_err *err)
{
  gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
  if (!solver) return pw_fail(err, PW_E_NOMEM, "cash", "no memory for the root");
  gsl_function function = {worth_of_log, (void *)(flow[1]){*f}};
  int status = gsl_root_fsolver_set(solver, &function, low, high);
  for (int i = 0; status == GSL_SUCCESS && i < 200; i++) {
    status = gsl_root_fsolver_iterate(solver);
    if (status != GSL_SUCCESS) break;
    (*iterations)++;
    low = gsl_root_fsolver_x_lower(solver);
    high = gsl_root_fsolver_x_upper(solver);
    status = gsl_root_test_interval(low, high, 1e-13, 0.0);
    if (status == GSL_SUCCESS) break;
    if (status == GSL_CONTINUE) status = GSL_SUCCESS;
  }
  *x = gsl_root_fsolver_root(solver);
  gsl_root_fsolver_free(solver);
  if (status != GSL_SUCCESS)
    return pw_fail(err, PW_E_CONVERGE, "cash", "internal rate: %s", gsl_strerror(status));
  return PW_OK;
}

static pw_status settle(const flow *f, double low, double high, double *x, int *iterations,
                        pw_err *err)
{
  gsl_error_handler_t *held = pw_gsl_hold();
  pw_status status = root_of(f, low, high, x, iterations, err);
  pw_gsl_release(held);
  return status;
}

pw_status pw_internal_rate(const double cash[], size_t n, pw_irr *irr, pw_err *err)
{
  enum { STEPS = 1401 };
  const double low = log(0.01), high = log(11.0); /* rates -99 % .. +1000 % */
  if (n < 2) return pw_fail(err, PW_E_SHAPE, "cash", "%zu years, want 2 or more", n);
  for (size_t i = 0; i < n; i++)
    if (!isfinite(cash[i]))
      return pw_fail(err, PW_E_DOMAIN, "cash", "year %zu is not finite", i);

  flow f = {cash, n};
  pw_irr r = {.kind = PW_IRR_NONE, .rate = (double)NAN};
  double x_before = low, w_before = worth_of_log(low, &f);
  for (int i = 1; i < STEPS; i++) {
    double x = low + (high - low) * i / (STEPS - 1), w = worth_of_log(x, &f), root = x;
    int hit = w == 0.0;
    if (!hit && w_before != 0.0 && (w > 0.0) != (w_before > 0.0)) {
      pw_status s = settle(&f, x_before, x, &root, &r.iterations, err);
      if (s != PW_OK) return s;
      hit = 1;
    }
    if (hit) {
      r.roots++;
      if (isnan(r.rate) || fabs(root) < fabs(log1p(r.rate))) r.rate = expm1(root);
    }
    x_before = x;
    w_before = w;
  }
  if (r.roots) r.kind = r.roots == 1 ? PW_IRR_ONE : PW_IRR_SEVERAL;
  *irr = r;
  return PW_OK;
}

/* ---------------------------------------------------------------- price, life */

pw_status pw_installed_price(double per_opening, double per_area, double n_opening, double area,
                             double *price, pw_err *err)
{
  if (!(per_opening >= 0.0 && isfinite(per_opening)))
    return pw_fail(err, PW_E_DOMAIN, "price_per_opening", "$%g, want 0 or more", per_opening);
  if (!(per_area >= 0.0 && isfinite(per_area)))
    return pw_fail(err, PW_E_DOMAIN, "price_per_area", "$%g/m2, want 0 or more", per_area);
  if (!(n_opening >= 0.0 && isfinite(n_opening)))
    return pw_fail(err, PW_E_DOMAIN, "n_opening", "%g, want 0 or more", n_opening);
  if (!(area >= 0.0 && isfinite(area)))
    return pw_fail(err, PW_E_DOMAIN, "area", "%g m2, want 0 or more", area);
  *price = per_opening * n_opening + per_area * area;
  return PW_OK;
}

pw_given pw_window_life(pw_frame_kind kind)
{
  const char *key =
      kind == PW_FRAME_WOOD ? "life_window_wood"
      : kind == PW_FRAME_ALUMINIUM || kind == PW_FRAME_ALUMINIUM_BREAK || kind == PW_FRAME_STEEL
          ? "life_window_aluminium"
          : "life_window_vinyl";
  const pw_table *t = pw_table_find("trade/money");
  int col = pw_table_column(t, "key");
  for (size_t r = 0; t && r < t->n_row; r++)
    if (strcmp(pw_table_text(t, r, col), key) == 0)
      return (pw_given){.value = pw_table_number(t, r, pw_table_column(t, "value")),
                        .origin = PW_ORIGIN_TABLE,
                        .source = pw_table_text(t, r, pw_table_column(t, "source"))};
  return (pw_given){.value = 20.0, .origin = PW_ORIGIN_ASSUMED};
}

pw_given pw_residual_life(pw_frame_kind kind, int year_built, int year_now)
{
  static const char unknown[] = "age unknown: half of the life of its kind";
  static const char from_age[] = "life of its kind less the age of the house";
  pw_given life = pw_window_life(kind);
  if (year_built <= 0 || year_built > year_now)
    return (pw_given){.value = 0.5 * life.value, .source = unknown};
  return (pw_given){.value = fmax(0.0, life.value - (year_now - year_built)),
                    .origin = PW_ORIGIN_COMPUTED,
                    .source = from_age};
}

/* ---------------------------------------------------------------- worth of a package */

static pw_status check(const pw_invest *i, pw_err *err)
{
  const struct {
    const char *field;
    double value, low;
    const char *want;
  } row[] = {
      {"price", i->price, 0.0, "$ 0 or more"},
      {"incentive", i->incentive, 0.0, "$ 0 or more"},
      {"horizon", i->horizon, 0.0, "0 (default 25) to 60 years"},
      {"life", i->life, 0.0, "0 (default 30) or more years"},
      {"residual", i->residual, 0.0, "0 or more years"},
      {"avoided", i->avoided, 0.0, "$ 0 or more"},
  };
  for (size_t k = 0; k < sizeof row / sizeof row[0]; k++)
    if (!(row[k].value >= row[k].low && isfinite(row[k].value)))
      return pw_fail(err, PW_E_DOMAIN, row[k].field, "%g, want %s", row[k].value, row[k].want);
  if (!(i->horizon <= PW_YEARS_MAX))
    return pw_fail(err, PW_E_DOMAIN, "horizon", "%g years, want at most %d", i->horizon,
                   PW_YEARS_MAX);
  if (!isfinite(i->saving_year)) return pw_fail(err, PW_E_DOMAIN, "saving_year", "not finite");
  if (!(i->discount > -1.0 && i->discount <= 10.0))
    return pw_fail(err, PW_E_DOMAIN, "discount", "%g %% a year, want above -100 %%",
                   100.0 * i->discount);
  if (!(i->escalation > -1.0 && i->escalation <= 1.0))
    return pw_fail(err, PW_E_DOMAIN, "escalation", "%g %% a year, want above -100 %%",
                   100.0 * i->escalation);
  return PW_OK;
}

/* Running sums, and the year in which the discounted one comes back to 0, straight inside a year. */
static void run_sums(const pw_invest *invest, pw_worth *w)
{
  double factor = 1.0;
  w->cumulative[0] = w->discounted[0] = w->cash[0];
  w->discounted_payback = w->outlay > 0.0 ? (double)INFINITY : 0.0;
  for (size_t y = 1; y <= w->n_year; y++) {
    factor /= 1.0 + invest->discount;
    double now = w->cash[y] * factor;
    w->cumulative[y] = w->cumulative[y - 1] + w->cash[y];
    w->discounted[y] = w->discounted[y - 1] + now;
    if (isinf(w->discounted_payback) && w->discounted[y] >= 0.0 && now > 0.0)
      w->discounted_payback = (double)(y - 1) - w->discounted[y - 1] / now;
  }
  w->net_present_worth = w->discounted[w->n_year];
}

pw_status pw_worth_of(const pw_invest *invest, pw_worth *worth, pw_err *err)
{
  pw_status s = check(invest, err);
  if (s != PW_OK) return s;
  double horizon = invest->horizon > 0.0 ? invest->horizon : PW_YEARS_DEFAULT;
  double life = invest->life > 0.0 ? invest->life : 30.0;
  pw_worth w = {.outlay = fmax(0.0, invest->price - invest->incentive)};
  w.n_year = (size_t)ceil(horizon);
  w.cash[0] = -w.outlay;
  for (size_t y = 1; y <= w.n_year; y++) {
    double share = fmin(1.0, fmax(0.0, fmin(life, horizon) - (double)(y - 1)));
    /* NIST Handbook 135, modified uniform present value: (1 + e)^t from year 1 on */
    w.cash[y] = share * invest->saving_year * pow(1.0 + invest->escalation, (double)y);
    if (invest->avoided > 0.0 && (double)y > invest->residual &&
        (double)(y - 1) <= invest->residual)
      w.cash[y] += invest->avoided;
  }
  run_sums(invest, &w);
  w.simple_payback = w.outlay == 0.0             ? 0.0
                     : invest->saving_year > 0.0 ? w.outlay / invest->saving_year
                                                 : (double)INFINITY;
  w.internal_rate = (pw_irr){.kind = PW_IRR_ONE, .rate = (double)NAN};
  if (!invest->without_rate) s = pw_internal_rate(w.cash, w.n_year + 1, &w.internal_rate, err);
  if (s != PW_OK) return s;
  if (life < horizon) w.notes |= PW_WORTH_ENDS_WITH_LIFE;
  if (w.simple_payback > life) w.notes |= PW_WORTH_BEYOND_LIFE;
  if (isinf(w.simple_payback)) w.notes |= PW_WORTH_NO_PAYBACK;
  if (w.internal_rate.kind == PW_IRR_NONE) w.notes |= PW_WORTH_NO_RATE;
  if (w.internal_rate.kind == PW_IRR_SEVERAL) w.notes |= PW_WORTH_SEVERAL_RATES;
  *worth = w;
  return PW_OK;
}
