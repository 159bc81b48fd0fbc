/* Rules of the comparison that one figure each depends on: which air the house gets, what opens, who is blamed. */
#include "example_fixture.h"

#include <stdio.h>

#include "house/airing.h"
#include "money/worth.h"
#include "study/compare_impl.h"
#include "window/fit_job.h"

static double changes(fixture *f, double given, double cfm50)
{
  pw_house_facts *facts = &f->open.job.house, keep = *facts;
  pw_compare *c = calloc(1, sizeof *c);
  pw_err err = {0};
  assert_non_null(c);
  facts->air_changes = (pw_given){.value = given, .origin = PW_ORIGIN_STATED};
  facts->cfm50 = (pw_given){.value = cfm50, .origin = PW_ORIGIN_MEASURED};
  if (pw_compare_run(&f->open.job, f->open.weather, &quick, NULL, c, &err) != PW_OK)
    fail_msg("%s", err.text);
  double rate = c->lived.house.air_changes;
  pw_compare_free(c);
  free(c);
  *facts = keep;
  return rate;
}

/* A rate that the job gives goes before its blower door; a door alone gives a rate in proportion to its flow. */
static void a_rate_goes_before_a_blower_door(void **state)
{
  fixture *f = *state;
  double given = changes(f, 0.7, 0.0), both = changes(f, 0.7, 0.9);
  double door = changes(f, PW_NOT_GIVEN, 0.5), twice = changes(f, PW_NOT_GIVEN, 1.0);
  pw_assert_near(given, 0.7, 1e-12, "rate", "given");
  pw_assert_near(both, 0.7, 1e-12, "rate and door", "given");
  assert_true(door > 0.05 && door < 3.0);
  pw_assert_near(twice / door, 2.0, 1e-6, "twice the flow", "leakage area by power law");
}

/* The rate by a blower door names the model that it is of: AIM-2 by that name, else Sherman and Grimsrud (a job that names
 * none has theirs), and the two models' rates differ. */
static void the_rate_by_a_door_names_its_model(void **state)
{
  static const struct {
    int model;
    const char *named, *other;
  } row[] = {{PW_INFILTRATION_CONSTANT, "Sherman and Grimsrud", "AIM-2"},
             {PW_INFILTRATION_SHERMAN_GRIMSRUD, "Sherman and Grimsrud", "AIM-2"},
             {PW_INFILTRATION_AIM2, "AIM-2", "Sherman"}};
  fixture *f = *state;
  pw_house_facts *facts = &f->open.job.house, keep = *facts;
  double rate[3];
  facts->air_changes = (pw_given){0};
  facts->cfm50 = (pw_given){.value = 0.9, .origin = PW_ORIGIN_MEASURED};
  for (size_t k = 0; k < 3; k++) {
    facts->infiltration = row[k].model;
    pw_compare *c = run(f, &quick);
    const pw_house_assumed *said = NULL;
    for (size_t i = 0; i < c->lived.house_notes.n_assumed; i++)
      if (c->lived.house_notes.assumed[i].item == PW_SAY_ASSUMED_AIR)
        said = &c->lived.house_notes.assumed[i];
    assert_non_null(said);
    assert_non_null(strstr(said->source, row[k].named));
    assert_null(strstr(said->source, row[k].other));
    rate[k] = c->lived.house.air_changes;
    forget(c);
  }
  assert_true(rate[0] == rate[1] && fabs(rate[2] / rate[1] - 1.0) > 0.01);
  *facts = keep;
}

/* What opens of a set is what opens of each window, as often as there are of it, where it is in the heated house. */
static void what_opens_is_summed_over_the_heated_house(void **state)
{
  fixture *f = *state;
  double sum = 0.0, attic = 0.0;
  for (size_t i = 0; i < OPENINGS; i++) {
    pw_openable open;
    pw_openable_of(pw_compare_lites(f->whole.job, &f->whole.fitted, 0, i), 0, &open);
    sum += f->open.job.opening[i].quantity * open.area;
    if (i == B1) attic = f->open.job.opening[i].quantity * open.area;
  }
  assert_true(sum > 1.0 && attic > 0.1);
  pw_assert_near(f->whole.rated.package_set[0].open_area, sum, 1e-9, "openable, m2", "by hand");
  as_read(f);
  f->open.job.opening[B1].unconditioned = 1;
  pw_compare *c = calloc(1, sizeof *c);
  assert_non_null(c);
  assert_int_equal(pw_compare_run(&f->open.job, f->open.weather, &quick, NULL, c, NULL), PW_OK);
  pw_assert_near(c->rated.package_set[0].open_area, sum - attic, 1e-9, "without a porch",
                 "by hand");
  pw_compare_free(c);
  free(c);
  as_read(f);
}

/* The life that is left is that of the frames which most of the area has: a small odd one does not count. */
static void the_usual_frame_decides_what_life_is_left(void **state)
{
  fixture *f = *state;
  static const pw_frame_kind kind[] = {PW_FRAME_WOOD, PW_FRAME_ALUMINIUM, PW_FRAME_VINYL};
  int built = f->open.job.house.year_built;
  f->open.job.house.year_built = 0; /* not told: half of the life of its kind */
  assert_true(pw_residual_life(PW_FRAME_WOOD, 0, 2026).value !=
              pw_residual_life(PW_FRAME_ALUMINIUM, 0, 2026).value);
  for (size_t k = 0; k < 3; k++) {
    pw_compare *c = calloc(1, sizeof *c);
    pw_err err = {0};
    assert_non_null(c);
    as_read(f);
    for (size_t i = 0; i < OPENINGS; i++)
      f->open.job.opening[i].existing_frame = i == B1 ? kind[(k + 1) % 3] : kind[k];
    if (pw_compare_run(&f->open.job, f->open.weather, &quick, NULL, c, &err) != PW_OK)
      fail_msg("%s", err.text);
    pw_assert_near(c->billed.residual_life.value, pw_residual_life(kind[k], 0, 2026).value, 0.0,
                   "life left", "half of the life of the kind");
    pw_compare_free(c);
    free(c);
  }
  f->open.job.house.year_built = built;
  as_read(f);
}

static void an_opening_that_cannot_be_fitted_is_named(void **state)
{
  fixture *f = *state;
  pw_fit fit[OPENINGS];
  pw_err err = {0};
  as_read(f);
  for (int k = 0; k < 3; k++)
    f->open.job.opening[K1].width[k] = 0.01;
  pw_status s = pw_fit_job(&f->open.job, 0, fit, &err);
  assert_int_not_equal(s, PW_OK);
  assert_int_equal(pw_fit_job(&f->open.job, 0, fit, NULL), s); /* nobody asks why */
  char want[64];
  snprintf(want, sizeof want, "opening %s: ", f->open.job.opening[K1].tag);
  assert_memory_equal(err.text, want, strlen(want));
  as_read(f);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_rate_goes_before_a_blower_door),
      cmocka_unit_test(the_rate_by_a_door_names_its_model),
      cmocka_unit_test(what_opens_is_summed_over_the_heated_house),
      cmocka_unit_test(the_usual_frame_decides_what_life_is_left),
      cmocka_unit_test(an_opening_that_cannot_be_fitted_is_named),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
