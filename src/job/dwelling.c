#include "job/dwelling.h"

#include <stdio.h>
#include <string.h>

#include "base/nearest.h"
#include "job/csv.h"

enum { PATH_SIZE = 4096 };

static int same(const char *a, const char *b) { return pw_edit_distance(a, b) == 0; }

static void names(const pw_dwellings *list, char text[160])
{
  size_t n = 0;
  text[0] = '\0';
  for (size_t i = 0; i < list->n && n + PW_DWELLING_MAX + 3 < 160; i++)
    n += (size_t)snprintf(text + n, 160 - n, "%s%s", i ? ", " : "", list->name[i]);
}

static const char *find(const pw_dwellings *list, const char *name)
{
  for (size_t i = 0; i < list->n; i++)
    if (same(list->name[i], name)) return list->name[i];
  return NULL;
}

/* A file of the folder, when it reads; 0 leaves it to its reader. */
static int open_csv(const char *dir, const char *file, pw_csv *csv)
{
  char path[PATH_SIZE];
  int n = snprintf(path, sizeof path, "%s/%s", dir, file);
  return n > 0 && n < PATH_SIZE && pw_csv_read(path, csv, NULL) == PW_OK;
}

static pw_status from_openings(const pw_csv *csv, pw_dwellings *list, pw_err *err)
{
  int column = pw_csv_column_of(csv, "dwelling");
  size_t blank = csv->n_row;
  for (size_t r = 0; r < csv->n_row; r++) {
    const char *name = pw_csv_at(csv, r, column);
    if (!name[0] && blank == csv->n_row) blank = r;
    if (!name[0] || find(list, name)) continue;
    if (strlen(name) >= PW_DWELLING_MAX)
      return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[r + 1], column + 1,
                        "dwelling '%.40s' is longer than %d letters", name,
                        PW_DWELLING_MAX - 1);
    if (list->n == PW_DWELLINGS_MAX)
      return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[r + 1], column + 1,
                        "more than %d dwellings on one job", PW_DWELLINGS_MAX);
    snprintf(list->name[list->n++], PW_DWELLING_MAX, "%s", name);
  }
  if (list->n == 0 || blank == csv->n_row) return PW_OK;
  char text[160];
  names(list, text);
  return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[blank + 1], column + 1,
                    "this row names no dwelling, others do: want %s or another name", text);
}

static pw_status check_job(const pw_csv *csv, const pw_dwellings *list, pw_err *err)
{
  int column = pw_csv_column_of(csv, "dwelling");
  for (size_t r = 0; column >= 0 && r < csv->n_row; r++) {
    const char *name = pw_csv_at(csv, r, column);
    char text[160];
    if (!name[0] || find(list, name)) continue;
    names(list, text);
    return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[r + 1], column + 1,
                      "no opening is of the dwelling '%.40s'; openings.csv names %s", name,
                      list->n ? text : "none (its column dwelling)");
  }
  return PW_OK;
}

pw_status pw_dwellings_list(const char *dir, pw_dwellings *list, pw_err *err)
{
  pw_csv csv;
  pw_status status = PW_OK;
  *list = (pw_dwellings){0};
  if (!open_csv(dir, "openings.csv", &csv)) return PW_OK;
  if (pw_csv_column_of(&csv, "dwelling") >= 0) status = from_openings(&csv, list, err);
  pw_csv_free(&csv);
  if (status != PW_OK || !open_csv(dir, "job.csv", &csv)) return status;
  status = check_job(&csv, list, err);
  pw_csv_free(&csv);
  return status;
}

pw_status pw_dwelling_pick(const pw_dwellings *list, const char *name,
                           char dwelling[PW_DWELLING_MAX], pw_err *err)
{
  char text[160];
  dwelling[0] = '\0';
  names(list, text);
  if (!name && list->n <= 1) {
    if (list->n) memcpy(dwelling, list->name[0], PW_DWELLING_MAX);
    return PW_OK;
  }
  if (!name)
    return pw_fail(err, PW_E_DATA, "dwelling",
                   "this job holds %zu dwellings: %s; say --dwelling NAME", list->n, text);
  const char *known = find(list, name);
  if (!known)
    return pw_fail(err, PW_E_DATA, "dwelling",
                   "no dwelling is named '%.40s'; openings.csv names %s", name,
                   list->n ? text : "none");
  memcpy(dwelling, known, PW_DWELLING_MAX);
  return PW_OK;
}
