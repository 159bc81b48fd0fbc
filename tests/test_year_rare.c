/* Years of src/house where they are seldom: windows open in the simple method, parts and windows of nothing, many walls, another ground
 * before the house. By a property or by a second way beside each. */
#include "support.h"

#include "halved_year.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "house/airing.h"
#include "house/open_window.h"
#include "house/preset.h"
#include "panewright/house_facts.h"
#include "panewright/year.h"

static pw_weather *weather; /* a cool and a warm half, sun at noon */
static pw_glazing glass;

static pw_house house_of(const char *floor)
{
  pw_house_facts f;
  pw_house h;
  pw_house_init(&f);
  f.floor_area.value = 100.0;
  f.year_built = 1970;
  strcpy(f.floor, floor);
  strcpy(f.roof, "attic_r30");
  strcpy(f.wall, "stucco_bare");
  assert_int_equal(pw_house_from_facts(&f, weather, NULL, 0, &h, NULL, NULL), PW_OK);
  return h;
}

static pw_house_window south(void)
{
  return (pw_house_window){.facing_deg = 180.0,
                           .area_glass = 6.0,
                           .glazing = &glass,
                           .ua_other = 2.0,
                           .open_area = 2.0,
                           .open_height = 1.0};
}

static void live(const pw_house *h, const pw_house_window *w, pw_year_options o,
                 pw_year_workspace *ws, pw_year_result *r)
{
  pw_err err = {0};
  if (pw_year_run(h, weather, w, 1, &o, ws, r, &err) != PW_OK) fail_msg("%s", err.text);
}

/* ---------------------------------------------------------------- airing by the simple method */

/* Windows that stand open in warm hours take heat out: the house without cooling is less often warm. They stay shut where it is too damp
 * outdoors, where the rule is never met, and in a cooled house once the air alone would not hold. */
static void open_windows_of_the_simple_method(void **state)
{
  (void)state;
  static pw_year_result shut, open, damp, never, cooled;
  const pw_year_options o = {.method = PW_YEAR_SIMPLE};
  const pw_house_window w = south();
  pw_house h = house_of("slab");
  for (int i = 0; i < 24; i++)
    h.cool_set_c[i] = (double)NAN;
  h.warm_c = 25.0;
  h.gain_w = 2000.0;
  live(&h, &w, o, NULL, &shut);
  assert_true(shut.hours_open == 0.0 && shut.airing_kwh == 0.0 && shut.open_m3_s == 0.0);
  pw_airing_of(PW_AIRING_ALWAYS, 21.0, (double)NAN, &h.airing);
  live(&h, &w, o, NULL, &open);
  assert_true(open.hours_open > 500.0 && open.airing_kwh > 0.0 && open.open_m3_s > 0.0);
  assert_true(open.t_air_max_c < shut.t_air_max_c && open.hours_warm < shut.hours_warm);
  pw_house other = h;
  other.airing.dew_most_c = -50.0;
  live(&other, &w, o, NULL, &damp);
  assert_true(damp.hours_open == 0.0 && damp.heating_kwh == shut.heating_kwh);
  other = h;
  other.airing.over_out = 50.0;
  live(&other, &w, o, NULL, &never);
  assert_true(never.hours_open == 0.0);
  other = h;
  for (int i = 0; i < 24; i++)
    other.cool_set_c[i] = 24.0;
  for (int i = 0; i < PW_HOURS; i++)
    weather->hour[i].t_air +=
        i < 4380 ? 0.0f : 12.0f; /* 32 C: air from outdoors does not cool */
  live(&other, &w, o, NULL, &cooled);
  for (int i = 0; i < PW_HOURS; i++)
    weather->hour[i].t_air -= i < 4380 ? 0.0f : 12.0f;
  assert_true(cooled.cooling_kwh > 0.0 && cooled.hours_open < open.hours_open);
}

/* A lone gust of gains that would be drawn to: the rooms are not cooled below the rule's temperature by open windows. */
static void windows_are_drawn_to_in_time(void **state)
{
  (void)state;
  static pw_year_result r;
  static float t[PW_HOURS];
  pw_year_hours hours = {.t_air_c = t};
  const pw_house_window w = south();
  pw_house h = house_of("slab");
  for (int i = 0; i < 24; i++)
    h.cool_set_c[i] = (double)NAN;
  h.gain_w = 6000.0; /* warm in winter too, with 2 C outdoors */
  pw_airing_of(PW_AIRING_ALWAYS, 21.0, (double)NAN, &h.airing);
  live(&h, &w, (pw_year_options){.method = PW_YEAR_SIMPLE, .hours = &hours}, NULL, &r);
  assert_true(r.hours_open > 4000.0);
  for (int i = 48; i < PW_HOURS; i++)
    if ((double)t[i] < h.airing.down_to_c - 0.05 && (double)t[i] > h.heat_set_c[12] + 0.05 &&
        (double)t[i - 1] > h.airing.down_to_c)
      fail_msg("hour %d: cooled to %g C, rule %g C", i, (double)t[i], h.airing.down_to_c);
}

/* Without a part over air that looks down, and with one: the sky takes nothing from a face that does not see it. */
static void a_floor_over_air_sees_no_sky(void **state)
{
  (void)state;
  static pw_year_result level, down;
  const pw_house_window w = south();
  pw_house h = house_of("crawl");
  size_t floor = 0;
  while (!h.part[floor].floor)
    floor++;
  assert_true(h.part[floor].tilt_deg == 180.0 && h.part[floor].outside == PW_OUTSIDE_AIR);
  h.part[floor].absorptance = 0.0;
  live(&h, &w, (pw_year_options){.method = PW_YEAR_QUICK}, NULL, &down);
  h.part[floor].tilt_deg = 0.0; /* the same turned to the sky loses more */
  live(&h, &w, (pw_year_options){.method = PW_YEAR_QUICK}, NULL, &level);
  assert_true(level.heating_kwh > down.heating_kwh);
}

/* ---------------------------------------------------------------- nothing, defaults */

/* A part of no area changes nothing; height and terrain not given are those of zone.h, 1.5 m and 0.22. */
static void nothing_adds_nothing(void **state)
{
  (void)state;
  static pw_year_result a, b;
  const pw_house_window w = south();
  pw_house h = house_of("slab"), more = h;
  more.part[more.n_part] = more.part[0];
  more.part[more.n_part++].area = 0.0;
  live(&h, &w, (pw_year_options){0}, NULL, &a);
  live(&more, &w, (pw_year_options){0}, NULL, &b);
  pw_assert_near(b.heating_kwh, a.heating_kwh, 1e-6 * a.heating_kwh, "heating", "no area");
  pw_assert_near(b.cooling_kwh, a.cooling_kwh, 1e-6 * a.cooling_kwh + 1e-6, "cooling",
                 "no area");
  pw_house told = h;
  h.height = h.terrain = 0.0;
  told.height = 1.5, told.terrain = 0.22;
  live(&h, &w, (pw_year_options){0}, NULL, &a);
  live(&told, &w, (pw_year_options){0}, NULL, &b);
  assert_memory_equal(&a, &b, sizeof a);
}

/* One workspace, two grounds before the same house: each comes out as in a workspace of its own; snow brings more sun. */
static void each_ground_has_its_own_facade(void **state)
{
  (void)state;
  static pw_year_result kept[2], fresh;
  const pw_house_window w = south();
  pw_house h = house_of("slab");
  pw_year_workspace *ws = pw_year_workspace_new();
  assert_non_null(ws);
  for (int k = 0; k < 2; k++) {
    h.albedo = k ? 0.7 : 0.2;
    live(&h, &w, (pw_year_options){.method = PW_YEAR_QUICK}, ws, &kept[k]);
    live(&h, &w, (pw_year_options){.method = PW_YEAR_QUICK}, NULL, &fresh);
    assert_memory_equal(&kept[k], &fresh, sizeof fresh);
  }
  assert_true(kept[1].window[0].incident_kwh > kept[0].window[0].incident_kwh);
  pw_year_workspace_free(ws);
}

/* More different walls than a workspace keeps: it forgets them and goes on; the last house comes out as in a workspace of its own. */
static void a_workspace_forgets_walls(void **state)
{
  (void)state;
  static pw_year_result kept, fresh;
  const pw_house_window w = south();
  pw_house h = house_of("slab");
  pw_year_workspace *ws = pw_year_workspace_new();
  assert_non_null(ws);
  while (h.n_part < PW_PARTS_MAX) {
    h.part[h.n_part] = h.part[0];
    h.part[h.n_part++].area = 1.0;
  }
  for (int k = 0; k < 18; k++) { /* 24 new walls a house, room for 384 */
    for (size_t i = 0; i < h.n_part; i++)
      h.part[i].layers.layer[0].resistance = 0.2 + 0.001 * (double)i + 0.03 * k,
      h.part[i].layers.layer[0].thickness = 0.0;
    live(&h, &w, (pw_year_options){.warm_up_days = 1}, ws, &kept);
  }
  live(&h, &w, (pw_year_options){.warm_up_days = 1}, NULL, &fresh);
  assert_memory_equal(&kept, &fresh, sizeof kept);
  pw_year_workspace_free(ws);
}

/* ---------------------------------------------------------------- small things */

/* The last row of the table for wide sashes: 0.548 (1 - exp(-0.038 a)) from a width of twice the height on. */
static void a_wide_sash_discharges_by_the_last_row(void **state)
{
  (void)state;
  pw_assert_near(pw_hinged_cd(3.0, 1.0, 45.0), 0.548 * (1.0 - exp(-0.038 * 45.0)), 1e-9, "cd",
                 "last row");
  pw_assert_near(pw_hinged_cd(2.0, 1.0, 45.0), pw_hinged_cd(5.0, 1.0, 45.0), 0.0, "cd",
                 "last row");
  assert_true(pw_hinged_cd(1.9, 1.0, 45.0) != pw_hinged_cd(2.0, 1.0, 45.0));
}

/* A year before all vintages has no wall of its own. */
static void a_year_before_all_is_no_vintage(void **state)
{
  (void)state;
  pw_preset p;
  pw_err err;
  assert_int_equal(pw_preset_find(0, "", -5, &p, &err), PW_E_DATA);
  assert_string_equal(err.field, "wall");
  assert_int_equal(pw_preset_find(0, "", 10000, &p, &err), PW_E_DATA);
}

int main(void)
{
  pw_test_begin();
  weather = halved_year(2.0f, 20.0f, &glass);
  if (!weather) return 1;
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(open_windows_of_the_simple_method),
      cmocka_unit_test(windows_are_drawn_to_in_time),
      cmocka_unit_test(a_floor_over_air_sees_no_sky),
      cmocka_unit_test(nothing_adds_nothing),
      cmocka_unit_test(each_ground_has_its_own_facade),
      cmocka_unit_test(a_workspace_forgets_walls),
      cmocka_unit_test(a_wide_sash_discharges_by_the_last_row),
      cmocka_unit_test(a_year_before_all_is_no_vintage),
  };
  int failed = cmocka_run_group_tests(tests, NULL, NULL);
  free(weather);
  return failed;
}
