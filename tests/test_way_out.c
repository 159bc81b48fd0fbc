/* Cautions and remedies of the escape opening as structs: each condition alone. What a job says of them: test_caution.c,
 * test_escape.c. Limits: IRC R310.2 as in safety.csv: 5.7 ft2 (5.0 at grade), 24 in high, 20 in wide, 44 in above the floor. */
#include "refused_by.h"

#include <stdio.h>
#include <stdlib.h>

#include "panewright/units.h"
#include "window/caution_impl.h"
#include "window/escape.h"
#include "window/fit_job.h"
#include "window/offer_check.h"
#include "window/order_check.h"

#define N(a) (sizeof(a) / sizeof(a)[0])

static pw_clear clear_of(double width, double height, double bottom)
{
  return (pw_clear){width * PW_INCH, height * PW_INCH, width * height * PW_INCH * PW_INCH,
                    bottom * PW_INCH};
}

static void begin(pw_opening *o, pw_fit *fit)
{
  pw_opening_init(o);
  *fit = (pw_fit){.clear_insert = clear_of(30.0, 30.0, 40.0),
                  .clear_existing = clear_of(32.0, 32.0, 39.0)};
}

/* 30 x 30 in are 6.25 ft2: passes. 24 x 30 are 5.0: what is missing is the width for 5.7 ft2, or the height. */
static void what_is_missing(void **state)
{
  (void)state;
  static const struct {
    pw_use use;
    double width, height;
    pw_caution_state want;
  } row[] = {
      {PW_USE_BEDROOM, 30.0, 30.0, PW_CAUTION_CLEAR},
      {PW_USE_BEDROOM, 24.0, 30.0, PW_CAUTION_FLAG},
      {PW_USE_OTHER, 24.0, 30.0, PW_CAUTION_CLEAR},
      {PW_USE_BEDROOM, 0.0, 0.0, PW_CAUTION_CLEAR}, /* nothing opens: no measure would do */
      {PW_USE_BEDROOM, 24.0, 0.0, PW_CAUTION_CLEAR}};
  for (size_t i = 0; i < N(row); i++) {
    pw_opening o;
    pw_fit fit;
    pw_message found = {0};
    begin(&o, &fit);
    o.use = row[i].use;
    fit.clear_insert = clear_of(row[i].width, row[i].height, 40.0);
    const caution_case c = {.opening = &o, .fit = &fit};
    assert_int_equal(caution_escape_missing(&c, &found), row[i].want);
    if (row[i].want == PW_CAUTION_CLEAR) continue;
    assert_int_equal(found.number, PW_SAY_ESCAPE_MISSING);
    pw_assert_near(found.arg[0].si, 5.7 * PW_FOOT2 / (24.0 * PW_INCH), 1e-12, "height", "hand");
    pw_assert_near(found.arg[2].si, 5.7 * PW_FOOT2 / (30.0 * PW_INCH), 1e-12, "width", "hand");
  }
}

/* Where it is not known whether anyone sleeps there, it is said whether the window would pass. */
static void a_room_in_doubt(void **state)
{
  (void)state;
  for (int passes = 0; passes < 2; passes++) {
    pw_opening o;
    pw_fit fit;
    pw_message found = {0};
    begin(&o, &fit);
    if (!passes) fit.clear_insert = clear_of(19.0, 60.0, 40.0);
    const caution_case c = {.opening = &o, .fit = &fit};
    assert_int_equal(caution_escape_doubt(&c, &found), PW_CAUTION_CLEAR);
    o.use_asks = 1;
    assert_int_equal(caution_escape_doubt(&c, &found), PW_CAUTION_ASK);
    assert_int_equal(found.number,
                     passes ? PW_SAY_ESCAPE_DOUBT_PASSES : PW_SAY_ESCAPE_DOUBT_FAILS);
  }
}

/* A window that stays: what fails is flagged, falls and safety glass are reminders, the rest of it is no part of the work. */
static void a_window_that_stays(void **state)
{
  (void)state;
  static const struct {
    pw_standing standing;
    const char *id;
    pw_caution_state found, want;
  } row[] = {{PW_STAYS, "EG1", PW_CAUTION_FAIL, PW_CAUTION_FLAG},
             {PW_LATER, "EG1", PW_CAUTION_FAIL, PW_CAUTION_CLEAR},
             {PW_STAYS, "SG1", PW_CAUTION_FLAG, PW_CAUTION_REMIND},
             {PW_STAYS, "FP1", PW_CAUTION_FLAG, PW_CAUTION_REMIND},
             {PW_STAYS, "EG8", PW_CAUTION_FLAG, PW_CAUTION_CLEAR},
             {PW_STAYS, "SG1", PW_CAUTION_ASK, PW_CAUTION_CLEAR}};
  for (size_t i = 0; i < N(row); i++) {
    pw_opening o;
    pw_fit fit;
    pw_message found = {.number = PW_SAY_ESCAPE_MISSING};
    begin(&o, &fit);
    o.standing = row[i].standing;
    const caution_case c = {.opening = &o, .fit = &fit};
    assert_int_equal(caution_of_staying(&c, row[i].id, row[i].found, &found), row[i].want);
    assert_int_equal(found.led_by,
                     row[i].want == PW_CAUTION_REMIND ? PW_SAY_STAYS_AS_IT_IS : 0);
  }
}

/* Only a limit of the escape opening that fails, without a word on it, keeps an opening from the offer. */
static void what_keeps_an_opening_back(void **state)
{
  (void)state;
  static const struct {
    const char *id;
    int opening, agreed;
    pw_caution_state state;
    int fails, open;
  } row[] = {{"EG1", 0, 0, PW_CAUTION_FAIL, 1, 1},
             {"EG1", 0, 1, PW_CAUTION_FAIL, 1, 0},
             {"EG1", 1, 0, PW_CAUTION_FAIL, 0, 0},
             {"EG8", 0, 0, PW_CAUTION_FLAG, 0, 0},
             {"CO1", 0, 0, PW_CAUTION_FAIL, 0, 0}};
  for (size_t i = 0; i < N(row); i++) {
    pw_caution one = {.id = row[i].id,
                      .opening = row[i].opening,
                      .agreed = row[i].agreed,
                      .state = row[i].state};
    const pw_cautions list = {.caution = &one, .n = 1};
    assert_int_equal(pw_caution_escape_fails(&list, 0), row[i].fails);
    assert_int_equal(pw_caution_escape_open(&list, 0), row[i].open);
  }
}

/* There is room for 16 reasons; the seventeenth still forbids. */
static void reasons_beyond_their_room(void **state)
{
  (void)state;
  pw_caution many[PW_ORDER_REASONS_MAX + 1];
  const pw_fit fit = {.n_finding = 0};
  pw_order_check check;
  for (size_t i = 0; i < N(many); i++)
    many[i] = (pw_caution){.id = "EG1", .state = PW_CAUTION_FAIL};
  const pw_cautions list = {.caution = many, .n = N(many)};
  pw_order_check_of(0, &fit, &list, &check);
  assert_int_equal(check.n, PW_ORDER_REASONS_MAX);
  assert_false(check.may_order);
  pw_order_check_of(1, &fit, &list, &check);
  assert_true(check.may_order);
}

/* ---------------------------------------------------------------- remedies */

static const pw_remedy *of(const pw_remedy r[], size_t n, pw_message_number what)
{
  for (size_t i = 0; i < n; i++)
    if (r[i].what == what) return &r[i];
  return NULL;
}

/* A double-hung window of 36 x 48 in, ordered 35.625 x 47.625, its opening 30 in above the floor. With all cut off it would be
 * 37 x 49 in a pocket of 37.375 x 49.375. */
static void hung(pw_opening *o, pw_fit *fit)
{
  begin(o, fit);
  o->operator_insert = o->operator_existing = PW_DOUBLE_HUNG;
  o->sill_lip = 1.0 * PW_INCH;
  fit->order_width = 35.625 * PW_INCH;
  fit->order_height = 47.625 * PW_INCH;
  fit->pocket_height = 48.0 * PW_INCH;
  fit->clear_insert.bottom = 30.0 * PW_INCH;
  fit->n_choice = 2;
  fit->choice[1] = (pw_cut_choice){.fins_cut = 2,
                                   .lip_cut = 1,
                                   .pocket_width = 37.375 * PW_INCH,
                                   .pocket_height = 49.375 * PW_INCH,
                                   .order_width = 37.0 * PW_INCH,
                                   .order_height = 49.0 * PW_INCH};
}

/* A remedy by cutting: none without a choice, one that fits nothing, or one that is the order already. */
static void cutting_as_a_remedy(void **state)
{
  (void)state;
  pw_opening o;
  pw_fit fit;
  pw_remedy r[PW_REMEDIES_MAX];
  hung(&o, &fit);
  assert_non_null(of(r, pw_escape_remedies(&o, &fit, r), PW_SAY_REMEDY_SAME_CUT));
  fit.n_choice = 0;
  assert_null(of(r, pw_escape_remedies(&o, &fit, r), PW_SAY_REMEDY_SAME_CUT));
  hung(&o, &fit);
  fit.choice[1].order_width = 0.0;
  assert_null(of(r, pw_escape_remedies(&o, &fit, r), PW_SAY_REMEDY_SAME_CUT));
  fit.choice[1].order_width = fit.order_width;
  assert_non_null(of(r, pw_escape_remedies(&o, &fit, r), PW_SAY_REMEDY_SAME_CUT)); /* higher */
  fit.choice[1].order_height = fit.order_height;
  assert_null(of(r, pw_escape_remedies(&o, &fit, r), PW_SAY_REMEDY_SAME_CUT));
}

/* How high the opening then stands, by hand: cutting the lip of 1 in lowers it by that, the gap stays 3/16 in: 29 in. Where the
 * job cuts the lip already, or the lip stays, or it is none of the choice, it is 30 in. Unknown stays unknown. */
static void where_a_remedy_stands(void **state)
{
  (void)state;
  static const struct {
    int now, stay, lip_cut;
    double bottom;
  } row[] = {{0, 0, 1, 29.0}, {1, 0, 1, 30.0}, {1, 1, 1, 29.0}, {0, 0, 0, 30.0}};
  for (size_t i = 0; i < N(row); i++) {
    pw_opening o;
    pw_fit fit;
    pw_remedy r[PW_REMEDIES_MAX];
    hung(&o, &fit);
    o.sill_lip_cut = row[i].now;
    o.lip_stay = row[i].stay;
    fit.choice[1].lip_cut = row[i].lip_cut;
    const pw_remedy *cut = of(r, pw_escape_remedies(&o, &fit, r), PW_SAY_REMEDY_SAME_CUT);
    assert_non_null(cut);
    pw_assert_near(cut->clear.bottom / PW_INCH, row[i].bottom, 1e-9, "bottom", "by hand");
    fit.clear_insert.bottom = -1.0;
    cut = of(r, pw_escape_remedies(&o, &fit, r), PW_SAY_REMEDY_SAME_CUT);
    assert_true(cut->clear.bottom == -1.0);
  }
}

static void a_remedy_in_words(void **state)
{
  (void)state;
  static const struct {
    unsigned lacks;
    double bottom;
    pw_message_number want;
  } row[] = {{0, 0.5, PW_SAY_REMEDY_PASSES},
             {0, -1.0, PW_SAY_REMEDY_PASSES_BELOW},
             {PW_LACKS_AREA, 0.5, PW_SAY_REMEDY_FAILS},
             {PW_LACKS_AREA, -1.0, PW_SAY_REMEDY_FAILS_SOMEWHERE}};
  for (size_t i = 0; i < N(row); i++) {
    const pw_remedy r = {.what = PW_SAY_REMEDY_CASEMENT,
                         .clear = {.bottom = row[i].bottom},
                         .lacks = row[i].lacks};
    assert_int_equal(pw_remedy_says(&r).number, row[i].want);
  }
}

/* ---------------------------------------------------------------- offer */

typedef struct offered {
  pw_opening opening[12];
  pw_package package[2];
  pw_frame_line line;
  pw_job job;
} offered;

static offered *offer_begin(size_t n)
{
  offered *f = calloc(1, sizeof *f);
  assert_non_null(f);
  for (size_t i = 0; i < n; i++) {
    pw_opening_init(&f->opening[i]);
    snprintf(f->opening[i].tag, sizeof f->opening[i].tag, "B%zu", i + 1);
    for (int k = 0; k < 3; k++) {
      f->opening[i].width[k] = f->opening[i].height[k] = 24.0 * PW_INCH;
    }
    f->opening[i].operator_existing = f->opening[i].operator_insert = PW_SLIDER;
    f->opening[i].use = PW_USE_BEDROOM;
  }
  for (int k = 0; k < 2; k++)
    pw_package_init(&f->package[k]);
  assert_int_equal(pw_frame_line_named("vinyl", PW_SLIDER, &f->line, NULL), PW_OK);
  f->job = (pw_job){.n_opening = n, .n_package = 2, .n_frame_line = 1};
  f->job.opening = f->opening;
  f->job.package = f->package;
  f->job.frame_line = &f->line;
  return f;
}

/* 24 in squares of sliders let nobody out. One with a word, one without, one that stays; asked of one package and of two. */
static void what_is_offered(void **state)
{
  (void)state;
  offered *f = offer_begin(4);
  static const size_t both[2] = {0, 1};
  pw_offer_line line[4];
  pw_err err = {0};
  memcpy(f->opening[1].official_word, "the inspector", sizeof "the inspector");
  f->opening[2].standing = PW_STAYS;
  f->opening[3].use = PW_USE_OTHER;
  for (size_t n = 1; n <= 2; n++) {
    if (pw_offer_check(&f->job, both, n, line, &err) != PW_OK) fail_msg("%s", err.text);
    assert_int_equal(line[0].state, PW_NOT_OFFERED);
    assert_int_equal(line[1].state, PW_OFFERED_BY_WORD);
    assert_int_equal(line[2].state, PW_NO_WORK);
    assert_int_equal(line[3].state, PW_OFFERED);
  }
  f->opening[3].sill_lip = 2.0;
  refused(pw_offer_check(&f->job, both, 2, line, &err), PW_E_DOMAIN, &err, "sill_lip");
  free(f);
}

/* Twelve such rooms have more cautions than the list begins with room for; each keeps its own, by rank. */
static void many_cautions(void **state)
{
  (void)state;
  offered *f = offer_begin(12);
  pw_fit fit[12];
  pw_cautions list;
  pw_err err = {0};
  if (pw_fit_job(&f->job, 0, fit, &err) != PW_OK ||
      pw_cautions_find(&f->job, fit, &list, &err) != PW_OK)
    fail_msg("%s", err.text);
  assert_true(list.n > 64);
  size_t areas = 0, whole = 0;
  for (size_t i = 0; i < list.n; i++) {
    areas += strcmp(list.caution[i].id, "EG1") == 0 && list.caution[i].state == PW_CAUTION_FAIL;
    whole += list.caution[i].opening == PW_CAUTION_WHOLE_JOB;
    if (i) assert_true(list.caution[i].rank >= list.caution[i - 1].rank);
  }
  assert_int_equal(areas, 12);
  assert_true(whole > 0);
  pw_cautions_free(&list);
  free(f);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(what_is_missing),           cmocka_unit_test(a_room_in_doubt),
      cmocka_unit_test(a_window_that_stays),       cmocka_unit_test(what_keeps_an_opening_back),
      cmocka_unit_test(reasons_beyond_their_room), cmocka_unit_test(cutting_as_a_remedy),
      cmocka_unit_test(where_a_remedy_stands),     cmocka_unit_test(a_remedy_in_words),
      cmocka_unit_test(what_is_offered),           cmocka_unit_test(many_cautions),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
