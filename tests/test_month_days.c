/* climate/month_days: the days of a made year beside the relations they rest on. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "climate/month_impl.h"
#include "climate/sun.h"

/* Bendt, Collares-Pereira & Rabl 1981 with the fit of Herzog 1985 (Duffie & Beckman 2.9; memory): the parameter of the exponential
 * that a month's daily clearness follows; 0 is a uniform spread. */
static double herzog(double k)
{
  double high = 0.6313 + 0.267 * k - 11.9 * pow(k - 0.75, 8.0), xi = (high - 0.05) / (high - k);
  return -1.498 + (1.184 * xi - 27.182 * exp(-1.5 * xi)) / (high - 0.05);
}

static double clearness_where(double g)
{
  double low = 0.2, high = 0.6;
  for (int i = 0; i < 60; i++) {
    double mid = 0.5 * (low + high);
    if (herzog(mid) < g)
      low = mid;
    else
      high = mid;
  }
  return low;
}

typedef struct june {
  double kd[30]; /* clearness of the days, from dull to clear */
  double k;      /* asked for */
  double low, high;
} june;

static int rising(const void *a, const void *b)
{
  double x = *(const double *)a, y = *(const double *)b;
  return (x > y) - (x < y);
}

/* A June of that parameter at 40 N. */
static june june_of(double g)
{
  static month_draws draws;
  static month_day day[MONTH_YEAR_DAYS];
  pw_place place = {.site = {"x", 40.0, -105.0, -7.0, 1600.0}};
  june j = {.k = clearness_where(g), .low = 0.05};
  double outside = 0.0;
  j.high = 0.6313 + 0.267 * j.k - 11.9 * pow(j.k - 0.75, 8.0);
  month_draw(&draws);
  month_sun_path(&place.site, day);
  const month_day *d = &day[pw_month_start[5]];
  for (int i = 0; i < 30; i++)
    outside += d[i].outside / 30.0;
  place.month[5] = (pw_month_normal){.ghi = j.k * outside / 1000.0,
                                     .dhi = 0.3 * j.k * outside / 1000.0,
                                     .t_mean = 20.0,
                                     .t_day_max = 27.0,
                                     .t_day_min = 13.0,
                                     .t_highest = 33.0,
                                     .t_lowest = 8.0};
  month_plan(&place, 5, &draws, day);
  for (int i = 0; i < 30; i++)
    j.kd[i] = d[i].ghi / d[i].outside;
  qsort(j.kd, 30, sizeof j.kd[0], rising);
  return j;
}

/* Where the parameter is next to nothing the spread is uniform between the dullest day there is, 0.05, and the clearest: days go
 * up by equal steps, one a thirtieth of chance. */
static void days_of_a_uniform_month_go_up_by_equal_steps(void **state)
{
  (void)state;
  const june j = june_of(5e-4);
  for (int i = 0; i < 30; i++) {
    double q = (i + 0.5) / 30.0;
    pw_assert_near(j.kd[i] / j.kd[29],
                   (j.low + q * (j.high - j.low)) / (j.low + 59.0 / 60.0 * (j.high - j.low)),
                   1e-9, "clearness by chance", "uniform");
  }
}

/* Elsewhere F(k) = (e^(g low) - e^(g k)) / (e^(g low) - e^(g high)), on both sides of it; the mean is the one asked for. */
static void days_follow_the_exponential(void **state)
{
  (void)state;
  static const double g[] = {-3.0, -0.5, 2e-3, 1.0, 4.0};
  for (size_t k = 0; k < sizeof g / sizeof g[0]; k++) {
    const june j = june_of(g[k]);
    double scale = 0.0, mean = 0.0, at[30];
    for (int i = 0; i < 30; i++) {
      double q = (i + 0.5) / 30.0;
      at[i] = log((1.0 - q) * exp(g[k] * j.low) + q * exp(g[k] * j.high)) / g[k];
      scale += j.kd[i] / at[i] / 30.0;
      mean += j.kd[i] / 30.0;
    }
    for (int i = 0; i < 30; i++)
      pw_assert_near(j.kd[i] / at[i], scale, 1e-9, "clearness by chance",
                     "Bendt et al. 1981, Herzog 1985");
    pw_assert_near(mean, j.k, 0.01 * j.k, "mean clearness", "asked for");
    pw_assert_near(scale, 1.0, 0.03, "brought to the month's own sum", "the relation's mean");
  }
}

/* The path of the year's days, kept every few days and drawn straight between, beside the sun itself at its noon: declination, the
 * clock of solar noon, the hour angle at sunset, and the sun of a day outside the air (Duffie & Beckman 1.6.10, 1.10.3). */
static void the_path_is_that_of_the_sun(void **state)
{
  (void)state;
  static month_day day[MONTH_YEAR_DAYS];
  const pw_site site = {"x", 40.0, -105.0, -7.0, 1600.0};
  const double lat = 40.0 * 3.14159265358979 / 180.0;
  month_sun_path(&site, day);
  for (int i = 0; i < MONTH_YEAR_DAYS; i++) {
    pw_sun s;
    double noon = 12.0 + 7.0; /* at 105 W the meridian of its zone, in universal time */
    assert_int_equal(
        pw_sun_at(pw_julian_day(2001, 1, 1, noon) + i, 40.0, -105.0, 0.0, 0.0, &s, NULL),
        PW_OK);
    double d = s.declination_deg * 3.14159265358979 / 180.0, ws = acos(-tan(lat) * tan(d));
    pw_assert_near(day[i].declination, d, 3e-4, "declination, rad", "pw_sun_at");
    pw_assert_near(day[i].noon_h, 12.0 - s.equation_of_time_min / 60.0, 3e-3, "noon, h",
                   "pw_sun_at");
    pw_assert_near(day[i].sunset, ws, 6e-4, "sunset, rad", "Duffie & Beckman 1.6.10");
    pw_assert_near(day[i].outside,
                   24.0 / 3.14159265358979 * pw_sun_extraterrestrial(i + 1) *
                       (cos(lat) * cos(d) * sin(ws) + ws * sin(lat) * sin(d)),
                   5.0, "outside the air, Wh/m2", "Duffie & Beckman 1.10.3");
  }
  const pw_site north = {"x", 80.0, 0.0, 0.0,
                         0.0}; /* a day without night, a night without day */
  month_sun_path(&north, day);
  pw_assert_near(day[171].sunset, 3.14159265358979, 1e-9, "midsummer", "no sunset");
  pw_assert_near(day[354].sunset, 0.0, 1e-9, "midwinter", "no sunrise");
  pw_assert_near(day[354].outside, 0.0, 1e-9, "midwinter", "no sun");
}

/* A June whose days have 10 kWh/m2 outside the air and that sunset hour angle. Static. */
static const month_day *june_at(pw_month_normal normal, double sunset)
{
  static month_day day[MONTH_YEAR_DAYS];
  static month_draws draws;
  pw_place place = {.site = {"x", 40.0, -105.0, -7.0, 1600.0}};
  for (int i = 0; i < MONTH_YEAR_DAYS; i++)
    day[i] = (month_day){.outside = 10e3, .sunset = sunset};
  place.month[5] = normal;
  month_draw(&draws);
  month_plan(&place, 5, &draws, day);
  return &day[pw_month_start[5]];
}

/* Diffuse share of a day: Erbs, Klein & Duffie 1982 as Duffie & Beckman 2.11.1 print it, by the sunset hour angle (81.4 degrees);
 * clearness of the days as in days_follow_the_exponential. The month's own sum is met, and no day is more than all diffuse. */
static double erbs(double k, int winter)
{
  if (winter)
    return k < 0.715
               ? 1.0 - 0.2727 * k + 2.4495 * k * k - 11.9514 * pow(k, 3) + 9.3879 * pow(k, 4)
               : 0.143;
  return k < 0.722 ? 1.0 + 0.2832 * k - 2.5557 * k * k + 0.8448 * pow(k, 3) : 0.175;
}

static void diffuse_of_the_days_is_that_of_erbs(void **state)
{
  (void)state;
  static const double ask[] = {0.3, 0.5, 0.7};
  const double edge = 81.4 * 3.14159265358979 / 180.0;
  for (int winter = 0; winter < 2; winter++)
    for (size_t a = 0; a < 3; a++) {
      double k = ask[a], g = herzog(k), low = 0.05, sum = 0.0, by = 0.0;
      double high = 0.6313 + 0.267 * k - 11.9 * pow(k - 0.75, 8.0);
      pw_month_normal n = {.t_mean = 20.0,
                           .t_day_max = 25.0,
                           .t_day_min = 15.0,
                           .t_highest = 30.0,
                           .t_lowest = 10.0};
      struct {
        double kd, share;
      } of[30];
      n.ghi = 10.0 * k;
      n.dhi = 0.2 * n.ghi;
      const month_day *d = june_at(n, edge + (winter ? -1e-4 : 1e-4));
      for (int i = 0; i < 30; i++) {
        int rank = 0;
        for (int j = 0; j < 30; j++)
          rank += d[j].ghi < d[i].ghi;
        double q = (rank + 0.5) / 30.0;
        of[i].kd = log((1.0 - q) * exp(g * low) + q * exp(g * high)) / g;
        of[i].share = d[i].dhi / d[i].ghi;
        sum += d[i].dhi;
        by += of[i].share / erbs(of[i].kd, winter) / 30.0;
      }
      for (int i = 0; i < 30; i++)
        pw_assert_near(of[i].share / erbs(of[i].kd, winter), by, 1e-6, "diffuse share",
                       "Duffie & Beckman 2.11.1");
      pw_assert_near(sum, 30.0 * 1000.0 * n.dhi, 1e-3, "diffuse of the month", "its own");
      n.dhi = n.ghi; /* more than clear days could have */
      d = june_at(n, edge + 1e-4);
      for (int i = 0; i < 30; i++)
        assert_true(d[i].dhi <= d[i].ghi);
    }
}

/* What no month can be is told with its month, counted from 1, in the order of the year. */
static void impossible_months_are_named(void **state)
{
  (void)state;
  static const struct {
    size_t offset;
    double value;
    const char *field;
  } row[] = {{offsetof(pw_month_normal, ghi), -0.1, "ghi"},
             {offsetof(pw_month_normal, ghi), 15.1, "ghi"},
             {offsetof(pw_month_normal, dhi), -0.1, "ghi"},
             {offsetof(pw_month_normal, dhi), 6.0, "ghi"},
             {offsetof(pw_month_normal, dni), -0.1, "dni"},
             {offsetof(pw_month_normal, dni), 20.1, "dni"},
             {offsetof(pw_month_normal, t_mean), 60.1, "t_mean"},
             {offsetof(pw_month_normal, t_mean), -60.1, "t_mean"},
             {offsetof(pw_month_normal, t_day_max), 12.9, "t_mean"},
             {offsetof(pw_month_normal, t_dew), -90.1, "t_mean"},
             {offsetof(pw_month_normal, t_dew), 45.1, "t_mean"},
             {offsetof(pw_month_normal, wind), -0.1, "t_mean"},
             {offsetof(pw_month_normal, wind), 60.1, "t_mean"}};
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_place place = {.site = {"x", 40.0, -105.0, -7.0, 1600.0}};
    pw_err err = {0};
    int m = (int)i % 12;
    for (int k = 0; k < 12; k++)
      place.month[k] = (pw_month_normal){.ghi = 5.0,
                                         .dhi = 2.0,
                                         .dni = 5.0,
                                         .t_mean = 20.0,
                                         .t_day_max = 27.0,
                                         .t_day_min = 13.0,
                                         .t_highest = 33.0,
                                         .t_lowest = 8.0,
                                         .t_dew = 10.0,
                                         .wind = 3.0};
    *(double *)(void *)((char *)&place.month[m] + row[i].offset) = row[i].value;
    assert_int_equal(pw_month_year(&place, PW_MONTH_VARIED_DAYS, w, &err), PW_E_DOMAIN);
    assert_string_equal(err.field, row[i].field);
    char want[16];
    snprintf(want, sizeof want, "month %d:", m + 1);
    if (!strstr(err.text, want)) fail_msg("'%s' names no %s", err.text, want);
  }
  free(w);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(days_of_a_uniform_month_go_up_by_equal_steps),
      cmocka_unit_test(days_follow_the_exponential),
      cmocka_unit_test(the_path_is_that_of_the_sun),
      cmocka_unit_test(impossible_months_are_named),
      cmocka_unit_test(diffuse_of_the_days_is_that_of_erbs),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
