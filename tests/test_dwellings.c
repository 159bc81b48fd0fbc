/* Several dwellings on one job, written as folders from the example's files: alike ones sum to twice the one, a row of
 * job.csv for one of them goes before that of all, and what cannot be told apart is refused. */
#include "support.h"

#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "job/dwelling.h"
#include "job/job_open.h"
#include "job/survey.h"
#include "out/dwellings_out.h"

static char dir[] = "/tmp/pw_dwellings_XXXXXX";

static FILE *create(const char *name)
{
  char path[80];
  snprintf(path, sizeof path, "%s/%s", dir, name);
  FILE *f = fopen(path, "w");
  assert_non_null(f);
  return f;
}

/* Each line of a file of the example, its end taken off, to a callback. */
static void each_line(const char *name,
                      void (*put)(const char *line, FILE *f, const void *with),
                      const void *with)
{
  char path[80], line[4096];
  snprintf(path, sizeof path, "examples/harrow_bend/%s", name);
  FILE *in = fopen(path, "r"), *out = create(name);
  assert_non_null(in);
  while (fgets(line, sizeof line, in)) {
    line[strcspn(line, "\r\n")] = '\0';
    if (line[0] != '#') put(line, out, with);
  }
  fclose(in);
  fclose(out);
}

static void as_is(const char *line, FILE *f, const void *with)
{
  (void)with;
  fprintf(f, "%s\n", line);
}

/* with: NULL-ended names; each opening once for each of them. */
static void in_each(const char *line, FILE *f, const void *with)
{
  const char *const *name = with;
  if (strncmp(line, "tag,", 4) == 0) {
    fprintf(f, "dwelling,%s\n", line);
    return;
  }
  for (; *name; name++)
    fprintf(f, "%s,%s\n", *name, line);
}

/* with: rows that follow the example's, which hold for all. */
static void of_all(const char *line, FILE *f, const void *with)
{
  int header = strncmp(line, "item,", 5) == 0;
  fprintf(f, "%s,%s\n", header ? "dwelling" : "", line);
  if (header) fputs(with, f);
}

static void write_job(const char *const name[], const char *rows)
{
  each_line("openings.csv", in_each, name);
  each_line("packages.csv", as_is, NULL);
  each_line("job.csv", of_all, rows);
}

typedef struct house {
  pw_open_job open;
  pw_compare compare;
} house;

static house *live(const char *from, const char *dwelling)
{
  static const pw_compare_options quick = {.method = PW_YEAR_QUICK};
  house *h = calloc(1, sizeof *h);
  pw_err err = {0};
  assert_non_null(h);
  if (pw_job_open_dwelling(from, dwelling, &h->open, &err) != PW_OK) fail_msg("%s", err.text);
  if (pw_compare_run(&h->open.job, h->open.weather, &quick, NULL, &h->compare, &err) != PW_OK)
    fail_msg("%s", err.text);
  return h;
}

static void leave(house *h)
{
  pw_compare_free(&h->compare);
  pw_job_close(&h->open);
  free(h);
}

static void same(double a, double b, const char *what)
{
  pw_assert_near(a, b, 1e-9 * fmax(1.0, fabs(b)), what, "the same");
}

static void two_alike_sum_to_twice_the_one(void **state)
{
  (void)state;
  static const char *const name[] = {"North", "South", NULL};
  write_job(name, "");
  house *one = live("examples/harrow_bend", NULL), *a = live(dir, "North"),
        *b = live(dir, "south"); /* letters of either case */
  const pw_compare *const both[] = {&a->compare, &b->compare};
  pw_together sum;
  pw_together_of(both, 2, &sum);
  assert_string_equal(b->open.job.dwelling, "South");
  assert_int_equal(a->compare.n_opening, one->compare.n_opening);
  same(sum.n_window, 24.0, "twelve windows twice");
  same(sum.existing.cost, 2.0 * one->compare.billed.existing_set.bill.cost_year, "bill");
  for (size_t p = 0; p < sum.n_package; p++) {
    const pw_compare_set s = pw_compare_set_of(&one->compare, (int)p);
    same(a->compare.billed.package_set[p].bill.cost_year, s.billed->bill.cost_year,
         "each is the one");
    same(sum.package[p].heating_kwh, 2.0 * s.lived->year.heating_kwh, "heating");
    same(sum.package[p].cooling_kwh, 2.0 * s.lived->year.cooling_kwh, "cooling");
    same(sum.package[p].cost, 2.0 * s.billed->bill.cost_year, "bill");
    same(sum.package[p].saving, 2.0 * s.billed->saving.cost_year, "saving");
    same(sum.package[p].price, 2.0 * s.billed->price, "price");
    same(sum.package[p].payback, s.billed->worth.simple_payback, "payback of twice the same");
  }
  leave(one);
  leave(a);
  leave(b);
}

static void a_row_of_one_dwelling_goes_before_that_of_all(void **state)
{
  (void)state;
  static const char *const name[] = {"North", "South", NULL};
  write_job(name, "South,floor_area,900 ft2,its own\nsouth,year_built,1991,\n");
  house *a = live(dir, "North"), *b = live(dir, "South");
  pw_assert_near(a->open.job.house.floor_area.value, 1620.0 * 0.09290304, 1e-9, "North",
                 "the row of all, 1620 ft2");
  pw_assert_near(b->open.job.house.floor_area.value, 900.0 * 0.09290304, 1e-9, "South",
                 "its own row, 900 ft2");
  assert_int_equal(a->open.job.house.year_built, 1972);
  assert_int_equal(b->open.job.house.year_built, 1991);
  assert_true(a->compare.billed.existing_set.bill.cost_year !=
              b->compare.billed.existing_set.bill.cost_year);
  leave(a);
  leave(b);
}

static void json_sums_what_it_holds(void **state)
{
  (void)state;
  static const char *const name[] = {"North", "South", NULL};
  write_job(name, "South,floor_area,900 ft2,its own\n");
  house *h[] = {live(dir, "North"), live(dir, "South")};
  const pw_compare *const both[] = {&h[0]->compare, &h[1]->compare};
  const pw_compare_frame frame = {.method = "monthly"};
  json_t *each[] = {pw_compare_json(both[0], &frame), pw_compare_json(both[1], &frame)};
  json_t *j = pw_dwellings_json(both, each, 2);
  const json_t *list = json_object_get(j, "dwellings"),
               *sum = json_object_get(json_object_get(j, "together"), "packages");
  static const char *const key[] = {"cost", "saving", "price", "heating_kwh", "cooling_kwh"};
  assert_int_equal(json_array_size(list), 2);
  for (size_t p = 0; p < json_array_size(sum); p++)
    for (size_t k = 0; k < sizeof key / sizeof key[0]; k++) {
      double parts = 0.0;
      for (size_t d = 0; d < 2; d++) {
        const json_t *packages =
            json_object_get(json_object_get(json_array_get(list, d), "house"), "packages");
        parts += json_number_value(json_object_get(json_array_get(packages, p), key[k]));
      }
      same(json_number_value(json_object_get(json_array_get(sum, p), key[k])), parts, key[k]);
    }
  json_decref(j);
  leave(h[0]);
  leave(h[1]);
}

static void refused(const char *dwelling, const char *part)
{
  pw_job job;
  pw_err err = {0};
  assert_int_equal(pw_job_read_dwelling(dir, dwelling, &job, NULL, &err), PW_E_DATA);
  if (!strstr(err.text, part)) fail_msg("'%s' says nothing of '%s'", err.text, part);
}

static void what_cannot_be_told_apart_is_refused(void **state)
{
  (void)state;
  static const char *const two[] = {"North", "South", NULL},
                           *const blank[] = {"North", "", NULL}, *const one[] = {"North", NULL};
  write_job(two, "");
  refused(NULL, "2 dwellings: North, South; say --dwelling NAME");
  refused("West", "no dwelling is named 'West'; openings.csv names North, South");
  write_job(two, "West,floor_area,900 ft2,\n");
  refused("North", "job.csv:2:1: no opening is of the dwelling 'West'");
  write_job(two, "South,floor_area,900 ft2,\nSouth,floor_area,901 ft2,\n");
  refused("South", "stands twice");
  write_job(blank, "");
  refused("North", "names no dwelling, others do: want North");
  write_job(one, "");
  pw_job job;
  assert_int_equal(pw_job_read(dir, &job, NULL, NULL), PW_OK); /* the only one needs no name */
  assert_string_equal(job.dwelling, "North");
  pw_job_free(&job);
}

static int clear_up(void **state)
{
  static const char *const name[] = {"openings.csv", "packages.csv", "job.csv"};
  char path[80];
  (void)state;
  for (size_t i = 0; i < 3; i++) {
    snprintf(path, sizeof path, "%s/%s", dir, name[i]);
    unlink(path);
  }
  return rmdir(dir);
}

int main(void)
{
  pw_test_begin();
  if (!mkdtemp(dir)) return 1;
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(two_alike_sum_to_twice_the_one),
      cmocka_unit_test(a_row_of_one_dwelling_goes_before_that_of_all),
      cmocka_unit_test(json_sums_what_it_holds),
      cmocka_unit_test(what_cannot_be_told_apart_is_refused),
  };
  return cmocka_run_group_tests(tests, NULL, clear_up);
}
