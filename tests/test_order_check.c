/* What keeps an opening from being ordered: readings, slips beside a neighbour, rooms by their name,
 * names of columns that no reader knows. */
#include "support.h"

#include <stdio.h>
#include <string.h>

#include "job/room_name.h"
#include "job/unknown.h"
#include "panewright/units.h"
#include "window/frame_line.h"
#include "window/order_check.h"

static const pw_opening slider = {.tag = "T",
                                  .quantity = 1,
                                  .operator_existing = PW_SLIDER,
                                  .operator_insert = PW_SLIDER,
                                  .config = "XO",
                                  .frame_face = 1.5 * PW_INCH,
                                  .sash_face = 1.5 * PW_INCH,
                                  .meeting_face = 1.5 * PW_INCH,
                                  .sill_height = 30.0 * PW_INCH,
                                  .drop_outside = 18.0 * PW_INCH,
                                  .near_door = PW_NOT_GIVEN,
                                  .near_water = PW_NOT_GIVEN,
                                  .near_walk = PW_NOT_GIVEN};

static pw_opening sized(const char *tag, double width, double height)
{
  pw_opening o = slider;
  snprintf(o.tag, sizeof o.tag, "%s", tag);
  for (int i = 0; i < 3; i++) {
    o.width[i] = width * PW_INCH;
    o.height[i] = height * PW_INCH;
  }
  return o;
}

static pw_fit fitted(const pw_opening *o)
{
  pw_frame_line line;
  pw_fit fit;
  pw_err err = {0};
  pw_frame_line_builtin(0, &line);
  if (pw_fit_opening(o, &line, &fit, &err) != PW_OK) fail_msg("%s", err.text);
  return fit;
}

static int found(const pw_fit *fit, pw_finding_kind kind)
{
  for (size_t k = 0; k < fit->n_finding; k++)
    if (fit->finding[k].kind == kind) return 1;
  return 0;
}

static int may_order(const pw_fit *fit)
{
  pw_cautions none = {0};
  pw_order_check check;
  pw_order_check_of(0, fit, &none, &check);
  assert_int_equal(check.may_order, check.n == 0);
  return check.may_order;
}

/* Limits of issue 13: 1/8 in to look again, 1/2 in not to order (common practice, measure.csv M7). */
static void readings_apart_are_measured_again(void **state)
{
  (void)state;
  static const struct {
    double apart; /* in, of one of three widths */
    int remark, blocks;
  } row[] = {{0.0, 0, 0}, {0.125, 0, 0},  {0.1875, 1, 0},
             {0.5, 1, 0}, {0.5625, 0, 1}, {10.0, 0, 1}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    for (int upright = 0; upright < 2; upright++) {
      pw_opening o = sized("T", 47.5, 35.5);
      o.diagonal[0] = o.diagonal[1] = 59.3 * PW_INCH; /* sqrt(47.5^2 + 35.5^2) */
      (upright ? o.height : o.width)[2] += row[i].apart * PW_INCH;
      pw_fit fit = fitted(&o);
      assert_int_equal(found(&fit, PW_FINDING_SPREAD), row[i].remark);
      assert_int_equal(found(&fit, PW_FINDING_APART), row[i].blocks);
      assert_int_equal(may_order(&fit), !row[i].blocks);
      assert_int_equal(pw_fit_square(&fit), row[i].blocks ? PW_SQUARE_REMEASURE : PW_SQUARE_OK);
      o.diagonal[0] = o.diagonal[1] = 0.0; /* not square, and no diagonals to tell how */
      fit = fitted(&o);
      assert_int_equal(found(&fit, PW_FINDING_UNSQUARE), row[i].apart > 0.125);
      assert_int_equal(may_order(&fit), row[i].apart <= 0.125);
    }
}

static void parts_too_large_and_sills_too_low_hold_the_order(void **state)
{
  (void)state;
  static const struct {
    double fin, lip, sill;
    pw_operator kind;
    int may;
  } row[] = {{1.25, 0.5, 30.0, PW_SLIDER, 1},       {1.3125, 0.5, 30.0, PW_SLIDER, 0},
             {0.5, 1.25, 30.0, PW_SLIDER, 1},       {0.5, 1.3125, 30.0, PW_SLIDER, 0},
             {0.5, 0.5, 4.0, PW_SLIDER, 1},         {0.5, 0.5, 3.875, PW_SLIDER, 0},
             {0.5, 0.5, 2.5, PW_FIXED, 0},          {0.5, 0.5, 1.0, PW_SLIDING_DOOR, 1},
             {0.5, 0.5, PW_NOT_GIVEN, PW_SLIDER, 1}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_opening o = sized("T", 71.5, 79.5);
    o.operator_existing = o.operator_insert = row[i].kind;
    o.diagonal[0] = o.diagonal[1] = 106.9 * PW_INCH;
    o.fin_width = row[i].fin * PW_INCH;
    o.sill_lip = row[i].lip * PW_INCH;
    o.sill_height = row[i].sill * PW_INCH;
    pw_fit fit = fitted(&o);
    if (may_order(&fit) != row[i].may) fail_msg("row %zu", i);
    if (!row[i].may) assert_int_equal(pw_fit_square(&fit), PW_SQUARE_REMEASURE);
  }
}

static void a_slip_beside_a_neighbour_is_named(void **state)
{
  (void)state;
  static const struct {
    double width, height; /* of the second; the first is 59.5 x 47.5 */
    int slip, foot;
  } row[] = {{60.5, 47.5, 1, 0},  {60.25, 47.75, 1, 0}, {60.0, 47.5, 0, 0}, {69.5, 47.5, 1, 0},
             {49.75, 47.5, 1, 0}, {59.5, 37.5, 1, 0},   {71.5, 47.5, 0, 1}, {59.5, 35.25, 0, 1},
             {69.5, 48.0, 0, 0},  {59.5, 47.5, 0, 0},   {69.5, 57.5, 0, 0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_opening o[3] = {sized("A1", 59.5, 47.5), sized("A2", row[i].width, row[i].height),
                       sized("A3", 59.5, 47.5)};
    pw_fit fit[3] = {fitted(&o[0]), fitted(&o[1]), fitted(&o[2])};
    pw_fit_neighbours(o, 3, fit);
    if (found(&fit[1], PW_FINDING_SLIP) != row[i].slip ||
        found(&fit[1], PW_FINDING_FOOT) != row[i].foot)
      fail_msg("row %zu: %s", i, pw_said(&fit[1].finding[fit[1].n_finding - 1].says));
    assert_int_equal(may_order(&fit[1]), !row[i].slip);
    assert_true(may_order(&fit[0]) &&
                may_order(&fit[2])); /* two are alike: no slip of theirs */
    if (row[i].slip) {
      const char *text = pw_said(&fit[1].finding[fit[1].n_finding - 1].says);
      assert_non_null(strstr(text, "likely slip"));
      assert_non_null(strstr(text, "A1 ("));
    }
  }
}

static void diagonals_and_another_operator_clear_a_slip(void **state)
{
  (void)state;
  pw_opening o[2] = {sized("A1", 59.5, 47.5), sized("A2", 69.5, 47.5)};
  o[1].diagonal[0] = o[1].diagonal[1] = 84.18 * PW_INCH; /* sqrt(69.5^2 + 47.5^2) */
  pw_fit fit[2] = {fitted(&o[0]), fitted(&o[1])};
  pw_fit_neighbours(o, 2, fit);
  assert_true(may_order(&fit[1]));
  assert_true(found(&fit[1], PW_FINDING_TEN)); /* a remark */
  assert_true(found(&fit[0], PW_FINDING_SLIP) && !found(&fit[0], PW_FINDING_TEN));
  o[1] = sized("A2", 60.5, 47.5); /* 1 in confirmed: nothing to say */
  o[1].diagonal[0] = o[1].diagonal[1] = 76.92 * PW_INCH;
  fit[0] = fitted(&o[0]);
  fit[1] = fitted(&o[1]);
  pw_fit_neighbours(o, 2, fit);
  assert_false(found(&fit[1], PW_FINDING_TEN) || found(&fit[1], PW_FINDING_SLIP));
  o[1] = sized("A2", 69.5, 47.5);
  o[1].diagonal[0] = o[1].diagonal[1] = 76.13 * PW_INCH; /* of 59.5 x 47.5: the slip is in A2 */
  fit[0] = fitted(&o[0]);
  fit[1] = fitted(&o[1]);
  pw_fit_neighbours(o, 2, fit);
  assert_true(found(&fit[1], PW_FINDING_DIAGONAL) && found(&fit[1], PW_FINDING_SLIP));
  o[1] = sized("A2", 69.5, 47.5);
  o[1].operator_existing = o[1].operator_insert = PW_FIXED;
  fit[0] = fitted(&o[0]);
  fit[1] = fitted(&o[1]);
  pw_fit_neighbours(o, 2, fit);
  assert_true(may_order(&fit[0]) && may_order(&fit[1]));
}

static void cautions_that_bear_on_the_order_hold_it(void **state)
{
  (void)state;
  static const struct {
    const char *id;
    int opening;
    pw_caution_state state;
    int may;
  } row[] = {{"EG1", 0, PW_CAUTION_FAIL, 0}, {"EG5", 0, PW_CAUTION_ASK, 0},
             {"SG1", 0, PW_CAUTION_ASK, 0},  {"SG1", 0, PW_CAUTION_FLAG, 1},
             {"FP1", 0, PW_CAUTION_ASK, 1},  {"EG1", 1, PW_CAUTION_FAIL, 1},
             {"EG9", 0, PW_CAUTION_FLAG, 1}, {"EG10", 0, PW_CAUTION_ASK, 0}};
  pw_opening o = sized("T", 47.5, 35.5);
  pw_fit fit = fitted(&o);
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_caution one = {.id = row[i].id, .opening = row[i].opening, .state = row[i].state};
    pw_cautions list = {.caution = &one, .n = 1};
    pw_order_check check;
    pw_order_check_of(0, &fit, &list, &check);
    if (check.may_order != row[i].may) fail_msg("row %zu %s", i, row[i].id);
  }
}

static void rooms_say_whether_one_sleeps_there(void **state)
{
  (void)state;
  static const struct {
    const char *name;
    job_room room;
  } row[] = {{"Bedroom 2", JOB_ROOM_SLEEPS},
             {"MASTER BED", JOB_ROOM_SLEEPS},
             {"bdrm 3", JOB_ROOM_SLEEPS},
             {"BR2", JOB_ROOM_SLEEPS},
             {"Sleeping porch", JOB_ROOM_SLEEPS},
             {"Nursery", JOB_ROOM_SLEEPS},
             {"Guest", JOB_ROOM_SLEEPS},
             {"guest room", JOB_ROOM_SLEEPS},
             {"Dormitorio", JOB_ROOM_SLEEPS},
             {"Rec\xC3\xA1mara principal", JOB_ROOM_SLEEPS},
             {"recamara 2", JOB_ROOM_SLEEPS},
             {"Den", JOB_ROOM_ASKS},
             {"Home office", JOB_ROOM_ASKS},
             {"Basement", JOB_ROOM_ASKS},
             {"Master", JOB_ROOM_ASKS},
             {"Guest bath", JOB_ROOM_ASKS},
             {"Living", JOB_ROOM_OTHER},
             {"Kitchen", JOB_ROOM_OTHER},
             {"Garden room", JOB_ROOM_OTHER},
             {"Hall bath", JOB_ROOM_OTHER},
             {"", JOB_ROOM_OTHER}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
    if (job_room_read(row[i].name) != row[i].room) fail_msg("%s", row[i].name);
}

static void unknown_names_are_told_or_refused(void **state)
{
  (void)state;
  static const char *const known[] = {"floor_area", "width_bottom", "quantity",
                                      "existing_glass", "climate"};
  static const struct {
    const char *name;
    int is_order, refused;
    const char *says; /* "" silence */
  } row[] = {{"Floor Area (sq ft)", 0, 1, "is named floor_area"},
             {"Floor area, sq ft", 0, 1, "is named floor_area"},
             {"FLOOR_AREA_SQFT", 0, 1, "is named floor_area"},
             {"Square Feet", 0, 1, "is named floor_area"},
             {"Width Bottom [in]", 1, 1, "is named width_bottom"},
             {"Qty", 1, 1, "is named quantity"},
             {"ZIP code", 0, 1, "is named climate"},
             {"tempered", 1, 1, "changes an order"},
             {"Tempered?", 1, 1, "changes an order"},
             {"leave", 1, 1, "changes an order"},
             {"obscure glass", 1, 1, "(nearest: existing_glass)"},
             {"shape", 1, 1, "changes an order"},
             {"unit", 1, 1, "changes an order"},
             {"tempered", 0, 0, "'tempered' is not known and was left out"},
             {"glass maker", 0, 0, "the nearest is existing_glass"},
             {"neighbour's dog", 1, 0, "is not known and was left out (note_neighbour_s_dog"},
             {"note_tempered", 1, 0, ""},
             {"Note: shape", 1, 0, ""}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_notes notes = {0};
    pw_err err = {0};
    job_unknown_at at = {"f.csv", 1, 2, "item", row[i].is_order};
    pw_status got = job_unknown_name(row[i].name, known, 5, &at, &notes, &err);
    const char *text = got != PW_OK ? err.text : notes.n ? notes.note[0].value : "";
    assert_int_equal(got != PW_OK, row[i].refused);
    if (row[i].says[0] ? !strstr(text, row[i].says) : text[0] != '\0')
      fail_msg("%s: %s", row[i].name, text);
    if (notes.n) assert_int_equal(notes.note[0].kind, PW_NOTE_UNKNOWN);
    pw_notes_free(&notes);
  }
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(readings_apart_are_measured_again),
      cmocka_unit_test(parts_too_large_and_sills_too_low_hold_the_order),
      cmocka_unit_test(a_slip_beside_a_neighbour_is_named),
      cmocka_unit_test(diagonals_and_another_operator_clear_a_slip),
      cmocka_unit_test(cautions_that_bear_on_the_order_hold_it),
      cmocka_unit_test(rooms_say_whether_one_sleeps_there),
      cmocka_unit_test(unknown_names_are_told_or_refused),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
