/* study/compare_air, range_year: the air of a draw whose house leaks by the hour, beside the model itself at the shelter, terrain and level that the
 * draw has, and the year beside one that is given that air. */
#include "example_fixture.h"
#include "range_one.h"

#include "panewright/units.h"
#include "study/compare_impl.h"

static double mean_of(const fixture *f, const pw_compare *c, int shield, int terrain,
                      double level, float hour[])
{
  pw_infiltration_site site = pw_compare_air_site(&c->job->house, &c->lived.house);
  site.shield += shield;
  site.terrain += terrain;
  site.level += level;
  return pw_infiltration_year(pw_compare_air_model(&c->job->house), &site, f->open.weather,
                              pw_c(c->rated.t_in), hour);
}

/* By the hour as Sherman and Grimsrud have it; by_door: the rate itself follows from a reading. */
static pw_compare *leaky(fixture *f, int by_door)
{
  pw_house_facts *h = &f->open.job.house;
  h->infiltration = PW_INFILTRATION_SHERMAN_GRIMSRUD;
  if (by_door) {
    h->cfm50 = (pw_given){.value = 1.2, .origin = PW_ORIGIN_MEASURED};
    h->air_changes = (pw_given){0};
  }
  return run(f, &quick);
}

static void as_before(fixture *f, const pw_house_facts *kept) { f->open.job.house = *kept; }

/* Hours of a mean of 1: between two classes in their part, levels held to 0..1; the rate moves with the mean only where it comes of a door. */
static void air_at_is_the_model_there(void **state)
{
  fixture *f = *state;
  static float hour[PW_HOURS], one[PW_HOURS], two[PW_HOURS];
  const pw_house_facts kept = f->open.job.house;
  for (int by_door = 0; by_door < 2; by_door++) {
    pw_compare *c = leaky(f, by_door);
    const double usual = mean_of(f, c, 0, 0, 0.0, one);
    pw_assert_near(pw_compare_air_at(c, f->open.weather, 0.0, 0.0, 0.0, hour), 1.0, 1e-12,
                   "rate", "nothing moved");
    for (int i = 0; i < PW_HOURS; i += 97) {
      pw_assert_near((double)hour[i], (double)one[i] / usual, 1e-5, "hour", "the model");
      pw_assert_near((double)c->lived.air_shape[i], (double)one[i] / usual, 1e-5, "hour",
                     "the house's");
    }
    static const struct {
      double shield, terrain, level;
    } row[] = {{1, 0, 0}, {0, 1, 0}, {0, 0, 0.2}, {-1, 0, -0.2}, {0.25, 0, 0}, {0, -0.75, 0}};
    for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
      int s = (int)floor(row[k].shield), t = (int)floor(row[k].terrain);
      double part = row[k].shield - s + row[k].terrain - t; /* one of them lies between */
      double a = mean_of(f, c, s, t, row[k].level, one),
             b = mean_of(f, c, s + (row[k].shield > s), t + (row[k].terrain > t), row[k].level,
                         two);
      double mean = (1.0 - part) * a + part * b;
      double got = pw_compare_air_at(c, f->open.weather, row[k].shield, row[k].terrain,
                                     row[k].level, hour);
      pw_assert_near(got, by_door ? mean / usual : 1.0, 1e-9, "rate", "the model");
      for (int i = 0; i < PW_HOURS; i += 97)
        pw_assert_near((double)hour[i],
                       ((1.0 - part) * (double)one[i] + part * (double)two[i]) / mean, 2e-5,
                       "hour", "the model");
    }
    forget(c);
    as_before(f, &kept);
  }
}

/* A draw moved in shelter, terrain or level alone lives the year of the house with that air. */
static void the_year_has_the_air_of_the_draw(void **state)
{
  fixture *f = *state;
  static float hour[PW_HOURS];
  const pw_house_facts kept = f->open.job.house;
  pw_err err = {0};
  pw_compare *c = leaky(f, 1);
  range_case rc;
  if (range_case_of(c, f->open.weather, PW_YEAR_QUICK, 0, &rc, &err) != PW_OK)
    fail_msg("%s", err.text);
  void *room = range_room_new(&rc);
  for (size_t in = IN_AIR_SHIELD; in <= IN_AIR_LEVEL; in++) {
    double u[2 * IN_COUNT], v[IN_COUNT], got[RANGE_SETS * RANGE_MONTHS],
        want[RANGE_SETS * RANGE_MONTHS];
    for (size_t k = 0; k < rc.n_in; k++)
      u[k] = rc.which[k] == in ? 0.9 : 0.5;
    range_values(&rc, u, v);
    assert_true(v[in] > 0.0);
    if (range_year(&rc, room, u, got, &err) != PW_OK) fail_msg("%s", err.text);
    pw_compare given = *c;
    pw_job steady = f->open.job;
    steady.house.infiltration = PW_INFILTRATION_CONSTANT;
    steady.house.air_changes =
        (pw_given){.value = c->lived.house.air_changes, .origin = PW_ORIGIN_MEASURED};
    given.job = &steady;
    given.lived.house.air_changes *= pw_compare_air_at(
        c, f->open.weather, v[IN_AIR_SHIELD], v[IN_AIR_TERRAIN], v[IN_AIR_LEVEL], hour);
    given.lived.house.air_shape = hour;
    range_case other;
    if (range_case_of(&given, f->open.weather, PW_YEAR_QUICK, 0, &other, &err) != PW_OK)
      fail_msg("%s", err.text);
    void *own = range_room_new(&other);
    for (size_t k = 0; k < other.n_in; k++)
      u[k] = 0.5;
    if (range_year(&other, own, u, want, &err) != PW_OK) fail_msg("%s", err.text);
    for (size_t m = 0; m < rc.n_set * RANGE_MONTHS; m++)
      pw_assert_near(got[m], want[m], 1e-6 * (fabs(want[m]) + 1.0), rc.input[in].name,
                     "that air");
    range_room_free(own);
  }
  range_room_free(room);
  forget(c);
  as_before(f, &kept);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(air_at_is_the_model_there),
      cmocka_unit_test(the_year_has_the_air_of_the_draw),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
