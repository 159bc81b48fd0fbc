/* The simple hourly and the monthly method: properties and refusals. The published values stand in
 * src/check/simple.c. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "house/monthly.h"
#include "house/simple.h"

static const pw_simple house = {.floor_area = 100.0,
                                .mass_area = 250.0,
                                .mass_store = 1.1e7,
                                .h_opaque = 120.0,
                                .h_window = 80.0,
                                .h_air = 50.0};

/* Left alone at constant weather the house ends where gains equal losses; the closed form is the
 * three-node network solved by hand for no gains: everything at the outdoor temperature. */
static void without_gains_all_is_outdoors(void **state)
{
  (void)state;
  pw_simple_net net;
  pw_simple_hour hour = {0};
  double t = 30.0;
  pw_simple_drive d = {7.0, 7.0, 0.0, 0.0, NAN, NAN};
  assert_int_equal(pw_simple_init(&house, &net, NULL), PW_OK);
  for (int i = 0; i < 5000; i++)
    pw_simple_step(&house, &net, &d, &t, &hour);
  pw_assert_near(t, 7.0, 1e-9, "mass", "steady state");
  pw_assert_near(hour.t_air, 7.0, 1e-9, "air", "steady state");
  assert_true(hour.need == 0.0);
}

/* Energy: over a long cycle the need equals what passes outdoors. Opaque parts end at the mass node,
 * windows at the surface, air at the air: the flows are those of the network. */
static void need_balances_the_flows(void **state)
{
  (void)state;
  pw_simple_net net;
  pw_simple_hour hour;
  double t = 20.0, need = 0.0, lost = 0.0;
  assert_int_equal(pw_simple_init(&house, &net, NULL), PW_OK);
  double t_first = 0.0;
  for (int i = 0; i < 24 * 200; i++) {
    double out = 5.0 + 8.0 * sin(0.2618 * i), old = t;
    /* no gains: their split loses what the standard sends straight out by the windows */
    pw_simple_drive d = {out, out, 0.0, 0.0, 20.0, 26.0};
    if (i == 24 * 100) t_first = t;
    pw_simple_step(&house, &net, &d, &t, &hour);
    if (i < 24 * 100) continue;
    need += hour.need;
    lost += net.h_em * (0.5 * (old + t) - out) + house.h_window * (hour.t_surface - out) +
            house.h_air * (hour.t_air - out);
  }
  double stored = house.mass_store / 3600.0 * (t - t_first);
  pw_assert_near(need, lost + stored, 1e-6 * need, "need", "conservation of energy");
}

static void no_air_change_is_allowed(void **state)
{
  (void)state;
  pw_simple tight = house, leaky = house;
  pw_simple_net net;
  pw_simple_hour a, b;
  double ta = 20.0, tb = 20.0;
  tight.h_air = 0.0;
  leaky.h_air = 1e-9;
  pw_simple_drive d = {-5.0, -5.0, 300.0, 500.0, 20.0, 26.0};
  assert_int_equal(pw_simple_init(&tight, &net, NULL), PW_OK);
  pw_simple_step(&tight, &net, &d, &ta, &a);
  assert_int_equal(pw_simple_init(&leaky, &net, NULL), PW_OK);
  pw_simple_step(&leaky, &net, &d, &tb, &b);
  pw_assert_near(a.need, b.need, 1e-4, "need at no air change", "limit of a small one");
}

static void set_points_hold(void **state)
{
  (void)state;
  pw_simple_net net;
  pw_simple_hour hour;
  double t = 20.0;
  assert_int_equal(pw_simple_init(&house, &net, NULL), PW_OK);
  for (int i = 0; i < 2000; i++) {
    pw_simple_drive d = {15.0 + 15.0 * sin(0.01 * i), 10.0, 400.0,
                         i % 24 < 12 ? 4000.0 : 0.0,  20.0, 26.0};
    pw_simple_step(&house, &net, &d, &t, &hour);
    assert_true(hour.t_air >= 20.0 - 1e-9 && hour.t_air <= 26.0 + 1e-9);
    if (hour.need > 0.0) pw_assert_near(hour.t_air, 20.0, 1e-9, "air when heated", "set point");
    if (hour.need < 0.0) pw_assert_near(hour.t_air, 26.0, 1e-9, "air when cooled", "set point");
  }
}

static void simple_refuses(void **state)
{
  (void)state;
  pw_simple_net net;
  pw_err err = {0};
  pw_simple s = house;
  s.h_opaque = 9.1 * 250.0;
  assert_int_equal(pw_simple_init(&s, &net, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "h_opaque");
  s = house;
  s.mass_store = NAN;
  assert_int_equal(pw_simple_init(&s, &net, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "mass_store");
  s = house;
  s.floor_area = -1.0;
  assert_int_equal(pw_simple_init(&s, &net, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "floor_area");
}

/* Both factors lie in 0..1, meet at gamma 1, and are each other's mirror: what is used of gains
 * equals what is met of losses. */
static void utilisation_is_a_share_and_a_mirror(void **state)
{
  (void)state;
  for (double a = 1.0; a < 30.0; a += 1.7)
    for (double g = 1e-4; g < 1e7; g *= 1.37) {
      double gain = pw_month_gain_use(g, a), loss = pw_month_loss_use(g, a);
      assert_true(gain >= 0.0 && gain <= 1.0 && loss >= 0.0 && loss <= 1.0);
      pw_assert_near(gain * g, loss, 1e-9, "eta_H gamma", "eta_C");
      assert_true(gain * g <= 1.0 + 1e-12);
    }
  pw_assert_near(pw_month_gain_use(1.0, 3.0), 0.75, 1e-12, "gamma 1", "a / (a + 1)");
  pw_assert_near(pw_month_gain_use(1.0 + 2e-6, 3.0), 0.75, 1e-5, "near 1", "a / (a + 1)");
}

static void months_at_the_ends(void **state)
{
  (void)state;
  pw_month_balance m = {.hours = 744.0,
                        .t_out = 0.0,
                        .heat_set = 20.0,
                        .cool_set = 26.0,
                        .h_transmission = 200.0,
                        .h_air = 50.0,
                        .time_constant_h = 20.0};
  double heat, cool;
  assert_int_equal(pw_month_need(&m, &heat, &cool, NULL), PW_OK);
  pw_assert_near(heat, 250.0 * 20.0 * 0.744, 1e-9, "no gains", "loss");
  pw_assert_near(cool, 0.0, 1e-9, "no gains", "nothing to cool");
  /* ISO 52016-1:2017 6.6 (from memory): at a constant 0 C, 300 W of gains, nothing is to be cooled;
   * the factor alone leaves 0.2 kWh, and 36 kWh in the winter of reference/climate/month_example.csv. */
  m.gain_kwh = 0.3 * 744.0;
  assert_int_equal(pw_month_need(&m, &heat, &cool, NULL), PW_OK);
  pw_assert_near(cool, 0.0, 0.0, "constant 0 C", "gain-loss rule");
  m.gain_kwh = 0.49 * 250.0 * 26.0 * 0.744; /* and either side of the rule */
  assert_int_equal(pw_month_need(&m, &heat, &cool, NULL), PW_OK);
  pw_assert_near(cool, 0.0, 0.0, "loss over twice the gain", "gain-loss rule");
  m.gain_kwh = 0.51 * 250.0 * 26.0 * 0.744;
  assert_int_equal(pw_month_need(&m, &heat, &cool, NULL), PW_OK);
  assert_true(cool > 0.0 && heat > 0.0);
  m.gain_kwh = 2.01 * 250.0 * 20.0 * 0.744;
  assert_int_equal(pw_month_need(&m, &heat, &cool, NULL), PW_OK);
  pw_assert_near(heat, 0.0, 0.0, "gain over twice the loss", "gain-loss rule");
  m.t_out = 40.0;
  m.gain_kwh = 100.0;
  assert_int_equal(pw_month_need(&m, &heat, &cool, NULL), PW_OK);
  pw_assert_near(heat, 0.0, 1e-9, "hot month", "nothing to heat");
  pw_assert_near(cool, 100.0 + 250.0 * 14.0 * 0.744, 1e-9, "hot month", "gain less loss");
  m.heat_set = m.cool_set = NAN;
  assert_int_equal(pw_month_need(&m, &heat, &cool, NULL), PW_OK);
  assert_true(heat == 0.0 && cool == 0.0);
  pw_err err = {0};
  m.hours = 0.0;
  assert_int_equal(pw_month_need(&m, &heat, &cool, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "hours");
  m.hours = 744.0;
  m.time_constant_h = NAN;
  assert_int_equal(pw_month_need(&m, &heat, &cool, &err), PW_E_DOMAIN);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(without_gains_all_is_outdoors),
                                     cmocka_unit_test(need_balances_the_flows),
                                     cmocka_unit_test(no_air_change_is_allowed),
                                     cmocka_unit_test(set_points_hold),
                                     cmocka_unit_test(simple_refuses),
                                     cmocka_unit_test(utilisation_is_a_share_and_a_mirror),
                                     cmocka_unit_test(months_at_the_ends)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
