/* The rebate worksheet: label values from the label alone, limits met to the last digit, sums. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/table.h"
#include "job/job_open.h"
#include "job/program_file.h"
#include "out/compare_out.h"
#include "out/worksheet.h"
#include "paper_read.h"
#include "window/code_default.h"

static const double u_ip = 5.678263341113488; /* W/(m2 K) in one Btu/(h ft2 F) */
static const double foot2 = 0.3048 * 0.3048;

typedef struct fixture {
  pw_open_job open;
  pw_compare compare;
  pw_program utility; /* examples/programs/juniper_flat_power_2026.csv */
} fixture;

static int set_up(void **state)
{
  fixture *f = calloc(1, sizeof *f);
  pw_err err = {0};
  if (!f || pw_job_open("examples/harrow_bend", &f->open, &err) != PW_OK) return -1;
  pw_compare_options options = pw_job_options(&f->open, PW_YEAR_QUICK);
  if (pw_compare_run(&f->open.job, f->open.weather, &options, NULL, &f->compare, &err) !=
          PW_OK ||
      pw_program_read("examples/programs/juniper_flat_power_2026.csv", &f->utility, NULL,
                      &err) != PW_OK) {
    print_error("%s\n", err.text);
    return -1;
  }
  *state = f;
  return 0;
}

static int tear_down(void **state)
{
  fixture *f = *state;
  pw_program_free(&f->utility);
  pw_compare_free(&f->compare);
  pw_job_close(&f->open);
  free(f);
  return 0;
}

static pw_worksheet_input input_of(const fixture *f, const pw_program *program)
{
  return (pw_worksheet_input){
      .compare = &f->compare,
      .package = 1,
      .program = program,
      .zone = "",
      .basis = PW_SIZE_UNIT,
      .paper = {.job = &f->open.job, .version = "0123abcd", .date = 20261129}};
}

static pw_worksheet build(const pw_worksheet_input *input)
{
  pw_worksheet w;
  pw_err err = {0};
  if (pw_worksheet_build(input, &w, &err) != PW_OK) fail_msg("%s", err.text);
  return w;
}

__attribute__((noinline)) /* else gcc 12 takes the stream's memory for a local's */
static char *
text_of(const pw_worksheet_input *input, const pw_worksheet *w, int csv)
{
  char *text = NULL;
  size_t size = 0;
  FILE *out = open_memstream(&text, &size);
  assert_non_null(out);
  pw_html h = {out, NULL};
  pw_status status =
      csv ? pw_worksheet_csv(w, out, NULL) : pw_worksheet_html(input, w, &h, NULL);
  fclose(out);
  assert_int_equal(status, PW_OK);
  return text;
}

/* The value of a field; fails when there is none of that name. */
static const char *value(const pw_worksheet *w, const char *block, const char *mark,
                         const char *name)
{
  for (size_t i = 0; i < w->n; i++)
    if (strcmp(w->field[i].block, block) == 0 && strcmp(w->field[i].mark, mark) == 0 &&
        strcmp(w->field[i].name, name) == 0)
      return w->field[i].value;
  fail_msg("no field %s / %s / %s", block, mark, name);
  return "";
}

static const char NEW_LABEL[] = "New windows, by the certified label";

/* reference/trade/rebate_form.md, "Must come from the certified label, never from a calculation". */
static void a_label_field_without_a_label_stays_blank(void **state)
{
  fixture *f = *state;
  pw_worksheet_input input = input_of(f, &f->utility);
  pw_worksheet w = build(&input);
  size_t n = 0;
  for (size_t i = 0; i < w.n; i++)
    if (w.field[i].origin == PW_FIELD_LABEL) {
      assert_string_equal(w.field[i].value, "");
      assert_string_equal(w.field[i].key, "");
      n++;
    }
  assert_true(n >= 8 * f->compare.n_opening);
  char *csv = text_of(&input, &w, 1), *html = text_of(&input, &w, 0);
  size_t said = 0;
  for (const char *s = csv; (s = strstr(s, ",from label,label")) != NULL; s++)
    said++;
  assert_int_equal(said, n);
  said = 0;
  for (const char *s = html; (s = strstr(s, "<td><span class=\"open\">from label")) != NULL;
       s++)
    said++;
  assert_int_equal(said, n);
  assert_string_equal(value(&w, "Rebate", "", "amount"), "$0.00");
  free(csv);
  free(html);
  pw_worksheet_free(&w);
}

static void label_values_are_copied_as_printed(void **state)
{
  fixture *f = *state;
  pw_package *k = &f->open.job.package[1], before = *k;
  snprintf(k->certificate, sizeof k->certificate, "ABC-K-1-00007-00001");
  k->label_u.value = 0.29 * u_ip;
  k->label_shgc.value = 0.24;
  k->label_air_leakage.value = 0.2 * 0.3048 / 60.0;
  pw_worksheet_input input = input_of(f, &f->utility);
  pw_worksheet w = build(&input);
  assert_string_equal(value(&w, NEW_LABEL, "K1", "certificate (CPD) no."),
                      "ABC-K-1-00007-00001");
  assert_string_equal(value(&w, NEW_LABEL, "K1", "U-factor"), "0.29");
  assert_string_equal(value(&w, NEW_LABEL, "K1", "SHGC"), "0.24");
  assert_string_equal(value(&w, NEW_LABEL, "K1", "VT"), "");
  assert_string_equal(value(&w, NEW_LABEL, "K1", "air leakage, cfm/ft2"), "0.2");
  assert_string_equal(value(&w, NEW_LABEL, "K1", "maker"), "");
  pw_worksheet_free(&w);
  *k = before;
}

/* Computed and code default, both; the default against the table of the code. */
static void the_existing_basis_shows_both(void **state)
{
  fixture *f = *state;
  pw_worksheet_input input = input_of(f, &f->utility);
  pw_worksheet w = build(&input);
  json_t *data = pw_compare_json(&f->compare, &(pw_compare_frame){.method = ""});
  char *html = text_of(&input, &w, 0);
  size_t n = paper_figures_match(html, data);
  print_message("%zu figures read back\n", n);
  assert_true(n >= 7 * f->compare.n_opening);
  /* IECC table R303.1.3(1): metal, single glazed, operable and fixed 1.20 */
  assert_string_equal(value(&w, "Existing windows", "B2", "U, IECC default"), "1.20");
  assert_string_not_equal(value(&w, "Existing windows", "B2", "U, calculated"), "");
  assert_string_equal(value(&w, "Existing windows", "B2", "single pane, or double in metal"),
                      "yes, single pane");
  assert_non_null(strstr(html, "<th scope=\"col\">U, calculated</th>"));
  assert_non_null(strstr(html, "<th scope=\"col\">U, IECC default</th>"));
  assert_int_not_equal(paper_is_tidy(html), 0);
  json_decref(data);
  free(html);
  pw_worksheet_free(&w);
}

/* IECC table R303.1.3(3), from memory as in reference/trade/criteria.csv: single clear 0.80, single
 * tinted 0.70. */
static void tinted_glass_takes_its_own_default(void **state)
{
  fixture *f = *state;
  pw_buildup_pane *pane = &f->open.job.opening[8].existing_glass.pane[0], before = *pane;
  pw_worksheet_input input = input_of(f, &f->utility);
  pw_worksheet w = build(&input);
  assert_string_equal(value(&w, "Existing windows", "B2", "SHGC, IECC default"), "0.80");
  pw_worksheet_free(&w);
  snprintf(pane->kind, sizeof pane->kind, "bronze");
  w = build(&input);
  assert_string_equal(value(&w, "Existing windows", "B2", "SHGC, IECC default"), "0.70");
  pw_worksheet_free(&w);
  *pane = before;
}

/* ---------------------------------------------------------------- criteria */

/* One criterion as a program of its own. */
static pw_program_row row_of(const pw_table *t, size_t r, pw_metric metric)
{
  const char *op = pw_table_text(t, r, pw_table_column(t, "op"));
  pw_program_row row = {.kind = PW_ROW_CRITERION,
                        .metric = metric,
                        .op = strcmp(op, "<=") == 0   ? PW_OP_LE
                              : strcmp(op, ">=") == 0 ? PW_OP_GE
                                                      : PW_OP_EQ,
                        .value = pw_table_number(t, r, pw_table_column(t, "value"))};
  const char *unit = pw_table_text(t, r, pw_table_column(t, "unit"));
  snprintf(row.program, sizeof row.program, "%.60s",
           pw_table_text(t, r, pw_table_column(t, "programme")));
  snprintf(row.unit, sizeof row.unit, "%s", strcmp(unit, "-") == 0 ? "" : unit);
  assert_int_equal(pw_metric_unit(metric, row.unit, &row.si, &row.step, NULL), PW_OK);
  return row;
}

static void label_at(pw_package *k, const pw_program_row *row, double printed)
{
  double si = printed * row->si;
  if (row->metric == PW_METRIC_U) k->label_u.value = si;
  if (row->metric == PW_METRIC_SHGC) k->label_shgc.value = si;
  if (row->metric == PW_METRIC_AIR_LEAKAGE) k->label_air_leakage.value = si;
}

/* Every limit of reference/trade/criteria.csv: the label at it, one digit above, one below. */
static void each_limit_is_met_to_its_last_digit(void **state)
{
  fixture *f = *state;
  static const struct {
    const char *name;
    pw_metric metric;
  } known[] = {
      {"U", PW_METRIC_U}, {"SHGC", PW_METRIC_SHGC}, {"air_leakage", PW_METRIC_AIR_LEAKAGE}};
  const pw_table *t = pw_table_find("trade/criteria");
  assert_non_null(t);
  pw_package *k = &f->open.job.package[1], before = *k;
  size_t limits = 0;
  for (size_t r = 0; r < t->n_row; r++)
    for (size_t m = 0; m < sizeof known / sizeof known[0]; m++) {
      const char *op = pw_table_text(t, r, pw_table_column(t, "op"));
      if (strcmp(pw_table_text(t, r, pw_table_column(t, "metric")), known[m].name) != 0 ||
          (strcmp(op, "<=") != 0 && strcmp(op, ">=") != 0 && strcmp(op, "=") != 0))
        continue;
      const char *unit = pw_table_text(t, r, pw_table_column(t, "unit"));
      if (strcmp(unit, "Btu/h-ft2-F") != 0 && strcmp(unit, "-") != 0 &&
          strcmp(unit, "cfm/ft2") != 0)
        continue;
      if (!isfinite(pw_table_number(t, r, pw_table_column(t, "value")))) continue;
      pw_program_row row = row_of(t, r, known[m].metric);
      pw_program program = {.n_row = 1, .row = &row};
      limits++;
      for (int step = -1; step <= 1; step++) {
        int holds = row.op == PW_OP_EQ ? step == 0 : row.op == PW_OP_LE ? step <= 0 : step >= 0;
        label_at(k, &row, row.value + step * row.step);
        pw_worksheet_input input = input_of(f, &program);
        pw_worksheet w = build(&input);
        const char *got = value(&w, "Criteria, by label values", "1", "result");
        if (strcmp(got, holds ? "pass" : "FAIL") != 0)
          fail_msg("%s %s %s %g at %+d digit: %s", row.program, known[m].name, op, row.value,
                   step, got);
        double margin = strtod(value(&w, "Criteria, by label values", "1", "margin"), NULL);
        double want = row.op == PW_OP_LE ? -step : row.op == PW_OP_GE ? step : -abs(step);
        pw_assert_near(margin, want * row.step, 1e-9, row.program, "limit less label");
        assert_int_equal(w.result.verdict == PW_VERDICT_MEETS, holds);
        pw_worksheet_free(&w);
      }
      *k = before;
    }
  print_message("%zu limits\n", limits);
  assert_true(limits > 100);
}

/* ---------------------------------------------------------------- areas, amounts, dates */

static double area_ft2(const fixture *f, size_t i, int opening)
{
  const pw_fit *fit = &f->compare.fitted.fit[1][i];
  double one = opening ? fit->opening_area : fit->order_width * fit->order_height;
  return f->open.job.opening[i].quantity * one / foot2;
}

/* reference/trade/rebate_form.md: area = W x H / 144, round at the end; by orientation. */
static void areas_add_up_by_orientation(void **state)
{
  fixture *f = *state;
  static const char *const side[] = {"N", "NE", "E", "SE", "S", "SW", "W", "NW"};
  pw_worksheet_input input = input_of(f, &f->utility);
  pw_worksheet w = build(&input);
  double sum = 0.0, parts = 0.0;
  for (size_t i = 0; i < f->compare.n_opening; i++)
    sum += area_ft2(f, i, 0);
  int count = 0;
  for (size_t s = 0; s < 8; s++) {
    parts += strtod(value(&w, "Area by orientation", side[s], "unit area, ft2"), NULL);
    count += atoi(value(&w, "Area by orientation", side[s], "count"));
  }
  pw_assert_near(strtod(value(&w, "Area by orientation", "all", "unit area, ft2"), NULL), sum,
                 0.05001, "all", "sum over openings");
  pw_assert_near(parts, sum, 8 * 0.05, "sides", "sum over openings");
  assert_int_equal(count, 12);
  /* examples/harrow_bend/openings.csv: W holds D1, F1, B2, B3 */
  pw_assert_near(strtod(value(&w, "Area by orientation", "W", "unit area, ft2"), NULL),
                 area_ft2(f, 2, 0) + area_ft2(f, 3, 0) + area_ft2(f, 8, 0) + area_ft2(f, 9, 0),
                 0.05001, "west", "openings.csv");
  /* L2 as printed: 46 1/8 x ... in; both sides over 12 */
  double width = f->compare.fitted.fit[1][1].order_width / 0.0254;
  double height = f->compare.fitted.fit[1][1].order_height / 0.0254;
  pw_assert_near(strtod(value(&w, "Sizes", "L2", "unit area each, ft2"), NULL),
                 width * height / 144.0, 0.005001, "L2", "W x H / 144");
  pw_worksheet_free(&w);
}

/* The lower group of the invented utility: $0.85/ft2, at most 40 % of the cost, at most $1150. */
static void the_amount_is_worked_out_line_by_line(void **state)
{
  fixture *f = *state;
  pw_package *k = &f->open.job.package[1], before = *k;
  k->label_u.value = 0.29 * u_ip;
  k->label_shgc.value = 0.30;
  k->label_air_leakage.value = 0.2 * 0.3048 / 60.0;
  for (int opening = 0; opening < 2; opening++) {
    pw_worksheet_input input = input_of(f, &f->utility);
    input.basis = opening ? PW_SIZE_OPENING : PW_SIZE_UNIT;
    double area = 0.0;
    for (size_t i = 0; i < f->compare.n_opening; i++)
      area += area_ft2(f, i, opening);
    pw_worksheet w = build(&input);
    assert_int_equal(w.result.verdict, PW_VERDICT_MEETS);
    pw_assert_near(w.amount.total, floor(0.85 * area * 100.0 + 0.5) / 100.0, 1e-9, "amount",
                   "$0.85 a ft2, no cap reached");
    assert_string_equal(value(&w, "Rebate", "", "size counted"),
                        opening ? "the opening in the wall" : "the unit as ordered");
    assert_true(w.amount.n_line >= 3);
    if (opening) { /* what compare and the sheet say */
      pw_rebate rebate;
      assert_int_equal(pw_rebate_of(&f->compare, 1, &f->utility, "", &rebate, NULL), PW_OK);
      pw_assert_near(w.amount.total, rebate.amount.total, 1e-9, "amount", "pw_rebate_of");
    }
    pw_worksheet_free(&w);
  }
  k->label_shgc.value = 0.24;
  k->label_u.value = 0.20 * u_ip; /* $2.40/ft2, still under both caps */
  pw_worksheet_input input = input_of(f, &f->utility);
  pw_worksheet w = build(&input);
  assert_string_equal(w.result.group, "warm and shaded");
  assert_true(w.amount.total > 400.0 && w.amount.total < 1150.0);
  pw_worksheet_free(&w);
  *k = before;
}

static void a_program_that_ended_pays_nothing(void **state)
{
  fixture *f = *state;
  pw_house_facts *h = &f->open.job.house, before = *h;
  snprintf(h->install_date, sizeof h->install_date, "2027-01-01");
  pw_worksheet_input input = input_of(f, &f->utility);
  pw_worksheet w = build(&input);
  assert_int_equal(w.result.verdict, PW_VERDICT_ENDED);
  assert_string_equal(value(&w, "Rebate", "", "amount"), "$0.00");
  assert_string_equal(value(&w, "Federal credit (26 USC 25C)", "", "amount"),
                      "no federal window credit");
  pw_worksheet_free(&w);
  snprintf(h->install_date, sizeof h->install_date, "2025-12-31");
  w = build(&input);
  assert_string_not_equal(value(&w, "Federal credit (26 USC 25C)", "", "rule"), "");
  pw_worksheet_free(&w);
  *h = before;
}

static void nothing_is_signed_beforehand(void **state)
{
  fixture *f = *state;
  pw_worksheet_input input = input_of(f, &f->utility);
  pw_worksheet w = build(&input);
  size_t lines = 0;
  for (size_t i = 0; i < w.n; i++)
    if (strcmp(w.field[i].block, "Signatures") == 0) {
      assert_string_equal(w.field[i].value, "");
      lines++;
    }
  assert_int_equal(lines, 4);
  assert_string_equal(value(&w, "Dates", "", "completed, placed in service"), "");
  pw_worksheet_free(&w);
}

/* ---------------------------------------------------------------- hostile names */

/* In CSV a cell that a spreadsheet would run begins with an apostrophe; in HTML nothing becomes
 * markup. */
static void hostile_names_stay_text(void **state)
{
  fixture *f = *state;
  static const char *const name[] = {
      "<script>alert(1)</script>", "=cmd|' /C calc'!A0",          "@SUM(1)", "+1-1",
      "\"quo'ted\",\n<b>bold</b>", "\xE2\x80\xAE\xD7\xA9\xD7\x9C"};
  pw_job *job = &f->open.job;
  pw_house_facts house = job->house;
  pw_opening opening = job->opening[4];
  pw_package package = job->package[1];
  for (size_t i = 0; i < sizeof name / sizeof name[0]; i++) {
    pw_house_facts *h = &job->house;
    snprintf(h->job, sizeof h->job, "%s", name[i]);
    snprintf(h->customer, sizeof h->customer, "%s", name[i]);
    snprintf(h->place_label, sizeof h->place_label, "%s", name[i]);
    snprintf(h->contractor, sizeof h->contractor, "%s", name[i]);
    snprintf(h->lead_certificate, sizeof h->lead_certificate, "%s", name[i]);
    snprintf(job->opening[4].tag, sizeof opening.tag, "%.23s", name[i]);
    snprintf(job->opening[4].room, sizeof opening.room, "%s", name[i]);
    snprintf(job->package[1].certificate, sizeof package.certificate, "%s", name[i]);
    pw_worksheet_input input = input_of(f, &f->utility);
    pw_worksheet w = build(&input);
    char *html = text_of(&input, &w, 0), *csv = text_of(&input, &w, 1);
    assert_null(strstr(html, "<script"));
    assert_null(strstr(html, "<b>bold"));
    assert_null(strstr(html, "\xE2\x80\xAE"));
    assert_int_not_equal(paper_is_tidy(html), 0);
    static const char *const runs[] = {",=", ",@", ",+1-1", ",\"=", ",\"@", ",\"+1-1"};
    for (size_t k = 0; k < sizeof runs / sizeof runs[0]; k++)
      if (strstr(csv, runs[k])) fail_msg("a cell begins %s", runs[k]);
    free(html);
    free(csv);
    pw_worksheet_free(&w);
  }
  job->house = house;
  job->opening[4] = opening;
  job->package[1] = package;
}

/* Long text in the roomiest field: the document still stands. */
static void three_hundred_characters_fit(void **state)
{
  fixture *f = *state;
  pw_program_row row = f->utility.row[0];
  row.kind = PW_ROW_CONDITION;
  memset(row.note, 'W', 300);
  row.note[300] = '\0';
  pw_program_row rows[2] = {f->utility.row[0], row};
  pw_program program = {.n_row = 2, .row = rows};
  pw_worksheet_input input = input_of(f, &program);
  pw_worksheet w = build(&input);
  assert_int_equal(strlen(value(&w, "Program", "", "rule to check by hand")), 300);
  char *html = text_of(&input, &w, 0);
  assert_non_null(strstr(html, "<bdi class=\"long\">WWW"));
  free(html);
  pw_worksheet_free(&w);
}

/* Struck, with the opening that contradicts it; whole again where nothing does. In one block with the signatures. */
static void a_contradicted_declaration_is_struck(void **state)
{
  fixture *f = *state;
  pw_worksheet_input input = input_of(f, &f->utility);
  pw_worksheet w = build(&input);
  char *text = text_of(&input, &w, 0);
  const char *row = strstr(text, "<li class=\"struck\">");
  assert_non_null(strstr(row, "<s>The work complies with local code"));
  assert_non_null(strstr(row, "a safety limit is not met in B2"));
  assert_true(strstr(text, "<div class=\"together\">") < row && strstr(row, "Signatures"));
  free(text), pw_worksheet_free(&w);
  for (size_t k = 0; k < f->compare.fitted.cautions.n; k++)
    if (f->compare.fitted.cautions.caution[k].state == PW_CAUTION_FAIL)
      f->compare.fitted.cautions.caution[k].state = PW_CAUTION_FLAG;
  w = build(&input);
  text = text_of(&input, &w, 0);
  assert_null(strstr(text, "class=\"struck\""));
  free(text), pw_worksheet_free(&w);
}

static void the_clerk_reads_no_command(void **state)
{
  fixture *f = *state;
  pw_worksheet_input input = input_of(f, &f->utility);
  pw_worksheet w = build(&input);
  for (size_t i = 0; i < w.n; i++) {
    char all[900];
    snprintf(all, sizeof all, "%s %s %s", w.field[i].name, w.field[i].value, w.field[i].note);
    if (strstr(all, "--") || strstr(all, ".csv") || strchr(all, '_') || strstr(all, "http"))
      fail_msg("%s", all);
  }
  pw_worksheet_free(&w);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest test[] = {
      cmocka_unit_test(a_label_field_without_a_label_stays_blank),
      cmocka_unit_test(label_values_are_copied_as_printed),
      cmocka_unit_test(the_existing_basis_shows_both),
      cmocka_unit_test(tinted_glass_takes_its_own_default),
      cmocka_unit_test(each_limit_is_met_to_its_last_digit),
      cmocka_unit_test(areas_add_up_by_orientation),
      cmocka_unit_test(the_amount_is_worked_out_line_by_line),
      cmocka_unit_test(a_program_that_ended_pays_nothing),
      cmocka_unit_test(nothing_is_signed_beforehand),
      cmocka_unit_test(hostile_names_stay_text),
      cmocka_unit_test(three_hundred_characters_fit),
      cmocka_unit_test(the_clerk_reads_no_command),
      cmocka_unit_test(a_contradicted_declaration_is_struck),
  };
  return cmocka_run_group_tests(test, set_up, tear_down);
}
