/* The customer's sheet: figures read back, claims, alarms, hostile names. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "paper_read.h"
#include "sheet_fixture.h"

/* Other writer: the JSON of the same comparison, converted and rounded by the test. */
static void every_figure_is_the_computed_one(void **state)
{
  fixture *f = *state;
  static const char *const table[] = {"sets", "bands", "byopening"};
  json_t *data = pw_compare_json(&f->compare, &f->frame);
  char *text = sheet_text(f, &f->frame, 0);
  size_t n = paper_figures_match(text, data);
  print_message("%zu figures read back, %zu bytes\n", n, strlen(text));
  /* by opening alone: 11 openings, 4 sets, 7 figures */
  assert_true(n > 11 * 4 * 7 + 60);
  for (size_t i = 0; i < sizeof table / sizeof table[0]; i++)
    paper_cells_are_keyed(text, table[i]);
  free(text);
  json_decref(data);
}

static void the_document_stands_alone(void **state)
{
  fixture *f = *state;
  char *text = sheet_text(f, &f->frame, 0);
  assert_true(strlen(text) < 600 * 1000);
  static const char *const loads[] = {"<script", "<link", "<img", "<iframe",
                                      "@import", "url(h", "src=", "http-equiv=\"refresh"};
  for (size_t i = 0; i < sizeof loads / sizeof loads[0]; i++)
    if (strstr(text, loads[i])) fail_msg("the sheet holds %s", loads[i]);
  paper_ids_are_sound(text);
  assert_int_not_equal(paper_is_tidy(text), 0);
  free(text);
}

/* A failed escape opening: before the question on page 1 and nowhere else; both clear openings, the exception, and who
 * decides. */
static void a_failed_escape_opening_comes_first(void **state)
{
  fixture *f = *state;
  char *text = sheet_text(f, &f->frame, 0);
  const char *alarm = strstr(text, "class=\"alarm\"");
  assert_non_null(alarm);
  assert_true(alarm < strstr(text, "1. The question"));
  assert_true(strstr(alarm, "Bedroom 2") < strstr(text, "1. The question"));
  assert_null(strstr(alarm + 1, "class=\"alarm\""));
  const char *end = strstr(alarm, "</div>");
  static const char *const said[] = {"clear opening new about", "old about",
                                     "replacement exception", "building official decides"};
  for (size_t i = 0; i < sizeof said / sizeof said[0]; i++) {
    const char *at = strstr(alarm, said[i]);
    assert_non_null(at);
    assert_true(at < end);
  }
  free(text);
}

/* ---------------------------------------------------------------- claims */

static int says(const char *text, const char *words)
{
  size_t n = strlen(words);
  for (; *text; text++)
    if (strncasecmp(text, words, n) == 0) return 1;
  return 0;
}

/* reference/trade/JOB.md, "Honest savings claims". */
static void the_claims_are_honest(void **state)
{
  fixture *f = *state;
  char *text = sheet_text(f, &f->frame, 0);
  assert_false(says(text, "up to"));
  assert_false(says(text, "guarantee"));
  assert_false(says(text, "R-value"));
  assert_true(says(text, "against the windows there now"));
  assert_true(says(text, "against new windows that just meet the code"));
  assert_true(says(text, "heating and cooling"));
  assert_true(says(text, "payback is longer than the new windows are expected to live"));
  assert_true(says(text, "ended for windows placed in service after 2025-12-31"));
  assert_false(says(text, "range not computed"));
  free(text);
}

static void without_a_range_no_saving_stands_bare(void **state)
{
  fixture *f = *state;
  pw_compare_frame bare = f->frame;
  bare.range = NULL;
  char *text = sheet_text(f, &bare, 0);
  const char *row = strstr(text, "Saved a year, against the windows there now");
  const char *end = strstr(row, "</tr>");
  size_t n = 0;
  for (; (row = strstr(row, "range not computed")) != NULL && row < end; row++)
    n++;
  assert_int_equal(n, f->compare.n_package);
  assert_true(says(text, "take every saving as a middle value only"));
  free(text);
}

static void a_range_with_zero_in_it_says_so(void **state)
{
  fixture *f = *state;
  pw_range wide = f->range;
  pw_compare_frame frame = f->frame;
  wide.package[0].saving_cost = (pw_band){.p10 = -30.0, .p50 = 20.0, .p90 = 70.0};
  wide.package[0].includes_zero = 1;
  frame.range = &wide;
  char *text = sheet_text(f, &frame, 0);
  assert_true(says(text, "the range holds zero: a saving is not sure"));
  assert_true(says(text, "against the windows there now holds zero"));
  assert_non_null(strstr(text, ">-$30<"));
  json_t *data = pw_compare_json(&f->compare, &frame);
  paper_figures_match(text, data);
  json_decref(data);
  free(text);
}

/* Without a bill the printed range is a quarter wide either side at least (JOB.md). */
static void without_a_bill_the_range_is_a_quarter_wide(void **state)
{
  fixture *f = *state;
  pw_range narrow = f->range;
  pw_compare_frame frame = f->frame;
  double bill = f->open.job.house.bill_year.value;
  narrow.package[0].saving_cost = (pw_band){.p10 = 195.0, .p50 = 200.0, .p90 = 205.0};
  frame.range = &narrow;
  static const char *const low_high[3][2] = {
      {"$150", "$250"}, {"$150", "$250"}, {"$195", "$205"}};
  for (int how = 0; how < 3; how++) { /* none; one that weighs no draw; one that does */
    f->open.job.house.bill_year.value = how ? bill : 0.0;
    narrow.bill_year.given = how > 0;
    narrow.bill_year.used = how == 2;
    char *text = sheet_text(f, &frame, 0);
    const char *at = strstr(text, "Saved a year, against the windows there now");
    char likely[32], low[32], high[32];
    paper_next_figure(&at, likely);
    paper_next_figure(&at, low);
    paper_next_figure(&at, high);
    assert_string_equal(likely, "$200");
    assert_string_equal(low, low_high[how][0]);
    assert_string_equal(high, low_high[how][1]);
    assert_int_equal(!strstr(text, "so ranges are a quarter wide at least"), how == 2);
    free(text);
  }
  f->open.job.house.bill_year.value = bill;
}

/* With a program the rebate stands beside the price; $410 is invented. */
static void a_rebate_is_shown_as_data(void **state)
{
  fixture *f = *state;
  pw_rebate *rebate = calloc(PW_COMPARE_PACKAGES_MAX, sizeof *rebate);
  pw_compare_frame frame = f->frame;
  assert_non_null(rebate);
  rebate[1].amount.total = 410.0;
  rebate[0].result.verdict = PW_VERDICT_FAILS;
  rebate[0].result.says = PW_SAYS(PW_SAY_PROGRAM_FAILS_GROUP, PW_OWN);
  pw_message_own(&rebate[0].result.says, "does <not> meet");
  frame.rebate = rebate;
  char *text = sheet_text(f, &frame, 0);
  json_t *data = pw_compare_json(&f->compare, &frame);
  paper_figures_match(text, data);
  const char *row = strstr(text, "Rebate, by the label values");
  assert_non_null(row);
  assert_true(strstr(row, ">$410<") < strstr(row, "</tr>"));
  assert_non_null(strstr(row, "does &lt;not&gt; meet"));
  assert_false(says(text, "no rebate counted"));
  json_decref(data);
  free(text);
  free(rebate);
}

/* A package without a price has no payback, not one of 0 years. */
static void without_a_price_there_is_no_payback(void **state)
{
  fixture *f = *state;
  pw_billed_set *set = &f->compare.billed.package_set[1];
  const pw_billed_set before = *set;
  set->price = 0.0;
  set->worth = (pw_worth){0};
  set->invest = (pw_invest){0};
  char *text = sheet_text(f, &f->frame, 0);
  json_t *data = pw_compare_json(&f->compare, &f->frame);
  paper_figures_match(text, data);
  assert_non_null(strstr(text, "<td>no price</td>"));
  json_decref(data);
  free(text);
  *set = before;
}

static void the_credit_follows_the_date(void **state)
{
  fixture *f = *state;
  static const struct {
    const char *date;
    int ended;
  } row[] = {{"2025-12-31", 0}, {"2026-01-01", 1}, {"", 1}};
  char before[12];
  memcpy(before, f->open.job.house.install_date, sizeof before);
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    snprintf(f->open.job.house.install_date, sizeof before, "%s", row[i].date);
    char *text = sheet_text(f, &f->frame, 0);
    assert_int_equal(says(text, "No federal window credit is counted"), row[i].ended);
    free(text);
  }
  memcpy(f->open.job.house.install_date, before, sizeof before);
}

/* ---------------------------------------------------------------- labels, names */

static void only_a_certificate_certifies(void **state)
{
  fixture *f = *state;
  pw_package *k = &f->open.job.package[1], before = *k;
  char *text = sheet_text(f, &f->frame, 0);
  assert_true(says(text, "Nothing on this sheet is certified"));
  free(text);
  snprintf(k->certificate, sizeof k->certificate, "ABC-K-1-00007-00001");
  k->label_u.value = 0.30 * 5.678263341113488;
  text = sheet_text(f, &f->frame, 0);
  const char *table = strstr(text, "What is certified");
  assert_non_null(strstr(table, "ABC-K-1-00007-00001"));
  assert_non_null(strstr(table, "<td>0.30</td>"));
  assert_true(says(table, "Only the figures in this table are certified"));
  *k = before;
  free(text);
}

static void fill(char text[], size_t room, const char *with)
{
  snprintf(text, room, "%s", with);
  if (strcmp(with, "300") == 0) {
    memset(text, 'W', room - 1);
    text[room - 1] = '\0';
  }
}

/* Every free-text field of a job at once, with what has broken documents before. */
static void hostile_names_stay_text(void **state)
{
  fixture *f = *state;
  static const char *const name[] = {"<script>alert(1)</script>",
                                     "=cmd|' /C calc'!A0",
                                     "\"quo'ted\" & <b>bold</b>",
                                     "300",
                                     "\xE2\x80\xAE\xD7\xA9\xD7\x9C\xD7\x95\xD7\x9D <i>",
                                     "</style></title></span>\xC3"};
  pw_job *job = &f->open.job;
  pw_house_facts house = job->house;
  pw_opening opening = job->opening[8];
  pw_package package = job->package[2];
  char set_name[48];
  memcpy(set_name, f->compare.rated.package_set[2].name, sizeof set_name);
  char *plain = sheet_text(f, &f->frame, 0);
  for (size_t i = 0; i < sizeof name / sizeof name[0]; i++) {
    pw_house_facts *h = &job->house;
    fill(h->job, sizeof h->job, name[i]);
    fill(h->customer, sizeof h->customer, name[i]);
    fill(h->place_label, sizeof h->place_label, name[i]);
    fill(h->contractor, sizeof h->contractor, name[i]);
    fill(h->note, sizeof h->note, name[i]);
    fill(job->opening[8].tag, sizeof opening.tag, name[i]);
    fill(job->opening[8].room, sizeof opening.room, name[i]);
    fill(job->opening[8].note, sizeof opening.note, name[i]);
    fill(job->package[2].name, sizeof package.name, name[i]);
    fill(job->package[2].note, sizeof package.note, name[i]);
    fill(job->package[2].certificate, sizeof package.certificate, name[i]);
    fill(f->compare.rated.package_set[2].name, sizeof set_name, name[i]);
    char *text = sheet_text(f, &f->frame, 0);
    assert_null(strstr(text, "<script"));
    assert_null(strstr(text, "<b>bold"));
    assert_null(strstr(text, "\xE2\x80\xAE"));
    assert_int_not_equal(paper_is_tidy(text), 0);
    /* as many elements as with plain names: nothing was opened or closed by a name */
    size_t n[2] = {0, 0};
    for (const char *s = plain; (s = strchr(s, '<')) != NULL; s++)
      n[0]++;
    for (const char *s = text; (s = strchr(s, '<')) != NULL; s++)
      n[1]++;
    assert_true(n[1] >= n[0] && n[1] <= n[0] + 12); /* pictures split long labels */
    free(text);
  }
  free(plain);
  job->house = house;
  job->opening[8] = opening;
  job->package[2] = package;
  memcpy(f->compare.rated.package_set[2].name, set_name, sizeof set_name);
}

static void si_units_are_said(void **state)
{
  fixture *f = *state;
  char *text = sheet_text(f, &f->frame, 1), u[32];
  assert_true(says(text, "W/m2K"));
  assert_false(says(text, "Btu/h"));
  snprintf(u, sizeof u, ">%.2f<", f->compare.rated.existing_set.u);
  assert_non_null(strstr(text, u));
  free(text);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest test[] = {
      cmocka_unit_test(every_figure_is_the_computed_one),
      cmocka_unit_test(the_document_stands_alone),
      cmocka_unit_test(a_failed_escape_opening_comes_first),
      cmocka_unit_test(the_claims_are_honest),
      cmocka_unit_test(without_a_range_no_saving_stands_bare),
      cmocka_unit_test(a_range_with_zero_in_it_says_so),
      cmocka_unit_test(without_a_bill_the_range_is_a_quarter_wide),
      cmocka_unit_test(a_rebate_is_shown_as_data),
      cmocka_unit_test(without_a_price_there_is_no_payback),
      cmocka_unit_test(the_credit_follows_the_date),
      cmocka_unit_test(only_a_certificate_certifies),
      cmocka_unit_test(hostile_names_stay_text),
      cmocka_unit_test(si_units_are_said),
  };
  return cmocka_run_group_tests(test, set_up, tear_down);
}
