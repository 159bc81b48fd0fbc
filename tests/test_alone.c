/* A window's year by itself: against the steps of the methods it is made of, driven in the open. */
#include "support.h"

#include <math.h>
#include <stdlib.h>

#include "climate/month.h"
#include "climate/shade.h"
#include "house/monthly.h"
#include "house/simple.h"
#include "panewright/glazing.h"
#include "panewright/house_facts.h"
#include "study/alone.h"

/* What the header says of the reference room, worked out apart from the code under test. */
typedef struct room {
  pw_simple simple;
  double gain, low, high;
} room;

static room room_of(const pw_weather *weather)
{
  pw_house_facts facts = {.year_built = 1972, .storeys = 1};
  facts.internal_gain.value = 5.0;
  pw_house h;
  double air = 0.0, ground = 0.0, pressure = 0.0;
  assert_int_equal(pw_house_from_facts(&facts, weather, NULL, 0, &h, NULL, NULL), PW_OK);
  pw_house_ua(&h, &air, &ground);
  for (int i = 0; i < PW_HOURS; i++)
    pressure += (double)weather->hour[i].pressure / PW_HOURS;
  double kg_air = pressure / (287.05 * 293.15) * h.volume;
  return (room){{.floor_area = h.floor_area,
                 .mass_area = h.mass_area,
                 .mass_store = h.mass_store,
                 .h_opaque = air + ground,
                 .h_air = kg_air * h.air_changes * 1006.0 / 3600.0},
                h.gain_w,
                h.heat_set_c[12],
                h.cool_set_c[12]};
}

static void weather_of(const char *name, pw_weather *weather)
{
  size_t index = 0;
  pw_place place;
  assert_int_equal(pw_place_find(name, &index, NULL, NULL), PW_OK);
  assert_int_equal(pw_place_get(index, &place, NULL), PW_OK);
  assert_int_equal(pw_month_year(&place, PW_MONTH_VARIED_DAYS, weather, NULL), PW_OK);
}

static double shgc_at(const pw_glazing *g, double cosine)
{
  double x = acos(fmin(cosine, 1.0)) * 18.0 / 3.14159265358979323846;
  int k = x < 8.999 ? (int)x : 8;
  return g->shgc[k] + (x - k) * (g->shgc[k + 1] - g->shgc[k]);
}

/* Sun gained through a window in each hour, W, by the facade year and the shade of the library. */
static void gains(const pw_weather *weather, const pw_house_window *w, double gain[])
{
  pw_sky_year *sky = malloc(sizeof *sky);
  pw_facade_year *y = malloc(sizeof *y);
  float *lit = malloc(PW_HOURS * sizeof *lit);
  const pw_facade facade = {w->facing_deg, 90.0, 0.2};
  const pw_shade shade = {.width = 1.0,
                          .height = w->height,
                          .overhang_depth = w->overhang_depth,
                          .overhang_gap = w->overhang_gap,
                          .overhang_run = {INFINITY, INFINITY}};
  pw_shade_factor left;
  assert_int_equal(pw_sky_of_year(weather, PW_SKY_PEREZ, sky, NULL), PW_OK);
  assert_int_equal(pw_facade_of_year(sky, &facade, y, NULL), PW_OK);
  assert_int_equal(pw_shade_factors(&shade, &left, NULL), PW_OK);
  assert_int_equal(pw_shade_year(&shade, &facade, &sky->sun, lit, NULL), PW_OK);
  const double *g = w->glazing->shgc;
  double band_g = 0.0, sum = 0.0, pass = w->screen * (1.0 - w->shade_factor);
  for (int k = 0; k < 10; k++) {
    double c = cos(k * 3.14159265358979323846 / 18.0) * (k == 0 || k == 9 ? 0.5 : 1.0);
    band_g += c * g[k];
    sum += c;
  }
  for (int i = 0; i < PW_HOURS; i++) {
    double direct = (double)((y->beam[i] + y->circumsolar[i]) * lit[i]);
    double even = (double)y->dome[i] * left.dome + (double)y->ground[i];
    double band = (double)y->horizon[i];
    double through = direct * shgc_at(w->glazing, fmax((double)y->cos_incidence[i], 0.0)) +
                     even * g[PW_ANGLE_DIFFUSE] + band * band_g / sum;
    gain[i] = pass * (w->area_glass * through + w->solar_other * (direct + even + band));
  }
  free(sky);
  free(y);
  free(lit);
}

static void hourly_by_steps(const pw_weather *weather, const room *r, double h_window,
                            const double gain[], double *heat, double *cool)
{
  pw_simple s = r->simple;
  pw_simple_net net;
  double t = 20.0;
  *heat = *cool = 0.0;
  s.h_window = h_window;
  assert_int_equal(pw_simple_init(&s, &net, NULL), PW_OK);
  for (int k = -24 * 14; k < PW_HOURS; k++) {
    int i = k < 0 ? k + PW_HOURS : k;
    double out = (double)weather->hour[i].t_air;
    pw_simple_hour hour;
    pw_simple_drive d = {out, out, r->gain, gain ? gain[i] : 0.0, r->low, r->high};
    pw_simple_step(&s, &net, &d, &t, &hour);
    if (k < 0) continue;
    *heat += 1e-3 * fmax(hour.need, 0.0);
    *cool += 1e-3 * fmax(-hour.need, 0.0);
  }
}

static void monthly_by_steps(const pw_weather *weather, const room *r, double h_window,
                             const double gain[], double *heat, double *cool)
{
  *heat = *cool = 0.0;
  for (int m = 0; m < 12; m++) {
    pw_month_balance b = {.heat_set = r->low,
                          .cool_set = r->high,
                          .h_transmission = r->simple.h_opaque + h_window,
                          .h_air = r->simple.h_air};
    b.time_constant_h = r->simple.mass_store / 3600.0 / (b.h_transmission + r->simple.h_air);
    for (int i = 24 * pw_month_start[m]; i < 24 * (pw_month_start[m] + pw_month_days[m]); i++) {
      b.hours += 1.0;
      b.t_out += (double)weather->hour[i].t_air;
      b.gain_kwh += 1e-3 * (r->gain + (gain ? gain[i] : 0.0));
    }
    b.t_out /= b.hours;
    double h, c;
    assert_int_equal(pw_month_need(&b, &h, &c, NULL), PW_OK);
    *heat += h;
    *cool += c;
  }
}

static pw_glazing glass(const char *text)
{
  pw_buildup b;
  pw_glazing g;
  assert_int_equal(pw_buildup_parse(text, &b, NULL), PW_OK);
  assert_int_equal(pw_glazing_build(&b, &g, NULL), PW_OK);
  return g;
}

/* Facings are whole tens of degrees, where the monthly sums know the facade itself. */
static size_t windows(const pw_glazing g[2], pw_house_window w[])
{
  static const double facing[] = {0.0, 90.0, 180.0, 250.0};
  size_t n = 0;
  for (int over = 0; over < 2; over++)
    for (int f = 0; f < 4; f++, n++)
      w[n] = (pw_house_window){.facing_deg = facing[f],
                               .area_glass = 1.6,
                               .height = 1.3,
                               .glazing = &g[n % 2],
                               .ua_other = 2.5,
                               .solar_other = 0.03,
                               .overhang_depth = over ? 0.6 : 0.0,
                               .overhang_gap = over ? 0.25 : 0.0,
                               .screen = 0.9,
                               .shade_factor = 0.1};
  return n;
}

/* Tolerances: hourly 0.2 % of the larger need: floats, and SHGC linear in the cosine between 64 points
 * where the check is linear in the angle. Monthly 0.2 %, with an overhang 3 %: ten slopes of the sun. */
static void both_methods_meet_their_steps(void **state)
{
  static const char *const town[] = {"Albuquerque NM", "Minneapolis MN"};
  (void)state;
  const pw_glazing g[2] = {glass("3mm clear"),
                           glass("3mm clear coat ag2@2 / 12.7mm argon 90% / 3mm clear")};
  pw_house_window w[8];
  size_t n = windows(g, w);
  pw_weather *weather = malloc(sizeof *weather);
  double *gain = malloc(PW_HOURS * sizeof *gain);
  for (int t = 0; t < 2; t++) {
    weather_of(town[t], weather);
    room r = room_of(weather);
    for (int m = 0; m < PW_ALONE_DETAILED; m++) {
      pw_alone_place *place = NULL;
      assert_int_equal(pw_alone_place_new(weather, (pw_alone_method)m, &place, NULL), PW_OK);
      double area = 0.15 * r.simple.floor_area,
             scale = 2.2 / area; /* of an opening of 2.2 m2 */
      for (size_t i = 0; i < n; i++) {
        pw_alone got[2];
        const pw_house_window two[2] = {w[i], w[(i + 1) % n]};
        double h[2], c[2];
        assert_int_equal(pw_alone_years(place, two, (double[2]){2.2, 2.2}, 2, NULL, got, NULL),
                         PW_OK);
        gains(weather, &w[i], gain);
        for (int k = 0; k < PW_HOURS; k++)
          gain[k] /= scale;
        double ua = (w[i].glazing->u_winter * w[i].area_glass + w[i].ua_other) / scale;
        void (*by_steps)(const pw_weather *, const room *, double, const double[], double *,
                         double *) = m == PW_ALONE_HOURLY ? hourly_by_steps : monthly_by_steps;
        by_steps(weather, &r, 0.0, NULL, &h[0], &c[0]);
        by_steps(weather, &r, ua, gain, &h[1], &c[1]);
        double tolerance = m == PW_ALONE_MONTHLY && w[i].overhang_depth > 0.0 ? 0.03 : 0.002;
        tolerance *= scale * fmax(h[1], c[1]);
        pw_assert_near(got[0].heating_kwh, scale * (h[1] - h[0]), tolerance, town[t],
                       "ISO 13790 step by step");
        pw_assert_near(got[0].cooling_kwh, scale * (c[1] - c[0]), tolerance, town[t],
                       "ISO 13790 step by step");
      }
      pw_alone_place_free(place);
    }
  }
  free(weather);
  free(gain);
}

/* Hour by hour with nothing left to differ by but the rounding of floats: glass whose SHGC is the same at every angle, and glass
 * that takes no sun. An hour that wants little cooling is cooled as one that wants much. */
static void hours_meet_their_steps_to_rounding(void **state)
{
  (void)state;
  pw_glazing g[2] = {glass("3mm clear"), glass("3mm clear")};
  pw_house_window w[8];
  size_t n = windows(g, w);
  pw_weather *weather = malloc(sizeof *weather);
  double *gain = malloc(PW_HOURS * sizeof *gain);
  pw_alone_place *place = NULL;
  assert_true(weather && gain);
  for (size_t a = 0; a < PW_ANGLES; a++)
    for (int k = 0; k < 2; k++)
      g[k].shgc[a] = k ? 0.0 : 0.5;
  weather_of("Phoenix AZ", weather);
  const room r = room_of(weather);
  const double area = 0.15 * r.simple.floor_area, scale = 2.2 / area;
  assert_int_equal(pw_alone_place_new(weather, PW_ALONE_HOURLY, &place, NULL), PW_OK);
  for (size_t i = 0; i < n; i++) {
    pw_alone got[2];
    double h[2], c[2];
    if (i % 2) w[i].solar_other = 0.0;
    const pw_house_window two[2] = {w[i], w[(i + 1) % n]};
    assert_int_equal(pw_alone_years(place, two, (double[2]){2.2, 2.2}, 2, NULL, got, NULL),
                     PW_OK);
    gains(weather, &w[i], gain);
    for (int k = 0; k < PW_HOURS; k++)
      gain[k] /= scale;
    const double ua = (w[i].glazing->u_winter * w[i].area_glass + w[i].ua_other) / scale;
    hourly_by_steps(weather, &r, 0.0, NULL, &h[0], &c[0]);
    hourly_by_steps(weather, &r, ua, gain, &h[1], &c[1]);
    const double tolerance = 2e-6 * scale * fmax(h[1], c[1]);
    pw_assert_near(got[0].heating_kwh, scale * (h[1] - h[0]), tolerance, "heating",
                   "ISO 13790 step by step");
    pw_assert_near(got[0].cooling_kwh, scale * (c[1] - c[0]), tolerance, "cooling",
                   "ISO 13790 step by step");
  }
  pw_alone_place_free(place);
  free(weather);
  free(gain);
}

static void two_windows_do_not_meet(void **state)
{
  (void)state;
  const pw_glazing g[2] = {glass("3mm clear"), glass("6mm bronze")};
  pw_house_window w[8];
  size_t n = windows(g, w);
  pw_weather *weather = malloc(sizeof *weather);
  weather_of("Phoenix AZ", weather);
  for (int m = 0; m < PW_ALONE_METHOD_COUNT; m++) {
    pw_alone_place *place = NULL;
    assert_int_equal(pw_alone_place_new(weather, (pw_alone_method)m, &place, NULL), PW_OK);
    for (size_t i = 0; i + 1 < n; i++) {
      pw_alone a[2], b[2];
      const pw_house_window there[2] = {w[i], w[i + 1]}, back[2] = {w[i + 1], w[i]};
      assert_int_equal(pw_alone_years(place, there, (double[2]){2.0, 3.0}, 2, NULL, a, NULL),
                       PW_OK);
      assert_int_equal(pw_alone_years(place, back, (double[2]){3.0, 2.0}, 2, NULL, b, NULL),
                       PW_OK);
      assert_true(a[0].heating_kwh == b[1].heating_kwh && a[0].cooling_kwh == b[1].cooling_kwh);
      assert_true(a[1].heating_kwh == b[0].heating_kwh && a[1].cooling_kwh == b[0].cooling_kwh);
    }
    pw_alone_place_free(place);
  }
  free(weather);
}

/* What windows save one by one sums to what they save together: two years of the house with all windows changed, which
 * no code of alone.h lives. check --group rows does it for 32 places and twelve pairs of glass. */
static void rows_sum_to_their_house(void **state)
{
  (void)state;
  static const char *const town[] = {"Phoenix AZ", "Minneapolis MN"};
  const pw_glazing g[2] = {glass("3mm clear"),
                           glass("3mm clear coat ag2@2 / 12.7mm argon 90% / 3mm clear")};
  pw_weather *weather = malloc(sizeof *weather);
  pw_house *house = malloc(sizeof *house);
  pw_year_result *year = malloc(sizeof *year);
  assert_true(weather && house && year);
  pw_house_facts facts = {.year_built = 1972, .storeys = 1};
  facts.internal_gain.value = 5.0;
  facts.floor_area.value = 150.0;
  for (size_t t = 0; t < 2; t++) {
    pw_alone_place *place = NULL;
    pw_alone_desk *desk = pw_alone_desk_new(0);
    pw_house_hole hole[4];
    pw_house_window w[2][4];
    pw_alone rows = {0.0, 0.0}, figure[2], lone[2], need[2];
    weather_of(town[t], weather);
    assert_int_equal(pw_alone_place_new(weather, PW_ALONE_DETAILED, &place, NULL), PW_OK);
    for (int i = 0; i < 4; i++) {
      hole[i] = (pw_house_hole){90.0 * i, 5.625};
      for (int k = 0; k < 2; k++)
        w[k][i] = (pw_house_window){.facing_deg = 90.0 * i,
                                    .area_glass = k ? 1.0 : 1.2,
                                    .height = 1.1,
                                    .glazing = &g[k],
                                    .ua_other = k ? 1.4 : 1.4,
                                    .area_other = k ? 0.4 : 0.2,
                                    .solar_other = 0.02,
                                    .count = 4};
      const pw_house_window two[2] = {w[0][i], w[1][i]};
      const double area[2] = {1.40625, 1.40625};
      assert_int_equal(pw_alone_years(place, two, area, 2, desk, figure, NULL), PW_OK);
      assert_int_equal(pw_alone_years(place, two, area, 2, NULL, lone, NULL), PW_OK);
      assert_memory_equal(figure, lone, sizeof lone); /* whoever's room it was lived in */
      rows.heating_kwh += 4.0 * (figure[0].heating_kwh - figure[1].heating_kwh);
      rows.cooling_kwh += 4.0 * (figure[0].cooling_kwh - figure[1].cooling_kwh);
    }
    assert_int_equal(pw_house_from_facts(&facts, weather, hole, 4, house, NULL, NULL), PW_OK);
    for (int k = 0; k < 2; k++) {
      assert_int_equal(pw_year_run(house, weather, w[k], 4, NULL, NULL, year, NULL), PW_OK);
      need[k] = (pw_alone){year->heating_kwh, year->cooling_kwh};
    }
    double all = fabs(rows.heating_kwh) + fabs(rows.cooling_kwh);
    print_message("%s: rows %.0f %.0f, house %.0f %.0f\n", town[t], rows.heating_kwh,
                  rows.cooling_kwh, need[0].heating_kwh - need[1].heating_kwh,
                  need[0].cooling_kwh - need[1].cooling_kwh);
    pw_assert_near(rows.heating_kwh, need[0].heating_kwh - need[1].heating_kwh, 0.03 * all,
                   "heating", "the house with all windows changed");
    pw_assert_near(rows.cooling_kwh, need[0].cooling_kwh - need[1].cooling_kwh, 0.03 * all,
                   "cooling", "the house with all windows changed");
    pw_alone_desk_free(desk);
    pw_alone_place_free(place);
  }
  free(weather);
  free(house);
  free(year);
}

static void refusals_name_the_field(void **state)
{
  (void)state;
  const pw_glazing g[2] = {glass("3mm clear"), glass("6mm bronze")};
  pw_house_window w[8], two[2];
  pw_alone out[2] = {{1.0, 2.0}, {3.0, 4.0}};
  pw_err err = {0};
  windows(g, w);
  pw_weather *weather = malloc(sizeof *weather);
  pw_alone_place *place = NULL;
  weather_of("Phoenix AZ", weather);
  assert_int_equal(pw_alone_place_new(weather, (pw_alone_method)7, &place, &err), PW_E_DOMAIN);
  assert_int_equal(pw_alone_place_new(weather, PW_ALONE_MONTHLY, &place, NULL), PW_OK);
  two[0] = two[1] = w[0];
  two[1].tilt_deg = 30.0;
  assert_int_equal(pw_alone_years(place, two, (double[2]){2.0, 2.0}, 2, NULL, out, &err),
                   PW_E_DOMAIN);
  assert_string_equal(err.field, "tilt_deg");
  assert_int_equal(pw_alone_years(place, w, (double[2]){NAN, 2.0}, 2, NULL, out, &err),
                   PW_E_DOMAIN);
  assert_string_equal(err.field, "area");
  two[1] = w[0];
  two[1].glazing = NULL;
  assert_int_equal(pw_alone_years(place, two, (double[2]){2.0, 2.0}, 2, NULL, out, &err),
                   PW_E_SHAPE);
  assert_true(out[0].heating_kwh == 1.0 && out[1].cooling_kwh == 4.0);
  pw_alone_place_free(place);
  pw_alone_place_free(NULL);
  free(weather);
}

int main(void)
{
  const struct CMUnitTest tests[] = {cmocka_unit_test(both_methods_meet_their_steps),
                                     cmocka_unit_test(hours_meet_their_steps_to_rounding),
                                     cmocka_unit_test(two_windows_do_not_meet),
                                     cmocka_unit_test(rows_sum_to_their_house),
                                     cmocka_unit_test(refusals_name_the_field)};
  pw_test_begin();
  return cmocka_run_group_tests(tests, NULL, NULL);
}
