/* src/climate where it is seldom: texts that are nearly a place or a zone, months without spread, skies that would be darker than
 * black. Values from reference/climate2 or by hand beside each. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "climate/code_zone.h"
#include "climate/month_impl.h"
#include "climate/place_find.h"
#include "climate/sky.h"

/* ---------------------------------------------------------------- places */

/* 01004 is a post office without an area: not in zip5.csv; 010 in zip3.csv has station 744910, 21 km, zone 5A. */
static void a_zip_code_that_is_not_listed_goes_by_its_first_three(void **state)
{
  (void)state;
  pw_place_hit hit;
  pw_place place;
  assert_int_equal(pw_place_look("01004", &hit, NULL), PW_OK);
  assert_int_equal(pw_place_get(hit.index, &place, NULL), PW_OK);
  assert_string_equal(place.station, "744910");
  assert_string_equal(hit.zone, "5A");
  pw_assert_near(hit.km, 21.0, 0.0, "km", "zip3.csv, 010");
  assert_non_null(strstr(hit.said, "the main place of 010"));
}

static void what_is_nearly_a_place_is_refused(void **state)
{
  (void)state;
  static const struct {
    const char *text, *says;
  } row[] = {
      {"00600", "no ZIP code 00600"}, /* of 006 only, which has no station within reach */
      {"00500", "no ZIP code 00500"}, /* zip3.csv has no 005 */
      {"92262x", "no place '92262x'"},
      {"92262-123", "no place"},
      {"92262-12a4", "no place"},
      {"92262-12345", "no place"},
      {"92262-1234x", "no place"},
      {"ZIP 926", "no place 'ZIP 926'"},
      {"40.58, -105.08 x", "no place"},
      {"40.58,", "no place"},
      {"40,181", "longitude 181"},
      {", AZ", "may be PHOENIX SKY HARBOR INTL AP AZ"},
      {"CA zone 123", "no place"},
      {"CA zone 12x", "no place"},
      {"CA zone 12 3", "no place"},
      {"zone 12", "no place"}, /* of no state */
      {"!!", "no place '!!'"},
      {"{x", "may be Xenia IL; Xenia OH"},
      {"Twentynine Palms CA Base", "did you mean TWENTYNINE PALMS CA"},
      {"North, CA", "may be SAN DIEGO NORTH ISLAND NAS CA; JACK NORTHROP FLD H CA"},
      {"El, CA", "El Cajon CA; El Centro CA; El Cerrito CA; El Dorado CA and more"},
      {"a town that has a name much longer than all that there are in any of the states of it",
       "no place"},
      {"st st st st st st st st st st st st st st st st st st st st st st st st st st x",
       "no place"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_place_hit hit;
    pw_err err = {0};
    if (pw_place_look(row[i].text, &hit, &err) == PW_OK) fail_msg("%s: taken", row[i].text);
    if (!strstr(err.text, row[i].says)) fail_msg("%s: %s", row[i].text, err.text);
  }
}

/* What stands behind a name and says nothing is left out. */
static void marks_around_a_name_change_nothing(void **state)
{
  (void)state;
  static const char *const text[] = {"Phoenix, AZ", "  Phoenix, AZ, ", "Phoenix, AZ.",
                                     "Phoenix  , AZ"};
  for (size_t i = 0; i < sizeof text / sizeof text[0]; i++) {
    pw_place_hit hit;
    pw_place place;
    pw_err err = {0};
    if (pw_place_look(text[i], &hit, &err) != PW_OK) fail_msg("%s: %s", text[i], err.text);
    assert_int_equal(pw_place_get(hit.index, &place, NULL), PW_OK);
    assert_string_equal(place.station, "722780");
  }
}

static void no_more_is_offered_than_there_is_room_for(void **state)
{
  (void)state;
  pw_place_choice c[1];
  assert_int_equal(pw_place_like("Phoenix", c, 0), 0);
  assert_int_equal(pw_place_like("926", c, 1), 1);
  assert_int_equal(pw_place_like("Laguna Beach, CA", c, 1), 1);
  assert_string_equal(c[0].write, "Laguna Beach, CA");
  assert_int_equal(pw_place_like("1234 Elm", c, 1), 0); /* digits, but no ZIP code */
}

/* ---------------------------------------------------------------- zones of the code */

static void zones_are_found_through_marks_and_blanks(void **state)
{
  (void)state;
  static const struct {
    const char *text, *zone;
    int ca_zone;
  } row[] = {{" 4B", "4B", 0}, {"4B.", "4B", 0},  {"zone  5 ", "5", 0}, {"8", "8", 0},
             {"CA 1", "", 1},  {"CA 16", "", 16}, {"1A", "1A", 0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_code_zone_said said;
    pw_err err = {0};
    if (pw_code_zone_look(row[i].text, "", &said, &err) != PW_OK)
      fail_msg("%s: %s", row[i].text, err.text);
    assert_string_equal(said.zone, row[i].zone);
    assert_int_equal(said.ca_zone, row[i].ca_zone);
  }
  static const char *const none[] = {
      "",
      "!!",
      "0A",
      "CA 0",
      "CA 17",
      "CA x",
      "CA 123",
      "CA 1x",
      "12",
      "4BA",
      "a county whose name is longer than any that there is in the table of counties"};
  for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
    pw_code_zone_said said = {.ca_zone = 77};
    pw_err err = {0};
    assert_int_equal(pw_code_zone_look(none[i], "AZ", &said, &err), PW_E_DATA);
    assert_string_equal(err.field, "code_zone");
    assert_int_equal(said.ca_zone, 77);
  }
}

/* ---------------------------------------------------------------- months */

/* January of 31 days at 40 N with these means, by draws that are all alike. */
static void plan_january(const pw_month_normal *normal, month_day day[MONTH_YEAR_DAYS])
{
  static month_draws alike; /* every score 0 */
  pw_place place = {.site = {"x", 40.0, -105.0, -7.0, 1600.0}};
  place.month[0] = *normal;
  month_sun_path(&place.site, day);
  month_plan(&place, 0, &alike, day);
}

/* Of draws that are all alike the earlier day is the lower: clearness rises from day to day. The month's sun is kept. */
static void draws_that_tie_go_by_the_day(void **state)
{
  (void)state;
  static month_day day[MONTH_YEAR_DAYS];
  const pw_month_normal normal = {.ghi = 2.5,
                                  .dhi = 1.0,
                                  .dni = 3.0,
                                  .t_mean = 0.0,
                                  .t_day_max = 6.0,
                                  .t_day_min = -6.0,
                                  .t_highest = 15.0,
                                  .t_lowest = -18.0};
  plan_january(&normal, day);
  double sum = 0.0, mean = 0.0;
  for (int i = 0; i < 31; i++) {
    if (i > 0) assert_true(day[i].ghi / day[i].outside > day[i - 1].ghi / day[i - 1].outside);
    sum += day[i].ghi;
    mean += day[i].t_mean / 31.0;
  }
  pw_assert_near(sum, 31.0 * 2500.0, 1e-6, "Wh/m2 of the month", "31 days of 2.5 kWh");
  pw_assert_near(mean, 0.0, 1e-5, "mean", "normal");
}

/* Where the month's extremes are those of every day there is nothing to spread: every day has the month's mean. */
static void a_month_without_spread_has_days_alike(void **state)
{
  (void)state;
  static month_day day[MONTH_YEAR_DAYS];
  const pw_month_normal normal = {.ghi = 2.5,
                                  .dhi = 1.0,
                                  .dni = 3.0,
                                  .t_mean = 4.0,
                                  .t_day_max = 4.2,
                                  .t_day_min = 3.8,
                                  .t_highest = 4.2,
                                  .t_lowest = 3.8};
  double swing = 0.0;
  plan_january(&normal, day);
  for (int i = 0; i < 31; i++) {
    pw_assert_near(day[i].t_mean, 4.0, 1e-9, "mean of a day", "no spread");
    swing += day[i].t_swing / 31.0;
  }
  assert_true(swing > 0.0 &&
              swing < 0.4 + 1e-12); /* no more than highest less lowest of a day */
}

/* ---------------------------------------------------------------- sky */

/* Sun overhead, beam 1300 and diffuse 200 W/m2, a plane that looks down but for 5 degrees, by hand after Perez 1990: clearness 7.5,
 * brightness 200 / 1366 = 0.146; F1 = 0.678 - 0.327 * 0.146 = 0.630, F2 = 0.156 - 1.377 * 0.146 = -0.046; dome
 * 200 * 0.370 * (1 + cos 175) / 2 = 0.14, band -0.046 * 200 * sin 175 = -0.80: together below 0, and no sky is darker than black. */
static void no_sky_is_darker_than_black(void **state)
{
  (void)state;
  const pw_facade down = {0.0, 175.0, 0.0};
  pw_plane_sun p;
  assert_int_equal(pw_sky_plane(PW_SKY_PEREZ, &down, 1500, 1300, 200, 1366, 0.0, 180, &p, NULL),
                   PW_OK);
  pw_assert_near(fabs(p.circumsolar) + fabs(p.dome) + fabs(p.horizon), 0.0, 0.0, "sky", "0");
  /* the same hour in a year: 23.4 N at the summer solstice, noon at the middle of hour 12 */
  pw_weather *w = calloc(1, sizeof *w);
  pw_sky_year *sky = malloc(sizeof *sky);
  pw_facade_year *f = malloc(sizeof *f);
  assert_true(w && sky && f);
  const int h = 171 * 24 + 12;
  double kwh[12];
  w->site = (pw_site){.latitude_deg = 23.4, .longitude_deg = -97.05, .tz_h = -6.0};
  w->hour[h] = (pw_hour){.ghi = 1500.0f, .dni = 1300.0f, .dhi = 200.0f, .albedo = 0.5f};
  assert_int_equal(pw_sky_of_year(w, PW_SKY_PEREZ, sky, NULL), PW_OK);
  assert_true(sky->sun.n == 1 && sky->sun.up[0] > 0.9999f && sky->band[0] < 0.0f);
  assert_int_equal(pw_facade_of_year(sky, &down, f, NULL), PW_OK);
  assert_true(f->circumsolar[h] == 0.0f && f->dome[h] == 0.0f && f->horizon[h] == 0.0f);
  /* a ground that is not told is the hour's own: half of 1500 W/m2 from below, 0.75 kWh in June */
  const pw_facade level = {0.0, 180.0, -1.0};
  assert_int_equal(pw_month_facade(sky, &level, kwh, NULL), PW_OK);
  pw_assert_near(kwh[5], 0.75, 1e-6, "ground, kWh/m2", "half of 1500 W/m2 for an hour");
  pw_assert_near(kwh[6], 0.0, 0.0, "July", "no sun was given");
  free(w);
  free(sky);
  free(f);
}

static void a_sky_that_is_none_is_refused(void **state)
{
  (void)state;
  pw_err err;
  assert_string_equal(pw_sky_model_name(PW_SKY_MODEL_COUNT), "unknown");
  assert_int_equal(pw_sky_of_year(NULL, PW_SKY_MODEL_COUNT, NULL, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "model");
}

/* Nothing to split: a dark hour of day gives neither beam nor diffuse. */
static void a_dark_hour_splits_to_nothing(void **state)
{
  (void)state;
  double dni = -1.0, dhi = -1.0;
  assert_int_equal(pw_sky_split(0.0, 30.0, 100, &dni, &dhi, NULL), PW_OK);
  assert_true(dni == 0.0 && dhi == 0.0);
  assert_int_equal(pw_sky_split(10.0, 88.0, 100, &dni, &dhi, NULL), PW_OK);
  assert_true(dni == 0.0 && dhi == 10.0); /* near the horizon all is diffuse */
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_zip_code_that_is_not_listed_goes_by_its_first_three),
      cmocka_unit_test(what_is_nearly_a_place_is_refused),
      cmocka_unit_test(marks_around_a_name_change_nothing),
      cmocka_unit_test(no_more_is_offered_than_there_is_room_for),
      cmocka_unit_test(zones_are_found_through_marks_and_blanks),
      cmocka_unit_test(draws_that_tie_go_by_the_day),
      cmocka_unit_test(a_month_without_spread_has_days_alike),
      cmocka_unit_test(no_sky_is_darker_than_black),
      cmocka_unit_test(a_sky_that_is_none_is_refused),
      cmocka_unit_test(a_dark_hour_splits_to_nothing),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
