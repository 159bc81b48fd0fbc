/* Messages of the kernels (panewright/message.h) and their sentences: every number has one in both languages, with
 * the same arguments and the same figures; what a kernel says has the arguments of its number. */
#include "support.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "job/job_open.h"
#include "job/sections.h"
#include "out/message_text.h"
#include "panewright/units.h"
#include "study/compare.h"
#include "window/caution.h"
#include "window/escape.h"
#include "window/fit_job.h"
#include "window/frame_line.h"
#include "window/install.h"
#include "window/order_check.h"

static const pw_tongue *spanish(void)
{
  const pw_tongue *t = NULL;
  assert_true(pw_tongue_find("es", &t));
  return t;
}

/* ---------------------------------------------------------------- figures of a text */

enum { FIGURES = 48 };

static int by_text(const void *a, const void *b) { return strcmp(a, b); }

/* The figures of a text in order of their spelling: "35 1/2" is two. The 2 of ft2 is none. */
static size_t figures(const char *text, char out[FIGURES][24])
{
  size_t n = 0;
  for (const char *s = text; *s;) {
    if (strncmp(s, "ft2", 3) == 0) s += 3;
    if (!isdigit((unsigned char)*s)) {
      if (*s) s++;
      continue;
    }
    size_t k = strspn(s, "0123456789./");
    const char *next = s + k;
    while (k && !isdigit((unsigned char)s[k - 1])) /* a full stop, a slash after it */
      k--;
    assert_true(n < FIGURES && k < 24);
    snprintf(out[n++], 24, "%.*s", (int)k, s);
    s = next;
  }
  qsort(out, n, sizeof out[0], by_text);
  return n;
}

static void assert_same_figures(const char *english, const char *other)
{
  char a[FIGURES][24], b[FIGURES][24];
  size_t n = figures(english, a), m = figures(other, b);
  if (n != m) fail_msg("%zu and %zu figures:\n%s\n%s", n, m, english, other);
  for (size_t i = 0; i < n; i++)
    if (strcmp(a[i], b[i]) != 0) fail_msg("%s and %s:\n%s\n%s", a[i], b[i], english, other);
}

/* "%s" and "%s %%" are the same in every language. */
static int has_words(const char *wording)
{
  for (const char *s = wording; *s; s++) {
    if (s[0] == '%' && s[1] == 's')
      s++;
    else if (isalpha((unsigned char)*s))
      return 1;
  }
  return 0;
}

/* Both sentences of a message, held against each other; the English one is in english[]. */
static void both(const pw_message *m, char english[PW_MESSAGE_TEXT])
{
  char other[PW_MESSAGE_TEXT];
  const char *letters = pw_message_letters(m->number);
  assert_true(m->number > PW_SAY_NOTHING && m->number < PW_SAY_COUNT);
  for (size_t i = 0; i < PW_MESSAGE_ARGS; i++)
    if (m->arg[i].kind != (i < strlen(letters) ? pw_message_kind_of(letters[i]) : PW_ARG_NONE))
      fail_msg("%s: argument %zu is not of its letter", pw_message_wording(m->number), i);
  pw_message_text(NULL, m, english, PW_MESSAGE_TEXT);
  pw_message_text(spanish(), m, other, sizeof other);
  if (has_words(pw_message_wording(m->number))) assert_string_not_equal(english, other);
  assert_same_figures(english, other);
  for (int i = 0; i < PW_MESSAGE_OWNS; i++)
    if (m->own[i][0]) assert_non_null(strstr(english, m->own[i]));
}

/* ---------------------------------------------------------------- every number */

static size_t placeholders(const char *text)
{
  size_t n = 0;
  for (const char *s = text; (s = strchr(s, '%')) != NULL; s++) {
    if (s[1] == '%')
      s++;
    else
      n++;
  }
  return n;
}

/* A message with the longest, or with distinct, arguments. */
static pw_message filled(pw_message_number number, int longest)
{
  const char *letters = pw_message_letters(number);
  pw_message m = {.number = number};
  int owns = 0;
  assert_true(strlen(letters) <= PW_MESSAGE_ARGS);
  for (size_t i = 0; letters[i]; i++) {
    double inch = (longest ? 239.9375 : 11.0 + (double)i) * PW_INCH;
    pw_message_arg *a = &m.arg[i];
    a->kind = pw_message_kind_of(letters[i]);
    if (a->kind == PW_ARG_SI) a->si = inch;
    if (a->kind == PW_ARG_COLUMN) a->column = "width_bottom";
    if (letters[i] == 'a') a->si = (longest ? 9999.9 : 50.0 + (double)i) * PW_FOOT2;
    if (letters[i] == 'f') a->si = (longest ? 29999.0 : 700.0 + (double)i) * PW_FOOT;
    if (letters[i] == 'd') a->si = 99.0 * PW_PSF;
    if (letters[i] == 'b') a->si = 3.5 * PW_PSI;
    if (letters[i] == 'k') a->si = pw_k_from_f(40.0 + (double)i);
    if (letters[i] == 'r') a->si = 0.23;
    if (letters[i] == 'm' || letters[i] == 'u') a->si = longest ? 99999.25 : 410.0 + (double)i;
    if (letters[i] == 'g') a->si = 0.4;
    if (letters[i] == 'y') a->count = 20260105 + (int)i;
    if (letters[i] == 'n') a->si = longest ? 123.25 : 25.0 + (double)i;
    if (letters[i] == 'i') a->count = 1950 + (int)i;
    if (letters[i] == 'o') a->count = PW_SINGLE_HUNG;
    if (letters[i] == 'p') a->count = PW_SHAPE_QUARTER_ROUND;
    if (letters[i] == 'w') a->count = longest ? PW_SAY_REMEDY_SLIDER_WIDER : PW_SAY_WIDTH;
    if (letters[i] == 'l') a->count = 15;
    if (a->kind == PW_ARG_OWN) {
      a->count = owns++;
      snprintf(m.own[a->count], sizeof m.own[0], longest ? "%c%0*d" : "%croom", 'A' + a->count,
               (int)sizeof m.own[0] - 2, 0);
    }
  }
  return m;
}

static void every_number_is_said_in_both_languages_with_the_same_arguments(void **state)
{
  (void)state;
  for (int k = PW_SAY_NOTHING + 1; k < PW_SAY_COUNT; k++) {
    pw_message_number number = (pw_message_number)k;
    const char *english = pw_message_wording(number),
               *other = pw_message_word(spanish(), number);
    size_t want = strlen(pw_message_letters(number));
    if (!english[0]) fail_msg("number %d has no words", k);
    if (strcmp(english, other) == 0 && has_words(english)) fail_msg("no Spanish: %s", english);
    if (placeholders(english) != want || placeholders(other) != want)
      fail_msg("%zu arguments:\n%s\n%s", want, english, other);
    if (pw_message_letters(number)[0] == '*') continue; /* holds another sentence */
    /* Each argument has a figure or a word of its own, and it stands in both sentences: one lost and
     * another twice is seen. */
    char text[PW_MESSAGE_TEXT];
    pw_message m = filled(number, 0);
    both(&m, text);
    pw_message_text(spanish(), &m, text, sizeof text);
    for (int i = 0; i < PW_MESSAGE_OWNS; i++)
      if (m.own[i][0]) assert_non_null(strstr(text, m.own[i]));
    if (strchr(pw_message_letters(number), 'w'))
      assert_non_null(strstr(text, pw_message_word(spanish(), PW_SAY_WIDTH)));
  }
}

/* No sentence is cut with the longest names and sizes, alone or led by another; names of a job fit whole. */
static void nothing_is_cut_with_the_longest_arguments(void **state)
{
  (void)state;
  _Static_assert(sizeof((pw_opening *)0)->tag <= PW_MESSAGE_OWN &&
                     sizeof((pw_opening *)0)->room <= PW_MESSAGE_OWN &&
                     sizeof((pw_package *)0)->name <= PW_MESSAGE_OWN &&
                     sizeof((pw_house_facts *)0)->lead_certificate <= PW_MESSAGE_OWN &&
                     sizeof((pw_house_facts *)0)->sealant <= PW_MESSAGE_OWN,
                 "a name of a job fits a message");
  const pw_tongue *tongue[] = {NULL, spanish()};
  for (int k = PW_SAY_NOTHING + 1; k < PW_SAY_COUNT; k++) {
    if (pw_message_letters((pw_message_number)k)[0] == '*') continue;
    for (int t = 0; t < 2; t++) {
      char alone[PW_MESSAGE_TEXT], led[PW_MESSAGE_TEXT];
      pw_message m = filled((pw_message_number)k, 1);
      size_t n = strlen(pw_message_text(tongue[t], &m, alone, sizeof alone));
      m.led_by = PW_SAY_STAYS_AS_IT_IS;
      size_t lead = strlen(pw_message_word(tongue[t], m.led_by)) - strlen("%s");
      pw_message_text(tongue[t], &m, led, sizeof led);
      if (n + lead + 1 > sizeof led || strcmp(led + lead, alone) != 0)
        fail_msg("cut, %zu and %zu bytes: %s", n, lead, alone);
      for (int i = 0; i < PW_MESSAGE_OWNS; i++)
        if (m.own[i][0]) assert_non_null(strstr(led, m.own[i]));
    }
  }
}

/* ---------------------------------------------------------------- from readings */

static pw_opening slider(const char *tag, double width, double height)
{
  pw_opening o = {.quantity = 1,
                  .operator_existing = PW_SLIDER,
                  .operator_insert = PW_SLIDER,
                  .fin_width = 0.5 * PW_INCH,
                  .fins_cut = 2,
                  .sill_lip = 0.5625 * PW_INCH,
                  .sill_lip_cut = 1,
                  .sill_height = 30.0 * PW_INCH,
                  .frame_face = pw_existing_frame_face(PW_SLIDER),
                  .sash_face = pw_existing_sash_face(),
                  .meeting_face = pw_existing_meeting_face()};
  snprintf(o.tag, sizeof o.tag, "%s", tag);
  for (int i = 0; i < 3; i++) {
    o.width[i] = width * PW_INCH;
    o.height[i] = height * PW_INCH;
  }
  o.diagonal[0] = o.diagonal[1] = hypot(width, height) * PW_INCH;
  return o;
}

static pw_fit fitted(const pw_opening *o)
{
  pw_frame_line line[32];
  size_t n = pw_frame_line_count();
  assert_true(n <= 32);
  for (size_t i = 0; i < n; i++)
    pw_frame_line_builtin(i, &line[i]);
  const pw_frame_line *found = pw_frame_line_pick(line, n, "vinyl", o->operator_insert);
  pw_fit f;
  pw_err err = {0};
  assert_non_null(found);
  if (pw_fit_opening(o, found, &f, &err) != PW_OK) fail_msg("%s", err.text);
  return f;
}

/* One kind each, 59 1/2 x 47 1/2 in but for what the row says; the sentence has the readings that went in. The
 * diagonal of 59.5 x 47.5 in is 76.14 in. */
typedef struct reading_case {
  pw_finding_kind kind;
  double width[3], height[3], diagonal[2]; /* in; 0 as above, -1 none */
  double fin, sill;
  pw_operator operator_;
  pw_shape_kind shape;
  const char *says;
} reading_case;

static const reading_case readings[] = {
    {.kind = PW_FINDING_NO_DIAGONAL,
     .diagonal = {-1, -1},
     .says = "no diagonals: squareness unknown, lean taken as 0"},
    {.kind = PW_FINDING_ONE_READING,
     .height = {0, 0, -1},
     .says = "2 of 3 height readings taken"},
    {.kind = PW_FINDING_ADJUST,
     .diagonal = {76.25, 76.0},
     .says = "diagonals differ by 1/4 in: order as reckoned, shim more"},
    {.kind = PW_FINDING_SPREAD,
     .width = {59.75, 0, 0},
     .says = "the width readings differ by 1/4 in (usual: to 1/8): bowed, or misread; measure "
             "again"},
    {.kind = PW_FINDING_SHAPE,
     .width = {30.25, 30.25, 30.25},
     .diagonal = {56.3125, 56.3125}, /* hypot(30.25, 47.5) = 56.31 */
     .says = "a slider 30 1/4 wide and 47 1/2 in high is unusual: width and height swapped?"},
    {.kind = PW_FINDING_FOOT,
     .width = {71.5, 71.5, 71.5},
     .diagonal = {-1, -1},
     .says = "likely slip: the width 71 1/2 in is that of A1 (59 1/2 in) but for 1 ft, and no "
             "diagonals confirm it: measure again"},
    {.kind = PW_FINDING_TEN,
     .width = {69.5, 69.5, 69.5},
     .diagonal = {84.1875, 84.1875}, /* hypot(69.5, 47.5) = 84.18 */
     .says =
         "the width 69 1/2 in is that of A1 (59 1/2 in) but for 10 in; the diagonals confirm "
         "it: look once more whether they were measured"},
    {.kind = PW_FINDING_REMEASURE,
     .diagonal = {76.375, 76.0},
     .says = "diagonals differ by 3/8 in (more than 1/4): find out why, measure again before "
             "ordering"},
    {.kind = PW_FINDING_UNSQUARE,
     .width = {59.75, 0, 0},
     .diagonal = {76.25, -1},
     .says =
         "the readings are not square and one diagonal is missing: take both before ordering"},
    {.kind = PW_FINDING_APART,
     .height = {48.25, 0, 0},
     .says =
         "the height readings differ by 3/4 in (over 1/2): no order before they are measured "
         "again"},
    {.kind = PW_FINDING_FIN,
     .fin = 2.0,
     .says = "fin_width 2 in is more than such a part has (usual: 1/2, at most 1 1/4): measure "
             "again"},
    {.kind = PW_FINDING_SILL,
     .sill = 2.5,
     .says =
         "sill_height 2 1/2 in is that of a door, and this is none: height above the floor, "
         "inches or feet? (sidelite yes: fixed glass beside a door)"},
    {.kind = PW_FINDING_SLIP,
     .width = {60.5, 60.5, 60.5},
     .diagonal = {-1, -1},
     .says = "likely slip: the width 60 1/2 in is that of A1 (59 1/2 in) but for 1 in, and no "
             "diagonals confirm it: measure again"},
    {.kind = PW_FINDING_TRANSPOSED,
     .width = {0, 0, 95.5},
     .says = "width_top 95 1/2 in reads like 59 1/2 with two digits exchanged"},
    {.kind = PW_FINDING_SWAPPED,
     .width = {0, 0, 47.5},
     .says = "width_top 47 1/2 in is what the heights measure: width and height swapped?"},
    {.kind = PW_FINDING_DIAGONAL,
     .diagonal = {70, 70},
     .says = "no opening of 59 1/2 x 47 1/2 in has diagonals of about 70 in (it has 76 1/8): "
             "measure again"},
    {.kind = PW_FINDING_NO_SUCH,
     .height = {47.5, 44.5, 41.5},
     .says =
         "no rectangle: 47 1/2 in high on the left and 41 1/2 in on the right, evenly between; "
         "name its shape (trapezoid, triangle ...)"},
    {.kind = PW_FINDING_NO_SUCH,
     .shape = PW_SHAPE_CIRCLE,
     .operator_ = PW_FIXED,
     .diagonal = {-1, -1},
     .says =
         "no circle: height 47 1/2 in, but its width is 59 1/2 in; measure again or name its "
         "shape"},
    {.kind = PW_FINDING_STOP,
     .diagonal = {76.5, 75.75},
     .says =
         "diagonals differ by 3/4 in (more than 1/2): stop; look at the structure or choose "
         "another method"},
};

static void set(double to[], const double in[], int n)
{
  for (int i = 0; i < n; i++)
    if (in[i] != 0.0) to[i] = in[i] > 0.0 ? in[i] * PW_INCH : 0.0;
}

static void each_kind_of_finding_says_its_readings(void **state)
{
  (void)state;
  int seen[PW_FINDING_STOP + 1] = {0};
  for (size_t i = 0; i < sizeof readings / sizeof readings[0]; i++) {
    const reading_case *r = &readings[i];
    pw_opening o[3] = {slider("A1", 59.5, 47.5), slider("B1", 59.5, 47.5),
                       slider("A1", 59.5, 47.5)};
    set(o[1].width, r->width, 3);
    set(o[1].height, r->height, 3);
    set(o[1].diagonal, r->diagonal, 2);
    if (r->fin > 0.0) o[1].fin_width = r->fin * PW_INCH;
    if (r->sill > 0.0) o[1].sill_height = r->sill * PW_INCH;
    if (r->shape != PW_SHAPE_RECTANGLE) {
      o[1].operator_existing = o[1].operator_insert = r->operator_;
      o[1].shape = r->shape;
      o[1].fin_width = o[1].sill_lip = 0.0;
    }
    pw_fit f[3] = {fitted(&o[0]), fitted(&o[1]), fitted(&o[2])};
    pw_fit_neighbours(o, 3, f);
    int said = 0;
    char text[PW_MESSAGE_TEXT], all[4 * PW_MESSAGE_TEXT] = "";
    for (size_t k = 0; k < f[1].n_finding; k++) {
      both(&f[1].finding[k].says, text);
      said |= f[1].finding[k].kind == r->kind && strcmp(text, r->says) == 0;
      size_t n = strlen(all);
      snprintf(all + n, sizeof all - n, "\n  %s", text);
    }
    if (!said) fail_msg("not said: %s\nbut:%s", r->says, all);
    seen[r->kind] = 1;
  }
  for (int k = 0; k <= PW_FINDING_STOP; k++)
    if (!seen[k]) fail_msg("kind %d is not tried", k);
}

/* ---------------------------------------------------------------- from jobs */

typedef struct count {
  size_t n;
  int number[PW_SAY_COUNT];
} count;

static void look(const pw_message *m, count *seen)
{
  char text[PW_MESSAGE_TEXT];
  both(m, text);
  seen->n++;
  seen->number[m->number] = 1;
}

static void look_at_job(const pw_job *job, count *seen)
{
  pw_fit *fit = calloc(job->n_opening, sizeof *fit);
  pw_cautions list;
  pw_err err = {0};
  assert_non_null(fit);
  if (pw_fit_job(job, 0, fit, &err) != PW_OK) fail_msg("%s", err.text);
  assert_int_equal(pw_cautions_find(job, fit, &list, &err), PW_OK);
  for (size_t k = 0; k < list.n; k++)
    look(&list.caution[k].finding, seen);
  for (size_t i = 0; i < job->n_opening; i++) {
    pw_install plan;
    pw_remedy remedy[PW_REMEDIES_MAX];
    pw_order_check check;
    for (size_t k = 0; k < fit[i].n_finding; k++)
      look(&fit[i].finding[k].says, seen);
    pw_install_plan(&job->opening[i], &fit[i], &job->house, PW_FRAME_VINYL,
                    pw_caution_safety_glass(&list, (int)i), &plan);
    for (size_t k = 0; k < plan.n_line; k++)
      look(&plan.line[k], seen);
    size_t n = pw_escape_remedies(&job->opening[i], &fit[i], remedy);
    for (size_t k = 0; k < n; k++) {
      pw_message says = pw_remedy_says(&remedy[k]);
      look(&says, seen);
    }
    pw_order_check_of((int)i, &fit[i], &list, &check);
    for (size_t k = 0; k < check.n; k++)
      look(check.why[k], seen);
  }
  pw_cautions_free(&list);
  free(fit);
}

/* What a comparison says beside: assumptions of the house model, remarks on drawn sections, the code's limits. */
static void look_at_comparison(const pw_open_job *open, count *seen)
{
  pw_compare_options quick = {.method = PW_YEAR_QUICK};
  pw_named_section *section = NULL;
  pw_compare *c = malloc(sizeof *c);
  pw_err err = {0};
  assert_non_null(c);
  assert_int_equal(pw_sections_read(&open->job, &section, &quick.n_section, &err), PW_OK);
  quick.section = section;
  if (pw_compare_run(&open->job, open->weather, &quick, NULL, c, &err) != PW_OK)
    fail_msg("%s", err.text);
  for (size_t i = 0; i < c->lived.house_notes.n_assumed; i++)
    look(&c->lived.house_notes.assumed[i].value, seen);
  for (size_t i = 0; i < c->rated.frames.n_remark; i++)
    look(&c->rated.frames.remark[i], seen);
  if (c->rated.code.known) look(&c->rated.code.zone, seen);
  look(&c->rated.code.says, seen);
  pw_compare_free(c);
  pw_sections_free(section, quick.n_section);
  free(c);
}

static void what_the_jobs_make_kernels_say_is_the_same_in_both_languages(void **state)
{
  (void)state;
  static const char *const house[] = {
      "examples/harrow_bend",   "examples/cinder_lane",   "tests/street/01_sliders",
      "tests/street/02_swings", "tests/street/03_doors",  "tests/street/04_rounds",
      "tests/street/05_edges",  "tests/street/06_bay",    "tests/street/07_options",
      "tests/street/08_phases", "tests/street/10_garage", "tests/street/12_held"};
  count seen = {0};
  for (size_t i = 0; i < sizeof house / sizeof house[0]; i++) {
    pw_open_job open;
    pw_err err = {0};
    if (pw_job_open(house[i], &open, &err) != PW_OK) fail_msg("%s: %s", house[i], err.text);
    look_at_job(&open.job, &seen);
    look_at_comparison(&open, &seen);
    pw_job_close(&open);
  }
  int kinds = 0;
  for (int k = 0; k < PW_SAY_COUNT; k++)
    kinds += seen.number[k];
  if (seen.n < 300 || kinds < 60) fail_msg("%zu messages of %d numbers", seen.n, kinds);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(every_number_is_said_in_both_languages_with_the_same_arguments),
      cmocka_unit_test(nothing_is_cut_with_the_longest_arguments),
      cmocka_unit_test(each_kind_of_finding_says_its_readings),
      cmocka_unit_test(what_the_jobs_make_kernels_say_is_the_same_in_both_languages),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
