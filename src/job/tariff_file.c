#include "job/tariff_file.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "job/csv.h"
#include "job/field.h"
#include "panewright/rates.h"

typedef enum row_kind { FLAT, TIER, PERIOD, BASE, FIXED, STANDARD } row_kind;

typedef struct row {
  int fuel, kind, days;
  char months[48], unit[24], note[PW_TEXT_MAX];
  double from_h, to_h, upto, value;
} row;

enum { FUEL, KIND, MONTHS, DAYS, FROM, TO, UPTO, VALUE, UNIT, NOTE };

static const job_word fuel_word[] = {{"electricity", PW_FUEL_ELECTRICITY},
                                     {"gas", PW_FUEL_GAS},
                                     {"oil", PW_FUEL_OIL},
                                     {"propane", PW_FUEL_PROPANE}};
static const job_word kind_word[] = {{"flat", FLAT}, {"tier", TIER},   {"period", PERIOD},
                                     {"base", BASE}, {"fixed", FIXED}, {"standard", STANDARD}};
static const job_word days_word[] = {
    {"all", PW_DAYS_ALL}, {"weekday", PW_DAYS_WEEKDAY}, {"weekend", PW_DAYS_WEEKEND}};

#define NUMBER(column, member, most)                                                           \
  {                                                                                            \
    .name = column, .kind = JOB_NUMBER, .offset = offsetof(row, member), .low = 0.0,           \
    .high = most, .blank = ""                                                                  \
  }
#define TEXT(column, member) JOB_TEXT_AT(row, column, member, "", NULL)
#define WORD(column, member, words, empty)                                                     \
  JOB_WORD_AT(row, column, member, words, JOB_COUNT(words), empty, NULL)

static const job_field field[] = {
    WORD("fuel", fuel, fuel_word, NULL),
    WORD("kind", kind, kind_word, NULL),
    TEXT("months", months),
    WORD("days", days, days_word, ""),
    NUMBER("from", from_h, 24.0),
    NUMBER("to", to_h, 24.0),
    NUMBER("upto", upto, 1e7),
    NUMBER("value", value, 1e6),
    TEXT("unit", unit),
    TEXT("note", note),
};

/* 0..11 of a month's name (three letters or more) or number; -1 none. */
static int month_of(const char *text, size_t n)
{
  static const char name[] = "janfebmaraprmayjunjulaugsepoctnovdec";
  if (n >= 1 && n <= 2 && isdigit((unsigned char)text[0])) {
    int m = text[0] - '0';
    if (n == 2) m = isdigit((unsigned char)text[1]) ? 10 * m + text[1] - '0' : 0;
    return m >= 1 && m <= 12 ? m - 1 : -1;
  }
  if (n < 3) return -1;
  for (int m = 0; m < 12; m++)
    if (strncmp(text, name + 3 * m, 3) == 0) return m;
  return -1;
}

/* "jun-sep", "nov-mar", "1 2 12", "all"; 0 when it is none of these. */
static unsigned months_of(const char *cell)
{
  char text[48] = "";
  size_t n = 0;
  for (; cell[n] && n + 1 < sizeof text; n++)
    text[n] = (char)tolower((unsigned char)cell[n]);
  text[n] = '\0';
  if (!text[0] || strcmp(text, "all") == 0) return 0xFFFu;
  unsigned set = 0;
  for (const char *p = text; *p;) {
    size_t word = strcspn(p, " ;"), first = strcspn(p, "- ;");
    int a = month_of(p, first), b = a;
    if (first < word) b = month_of(p + first + 1, word - first - 1);
    if (a < 0 || b < 0) return 0;
    for (int m = a;; m = (m + 1) % 12) {
      set |= 1u << m;
      if (m == b) break;
    }
    p += word;
    p += strspn(p, " ;");
  }
  return set;
}

/* kWh in the lower part of "$/therm". */
static pw_status unit_kwh(const job_row_at *s, const row *in, double *kwh, pw_err *err)
{
  const char *unit = in->unit[0] ? in->unit : "$/kWh";
  const char *slash = strchr(unit, '/');
  *kwh = pw_fuel_unit_kwh((pw_fuel)in->fuel, slash ? slash + 1 : unit);
  if (slash && unit[0] != '$') *kwh = (double)NAN;
  if (isnan(*kwh))
    return job_row_refuse(s, UNIT, in->unit,
                          "$/kWh, $/therm, $/MMBtu, $/Mcf (gas) or $/gal (oil, propane)", err);
  return PW_OK;
}

static pw_status take_tier(const job_row_at *s, const row *in, double kwh, pw_tariff *t,
                           pw_err *err)
{
  if (t->n_tier == PW_TIERS_MAX) return job_row_refuse(s, KIND, "tier", "at most 8 tiers", err);
  double upto = isnan(in->upto) ? (double)INFINITY : in->upto * kwh;
  double below = t->n_tier ? t->tier[t->n_tier - 1].upto_kwh : 0.0;
  if (!(upto > below)) {
    char found[32];
    snprintf(found, sizeof found, "%g", in->upto);
    return job_row_refuse(s, UPTO, found, "tiers in rising order", err);
  }
  t->tier[t->n_tier++] = (pw_tier){upto, in->value / kwh};
  return PW_OK;
}

static pw_status take_row(const job_row_at *s, const row *in, pw_tariff_file *file,
                          int kind_of[PW_FUEL_COUNT], pw_notes *notes, pw_err *err)
{
  pw_tariff *t = &file->tariff[in->fuel];
  double kwh = 1.0;
  unsigned months = months_of(in->months);
  if (!months)
    return job_row_refuse(s, MONTHS, in->months, "all, jun-sep, or months with blanks between",
                          err);
  if (in->kind == STANDARD) {
    t->clock = 0;
    return PW_OK;
  }
  if (in->kind == FIXED) {
    pw_notes_warn(notes, s->csv->name, s->csv->line[s->row + 1],
                  "a standing charge does not change with the windows and is left out");
    return PW_OK;
  }
  if (isnan(in->value)) return job_row_refuse(s, VALUE, "", "a number of 0 or more", err);
  pw_status status = unit_kwh(s, in, &kwh, err);
  if (status != PW_OK) return status;
  if (in->kind == BASE) {
    for (int m = 0; m < 12; m++)
      if (months >> m & 1u) t->base_kwh[m] = in->value * kwh;
    return PW_OK;
  }
  if (kind_of[in->fuel] >= 0 && (kind_of[in->fuel] != in->kind || in->kind == FLAT))
    return job_row_refuse(s, KIND, kind_word[in->kind].word,
                          "one flat row, or tiers, or periods for a fuel", err);
  kind_of[in->fuel] = in->kind;
  file->has[in->fuel] = 1;
  if (in->kind == TIER) {
    t->kind = PW_TARIFF_TIERED;
    return take_tier(s, in, kwh, t, err);
  }
  if (in->kind == FLAT) {
    t->flat = in->value / kwh;
    return PW_OK;
  }
  t->kind = PW_TARIFF_TIME;
  if (t->n_period == PW_PERIODS_MAX)
    return job_row_refuse(s, KIND, "period", "at most 24 periods", err);
  t->period[t->n_period++] =
      (pw_period){months, (pw_days)in->days, in->from_h, in->to_h, in->value / kwh};
  return PW_OK;
}

static pw_status read_rows(const pw_csv *csv, pw_tariff_file *file, pw_notes *notes,
                           pw_err *err)
{
  int index[JOB_COUNT(field)], kind_of[PW_FUEL_COUNT];
  pw_status status = job_fields_bind(field, JOB_COUNT(field), csv, index, notes, err);
  for (int f = 0; f < PW_FUEL_COUNT; f++) {
    kind_of[f] = -1;
    file->tariff[f].clock = 1; /* tariffs speak of the clock on the wall */
  }
  for (size_t i = 0; i < csv->n_row && status == PW_OK; i++) {
    row in = {.upto = (double)NAN, .value = (double)NAN};
    const job_row_at at = {csv, i, index, field};
    status = job_row_read(field, JOB_COUNT(field), csv, i, index, "", &in, notes, err);
    if (status == PW_OK) status = take_row(&at, &in, file, kind_of, notes, err);
  }
  for (int f = 0; f < PW_FUEL_COUNT && status == PW_OK; f++) {
    pw_err why = {0};
    if (file->has[f] && pw_tariff_check(&file->tariff[f], &why) != PW_OK)
      status = pw_fail_at(err, PW_E_DATA, csv->name, 0, 0, "%s: %.250s",
                          pw_fuel_name((pw_fuel)f), why.text);
  }
  return status;
}

static pw_status take(pw_csv *csv, pw_tariff_file *file, pw_notes *notes, pw_err *err)
{
  pw_tariff_file read = {0};
  pw_status status = read_rows(csv, &read, notes, err);
  pw_csv_free(csv);
  if (status == PW_OK) *file = read;
  return status;
}

pw_status pw_tariff_read(const char *path, pw_tariff_file *file, pw_notes *notes, pw_err *err)
{
  return pw_tariff_parse(path, NULL, 0, file, notes, err);
}

pw_status pw_tariff_parse(const char *name, const char *text, size_t size, pw_tariff_file *file,
                          pw_notes *notes, pw_err *err)
{
  pw_csv csv;
  pw_status status = pw_csv_open(name, text, size, &csv, err);
  return status == PW_OK ? take(&csv, file, notes, err) : status;
}

void pw_tariff_by_fuel(const pw_tariff_file *file, const pw_tariff *tariff[PW_FUEL_COUNT])
{
  for (int f = 0; f < PW_FUEL_COUNT; f++)
    tariff[f] = file->has[f] ? &file->tariff[f] : NULL;
}
