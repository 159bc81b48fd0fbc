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
    same(attic->package_set[p].bill.heating_fuel_kwh * attic->duct[0].delivers,
         none->package_set[p].bill.heating_fuel_kwh, "heat");
    same(attic->package_set[p].bill.cooling_electricity_kwh * attic->duct[1].delivers,
         none->package_set[p].bill.cooling_electricity_kwh, "cold");
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
      cmocka_unit_test(a_place_moves_the_bill),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
