#include "check/field_trials.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check/open_data.h"
#include "panewright/units.h"

enum {
  TRIAL,
  PACKAGE,
  KIND,
  SCOPE,
  PLACE,
  WHAT,
  MONTHS,
  VALUE,
  LOW,
  HIGH,
  UNIT,
  OTHER,
  GLASS,
  SOURCE,
  HOW_KNOWN,
  NOTE,
  N_COLUMN
};
static const pw_csv_column column[N_COLUMN] = {
    {"trial", 1},  {"package", 1}, {"kind", 1},      {"scope", 1}, {"place", 1}, {"what", 1},
    {"months", 1}, {"value", 1},   {"low", 1},       {"high", 1},  {"unit", 1},  {"other", 1},
    {"glass", 0},  {"source", 1},  {"how_known", 1}, {"note", 0}};

static const char *const kind_word[] = {"lab_houses", "monitored_homes", "bill_study"};
const char *const pw_field_kind_text[PW_FIELD_KINDS] = {"lab houses", "monitored homes",
                                                        "bill study"};
static const char *const scope_word[] = {"windows", "whole_house"};
static const char *const what_word[] = {"heating_saved", "cooling_saved", "energy_saved",
                                        "heating_used",  "cooling_used",  "energy_used",
                                        "air_saved"};
const char *const pw_field_what_text[PW_FIELD_WHATS] = {
    "heating saved", "cooling saved", "heating and cooling saved",
    "heating used",  "cooling used",  "heating and cooling used",
    "leakage saved"};
static const char *const unit_word[] = {"%", "kWh", "therm", "MMBtu", "GJ"};
static const double unit_kwh[] = {0.01, 1.0, PW_THERM_KWH, 10.0 * PW_THERM_KWH, 1e3 / 3.6};

/* The row in hand. */
typedef struct desk {
  const pw_csv *csv;
  size_t row;
  int index[N_COLUMN];
} desk;

static const char *cell(const desk *d, int col)
{
  return pw_csv_at(d->csv, d->row, d->index[col]);
}

static pw_status refuse(const desk *d, int col, const char *want, pw_err *err)
{
  return pw_fail_at(err, PW_E_DATA, d->csv->name, d->csv->line[d->row + 1], d->index[col] + 1,
                    "%s \"%.40s\": want %.200s", column[col].name, cell(d, col), want);
}

static pw_status take_word(const desk *d, int col, const char *const word[], size_t n, int *to,
                           pw_err *err)
{
  char list[160] = "";
  for (size_t i = 0; i < n; i++) {
    if (strcmp(cell(d, col), word[i]) == 0) {
      *to = (int)i;
      return PW_OK;
    }
    size_t used = strlen(list);
    snprintf(list + used, sizeof list - used, "%s%s", i ? ", " : "", word[i]);
  }
  return refuse(d, col, list, err);
}

static pw_status take_number(const desk *d, int col, double factor, double *to, pw_err *err)
{
  char *end;
  const char *text = cell(d, col);
  *to = factor * strtod(text, &end);
  return end == text || *end || !isfinite(*to) ? refuse(d, col, "a number", err) : PW_OK;
}

/* A folder of its own beside the table: nothing that leads elsewhere. */
static pw_status take_trial(const desk *d, pw_field_value *v, pw_err *err)
{
  const char *name = cell(d, TRIAL);
  for (const char *c = name; *c; c++)
    if (!islower((unsigned char)*c) && !isdigit((unsigned char)*c) && *c != '_')
      return refuse(d, TRIAL, "the name of a folder in a-z, 0-9 and _", err);
  if (!name[0] || strlen(name) >= sizeof v->trial)
    return refuse(d, TRIAL, "the name of a folder, 1 to 39 letters", err);
  strcpy(v->trial, name);
  snprintf(v->package, sizeof v->package, "%s", cell(d, PACKAGE));
  return PW_OK;
}

/* Blank: the year; 7: that month; 7-9; 11-3 over the turn of the year. */
static pw_status take_months(const desk *d, pw_field_value *v, pw_err *err)
{
  int from = 1, to = 12, end = 0;
  const char *text = cell(d, MONTHS);
  if (text[0]) {
    int n = sscanf(text, "%2d%n-%2d%n", &from, &end, &to, &end);
    if (n == 1) to = from;
    if (n < 1 || text[end] || from < 1 || from > 12 || to < 1 || to > 12)
      return refuse(d, MONTHS, "blank for the year, or months as 7-9 or 11-3", err);
  }
  v->month_from = from;
  v->month_to = to;
  return PW_OK;
}

static pw_status take_value(const desk *d, pw_field_value *v, pw_err *err)
{
  int unit = 0;
  pw_status s =
      take_word(d, UNIT, unit_word, sizeof unit_word / sizeof unit_word[0], &unit, err);
  if (s != PW_OK) return s;
  v->share = unit == 0;
  int used = v->what >= PW_FIELD_HEATING_USED && v->what <= PW_FIELD_ENERGY_USED;
  if (v->share && used) return refuse(d, UNIT, "kWh, therm, MMBtu or GJ of what is used", err);
  if (!v->share && v->what == PW_FIELD_AIR_SAVED)
    return refuse(d, UNIT, "% of the house's leakage", err);
  s = take_number(d, VALUE, unit_kwh[unit], &v->value, err);
  if (s == PW_OK) s = take_number(d, LOW, unit_kwh[unit], &v->low, err);
  if (s == PW_OK) s = take_number(d, HIGH, unit_kwh[unit], &v->high, err);
  if (s == PW_OK && cell(d, OTHER)[0])
    s = take_number(d, OTHER, v->share ? 1.0 : unit_kwh[unit], &v->other_kwh, err);
  if (s != PW_OK) return s;
  if (v->other_kwh < 0.0) return refuse(d, OTHER, "kWh a year, 0 or more", err);
  if (!v->share && v->other_kwh > 0.0)
    return refuse(d, OTHER, "nothing: energy is given without what else the meter counts", err);
  return v->low <= v->value && v->value <= v->high
             ? PW_OK
             : refuse(d, VALUE, "low <= value <= high", err);
}

/* Blank: the job has what the report tells. */
static pw_status take_glass(const desk *d, pw_field_value *v, pw_err *err)
{
  if (!cell(d, GLASS)[0]) return PW_OK;
  pw_status s = take_number(d, GLASS, 0.01, &v->glass_spread, err);
  if (s != PW_OK) return s;
  return v->glass_spread >= 0.0 && v->glass_spread <= 0.5
             ? PW_OK
             : refuse(d, GLASS, "% that the windows' area may be off by, 0 to 50", err);
}

static pw_status take_row(const desk *d, pw_field_value *v, pw_err *err)
{
  int kind = 0, scope = 0, what = 0;
  pw_status s = take_trial(d, v, err);
  if (s == PW_OK) s = take_word(d, KIND, kind_word, PW_FIELD_KINDS, &kind, err);
  if (s == PW_OK) s = take_word(d, SCOPE, scope_word, 2, &scope, err);
  if (s == PW_OK) s = take_word(d, WHAT, what_word, PW_FIELD_WHATS, &what, err);
  v->kind = (pw_field_kind)kind;
  v->whole_house = scope;
  v->what = (pw_field_what)what;
  v->line = d->csv->line[d->row + 1];
  v->place = cell(d, PLACE);
  v->source = cell(d, SOURCE);
  v->how_known = cell(d, HOW_KNOWN);
  if (s == PW_OK) s = take_months(d, v, err);
  if (s == PW_OK) s = take_value(d, v, err);
  if (s == PW_OK) s = take_glass(d, v, err);
  if (s != PW_OK) return s;
  if (!v->source[0]) return refuse(d, SOURCE, "whose measurement it is", err);
  if (strncmp(v->how_known, "read", 4) == 0) return PW_OK;
  if (strncmp(v->how_known, "from memory", 11) != 0)
    return refuse(d, HOW_KNOWN, "read or from memory, then what", err);
  return v->low < v->value && v->value < v->high
             ? PW_OK
             : refuse(d, VALUE, "a spread on both sides: it is from memory", err);
}

static int by_trial(const void *a, const void *b)
{
  const pw_field_value *x = a, *y = b;
  int c = strcmp(x->trial, y->trial);
  if (c == 0) c = strcmp(x->package, y->package);
  if (c == 0) c = (int)x->what - (int)y->what;
  if (c == 0) c = x->month_from - y->month_from;
  if (c == 0) c = x->month_to - y->month_to;
  return c ? c : x->line - y->line;
}

static pw_status agree(const pw_field_trials *t, pw_err *err)
{
  for (size_t i = 1; i < t->n; i++) {
    const pw_field_value *was = &t->value[i - 1], *v = &t->value[i];
    if (strcmp(was->trial, v->trial) != 0) continue;
    if (was->kind != v->kind || was->whole_house != v->whole_house)
      return pw_fail_at(err, PW_E_DATA, t->csv.name, v->line, 1,
                        "trial %s has another kind or scope in line %d: want one", v->trial,
                        was->line);
    if (strcmp(was->package, v->package) == 0 && was->what == v->what &&
        was->month_from == v->month_from && was->month_to == v->month_to)
      return pw_fail_at(err, PW_E_DATA, t->csv.name, v->line, 1,
                        "trial %s: what was measured in line %d stands here again", v->trial,
                        was->line);
  }
  return PW_OK;
}

static pw_status take_rows(pw_field_trials *t, pw_err *err)
{
  desk d = {.csv = &t->csv};
  pw_status s = pw_csv_bind(&t->csv, column, N_COLUMN, d.index, NULL, err);
  if (s != PW_OK) return s;
  if (t->csv.n_row == 0 || t->csv.n_row > PW_FIELD_VALUES_MAX)
    return pw_fail_at(err, PW_E_DATA, t->csv.name, t->csv.line[0], 1,
                      "%zu measured values: want 1 to %d", t->csv.n_row, PW_FIELD_VALUES_MAX);
  t->value = calloc(t->csv.n_row, sizeof *t->value);
  if (!t->value) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the trials");
  for (; d.row < t->csv.n_row && s == PW_OK; d.row++)
    s = take_row(&d, &t->value[t->n++], err);
  if (s != PW_OK) return s;
  qsort(t->value, t->n, sizeof *t->value, by_trial);
  return agree(t, err);
}

pw_status pw_field_read(const pw_check_sink *sink, pw_field_trials *trials, pw_err *err)
{
  char path[PW_CHECK_PATH];
  *trials = (pw_field_trials){.n = 0};
  pw_status s = pw_check_file(sink, "field", "trials.csv", path, err);
  if (s == PW_OK) s = pw_csv_read(path, &trials->csv, err);
  if (s == PW_OK) s = take_rows(trials, err);
  if (s != PW_OK) pw_field_free(trials);
  return s;
}

void pw_field_free(pw_field_trials *trials)
{
  pw_csv_free(&trials->csv);
  free(trials->value);
  *trials = (pw_field_trials){.n = 0};
}

static pw_status count_file(const char *dir, const char *file, pw_field_facts *facts,
                            pw_err *err)
{
  char path[PW_CHECK_PATH + 32];
  pw_csv csv;
  snprintf(path, sizeof path, "%s/%s", dir, file);
  pw_status s = pw_csv_read(path, &csv, err);
  if (s != PW_OK) return s;
  int note = pw_csv_column_of(&csv, "note");
  for (size_t i = 0; i < csv.n_row && s == PW_OK; i++) {
    const char *text = pw_csv_at(&csv, i, note);
    size_t *to = strncmp(text, "report", 6) == 0         ? &facts->report
                 : strncmp(text, "from memory", 11) == 0 ? &facts->memory
                 : strncmp(text, "assumed", 7) == 0      ? &facts->assumed
                                                         : NULL;
    if (to)
      (*to)++;
    else
      s = pw_fail_at(err, PW_E_DATA, file, csv.line[i + 1], note + 1,
                     "note \"%.40s\" of a trial: want it to begin with report, from memory or "
                     "assumed",
                     text);
  }
  pw_csv_free(&csv);
  return s;
}

pw_status pw_field_count_facts(const char *dir, pw_field_facts *facts, pw_err *err)
{
  pw_status s = count_file(dir, "job.csv", facts, err);
  if (s == PW_OK) s = count_file(dir, "openings.csv", facts, err);
  return s == PW_OK ? count_file(dir, "packages.csv", facts, err) : s;
}
