/* What src/climate refuses, field by field, and that the bounds themselves are taken with a finite result. The bounds are those
 * that the headers state; not a physical source. */
#include "support.h"

#include <math.h>
#include <stdlib.h>

#include "climate/month.h"
#include "climate/place_find.h"
#include "climate/shade.h"
#include "climate/sky.h"
#include "climate/sun.h"

/* ---------------------------------------------------------------- sun */

typedef struct instant {
  double jd, latitude, longitude, pressure, t;
} instant;

static pw_status sun_at(const void *in, pw_err *err)
{
  const instant *i = in;
  pw_sun sun;
  pw_status s = pw_sun_at(i->jd, i->latitude, i->longitude, i->pressure, i->t, &sun, err);
  if (s == PW_OK)
    assert_true(isfinite(sun.zenith_deg + sun.apparent_zenith_deg + sun.azimuth_deg +
                         sun.declination_deg + sun.equation_of_time_min));
  return s;
}

static void an_instant_of_the_sun(void **state)
{
  (void)state;
  const instant good = {2451545.0, 40.0, -105.0, 101325.0, 285.0};
  const pw_span span[] = {{"jd", offsetof(instant, jd), "d", 2433282.5, 2488434.5},
                          {"latitude_deg", offsetof(instant, latitude), "d", -90.0, 90.0},
                          {"longitude_deg", offsetof(instant, longitude), "d", -360.0, 360.0},
                          {"pressure", offsetof(instant, pressure), "d", 2e4, 1.2e5},
                          {"t", offsetof(instant, t), "d", 180.0, 340.0}};
  pw_assert_spans(&good, sizeof good, span, sizeof span / sizeof span[0], sun_at);
}

/* One year of weather for all that follows: one sunny hour, which is what the year's sun is made of. */
static pw_weather *sunny_noon(void)
{
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  w->site = (pw_site){.latitude_deg = 40.0, .longitude_deg = -105.0, .tz_h = -7.0};
  w->hour[172 * 24 + 12] = (pw_hour){.ghi = 900.0f, .dni = 800.0f, .dhi = 120.0f};
  return w;
}

static pw_status sun_of_year(const void *in, pw_err *err)
{
  pw_sun_year *y = malloc(sizeof *y);
  assert_non_null(y);
  pw_status s = pw_sun_of_year(in, y, err);
  if (s == PW_OK) {
    assert_int_equal(y->n, 1);
    assert_true(isfinite(y->east[0] + y->north[0] + y->up[0] + y->air_mass[0]));
  }
  free(y);
  return s;
}

static pw_status sky_of_year(const void *in, pw_err *err)
{
  pw_sky_year *sky = malloc(sizeof *sky);
  assert_non_null(sky);
  pw_status s = pw_sky_of_year(in, PW_SKY_PEREZ, sky, err);
  free(sky);
  return s;
}

static void a_site_and_its_years(void **state)
{
  (void)state;
  pw_weather *w = sunny_noon();
  const pw_span span[] = {
      {"latitude_deg", offsetof(pw_weather, site.latitude_deg), "d", -90.0, 90.0},
      {"longitude_deg", offsetof(pw_weather, site.longitude_deg), "d", -180.0, 180.0},
      {"tz_h", offsetof(pw_weather, site.tz_h), "d", -14.0, 14.0},
      {"year", offsetof(pw_weather, year[5]), "i", 1950, 2100}};
  for (int m = 0; m < 12; m++)
    w->year[m] = 2001;
  pw_assert_spans(w, sizeof *w, span, sizeof span / sizeof span[0], sun_of_year);
  pw_assert_spans(w, sizeof *w, span, sizeof span / sizeof span[0], sky_of_year);
  free(w);
}

/* ---------------------------------------------------------------- sky */

typedef struct plane {
  int model;
  pw_facade facade;
  double ghi, dni, dhi, normal, zenith, azimuth;
} plane;

static pw_status sky_plane(const void *in, pw_err *err)
{
  const plane *p = in;
  pw_plane_sun s;
  pw_status status = pw_sky_plane((pw_sky_model)p->model, &p->facade, p->ghi, p->dni, p->dhi,
                                  p->normal, p->zenith, p->azimuth, &s, err);
  if (status == PW_OK)
    assert_true(
        isfinite(s.cos_incidence + s.beam + s.circumsolar + s.dome + s.horizon + s.ground));
  return status;
}

static void a_plane_under_each_sky(void **state)
{
  (void)state;
  const double most = 5000.0;
  const pw_span span[] = {
      {"model", offsetof(plane, model), "i", 0, PW_SKY_MODEL_COUNT - 1},
      {"azimuth_deg", offsetof(plane, facade.azimuth_deg), "d", -360.0, 720.0},
      {"tilt_deg", offsetof(plane, facade.tilt_deg), "d", 0.0, 180.0},
      {"ghi", offsetof(plane, ghi), "d", 0.0, most},
      {"ghi", offsetof(plane, dni), "d", 0.0, most},
      {"ghi", offsetof(plane, dhi), "d", 0.0, most},
      {"ghi", offsetof(plane, normal), "(d", 0.0, most},
      {"zenith_deg", offsetof(plane, zenith), "d", 0.0, 180.0},
      {"sun_azimuth_deg", offsetof(plane, azimuth), "d", -360.0, 720.0}};
  for (int model = 0; model < PW_SKY_MODEL_COUNT; model++) {
    const plane good = {model, {180.0, 90.0, 0.2}, 600.0, 700.0, 100.0, 1366.0, 50.0, 170.0};
    pw_assert_spans(&good, sizeof good, span, sizeof span / sizeof span[0], sky_plane);
  }
}

typedef struct split {
  double ghi, zenith;
  int day;
} split;

static pw_status sky_split(const void *in, pw_err *err)
{
  const split *x = in;
  double dni = NAN, dhi = NAN;
  pw_status s = pw_sky_split(x->ghi, x->zenith, x->day, &dni, &dhi, err);
  if (s == PW_OK) assert_true(dni >= 0.0 && dhi >= 0.0 && dni + dhi < 1e6);
  return s;
}

static void a_global_to_split(void **state)
{
  (void)state;
  const split good = {500.0, 60.0, 100};
  const pw_span span[] = {{"ghi", offsetof(split, ghi), "d", 0.0, 2000.0},
                          {"zenith_deg", offsetof(split, zenith), "d", 0.0, 180.0},
                          {"day", offsetof(split, day), "i", 1, 366}};
  pw_assert_spans(&good, sizeof good, span, sizeof span / sizeof span[0], sky_split);
}

static pw_sky_year *sky_now; /* of the facades below */

static pw_status facade_year(const void *in, pw_err *err)
{
  pw_facade_year *f = malloc(sizeof *f);
  assert_non_null(f);
  pw_status s = pw_facade_of_year(sky_now, in, f, err);
  if (s == PW_OK) {
    int h = sky_now->sun.hour[0];
    assert_true(
        isfinite(f->beam[h] + f->circumsolar[h] + f->dome[h] + f->horizon[h] + f->ground[h]));
  }
  free(f);
  return s;
}

static pw_status facade_months(const void *in, pw_err *err)
{
  double kwh[12] = {0.0};
  pw_status s = pw_month_facade(sky_now, in, kwh, err);
  if (s == PW_OK) assert_true(isfinite(kwh[5]));
  return s;
}

static void a_facade(void **state)
{
  (void)state;
  const pw_facade good = {180.0, 90.0, 0.2};
  const pw_span of_year[] = {
      {"azimuth_deg", offsetof(pw_facade, azimuth_deg), "d", -360.0, 720.0},
      {"tilt_deg", offsetof(pw_facade, tilt_deg), "d", 0.0, 180.0}};
  const pw_span of_months[] = {
      {"azimuth_deg", offsetof(pw_facade, azimuth_deg), "d", -720.0, 720.0},
      {"azimuth_deg", offsetof(pw_facade, tilt_deg), "d", 0.0, 180.0}};
  pw_weather *w = sunny_noon();
  sky_now = malloc(sizeof *sky_now);
  assert_non_null(sky_now);
  assert_int_equal(pw_sky_of_year(w, PW_SKY_PEREZ, sky_now, NULL), PW_OK);
  pw_assert_spans(&good, sizeof good, of_year, 2, facade_year);
  pw_assert_spans(&good, sizeof good, of_months, 2, facade_months);
  free(sky_now);
  free(w);
}

static void a_ground_brighter_than_white(void **state)
{
  (void)state;
  pw_plane_sun p;
  pw_err err;
  pw_facade f = {180.0, 90.0, 1.0};
  assert_int_equal(pw_sky_plane(PW_SKY_EVEN, &f, 100, 0, 100, 1366, 50, 0, &p, &err), PW_OK);
  pw_assert_near(p.ground, 50.0, 1e-9, "white ground on a wall", "half of 100 W/m2");
  const double wrong[] = {nextafter(1.0, 2.0), INFINITY, NAN};
  for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
    f.albedo = wrong[i];
    assert_int_equal(pw_sky_plane(PW_SKY_EVEN, &f, 100, 0, 100, 1366, 50, 0, &p, &err),
                     PW_E_DOMAIN);
    assert_string_equal(err.field, "albedo");
  }
  f.albedo = -1.0; /* not known: 0.2 */
  assert_int_equal(pw_sky_plane(PW_SKY_EVEN, &f, 100, 0, 100, 1366, 50, 0, &p, &err), PW_OK);
  pw_assert_near(p.ground, 10.0, 1e-9, "common ground on a wall", "0.2 of half of 100 W/m2");
}

/* ---------------------------------------------------------------- shade */

static pw_status shade_factors(const void *in, pw_err *err)
{
  pw_shade_factor f;
  pw_status s = pw_shade_factors(in, &f, err);
  if (s == PW_OK) assert_true(isfinite(f.dome + f.horizon + f.ground));
  return s;
}

static pw_status shade_year(const void *in, pw_err *err)
{
  static float sunlit[PW_HOURS];
  const pw_facade south = {180.0, 90.0, 0.2};
  pw_sun_year *sun = calloc(1, sizeof *sun);
  assert_non_null(sun);
  sun->n = 1; /* in front and high, the year's first hour */
  sun->north[0] = -0.6f;
  sun->up[0] = 0.8f;
  pw_status s = pw_shade_year(in, &south, sun, sunlit, err);
  free(sun);
  if (s == PW_OK) assert_true(sunlit[0] >= 0.0f && sunlit[0] <= 1.0f);
  return s;
}

static void what_stands_around_a_window(void **state)
{
  (void)state;
  const pw_shade good = {.width = 1.0,
                         .height = 1.5,
                         .overhang_depth = 0.5,
                         .overhang_gap = 0.3,
                         .overhang_run = {0.2, 0.2}};
  const pw_span span[] = {
      {"width", offsetof(pw_shade, width), "(d", 0.0, 20.0},
      {"width", offsetof(pw_shade, height), "(d", 0.0, 20.0},
      {"overhang_depth", offsetof(pw_shade, overhang_depth), "d", 0.0, 20.0},
      {"overhang_gap", offsetof(pw_shade, overhang_gap), "d", 0.0, 20.0},
      {"overhang_run", offsetof(pw_shade, overhang_run[0]), "d", 0.0, INFINITY},
      {"overhang_run", offsetof(pw_shade, overhang_run[1]), "d", 0.0, INFINITY},
      {"fin_depth", offsetof(pw_shade, fin_depth[0]), "d", 0.0, 20.0},
      {"fin_depth", offsetof(pw_shade, fin_depth[1]), "d", 0.0, 20.0},
      {"fin_gap", offsetof(pw_shade, fin_gap[0]), "d", 0.0, 20.0},
      {"fin_gap", offsetof(pw_shade, fin_gap[1]), "d", 0.0, 20.0},
      {"reveal", offsetof(pw_shade, reveal), "d", 0.0, 20.0}};
  pw_assert_spans(&good, sizeof good, span, sizeof span / sizeof span[0], shade_factors);
  pw_assert_spans(&good, sizeof good, span, sizeof span / sizeof span[0], shade_year);
}

/* Only a bare window may lie in a roof, and there the sun reaches all of it. */
static void shade_is_known_for_walls(void **state)
{
  (void)state;
  static float sunlit[PW_HOURS];
  const pw_facade roof = {180.0, 30.0, 0.2};
  pw_sun_year *sun = calloc(1, sizeof *sun);
  assert_non_null(sun);
  pw_err err;
  const pw_shade bare = {.width = 1.0, .height = 1.0};
  pw_shade part[] = {bare, bare, bare, bare};
  part[0].overhang_depth = part[1].reveal = part[2].fin_depth[0] = part[3].fin_depth[1] = 0.1;
  for (size_t i = 0; i < sizeof part / sizeof part[0]; i++) {
    assert_false(pw_shade_none(&part[i]));
    assert_int_equal(pw_shade_year(&part[i], &roof, sun, sunlit, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, "tilt_deg");
  }
  assert_int_equal(pw_shade_year(&bare, &roof, sun, sunlit, &err), PW_OK);
  assert_true(sunlit[0] == 1.0f && sunlit[PW_HOURS - 1] == 1.0f);
  free(sun);
}

/* ---------------------------------------------------------------- months, places */

static pw_status month_year(const void *in, pw_err *err)
{
  pw_weather *w = malloc(sizeof *w);
  assert_non_null(w);
  pw_status s = pw_month_year(in, PW_MONTH_AVERAGE_DAY, w, err);
  if (s == PW_OK)
    for (int i = 0; i < PW_HOURS; i++)
      assert_true(isfinite(w->hour[i].t_air + w->hour[i].t_dew + w->hour[i].wind +
                           w->hour[i].ghi + w->hour[i].dni + w->hour[i].dhi));
  free(w);
  return s;
}

static void the_months_of_a_place(void **state)
{
  (void)state;
  pw_place p;
  assert_int_equal(pw_place_get(0, &p, NULL), PW_OK);
  pw_month_normal *n = &p.month[6];
  n->ghi = 15.0;
  n->dhi = 6.0;
  n->t_mean = 20.0;
  n->t_day_min = 10.0;
  n->t_day_max = 30.0;
#define JULY(field) offsetof(pw_place, month[6].field), "d"
  const pw_span span[] = {
      {"latitude_deg", offsetof(pw_place, site.latitude_deg), "d", -90.0, 90.0},
      {"latitude_deg", offsetof(pw_place, site.longitude_deg), "d", -180.0, 180.0},
      {"ghi", JULY(ghi), 6.0, 15.0}, /* not below the diffuse */
      {"ghi", JULY(dhi), 0.0, 15.0},
      {"dni", JULY(dni), 0.0, 20.0},
      {"t_mean", JULY(t_mean), -60.0, 60.0},
      {"t_mean", JULY(t_dew), -90.0, 45.0},
      {"t_mean", JULY(wind), 0.0, 60.0}};
  pw_assert_spans(&p, sizeof p, span, sizeof span / sizeof span[0], month_year);
}

typedef struct position {
  double latitude, longitude;
} position;

static pw_status nearest(const void *in, pw_err *err)
{
  const position *p = in;
  size_t index = 0;
  return pw_place_nearest(p->latitude, p->longitude, &index, NULL, err);
}

static void a_position_on_the_globe(void **state)
{
  (void)state;
  const position good = {40.0, -105.0};
  const pw_span span[] = {{"latitude_deg", offsetof(position, latitude), "d", -90.0, 90.0},
                          {"longitude_deg", offsetof(position, longitude), "d", -180.0, 180.0}};
  pw_assert_spans(&good, sizeof good, span, 2, nearest);
}

static pw_status sun_spread(const void *in, pw_err *err)
{
  pw_month_spread s;
  return pw_month_sun_spread(*(const double *)in, &s, err);
}

static void a_wall_that_made_years_are_held_against(void **state)
{
  (void)state;
  const double south = 180.0;
  const pw_span span = {"azimuth_deg", 0, "d", -720.0, 720.0};
  pw_assert_spans(&south, sizeof south, &span, 1, sun_spread);
  pw_month_spread s = {.stations = 77};
  pw_err err;
  const double none[8] = {0.0}, endless[8] = {INFINITY};
  assert_int_equal(pw_month_walls_spread(none, &s, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "area");
  assert_int_equal(pw_month_walls_spread(endless, &s, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "area");
  assert_int_equal(s.stations, 77);
}

static void a_place_that_is_not_there_makes_no_year(void **state)
{
  (void)state;
  pw_weather *w = sunny_noon();
  pw_err err;
  assert_int_equal(pw_place_year(pw_place_count(), w, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "index");
  assert_true(w->hour[172 * 24 + 12].ghi == 900.0f);
  free(w);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(an_instant_of_the_sun),
      cmocka_unit_test(a_site_and_its_years),
      cmocka_unit_test(a_plane_under_each_sky),
      cmocka_unit_test(a_global_to_split),
      cmocka_unit_test(a_facade),
      cmocka_unit_test(a_ground_brighter_than_white),
      cmocka_unit_test(what_stands_around_a_window),
      cmocka_unit_test(shade_is_known_for_walls),
      cmocka_unit_test(the_months_of_a_place),
      cmocka_unit_test(a_position_on_the_globe),
      cmocka_unit_test(a_wall_that_made_years_are_held_against),
      cmocka_unit_test(a_place_that_is_not_there_makes_no_year),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
