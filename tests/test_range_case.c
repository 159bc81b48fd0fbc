/* A draw of the range beside the comparison itself: at its middle it is the comparison, and one input moved moves what a hand sum
 * says. By the quick year. */
#include "example_fixture.h"
#include "range_one.h"

#include "house/infiltration.h"
#include "money/tariff.h"
#include "study/range_bills_impl.h"

/* Every input where the comparison has it: in the mode of its spread, factors at 1. */
static void middle(const range_case *rc, double v[IN_COUNT])
{
  for (size_t i = 0; i < IN_COUNT; i++)
    v[i] = rc->input[i].spread.mode;
  for (size_t i = IN_WEATHER_HEAT; i <= IN_COOL_COP; i++)
    v[i] = 1.0;
}

/* The sets as a range counts them: existing, packages, the code's. */
static pw_compare_set set_at(const pw_compare *c, size_t s)
{
  return pw_compare_set_of(c, s <= c->n_package ? (int)s - 1 : PW_SET_MINIMUM);
}

static void open_case(const fixture *f, range_case *rc, double year[])
{
  pw_err err = {0};
  if (range_case_of(&f->whole, f->open.weather, PW_YEAR_QUICK, 0, rc, &err) != PW_OK)
    fail_msg("%s", err.text);
  assert_int_equal(rc->n_set, f->whole.n_package + 2);
  for (size_t s = 0; s < rc->n_set; s++)
    for (size_t m = 0; m < 12; m++) {
      year[s * RANGE_MONTHS + m] = set_at(&f->whole, s).lived->needs.heating_kwh[m];
      year[s * RANGE_MONTHS + 12 + m] = set_at(&f->whole, s).lived->needs.cooling_kwh[m];
    }
}

static void figures(const range_case *rc, const double v[], const double year[], double f[])
{
  pw_err err = {0};
  if (range_figures_at(rc, v, year, f, NULL, &err) != PW_OK) fail_msg("%s", err.text);
}

/* The bills of the draw are those of the comparison; a saving is what they differ by, over the code's windows too; the payback the
 * price less what others pay over it. */
static void in_the_middle_a_draw_is_the_comparison(void **state)
{
  const fixture *f = *state;
  const pw_compare *c = &f->whole;
  double v[IN_COUNT], year[RANGE_SETS * RANGE_MONTHS], got[RANGE_SETS * F_COUNT];
  range_case rc;
  open_case(f, &rc, year);
  middle(&rc, v);
  figures(&rc, v, year, got);
  for (size_t s = 0; s + 1 < rc.n_set; s++) {
    const pw_compare_set set = set_at(c, s);
    const double *at = got + s * F_COUNT;
    pw_assert_near(at[F_U], set.rated->u, 1e-9, set.rated->name, "U of the comparison");
    pw_assert_near(at[F_SHGC], set.rated->shgc, 1e-9, set.rated->name,
                   "SHGC of the comparison");
    pw_assert_near(at[F_COST], set.billed->bill.cost_year, 1e-6, set.rated->name,
                   "bill of the comparison");
    if (s == 0) continue;
    double saved = c->billed.existing_set.bill.cost_year - set.billed->bill.cost_year;
    pw_assert_near(at[F_SAVING], saved, 1e-6, set.rated->name, "difference of the bills");
    pw_assert_near(at[F_MINIMUM],
                   c->billed.minimum_set.bill.cost_year - set.billed->bill.cost_year, 1e-6,
                   set.rated->name, "difference to the code's windows");
    pw_assert_near(at[F_NEED], set.billed->saving.need_kwh, 1e-6, set.rated->name, "need");
    pw_assert_near(at[F_FUEL], set.billed->saving.fuel_kwh, 1e-6, set.rated->name,
                   "energy bought");
    pw_assert_near(at[F_NORMAL_FUEL], at[F_FUEL], 1e-6, set.rated->name, "normal weather");
    assert_true(set.billed->price > 0.0);
    pw_assert_near(at[F_PAYBACK], (set.billed->price - set.billed->invest.incentive) / saved,
                   1e-6, set.rated->name, "price over saving");
  }
}

/* Dearer current, a worse furnace, a house that wants more heat: the hand sum of what each does to the bill of the windows there,
 * gas and current apart. */
static void one_input_moves_what_it_should(void **state)
{
  const fixture *f = *state;
  const pw_bill *b = &f->whole.billed.existing_set.bill;
  double v[IN_COUNT], year[RANGE_SETS * RANGE_MONTHS], got[RANGE_SETS * F_COUNT];
  range_case rc;
  open_case(f, &rc, year);
  assert_int_not_equal(f->whole.billed.rates.heating_fuel, PW_FUEL_ELECTRICITY);
  const struct {
    int input;
    double value, heat, cool;
  } row[] = {{IN_PRICE_COOL, 1.5, 1.0, 1.5},       {IN_PRICE_HEAT, 1.5, 1.5, 1.0},
             {IN_HEAT_EFFICIENCY, 0.8, 1.25, 1.0}, {IN_COOL_COP, 0.8, 1.0, 1.25},
             {IN_MODEL_HEAT, 1.2, 1.2, 1.0},       {IN_MODEL_COOL, 1.2, 1.0, 1.2},
             {IN_WEATHER_HEAT, 0.9, 0.9, 1.0},     {IN_WEATHER_COOL, 0.9, 1.0, 0.9},
             {IN_NORMALS_HEAT, 1.1, 1.1, 1.0},     {IN_NORMALS_COOL, 1.1, 1.0, 1.1}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    middle(&rc, v);
    v[row[i].input] = row[i].value;
    figures(&rc, v, year, got);
    pw_assert_near(got[F_COST], row[i].heat * b->heating_cost + row[i].cool * b->cooling_cost,
                   1e-6 * b->cost_year, rc.input[row[i].input].name, "by hand");
  }
}

/* Prices by the hour enter by their mean over each set's own cold: what its bill of the comparison cost over what it bought, of the
 * windows there, the packages and the code's. A flat tariff is its price. */
static void prices_by_the_hour_have_the_mean_of_their_set(void **state)
{
  const fixture *f = *state;
  pw_tariff peak = {.kind = PW_TARIFF_TIME, .n_period = 2};
  peak.period[0] = (pw_period){.price = 0.20};
  peak.period[1] = (pw_period){.months = 0xFu << 5, .from_h = 16, .to_h = 21, .price = 0.60};
  const pw_tariff flat = {.kind = PW_TARIFF_FLAT, .flat = 0.11};
  const pw_tariff *tariff[PW_FUEL_COUNT] = {
      [PW_FUEL_ELECTRICITY] = &peak, [PW_FUEL_GAS] = &flat};
  const pw_compare_options by_hour = {.method = PW_YEAR_SIMPLE, .tariff = tariff};
  pw_compare *c = calloc(1, sizeof *c);
  pw_err err = {0};
  range_case rc;
  assert_non_null(c);
  if (pw_compare_run(&f->open.job, f->open.weather, &by_hour, NULL, c, &err) != PW_OK ||
      range_case_of(c, f->open.weather, PW_YEAR_SIMPLE, 0, &rc, &err) != PW_OK)
    fail_msg("%s", err.text);
  for (size_t s = 0; s < rc.n_set; s++) {
    const pw_bill *b = &set_at(c, s).billed->bill;
    assert_true(isnan(rc.mean_price[s][0])); /* gas has a price of its own */
    pw_assert_near(rc.mean_price[s][1], b->cooling_cost / b->cooling_electricity_kwh, 1e-12,
                   set_at(c, s).rated->name, "mean over its cold");
    assert_true(rc.mean_price[s][1] > 0.21 && rc.mean_price[s][1] < 0.59);
  }
  assert_true(rc.mean_price[0][1] != rc.mean_price[rc.n_set - 1][1]);
  pw_assert_near(rc.rates.price[PW_FUEL_GAS].value, 0.11, 0.0, "gas", "flat");
  assert_null(rc.rates.tariff[PW_FUEL_ELECTRICITY]);
  assert_null(rc.rates.tariff[PW_FUEL_GAS]);
  pw_compare_free(c);
  free(c);
}

/* Chances at which the inputs stand in their middle. */
static void chances_of(const range_case *rc, const double want[IN_COUNT], double u[])
{
  double v[IN_COUNT];
  for (size_t k = 0; k < rc->n_in; k++) {
    double low = 1e-9, high = 1.0 - 1e-9;
    for (int i = 0; i < 60; i++) {
      u[k] = 0.5 * (low + high);
      for (size_t j = k + 1; j < rc->n_in; j++)
        u[j] = 0.5;
      range_values(rc, u, v);
      if (v[rc->which[k]] < want[rc->which[k]])
        low = u[k];
      else
        high = u[k];
    }
  }
}

/* The draw's own year in its middle is the comparison's; with a tape that reads 1 mm too little all windows are larger by what
 * it missed, as a comparison of that job has it. */
static void the_year_of_a_draw_follows_its_tape(void **state)
{
  fixture *f = *state;
  const double off = 0.001;
  double v[IN_COUNT], u[2 * IN_COUNT], year[RANGE_SETS * RANGE_MONTHS],
      y[RANGE_SETS * RANGE_MONTHS];
  double moved[RANGE_SETS * RANGE_MONTHS];
  range_case rc;
  pw_err err = {0};
  open_case(f, &rc, year);
  void *room = range_room_new(&rc);
  middle(&rc, v);
  chances_of(&rc, v, u);
  if (range_year(&rc, room, u, y, &err) != PW_OK) fail_msg("%s", err.text);
  v[IN_TAPE] = off;
  chances_of(&rc, v, u);
  if (range_year(&rc, room, u, moved, &err) != PW_OK) fail_msg("%s", err.text);
  double sum = 0.0, grown = 0.0, want = 0.0, all = 0.0;
  for (size_t k = 0; k < RANGE_MONTHS; k++) {
    pw_assert_near(y[k], year[k], 1e-4 * fabs(year[k]) + 0.1, "a month's need, kWh",
                   "comparison");
    sum += y[k];
  }
  for (size_t s = 0; s < rc.n_set; s++)
    for (size_t k = 0; k < RANGE_MONTHS; k++)
      pw_assert_near(y[s * RANGE_MONTHS + k], year[s * RANGE_MONTHS + k],
                     1e-4 * fabs(year[s * RANGE_MONTHS + k]) + 0.1, "a month's need, kWh",
                     "comparison");
  as_read(f);
  for (size_t i = 0; i < OPENINGS; i++)
    for (int k = 0; k < 3; k++) {
      f->open.job.opening[i].width[k] += off;
      f->open.job.opening[i].height[k] += off;
    }
  pw_compare *c = calloc(1, sizeof *c);
  assert_non_null(c);
  if (pw_compare_run(&f->open.job, f->open.weather, &quick, NULL, c, &err) != PW_OK)
    fail_msg("%s", err.text);
  for (size_t m = 0; m < 12; m++) {
    want += c->lived.existing_set.needs.cooling_kwh[m];
    all += year[12 + m];
    grown += moved[12 + m];
  }
  /* 1 mm of about 1 m on each side: two thousandths of the sun; walls that shrink for it count for little */
  assert_true(want > 1.0005 * all);
  pw_assert_near((grown - all) / (want - all), 1.0, 0.25, "cold for larger windows",
                 "a larger job");
  pw_compare_free(c);
  free(c);
  range_room_free(room);
  as_read(f);
  assert_true(sum > 0.0);
}

/* Drapes and blinds of a draw: where more of them hold back more sun, less cold is wanted and more heat, of every set. */
static void coverings_that_hold_back_more_take_sun(void **state)
{
  const fixture *f = *state;
  double v[IN_COUNT], u[2 * IN_COUNT], year[RANGE_SETS * RANGE_MONTHS];
  double y[RANGE_SETS * RANGE_MONTHS], more[RANGE_SETS * RANGE_MONTHS];
  static const int input[] = {IN_COVER_SUN, IN_COVER_CLOSED};
  range_case rc;
  open_case(f, &rc, year);
  assert_true(f->whole.lived.covered);
  void *room = range_room_new(&rc);
  middle(&rc, v);
  chances_of(&rc, v, u);
  assert_int_equal(range_year(&rc, room, u, y, NULL), PW_OK);
  for (size_t k = 0; k < 2; k++) {
    middle(&rc, v);
    v[input[k]] = 1.0 + 0.5 * (rc.input[input[k]].spread.high - 1.0);
    chances_of(&rc, v, u);
    assert_int_equal(range_year(&rc, room, u, more, NULL), PW_OK);
    for (size_t s = 0; s < rc.n_set; s++) {
      double cold = 0.0, less = 0.0;
      for (size_t m = 12; m < RANGE_MONTHS; m++) {
        cold += y[s * RANGE_MONTHS + m];
        less += more[s * RANGE_MONTHS + m];
      }
      assert_true(less < 0.999 * cold && less > 0.8 * cold);
    }
  }
  range_room_free(room);
}

/* A job whose air hangs on the wind and whose windows are opened, lived hour by hour. */
static pw_compare *aired(fixture *f, pw_infiltration model, int by_door, const char *cooling,
                         range_case *rc)
{
  static const pw_compare_options hourly = {.method = PW_YEAR_SIMPLE};
  pw_house_facts *h = &f->open.job.house;
  pw_err err = {0};
  f->open.job.n_opening = 2;
  h->infiltration = model;
  h->cfm50 = by_door ? (pw_given){.value = 0.9, .origin = PW_ORIGIN_MEASURED} : (pw_given){0};
  h->airing = PW_AIRING_EVENINGS;
  strcpy(h->cooling_kind, cooling);
  pw_compare *c = run(f, &hourly);
  if (range_case_of(c, f->open.weather, PW_YEAR_SIMPLE, 0, rc, &err) != PW_OK)
    fail_msg("%s", err.text);
  return c;
}

/* In their middle shelter, terrain, leaks and the habit of opening are the comparison's, by either model, with a rate by the door or by
 * age, cooled or not. */
static void air_in_the_middle_is_the_comparisons(void **state)
{
  fixture *f = *state;
  static const struct {
    pw_infiltration model;
    int by_door;
    const char *cooling;
  } row[] = {{PW_INFILTRATION_CONSTANT, 1, "central"},
             {PW_INFILTRATION_SHERMAN_GRIMSRUD, 0, "none"},
             {PW_INFILTRATION_AIM2, 1, "none"},
             {PW_INFILTRATION_AIM2, 0, "central"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    double v[IN_COUNT], u[2 * IN_COUNT], y[RANGE_SETS * RANGE_MONTHS];
    range_case rc;
    pw_err err = {0};
    pw_compare *c = aired(f, row[i].model, row[i].by_door, row[i].cooling, &rc);
    void *room = range_room_new(&rc);
    assert_true(c->lived.house.airing.hours != 0);
    middle(&rc, v);
    chances_of(&rc, v, u);
    if (range_year(&rc, room, u, y, &err) != PW_OK) fail_msg("%s", err.text);
    for (size_t s = 0; s < rc.n_set; s++) {
      const pw_needs *need = &set_at(c, s).lived->needs;
      double heat = 0.0, cold = 0.0, want_heat = 0.0, want_cold = 0.0;
      for (size_t m = 0; m < 12; m++) {
        heat += y[s * RANGE_MONTHS + m];
        cold += y[s * RANGE_MONTHS + 12 + m];
        want_heat += need->heating_kwh[m];
        want_cold += need->cooling_kwh[m];
      }
      pw_assert_near(heat, want_heat, 1e-3 * want_heat + 0.1, "heat, kWh", "comparison");
      pw_assert_near(cold, want_cold, 1e-3 * want_cold + 0.1, "cold, kWh", "comparison");
    }
    range_room_free(room);
    forget(c);
  }
  as_read(f);
}

/* A hard winter is in the year's bill; over the years of the worth it wears off with their root; of a normal year it is none at all. */
static void weather_wears_off(void **state)
{
  const fixture *f = *state;
  double v[IN_COUNT], year[RANGE_SETS * RANGE_MONTHS], mid[RANGE_SETS * F_COUNT],
      hard[RANGE_SETS * F_COUNT], lasting[RANGE_SETS * F_COUNT];
  range_case rc;
  open_case(f, &rc, year);
  middle(&rc, v);
  figures(&rc, v, year, mid);
  v[IN_WEATHER_HEAT] = 1.3;
  figures(&rc, v, year, hard);
  double years = fmax(1.0, f->whole.billed.package_set[0].invest.horizon);
  v[IN_WEATHER_HEAT] = 1.0 + 0.3 / sqrt(years);
  figures(&rc, v, year, lasting);
  for (size_t p = 1; p <= f->whole.n_package; p++) {
    const double *a = mid + p * F_COUNT, *b = hard + p * F_COUNT, *c = lasting + p * F_COUNT;
    assert_true(b[F_COST] > 1.05 * a[F_COST] && b[F_SAVING] > a[F_SAVING]);
    pw_assert_near(b[F_HEATING_FUEL], a[F_HEATING_FUEL], 1e-9 * fabs(a[F_HEATING_FUEL]), "heat",
                   "a normal year");
    pw_assert_near(b[F_NORMAL_FUEL], a[F_NORMAL_FUEL], 1e-9 * fabs(a[F_NORMAL_FUEL]), "fuel",
                   "a normal year");
    if (!isfinite(a[F_PAYBACK])) continue;
    assert_true(b[F_PAYBACK] < a[F_PAYBACK]);
    pw_assert_near(b[F_PAYBACK] * c[F_SAVING], a[F_PAYBACK] * a[F_SAVING],
                   1e-6 * a[F_PAYBACK] * a[F_SAVING], "payback", "price over what lasts");
  }
}

/* ---------------------------------------------------------------- published forms */

/* The year in the middle of all spreads with these forms, lived directly. */
static void lived_with(const range_case *rc, void *room, const size_t place[PW_FORM_KINDS],
                       double y[])
{
  double u[2 * IN_COUNT];
  pw_err err = {0};
  for (size_t i = 0; i < rc->n_in; i++) {
    size_t form = rc->which[i] - IN_FORM;
    u[i] = form < PW_FORM_KINDS
               ? ((double)place[form] + 0.5) / (rc->input[IN_FORM + form].spread.high + 1.0)
               : 0.5;
  }
  if (range_year(rc, room, u, y, &err) != PW_OK) fail_msg("%s", err.text);
}

/* Forms lived once each give any pair of films as it is lived itself, and another form as what it changes of the usual year; taken off
 * again nothing is left. Of the usual forms (modes of their spreads) nothing changes. */
static void forms_are_the_years_lived_with_them(void **state)
{
  const fixture *f = *state;
  double year[RANGE_SETS * RANGE_MONTHS], usual_year[RANGE_SETS * RANGE_MONTHS],
      want[RANGE_SETS * RANGE_MONTHS], v[IN_COUNT];
  size_t usual[PW_FORM_KINDS], level[PW_FORM_KINDS];
  range_forms *forms = NULL;
  range_case rc;
  pw_err err = {0};
  open_case(f, &rc, year);
  size_t n = rc.n_set * RANGE_MONTHS, runs = 1;
  void *room = range_room_new(&rc);
  middle(&rc, v);
  if (range_forms_of(&rc, 1, &forms, &err) != PW_OK) fail_msg("%s", err.text);
  for (int k = 0; k < PW_FORM_KINDS; k++) {
    usual[k] = (size_t)rc.input[IN_FORM + k].spread.mode;
    level[k] = (size_t)rc.input[IN_FORM + k].spread.high + 1;
    if (k >= PW_FORM_SKY_LIGHT) runs += level[k] - 1;
  }
  runs += level[PW_FORM_FILM_OUT] * level[PW_FORM_FILM_IN] - 1;
  assert_int_equal(forms->n_year, runs * rc.n_set);
  lived_with(&rc, room, usual, usual_year);
  for (int k = 0; k < PW_FORM_KINDS; k++)
    for (size_t i = 0; i < level[k]; i++) {
      size_t place[PW_FORM_KINDS], pair[PW_FORM_KINDS];
      memcpy(place, usual, sizeof place);
      memcpy(pair, usual, sizeof pair);
      place[k] = i;
      lived_with(&rc, room, place, want);
      if (k >= PW_FORM_SKY_LIGHT) { /* beside other films: what each changes is added */
        double films[RANGE_SETS * RANGE_MONTHS];
        place[PW_FORM_FILM_OUT] = pair[PW_FORM_FILM_OUT] = level[PW_FORM_FILM_OUT] - 1;
        lived_with(&rc, room, pair, films);
        for (size_t m = 0; m < n; m++)
          want[m] += films[m] - usual_year[m];
      } else {
        place[1 - k] = level[1 - k] - 1;
        lived_with(&rc, room, place, want);
      }
      for (int q = 0; q < PW_FORM_KINDS; q++)
        v[IN_FORM + q] = (double)place[q];
      memset(year, 0, sizeof year);
      range_forms_add(&rc, forms, v, 1.0, year);
      for (size_t m = 0; m < n; m++)
        pw_assert_near(year[m], want[m], 1e-6 * (fabs(want[m]) + 1.0), "year of the form",
                       "lived directly");
      range_forms_add(&rc, forms, v, -1.0, year);
      for (size_t m = 0; m < n; m++)
        pw_assert_near(year[m], 0.0, 1e-9, "taken off", "nothing left");
    }
  range_forms_free(forms);
  range_room_free(room);
}

/* What a draw says of the existing windows for bills: its months by the model's factor and never below 0; fuel for a kWh of need is the
 * comparison's own year, fuel over need. */
static void the_need_of_a_draw_is_that_of_its_year(void **state)
{
  const fixture *f = *state;
  double v[IN_COUNT], year[RANGE_SETS * RANGE_MONTHS], got[RANGE_SETS * F_COUNT],
      sum[2] = {0.0};
  range_case rc;
  range_need need;
  pw_err err = {0};
  open_case(f, &rc, year);
  middle(&rc, v);
  for (size_t m = 0; m < 12; m++) {
    sum[0] += year[m];
    sum[1] += year[12 + m];
  }
  if (range_figures_at(&rc, v, year, got, &need, &err) != PW_OK) fail_msg("%s", err.text);
  const pw_bill *bill = &f->whole.billed.existing_set.bill;
  assert_true(sum[0] > 0.0 && sum[1] > 0.0);
  pw_assert_near(need.per_need[0], bill->heating_fuel_kwh / sum[0], 1e-9,
                 "fuel of a kWh of heat", "the comparison");
  pw_assert_near(need.per_need[1], bill->cooling_electricity_kwh / sum[1], 1e-9,
                 "power of a kWh of cold", "the comparison");
  v[IN_MODEL_HEAT] = 1.1;
  v[IN_MODEL_COOL] = 0.9;
  year[3] = -5.0;
  if (range_figures_at(&rc, v, year, got, &need, &err) != PW_OK) fail_msg("%s", err.text);
  for (size_t m = 0; m < 12; m++) {
    pw_assert_near(need.month[0][m], m == 3 ? 0.0 : 1.1 * year[m], 1e-9, "heat of a month",
                   "by hand");
    pw_assert_near(need.month[1][m], 0.9 * year[12 + m], 1e-9, "cold of a month", "by hand");
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(in_the_middle_a_draw_is_the_comparison),
      cmocka_unit_test(one_input_moves_what_it_should),
      cmocka_unit_test(prices_by_the_hour_have_the_mean_of_their_set),
      cmocka_unit_test(coverings_that_hold_back_more_take_sun),
      cmocka_unit_test(the_year_of_a_draw_follows_its_tape),
      cmocka_unit_test(forms_are_the_years_lived_with_them),
      cmocka_unit_test(weather_wears_off),
      cmocka_unit_test(the_need_of_a_draw_is_that_of_its_year),
      cmocka_unit_test(air_in_the_middle_is_the_comparisons), /* changes the job for good */
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
