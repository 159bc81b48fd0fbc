/* house/zone, house/year: what a house and its windows may be, each value at its limits and just past them, by the range that the refusal
 * names; nothing is lived. */
#include "support.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "panewright/year.h"

static pw_house house_of(void)
{
  pw_house h = {.n_part = 1, .floor_area = 100.0, .volume = 250.0};
  h.part[0].layers = (pw_wall_layers){.n_layer = 1, .layer = {{.resistance = 1.0}}};
  h.part[0].area = 100.0;
  h.part[0].tilt_deg = 90.0;
  for (int i = 0; i < 24; i++) {
    h.heat_set_c[i] = 20.0;
    h.cool_set_c[i] = 26.0;
  }
  return h;
}

typedef struct limit {
  const char *field;
  size_t offset;
  double low, high;
} limit;

static double past(double x, double away) { return x + away * fmax(1e-6, 1e-9 * fabs(x)); }

static void set(void *of, size_t offset, double x)
{
  memcpy((char *)of + offset, &x, sizeof x);
}

#define OF(type, member) #member, offsetof(type, member)

static void a_house_is_held_to_its_limits(void **state)
{
  (void)state;
  static const limit row[] = {
      {OF(pw_house, floor_area), 1.0, 1e6},
      {OF(pw_house, volume), 1.0, 1e7},
      {OF(pw_house, air_changes), 0.0, 100.0},
      {OF(pw_house, gain_w), 0.0, 1e7},
      {OF(pw_house, gain_radiant), 0.0, 1.0},
      {OF(pw_house, heat_radiant), 0.0, 1.0},
      {OF(pw_house, heat_max_w), 0.0, 1e9},
      {OF(pw_house, cool_max_w), 0.0, 1e9},
      {OF(pw_house, air_store), 0.0, 100.0},
      {OF(pw_house, albedo), 0.0, 1.0},
      {OF(pw_house, height), 0.0, 100.0},
      {OF(pw_house, terrain), 0.0, 0.6},
      {OF(pw_house, warm_c), 0.0, 100.0},
      {OF(pw_house, airing.share), 0.0, 1.0},
      {OF(pw_house, airing.flow), 0.0, 100.0},
      {OF(pw_house, airing.down_to_c), 0.0, 60.0},
      {OF(pw_house, airing.over_out), 0.0, 50.0},
      {OF(pw_house, airing.dew_most_c), -100.0, 100.0},
      {OF(pw_house, airing.most_changes), 0.0, 1000.0},
      {OF(pw_house, mass_area), 0.0, 1e7},
      {OF(pw_house, mass_store), 0.0, 1e12},
      {"heat_ramp_k", offsetof(pw_house, heat_ramp_k[23]), -50.0, 50.0},
      {"vent_changes", offsetof(pw_house, vent_changes[23]), 0.0, 999.9},
      {"ground_c", offsetof(pw_house, ground_c[11]), -40.0, 50.0},
      {"area", offsetof(pw_house, part[0].area), 0.0, 1e5},
      {"tilt_deg", offsetof(pw_house, part[0].tilt_deg), 0.0, 180.0},
      {"facing_deg", offsetof(pw_house, part[0].facing_deg), -360.0, 720.0},
      {"absorptance", offsetof(pw_house, part[0].absorptance), 0.0, 1.0},
      {"emittance", offsetof(pw_house, part[0].emittance), 0.0, 1.0},
      {"absorptance_in", offsetof(pw_house, part[0].absorptance_in), 0.0, 1.0},
      {"emittance_in", offsetof(pw_house, part[0].emittance_in), 0.0, 1.0},
      {"height", offsetof(pw_house, part[0].height), 0.0, 100.0},
      {"overhang_depth", offsetof(pw_house, part[0].overhang_depth), 0.0, 20.0},
      {"overhang_gap", offsetof(pw_house, part[0].overhang_gap), 0.0, 20.0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    for (int high = 0; high < 2; high++) {
      pw_house h = house_of();
      pw_err err = {0};
      double at = high ? row[i].high : row[i].low;
      if (strcmp(row[i].field, "heat_ramp_k") == 0)
        for (int k = 0; k < 24; k++)
          h.cool_set_c[k] = 100.0;
      set(&h, row[i].offset, at);
      if (pw_house_check(&h, &err) != PW_OK) fail_msg("%s %g: %s", row[i].field, at, err.text);
      if (strcmp(row[i].field, "vent_changes") == 0 && high) at = 1000.0;
      set(&h, row[i].offset, past(at, high ? 1.0 : -1.0));
      if (pw_house_check(&h, &err) != PW_E_DOMAIN) fail_msg("past %s %g", row[i].field, at);
      assert_string_equal(err.field, row[i].field);
      set(&h, row[i].offset, (double)NAN);
      assert_int_equal(pw_house_check(&h, &err), PW_E_DOMAIN);
    }
}

/* Set points may be off (NAN); cooling never lies below heating, its ramp counted; parts are one to 24, layers one to ten. */
static void set_points_and_counts(void **state)
{
  (void)state;
  static const struct {
    double heat, cool, ramp;
    pw_status want;
  } row[] = {
      {20, 20, 0, PW_OK},         {20, 19.9, 0, PW_E_DOMAIN},  {20, 21, 2, PW_OK},
      {20, 21, 2.1, PW_E_DOMAIN}, {20, 21, -2.1, PW_E_DOMAIN}, {NAN, 26, 0, PW_OK},
      {20, NAN, 0, PW_OK},        {-50, 26, 0, PW_OK},         {-50.1, 26, 0, PW_E_DOMAIN},
      {60, 100, 0, PW_OK},        {60.1, 100, 0, PW_E_DOMAIN}, {20, 100.1, 0, PW_E_DOMAIN},
      {NAN, -50, 0, PW_OK},       {NAN, -50.1, 0, PW_E_DOMAIN}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    for (int hour = 0; hour < 24; hour += 23) {
      pw_house h = house_of();
      h.heat_set_c[hour] = row[i].heat;
      h.cool_set_c[hour] = row[i].cool;
      h.heat_ramp_k[hour] = row[i].ramp;
      if (pw_house_check(&h, NULL) != row[i].want) fail_msg("row %zu, hour %d", i, hour);
    }
  pw_house h = house_of();
  for (size_t k = 1; k < PW_PARTS_MAX; k++)
    h.part[k] = h.part[0];
  h.n_part = PW_PARTS_MAX;
  assert_int_equal(pw_house_check(&h, NULL), PW_OK);
  h.part[PW_PARTS_MAX - 1].area = -1.0; /* each is looked at */
  assert_int_equal(pw_house_check(&h, NULL), PW_E_DOMAIN);
  h.n_part = PW_PARTS_MAX + 1;
  assert_int_equal(pw_house_check(&h, NULL), PW_E_SHAPE);
  h.n_part = 0;
  assert_int_equal(pw_house_check(&h, NULL), PW_E_SHAPE);
  h = house_of();
  h.part[0].layers.n_layer = 0;
  assert_int_equal(pw_house_check(&h, NULL), PW_E_SHAPE);
  h.part[0].layers.n_layer = PW_LAYERS_MAX + 1;
  assert_int_equal(pw_house_check(&h, NULL), PW_E_SHAPE);
  static float shape[PW_HOURS];
  h = house_of();
  h.air_shape = shape;
  assert_int_equal(pw_house_check(&h, NULL), PW_OK);
  shape[PW_HOURS - 1] = -0.01f;
  assert_int_equal(pw_house_check(&h, NULL), PW_E_DOMAIN);
  shape[PW_HOURS - 1] = 1000.0f;
  assert_int_equal(pw_house_check(&h, NULL), PW_E_DOMAIN);
}

/* Windows and options are looked at before anything is lived, so weather is not. */
static void a_window_is_held_to_its_limits(void **state)
{
  (void)state;
  static const limit row[] = {
      {OF(pw_house_window, facing_deg), -360.0, 720.0},
      {OF(pw_house_window, tilt_deg), 0.0, 180.0},
      {OF(pw_house_window, area_glass), 1e-4, 1e4},
      {OF(pw_house_window, height), 0.0, 30.0},
      {OF(pw_house_window, width), 0.0, 100.0},
      {OF(pw_house_window, ua_other), -1e3, 1e5},
      {OF(pw_house_window, area_other), 0.0, 1e4},
      {OF(pw_house_window, solar_other), 0.0, 1e4},
      {OF(pw_house_window, overhang_depth), 0.0, 20.0},
      {OF(pw_house_window, overhang_gap), 0.0, 20.0},
      {OF(pw_house_window, reveal_depth), 0.0, 20.0},
      {OF(pw_house_window, fin_depth), 0.0, 20.0},
      {OF(pw_house_window, screen), 0.0, 1.0},
      {OF(pw_house_window, shade_factor), 0.0, 1.0},
      {"covered.pass", offsetof(pw_house_window, covered.pass[0]), 0.0, 1.0},
      {"covered.pass", offsetof(pw_house_window, covered.pass[1]), 0.0, 1.0},
      {"covered.closed", offsetof(pw_house_window, covered.closed[0]), 0.0, 1.0},
      {"covered.closed", offsetof(pw_house_window, covered.closed[1]), 0.0, 1.0},
      {OF(pw_house_window, covered.resistance), 0.0, 10.0},
      {OF(pw_house_window, open_area), 0.0, 1e4},
      {OF(pw_house_window, open_height), 0.0, 30.0}};
  const pw_house h = house_of();
  static pw_weather weather;
  static pw_year_result r;
  pw_glazing glazing = {0};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    for (int high = 0; high < 2; high++) {
      pw_house_window w[2] = {{.area_glass = 1.0, .glazing = &glazing}, {.area_glass = 1.0}};
      pw_err err = {0};
      /* at its limit it is no reason: what is then refused is the second window's glazing, which is none */
      set(&w[0], row[i].offset, high ? row[i].high : row[i].low);
      assert_int_equal(pw_year_run(&h, &weather, w, 2, NULL, NULL, &r, &err), PW_E_SHAPE);
      assert_string_equal(err.field, "glazing");
      set(&w[0], row[i].offset, past(high ? row[i].high : row[i].low, high ? 1.0 : -1.0));
      if (pw_year_run(&h, &weather, w, 2, NULL, NULL, &r, &err) != PW_E_DOMAIN)
        fail_msg("past %s", row[i].field);
      assert_string_equal(err.field, row[i].field);
    }
  static const struct {
    pw_year_options o;
    const char *field;
  } bad[] = {{{.steps_per_hour = 13}, "steps_per_hour"},
             {{.steps_per_hour = -1}, "steps_per_hour"},
             {{.warm_up_days = 366}, "warm_up_days"},
             {{.warm_up_days = -1}, "warm_up_days"},
             {{.lanes = 3}, "lanes"},
             {{.lanes = 16}, "lanes"},
             {{.lanes = -1}, "lanes"},
             {{.method = (pw_year_method)3}, "method"}};
  for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
    pw_err err = {0};
    assert_int_equal(pw_year_run(&h, &weather, NULL, 0, &bad[i].o, NULL, &r, &err),
                     PW_E_DOMAIN);
    assert_string_equal(err.field, bad[i].field);
  }
}

/* Hours of weather: above -90 and below 70 C, above 300 and below 1200 hPa, wind from 0 and under 120 m/s; the first and the last are looked at. */
static void an_hour_is_held_to_its_limits(void **state)
{
  (void)state;
  static const struct {
    size_t offset;
    float bad, good;
  } row[] = {{offsetof(pw_hour, t_air), -90.0f, -89.9f},
             {offsetof(pw_hour, t_air), 70.0f, 69.9f},
             {offsetof(pw_hour, pressure), 30000.0f, 30001.0f},
             {offsetof(pw_hour, pressure), 120000.0f, 119999.0f},
             {offsetof(pw_hour, wind), -0.01f, 0.0f},
             {offsetof(pw_hour, wind), 120.0f, 119.9f}};
  static pw_weather w;
  static pw_year_result r;
  const pw_house h = house_of();
  const pw_year_options quick = {.method = PW_YEAR_QUICK};
  w.site = (pw_site){"x", 40.0, -105.0, -7.0, 0.0};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    for (int at = 0; at < PW_HOURS; at += PW_HOURS - 1) {
      pw_err err = {0};
      for (int k = 0; k < PW_HOURS; k++)
        w.hour[k] = (pw_hour){.t_air = 10.0f,
                              .t_dew = 5.0f,
                              .pressure = 1e5f,
                              .wind = 2.0f,
                              .ceiling = -1.0f,
                              .ir_down = -1.0f,
                              .albedo = -1.0f};
      memcpy((char *)&w.hour[at] + row[i].offset, &row[i].bad, sizeof row[i].bad);
      assert_int_equal(pw_year_run(&h, &w, NULL, 0, &quick, NULL, &r, &err), PW_E_DOMAIN);
      assert_string_equal(err.field, "weather");
      char want[32];
      snprintf(want, sizeof want, "hour %d:", at);
      assert_non_null(strstr(err.text, want));
      memcpy((char *)&w.hour[at] + row[i].offset, &row[i].good, sizeof row[i].good);
      assert_int_equal(pw_year_run(&h, &w, NULL, 0, &quick, NULL, &r, &err), PW_OK);
    }
  pw_err err = {0};
  w.state_late_h = 1.01;
  assert_int_equal(pw_year_run(&h, &w, NULL, 0, &quick, NULL, &r, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "state_late_h");
}

/* The nearest of eight facades, each 45 degrees wide. */
static void facades_by_their_compass(void **state)
{
  (void)state;
  static const struct {
    double facing;
    int facade;
  } row[] = {{0, 0},     {22.4, 0}, {22.6, 1},  {45, 1},    {90, 2},  {112.4, 2},
             {180, 4},   {270, 6},  {337.4, 7}, {337.6, 0}, {360, 0}, {-45, 7},
             {-22.4, 0}, {-360, 0}, {720, 0},   {405, 1},   {-181, 4}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    assert_int_equal(pw_year_facade(row[i].facing), row[i].facade);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_house_is_held_to_its_limits),
      cmocka_unit_test(set_points_and_counts),
      cmocka_unit_test(a_window_is_held_to_its_limits),
      cmocka_unit_test(facades_by_their_compass),
      cmocka_unit_test(an_hour_is_held_to_its_limits),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
