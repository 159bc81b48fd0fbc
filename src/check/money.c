/* Net present worth and internal rate against textbook examples (reference/worth.csv), conversions
 * of reference/trade/money.csv against other figures for the same thing. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/table.h"
#include "check/check.h"
#include "check/table_rows.h"
#include "money/worth.h"
#include "panewright/bill.h"
#include "panewright/facts.h"
#include "panewright/units.h"

enum { CASH_MAX = 40 };

static size_t read_cash(const char *text, double cash[CASH_MAX])
{
  size_t n = 0;
  char *end = NULL;
  for (const char *p = text; n < CASH_MAX; p = end) {
    double v = strtod(p, &end);
    if (end == p) break;
    cash[n++] = v;
  }
  return n;
}

static pw_status worth_rows(const pw_check_sink *sink, pw_err *err)
{
  const pw_table *t = pw_table_find("worth");
  for (size_t i = 0; t && i < t->n_row; i++) {
    double cash[CASH_MAX], ours = NAN;
    size_t n = read_cash(row_text(t, i, "cash"), cash);
    const char *quantity = row_text(t, i, "quantity");
    pw_irr irr = {.rate = (double)NAN};
    pw_status s = PW_OK;
    if (strcmp(quantity, "npv") == 0)
      s = pw_net_present_worth(row_number(t, i, "rate"), cash, n, &ours, err);
    else
      s = pw_internal_rate(cash, n, &irr, err);
    if (s != PW_OK) return s;
    if (strcmp(quantity, "irr") == 0) ours = irr.rate;
    if (strcmp(quantity, "count") == 0) ours = irr.roots;
    pw_check_give(sink, row_text(t, i, "id"), quantity, row_text(t, i, "unit"), ours,
                  row_number(t, i, "expected"), row_number(t, i, "tolerance"),
                  row_text(t, i, "source"), row_text(t, i, "how_known"));
  }
  return PW_OK;
}

/* $/kWh of a state average, or NAN. */
static double price_of(pw_fuel fuel, const char *state, pw_err *err)
{
  pw_given price = {.value = (double)NAN};
  int year = 0;
  const char *region = "";
  unsigned notes = 0;
  pw_state_price(fuel, state, &price, &year, &region, &notes, err);
  return price.value;
}

static double seasonal(pw_plate rating, double value)
{
  double v = NAN;
  pw_plate_seasonal(rating, value, &v, NULL);
  return v;
}

static pw_status run(const pw_check_sink *sink, pw_err *err)
{
  pw_status s = worth_rows(sink, err);
  if (s != PW_OK) return s;
  const pw_house_facts nowhere = {0};
  pw_rates rates;
  s = pw_rates_of_house(&nowhere, NULL, &rates, err);
  if (s != PW_OK) return s;
  static const char money[] = "table trade/money";
  const pw_check_row row[] = {
      {"price_e_ca", "electricity, CA", "$/kWh", price_of(PW_FUEL_ELECTRICITY, "CA", err),
       0.2951, 1e-9, 0, 0, money, "read", 0},
      /* 2.114 $/therm over 29.3071 kWh */
      {"price_g_ca", "gas, CA", "$/kWh", price_of(PW_FUEL_GAS, "CA", err), 0.07213, 5e-6, 0, 0,
       "table trade/money 2.114 USD/therm; EIA: 1 therm = 29.3 kWh", "read", 0},
      /* The same gas by the thousand cubic feet: 14.75 $/Mcf in 2022 (US) stands beside 1.477
       * $/therm in 2023: within 5 % of each other at 1036 Btu/ft3. */
      {"price_g_mcf", "gas, US, by the Mcf", "$/Mcf",
       price_of(PW_FUEL_GAS, "", err) * pw_fuel_unit_kwh(PW_FUEL_GAS, "Mcf"), 14.75, 0.75, 0, 0,
       "table trade/money price_gas_residential_mcf, 2022", "read", 0},
      {"co2_gas", "CO2 of gas", "kg/MMBtu",
       rates.co2_kg_kwh[PW_FUEL_GAS].value * pw_fuel_unit_kwh(PW_FUEL_GAS, "MMBtu"), 53.06,
       5e-3, 0, 0, "40 CFR 98 Table C-1: 53.06 kg/MMBtu", "memory", 0},
      {"co2_e_us", "CO2 of electricity, US, non-baseload", "lb/MWh",
       rates.co2_kg_kwh[PW_FUEL_ELECTRICITY].value * 1000.0 / PW_POUND, 1393.7, 0.2, 0, 0,
       "EPA eGRID2023 summary table 1", "read", 0},
      {"oil_gal", "heating oil, a gallon", "kWh", pw_fuel_unit_kwh(PW_FUEL_OIL, "gal"), 40.6,
       0.1, 0, 0, "EIA: 138500 Btu/gal", "memory", 0},
      {"propane_gal", "propane, a gallon", "kWh", pw_fuel_unit_kwh(PW_FUEL_PROPANE, "gal"),
       26.8, 0.1, 0, 0, "EIA: 91452 Btu/gal", "memory", 0},
      {"seer", "SEER 14", "COP", seasonal(PW_PLATE_SEER, 14.0), 14.0 * 0.293, 2e-3, 0, 0,
       "table trade/money seer_to_cop 0.293", "textbook", 0},
      {"hspf", "HSPF 8.2", "COP", seasonal(PW_PLATE_HSPF, 8.2), 2.40, 5e-3, 0, 0,
       "1 Btu/Wh = 0.29307", "textbook", 0},
      /* 14.3 SEER2 and 15 SEER, 7.5 HSPF2 and 8.8 HSPF are one federal limit each (2023): the same
       * machine comes out the same within the rounding of the rule's factor. */
      {"seer2", "14.3 SEER2 over 15 SEER", "-",
       seasonal(PW_PLATE_SEER2, 14.3) / seasonal(PW_PLATE_SEER, 15.0), 1.0, 0.012, 0, 0,
       "10 CFR 430.32; table trade/money ratio_SEER2_per_SEER 0.94-0.96", "read", 0},
      {"hspf2", "7.5 HSPF2 over 8.8 HSPF", "-",
       seasonal(PW_PLATE_HSPF2, 7.5) / seasonal(PW_PLATE_HSPF, 8.8), 1.0, 0.012, 0, 0,
       "10 CFR 430.32; table trade/money ratio_HSPF2_per_HSPF 0.84-0.86", "read", 0},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    sink->row(sink->context, &row[i]);
  return PW_OK;
}

extern const pw_check_group pw_check_money;
const pw_check_group pw_check_money = {
    "money", "net present worth, internal rate, prices and efficiencies", run};
