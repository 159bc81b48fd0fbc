/* Sky models, long-wave and splits: closed forms, properties, refusals. Published rows: src/check. */
#include "support.h"

#include <math.h>
#include <stdlib.h>

#include "climate/month.h"
#include "climate/shade.h"
#include "panewright/units.h"

/* A year of mixed weather without a file: made, then roughened so that every kind of sky occurs. */
static pw_weather *rough_year(void)
{
  size_t index = 0;
  pw_place p;
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  assert_int_equal(pw_place_find("denver", &index, NULL, NULL), PW_OK);
  assert_int_equal(pw_place_get(index, &p, NULL), PW_OK);
  assert_int_equal(pw_month_year(&p, PW_MONTH_VARIED_DAYS, w, NULL), PW_OK);
  for (int i = 0; i < PW_HOURS; i++)
    w->hour[i].dni *= (float)(i * 7 % 11) / 8.0f;
  return w;
}

/* On the level: beam is DNI cos z, no ground, and the sky is DHI whatever the model, for its shape
 * only moves light about (while the sun is above Perez' floor of 5 degrees). */
static void the_level_plane_sees_the_whole_sky(void **state)
{
  (void)state;
  const pw_facade level = {0.0, 0.0, 0.2};
  for (int model = 0; model < PW_SKY_MODEL_COUNT; model++)
    for (double z = 0.0; z < 85.0; z += 8.5)
      for (double dni = 0.0; dni < 1000.0; dni += 240.0) {
        pw_plane_sun p;
        double ghi = 120.0 + dni * cos(pw_rad(z));
        assert_int_equal(pw_sky_plane((pw_sky_model)model, &level, ghi, dni, 120.0, 1366.1, z,
                                      200.0, &p, NULL),
                         PW_OK);
        pw_assert_near(p.beam, dni * cos(pw_rad(z)), 1e-9, "beam", "closed form");
        pw_assert_near(p.circumsolar + p.dome + p.horizon, 120.0, 1e-4, "sky", "DHI");
        pw_assert_near(p.ground, 0.0, 1e-12, "ground", "none on the level");
      }
}

/* Hours that hold sunrise or sunset, mid-hour sun below the horizon: METHODS.md section 2. */
static void below_the_horizon_perez_is_dark_and_the_beam_stays(void **state)
{
  (void)state;
  const pw_facade west = {270.0, 90.0, 0.2};
  pw_plane_sun p;
  assert_int_equal(pw_sky_plane(PW_SKY_PEREZ, &west, 5, 50, 5, 1366, 90.5, 270, &p, NULL),
                   PW_OK);
  pw_assert_near(p.beam, 50.0 * sin(pw_rad(90.5)), 1e-9, "beam", "kept");
  pw_assert_near(p.circumsolar + p.dome + p.horizon, 0.0, 0.0, "sky", "0");
  pw_assert_near(p.ground, 0.5, 1e-12, "ground", "GHI albedo / 2");
}

/* Opposite planes of an even sky see it once: f(t) + f(180 - t) = 1. Ground likewise. */
static void opposite_planes_share_an_even_sky(void **state)
{
  (void)state;
  for (double tilt = 0.0; tilt <= 180.0; tilt += 15.0) {
    pw_plane_sun a, b;
    const pw_facade one = {30.0, tilt, 0.3}, other = {210.0, 180.0 - tilt, 0.3};
    assert_int_equal(pw_sky_plane(PW_SKY_EVEN, &one, 400, 0, 400, 1366, 50, 100, &a, NULL),
                     PW_OK);
    assert_int_equal(pw_sky_plane(PW_SKY_EVEN, &other, 400, 0, 400, 1366, 50, 100, &b, NULL),
                     PW_OK);
    pw_assert_near(a.dome + b.dome, 400.0, 1e-4, "dome", "closed form");
    pw_assert_near(a.ground + b.ground, 120.0, 1e-4, "ground", "closed form");
  }
}

/* The yearly arrays against the single-hour function, hour by hour. */
static void the_year_is_the_sum_of_its_hours(void **state)
{
  (void)state;
  pw_weather *w = rough_year();
  pw_sky_year *sky = malloc(sizeof *sky);
  pw_facade_year *f = malloc(sizeof *f);
  assert_non_null(sky);
  assert_non_null(f);
  const pw_facade facade = {247.0, 80.0, 0.35};
  for (int model = 0; model < PW_SKY_MODEL_COUNT; model++) {
    assert_int_equal(pw_sky_of_year(w, (pw_sky_model)model, sky, NULL), PW_OK);
    assert_int_equal(pw_facade_of_year(sky, &facade, f, NULL), PW_OK);
    double month[12], sum[12] = {0};
    for (size_t i = 0; i < sky->sun.n; i++) {
      int h = sky->sun.hour[i];
      const pw_hour *x = &w->hour[h];
      pw_plane_sun p;
      assert_int_equal(pw_sky_plane((pw_sky_model)model, &facade, (double)x->ghi,
                                    (double)x->dni, (double)x->dhi, (double)sky->sun.normal[i],
                                    (double)sky->sun.zenith[i] * 180.0 / PW_PI,
                                    atan2(sky->sun.east[i], sky->sun.north[i]) * 180.0 / PW_PI,
                                    &p, NULL),
                       PW_OK);
      double ours =
          (double)(f->beam[h] + f->circumsolar[h] + f->dome[h] + f->horizon[h] + f->ground[h]);
      pw_assert_near(ours, p.beam + p.circumsolar + p.dome + p.horizon + p.ground, 0.02,
                     "hour of the year, W/m2", "pw_sky_plane; floats");
      assert_true(f->circumsolar[h] + f->dome[h] + f->horizon[h] >= -1e-3f);
      sum[pw_month_of_day(h / 24)] += ours / 1000.0;
    }
    assert_int_equal(pw_month_facade(sky, &facade, month, NULL), PW_OK);
    for (int m = 0; m < 12; m++)
      pw_assert_near(month[m], sum[m], 1e-4 * sum[m], "month", "sum of the hours");
  }
  free(w);
  free(sky);
  free(f);
}

/* Clear sky at a dew point of 0 C and 1000 hPa, mean of day and night: 0.711 (Berdahl & Martin
 * 1984; memory). A closed sky low down is nearly black; more cloud, a damper sky: warmer. */
static void long_wave_by_dew_point_and_cloud(void **state)
{
  (void)state;
  pw_hour h = {.t_air = 15.0f,
               .t_dew = 0.0f,
               .pressure = 1e5f,
               .cloud = 0.0f,
               .cloud_total = 0.0f,
               .ceiling = -1.0f,
               .ir_down = -1.0f};
  double t4 = PW_SIGMA * pow(288.15, 4.0), mean = 0.0, last = 0.0;
  for (int k = 0; k < 24; k++)
    mean += pw_sky_longwave(&h, k, PW_CLEAR_BERDAHL) / t4 / 24.0;
  pw_assert_near(mean, 0.711, 1e-6, "emittance", "Berdahl & Martin 1984, memory");
  for (int n = 0; n <= 10; n++) {
    h.cloud = h.cloud_total = (float)n / 10.0f;
    double e = pw_sky_longwave(&h, 12, PW_CLEAR_BERDAHL) / t4;
    assert_true(e > last && e <= 1.0);
    last = e;
  }
  h.ceiling = 100.0f;
  assert_true(pw_sky_longwave(&h, 12, PW_CLEAR_BERDAHL) / t4 > 0.98);
  h.ceiling = 6000.0f;
  assert_true(pw_sky_longwave(&h, 12, PW_CLEAR_BERDAHL) / t4 < last);
  h.ir_down = 300.0f; /* the file's own comes first */
  pw_assert_near(pw_sky_longwave(&h, 3, PW_CLEAR_BERDAHL), 300.0, 1e-6, "file", "as given");
  pw_assert_near(pw_sky_temperature(&h, 3, PW_CLEAR_BERDAHL), pow(300.0 / PW_SIGMA, 0.25), 1e-9,
                 "sky", "black");
}

static void a_clear_sky_by_the_height_of_the_sun(void **state)
{
  (void)state;
  pw_assert_near(pw_sky_clear_global(0.0), 1098.0 * exp(-0.057), 1e-9, "overhead", "Haurwitz");
  pw_assert_near(pw_sky_clear_global(95.0), 0.0, 0.0, "night", "below the horizon");
}

/* A screen of square mesh and black wire: straight on, the open share passes; the wires' own width
 * closes it where the sun comes along the wall. Usual insect screen: 0.66 open (header). */
static void a_black_screen_passes_its_open_share(void **state)
{
  (void)state;
  for (double open = 0.3; open < 0.9; open += 0.2)
    pw_assert_near(pw_screen_factor(open, 0.0, 1.0), open, 1e-12, "straight on", "closed form");
  pw_assert_near(pw_screen_factor(0.0, 0.0, 1.0), 0.66, 1e-12, "usual screen", "shade.h");
  pw_assert_near(pw_screen_factor(0.66, 0.0, 0.1), 0.0, 1e-12, "along the wall", "closed form");
  assert_true(pw_screen_factor(0.66, 0.5, 0.5) > pw_screen_factor(0.66, 0.0, 0.5));
}

static void what_no_sky_gives_is_refused(void **state)
{
  (void)state;
  pw_err err;
  pw_plane_sun p = {.beam = 77.0};
  const pw_facade good = {180.0, 90.0, 0.2}, steep = {180.0, 190.0, 0.2},
                  white = {180, 90, 1.5};
  assert_int_equal(pw_sky_plane(PW_SKY_PEREZ, &steep, 1, 1, 1, 1366, 50, 180, &p, &err),
                   PW_E_DOMAIN);
  assert_string_equal(err.field, "tilt_deg");
  assert_int_equal(pw_sky_plane(PW_SKY_PEREZ, &white, 1, 1, 1, 1366, 50, 180, &p, &err),
                   PW_E_DOMAIN);
  assert_string_equal(err.field, "albedo");
  assert_int_equal(pw_sky_plane(PW_SKY_PEREZ, &good, NAN, 1, 1, 1366, 50, 180, &p, &err),
                   PW_E_DOMAIN);
  assert_int_equal(pw_sky_plane((pw_sky_model)9, &good, 1, 1, 1, 1366, 50, 180, &p, &err),
                   PW_E_DOMAIN);
  assert_string_equal(err.field, "model");
  assert_true(p.beam == 77.0);
  double dni = 5.0, dhi = 6.0;
  assert_int_equal(pw_sky_split(-1.0, 50.0, 10, &dni, &dhi, &err), PW_E_DOMAIN);
  assert_int_equal(pw_sky_split(100.0, 50.0, 0, &dni, &dhi, &err), PW_E_DOMAIN);
  assert_true(dni == 5.0 && dhi == 6.0);
}

static void models_have_names(void **state)
{
  (void)state;
  assert_string_equal(pw_sky_model_name(PW_SKY_PEREZ), "perez");
  assert_string_equal(pw_sky_model_name(PW_SKY_HAY_DAVIES), "hay-davies");
  assert_string_equal(pw_sky_model_name(PW_SKY_EVEN), "even");
  assert_string_equal(pw_sky_model_name(PW_SKY_MODEL_COUNT), "unknown");
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_level_plane_sees_the_whole_sky),
      cmocka_unit_test(below_the_horizon_perez_is_dark_and_the_beam_stays),
      cmocka_unit_test(opposite_planes_share_an_even_sky),
      cmocka_unit_test(the_year_is_the_sum_of_its_hours),
      cmocka_unit_test(long_wave_by_dew_point_and_cloud),
      cmocka_unit_test(a_clear_sky_by_the_height_of_the_sun),
      cmocka_unit_test(a_black_screen_passes_its_open_share),
      cmocka_unit_test(what_no_sky_gives_is_refused),
      cmocka_unit_test(models_have_names),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
