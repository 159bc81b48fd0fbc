/* From the heat a house needs to fuel, money and carbon dioxide.
 *
 *   fuel = need / (seasonal efficiency x duct efficiency);  cost by tariff;  CO2 by factor
 */
#ifndef PANEWRIGHT_BILL_H
#define PANEWRIGHT_BILL_H

#include "panewright/rates.h"
#include "panewright/status.h"

typedef struct pw_needs {
  double heating_kwh[12], cooling_kwh[12]; /* useful heat and cold of each month, >= 0 */
  const double *heating_hour_kwh, *cooling_hour_kwh; /* 8760 each, or NULL; borrowed */
} pw_needs;

typedef struct pw_bill {
  double use_kwh[PW_FUEL_COUNT]; /* of fuel, a year */
  double cost[PW_FUEL_COUNT];    /* $ a year, heating and cooling only */
  double heating_fuel_kwh, cooling_electricity_kwh;
  double heating_cost, cooling_cost, cost_year; /* $ */
  double cost_month[12];
  double co2_kg;
  unsigned notes;
} pw_bill;

/* Bill of heating and cooling.
 *
 * Given     needs, rates
 * Returned  *bill
 * Status    PW_OK; PW_E_DOMAIN a need below 0 or not finite; hourly sums that differ from their
 *           month by more than 1 %
 * Notes     1) In tiers heating and cooling come on top of base_kwh: cost = charge(base + use)
 *              - charge(base). Where both use electricity, the month's increment is shared by use.
 *           2) Standing charges are left out: they do not change with the windows.
 *           3) Fans and pumps of the heating plant are left out (about 1 % of its fuel).
 */
pw_status pw_bill_of(const pw_needs *needs, const pw_rates *rates, pw_bill *bill, pw_err *err);

typedef struct pw_saving {
  double cost_year;     /* $ that may be claimed: never above the bill given */
  double cost_computed; /* $ difference of the two computed bills */
  double fuel_kwh;      /* all fuels, kWh a year */
  double need_kwh;      /* heating plus cooling need, kWh a year */
  double co2_kg;
  double bill_ratio; /* computed existing bill over the given one; NAN without one */
  unsigned notes;
} pw_saving;

/* Difference of two bills of one house, held to the bill that the job gives.
 *
 * Given     needs and bills of both; bill_given $ of heating and cooling a year, 0 unknown
 * Returned  *saving. When the computed existing bill is above the given one, the saving is scaled
 *           by given / computed: the same share of a smaller bill, hence never above it. A computed
 *           bill below the given one is not scaled up.
 * Status    PW_OK; PW_E_DOMAIN bill_given below 0
 */
pw_status pw_saving_of(const pw_needs *needs_existing, const pw_bill *existing,
                       const pw_needs *needs_insert, const pw_bill *insert, double bill_given,
                       pw_saving *saving, pw_err *err);

/* The share of a computed sum that may be claimed, from saving.bill_ratio: 1 without a bill or with one
 * above the computed. The one place where a bill scales anything. */
double pw_bill_share(double bill_ratio);

/* Holds a saving between two other sets of windows of the same house to the bill that held `from`,
 * whose existing windows that bill is of. Sums then agree: saving over code minimum = saving of the
 * package - saving of the code minimum. */
void pw_saving_hold(const pw_saving *from, pw_saving *saving);

#endif
