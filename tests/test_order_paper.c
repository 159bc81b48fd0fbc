/* The maker's words and the change order: a build-up by surface, what becomes of a row between two lists. */
#include "support.h"

#include <stdio.h>
#include <string.h>

#include "job/order_file.h"
#include "out/change_order.h"
#include "out/glass_said.h"
#include "panewright/glazing.h"

static void said(const char *buildup, const char *tongue, const char *want)
{
  pw_buildup glass;
  const pw_tongue *t = NULL;
  char text[PW_TEXT_MAX];
  assert_int_equal(pw_buildup_parse(buildup, &glass, NULL), PW_OK);
  assert_true(pw_tongue_find(tongue, &t));
  pw_glass_said(t, &glass, text, sizeof text);
  assert_string_equal(text, want);
}

/* Surfaces are numbered from outdoors, two a pane: the trade's and the standards' way (ISO 15099). 12.7 mm = 1/2 in. */
static void glass_is_said_by_surface(void **state)
{
  (void)state;
  said("3mm clear coat ag2@2 / 12.7mm argon 90% / 3mm clear", "en",
       "3 mm clear; surface 2: two-silver low-e | gap 12.7 mm (1/2 in), argon 90 %, air 10 % | "
       "3 mm clear");
  said("5mm bronze / 1/2 in air / 6mm laminated", "en",
       "5 mm bronze tint | gap 12.7 mm (1/2 in), air | 6 mm laminated");
  said("3mm clear / 6.35mm krypton / 3mm clear emit 0.10@3 / 6.35mm argon / 3mm clear coat "
       "pyr20@6",
       "en",
       "3 mm clear | gap 6.35 mm (1/4 in), krypton | 3 mm clear; surface 3: emissivity 0.1 | "
       "gap "
       "6.35 mm (1/4 in), argon | 3 mm clear; surface 6: hard-coat low-e");
  said(
      "3mm clear coat ag2@2 / 12.7mm air / 3mm clear", "es",
      "3 mm claro; cara 2: baja emisividad de dos platas | espacio 12.7 mm (1/2 pulg.), aire | "
      "3 mm claro");
}

static const char head[] =
    "tag,room,quantity,operator,width_in,height_in,glass,tempered,may_order,install_note";

/* Two lists of the same columns, each the rows given. */
static void lists(const char *before, const char *after, pw_order_file o[2])
{
  const char *const rows[2] = {before, after};
  for (int k = 0; k < 2; k++) {
    char text[2000];
    pw_err err = {0};
    int n = snprintf(text, sizeof text, "%s\n%s", head, rows[k]);
    if (pw_order_parse("o.csv", text, (size_t)n, &o[k], &err) != PW_OK)
      fail_msg("%s", err.text);
  }
}

static pw_change fate(const char *before, const char *after)
{
  pw_order_file o[2];
  pw_change_order change = {.before = &o[0], .after = &o[1]};
  lists(before, after, o);
  pw_change kind =
      pw_change_of(&change, pw_order_row(&o[0], "", "A"), pw_order_row(&o[1], "", "A"));
  pw_order_free(&o[0]);
  pw_order_free(&o[1]);
  return kind;
}

static void a_row_becomes_what_it_is(void **state)
{
  static const char a[] = "A,Hall,1,fixed,35 1/2,47,3mm clear,no,yes,\"Cut, then shim.\"\n";
  static const char wider[] = "A,Hall,1,fixed,35 5/8,47,3mm clear,no,yes,\n";
  static const char held[] = "A,Hall,1,fixed,35 1/2,47,3mm clear,no,no,\n";
  static const char other[] = "B,Hall,1,fixed,35 1/2,47,3mm clear,no,yes,\n";
  (void)state;
  assert_int_equal(fate(a, a), PW_CHANGE_NONE);
  /* the crew's words, and another way to write a length or a count, change no window */
  assert_int_equal(fate(a, "A,Hall,1,fixed,35.5,47,3mm clear,no,yes,\n"), PW_CHANGE_NONE);
  assert_int_equal(fate(a, wider), PW_CHANGE_CHANGED);
  assert_int_equal(fate(a, "A,Hall,2,fixed,35 1/2,47,3mm clear,no,yes,\n"), PW_CHANGE_CHANGED);
  assert_int_equal(fate(a, "A,Hall,1,fixed,35 1/2,47,3mm clear,YES,yes,\n"), PW_CHANGE_CHANGED);
  assert_int_equal(fate(a, "A,Hall,1,awning,35 1/2,47,3mm clear,no,yes,\n"), PW_CHANGE_CHANGED);
  assert_int_equal(fate(a, "A,Hall,1,fixed,35 1/2,47,5mm clear,no,yes,\n"), PW_CHANGE_CHANGED);
  assert_int_equal(fate(a, held), PW_CHANGE_HELD);
  assert_int_equal(fate(held, a), PW_CHANGE_ADDED);
  assert_int_equal(fate(held, held), PW_CHANGE_APART);
  assert_int_equal(fate(other, a), PW_CHANGE_ADDED);
  assert_int_equal(fate(a, other), PW_CHANGE_WITHDRAWN);
  assert_int_equal(fate(held, other), PW_CHANGE_APART);
}

/* A job whose one window gets grilles has columns that it had not before: for the others they say what was. */
static void columns_that_come_change_nothing_by_themselves(void **state)
{
  static const char old[] =
      "tag,quantity,operator,width_in,height_in,glass,tempered,may_order\n"
      "A,1,fixed,35,47,3mm clear,no,yes\nB,1,fixed,35,47,3mm clear,no,yes\n";
  static const char new[] =
      "tag,quantity,operator,width_in,height_in,glass,tempered,may_order,tempered_asked,"
      "pattern,"
      "tint,grilles,grille_pattern,grille_bar_in,screen,pet_panel,colour,hinge,maker_note,"
      "shape,"
      "rise_in,template,unit,spacer,design_pressure_psf\n"
      "A,1,fixed,35,47,3mm "
      "clear,no,yes,rule,none,none,none,,,no,no,,,,rectangle,,no,,metal,25\n"
      "B,1,fixed,35,47,3mm clear,no,yes,rule,none,none,between,3x2,3/4,no,no,,,,rectangle,,no,,"
      "metal,25\n";
  pw_order_file b, a;
  pw_err err = {0};
  (void)state;
  if (pw_order_parse("b.csv", old, strlen(old), &b, &err) != PW_OK) fail_msg("%s", err.text);
  if (pw_order_parse("a.csv", new, strlen(new), &a, &err) != PW_OK) fail_msg("%s", err.text);
  const pw_change_order change = {.before = &b, .after = &a};
  assert_int_equal(pw_change_of(&change, 0, 0), PW_CHANGE_NONE);
  assert_int_equal(pw_change_of(&change, 1, 1), PW_CHANGE_CHANGED);
  assert_true(pw_change_differs(&change, 1, 1, PW_ORDER_GRILLES));
  assert_false(
      pw_change_differs(&change, 1, 1, PW_ORDER_SPACER)); /* the old list does not say */
  assert_false(pw_change_differs(&change, 1, 1, PW_ORDER_PRESSURE));
  pw_order_free(&b);
  pw_order_free(&a);
}

static void a_bad_list_is_refused_at_its_place(void **state)
{
  static const struct {
    const char *rows, *says;
    int line, column;
  } bad[] = {
      {",Hall,1,fixed,35,47,g,no,yes,\n", "a tag in every row", 2, 1},
      {"A,Hall,1.5,fixed,35,47,g,no,yes,\n", "'1.5', want a whole number", 2, 3},
      {"A,Hall,1000,fixed,35,47,g,no,yes,\n", "'1000'", 2, 3},
      {"A,Hall,1,fixed,0,47,g,no,yes,\n", "width_in: found '0'", 2, 5},
      {"A,Hall,1,fixed,35,-47,g,no,yes,\n", "height_in", 2, 6},
      {"A,Hall,1,fixed,35,47,g,maybe,yes,\n", "'maybe', want YES or no", 2, 8},
      {"A,Hall,1,fixed,35,47,g,no,perhaps,\n", "'perhaps', want yes or no", 2, 9},
      {"A,Hall,1,fixed,35,47,g,no,yes,\nA,Hall,1,fixed,35,47,g,no,yes,\n",
       "stands twice (first in line 2)", 3, 1},
  };
  (void)state;
  for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
    char text[800];
    pw_order_file o;
    pw_err err = {0};
    int n = snprintf(text, sizeof text, "%s\n%s", head, bad[i].rows);
    assert_int_equal(pw_order_parse("o.csv", text, (size_t)n, &o, &err), PW_E_DATA);
    if (!strstr(err.text, bad[i].says)) fail_msg("'%s' is not in '%s'", bad[i].says, err.text);
    assert_int_equal(err.line, bad[i].line);
    assert_int_equal(err.column, bad[i].column);
  }
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(glass_is_said_by_surface),
      cmocka_unit_test(a_row_becomes_what_it_is),
      cmocka_unit_test(columns_that_come_change_nothing_by_themselves),
      cmocka_unit_test(a_bad_list_is_refused_at_its_place),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
