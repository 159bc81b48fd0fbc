/* Ducts by season: each place in one climate inside the span of the gathered table (memory); what must hold of any
 * ducts; one season by hand. */
#include "example_fixture.h"

#include <stdio.h>

#include "gen/reference.h"
#include "house/duct.h"

static void near(double got, double want, double off, const char *what)
{
  pw_assert_near(got, want, off, what, "by hand");
}

static void each_place_lies_in_its_span(void **state)
{
  fixture *f = *state;
  for (int place = PW_DUCTS_ATTIC; place < PW_DUCT_PLACES; place++)
    for (int cooling = 0; cooling < 2; cooling++) {
      char key[32];
      snprintf(key, sizeof key, "%s_%s", cooling ? "cool" : "heat",
               pw_duct_place_name((pw_duct_place)place));
      size_t r = 0;
      while (r < pw_ref_air_ducts__n && strcmp(pw_ref_air_ducts[r].key, key) != 0)
        r++;
      assert_true(r < pw_ref_air_ducts__n);
      const pw_weather *weather = f->open.weather;
      pw_duct_season s;
      pw_duct_season_of((pw_duct_place)place, cooling, 150.0, cooling ? 25.0 : 21.0, weather,
                        &s);
      if (!(s.delivers >= pw_ref_air_ducts[r].low && s.delivers <= pw_ref_air_ducts[r].high))
        fail_msg("%s: %g, want %g to %g", key, s.delivers, pw_ref_air_ducts[r].low,
                 pw_ref_air_ducts[r].high);
    }
}

/* A winter of 4 C all year round, attic: around 6 C, as = ar = 0.875, UA 0.27 x 150 / 0.8 = 50.625 and 18.75 W/K, q 0.45, rho c q
 * = 1.2 x 1006 x 0.45 = 543 W/K: Bs 0.9110, Br 0.9661; DE = 0.875 (0.9110 - 0.9110 (1 - 0.8453) 15/24 - 0.0890 x 15/24) =
 * 0.875 (0.9110 - 0.0881 - 0.0556) = 0.6714. */
static void a_winter_by_hand(void **state)
{
  static pw_weather w;
  pw_duct_season s;
  (void)state;
  for (int i = 0; i < PW_HOURS; i++)
    w.hour[i].t_air = 4.0f;
  pw_duct_season_of(PW_DUCTS_ATTIC, 0, 150.0, 21.0, &w, &s);
  near(s.t_out, 4.0, 1e-9, "season");
  near(s.duct.t_round_supply, 6.0, 1e-9, "attic");
  near(s.delivers, 0.6714, 5e-4, "delivers");
}

/* The other places and the summer by the same formula, worked out apart: outdoors 4 or 32 C all year, rooms 21 or 25, air 45 or 13; attic 2 K or 8 K
 * over outdoors, crawl half and three quarters of the way to the rooms, basement three quarters (ducts.csv). */
static void every_place_by_hand(void **state)
{
  static pw_weather w;
  static const struct {
    pw_duct_place place;
    int cooling;
    double around, delivers;
  } row[] = {{PW_DUCTS_ATTIC, 0, 6, 0.671415},        {PW_DUCTS_ATTIC, 1, 40, 0.545687},
             {PW_DUCTS_ATTIC_SEALED, 0, 6, 0.866613}, {PW_DUCTS_ATTIC_SEALED, 1, 40, 0.809954},
             {PW_DUCTS_CRAWL, 0, 12.5, 0.725897},     {PW_DUCTS_CRAWL, 1, 26.75, 0.767806},
             {PW_DUCTS_BASEMENT, 0, 16.75, 0.761519}, {PW_DUCTS_BASEMENT, 1, 26.75, 0.767806}};
  (void)state;
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_duct_season s;
    for (int h = 0; h < PW_HOURS; h++)
      w.hour[h].t_air = row[i].cooling ? 32.0f : 4.0f;
    pw_duct_season_of(row[i].place, row[i].cooling, 150.0, row[i].cooling ? 25.0 : 21.0, &w,
                      &s);
    near(s.duct.t_round_supply, row[i].around, 1e-6, "around the supply");
    near(s.duct.t_round_return, row[i].around, 1e-6, "around the return");
    near(s.delivers, row[i].delivers, 1e-5, pw_duct_place_name(row[i].place));
  }
  /* outdoors by degree-hours: as many hours at 8 C as at -2, from 18 C on: (10 x 8 + 20 x -2) / 30; in summer 27 and 31 from 25 on:
   * (2 x 27 + 6 x 31) / 8; where no hour heats, where gains carry the house */
  static const struct {
    int cooling;
    float a, b;
    double t_out;
  } mean[] = {{0, 8.0f, -2.0f, 40.0 / 30.0},
              {1, 27.0f, 31.0f, 30.0},
              {0, 8.0f, 19.0f, 8.0},
              {0, 18.0f, 25.0f, 18.0},
              {1, 10.0f, 25.0f, 25.0}};
  for (size_t i = 0; i < sizeof mean / sizeof mean[0]; i++) {
    pw_duct_season s;
    for (int h = 0; h < PW_HOURS; h++)
      w.hour[h].t_air = h % 2 ? mean[i].a : mean[i].b;
    pw_duct_season_of(PW_DUCTS_INSIDE, mean[i].cooling, 150.0, mean[i].cooling ? 25.0 : 21.0,
                      &w, &s);
    near(s.t_out, mean[i].t_out, 1e-6, "season");
    near(s.delivers, 1.0, 0.0, "inside");
  }
}

/* Stated is used as it is, in every bill alike; a place moves bill and saving by 1/DE of its season; without ducts nothing. */
static void a_place_moves_the_bill(void **state)
{
  fixture *f = *state;
  pw_house_facts *h = &f->open.job.house;
  const pw_given stated = h->duct_efficiency;
  h->duct_efficiency = (pw_given){.value = 1.0, .origin = PW_ORIGIN_ASSUMED};
  pw_compare *none = run(f, &quick);
  h->ducts = PW_DUCTS_INSIDE;
  pw_compare *inside = run(f, &quick);
  alike(none, inside);
  h->ducts = PW_DUCTS_ATTIC;
  pw_compare *attic = run(f, &quick);
  for (size_t p = 0; p < none->n_package; p++) {
    same(attic->billed.package_set[p].bill.heating_fuel_kwh * attic->lived.duct[0].delivers,
         none->billed.package_set[p].bill.heating_fuel_kwh, "heat");
    same(attic->billed.package_set[p].bill.cooling_electricity_kwh *
             attic->lived.duct[1].delivers,
         none->billed.package_set[p].bill.cooling_electricity_kwh, "cold");
  }
  forget(none);
  forget(inside);
  forget(attic);
  h->ducts = PW_DUCTS_BLANK;
  h->duct_efficiency = stated;
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(each_place_lies_in_its_span),
      cmocka_unit_test(a_winter_by_hand),
      cmocka_unit_test(every_place_by_hand),
      cmocka_unit_test(a_place_moves_the_bill),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
