/* window/escape: what each other window would give where an escape opening fails. Allowances by hand from
 * reference/trade/SAFETY.md (from memory): casement width - 6, height - 3 in; slider width / 2 - 3, height
 * - 3; hung width - 3, height / 2 - 3. Limits: safety.csv EG1 5.7 ft2, EG3 24 in, EG4 20 in, EG5 44 in. */
#include "support.h"

#include <stdio.h>
#include <string.h>

#include "out/message_text.h"
#include "panewright/units.h"
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

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(a_casement_of_the_same_size_clears_more),
      cmocka_unit_test(fins_and_lip_cut_give_their_inches),
      cmocka_unit_test(a_high_or_unknown_bottom_is_said),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
