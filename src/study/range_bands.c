/* Bands of the drawn figures, and how much each draw counts. */
#include <math.h>
#include <stdlib.h>

#include "meter/limits.h"
#include "study/range_impl.h"

pw_status range_bill_weights(const double cost[], size_t stride, size_t n, double given,
                             double weight[], pw_range_conditioned *what, pw_err *err)
{
  const double sigma = METER_LIMIT(bill_noise) * given;
  const pw_condition_meter meter = {.n = 1,
                                    .sigma = &sigma,
                                    .discrepancy = METER_LIMIT(discrepancy) * given,
                                    .shared = METER_LIMIT(discrepancy_shared)};
  double *room = calloc(4 * n, sizeof *room), *residual = room;
  if (!room) return pw_fail(err, PW_E_NOMEM, "draws", "no memory for %zu draws", n);
  for (size_t i = 0; i < n; i++)
    residual[i] = given - cost[i * stride];
  pw_status s = pw_condition_add(&meter, residual, n, room + n, room + 2 * n, err);
  if (s == PW_OK)
    s = pw_condition_weights(room + n, room + 2 * n, n, 1.0, METER_LIMIT(least_effective_share),
                             room + 3 * n, weight, &what->condition, err);
  free(room);
  what->given = 1;
  what->n_draw = n;
  what->used = s == PW_OK && what->condition.refused == PW_CONDITION_ACCEPTED;
  return s;
}

/* Bands and chances of a set from the figures f[draw][set][figure] of n draws.
 * Given     weight[n] or NULL: all alike; beat, $ a year; sort[2 n] room */
static pw_status range_set_bands(const range_case *rc, const double f[], size_t set, size_t n,
                                 const double weight[], double beat, double sort[],
                                 pw_range_set *out, pw_err *err)
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
             {F_COOLING_POWER, &out->saving_cooling_kwh},
             {F_NORMAL_FUEL, &out->saving_normal_kwh}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_status s = pw_band_of(f + at + row[i].figure, nf, n, weight, sort, row[i].band, err);
    if (s != PW_OK) return s;
  }
  if (set == 0) return PW_OK;
  const double *saving = f + at + F_SAVING;
  out->chance_positive = pw_chance_above(saving, nf, n, weight, 0.0);
  out->chance_beats = pw_chance_above(saving, nf, n, weight, beat);
  double life = rc->compare->billed.package_set[set - 1].invest.life;
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
