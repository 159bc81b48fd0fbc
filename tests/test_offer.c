/* The offer and the hand-over: their figures are the comparison's, what may not be offered is in neither list nor price, a
 * saving is said only where the claims allow one, days are counted by the calendar, text stays text, in both tongues. */
#include "support.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "job/job_open.h"
#include "out/handover.h"
#include "paper_read.h"

enum { B2 = 8, PACKAGES = 3 };

typedef struct fixture {
  pw_open_job open;
  pw_compare compare;
  pw_range range;
  pw_compare_frame frame;
  pw_offer_line line[16];
} fixture;

static int set_up(void **state)
{
  static const size_t all[PACKAGES] = {0, 1, 2};
  fixture *f = calloc(1, sizeof *f);
  pw_err err = {0};
  if (!f || pw_job_open("examples/harrow_bend", &f->open, &err) != PW_OK) return -1;
  pw_job *job = &f->open.job;
  if (pw_offer_check(job, all, PACKAGES, f->line, &err) != PW_OK) return -1;
  for (size_t i = 0; i < job->n_opening; i++)
    if (f->line[i].state == PW_NOT_OFFERED) job->opening[i].standing = PW_STAYS;
  pw_compare_options options = pw_job_options(&f->open, PW_YEAR_DETAILED);
  pw_range_options draws = {
      .n_draw = 256, .seed = 5, .n_thread = 2, .method = PW_RANGE_REDUCED};
  if (pw_compare_run(job, f->open.weather, &options, NULL, &f->compare, &err) != PW_OK ||
      pw_range_of(&f->compare, f->open.weather, PW_YEAR_QUICK, &draws, &f->range, &err) !=
          PW_OK) {
    print_error("%s\n", err.text);
    return -1;
  }
  f->frame = (pw_compare_frame){.climate = f->open.climate,
                                .method = "hour by hour",
                                .notes = &f->open.notes,
                                .range = &f->range};
  *state = f;
  return 0;
}

static int tear_down(void **state)
{
  fixture *f = *state;
  pw_compare_free(&f->compare);
  pw_job_close(&f->open);
  free(f);
  return 0;
}

static pw_offer offer_of(const fixture *f, const pw_compare_frame *frame, size_t n,
                         size_t first)
{
  pw_offer o = {.paper = {.job = &f->open.job, .version = "0badcafe", .date = 20261129},
                .compare = &f->compare,
                .frame = frame,
                .n_package = n,
                .line = f->line};
  for (size_t k = 0; k < n; k++)
    o.package[k] = first + k;
  return o;
}

typedef pw_status (*writer)(const pw_offer *offer, pw_html *h, pw_err *err);

static char *text_of(writer write, const pw_offer *offer, const char *code)
{
  char *text = NULL;
  size_t size = 0;
  pw_err err = {0};
  const pw_tongue *tongue = NULL;
  FILE *out = open_memstream(&text, &size);
  assert_non_null(out);
  assert_true(pw_tongue_find(code, &tongue));
  pw_html h = {out, tongue};
  pw_status status = write(offer, &h, &err);
  fclose(out);
  if (status != PW_OK) fail_msg("%s", err.text);
  return text;
}

static int says(const char *text, const char *words) { return strstr(text, words) != NULL; }

/* Other writer: the JSON of the same comparison, converted and rounded by paper_read. */
static void every_figure_is_the_computed_one(void **state)
{
  fixture *f = *state;
  static const char *const code[] = {"en", "es"};
  json_t *data = pw_compare_json(&f->compare, &f->frame);
  for (size_t k = 0; k < 2; k++) {
    const pw_offer three = offer_of(f, &f->frame, 3, 0), one = offer_of(f, &f->frame, 1, 1);
    char *offer = text_of(pw_offer_html, &three, code[k]),
         *hand = text_of(pw_handover_html, &one, code[k]);
    /* three prices, three shares of glass, ten openings, three savings with their ends */
    assert_true(paper_figures_match(offer, data) >= 3 + 3 + 10 + 9);
    assert_true(paper_figures_match(hand, data) >= 2 + 3); /* a night, a humidity; a saving */
    assert_int_not_equal(paper_is_tidy(offer), 0);
    assert_int_not_equal(paper_is_tidy(hand), 0);
    paper_ids_are_sound(offer);
    free(offer);
    free(hand);
  }
  json_decref(data);
}

/* Rows of parts in whole dollars add up to the price in whole dollars. Parts by hand: 100.4 + 100.4 + 50.4 = 251.2, which
 * prints as 251 over 100 + 100 + 50 = 250: a dollar of rounding is said; 100.6 + 50.6 = 151.2 over 101 + 51 wants -1. */
static void the_parts_add_up(void **state)
{
  fixture *f = *state;
  pw_compare c = f->compare;
  pw_billed_set *a = &c.billed.package_set[0], *b = &c.billed.package_set[1];
  a->parts = (pw_price){
      .value = 251.2,
      .by_table = 1,
      .n_part = 3,
      .part = {{"windows", 1, 100.4, 0}, {"screen", 1, 100.4, 0}, {"tax", 0, 50.4, 0}}};
  b->parts = (pw_price){.value = 151.2,
                        .by_table = 1,
                        .n_part = 2,
                        .part = {{"windows", 1, 100.6, 0}, {"tax", 0, 50.6, 0}}};
  a->price = a->parts.value;
  b->price = b->parts.value;
  pw_offer o = offer_of(f, &f->frame, 2, 0);
  o.compare = &c;
  char *text = text_of(pw_offer_html, &o, "en");
  const char *row = strstr(text, "to whole dollars");
  assert_non_null(row);
  assert_memory_equal(row, "to whole dollars</th><td>$1</td><td>-$1</td>", 44);
  assert_true(says(text, "Price, installed, with tax"));
  json_t *data = pw_compare_json(&c, &f->frame);
  paper_figures_match(text, data);
  json_decref(data);
  free(text);
  a->parts.part[0].value = 101.2; /* 101 + 100 + 50 = 251: nothing to say */
  a->parts.value = a->price = 252.0;
  a->parts.part[1].value = 100.4;
  a->parts.part[2].value = 50.4;
  o.n_package = 1;
  text = text_of(pw_offer_html, &o, "en");
  assert_true(
      says(text, "to whole dollars</th><td>$1</td>")); /* 101 + 100 + 50 = 251, 252 asked */
  free(text);
  a->parts.value = a->price = 251.0;
  text = text_of(pw_offer_html, &o, "en");
  assert_false(says(text, "to whole dollars"));
  free(text);
}

/* B2's way out falls short with every package: named apart, in no row of the windows; with the word it is a row. */
static void what_falls_short_is_offered_by_the_officials_word_alone(void **state)
{
  fixture *f = *state;
  pw_offer o = offer_of(f, &f->frame, 1, 1);
  assert_int_equal(f->line[B2].state, PW_NOT_OFFERED);
  for (size_t i = 0; i < f->compare.n_opening; i++)
    if (i != B2) assert_int_equal(f->line[i].state, PW_OFFERED);
  char *text = text_of(pw_offer_html, &o, "en");
  assert_true(says(text, "Not in this offer: <bdi>B2</bdi>"));
  assert_false(says(text, "<th scope=\"row\"><bdi>B2</bdi>"));
  assert_true(says(text, "<th scope=\"row\"><bdi>B1</bdi>"));
  free(text);
  text = text_of(pw_handover_html, &o, "en");
  assert_false(says(text, "<bdi>B2</bdi>"));
  free(text);

  pw_job *job = &f->open.job;
  pw_opening *b2 = &job->opening[B2];
  pw_offer_line line[16];
  const size_t better = 1;
  pw_err err = {0};
  b2->standing = PW_REPLACED;
  snprintf(b2->official_word, sizeof b2->official_word, "M. Reyes (invented), 2026-10-02");
  assert_int_equal(pw_offer_check(job, &better, 1, line, &err), PW_OK);
  assert_int_equal(line[B2].state, PW_OFFERED_BY_WORD);
  assert_false(line[B2].settle);
  o.line = line;
  text = text_of(pw_offer_html, &o, "en");
  assert_false(says(text, "Not in this offer"));
  assert_true(says(text, "<th scope=\"row\"><bdi>B2</bdi>"));
  assert_true(says(text, "<bdi>M. Reyes (invented), 2026-10-02</bdi>"));
  free(text);
  text = text_of(pw_offer_html, &o, "es");
  assert_true(says(text, "palabra del inspector")); /* life safety: both tongues */
  assert_true(says(text, "lang=\"en\">as computed this window is too small a way out"));
  free(text);
  b2->official_word[0] = '\0';
  b2->standing = PW_STAYS;
}

/* reference/trade/JOB.md, "Honest savings claims": a range that holds zero is no saving. */
static void a_saving_is_said_only_where_the_claims_allow(void **state)
{
  fixture *f = *state;
  pw_range range = f->range;
  pw_compare_frame frame = f->frame;
  frame.range = &range;
  pw_offer o = offer_of(f, &frame, 3, 0);
  char *text = text_of(pw_offer_html, &o, "en");
  assert_true(says(text, "Saved a year"));
  assert_false(says(text, "up to"));
  free(text);
  for (size_t p = 0; p < PACKAGES; p++) {
    range.package[p].saving_cost.p10 = -20.0;
    range.package[p].includes_zero = 1;
  }
  writer both[] = {pw_offer_html, pw_handover_html};
  for (size_t w = 0; w < 2; w++)
    for (int with = 0; with < 2; with++) {
      frame.range = with ? &range : NULL;
      text = text_of(both[w], &o, "en");
      assert_false(says(text, "Saved a year"));
      assert_false(says(text, "no promise of a bill"));
      free(text);
      text = text_of(both[w], &o, "es");
      assert_false(says(text, "Ahorro al a"));
      free(text);
    }
  range.package[1] =
      f->range.package[1]; /* one of three may be said: the others say that none is */
  frame.range = &range;
  text = text_of(pw_offer_html, &o, "en");
  const char *row = strstr(text, "Saved a year");
  assert_non_null(row);
  assert_true(strstr(row, "none is claimed") < strstr(row, "saving_cost_year"));
  free(text);
}

/* By hand: September has 30 days, February 29 in 2028 and 28 in 2027; 10 days is the longest wait of polyurethane (table
 * measure S6), half a day or a whole one of acrylic (S7) counts as 1. */
static void paint_waits_by_the_calendar(void **state)
{
  (void)state;
  static const struct {
    const char *sealant, *installed;
    double stated;
    pw_date day;
  } row[] = {{"polyurethane", "2026-09-14", 0.0, 20260924},
             {"polyurethane", "2026-09-25", 7.0, 20261002},
             {"polyurethane", "2027-02-25", 7.0, 20270304},
             {"polyurethane", "2028-02-25", 7.0, 20280303},
             {"polyurethane", "2026-12-28", 0.0, 20270107},
             {"acrylic", "2028-02-28", 0.0, 20280229},
             {"acrylic", "2027-02-28", 0.0, 20270301},
             {"hybrid", "2027-02-28", 1.5, 20270302},
             {"hybrid", "2027-02-28", 0.0, 0},
             {"silicone", "2027-02-28", 3.0, 0},
             {"polyurethane", "", 0.0, 0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_house_facts h = {.paint_wait_days = row[i].stated};
    double days;
    snprintf(h.sealant, sizeof h.sealant, "%s", row[i].sealant);
    snprintf(h.install_date, sizeof h.install_date, "%s", row[i].installed);
    pw_date day = pw_paint_not_before(&h, &days);
    if (day != row[i].day) fail_msg("%s %s: %d", row[i].sealant, row[i].installed, day);
  }
}

/* Valid for 92 days from 2026-11-29: 1 left of November, 31 + 31 + 28 = 91, so 2027-03-01 is the 92nd. */
static void an_offer_stands_so_long(void **state)
{
  fixture *f = *state;
  pw_house_facts *h = &f->open.job.house;
  pw_offer o = offer_of(f, &f->frame, 1, 0);
  h->offer.valid_days = 92.0;
  char *text = text_of(pw_offer_html, &o, "en");
  assert_true(says(text, "stands until <b>2027-03-01</b>"));
  free(text);
  h->offer.valid_days = 0.0;
  text = text_of(pw_offer_html, &o, "en");
  assert_true(says(text, "stands until <span class=\"line\">"));
  free(text);
}

/* Nobody signs words that nobody has read; read, they are signed like the English ones. */
static void an_unread_translation_has_no_place_to_sign(void **state)
{
  fixture *f = *state;
  pw_offer o = offer_of(f, &f->frame, 3, 0);
  char *text = text_of(pw_offer_html, &o, "es");
  assert_true(says(text, "No es para firmar"));
  assert_false(says(text, "class=\"signers\""));
  free(text);
  f->open.job.firm.translation_reviewed = 1;
  text = text_of(pw_offer_html, &o, "es");
  assert_false(says(text, "No es para firmar"));
  assert_true(says(text, "class=\"signers\""));
  f->open.job.firm.translation_reviewed = 0;
  free(text);
  text = text_of(pw_offer_html, &o, "en");
  assert_true(says(text, "class=\"signers\""));
  const char *law = strstr(text, "Nothing here is legal advice");
  assert_non_null(law);
  assert_null(strstr(law + 28, "legal advice"));
  free(text);
}

/* The lead pamphlet is due for a house before 1978 or of unknown age (40 CFR 745.84; from memory). */
static void the_pamphlet_is_named_when_due(void **state)
{
  fixture *f = *state;
  static const struct {
    int year, due;
  } row[] = {{0, 1}, {1977, 1}, {1978, 0}, {2004, 0}};
  int *year = &f->open.job.house.year_built, was = *year;
  pw_offer o = offer_of(f, &f->frame, 1, 0);
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    *year = row[i].year;
    char *text = text_of(pw_offer_html, &o, "en");
    assert_int_equal(says(text, "745.84"), row[i].due);
    assert_int_equal(says(text, "its paint may hold lead"), row[i].due);
    free(text);
  }
  *year = was;
}

/* What stays is named where the offer says what is not done: the windows without work, no other; of none no word. */
static void windows_left_as_they_are_are_named(void **state)
{
  fixture *f = *state;
  const pw_offer o = offer_of(f, &f->frame, 3, 0);
  const pw_offer_line was[] = {f->line[0], f->line[4]};
  const pw_opening *opening = f->open.job.opening;
  for (size_t i = 0; i < f->open.job.n_opening; i++)
    assert_int_not_equal(f->line[i].state, PW_NO_WORK);
  char *text = text_of(pw_offer_html, &o, "en");
  assert_true(says(text, "What is not done") && !says(text, "left as they are"));
  free(text);
  f->line[0].state = f->line[4].state = PW_NO_WORK;
  text = text_of(pw_offer_html, &o, "en");
  char *from = strstr(text, "These windows are left as they are: ");
  assert_non_null(from);
  *strstr(from, "</li>") = '\0';
  for (size_t i = 0; i < f->open.job.n_opening; i++)
    assert_int_equal(says(from, opening[i].tag), i == 0 || i == 4);
  free(text);
  f->line[0] = was[0];
  f->line[4] = was[1];
}

static void text_stays_text(void **state)
{
  fixture *f = *state;
  static const char evil[] = "<b>\"&%s%n'";
  pw_job *job = &f->open.job;
  pw_offer_terms was = job->house.offer;
  pw_opening first = job->opening[0];
  pw_package package = job->package[0];
  pw_house_facts house = job->house;
#define EVIL(member) snprintf(member, sizeof(member), "%s", evil)
  EVIL(job->house.offer.schedule);
  EVIL(job->house.offer.deposit);
  EVIL(job->house.offer.terms);
  EVIL(job->house.offer.warranty_work);
  EVIL(job->house.offer.warranty_product);
  EVIL(job->house.customer);
  EVIL(job->house.maker);
  EVIL(job->house.lead_certificate);
  EVIL(job->opening[0].tag);
  EVIL(job->opening[0].room);
  EVIL(job->package[0].name);
  EVIL(job->package[0].certificate);
  writer both[] = {pw_offer_html, pw_handover_html};
  static const char *const code[] = {"en", "es"};
  pw_offer o = offer_of(f, &f->frame, 1, 0);
  for (size_t w = 0; w < 2; w++)
    for (size_t k = 0; k < 2; k++) {
      char *text = text_of(both[w], &o, code[k]);
      assert_false(says(text, evil));
      assert_false(says(text, "<b>\"&"));
      assert_true(says(text, "&lt;b&gt;&quot;&amp;%s%n&#39;"));
      assert_int_not_equal(paper_is_tidy(text), 0);
      free(text);
    }
  job->house = house;
  job->house.offer = was;
  job->opening[0] = first;
  job->package[0] = package;
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_figure_is_the_computed_one),
      cmocka_unit_test(the_parts_add_up),
      cmocka_unit_test(what_falls_short_is_offered_by_the_officials_word_alone),
      cmocka_unit_test(a_saving_is_said_only_where_the_claims_allow),
      cmocka_unit_test(paint_waits_by_the_calendar),
      cmocka_unit_test(an_offer_stands_so_long),
      cmocka_unit_test(an_unread_translation_has_no_place_to_sign),
      cmocka_unit_test(the_pamphlet_is_named_when_due),
      cmocka_unit_test(windows_left_as_they_are_are_named),
      cmocka_unit_test(text_stays_text),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
