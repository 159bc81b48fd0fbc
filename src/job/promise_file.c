#include "job/promise_file.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "job/csv.h"
#include "job/field.h"
#include "job/input_text.h"
#include "panewright/rates.h"

enum { DATE, VERSION, FIGURE, P10, P50, P90, N_COLUMN };
static const pw_csv_column column[N_COLUMN] = {{"date", 1}, {"version", 1}, {"figure", 1},
                                               {"p10", 1},  {"p50", 1},     {"p90", 1}};

void pw_promise_free(pw_promise *promise)
{
  if (!promise) return;
  free(promise->row);
  free(promise->text);
  *promise = (pw_promise){.n = 0};
}

void pw_promise_figure(const char *what, const char *package, const char *dwelling,
                       char figure[PW_PROMISE_FIGURE])
{
  snprintf(figure, PW_PROMISE_FIGURE, "%s of %s%s%s", what, package, dwelling[0] ? " in " : "",
           dwelling);
}

void pw_promise_fuel_figure(pw_fuel fuel, char what[32])
{
  snprintf(what, 32, "saving_%s_kwh_year", pw_fuel_name(fuel));
}

static pw_status refuse(const pw_csv *csv, size_t row, int col, const char *cell,
                        const char *want, pw_err *err)
{
  return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[row + 1], col + 1,
                    "%s \"%.40s\": want %s", column[col].name, cell, want);
}

static pw_status take_row(const pw_csv *csv, size_t i, const int index[], pw_promise_row *row,
                          pw_err *err)
{
  const char *date = pw_csv_at(csv, i, index[DATE]);
  double *const band[3] = {&row->p10, &row->p50, &row->p90};
  if (pw_date_read(date, &row->date, NULL) != PW_OK || row->date == 0)
    return refuse(csv, i, DATE, date, "a day as 2026-11-29", err);
  snprintf(row->version, sizeof row->version, "%.8s", pw_csv_at(csv, i, index[VERSION]));
  snprintf(row->figure, sizeof row->figure, "%.150s", pw_csv_at(csv, i, index[FIGURE]));
  for (int k = 0; k < 3; k++) {
    const char *cell = pw_csv_at(csv, i, index[P10 + k]);
    char *end;
    *band[k] = (double)INFINITY;
    if (!cell[0]) continue;
    *band[k] = strtod(cell, &end);
    if (*end || !isfinite(*band[k])) return refuse(csv, i, P10 + k, cell, "a number", err);
  }
  return row->p10 <= row->p50 && row->p50 <= row->p90
             ? PW_OK
             : refuse(csv, i, P50, pw_csv_at(csv, i, index[P50]), "p10 <= p50 <= p90", err);
}

static pw_status take_rows(const pw_csv *csv, pw_promise *p, pw_err *err)
{
  int index[N_COLUMN];
  pw_status status = pw_csv_bind(csv, column, N_COLUMN, index, NULL, err);
  if (status != PW_OK) return status;
  p->row = calloc(csv->n_row + 1, sizeof *p->row);
  if (!p->row) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for promise.csv");
  for (size_t i = 0; status == PW_OK && i < csv->n_row; i++)
    status = take_row(csv, i, index, &p->row[p->n++], err);
  return status;
}

pw_status pw_promise_read(const char *dir, pw_promise *promise, pw_err *err)
{
  char path[PW_INPUT_PATH];
  pw_promise p = {.n = 0};
  pw_csv csv;
  *promise = p;
  pw_status status = pw_input_path(dir, "promise.csv", path, err);
  if (status != PW_OK || access(path, F_OK) != 0) return status;
  status = pw_input_read(path, PW_INPUT_KEPT, &p.text, &p.size, err);
  if (status != PW_OK) return status;
  status = pw_csv_parse("promise.csv", p.text, p.size, &csv, err);
  if (status == PW_OK) {
    status = take_rows(&csv, &p, err);
    pw_csv_free(&csv);
  }
  if (status != PW_OK)
    pw_promise_free(&p);
  else
    *promise = p;
  return status;
}

const pw_promise_row *pw_promise_find(const pw_promise *promise, const char *figure,
                                      pw_date by_day)
{
  const pw_promise_row *found = NULL;
  for (size_t i = 0; i < promise->n; i++) {
    const pw_promise_row *row = &promise->row[i];
    if (strcmp(row->figure, figure) != 0 || (by_day && row->date > by_day)) continue;
    if (!found || row->date >= found->date) found = row; /* of one day the one said last */
  }
  return found;
}
