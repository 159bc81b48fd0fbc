/* The header of a CSV file: which column is which. */
#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "base/nearest.h"
#include "job/csv.h"
#include "job/unknown.h"

enum { HEADER_WORD = 64 };

/* A header word as compared: lower case, blanks and '-' as '_'. */
static void header_word(const char *text, char word[HEADER_WORD])
{
  size_t n = 0;
  for (; *text && n + 1 < HEADER_WORD; text++)
    word[n++] = (char)(*text == ' ' || *text == '-' ? '_' : tolower((unsigned char)*text));
  word[n] = '\0';
}

/* An unknown column: an error when it looks like a slip for a known one that is not there. */
static pw_status unknown_column(const pw_csv *csv, size_t col, const char *word,
                                const pw_csv_column known[], size_t n, const int index[],
                                pw_notes *notes, pw_err *err)
{
  const char *absent[PW_CSV_COLUMNS_MAX] = {0}, *name[PW_CSV_COLUMNS_MAX] = {0};
  size_t n_absent = 0, filled = 0, n_name = 0;
  for (size_t i = 0; i < n && i < PW_CSV_COLUMNS_MAX; i++) {
    name[n_name++] = known[i].name;
    if (index[i] < 0) absent[n_absent++] = known[i].name;
  }
  const char *near = pw_nearest(word, absent, n_absent);
  for (size_t i = 0; i < n_absent && !near;
       i++) /* "width_mid" is a slip for width_middle, too */
    if (strlen(word) > 3 && strncmp(word, absent[i], strlen(word)) == 0) near = absent[i];
  if (csv->is_order && job_unknown_is_order(word)) near = NULL;
  if (word[0] && near)
    return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[0], (int)col + 1,
                      "no column is named '%.40s'; did you mean %s?", csv->cell[col], near);
  for (size_t r = 0; r < csv->n_row; r++)
    filled += pw_csv_at(csv, r, (int)col)[0] != '\0';
  job_unknown_at at = {csv->name, csv->line[0], (int)col + 1, "column", csv->is_order};
  if (word[0]) return job_unknown_name(csv->cell[col], name, n_name, &at, notes, err);
  if (filled)
    pw_notes_warn(notes, csv->name, csv->line[0],
                  "column %zu has no name; its %zu cells were left out", col + 1, filled);
  return PW_OK;
}

static int column_of(const pw_csv *csv, const char *const *cell, const char *name)
{
  char word[HEADER_WORD];
  for (size_t c = 0; c < csv->n_col; c++) {
    header_word(cell[c], word);
    if (strcmp(word, name) == 0) return (int)c;
  }
  return -1;
}

int pw_csv_column_of(const pw_csv *csv, const char *name)
{
  return column_of(csv, (const char *const *)csv->cell, name);
}

/* A title may stand above the header: the line in which all required names stand, 0 none. */
static int header_below(const pw_csv *csv, const pw_csv_column known[], size_t n)
{
  for (size_t r = 0; r <= csv->n_row && r < 10; r++) {
    size_t missing = 0;
    const char *const *cell = (const char *const *)&csv->cell[r * csv->n_col];
    for (size_t i = 0; i < n; i++)
      missing += known[i].required && column_of(csv, cell, known[i].name) < 0;
    if (missing == 0) return r == 0 ? 0 : csv->line[r];
  }
  return 0;
}

pw_status pw_csv_bind(const pw_csv *csv, const pw_csv_column known[], size_t n, int index[],
                      pw_notes *notes, pw_err *err)
{
  char word[HEADER_WORD];
  unsigned char used[PW_CSV_COLUMNS_MAX] = {0};
  int below = header_below(csv, known, n);
  if (below)
    return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[0], 0,
                      "the header stands in line %d; delete the lines above it or begin them "
                      "with '# '",
                      below);
  if (csv->is_windows1252)
    pw_notes_warn(notes, csv->name, 0, "is no UTF-8 text and was read as windows-1252");
  for (size_t i = 0; i < n; i++) {
    index[i] = -1;
    for (size_t c = 0; c < csv->n_col; c++) {
      header_word(csv->cell[c], word);
      if (strcmp(word, known[i].name) != 0) continue;
      if (index[i] >= 0)
        return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[0], (int)c + 1,
                          "column %s stands twice (first as column %d)", known[i].name,
                          index[i] + 1);
      index[i] = (int)c;
      used[c] = 1;
    }
  }
  for (size_t c = 0; c < csv->n_col; c++) {
    if (used[c]) continue;
    header_word(csv->cell[c], word);
    pw_status status = unknown_column(csv, c, word, known, n, index, notes, err);
    if (status != PW_OK) return status;
  }
  for (size_t i = 0; i < n; i++)
    if (index[i] < 0 && known[i].required)
      return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[0], 0,
                        "the column %s is missing from the header", known[i].name);
  return PW_OK;
}
