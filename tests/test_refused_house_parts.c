/* What the smaller pieces of src/house refuse: the simple and the monthly method, leaks of a window, a facade's sound. */
#include "support.h"

#include <math.h>
#include <stdlib.h>

#include "house/facade_sound.h"
#include "house/leakage.h"
#include "house/monthly.h"
#include "house/simple.h"

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

static pw_weather *mild; /* 10 C and 3 m/s all year */

/* ---------------------------------------------------------------- simple, monthly */

static pw_status simple_of(const void *in, pw_err *err)
{
  pw_simple_net n;
  pw_status s = pw_simple_init(in, &n, err);
  if (s == PW_OK) assert_true(isfinite(n.total) && isfinite(n.h_1 + n.h_2));
  return s;
}

static void the_simple_method(void **state)
{
  (void)state;
  const pw_simple good = {.floor_area = 100.0,
                          .total_area = 450.0,
                          .mass_area = 250.0,
                          .mass_store = 1.1e7,
                          .h_is = 3.45,
                          .h_opaque = 0.0,
                          .h_window = 50.0,
                          .h_air = 40.0};
#define SIMPLE(field) #field, offsetof(pw_simple, field)
  const pw_span span[] = {
      {SIMPLE(floor_area), "d)", 1e-9, 1e12}, {SIMPLE(mass_area), "d)", 1e-9, 1e12},
      {SIMPLE(mass_store), "d)", 1e-9, 1e12}, {SIMPLE(h_window), "d)", 0.0, 1e12},
      {SIMPLE(h_air), "d)", 0.0, 1e12},       {SIMPLE(h_is), "d)", 0.0, 1e12},
      {SIMPLE(total_area), "d)", 0.0, 1e12},  {SIMPLE(h_opaque), "d)", 0.0, 9.1 * 250.0}};
  pw_assert_spans(&good, sizeof good, span, COUNT(span), simple_of);
}

static pw_status month_need(const void *in, pw_err *err)
{
  double heat = 0.0, cool = 0.0;
  pw_status s = pw_month_need(in, &heat, &cool, err);
  if (s == PW_OK) assert_true(isfinite(heat) && isfinite(cool) && heat >= 0.0 && cool >= 0.0);
  return s;
}

static void a_month(void **state)
{
  (void)state;
  const pw_month_balance good = {744.0, 5.0, 20.0, 26.0, 100.0, 50.0, 400.0, 20.0, 40.0};
  const pw_span span[] = {
      {"hours", offsetof(pw_month_balance, hours), "(d)", 0.0, 8785.0},
      {"time_constant_h", offsetof(pw_month_balance, time_constant_h), "(d", 0.0, INFINITY},
      {"t_out", offsetof(pw_month_balance, t_out), "d", -100.0, 100.0},
      {"gain_kwh", offsetof(pw_month_balance, gain_kwh), "(d)", -INFINITY, INFINITY},
      {"extra_loss_kwh", offsetof(pw_month_balance, extra_loss_kwh), "(d)", -INFINITY,
       INFINITY}};
  pw_assert_spans(&good, sizeof good, span, COUNT(span), month_need);
  const double wrong[] = {-100.0, -150.0, (double)NAN,
                          INFINITY}; /* with 50 W/K of air: 0 and less */
  for (size_t i = 0; i < COUNT(wrong); i++) {
    pw_month_balance m = good;
    pw_err err;
    m.h_transmission = wrong[i];
    m.h_air = 100.0;
    assert_int_equal(month_need(&m, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "h_transmission");
  }
}

/* ---------------------------------------------------------------- leaks, sound */

typedef struct leak {
  double area, volume, flow_75, t, wind;
  pw_leak_site site;
} leak;

static pw_status leak_flow(const void *in, pw_err *err)
{
  const leak *l = in;
  const pw_hour hour = {.t_air = (float)l->t, .wind = (float)l->wind};
  double flow = 0.0;
  pw_status s = pw_leak_flow(l->area, &l->site, &hour, &flow, err);
  if (s == PW_OK) assert_true(isfinite(flow) && flow >= 0.0);
  return s;
}

static pw_status leak_year(const void *in, pw_err *err)
{
  const leak *l = in;
  pw_leak_year y;
  pw_status s = pw_leak_of_year(l->flow_75, &l->site, mild, l->volume, &y, err);
  if (s == PW_OK) assert_true(isfinite(y.flow_mean + y.heat_kwh + y.changes_1_h));
  return s;
}

static void a_leak(void **state)
{
  (void)state;
  const leak good = {0.01, 250.0, 0.1, 5.0, 3.0, {1, 3, 20.0}};
  const pw_span site[] = {{"storeys", offsetof(leak, site.storeys), "i", 0, 3},
                          {"shelter", offsetof(leak, site.shelter), "i", 0, 5},
                          {"t_in", offsetof(leak, site.t_in), "d", -50.0, 60.0}};
  const pw_span flow[] = {{"area", offsetof(leak, area), "d)", 0.0, 10.0},
                          {"hour", offsetof(leak, wind), "d", 0.0, 119.0}};
  const pw_span whole[] = {{"flow_75", offsetof(leak, flow_75), "d)", 0.0, 10.0},
                           {"volume", offsetof(leak, volume), "d)", 0.0, 1e7}};
  pw_assert_spans(&good, sizeof good, site, COUNT(site), leak_flow);
  pw_assert_spans(&good, sizeof good, site, COUNT(site), leak_year);
  pw_assert_spans(&good, sizeof good, flow, 1, leak_flow);
  pw_assert_spans(&good, sizeof good, whole, COUNT(whole), leak_year);
  static const double wrong[][2] = {{-90.0, 3.0}, {70.0, 3.0},  {(double)NAN, 3.0},
                                    {5.0, -0.1},  {5.0, 120.0}, {5.0, (double)NAN}};
  for (size_t i = 0; i < COUNT(wrong); i++) {
    leak l = good;
    pw_err err;
    l.t = wrong[i][0];
    l.wind = wrong[i][1];
    assert_int_equal(leak_flow(&l, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "hour");
  }
}

/* A part without area lets nothing through: 2 m2 of 30 dB alone are 30 dB. */
static void a_facade(void **state)
{
  (void)state;
  double r = 77.0, area = 77.0;
  pw_err err;
  pw_facade_part part[2] = {{2.0, 30.0}, {0.0, 0.0}};
  const double wrong[] = {-0.1, (double)NAN};
  for (size_t i = 0; i < COUNT(wrong); i++) {
    part[1].area = wrong[i];
    assert_int_equal(pw_facade_reduction(part, 2, NULL, 0, &r, &area, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "part");
  }
  part[1].area = 0.0;
  assert_int_equal(pw_facade_reduction(&part[1], 1, NULL, 0, &r, &area, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "area");
  assert_true(r == 77.0 && area == 77.0);
  assert_int_equal(pw_facade_reduction(part, 2, NULL, 0, &r, &area, &err), PW_OK);
  pw_assert_near(r, 30.0, 1e-9, "dB", "by hand");
  pw_assert_near(area, 2.0, 0.0, "m2", "by hand");
}

int main(void)
{
  pw_test_begin();
  mild = calloc(1, sizeof *mild);
  if (!mild) return 1;
  for (int i = 0; i < PW_HOURS; i++)
    mild->hour[i] = (pw_hour){.t_air = 10.0f, .wind = 3.0f, .pressure = 1e5f};
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_simple_method),
      cmocka_unit_test(a_month),
      cmocka_unit_test(a_leak),
      cmocka_unit_test(a_facade),
  };
  int failed = cmocka_run_group_tests(tests, NULL, NULL);
  free(mild);
  return failed;
}
