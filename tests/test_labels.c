/* labels.csv: the row that fits an opening best is its label everywhere; ties are refused; what is missing
 * or differs is said. */
#include "job_folder.h"

#include <math.h>

#include "job/program_file.h"
#include "out/code_out.h"
#include "out/worksheet.h"
#include "window/opening_label.h"

static const double u_ip = 5.678263341113488; /* W/(m2 K) in one Btu/(h ft2 F) */
static const char head[] = "package,kind,options,u,shgc,vt,air_leakage,certificate\n";

static void labels(const char *rows)
{
  char text[2048];
  snprintf(text, sizeof text, "%s%s", head, rows);
  folder_write(dir, "labels.csv", text);
}

static pw_label_row label_of(const pw_job *job, size_t package, const char *tag)
{
  pw_label_row l;
  for (size_t i = 0; i < job->n_opening; i++)
    if (strcmp(job->opening[i].tag, tag) == 0) {
      assert_int_equal(pw_opening_label(job, package, &job->opening[i], &l, NULL), PW_OK);
      return l;
    }
  fail_msg("no opening %s", tag);
  return (pw_label_row){.line = -1};
}

static int noted(const pw_notes *notes, const char *words)
{
  char line[512];
  for (size_t i = 0; i < notes->n; i++) {
    pw_notes_line(&notes->note[i], line, sizeof line);
    if (strstr(line, words)) return 1;
  }
  return 0;
}

static void the_narrowest_row_counts(void **state)
{
  (void)state;
  labels("good,,,0.29,0.30,,,K-2\ngood,slider,,0.31,0.28,,0.3,K-3\n"
         "good,slider,screen,0.32,0.25,,,K-4\n,casement,,0.27,0.2,,,K-5\n");
  folder_openings(dir, ",screen", (const char *const[]){",no", ",yes", ",no", ",no"}, NULL);
  static const char *const tie[] = {"labels.csv:5", "lines 2 and 5", "A4"};
  folder_refused(dir, tie, 3); /* good of every kind, and every package's casement */
  labels("good,,,0.29,0.30,,,K-2\ngood,slider,,0.31,0.28,,0.3,K-3\n"
         "good,slider,screen,0.32,0.25,,,K-4\n,,,0.27,0.2,,,K-5\n");
  pw_job job = folder_read(dir, NULL);
  static const struct {
    const char *tag;
    double good, best;
    int line;
  } want[] = {{"A1", 0.29, 0.27, 2},
              {"A2", 0.32, 0.27, 4},
              {"A3", 0.31, 0.27, 3},
              {"A4", 0.29, 0.27, 2}};
  for (size_t i = 0; i < 4; i++) {
    pw_label_row good = label_of(&job, 0, want[i].tag), best = label_of(&job, 1, want[i].tag);
    pw_assert_near(good.u.value / u_ip, want[i].good, 1e-9, want[i].tag, "labels.csv");
    pw_assert_near(best.u.value / u_ip, want[i].best, 1e-9, want[i].tag, "labels.csv");
    assert_int_equal(good.line, want[i].line);
  }
  pw_label_row a2 = label_of(&job, 0, "A2");
  assert_true(isnan(a2.air_leakage.value)); /* a row is one label: blank is missing */
  assert_string_equal(a2.certificate, "K-4");
  pw_job_free(&job);
  folder_openings(dir, "", NULL, NULL);
}

static void order_of_rows_changes_nothing(void **state)
{
  static const char *const row[] = {
      "good,,,0.29,0.30,0.5,0.2,K-2\n", "good,slider,,0.31,0.28,0.4,0.3,K-3\n",
      "best,,,0.27,0.20,0.4,0.1,K-5\n", "best,casement,,0.26,0.19,0.4,0.1,K-6\n"};
  static const size_t order[][4] = {{0, 1, 2, 3}, {3, 2, 1, 0}, {2, 0, 3, 1}};
  double first[2][4] = {{0}};
  (void)state;
  for (size_t k = 0; k < 3; k++) {
    char text[1024] = "";
    for (size_t i = 0; i < 4; i++)
      strcat(text, row[order[k][i]]);
    labels(text);
    folder_openings(dir, "", NULL, order[k]);
    pw_job job = folder_read(dir, NULL);
    static const char *const tag[] = {"A1", "A2", "A3", "A4"};
    for (size_t p = 0; p < 2; p++)
      for (size_t i = 0; i < 4; i++) {
        double u = label_of(&job, p, tag[i]).u.value;
        if (k == 0) first[p][i] = u;
        assert_true(u == first[p][i]);
      }
    pw_job_free(&job);
  }
  folder_openings(dir, "", NULL, NULL);
}

/* 0.30 Btu/(h ft2 F) is 1.7035 W/(m2 K); 0.3 cfm/ft2 is 5.486 m3/(h m2). */
static void units_change_nothing(void **state)
{
  (void)state;
  labels("good,slider,,0.30,30 %,,0.3,K-2\ngood,fixed,,1.70347900 W/m2K,0.30,,5.4864 "
         "m3/hm2,K-2\n");
  pw_job job = folder_read(dir, NULL);
  pw_label_row a = label_of(&job, 0, "A1"), b = label_of(&job, 0, "A2");
  pw_assert_near(a.u.value, b.u.value, 1e-7, "U", "the same in two units");
  pw_assert_near(a.shgc.value, b.shgc.value, 1e-12, "SHGC", "the same in two units");
  pw_assert_near(a.air_leakage.value, b.air_leakage.value, 1e-9, "air",
                 "the same in two units");
  pw_job_free(&job);
}

/* ---------------------------------------------------------------- the same as packages.csv */

typedef struct ran {
  pw_open_job open;
  pw_compare compare;
} ran;

static ran *run(void)
{
  ran *r = calloc(1, sizeof *r);
  pw_err err = {0};
  if (pw_job_open(dir, &r->open, &err) != PW_OK) fail_msg("%s", err.text);
  pw_compare_options o = pw_job_options(&r->open, PW_YEAR_QUICK);
  if (pw_compare_run(&r->open.job, r->open.weather, &o, NULL, &r->compare, &err) != PW_OK)
    fail_msg("%s", err.text);
  return r;
}

static void ran_free(ran *r)
{
  pw_compare_free(&r->compare);
  pw_job_close(&r->open);
  free(r);
}

static char *worksheet_of(const ran *r, size_t package)
{
  pw_program program = {0};
  pw_worksheet w;
  pw_err err = {0};
  char *text = NULL;
  size_t size = 0;
  if (pw_program_read("examples/programs/energy_star_windows.csv", &program, NULL, &err) !=
      PW_OK)
    fail_msg("%s", err.text);
  const pw_worksheet_input input = {.compare = &r->compare,
                                    .package = package,
                                    .program = &program,
                                    .zone = "North-Central",
                                    .basis = PW_SIZE_UNIT};
  if (pw_worksheet_build(&input, &w, &err) != PW_OK) fail_msg("%s", err.text);
  FILE *f = open_memstream(&text, &size);
  assert_int_equal(pw_worksheet_csv(&w, f, NULL), PW_OK);
  fclose(f);
  pw_worksheet_free(&w);
  pw_program_free(&program);
  return text;
}

static void dump(json_t *o, char **text)
{
  *text = json_dumps(o, JSON_INDENT(1));
  json_decref(o);
}

/* A labels.csv that says again what packages.csv says changes neither worksheet nor figure. */
static void a_repeated_label_changes_nothing(void **state)
{
  char *sheet[2], *json[2];
  (void)state;
  for (int k = 0; k < 2; k++) {
    char path[128];
    snprintf(path, sizeof path, "%s/labels.csv", dir);
    if (k)
      labels("good,,,0.30,0.33,,,K-1\n");
    else
      unlink(path);
    ran *r = run();
    sheet[k] = worksheet_of(r, 0);
    dump(pw_code_json(&r->compare), &json[k]);
    assert_true(r->compare.billed.package_set[0].price > 0.0);
    ran_free(r);
  }
  assert_string_equal(sheet[0], sheet[1]);
  assert_string_equal(json[0], json[1]);
  for (int k = 0; k < 2; k++) {
    free(sheet[k]);
    free(json[k]);
  }
}

/* Each opening's line of the worksheet holds its own label; the claim counts those that meet: sliders at
 * 0.24 and 0.30 meet Energy Star 7.0 North-Central (U 0.25, SHGC 0.40), the others at 0.29 do not. */
static void the_worksheet_takes_each_openings_label(void **state)
{
  (void)state;
  labels("good,,,0.29,0.30,,0.2,K-2\ngood,slider,,0.24,0.30,,0.2,K-3\n");
  ran *r = run();
  char *text = worksheet_of(r, 0);
  static const char *const line[] = {"A2,certificate (CPD) no.,K-3", "A3,U-factor,0.24",
                                     "A2,SHGC,0.30"};
  for (size_t i = 0; i < 3; i++)
    if (!strstr(text, line[i])) fail_msg("no line '%s'", line[i]);
  assert_null(strstr(text, "A1,U-factor")); /* not claimed, so not on the form */
  assert_non_null(strstr(text, "counted are 3 of 5 windows"));
  free(text);
  ran_free(r);
}

/* A label belongs to a glass: another glass, a tint or a pattern has none until a row names it; grilles are
 * named by their place or as grilles, and none means without. */
static void options_and_own_glass(void **state)
{
  static const char *const cell[] = {
      ",between,2 x 2,,,", ",,,,obscure,", ",,,bronze,,",
      ",,,,,3mm clear coat ag3@2 / 12.7mm argon 90% / 3mm clear"};
  (void)state;
  folder_openings(dir, ",grilles,grille_pattern,tint,pattern,glass", cell, NULL);
  labels("good,,,0.29,0.33,,,K-1\ngood,,between,0.31,0.30,,,K-2\n");
  pw_job job = folder_read(dir, NULL);
  pw_assert_near(label_of(&job, 0, "A1").u.value / u_ip, 0.31, 1e-9, "between", "labels.csv");
  for (int i = 2; i <= 4; i++) {
    const char tag[] = {'A', (char)('0' + i), '\0'};
    pw_label_row l = label_of(&job, 0, tag);
    if (isfinite(l.u.value) || l.certificate[0]) fail_msg("%s has a label", tag);
  }
  pw_job_free(&job);
  labels("good,,,0.29,0.33,,,K-1\ngood,,Grilles,0.31,0.30,,,K-2\ngood,,obscure,0.28,0.3,,,K-3\n"
         "good,,tint bronze,0.28,0.2,,,K-4\ngood,,glass,0.25,0.2,,,K-5\n");
  job = folder_read(dir, NULL);
  static const struct {
    const char *tag, *number;
  } want[] = {{"A1", "K-2"}, {"A2", "K-3"}, {"A3", "K-4"}, {"A4", "K-5"}};
  for (size_t i = 0; i < 4; i++)
    assert_string_equal(label_of(&job, 0, want[i].tag).certificate, want[i].number);
  pw_job_free(&job);
  folder_openings(dir, ",grilles,grille_pattern",
                  (const char *const[]){",between,2 x 2", ",,", ",outside,3 x 2", ",,"}, NULL);
  labels("good,,none,0.29,0.33,,,K-1\ngood,,outside,0.31,0.30,,,K-2\n");
  job = folder_read(dir, NULL);
  assert_string_equal(label_of(&job, 0, "A2").certificate, "K-1");
  assert_string_equal(label_of(&job, 0, "A3").certificate, "K-2");
  assert_int_equal(label_of(&job, 0, "A1").line, 0); /* no row for bars between the panes */
  pw_job_free(&job);
  folder_openings(dir, "", NULL, NULL);
}

/* An opening's own package has that package's label in every column. */
static void an_own_package_brings_its_label(void **state)
{
  (void)state;
  folder_openings(dir, ",package", (const char *const[]){",best", ",", ",", ","}, NULL);
  labels("good,,,0.29,0.33,,,K-1\nbest,,,0.24,0.2,,,K-2\n");
  pw_job job = folder_read(dir, NULL);
  for (size_t p = 0; p < 2; p++)
    assert_string_equal(label_of(&job, p, "A1").certificate, "K-2");
  assert_string_equal(label_of(&job, 0, "A2").certificate, "K-1");
  pw_job_free(&job);
  folder_openings(dir, "", NULL, NULL);
}

static void differences_and_gaps_are_said(void **state)
{
  pw_notes notes = {0};
  (void)state;
  labels("good,,,0.29,0.33,,,K-1\ngood,slider,betwen,0.28,0.33,,,K-1\nbest,casement,,0.25,0.2,,"
         ",\n");
  pw_job job = folder_read(dir, &notes);
  assert_true(noted(
      &notes, "labels.csv:2: good (every kind): U 0.29, and packages.csv line 2 says 0.30"));
  assert_false(noted(&notes, "SHGC 0.33, and"));
  assert_true(noted(&notes, "no opening has the option 'betwen'"));
  assert_true(noted(&notes, "labels.csv:4: a label without its certificate number"));
  assert_true(noted(&notes, "no label row for package best, kind slider: 3 openings"));
  assert_true(noted(&notes, "no label row for package best, kind fixed: 1 opening"));
  assert_false(noted(&notes, "package best, kind casement"));
  assert_false(noted(&notes, "no label row for package good"));
  pw_notes_free(&notes);
  pw_job_free(&job);
}

static void slips_are_refused_with_their_place(void **state)
{
  static const struct {
    const char *rows, *says[3];
  } row[] = {
      {"goood,,,0.30,,,,\n", {"labels.csv:2:1", "goood", "did you mean good"}},
      {"good,slyder,,0.30,,,,\n", {"labels.csv:2:2", "slyder", "slider"}},
      {"good,,,30,,,,\n", {"labels.csv:2:4", "30", NULL}},
      {"good,,,0.30,1.2,,,\n", {"labels.csv:2:5", "1.2", NULL}},
      {"good,slider,,,,,,K-1\n", {NULL, NULL, NULL}},
      {"good,slider,,,,,,\n", {"labels.csv:2:4", "label value", NULL}},
      {"good,hs,,0.30,,,,\ngood,slider,,0.31,,,,\n", {"labels.csv:3", "line 2", NULL}},
      {"good,,a+b+c+d+e+f+g,0.30,,,,\n", {"labels.csv:2:3", "six", NULL}},
  };
  (void)state;
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    labels(row[i].rows);
    if (row[i].says[0] || row[i].says[1]) {
      folder_refused(dir, row[i].says, 3);
    } else {
      pw_job job = folder_read(dir, NULL); /* a certificate alone is something */
      pw_job_free(&job);
    }
  }
  folder_write(dir, "labels.csv", "package,kind,label_u\ngood,,0.3\n");
  folder_refused(dir, (const char *const[]){"labels.csv:1:3", "named u"}, 2);
  labels("good,,,0.30,0.33,,,K-1\n");
}

int main(void)
{
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(the_narrowest_row_counts),
      cmocka_unit_test(order_of_rows_changes_nothing),
      cmocka_unit_test(units_change_nothing),
      cmocka_unit_test(a_repeated_label_changes_nothing),
      cmocka_unit_test(the_worksheet_takes_each_openings_label),
      cmocka_unit_test(options_and_own_glass),
      cmocka_unit_test(an_own_package_brings_its_label),
      cmocka_unit_test(differences_and_gaps_are_said),
      cmocka_unit_test(slips_are_refused_with_their_place),
  };
  pw_test_begin();
  return cmocka_run_group_tests(tests, set_up, tear_down);
}
