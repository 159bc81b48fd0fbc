#include "job/house_file.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/nearest.h"
#include "job/csv.h"
#include "job/house_file_impl.h"
#include "job/text_file.h"
#include "panewright/glazing.h"

enum { BASES_MAX = 4 };

/* Where files come from. */
typedef struct source {
  const char *folder; /* "" the working one */
  int builtin;
} source;

static pw_status open_file(const source *from, const char *name, pw_csv *csv, pw_err *err)
{
  char path[512];
  int n = snprintf(path, sizeof path, "%s%s.csv", from->folder, name);
  if (n < 0 || (size_t)n >= sizeof path)
    return pw_fail(err, PW_E_MISSING, "base", "the path of %s is too long", name);
  if (!from->builtin) return pw_csv_read(path, csv, err);
  const char *text = pw_text_file_find(path);
  if (!text) return pw_fail(err, PW_E_MISSING, NULL, "no compiled-in house '%s'", name);
  const char *last = strrchr(path, '/');
  return pw_csv_parse(last ? last + 1 : path, text, strlen(text), csv, err);
}

static pw_status read_rows(house_maker *m, const source *from, const char *name, int depth,
                           pw_err *err);

static pw_status take_rows(house_maker *m, const source *from, const pw_csv *csv, int depth,
                           pw_err *err)
{
  static const pw_csv_column known[] = {
      {"item", 1}, {"of", 1}, {"value", 1}, {"how_known", 0}, {"note", 0}};
  int col[5];
  pw_status s = pw_csv_bind(csv, known, 5, col, NULL, err);
  for (size_t i = 0; s == PW_OK && i < csv->n_row; i++) {
    house_row row = {csv->name,
                     csv->line[i + 1],
                     col[2] + 1,
                     pw_csv_at(csv, i, col[0]),
                     pw_csv_at(csv, i, col[1]),
                     pw_csv_at(csv, i, col[2]),
                     pw_csv_at(csv, i, col[3])};
    s = strcmp(row.item, "base") == 0 ? read_rows(m, from, row.value, depth + 1, err)
                                      : house_take_row(m, &row, err);
  }
  return s;
}

static pw_status read_rows(house_maker *m, const source *from, const char *name, int depth,
                           pw_err *err)
{
  pw_csv csv;
  if (depth == BASES_MAX)
    return pw_fail(err, PW_E_DATA, "base", "%s.csv: more than %d files built on each other",
                   name, BASES_MAX);
  pw_status s = open_file(from, name, &csv, err);
  if (s != PW_OK) return s;
  s = take_rows(m, from, &csv, depth, err);
  pw_csv_free(&csv);
  return s;
}

/* csv NULL: the file of that name. */
static pw_status read_house(const source *from, const char *name, const pw_csv *csv,
                            pw_house_file *file, pw_err *err)
{
  house_maker *m = calloc(1, sizeof *m);
  if (!m) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a house file");
  memset(file, 0, sizeof *file);
  m->file = file;
  for (int i = 0; i < 24; i++)
    file->house.heat_set_c[i] = file->house.cool_set_c[i] = NAN;
  pw_status s = csv ? take_rows(m, from, csv, 0, err) : read_rows(m, from, name, 0, err);
  if (s == PW_OK) s = house_finish(m, err);
  free(m);
  return s;
}

pw_status pw_house_file_parse(const char *name, const char *text, size_t size,
                              pw_house_file *file, pw_err *err)
{
  pw_csv csv;
  pw_status s = pw_csv_parse(name, text, size, &csv, err);
  if (s != PW_OK) return s;
  source from = {"examples/", 1};
  s = read_house(&from, name, &csv, file, err);
  pw_csv_free(&csv);
  return s;
}

pw_status pw_house_file_read(const char *path, pw_house_file *file, pw_err *err)
{
  char folder[400], name[128];
  const char *last = strrchr(path, '/');
  size_t n = last ? (size_t)(last - path) + 1 : 0;
  if (n >= sizeof folder || strlen(path + n) >= sizeof name)
    return pw_fail(err, PW_E_MISSING, NULL, "the path is too long");
  memcpy(folder, path, n);
  folder[n] = '\0';
  snprintf(name, sizeof name, "%s", path + n);
  char *dot = strrchr(name, '.');
  if (dot && strcmp(dot, ".csv") == 0) *dot = '\0';
  source from = {folder, 0};
  return read_house(&from, name, NULL, file, err);
}

pw_status pw_house_file_builtin(const char *name, pw_house_file *file, pw_err *err)
{
  char folder[128] = "examples/";
  const char *last = strrchr(name, '/');
  size_t n = last ? (size_t)(last - name) + 1 : 0;
  if (n + sizeof "examples/" > sizeof folder)
    return pw_fail(err, PW_E_MISSING, NULL, "no compiled-in house of that name");
  memcpy(folder + strlen(folder), name, n);
  folder[sizeof "examples/" - 1 + n] = '\0';
  source from = {folder, 1};
  return read_house(&from, name + n, NULL, file, err);
}
