/* The customer's sheet: the ranking, columns that subtract, words of a customer, the head, the other tongue. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "paper_read.h"
#include "sheet_fixture.h"

/* ---------------------------------------------------------------- which windows first, columns that subtract */

/* What the text between two marks of a row's head says: its tag. */
static void tag_of(const char *row, char tag[PW_TAG_MAX])
{
  const char *at = strstr(row, "<bdi>");
  assert_non_null(at);
  size_t n = strcspn(at + 5, "<");
  assert_true(n < PW_TAG_MAX);
  memcpy(tag, at + 5, n);
  tag[n] = '\0';
}

static double number_at(json_t *openings, size_t i, size_t p, const char *key)
{
  json_t *w = json_array_get(json_object_get(json_array_get(openings, i), "packages"), p);
  return json_number_value(json_object_get(w, key));
}

/* The order of the rows is a sort of the JSON's saving over price under the package named, made here by selection; prices of all
 * windows add up to that of the job, which has no price that is paid once. */
static void the_ranking_is_by_saving_per_dollar(void **state)
{
  fixture *f = *state;
  char *text = sheet_text(f, &f->frame, 0), name[64] = "", tag[PW_TAG_MAX];
  json_t *data = pw_compare_json(&f->compare, &f->frame);
  json_t *openings = json_object_get(data, "openings");
  const char *row = strstr(text, "Ranked by what a dollar spent on <bdi>");
  assert_non_null(row);
  sscanf(row + strlen("Ranked by what a dollar spent on <bdi>"), "%63[^<]", name);
  size_t by = 0, n = json_array_size(openings), taken = 0;
  while (strcmp(f->compare.rated.package_set[by].name, name) != 0)
    assert_true(++by < f->compare.n_package);
  char done[PW_WINDOWS_MAX] = {0};
  double price = 0.0, best_ratio[PW_COMPARE_PACKAGES_MAX];
  for (row = strstr(row, "<tbody>"); taken < n; taken++) {
    size_t best = n;
    for (size_t i = 0; i < n; i++)
      if (!done[i] &&
          (best == n || number_at(openings, i, by, "window_saving_cost_year") /
                                number_at(openings, i, by, "window_price") >
                            number_at(openings, best, by, "window_saving_cost_year") /
                                number_at(openings, best, by, "window_price")))
        best = i;
    row = strstr(row + 1, "<tr><th scope=\"row\">");
    assert_non_null(row);
    tag_of(row, tag);
    assert_string_equal(
        tag, json_string_value(json_object_get(json_array_get(openings, best), "tag")));
    done[best] = 1;
    price += number_at(openings, best, by, "window_price");
  }
  pw_assert_near(price, f->compare.billed.package_set[by].price, 0.01, "prices of the windows",
                 "sum");
  for (size_t p = 0; p < f->compare.n_package; p++) {
    double saving = 0.0, cost = 0.0;
    for (size_t i = 0; i < n; i++) {
      saving += number_at(openings, i, p, "window_saving_cost_year");
      cost += number_at(openings, i, p, "window_price");
    }
    pw_assert_near(saving, f->compare.billed.package_set[p].saving.cost_year, 0.01, name,
                   "parts of the house's saving");
    best_ratio[p] = saving / cost;
  }
  for (size_t p = 0; p < f->compare.n_package; p++)
    assert_true(best_ratio[p] <= best_ratio[by]);
  json_decref(data);
  free(text);
}

/* The next figures of a row as dollars. */
static void dollars(const char *row, double value[], size_t n)
{
  for (size_t i = 0; i < n; i++) {
    char text[32], digits[32];
    size_t k = 0;
    paper_next_figure(&row, text);
    for (const char *s = text; *s; s++)
      if (strchr("-0123456789", *s)) digits[k++] = *s;
    digits[k] = '\0';
    value[i] = strtod(digits, NULL);
  }
}

/* Cost now less what is saved is the cost then, in print, with a range and without; the saving is that of page 1, and the chart
 * draws the table's numbers (gnuplot is given them as they are rounded). */
static void the_money_subtracts_in_print(void **state)
{
  fixture *f = *state;
  pw_compare_frame bare = f->frame;
  bare.range = NULL;
  for (int k = 0; k < 2; k++) {
    char *text = sheet_text(f, k ? &bare : &f->frame, 0);
    const char *year = strstr(text, "id=\"year\"");
    size_t n = f->compare.n_package;
    double cost[1 + PW_COMPARE_PACKAGES_MAX], saved[PW_COMPARE_PACKAGES_MAX], first[3];
    dollars(strstr(year, "Heating and cooling<small>"), cost, 1 + n);
    dollars(strstr(year, "Saved a year<small>"), saved, n);
    for (size_t p = 0; p < n; p++)
      assert_true(cost[0] - saved[p] == cost[1 + p]);
    dollars(strstr(text, "Saved a year, against the windows there now"), first, 1);
    assert_true(first[0] == saved[0]);
    free(text);
  }
}

/* ---------------------------------------------------------------- words of a customer */

/* Visible text alone: no style, no markup, no names of files, addresses of pages, codes of coatings or words of columns. The
 * job's own words (names of packages and rooms) hold none here. */
static void no_word_of_a_program_is_seen(void **state)
{
  fixture *f = *state;
  static const char *const never[] = {".csv",  "http", "www.",        "ag2",     "ag3",
                                      "pyr20", "--",   "page stored", "job.csv", "_"};
  char *text = sheet_text(f, &f->frame, 0), *seen = malloc(strlen(text) + 1);
  size_t n = 0;
  assert_non_null(seen);
  for (const char *s = text; *s; s++) {
    if (strncmp(s, "<style", 6) == 0)
      s = strstr(s, "</style>") + 7;
    else if (strncmp(s, "<svg", 4) == 0)
      s = strstr(s, "</svg>") + 5;
    else if (*s == '<')
      s = strchr(s, '>');
    else
      seen[n++] = *s;
  }
  seen[n] = '\0';
  assert_true(n > 5000);
  for (size_t i = 0; i < sizeof never / sizeof never[0]; i++) {
    const char *at = strstr(seen, never[i]);
    if (at) fail_msg("a customer reads '%.60s'", at > seen + 20 ? at - 20 : at);
  }
  assert_non_null(strstr(seen, "two-silver coating on surface 2"));
  free(seen);
  free(text);
}

/* Head of every paper: the firm's phone and licence, the day, the state of the files, until when the prices hold (2026-11-29
 * and 30 days: December has 31, so the 29th). */
static void the_head_names_firm_day_and_validity(void **state)
{
  fixture *f = *state;
  pw_firm before = f->open.job.firm;
  pw_firm *firm = &f->open.job.firm;
  snprintf(firm->phone, sizeof firm->phone, "505 555 0100");
  snprintf(firm->licence, sizeof firm->licence, "GB-2 00000");
  f->open.job.house.offer.valid_days = 30.0;
  char *text = sheet_text(f, &f->frame, 0);
  static const char *const said[] = {"505 555 0100", "GB-2 00000", "2026-11-29", "0123abcd",
                                     "Prices hold through 2026-12-29."};
  for (size_t i = 0; i < sizeof said / sizeof said[0]; i++)
    assert_non_null(strstr(text, said[i]));
  *firm = before;
  f->open.job.house.offer.valid_days = 0.0;
  free(text);
  text = sheet_text(f, &f->frame, 0);
  assert_null(strstr(text, "Prices hold"));
  free(text);
}

/* The same figures in the same order in both tongues, each held against the JSON; the document says its tongue; no saving is "up
 * to" ("hasta") anything; what the pages say for a figure that never comes is a word of the tongue. */
static void spanish_has_the_same_figures(void **state)
{
  fixture *f = *state;
  const pw_tongue *es = NULL;
  assert_true(pw_tongue_find("es", &es));
  f->compare.billed.package_set[1].worth.simple_payback = INFINITY;
  pw_compare_frame frame = f->frame;
  for (int k = 0; k < 2; k++) {
    frame.range = k ? NULL : &f->range;
    json_t *data = pw_compare_json(&f->compare, &frame);
    char *english = sheet_text(f, &frame, 0), *spanish = sheet_said(f, &frame, 0, es);
    size_t n = paper_figures_match(spanish, data);
    const char *a = english, *b = spanish;
    char one[32], other[32];
    for (size_t i = 0; i < n; i++) {
      paper_next_figure(&a, one);
      paper_next_figure(&b, other);
      assert_string_equal(strcmp(one, "never") == 0 ? "nunca" : one, other);
    }
    assert_true(n > 300);
    paper_next_figure(&a, one);
    assert_string_equal(one, "");
    assert_non_null(strstr(spanish, "<html lang=\"es\">"));
    assert_null(strstr(spanish, "hasta $")); /* no saving is said "up to" */
    assert_null(strstr(spanish, "hasta un "));
    assert_int_equal(strstr(spanish, ">nunca<") != NULL, k);
    assert_non_null(strstr(spanish, "recubrimiento de dos capas de plata en la cara 2"));
    assert_int_not_equal(paper_is_tidy(spanish), 0);
    json_decref(data);
    free(english);
    free(spanish);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest test[] = {
      cmocka_unit_test(the_ranking_is_by_saving_per_dollar),
      cmocka_unit_test(the_money_subtracts_in_print),
      cmocka_unit_test(no_word_of_a_program_is_seen),
      cmocka_unit_test(the_head_names_firm_day_and_validity),
      cmocka_unit_test(spanish_has_the_same_figures),
  };
  return cmocka_run_group_tests(test, set_up, tear_down);
}
