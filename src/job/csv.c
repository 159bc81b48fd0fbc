#include "job/csv.h"

#include <csv.h>
#include <ctype.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "job/input_text.h"
#include "panewright/nearest.h"

enum { HEADER_WORD = 64 };
enum {
  ROW_NOT_BEGUN = 0,
  FIELD_BEGUN = 2
}; /* libcsv's pstate, which its header leaves unnamed */

/* State while libcsv hands over cells. */
typedef struct filling {
  pw_csv *csv;
  size_t room_cell, room_line;
  size_t n_in_row;
  char parted_by;   /* ';' or a tab in the first cell, 0 none */
  int row_line;     /* line on which the row in hand began */
  pw_status status; /* first thing that went wrong */
  pw_err *err;
} filling;

static void refuse(filling *f, pw_status status)
{
  if (f->status == PW_OK) f->status = status;
}

static int grow(void **array, size_t *room, size_t want, size_t each)
{
  if (want <= *room) return 1;
  size_t bigger = *room ? 2 * *room : 64;
  void *p = realloc(*array, bigger * each);
  if (!p) return 0;
  *array = p;
  *room = bigger;
  return 1;
}

static int push_cell(filling *f, const char *text, size_t size)
{
  char *copy = malloc(size + 1);
  if (!copy ||
      !grow((void **)&f->csv->cell, &f->room_cell, f->csv->n_cell + 1, sizeof(char *))) {
    free(copy);
    refuse(f, pw_fail(f->err, PW_E_NOMEM, NULL, "%s: no memory", f->csv->name));
    return 0;
  }
  memcpy(copy, text, size);
  copy[size] = '\0';
  if (f->csv->n_cell == 0) f->parted_by = strpbrk(copy, ";\t") ? *strpbrk(copy, ";\t") : 0;
  pw_text_clean(copy);
  f->csv->cell[f->csv->n_cell++] = copy;
  return 1;
}

static void take_cell(void *data, size_t size, void *context)
{
  filling *f = context;
  const char *text = data;
  if (f->status != PW_OK) return;
  while (size && isspace((unsigned char)text[0])) {
    text++;
    size--;
  }
  while (size && isspace((unsigned char)text[size - 1]))
    size--;
  f->n_in_row++;
  int n_col = (int)f->csv->n_col, at = (int)f->n_in_row;
  if (size > PW_CSV_CELL_MAX)
    refuse(f, pw_fail_at(f->err, PW_E_DATA, f->csv->name, f->row_line, at,
                         "a cell of %zu bytes, want at most %d (a quote left open?)", size,
                         PW_CSV_CELL_MAX));
  else if (f->csv->n_line == 0 && at > PW_CSV_COLUMNS_MAX)
    refuse(f, pw_fail_at(f->err, PW_E_DATA, f->csv->name, f->row_line, at,
                         "more than %d columns", PW_CSV_COLUMNS_MAX));
  else if (f->csv->n_line > 0 && at > n_col) {
    if (size)
      refuse(f, pw_fail_at(f->err, PW_E_DATA, f->csv->name, f->row_line, at,
                           "more cells than the header's %d; quote a text that holds commas",
                           n_col));
  } else
    push_cell(f, text, size);
}

/* "# " or a bare "#" begins a note; "#1" may be a tag. */
static int is_note(const char *text, size_t size)
{
  return size > 0 && text[0] == '#' && (size == 1 || isspace((unsigned char)text[1]));
}

static void drop_row(filling *f, size_t first)
{
  while (f->csv->n_cell > first)
    free(f->csv->cell[--f->csv->n_cell]);
  f->n_in_row = 0;
}

static void end_row(int mark, void *context)
{
  (void)mark;
  filling *f = context;
  if (f->status != PW_OK) return;
  pw_csv *csv = f->csv;
  size_t first = csv->n_line * csv->n_col;
  if (csv->n_cell > first && is_note(csv->cell[first], strlen(csv->cell[first]))) {
    drop_row(f, first); /* a spreadsheet has quoted the note */
    return;
  }
  if (csv->n_line > PW_CSV_ROWS_MAX) {
    refuse(f, pw_fail_at(f->err, PW_E_DATA, csv->name, f->row_line, 0, "more than %d rows",
                         PW_CSV_ROWS_MAX));
    return;
  }
  if (!grow((void **)&csv->line, &f->room_line, csv->n_line + 1, sizeof(int))) {
    refuse(f, pw_fail(f->err, PW_E_NOMEM, NULL, "%s: no memory", csv->name));
    return;
  }
  if (csv->n_line == 0) csv->n_col = f->n_in_row;
  while (f->n_in_row < csv->n_col && push_cell(f, "", 0))
    f->n_in_row++;
  csv->line[csv->n_line++] = f->row_line;
  f->n_in_row = 0;
  size_t blank = 0;
  while (blank < csv->n_col && csv->n_cell > first + blank && !csv->cell[first + blank][0])
    blank++;
  if (blank < csv->n_col || csv->n_line == 1) return;
  drop_row(f, first); /* nothing but commas */
  csv->n_line--;
}

static void forget_cell(void *data, size_t size, void *context)
{
  (void)data;
  (void)size;
  (void)context;
}

static void forget_row(int mark, void *context)
{
  (void)mark;
  (void)context;
}

/* Length of the line at text, its end mark included. */
static size_t line_length(const char *text, size_t size)
{
  size_t n = 0;
  while (n < size && text[n] != '\n' && text[n] != '\r')
    n++;
  if (n + 1 < size && text[n] == '\r' && text[n + 1] == '\n') return n + 2;
  return n < size ? n + 1 : n;
}

/* Offset of the first byte of text[size] (a line, no zero in it) that is no UTF-8, or size. */
static size_t first_strange(const char *text, size_t size)
{
  unsigned long point;
  size_t at = 0, n = 1;
  char tail[5] = ""; /* the last bytes with an end behind them */
  while (at < size && n > 0) {
    const char *s = text + at;
    if (size - at < 4) {
      memcpy(tail, s, size - at);
      tail[size - at] = '\0';
      s = tail;
    }
    at += n = pw_text_decode(s, &point);
  }
  return at;
}

static pw_status check_text(const char *name, const char *text, size_t size, pw_err *err)
{
  int line = 1;
  if (size >= 2 && (memcmp(text, "\xFF\xFE", 2) == 0 || memcmp(text, "\xFE\xFF", 2) == 0))
    return pw_fail_at(err, PW_E_DATA, name, 1, 1, "text in UTF-16; save it as CSV in UTF-8");
  if (size >= 4 && memcmp(text, "PK\x03\x04", 4) == 0)
    return pw_fail_at(err, PW_E_DATA, name, 1, 1,
                      "a packed file (a spreadsheet?); save it as CSV in UTF-8");
  for (size_t at = 0; at < size; line++) {
    size_t n = line_length(text + at, size - at);
    if (n > PW_CSV_LINE_MAX)
      return pw_fail_at(err, PW_E_DATA, name, line, 1, "a line of %zu bytes, want at most %d",
                        n, PW_CSV_LINE_MAX);
    const char *zero = memchr(text + at, '\0', n);
    if (zero)
      return pw_fail_at(err, PW_E_DATA, name, line, (int)(zero - (text + at)) + 1,
                        "a zero byte: this is no CSV text");
    size_t strange = first_strange(text + at, n);
    if (strange < n)
      return pw_fail_at(err, PW_E_DATA, name, line, (int)strange + 1,
                        "byte %zu of the line is no UTF-8 text; save it as CSV in UTF-8",
                        strange + 1);
    at += n;
  }
  return PW_OK;
}

static pw_status feed(struct csv_parser *parser, filling *f, const char *text, size_t size)
{
  int line = 1, row_open = 0;
  for (size_t at = 0; at < size && f->status == PW_OK; line++) {
    size_t n = line_length(text + at, size - at);
    if (!row_open && is_note(text + at, n)) {
      at += n;
      continue;
    }
    if (!row_open) f->row_line = line;
    size_t done = csv_parse(parser, text + at, n, take_cell, end_row, f);
    if (done != n)
      refuse(f, pw_fail_at(f->err, PW_E_DATA, f->csv->name, line, 0, "%s",
                           csv_strerror(csv_error(parser))));
    row_open = parser->pstate != ROW_NOT_BEGUN;
    if (parser->entry_pos >
        PW_CSV_LINE_MAX) /* an open quote would swallow the rest of the file */
      refuse(f, pw_fail_at(f->err, PW_E_DATA, f->csv->name, f->row_line, (int)f->n_in_row + 1,
                           "a cell of more than %d bytes, want at most %d (a quote left open?)",
                           PW_CSV_LINE_MAX, PW_CSV_CELL_MAX));
    at += n;
  }
  int open_quote = parser->pstate == FIELD_BEGUN && parser->quoted;
  if (f->status == PW_OK && (open_quote || csv_fini(parser, take_cell, end_row, f) != 0))
    refuse(f, pw_fail_at(f->err, PW_E_DATA, f->csv->name, f->row_line, 0,
                         "a quote that opens in this row is never closed"));
  return f->status;
}

pw_status pw_csv_parse(const char *name, const char *text, size_t size, pw_csv *csv,
                       pw_err *err)
{
  memset(csv, 0, sizeof *csv);
  snprintf(csv->name, sizeof csv->name, "%s", name);
  pw_text_clean(csv->name);
  pw_status status = check_text(csv->name, text, size, err);
  if (status != PW_OK) {
    memset(csv, 0, sizeof *csv);
    return status;
  }
  if (size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) {
    text += 3;
    size -= 3;
  }
  struct csv_parser parser;
  if (csv_init(&parser, 0) != 0) return pw_fail(err, PW_E_NOMEM, NULL, "%s: no memory", name);
  filling f = {.csv = csv, .row_line = 1, .err = err};
  status = feed(&parser, &f, text, size);
  if (status != PW_OK) csv_fini(&parser, forget_cell, forget_row, NULL);
  csv_free(&parser);
  if (status == PW_OK && csv->n_line == 0)
    status = pw_fail(err, PW_E_MISSING, NULL, "%s: the file is empty", csv->name);
  if (status == PW_OK && csv->n_col == 1 && f.parted_by)
    status =
        pw_fail_at(err, PW_E_DATA, csv->name, csv->line[0], 1,
                   "cells are parted by %s, want ','", f.parted_by == ';' ? "';'" : "tabs");
  if (status != PW_OK) {
    pw_csv_free(csv);
    return status;
  }
  csv->n_row = csv->n_line - 1;
  return PW_OK;
}

static const char *last_part(const char *path)
{
  const char *slash = strrchr(path, '/');
  return slash && slash[1] ? slash + 1 : path;
}

pw_status pw_csv_read(const char *path, pw_csv *csv, pw_err *err)
{
  char *text = NULL;
  size_t size = 0;
  memset(csv, 0, sizeof *csv);
  pw_status status = pw_input_read(path, PW_INPUT_JOB, &text, &size, err);
  if (status == PW_OK) status = pw_csv_parse(last_part(path), text, size, csv, err);
  free(text);
  return status;
}

void pw_csv_free(pw_csv *csv)
{
  if (!csv) return;
  for (size_t i = 0; i < csv->n_cell; i++)
    free(csv->cell[i]);
  free(csv->cell);
  free(csv->line);
  memset(csv, 0, sizeof *csv);
}

const char *pw_csv_at(const pw_csv *csv, size_t row, int col)
{
  return col < 0 ? "" : csv->cell[(row + 1) * csv->n_col + (size_t)col];
}

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
  const char *absent[PW_CSV_COLUMNS_MAX];
  size_t n_absent = 0, filled = 0;
  for (size_t i = 0; i < n && n_absent < PW_CSV_COLUMNS_MAX; i++)
    if (index[i] < 0) absent[n_absent++] = known[i].name;
  const char *near = pw_nearest(word, absent, n_absent);
  for (size_t i = 0; i < n_absent && !near;
       i++) /* "width_mid" is a slip for width_middle, too */
    if (strlen(word) > 3 && strncmp(word, absent[i], strlen(word)) == 0) near = absent[i];
  if (word[0] && near)
    return pw_fail_at(err, PW_E_DATA, csv->name, csv->line[0], (int)col + 1,
                      "no column is named '%.40s'; did you mean %s?", csv->cell[col], near);
  for (size_t r = 0; r < csv->n_row; r++)
    filled += pw_csv_at(csv, r, (int)col)[0] != '\0';
  if (word[0])
    pw_notes_warn(notes, csv->name, csv->line[0],
                  "column '%.40s' is not known and was left out", csv->cell[col]);
  else if (filled)
    pw_notes_warn(notes, csv->name, csv->line[0],
                  "column %zu has no name; its %zu cells were left out", col + 1, filled);
  return PW_OK;
}

pw_status pw_csv_bind(const pw_csv *csv, const pw_csv_column known[], size_t n, int index[],
                      pw_notes *notes, pw_err *err)
{
  char word[HEADER_WORD];
  unsigned char used[PW_CSV_COLUMNS_MAX] = {0};
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
