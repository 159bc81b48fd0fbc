/* Daily means from the layouts of weather services: the same days in each give the same means. */
#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "job/climate_file.h"
#include "job/daily_file.h"
#include "made_text.h"

enum { DAYS = 59 };

/* Invented: high and low of day i from 2021-01-15 in tenths of C, so that the middle has two decimals. */
static int high_of(int i) { return 120 + 7 * i % 90; }
static int low_of(int i) { return -35 + 5 * i % 70; }
static double mean_of(int i) { return 0.05 * (high_of(i) + low_of(i)); }

static void parts(int i, int *y, int *m, int *d)
{
  pw_date date = pw_date_of_day(pw_date_day(20210115) + i);
  *y = date / 10000;
  *m = date / 100 % 100;
  *d = date % 100;
}

static void start(void) { made[made_size = 0] = '\0'; }

static void table_plain(void)
{
  put("date,t_mean_c\n");
  for (int i = 0, y, m, d; i < DAYS; i++) {
    parts(i, &y, &m, &d);
    put("%04d-%02d-%02d,%.2f\n", y, m, d, mean_of(i));
  }
}

static void table_us(void)
{
  put("\xEF\xBB\xBF"
      "Date,T_Mean_F\r\n");
  for (int i = 0, y, m, d; i < DAYS; i++) {
    parts(i, &y, &m, &d);
    put("%d/%d/%d,%.4f\r\n", m, d, y, 32.0 + 1.8 * mean_of(i));
  }
}

static void dly(void)
{
  static const char *const element[] = {"TMAX", "TMIN", "PRCP"};
  for (int month = 1; month <= 3; month++)
    for (int e = 0; e < 3; e++) {
      put("USX000000012021%02d%s", month, element[e]);
      for (int k = 1; k <= 31; k++) {
        int v = -9999;
        for (int i = 0, y, m, d; i < DAYS; i++) {
          parts(i, &y, &m, &d);
          if (m == month && d == k) v = e == 0 ? high_of(i) : low_of(i);
        }
        put("%5d   ", v);
      }
      put("\n");
    }
}

static void by_year(void)
{
  for (int i = 0, y, m, d; i < DAYS; i++) {
    parts(i, &y, &m, &d);
    put("USX00000001,%04d%02d%02d,TMAX,%d,,,7,0700\n", y, m, d, high_of(i));
    put("USX00000001,%04d%02d%02d,PRCP,9999,,,7,\n", y, m, d);
    put("USX00000001,%04d%02d%02d,TMIN,%d,,,7,\n", y, m, d, low_of(i));
    put("USX00000001,%04d%02d%02d,TMIN,555,,I,7,\n", y, m, d); /* failed a check: left out */
  }
}

/* A table of the service's, tenths of C; 59 days whose highest is above 13.5 C tell the unit. */
static void table_ghcn(void)
{
  put("\"STATION\",\"DATE\",\"TMAX\",\"TMAX_ATTRIBUTES\",\"TMIN\"\n");
  for (int i = 0, y, m, d; i < DAYS; i++) {
    parts(i, &y, &m, &d);
    put("\"USX00000001\",\"%04d-%02d-%02d\",\"%5d\",\",,W\",\"%5d\"\n", y, m, d, high_of(i),
        low_of(i));
  }
}

/* Hours in UTC of a place seven hours behind: local midnight is 07:00. */
static void isd(void)
{
  for (int i = 0; i < DAYS; i++)
    for (int h = 7; h < 31; h++) {
      int y, m, d;
      parts(i + h / 24, &y, &m, &d);
      put("%04d %02d %02d %02d %5d   -50 10150   270    26 -9999 -9999 -9999\n", y, m, d,
          h % 24, h % 2 ? high_of(i) : low_of(i));
    }
}

static void pvgis_series(void)
{
  put("Latitude (decimal degrees):\t33.45\r\nLongitude (decimal "
      "degrees):\t-105.00\r\n\r\ntime,G(i),T2m,Int\r\n");
  for (int i = 0; i < DAYS; i++)
    for (int h = 7; h < 31; h++) {
      int y, m, d;
      parts(i + h / 24, &y, &m, &d);
      put("%04d%02d%02d:%02d10,0.0,%.2f,0.0\r\n", y, m, d, h % 24,
          0.1 * (h % 2 ? high_of(i) : low_of(i)));
    }
  put("\r\nG(i): irradiance\r\n");
}

/* High and low of a table in C, in F, in tenths; columns stand in any order, a mean of the day beside them or not. */
static void table_low_first(void)
{
  put("tmin,date,tmax\n");
  for (int i = 0, y, m, d; i < DAYS; i++) {
    parts(i, &y, &m, &d);
    put("%.1f,%04d-%02d-%02d,%.1f\n", 0.1 * low_of(i), y, m, d, 0.1 * high_of(i));
  }
}

static void table_high_first_f(void)
{
  put("TMAX,TMIN,DATE\n");
  for (int i = 0, y, m, d; i < DAYS; i++) {
    parts(i, &y, &m, &d);
    put("%.2f,%.2f,%04d-%02d-%02d\n", 32.0 + 0.18 * high_of(i), 32.0 + 0.18 * low_of(i), y, m,
        d);
  }
}

static void layouts_agree(void **state)
{
  (void)state;
  static const struct {
    void (*write)(void);
    double zone;
    const char *what;
  } row[] = {{table_plain, 0, "date,t_mean_c"},
             {table_us, 0, "m/d/y in F"},
             {dly, 0, ".dly"},
             {by_year, 0, "by year"},
             {table_ghcn, 0, "table"},
             {table_low_first, 0, "tmin,date,tmax"},
             {table_high_first_f, 0, "TMAX,TMIN,DATE in F"},
             {isd, -7, "ISD-Lite"},
             {pvgis_series, NAN, "PVGIS series"}};
  for (size_t k = 0; k < sizeof row / sizeof row[0]; k++) {
    pw_daily d;
    pw_err err = {0};
    start();
    row[k].write();
    if (pw_daily_parse("w", made, made_size, (double)row[k].zone, &d, &err) != PW_OK)
      fail_msg("%s: %s", row[k].what, err.text);
    assert_int_equal(d.typical, 0);
    assert_int_equal(d.first, pw_date_day(20210115));
    assert_int_equal(d.n, DAYS);
    for (int i = 0; i < DAYS; i++)
      pw_assert_near(d.t[i], mean_of(i), 2e-4, row[k].what, "as written");
    pw_daily_free(&d);
  }
}

/* The NSRDB year of 2017 in reference/checks: a dated year whose mean is that of its hours. */
static void an_hourly_year_has_its_days(void **state)
{
  (void)state;
  const char *path = pw_hourly("nsrdb_psm3_halfhour_40.53_-108.54_2017.csv");
  pw_weather *w = malloc(sizeof *w);
  pw_daily d;
  double days = 0.0, hours = 0.0;
  assert_non_null(w);
  assert_int_equal(pw_climate_read(path, w, NULL, NULL), PW_OK);
  assert_int_equal(pw_daily_read(path, (double)NAN, &d, NULL, NULL, NULL), PW_OK);
  assert_int_equal(d.typical, 0);
  assert_int_equal(d.first, pw_date_day(20170101));
  assert_int_equal(d.n, 365);
  for (int i = 0; i < 365; i++)
    days += d.t[i] / 365.0;
  for (int i = 0; i < PW_HOURS; i++)
    hours += (double)w->hour[i].t_air / PW_HOURS;
  pw_assert_near(days, hours, 1e-3, "mean", "its hours");
  pw_daily_free(&d);
  /* A typical year of months of many years has no date. */
  assert_int_equal(pw_daily_read(pw_hourly("722780TYA.CSV"), (double)NAN, &d, NULL, NULL, NULL),
                   PW_OK);
  assert_int_equal(d.typical, 1);
  assert_int_equal(d.n, 365);
  pw_daily_free(&d);
  free(w);
}

/* The normal year of several years is the mean over them, day by day; a leap day counts in none. */
static void years_share_their_days(void **state)
{
  (void)state;
  pw_daily d = {0, pw_date_day(20230101), 731, malloc(731 * sizeof(double))};
  pw_normal_set s;
  for (size_t i = 0; i < d.n; i++)
    d.t[i] = i < 365 ? 10.0 : 20.0; /* 2024 is a leap year */
  d.t[365 + 59] = 1000.0;           /* its 29 February */
  assert_int_equal(pw_normal_set_of(&d, &s, NULL), PW_OK);
  double weight = 0.0, sum = 0.0;
  for (size_t i = 0; i < s.n; i++) {
    weight += s.weight[i];
    sum += s.weight[i] * s.t[i];
  }
  pw_assert_near(weight, 365.0, 1e-9, "days", "a year");
  pw_assert_near(sum / weight, 15.0, 1e-9, "mean", "of both years");
  assert_int_equal(s.year_first, 2023);
  assert_int_equal(s.year_last, 2024);
  pw_normal_set_free(&s);
  d.n = 300;
  assert_int_equal(pw_normal_set_of(&d, &s, NULL), PW_E_DATA);
  pw_daily_free(&d);
}

static void what_is_wrong_is_said(void **state)
{
  (void)state;
  static const struct {
    const char *text, *words;
  } row[] = {
      {"date,t_mean_c\n2021-01-01,5\n2021-01-01,6\n", "each day once"},
      {"date,t_mean_c\n2021-01-01,99\n", "-90 to 60"},
      {"date,t_mean_c\n2021-01-01,warm\n", "temperature"},
      {"date,t_mean_c\n2021-02-29,5\n", "no date"},
      {"day,t_mean_c\n400,5\n", "day of the year"},
      {"date,humidity\n2021-01-01,5\n", "no layout known"},
      {"date,t_mean_c\n2021-01-01,\n", "no day has a temperature"},
      {"2021 01 01 00    94 -9999 -9999 -9999 -9999 -9999 -9999 -9999\n", "--zone"},
      {"USX00000001,20210101,TMAX,94,,,7,\nUSX00000002,20210101,TMAX,94,,,7,\n", "station"},
      {"USX00000001,20210101,TMAX,9400,,,7,\n", "tenths"},
      {"", "empty"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_daily d;
    pw_err err = {0};
    if (pw_daily_parse("w.csv", row[i].text, strlen(row[i].text), (double)NAN, &d, &err) ==
        PW_OK)
      fail_msg("taken: %s", row[i].text);
    if (!strstr(err.text, row[i].words)) fail_msg("%s -> %s", row[i].text, err.text);
    assert_null(d.t);
  }
}

/* A column that is none of ours may have a name of any length, a known one is known in any case and with spaces for its lines. */
static void names_of_columns(void **state)
{
  (void)state;
  for (size_t n = 1; n < 80; n++) {
    char file[200], name[80];
    pw_daily d;
    pw_err err = {0};
    memset(name, 'x', n);
    name[n] = '\0';
    snprintf(file, sizeof file, "%s,Day of Year,T Mean C\n9,1,4.5\n9,2,5.5\n", name);
    if (pw_daily_parse("w.csv", file, strlen(file), (double)NAN, &d, &err) != PW_OK)
      fail_msg("name of %zu: %s", n, err.text);
    assert_true(d.n >= 2 && d.t[0] == 4.5 && d.t[1] == 5.5);
    pw_daily_free(&d);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(layouts_agree), cmocka_unit_test(an_hourly_year_has_its_days),
      cmocka_unit_test(names_of_columns), cmocka_unit_test(years_share_their_days),
      cmocka_unit_test(what_is_wrong_is_said)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
