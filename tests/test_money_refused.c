/* Money: what is refused and by which name, what stands at each bound, and rules that only odd cases meet. */
#include "support.h"

#include <math.h>
#include <string.h>

#include <stdlib.h>

#include "money/program.h"
#include "money/tariff.h"
#include "money/worth.h"
#include "panewright/bill.h"
#include "panewright/house_facts.h"
#include "panewright/rates.h"
#include "panewright/units.h"

#define N(a) (sizeof(a) / sizeof(a)[0])

/* ---------------------------------------------------------------- worth */

static pw_status ask_worth(const void *invest, pw_err *err)
{
  pw_worth w;
  return pw_worth_of(invest, &w, err);
}

/* Bounds: worth.h. */
static void numbers_of_an_outlay(void **state)
{
  (void)state;
  static const pw_invest i = {.price = 100.0, .saving_year = 10.0};
  static const pw_span field[] = {
      {"price", offsetof(pw_invest, price), "d)", 0.0, INFINITY},
      {"incentive", offsetof(pw_invest, incentive), "d)", 0.0, INFINITY},
      {"horizon", offsetof(pw_invest, horizon), "d", 0.0, 60.0},
      {"life", offsetof(pw_invest, life), "d)", 0.0, INFINITY},
      {"residual", offsetof(pw_invest, residual), "d)", 0.0, INFINITY},
      {"avoided", offsetof(pw_invest, avoided), "d)", 0.0, INFINITY},
      {"saving_year", offsetof(pw_invest, saving_year), "(d)", -INFINITY, INFINITY},
      {"discount", offsetof(pw_invest, discount), "(d", -1.0, 10.0},
      {"escalation", offsetof(pw_invest, escalation), "(d", -1.0, 1.0},
  };
  pw_assert_spans(&i, sizeof i, field, N(field), ask_worth);
}

typedef struct per {
  double per_opening, per_area, n_opening, area;
} per;

static pw_status ask_installed(const void *subject, pw_err *err)
{
  const per *p = subject;
  double v;
  return pw_installed_price(p->per_opening, p->per_area, p->n_opening, p->area, &v, err);
}

static void numbers_of_a_price(void **state)
{
  (void)state;
  static const per p = {1.0, 1.0, 1.0, 1.0};
  static const pw_span field[] = {
      {"price_per_opening", offsetof(per, per_opening), "d)", 0.0, INFINITY},
      {"price_per_area", offsetof(per, per_area), "d)", 0.0, INFINITY},
      {"n_opening", offsetof(per, n_opening), "d)", 0.0, INFINITY},
      {"area", offsetof(per, area), "d)", 0.0, INFINITY},
  };
  pw_assert_spans(&p, sizeof p, field, N(field), ask_installed);
}

/* Cash by hand. -100, 60, 60: x = 1/(1+r) from 60 x^2 + 60 x = 100, x = (-60 + sqrt(27600))/120. -1, 5, -6: worth
 * x = 1/2 and 1/3, so 100 and 200 %. -1, 2, -1: x = 1 twice, which no change of sign tells; 0, 1: none. -100, 1: -99 % is the
 * end of what is searched and is a root itself. */
static void rates_by_hand(void **state)
{
  (void)state;
  pw_irr r;
  pw_err err;
  double v, x = (sqrt(27600.0) - 60.0) / 120.0;
  const double one[] = {-100.0, 60.0, 60.0}, two[] = {-1.0, 5.0, -6.0}, none[] = {0.0, 1.0},
               bad[] = {-1.0, NAN};
  assert_int_equal(pw_internal_rate(one, 3, &r, &err), PW_OK);
  assert_int_equal(r.kind, PW_IRR_ONE);
  pw_assert_near(r.rate, 1.0 / x - 1.0, 1e-11, "one rate", "by hand");
  assert_int_equal(pw_net_present_worth(r.rate, one, 3, &v, &err), PW_OK);
  pw_assert_near(v, 0.0, 1e-9, "its worth", "definition");
  assert_int_equal(pw_internal_rate(two, 3, &r, &err), PW_OK);
  assert_int_equal(r.kind, PW_IRR_SEVERAL);
  assert_int_equal(r.roots, 2);
  pw_assert_near(r.rate, 1.0, 1e-11, "the rate nearest to 0", "by hand");
  assert_int_equal(pw_internal_rate(none, 2, &r, &err), PW_OK);
  assert_int_equal(r.kind, PW_IRR_NONE);
  assert_true(isnan(r.rate));
  assert_int_equal(pw_internal_rate(one, 1, &r, &err), PW_E_SHAPE);
  assert_int_equal(pw_internal_rate(bad, 2, &r, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "cash");
  assert_int_equal(pw_net_present_worth(0.1, one, 0, &v, &err), PW_E_SHAPE);
  assert_int_equal(pw_net_present_worth(NAN, one, 3, &v, &err), PW_E_DOMAIN);
  assert_int_equal(pw_net_present_worth(INFINITY, one, 3, &v, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "discount");
}

/* $100 for -100, 230, -132 over the years: x = 1/(1+r) of 100 - 230 x + 132 x^2 is (230 -+ sqrt(52900 - 52800))/264, r = 10 and 20 %.
 * As an invest: 100 outlay, life 2, no such cash; a saving that turns does not arise. What an invest may have is an
 * avoided replacement after losses: -10 a year, 1000 spared in year 2, then -10: two changes of sign. */
static void several_rates_are_said(void **state)
{
  (void)state;
  const double cash[] = {-100.0, 230.0, -132.0};
  pw_irr r;
  assert_int_equal(pw_internal_rate(cash, 3, &r, NULL), PW_OK);
  pw_assert_near(r.rate, 0.10, 1e-9, "nearest to 0", "by hand");
  assert_int_equal(r.roots, 2);
  pw_invest i = {.price = 100.0, .saving_year = -10.0, .residual = 1.0, .avoided = 300.0};
  pw_worth w;
  i.horizon = 25.0;
  i.life = 25.0;
  assert_int_equal(pw_worth_of(&i, &w, NULL), PW_OK);
  assert_int_equal(w.internal_rate.kind, PW_IRR_SEVERAL);
  assert_true(w.notes & PW_WORTH_SEVERAL_RATES);
  double at = 0.0;
  assert_int_equal(pw_net_present_worth(w.internal_rate.rate, w.cash, w.n_year + 1, &at, NULL),
                   PW_OK);
  pw_assert_near(at, 0.0, 1e-7, "worth at the rate told", "definition");
  i.without_rate = 1;
  assert_int_equal(pw_worth_of(&i, &w, NULL), PW_OK);
  assert_false(w.notes & PW_WORTH_SEVERAL_RATES);
}

/* Lives of reference/trade/money.csv: aluminium and steel share a row, with a thermal break or without. */
static void kinds_of_frame_have_their_lives(void **state)
{
  (void)state;
  double aluminium = pw_window_life(PW_FRAME_ALUMINIUM).value;
  assert_true(aluminium > 0.0);
  pw_assert_near(pw_window_life(PW_FRAME_ALUMINIUM_BREAK).value, aluminium, 0.0, "break",
                 "row");
  pw_assert_near(pw_window_life(PW_FRAME_STEEL).value, aluminium, 0.0, "steel", "row");
  assert_true(pw_window_life(PW_FRAME_WOOD).value > 0.0);
  assert_true(pw_window_life(PW_FRAME_VINYL).value > 0.0);
  pw_assert_near(pw_residual_life(PW_FRAME_STEEL, 2030, 2026).value, 0.5 * aluminium, 0.0,
                 "built after today", "worth.h");
  pw_assert_near(pw_residual_life(PW_FRAME_STEEL, 1800, 2026).value, 0.0, 0.0, "over",
                 "worth.h");
}

/* ---------------------------------------------------------------- tariffs */

static pw_status ask_tariff(const void *tariff, pw_err *err)
{
  return pw_tariff_check(tariff, err);
}

static void numbers_of_a_tariff(void **state)
{
  (void)state;
  static const pw_span flat[] = {{"flat", offsetof(pw_tariff, flat), "d)", 0.0, INFINITY}};
  static const pw_span tiers[] = {
      {"tier", offsetof(pw_tariff, tier[0].price), "d)", 0.0, INFINITY},
      {"tier", offsetof(pw_tariff, tier[0].upto_kwh), "(d)", 0.0, INFINITY},
      {"base_kwh", offsetof(pw_tariff, base_kwh[11]), "d)", 0.0, INFINITY}};
  static const pw_span time[] = {
      {"period", offsetof(pw_tariff, period[1].price), "d)", 0.0, INFINITY},
      {"period", offsetof(pw_tariff, period[1].from_h), "d", 0.0, 24.0},
      {"period", offsetof(pw_tariff, period[1].to_h), "d", 0.0, 24.0}};
  pw_tariff t = {.flat = 0.1};
  pw_assert_spans(&t, sizeof t, flat, N(flat), ask_tariff);
  t = (pw_tariff){.kind = PW_TARIFF_TIERED, .n_tier = 2};
  t.tier[0] = (pw_tier){100.0, 0.1};
  t.tier[1] = (pw_tier){INFINITY, 0.2};
  pw_assert_spans(&t, sizeof t, tiers, N(tiers), ask_tariff);
  t = (pw_tariff){.kind = PW_TARIFF_TIME, .n_period = 2};
  t.period[1] = (pw_period){.from_h = 8.0, .to_h = 20.0, .price = 0.3};
  pw_assert_spans(&t, sizeof t, time, N(time), ask_tariff);
}

static void refuse_tariff(pw_tariff t, pw_status want, const char *field)
{
  pw_err err = {0};
  assert_int_equal(pw_tariff_check(&t, &err), want);
  assert_string_equal(err.field, field);
}

static void counts_of_a_tariff(void **state)
{
  (void)state;
  refuse_tariff((pw_tariff){.first_weekday = 7}, PW_E_DOMAIN, "first_weekday");
  refuse_tariff((pw_tariff){.first_weekday = -1}, PW_E_DOMAIN, "first_weekday");
  refuse_tariff((pw_tariff){.kind = (pw_tariff_kind)9}, PW_E_DOMAIN, "kind");
  refuse_tariff((pw_tariff){.kind = PW_TARIFF_TIERED}, PW_E_SHAPE, "tier");
  refuse_tariff((pw_tariff){.kind = PW_TARIFF_TIERED, .n_tier = PW_TIERS_MAX + 1}, PW_E_SHAPE,
                "tier");
  refuse_tariff((pw_tariff){.kind = PW_TARIFF_TIME}, PW_E_SHAPE, "period");
  refuse_tariff((pw_tariff){.kind = PW_TARIFF_TIME, .n_period = PW_PERIODS_MAX + 1}, PW_E_SHAPE,
                "period");
}

/* A year that begins on a Monday: 5 January is a Friday, 6 a Saturday, 8 a Monday. Night from 22 to 6 runs over midnight. */
static void nights_and_weekends(void **state)
{
  (void)state;
  pw_tariff t = {.kind = PW_TARIFF_TIME, .n_period = 3};
  t.period[0] = (pw_period){.price = 0.2};
  t.period[1] = (pw_period){.from_h = 22.0, .to_h = 6.0, .price = 0.1};
  t.period[2] =
      (pw_period){.days = PW_DAYS_WEEKEND, .from_h = 12.0, .to_h = 12.0, .price = 0.05};
  static const struct {
    size_t day, hour;
    double price;
  } row[] = {{0, 5, 0.1},  {0, 6, 0.2},   {0, 21, 0.2}, {0, 22, 0.1}, {0, 0, 0.1},
             {4, 23, 0.1}, {5, 12, 0.05}, {6, 3, 0.05}, {7, 12, 0.2}};
  assert_int_equal(pw_tariff_check(&t, NULL), PW_OK);
  for (size_t i = 0; i < N(row); i++)
    pw_assert_near(pw_tariff_hour_price(&t, row[i].day * 24 + row[i].hour), row[i].price, 0.0,
                   "price", "calendar by hand");
  const pw_tariff flat = {.flat = 0.3},
                  tiers = {.kind = PW_TARIFF_TIERED, .n_tier = 1, .tier = {{INFINITY, 0.4}}};
  pw_assert_near(pw_tariff_hour_price(&flat, 100), 0.3, 0.0, "flat", "tariff.h");
  pw_assert_near(pw_tariff_hour_price(&tiers, 100), 0.4, 0.0, "first tier", "tariff.h");
}

/* ---------------------------------------------------------------- rates of a house */

static pw_status ask_rates(const void *house, pw_err *err)
{
  pw_rates r;
  return pw_rates_of_house(house, NULL, &r, err);
}

static pw_house_facts a_house(void)
{
  pw_house_facts h;
  pw_house_init(&h);
  strcpy(h.state, "CA");
  h.heating_fuel = PW_FUEL_GAS;
  return h;
}

/* Given values only: what is not given (NaN, or no origin and line) takes the table's. Bounds: rates.h. */
static void numbers_of_a_house(void **state)
{
  (void)state;
  static const struct {
    const char *field;
    size_t offset;
    double low, high;
  } row[] = {
      {"heating_efficiency", offsetof(pw_house_facts, heating_efficiency), 0.3, 12.0},
      {"cooling_cop", offsetof(pw_house_facts, cooling_cop), 0.3, 12.0},
      {"duct_efficiency", offsetof(pw_house_facts, duct_efficiency), 0.3, 1.0},
      {"price", offsetof(pw_house_facts, price[PW_FUEL_OIL]), 0.0, 1e6},
  };
  for (size_t i = 0; i < N(row); i++) {
    const double value[] = {row[i].low, row[i].high, nextafter(row[i].low, -1.0), INFINITY,
                            nextafter(row[i].high, 1e9)};
    for (size_t k = 0; k < N(value); k++) {
      pw_house_facts h = a_house();
      pw_given given = {.value = value[k], .origin = PW_ORIGIN_STATED, .line = 3};
      pw_err err = {0};
      memcpy((char *)&h + row[i].offset, &given, sizeof given);
      int money = row[i].high == 1e6, takes = k < 2 || (money && k == 4);
      if (k == 3 && !money) continue; /* says no number: pw_given_is */
      assert_int_equal(ask_rates(&h, &err), takes ? PW_OK : PW_E_DOMAIN);
      if (!takes) assert_string_equal(err.field, row[i].field);
    }
  }
}

static void words_of_a_house(void **state)
{
  (void)state;
  pw_err err = {0};
  double v;
  pw_given price;
  int year;
  const char *region;
  unsigned notes = 0;
  pw_house_facts h = a_house();
  strcpy(h.cooling_kind, "fan");
  assert_int_equal(ask_rates(&h, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "cooling_kind");
  for (int bad = -1; bad <= PW_FUEL_COUNT; bad += PW_FUEL_COUNT + 1) {
    h = a_house();
    h.heating_fuel = (pw_fuel)bad;
    assert_int_equal(ask_rates(&h, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "heating_fuel");
    assert_string_equal(pw_fuel_name((pw_fuel)bad), "");
    assert_int_equal(pw_state_price((pw_fuel)bad, "CA", &price, &year, &region, &notes, &err),
                     PW_E_DOMAIN);
    assert_string_equal(err.field, "fuel");
  }
  for (int bad = -1; bad <= PW_PLATE_COUNT; bad += PW_PLATE_COUNT + 1) {
    assert_int_equal(pw_plate_seasonal((pw_plate)bad, 1.0, &v, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "rating");
  }
  for (int bad = -1; bad <= 9; bad += 10) {
    assert_string_equal(pw_metric_name((pw_metric)bad), "");
    assert_string_equal(pw_op_sign((pw_op)bad), "");
  }
  assert_string_equal(pw_fuel_name(PW_FUEL_GAS), "gas");
  assert_string_equal(pw_op_sign(PW_OP_GE), ">=");
  assert_int_equal(pw_metric_unit(PW_METRIC_SHGC, "furlong", &v, &v, &err), PW_E_DOMAIN);
  assert_non_null(strstr(err.text, "want -"));
  assert_int_equal(pw_metric_unit(PW_METRIC_AIR_LEAKAGE, "-", &v, &v, &err), PW_E_DOMAIN);
  assert_non_null(strstr(err.text, "want cfm/ft2"));
}

/* A duct efficiency said where nothing blows through ducts; without words for the plant the refusal says so. */
static void ducts_that_are_not_there(void **state)
{
  (void)state;
  pw_err err = {0};
  pw_house_facts h = a_house();
  strcpy(h.heating_kind, "boiler");
  strcpy(h.cooling_kind, "none");
  h.duct_efficiency = (pw_given){.value = 0.8, .origin = PW_ORIGIN_STATED, .line = 2};
  assert_int_equal(ask_rates(&h, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "duct_efficiency");
  h.duct_efficiency.value = 1.0; /* no ducts lose nothing */
  assert_int_equal(ask_rates(&h, &err), PW_OK);
}

/* A tariff of a fuel that is bad makes the whole house refused, whichever fuel it is of. */
static void a_bad_tariff_refuses_the_house(void **state)
{
  (void)state;
  const pw_tariff bad = {.flat = -1.0};
  for (int f = 0; f < PW_FUEL_COUNT; f++) {
    const pw_tariff *tariff[PW_FUEL_COUNT] = {NULL};
    pw_house_facts h = a_house();
    pw_rates r;
    pw_err err = {0};
    tariff[f] = &bad;
    assert_int_equal(pw_rates_of_house(&h, tariff, &r, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "flat");
  }
}

/* ---------------------------------------------------------------- bills */

static pw_rates plain_rates(void)
{
  pw_rates r = {.heating_fuel = PW_FUEL_GAS, .heats = 1, .cools = 1};
  r.heating_efficiency.value = r.heating_duct.value = r.cooling_cop.value =
      r.cooling_duct.value = 1.0;
  r.price[PW_FUEL_GAS].value = 0.05;
  r.price[PW_FUEL_ELECTRICITY].value = 0.2;
  return r;
}

static pw_status ask_bill(const void *needs, pw_err *err)
{
  pw_rates r = plain_rates();
  pw_bill b;
  return pw_bill_of(needs, &r, &b, err);
}

static void numbers_of_needs(void **state)
{
  (void)state;
  static const pw_span field[] = {
      {"heating_kwh", offsetof(pw_needs, heating_kwh[0]), "d)", 0.0, INFINITY},
      {"cooling_kwh", offsetof(pw_needs, cooling_kwh[11]), "d)", 0.0, INFINITY}};
  const pw_needs n = {0};
  pw_assert_spans(&n, sizeof n, field, N(field), ask_bill);
}

/* Hours that are none; hours that do not add up to their month; a month without need takes the plain mean of its prices. */
static void hours_of_needs(void **state)
{
  (void)state;
  pw_tariff t = {.kind = PW_TARIFF_TIME, .n_period = 2};
  t.period[0] = (pw_period){.price = 0.1};
  t.period[1] = (pw_period){.from_h = 0.0, .to_h = 12.0, .price = 0.3};
  pw_rates r = plain_rates();
  r.tariff[PW_FUEL_ELECTRICITY] = &t;
  double *hour = calloc(PW_YEAR_HOURS, sizeof *hour);
  assert_non_null(hour);
  pw_needs n = {.cooling_hour_kwh = hour};
  pw_bill b;
  pw_err err = {0};
  n.cooling_kwh[0] = 10.0;
  hour[6] = 10.0; /* in the morning of 1 January */
  assert_int_equal(pw_bill_of(&n, &r, &b, &err), PW_OK);
  pw_assert_near(b.cost_year, 3.0, 1e-12, "10 kWh at 0.3", "by hand");
  hour[18] = 10.0;
  n.cooling_kwh[0] = 20.0;
  assert_int_equal(pw_bill_of(&n, &r, &b, &err), PW_OK);
  pw_assert_near(b.cost_year, 4.0, 1e-12, "10 kWh at 0.3 and 10 at 0.1", "by hand");
  const double bad[] = {-1.0, NAN, INFINITY};
  for (size_t i = 0; i < N(bad); i++) {
    hour[18] = bad[i];
    assert_int_equal(pw_bill_of(&n, &r, &b, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "hour_kwh");
  }
  hour[18] = 10.3; /* 1.5 % more than the month */
  assert_int_equal(pw_bill_of(&n, &r, &b, &err), PW_E_DOMAIN);
  free(hour);
}

/* Tiers where both uses share the meter: 100 + 300 kWh, 200 at 0.1 and 200 at 0.3 = $80, shared by use 20 : 60. */
static void one_meter_with_tiers(void **state)
{
  (void)state;
  pw_tariff t = {.kind = PW_TARIFF_TIERED, .n_tier = 2};
  t.tier[0] = (pw_tier){200.0, 0.1};
  t.tier[1] = (pw_tier){INFINITY, 0.3};
  pw_rates r = plain_rates();
  r.heating_fuel = PW_FUEL_ELECTRICITY;
  r.tariff[PW_FUEL_ELECTRICITY] = &t;
  pw_needs n = {0};
  pw_bill b;
  n.heating_kwh[3] = 100.0;
  n.cooling_kwh[3] = 300.0;
  assert_int_equal(pw_bill_of(&n, &r, &b, NULL), PW_OK);
  pw_assert_near(b.heating_cost, 20.0, 1e-12, "heating", "by hand");
  pw_assert_near(b.cooling_cost, 60.0, 1e-12, "cooling", "by hand");
  r.heating_fuel = PW_FUEL_GAS; /* apart: 200 at 0.1 and 100 at 0.3 = $50; gas 100 at 0.05 */
  assert_int_equal(pw_bill_of(&n, &r, &b, NULL), PW_OK);
  pw_assert_near(b.heating_cost, 5.0, 1e-12, "heating by gas", "by hand");
  pw_assert_near(b.cooling_cost, 50.0, 1e-12, "cooling alone", "by hand");
  pw_saving s;
  pw_err err = {0};
  const double bad[] = {-1.0, NAN, INFINITY};
  for (size_t i = 0; i < N(bad); i++) {
    assert_int_equal(pw_saving_of(&n, &b, &n, &b, bad[i], &s, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "bill_year");
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(numbers_of_an_outlay),
      cmocka_unit_test(numbers_of_a_price),
      cmocka_unit_test(rates_by_hand),
      cmocka_unit_test(several_rates_are_said),
      cmocka_unit_test(kinds_of_frame_have_their_lives),
      cmocka_unit_test(numbers_of_a_tariff),
      cmocka_unit_test(counts_of_a_tariff),
      cmocka_unit_test(nights_and_weekends),
      cmocka_unit_test(numbers_of_a_house),
      cmocka_unit_test(words_of_a_house),
      cmocka_unit_test(ducts_that_are_not_there),
      cmocka_unit_test(a_bad_tariff_refuses_the_house),
      cmocka_unit_test(numbers_of_needs),
      cmocka_unit_test(hours_of_needs),
      cmocka_unit_test(one_meter_with_tiers),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
