/* src/house where it is seldom: facts that do not fit a house, an envelope that is told, words and places beyond the list, a workspace
 * that meets another site, hours asked of the plain methods. By hand, by symmetry or by a second way beside each. */
#include "support.h"

#include "halved_year.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "house/airing.h"
#include "house/covering.h"
#include "house/duct.h"
#include "house/film.h"
#include "house/ground.h"
#include "house/infiltration.h"
#include "house/leakage.h"
#include "house/monthly.h"
#include "house/sash_leak.h"
#include "house/simple.h"
#include "panewright/house_facts.h"
#include "panewright/lites.h"
#include "panewright/year.h"

#define COUNT(a) (sizeof(a) / sizeof(a)[0])

static pw_weather *weather; /* a year with a warm and a cold half, one light hour a day */
static pw_glazing glass;

/* ---------------------------------------------------------------- facts */

static pw_house_facts usual_facts(void)
{
  pw_house_facts f;
  pw_house_init(&f);
  f.floor_area.value = 100.0; /* one storey, 10 m square; walls 24.4 m2 each */
  f.ceiling_height.value = 2.44;
  f.year_built = 1970;
  return f;
}

static void facts_that_make_no_house(void **state)
{
  (void)state;
  const pw_house_hole some = {180.0, 10.0}, all = {180.0, 24.4};
  static const struct {
    const char *wall, *roof, *floor, *field;
    int storeys, hole; /* 0 some, 1 all of a wall */
    double envelope, ceiling, gain;
    pw_status status;
  } row[] = {{"", "", "", NULL, 1, 0, 0, 2.44, 5.0, PW_OK},
             {"", "", "crawl", NULL, 1, 0, 0, 2.44, 5.0, PW_OK},
             {"brick", "", "", "wall", 1, 0, 0, 2.44, 5.0, PW_E_DATA},
             {"", "thatch", "", "roof", 1, 0, 0, 2.44, 5.0, PW_E_DATA},
             {"", "", "earth", "floor", 1, 0, 0, 2.44, 5.0, PW_E_DATA},
             {"", "", "", "storeys", 0, 0, 0, 2.44, 5.0, PW_E_DOMAIN},
             {"", "", "", "openings", 1, 1, 0, 2.44, 5.0, PW_E_DOMAIN},
             {"", "", "", "envelope_ua", 1, 0, 1e5, 2.44, 5.0, PW_E_DOMAIN},
             {"", "", "", "envelope_ua", 1, 0, 1.0, 2.44, 5.0, PW_E_DOMAIN},
             {"", "", "", "gain_w", 1, 0, 0, 2.44, 1e9, PW_E_DOMAIN}};
  for (size_t i = 0; i < COUNT(row); i++) {
    pw_house_facts f = usual_facts();
    pw_house h = {.floor_area = 77.0};
    pw_err err = {.field = NULL};
    strcpy(f.wall, row[i].wall), strcpy(f.roof, row[i].roof), strcpy(f.floor, row[i].floor);
    f.storeys = row[i].storeys;
    f.envelope_ua.value = row[i].envelope;
    f.internal_gain = (pw_given){.value = row[i].gain, .origin = PW_ORIGIN_MEASURED};
    pw_status s =
        pw_house_from_facts(&f, weather, row[i].hole ? &all : &some, 1, &h, NULL, &err);
    if (s != row[i].status) fail_msg("row %zu: status %d, %s", i, (int)s, err.text);
    if (s == PW_OK) continue;
    assert_string_equal(err.field, row[i].field);
    assert_true(h.floor_area == 77.0);
  }
}

/* A told envelope is met, better or worse than the presets', whatever they are. */
static void a_told_envelope_is_met(void **state)
{
  (void)state;
  static const double told[] = {60.0, 150.0, 400.0};
  static const char *const floor[] = {"slab", "crawl"};
  for (size_t k = 0; k < COUNT(floor); k++)
    for (size_t i = 0; i < COUNT(told); i++) {
      pw_house_facts f = usual_facts();
      pw_house h, plain;
      double air = 0.0, ground = 0.0;
      pw_err err = {0};
      strcpy(f.floor, floor[k]);
      strcpy(f.wall,
             "stucco_bare"); /* its widest layer is air between studs, the roof's a quilt */
      assert_int_equal(pw_house_from_facts(&f, weather, NULL, 0, &plain, NULL, NULL), PW_OK);
      f.envelope_ua.value = told[i];
      if (pw_house_from_facts(&f, weather, NULL, 0, &h, NULL, &err) != PW_OK)
        fail_msg("%s, %g: %s", floor[k], told[i], err.text);
      pw_house_ua(&h, &air, &ground);
      pw_assert_near(air + ground, told[i], 0.01 * told[i], "W/K", "as told");
      for (size_t p = 0; p < h.n_part; p++)
        if (h.part[p].outside == PW_OUTSIDE_SAME)
          assert_memory_equal(&h.part[p].layers, &plain.part[p].layers,
                              sizeof h.part[p].layers);
    }
}

/* ---------------------------------------------------------------- air */

static void what_does_not_open_has_no_area(void **state)
{
  (void)state;
  pw_lites l;
  pw_openable o = {77.0, 77.0};
  assert_int_equal(pw_lites_cut(PW_SLIDER, "XO", 1.2, 1.0, 0.02, 0.05, 0.04, &l, NULL), PW_OK);
  pw_lites still = l, none = l, fixed = l;
  for (size_t i = 0; i < still.n_lite; i++)
    still.lite[i].moving = 0;
  none.n_lite = 0;
  fixed.operator_ = PW_FIXED;
  const pw_lites *row[] = {&still, &none, &fixed};
  for (size_t i = 0; i < COUNT(row); i++) {
    pw_openable_of(row[i], 0, &o);
    assert_true(o.area == 0.0 && o.height == 0.0);
  }
  pw_openable_of(&l, 0, &o);
  assert_true(o.area > 0.0);
  pw_openable_of(&l, 1, &o);
  assert_true(o.area == 0.0);
}

/* Rules of the header: with nothing indoors told it is 20 C inside; a house of no volume has no air changes told. */
static void a_leak_with_less_told(void **state)
{
  (void)state;
  pw_leak_year told, left;
  const pw_leak_site site = {1, 3, 20.0}, bare = {0};
  assert_int_equal(pw_leak_of_year(0.1, &site, weather, 250.0, &told, NULL), PW_OK);
  assert_int_equal(pw_leak_of_year(0.1, &bare, weather, 0.0, &left, NULL), PW_OK);
  pw_assert_near(left.flow_mean, told.flow_mean, 0.0, "m3/s", "defaults written out");
  pw_assert_near(left.heat_kwh, told.heat_kwh, 0.0, "kWh", "defaults written out");
  assert_true(left.changes_1_h == 0.0 && told.changes_1_h > 0.0);
}

/* AIM-2 as its paper has it: wind passes a crawl space's walls less than a slab's, and a flue takes part of the wind's way: without
 * wind all four are led by the stack alone, which a crawl space does not change. */
static void a_crawl_space_and_a_flue_change_the_wind(void **state)
{
  (void)state;
  for (int flue = 0; flue < 2; flue++)
    for (int storeys = 1; storeys <= 3; storeys++) {
      pw_infiltration_site slab = {.height = 2.5 * storeys,
                                   .storeys = storeys,
                                   .shield = 3,
                                   .terrain = 3,
                                   .level = 0.5,
                                   .flue = flue};
      pw_infiltration_site crawl = slab;
      crawl.crawl = 1;
      pw_assert_near(pw_aim2(0.01, &crawl, 20.0, 0.0), pw_aim2(0.01, &slab, 20.0, 0.0), 1e-15,
                     "m3/s", "stack alone");
      assert_true(pw_aim2(0.01, &crawl, 0.0, 5.0) < pw_aim2(0.01, &slab, 0.0, 5.0));
    }
}

/* ---------------------------------------------------------------- words, places */

static void beyond_the_list_there_is_no_word(void **state)
{
  (void)state;
  assert_string_equal(pw_covering_name(PW_COVERING_DRAPES), "drapes");
  assert_string_equal(pw_covering_name(PW_COVERING_COUNT), "");
  assert_string_equal(pw_duct_place_name(PW_DUCTS_CRAWL), "crawl");
  assert_string_equal(pw_duct_place_name(PW_DUCT_PLACES), "");
  assert_string_equal(pw_sash_state_name(PW_SASH_STATES), pw_sash_state_name((pw_sash_state)0));
  pw_covered c;
  const pw_covering none[] = {PW_COVERING_BLANK, PW_COVERING_NONE, PW_COVERING_COUNT};
  for (size_t i = 0; i < COUNT(none); i++) { /* no covering: all of the sun, no film */
    pw_covering_of(none[i], 1, &glass, &c);
    assert_true(c.pass[0] == 1.0 && c.pass[1] == 1.0 && c.resistance == 0.0);
    assert_true(c.closed[0] == 0.0 && c.closed[1] == 0.0);
  }
}

/* Where no hour heats, the season is taken at the rooms' own balance: 3 K under them; where none cools, at the rooms. */
static void ducts_of_a_place_without_a_season(void **state)
{
  (void)state;
  pw_weather *w = calloc(1, sizeof *w);
  pw_duct_season s;
  assert_non_null(w);
  for (int i = 0; i < PW_HOURS; i++)
    w->hour[i].t_air = 30.0f;
  pw_duct_season_of(PW_DUCTS_INSIDE, 0, 100.0, 21.0, w, &s);
  pw_assert_near(s.t_out, 18.0, 1e-12, "no heating", "21 less 3");
  for (int i = 0; i < PW_HOURS; i++)
    w->hour[i].t_air = -10.0f;
  pw_duct_season_of(PW_DUCTS_INSIDE, 1, 100.0, 25.0, w, &s);
  pw_assert_near(s.t_out, 25.0, 1e-12, "no cooling", "the rooms'");
  free(w);
}

/* ISO 13370 9.1: where the slab is as good as more soil than half its side, U = soil / (0.457 B' + d_t). Side 2 m, R 2:
 * d_t = 0.15 + 2 (0.17 + 2 + 0.04) = 4.57 m above B' 1 m: U = 2 / 5.027 = 0.398; less slab and film 1/U - 2.17 = 0.3435. */
static void a_small_slab_by_the_other_line(void **state)
{
  (void)state;
  pw_assert_near(ground_soil_resistance(2.0, 2.0), 0.3435, 1e-4, "m2 K/W", "by hand");
}

/* ISO 13790 12.2.1: gains against losses that are none: 1 / gamma; losses against them: all or nothing. */
static void months_at_the_ends_of_the_line(void **state)
{
  (void)state;
  pw_assert_near(pw_month_gain_use(-2.0, 3.0), -0.5, 1e-15, "gains", "12.2.1.1");
  pw_assert_near(pw_month_loss_use(-2.0, 3.0), 1.0, 1e-15, "losses", "12.2.1.2");
  pw_assert_near(pw_month_loss_use(0.0, 3.0), 0.0, 1e-15, "losses", "12.2.1.2");
  double heat = 7.0,
         cool = 7.0; /* no loss at all: 10 C outdoors and in, all the gains are to be cooled */
  const pw_month_balance m = {720.0, 10.0, (double)NAN, 10.0, 100.0, 0.0, 50.0, 0.0, 40.0};
  assert_int_equal(pw_month_need(&m, &heat, &cool, NULL), PW_OK);
  pw_assert_near(heat, 0.0, 0.0, "kWh", "off");
  pw_assert_near(cool, 50.0, 1e-12, "kWh", "all gains");
  const pw_month_balance endless = {720.0, 10.0, 20.0, 26.0, INFINITY, 0.0, 50.0, 0.0, 40.0};
  assert_int_equal(pw_month_need(&endless, &heat, &cool, NULL), PW_E_DOMAIN);
}

/* ISO 13790 annex C with neither air nor window nor opaque loss: nothing leaves, so gains warm the mass alone. */
static void a_house_that_loses_nothing_keeps_its_gains(void **state)
{
  (void)state;
  const pw_simple s = {.floor_area = 100.0, .mass_area = 250.0, .mass_store = 3.6e6};
  const pw_simple_drive d = {0.0, 0.0, 500.0, 0.0, (double)NAN, (double)NAN};
  pw_simple_net net;
  pw_simple_hour hour;
  double t = 20.0;
  assert_int_equal(pw_simple_init(&s, &net, NULL), PW_OK);
  assert_true(net.h_1 == 0.0 && net.h_2 == 0.0 && net.h_3 == 0.0 && net.h_em == 0.0);
  pw_simple_step(&s, &net, &d, &t, &hour);
  pw_assert_near(t, 20.5, 1e-9, "mass", "500 Wh into 1000 Wh/K");
}

/* Power law: the layer is 270 m in open country, 370 m in a suburb, 460 m in town; handbook, from memory. At 10 m in the open: 1. */
static void wind_at_the_wall(void **state)
{
  (void)state;
  pw_assert_near(film_wind_share(10.0, 0.14), 1.0, 1e-12, "open", "the mast's own");
  pw_assert_near(film_wind_share(1.5, 0.22), pow(27.0, 0.14) * pow(1.5 / 370.0, 0.22), 1e-12,
                 "suburb", "by hand");
  pw_assert_near(film_wind_share(1.5, 0.33), pow(27.0, 0.14) * pow(1.5 / 460.0, 0.33), 1e-12,
                 "town", "by hand");
  assert_true(film_wind_plate(0.0, 1.0, 1.0) == 0.0);
  const film_tilt floor = film_of_tilt(-1.0, 1.0), roof = film_of_tilt(1.0, 1.0);
  assert_true(film_natural(&roof, 5.0) >
              film_natural(&roof, -5.0)); /* warm air rises from a warm roof */
  assert_true(film_natural(&floor, -5.0) > film_natural(&floor, 5.0));
}

/* ---------------------------------------------------------------- years */

static pw_house small_house(void)
{
  pw_house_facts f = usual_facts();
  pw_house h;
  assert_int_equal(pw_house_from_facts(&f, weather, NULL, 0, &h, NULL, NULL), PW_OK);
  return h;
}

static pw_house_window south(void)
{
  return (pw_house_window){
      .facing_deg = 180.0, .area_glass = 4.0, .glazing = &glass, .ua_other = 2.0};
}

static void live(const pw_house *h, const pw_house_window *w, pw_year_options o,
                 pw_year_workspace *ws, pw_year_result *r)
{
  pw_err err = {0};
  if (pw_year_run(h, weather, w, 1, &o, ws, r, &err) != PW_OK) fail_msg("%s", err.text);
}

/* A workspace that comes to another site under the same address begins anew: any one number of the site tells it apart. */
static void a_workspace_knows_a_site_by_each_number(void **state)
{
  (void)state;
  static pw_year_result kept, fresh;
  const pw_house h = small_house();
  const pw_house_window w = south();
  const pw_site home = weather->site;
  pw_year_workspace *ws = pw_year_workspace_new();
  assert_non_null(ws);
  for (int k = 0; k < 5; k++) {
    live(&h, &w, (pw_year_options){.method = PW_YEAR_QUICK}, ws, &kept);
    if (k == 0) weather->site.latitude_deg += 5.0;
    if (k == 1) weather->site.longitude_deg += 5.0;
    if (k == 2) weather->site.tz_h += 1.0;
    if (k == 3) weather->site.elevation += 100.0;
    if (k == 4) strcpy(weather->site.name, "elsewhere");
    for (int i = 0; i < PW_HOURS; i++) /* another year: what was kept would show */
      weather->hour[i].t_air += 1.0f;
    live(&h, &w, (pw_year_options){.method = PW_YEAR_QUICK}, ws, &kept);
    live(&h, &w, (pw_year_options){.method = PW_YEAR_QUICK}, NULL, &fresh);
    assert_memory_equal(&kept, &fresh, sizeof kept);
  }
  weather->site = home;
  for (int i = 0; i < PW_HOURS; i++)
    weather->hour[i].t_air -= 5.0f;
  pw_year_workspace_free(ws);
  pw_year_workspace_free(NULL);
}

/* Hours of the simple method are those of its year: each asked alone, and all. */
static void hours_of_the_simple_method_make_its_year(void **state)
{
  (void)state;
  static float hour[8][PW_HOURS];
  static pw_year_result r;
  const pw_house h = small_house();
  const pw_house_window w = south();
  for (int only = -1; only < 8; only++) {
    pw_year_hours hours = {0};
    float **at[] = {&hours.heating_w, &hours.cooling_w, &hours.t_air_c,     &hours.t_radiant_c,
                    &hours.window_w,  &hours.solar_w,   &hours.transmitted, &hours.incident};
    double sum[8] = {0};
    for (int k = 0; k < 8; k++)
      if (only < 0 || only == k) *at[k] = hour[k];
    memset(hour, 0, sizeof hour);
    live(&h, &w,
         (pw_year_options){.method = PW_YEAR_SIMPLE, .hours = &hours, .warm_up_days = 3}, NULL,
         &r);
    for (int k = 0; k < 8; k++)
      for (int i = 0; i < PW_HOURS; i++)
        sum[k] += (double)hour[k][i];
    const double want[] = {1e3 * r.heating_kwh,
                           1e3 * r.cooling_kwh,
                           PW_HOURS * r.t_air_mean_c,
                           (double)NAN,
                           1e3 * (r.solar_kwh - r.window_loss_kwh),
                           1e3 * r.solar_kwh,
                           1e3 * r.window[0].transmitted_kwh,
                           1e3 * r.window[0].incident_kwh};
    for (int k = 0; k < 8; k++) {
      if (only >= 0 && only != k)
        assert_true(sum[k] == 0.0);
      else if (k == 3)
        assert_true(sum[k] / PW_HOURS > 0.0 && sum[k] / PW_HOURS < 40.0);
      else
        pw_assert_near(sum[k], want[k], 1e-3 * fabs(want[k]) + 1.0, "sum of the hours",
                       "the year");
    }
  }
}

/* Glass that takes none of the sun hands none inward, and a window may lie in a roof: more sky, more loss to it, by every method. */
static void odd_windows_live_by_every_method(void **state)
{
  (void)state;
  static pw_year_result wall, roof;
  const pw_house h = small_house();
  pw_glazing clear = glass;
  memset(clear.light.absorbed, 0, sizeof clear.light.absorbed);
  for (int m = PW_YEAR_DETAILED; m <= (int)PW_YEAR_QUICK; m++) {
    pw_house_window w = south();
    w.glazing = &clear;
    w.height = 2.0, w.width = 2.0;
    live(&h, &w, (pw_year_options){.method = (pw_year_method)m}, NULL, &wall);
    w.tilt_deg = 30.0;
    live(&h, &w, (pw_year_options){.method = (pw_year_method)m}, NULL, &roof);
    assert_true(isfinite(wall.heating_kwh) && isfinite(roof.heating_kwh));
    assert_true(roof.window[0].incident_kwh >
                wall.window[0].incident_kwh); /* the sun stands at noon in summer too */
  }
}

/* A part under eaves without a height has none counted; with one it gets less sun, and so heats more. */
static void eaves_want_a_height(void **state)
{
  (void)state;
  static pw_year_result bare, none, shaded;
  pw_house h = small_house();
  const pw_house_window w = south();
  live(&h, &w, (pw_year_options){.method = PW_YEAR_QUICK}, NULL, &bare);
  for (size_t i = 0; i < 4; i++)
    h.part[i].overhang_depth = 2.0;
  live(&h, &w, (pw_year_options){.method = PW_YEAR_QUICK}, NULL, &none);
  assert_true(none.heating_kwh == bare.heating_kwh);
  for (size_t i = 0; i < 4; i++)
    h.part[i].height = 2.44;
  live(&h, &w, (pw_year_options){.method = PW_YEAR_QUICK}, NULL, &shaded);
  assert_true(shaded.heating_kwh > bare.heating_kwh);
}

/* Houses that stand otherwise in the wind are not lived in side by side, and come out as alone. */
static void houses_in_another_wind_part(void **state)
{
  (void)state;
  static pw_year_result alone[6], beside[6];
  const pw_house_window w = south();
  pw_house house[6];
  pw_year_lane lane[6];
  for (size_t i = 0; i < 6; i++)
    house[i] = small_house();
  house[1].film_out = PW_FILM_OUT_LEE;
  house[2].height = 6.0;
  house[3].terrain = 0.33;
  house[4].n_part--;
  house[5].part[0].outside = PW_OUTSIDE_SAME;
  for (size_t i = 0; i < 6; i++) {
    lane[i] = (pw_year_lane){&house[i], &w, NULL, &beside[i]};
    live(&house[i], &w, (pw_year_options){.warm_up_days = 1}, NULL, &alone[i]);
  }
  const pw_year_options o = {.warm_up_days = 1};
  assert_int_equal(pw_year_run_beside(lane, 6, weather, 1, &o, NULL, NULL, NULL), PW_OK);
  for (size_t i = 0; i < 6; i++) {
    assert_memory_equal(&beside[i], &alone[i], sizeof alone[i]);
    if (i > 0) assert_true(alone[i].heating_kwh != alone[0].heating_kwh);
  }
}

int main(void)
{
  pw_test_begin();
  weather = halved_year(0.0f, 22.0f, &glass);
  if (!weather) return 1;
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(facts_that_make_no_house),
      cmocka_unit_test(a_told_envelope_is_met),
      cmocka_unit_test(what_does_not_open_has_no_area),
      cmocka_unit_test(a_leak_with_less_told),
      cmocka_unit_test(a_crawl_space_and_a_flue_change_the_wind),
      cmocka_unit_test(beyond_the_list_there_is_no_word),
      cmocka_unit_test(ducts_of_a_place_without_a_season),
      cmocka_unit_test(a_small_slab_by_the_other_line),
      cmocka_unit_test(months_at_the_ends_of_the_line),
      cmocka_unit_test(a_house_that_loses_nothing_keeps_its_gains),
      cmocka_unit_test(wind_at_the_wall),
      cmocka_unit_test(a_workspace_knows_a_site_by_each_number),
      cmocka_unit_test(hours_of_the_simple_method_make_its_year),
      cmocka_unit_test(odd_windows_live_by_every_method),
      cmocka_unit_test(eaves_want_a_height),
      cmocka_unit_test(houses_in_another_wind_part),
  };
  int failed = cmocka_run_group_tests(tests, NULL, NULL);
  free(weather);
  return failed;
}
