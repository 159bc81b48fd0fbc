#include "out/grid.h"

#include <errno.h>
#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

struct pw_grid {
  size_t n_col, n_cell, room;
  char **cell; /* owned; the first n_col are the headers; NULL marks a rule */
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
  free(grid);
}

void pw_grid_number(pw_grid *grid, double v, int decimals)
{
  if (isfinite(v))
    pw_grid_cell(grid, "%.*f", decimals, fabs(v) < 0.5 * pow(10.0, -decimals) ? 0.0 : v);
  else
    pw_grid_cell(grid, "-");
}

void pw_grid_rule(pw_grid *grid)
{
  if (!grid) return;
  for (size_t i = 0; i < grid->n_col; i++)
    append(grid, NULL);
}

static size_t width(const char *text)
{
  size_t n = 0;
  for (; *text; text++)
    if (((unsigned char)*text & 0xC0) != 0x80) n++;
  return n;
}

size_t pw_csv_quote(const char *text, char out[])
{
  char *end = NULL;
  size_t n = 0;
  strtod(text, &end);
  int number = end != text && *end == '\0';
  int formula =
      !number && strchr("=+-@\t\r", text[0]) && text[0] != '\0' && strcmp(text, "-") != 0;
  int quote = formula || strpbrk(text, ",\"\n\r") != NULL;
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
  char small[1024], *cell = small;
  size_t wanted = 2 * strlen(text) + 4;
  if (wanted > sizeof small) cell = malloc(wanted);
  if (!cell) return;
  fwrite(cell, 1, pw_csv_quote(text, cell), f);
  if (cell != small) free(cell);
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
  size_t *wide = calloc(grid->n_col, sizeof *wide);
  if (!wide) return;
  for (size_t i = 0; i < n_row * grid->n_col; i++) {
    const char *text = grid->cell[i];
    if (!text) continue;
    size_t w = width(text) - (i < grid->n_col && text[0] == '<');
    if (w > wide[i % grid->n_col]) wide[i % grid->n_col] = w;
  }
  for (size_t r = 0; r < n_row; r++) {
    for (size_t c = 0; c < grid->n_col; c++) {
      const char *text = grid->cell[r * grid->n_col + c];
      int left = grid->cell[c][0] == '<', last = c + 1 == grid->n_col;
      if (c) fputs("  ", f);
      if (!text) {
        for (size_t k = 0; k < wide[c]; k++)
          fputc('-', f);
        continue;
      }
      if (r == 0 && left) text++;
      size_t gap = wide[c] - width(text);
      if (!left) pad(f, gap);
      fputs(text, f);
      if (left && !last) pad(f, gap);
    }
    fputc('\n', f);
  }
  free(wide);
}

pw_status pw_grid_print(const pw_grid *grid, FILE *f, pw_format format, pw_err *err)
{
  if (!grid || grid->failed) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for a table");
  if (format == PW_CSV)
    print_csv(grid, f);
  else
    print_text(grid, f);
  if (ferror(f))
    return pw_fail(err, PW_E_IO, NULL, "cannot write a table: %s", strerror(errno));
  return PW_OK;
}
