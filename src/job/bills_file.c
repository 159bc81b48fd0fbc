#include "job/bills_file.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "base/nearest.h"
#include "job/csv.h"
#include "job/date_text.h"
#include "job/field.h"
#include "job/field_list.h"
#include "job/number.h"
#include "job/unit_text.h"
#include "panewright/rates.h"

/* Columns, and the other names that stand for some of them. */
enum { FUEL, FROM, TO, AMOUNT, UNIT, COST, READ, GENERATION, FACTOR, HOUSE, N_FIELD };
static const struct {
  const char *name;
  int field;
} column[] = {{"fuel", FUEL},
              {"from", FROM},
              {"to", TO},
              {"amount", AMOUNT},
              {"unit", UNIT},
              {"cost", COST},
              {"read", READ},
              {"generation", GENERATION},
              {"heat_factor", FACTOR},
              {"house", HOUSE},
              {"start", FROM},
              {"end", TO},
              {"use", AMOUNT},
              {"usage", AMOUNT},
              {"estimated", READ},
              {"estimated_or_read", READ},
              {"reading", READ},
              {"read_type", READ},
              {"note", N_FIELD},
              {"notes", N_FIELD},
              {"weather", N_FIELD},
              {"days", N_FIELD}};
enum { N_COLUMN = JOB_COUNT(column) };

static const job_word fuel_word[] = {
    {"electricity", PW_FUEL_ELECTRICITY},
    {"electric", PW_FUEL_ELECTRICITY},
    {"power", PW_FUEL_ELECTRICITY},
    {"gas", PW_FUEL_GAS},
    {"natural_gas", PW_FUEL_GAS},
    {"oil", PW_FUEL_OIL},
    {"heating_oil", PW_FUEL_OIL},
    {"fuel_oil", PW_FUEL_OIL},
    {"propane", PW_FUEL_PROPANE},
    {"lp_gas", PW_FUEL_PROPANE},
    {"lpg", PW_FUEL_PROPANE},
};

static const job_word read_word[] = {
    {"actual", PW_READ_ACTUAL},       {"read", PW_READ_ACTUAL},
    {"real", PW_READ_ACTUAL},         {"a", PW_READ_ACTUAL},
    {"estimated", PW_READ_ESTIMATED}, {"estimate", PW_READ_ESTIMATED},
    {"est", PW_READ_ESTIMATED},       {"est.", PW_READ_ESTIMATED},
    {"e", PW_READ_ESTIMATED},         {"missing", PW_READ_MISSING},
    {"not_read", PW_READ_MISSING},    {"m", PW_READ_MISSING},
    {"corrected", PW_READ_CORRECTED}, {"correction", PW_READ_CORRECTED},
    {"true_up", PW_READ_CORRECTED},   {"adjusted", PW_READ_CORRECTED},
};
static const job_word estimated_word[] = {{"yes", PW_READ_ESTIMATED},  {"y", PW_READ_ESTIMATED},
                                          {"true", PW_READ_ESTIMATED}, {"1", PW_READ_ESTIMATED},
                                          {"no", PW_READ_ACTUAL},      {"n", PW_READ_ACTUAL},
                                          {"false", PW_READ_ACTUAL},   {"0", PW_READ_ACTUAL}};

size_t job_bills_fields(job_field f[])
{
  const job_field table[] = {
      {.name = column[FUEL].name,
       .kind = JOB_WORD,
       .word = fuel_word,
       .n_word = JOB_COUNT(fuel_word)},
      {.name = column[FROM].name, .kind = JOB_DATE, .blank = ""},
      {.name = column[TO].name, .kind = JOB_DATE},
      {.name = column[AMOUNT].name, .kind = JOB_NUMBER, .low = -1e9, .high = 1e9, .blank = ""},
      {.name = column[UNIT].name, .blank = ""},
      {.name = column[COST].name, .kind = JOB_NUMBER, .low = -1e9, .high = 1e9, .blank = ""},
      {.name = column[READ].name,
       .kind = JOB_WORD,
       .word = read_word,
       .n_word = JOB_COUNT(read_word),
       .blank = "actual"},
      {.name = column[GENERATION].name, .kind = JOB_NUMBER, .high = 1e9, .blank = ""},
      {.name = column[FACTOR].name, .kind = JOB_NUMBER, .low = 0.7, .high = 1.5, .blank = ""},
      {.name = column[HOUSE].name, .blank = ""},
  };
  memcpy(f, table, sizeof table);
  return JOB_COUNT(table);
}

/* Units of trade: how many of a unit that money.csv knows the heat of. */
static const struct {
  const char *word; /* as job_unit_plain gives it */
  const char *name; /* as we print it */
  const char *known;
  double factor;
} unit_row[] = {
    {"kwh", "kWh", "kWh", 1.0},         {"mwh", "MWh", "kWh", 1000.0},
    {"wh", "Wh", "kWh", 0.001},         {"therm", "therm", "therm", 1.0},
    {"thm", "therm", "therm", 1.0},     {"th", "therm", "therm", 1.0},
    {"dth", "Dth", "therm", 10.0},      {"dekatherm", "Dth", "therm", 10.0},
    {"mmbtu", "MMBtu", "MMBtu", 1.0},   {"mbtu", "", "", 0.0},
    {"btu", "Btu", "MMBtu", 1e-6},      {"gj", "GJ", "kWh", 1000.0 / 3.6},
    {"mj", "MJ", "kWh", 1.0 / 3.6},     {"mcf", "Mcf", "Mcf", 1.0},
    {"ccf", "ccf", "Mcf", 0.1},         {"hcf", "ccf", "Mcf", 0.1},
    {"cf", "ft3", "Mcf", 0.001},        {"ft3", "ft3", "Mcf", 0.001},
    {"cubicft", "ft3", "Mcf", 0.001},   {"m3", "m3", "Mcf", 0.0353146667},
    {"gal", "gal", "gal", 1.0},         {"gals", "gal", "gal", 1.0},
    {"l", "L", "gal", 0.26417205},      {"litre", "L", "gal", 0.26417205},
    {"liter", "L", "gal", 0.26417205},  {"litres", "L", "gal", 0.26417205},
    {"liters", "L", "gal", 0.26417205},
};
static const char *const unit_of_fuel[PW_FUEL_COUNT] = {"kWh", "therm", "gal", "gal"};
static const char *const units_wanted[PW_FUEL_COUNT] = {
    "kWh or MWh", "therm, ccf, Mcf, MMBtu, Dth, kWh, GJ or m3", "gal, L, MMBtu, therm or kWh",
    "gal, L, MMBtu, therm or kWh"};

typedef struct reader {
  const pw_csv *csv;
  int index[N_FIELD], which[N_FIELD];
  int day_first; /* of dates that may be read in two ways: 1, 0, -1 not known */
  pw_bills *bills;
  pw_notes *notes;
  char (*unit)[12]; /* of each row as kept; a volume keeps its own */
  int mixed[PW_FUEL_COUNT];
} reader;

void pw_bills_free(pw_bills *bills)
{
  for (int f = 0; bills && f < PW_FUEL_COUNT; f++) {
    free(bills->fuel[f].row);
    bills->fuel[f] = (pw_bills_fuel){.n = 0};
  }
}

pw_status pw_bills_add(pw_bills_fuel *fuel, const pw_bill_row *row, pw_err *err)
{
  if (fuel->n >= PW_BILL_PERIODS_MAX)
    return pw_fail(err, PW_E_SHAPE, "bills", "more than %d bills of one fuel",
                   PW_BILL_PERIODS_MAX);
  if (!fuel->row) fuel->row = malloc(PW_BILL_PERIODS_MAX * sizeof *fuel->row);
  if (!fuel->row) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for bills");
  fuel->row[fuel->n++] = *row;
  return PW_OK;
}

static const char *cell(const reader *r, size_t row, int field)
{
  return pw_csv_at(r->csv, row, r->index[field]);
}

static pw_status refuse(const reader *r, size_t row, int field, const char *want, pw_err *err)
{
  return pw_fail_at(err, PW_E_DATA, r->csv->name, r->csv->line[row + 1], r->index[field] + 1,
                    "%s: found '%.60s', want %s",
                    r->index[field] < 0 ? column[field].name : column[r->which[field]].name,
                    cell(r, row, field), want);
}

static pw_status bind(reader *r, pw_err *err)
{
  pw_csv_column known[N_COLUMN];
  int at[N_COLUMN];
  for (int c = 0; c < N_COLUMN; c++)
    known[c] = (pw_csv_column){column[c].name, column[c].field == FUEL};
  pw_status status = pw_csv_bind(r->csv, known, N_COLUMN, at, r->notes, err);
  if (status != PW_OK) return status;
  for (int f = 0; f < N_FIELD; f++)
    r->index[f] = r->which[f] = -1;
  for (int c = 0; c < N_COLUMN; c++) {
    int f = column[c].field;
    if (f == N_FIELD || at[c] < 0) continue;
    if (r->index[f] >= 0)
      return pw_fail_at(err, PW_E_DATA, r->csv->name, r->csv->line[0], at[c] + 1,
                        "%s and %s both say it; want one of them", column[r->which[f]].name,
                        column[c].name);
    r->index[f] = at[c];
    r->which[f] = c;
  }
  for (int f = TO; f <= AMOUNT; f++)
    if (r->index[f] < 0)
      return pw_fail_at(err, PW_E_DATA, r->csv->name, r->csv->line[0], 0,
                        "no column %s; want fuel, from, to, amount, unit, cost, read",
                        column[f].name);
  return PW_OK;
}

enum { BILL_LONG = 130 }; /* days that no bill of a meter has; to tell orders of a date apart */

/* Whether all bills end after they begin, and soon, when dates are read that way. */
static int order_fits(const reader *r, int day_first)
{
  for (size_t i = 0; i < r->csv->n_row; i++) {
    int day[2];
    for (int k = 0; k < 2; k++) {
      char way[2][11];
      const char *text = cell(r, i, FROM + k), *iso = way[day_first];
      pw_date date = 0;
      if (!job_date_two_ways(text, way[0], way[1]) &&
          job_date_read(text, way[day_first], NULL) != PW_OK)
        return 0;
      if (pw_date_read(iso, &date, NULL) != PW_OK || !date) return 0;
      day[k] = pw_date_day(date);
    }
    if (day[1] <= day[0] || day[1] - day[0] > BILL_LONG) return 0;
  }
  return 1;
}

/* Which of month and day comes first, told by the dates that can be read in one way only, else by bills that
 * would end before they begin. */
static void find_date_order(reader *r)
{
  size_t month = 0, day = 0;
  for (size_t i = 0; i < r->csv->n_row; i++)
    for (int f = FROM; f <= TO; f++) {
      char by_month[11], by_day[11];
      if (!job_date_two_ways(cell(r, i, f), by_month, by_day)) continue;
      if (by_month[0] && !by_day[0]) month++;
      if (by_day[0] && !by_month[0]) day++;
    }
  r->day_first = month && !day ? 0 : day && !month ? 1 : -1;
  if (month || day || r->index[FROM] < 0) return;
  int fits[2] = {order_fits(r, 0), order_fits(r, 1)};
  if (fits[0] != fits[1]) r->day_first = fits[1];
}

static pw_status take_day(const reader *r, size_t row, int field, int *day, pw_err *err)
{
  char iso[11], by_month[11], by_day[11];
  pw_err why = {0};
  pw_date date = 0;
  const char *text = cell(r, row, field);
  if (r->day_first >= 0 && job_date_two_ways(text, by_month, by_day))
    memcpy(iso, r->day_first ? by_day : by_month, sizeof iso);
  else if (job_date_read(text, iso, &why) != PW_OK)
    return pw_fail_at(err, PW_E_DATA, r->csv->name, r->csv->line[row + 1], r->index[field] + 1,
                      "%s: %.200s", column[r->which[field]].name, why.text);
  if (!iso[0] || pw_date_read(iso, &date, NULL) != PW_OK || date == 0)
    return refuse(r, row, field, "a date, as in 2026-02-15", err);
  *day = pw_date_day(date);
  return PW_OK;
}

/* The row of a unit, -1 when it is none of that fuel. */
static int unit_find(pw_fuel fuel, const char *word)
{
  char plain[JOB_UNIT_MAX];
  job_unit_plain(word, plain);
  size_t n = strlen(plain);
  for (int pass = 0; pass < 2; pass++) {
    for (size_t i = 0; i < JOB_COUNT(unit_row); i++)
      if (strcmp(unit_row[i].word, plain) == 0 && unit_row[i].name[0] &&
          isfinite(pw_fuel_unit_kwh(fuel, unit_row[i].known)))
        return (int)i;
    if (n > 1 && plain[n - 1] == 's') plain[n - 1] = '\0'; /* plurals */
  }
  return -1;
}

/* A number that may carry a unit behind it: "55.8 therms". */
static pw_status split_amount(const reader *r, size_t row, int field, double *v, char unit[24],
                              pw_err *err)
{
  static const pw_unit_word bare[] = {{"", 1.0, 0.0}, {"$", 1.0, 0.0}};
  char text[64];
  const char *c = cell(r, row, field);
  size_t n = 0;
  pw_given given;
  unit[0] = '\0';
  for (; c[n] && n + 1 < sizeof text && !isalpha((unsigned char)c[n]); n++)
    text[n] = c[n];
  text[n] = '\0';
  /* -1.234e+03 keeps its exponent */
  if ((c[n] == 'e' || c[n] == 'E') && n && isdigit((unsigned char)c[n - 1]) &&
      (isdigit((unsigned char)c[n + 1]) || ((c[n + 1] == '+' || c[n + 1] == '-')))) {
    snprintf(text, sizeof text, "%s", c);
  } else if (c[n]) {
    snprintf(unit, 24, "%s", c + n);
  }
  if (pw_number_read(text, bare, field == COST ? 2 : 1, -1e9, 1e9, &given, NULL, NULL) !=
          PW_OK ||
      given.spread != 0.0)
    return refuse(
        r, row, field,
        strchr(c, '$') ? "energy in the meter's unit, not money" : "a number, as in 55.8", err);
  *v = given.value;
  return PW_OK;
}

static int is_none(const char *text)
{
  static const char *const none[] = {"", "-", "n/a", "na", "none", "missing", "not read"};
  char low[16];
  size_t n = 0;
  for (; text[n] && n + 1 < sizeof low; n++)
    low[n] = (char)tolower((unsigned char)text[n]);
  low[n] = '\0';
  for (size_t i = 0; i < JOB_COUNT(none); i++)
    if (strcmp(low, none[i]) == 0) return 1;
  return 0;
}

static pw_status take_read(const reader *r, size_t row, pw_read_kind *read, pw_err *err)
{
  const char *text = cell(r, row, READ), *near = NULL;
  *read = PW_READ_ACTUAL;
  if (!text[0]) return PW_OK;
  int meaning = job_word_find(read_word, JOB_COUNT(read_word), text, &near);
  if (meaning < 0 && strncmp(column[r->which[READ]].name, "estimated", 9) == 0)
    meaning = job_word_find(estimated_word, JOB_COUNT(estimated_word), text, &near);
  if (meaning < 0) return refuse(r, row, READ, "actual, estimated, missing or corrected", err);
  *read = (pw_read_kind)meaning;
  return PW_OK;
}

/* The amount, and the generation, in a unit of the fuel that is kept with the row. */
static pw_status take_amount(reader *r, size_t row, pw_fuel fuel, pw_bill_row *b, pw_err *err)
{
  char unit[24] = "", other[24];
  double factor = (double)NAN;
  b->amount = b->generation = b->cost = (double)NAN;
  pw_status status = PW_OK;
  if (is_none(cell(r, row, AMOUNT)))
    b->read = PW_READ_MISSING;
  else
    status = split_amount(r, row, AMOUNT, &b->amount, unit, err);
  if (status != PW_OK) return status;
  const char *word = unit[0] ? unit : cell(r, row, UNIT);
  if (!word[0]) {
    word = unit_of_fuel[fuel];
    pw_notes_default(r->notes, r->csv->name, r->csv->line[row + 1], "unit", "", word);
  }
  int u = unit_find(fuel, word);
  if (u < 0)
    return unit[0] ? refuse(r, row, AMOUNT, units_wanted[fuel], err)
                   : refuse(r, row, UNIT, units_wanted[fuel], err);
  snprintf(r->unit[row], sizeof r->unit[row], "%s", unit_row[u].name);
  if (cell(r, row, FACTOR)[0]) {
    status = split_amount(r, row, FACTOR, &factor, other, err);
    if (status != PW_OK) return status;
    if (strcmp(unit_row[u].known, "Mcf") != 0 || !(factor >= 0.7 && factor <= 1.5) || other[0])
      return refuse(r, row, FACTOR, "therm in one ccf, 0.7 to 1.5, of a gas bill in ccf or Mcf",
                    err);
    b->amount *= unit_row[u].factor * 10.0 * factor;
    snprintf(r->unit[row], sizeof r->unit[row], "therm");
  }
  if (cell(r, row, GENERATION)[0]) {
    status = split_amount(r, row, GENERATION, &b->generation, other, err);
    if (status == PW_OK && (fuel != PW_FUEL_ELECTRICITY || b->generation < 0.0))
      status = refuse(r, row, GENERATION, "0 or more, of electricity", err);
    int g = other[0] ? unit_find(fuel, other) : u;
    if (status == PW_OK && g < 0) status = refuse(r, row, GENERATION, units_wanted[fuel], err);
    if (status == PW_OK) b->generation *= unit_row[g].factor / unit_row[u].factor;
  }
  if (status == PW_OK && cell(r, row, COST)[0] && !is_none(cell(r, row, COST)))
    status = split_amount(r, row, COST, &b->cost, other, err);
  return status;
}

static pw_status take_row(reader *r, size_t row, int *fuel, pw_err *err)
{
  const char *near = NULL;
  pw_bill_row b = {.from = PW_BILL_NO_DAY};
  *fuel = job_word_find(fuel_word, JOB_COUNT(fuel_word), cell(r, row, FUEL), &near);
  if (*fuel < 0) return refuse(r, row, FUEL, "electricity, gas, oil or propane", err);
  pw_status status = take_read(r, row, &b.read, err);
  if (status == PW_OK && cell(r, row, FROM)[0]) status = take_day(r, row, FROM, &b.from, err);
  if (status == PW_OK) status = take_day(r, row, TO, &b.to, err);
  if (status == PW_OK && b.from != PW_BILL_NO_DAY && b.to <= b.from)
    status = refuse(r, row, TO,
                    "a day after `from`: a bill covers the days from `from` up to `to`", err);
  if (status == PW_OK && b.from != PW_BILL_NO_DAY && b.to - b.from > 800)
    status = refuse(r, row, TO, "at most 800 days in a bill", err);
  if (status == PW_OK) status = take_amount(r, row, (pw_fuel)*fuel, &b, err);
  if (status != PW_OK) return status;
  pw_err why = {0};
  status = pw_bills_add(&r->bills->fuel[*fuel], &b, &why);
  if (status == PW_E_SHAPE)
    return pw_fail_at(err, PW_E_DATA, r->csv->name, r->csv->line[row + 1], 0, "%s", why.text);
  if (status != PW_OK && err) *err = why;
  return status;
}

double pw_bills_unit_kwh(pw_fuel fuel, const char *name)
{
  for (size_t i = 0; i < JOB_COUNT(unit_row); i++)
    if (strcmp(unit_row[i].name, name) == 0)
      return unit_row[i].factor * pw_fuel_unit_kwh(fuel, unit_row[i].known);
  return (double)NAN;
}

/* Bills of one unit keep it; mixed ones are brought to the fuel's own. */
static void one_unit(reader *r, const int fuel_of[])
{
  for (int f = 0; f < PW_FUEL_COUNT; f++) {
    pw_bills_fuel *b = &r->bills->fuel[f];
    const char *first = NULL;
    int mixed = 0, volume = 0;
    for (size_t i = 0; i < r->csv->n_row; i++) {
      if (fuel_of[i] != f) continue;
      if (!first) first = r->unit[i];
      mixed |= strcmp(first, r->unit[i]) != 0;
    }
    if (!first) continue;
    snprintf(b->unit, sizeof b->unit, "%s", mixed ? unit_of_fuel[f] : first);
    b->unit_kwh = pw_bills_unit_kwh((pw_fuel)f, b->unit);
    for (size_t i = 0, k = 0; mixed && i < r->csv->n_row; i++) {
      if (fuel_of[i] != f) continue;
      double times = pw_bills_unit_kwh((pw_fuel)f, r->unit[i]) / b->unit_kwh;
      volume |=
          f == PW_FUEL_GAS && strchr("cmMf", r->unit[i][0]) && strcmp(r->unit[i], "MMBtu") != 0;
      b->row[k].amount *= times;
      b->row[k++].generation *= times;
    }
    if (mixed)
      pw_notes_warn(r->notes, r->csv->name, 0,
                    "bills of %s in more than one unit, taken as %s%s",
                    pw_fuel_name((pw_fuel)f), b->unit,
                    volume ? "; volumes by the country's mean heat content (heat_factor says "
                             "that of the bill)"
                           : "");
  }
}

static pw_status one_house(const reader *r, pw_err *err)
{
  for (size_t i = 1; r->index[HOUSE] >= 0 && i < r->csv->n_row; i++)
    if (strcmp(cell(r, i, HOUSE), cell(r, 0, HOUSE)) != 0)
      return refuse(r, i, HOUSE, "the bills of one house in a file", err);
  return PW_OK;
}

static pw_status from_csv(const pw_csv *csv, pw_bills *bills, pw_notes *notes, pw_err *err)
{
  pw_bills read = {0};
  reader r = {.csv = csv, .bills = &read, .notes = notes};
  int *fuel_of = malloc((csv->n_row + 1) * sizeof *fuel_of);
  r.unit = calloc(csv->n_row + 1, sizeof *r.unit);
  pw_status status = PW_OK;
  if (!fuel_of || !r.unit) status = pw_fail(err, PW_E_NOMEM, NULL, "no memory for bills");
  if (status == PW_OK) status = bind(&r, err);
  if (status == PW_OK && csv->n_row == 0)
    status = pw_fail_at(err, PW_E_DATA, csv->name, csv->line[0], 0, "no bill below the header");
  if (status == PW_OK) status = one_house(&r, err);
  if (status == PW_OK) find_date_order(&r);
  for (size_t i = 0; status == PW_OK && i < csv->n_row; i++)
    status = take_row(&r, i, &fuel_of[i], err);
  if (status == PW_OK) one_unit(&r, fuel_of);
  free(fuel_of);
  free(r.unit);
  if (status == PW_OK)
    *bills = read;
  else
    pw_bills_free(&read);
  return status;
}

pw_status pw_bills_parse(const char *name, const char *text, size_t size, pw_bills *bills,
                         pw_notes *notes, pw_err *err)
{
  pw_csv csv;
  *bills = (pw_bills){0};
  pw_status status = pw_csv_parse(name, text, size, &csv, err);
  if (status != PW_OK) return status;
  status = from_csv(&csv, bills, notes, err);
  pw_csv_free(&csv);
  return status;
}
