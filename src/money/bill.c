#include "panewright/bill.h"
#include "money/tariff.h"

#include <math.h>

static pw_status check_needs(const pw_needs *needs, pw_err *err)
{
  for (int m = 0; m < 12; m++) {
    if (!(needs->heating_kwh[m] >= 0.0 && isfinite(needs->heating_kwh[m])))
      return pw_fail(err, PW_E_DOMAIN, "heating_kwh", "%g kWh in month %d, want 0 or more",
                     needs->heating_kwh[m], m + 1);
    if (!(needs->cooling_kwh[m] >= 0.0 && isfinite(needs->cooling_kwh[m])))
      return pw_fail(err, PW_E_DOMAIN, "cooling_kwh", "%g kWh in month %d, want 0 or more",
                     needs->cooling_kwh[m], m + 1);
  }
  return PW_OK;
}

/* Mean price of a month weighted by the hours of need; the plain mean where there is none. */
static pw_status weigh_hours(const pw_tariff *tariff, const double hour_kwh[],
                             const double month_kwh[12], double price[12], pw_err *err)
{
  double sum[12] = {0}, cost[12] = {0};
  for (size_t h = 0; h < PW_YEAR_HOURS; h++) {
    if (hour_kwh[h] == 0.0) continue;
    if (!(hour_kwh[h] > 0.0 && isfinite(hour_kwh[h])))
      return pw_fail(err, PW_E_DOMAIN, "hour_kwh", "%g kWh in hour %zu, want 0 or more",
                     hour_kwh[h], h);
    int m = pw_year_month(h);
    sum[m] += hour_kwh[h];
    cost[m] += hour_kwh[h] * pw_tariff_hour_price(tariff, h);
  }
  pw_tariff_month_mean(tariff, price);
  for (int m = 0; m < 12; m++) {
    if (fabs(sum[m] - month_kwh[m]) > 0.01 * fmax(month_kwh[m], 1.0))
      return pw_fail(err, PW_E_DOMAIN, "hour_kwh", "hours of month %d sum to %g kWh, not %g",
                     m + 1, sum[m], month_kwh[m]);
    if (sum[m] > 0.0) price[m] = cost[m] / sum[m];
  }
  return PW_OK;
}

/* Price of each month's use of one purpose, tiers excepted. */
static pw_status month_prices(const pw_rates *rates, pw_fuel fuel, const double hour_kwh[],
                              const double month_kwh[12], double price[12], unsigned *notes,
                              pw_err *err)
{
  const pw_tariff *tariff = rates->tariff[fuel];
  for (int m = 0; m < 12; m++)
    price[m] =
        tariff && tariff->kind == PW_TARIFF_FLAT ? tariff->flat : rates->price[fuel].value;
  if (!tariff || tariff->kind != PW_TARIFF_TIME) return PW_OK;
  if (hour_kwh) return weigh_hours(tariff, hour_kwh, month_kwh, price, err);
  pw_tariff_month_mean(tariff, price);
  *notes |= PW_BILL_FLAT_HOURS;
  return PW_OK;
}

/* Cost of a month: heating use on its fuel, cooling use on electricity, tiers shared by use. */
static void month_cost(const pw_rates *rates, int m, const double use[2], const double price[2],
                       double cost[2])
{
  const pw_fuel fuel[2] = {rates->heating_fuel, PW_FUEL_ELECTRICITY};
  for (int i = 0; i < 2; i++) {
    const pw_tariff *tariff = rates->tariff[fuel[i]];
    if (!tariff || tariff->kind != PW_TARIFF_TIERED) {
      cost[i] = use[i] * price[i];
      continue;
    }
    double all = fuel[0] == fuel[1] ? use[0] + use[1] : use[i];
    cost[i] = all > 0.0 ? pw_tariff_tier_cost(tariff, m, all) * use[i] / all : 0.0;
  }
}

pw_status pw_bill_of(const pw_needs *needs, const pw_rates *rates, pw_bill *bill, pw_err *err)
{
  pw_bill b = {.notes = rates->notes};
  double price[2][12];
  double per_need[2] = {
      rates->heats ? 1.0 / (rates->heating_efficiency.value * rates->heating_duct.value) : 0.0,
      rates->cools ? 1.0 / (rates->cooling_cop.value * rates->cooling_duct.value) : 0.0};
  pw_status s = check_needs(needs, err);
  if (s == PW_OK)
    s = month_prices(rates, rates->heating_fuel, needs->heating_hour_kwh, needs->heating_kwh,
                     price[0], &b.notes, err);
  if (s == PW_OK)
    s = month_prices(rates, PW_FUEL_ELECTRICITY, needs->cooling_hour_kwh, needs->cooling_kwh,
                     price[1], &b.notes, err);
  if (s != PW_OK) return s;

  for (int m = 0; m < 12; m++) {
    double use[2] = {needs->heating_kwh[m] * per_need[0], needs->cooling_kwh[m] * per_need[1]};
    double cost[2], now[2] = {price[0][m], price[1][m]};
    month_cost(rates, m, use, now, cost);
    b.heating_fuel_kwh += use[0];
    b.cooling_electricity_kwh += use[1];
    b.heating_cost += cost[0];
    b.cooling_cost += cost[1];
    b.cost_month[m] = cost[0] + cost[1];
  }
  b.use_kwh[rates->heating_fuel] += b.heating_fuel_kwh;
  b.use_kwh[PW_FUEL_ELECTRICITY] += b.cooling_electricity_kwh;
  b.cost[rates->heating_fuel] += b.heating_cost;
  b.cost[PW_FUEL_ELECTRICITY] += b.cooling_cost;
  b.cost_year = b.heating_cost + b.cooling_cost;
  for (int f = 0; f < PW_FUEL_COUNT; f++)
    b.co2_kg += b.use_kwh[f] * rates->co2_kg_kwh[f].value;
  *bill = b;
  return PW_OK;
}

/* isgreater: the ratio is not given without a bill, which is most draws of a range, and raises no trap here. */
double pw_bill_share(double bill_ratio)
{
  return isgreater(bill_ratio, 1.0) ? 1.0 / bill_ratio : 1.0;
}

void pw_saving_hold(const pw_saving *from, pw_saving *saving)
{
  saving->bill_ratio = from->bill_ratio;
  saving->cost_year = saving->cost_computed * pw_bill_share(saving->bill_ratio);
  if (isgreater(saving->bill_ratio, 1.0)) saving->notes |= PW_BILL_SCALED;
  if (isgreater(fabs(saving->bill_ratio - 1.0), 0.25)) saving->notes |= PW_BILL_FAR_FROM_GIVEN;
}

pw_status pw_saving_of(const pw_needs *needs_existing, const pw_bill *existing,
                       const pw_needs *needs_insert, const pw_bill *insert, double bill_given,
                       pw_saving *saving, pw_err *err)
{
  if (!(bill_given >= 0.0 && isfinite(bill_given)))
    return pw_fail(err, PW_E_DOMAIN, "bill_year", "$%g, want 0 (unknown) or more", bill_given);
  pw_saving s = {.bill_ratio = (double)NAN, .notes = existing->notes | insert->notes};
  s.cost_computed = existing->cost_year - insert->cost_year;
  s.co2_kg = existing->co2_kg - insert->co2_kg;
  for (int f = 0; f < PW_FUEL_COUNT; f++)
    s.fuel_kwh += existing->use_kwh[f] - insert->use_kwh[f];
  for (int m = 0; m < 12; m++)
    s.need_kwh += (needs_existing->heating_kwh[m] - needs_insert->heating_kwh[m]) +
                  (needs_existing->cooling_kwh[m] - needs_insert->cooling_kwh[m]);
  pw_saving held = {.bill_ratio =
                        bill_given > 0.0 ? existing->cost_year / bill_given : (double)NAN};
  pw_saving_hold(&held, &s);
  *saving = s;
  return PW_OK;
}
