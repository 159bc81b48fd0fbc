/* Weather files: each layout written anew in its published form with known hours, read back; what
 * is mended and counted; what is refused, with line and column. Real files where they are. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "job/climate_file.h"

typedef struct paper {
  char *text;
  size_t size, room;
} paper;

static void put(paper *p, const char *format, ...)
{
  va_list args;
  if (p->room - p->size < 512) {
    p->room = p->room * 2 + 4096;
    p->text = realloc(p->text, p->room);
    assert_non_null(p->text);
  }
  va_start(args, format);
  p->size += (size_t)vsnprintf(p->text + p->size, p->room - p->size, format, args);
  va_end(args);
}

/* What hour i of the made year carries. */
static double t_of(int i) { return 10.0 + (i % 24) * 0.5; }
static double ghi_of(int i) { return i % 24 >= 8 && i % 24 < 17 ? 300.0 + i % 24 : 0.0; }

static void date_of(int i, int *month, int *day)
{
  *month = pw_month_of_day(i / 24);
  *day = i / 24 - pw_month_start[*month] + 1;
}

/* A TMY3 year: other columns around, zero padded or as a spreadsheet saves it. skip: hours first..
 * last - 1 are left out; mark: their temperature is a missing mark instead. */
static paper tmy3(int spreadsheet, int first, int last, const char *mark)
{
  paper p = {0};
  const char *eol = spreadsheet ? "\r\n" : "\n";
  put(&p,
      spreadsheet ? "725650,O'NEIL FIELD,CO,-7,39.833,-104.65,1650,,,,,,%s"
                  : "725650,\"O'NEIL, FIELD\",CO,-7.0,39.833,-104.650,1650%s",
      eol);
  put(&p,
      "Date (MM/DD/YYYY),Time (HH:MM),ETR (W/m^2),GHI (W/m^2),GHI source,DNI (W/m^2),DHI "
      "(W/m^2),"
      "OpqCld (tenths),Dry-bulb (C),Dew-point (C),Pressure (mbar),Wspd (m/s)%s%s",
      spreadsheet ? "," : "", eol);
  for (int i = 0; i < PW_HOURS; i++) {
    int m, d, out = i >= first && i < last;
    char t[16];
    if (out && !mark) continue;
    date_of(i, &m, &d);
    snprintf(t, sizeof t, "%.1f", t_of(i));
    put(&p, spreadsheet ? "%d/%d/%d,%d:00," : "%02d/%02d/%d,%02d:00,", m + 1, d, 1990 + m,
        i % 24 + 1);
    put(&p, "0,%.0f,1,0,%.0f,5,%s,2.5,840,3%s%s", ghi_of(i), ghi_of(i), out ? mark : t,
        spreadsheet ? ",255.0" : "", eol);
  }
  return p;
}

static pw_status parse(const paper *p, pw_weather *w, pw_climate_report *r, pw_err *err)
{
  return pw_climate_parse(p->text, p->size, "made.csv", w, r, err);
}

/* Source of the form: NREL/TP-580-43156 as METHODS.md section 9 states it. */
static void tmy3_is_read_in_both_dresses(void **state)
{
  (void)state;
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  for (int spreadsheet = 0; spreadsheet < 2; spreadsheet++) {
    paper p = tmy3(spreadsheet, 0, 0, NULL);
    pw_climate_report r;
    pw_err err = {0};
    if (parse(&p, w, &r, &err) != PW_OK) fail_msg("%s", err.text);
    assert_int_equal(r.rows, PW_HOURS);
    assert_int_equal(r.repaired, 0);
    assert_int_equal(r.layout, PW_CLIMATE_TMY3);
    assert_string_equal(w->site.name, spreadsheet ? "O'NEIL FIELD CO" : "O'NEIL, FIELD CO");
    pw_assert_near(w->site.tz_h, -7.0, 0.0, "zone", "made");
    pw_assert_near(w->site.longitude_deg, -104.65, 1e-9, "longitude", "made");
    assert_int_equal(w->year[4], 1994);
    for (int i = 0; i < PW_HOURS; i += 37) {
      pw_assert_near((double)w->hour[i].t_air, t_of(i), 1e-5, "temperature", "made");
      pw_assert_near((double)w->hour[i].ghi, ghi_of(i), 1e-4, "global", "made");
    }
    pw_assert_near((double)w->hour[5].pressure, 84000.0, 0.1, "pressure, mbar to Pa", "made");
    pw_assert_near((double)w->hour[5].cloud, 0.5, 1e-6, "cloud, tenths", "made");
    assert_true(w->hour[5].ir_down < 0.0f && w->hour[5].albedo < 0.0f);
    free(p.text);
  }
  free(w);
}

static void short_gaps_are_mended_and_counted(void **state)
{
  (void)state;
  static const char *const mark[] = {NULL, "-9900", "-9999", "-999", ""};
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  for (size_t k = 0; k < sizeof mark / sizeof mark[0]; k++) {
    int from = 24 * 40 + 2;
    paper p = tmy3(0, from, from + 4, mark[k]);
    pw_climate_report r;
    pw_err err = {0};
    if (parse(&p, w, &r, &err) != PW_OK) fail_msg("%s", err.text);
    assert_int_equal(r.repaired, 4);
    assert_int_equal(w->repaired, 4);
    assert_int_equal(r.longest_gap, 4);
    assert_int_equal(r.absent, mark[k] ? 0 : 4);
    /* the made temperature is a straight line there, so filling must meet it */
    for (int i = from; i < from + 4; i++)
      pw_assert_near((double)w->hour[i].t_air, t_of(i), 1e-4, "filled", "straight line");
    free(p.text);
  }
  free(w);
}

static void a_gap_at_the_end_is_filled_round_the_year(void **state)
{
  (void)state;
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  paper p = tmy3(0, PW_HOURS - 3, PW_HOURS, NULL);
  pw_climate_report r;
  assert_int_equal(parse(&p, w, &r, NULL), PW_OK);
  assert_int_equal(r.repaired, 3);
  double a = t_of(PW_HOURS - 4), b = t_of(0);
  pw_assert_near((double)w->hour[PW_HOURS - 2].t_air, a + (b - a) * 0.5, 1e-4, "31 Dec 23 h",
                 "half way");
  free(p.text);
  free(w);
}

/* Half-hour rows in UTC for a place at UTC-7, one leap day, columns in another order. */
static void nsrdb_half_hours_leap_day_and_zone(void **state)
{
  (void)state;
  paper p = {0};
  put(&p, "Source,Location ID,Latitude,Longitude,Time Zone,Elevation,Local Time Zone,Pressure "
          "Units\nNSRDB,77,40.5,-108.5,0,2168,-7,mbar\n"
          "Year,Month,Day,Hour,Minute,DNI,Wind Speed,GHI,DHI,Temperature,Relative Humidity,"
          "Cloud Type,Pressure,,,\n");
  static const int days[12] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  for (int m = 0; m < 12; m++)
    for (int d = 0; d < days[m]; d++)
      for (int h = 0; h < 48; h++)
        put(&p, "2016,%d,%d,%d,%d,0,2,0,0,%d,100,%d,780,,,\n", m + 1, d + 1, h / 2, h % 2 * 30,
            h, m);
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  pw_climate_report r;
  pw_err err = {0};
  if (parse(&p, w, &r, &err) != PW_OK) fail_msg("%s", err.text);
  assert_int_equal(r.rows, 366 * 48);
  assert_int_equal(r.leap_rows, 48);
  assert_int_equal(r.per_hour, 2);
  pw_assert_near(w->site.tz_h, -7.0, 0.0, "zone", "made");
  pw_assert_near(w->sun_shift_h[3], -0.25, 1e-12, "rows at 0 and 30 stand for minute 15",
                 "made");
  /* local hour 0 is 7 h UTC: rows 14 and 15 */
  pw_assert_near((double)w->hour[24].t_air, 14.5, 1e-5, "hour in local time", "made");
  pw_assert_near((double)w->hour[24].t_dew, 14.5, 1e-4, "dew point at 100 %", "saturation");
  /* A month a type, as the header of such a file names them: 0 clear, 1 probably clear, 2 fog, 3 water, 4 super-cooled, 5 mixed,
   * 6 opaque ice, 7 cirrus (thin), 8 overlapping, 9 overshooting; 10 unknown and 11 dust are no cloud that is told. */
  static const int opaque[12] = {0, 0, 1, 1, 1, 1, 1, 0, 1, 1, -1, -1};
  for (int m = 0; m < 12; m++) {
    const pw_hour *h = &w->hour[24 * (pw_month_start[m] + 15)];
    assert_int_equal((int)h->cloud, opaque[m]);
    assert_int_equal((int)h->cloud_total, m == 7 ? 1 : opaque[m]);
  }
  free(p.text);
  free(w);
}

/* Header lines, month table, UTC stamps, legend; dew point from humidity by psychro.csv row 44
 * (20 C and 40 %: 6.0043). */
static paper pvgis(int rows, const char *latitude)
{
  paper p = {0};
  put(&p,
      "Latitude (decimal degrees): %s\nLongitude (decimal degrees): 8.000\n"
      "Elevation (m): 250.0\nIrradiance Time Offset (h): 0.1761\nmonth,year\n1,2018\n"
      "time(UTC),T2m,RH,G(h),Gb(n),Gd(h),IR(h),WS10m,WD10m,SP\n",
      latitude);
  for (int i = 0; i < rows; i++) {
    int m, d;
    date_of(i, &m, &d);
    put(&p, "%d%02d%02d:%02d00,%d,40,%d.0,-0.0,0.0,300.5,1.5,200,98000\n", 2005 + m, m + 1, d,
        i % 24, 20, i % 24);
  }
  put(&p, "\nT2m: 2-m air temperature (degree Celsius)\nPVGIS (c) European Union, 2001-2025\n");
  return p;
}

static void pvgis_turns_to_local_time(void **state)
{
  (void)state;
  paper p = pvgis(PW_HOURS, "45.000");
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  pw_climate_report r;
  pw_err err = {0};
  if (parse(&p, w, &r, &err) != PW_OK) fail_msg("%s", err.text);
  assert_int_equal(r.layout, PW_CLIMATE_PVGIS);
  pw_assert_near(w->site.tz_h, 1.0, 0.0, "zone of 8 E", "made");
  pw_assert_near(w->sun_shift_h[0], 0.1761 - 0.5, 1e-9, "shift", "header");
  pw_assert_near((double)w->hour[13].ghi, 12.0, 1e-5, "12 h UTC is hour 13", "made");
  pw_assert_near((double)w->hour[0].ghi, 23.0, 1e-5, "wraps round the year", "made");
  pw_assert_near((double)w->hour[9].t_dew, 6.0043, 0.05, "dew point", "psychro.csv row 44");
  pw_assert_near((double)w->hour[9].ir_down, 300.5, 1e-3, "long-wave", "made");
  free(p.text);
  free(w);
}

/* Replaces the first find by put in place; both of one length. */
static void change(paper *p, const char *find, const char *with)
{
  assert_int_equal(strlen(find), strlen(with));
  char *at = NULL;
  for (size_t i = 0; i + strlen(find) <= p->size && !at; i++)
    if (memcmp(p->text + i, find, strlen(find)) == 0) at = p->text + i;
  assert_non_null(at);
  memcpy(at, with, strlen(with));
}

static void refuses(paper p, const char *what)
{
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  w->repaired = 77;
  pw_err err = {0};
  assert_int_equal(parse(&p, w, NULL, &err), PW_E_DATA);
  if (!strstr(err.text, what)) fail_msg("'%s' does not say '%s'", err.text, what);
  assert_int_equal(w->repaired, 77);
  free(w);
  free(p.text);
}

static void bad_files_are_refused_with_their_place(void **state)
{
  (void)state;
  paper p = tmy3(0, 0, 0, NULL);
  p.size = p.size / 2; /* cut within a row */
  refuses(p, "the file is cut short here");
  p = tmy3(0, 5000, PW_HOURS, NULL); /* cut between rows */
  refuses(p, "lacks for 3760 h from 7/28 hour 9");
  p = tmy3(0, 100, 107, NULL);
  refuses(p, "lacks for 7 h");
  p = tmy3(0, 100, 107, "-9900");
  refuses(p, "temperature lacks for 7 h from 1/5 hour 5");
  p = tmy3(0, 59 * 24 - 7, 59 * 24, "-9900"); /* from 17:00 of 28 February */
  refuses(p, "temperature lacks for 7 h from 2/28 hour 18");
  p = tmy3(0, 59 * 24, 59 * 24 + 24, "-9900");
  refuses(p,
          "temperature lacks for 24 h from 3/1 hour 1 (month/day); 8736 of 8760 rows have it");
  p = tmy3(0, 0, 0, NULL);
  change(&p, "39.833", "99.833");
  refuses(p, "made.csv:1:5: latitude '99.833', want -90 to 90");
  p = tmy3(0, 0, 0, NULL);
  change(&p, "01/02/1990", "01/02/1989");
  refuses(p, "made.csv:27:1: year 1989 in month 1, which began with 1990");
  p = tmy3(0, 0, 0, NULL);
  change(&p, "01/01/1990,02:00", "01/01/1990,01:00");
  refuses(p, "made.csv:4:1: month 1 day 1 hour 1 stands twice");
  p = tmy3(0, 0, 0, NULL);
  change(&p, ",10.5,2.5", ",105.,2.5");
  refuses(p, "made.csv:4:9: Dry-bulb (C) 105., want -90 to 60");
  p = tmy3(0, 0, 0, NULL);
  change(&p, ",10.5,2.5", ",1o.5,2.5");
  refuses(p, "made.csv:4:9: Dry-bulb (C) '1o.5' is no number");
  p = tmy3(0, 0, 0, NULL);
  change(&p, ",10.5,2.5", ",10.5;2.5");
  refuses(p, "made.csv:4: 11 columns, want 12 as in the header");
  p = tmy3(0, 0, 0, NULL);
  change(&p, "DHI (W/m^2)", "DHX (W/m^2)");
  refuses(p, "made.csv:2: no column 'DHI (W/m^2)'");
  p = tmy3(0, 0, 0, NULL);
  change(&p, "01/01/1990,02:00", "01/32/1990,02:00");
  refuses(p, "made.csv:4:1: no such hour");
  p = tmy3(0, 0, 0, NULL);
  change(&p, "01/01/1990,02:00", "01/01/1990,2:30 ");
  refuses(p, "want 1:00 to 24:00");
  refuses(pvgis(100, "45.000"), "lacks for");
  refuses(pvgis(PW_HOURS, "-145.0"), "made.csv:1:28: latitude '-145.0'");
  refuses(pvgis(1, "45.000"), "ends after 1 rows");
  p = (paper){0};
  put(&p, "a,b\n1,2\n");
  refuses(p, "no layout known here");
  p = (paper){0};
  put(&p, "%s", "\xEF\xBB\xBF");
  refuses(p, "empty");
}

static void a_file_that_is_not_there_says_so(void **state)
{
  (void)state;
  pw_err err = {0};
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  assert_int_equal(pw_climate_read("/no/such/file.csv", w, NULL, &err), PW_E_MISSING);
  assert_int_equal(pw_climate_read(".", w, NULL, &err), PW_E_MISSING);
  free(w);
}

/* A climate's name: a file beside the job first, then a file, then a place. */
static void a_climate_is_a_file_or_a_place(void **state)
{
  (void)state;
  char dir[] = "/tmp/pw_climate_XXXXXX", path[64];
  assert_non_null(mkdtemp(dir));
  snprintf(path, sizeof path, "%s/phoenix", dir); /* a file may be called as a place is */
  paper p = tmy3(0, 0, 0, NULL);
  FILE *f = fopen(path, "w");
  assert_non_null(f);
  assert_int_equal(fwrite(p.text, 1, p.size, f), p.size);
  assert_int_equal(fclose(f), 0);
  free(p.text);
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  pw_err err;
  pw_place_hit hit = {.km = -1.0};
  assert_int_equal(pw_climate_get("phoenix", dir, w, NULL, NULL, &err), PW_OK);
  assert_int_equal(w->synthetic, 0);
  assert_int_equal(remove(path), 0);
  assert_int_equal(rmdir(dir), 0);
  assert_int_equal(pw_climate_get("phoenix", dir, w, NULL, &hit, &err), PW_OK);
  assert_int_equal(w->synthetic, 1);
  pw_assert_near(hit.km, 0.0, 0.0, "distance", "named");
  assert_int_equal(pw_climate_get("33.0,-112", NULL, w, NULL, &hit, &err), PW_OK);
  assert_true(hit.km > 1.0 && hit.km < 80.0);
  assert_int_equal(pw_climate_get("phoenix.csv", dir, w, NULL, NULL, &err), PW_E_MISSING);
  assert_int_equal(pw_climate_get("", dir, w, NULL, NULL, &err), PW_E_DATA);
  free(w);
}

/* No byte may be read beyond the text, whatever is cut off: a run for the sanitizers. */
static void any_cut_is_refused_or_read(void **state)
{
  (void)state;
  pw_weather *w = calloc(1, sizeof *w);
  paper whole[2] = {tmy3(1, 0, 0, NULL), pvgis(PW_HOURS, "45.000")};
  assert_non_null(w);
  for (int k = 0; k < 2; k++) {
    for (size_t n = 0; n < 600; n++) {
      char *copy = malloc(n ? n : 1);
      assert_non_null(copy);
      memcpy(copy, whole[k].text, n);
      pw_err err = {0};
      assert_int_equal(pw_climate_parse(copy, n, "cut.csv", w, NULL, &err), PW_E_DATA);
      free(copy);
    }
    free(whole[k].text);
  }
  free(w);
}

/* Yearly global of the open files against monthly_climate.csv-like sums: Denver 1670 kWh/m2,
 * STD140.md; the rest must simply read without repair. */
static void the_open_files_read_clean(void **state)
{
  (void)state;
  static const char *const file[] = {"703165TY.csv",
                                     "722020TYA.CSV",
                                     "722780TYA.CSV",
                                     "722950TYA.CSV",
                                     "723170TYA.CSV",
                                     "724830TYA.CSV",
                                     "726580TYA.CSV",
                                     "727930TYA.CSV",
                                     "pvgis_tmy_45.000_8.000_2005_2023.csv",
                                     "nsrdb_psm3_halfhour_40.53_-108.54_2017.csv",
                                     "725650TYA.CSV"};
  pw_weather *w = calloc(1, sizeof *w);
  assert_non_null(w);
  for (size_t k = 0; k < sizeof file / sizeof file[0]; k++) {
    const char *path = pw_hourly(file[k]);
    pw_climate_report r;
    pw_err err = {0};
    if (pw_climate_read(path, w, &r, &err) != PW_OK) fail_msg("%s", err.text);
    assert_int_equal(r.repaired, 0);
    assert_true(r.inconsistent <= 1);
  }
  double sum = 0.0;
  for (int i = 0; i < PW_HOURS; i++)
    sum += (double)w->hour[i].ghi / 1000.0;
  pw_assert_near(sum, 1670.0, 0.5, "Denver, global of the year", "STD140.md, 1670 kWh/m2");
  free(w);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(tmy3_is_read_in_both_dresses),
      cmocka_unit_test(short_gaps_are_mended_and_counted),
      cmocka_unit_test(a_gap_at_the_end_is_filled_round_the_year),
      cmocka_unit_test(nsrdb_half_hours_leap_day_and_zone),
      cmocka_unit_test(pvgis_turns_to_local_time),
      cmocka_unit_test(bad_files_are_refused_with_their_place),
      cmocka_unit_test(a_file_that_is_not_there_says_so),
      cmocka_unit_test(a_climate_is_a_file_or_a_place),
      cmocka_unit_test(any_cut_is_refused_or_read),
      cmocka_unit_test(the_open_files_read_clean),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
