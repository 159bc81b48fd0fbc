/* prices.csv: hand sums of every kind of row, each with its spread; order and units change nothing; text and
 * JSON tell the same parts. Source of the sums: arithmetic beside each. */
#include "job_folder.h"

#include <math.h>

#include "out/price_out.h"
#include "study/compare_price.h"
#include "study/rebate.h"

static const char head[] = "package,kind,size_from,size_to,per_opening,per_area,per_job,item\n";
static const double foot2 = 0.3048 * 0.3048;

static void prices(const char *rows)
{
  char text[2048];
  snprintf(text, sizeof text, "%s%s", head, rows);
  folder_write(dir, "prices.csv", text);
}

/* 10, 12, 24 and 8 ft2. */
static const double area_ft2[] = {10.0, 12.0, 24.0, 8.0};

static pw_price price_of(const pw_job *job, size_t package)
{
  double area[FOLDER_OPENINGS];
  pw_price p;
  pw_err err = {0};
  for (size_t i = 0; i < job->n_opening; i++)
    area[i] = area_ft2[job->opening[i].tag[1] - '1'] * foot2;
  if (pw_price_of(job, package, area, NULL, &p, &err) != PW_OK) fail_msg("%s", err.text);
  return p;
}

static double part(const pw_price *p, const char *item, double *spread)
{
  for (size_t k = 0; k < p->n_part; k++)
    if (strcmp(p->part[k].item, item) == 0) {
      if (spread) *spread = p->part[k].spread;
      return p->part[k].value;
    }
  return (double)NAN;
}

/* Five windows, 66 ft2 (the slider A2 twice): 5 x 300 + 66 x 20 = 2820, spread 5 x 20 = 100. */
static void without_the_file_packages_csv_prices(void **state)
{
  (void)state;
  pw_job job = folder_read(dir, NULL);
  pw_price p = price_of(&job, 0);
  pw_assert_near(p.value, 2820.0, 1e-9, "price", "hand sum");
  pw_assert_near(p.spread, 100.0, 1e-9, "spread", "hand sum");
  assert_int_equal(p.by_table, 0);
  assert_int_equal(p.n_part, 0);
  pw_job_free(&job);
}

/* The same two prices as one row: the same sum. */
static void a_row_that_repeats_the_package_changes_nothing(void **state)
{
  (void)state;
  prices("good,,,,$300 +- 20,$20,,\n");
  pw_job job = folder_read(dir, NULL);
  pw_price p = price_of(&job, 0), best = price_of(&job, 1);
  pw_assert_near(p.value, 2820.0, 1e-9, "price", "hand sum");
  pw_assert_near(p.spread, 100.0, 1e-9, "spread", "hand sum");
  /* best has no row: its own columns, 5 x 400 + 66 x 30 */
  pw_assert_near(best.value, 3980.0, 1e-9, "best", "hand sum");
  pw_job_free(&job);
}

/* 36 x 48 is 84 united inches; 70 5/16 x 47 1/2 is 71 + 48 = 119; 914 mm x 1219 mm is 36 x 48, too. */
static void united_inches_round_each_side_up(void **state)
{
  (void)state;
  pw_opening o = {.width = {36.0 * 0.0254, 36.25 * 0.0254, 0}, .height = {0, 48.0 * 0.0254, 0}};
  pw_assert_near(pw_united_size(&o) / 0.0254, 84.0, 1e-9, "84", "hand sum");
  o.width[0] = 70.3125 * 0.0254;
  o.width[1] = 71.0 * 0.0254;
  o.height[1] = 47.5 * 0.0254;
  pw_assert_near(pw_united_size(&o) / 0.0254, 119.0, 1e-9, "119", "hand sum");
  o.width[0] = o.width[1] = 0.9144;
  o.height[1] = 1.2192;
  pw_assert_near(pw_united_size(&o) / 0.0254, 84.0, 1e-9, "mm", "hand sum");
  o = (pw_opening){.shape = PW_SHAPE_CIRCLE, .width = {0.0, 30.5 * 0.0254, 0.0}};
  pw_assert_near(pw_united_size(&o) / 0.0254, 62.0, 1e-9, "circle of 30 1/2", "hand sum");
}

static const char full[] = ",,,,$310 +- 10,,,\n"
                           ",slider,0,100,$330 +- 5,,,\n"
                           ",slider,101,140,$250,$5 +- 1,,\n"
                           ",casement,,,$360 .. $400,,,\n"
                           ",,,,,,$250 .. $350,permit\n"
                           ",,,,$15,,,disposal\n"
                           ",,,,$22 +- 2,,,screen\n"
                           ",,,,,,10 % +- 1 %,discount\n"
                           ",,,,,,8 %,tax\n";

/* A1 310 +- 10; A2 2 x (330 +- 5); A3 250 + 24 x (5 +- 1) = 370 +- 24; A4 380 +- 20: windows 1720 +- 64.
 * Screens on A2: 44 +- 4. Base 1764 +- 68; discount 176.40; taxed 1587.60; tax 127.008.
 * Permit 300 +- 50, disposal 75. Sum 1587.60 + 127.008 + 375 = 2089.608.
 * Spread: less discount 0.9 x 68 + 0.01 x 1764 = 78.84; with tax x 1.08 = 85.1472; with permit 135.1472. */
static void every_part_by_hand(void **state)
{
  double spread = 0.0;
  (void)state;
  prices(full);
  folder_openings(dir, ",screen", (const char *const[]){",no", ",yes", ",no", ",no"}, NULL);
  pw_job job = folder_read(dir, NULL);
  pw_price p = price_of(&job, 0);
  pw_assert_near(part(&p, "windows", &spread), 1720.0, 1e-9, "windows", "hand sum");
  pw_assert_near(spread, 64.0, 1e-9, "windows", "hand sum");
  pw_assert_near(part(&p, "screen", &spread), 44.0, 1e-9, "screen", "hand sum");
  pw_assert_near(spread, 4.0, 1e-9, "screen", "hand sum");
  pw_assert_near(part(&p, "permit", &spread), 300.0, 1e-9, "permit", "hand sum");
  pw_assert_near(spread, 50.0, 1e-9, "permit", "hand sum");
  pw_assert_near(part(&p, "disposal", NULL), 75.0, 1e-9, "disposal", "hand sum");
  pw_assert_near(part(&p, "discount", NULL), -176.40, 1e-9, "discount", "hand sum");
  pw_assert_near(part(&p, "tax", NULL), 127.008, 1e-9, "tax", "hand sum");
  pw_assert_near(p.value, 2089.608, 1e-9, "price", "hand sum");
  pw_assert_near(p.spread, 135.1472, 1e-9, "spread", "hand sum");
  double sum = 0.0;
  for (size_t k = 0; k < p.n_part; k++)
    sum += p.part[k].value;
  pw_assert_near(sum, p.value, 1e-9, "parts add up", "closed form");
  pw_job_free(&job);
}

static void order_and_units_change_nothing(void **state)
{
  /* the same rows from the last to the first, a band in mm, an area price in m2 */
  static const char turned[] = ",,,,,,8 %,tax\n"
                               ",,,,,,10 % +- 1 %,discount\n"
                               ",,,,$22 +- 2,,,Screen\n"
                               ",,,,$15,,,disposal\n"
                               ",,,,,,$300 +- 50,permit\n"
                               ",cs,,,$380 +- 20,,,\n"
                               ",hs,2565.4 mm,3556 mm,$250,53.81955 $/m2 +- 10.76391 $/m2,,\n"
                               ",slider,,100 in,$330 +- 5,,,\n"
                               ",,,,$310 +- 10,,,\n";
  static const size_t order[] = {3, 1, 0, 2};
  (void)state;
  folder_openings(dir, ",screen", (const char *const[]){",no", ",yes", ",no", ",no"}, order);
  prices(turned);
  pw_job job = folder_read(dir, NULL);
  pw_price p = price_of(&job, 0);
  pw_assert_near(p.value, 2089.608, 1e-4, "price", "the same rows");
  pw_assert_near(p.spread, 135.1472, 1e-4, "spread", "the same rows");
  pw_job_free(&job);
}

/* A2's own price 500 each, its options 60 +- 6 each: in place of 330 and 22. */
static void an_openings_own_price_goes_before(void **state)
{
  (void)state;
  prices(full);
  folder_openings(dir, ",screen,price,price_options",
                  (const char *const[]){",no,,", ",yes,$500,$60 +- 6", ",no,,", ",no,,"}, NULL);
  pw_job job = folder_read(dir, NULL);
  pw_price p = price_of(&job, 0);
  pw_assert_near(part(&p, "windows", NULL), 1720.0 - 660.0 + 1000.0, 1e-9, "windows",
                 "hand sum");
  pw_assert_near(part(&p, "options", NULL), 120.0, 1e-9, "options", "hand sum");
  assert_true(isnan(part(&p, "screen", NULL)));
  pw_job_free(&job);
  char path[128];
  snprintf(path, sizeof path, "%s/prices.csv", dir);
  unlink(path);
  job = folder_read(dir, NULL); /* without prices.csv, too: 3 others by packages.csv */
  p = price_of(&job, 0);
  pw_assert_near(p.value, 1000.0 + 120.0 + 3 * 300.0 + 42.0 * 20.0, 1e-9, "price", "hand sum");
  pw_job_free(&job);
  folder_openings(dir, "", NULL, NULL);
}

/* Bars between on A1 and outside on A2 (two): 40 and 2 x 55, for outside has a row of its own; white outside
 * on A4: 30 by the general word; A3 has its own package best: 400 + 24 x 30 = 1120 in the column good. */
static void options_by_their_own_or_general_name(void **state)
{
  (void)state;
  prices("good,,,,$300,,,\n,,,,$40,,,grilles\n,,,,$55,,,outside\n,,,,$30,,,colour\n");
  folder_openings(
      dir, ",grilles,grille_pattern,colour,package",
      (const char *const[]){",between,2 x 2,,", ",outside,2 x 2,,", ",,,,best", ",,,white,"},
      NULL);
  pw_job job = folder_read(dir, NULL);
  pw_price p = price_of(&job, 0);
  pw_assert_near(part(&p, "grilles", NULL), 40.0, 1e-9, "between", "hand sum");
  pw_assert_near(part(&p, "outside", NULL), 110.0, 1e-9, "outside", "hand sum");
  pw_assert_near(part(&p, "colour", NULL), 30.0, 1e-9, "colour", "hand sum");
  pw_assert_near(part(&p, "windows", NULL), 4 * 300.0 + 1120.0, 1e-9, "windows", "hand sum");
  pw_job_free(&job);
  folder_openings(dir, "", NULL, NULL);
}

/* A row for an option that some opening has is used, in silence; one for an option of none is said by its line, once; a part of
 * the whole job and a plain window are no options. */
static void an_option_of_no_opening_is_said(void **state)
{
  (void)state;
  prices("good,,,,$300,,,\n,,,,$40,,,grilles\n,,,,$22,,,screen\n,,,,,,$300,permit\n");
  folder_openings(dir, ",screen", (const char *const[]){",no", ",yes", ",no", ",no"}, NULL);
  pw_notes notes = {0};
  int said = 0;
  pw_job job = folder_read(dir, &notes);
  for (size_t i = 0; i < notes.n; i++) {
    if (!strstr(notes.note[i].value, "counts nowhere")) continue;
    assert_int_equal(notes.note[i].line, 3);
    assert_non_null(strstr(notes.note[i].value, "'grilles'"));
    said++;
  }
  assert_int_equal(said, 1);
  pw_notes_free(&notes);
  pw_job_free(&job);
  folder_openings(dir, "", NULL, NULL);
}

/* However a colour's words are parted and whatever alphabet they are of: 35 for A1, 45 twice for A2. */
static void colours_by_their_full_name(void **state)
{
  (void)state;
  prices("good,,,,$300,,,\n,,,,$35,,,Colour Marr\xC3\xB3"
         "n-oscuro\n,,,,$45,,,colour_dark_green\n");
  folder_openings(dir, ",colour",
                  (const char *const[]){",marr\xC3\xB3"
                                        "n oscuro",
                                        ",dark  green", ",", ","},
                  NULL);
  pw_job job = folder_read(dir, NULL);
  pw_price p = price_of(&job, 0);
  pw_assert_near(part(&p,
                      "colour_marr\xC3\xB3"
                      "n_oscuro",
                      NULL),
                 35.0, 1e-9, "A1", "hand sum");
  pw_assert_near(part(&p, "colour_dark_green", NULL), 90.0, 1e-9, "A2", "hand sum");
  pw_job_free(&job);
  folder_openings(dir, "", NULL, NULL);
}

/* A kept window and one of a later phase are in no price: A1 stays, A4 comes later. */
static void what_stays_costs_nothing(void **state)
{
  (void)state;
  prices(",,,,$100,,,\n,,,,,,$50,permit\n");
  folder_openings(dir, ",action,phase", (const char *const[]){",keep,", ",,", ",,", ",,2"},
                  NULL);
  pw_open_job open;
  pw_compare c;
  pw_err err = {0};
  if (pw_job_open(dir, &open, &err) != PW_OK) fail_msg("%s", err.text);
  pw_compare_options o = pw_job_options(&open, PW_YEAR_QUICK);
  if (pw_compare_run(&open.job, open.weather, &o, NULL, &c, &err) != PW_OK)
    fail_msg("%s", err.text);
  static const pw_price_scope first = {.phase = 1};
  pw_price p;
  assert_int_equal(pw_compare_price(c.job, &c.rated, 0, &first, &p, NULL), PW_OK);
  pw_assert_near(p.value, 3 * 100.0 + 50.0, 1e-9, "phase 1", "A2 twice and A3, a permit");
  pw_assert_near(c.billed.package_set[0].price, 4 * 100.0 + 50.0, 1e-9, "both phases",
                 "and A4");
  pw_compare_free(&c);
  pw_job_close(&open);
  folder_openings(dir, "", NULL, NULL);
}

static void shared_files_serve_when_the_folder_has_none(void **state)
{
  char other[64], job_csv[512], own[128];
  (void)state;
  snprintf(own, sizeof own, "%s/prices.csv", dir);
  unlink(own);
  folder_make(other);
  char text[512];
  snprintf(text, sizeof text, "%s,,,,$100,,,\nplus,,,,$9,,,\n", head);
  folder_write(other, "list.csv", text);
  folder_write(other, "firm.csv",
               "item,value\nfirm,Example Glass\nphone,555-0100\nlicence,C-1\n"
               "maker,Example Sash\n");
  snprintf(job_csv, sizeof job_csv, "%sprices_file,%s/list.csv\nfirm_file,%s/firm.csv\n",
           folder_job, other, other);
  folder_write(dir, "job.csv", job_csv);
  pw_job job = folder_read(dir, NULL);
  pw_price p = price_of(&job, 0);
  pw_assert_near(p.value, 500.0, 1e-9, "shared list", "5 x 100");
  assert_int_equal(job.n_price, 1); /* the other job's package is no slip and no row */
  assert_string_equal(job.house.contractor, "Example Glass");
  assert_string_equal(job.house.maker, "Example Sash");
  assert_string_equal(job.firm.phone, "555-0100");
  pw_job_free(&job);
  prices(",,,,$110,,,\n");
  folder_write(dir, "firm.csv", "item,value\nfirm,Nearer Glass\n");
  job = folder_read(dir, NULL);
  p = price_of(&job, 0);
  pw_assert_near(p.value, 550.0, 1e-9, "the folder's goes before", "5 x 110");
  assert_string_equal(job.house.contractor, "Nearer Glass");
  pw_job_free(&job);
  snprintf(job_csv, sizeof job_csv, "%sprices_file,nowhere.csv\n", folder_job);
  folder_write(dir, "job.csv", job_csv);
  char path[128];
  snprintf(path, sizeof path, "%s/prices.csv", dir);
  unlink(path);
  folder_refused(dir, (const char *const[]){"prices_file", "nowhere.csv"}, 2);
  folder_write(dir, "firm.csv", "item,value\nlicense,C-1\n");
  folder_write(dir, "job.csv", folder_job);
  folder_refused(dir, (const char *const[]){"firm.csv:2", "licence"}, 2);
  snprintf(path, sizeof path, "%s/firm.csv", dir);
  unlink(path);
  folder_remove(other);
}

/* Price, range and payback of the whole chain take the parts; text and JSON tell them alike. */
static void the_comparison_takes_the_parts(void **state)
{
  (void)state;
  prices(full);
  pw_open_job open;
  pw_compare c;
  pw_err err = {0};
  if (pw_job_open(dir, &open, &err) != PW_OK) fail_msg("%s", err.text);
  pw_compare_options o = pw_job_options(&open, PW_YEAR_QUICK);
  if (pw_compare_run(&open.job, open.weather, &o, NULL, &c, &err) != PW_OK)
    fail_msg("%s", err.text);
  /* the openings' true areas: only A3 is priced by area */
  double a3 = c.rated.existing[2].rating.area / foot2;
  double base = 310.0 + 660.0 + 250.0 + 5.0 * a3 + 380.0;
  double want = base * 0.9 * 1.08 + 300.0 + 75.0;
  pw_assert_near(c.billed.package_set[0].price, want, 1e-6, "price", "hand sum");
  pw_assert_near(c.billed.package_set[0].worth.simple_payback,
                 want / c.billed.package_set[0].saving.cost_year, 1e-6, "payback",
                 "price over saving");
  char *text = NULL;
  size_t size = 0;
  FILE *f = open_memstream(&text, &size);
  assert_int_equal(pw_price_parts_text(&c, f, NULL), PW_OK);
  fclose(f);
  json_t *list = pw_price_parts_json(&c.billed.package_set[0].parts), *one;
  size_t k;
  double sum = 0.0;
  assert_true(json_array_size(list) == 5);
  json_array_foreach(list, k, one)
  {
    double v = json_number_value(json_object_get(one, "value"));
    char value[40];
    snprintf(value, sizeof value, "%s$%.2f", v < 0.0 ? "-" : "", fabs(v));
    const char *line = strstr(text, json_string_value(json_object_get(one, "item")));
    assert_non_null(line);
    if (!strstr(line, value)) fail_msg("%s is not in the text", value);
    sum += v;
  }
  pw_assert_near(sum, want, 1e-6, "parts of the JSON", "hand sum");
  json_t *a3_price = pw_price_opening_json(&c, 0, 2);
  pw_assert_near(json_number_value(json_object_get(a3_price, "value")), 250.0 + 5.0 * a3, 1e-6,
                 "A3 alone", "hand sum");
  assert_int_equal(json_integer_value(json_object_get(a3_price, "line")), 4);
  json_decref(a3_price);
  json_decref(list);
  free(text);
  pw_compare_free(&c);
  pw_job_close(&open);
}

static void slips_are_refused_with_their_place(void **state)
{
  static const struct {
    const char *rows, *says[3];
  } row[] = {
      {"good,,,,$300,,,\n,slider,,,$320,,,\n", {"prices.csv:3", "lines 2 and 3", "A2"}},
      {",,0,90,$300,,,\n,,80,120,$310,,,\n", {"prices.csv:3", "lines 2 and 3", "A1"}},
      {",,,,$300,,,\n,,,,$320,,,\n", {"prices.csv:3", "lines 2 and 3", NULL}},
      {"goood,,,,$300,,,\n", {"prices.csv:2:1", "good", NULL}},
      {",slyder,,,$300,,,\n", {"prices.csv:2:2", "slider", NULL}},
      {",,120,60,$300,,,\n", {"prices.csv:2:4", "size_from", NULL}},
      {",,,,,,,\n,,,,,,,permit\n", {"prices.csv", "per_opening", NULL}},
      {",,,,,,$300,\n", {"prices.csv:2:7", "item", NULL}},
      {",,,,,,8 %,permit\n", {"prices.csv:2:7", "tax and discount", NULL}},
      {",,,,$20,,,tax\n", {"prices.csv:2:5", "per_job", NULL}},
      {",slider,,,,,$90,permit\n", {"prices.csv:2:2", "whole job", NULL}},
      {",,,,three,,,\n", {"prices.csv:2:5", "three", NULL}},
      {",,,,,,150 %,discount\n", {"prices.csv:2:7", "per_job", NULL}},
  };
  (void)state;
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    prices(row[i].rows);
    folder_refused(dir, row[i].says, 3);
  }
}

/* What costs nothing is no part of a price: neither a screen at $0 nor a permit that no row prices. */
static void what_costs_nothing_is_no_part(void **state)
{
  (void)state;
  prices(",,,,$310,,,\n,,,,$0,,,disposal\n,,,,$22,,,screen\n");
  folder_openings(dir, ",screen", (const char *const[]){",no", ",yes", ",no", ",no"}, NULL);
  pw_job job = folder_read(dir, NULL);
  pw_price p = price_of(&job, 0);
  assert_true(isnan(part(&p, "disposal", NULL)) && isnan(part(&p, "permit", NULL)));
  pw_assert_near(p.value, 5.0 * 310.0 + 2.0 * 22.0, 1e-9, "price", "hand sum");
  assert_int_equal(p.n_part, 2);
  pw_job_free(&job);
  /* where no window is replaced there is no permit either */
  prices(",,,,$310,,,\n,,,,,,$250,permit\n");
  job = folder_read(dir, NULL);
  static const int none[FOLDER_OPENINGS] = {0}, one[FOLDER_OPENINGS] = {1};
  static const double area[FOLDER_OPENINGS] = {1.0, 1.0, 1.0, 1.0};
  assert_int_equal(pw_price_of(&job, 0, area, none, &p, NULL), PW_OK);
  pw_assert_near(p.value, 0.0, 0.0, "no work", "hand sum");
  assert_int_equal(p.n_part, 0);
  assert_int_equal(pw_price_of(&job, 0, area, one, &p, NULL), PW_OK);
  pw_assert_near(p.value, 560.0, 1e-9, "one window", "hand sum");
  pw_job_free(&job);
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(without_the_file_packages_csv_prices),
      cmocka_unit_test(a_row_that_repeats_the_package_changes_nothing),
      cmocka_unit_test(united_inches_round_each_side_up),
      cmocka_unit_test(every_part_by_hand),
      cmocka_unit_test(what_costs_nothing_is_no_part),
      cmocka_unit_test(order_and_units_change_nothing),
      cmocka_unit_test(an_openings_own_price_goes_before),
      cmocka_unit_test(options_by_their_own_or_general_name),
      cmocka_unit_test(colours_by_their_full_name),
      cmocka_unit_test(an_option_of_no_opening_is_said),
      cmocka_unit_test(what_stays_costs_nothing),
      cmocka_unit_test(shared_files_serve_when_the_folder_has_none),
      cmocka_unit_test(the_comparison_takes_the_parts),
      cmocka_unit_test(slips_are_refused_with_their_place),
  };
  pw_test_begin();
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
