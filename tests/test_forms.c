/* Published forms of films, sky and ground: each by a value worked by hand from its source, each in its place in
 * the table, each acting on glass, on frames and by all three methods. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "climate/month.h"
#include "house/film.h"
#include "house/ground.h"
#include "job/house_file.h"
#include "panewright/year.h"
#include "study/forms.h"

static const int codes[PW_FORM_KINDS] = {4, 4, 2, 3, 3}; /* of the enums */

/* Every code of an enum stands once under its kind, the comparison's own among them. */
static void the_table_holds_every_form_once(void **state)
{
  (void)state;
  for (int k = 0; k < PW_FORM_KINDS; k++) {
    unsigned seen = 0;
    int n = 0;
    for (; pw_form_at((pw_form_kind)k, n).words; n++)
      seen |= 1u << pw_form_at((pw_form_kind)k, n).code;
    assert_int_equal(n, codes[k]);
    assert_int_equal(seen, (1u << codes[k]) - 1);
    pw_spread s;
    pw_spread_of_forms((pw_form_kind)k, &s);
    assert_int_equal(pw_form_at((pw_form_kind)k, (int)s.mode).code, 0);
    assert_int_equal((int)s.high + 1, n);
  }
}

/* Chance to place: equal shares, ends included. */
static void each_form_is_as_likely(void **state)
{
  (void)state;
  pw_spread s;
  pw_spread_of_forms(PW_FORM_FILM_OUT, &s);
  int count[4] = {0};
  for (int i = 0; i < 4000; i++)
    count[(int)pw_spread_at(&s, (i + 0.5) / 4000.0)]++;
  for (int k = 0; k < 4; k++)
    assert_int_equal(count[k], 1000);
  pw_assert_near(pw_spread_at(&s, 1.0 - 1e-12), 3.0, 0.0, "last", "share");
}

/* ISO 6946:2017 annex C: at 4 m/s h = 20, with 0.9 x 5.1 of radiation R_se = 0.04 as its table has it.
 * ISO 15099 8.3.3: at 4 m/s windward 4.7 + 7.6 x 1.0, leeward 4.7 + 7.6 x 0.5; at 1 m/s 0.5 and 0.35. */
static void outdoor_forms_by_hand(void **state)
{
  (void)state;
  pw_assert_near(film_wind_plain(4.0, 1.0), 20.0, 1e-12, "4 + 4 v", "ISO 6946");
  pw_assert_near(1.0 / (film_wind_plain(4.0, 1.0) + 0.9 * 5.1), 0.04, 0.001, "R_se",
                 "ISO 6946");
  pw_assert_near(film_wind_lee(4.0, 1.0), 0.5 * (12.3 + 8.5), 1e-9, "lee", "ISO 15099");
  pw_assert_near(film_wind_lee(1.0, 1.0), 0.5 * (8.5 + 7.36), 1e-9, "lee", "ISO 15099");
  assert_true(film_wind_plain(4.0, 0.85) < 0.9 * film_wind_plain(4.0, 1.0));
}

/* Constants of ISO 6946 and EN 673; correlations at 8 K with a pocket calculator: 8^0.293 = 1.839, 8^0.308 =
 * 1.897, 8^0.133 = 1.319, 8^0.32 = 1.945, 8^0.13 = 1.310. */
static void indoor_forms_by_hand(void **state)
{
  (void)state;
  const struct {
    pw_film_in form;
    double up, dt, size;
    int glass;
    double want;
  } row[] = {{PW_FILM_IN_FIXED, 0.0, -8.0, 1.0, 0, 2.5},
             {PW_FILM_IN_FIXED, 0.0, -8.0, 1.0, 1, 3.6},
             {PW_FILM_IN_FIXED, 1.0, 8.0, 1.0, 0, 5.0},
             {PW_FILM_IN_FIXED, 1.0, -8.0, 1.0, 0, 0.7},
             {PW_FILM_IN_FIXED, -1.0, 8.0, 1.0, 0, 0.7},
             {PW_FILM_IN_FIXED, -1.0, -8.0, 1.0, 0, 5.0},
             {PW_FILM_IN_ROOM, 0.0, -8.0, 1.0, 0, 1.823 * 1.839},
             {PW_FILM_IN_ROOM, 1.0, 8.0, 1.0, 0, 2.175 * 1.897},
             {PW_FILM_IN_ROOM, -1.0, 8.0, 1.0, 0, 0.704 * 1.319},
             {PW_FILM_IN_HEATED, 0.0, -8.0, 1.0, 1, 1.98 * 1.945},
             {PW_FILM_IN_HEATED, -1.0, -8.0, 1.0, 0, 2.72 * 1.310}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    film_law law = film_in_law(row[i].form, row[i].up, row[i].dt * row[i].up > 0.0, row[i].size,
                               row[i].glass, 1.0);
    pw_assert_near(law.c * pow(fabs(row[i].dt), law.e), row[i].want, 0.002 * row[i].want,
                   "film", "by hand");
  }
  assert_true(film_in_serves(PW_FILM_IN_HEATED, 0.0, -1.0));
  assert_false(film_in_serves(PW_FILM_IN_HEATED, 0.0, 1.0));
  assert_false(film_in_serves(PW_FILM_IN_HEATED, 1.0, -1.0));
  assert_false(film_in_serves(PW_FILM_IN_STILL, 0.0, -1.0));
}

/* Clear skies at a dew point of 10 C (vapour pressure 12.27 hPa, steam tables): Brunt 0.52 + 0.065 x 3.503 =
 * 0.748; Clark & Allen 0.787 + 0.764 ln(283.15/273) = 0.815. */
static void clear_skies_by_hand(void **state)
{
  (void)state;
  pw_hour h = {.t_air = 20.0f,
               .t_dew = 10.0f,
               .pressure = 1e5f,
               .cloud = 0.0f,
               .cloud_total = 0.0f,
               .ceiling = 2000.0f,
               .ir_down = -1.0f};
  double black = PW_SIGMA * pow(293.15, 4.0);
  pw_assert_near(pw_sky_longwave(&h, 12, PW_CLEAR_BRUNT) / black, 0.748, 0.001, "Brunt",
                 "hand");
  pw_assert_near(pw_sky_longwave(&h, 12, PW_CLEAR_CLARK) / black, 0.815, 0.001, "Clark",
                 "hand");
}

/* ISO 13370: a slab of 10 x 10 m, d_t 0.15 + 2 (0.17 + 0.04 + 0.1) = 0.77: H_pe = 0.37 x 40 x 2 ln(3.2/0.77 + 1) =
 * 48.5 W/K, H_g = 100 x 4 / (pi 5 + 0.77) ln(pi 5 / 0.77 + 1) / 1 = 74.3 W/K: share 0.653; January's ground takes
 * December's air. */
static void ground_follows_its_form(void **state)
{
  (void)state;
  pw_house house = {.n_part = 1};
  pw_house_part *p = &house.part[0];
  p->area = 100.0;
  p->tilt_deg = 180.0;
  p->outside = PW_OUTSIDE_GROUND;
  p->layers.n_layer = 2;
  p->layers.layer[0].resistance = ground_soil_resistance(10.0, 0.1);
  p->layers.layer[1].resistance = 0.1;
  pw_assert_near(100.0 * pw_house_part_u(p), 74.3, 0.2, "H_g", "ISO 13370 by hand");
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  for (int h = 0; h < PW_HOURS; h++)
    w->hour[h].t_air = pw_month_of_day(h / 24) == 11 ? 0.0f : 12.0f;
  double mean = 12.0 * (365.0 - 31.0) / 365.0, c[12];
  pw_house_ground(&house, w, PW_GROUND_YEAR, c);
  pw_assert_near(c[0], mean, 1e-6, "year", "mean");
  pw_house_ground(&house, w, PW_GROUND_PERIMETER, c);
  pw_assert_near(c[11], 0.0, 1e-6, "perimeter", "month");
  pw_house_ground(&house, w, PW_GROUND_PERIODIC, c);
  pw_assert_near(c[0], mean + 0.653 * (0.0 - mean), 0.03, "a month late", "ISO 13370 by hand");
  pw_assert_near(c[11], mean + 0.653 * (12.0 - mean), 0.03, "a month late",
                 "ISO 13370 by hand");
  free(w);
}

/* Heat lost by the windows of a box by every film. Single glass alone, then frames alone: a film form that does not reach one of
 * them shows as no change. */
static double lost(pw_year_method method, pw_film_out out, pw_film_in in, int frames)
{
  pw_place place;
  pw_err err = {0};
  pw_house_file *file = calloc(1, sizeof *file);
  pw_weather *weather = calloc(1, sizeof *weather);
  pw_year_result *r = calloc(1, sizeof *r);
  assert_true(file && weather && r);
  size_t denver;
  assert_int_equal(pw_place_find("Denver", &denver, NULL, NULL), PW_OK);
  assert_int_equal(pw_place_get(denver, &place, NULL), PW_OK);
  assert_int_equal(pw_month_year(&place, PW_MONTH_VARIED_DAYS, weather, NULL), PW_OK);
  assert_int_equal(pw_house_file_builtin("std140/600", file, &err), PW_OK);
  file->house.film_out = out;
  file->house.film_in = in;
  for (size_t i = 0; frames && i < file->n_window; i++) {
    file->window[i].ua_other = 50.0; /* W/K: bare aluminium of 6 W/(m2 K) over 8.33 m2 */
    file->window[i].area_other = 8.33;
    file->window[i].area_glass = 0.01;
  }
  const pw_year_options o = {.method = method};
  assert_int_equal(
      pw_year_run(&file->house, weather, file->window, file->n_window, &o, NULL, r, &err),
      PW_OK);
  double kwh = r->window_loss_kwh;
  free(file);
  free(weather);
  free(r);
  return kwh;
}

static void films_reach_glass_and_frames_by_every_method(void **state)
{
  (void)state;
  for (int m = PW_YEAR_DETAILED; m <= PW_YEAR_QUICK; m++)
    for (int frames = 0; frames < 2; frames++) {
      double kwh[4], in[4];
      for (int k = 0; k < 4; k++) {
        kwh[k] = lost((pw_year_method)m, (pw_film_out)k, PW_FILM_IN_STILL, frames);
        in[k] = lost((pw_year_method)m, PW_FILM_OUT_FIELD, (pw_film_in)k, frames);
      }
      print_message("method %d, frames %d: out %.0f %.0f %.0f %.0f, in %.0f %.0f %.0f %.0f\n",
                    m, frames, kwh[0], kwh[1], kwh[2], kwh[3], in[0], in[1], in[2], in[3]);
      /* Under a clear sky the outer pane of a double unit is colder than the air: there wind warms it. */
      int straight = frames || m != PW_YEAR_DETAILED;
      for (int k = 0; k < 4; k++)
        for (int n = 0; n < k; n++) {
          assert_true(fabs(kwh[k] / kwh[n] - 1.0) > 1e-3);
          assert_true(fabs(in[k] / in[n] - 1.0) > 1e-3);
        }
      if (!straight) continue;
      assert_true(kwh[PW_FILM_OUT_SHELTERED] < kwh[PW_FILM_OUT_FIELD]);
      assert_true(kwh[PW_FILM_OUT_FIELD] < kwh[PW_FILM_OUT_PLAIN]);
      assert_true(in[PW_FILM_IN_STILL] < in[PW_FILM_IN_FIXED]);
    }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_table_holds_every_form_once),
      cmocka_unit_test(each_form_is_as_likely),
      cmocka_unit_test(outdoor_forms_by_hand),
      cmocka_unit_test(indoor_forms_by_hand),
      cmocka_unit_test(clear_skies_by_hand),
      cmocka_unit_test(ground_follows_its_form),
      cmocka_unit_test(films_reach_glass_and_frames_by_every_method),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
