#include "out/grid.h"
#include "out/text_stream.h"

#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "out/width.h"

struct pw_grid {
  size_t n_col, n_cell, room;
  char **cell;  /* owned; the first n_col are the headers; NULL marks a rule */
  size_t *wide; /* owned; [n_col], columns of the widest cell */
  int failed;
};

static void append(pw_grid *grid, char *owned)
{
  if (grid->n_cell == grid->room) {
    size_t room = grid->room ? 2 * grid->room : 64;
    char **cell = realloc(grid->cell, room * sizeof *cell);
    if (!cell) {
      grid->failed = 1;
      free(owned);
      return;
    }
    grid->cell = cell;
    grid->room = room;
  }
  grid->cell[grid->n_cell++] = owned;
}

void pw_grid_cell(pw_grid *grid, const char *format, ...)
{
  if (!grid) return;
  char buffer[1024];
  va_list args;
  va_start(args, format);
  vsnprintf(buffer, sizeof buffer, format, args);
  va_end(args);
  char *copy = strdup(buffer);
  if (!copy)
    grid->failed = 1;
  else
    append(grid, copy);
}

pw_grid *pw_grid_new(size_t n_col, const char *const header[])
{
  pw_grid *grid = calloc(1, sizeof *grid);
  if (!grid) return NULL;
  grid->n_col = n_col;
  grid->wide = calloc(n_col, sizeof *grid->wide);
  if (!grid->wide) grid->failed = 1;
  for (size_t i = 0; i < n_col; i++)
    pw_grid_cell(grid, "%s", header[i]);
  return grid;
}

void pw_grid_free(pw_grid *grid)
{
  if (!grid) return;
  for (size_t i = 0; i < grid->n_cell; i++)
    free(grid->cell[i]);
  free(grid->cell);
  free(grid->wide);
  free(grid);
}

void pw_grid_number(pw_grid *grid, double v, int decimals)
{
  if (isfinite(v))
    pw_grid_cell(grid, "%.*f", decimals, fabs(v) < 0.5 * pow(10.0, -decimals) ? 0.0 : v);
  else
    pw_grid_cell(grid, "-");
}

void pw_grid_dollars(pw_grid *grid, double v)
{
  if (isfinite(v))
    pw_grid_cell(grid, "$%.0f", v);
  else
    pw_grid_cell(grid, "-");
}

void pw_grid_payback(pw_grid *grid, double years)
{
  if (isinf(years))
    pw_grid_cell(grid, "never");
  else if (isnan(years))
    pw_grid_cell(grid, "-");
  else
    pw_grid_cell(grid, "%.0f years", years);
}

void pw_grid_rule(pw_grid *grid)
{
  if (!grid) return;
  for (size_t i = 0; i < grid->n_col; i++)
    append(grid, NULL);
}

/* What a cell needs to stay one cell, and no formula in a spreadsheet. */
static void csv_needs(const char *text, int *quote, int *formula)
{
  char *end = NULL;
  strtod(text, &end);
  int number = end != text && *end == '\0';
  *formula =
      !number && strchr("=+-@\t\r", text[0]) && text[0] != '\0' && strcmp(text, "-") != 0;
  *quote = *formula || strpbrk(text, ",\"\n\r") != NULL;
}

size_t pw_csv_quote(const char *text, char out[])
{
  size_t n = 0;
  int quote, formula;
  csv_needs(text, &quote, &formula);
  if (quote) out[n++] = '"';
  if (formula) out[n++] = '\'';
  for (; *text; text++) {
    if (*text == '"') out[n++] = '"';
    out[n++] = *text;
  }
  if (quote) out[n++] = '"';
  out[n] = '\0';
  return n;
}

void pw_csv_cell(FILE *f, const char *text)
{
  int quote, formula;
  csv_needs(text, &quote, &formula);
  if (quote) fputc('"', f);
  if (formula) fputc('\'', f);
  for (; *text; text++) {
    if (*text == '"') fputc('"', f);
    fputc(*text, f);
  }
  if (quote) fputc('"', f);
}

static void print_csv(const pw_grid *grid, FILE *f)
{
  for (size_t i = 0; i + grid->n_col <= grid->n_cell; i += grid->n_col) {
    if (!grid->cell[i]) continue;
    for (size_t c = 0; c < grid->n_col; c++) {
      const char *text = grid->cell[i + c];
      if (c) fputc(',', f);
      pw_csv_cell(f, i == 0 && text[0] == '<' ? text + 1 : text);
    }
    fputc('\n', f);
  }
}

static void pad(FILE *f, size_t n)
{
  while (n--)
    fputc(' ', f);
}

static void print_text(const pw_grid *grid, FILE *f)
{
  size_t n_row = grid->n_cell / grid->n_col;
  size_t *wide = grid->wide;
  memset(wide, 0, grid->n_col * sizeof *wide);
  for (size_t i = 0; i < n_row * grid->n_col; i++) {
    const char *text = grid->cell[i];
    if (!text) continue;
    size_t w = pw_width(text, strlen(text)) - (i < grid->n_col && text[0] == '<');
    if (w > wide[i % grid->n_col]) wide[i % grid->n_col] = w;
  }
  for (size_t r = 0; r < n_row; r++) {
    for (size_t c = 0; c < grid->n_col; c++) {
      const char *text = grid->cell[r * grid->n_col + c];
      const char *head = grid->cell[c];
      int left = head && head[0] == '<', last = c + 1 == grid->n_col;
      if (c) fputs("  ", f);
      if (!text) {
        for (size_t k = 0; k < wide[c]; k++)
          fputc('-', f);
        continue;
      }
      if (r == 0 && left) text++;
      size_t gap = wide[c] - pw_width(text, strlen(text));
      if (!left) pad(f, gap);
      fputs(text, f);
      if (left && !last) pad(f, gap);
    }
    fputc('\n', f);
  }
}

pw_status pw_grid_print(const pw_grid *grid, FILE *f, pw_format format, pw_err *err)
{
  if (!grid || grid->failed) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a table");
  if (format == PW_CSV)
    print_csv(grid, f);
  else
    print_text(grid, f);
  return pw_text_written(f, "a table", err);
}
