/* Criteria against label values, amounts, and the readers of program and tariff files. */
#include "support.h"

#include <glob.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/table.h"
#include "job/program_file.h"
#include "job/tariff_file.h"
#include "panewright/units.h"

static const char head[] = "program,edition,zone,row,group,metric,op,value,unit,from,to,note\n";

static pw_program parse(const char *rows)
{
  char text[4096];
  pw_program p;
  pw_err err = {0};
  snprintf(text, sizeof text, "%s%s", head, rows);
  if (pw_program_parse("p.csv", text, strlen(text), &p, NULL, &err) != PW_OK)
    fail_msg("%s", err.text);
  return p;
}

static pw_program read(const char *name)
{
  char path[128];
  pw_program p;
  pw_err err = {0};
  snprintf(path, sizeof path, "examples/programs/%s.csv", name);
  if (pw_program_read(path, &p, NULL, &err) != PW_OK) fail_msg("%s", err.text);
  return p;
}

/* A label with every value far on the good side of any limit. */
static pw_label label(double u_ip, double shgc)
{
  return (pw_label){u_ip * PW_U_IP, shgc, 0.5, 0.1 * PW_FOOT / 60.0};
}

static pw_program_result judge(const pw_program *p, const char *zone, pw_label l, pw_date date)
{
  pw_program_result r;
  pw_err err = {0};
  if (pw_program_judge(p, zone, &l, date, &r, &err) != PW_OK) fail_msg("%s", err.text);
  return r;
}

/* ---------------------------------------------------------------- criteria */

/* Every criterion of every example stands in reference/trade/criteria.csv with the same limit (zones
 * of the California set are listed there together, so zone is looked at in the others only). */
static void examples_are_the_published_limits(void **state)
{
  (void)state;
  const pw_table *t = pw_table_find("trade/criteria");
  int value = pw_table_column(t, "value"), metric = pw_table_column(t, "metric");
  int edition = pw_table_column(t, "edition"), zone = pw_table_column(t, "zone");
  int op = pw_table_column(t, "op"), programme = pw_table_column(t, "programme");
  glob_t files;
  size_t seen = 0;
  assert_int_equal(glob("examples/programs/*.csv", 0, NULL, &files), 0);
  for (size_t f = 0; f < files.gl_pathc; f++) {
    pw_program p;
    pw_err err = {0};
    pw_notes notes = {0};
    if (pw_program_read(files.gl_pathv[f], &p, &notes, &err) != PW_OK) fail_msg("%s", err.text);
    assert_int_equal(notes.n, 0);
    int invented = strstr(p.row[0].program, "fictional") != NULL;
    int credit = strstr(p.row[0].program, "25C") != NULL;
    int california = strstr(p.row[0].program, "California") != NULL;
    for (size_t i = 0; i < p.n_row && !invented; i++) {
      const pw_program_row *row = &p.row[i];
      if (row->kind != PW_ROW_CRITERION) continue;
      const char *name = credit ? "ENERGY STAR Most Efficient" : row->program;
      int found = 0;
      for (size_t r = 0; r < t->n_row && !found; r++)
        found =
            !strcmp(pw_table_text(t, r, programme), name) &&
            !strcmp(pw_table_text(t, r, metric), pw_metric_name(row->metric)) &&
            !strcmp(pw_table_text(t, r, op), pw_op_sign(row->op)) &&
            (credit || california || (!strcmp(pw_table_text(t, r, edition), row->edition))) &&
            (california || !strcmp(pw_table_text(t, r, zone), row->zone)) &&
            pw_table_number(t, r, value) == row->value;
      if (!found) fail_msg("%s line %d is not in criteria.csv", files.gl_pathv[f], row->line);
      seen++;
    }
    pw_program_free(&p);
    pw_notes_free(&notes);
  }
  globfree(&files);
  print_message("%zu criteria stand in criteria.csv\n", seen);
  assert_true(seen > 150);
}

/* Every <= and >= row of criteria.csv in U and SHGC: holds at the limit and a step inside, fails a
 * step outside; also where the label value has gone to SI and back. */
static void each_limit_holds_at_and_fails_beyond(void **state)
{
  (void)state;
  const pw_table *t = pw_table_find("trade/criteria");
  size_t seen = 0;
  for (size_t r = 0; r < t->n_row; r++) {
    const char *metric = pw_table_text(t, r, pw_table_column(t, "metric"));
    const char *op = pw_table_text(t, r, pw_table_column(t, "op"));
    double limit = pw_table_number(t, r, pw_table_column(t, "value"));
    int is_u = !strcmp(metric, "U"), is_le = !strcmp(op, "<=");
    if ((!is_u && strcmp(metric, "SHGC")) || (!is_le && strcmp(op, ">=")) || isnan(limit))
      continue;
    if (is_u && strcmp(pw_table_text(t, r, pw_table_column(t, "unit")), "Btu/h-ft2-F"))
      continue;
    char row[200];
    snprintf(row, sizeof row, "P,1,,criterion,,%s,%s,%.2f,%s,,,\n", is_u ? "u" : "shgc", op,
             limit, is_u ? "Btu/h-ft2-F" : "");
    pw_program p = parse(row);
    for (int step = -1; step <= 1; step++) {
      double v = limit + 0.01 * step;
      pw_program_result got = judge(&p, "", is_u ? label(v, 0.3) : label(0.3, v), 0);
      int want = is_le ? step <= 0 : step >= 0;
      assert_int_equal(got.verdict, want ? PW_VERDICT_MEETS : PW_VERDICT_FAILS);
      pw_assert_near(got.criterion[0].margin, is_le ? -0.01 * step : 0.01 * step, 1e-9, row,
                     "criteria.csv");
      seen++;
    }
    pw_program_free(&p);
  }
  assert_true(seen > 250);
}

/* A label of 0.274 prints 0.27, of 0.276 prints 0.28; the rule looks at the print. */
static void the_printed_value_decides(void **state)
{
  (void)state;
  pw_program p = parse("P,1,,criterion,,u,<=,0.27,Btu/h-ft2-F,,,\n");
  assert_int_equal(judge(&p, "", label(0.2749, 0.3), 0).verdict, PW_VERDICT_MEETS);
  assert_int_equal(judge(&p, "", label(0.2751, 0.3), 0).verdict, PW_VERDICT_FAILS);
  assert_int_equal(judge(&p, "", label(NAN, 0.3), 0).verdict, PW_VERDICT_NO_LABEL);
  pw_program_free(&p);
}

/* Of groups that all fail the one nearest to being met is told: by the criterion that lacks most, in steps of the label, those that always hold
 * among them; of equals the first. Label U 0.30, SHGC 0.32. */
static void the_nearest_group_is_told(void **state)
{
  (void)state;
  static const struct {
    const char *rows, *group;
  } row[] = {
      /* a lacks 5 steps of U, b 2 of SHGC */
      {"P,1,all,criterion,a,U,<=,0.25,Btu/h-ft2-F,,,\nP,1,all,criterion,b,SHGC,<=,0.30,-,,,\n",
       "b"},
      {"P,1,all,criterion,b,SHGC,<=,0.30,-,,,\nP,1,all,criterion,a,U,<=,0.25,Btu/h-ft2-F,,,\n",
       "b"},
      /* b lacks 2 and 6: its worst counts */
      {"P,1,all,criterion,a,U,<=,0.25,Btu/h-ft2-F,,,\nP,1,all,criterion,b,SHGC,<=,0.30,-,,,\n"
       "P,1,all,criterion,b,U,<=,0.24,Btu/h-ft2-F,,,\n",
       "a"},
      /* what always holds lacks 7, whatever the group: equals, the first */
      {"P,1,all,criterion,a,U,<=,0.25,Btu/h-ft2-F,,,\nP,1,all,criterion,b,SHGC,<=,0.30,-,,,\n"
       "P,1,all,criterion,always,U,<=,0.23,Btu/h-ft2-F,,,\n",
       "a"},
      /* one group is met: it, wherever it stands */
      {"P,1,all,criterion,a,U,<=,0.29,Btu/h-ft2-F,,,\nP,1,all,criterion,b,SHGC,<=,0.32,-,,,\n",
       "b"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_program p = parse(row[i].rows);
    const pw_program_result r = judge(&p, "", label(0.30, 0.32), 20240601);
    if (strcmp(r.group, row[i].group) != 0) fail_msg("row %zu: %s", i, r.group);
    assert_int_equal(r.verdict, i == 4 ? PW_VERDICT_MEETS : PW_VERDICT_FAILS);
    pw_program_free(&p);
  }
}

/* Source: reference/trade/criteria.csv, ENERGY STAR 7.0 Northern: U 0.22 with SHGC 0.17 or more, or
 * U 0.25 with SHGC 0.40 or more; 6.0 before 2023-10-23: U 0.27. */
static void trade_offs_and_editions_by_date(void **state)
{
  (void)state;
  pw_program p = read("energy_star_windows");
  assert_int_equal(judge(&p, "Northern", label(0.22, 0.17), 20240601).verdict,
                   PW_VERDICT_MEETS);
  assert_int_equal(judge(&p, "Northern", label(0.22, 0.16), 20240601).verdict,
                   PW_VERDICT_FAILS);
  pw_program_result r = judge(&p, "Northern", label(0.25, 0.40), 20240601);
  assert_int_equal(r.verdict, PW_VERDICT_MEETS);
  assert_string_equal(r.group, "tradeoff-3");
  assert_int_equal(judge(&p, "Northern", label(0.25, 0.39), 20240601).verdict,
                   PW_VERDICT_FAILS);
  assert_int_equal(judge(&p, "Northern", label(0.27, 0.20), 20231022).verdict,
                   PW_VERDICT_MEETS);
  assert_int_equal(judge(&p, "Northern", label(0.27, 0.20), 20231023).verdict,
                   PW_VERDICT_FAILS);
  r = judge(&p, "Southern", label(0.32, 0.23), 0);
  assert_int_equal(r.verdict, PW_VERDICT_NO_DATE);
  assert_non_null(strstr(pw_said(&r.says), "ask the program which edition holds"));
  assert_int_equal(judge(&p, "Southern", label(0.33, 0.23), 0).verdict, PW_VERDICT_FAILS);
  pw_label leaky = label(0.20, 0.30);
  leaky.air_leakage = 0.4 * PW_FOOT / 60.0;
  assert_int_equal(judge(&p, "Northern", leaky, 20240601).verdict, PW_VERDICT_FAILS);
  leaky.air_leakage = 0.34 * PW_FOOT / 60.0; /* prints 0.3 */
  assert_int_equal(judge(&p, "Northern", leaky, 20240601).verdict, PW_VERDICT_MEETS);
  leaky.air_leakage = NAN;
  r = judge(&p, "Northern", leaky, 20240601);
  assert_int_equal(r.verdict, PW_VERDICT_NO_LABEL);
  pw_err err;
  assert_int_equal(pw_program_judge(&p, "Norhtern", &leaky, 0, &r, &err), PW_E_DOMAIN);
  assert_non_null(strstr(err.text, "North-Central, South-Central, Southern"));
  assert_int_equal(pw_program_judge(&p, "", &leaky, 0, &r, &err), PW_E_DOMAIN);
  pw_program_free(&p);
}

/* Source: 26 USC 25C as ended by Public Law 119-21: property placed in service after 2025-12-31. */
static void the_federal_credit_has_ended(void **state)
{
  (void)state;
  pw_program p = read("federal_25c");
  const pw_claim claim = {
      .n_opening = 10, .area = 14.0, .cost = 9000.0, .product_cost = 5000.0};
  pw_amount a;
  pw_program_result r = judge(&p, "Southern", label(0.20, 0.20), 20251231);
  assert_int_equal(r.verdict, PW_VERDICT_MEETS);
  assert_int_equal(pw_program_amount(&p, "Southern", 20251231, &r, &claim, &a, NULL), PW_OK);
  pw_assert_near(a.total, 600.0, 0.0, "30 % of 5000, cap 600", "criteria.csv");
  r = judge(&p, "Southern", label(0.20, 0.20), 20260101);
  assert_int_equal(r.verdict, PW_VERDICT_ENDED);
  assert_non_null(
      strstr(pw_said(&r.says), "ended 2025-12-31 and the install date is 2026-01-01"));
  assert_int_equal(pw_program_amount(&p, "Southern", 20260101, &r, &claim, &a, NULL), PW_OK);
  pw_assert_near(a.total, 0.0, 0.0, "nothing", "law");
  assert_int_equal(a.line[0].says.number, r.says.number);
  assert_int_equal(judge(&p, "Southern", label(0.20, 0.20), 20221231).verdict,
                   PW_VERDICT_EARLY);
  pw_program_free(&p);
}

/* ---------------------------------------------------------------- amounts */

/* By hand: 14 m2 = 150.7 ft2; at $2.40/ft2 = $361.67, at $0.85/ft2 = $128.09; 40 % of $800 = $320. */
static void amounts_are_arithmetic_line_by_line(void **state)
{
  (void)state;
  pw_program p = read("juniper_flat_power_2026");
  pw_claim claim = {.n_opening = 10, .area = 14.0, .cost = 9000.0};
  pw_amount a;
  pw_program_result r = judge(&p, "", label(0.22, 0.28), 20260601);
  assert_string_equal(r.group, "warm and shaded");
  assert_int_equal(pw_program_amount(&p, "", 20260601, &r, &claim, &a, NULL), PW_OK);
  pw_assert_near(a.total, 361.67, 1e-9, "14 m2 at $2.40/ft2", "by hand");
  assert_int_equal(a.n_line, 3);
  assert_string_equal(pw_said(&a.line[0].says), "150.7 ft2 x $2.40/ft2");
  assert_non_null(
      strstr(pw_said(&a.line[1].says), "cap: 40 % of $9000.00 installed, not reached"));
  r = judge(&p, "", label(0.25, 0.28), 20260601);
  assert_string_equal(r.group, "warm");
  assert_int_equal(pw_program_amount(&p, "", 20260601, &r, &claim, &a, NULL), PW_OK);
  pw_assert_near(a.total, 128.09, 1e-9, "14 m2 at $0.85/ft2", "by hand");
  r = judge(&p, "", label(0.20, 0.28), 20260601);
  claim.cost = 800.0;
  assert_int_equal(pw_program_amount(&p, "", 20260601, &r, &claim, &a, NULL), PW_OK);
  pw_assert_near(a.total, 320.0, 1e-9, "40 % of 800", "by hand");
  claim.earlier = 700.0;
  assert_int_equal(pw_program_amount(&p, "", 20260601, &r, &claim, &a, NULL), PW_OK);
  pw_assert_near(a.total, 100.0, 1e-9, "cost less earlier", "by hand");
  claim.cost = 90000.0;
  claim.area = 200.0;
  assert_int_equal(pw_program_amount(&p, "", 20260601, &r, &claim, &a, NULL), PW_OK);
  pw_assert_near(a.total, 1150.0, 1e-9, "cap of a house", "by hand");
  pw_err err;
  claim.area = -1.0;
  assert_int_equal(pw_program_amount(&p, "", 20260601, &r, &claim, &a, &err), PW_E_DOMAIN);
  assert_string_equal(err.field, "area");
  pw_program_free(&p);
}

/* ---------------------------------------------------------------- dates and files */

static void dates_are_days_of_the_calendar(void **state)
{
  (void)state;
  pw_date d = 5;
  char text[11];
  assert_int_equal(pw_date_read("2024-02-29", &d, NULL), PW_OK);
  assert_int_equal(d, 20240229);
  pw_date_write(d, text);
  assert_string_equal(text, "2024-02-29");
  static const char *const bad[] = {"2023-02-29", "2026-13-01", "2026-1-1",  "26-01-01",
                                    "2026-00-10", "2026/01/01", "2026-01-32"};
  for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
    assert_int_equal(pw_date_read(bad[i], &d, NULL), PW_E_DOMAIN);
  assert_int_equal(d, 20240229);
  assert_int_equal(pw_date_read("", &d, NULL), PW_OK);
  assert_int_equal(d, 0);
}

static void bad_programs_are_one_clear_line(void **state)
{
  (void)state;
  static const struct {
    const char *row, *want;
  } bad[] = {
      {"P,1,,criterion,,u,<=,-0.3,Btu/h-ft2-F,,,\n", "p.csv:2:8: value"},
      {"P,1,,criterion,,u,<=,0.3,furlong,,,\n", "p.csv:2:9: unit: 'furlong'"},
      {"P,1,,criterion,,u,,0.3,Btu/h-ft2-F,,,\n", "p.csv:2:7: op"},
      {"P,1,,criterion,,,<=,0.3,Btu/h-ft2-F,,,\n", "p.csv:2:6: metric"},
      {"P,1,,criterion,,u,<=,,Btu/h-ft2-F,,,\n", "p.csv:2:8: value"},
      {"P,1,,criterion,,shcg,<=,0.3,,,,\n", "did you mean shgc"},
      {"P,1,,amount,,,,2,$/yard,,,\n", "p.csv:2:9: unit: '$/yard'"},
      {"P,1,,amount,,,,-2,$,,,\n", "p.csv:2:8: value"},
      {"P,1,,amount,,,,2,$,2026-05-01,2026-04-01,\n", "p.csv:2:11: to: '2026-04-01'"},
      {"P,1,,amount,,,,2,$,2026-02-30,,\n", "p.csv:2:10: from"},
      {"P,1,,document,,,,,,,,\n", "p.csv:2:12: note"},
      {",1,,amount,,,,2,$,,,\n", "p.csv:2:1: program"},
      {"", "no rows"},
  };
  for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
    char text[600];
    pw_program p;
    pw_err err = {0};
    snprintf(text, sizeof text, "%s%s", head, bad[i].row);
    assert_int_equal(pw_program_parse("p.csv", text, strlen(text), &p, NULL, &err), PW_E_DATA);
    if (!strstr(err.text, bad[i].want)) fail_msg("'%s' wants '%s'", err.text, bad[i].want);
    assert_null(p.row);
  }
}

static pw_status tariff(const char *rows, pw_tariff_file *file, pw_notes *notes, pw_err *err)
{
  char text[2000];
  snprintf(text, sizeof text, "fuel,kind,months,days,from,to,upto,value,unit\n%s", rows);
  return pw_tariff_parse("t.csv", text, strlen(text), file, notes, err);
}

static void a_tariff_file_is_read(void **state)
{
  (void)state;
  pw_tariff_file f;
  pw_notes notes = {0};
  assert_int_equal(tariff("electricity,period,all,all,,,,0.20,\n"
                          "electricity,period,jun-sep,weekday,16,21,,0.50,$/kWh\n"
                          "gas,tier,,,,,30,1.20,$/therm\ngas,tier,,,,,,1.80,$/therm\n"
                          "gas,base,nov-feb,,,,,10,therm\ngas,fixed,,,,,,5,$\n",
                          &f, &notes, NULL),
                   PW_OK);
  assert_true(f.has[PW_FUEL_ELECTRICITY] && f.has[PW_FUEL_GAS] && !f.has[PW_FUEL_OIL]);
  const pw_tariff *e = &f.tariff[PW_FUEL_ELECTRICITY], *g = &f.tariff[PW_FUEL_GAS];
  assert_int_equal(e->period[1].months, 0x1E0);
  assert_int_equal(e->clock, 1);
  pw_assert_near(g->tier[0].upto_kwh, 30 * PW_THERM_KWH, 1e-9, "30 therms", "by hand");
  pw_assert_near(g->tier[1].price, 1.80 / PW_THERM_KWH, 1e-12, "$1.80 a therm", "by hand");
  pw_assert_near(g->base_kwh[0], 10 * PW_THERM_KWH, 1e-9, "January", "by hand");
  pw_assert_near(g->base_kwh[6], 0.0, 0.0, "July", "by hand");
  assert_int_equal(notes.n, 1);
  pw_notes_free(&notes);
}

/* Months by name, number and run, round the end of the year too; there is no month 0 and none 13. By the calendar. */
static void months_of_a_tariff(void **state)
{
  (void)state;
  static const struct {
    const char *cell;
    unsigned months;
  } row[] = {{"1 2 12", 0x803},  {"12", 0x800},  {"1", 0x001},    {"nov-mar", 0xC07},
             {"7-7", 0x040},     {"all", 0xFFF}, {"January", 1u}, {"june;sept", 0x120},
             {"10-11;5", 0x610}, {"13", 0},      {"0", 0},        {"1 13", 0},
             {"ju", 0},          {"jun-13", 0},  {"1x", 0}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    char rows[160];
    pw_tariff_file f;
    snprintf(rows, sizeof rows,
             "electricity,period,all,all,,,,0.20,\nelectricity,period,%s,,,,,0.5,\n",
             row[i].cell);
    pw_status s = tariff(rows, &f, NULL, NULL);
    if ((s == PW_OK) != (row[i].months != 0)) fail_msg("'%s': status %d", row[i].cell, (int)s);
    if (s == PW_OK)
      assert_int_equal(f.tariff[PW_FUEL_ELECTRICITY].period[1].months, row[i].months);
  }
}

static void bad_tariffs_are_one_clear_line(void **state)
{
  (void)state;
  static const struct {
    const char *row, *want;
  } bad[] = {
      {"electricity,flat,,,,,,-0.2,\n", "t.csv:2:8: value"},
      {"electricity,flat,,,,,,,\n", "t.csv:2:8: value"},
      {"electricity,tier,,,,,500,0.2,\nelectricity,tier,,,,,300,0.3,\n",
       "t.csv:3:7: upto: '300'"},
      {"electricity,tier,,,,,500,0.2,\n", "the last tier ends"},
      {"electricity,flat,,,,,,0.2,\nelectricity,tier,,,,,,0.3,\n", "t.csv:3:2: kind"},
      {"electricity,period,jun-spe,,,,,0.2,\n", "t.csv:2:3: months: 'jun-spe'"},
      {"electricity,period,jun,,,,,0.2,\n", "no price for month 1"},
      {"electricity,period,,,16,25,,0.2,\n", "t.csv:2:6: to"},
      {"electricity,flat,,,,,,0.2,$/gal\n", "t.csv:2:9: unit: '$/gal'"},
      {"coal,flat,,,,,,0.2,\n", "t.csv:2:1: fuel"},
  };
  for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
    pw_tariff_file f = {.has = {7}};
    pw_err err = {0};
    assert_int_equal(tariff(bad[i].row, &f, NULL, &err), PW_E_DATA);
    if (!strstr(err.text, bad[i].want)) fail_msg("'%s' wants '%s'", err.text, bad[i].want);
    assert_int_equal(f.has[0], 7);
  }
  pw_tariff_file f;
  pw_err err;
  assert_int_equal(pw_tariff_read("no/such.csv", &f, NULL, &err), PW_E_MISSING);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(examples_are_the_published_limits),
      cmocka_unit_test(each_limit_holds_at_and_fails_beyond),
      cmocka_unit_test(the_printed_value_decides),
      cmocka_unit_test(trade_offs_and_editions_by_date),
      cmocka_unit_test(the_nearest_group_is_told),
      cmocka_unit_test(the_federal_credit_has_ended),
      cmocka_unit_test(amounts_are_arithmetic_line_by_line),
      cmocka_unit_test(dates_are_days_of_the_calendar),
      cmocka_unit_test(bad_programs_are_one_clear_line),
      cmocka_unit_test(a_tariff_file_is_read),
      cmocka_unit_test(months_of_a_tariff),
      cmocka_unit_test(bad_tariffs_are_one_clear_line),
  };
  return cmocka_run_group_tests(tests, NULL, NULL);
}
