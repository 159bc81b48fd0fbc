/* house/year_simple: the hourly and the monthly method of ISO 13790 on a house small enough to be done by hand: a wall, a roof, a
 * slab, one row of windows; weather that is the same all year, with and without an even sky. The formulas of the methods
 * themselves are held to published values by `panewright check`; here is what goes into them and what is counted. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "panewright/year.h"

/* What the house is made of, by hand. Films of ISO 6946: wall 0.13 + 1 + 0.04, roof 0.10 + 2 + 0.04, slab 0.17 + 1 (m2 K/W).
 * Glass of rated U 2 and 3 m2, twice: outdoors 30.5 W/(m2 K) rated becomes 4 + 4.5 with no wind (ISO 6946: 4 + 4 v), so
 * 1 / (1/2 - 1/30.5 + 1/8.5) = 1.709810; frame 1.5 W/K each, kept as rated. Air 1006 J/(kg K) at 101 325 Pa and 20 C: 1.204107 kg/m3. */
static const double h_wall = 100.0 / 1.17, h_roof = 50.0 / 2.14, h_slab = 50.0 / 1.17,
                    h_window = 6.0 * 1.709810 + 3.0,
                    h_change = 1006.0 * 1.204107 * 120.0 / 3600.0;
/* Long-wave to the sky: 4.5 W/(m2 K) times 11 K behind 0.04 m2 K/W, half of the sky before what stands upright (ISO 13790 11.3.5). */
static const double sky_w =
    0.04 * 4.5 * 11.0 * (0.5 * 100.0 / 1.17 + 50.0 / 2.14 + 0.5 * (6.0 * 1.709810 + 3.0));

typedef struct fixture {
  pw_weather weather;
  pw_house house;
  pw_glazing glazing;
  pw_house_window window;
  pw_year_result r;
  float heat[PW_HOURS], cool[PW_HOURS], air[PW_HOURS], surface[PW_HOURS], net[PW_HOURS],
      sun[PW_HOURS], passed[PW_HOURS], incident[PW_HOURS];
} fixture;

/* Air of that temperature, and from 8 to 16 o'clock that much even light on the level. */
static fixture *by_hand(double t, double light)
{
  fixture *f = calloc(1, sizeof *f);
  assert_non_null(f);
  f->weather.site = (pw_site){"x", 40.0, -105.0, -7.0, 0.0};
  for (int i = 0; i < PW_HOURS; i++) {
    float day = i % 24 >= 8 && i % 24 < 16 ? (float)light : 0.0f;
    f->weather.hour[i] = (pw_hour){.t_air = (float)t,
                                   .t_dew = (float)t - 5.0f,
                                   .pressure = 101325.0f,
                                   .ghi = day,
                                   .dhi = day,
                                   .cloud = 0.0f,
                                   .cloud_total = 0.0f,
                                   .ceiling = -1.0f,
                                   .ir_down = -1.0f,
                                   .albedo = -1.0f};
  }
  pw_house *h = &f->house;
  static const struct {
    double resistance, area, tilt, absorptance;
    pw_outside outside;
  } part[] = {{1.0, 100.0, 90.0, 0.6, PW_OUTSIDE_AIR},
              {2.0, 50.0, 0.0, 0.8, PW_OUTSIDE_AIR},
              {1.0, 50.0, 180.0, 0.5, PW_OUTSIDE_GROUND}};
  for (size_t i = 0; i < 3; i++)
    h->part[i] =
        (pw_house_part){.layers = {.n_layer = 1, .layer = {{.resistance = part[i].resistance}}},
                        .area = part[i].area,
                        .tilt_deg = part[i].tilt,
                        .facing_deg = 180.0,
                        .outside = part[i].outside,
                        .absorptance = part[i].absorptance};
  h->n_part = 3;
  h->floor_area = 50.0;
  h->volume = 120.0;
  h->air_changes = 0.4;
  h->gain_w = 100.0;
  h->film_out = PW_FILM_OUT_PLAIN;
  h->mass_store = 1e11; /* so much that no gain is lost */
  for (int k = 0; k < 24; k++) {
    h->heat_set_c[k] = 20.0;
    h->cool_set_c[k] = 25.0;
    h->vent_changes[k] = k < 6 ? 0.8 : 0.0; /* 0.2 in the mean of the day */
  }
  for (int m = 0; m < 12; m++)
    h->ground_c[m] = 10.0;
  /* half of the sun passes at any angle, a quarter is taken up, and g is 0.6: 0.1 / 0.25 of that comes in */
  pw_glazing *g = &f->glazing;
  g->u_winter = 2.0;
  g->unit.n_pane = 1;
  g->unit.pane[0].thickness = 0.003;
  g->light.n_pane = 1;
  for (int a = 0; a < PW_ANGLES; a++) {
    g->light.tau_e[a] = 0.5;
    g->light.absorbed[0][a] = 0.25;
    g->shgc[a] = 0.6;
  }
  f->window = (pw_house_window){.facing_deg = 180.0,
                                .area_glass = 3.0,
                                .height = 1.5,
                                .width = 2.0,
                                .glazing = g,
                                .ua_other = 1.5,
                                .solar_other = 0.06,
                                .count = 2};
  return f;
}

static void live(fixture *f, pw_year_method method)
{
  pw_year_hours hours = {f->heat, f->cool, f->air,    f->surface,
                         f->net,  f->sun,  f->passed, f->incident};
  const pw_year_options o = {
      .method = method, .sky = PW_SKY_EVEN, .hours = method == PW_YEAR_SIMPLE ? &hours : NULL};
  pw_err err = {0};
  if (pw_year_run(&f->house, &f->weather, &f->window, 1, &o, NULL, &f->r, &err) != PW_OK)
    fail_msg("%s", err.text);
}

static double year_kwh(double watt) { return 8.76 * watt; }

/* Sun on one m2 of the south wall over the year, kWh. */
static double on_wall(const fixture *f) { return f->r.window[0].incident_kwh / 6.0; }

/* Sun through the windows: 0.5 + 0.1 of what falls on 6 m2 of glass, and on 2 x 0.06 m2 of frame. Even light on an upright face with an
 * albedo of 0.2: half of the sky and a tenth from the ground, 0.6 of the level. */
static void the_sun_of_the_windows(void **state)
{
  (void)state;
  for (int m = PW_YEAR_SIMPLE; m <= PW_YEAR_QUICK; m++) {
    fixture *f = by_hand(-5.0, 200.0);
    live(f, (pw_year_method)m);
    const pw_year_window *w = &f->r.window[0];
    double level = 0.2 * 8.0 * 365.0, months = 0.0;
    pw_assert_near(on_wall(f), 0.6 * level, 0.02 * level, "on a m2",
                   "even sky"); /* low sun is cut */
    pw_assert_near(w->transmitted_kwh, 0.5 * w->incident_kwh, 1e-4 * w->incident_kwh, "passed",
                   "half");
    pw_assert_near(w->solar_kwh, (0.6 + 0.12 / 6.0) * w->incident_kwh, 1e-4 * w->incident_kwh,
                   "gained", "g and the frame");
    for (int k = 0; k < 12; k++)
      months += w->solar_month_kwh[k];
    pw_assert_near(months, w->solar_kwh, 1e-6 * months, "months", "sum");
    pw_assert_near(w->solar_month_kwh[0] / w->solar_month_kwh[1], 31.0 / 28.0, 0.03, "January",
                   "by its days");
    free(f);
  }
}

/* By the month: all that is lost at 25 K, to a slab at 10 K, and to the sky, less gains that are all used. */
static void a_cold_year_by_the_month(void **state)
{
  (void)state;
  fixture *f = by_hand(-5.0, 200.0);
  live(f, PW_YEAR_QUICK);
  const double h_air = h_change * (0.4 + 0.2), level = 0.2 * 8.0 * 365.0;
  double lost = year_kwh((h_wall + h_roof + h_window + h_air) * 25.0 + h_slab * 10.0 + sky_w);
  double gained = year_kwh(100.0) + f->r.window[0].solar_kwh +
                  0.04 * (h_wall * 0.6 * on_wall(f) + h_roof * 0.8 * level);
  pw_assert_near(f->r.heating_kwh, lost - gained, 2e-3 * lost, "heating", "by hand");
  pw_assert_near(f->r.cooling_kwh, 0.0, 1e-9, "cooling", "none");
  pw_assert_near(f->r.window[0].heat_lost_kwh, year_kwh(h_window * 25.0), 0.1, "windows",
                 "by hand");
  pw_assert_near(f->r.air_loss_kwh, year_kwh(h_air * 25.0), 0.5, "air", "by hand");
  pw_assert_near(f->r.gain_kwh, 876.0, 1e-6, "gains", "100 W");
  pw_assert_near(f->r.heating_month_kwh[1] / f->r.heating_month_kwh[0], 28.0 / 31.0, 0.01,
                 "February", "by its days");
  assert_true(isnan(f->r.t_air_min_c) && isnan(f->r.hours_cold) && isnan(f->r.peak_heating_w));
  assert_true(isnan(f->r.window[0].heating_part_kwh) && isnan(f->r.hours_open));
  free(f);
}

/* A hot year: what comes in at 10 K more than the set point outdoors, a slab 15 K under it that helps, gains and sun on top. Heating that
 * is off leaves the balance of the windows to the other set point. */
static void a_hot_year_by_the_month(void **state)
{
  (void)state;
  fixture *f = by_hand(35.0, 200.0);
  for (int k = 0; k < 24; k++) {
    f->house.heat_set_c[k] = (double)NAN;
    f->house.cool_set_c[k] = k < 12 ? 24.0 : 26.0; /* the mean holds */
  }
  live(f, PW_YEAR_QUICK);
  const double h_air = h_change * 0.6, level = 0.2 * 8.0 * 365.0;
  double in =
      year_kwh((h_wall + h_roof + h_window + h_air) * 10.0 - h_slab * 15.0 - sky_w + 100.0) +
      f->r.window[0].solar_kwh + 0.04 * (h_wall * 0.6 * on_wall(f) + h_roof * 0.8 * level);
  pw_assert_near(f->r.cooling_kwh, in, 2e-3 * in, "cooling", "by hand");
  pw_assert_near(f->r.heating_kwh, 0.0, 1e-9, "heating", "off");
  pw_assert_near(f->r.window[0].heat_lost_kwh, year_kwh(h_window * -10.0), 0.1, "windows",
                 "by hand");
  free(f);
}

/* Air that leaks by the hour, twice as much in the first half year: each month by its own mean. */
static void air_by_the_hour_goes_by_the_month(void **state)
{
  (void)state;
  static float shape[PW_HOURS];
  fixture *f = by_hand(-5.0, 0.0);
  for (int i = 0; i < PW_HOURS; i++)
    shape[i] = i < 24 * 181 ? 2.0f : 0.5f; /* January to June */
  f->house.air_shape = shape;
  live(f, PW_YEAR_QUICK);
  double fixed = 0.744 * ((h_wall + h_roof + h_window) * 25.0 + h_slab * 10.0 + sky_w - 100.0);
  pw_assert_near(f->r.heating_month_kwh[0], fixed + 0.744 * h_change * (0.8 + 0.2) * 25.0,
                 2e-3 * fixed, "January", "by hand");
  pw_assert_near(f->r.heating_month_kwh[11], fixed + 0.744 * h_change * (0.2 + 0.2) * 25.0,
                 2e-3 * fixed, "December", "by hand");
  free(f);
}

/* The network of ISO 13790 7.2.2 at rest, solved here: surface and mass, air held at the set point. Mass 2.5, all surfaces 4.5 floor
 * areas; 3.45 W/(m2 K) surface to air, 9.1 surface to mass; half of the gains, and all else, goes to mass and surface. */
static double at_rest(double t_out, double set, double h_air, double gain, double solar,
                      double *surface)
{
  double h_is = 3.45 * 225.0, h_ms = 9.1 * 125.0, h_op = h_wall + h_roof + h_slab;
  double h_em = 1.0 / (1.0 / h_op - 1.0 / h_ms), inner = 0.5 * gain + solar;
  double to_mass = 125.0 / 225.0 * inner;
  double to_surface = (1.0 - 125.0 / 225.0 - h_window / (9.1 * 225.0)) * inner;
  /* (h_is + h_window + h_ms) s - h_ms m = h_is set + h_window t_out + to_surface; (h_em + h_ms) m - h_ms s = ... */
  double a = h_is + h_window + h_ms, b = h_em + h_ms;
  double p = h_is * set + h_window * t_out + to_surface, q = h_em * t_out + to_mass;
  *surface = (p * b + q * h_ms) / (a * b - h_ms * h_ms);
  return h_air * (set - t_out) + h_is * (set - *surface) - 0.5 * gain;
}

/* No sun, the same air in all hours, so many days before that the mass has settled: every hour needs the same. */
static void a_year_at_rest_by_the_hour(void **state)
{
  (void)state;
  for (int hot = 0; hot < 2; hot++) {
    double t = hot ? 45.0 : -5.0, set = hot ? 25.0 : 20.0, surface = 0.0;
    fixture *f = by_hand(t, 0.0);
    f->house.mass_store = 0.0; /* 110 kJ/K a m2 */
    for (int k = 0; k < 24; k++)
      f->house.vent_changes[k] = 0.2;
    live(f, PW_YEAR_SIMPLE);
    double solar = h_slab * (10.0 - t) - sky_w;
    double need = at_rest(t, set, h_change * 0.6, 100.0, solar, &surface);
    const pw_year_result *r = &f->r;
    const pw_year_window *w = &r->window[0];
    double other = hot ? r->heating_kwh : r->cooling_kwh,
           mine = hot ? r->cooling_kwh : r->heating_kwh;
    pw_assert_near(mine, year_kwh(fabs(need)), 1e-3 * year_kwh(fabs(need)), "need", "at rest");
    pw_assert_near(other, 0.0, 1e-9, "the other", "none");
    assert_int_equal(need < 0.0, hot);
    pw_assert_near(hot ? r->peak_cooling_w : r->peak_heating_w, fabs(need), 2e-3 * fabs(need),
                   "peak", "at rest");
    pw_assert_near(r->t_air_mean_c, set, 1e-6, "air", "set point");
    pw_assert_near(r->t_air_max_c - r->t_air_min_c, 0.0, 1e-6, "air", "held");
    pw_assert_near((double)f->surface[4000], surface, 2e-3, "surface", "at rest");
    double lost = h_window * (surface - t);
    pw_assert_near(w->heat_lost_kwh, year_kwh(lost), 1e-3 * fabs(year_kwh(lost)), "windows",
                   "at rest");
    pw_assert_near(hot ? w->cooling_part_kwh : w->heating_part_kwh, year_kwh(fabs(lost)),
                   1e-3 * fabs(year_kwh(lost)), "their part", "all hours need");
    pw_assert_near(hot ? w->heating_part_kwh : w->cooling_part_kwh, 0.0, 1e-9, "other part",
                   "none");
    pw_assert_near(r->air_loss_kwh, year_kwh(h_change * 0.6 * (set - t)), 0.5, "air",
                   "by hand");
    pw_assert_near(r->gain_kwh, 876.0, 1e-6, "gains", "100 W");
    free(f);
  }
}

/* What is told of a year is what its hours sum to. */
static void sums_are_those_of_the_hours(void **state)
{
  (void)state;
  fixture *f = by_hand(12.0, 400.0);
  f->house.mass_store = 0.0;
  f->house.heat_set_c[7] = 21.0;
  for (int k = 0; k < 24; k++)
    f->house.cool_set_c[k] = k < 12 ? (double)NAN : 26.9;
  f->house.warm_c = 25.5;
  f->window.area_glass = 12.0;
  for (int i = 0; i < PW_HOURS; i++)
    f->weather.hour[i].t_air += (float)(12.0 * sin(i / 1394.2) + 6.0 * sin(i / 3.82));
  live(f, PW_YEAR_SIMPLE);
  const pw_year_result *r = &f->r;
  double heat = 0.0, cool = 0.0, sun = 0.0, net = 0.0, passed = 0.0, incident = 0.0, air = 0.0,
         mean = 0.0, parts[2] = {0.0}, low = 99.0, high = -99.0, warm = 0.0, cold = 0.0,
         hot = 0.0;
  int top[2] = {0};
  for (int i = 0; i < PW_HOURS; i++) {
    double t_air = (double)f->air[i], t_op = 0.3 * t_air + 0.7 * (double)f->surface[i];
    heat += 1e-3 * (double)f->heat[i];
    cool += 1e-3 * (double)f->cool[i];
    sun += 1e-3 * (double)f->sun[i];
    net += 1e-3 * (double)f->net[i];
    passed += 1e-3 * (double)f->passed[i];
    incident += 1e-3 * (double)f->incident[i];
    air += 1e-3 * h_change * (0.4 + (i % 24 < 6 ? 0.8 : 0.0)) *
           (t_air - (double)f->weather.hour[i].t_air);
    mean += t_air / PW_HOURS;
    if (f->heat[i] > 0.0f) parts[0] -= 1e-3 * (double)f->net[i];
    if (f->cool[i] > 0.0f) parts[1] += 1e-3 * (double)f->net[i];
    if (f->heat[i] > f->heat[top[0]]) top[0] = i;
    if (f->cool[i] > f->cool[top[1]]) top[1] = i;
    low = fmin(low, t_air);
    high = fmax(high, t_air);
    warm += t_air > 25.55; /* a twentieth of a K is rounding */
    cold += t_op < 19.0;
    hot += t_op > 27.0;
  }
  assert_true(cool > 10.0 && heat > 10.0 && warm > 10.0 && cold > 10.0 && hot > 10.0);
  pw_assert_near(r->heating_kwh, heat, 1e-3, "heating", "hours");
  pw_assert_near(r->cooling_kwh, cool, 1e-3, "cooling", "hours");
  pw_assert_near(r->solar_kwh, sun, 1e-3 * sun, "sun", "hours");
  pw_assert_near(r->solar_kwh - r->window_loss_kwh, net, 1e-3 * sun, "through windows",
                 "hours");
  pw_assert_near(r->window[0].transmitted_kwh, passed, 1e-3 * passed, "passed", "hours");
  pw_assert_near(r->window[0].incident_kwh, incident, 1e-3 * incident, "incident", "hours");
  pw_assert_near(r->air_loss_kwh, air, 1e-3 * air, "air", "hours");
  pw_assert_near(r->window[0].heating_part_kwh, parts[0], 1e-3 * sun, "heating part", "hours");
  pw_assert_near(r->window[0].cooling_part_kwh, parts[1], 1e-3 * sun, "cooling part", "hours");
  pw_assert_near(r->t_air_min_c, low, 1e-5, "coldest", "hours");
  pw_assert_near(r->t_air_max_c, high, 1e-5, "warmest", "hours");
  pw_assert_near(r->t_air_mean_c, mean, 1e-4, "mean", "hours");
  pw_assert_near(r->hours_warm, warm, 1.0, "hours above 25.5 C", "hours"); /* floats */
  pw_assert_near(r->hours_cold, cold, 3.0, "operative under 19 C", "ISO 7730 class C");
  pw_assert_near(r->hours_overheated, hot, 3.0, "operative over 27 C", "ISO 7730 class C");
  assert_int_equal(r->peak_heating_hour, top[0]);
  assert_int_equal(r->peak_cooling_hour, top[1]);
  pw_assert_near(r->peak_heating_w, (double)f->heat[top[0]], 1e-3, "peak", "hours");
  pw_assert_near(r->peak_cooling_w, (double)f->cool[top[1]], 1e-3, "peak", "hours");
  assert_true(isnan(r->residual_kwh) && isnan(r->opaque_loss_kwh) &&
              isnan(r->window[0].t_inner_min_c));
  free(f);
}

/* The detailed balance of the same house without a window: whatever share of the gains is radiant, all of them count, and what comes in goes
 * out through walls and with the air. */
static void gains_count_in_air_and_radiation(void **state)
{
  (void)state;
  double heating[3];
  for (int k = 0; k < 3; k++) {
    fixture *f = by_hand(-5.0, 0.0);
    const pw_year_options o = {.method = PW_YEAR_DETAILED};
    pw_err err = {0};
    f->house.part[3] =
        f->house.part[0]; /* the wall in two, for an inner plane is no half of a room */
    f->house.part[0].area = f->house.part[3].area = 50.0;
    f->house.part[3].facing_deg = 0.0;
    f->house.n_part = 4;
    f->house.gain_w = 600.0;
    f->house.gain_radiant = 0.5 * k;
    if (pw_year_run(&f->house, &f->weather, NULL, 0, &o, NULL, &f->r, &err) != PW_OK)
      fail_msg("%s", err.text);
    pw_assert_near(f->r.gain_kwh, year_kwh(600.0), 1e-6, "gains", "600 W");
    pw_assert_near(f->r.heating_kwh + f->r.gain_kwh - f->r.cooling_kwh,
                   f->r.opaque_loss_kwh + f->r.air_loss_kwh, 1.0, "balance", "at rest");
    heating[k] = f->r.heating_kwh;
    free(f);
  }
  /* what is given to faces leaves them for outdoors sooner than what is given to the air */
  assert_true(heating[0] < heating[1] && heating[1] < heating[2]);
  assert_true(heating[2] < 1.05 * heating[0]);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_sun_of_the_windows),
      cmocka_unit_test(a_cold_year_by_the_month),
      cmocka_unit_test(a_hot_year_by_the_month),
      cmocka_unit_test(air_by_the_hour_goes_by_the_month),
      cmocka_unit_test(a_year_at_rest_by_the_hour),
      cmocka_unit_test(sums_are_those_of_the_hours),
      cmocka_unit_test(gains_count_in_air_and_radiation),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
