/* Tariffs, rates, bills and savings. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "money/tariff.h"
#include "panewright/bill.h"
#include "panewright/facts.h"
#include "panewright/units.h"

/* ---------------------------------------------------------------- tariffs */

static pw_tariff three_tiers(void)
{
  pw_tariff t = {.kind = PW_TARIFF_TIERED, .n_tier = 3};
  t.tier[0] = (pw_tier){300.0, 0.10};
  t.tier[1] = (pw_tier){500.0, 0.20};
  t.tier[2] = (pw_tier){INFINITY, 0.40};
  return t;
}

/* By hand: 400 kWh on top of 250: 50 at 0.10, 200 at 0.20, 150 at 0.40. */
static void tiers_are_filled_from_the_base_use_up(void **state)
{
  (void)state;
  pw_tariff t = three_tiers();
  t.base_kwh[6] = 250.0;
  pw_assert_near(pw_tariff_tier_cost(&t, 6, 400.0), 105.0, 1e-12, "July", "by hand");
  pw_assert_near(pw_tariff_tier_cost(&t, 0, 400.0), 50.0, 1e-12, "January, no base", "by hand");
  pw_assert_near(pw_tariff_tier_cost(&t, 0, 0.0), 0.0, 0.0, "nothing", "by hand");
}

static pw_tariff evening_peak(void)
{
  pw_tariff t = {.kind = PW_TARIFF_TIME, .n_period = 2};
  t.period[0] = (pw_period){.price = 0.20};
  t.period[1] = (pw_period){.months = 0xFu << 5,
                            .days = PW_DAYS_WEEKDAY,
                            .from_h = 16,
                            .to_h = 21,
                            .price = 0.50}; /* June to September */
  return t;
}

/* By hand: a year that begins on a Monday has 86 weekdays from 1 June (a Friday) to 30 September. */
static void peak_hours_are_counted_by_month_day_and_hour(void **state)
{
  (void)state;
  pw_tariff t = evening_peak();
  size_t peak = 0;
  for (size_t h = 0; h < 8760; h++)
    peak += pw_tariff_hour_price(&t, h) > 0.3;
  assert_int_equal(peak, 86 * 5);
  double price[12];
  pw_tariff_month_mean(&t, price);
  pw_assert_near(price[0], 0.20, 1e-12, "January", "off peak");
  pw_assert_near(price[5], 0.20 + 0.30 * 21 * 5 / 720.0, 1e-12, "June: 21 weekdays", "by hand");
}

/* By hand: with 1 January a Monday the second Sunday of March is the 11th (day 69), the first of
 * November the 4th. In clock time the peak of a summer day begins at 15:00 standard time. */
static void clock_time_moves_by_an_hour_in_summer(void **state)
{
  (void)state;
  pw_tariff t = {.kind = PW_TARIFF_TIME, .n_period = 2, .clock = 1};
  t.period[0] = (pw_period){.price = 0.20};
  t.period[1] = (pw_period){.from_h = 16, .to_h = 21, .price = 0.50};
  size_t july = (181 + 10) * 24, january = 9 * 24, change = 69 * 24;
  pw_assert_near(pw_tariff_hour_price(&t, july + 15), 0.50, 0.0, "15:00 standard",
                 "clock 16:00");
  pw_assert_near(pw_tariff_hour_price(&t, july + 20), 0.20, 0.0, "20:00 standard",
                 "clock 21:00");
  pw_assert_near(pw_tariff_hour_price(&t, january + 15), 0.20, 0.0, "winter", "no shift");
  pw_assert_near(pw_tariff_hour_price(&t, change - 24 + 15), 0.20, 0.0, "10 March", "no shift");
  pw_assert_near(pw_tariff_hour_price(&t, change + 15), 0.50, 0.0, "11 March", "shift");
  pw_assert_near(pw_tariff_hour_price(&t, (304 + 2) * 24 + 15), 0.50, 0.0, "3 November",
                 "shift");
  pw_assert_near(pw_tariff_hour_price(&t, (304 + 3) * 24 + 15), 0.20, 0.0, "4 November",
                 "none");
}

static void tariffs_that_cannot_be_are_refused(void **state)
{
  (void)state;
  pw_err err;
  pw_tariff t = {.flat = -0.01};
  assert_int_equal(pw_tariff_check(&t, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "flat");
  t = three_tiers();
  t.tier[1].upto_kwh = 200.0;
  assert_int_equal(pw_tariff_check(&t, &err), PW_E_DOMAIN);
  assert_non_null(strstr(err.text, "tiers out of order"));
  t = three_tiers();
  t.tier[2].price = NAN;
  assert_int_equal(pw_tariff_check(&t, &err), PW_E_DOMAIN);
  t = three_tiers();
  t.tier[2].upto_kwh = 900.0;
  assert_int_equal(pw_tariff_check(&t, &err), PW_E_DOMAIN);
  t = three_tiers();
  t.base_kwh[2] = -1.0;
  assert_int_equal(pw_tariff_check(&t, &err), PW_E_DOMAIN);
  assert_non_null(strstr(err.text, "in month 3,"));
  t = evening_peak();
  t.period[0].months = 1u; /* January alone: February has no price */
  assert_int_equal(pw_tariff_check(&t, &err), PW_E_DOMAIN);
  assert_non_null(strstr(err.text, "month 2"));
  t = evening_peak();
  t.period[1].to_h = 25.0;
  assert_int_equal(pw_tariff_check(&t, &err), PW_E_DOMAIN);
}

/* ---------------------------------------------------------------- rates and bills */

static pw_house_facts gas_house(void)
{
  pw_house_facts h = {.heating_fuel = PW_FUEL_GAS};
  strcpy(h.state, "CA");
  strcpy(h.heating_kind, "furnace");
  strcpy(h.cooling_kind, "central");
  h.heating_efficiency = (pw_given){.value = 0.80, .origin = PW_ORIGIN_STATED};
  h.cooling_cop = (pw_given){.value = 4.0, .origin = PW_ORIGIN_STATED};
  h.duct_efficiency = (pw_given){.value = 0.75, .origin = PW_ORIGIN_STATED};
  h.price[PW_FUEL_GAS] = (pw_given){.value = 0.07, .origin = PW_ORIGIN_STATED};
  h.price[PW_FUEL_ELECTRICITY] = (pw_given){.value = 0.30, .origin = PW_ORIGIN_STATED};
  return h;
}

static pw_needs even_needs(double heating_year, double cooling_year)
{
  pw_needs n = {0};
  for (int m = 0; m < 12; m++) {
    n.heating_kwh[m] = heating_year / 12.0;
    n.cooling_kwh[m] = cooling_year / 12.0;
  }
  return n;
}

/* By hand: 6000 / (0.80 x 0.75) = 10000 kWh of gas at 0.07 = $700; 3000 / (4 x 0.75) = 1000 kWh of
 * electricity at 0.30 = $300; gas 0.18105 kg/kWh (53.06 kg/MMBtu). */
static void a_bill_by_hand(void **state)
{
  (void)state;
  pw_house_facts h = gas_house();
  pw_rates r;
  pw_bill b;
  pw_needs n = even_needs(6000.0, 3000.0);
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, NULL), PW_OK);
  assert_int_equal(pw_bill_of(&n, &r, &b, NULL), PW_OK);
  pw_assert_near(b.use_kwh[PW_FUEL_GAS], 10000.0, 1e-9, "gas", "by hand");
  pw_assert_near(b.use_kwh[PW_FUEL_ELECTRICITY], 1000.0, 1e-9, "electricity", "by hand");
  pw_assert_near(b.cost_year, 1000.0, 1e-9, "cost", "by hand");
  pw_assert_near(b.cost_month[3], 1000.0 / 12.0, 1e-9, "April", "by hand");
  pw_assert_near(b.co2_kg, 10000.0 * 53.06 / 293.07107 + 1000.0 * 0.4690, 0.1, "CO2",
                 "money.csv: gas, eGRID CAMX non-baseload");
  assert_int_equal(b.notes, 0);
}

/* By hand: the bill above with gas at a flat 0.12 (10000 kWh: $1200; the price of the facts is not asked), and after a job
 * that saves 1200 kWh of heat and 600 kWh of cold over the year: 2000 kWh of gas, 200 kWh of electricity, $240 and $60. */
static void a_flat_tariff_and_what_is_saved_by_hand(void **state)
{
  (void)state;
  pw_house_facts h = gas_house();
  const pw_tariff flat = {.kind = PW_TARIFF_FLAT, .flat = 0.12};
  const pw_tariff *by_fuel[PW_FUEL_COUNT] = {[PW_FUEL_GAS] = &flat};
  pw_rates r;
  pw_bill before, after;
  pw_saving s;
  const pw_needs then = even_needs(6000.0, 3000.0), now = even_needs(4800.0, 2400.0);
  assert_int_equal(pw_rates_of_house(&h, by_fuel, &r, NULL), PW_OK);
  assert_int_equal(pw_bill_of(&then, &r, &before, NULL), PW_OK);
  assert_int_equal(pw_bill_of(&now, &r, &after, NULL), PW_OK);
  pw_assert_near(before.heating_cost, 1200.0, 1e-9, "gas, flat", "by hand");
  pw_assert_near(before.cooling_cost, 300.0, 1e-9, "electricity, price", "by hand");
  assert_int_equal(pw_saving_of(&then, &before, &now, &after, 0.0, &s, NULL), PW_OK);
  pw_assert_near(s.need_kwh, 1200.0 + 600.0, 1e-9, "heat and cold", "by hand");
  pw_assert_near(s.fuel_kwh, 2000.0 + 200.0, 1e-9, "both fuels", "by hand");
  pw_assert_near(s.cost_year, 240.0 + 60.0, 1e-9, "cost", "by hand");
  pw_assert_near(s.co2_kg, before.co2_kg - after.co2_kg, 1e-9, "CO2", "definition");
  assert_true(s.co2_kg > 300.0 && isnan(s.bill_ratio) && s.notes == before.notes);
  /* A bill of $1500 is the one computed; of $1250 a sixth less: by hand 300 x 5 / 6. */
  assert_int_equal(pw_saving_of(&then, &before, &now, &after, 1500.0, &s, NULL), PW_OK);
  pw_assert_near(s.cost_year, 300.0, 1e-9, "as the bill", "by hand");
  assert_int_equal(s.notes & (PW_BILL_SCALED | PW_BILL_FAR_FROM_GIVEN), 0);
  assert_int_equal(pw_saving_of(&then, &before, &now, &after, 1250.0, &s, NULL), PW_OK);
  pw_assert_near(s.cost_year, 250.0, 1e-9, "a smaller bill", "by hand");
  assert_int_equal(s.notes & (PW_BILL_SCALED | PW_BILL_FAR_FROM_GIVEN), PW_BILL_SCALED);
  assert_int_equal(pw_saving_of(&then, &before, &now, &after, 1000.0, &s, NULL), PW_OK);
  assert_int_equal(s.notes & PW_BILL_FAR_FROM_GIVEN, PW_BILL_FAR_FROM_GIVEN); /* 1.5 times */
  assert_int_equal(pw_saving_of(&then, &before, &now, &after, 2100.0, &s, NULL), PW_OK);
  assert_int_equal(s.notes & (PW_BILL_SCALED | PW_BILL_FAR_FROM_GIVEN), PW_BILL_FAR_FROM_GIVEN);
}

/* The calendar: 31 days of January are 744 hours; the last hour of the year is December's, and there is no thirteenth month. */
static void every_hour_has_its_month(void **state)
{
  (void)state;
  static const int days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  size_t h = 0;
  for (int m = 0; m < 12; m++)
    for (int i = 0; i < 24 * days[m]; i++)
      assert_int_equal(pw_year_month(h++), m);
  assert_int_equal(h, 8760);
  assert_int_equal(pw_year_month(8760), 11); /* a leap year's last day counts with December */
  pw_tariff t = {.kind = PW_TARIFF_TIME, .n_period = 2, .clock = 1};
  t.period[0] = (pw_period){.price = 0.20};
  t.period[1] = (pw_period){.months = 1u << 11, .price = 0.50};
  pw_assert_near(pw_tariff_hour_price(&t, 334 * 24 - 1), 0.20, 0.0, "30 November, 23 h",
                 "calendar");
  pw_assert_near(pw_tariff_hour_price(&t, 334 * 24), 0.50, 0.0, "1 December, 0 h", "calendar");
  pw_assert_near(pw_tariff_hour_price(&t, 8759), 0.50, 0.0, "31 December, 23 h", "calendar");
  pw_assert_near(pw_tariff_hour_price(&t, 8760), 0.20, 0.0, "and round again", "calendar");
  double price[12];
  pw_tariff_month_mean(&t, price);
  for (int m = 0; m < 12; m++)
    pw_assert_near(price[m], m == 11 ? 0.50 : 0.20, 1e-12, "mean of a month", "by hand");
}

static void a_house_that_says_nothing_gets_flagged_defaults(void **state)
{
  (void)state;
  pw_house_facts h = {.heating_fuel = PW_FUEL_GAS};
  pw_rates r;
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, NULL), PW_OK);
  assert_int_equal(r.notes, PW_BILL_STATE_AVERAGE | PW_BILL_NATIONAL | PW_BILL_EFFICIENCY);
  assert_int_equal(r.price[PW_FUEL_GAS].origin, PW_ORIGIN_TABLE);
  assert_int_equal(r.price_year[PW_FUEL_GAS], 2023);
  assert_int_equal(r.price_year[PW_FUEL_ELECTRICITY], 2023);
  assert_string_equal(r.price_region[PW_FUEL_GAS], "US");
  assert_int_equal(r.heating_efficiency.origin, PW_ORIGIN_ASSUMED);
  pw_assert_near(r.heating_efficiency.value, 0.80, 1e-12, "furnace", "money.csv");
  pw_assert_near(r.heating_duct.value, 0.80, 1e-12, "ducts", "money.csv");
  h.heating_fuel = PW_FUEL_OIL;
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, NULL), PW_OK);
  assert_true(r.notes & PW_BILL_PRICE_MEMORY);
  strcpy(h.heating_kind, "boiler");
  strcpy(h.cooling_kind, "none");
  strcpy(h.state, "az");
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, NULL), PW_OK);
  pw_assert_near(r.heating_duct.value, 1.0, 0.0, "a boiler has no ducts", "definition");
  assert_string_equal(r.grid_region, "eGRID AZNM");
  pw_needs n = even_needs(0.0, 5000.0);
  pw_bill b;
  assert_int_equal(pw_bill_of(&n, &r, &b, NULL), PW_OK);
  pw_assert_near(b.cost_year, 0.0, 0.0, "no cooling plant, no cost", "definition");
  assert_true(b.notes & PW_BILL_NO_COOLING);
}

/* Every state has three prices, each within a factor of the national one that no fuel leaves. */
static void every_state_has_prices(void **state)
{
  (void)state;
  static const char *const code[] = {
      "AL", "AK", "AZ", "AR", "CA", "CO", "CT", "DE", "DC", "FL", "GA", "HI", "ID",
      "IL", "IN", "IA", "KS", "KY", "LA", "ME", "MD", "MA", "MI", "MN", "MS", "MO",
      "MT", "NE", "NV", "NH", "NJ", "NM", "NY", "NC", "ND", "OH", "OK", "OR", "PA",
      "RI", "SC", "SD", "TN", "TX", "UT", "VT", "VA", "WA", "WV", "WI", "WY"};
  for (size_t i = 0; i < sizeof code / sizeof code[0]; i++) {
    pw_house_facts h = {.heating_fuel = PW_FUEL_GAS};
    strcpy(h.state, code[i]);
    pw_rates r;
    pw_err err;
    if (pw_rates_of_house(&h, NULL, &r, &err) != PW_OK) fail_msg("%s: %s", code[i], err.text);
    assert_false(r.notes & PW_BILL_NATIONAL);
    assert_true(r.price[PW_FUEL_ELECTRICITY].value > 0.08 &&
                r.price[PW_FUEL_ELECTRICITY].value < 0.5);
    assert_true(r.price[PW_FUEL_GAS].value > 0.02 && r.price[PW_FUEL_GAS].value < 0.25);
    assert_string_not_equal(r.grid_region, "eGRID US");
  }
}

static void bad_houses_are_refused(void **state)
{
  (void)state;
  pw_rates r;
  pw_err err;
  pw_house_facts h = gas_house();
  h.price[PW_FUEL_GAS].value = -0.07;
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "price");
  h = gas_house();
  strcpy(h.state, "ZZ");
  h.price[PW_FUEL_GAS].value = 0.0;
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "state");
  h = gas_house();
  h.heating_efficiency.value = 0.05;
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, &err), PW_E_DOMAIN);
  h = gas_house();
  strcpy(h.heating_kind, "stove");
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "heating_kind");
  h = gas_house();
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, NULL), PW_OK);
  pw_needs n = even_needs(100.0, 100.0);
  n.cooling_kwh[4] = -1.0;
  pw_bill b;
  assert_int_equal(pw_bill_of(&n, &r, &b, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "cooling_kwh");
}

/* Two ways: hours of need at one price a period, summed by hand, against the bill. */
static void a_time_tariff_meets_the_hours(void **state)
{
  (void)state;
  pw_house_facts h = gas_house();
  pw_tariff t = evening_peak();
  const pw_tariff *by_fuel[PW_FUEL_COUNT] = {[PW_FUEL_ELECTRICITY] = &t};
  pw_rates r;
  assert_int_equal(pw_rates_of_house(&h, by_fuel, &r, NULL), PW_OK);
  double *hour = calloc(8760, sizeof *hour);
  pw_needs n = even_needs(0.0, 0.0);
  double want = 0.0;
  for (size_t i = 0; i < 8760; i++) {
    hour[i] = i % 24 == 17 ? 3.0 : i % 24 == 3 ? 1.5 : 0.0;
    n.cooling_kwh[pw_year_month(i)] += hour[i];
    want += hour[i] / 3.0 * pw_tariff_hour_price(&t, i); /* 4 x 0.75 */
  }
  pw_bill even, b;
  assert_int_equal(pw_bill_of(&n, &r, &even, NULL), PW_OK);
  assert_true(even.notes & PW_BILL_FLAT_HOURS);
  n.cooling_hour_kwh = hour;
  assert_int_equal(pw_bill_of(&n, &r, &b, NULL), PW_OK);
  pw_assert_near(b.cost_year, want, 1e-9, "cost", "summed by hand");
  assert_true(b.cost_year > even.cost_year);
  assert_false(b.notes & PW_BILL_FLAT_HOURS);
  pw_err err;
  n.cooling_kwh[7] *= 1.1;
  assert_int_equal(pw_bill_of(&n, &r, &b, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "hour_kwh");
  free(hour);
}

/* Heating and cooling on one tiered meter: shares add up to the charge of both. */
static void one_meter_shares_its_tiers(void **state)
{
  (void)state;
  pw_house_facts h = gas_house();
  h.heating_fuel = PW_FUEL_ELECTRICITY;
  strcpy(h.heating_kind, "heat_pump");
  h.heating_efficiency.value = 3.0;
  pw_tariff t = three_tiers();
  for (int m = 0; m < 12; m++)
    t.base_kwh[m] = 280.0;
  const pw_tariff *by_fuel[PW_FUEL_COUNT] = {[PW_FUEL_ELECTRICITY] = &t};
  pw_rates r;
  pw_bill b;
  pw_needs n = even_needs(12 * 675.0, 12 * 150.0); /* 300 and 50 kWh a month */
  assert_int_equal(pw_rates_of_house(&h, by_fuel, &r, NULL), PW_OK);
  assert_int_equal(pw_bill_of(&n, &r, &b, NULL), PW_OK);
  /* 350 on 280: 20 at 0.10, 200 at 0.20, 130 at 0.40 = 94 */
  pw_assert_near(b.cost_year, 12 * 94.0, 1e-9, "both", "by hand");
  pw_assert_near(b.cooling_cost, 12 * 94.0 / 7.0, 1e-9, "cooling's seventh", "by hand");
  n = even_needs(0.0, 0.0);
  assert_int_equal(pw_bill_of(&n, &r, &b, NULL), PW_OK);
  assert_true(b.cost_year == 0.0); /* nothing used, nothing paid */
}

/* Property: whatever the needs and the bill given, no more is claimed than the bill. */
static void a_saving_never_exceeds_the_bill(void **state)
{
  (void)state;
  pw_house_facts h = gas_house();
  pw_rates r;
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, NULL), PW_OK);
  unsigned seed = 1;
  for (int i = 0; i < 500; i++) {
    double v[5];
    for (int k = 0; k < 5; k++)
      v[k] = (double)(seed = seed * 1103515245u + 12345u) / 4294967296.0;
    pw_needs a = even_needs(30000.0 * v[0], 20000.0 * v[1]);
    pw_needs c = even_needs(30000.0 * v[0] * v[2], 20000.0 * v[1] * v[3]);
    pw_bill before, after;
    pw_saving s;
    double given = 2000.0 * v[4] + 1.0;
    assert_int_equal(pw_bill_of(&a, &r, &before, NULL), PW_OK);
    assert_int_equal(pw_bill_of(&c, &r, &after, NULL), PW_OK);
    assert_int_equal(pw_saving_of(&a, &before, &c, &after, given, &s, NULL), PW_OK);
    assert_true(s.cost_year <= given);
    assert_true(s.cost_year <= s.cost_computed);
    assert_int_equal((s.notes & PW_BILL_SCALED) != 0, before.cost_year > given);
    assert_int_equal(pw_saving_of(&a, &before, &c, &after, 0.0, &s, NULL), PW_OK);
    pw_assert_near(s.cost_year, before.cost_year - after.cost_year, 1e-9, "no bill",
                   "difference");
  }
  pw_needs n = even_needs(1.0, 1.0);
  pw_bill b;
  pw_saving s;
  pw_err err;
  assert_int_equal(pw_bill_of(&n, &r, &b, NULL), PW_OK);
  assert_int_equal(pw_saving_of(&n, &b, &n, &b, -5.0, &s, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "bill_year");
}

/* One ratio for every saving of a house: what a package saves over the code's windows is what it saves
 * less what those save, with a bill and without. By the definition of the three. */
static void one_ratio_holds_every_saving(void **state)
{
  (void)state;
  pw_house_facts h = gas_house();
  pw_rates r;
  pw_needs need[3] = {even_needs(30000, 6000), even_needs(24000, 5000),
                      even_needs(21000, 3500)};
  pw_bill bill[3];
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, NULL), PW_OK);
  for (int i = 0; i < 3; i++)
    assert_int_equal(pw_bill_of(&need[i], &r, &bill[i], NULL), PW_OK);
  static const double share[] = {0.0, 0.3, 0.8, 1.0, 1.6};
  for (size_t k = 0; k < sizeof share / sizeof share[0]; k++) {
    double given = share[k] * bill[0].cost_year;
    pw_saving package, code, over;
    assert_int_equal(
        pw_saving_of(&need[0], &bill[0], &need[2], &bill[2], given, &package, NULL), PW_OK);
    assert_int_equal(pw_saving_of(&need[0], &bill[0], &need[1], &bill[1], given, &code, NULL),
                     PW_OK);
    assert_int_equal(pw_saving_of(&need[1], &bill[1], &need[2], &bill[2], 0.0, &over, NULL),
                     PW_OK);
    pw_saving_hold(&package, &over);
    pw_assert_near(over.cost_year, package.cost_year - code.cost_year, 1e-9, "over code",
                   "definition");
    assert_int_equal(over.notes & PW_BILL_SCALED, package.notes & PW_BILL_SCALED);
  }
}

/* No plant, no heat on the bill (definition); ducts count where something blows through them. */
static void a_house_without_plant_pays_for_no_heat(void **state)
{
  (void)state;
  pw_house_facts h = gas_house();
  pw_rates r;
  pw_bill b;
  pw_err err = {0};
  pw_needs n = even_needs(30000, 6000);
  strcpy(h.heating_kind, "none");
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, NULL), PW_OK);
  assert_int_equal(pw_bill_of(&n, &r, &b, NULL), PW_OK);
  assert_true(b.heating_cost == 0.0 && b.heating_fuel_kwh == 0.0 && b.cooling_cost > 0.0);
  assert_true(b.notes & PW_BILL_NO_HEATING);
  strcpy(h.heating_kind, "boiler"); /* duct_efficiency 0.75 is the cooling's */
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, NULL), PW_OK);
  assert_true(r.heating_duct.value == 1.0 && r.cooling_duct.value == 0.75);
  assert_true(!r.heats_by_duct && r.cools_by_duct);
  strcpy(h.cooling_kind, "room");
  assert_int_equal(pw_rates_of_house(&h, NULL, &r, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "duct_efficiency");
}

static void ratings_outside_the_market_are_refused(void **state)
{
  (void)state;
  double v = 7.0;
  pw_err err;
  assert_int_equal(pw_plate_seasonal(PW_PLATE_SEER, 140.0, &v, &err), PW_E_DOMAIN);
  assert_int_equal(pw_plate_seasonal(PW_PLATE_AFUE, NAN, &v, &err), PW_E_DOMAIN);
  pw_assert_near(v, 7.0, 0.0, "untouched", "contract");
  assert_int_equal(pw_plate_seasonal(PW_PLATE_AFUE, 80.0, &v, &err), PW_OK);
  pw_assert_near(v, 0.80, 1e-15, "80 % AFUE", "definition");
  assert_int_equal(pw_plate_find("seer2"), PW_PLATE_SEER2);
  assert_int_equal(pw_plate_find("shoe"), PW_PLATE_COUNT);
  assert_true(isnan(pw_fuel_unit_kwh(PW_FUEL_GAS, "gal")));
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(tiers_are_filled_from_the_base_use_up),
      cmocka_unit_test(peak_hours_are_counted_by_month_day_and_hour),
      cmocka_unit_test(clock_time_moves_by_an_hour_in_summer),
      cmocka_unit_test(tariffs_that_cannot_be_are_refused),
      cmocka_unit_test(a_bill_by_hand),
      cmocka_unit_test(a_flat_tariff_and_what_is_saved_by_hand),
      cmocka_unit_test(every_hour_has_its_month),
      cmocka_unit_test(a_house_that_says_nothing_gets_flagged_defaults),
      cmocka_unit_test(every_state_has_prices),
      cmocka_unit_test(bad_houses_are_refused),
      cmocka_unit_test(a_time_tariff_meets_the_hours),
      cmocka_unit_test(one_meter_shares_its_tiers),
      cmocka_unit_test(a_saving_never_exceeds_the_bill),
      cmocka_unit_test(one_ratio_holds_every_saving),
      cmocka_unit_test(a_house_without_plant_pays_for_no_heat),
      cmocka_unit_test(ratings_outside_the_market_are_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
