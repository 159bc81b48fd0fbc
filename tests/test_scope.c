/* Options of an opening on a glass, scopes of rows, the label that counts, as structs: each condition alone, by hand. What files
 * say of them: test_options.c, test_labels.c. */
#include "refused_by.h"

#include <math.h>
#include <stdio.h>

#include "panewright/glazing.h"
#include "window/glass_sound.h"
#include "window/grille.h"
#include "window/opening_label.h"
#include "window/opening_package.h"
#include "window/options.h"
#include "window/scope.h"

#define N(a) (sizeof(a) / sizeof(a)[0])

static void parse(const char *text, pw_buildup *made)
{
  pw_err err = {0};
  if (pw_buildup_parse(text, made, &err) != PW_OK) fail_msg("%s: %s", text, err.text);
}

/* Tinted kin have a single sheet of glass and a pane of no name (clear); a laminate, a sheet of plastic and a pane of the
 * caller's own have none. */
static void which_panes_take_a_tint(void **state)
{
  (void)state;
  static const struct {
    const char *kind;
    int takes;
  } row[] = {{"", 1},          {"clear", 1},       {"lowiron", 1},
             {"laminated", 0}, {"my own pane", 0}, {"obscure", 0}};
  for (size_t i = 0; i < N(row); i++) {
    pw_buildup glass;
    pw_options option = {.tint = PW_TINT_GRAY};
    pw_err err = {0};
    parse("3mm clear / 12mm air / 3mm clear", &glass);
    memset(glass.pane[0].kind, 0, sizeof glass.pane[0].kind);
    memcpy(glass.pane[0].kind, row[i].kind, strlen(row[i].kind));
    const pw_buildup before = glass;
    pw_status s = pw_options_glass(&option, &glass, &err);
    refused(s, row[i].takes ? PW_OK : PW_E_DATA, &err, "tint");
    if (row[i].takes)
      assert_string_equal(glass.pane[0].kind, "gray");
    else
      assert_memory_equal(&glass, &before, sizeof glass);
    assert_string_equal(glass.pane[1].kind, "clear");
  }
}

/* The innermost plain pane of a thickness that is made takes the pattern: not a coated one, not one of stated emissivity. */
static void which_pane_takes_a_pattern(void **state)
{
  (void)state;
  for (int k = 0; k < 7; k++) {
    pw_buildup glass;
    pw_options option = {.pattern = "frosted"};
    pw_err err = {0};
    parse("3mm clear / 12mm air / 3mm clear", &glass);
    pw_buildup_pane *in = &glass.pane[1];
    if (k == 1) memcpy(in->coating[0], "ag2", sizeof "ag2");
    if (k == 2) memcpy(in->coating[1], "ag2", sizeof "ag2");
    if (k == 3) in->emit[0] = 0.1;
    if (k == 4) in->emit[1] = 0.1;
    if (k == 5) in->thickness = 0.005; /* 3, 4, 6 mm are made */
    if (k == 6) memcpy(in->kind, "laminated", sizeof "laminated");
    assert_int_equal(pw_options_glass(&option, &glass, &err), PW_OK);
    assert_string_equal(glass.pane[k ? 0 : 1].kind, "frosted");
    assert_string_equal(glass.pane[k ? 1 : 0].kind, k == 6 ? "laminated" : "clear");
    /* Asked again it is there already, and the tint of the outer pane leaves it no other. */
    const pw_buildup there = glass;
    assert_int_equal(pw_options_glass(&option, &glass, &err), PW_OK);
    assert_memory_equal(&glass, &there, sizeof glass);
    option.tint = PW_TINT_BRONZE;
    refused(pw_options_glass(&option, &glass, &err), k ? PW_E_DATA : PW_OK, &err,
            k ? "tint" : "");
  }
  pw_buildup one;
  pw_err err = {0};
  const pw_options both = {.tint = PW_TINT_BRONZE, .pattern = "frosted"};
  parse("3mm clear", &one);
  refused(pw_options_glass(&both, &one, &err), PW_E_DATA, &err, "pattern");
}

/* options/patterns.csv: obscure and frosted 5 %, rain, reed and hammered 6 %; of another name the widest. */
static void patterns_spread(void **state)
{
  (void)state;
  pw_assert_near(pw_pattern_spread("frosted"), 0.05, 1e-12, "frosted", "patterns.csv");
  pw_assert_near(pw_pattern_spread("Rain"), 0.06, 1e-12, "rain", "patterns.csv");
  pw_assert_near(pw_pattern_spread("cathedral"), 0.06, 1e-12, "another", "the widest");
}

/* Bars between the panes: two panes and a gap of 6 mm. Outside they lie on any glass. */
static void bars_want_a_gap(void **state)
{
  (void)state;
  static const struct {
    const char *glass;
    pw_grille_place place;
    int suits;
  } row[] = {{"3mm clear", PW_GRILLE_BETWEEN, 0},
             {"3mm clear", PW_GRILLE_OUTSIDE, 1},
             {"3mm clear / 5.9mm air / 3mm clear", PW_GRILLE_BETWEEN, 0},
             {"3mm clear / 6mm air / 3mm clear", PW_GRILLE_BETWEEN, 1}};
  for (size_t i = 0; i < N(row); i++) {
    pw_buildup glass;
    const pw_options option = {.grille = {row[i].place, 2, 2, 0.016}};
    pw_err err = {0};
    parse(row[i].glass, &glass);
    refused(pw_options_suit(&option, &glass, &err), row[i].suits ? PW_OK : PW_E_DATA, &err,
            "grilles");
  }
  pw_buildup glass;
  pw_glazing built;
  pw_grille_heat heat;
  const pw_grille between = {PW_GRILLE_BETWEEN, 2, 2, 0.016},
                  outside = {PW_GRILLE_OUTSIDE, 2, 2, 0.016};
  parse("3mm clear / 12mm air / 3mm clear", &glass);
  assert_int_equal(pw_glazing_build(&glass, &built, NULL), PW_OK);
  built.unit.pane[1].thickness = (double)NAN; /* a unit that no build-up makes */
  assert_int_equal(pw_grille_heat_of(&built.unit, 0.8, &between, 0.3, 0.06, &heat, NULL),
                   PW_E_DOMAIN);
  assert_int_equal(pw_grille_heat_of(&built.unit, 0.8, &outside, 0.3, 0.06, &heat, NULL),
                   PW_E_DOMAIN);
}

/* ---------------------------------------------------------------- scopes */

/* A list takes a name once, none that is blank, and stays as it is when it is full. */
static void a_list_of_options(void **state)
{
  (void)state;
  pw_option_list list = {.n = 0};
  char name[PW_OPTION_MAX];
  pw_option_add(&list, "");
  pw_option_add(&list, "screen");
  pw_option_add(&list, "screen");
  assert_int_equal(list.n, 1);
  for (int i = 1; i <= PW_OPTIONS_MAX; i++) {
    snprintf(name, sizeof name, "option_%d", i);
    pw_option_add(&list, name);
  }
  assert_int_equal(list.n, PW_OPTIONS_MAX);
  assert_true(pw_option_has(&list, "option_15"));
  assert_false(pw_option_has(&list, "option_16"));
}

/* a within b, and not: whatever fits a fits b. */
static void scopes_within_each_other(void **state)
{
  (void)state;
  static const struct {
    pw_scope a, b;
    int within;
  } row[] = {
      {{.package = "x"}, {.package = ""}, 1},
      {{.package = ""}, {.package = "x"}, 0},
      {{.kind = 2}, {.kind = 2}, 1},
      {{.kind = 3}, {.kind = 2}, 0},
      {{.n_option = 2, .option = {"tint", "screen"}}, {.n_option = 1, .option = {"screen"}}, 1},
      {{.n_option = 1, .option = {"tint"}}, {.n_option = 1, .option = {"screen"}}, 0},
      {{.n_option = 0}, {.n_option = 1, .option = {"screen"}}, 0},
      {{.size_from = 1.0, .size_to = 2.0}, {.size_from = 1.0, .size_to = 2.0}, 1},
      {{.size_from = 0.9, .size_to = 2.0}, {.size_from = 1.0, .size_to = 2.0}, 0},
      {{.size_from = 1.0, .size_to = 2.1}, {.size_from = 1.0, .size_to = 2.0}, 0},
      {{.size_to = 0.0}, {.size_from = 1.0, .size_to = 2.0}, 0},
      {{.size_from = 1.0, .size_to = 2.0}, {.size_to = 0.0}, 1},
  };
  for (size_t i = 0; i < N(row); i++)
    if (pw_scope_within(&row[i].a, &row[i].b) != row[i].within) fail_msg("row %zu", i);
}

/* ---------------------------------------------------------------- labels */

typedef struct labelled {
  pw_opening opening;
  pw_package package;
  pw_label_row row[3];
  pw_job job;
} labelled;

static void begin(labelled *l)
{
  pw_opening_init(&l->opening);
  pw_package_init(&l->package);
  memcpy(l->package.name, "good", sizeof "good");
  parse("3mm clear / 12mm argon 90% / 3mm clear / 12mm argon 90% / 3mm clear",
        &l->package.glass);
  l->package.label_u = (pw_given){.value = 1.5, .origin = PW_ORIGIN_LABEL};
  l->package.label_rw = (pw_given){.value = 33.0, .origin = PW_ORIGIN_LABEL};
  for (size_t i = 0; i < N(l->row); i++) {
    pw_label_row_init(&l->row[i]);
    l->row[i].line = (int)i + 2;
    l->row[i].u = (pw_given){.value = 1.1 + 0.1 * (double)i, .origin = PW_ORIGIN_LABEL};
  }
  l->job = (pw_job){.n_opening = 1, .n_package = 1};
  l->job.opening = &l->opening;
  l->job.package = &l->package;
  l->job.label = l->row;
}

/* A tinted window's label is a row that speaks of its glass; one that speaks of its screen alone is not. */
static void a_row_speaks_of_the_glass(void **state)
{
  (void)state;
  labelled l;
  pw_label_row label;
  begin(&l);
  l.job.n_label = 2;
  l.opening.screen = 1;
  l.row[0].scope = (pw_scope){.n_option = 1, .option = {"screen"}};
  l.row[1].scope = (pw_scope){.n_option = 1, .option = {"tint"}};
  assert_int_equal(pw_opening_label(&l.job, 0, &l.opening, &label, NULL), PW_OK);
  assert_int_equal(label.line, 2); /* clear glass: the screen's */
  l.opening.option.tint = PW_TINT_GRAY;
  assert_int_equal(pw_opening_label(&l.job, 0, &l.opening, &label, NULL), PW_OK);
  assert_int_equal(label.line, 3);
  l.job.n_label = 1; /* none is left: what the package says of a glass that it has no more */
  assert_int_equal(pw_opening_label(&l.job, 0, &l.opening, &label, NULL), PW_OK);
  assert_int_equal(label.line, 0);
  assert_false(pw_given_is(&label.u));
}

/* Sound stands on the row, or with the package where the row says none of it. */
static void sound_of_a_label(void **state)
{
  (void)state;
  for (int k = 0; k < 3; k++) {
    labelled l;
    pw_label_row label;
    begin(&l);
    l.job.n_label = 1;
    if (k == 1) l.row[0].rw = (pw_given){.value = 40.0, .origin = PW_ORIGIN_LABEL};
    if (k == 2) l.row[0].stc = (pw_given){.value = 35.0, .origin = PW_ORIGIN_LABEL};
    assert_int_equal(pw_opening_label(&l.job, 0, &l.opening, &label, NULL), PW_OK);
    pw_assert_near(label.u.value, 1.1, 1e-12, "U", "the row");
    if (k == 2)
      assert_false(pw_given_is(&label.rw));
    else
      pw_assert_near(label.rw.value, k ? 40.0 : 33.0, 1e-12, "Rw", k ? "the row" : "package");
  }
}

static void each_value_makes_a_label_known(void **state)
{
  (void)state;
  const pw_given some = {.value = 0.3, .origin = PW_ORIGIN_LABEL};
  for (int k = 0; k < 6; k++) {
    pw_label_row l;
    pw_label_row_init(&l);
    pw_given *value[] = {&l.u, &l.shgc, &l.vt, &l.air_leakage};
    if (k < 4) *value[k] = some;
    if (k == 4) memcpy(l.certificate, "K-2", sizeof "K-2");
    l.rw = some; /* sound alone is no certified label */
    assert_int_equal(pw_label_is_known(&l), k < 5);
  }
}

/* More rows that fit than there is room for: the first 256 are held against each other, lines 2 to 257, and all are alike. */
static void rows_beyond_their_room(void **state)
{
  (void)state;
  static pw_label_row row[PW_LABELS_MAX + 10];
  labelled l;
  pw_label_row label;
  pw_err err = {0};
  begin(&l);
  for (size_t i = 0; i < N(row); i++) {
    row[i] = l.row[0];
    row[i].line = (int)i + 2;
  }
  l.job.label = row;
  l.job.n_label = N(row);
  assert_int_equal(pw_opening_label(&l.job, 0, &l.opening, &label, &err), PW_E_DATA);
  assert_non_null(strstr(err.text, "lines 2 and 257"));
}

/* Open capillary tubes lose the gas of an opening's own glass, from each gap; a tint that the glass does not take leaves glass
 * and label alone. */
static void an_openings_own_glass(void **state)
{
  (void)state;
  for (int open = 0; open < 2; open++) {
    labelled l;
    pw_package p;
    begin(&l);
    l.opening.glass = l.package.glass;
    memcpy(l.opening.glass_text, "own", sizeof "own");
    l.package.open_tubes = open;
    pw_opening_package(&l.job, 0, &l.opening, &p);
    for (int k = 0; k < 2; k++)
      pw_assert_near(p.glass.gap[k].mix.share[PW_ARGON], open ? 0.0 : 0.9, 1e-12, "gas", "own");
    assert_false(pw_given_is(&p.label_u)); /* no label speaks of it */
  }
  labelled l;
  pw_package p;
  begin(&l);
  memcpy(l.package.glass.pane[0].kind, "laminated", sizeof "laminated");
  l.opening.option.tint = PW_TINT_GRAY;
  pw_opening_package(&l.job, 0, &l.opening, &p);
  assert_string_equal(p.glass.pane[0].kind, "laminated");
  assert_true(pw_given_is(&p.label_u));
}

/* A pane without a name sounds as clear glass does. */
static void a_pane_without_a_name(void **state)
{
  (void)state;
  pw_buildup glass;
  pw_thirds named, blank;
  unsigned notes[2];
  parse("3mm clear / 12mm air / 6mm clear", &glass);
  assert_int_equal(pw_glass_sound(&glass, NULL, 0.5, &named, &notes[0], NULL), PW_OK);
  memset(glass.pane[0].kind, 0, sizeof glass.pane[0].kind);
  assert_int_equal(pw_glass_sound(&glass, NULL, 0.5, &blank, &notes[1], NULL), PW_OK);
  for (int b = 0; b < PW_THIRDS; b++)
    assert_true(named.db[b] == blank.db[b]);
  assert_int_equal(notes[0], notes[1]);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(which_panes_take_a_tint),
      cmocka_unit_test(which_pane_takes_a_pattern),
      cmocka_unit_test(patterns_spread),
      cmocka_unit_test(bars_want_a_gap),
      cmocka_unit_test(a_list_of_options),
      cmocka_unit_test(scopes_within_each_other),
      cmocka_unit_test(a_row_speaks_of_the_glass),
      cmocka_unit_test(sound_of_a_label),
      cmocka_unit_test(each_value_makes_a_label_known),
      cmocka_unit_test(rows_beyond_their_room),
      cmocka_unit_test(an_openings_own_glass),
      cmocka_unit_test(a_pane_without_a_name),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
