/* Heat that a house keeps over a year: a part of its balance, next to nothing where two weeks of the year's end warm it up first. */
#include "support.h"

#include <math.h>
#include <stdlib.h>

#include "climate/month.h"
#include "job/house_file.h"
#include "panewright/year.h"

/* 30 C outdoors, -10 C in the last two days, no sun; the heavy box of Standard 140 floats, and one day alone warms it up, so that
 * it ends in another state than it began. What comes in through windows, walls and air and by its gains is what it keeps:
 * conservation of energy. */
static void what_comes_in_and_stays_is_stored(void **state)
{
  (void)state;
  pw_weather *w = calloc(1, sizeof *w);
  pw_house_file *file = calloc(1, sizeof *file);
  pw_year_result *r = calloc(1, sizeof *r);
  pw_place place;
  const pw_year_options o = {.warm_up_days = 1};
  pw_err err = {0};
  assert_non_null(w);
  assert_non_null(file);
  assert_non_null(r);
  assert_int_equal(pw_place_get(0, &place, NULL), PW_OK);
  assert_int_equal(pw_month_year(&place, PW_MONTH_AVERAGE_DAY, w, NULL), PW_OK);
  for (int i = 0; i < PW_HOURS; i++) {
    w->hour[i].t_air = i < PW_HOURS - 48 ? 30.0f : -10.0f;
    w->hour[i].t_dew = w->hour[i].t_air - 5.0f;
    w->hour[i].ghi = w->hour[i].dni = w->hour[i].dhi = 0.0f;
  }
  if (pw_house_file_builtin("std140/900FF", file, &err) != PW_OK ||
      pw_year_run(&file->house, w, file->window, file->n_window, &o, NULL, r, &err) != PW_OK)
    fail_msg("%s", err.text);
  double in = r->gain_kwh + r->solar_kwh - r->window_loss_kwh - r->opaque_loss_kwh -
              r->air_loss_kwh + r->heating_kwh - r->cooling_kwh;
  print_message("a heavy box keeps %.1f kWh\n", r->stored_kwh);
  pw_assert_near(r->stored_kwh, in, 1e-6 * r->gain_kwh, "stored, kWh",
                 "conservation of energy");
  assert_true(fabs(r->stored_kwh) > 10.0);
  assert_true(r->peak_heating_hour == -1 && r->peak_cooling_hour == -1); /* it has no plant */
  free(w);
  free(file);
  free(r);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {cmocka_unit_test(what_comes_in_and_stays_is_stored)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
