/* Kinds of windows beyond the two-lite ones, mulled units, glass by word: closed forms and hand sums. What a
 * run of moving lites leaves free is common practice, no source. */
#include "support.h"

#include <math.h>
#include <string.h>

#include "frame/catalogue.h"
#include "job/glass_word.h"
#include "panewright/fit.h"
#include "panewright/glazing.h"
#include "panewright/rating.h"
#include "panewright/units.h"
#include "window/mulled.h"
#include "window/opening_sound.h"

static const pw_frame_line vinyl = {.kind = PW_FRAME_VINYL,
                                    .operator_ = PW_OPERATOR_COUNT,
                                    .frame_face = 0.05,
                                    .sash_face = 0.075,
                                    .meeting_face = 0.045,
                                    .clearance = 0.375 * PW_INCH,
                                    .absorptance = 0.3};

static pw_opening opening(pw_operator kind, const char *config, double width, double height)
{
  pw_opening o = {.tag = "T",
                  .quantity = 1,
                  .operator_existing = kind,
                  .operator_insert = kind,
                  .sill_height = 30.0 * PW_INCH,
                  .frame_face = 1.0 * PW_INCH,
                  .sash_face = 1.5 * PW_INCH,
                  .meeting_face = 1.5 * PW_INCH};
  memcpy(o.config, config, strlen(config) + 1);
  for (int k = 0; k < 3; k++) {
    o.width[k] = width * PW_INCH;
    o.height[k] = height * PW_INCH;
  }
  o.diagonal[0] = o.diagonal[1] = hypot(width, height) * PW_INCH;
  return o;
}

static pw_fit fit_of(const pw_opening *o)
{
  pw_fit f;
  pw_err err = {0};
  if (pw_fit_opening(o, &vinyl, &f, &err) != PW_OK) fail_msg("%s", err.text);
  return f;
}

/* Glass of n lites of one width in W x H: moving ones within the sash, the rest within the frame, rails
 * between: sum over lites of (width - what covers it) (H - 2 face). */
static void lites_are_of_one_width(void **state)
{
  (void)state;
  static const struct {
    pw_operator kind;
    const char *config;
    size_t n;
  } row[] = {{PW_SLIDER, "XO", 2},        {PW_SLIDER, "XX", 2},
             {PW_SLIDER, "XOX", 3},       {PW_SLIDER, "XOOX", 4},
             {PW_SLIDING_DOOR, "OXO", 3}, {PW_SLIDING_DOOR, "OXXO", 4},
             {PW_SLIDING_DOOR, "OX", 2},  {PW_SLIDING_DOOR, "XXO", 3}};
  double w = 3.0, h = 1.2, frame = 0.03, sash = 0.06, rail = 0.05;
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_lites l;
    pw_err err = {0};
    size_t n = row[i].n;
    if (pw_lites_cut(row[i].kind, row[i].config, w, h, frame, sash, rail, &l, &err) != PW_OK)
      fail_msg("%s", err.text);
    assert_int_equal(l.n_lite, n);
    assert_int_equal(l.n_meeting, n - 1);
    double glass = 0.0;
    for (size_t k = 0; k < n; k++) {
      int moves = row[i].config[k] == 'X';
      double face = moves ? sash : frame, ends = (k == 0) + (k + 1 == n);
      glass += (w / (double)n - ends * face - (2.0 - ends) * 0.5 * rail) * (h - 2.0 * face);
      assert_int_equal(l.lite[k].moving, moves);
    }
    pw_assert_near(l.glass_area, glass, 1e-12, row[i].config, "sum of lites");
    pw_assert_near(l.glass_area + l.frame_area, w * h, 1e-12, row[i].config, "whole window");
  }
}

static void what_slides_open_is_what_the_fixed_can_hold(void **state)
{
  (void)state;
  static const struct {
    pw_operator kind;
    const char *config;
    double share;
  } row[] = {{PW_SLIDER, "XO", 0.5},
             {PW_SLIDER, "XX", 0.5},
             {PW_SLIDER, "XOX", 1.0 / 3.0},
             {PW_SLIDER, "XOOX", 0.25},
             {PW_SLIDING_DOOR, "OXXO", 0.5},
             {PW_SLIDING_DOOR, "XXO", 1.0 / 3.0},
             {PW_SLIDING_DOOR, "OXO", 1.0 / 3.0},
             {PW_FLANKER, "XOX", 0.25}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_opening o = opening(row[i].kind, row[i].config, 120.0, 48.0);
    pw_fit f = fit_of(&o);
    double sash = 2.0; /* SAFETY.md, low allowance */
    pw_assert_near(f.clear_existing.width / PW_INCH, row[i].share * 120.0 - sash, 1e-9,
                   row[i].config, "share of the width less the low allowance");
    pw_assert_near(f.clear_insert.width / PW_INCH, row[i].share * f.order_width / PW_INCH - 3.0,
                   1e-9, row[i].config, "share of the order less the high allowance");
  }
  /* An awning, a hopper, a jalousie: nobody is counted on to climb through. */
  static const pw_operator none[] = {PW_AWNING, PW_HOPPER, PW_JALOUSIE, PW_FIXED};
  for (size_t i = 0; i < 4; i++) {
    pw_opening o = opening(none[i], "", 40.0, 48.0);
    o.operator_insert = PW_FIXED;
    assert_true(fit_of(&o).clear_existing.area == 0.0);
  }
}

/* A flanker with a slider set in its place keeps two lites: its three letters are not the slider's. */
static void old_jobs_read_alike(void **state)
{
  (void)state;
  pw_opening o = opening(PW_FLANKER, "XOX", 96.0, 48.0);
  pw_fit f = fit_of(&o);
  assert_int_equal(f.existing.n_lite, 3);
  pw_assert_near(f.existing.lite[1].x / PW_INCH, 24.75, 1e-9, "middle lite",
                 "a quarter, half a rail");
  o.operator_insert = PW_SLIDER;
  assert_int_equal(fit_of(&o).insert.n_lite, 2);
  o = opening(PW_SLIDER, "XOX", 96.0, 48.0);
  f = fit_of(&o);
  assert_int_equal(f.insert.n_lite, 3);
  pw_assert_near(f.existing.lite[1].x / PW_INCH, 32.75, 1e-9, "middle lite",
                 "a third, half a rail");
}

static void a_hinged_door_has_its_glass_share(void **state)
{
  (void)state;
  for (double share = 0.1; share < 0.95; share += 0.1) {
    pw_opening o = opening(PW_HINGED_DOOR, "", 36.0, 80.0);
    o.glass_share = share;
    pw_fit f = fit_of(&o);
    pw_assert_near(f.existing.glass_area, share * 36.0 * 80.0 * PW_INCH * PW_INCH, 1e-9,
                   "old glass", "share of the door");
    pw_assert_near(f.insert.glass_area, share * f.order_width * f.order_height, 1e-9,
                   "new glass", "share of the door");
  }
  pw_opening o = opening(PW_HINGED_DOOR, "", 36.0, 80.0);
  pw_fit f = fit_of(&o);
  pw_assert_near(f.existing.glass_area, 33.0 * 77.0 * PW_INCH * PW_INCH, 1e-9, "by its faces",
                 "36 - 3, 80 - 3");
}

/* Joints of a jalousie: round it, and across between each two louvres of 4 in. */
static void a_jalousie_leaks_between_its_louvres(void **state)
{
  (void)state;
  pw_lites one, other;
  pw_joint_lengths a, b;
  assert_int_equal(pw_lites_cut(PW_CASEMENT, "", 0.9, 1.05, 0.0, 0.02, 0.0, &one, NULL), PW_OK);
  assert_int_equal(pw_lites_cut(PW_JALOUSIE, "", 0.9, 1.05, 0.0, 0.02, 0.0, &other, NULL),
                   PW_OK);
  pw_joints_of(&one, &a);
  pw_joints_of(&other, &b);
  pw_assert_near(b.moving - a.moving, 9.0 * 0.86, 1e-12, "joints", "ten louvres, nine between");
  pw_assert_near(b.fixed, a.fixed, 0.0, "fixed", "none");
}

static void steel_and_new_kinds_say_which_row_they_take(void **state)
{
  (void)state;
  for (size_t n = 1; n <= 3; n++) {
    pw_given steel, aluminium, casement, hopper;
    assert_int_equal(
        pw_catalogue_frame_u(PW_FRAME_STEEL, PW_SLIDER, n, PW_SPACER_METAL, &steel, NULL),
        PW_OK);
    assert_int_equal(pw_catalogue_frame_u(PW_FRAME_ALUMINIUM, PW_SLIDER, n, PW_SPACER_METAL,
                                          &aluminium, NULL),
                     PW_OK);
    pw_assert_near(steel.value, aluminium.value, 0.0, "steel", "stands in");
    assert_true(steel.spread > 0.0 && aluminium.spread == 0.0);
    assert_int_equal(steel.origin, PW_ORIGIN_ASSUMED);
    assert_non_null(strstr(steel.source, "aluminium"));
    assert_int_equal(
        pw_catalogue_frame_u(PW_FRAME_WOOD, PW_CASEMENT, n, PW_SPACER_METAL, &casement, NULL),
        PW_OK);
    assert_int_equal(
        pw_catalogue_frame_u(PW_FRAME_WOOD, PW_HOPPER, n, PW_SPACER_METAL, &hopper, NULL),
        PW_OK);
    pw_assert_near(hopper.value, casement.value, 0.0, "hopper", "operable");
    assert_non_null(strstr(hopper.source, "nearest row"));
  }
}

/* ---- mulled units ---- */

static pw_rating insert_rating(const pw_opening *o, pw_fit *fit)
{
  pw_buildup b = {.n_pane = 2};
  pw_glazing g;
  pw_package package = {.spacer = PW_SPACER_METAL, .filling = "foam"};
  pw_rating r;
  pw_err err = {0};
  for (size_t i = 0; i < 2; i++) {
    b.pane[i].thickness = 0.003;
    memcpy(b.pane[i].kind, "clear", 6);
  }
  b.gap[0].thickness = 0.0127;
  b.gap[0].mix.share[PW_AIR] = 1.0;
  *fit = fit_of(o);
  if (pw_glazing_build(&b, &g, &err) != PW_OK ||
      pw_rating_insert(fit, &package, &vinyl, &g, NULL, &r, &err) != PW_OK)
    fail_msg("%s", err.text);
  return r;
}

static void a_mullion_is_counted_once_as_frame(void **state)
{
  (void)state;
  pw_opening o[3] = {opening(PW_FIXED, "", 48.0, 48.0), opening(PW_CASEMENT, "", 24.0, 46.0),
                     opening(PW_FIXED, "", 40.0, 12.0)};
  for (int i = 0; i < 3; i++)
    memcpy(o[i].unit, "A", 2);
  o[1].mullion_face = 3.0 * PW_INCH;
  o[2].mullion_face = 2.0 * PW_INCH;
  o[2].unit_joint = PW_JOINT_OVER;
  pw_fit alone[3], joined[3];
  pw_rating was[3], now[3];
  for (int i = 0; i < 3; i++)
    was[i] = insert_rating(&o[i], &alone[i]);
  assert_int_equal(pw_mulled_join(o, 3, NULL), PW_OK);
  double inch2 = PW_INCH * PW_INCH;
  pw_assert_near(o[0].mullion_area, 0.0, 0.0, "first", "the others join it");
  pw_assert_near(o[1].mullion_area, 3.0 * 46.0 * inch2, 1e-12, "beside", "its height");
  pw_assert_near(o[2].mullion_area, 2.0 * 40.0 * inch2, 1e-12, "over", "its width");
  for (int i = 0; i < 3; i++) {
    now[i] = insert_rating(&o[i], &joined[i]);
    double m = o[i].mullion_area;
    pw_assert_near(joined[i].opening_area, alone[i].opening_area + m, 1e-12, "opening",
                   "by hand");
    pw_assert_near(joined[i].existing_frame_area, alone[i].existing_frame_area + m, 1e-12,
                   "old frame", "by hand");
    pw_assert_near(joined[i].retained_area, alone[i].retained_area, 1e-12, "ring", "untouched");
    pw_assert_near(now[i].areas.frame, was[i].areas.frame + m, 1e-9, "frame", "by hand");
    /* U A of the opening grows by U of the frame times the mullion. */
    pw_assert_near(now[i].u * now[i].area, was[i].u * was[i].area + was[i].u_frame.value * m,
                   1e-9, "U A", "by hand");
    pw_assert_near(now[i].vt * now[i].area, was[i].vt * was[i].area, 1e-12, "light",
                   "untouched");
  }
  /* Rows in another order: each keeps its mullion. */
  pw_opening turned[3] = {o[2], o[0], o[1]};
  assert_int_equal(pw_mulled_join(turned, 3, NULL), PW_OK);
  for (int i = 0; i < 3; i++)
    pw_assert_near(turned[(i + 1) % 3].mullion_area, o[i].mullion_area, 0.0, "mullion",
                   "turned");
  pw_err none = {0};
  turned[1].unit_joint = PW_JOINT_BESIDE;
  assert_int_equal(pw_mulled_join(turned, 3, &none), PW_E_DOMAIN);
  assert_non_null(strstr(none.text, "every row of unit A joins"));
  o[1].quantity = 2;
  pw_err err = {0};
  assert_int_equal(pw_mulled_join(o, 3, &err), PW_E_DOMAIN);
  assert_non_null(strstr(err.text, "one unit"));
}

static void glass_by_word(void **state)
{
  (void)state;
  static const struct {
    const char *word, *taken;
  } row[] = {{"single clear", "3mm clear"},
             {"Single-Clear", "3mm clear"},
             {"tinted", "3mm bronze"},
             {"obscure", "3mm obscure"},
             {"tempered", "3mm clear"},
             {"double pane", "3mm clear / 6.35mm air / 3mm clear"},
             {"DOUBLE CLEAR", "3mm clear / 6.35mm air / 3mm clear"},
             {"3mm clear", NULL},
             {"5mm obscure", NULL},
             {"", NULL}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    const char *got = job_glass_word(row[i].word);
    if (row[i].taken ? !got || strcmp(got, row[i].taken) != 0 : got != NULL)
      fail_msg("%s: %s", row[i].word, got ? got : "none");
  }
}

/* Of three or four lites that slide, what can stand open at once: a run of moving ones stacks over the fixed ones beside it, as many as there are; the
 * best run counts. Of two lites, and of what does not slide, the kind says it. */
static void runs_of_lites_stack_over_fixed_ones(void **state)
{
  (void)state;
  static const struct {
    pw_operator kind;
    const char *config;
    double share;
  } row[] = {{PW_SLIDER, "XOX", 1.0 / 3.0},
             {PW_SLIDER, "XOO", 1.0 / 3.0},
             {PW_SLIDER, "OOX", 1.0 / 3.0},
             {PW_SLIDER, "XXO", 1.0 / 3.0},
             {PW_SLIDER, "OXX", 1.0 / 3.0},
             {PW_SLIDER, "OXO", 1.0 / 3.0},
             {PW_SLIDER, "XXX", 0.0},
             {PW_SLIDING_DOOR, "XOOX", 0.25},
             {PW_SLIDING_DOOR, "OXXO", 0.5},
             {PW_SLIDING_DOOR, "XXOO", 0.5},
             {PW_SLIDING_DOOR, "OOXX", 0.5},
             {PW_SLIDING_DOOR, "XOOO", 0.25},
             {PW_SLIDING_DOOR, "OXOO", 0.25},
             {PW_SLIDER, "XO", 0.0},
             {PW_SLIDER, "", 0.0},
             {PW_FLANKER, "XOX", 0.0},
             {PW_CASEMENT, "", 0.0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    pw_assert_near(pw_operator_open_share(row[i].kind, row[i].config), row[i].share, 1e-12,
                   row[i].config, "by hand");
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(lites_are_of_one_width),
      cmocka_unit_test(what_slides_open_is_what_the_fixed_can_hold),
      cmocka_unit_test(old_jobs_read_alike),
      cmocka_unit_test(a_hinged_door_has_its_glass_share),
      cmocka_unit_test(a_jalousie_leaks_between_its_louvres),
      cmocka_unit_test(steel_and_new_kinds_say_which_row_they_take),
      cmocka_unit_test(a_mullion_is_counted_once_as_frame),
      cmocka_unit_test(glass_by_word),
      cmocka_unit_test(runs_of_lites_stack_over_fixed_ones),
  };
  pw_test_begin();
  return cmocka_run_group_tests(tests, NULL, NULL);
}
