/* A table of days with a header: date or day of the year, and a mean or the day's ends. */
#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/date.h"
#include "job/csv.h"
#include "job/daily_rows.h"
#include "job/date_text.h"

enum { DATE, DAY, MEAN, MEAN_F, HIGH, LOW, STATION, N_COLUMN, ROWS = 40000 };
static const struct {
  const char *name;
  int column;
} header[] = {
    {"date", DATE},     {"day", DAY},         {"day_of_year", DAY}, {"doy", DAY},
    {"t_mean_c", MEAN}, {"tmean_c", MEAN},    {"t_c", MEAN},        {"temp_c", MEAN},
    {"tavg_c", MEAN},   {"t_mean_f", MEAN_F}, {"tmean_f", MEAN_F},  {"t_f", MEAN_F},
    {"temp_f", MEAN_F}, {"tavg_f", MEAN_F},   {"tavg", MEAN},       {"tmax", HIGH},
    {"tmin", LOW},      {"station", STATION},
};

typedef struct table {
  const pw_csv *csv;
  int index[N_COLUMN];
  double scale, add; /* to C */
} table;

static void find_columns(table *t)
{
  for (int k = 0; k < N_COLUMN; k++)
    t->index[k] = -1;
  for (size_t c = 0; c < t->csv->n_col; c++) {
    char word[32];
    const char *cell = t->csv->cell[c];
    size_t n = 0;
    for (; cell[n] && n + 1 < sizeof word; n++)
      word[n] =
          (char)(cell[n] == ' ' || cell[n] == '-' ? '_' : tolower((unsigned char)cell[n]));
    word[n] = '\0';
    for (size_t h = 0; h < sizeof header / sizeof header[0]; h++)
      if (strcmp(word, header[h].name) == 0 && t->index[header[h].column] < 0)
        t->index[header[h].column] = (int)c;
  }
}

/* A number of a cell, NAN blank or a mark of missing; 0 when it is none. */
static int value(const table *t, size_t row, int column, double *v)
{
  const char *text = pw_csv_at(t->csv, row, t->index[column]);
  if (!climate_number((climate_cell){text, (int)strlen(text)}, v)) {
    if (strcmp(text, "NA") != 0 && strcmp(text, "nan") != 0 && strcmp(text, "NaN") != 0)
      return 0;
    *v = (double)NAN;
  }
  if (*v <= -900.0) *v = (double)NAN;
  return 1;
}

static pw_status refuse(const table *t, size_t row, int column, const char *want, pw_err *err)
{
  return pw_fail_at(err, PW_E_DATA, t->csv->name, t->csv->line[row + 1], t->index[column] + 1,
                    "found '%.40s', want %s", pw_csv_at(t->csv, row, t->index[column]), want);
}

/* TMAX and TMIN come in C, F or tenths of C; a year of days tells by its hottest. */
static pw_status find_scale(table *t, pw_err *err)
{
  double most = -INFINITY;
  t->scale = 1.0;
  t->add = 0.0;
  if (t->index[HIGH] < 0 || t->index[LOW] < 0) {
    if (t->index[MEAN] < 0 && t->index[MEAN_F] >= 0) {
      t->index[MEAN] = t->index[MEAN_F];
      t->scale = 1.0 / 1.8;
      t->add = -32.0 / 1.8;
    }
    return PW_OK;
  }
  for (size_t i = 0; i < t->csv->n_row; i++) {
    double v;
    if (!value(t, i, HIGH, &v)) return refuse(t, i, HIGH, "a temperature", err);
    if (v > most) most = v;
  }
  if (most > 135.0) {
    t->scale = 0.1;
  } else if (most > 60.0) {
    t->scale = 1.0 / 1.8;
    t->add = -32.0 / 1.8;
  }
  return PW_OK;
}

static int month_first(const table *t)
{
  for (size_t i = 0; i < t->csv->n_row; i++) {
    char m[11], d[11];
    if (!job_date_two_ways(pw_csv_at(t->csv, i, t->index[DATE]), m, d)) continue;
    if (m[0] && !d[0]) return 1;
    if (d[0] && !m[0]) return 0;
  }
  return -1;
}

static pw_status day_of(const table *t, size_t row, int by_month, daily_store *s,
                        daily_day **at, pw_err *err)
{
  char iso[11], m[11], d[11];
  pw_err why = {0};
  pw_date date = 0;
  const char *text = pw_csv_at(t->csv, row, t->index[DATE]);
  int line = t->csv->line[row + 1];
  if (t->index[DATE] < 0) {
    double v;
    if (!value(t, row, DAY, &v) || isnan(v) || v != floor(v) || v < 1.0 || v > 366.0)
      return refuse(t, row, DAY, "a day of the year, 1 to 365", err);
    *at = v > 365.0 ? NULL : &s->day[(int)v - 1];
    return PW_OK;
  }
  if (pw_date_read(text, &date, NULL) != PW_OK || date == 0) {
    if (by_month >= 0 && job_date_two_ways(text, m, d))
      memcpy(iso, by_month ? m : d, sizeof iso);
    else if (job_date_read(text, iso, &why) != PW_OK)
      return pw_fail_at(err, PW_E_DATA, t->csv->name, line, t->index[DATE] + 1, "%.200s",
                        why.text);
    if (!iso[0] || pw_date_read(iso, &date, NULL) != PW_OK || date == 0)
      return refuse(t, row, DATE, "a date, as in 2026-02-15", err);
  }
  return daily_at(s, t->csv->name, line, date / 10000, date / 100 % 100, date % 100, at, err);
}

static pw_status put(const table *t, size_t row, int column, float *to, pw_err *err)
{
  double v;
  if (t->index[column] < 0) return PW_OK;
  if (!value(t, row, column, &v)) return refuse(t, row, column, "a temperature", err);
  if (isnan(v)) return PW_OK;
  v = t->scale * v + t->add;
  if (!daily_is_temperature(v)) return refuse(t, row, column, "-90 to 60 C", err);
  if (!isnan(*to)) return refuse(t, row, column, "each day once", err);
  *to = (float)v;
  return PW_OK;
}

static pw_status one_station(const table *t, pw_err *err)
{
  for (size_t i = 1; t->index[STATION] >= 0 && i < t->csv->n_row; i++)
    if (strcmp(pw_csv_at(t->csv, i, t->index[STATION]),
               pw_csv_at(t->csv, 0, t->index[STATION])) != 0)
      return refuse(t, i, STATION, "the days of one station", err);
  return PW_OK;
}

static pw_status from_csv(table *t, daily_store *s, pw_err *err)
{
  find_columns(t);
  int ends = t->index[HIGH] >= 0 && t->index[LOW] >= 0;
  if ((t->index[DATE] < 0) == (t->index[DAY] < 0) ||
      (t->index[MEAN] < 0 && t->index[MEAN_F] < 0 && !ends))
    return pw_fail_at(err, PW_E_DATA, t->csv->name, t->csv->line[0], 0,
                      "no layout known here; want date,t_mean_c or day,t_mean_c, GHCN-Daily, "
                      "ISD-Lite, or an hourly year of NSRDB, PVGIS or TMY3");
  s->typical |= t->index[DATE] < 0;
  s->dated |= t->index[DATE] >= 0;
  pw_status status = one_station(t, err);
  if (status == PW_OK) status = find_scale(t, err);
  int by_month = t->index[DATE] >= 0 ? month_first(t) : -1;
  for (size_t i = 0; status == PW_OK && i < t->csv->n_row; i++) {
    daily_day *d = NULL;
    status = day_of(t, i, by_month, s, &d, err);
    if (status == PW_OK && d) status = put(t, i, MEAN, &d->mean, err);
    if (status == PW_OK && d && ends) status = put(t, i, HIGH, &d->high, err);
    if (status == PW_OK && d && ends) status = put(t, i, LOW, &d->low, err);
  }
  return status;
}

pw_status daily_table_read(const char *name, const char *text, size_t size, daily_store *s,
                           pw_err *err)
{
  pw_csv csv;
  table t = {.csv = &csv};
  pw_status status = pw_csv_parse_rows(name, text, size, ROWS, &csv, err);
  if (status != PW_OK) return status;
  status = from_csv(&t, s, err);
  pw_csv_free(&csv);
  return status;
}
