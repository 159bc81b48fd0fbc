/* A comparison made ready to be drawn. */
#include <math.h>

#include "study/range_impl.h"

/* Time-of-use prices at their mean over the needs of the comparison, each set and purpose its own: a
 * package that takes the sun out takes dear hours out. */
static void flatten(range_case *rc)
{
  rc->rates = rc->compare->billed.rates;
  const pw_fuel fuel[2] = {rc->rates.heating_fuel, PW_FUEL_ELECTRICITY};
  for (size_t s = 0; s < rc->n_set; s++) {
    const int set = s + 1 == rc->n_set ? PW_SET_MINIMUM : (int)s - 1;
    const pw_bill *b = &pw_compare_set_of(rc->compare, set).billed->bill;
    const double cost[2] = {b->heating_cost, b->cooling_cost};
    const double kwh[2] = {b->heating_fuel_kwh, b->cooling_electricity_kwh};
    for (size_t k = 0; k < 2; k++) {
      const pw_tariff *t = rc->rates.tariff[fuel[k]];
      int timed = t && t->kind == PW_TARIFF_TIME && kwh[k] > 0.0;
      rc->mean_price[s][k] = timed ? cost[k] / kwh[k] : (double)NAN;
    }
  }
  for (size_t f = 0; f < PW_FUEL_COUNT; f++) {
    const pw_tariff *t = rc->rates.tariff[f];
    if (!t || t->kind == PW_TARIFF_TIERED) continue;
    if (t->kind == PW_TARIFF_FLAT) rc->rates.price[f].value = t->flat;
    rc->rates.tariff[f] = NULL;
  }
}

pw_status range_case_of(const pw_compare *compare, const pw_weather *weather,
                        pw_year_method method, unsigned like, range_case *rc, pw_err *err)
{
  *rc = (range_case){.compare = compare,
                     .weather = weather,
                     .method = method,
                     .like = like,
                     .n_set = 2 + compare->n_package};
  flatten(rc);
  return range_inputs(rc, err);
}
