/* Sun and shade: properties, closed forms, refusals. Published rows: src/check/sun.c. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/table.h"
#include "climate/shade.h"
#include "panewright/units.h"

/* The yearly path (ephemeris once a day, quadratic between) against the instant by instant one. */
static void the_year_agrees_with_the_instant(void **state)
{
  (void)state;
  pw_weather *w = calloc(1, sizeof *w);
  pw_sun_year *y = malloc(sizeof *y);
  assert_non_null(w);
  assert_non_null(y);
  w->site = (pw_site){"x", 39.833, -104.65, -7.0, 1650.0};
  for (int m = 0; m < 12; m++)
    w->year[m] = 1976 + 3 * m; /* leap years among them */
  for (int i = 0; i < PW_HOURS; i++)
    w->hour[i].ghi = i % 24 >= 5 && i % 24 < 19 ? 1.0f : 0.0f;
  assert_int_equal(pw_sun_of_year(w, y, NULL), PW_OK);
  assert_int_equal(y->n, 14 * 365);
  double worst = 0.0, worst_turn = 0.0;
  for (size_t i = 0; i < y->n; i += 13) {
    int day = y->hour[i] / 24, m = pw_month_of_day(day);
    pw_sun s;
    double jd = pw_julian_day(w->year[m], m + 1, day - pw_month_start[m] + 1,
                              y->hour[i] % 24 + 0.5 + 7.0);
    assert_int_equal(pw_sun_at(jd, 39.833, -104.65, 0.0, 0.0, &s, NULL), PW_OK);
    worst = fmax(worst, fabs((double)y->zenith[i] * 180.0 / PW_PI - s.apparent_zenith_deg));
    double turn =
        remainder(atan2(y->east[i], y->north[i]) * 180.0 / PW_PI - s.azimuth_deg, 360.0);
    worst_turn = fmax(worst_turn, fabs(turn) * sin(pw_rad(s.zenith_deg)));
    const double e = (double)y->east[i], n = (double)y->north[i], up = (double)y->up[i];
    pw_assert_near(sqrt(e * e + n * n + up * up), 1.0, 1e-6, "length", "a direction");
    pw_assert_near(up, cos(pw_rad(s.apparent_zenith_deg)), 2e-6, "up", "pw_sun_at");
    pw_assert_near((double)y->air_mass[i],
                   s.apparent_zenith_deg <= 90.0 ? pw_air_mass(s.apparent_zenith_deg) : 0.0,
                   2e-3, "air mass", "Kasten & Young at the same zenith");
  }
  pw_assert_near(worst, 0.0, 1e-4, "zenith", "pw_sun_at");
  pw_assert_near(worst_turn, 0.0, 1e-4, "azimuth", "pw_sun_at");
  free(w);
  free(y);
}

static double instant(const char *text)
{
  int y, mo, d, h, mi, s;
  assert_int_equal(sscanf(text, "%d-%d-%dT%d:%d:%dZ", &y, &mo, &d, &h, &mi, &s), 6);
  return pw_julian_day(y, mo, d, h + mi / 60.0 + s / 3600.0);
}

static pw_sun sun_at(double jd)
{
  pw_sun s;
  assert_int_equal(pw_sun_at(jd, 0.0, 0.0, 0.0, 0.0, &s, NULL), PW_OK);
  return s;
}

/* A place is good to 0.0005 degree, 44 s of the sun's way. What 123 places of 150 years are off by, laid together as a shift
 * of time, tells delta T apart beside ERFA at the same 67 s (table climate/sun_position_years): the terms left out scatter the
 * five dates of one year by 17 s, so the mean of 26 years by 4 s; 12 s is three times that. */
static void the_clock_of_the_sun_is_right_to_seconds(void **state)
{
  (void)state;
  const pw_table *t = pw_table_find("climate/sun_position_years");
  double with = 0.0, square = 0.0, worst = 0.0;
  assert_non_null(t);
  for (size_t i = 0; i < t->n_row; i++) {
    double jd = instant(pw_table_text(t, i, 1)), want = pw_table_number(t, i, 7);
    double rate =
        (sun_at(jd + 0.5).declination_deg - sun_at(jd - 0.5).declination_deg) / 86400.0;
    double off = sun_at(jd).declination_deg - want;
    worst = fmax(worst, fabs(off));
    with += rate * off;
    square += rate * rate;
  }
  printf("declination within %.5f deg, time within %.2f s\n", worst, with / square);
  pw_assert_near(worst, 0.0, 6e-4, "declination, deg", "ERFA 2.0");
  pw_assert_near(with / square, 0.0, 12.0, "delta T, s", "ERFA 2.0 at 67 s");
}

/* NREL/TP-560-34302 and SPA of an open solar library (table climate/sun_position): zenith as it is and as it is seen. */
static void places_are_those_of_spa(void **state)
{
  (void)state;
  const pw_table *t = pw_table_find("climate/sun_position");
  assert_non_null(t);
  for (size_t i = 0; i < t->n_row; i++) {
    double v[10] = {0};
    pw_sun s;
    for (int c = 2; c < 10; c++)
      v[c] = pw_table_number(t, i, c);
    assert_int_equal(pw_sun_at(instant(pw_table_text(t, i, 1)), v[2], v[3], v[4] * 100.0,
                               v[5] + 273.15, &s, NULL),
                     PW_OK);
    pw_assert_near(s.zenith_deg, v[7], 1.5e-3, "zenith", "SPA");
    pw_assert_near(s.apparent_zenith_deg, v[8], 1.5e-3, "apparent zenith", "SPA");
  }
}

/* NREL/TP-560-34302 eq. (42): the air lifts the sun while its upper limb can be seen, 0.26667 + 0.5667 degree below the horizon;
 * a sunset at the equator in steps of 0.01 degree. */
static void the_air_lifts_the_sun_until_it_has_set(void **state)
{
  (void)state;
  double jd = pw_julian_day(2005, 3, 20, 17.8);
  int lifted = 0, set = 0;
  for (int i = 0; i < 1200; i++) {
    pw_sun s;
    assert_int_equal(pw_sun_at(jd + i * 0.01 / 360.0, 0.0, 0.0, 101000.0, 283.0, &s, NULL),
                     PW_OK);
    double e = 90.0 - s.zenith_deg, up = s.zenith_deg - s.apparent_zenith_deg;
    double want = 1.02 / (60.0 * tan(pw_rad(e + 10.3 / (e + 5.11))));
    if (e > -0.83337 + 1e-4) {
      pw_assert_near(up, want, 1e-9, "refraction", "eq. (42)");
      lifted++;
    } else if (e < -0.83337 - 1e-4) {
      pw_assert_near(up, 0.0, 1e-12, "below the horizon", "eq. (42)");
      set++;
    }
  }
  assert_true(lifted > 300 && set > 300);
}

/* NREL/TP-560-34302's example and SPA of an open solar library (table climate/sun_position): 0.06 s. */
static void the_equation_of_time_is_right_to_a_thousandth_of_a_minute(void **state)
{
  (void)state;
  const pw_table *t = pw_table_find("climate/sun_position");
  double mean = 0.0, n = 0.0;
  assert_non_null(t);
  for (size_t i = 0; i < t->n_row; i++) {
    double want = pw_table_number(t, i, 11);
    if (isnan(want)) continue;
    double off = sun_at(instant(pw_table_text(t, i, 1))).equation_of_time_min - want;
    pw_assert_near(off, 0.0, 1.3e-3, "equation of time, min", "SPA");
    mean += off;
    n += 1.0;
  }
  printf("equation of time: mean %.6f min of %g\n", mean / n, n);
  assert_true(n > 40.0);
}

/* Share of a grid of points of the window that a ray to the sun leaves free: the geometry anew. */
static double by_points(const pw_shade *s, double altitude_deg, double gamma_deg)
{
  enum { N = 400 };
  double b = pw_rad(altitude_deg), g = pw_rad(gamma_deg);
  double out = cos(b) * cos(g), right = cos(b) * sin(g), up = sin(b);
  int lit = 0;
  for (int i = 0; i < N * N; i++) {
    double x = (i % N + 0.5) / N * s->width, y = (i / N + 0.5) / N * s->height; /* point */
    double top = (s->height + s->overhang_gap - y) / up, at = x + right * top;
    int dark = out * top <= s->overhang_depth + s->reveal && at >= -s->overhang_run[0] &&
               at <= s->width + s->overhang_run[1];
    dark |= out * (s->height - y) / up <= s->reveal;
    int k = right > 0.0;
    double edge = k ? s->width - x : -x;
    dark |= out * edge / right <= s->reveal;
    double fin = k ? s->width + s->fin_gap[1] - x : -s->fin_gap[0] - x;
    dark |= s->fin_depth[k] > 0.0 && out * fin / right <= s->fin_depth[k] + s->reveal;
    lit += !dark;
  }
  return (double)lit / (N * N);
}

static void shadows_agree_with_points_cast_one_by_one(void **state)
{
  (void)state;
  static const pw_shade shade[] = {
      {1.5, 1.2, 0.8, 0.2, {0.3, 0.1}, {0.4, 0.0}, {0.1, 0.0}, 0.12},
      {0.9, 1.5, 1.2, 0.0, {0.0, 0.0}, {0.0, 0.0}, {0.0, 0.0}, 0.0},
      {2.4, 1.0, 0.5, 0.3, {0.5, 2.0}, {0.5, 0.5}, {0.0, 0.2}, 0.05},
      {1.0, 1.0, 0.0, 0.0, {0.0, 0.0}, {0.0, 0.0}, {0.0, 0.0}, 0.2}};
  for (size_t k = 0; k < sizeof shade / sizeof shade[0]; k++)
    for (double altitude = 7.0; altitude < 85.0; altitude += 13.0)
      for (double gamma = -80.0; gamma < 90.0; gamma += 23.0)
        pw_assert_near(pw_shade_sunlit(&shade[k], altitude, gamma),
                       by_points(&shade[k], altitude, gamma), 6e-3, "sunlit share",
                       "rays from 400 x 400 points; half a row of points is 0.00125 a edge");
}

/* A very long plate summed over the vault against METHODS.md section 7 in closed form. */
static void dome_behind_an_overhang_meets_the_closed_form(void **state)
{
  (void)state;
  for (double depth = 0.1; depth < 2.0; depth *= 1.7) {
    pw_shade s = {1.0, 1.2, depth, 0.15, {INFINITY, INFINITY}, {0, 0}, {0, 0}, 0.0};
    pw_shade_factor closed, summed;
    assert_int_equal(pw_shade_factors(&s, &closed, NULL), PW_OK);
    s.overhang_run[0] = s.overhang_run[1] = 1e6;
    assert_int_equal(pw_shade_factors(&s, &summed, NULL), PW_OK);
    pw_assert_near(summed.dome, closed.dome, 1e-3, "dome", "METHODS.md section 7");
    pw_assert_near(summed.ground, 1.0, 0.0, "ground", "an overhang takes none");
  }
}

static void more_shade_never_gives_more_light(void **state)
{
  (void)state;
  pw_shade s = {1.2, 1.2, 0.0, 0.1, {0.2, 0.2}, {0, 0}, {0, 0}, 0.0};
  double before = 2.0, dome = 2.0;
  for (s.overhang_depth = 0.0; s.overhang_depth < 3.0; s.overhang_depth += 0.1) {
    pw_shade_factor f;
    assert_int_equal(pw_shade_factors(&s, &f, NULL), PW_OK);
    double lit = pw_shade_sunlit(&s, 50.0, 15.0);
    assert_true(lit <= before && f.dome <= dome + 1e-12);
    before = lit;
    dome = f.dome;
  }
  assert_true(before < 0.5 && dome < 0.75);
  assert_true(pw_shade_sunlit(&s, 30.0, 120.0) == 0.0); /* behind the wall */
}

/* Head on, what a square weave leaves open is the open share itself (wire black). */
static void a_screen_passes_its_open_share_head_on(void **state)
{
  (void)state;
  pw_assert_near(pw_screen_factor(0.64, 0.0, 1.0), 0.64, 1e-12, "screen", "(1 - r)^2");
  assert_true(pw_screen_factor(0.64, 0.0, 0.5) < 0.64);
  pw_assert_near(pw_screen_factor(0.64, 0.0, 0.1), 0.0, 0.0, "screen", "wires close up");
  assert_true(pw_screen_factor(0.64, 0.5, 0.5) > pw_screen_factor(0.64, 0.0, 0.5));
}

static void what_cannot_be_is_refused(void **state)
{
  (void)state;
  pw_err err;
  pw_sun sun = {.zenith_deg = 77.0};
  assert_int_equal(pw_sun_at(pw_julian_day(2000, 1, 1, 12.0), 91.0, 0.0, 0, 0, &sun, &err),
                   PW_E_DOMAIN);
  assert_string_equal(err.field, "latitude_deg");
  assert_int_equal(pw_sun_at(pw_julian_day(1900, 1, 1, 12.0), 0.0, 0.0, 0, 0, &sun, &err),
                   PW_E_DOMAIN);
  assert_string_equal(err.field, "jd");
  assert_int_equal(pw_sun_at(pw_julian_day(2000, 1, 1, 12.0), NAN, 0.0, 0, 0, &sun, &err),
                   PW_E_DOMAIN);
  assert_true(sun.zenith_deg == 77.0);
  pw_shade s = {1.0, 1.0, 25.0, 0.0, {0, 0}, {0, 0}, {0, 0}, 0.0};
  pw_shade_factor f = {9.0, 9.0, 9.0};
  assert_int_equal(pw_shade_factors(&s, &f, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "overhang_depth");
  s.overhang_depth = 1.0;
  s.overhang_gap = -0.1;
  assert_int_equal(pw_shade_factors(&s, &f, &err), PW_E_DOMAIN);
  s.overhang_gap = 0.0;
  s.width = 0.0;
  assert_int_equal(pw_shade_factors(&s, &f, &err), PW_E_DOMAIN);
  assert_true(f.dome == 9.0);
  assert_true(isnan(pw_air_mass(90.5)));
}

/* Two fins of depth d beside a window of width w leave of the horizon (hypot(w, d) - d) / w: crossed strings, Hottel 1954. Nothing
 * that hangs over the window stands in the way of what comes level. 1.2 m and 0.5 m: 0.8 / 1.2. */
static void fins_leave_of_the_horizon_what_strings_say(void **state)
{
  (void)state;
  pw_shade s = {.width = 1.2, .height = 1.5, .fin_depth = {0.5, 0.5}};
  pw_shade_factor bare, under;
  assert_int_equal(pw_shade_factors(&s, &bare, NULL), PW_OK);
  pw_assert_near(bare.horizon, 0.8 / 1.2, 2e-3, "horizon between fins", "crossed strings");
  s.overhang_depth = 0.8;
  s.overhang_run[0] = s.overhang_run[1] = 2.0;
  assert_int_equal(pw_shade_factors(&s, &under, NULL), PW_OK);
  pw_assert_near(under.horizon, bare.horizon, 1e-12, "under an overhang", "level rays");
  assert_true(under.dome < bare.dome - 0.05 && under.ground > under.dome);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_year_agrees_with_the_instant),
      cmocka_unit_test(the_clock_of_the_sun_is_right_to_seconds),
      cmocka_unit_test(the_equation_of_time_is_right_to_a_thousandth_of_a_minute),
      cmocka_unit_test(places_are_those_of_spa),
      cmocka_unit_test(the_air_lifts_the_sun_until_it_has_set),
      cmocka_unit_test(shadows_agree_with_points_cast_one_by_one),
      cmocka_unit_test(dome_behind_an_overhang_meets_the_closed_form),
      cmocka_unit_test(fins_leave_of_the_horizon_what_strings_say),
      cmocka_unit_test(more_shade_never_gives_more_light),
      cmocka_unit_test(a_screen_passes_its_open_share_head_on),
      cmocka_unit_test(what_cannot_be_is_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
