/* What a draw costs: needs, bills and savings of every set at the values of its inputs. */
#include <math.h>
#include <string.h>

#include "study/compare_impl.h"
#include "study/range_bills_impl.h"
#include "study/range_money.h"

/* U and SHGC of a set at a draw, from its sums: glass, frame and ring each moved as a whole. */
static void ratings_at(const range_case *rc, size_t set, const double v[IN_COUNT], double *u,
                       double *shgc)
{
  const pw_rated_set *s = pw_compare_set_of(rc->compare, (int)set - 1).rated;
  double glass_old = s->ua_old.center + s->ua_old.edge;
  double frame_old = s->ua_old.frame + s->ua_old.divider;
  double glass = s->ua.center + s->ua.edge - glass_old;
  double frame = s->ua.frame + s->ua.divider - frame_old;
  *u = (v[IN_GLASS_U_OLD] * glass_old + v[IN_GLASS_U_NEW] * glass +
        (v[IN_FRAME_U_OLD] * frame_old + v[IN_FRAME_U_NEW] * frame) +
        v[IN_FRAME_U_OLD] * s->ua.retained) /
       s->area;
  *shgc = s->shgc * (s->sun_old * v[IN_SHGC_OLD] + (1.0 - s->sun_old) * v[IN_SHGC_NEW]);
}

/* Needs of every set at a draw: the year's, times weather; years INFINITY: that of a normal year. What models disagree on about a house acts
 * on the existing windows' need, what they disagree on about a change of windows on the difference
 * to it: each as published, neither taken off the other. years: how many years' weather is averaged. */
static void needs_at(const range_case *rc, const double year[], const double v[IN_COUNT],
                     double years, pw_needs needs[])
{
  double spell = 1.0 / sqrt(years);
  double factor[2] = {(1.0 + (v[IN_WEATHER_HEAT] - 1.0) * spell) * v[IN_NORMALS_HEAT],
                      (1.0 + (v[IN_WEATHER_COOL] - 1.0) * spell) * v[IN_NORMALS_COOL]};
  double model[2] = {v[IN_MODEL_HEAT], v[IN_MODEL_COOL]};
  double effect[2] = {v[IN_EFFECT_HEAT], v[IN_EFFECT_COOL]};
  for (size_t s = 0; s < rc->n_set; s++) {
    needs[s] = (pw_needs){.heating_hour_kwh = NULL};
    for (size_t m = 0; m < RANGE_MONTHS; m++) {
      size_t k = m >= 12;
      double now = fmax(0.0, year[m]), here = fmax(0.0, year[s * RANGE_MONTHS + m]);
      double need = fmax(0.0, factor[k] * (model[k] * now + effect[k] * (here - now)));
      if (k)
        needs[s].cooling_kwh[m - 12] = need;
      else
        needs[s].heating_kwh[m] = need;
    }
  }
}

static void rates_at(const range_case *rc, const double v[IN_COUNT], pw_rates *rates)
{
  *rates = rc->rates;
  rates->heating_efficiency.value *= v[IN_HEAT_EFFICIENCY];
  rates->cooling_cop.value *= v[IN_COOL_COP];
  double duct = v[IN_DUCT] / rc->input[IN_DUCT].given.value;
  if (range_has_ducts(&rates->heating_duct)) rates->heating_duct.value *= duct;
  if (range_has_ducts(&rates->cooling_duct)) rates->cooling_duct.value *= duct;
}

static pw_status bill_at(const range_case *rc, size_t set, const pw_rates *rates,
                         const double v[IN_COUNT], const pw_needs *needs, pw_bill *bill,
                         pw_err *err)
{
  const double *mean = rc->mean_price[set];
  pw_status s = pw_bill_of(needs, rates, bill, err);
  int one = rates->heating_fuel == PW_FUEL_ELECTRICITY;
  if (isfinite(mean[0])) bill->heating_cost = bill->heating_fuel_kwh * mean[0];
  if (isfinite(mean[1])) bill->cooling_cost = bill->cooling_electricity_kwh * mean[1];
  bill->heating_cost *= v[one ? IN_PRICE_COOL : IN_PRICE_HEAT];
  bill->cooling_cost *= v[IN_PRICE_COOL];
  bill->cost_year = bill->heating_cost + bill->cooling_cost;
  return s;
}

/* The range of the installed price is one for all packages, as wide as each one's own. */
static double price_factor(const pw_compare *c, size_t p, double drawn)
{
  double widest = range_price_width(c, range_widest_price(c)), own = range_price_width(c, p);
  return widest > 0.0 && own > 0.0 ? 1.0 + (drawn - 1.0) * own / widest : drawn;
}

pw_status range_live_at(const range_case *rc, const double v[IN_COUNT], const double year[],
                        double years, range_lived *l, pw_err *err)
{
  pw_rates rates;
  pw_status status = PW_OK;
  rates_at(rc, v, &rates);
  needs_at(rc, year, v, years, l->needs);
  for (size_t s = 0; s < rc->n_set && status == PW_OK; s++)
    status = bill_at(rc, s, &rates, v, &l->needs[s], &l->bill[s], err);
  return status;
}

/* As the draw has it: a given bill weighs the draw (bill_weights) and scales nothing. */
static pw_status saving_at(const range_lived *l, size_t from, size_t to, pw_saving *saving,
                           pw_err *err)
{
  return pw_saving_of(&l->needs[from], &l->bill[from], &l->needs[to], &l->bill[to], 0.0, saving,
                      err);
}

/* one: the year itself; mean: the mean over the horizon, of which payback and worth are made; normal: a year of normal
 * weather, of which a promise is made that meters are held against. */
static pw_status package_at(const range_case *rc, size_t p, const range_lived *one,
                            const range_lived *mean, const range_lived *normal,
                            const double v[IN_COUNT], double f[F_COUNT], pw_err *err)
{
  const pw_compare *c = rc->compare;
  const pw_billed_set *set = &c->billed.package_set[p];
  pw_saving saving, over_code, lasting;
  pw_status s = saving_at(one, 0, p + 1, &saving, err);
  if (s == PW_OK) s = saving_at(one, rc->n_set - 1, p + 1, &over_code, err);
  if (s == PW_OK) s = saving_at(mean, 0, p + 1, &lasting, err);
  if (s != PW_OK) return s;
  f[F_SAVING] = saving.cost_year;
  f[F_MINIMUM] = over_code.cost_year;
  f[F_NEED] = saving.need_kwh;
  f[F_FUEL] = saving.fuel_kwh;
  const pw_bill *now = &normal->bill[0], *then = &normal->bill[p + 1];
  f[F_HEATING_FUEL] = now->heating_fuel_kwh - then->heating_fuel_kwh;
  f[F_COOLING_POWER] = now->cooling_electricity_kwh - then->cooling_electricity_kwh;
  f[F_NORMAL_FUEL] = f[F_HEATING_FUEL] + f[F_COOLING_POWER];
  f[F_PAYBACK] = (double)INFINITY;
  if (!(set->price > 0.0)) return PW_OK;
  pw_invest invest = set->invest;
  pw_worth worth;
  invest.price *= price_factor(c, p, v[IN_INSTALLED]);
  invest.saving_year = lasting.cost_year;
  invest.escalation += v[IN_ESCALATION];
  invest.without_rate = 1;
  s = pw_worth_of(&invest, &worth, err);
  if (s != PW_OK) return s;
  f[F_PAYBACK] = worth.simple_payback;
  f[F_WORTH] = worth.net_present_worth;
  return PW_OK;
}

/* What the draw says of the existing windows, for bills: their weather is known, so that of single years is
 * left out, and so is what normals miss. */
static void need_at(const range_lived *one, const double v[IN_COUNT], const double year[],
                    range_need *need)
{
  double sum[2] = {0.0, 0.0};
  for (size_t m = 0; m < 12; m++) {
    need->month[0][m] = fmax(0.0, year[m] * v[IN_MODEL_HEAT]);
    need->month[1][m] = fmax(0.0, year[12 + m] * v[IN_MODEL_COOL]);
    sum[0] += one->needs[0].heating_kwh[m];
    sum[1] += one->needs[0].cooling_kwh[m];
  }
  need->per_need[0] = sum[0] > 0.0 ? one->bill[0].heating_fuel_kwh / sum[0] : 0.0;
  need->per_need[1] = sum[1] > 0.0 ? one->bill[0].cooling_electricity_kwh / sum[1] : 0.0;
}

pw_status range_figures_at(const range_case *rc, const double v[IN_COUNT], const double year[],
                           double f[], range_need *need, pw_err *err)
{
  range_lived one, mean, normal;
  double years = fmax(1.0, rc->compare->billed.package_set[0].invest.horizon);
  pw_status status = range_live_at(rc, v, year, 1.0, &one, err);
  if (status == PW_OK) status = range_live_at(rc, v, year, years, &mean, err);
  if (status == PW_OK) status = range_live_at(rc, v, year, (double)INFINITY, &normal, err);
  if (status != PW_OK) return status;
  memset(f, 0, rc->n_set * F_COUNT * sizeof *f);
  for (size_t s = 0; s + 1 < rc->n_set; s++) {
    ratings_at(rc, s, v, &f[s * F_COUNT + F_U], &f[s * F_COUNT + F_SHGC]);
    f[s * F_COUNT + F_COST] = one.bill[s].cost_year;
  }
  for (size_t p = 0; p + 2 < rc->n_set && status == PW_OK; p++)
    status = package_at(rc, p, &one, &mean, &normal, v, f + (p + 1) * F_COUNT, err);
  if (need) need_at(&one, v, year, need);
  return status;
}

pw_status range_savings_at(const range_case *rc, const double v[IN_COUNT], const double year[],
                           double saving[], pw_err *err)
{
  range_lived one;
  pw_saving of;
  pw_status s = range_live_at(rc, v, year, 1.0, &one, err);
  for (size_t p = 0; p + 2 < rc->n_set && s == PW_OK; p++) {
    s = saving_at(&one, 0, p + 1, &of, err);
    saving[p] = of.cost_year;
  }
  return s;
}
