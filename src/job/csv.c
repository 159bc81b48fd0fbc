#include "job/csv.h"

#include <csv.h>
#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "base/windows1252.h"
#include "job/input_text.h"

enum {
  ROW_NOT_BEGUN = 0,
  FIELD_BEGUN = 2
}; /* libcsv's pstate, which its header leaves unnamed */

/* State while libcsv hands over cells. */
typedef struct filling {
  pw_csv *csv;
  size_t room_cell, room_line;
  size_t n_in_row, rows_most;
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

/* The one cell of the header says that no comma parts the cells, or that it is a title. */
static void refuse_header(filling *f)
{
  const pw_csv *csv = f->csv;
  if (f->parted_by)
    refuse(f, pw_fail_at(f->err, PW_E_DATA, csv->name, csv->line[0], 1,
                         "cells are parted by %s, want ','",
                         f->parted_by == ';' ? "';'" : "tabs"));
  else
    refuse(f, pw_fail_at(f->err, PW_E_DATA, csv->name, csv->line[0], 1,
                         "'%.40s' is no header of columns; delete the line or begin it with "
                         "'# '",
                         csv->cell[0]));
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
    if (size && n_col == 1)
      refuse_header(f);
    else if (size)
      refuse(f, pw_fail_at(f->err, PW_E_DATA, f->csv->name, f->row_line, at,
                           "%.40s: more cells than the header's %d; quote a text or a number "
                           "that holds commas",
                           f->csv->cell[f->csv->n_cell - f->csv->n_col], n_col));
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
  if (csv->n_line > f->rows_most) {
    refuse(f, pw_fail_at(f->err, PW_E_DATA, csv->name, f->row_line, 0, "more than %zu rows",
                         f->rows_most));
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

/* The UTF-8 character at text (size bytes are left), its length; 0 when it is none. */
static size_t decode(const char *text, size_t size)
{
  unsigned long point;
  char tail[5] = ""; /* the last bytes with an end behind them */
  if (size >= 4) return pw_text_decode(text, &point);
  memcpy(tail, text, size);
  return pw_text_decode(tail, &point);
}

/* Offset of the first byte of text[size] (a line, no zero in it) that is no UTF-8, or size. */
static size_t first_strange(const char *text, size_t size)
{
  size_t at = 0, n = 1;
  while (at < size && n > 0)
    at += n = decode(text + at, size - at);
  return at;
}

int pw_csv_is_bytewise(const char *text, size_t size)
{
  size_t strange = 0, several = 0;
  if (size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) return 0;
  if (size >= 2 && (memcmp(text, "\xFF\xFE", 2) == 0 || memcmp(text, "\xFE\xFF", 2) == 0))
    return 0;
  if (memchr(text, '\0', size)) return 0;
  for (size_t at = 0; at < size && several == 0;) {
    size_t n = decode(text + at, size - at);
    strange += n == 0;
    several += n > 1;
    at += n ? n : 1;
  }
  return strange > 0 && several == 0;
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

/* "sep=," in the first line tells a spreadsheet how cells are parted. */
static int is_separator(const char *text, size_t size)
{
  static const char word[] = "sep=,";
  for (size_t i = 0; i < 5; i++)
    if (i >= size || tolower((unsigned char)text[i]) != word[i]) return 0;
  return size == 5 || text[5] == '\r' || text[5] == '\n';
}

pw_status pw_csv_fault(struct csv_parser *parser)
{
  return csv_error(parser) == CSV_ENOMEM ? PW_E_NOMEM : PW_E_DATA;
}

static pw_status feed(struct csv_parser *parser, filling *f, const char *text, size_t size)
{
  int line = 1, row_open = 0;
  for (size_t at = 0; at < size && f->status == PW_OK; line++) {
    size_t n = line_length(text + at, size - at);
    if (!row_open && (is_note(text + at, n) || (line == 1 && is_separator(text, n)))) {
      at += n;
      continue;
    }
    if (!row_open) f->row_line = line;
    size_t done = csv_parse(parser, text + at, n, take_cell, end_row, f);
    if (done != n)
      refuse(f, pw_fail_at(f->err, pw_csv_fault(parser), f->csv->name, line, 0, "%s",
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
    refuse(f, pw_fail_at(f->err, pw_csv_fault(parser), f->csv->name, f->row_line, 0,
                         "a quote that opens in this row is never closed"));
  return f->status;
}

/* Text in UTF-8, checked, without a byte-order mark. */
static pw_status parse(const char *text, size_t size, size_t rows, pw_csv *csv, pw_err *err)
{
  pw_status status = check_text(csv->name, text, size, err);
  if (status != PW_OK) return status;
  if (size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) {
    text += 3;
    size -= 3;
  }
  struct csv_parser parser;
  if (csv_init(&parser, 0) != 0)
    return pw_fail(err, PW_E_NOMEM, NULL, "%s: no memory", csv->name);
  filling f = {.csv = csv, .rows_most = rows, .row_line = 1, .err = err};
  status = feed(&parser, &f, text, size);
  if (status != PW_OK) csv_fini(&parser, forget_cell, forget_row, NULL);
  csv_free(&parser);
  if (status == PW_OK && csv->n_line == 0)
    status = pw_fail(err, PW_E_MISSING, NULL, "%s: the file is empty", csv->name);
  if (status == PW_OK && csv->n_col == 1 && f.parted_by) {
    refuse_header(&f);
    status = f.status;
  }
  return status;
}

pw_status pw_csv_parse(const char *name, const char *text, size_t size, pw_csv *csv,
                       pw_err *err)
{
  return pw_csv_parse_rows(name, text, size, PW_CSV_ROWS_MAX, csv, err);
}

pw_status pw_csv_parse_rows(const char *name, const char *text, size_t size, size_t rows,
                            pw_csv *csv, pw_err *err)
{
  memset(csv, 0, sizeof *csv);
  snprintf(csv->name, sizeof csv->name, "%s", name);
  pw_text_clean(csv->name);
  char *utf8 = NULL;
  if (pw_csv_is_bytewise(text, size)) {
    size_t bad = 0, new_size = 0;
    utf8 = pw_windows1252_to_utf8(text, size, &new_size, &bad);
    if (!utf8 && bad == size) return pw_fail(err, PW_E_NOMEM, NULL, "%s: no memory", name);
    if (utf8) { /* else check_text says which byte it is */
      text = utf8;
      size = new_size;
      csv->is_windows1252 = 1;
    }
  }
  pw_status status = parse(text, size, rows, csv, err);
  free(utf8);
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

pw_status pw_csv_open(const char *name, const char *text, size_t size, pw_csv *csv, pw_err *err)
{
  return text ? pw_csv_parse(name, text, size, csv, err) : pw_csv_read(name, csv, err);
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
