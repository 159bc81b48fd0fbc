/* House years of draws, many side by side. */
#include "range_one.h"
#include "support.h"

#include <stdlib.h>
#include <string.h>

#include "job/climate_of_job.h"
#include "job/survey.h"

enum { DRAWS = 12 };
static const char folder[] = "examples/harrow_bend";

/* Chances of all kinds of forms: the Sobol points of the plan itself are not asked, so that draw k can be made again. */
static void chances(const void *context, size_t draw, double u[])
{
  const range_case *rc = context;
  for (size_t k = 0; k < rc->n_in; k++)
    u[k] = (double)((draw * 37 + k * 61 + draw * k * 13) % 101 + 1) / 102.0;
}

/* Property wanted: the years of a draw, lived beside others whose indoor films differ, are bit by bit those lived alone. */
static void draws_lived_side_by_side_are_draws_lived_alone(void **state)
{
  (void)state;
  pw_job job;
  pw_weather weather;
  pw_compare compare;
  pw_message said[PW_CLIMATE_SAYS];
  pw_err err = {0};
  range_case rc;
  if (pw_job_read(folder, &job, NULL, &err) != PW_OK ||
      pw_job_climate(&job.house, folder, &weather, said, &err) != PW_OK ||
      pw_compare_run(&job, &weather, NULL, NULL, &compare, &err) != PW_OK ||
      range_case_of(&compare, &weather, PW_YEAR_DETAILED, 0, &rc, &err) != PW_OK)
    fail_msg("%s", err.text);
  pw_range_plan plan = range_years_plan(&rc, DRAWS, 2);
  plan.point = chances;
  plan.point_context = &rc;
  pw_range_result beside;
  if (pw_range_run(&plan, &beside, &err) != PW_OK) fail_msg("%s", err.text);
  void *room = range_room_new(&rc);
  unsigned indoors = 0;
  for (size_t i = 0; i < DRAWS; i++) {
    double u[2 * IN_COUNT], v[IN_COUNT], y[RANGE_SETS * RANGE_MONTHS];
    chances(&rc, i, u);
    range_values(&rc, u, v);
    indoors |= 1u << (unsigned)v[IN_FORM + PW_FORM_FILM_IN];
    if (range_year(&rc, room, u, y, &err) != PW_OK) fail_msg("%s", err.text);
    assert_memory_equal(y, beside.y + i * plan.n_out, plan.n_out * sizeof *y);
  }
  assert_int_equal(indoors, 15); /* each form was there */
  range_room_free(room);
  pw_range_free(&beside);
  pw_compare_free(&compare);
  pw_job_free(&job);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(draws_lived_side_by_side_are_draws_lived_alone),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
