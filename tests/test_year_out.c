/* The year looked at closely: sums over sides, hours and days meet the year, the balance closes, what is
 * printed fits and adds up. */
#include "support.h"

#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "job/climate_of_job.h"
#include "job/survey.h"
#include "out/calendar.h"
#include "out/clip.h"
#include "out/year_out.h"

typedef struct fixture {
  pw_job job;
  pw_weather weather;
  pw_compare compare;
  pw_compare_hours hours;
} fixture;

static int set_up(void **state)
{
  fixture *f = calloc(1, sizeof *f);
  pw_err err = {0};
  pw_message said[PW_CLIMATE_SAYS];
  const char *dir = "examples/harrow_bend";
  if (!f) return -1;
  if (pw_job_read(dir, &f->job, NULL, &err) != PW_OK ||
      pw_job_climate(&f->job.house, dir, &f->weather, said, &err) != PW_OK ||
      pw_compare_run(&f->job, &f->weather, NULL, NULL, &f->compare, &err) != PW_OK ||
      pw_compare_hours_run(&f->compare, &f->weather, PW_YEAR_DETAILED, NULL, &f->hours, &err) !=
          PW_OK) {
    print_error("%s\n", err.text);
    return -1;
  }
  *state = f;
  return 0;
}

static int tear_down(void **state)
{
  fixture *f = *state;
  pw_compare_hours_free(&f->hours);
  pw_compare_hours_free(&f->hours);
  pw_compare_hours_free(NULL);
  pw_compare_free(&f->compare);
  pw_job_free(&f->job);
  free(f);
  return 0;
}

/* The year adds up sides and windows by ways of its own. */
static void sides_add_up_to_the_house(void **state)
{
  const pw_compare *c = &((fixture *)*state)->compare;
  for (int s = -1; s < (int)c->n_package; s++) {
    const pw_compare_set set = pw_compare_set_of(c, s);
    pw_side_year side[PW_FACADES];
    double glass = 0.0, area = 0.0;
    int n = 0;
    pw_compare_sides(c, s, side);
    for (int k = 0; k < PW_FACADES; k++) {
      double sun = 0.0, lost = 0.0;
      for (int m = 0; m < 12; m++) {
        sun += side[k].solar_month_kwh[m];
        lost += side[k].lost_month_kwh[m];
      }
      pw_assert_near(side[k].solar_kwh, set.lived->year.facade_solar_kwh[k], 1e-9,
                     pw_side_name[k], "sun of the side, as the year has it");
      pw_assert_near(side[k].lost_kwh, set.lived->year.facade_loss_kwh[k], 1e-9,
                     pw_side_name[k], "loss of the side, as the year has it");
      pw_assert_near(sun, side[k].solar_kwh, 1e-9, pw_side_name[k], "months make the year");
      pw_assert_near(lost, side[k].lost_kwh, 1e-9, pw_side_name[k], "months make the year");
      glass += side[k].glass_area;
      area += side[k].area;
      n += side[k].n_window;
    }
    pw_assert_near(glass, set.rated->glass_area, 1e-9, set.rated->name, "glass of all sides");
    pw_assert_near(area, set.rated->area, 1e-9, set.rated->name, "openings of all sides");
    assert_int_equal(n, 12); /* examples/harrow_bend/openings.csv: eleven rows, H1 twice */
  }
}

/* First law over the year: what comes in goes out or stays. A hundredth of a per cent for sums in
 * printed parts; the hourly balance itself is closed in test_zone.c. */
static void the_printed_balance_closes(void **state)
{
  const pw_compare *c = &((fixture *)*state)->compare;
  for (int s = -1; s < (int)c->n_package; s++) {
    const pw_year_result *y = &pw_compare_set_of(c, s).lived->year;
    double in = y->heating_kwh + y->solar_kwh + y->gain_kwh;
    double out = y->cooling_kwh + y->window_loss_kwh + y->opaque_loss_kwh + y->air_loss_kwh +
                 y->stored_kwh;
    pw_assert_near(in, out, 1e-4 * in, pw_compare_set_of(c, s).rated->name, "energy is kept");
  }
}

/* The hours are those of the same year: float series against sums in double, 1e-6. */
static void hours_make_the_year(void **state)
{
  fixture *f = *state;
  const pw_compare *c = &f->compare;
  assert_int_equal(f->hours.n_set, 1 + c->n_package);
  for (int s = -1; s < (int)c->n_package; s++) {
    const pw_year_hours *h = &f->hours.set[s + 1];
    const pw_year_result *y = &pw_compare_set_of(c, s).lived->year;
    double heat = 0.0, cool = 0.0, sun = 0.0, net = 0.0, top = 0.0;
    for (int i = 0; i < PW_HOURS; i++) {
      heat += 1e-3 * (double)h->heating_w[i];
      cool += 1e-3 * (double)h->cooling_w[i];
      sun += 1e-3 * (double)h->solar_w[i];
      net += 1e-3 * (double)h->window_w[i];
      top = fmax(top, (double)h->heating_w[i]);
    }
    pw_assert_near(heat, y->heating_kwh, 1e-6 * heat, "heating", "sum of the hours");
    pw_assert_near(cool, y->cooling_kwh, 1e-6 * cool, "cooling", "sum of the hours");
    pw_assert_near(sun, y->solar_kwh, 1e-6 * sun, "sun", "sum of the hours");
    pw_assert_near(net, y->solar_kwh - y->window_loss_kwh, 1e-5 * sun, "net", "sum of hours");
    pw_assert_near(top, y->peak_heating_w, 1e-6 * top, "peak", "highest of the hours");
  }
}

static double sum_of_day(const float hour[], int day)
{
  double sum = 0.0;
  for (int i = 0; i < 24; i++)
    sum += (double)hour[24 * day + i];
  return sum;
}

static void the_days_shown_are_those_of_most_need(void **state)
{
  fixture *f = *state;
  const pw_year_hours *h = &f->hours.set[0];
  int cold = pw_compare_cold_day(&f->hours, &f->weather);
  int hot = pw_compare_hot_day(&f->hours, &f->weather);
  for (int day = 0; day < PW_DAYS; day++) {
    assert_true(sum_of_day(h->heating_w, cold) >= sum_of_day(h->heating_w, day));
    assert_true(sum_of_day(h->cooling_w, hot) >= sum_of_day(h->cooling_w, day));
  }
}

/* Without any need the weather decides. */
static void a_house_without_need_shows_the_coldest_day(void **state)
{
  fixture *f = *state;
  float *none = calloc(PW_HOURS, sizeof *none);
  pw_compare_hours hours = {.n_set = 1, .set = {{.heating_w = none, .cooling_w = none}}};
  int cold = pw_compare_cold_day(&hours, &f->weather), coldest = 0;
  int hot = pw_compare_hot_day(&hours, &f->weather), hottest = 0;
  double low = 1e9, high = -1e9;
  for (int day = 0; day < PW_DAYS; day++) {
    double t = 0.0;
    for (int i = 0; i < 24; i++)
      t += (double)f->weather.hour[24 * day + i].t_air;
    if (t < low) coldest = day;
    if (t > high) hottest = day;
    low = fmin(low, t);
    high = fmax(high, t);
  }
  assert_int_equal(cold, coldest);
  assert_int_equal(hot, hottest);
  free(none);
}

/* The curve ends where the year and the bill end, and meets the bill at the end of every month. */
static void what_is_saved_grows_to_the_saving(void **state)
{
  fixture *f = *state;
  const pw_compare *c = &f->compare;
  for (size_t p = 0; p < c->n_package; p++) {
    const pw_compare_set a = pw_compare_set_of(c, PW_SET_EXISTING),
                         b = pw_compare_set_of(c, (int)p);
    double claim = b.billed->saving.cost_year / b.billed->saving.cost_computed, due = 0.0;
    pw_saved_days s;
    pw_compare_saved(c, &f->hours, p, &s);
    pw_assert_near(s.heating_kwh[364], a.lived->year.heating_kwh - b.lived->year.heating_kwh,
                   0.05, b.rated->name, "difference of the years; float sums");
    pw_assert_near(s.cooling_kwh[364], a.lived->year.cooling_kwh - b.lived->year.cooling_kwh,
                   0.05, b.rated->name, "difference of the years; float sums");
    pw_assert_near(s.cost[364], b.billed->saving.cost_year, 1e-9 * a.billed->bill.cost_year,
                   b.rated->name, "the saving that may be claimed");
    for (int m = 0; m < 12; m++) {
      due += claim * (a.billed->bill.cost_month[m] - b.billed->bill.cost_month[m]);
      pw_assert_near(s.cost[pw_month_start[m] + pw_month_days[m] - 1], due,
                     1e-9 * a.billed->bill.cost_year, pw_month_name[m],
                     "bills to the month's end");
    }
  }
}

static void the_monthly_method_has_no_hours(void **state)
{
  fixture *f = *state;
  pw_compare_hours hours;
  pw_err err;
  assert_int_equal(
      pw_compare_hours_run(&f->compare, &f->weather, PW_YEAR_QUICK, NULL, &hours, &err),
      PW_E_DOMAIN);
  assert_string_equal(err.field, "method");
  assert_null(hours.store);
}

static void dates_follow_the_calendar(void **state)
{
  char text[PW_DAY_TEXT];
  (void)state;
  pw_show_day(0, text);
  assert_string_equal(text, "Jan 1");
  pw_show_day(59, text); /* no 29 February */
  assert_string_equal(text, "Mar 1");
  pw_show_day(364, text);
  assert_string_equal(text, "Dec 31");
  pw_show_hour(24 * 364 + 23, text);
  assert_string_equal(text, "Dec 31 23-24h");
  pw_show_hour(-1, text);
  assert_string_equal(text, "-");
}

static void names_are_cut_between_characters(void **state)
{
  (void)state;
  assert_string_equal(pw_clip("best", 4).text, "best");
  assert_string_equal(pw_clip("better", 4).text, "bet.");
  assert_string_equal(pw_clip("\xc3\xa4\xc3\xb6\xc3\xbc", 3).text, "\xc3\xa4\xc3\xb6\xc3\xbc");
  assert_string_equal(pw_clip("\xc3\xa4\xc3\xb6\xc3\xbc", 2).text, "\xc3\xa4.");
  assert_string_equal(pw_clip("", 3).text, "");
  char rope[1000];
  memset(rope, 'x', sizeof rope - 1);
  rope[sizeof rope - 1] = '\0';
  assert_int_equal(strlen(pw_clip(rope, 500).text), 39);
}

/* Characters of a line, not bytes. */
static size_t columns(const char *line, size_t length)
{
  size_t n = 0;
  for (size_t i = 0; i < length; i++)
    n += ((unsigned char)line[i] & 0xc0u) != 0x80u;
  return n;
}

static void fits(const pw_compare *c, size_t package, int si)
{
  char *text = NULL;
  size_t size = 0;
  pw_compare_frame frame = {.method = "somehow"};
  FILE *f = open_memstream(&text, &size);
  assert_non_null(f);
  assert_int_equal(pw_year_text(c, &frame, package, pw_units(si), f, NULL), PW_OK);
  fclose(f);
  size_t lines = 0;
  for (char *line = text; *line; lines++) {
    size_t length = strcspn(line, "\n");
    if (columns(line, length) > 100) print_error("%.*s\n", (int)length, line);
    assert_true(columns(line, length) <= 100);
    line += length + (line[length] == '\n');
  }
  assert_true(lines > 80);
  free(text);
}

/* Also with as many packages as may be, long names in another script, and a great house. */
static void tables_fit_a_hundred_columns(void **state)
{
  fixture *f = *state;
  const pw_compare *c = &f->compare;
  fits(c, 0, 0);
  fits(c, 2, 1);
  pw_compare *many = malloc(sizeof *many);
  pw_compare_window *windows = calloc(PW_COMPARE_PACKAGES_MAX * c->n_opening, sizeof *windows);
  assert_non_null(many);
  assert_non_null(windows);
  *many = *c;
  many->n_package = PW_COMPARE_PACKAGES_MAX;
  for (size_t p = 0; p < many->n_package; p++) {
    many->rated.package[p] = windows + p * c->n_opening;
    memcpy(windows + p * c->n_opening, c->rated.package[0], c->n_opening * sizeof *windows);
    many->rated.package_set[p] = c->rated.package_set[0];
    many->lived.package_set[p] = c->lived.package_set[0];
    many->billed.package_set[p] = c->billed.package_set[0];
    snprintf(many->rated.package_set[p].name, sizeof many->rated.package_set[p].name,
             "\xc3\xa4\xc3\xb6\xc3\xbc a very long package name %zu", p);
    for (size_t i = 0; i < c->n_opening; i++) {
      many->lived.package_set[p].year.window[i].solar_kwh *= 9.0;
      many->lived.package_set[p].year.window[i].hours_uncomfortable = 8760.0;
    }
  }
  fits(many, 7, 0);
  fits(many, 7, 1);
  free(windows);
  free(many);
}

static double real_of(const json_t *o, const char *key)
{
  const json_t *v = json_object_get(o, key);
  return json_is_number(v) ? json_number_value(v) : (double)NAN;
}

static double sum_of(const json_t *array)
{
  double sum = 0.0;
  for (size_t i = 0; i < json_array_size(array); i++)
    sum += json_number_value(json_array_get(array, i));
  return sum;
}

static void json_holds_the_same_figures(void **state)
{
  fixture *f = *state;
  const pw_compare *c = &f->compare;
  pw_compare_frame frame = {.method = "somehow"};
  json_t *root = pw_year_json(c, &frame, &f->hours, &f->weather);
  const json_t *packages = json_object_get(root, "packages");
  assert_int_equal(json_array_size(packages), c->n_package);
  for (int s = -1; s < (int)c->n_package; s++) {
    const json_t *o =
        s < 0 ? json_object_get(root, "existing") : json_array_get(packages, (size_t)s);
    const pw_year_result *y = &pw_compare_set_of(c, s).lived->year;
    const json_t *sides = json_object_get(o, "facades");
    double sun = 0.0;
    for (size_t i = 0; i < json_array_size(sides); i++)
      sun += sum_of(json_object_get(json_array_get(sides, i), "solar_gain_month_kwh"));
    pw_assert_near(sun, y->solar_kwh, 1e-6, "solar", "facades by month");
    pw_assert_near(sum_of(json_object_get(o, "heating_month_kwh")), y->heating_kwh, 1e-6,
                   "heating", "by month");
    pw_assert_near(real_of(o, "peak_cooling_w"), y->peak_cooling_w, 1e-6, "peak", "the year");
    assert_int_equal(json_array_size(json_object_get(o, "openings")), c->n_opening);
  }
  const json_t *day = json_object_get(json_object_get(root, "cold_day"), "existing");
  int cold = pw_compare_cold_day(&f->hours, &f->weather);
  pw_assert_near(sum_of(json_object_get(day, "heating_w")),
                 sum_of_day(f->hours.set[0].heating_w, cold), 1e-3, "cold day", "its hours");
  json_decref(root);
  root = pw_year_json(c, &frame, NULL, &f->weather);
  assert_null(json_object_get(root, "cold_day"));
  json_decref(root);
}

/* Every hour of both maps is drawn, and a package that is not there is refused. */
static void pictures_hold_the_hours(void **state)
{
  fixture *f = *state;
  pw_plot *plot = NULL;
  pw_err err;
  for (int kind = 0; kind < PW_YEAR_PICTURE_COUNT; kind++) {
    char *svg = NULL;
    pw_status status = pw_year_picture(&f->compare, &f->hours, &f->weather, 2, pw_units(0),
                                       (pw_year_picture_kind)kind, &plot, &err);
    assert_int_equal(status, PW_OK);
    status = pw_plot_svg(plot, 1000, 600, &svg, &err);
    pw_plot_free(plot);
    if (status == PW_E_LACK) {
      print_message("no gnuplot: pictures not drawn\n");
      return;
    }
    if (status != PW_OK) print_error("%s\n", err.text);
    assert_int_equal(status, PW_OK);
    assert_non_null(strstr(svg, "</svg>"));
    assert_non_null(strstr(svg, kind == PW_YEAR_PICTURE_MAP ? "The same with best" : "best"));
    free(svg);
  }
  assert_int_equal(pw_year_picture(&f->compare, &f->hours, &f->weather, 3, pw_units(0),
                                   PW_YEAR_PICTURE_MAP, &plot, &err),
                   PW_E_SHAPE);
  assert_null(plot);
}

/* Hours in which nothing goes through the windows, or in which they only gain: the map's scale still holds both colours, from -0.1 to
 * 0.1 kW at least. */
static void a_map_of_still_hours_has_a_scale(void **state)
{
  fixture *f = *state;
  static float still[PW_HOURS];
  pw_compare_hours hours = f->hours;
  pw_plot *plot = NULL;
  char *svg = NULL;
  pw_err err = {0};
  for (int gain = 0; gain < 2; gain++) {
    for (int h = 0; h < PW_HOURS; h++)
      still[h] = (float)gain * 100.0f;
    hours.set[0].window_w = hours.set[3].window_w = still;
    assert_int_equal(pw_year_picture(&f->compare, &hours, &f->weather, 2, pw_units(1),
                                     PW_YEAR_PICTURE_MAP, &plot, &err),
                     PW_OK);
    pw_status status = pw_plot_svg(plot, 1000, 600, &svg, &err);
    pw_plot_free(plot);
    if (status == PW_E_LACK) return;
    if (status != PW_OK) fail_msg("%s", err.text);
    assert_non_null(strstr(svg, "<text>-0.1</text>"));
    assert_non_null(strstr(svg, "<text> 0.1</text>"));
    free(svg);
  }
}

/* Months by set: a column each under its name; twelve rows that sum to the year's, within their rounding; MMBtu is kWh over 293.07107. */
static void months_stand_under_their_set(void **state)
{
  const fixture *f = *state;
  const pw_compare *c = &f->compare;
  char *text = NULL;
  size_t size = 0;
  pw_compare_frame frame = {.method = "somehow"};
  FILE *out = open_memstream(&text, &size);
  assert_non_null(out);
  assert_int_equal(pw_year_text(c, &frame, 0, pw_units(0), out, NULL), PW_OK);
  fclose(out);
  for (int cooling = 0; cooling < 2; cooling++) {
    const char *at = strstr(text, cooling ? "Cooling need by month" : "Heating need by month");
    assert_non_null(at);
    at = strstr(at, "\nmonth");
    assert_non_null(at);
    char header[200];
    snprintf(header, sizeof header, "%.*s", (int)strcspn(at + 1, "\n"), at + 1);
    const char *from = header;
    for (int s = -1; s < (int)c->n_package; s++) {
      from = strstr(from, pw_compare_set_of(c, s).rated->name); /* short ones, not cut */
      if (!from) fail_msg("no '%s' in '%s'", pw_compare_set_of(c, s).rated->name, header);
    }
    double sum[1 + PW_COMPARE_PACKAGES_MAX] = {0.0};
    const char *line = strchr(at + 1, '\n') + 1;
    while (strncmp(line, "Jan", 3) != 0)
      line = strchr(line, '\n') + 1;
    for (int m = 0; m < 12; m++, line = strchr(line, '\n') + 1) {
      char *cell = NULL;
      double v = strtod(line + 3, &cell);
      for (size_t s = 0; s <= c->n_package; s++, v = strtod(cell, &cell)) {
        const pw_year_result *y = &pw_compare_set_of(c, (int)s - 1).lived->year;
        pw_assert_near(v, cooling ? y->cooling_month_kwh[m] : y->heating_month_kwh[m], 0.501,
                       pw_month_name[m], "the year");
        sum[s] += v;
      }
    }
    const char *year = strstr(line, "year kWh"), *million = strstr(line, "MMBtu");
    assert_true(year && million);
    char *cell = NULL, *other = NULL;
    double v = strtod(year + 8, &cell), mm = strtod(million + 5, &other);
    for (size_t s = 0; s <= c->n_package;
         s++, v = strtod(cell, &cell), mm = strtod(other, &other)) {
      pw_assert_near(v, sum[s], 6.5, "year", "sum of the months as printed");
      pw_assert_near(mm, v / 293.07107, 0.052, "MMBtu", "by hand");
    }
  }
  free(text);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(sides_add_up_to_the_house),
      cmocka_unit_test(the_printed_balance_closes),
      cmocka_unit_test(hours_make_the_year),
      cmocka_unit_test(the_days_shown_are_those_of_most_need),
      cmocka_unit_test(a_house_without_need_shows_the_coldest_day),
      cmocka_unit_test(what_is_saved_grows_to_the_saving),
      cmocka_unit_test(the_monthly_method_has_no_hours),
      cmocka_unit_test(dates_follow_the_calendar),
      cmocka_unit_test(names_are_cut_between_characters),
      cmocka_unit_test(tables_fit_a_hundred_columns),
      cmocka_unit_test(months_stand_under_their_set),
      cmocka_unit_test(json_holds_the_same_figures),
      cmocka_unit_test(pictures_hold_the_hours),
      cmocka_unit_test(a_map_of_still_hours_has_a_scale),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
