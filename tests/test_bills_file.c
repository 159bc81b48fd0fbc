/* bills.csv as people write it, and what is refused in it. */
#include "support.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/date.h"
#include "job/bills_file.h"

static pw_status parse(const char *text, pw_bills *bills, pw_err *err)
{
  pw_notes notes = {0};
  pw_status status = pw_bills_parse("bills.csv", text, strlen(text), bills, &notes, err);
  pw_notes_free(&notes);
  return status;
}

static int day(int date) { return pw_date_day(date); }

/* One bill in many spellings: 2026-02-14 to 2026-03-15, 55.8 therm. */
static void spellings_mean_the_same(void **state)
{
  (void)state;
  static const char *const text[] = {
      "fuel,from,to,amount,unit,cost,read\ngas,2026-02-14,2026-03-15,55.8,therm,80,actual\n",
      "Fuel,FROM,To,Amount,Unit,Cost,Read\nGas,2/14/2026,3/15/2026,55.8,Therms,$80.00,Actual\n",
      "\xEF\xBB\xBF"
      "fuel,start,end,use,unit,cost\r\nnatural gas,14.2.2026,15.3.2026,55.8,THERM,80\r\n",
      "read,unit,amount,to,from,fuel,cost\n,,55.8 therms,\"Mar 15, 2026\",\"Feb 14, "
      "2026\",gas,\"$80.00\"\n",
      "fuel,from,to,usage,unit,estimated,cost\ngas,2026/2/14,2026/3/15,5.58,Dth,no,80\n",
      "sep=,\nfuel,from,to,amount,unit,cost\n# a "
      "note\n\ngas,15-Feb-2026,15-Mar-2026,55.8,therm,80\n",
      "fuel,from,to,amount,unit,cost,note\ngas,2026-02-14,2026-03-15,55.8,therm,80,\xB0\n"};
  for (size_t i = 0; i < sizeof text / sizeof text[0]; i++) {
    pw_bills b;
    pw_err err = {0};
    if (parse(text[i], &b, &err) != PW_OK) fail_msg("%zu: %s", i, err.text);
    const pw_bills_fuel *g = &b.fuel[PW_FUEL_GAS];
    assert_int_equal(g->n, 1);
    assert_int_equal(g->row[0].from, day(20260214) + (i == 5));
    assert_int_equal(g->row[0].to, day(20260315));
    pw_assert_near(g->row[0].amount * g->unit_kwh, 55.8 * 29.3071, 0.02, "kWh", "therm");
    pw_assert_near(g->row[0].cost, 80.0, 1e-9, "cost", "as written");
    assert_int_equal(g->row[0].read, PW_READ_ACTUAL);
    pw_bills_free(&b);
  }
}

/* The heat of a unit: 1 MMBtu is 10 therm; one ccf a tenth of the Mcf of money.csv, about 1.037 therm. */
static void units_are_heat(void **state)
{
  (void)state;
  static const struct {
    const char *fuel, *amount, *unit;
    double kwh, tolerance;
  } row[] = {{"gas", "1", "MMBtu", 293.071, 0.001},
             {"gas", "10", "therm", 293.071, 0.001},
             {"gas", "1", "Mcf", 303.9, 0.5},
             {"gas", "10", "ccf", 303.9, 0.5},
             {"gas", "28.3168", "m3", 303.9, 0.5},
             {"gas", "293.071", "kWh", 293.071, 0.001},
             {"electricity", "1.5", "MWh", 1500, 0},
             {"oil", "1", "gal", 40.59, 0.01},
             {"oil", "3.785412", "litres", 40.59, 0.01},
             {"propane", "1", "gallons", 26.80, 0.01}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    char text[200];
    pw_bills b;
    pw_err err = {0};
    snprintf(text, sizeof text, "fuel,from,to,amount,unit\n%s,2026-01-01,2026-02-01,%s,%s\n",
             row[i].fuel, row[i].amount, row[i].unit);
    if (parse(text, &b, &err) != PW_OK) fail_msg("%s: %s", row[i].unit, err.text);
    for (int f = 0; f < PW_FUEL_COUNT; f++)
      if (b.fuel[f].n)
        pw_assert_near(b.fuel[f].row[0].amount * b.fuel[f].unit_kwh, row[i].kwh,
                       row[i].tolerance + 1e-9, row[i].unit, "money.csv heat_content");
    pw_bills_free(&b);
  }
}

/* Mixed units come to one; the factor that the bill prints goes before the country's mean. */
static void mixed_units_come_to_one(void **state)
{
  (void)state;
  pw_bills b;
  assert_int_equal(parse("fuel,from,to,amount,unit,heat_factor\n"
                         "gas,2026-01-01,2026-02-01,100,therm,\n"
                         "gas,2026-02-01,2026-03-01,10,MMBtu,\n"
                         "gas,2026-03-01,2026-04-01,50,ccf,1.05\n",
                         &b, NULL),
                   PW_OK);
  const pw_bills_fuel *g = &b.fuel[PW_FUEL_GAS];
  assert_string_equal(g->unit, "therm");
  pw_assert_near(g->row[0].amount, 100.0, 1e-9, "therm", "as written");
  pw_assert_near(g->row[1].amount, 100.0, 1e-6, "therm", "10 MMBtu");
  pw_assert_near(g->row[2].amount, 52.5, 1e-9, "therm", "50 ccf at 1.05");
  pw_bills_free(&b);
}

/* 3/4/2026 may be read in two ways; another date of the file decides, or it is refused. */
static void dates_decide_each_other(void **state)
{
  (void)state;
  pw_bills b;
  assert_int_equal(parse("fuel,from,to,amount\nelectricity,3/4/2026,4/5/2026,9\n"
                         "electricity,4/5/2026,5/13/2026,9\n",
                         &b, NULL),
                   PW_OK);
  assert_int_equal(b.fuel[0].row[0].from, day(20260304));
  pw_bills_free(&b);
  assert_int_equal(parse("fuel,from,to,amount\nelectricity,3/4/2026,4/5/2026,9\n"
                         "electricity,4/5/2026,13/6/2026,9\n",
                         &b, NULL),
                   PW_OK);
  assert_int_equal(b.fuel[0].row[0].from, day(20260403));
  pw_bills_free(&b);
}

/* Of dates that all may be read in two ways, the order in which no bill ends before it begins. */
static void bills_decide_their_dates(void **state)
{
  (void)state;
  pw_bills b;
  assert_int_equal(parse("fuel,from,to,amount\nelectricity,02/09/2026,03/10/2026,9\n"
                         "electricity,04/12/2026,05/11/2026,9\n",
                         &b, NULL),
                   PW_OK);
  assert_int_equal(b.fuel[0].row[0].from, day(20260209));
  pw_bills_free(&b);
}

static void reads_have_their_words(void **state)
{
  (void)state;
  static const struct {
    const char *word;
    pw_read_kind is;
  } row[] = {{"actual", PW_READ_ACTUAL},       {"Estimated", PW_READ_ESTIMATED},
             {"E", PW_READ_ESTIMATED},         {"missing", PW_READ_MISSING},
             {"corrected", PW_READ_CORRECTED}, {"", PW_READ_ACTUAL}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    char text[200];
    pw_bills b;
    snprintf(text, sizeof text,
             "fuel,from,to,amount,read\nelectricity,2026-01-01,2026-02-01,5,%s\n", row[i].word);
    assert_int_equal(parse(text, &b, NULL), PW_OK);
    assert_int_equal(b.fuel[0].row[0].read, row[i].is);
    pw_bills_free(&b);
  }
  pw_bills b;
  assert_int_equal(parse("fuel,from,to,amount,unit\npropane,,2026-02-01,120 "
                         "gal,\npropane,2026-02-01,2026-04-01,,\n",
                         &b, NULL),
                   PW_OK);
  assert_int_equal(b.fuel[PW_FUEL_PROPANE].row[0].from, PW_BILL_NO_DAY);
  assert_int_equal(b.fuel[PW_FUEL_PROPANE].row[1].read, PW_READ_MISSING);
  pw_bills_free(&b);
}

/* Each refusal is one line with its place, and leaves nothing behind. */
static void what_is_wrong_is_said(void **state)
{
  (void)state;
  static const struct {
    const char *text;
    int line, column;
    const char *words;
  } row[] = {
      {"fuel,from,to,amount\n", 1, 0, "no bill"},
      {"from,to,amount\n2026-01-01,2026-02-01,5\n", 1, 0, "fuel"},
      {"fuel,from,amount\ngas,2026-01-01,5\n", 1, 0, "to"},
      {"fuel,from,to,amount\ncoal,2026-01-01,2026-02-01,5\n", 2, 1, "electricity, gas, oil"},
      {"fuel,from,to,amount\ngas,2026-02-30,2026-03-01,5\n", 2, 2, "no date"},
      {"fuel,from,to,amount\ngas,46054,2026-03-01,5\n", 2, 2, "spreadsheet"},
      {"fuel,from,to,amount\ngas,3/4/2026,4/5/2026,5\n", 2, 2, "may be"},
      {"fuel,from,to,amount\ngas,2026-03-01,2026-03-01,5\n", 2, 3, "after"},
      {"fuel,from,to,amount\ngas,2020-03-01,2026-03-01,5\n", 2, 3, "800"},
      {"fuel,from,to,amount\ngas,2026-03-01,2026-04-01,lots\n", 2, 4, "number"},
      {"fuel,from,to,amount\ngas,2026-03-01,2026-04-01,nan\n", 2, 4, "number"},
      {"fuel,from,to,amount\ngas,2026-03-01,2026-04-01,5 +- 1\n", 2, 4, "number"},
      {"fuel,from,to,amount\ngas,2026-03-01,2026-04-01,$55.80\n", 2, 4, "not money"},
      {"fuel,from,to,amount,unit\ngas,2026-03-01,2026-04-01,5,$\n", 2, 5, "therm, ccf"},
      {"fuel,from,to,amount,unit\nelectricity,2026-03-01,2026-04-01,5,ccf\n", 2, 5, "kWh"},
      {"fuel,from,to,amount,read\ngas,2026-03-01,2026-04-01,5,perhaps\n", 2, 5, "estimated"},
      {"fuel,from,to,amount,heat_factor\ngas,2026-03-01,2026-04-01,5,9\n", 2, 5, "0.7 to 1.5"},
      {"fuel,from,start,to,amount\ngas,2026-03-01,2026-03-01,2026-04-01,5\n", 1, 3,
       "one of them"},
      {"house,fuel,from,to,amount\na,gas,2026-03-01,2026-04-01,5\nb,gas,2026-03-01,2026-04-01,"
       "5\n",
       3, 1, "one house"}};
  for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
    pw_bills b;
    pw_err err = {0};
    if (parse(row[i].text, &b, &err) != PW_E_DATA) fail_msg("taken: %s", row[i].text);
    if (!strstr(err.text, row[i].words)) fail_msg("%s\n -> %s", row[i].text, err.text);
    assert_int_equal(err.line, row[i].line);
    assert_int_equal(err.column, row[i].column);
    assert_null(strchr(err.text, '\n'));
    for (int f = 0; f < PW_FUEL_COUNT; f++)
      assert_null(b.fuel[f].row);
  }
}

static void too_many_bills_are_refused(void **state)
{
  (void)state;
  static char text[40 * (PW_BILL_PERIODS_MAX + 10)];
  size_t n = (size_t)snprintf(text, sizeof text, "fuel,from,to,amount\n");
  for (int i = 0; i <= PW_BILL_PERIODS_MAX; i++) {
    char from[11], to[11];
    pw_date_write(pw_date_of_day(10000 + i), from);
    pw_date_write(pw_date_of_day(10001 + i), to);
    n += (size_t)snprintf(text + n, sizeof text - n, "gas,%s,%s,5\n", from, to);
  }
  pw_bills b;
  pw_err err = {0};
  assert_int_equal(parse(text, &b, &err), PW_E_DATA);
  assert_int_equal(err.line, PW_BILL_PERIODS_MAX + 2);
}

int main(void)
{
  pw_test_begin();
  const struct CMUnitTest tests[] = {
      cmocka_unit_test(spellings_mean_the_same),  cmocka_unit_test(units_are_heat),
      cmocka_unit_test(mixed_units_come_to_one),  cmocka_unit_test(dates_decide_each_other),
      cmocka_unit_test(bills_decide_their_dates), cmocka_unit_test(reads_have_their_words),
      cmocka_unit_test(what_is_wrong_is_said),    cmocka_unit_test(too_many_bills_are_refused)};
  return cmocka_run_group_tests(tests, NULL, NULL);
}
