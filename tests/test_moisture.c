/* Dew point and sweating humidity: inverses, order, and what a window must show. Published values
 * are in the check group `moisture`. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "panewright/units.h"
#include "window/moisture.h"

static void dew_point_is_the_inverse_of_saturation(void **state)
{
  (void)state;
  for (double c = -40.0; c <= 50.0; c += 0.7) {
    double p = 0, t = 0, dew = 0, rh = 0;
    assert_int_equal(pw_saturation_pressure(pw_k(c), &p, NULL), PW_OK);
    assert_int_equal(pw_saturation_temperature(p, &t, NULL), PW_OK);
    pw_assert_near(t, pw_k(c), 1e-9, "t", "inverse");
    assert_int_equal(pw_dew_point(pw_k(c), 1.0, &dew, NULL), PW_OK);
    pw_assert_near(dew, pw_k(c), 1e-9, "dew point at 100 %", "definition");
    assert_int_equal(pw_dew_point(pw_k(c), 0.4, &dew, NULL), PW_OK);
    assert_true(dew < pw_k(c));
    assert_int_equal(pw_sweat_humidity(dew, pw_k(c), &rh, NULL), PW_OK);
    pw_assert_near(rh, 0.4, 1e-9, "humidity", "the dew point's own");
  }
  double rh = 0;
  assert_int_equal(pw_sweat_humidity(300.0, 294.0, &rh, NULL), PW_OK);
  assert_true(rh == 1.0);
}

static pw_unit unit_of(size_t panes, double emit)
{
  pw_unit unit = {.n_pane = panes};
  for (size_t i = 0; i < panes; i++)
    unit.pane[i].thickness = 0.003;
  unit.gap[0].thickness = 0.0127;
  unit.pane[1].emit[0] = emit;
  return unit;
}

static pw_sweat sweat_of(const pw_unit *unit, double u_edge, double u_frame, double t_out)
{
  pw_rating rating = {.u_edge.value = u_edge, .u_frame.value = u_frame};
  rating.areas.retained = 0.1;
  rating.u_retained.value = 3.0;
  pw_sweat sweat;
  pw_err err = {0};
  if (pw_sweat_window(unit, &rating, 294.15, t_out, 5.5, 0.0, &sweat, &err) != PW_OK)
    fail_msg("%s", err.text);
  return sweat;
}

static void better_glass_sweats_later_and_metal_first(void **state)
{
  (void)state;
  pw_unit single = unit_of(1, 0), clear = unit_of(2, 0), low_e = unit_of(2, 0.04);
  pw_sweat a = sweat_of(&single, 5.9, 13.5, 255.15), b = sweat_of(&clear, 3.3, 10.2, 255.15),
           c = sweat_of(&low_e, 2.2, 2.0, 255.15);
  assert_true(a.center.rh < b.center.rh && b.center.rh < c.center.rh);
  /* 3 mm and 3-12.7-3 air: inner face at rating winter, glazing/METHODS.md A: 6.50 C. */
  pw_assert_near(pw_c(b.center.t), 6.50, 0.01, "inner face", "reference/glazing/METHODS.md A");
  /* A metal frame is not colder than a sheet between its films: 1/0.13 inside, 25 outside. */
  double h_in = 1.0 / 0.13, sheet = 294.15 - 39.0 * 25.0 / (25.0 + h_in);
  pw_assert_near(a.frame.t, sheet, 1e-9, "frame", "closed form");
  pw_assert_near(c.frame.t, 294.15 - 2.0 * 0.13 * 39.0, 1e-9, "frame", "T_i - U R_si dT");
  assert_true(c.edge.t < c.center.t && c.retained.rh > 0.0 && c.retained.rh < 1.0);
  pw_sweat mild = sweat_of(&low_e, 2.2, 2.0, 275.15);
  assert_true(mild.center.rh > c.center.rh && mild.edge.rh > c.edge.rh);
  pw_assert_near(c.h_in, 7.692, 0.001, "film", "1/0.13");
}

/* A meeting rail of 0.04 m2 and 0.16 W/K beside bars of 0.01 and 0.05: U 4; film 8, 20 C inside and -10 outside: its mean is 20 -
 * 4/8 x 30 = 5 C, where the relation says 1 - f 0.1 (17 C) it is no colder than the mean, where it says 0.6 it is 2 C. Drawn
 * as a whole, f 0.55, it is what was solved: 20 - 0.45 x 30 = 6.5 C. Room air of 20 C sweats at 5 C from 872.6 / 2339.3 = 0.373
 * (tables of saturation pressure, Pa; from memory). Bars in the glass alone are no rail. */
static void a_meeting_rail_by_hand(void **state)
{
  (void)state;
  static const struct {
    pw_coldest rail;
    double c;
  } row[] = {
      {{.base = 0.1}, 5.0}, {{.base = 0.6}, 2.0}, {{.f_rsi = 0.55, .all_drawn = 1}, 6.5}};
  const pw_unit unit = unit_of(2, 0);
  pw_rating rating = {.areas.divider = 0.05,
                      .ua.divider = 0.21,
                      .bars_area = 0.01,
                      .bars_ua = 0.05,
                      .u_edge.value = 2.0,
                      .u_frame.value = 2.0};
  pw_sweat s;
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    rating.cold_meeting = row[i].rail;
    assert_int_equal(pw_sweat_window(&unit, &rating, 293.15, 263.15, 5.5, 8.0, &s, NULL),
                     PW_OK);
    pw_assert_near(pw_c(s.meeting.t), row[i].c, 1e-9, "rail, C", "by hand");
    if (i == 0) pw_assert_near(s.meeting.rh, 0.373, 0.001, "humidity", "tables");
  }
  rating.areas.divider = 0.01;
  rating.ua.divider = 0.05;
  assert_int_equal(pw_sweat_window(&unit, &rating, 293.15, 263.15, 5.5, 8.0, &s, NULL), PW_OK);
  assert_true(isnan(s.meeting.t) && isnan(s.meeting.rh));
}

static void refusals_name_the_field_and_touch_nothing(void **state)
{
  (void)state;
  double v = 5.0;
  pw_err err;
  assert_int_equal(pw_saturation_pressure(20.0, &v, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "t");
  assert_int_equal(pw_dew_point(293.15, 0.0, &v, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "rh");
  assert_int_equal(pw_dew_point(293.15, 50.0, &v, &err), PW_E_DOMAIN);
  assert_int_equal(pw_saturation_temperature(NAN, &v, &err), PW_E_DOMAIN);
  assert_int_equal(pw_humidity_ratio(370.0, 1.0, 5e4, &v, &err), PW_E_DOMAIN);
  assert_int_equal(pw_humidity_ratio(293.15, 0.5, 0.0, &v, &err), PW_E_DOMAIN);
  assert_int_equal(pw_sweat_humidity(-5.0, 293.15, &v, &err), PW_E_DOMAIN);
  assert_true(v == 5.0);
  pw_unit unit = unit_of(2, 0);
  pw_rating rating = {.u_edge.value = 3.0, .u_frame.value = 5.0};
  pw_sweat sweat, before;
  memset(&sweat, 0x22, sizeof sweat);
  before = sweat;
  assert_int_equal(pw_sweat_window(&unit, &rating, 294.15, NAN, 5.5, 0.0, &sweat, &err),
                   PW_E_DOMAIN);
  assert_int_equal(pw_sweat_window(&unit, &rating, 294.15, 255.15, 5.5, -1.0, &sweat, &err),
                   PW_E_DOMAIN);
  assert_string_equal(err.field, "h_in");
  assert_memory_equal(&sweat, &before, sizeof sweat);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(dew_point_is_the_inverse_of_saturation),
      cmocka_unit_test(better_glass_sweats_later_and_metal_first),
      cmocka_unit_test(a_meeting_rail_by_hand),
      cmocka_unit_test(refusals_name_the_field_and_touch_nothing),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
