/* window/escape: what each other window would give where an escape opening fails. Allowances by hand from
 * reference/trade/SAFETY.md (from memory): casement width - 6, height - 3 in; slider width / 2 - 3, height
 * - 3; hung width - 3, height / 2 - 3. Limits: safety.csv EG1 5.7 ft2, EG3 24 in, EG4 20 in, EG5 44 in. */
#include "support.h"

#include <stdio.h>
#include <string.h>

#include "out/message_text.h"
#include "panewright/units.h"
#include "window/caution_impl.h"
#include "window/escape.h"
#include "window/frame_line.h"

static pw_opening bedroom(pw_operator kind, double width, double height, double sill)
{
  pw_opening o = {.tag = "T",
                  .quantity = 1,
                  .operator_existing = kind,
                  .operator_insert = kind,
                  .use = PW_USE_BEDROOM,
                  .frame_face = 1.5 * PW_INCH,
                  .sash_face = 1.5 * PW_INCH,
                  .meeting_face = 1.5 * PW_INCH,
                  .sill_height = sill * PW_INCH,
                  .drop_outside = PW_NOT_GIVEN,
                  .near_door = PW_NOT_GIVEN,
                  .near_water = PW_NOT_GIVEN,
                  .near_walk = PW_NOT_GIVEN};
  for (int i = 0; i < 3; i++) {
    o.width[i] = width * PW_INCH;
    o.height[i] = height * PW_INCH;
  }
  return o;
}

static size_t tried(const pw_opening *o, pw_fit *fit, pw_remedy r[PW_REMEDIES_MAX])
{
  pw_frame_line line;
  pw_err err = {0};
  pw_frame_line_builtin(0, &line);
  if (pw_fit_opening(o, &line, fit, &err) != PW_OK) fail_msg("%s", err.text);
  return pw_escape_remedies(o, fit, r);
}

static const pw_remedy *of(const pw_remedy r[], size_t n, const char *words)
{
  for (size_t i = 0; i < n; i++)
    if (strstr(pw_message_word(NULL, r[i].what), words)) return &r[i];
  fail_msg("no remedy '%s'", words);
  return NULL;
}

/* 36 3/8 x 36 3/8 in less 3/8 orders 36 x 36. */
static void a_casement_of_the_same_size_clears_more(void **state)
{
  (void)state;
  pw_opening o = bedroom(PW_SLIDER, 36.375, 36.375, 30.0);
  pw_fit fit;
  pw_remedy r[PW_REMEDIES_MAX];
  size_t n = tried(&o, &fit, r);
  const pw_remedy *c = of(r, n, "casement of the same size");
  pw_assert_near(c->clear.width / PW_INCH, 30.0, 1e-9, "width", "36 - 6");
  pw_assert_near(c->clear.height / PW_INCH, 33.0, 1e-9, "height", "36 - 3");
  pw_assert_near(c->clear.area / PW_FOOT2, 30.0 * 33.0 / 144.0, 1e-9, "area", "6.875 ft2");
  pw_assert_near(c->clear.bottom / PW_INCH, 30.0 + 0.1875 + 1.5, 1e-9, "bottom",
                 "sill + joint");
  assert_int_equal(c->lacks, 0);
  const pw_remedy *v = of(r, n, "wider vent");
  pw_assert_near(v->clear.width / PW_INCH, 0.4 * 36.0 - 3.0, 1e-9, "vent 3/5", "min(v, 1 - v)");
  assert_true(v->lacks & PW_LACKS_AREA && v->lacks & PW_LACKS_WIDTH);
  pw_assert_near(of(r, n, "thirds")->clear.width / PW_INCH, 12.0 - 3.0, 1e-9, "thirds",
                 "36 / 3");
  for (size_t i = 0; i < n; i++) /* nothing to cut, nothing offered */
    assert_null(strstr(pw_message_word(NULL, r[i].what), "cut"));
  char text[320];
  pw_message says = pw_remedy_says(c);
  snprintf(text, sizeof text, "%s", pw_said(&says));
  assert_string_equal(
      text, "a casement of the same size: clear about 30 x 33 in = 6.9 ft2, bottom at "
            "31 3/4 in: would pass");
}

static void fins_and_lip_cut_give_their_inches(void **state)
{
  (void)state;
  pw_opening o = bedroom(PW_SINGLE_HUNG, 34.375, 59.375, 30.0);
  pw_fit fit;
  pw_remedy r[PW_REMEDIES_MAX];
  o.fin_width = 0.5 * PW_INCH;
  o.sill_lip = 0.5 * PW_INCH;
  size_t n = tried(&o, &fit, r);
  const pw_remedy *c = of(r, n, "the same kind, fins and lip cut");
  pw_assert_near(c->order_width / PW_INCH, 35.0, 1e-9, "order", "34 + two fins");
  pw_assert_near(c->order_height / PW_INCH, 59.5, 1e-9, "order", "59 + lip");
  pw_assert_near(c->clear.width / PW_INCH, 32.0, 1e-9, "width", "35 - 3");
  pw_assert_near(c->clear.height / PW_INCH, 59.5 / 2.0 - 3.0, 1e-9, "height", "half less 3");
  pw_assert_near((fit.clear_insert.bottom - c->clear.bottom) / PW_INCH, 0.5, 1e-9, "bottom",
                 "the lip that goes");
  const pw_remedy *s = of(r, n, "another split");
  pw_assert_near(s->clear.height / PW_INCH, 0.4 * 59.0 - 3.0, 1e-9, "3/5", "min(v, 1 - v)");
  o.fins_cut = 2;
  o.sill_lip_cut = 1;
  n = tried(&o, &fit, r);
  for (size_t i = 0; i < n; i++)
    assert_null(strstr(pw_message_word(NULL, r[i].what), "cut"));
}

static void a_high_or_unknown_bottom_is_said(void **state)
{
  (void)state;
  static const struct {
    double sill;
    unsigned lacks;
    const char *says;
  } row[] = {{42.25, 0, "would pass"}, /* 42 1/4 + 3/16 + 1 1/2 = 43 15/16 in */
             {42.375, PW_LACKS_BOTTOM, "fails, its bottom too high above the floor"},
             {PW_NOT_GIVEN, 0, "would pass if its bottom is at most 44 in above the floor"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_opening o = bedroom(PW_FLANKER, 48.375, 48.375, row[i].sill);
    pw_fit fit;
    pw_remedy r[PW_REMEDIES_MAX];
    char text[320];
    const pw_remedy *c = of(r, tried(&o, &fit, r), "casement of the same size");
    assert_int_equal(c->lacks, row[i].lacks);
    pw_message says = pw_remedy_says(c);
    snprintf(text, sizeof text, "%s", pw_said(&says));
    assert_non_null(strstr(text, row[i].says));
  }
}

/* A lip that is cut already, or that cannot be, lowers nothing more: fins alone are cut then. */
static void a_lip_lowers_the_bottom_once(void **state)
{
  (void)state;
  for (int stays = 0; stays < 2; stays++) {
    pw_opening o = bedroom(PW_SINGLE_HUNG, 34.375, 59.375, 30.0);
    pw_fit fit;
    pw_remedy r[PW_REMEDIES_MAX];
    o.fin_width = 0.5 * PW_INCH;
    o.sill_lip = 0.5 * PW_INCH;
    o.sill_lip_cut = !stays;
    o.lip_stay = stays;
    const pw_remedy *c = of(r, tried(&o, &fit, r), "the same kind");
    pw_assert_near((c->order_width - fit.order_width) / PW_INCH, 1.0, 1e-9, "order",
                   "two fins");
    pw_assert_near(c->order_height, fit.order_height, 1e-9, "order", "no more lip");
    pw_assert_near(c->clear.bottom, fit.clear_insert.bottom, 1e-9, "bottom", "as it is");
  }
}

/* Limits of safety.csv: 5.7 ft2, 5.0 at grade (EG1, EG2), 24 in high, 20 wide, at most 44 in above the floor; each by itself at its limit. */
static void lacks_are_told_at_the_limit(void **state)
{
  (void)state;
  static const struct {
    double ft2, width, height, bottom;
    int grade;
    unsigned lacks;
  } row[] = {
      {5.7, 20, 24, 44, 0, 0},
      {5.69, 20, 24, 44, 0, PW_LACKS_AREA},
      {5.0, 20, 24, 44, 1, 0},
      {4.99, 20, 24, 44, 1, PW_LACKS_AREA},
      {6, 19.99, 24, 44, 0, PW_LACKS_WIDTH},
      {6, 20, 23.99, 44, 0, PW_LACKS_HEIGHT},
      {6, 20, 24, 44.01, 0, PW_LACKS_BOTTOM},
      {6, 20, 24, -1, 0, 0},
      {1, 1, 1, 99, 0, PW_LACKS_AREA | PW_LACKS_WIDTH | PW_LACKS_HEIGHT | PW_LACKS_BOTTOM}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_opening o = bedroom(PW_SLIDER, 36.0, 36.0, 30.0);
    o.grade_floor = row[i].grade;
    const pw_clear c = {.area = row[i].ft2 * PW_FOOT2 + 1e-12,
                        .width = row[i].width * PW_INCH + 1e-12,
                        .height = row[i].height * PW_INCH + 1e-12,
                        .bottom = row[i].bottom * PW_INCH};
    assert_int_equal(escape_lacks(&o, &c), row[i].lacks);
  }
}

/* What is tried of each kind, nothing being there to cut: never what it has already. */
static void each_kind_has_its_own_remedies(void **state)
{
  (void)state;
  static const struct {
    pw_operator kind;
    size_t n;
    pw_message_number what[3];
  } row[] = {{PW_CASEMENT, 1, {PW_SAY_REMEDY_SLIDER_HALF}},
             {PW_AWNING, 2, {PW_SAY_REMEDY_CASEMENT, PW_SAY_REMEDY_SLIDER_HALF}},
             {PW_SLIDER,
              3,
              {PW_SAY_REMEDY_CASEMENT, PW_SAY_REMEDY_SLIDER_WIDER, PW_SAY_REMEDY_SPLIT_LITES}},
             {PW_FLANKER,
              3,
              {PW_SAY_REMEDY_CASEMENT, PW_SAY_REMEDY_SLIDER_HALF, PW_SAY_REMEDY_SPLIT_THIRDS}},
             {PW_SINGLE_HUNG,
              3,
              {PW_SAY_REMEDY_CASEMENT, PW_SAY_REMEDY_SLIDER_HALF, PW_SAY_REMEDY_SPLIT_LOWER}},
             {PW_DOUBLE_HUNG,
              3,
              {PW_SAY_REMEDY_CASEMENT, PW_SAY_REMEDY_SLIDER_HALF, PW_SAY_REMEDY_SPLIT_LOWER}},
             {PW_FIXED, 2, {PW_SAY_REMEDY_CASEMENT, PW_SAY_REMEDY_SLIDER_HALF}}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_opening o = bedroom(row[i].kind, 48.375, 48.375, 30.0);
    pw_fit fit;
    pw_remedy r[PW_REMEDIES_MAX];
    size_t n = tried(&o, &fit, r);
    if (n != row[i].n) fail_msg("row %zu: %zu", i, n);
    for (size_t k = 0; k < n; k++)
      assert_int_equal(r[k].what, row[i].what[k]);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_casement_of_the_same_size_clears_more),
      cmocka_unit_test(fins_and_lip_cut_give_their_inches),
      cmocka_unit_test(a_high_or_unknown_bottom_is_said),
      cmocka_unit_test(a_lip_lowers_the_bottom_once),
      cmocka_unit_test(lacks_are_told_at_the_limit),
      cmocka_unit_test(each_kind_has_its_own_remedies),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
