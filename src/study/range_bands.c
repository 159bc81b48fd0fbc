/* Bands of the drawn figures, and how much each draw counts. */
#include <math.h>

#include "study/range_impl.h"

/* How well each draw's bill of the existing windows meets the one given: a bill is known to a tenth
 * (common practice, no source; issue "meter" reads the bills themselves). Divided by the largest, so
 * that a bill far from every draw leaves the nearest ones and a small worth, which is told. */
void range_bill_weights(const double cost[], size_t stride, size_t n, double given,
                        double weight[])
{
  double nearest = (double)INFINITY;
  for (size_t i = 0; i < n; i++) {
    double off = (given - cost[i * stride]) / (0.1 * given);
    weight[i] = 0.5 * off * off;
    nearest = fmin(nearest, weight[i]);
  }
  for (size_t i = 0; i < n; i++)
    weight[i] = exp(nearest - weight[i]);
}

pw_status range_set_bands(const range_case *rc, const double f[], size_t set, size_t n,
                          const double weight[], double beat, double sort[], pw_range_set *out,
                          pw_err *err)
{
  size_t nf = rc->n_set * F_COUNT, at = set * F_COUNT;
  const struct {
    enum figure figure;
    pw_band *band;
  } row[] = {{F_U, &out->u},
             {F_SHGC, &out->shgc},
             {F_COST, &out->cost_year},
             {F_SAVING, &out->saving_cost},
             {F_MINIMUM, &out->saving_minimum},
             {F_NEED, &out->saving_need_kwh},
             {F_FUEL, &out->saving_fuel_kwh},
             {F_PAYBACK, &out->payback},
             {F_WORTH, &out->net_present_worth},
             {F_HEATING_FUEL, &out->saving_heating_fuel_kwh},
             {F_COOLING_POWER, &out->saving_cooling_kwh}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_status s = pw_band_of(f + at + row[i].figure, nf, n, weight, sort, row[i].band, err);
    if (s != PW_OK) return s;
  }
  if (set == 0) return PW_OK;
  const double *saving = f + at + F_SAVING;
  out->chance_positive = pw_chance_above(saving, nf, n, weight, 0.0);
  out->chance_beats = pw_chance_above(saving, nf, n, weight, beat);
  double life = rc->compare->package_set[set - 1].invest.life;
  out->chance_pays = 1.0 - pw_chance_above(f + at + F_PAYBACK, nf, n, weight, life);
  out->includes_zero = out->saving_cost.p10 <= 0.0 && out->saving_cost.p90 >= 0.0;
  return PW_OK;
}

pw_status range_all_bands(const range_case *rc, const double f[], size_t n,
                          const double weight[], double beat, double sort[], pw_range *range,
                          pw_err *err)
{
  pw_status s = PW_OK;
  for (size_t set = 0; set + 1 < rc->n_set && s == PW_OK; set++)
    s = range_set_bands(rc, f, set, n, weight, beat, sort,
                        set == 0 ? &range->existing : &range->package[set - 1], err);
  if (s == PW_OK && rc->street) s = range_street_spreads(rc, f, n, weight, sort, err);
  return s;
}
