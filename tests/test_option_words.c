/* Columns of what an opening has over its package: words taken and refused, names for prices and labels, what is
 * asked and may be ordered, and that order, JSON, CSV and text say the same. Figures: test_options.c. */
#include "support.h"

#include <jansson.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "job/survey.h"
#include "out/fit_out.h"
#include "out/safe_file.h"
#include "panewright/units.h"
#include "window/fit_job.h"
#include "window/options.h"

static char folder[64];

static int set_up(void **state)
{
  (void)state;
  snprintf(folder, sizeof folder, "/tmp/pw_options_XXXXXX");
  return mkdtemp(folder) ? 0 : -1;
}

static int tear_down(void **state)
{
  static const char *const name[] = {"job.csv", "openings.csv", "packages.csv", "order.csv"};
  (void)state;
  for (size_t i = 0; i < sizeof name / sizeof name[0]; i++) {
    char path[128];
    snprintf(path, sizeof path, "%s/%s", folder, name[i]);
    unlink(path);
  }
  return rmdir(folder);
}

static void put(const char *name, const char *text)
{
  char path[128];
  snprintf(path, sizeof path, "%s/%s", folder, name);
  FILE *f = fopen(path, "wb");
  assert_non_null(f);
  fputs(text, f);
  fclose(f);
}

/* One opening, of that kind, with columns and cells beside its measures. */
static pw_status read_one(const char *kind, const char *columns, const char *cells,
                          const char *glass, pw_job *job, pw_notes *notes, pw_err *err)
{
  char text[800];
  put("job.csv", "item,value,note\njob,T,\nclimate,\"Phoenix, AZ\",\n");
  snprintf(text, sizeof text, "package,glass,price_per_area\ngood,%s,24 $/ft2\n", glass);
  put("packages.csv", text);
  snprintf(text, sizeof text,
           "tag,facing,operator,width_bottom,width_middle,width_top,height_left,height_middle,"
           "height_right,%s\nA1,S,%s,47.5,47.5,47.5,35.5,35.5,35.5,%s\n",
           columns, kind, cells);
  put("openings.csv", text);
  return pw_job_read(folder, job, notes, err);
}

static const char low_e[] = "3mm clear coat ag2@2 / 12.7mm argon 90% / 3mm clear";

static void words_are_taken_or_refused(void **state)
{
  (void)state;
  static const struct {
    const char *kind, *columns, *cells, *glass, *says; /* NULL: taken */
  } row[] = {
      {"slider", "tempered", "yes", low_e, NULL},
      {"slider", "tempered", "rule", low_e, NULL},
      {"slider", "tempered", "no", low_e,
       "openings.csv:2:10: A1 tempered: 'no' is not taken; want yes, or rule"},
      {"slider", "tint", "Bronze", low_e, NULL},
      {"slider", "tint", "clear", low_e, NULL},
      {"slider", "tint", "blue", low_e,
       "openings.csv:2:10: A1 tint: 'blue' is not known; want none, bronze"},
      {"slider", "tint", "green", "6.4mm laminated / 12.7mm air / 3mm clear",
       "openings.csv:2:10: A1 tint with package good: green: the outer pane is laminated"},
      {"slider", "pattern", "rain", low_e, NULL},
      {"slider", "pattern", "rain",
       "3mm clear coat ag2@2 / 12.7mm air / 3mm clear coat pyr20@4",
       "openings.csv:2:10: A1 pattern with package good: rain: no pane of the glass is free "
       "for it; want a clear "
       "pane of 3, 4 or 6 mm"},
      {"slider", "pattern", "obscure", "5mm clear / 12.7mm air / 5mm clear",
       "no pane of the glass is free"},
      {"slider", "pattern,tint", "obscure,gray", "3mm clear", "other than the tinted one"},
      {"slider", "grilles,grille_pattern", "between,3x2", low_e, NULL},
      {"slider", "grilles,grille_pattern", "between,3 X 2", low_e, NULL},
      {"slider", "grilles,grille_pattern", "none,", low_e, NULL},
      {"slider", "grilles,grille_pattern", "between,", low_e,
       "openings.csv:2:11: A1 grille_pattern: '' is not taken; want columns x rows of each "
       "lite, 1 to 8, as in 3x2"},
      {"slider", "grilles,grille_pattern", "between,3x9", low_e, "'3x9' is not taken"},
      {"slider", "grilles,grille_pattern", "between,2-Mar", low_e,
       "'2-Mar' is a date that a spreadsheet made; write columns x rows as in 3x2"},
      {"slider", "grilles,grille_pattern", "between,0x2", low_e, "'0x2' is not taken"},
      {"slider", "grilles,grille_pattern", "between,3-2", low_e, "'3-2' is not taken"},
      {"slider", "grilles,grille_pattern", "none,3x2", low_e,
       "A1 grilles: none, and yet grille_pattern is given"},
      {"slider", "grilles,grille_pattern,grille_bar", "between,3x2,0", low_e,
       "openings.csv:2:12: A1 grille_bar: 0 mm is no bar; want 1/8 in to 4 in"},
      {"slider", "grilles,grille_pattern,grille_bar", "outside,8x8,4 in", low_e,
       "bars of 4 in, 8 x 8, leave no glass in a lite of"},
      {"slider", "grilles,grille_pattern", "between,3x2", "3mm clear",
       "openings.csv:2:10: A1 grilles with package good: between: the glass has no outer gap "
       "of at least 6 mm"},
      {"slider", "grilles,grille_pattern", "outside,3x2", "3mm clear", NULL},
      {"casement", "hinge", "left", low_e, NULL},
      {"casement", "hinge", "top", low_e, "A1 hinge: a casement hangs left or right"},
      {"awning", "hinge", "top", low_e, NULL},
      {"awning", "hinge", "left", low_e, "A1 hinge: an awning hangs at its top"},
      {"slider", "hinge", "left", low_e, "config says which lite moves, as in XO"},
      {"fixed", "hinge", "left", low_e, "A1 hinge: a window of kind fixed has none"},
      {"slider", "pet_panel", "yes", low_e, NULL},
      {"slider", "pet_panel", "maybe", low_e, "want yes or no"},
      {"slider", "obscure", "yes", low_e, "the column 'obscure' is named pattern"},
      {"slider", "grids", "yes", low_e, "the column 'grids' is named grilles"},
      {"slider", "color", "tan", low_e, "the column 'color' is named colour"},
  };
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_job job;
    pw_err err = {0};
    pw_status s =
        read_one(row[i].kind, row[i].columns, row[i].cells, row[i].glass, &job, NULL, &err);
    if ((s == PW_OK) != (row[i].says == NULL))
      fail_msg("%s = %s: %s", row[i].columns, row[i].cells, s == PW_OK ? "taken" : err.text);
    if (row[i].says && !strstr(err.text, row[i].says))
      fail_msg("%s = %s: '%s', want '%s'", row[i].columns, row[i].cells, err.text, row[i].says);
    pw_job_free(&job);
  }
}

static void names_are_listed_for_prices_and_labels(void **state)
{
  (void)state;
  pw_job job;
  pw_err err = {0};
  char name[PW_OPTION_NAMES_MAX][PW_OPTION_NAME_MAX];
  if (read_one("sliding_door",
               "colour,tint,pet_panel,screen,tempered,grilles,grille_pattern,pattern",
               "Dark Bronze,gray,yes,yes,yes,outside,2x4,reed", low_e, &job, NULL,
               &err) != PW_OK)
    fail_msg("%s", err.text);
  static const char *const want[] = {"grilles_outside",   "tempered", "obscure",
                                     "tint_gray",         "screen",   "pet_panel",
                                     "colour_dark_bronze"};
  assert_int_equal(pw_opening_options(&job.opening[0], name), 7);
  for (size_t i = 0; i < 7; i++)
    assert_string_equal(name[i], want[i]);
  pw_job_free(&job);
  const pw_opening none = {.tag = "N"};
  assert_int_equal(pw_opening_options(&none, name), 0);
}

/* SG1: a large pane by a walk, its height unknown, asks; an order of tempered glass needs no answer. */
static void tempered_answers_the_question(void **state)
{
  (void)state;
  for (int tempered = 0; tempered < 2; tempered++) {
    pw_job job;
    pw_err err = {0};
    pw_fit fit;
    pw_cautions cautions;
    pw_order_check check;
    char cells[32];
    snprintf(cells, sizeof cells, "0,other,%s", tempered ? "yes" : "rule");
    if (read_one("fixed", "near_walk,use,tempered", cells, low_e, &job, NULL, &err) != PW_OK)
      fail_msg("%s", err.text);
    job.opening[0].diagonal[0] = job.opening[0].diagonal[1] = 59.3 * PW_INCH;
    assert_int_equal(pw_fit_job(&job, 0, &fit, &err), PW_OK);
    assert_int_equal(pw_cautions_find(&job, &fit, &cautions, &err), PW_OK);
    pw_order_check_of(0, &fit, &cautions, &check);
    assert_int_equal(check.may_order, tempered);
    pw_cautions_free(&cautions);
    pw_job_free(&job);
  }
}

/* Glass beside a door stands low and rightly so: it may be ordered, tempered (SG5: within 24 in of a door). */
static void a_sidelite_stands_low(void **state)
{
  (void)state;
  for (int yes = 0; yes < 2; yes++) {
    pw_job job;
    pw_err err = {0};
    pw_fit fit;
    pw_cautions cautions;
    pw_order_check check;
    char cells[32];
    snprintf(cells, sizeof cells, "2 in,other,%s", yes ? "yes" : "");
    if (read_one("fixed", "sill_height,use,sidelite", cells, low_e, &job, NULL, &err) != PW_OK)
      fail_msg("%s", err.text);
    assert_int_equal(pw_fit_job(&job, 0, &fit, &err), PW_OK);
    assert_int_equal(pw_cautions_find(&job, &fit, &cautions, &err), PW_OK);
    pw_order_check_of(0, &fit, &cautions, &check);
    assert_int_equal(check.may_order, yes);
    assert_int_equal(pw_caution_safety_glass(&cautions, 0), yes);
    pw_cautions_free(&cautions);
    pw_job_free(&job);
  }
  pw_job job;
  pw_err err = {0};
  assert_int_equal(read_one("slider", "sidelite", "yes", low_e, &job, NULL, &err), PW_E_DATA);
  assert_non_null(
      strstr(err.text, "openings.csv:2:10: A1 sidelite: a sidelite is fixed glass"));
}

/* The cell of a row of a CSV file without quotes in the cells before it. */
static void cell_of(const char *csv, const char *column, char cell[200])
{
  const char *head = csv, *row = strchr(csv, '\n') + 1;
  int quoted = 0;
  for (;;) {
    size_t n = strcspn(head, ",\n"), k = 0;
    const char *p = row;
    for (quoted = 0; *p && (quoted || (*p != ',' && *p != '\n')); p++) {
      if (*p == '"')
        quoted = !quoted;
      else if (k < 199)
        cell[k++] = *p;
    }
    cell[k] = '\0';
    if (strlen(column) == n && strncmp(head, column, n) == 0) return;
    if (head[n] != ',' || *p != ',') fail_msg("no column %s", column);
    head += n + 1;
    row = p + 1;
  }
}

static void order_json_and_csv_say_the_same(void **state)
{
  (void)state;
  pw_job job;
  pw_err err = {0};
  pw_fit fit;
  pw_install install = {0};
  pw_cautions cautions;
  pw_order_check check;
  char path[128], *csv = NULL, *order = NULL, *text = NULL;
  size_t n_csv = 0, n_text = 0;
  if (read_one("casement",
               "grilles,grille_pattern,grille_bar,tint,pattern,colour,hinge,tempered,pet_panel,"
               "maker_note",
               "between,2x3,5/8 in,bronze,rain,tan,left,yes,yes,keys at the office", low_e,
               &job, NULL, &err) != PW_OK)
    fail_msg("%s", err.text);
  assert_int_equal(pw_fit_job(&job, 0, &fit, &err), PW_OK);
  assert_int_equal(pw_cautions_find(&job, &fit, &cautions, &err), PW_OK);
  pw_order_check_of(0, &fit, &cautions, &check);
  const pw_fit_report r = {.job = &job,
                           .fit = &fit,
                           .install = &install,
                           .check = &check,
                           .cautions = &cautions,
                           .notes = &(pw_notes){0}};
  snprintf(path, sizeof path, "%s/order.csv", folder);
  assert_int_equal(pw_order_write(&r, 1, path, &err), PW_OK);
  assert_int_equal(pw_safe_settle(&err), PW_OK);
  FILE *f = fopen(path, "rb");
  assert_non_null(f);
  order = calloc(1, 20000);
  assert_true(fread(order, 1, 19999, f) > 0);
  fclose(f);
  f = open_memstream(&csv, &n_csv);
  assert_int_equal(pw_fit_csv(&r, 1, f, &err), PW_OK);
  fclose(f);
  f = open_memstream(&text, &n_text);
  assert_int_equal(pw_fit_text(&r, 0, 0, f, &err), PW_OK);
  fclose(f);
  json_t *root = pw_fit_json(&r, 1, (pw_reading){0});
  json_t *o = json_array_get(json_object_get(root, "openings"), 0),
         *options = json_object_get(o, "options");
  static const struct {
    const char *column, *want, *key, *words;
  } row[] = {{"tempered_asked", "yes", "tempered", "tempered"},
             {"pattern", "rain", "pattern", "pattern rain"},
             {"tint", "bronze", "tint", "bronze tint"},
             {"grilles", "between", "grilles", "grilles between the panes 2 x 3"},
             {"grille_pattern", "2x3", NULL, "2 x 3"},
             {"grille_bar_in", "5/8", NULL, "bars 5/8 in"},
             {"colour", "tan", "colour", "colour tan"},
             {"hinge", "left", "hinge", "hinge left"},
             {"pet_panel", "yes", NULL, "pet panel"},
             {"maker_note", "keys at the office", "maker_note", "keys at the office"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    char cell[200];
    cell_of(csv, row[i].column, cell);
    assert_string_equal(cell, row[i].want);
    cell_of(order, row[i].column, cell);
    assert_string_equal(cell, row[i].want);
    if (row[i].key)
      assert_string_equal(json_string_value(json_object_get(options, row[i].key)), row[i].want);
    if (!strstr(text, row[i].words)) fail_msg("the text lacks '%s'", row[i].words);
  }
  char cell[200];
  cell_of(order, "glass", cell);
  assert_string_equal(cell, "3mm bronze coat ag2@2 / 12.7mm argon 90% / 3mm obscure");
  assert_string_equal(json_string_value(json_object_get(o, "glass")), cell);
  cell_of(order, "handing_from_outside", cell);
  assert_string_equal(cell, "left");
  cell_of(order, "tempered", cell);
  assert_string_equal(cell, "YES");
  pw_assert_near(json_real_value(json_object_get(options, "grille_bar_m")), 0.625 * PW_INCH,
                 1e-12, "bar", "5/8 in");
  json_decref(root);
  free(csv);
  free(order);
  free(text);
  pw_cautions_free(&cautions);
  pw_job_free(&job);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(words_are_taken_or_refused),
      cmocka_unit_test(names_are_listed_for_prices_and_labels),
      cmocka_unit_test(tempered_answers_the_question),
      cmocka_unit_test(a_sidelite_stands_low),
      cmocka_unit_test(order_json_and_csv_say_the_same),
  };
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
