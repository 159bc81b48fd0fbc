/* What is not given: one way to write it, the same answer whatever else a zeroed struct would say. */
#include "support.h"

#include <stdlib.h>
#include <string.h>

#include "climate/month.h"
#include "money/price.h"
#include "panewright/comparison.h"
#include "panewright/glazing.h"
#include "panewright/house_facts.h"
#include "panewright/rates.h"
#include "panewright/rating.h"
#include "panewright/units.h"
#include "window/caution.h"
#include "window/frame_line.h"
#include "window/opening_label.h"

static const pw_frame_line *vinyl(void)
{
  static pw_frame_line line[64];
  size_t n = pw_frame_line_count() < 64 ? pw_frame_line_count() : 64;
  for (size_t i = 0; i < n; i++)
    pw_frame_line_builtin(i, &line[i]);
  return pw_frame_line_pick(line, n, "vinyl", PW_FIXED);
}

static pw_opening an_opening(pw_operator kind)
{
  pw_opening o;
  pw_opening_init(&o);
  o.operator_existing = o.operator_insert = kind;
  o.width[1] = 1.2;
  o.height[1] = 1.5;
  return o;
}

static double frame_area(const pw_opening *o)
{
  pw_fit fit;
  pw_glazing glass;
  pw_rating r;
  pw_err err = {0};
  if (pw_fit_opening(o, vinyl(), &fit, &err) != PW_OK ||
      pw_glazing_build(&o->existing_glass, &glass, &err) != PW_OK ||
      pw_rating_existing(o, &fit, &glass, NULL, &r, &err) != PW_OK)
    fail_msg("%s", err.text);
  return r.areas.frame + r.areas.divider;
}

/* 1.2 x 1.5 m fixed, face 1 in (measure.csv F5): 1.8 - (1.2 - 0.0508)(1.5 - 0.0508) = 0.13458 m2 of frame.
 * A slider, faces 1 1/2 in (F4): lites of (1.2 - 0.1143)/2 x (1.5 - 0.0762), both moving faces alike. */
static void an_opening_that_was_set_up_has_the_usual_frame(void **state)
{
  (void)state;
  pw_opening o = an_opening(PW_FIXED);
  pw_assert_near(frame_area(&o), 0.13458, 1e-5, "frame", "hand sum, face 1 in");
  o = an_opening(PW_SLIDER);
  pw_assert_near(frame_area(&o), 1.8 - (1.2 - 0.1143) * (1.5 - 0.0762), 1e-5, "frame",
                 "hand sum, faces 1 1/2 in");
}

static void a_zeroed_opening_is_refused_not_rated_without_its_frame(void **state)
{
  (void)state;
  static const struct {
    pw_operator kind;
    const char *field;
  } row[] = {{PW_FIXED, "frame_face"},
             {PW_CASEMENT, "sash_face"},
             {PW_SLIDER, "frame_face"},
             {PW_DOUBLE_HUNG, "sash_face"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_opening o = {.operator_existing = row[i].kind, .operator_insert = row[i].kind};
    pw_fit fit;
    pw_err err = {0};
    o.width[1] = 1.2;
    o.height[1] = 1.5;
    assert_int_equal(pw_fit_opening(&o, vinyl(), &fit, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, row[i].field);
  }
}

/* Each number of an opening not given does what a blank cell does: no caution of falls, doors, tubs or walks; no
 * escape bottom; a shape without legs. */
static void what_is_not_given_asks_for_nothing(void **state)
{
  (void)state;
  pw_opening o = an_opening(PW_SLIDER);
  pw_fit fit;
  assert_int_equal(pw_fit_opening(&o, vinyl(), &fit, NULL), PW_OK);
  assert_true(fit.clear_existing.bottom < 0.0);
  for (size_t i = 0; i < fit.n_finding; i++)
    assert_int_not_equal(fit.finding[i].kind, PW_FINDING_SILL);
  pw_cautions found;
  pw_job job = {.n_opening = 1, .opening = &o, .n_package = 0};
  pw_house_init(&job.house);
  assert_int_equal(pw_cautions_find(&job, &fit, &found, NULL), PW_OK);
  size_t asked = found.n;
  pw_cautions_free(&found);
  o.near_water = 0.0; /* at the tub: one more */
  assert_int_equal(pw_cautions_find(&job, &fit, &found, NULL), PW_OK);
  assert_true(found.n > asked);
  pw_cautions_free(&found);
  o = an_opening(PW_FIXED);
  o.shape = PW_SHAPE_HALF_ROUND;
  o.height[1] = 0.6; /* half of 1.2: no leg */
  pw_shape_size z = pw_fit_measured(&o);
  pw_assert_near(z.rise, 0.6, 1e-12, "rise", "half the width");
  o.shape = PW_SHAPE_TRIANGLE;
  assert_true(pw_fit_measured(&o).peak_at < 0.0);
}

static void a_given_number_says_whether_it_is(void **state)
{
  (void)state;
  const pw_given zeroed = {0}, none = {.value = PW_NOT_GIVEN},
                 free_of_charge = {.origin = PW_ORIGIN_STATED}, two = {.value = 2.0};
  assert_false(pw_given_is(&zeroed));
  assert_false(pw_given_is(&none));
  assert_true(pw_given_is(&free_of_charge)); /* $0 that somebody stated */
  assert_true(pw_given_is(&two));
  assert_true(pw_is_given(0.0));
  assert_false(pw_is_given(PW_NOT_GIVEN));
}

/* A label that nobody gave is none, zeroed or set up; a price without a line of a file counts, of one window and in the sum. */
static void labels_and_prices_need_no_file(void **state)
{
  (void)state;
  pw_label_row zeroed = {0}, set_up;
  pw_label_row_init(&set_up);
  assert_false(pw_label_is_known(&zeroed));
  assert_false(pw_label_is_known(&set_up));
  set_up.u.value = 1.7;
  assert_true(pw_label_is_known(&set_up));
  pw_opening o = an_opening(PW_FIXED);
  pw_package package;
  pw_package_init(&package);
  pw_job job = {.n_opening = 1, .opening = &o, .n_package = 1, .package = &package};
  pw_given price;
  o.price.value = 640.0;
  assert_int_equal(pw_price_of_window(&job, 0, &o, 1.8, &price, NULL), PW_OK);
  pw_assert_near(price.value, 640.0, 0.0, "price", "as given");
  pw_price sum;
  const double area = 1.8;
  o.quantity = 3;
  assert_int_equal(pw_price_of(&job, 0, &area, NULL, &sum, NULL), PW_OK);
  assert_int_equal(sum.unpriced, 0);
  pw_assert_near(sum.value, 1920.0, 0.0, "three", "3 x 640");
  o.price.value = PW_NOT_GIVEN;
  package.price_per_opening.value = PW_NOT_GIVEN;
  package.price_per_area.value = 100.0;
  assert_int_equal(pw_price_of(&job, 0, &area, NULL, &sum, NULL), PW_OK);
  pw_assert_near(sum.value, 540.0, 1e-9, "by area alone", "3 x 1.8 x 100");
}

static void same_figures(const pw_job *job, const pw_weather *weather, const pw_compared *want,
                         const char *what)
{
  pw_comparison *year;
  pw_compared got;
  pw_err err = {0};
  if (pw_comparison_new(job, weather, &year, &err) != PW_OK) fail_msg("%s: %s", what, err.text);
  assert_int_equal(pw_comparison_get(year, 2, &got, &err), PW_OK);
  pw_assert_near(got.heating_kwh, want->heating_kwh, 0.0, what, "not given");
  pw_assert_near(got.cooling_kwh, want->cooling_kwh, 0.0, what, "not given");
  pw_assert_near(got.bill, want->bill, 0.0, what, "not given");
  pw_assert_near(got.saved, want->saved, 0.0, what, "not given");
  pw_assert_near(got.price, want->price, 0.0, what, "not given");
  pw_comparison_free(year);
}

/* Every number of a house that says it is not given does what the house as it is set up does. */
static void a_number_not_given_is_as_it_was_set_up(void **state)
{
  (void)state;
  pw_opening o = an_opening(PW_SLIDER);
  pw_package package;
  pw_weather *weather = malloc(sizeof *weather);
  pw_comparison *year;
  pw_compared want;
  assert_non_null(weather);
  assert_int_equal(pw_place_year(0, weather, NULL), PW_OK);
  o.quantity = 6;
  pw_package_init(&package);
  package.price_per_opening.value = 600.0;
  assert_int_equal(pw_buildup_parse("3mm clear / 12mm air / 3mm clear", &package.glass, NULL),
                   PW_OK);
  pw_job job = {.n_opening = 1, .opening = &o, .n_package = 1, .package = &package};
  pw_house_facts *h = &job.house;
  pw_house_init(h);
  assert_int_equal(pw_comparison_new(&job, weather, &year, NULL), PW_OK);
  assert_int_equal(pw_comparison_get(year, 2, &want, NULL), PW_OK);
  struct {
    const char *name;
    pw_given *number;
  } row[] = {{"floor_area", &h->floor_area},
             {"ceiling_height", &h->ceiling_height},
             {"envelope_ua", &h->envelope_ua},
             {"air_changes", &h->air_changes},
             {"cfm50", &h->cfm50},
             {"heating_efficiency", &h->heating_efficiency},
             {"cooling_cop", &h->cooling_cop},
             {"duct_efficiency", &h->duct_efficiency},
             {"heat_set", &h->heat_set_c},
             {"cool_set", &h->cool_set_c},
             {"setback", &h->setback_k},
             {"internal_gain", &h->internal_gain},
             {"price", &h->price[PW_FUEL_GAS]},
             {"bill_year", &h->bill_year},
             {"escalation", &h->escalation},
             {"discount", &h->discount},
             {"horizon", &h->horizon_years},
             {"window_life", &h->window_life_years},
             {"price_per_area", &package.price_per_area},
             {"price", &o.price}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    const pw_given as_set_up = *row[i].number;
    *row[i].number = (pw_given){.value = PW_NOT_GIVEN};
    same_figures(&job, weather, &want, row[i].name);
    *row[i].number = as_set_up;
  }
  pw_comparison_free(year);
  free(weather);
}

static void a_zeroed_house_is_refused_and_a_set_up_one_lives(void **state)
{
  (void)state;
  pw_house_facts facts = {0};
  pw_house house;
  pw_weather *weather = malloc(sizeof *weather);
  pw_err err = {0};
  assert_non_null(weather);
  assert_int_equal(pw_place_year(0, weather, NULL), PW_OK);
  assert_int_equal(pw_house_from_facts(&facts, weather, NULL, 0, &house, NULL, &err),
                   PW_E_DOMAIN);
  assert_string_equal(err.field, "storeys");
  pw_house_init(&facts);
  assert_int_equal(pw_house_from_facts(&facts, weather, NULL, 0, &house, NULL, &err), PW_OK);
  pw_assert_near(house.gain_w, 5.0 * house.floor_area, 1e-9, "gain", "5 W/m2, as job.csv");
  pw_rates rates;
  assert_int_equal(pw_rates_of_house(&facts, NULL, &rates, &err), PW_OK);
  pw_house_facts plain = {.storeys = 1};
  pw_rates same;
  assert_int_equal(pw_rates_of_house(&plain, NULL, &same, &err), PW_OK);
  assert_true(rates.heating_efficiency.value == same.heating_efficiency.value);
  facts.price[PW_FUEL_GAS].value = PW_NOT_GIVEN;
  assert_int_equal(pw_rates_of_house(&facts, NULL, &rates, &err), PW_OK);
  assert_true(rates.price[PW_FUEL_GAS].value == same.price[PW_FUEL_GAS].value);
  free(weather);
}

/* Which faces a window of a kind has: frame where a lite is fixed, sash where one moves, meeting rail where lites meet; of a hinged door that tells
 * its share of glass none. A width that is given stands, else the usual one of its kind. */
static void faces_by_kind(void **state)
{
  (void)state;
  static const struct {
    pw_operator kind;
    const char *config;
    double glass_share;
    int used[PW_OPENING_FACES]; /* frame, sash, meeting */
  } row[] = {{PW_FIXED, "", PW_NOT_GIVEN, {1, 0, 0}},
             {PW_CASEMENT, "", PW_NOT_GIVEN, {0, 1, 0}},
             {PW_AWNING, "", PW_NOT_GIVEN, {0, 1, 0}},
             {PW_SLIDER, "XO", PW_NOT_GIVEN, {1, 1, 1}},
             {PW_SLIDING_DOOR, "OX", PW_NOT_GIVEN, {1, 1, 1}},
             {PW_FLANKER, "", PW_NOT_GIVEN, {1, 1, 1}},
             {PW_SINGLE_HUNG, "", PW_NOT_GIVEN, {1, 1, 1}},
             {PW_DOUBLE_HUNG, "", PW_NOT_GIVEN, {0, 1, 1}},
             {PW_HINGED_DOOR, "", PW_NOT_GIVEN, {0, 1, 0}},
             {PW_HINGED_DOOR, "", 0.5, {0, 0, 0}}};
  static const char *const name[PW_OPENING_FACES] = {"frame_face", "sash_face", "meeting_face"};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    for (int given = 0; given < 2; given++) {
      pw_opening o;
      pw_opening_face face[PW_OPENING_FACES];
      pw_opening_init(&o);
      o.operator_existing = row[i].kind;
      strcpy(o.config, row[i].config);
      o.glass_share = row[i].glass_share;
      if (given) {
        o.frame_face = 0.011;
        o.sash_face = 0.022;
        o.meeting_face = 0.033;
      }
      pw_opening_faces(&o, face);
      for (int k = 0; k < PW_OPENING_FACES; k++) {
        assert_string_equal(face[k].name, name[k]);
        if (face[k].used != row[i].used[k]) fail_msg("row %zu: %s", i, name[k]);
        assert_int_equal(face[k].given, given);
        if (given)
          pw_assert_near(face[k].width, 0.011 * (k + 1), 1e-15, name[k], "as given");
        else
          assert_true(face[k].width > 0.005 && face[k].width < 0.2);
      }
    }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(an_opening_that_was_set_up_has_the_usual_frame),
      cmocka_unit_test(a_zeroed_opening_is_refused_not_rated_without_its_frame),
      cmocka_unit_test(what_is_not_given_asks_for_nothing),
      cmocka_unit_test(a_given_number_says_whether_it_is),
      cmocka_unit_test(labels_and_prices_need_no_file),
      cmocka_unit_test(a_number_not_given_is_as_it_was_set_up),
      cmocka_unit_test(a_zeroed_house_is_refused_and_a_set_up_one_lives),
      cmocka_unit_test(faces_by_kind),
  };
  pw_test_begin();
  return cmocka_run_group_tests(tests, NULL, NULL);
}
