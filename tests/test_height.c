/* climate/height: a year of weather at another height than its station's. */
#include "support.h"

#include <math.h>
#include <stdlib.h>

#include "climate/height.h"

/* ISO 2533 (from memory): 0.0065 K/m and, at 1000 m and 0 m, 89 874.6 and 101 325 Pa. */
static void height_moves_temperature_and_pressure(void **state)
{
  (void)state;
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  w->site.elevation = 0.0;
  for (int h = 0; h < PW_HOURS; h++)
    w->hour[h] = (pw_hour){.t_air = 20.0f,
                           .t_dew = 10.0f,
                           .pressure = 101325.0f,
                           .ir_down = 350.0f,
                           .ghi = 500.0f,
                           .wind = 3.0f};
  pw_assert_near(pw_weather_to_height(w, 20.0), 0.0, 0.0, "20 m", "PW_HEIGHT_LEAST");
  pw_assert_near(w->hour[5].t_air, 20.0, 0.0, "unchanged", "PW_HEIGHT_LEAST");
  pw_assert_near(pw_weather_to_height(w, NAN), 0.0, 0.0, "unknown", "nothing to correct to");
  pw_assert_near(pw_weather_to_height(w, 1000.0), -6.5, 1e-12, "change", "ISO 2533");
  pw_assert_near(w->hour[5].t_air, 13.5, 1e-5, "air", "ISO 2533");
  pw_assert_near(w->hour[5].t_dew, 3.5, 1e-5, "dew point", "with the air");
  pw_assert_near(w->hour[5].pressure, 89874.6, 30.0, "pressure", "ISO 2533");
  pw_assert_near(w->hour[5].ir_down, 350.0 * pow(286.65 / 293.15, 4.0), 0.01, "sky", "T^4");
  pw_assert_near(w->hour[5].ghi, 500.0, 0.0, "sun", "stays");
  pw_assert_near(w->site.elevation, 1000.0, 0.0, "site", "where it is now");
  pw_assert_near(pw_weather_to_height(w, 0.0), 6.5, 1e-12, "back", "ISO 2533");
  pw_assert_near(w->hour[5].t_air, 20.0, 1e-5, "back", "ISO 2533");
  free(w);
}

/* 30 m is the least that moves anything, up or down; from a station that lies high the pressure goes by the ratio of both heights:
 * 101 325 / 89 874.6 of it on the way down. */
static void from_thirty_metres_on(void **state)
{
  (void)state;
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  static const struct {
    double to, change;
  } row[] = {{1029.9, 0.0}, {970.1, 0.0}, {1030.0, -0.195}, {970.0, 0.195}, {0.0, 6.5}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    w->site.elevation = 1000.0;
    w->hour[0] = (pw_hour){.t_air = 5.0f, .t_dew = -2.0f, .pressure = 80000.0f};
    pw_assert_near(pw_weather_to_height(w, row[i].to), row[i].change, 1e-9, "change",
                   "0.0065 K/m");
    pw_assert_near((double)w->hour[0].t_air, 5.0 + row[i].change, 1e-5, "air", "ISO 2533");
    pw_assert_near((double)w->hour[0].t_dew, -2.0 + row[i].change, 1e-5, "dew point",
                   "with the air");
    pw_assert_near(w->site.elevation, row[i].change == 0.0 ? 1000.0 : row[i].to, 0.0, "site",
                   "where it is");
  }
  pw_assert_near((double)w->hour[0].pressure, 80000.0 * 101325.0 / 89874.6, 30.0, "pressure",
                 "ISO 2533");
  free(w);
}

/* A file's dew point above its air is brought down to it; no long-wave stays none, and little stays little. */
static void what_a_file_has_not_stays_so(void **state)
{
  (void)state;
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  w->hour[0] =
      (pw_hour){.t_air = 20.0f, .t_dew = 20.5f, .pressure = 101325.0f, .ir_down = -1.0f};
  w->hour[PW_HOURS - 1] = (pw_hour){.t_air = 20.0f, .ir_down = 0.5f};
  pw_weather_to_height(w, 1000.0);
  pw_assert_near((double)w->hour[0].t_dew, 13.5, 1e-5, "dew point", "not above the air");
  pw_assert_near((double)w->hour[0].ir_down, -1.0, 0.0, "sky", "not known");
  pw_assert_near((double)w->hour[PW_HOURS - 1].ir_down, 0.5 * pow(286.65 / 293.15, 4.0), 1e-6,
                 "sky", "T^4");
  pw_assert_near((double)w->hour[PW_HOURS - 1].t_air, 13.5, 1e-5, "the year's last hour",
                 "ISO 2533");
  free(w);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(height_moves_temperature_and_pressure),
      cmocka_unit_test(from_thirty_metres_on),
      cmocka_unit_test(what_a_file_has_not_stays_so),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
