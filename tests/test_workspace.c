/* A workspace goes from weather to weather and from place to place: what it kept of one serves no other. */
#include "support.h"

#include <stdlib.h>
#include <string.h>

#include "climate/month.h"
#include "job/house_file.h"
#include "panewright/year.h"

typedef struct desk {
  pw_weather weather[2];
  pw_house_file file;
  pw_year_result fresh[2], again;
} desk;

static pw_status live(desk *d, const pw_weather *w, pw_year_method method,
                      pw_year_workspace *ws, pw_year_result *r)
{
  const pw_year_options o = {.method = method};
  return pw_year_run(&d->file.house, w, d->file.window, d->file.n_window, &o, ws, r, NULL);
}

static void each_weather_is_its_own(void **state)
{
  (void)state;
  desk *d = calloc(1, sizeof *d);
  pw_year_workspace *ws = pw_year_workspace_new();
  pw_err err = {0};
  assert_non_null(d);
  assert_non_null(ws);
  for (size_t k = 0; k < 2; k++) {
    pw_place place;
    assert_int_equal(pw_place_get(20 * k, &place, NULL), PW_OK);
    assert_int_equal(pw_month_year(&place, PW_MONTH_AVERAGE_DAY, &d->weather[k], NULL), PW_OK);
  }
  if (pw_house_file_builtin("std140/600", &d->file, &err) != PW_OK) fail_msg("%s", err.text);
  for (size_t k = 0; k < 2; k++)
    assert_int_equal(live(d, &d->weather[k], PW_YEAR_QUICK, NULL, &d->fresh[k]), PW_OK);
  assert_true(d->fresh[0].cooling_kwh != d->fresh[1].cooling_kwh);
  for (int round = 0; round < 4; round++) {
    assert_int_equal(live(d, &d->weather[round % 2], PW_YEAR_QUICK, ws, &d->again), PW_OK);
    assert_memory_equal(&d->again, &d->fresh[round % 2], sizeof d->again);
  }
  /* the same hours at another place */
  pw_year_result moved, fresh;
  assert_int_equal(live(d, &d->weather[0], PW_YEAR_QUICK, ws, &moved), PW_OK);
  d->weather[0].site.latitude_deg += 10.0;
  assert_int_equal(live(d, &d->weather[0], PW_YEAR_QUICK, ws, &moved), PW_OK);
  assert_int_equal(live(d, &d->weather[0], PW_YEAR_QUICK, NULL, &fresh), PW_OK);
  assert_memory_equal(&moved, &fresh, sizeof fresh);
  pw_year_workspace_free(ws);
  free(d);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(each_weather_is_its_own)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
