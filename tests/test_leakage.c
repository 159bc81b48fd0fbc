/* Air through window joints. */
#include "support.h"

#include <math.h>
#include <stdlib.h>

#include "house/leakage.h"
#include "panewright/units.h"

/* METHODS.md section 8: at 4 Pa 0.149 of the flow at 75 Pa; 0.3 cfm/ft2 is 1.524 L/(s m2). */
static void area_follows_the_test(void **state)
{
  (void)state;
  double flow = 0.3 * 0.3048 * 0.3048 * 0.3048 / 60.0 / (0.3048 * 0.3048); /* m3/(s m2) */
  pw_assert_near(flow, 1.524e-3, 1e-6, "0.3 cfm/ft2", "METHODS.md section 8");
  double at_4 = pw_leak_area(1.0) * sqrt(2.0 * 4.0 / 1.2);
  pw_assert_near(at_4, 0.149, 5e-4, "share at 4 Pa", "METHODS.md section 8");
}

/* Handbook basic model, one storey, shelter class 4, 500 cm2, 20 K, 5 m/s: by hand
 * 0.5 sqrt(0.000145 * 20 + 0.000104 * 25) = 0.5 sqrt(0.0055) = 0.03708 m3/s. */
static void flow_is_the_handbooks(void **state)
{
  (void)state;
  pw_leak_site site = {.storeys = 1, .shelter = 4, .t_in = 20.0};
  pw_hour h = {.t_air = 0.0f, .wind = 5.0f, .pressure = 101325.0f};
  double flow = 0.0;
  assert_int_equal(pw_leak_flow(0.05, &site, &h, &flow, NULL), PW_OK);
  pw_assert_near(flow, 0.5 * sqrt(0.0055), 1e-9, "flow", "METHODS.md section 8, by hand");
}

/* Every cell of the handbook's table as METHODS.md section 8 prints it: for 1 cm2, with
 * no wind or no difference, the flow in L/s squared is the cell times K or (m/s)2. */
static void every_storey_and_shelter_has_its_cell(void **state)
{
  (void)state;
  static const double micro_stack[] = {145, 290, 435};
  static const double micro_wind[][5] = {
      {319, 246, 174, 104, 32}, {420, 325, 231, 137, 42}, {494, 382, 271, 161, 49}};
  for (int n = 1; n <= 3; n++)
    for (int k = 1; k <= 5; k++) {
      const pw_leak_site site = {.storeys = n, .shelter = k, .t_in = 20.0};
      const pw_hour cold = {.t_air = 10.0f}, windy = {.t_air = 20.0f, .wind = 4.0f};
      double stack = 0.0, wind = 0.0;
      assert_int_equal(pw_leak_flow(1e-4, &site, &cold, &stack, NULL), PW_OK);
      assert_int_equal(pw_leak_flow(1e-4, &site, &windy, &wind, NULL), PW_OK);
      pw_assert_near(1e12 * stack * stack / 10.0, micro_stack[n - 1], 1e-6, "stack",
                     "climate/METHODS.md 8");
      pw_assert_near(1e12 * wind * wind / 16.0, micro_wind[n - 1][k - 1], 1e-6, "wind",
                     "climate/METHODS.md 8");
    }
}

static void a_still_year_sums_up(void **state)
{
  (void)state;
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  for (int i = 0; i < PW_HOURS; i++)
    w->hour[i] = (pw_hour){.t_air = 10.0f, .wind = 0.0f, .pressure = 101325.0f};
  pw_leak_site site = {.t_in = 20.0};
  pw_leak_year y;
  assert_int_equal(pw_leak_of_year(0.01, &site, w, 300.0, &y, NULL), PW_OK);
  double flow = pw_leak_area(0.01) * 10.0 * sqrt(0.000145 * 10.0);
  double rho = 101325.0 / (287.05 * pw_k(20.0));
  pw_assert_near(y.flow_mean, flow, 1e-12, "flow", "one hour");
  pw_assert_near(y.heat_kwh, flow * rho * 1006.0 * 10.0 * 8.76, 1e-6, "heat",
                 "flow times heat");
  pw_assert_near(y.changes_1_h, flow * 12.0, 1e-12, "changes", "flow over volume");
  pw_leak_year twice;
  assert_int_equal(pw_leak_of_year(0.02, &site, w, 300.0, &twice, NULL), PW_OK);
  pw_assert_near(twice.heat_kwh, 2.0 * y.heat_kwh, 1e-9, "heat", "goes with the test value");
  free(w);
}

static void refuses(void **state)
{
  (void)state;
  pw_hour h = {.t_air = 0.0f, .wind = 5.0f, .pressure = 101325.0f};
  pw_err err = {0};
  double flow = -7.0;
  assert_int_equal(pw_leak_flow(0.05, &(pw_leak_site){.storeys = 4}, &h, &flow, &err),
                   PW_E_DOMAIN);
  assert_string_equal(err.field, "storeys");
  assert_int_equal(pw_leak_flow(0.05, &(pw_leak_site){.shelter = -1}, &h, &flow, &err),
                   PW_E_DOMAIN);
  assert_string_equal(err.field, "shelter");
  assert_int_equal(pw_leak_flow(NAN, &(pw_leak_site){0}, &h, &flow, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "area");
  h.wind = NAN;
  assert_int_equal(pw_leak_flow(0.05, &(pw_leak_site){0}, &h, &flow, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "hour");
  assert_true(flow == -7.0);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(area_follows_the_test), cmocka_unit_test(flow_is_the_handbooks),
      cmocka_unit_test(every_storey_and_shelter_has_its_cell),
      cmocka_unit_test(a_still_year_sums_up), cmocka_unit_test(refuses)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
