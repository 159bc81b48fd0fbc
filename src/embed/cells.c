/* Rows and cells of a CSV file of reference/. */
#include <stdlib.h>
#include <string.h>

#include "embed/embed.h"

/* Splits one line (quotes doubled inside quoted cells) in place; returns the count. */
static size_t split(const char *path, size_t number, char *line, char *cell[CELLS_MAX])
{
  size_t n = 0;
  char *r = line, *w = line;
  for (;;) {
    if (n < CELLS_MAX)
      cell[n++] = w;
    else
      embed_fail(path, number, "more than %d cells", CELLS_MAX);
    if (*r == '"') {
      for (r++; *r; r++) {
        if (*r == '"' && r[1] == '"')
          *w++ = *r++;
        else if (*r == '"')
          break;
        else
          *w++ = *r;
      }
      if (*r++ != '"') embed_fail(path, number, "a quote is not closed");
    }
    while (*r && *r != ',')
      *w++ = *r++;
    int more = *r == ',';
    if (more) r++;
    *w++ = '\0';
    if (!more) return n;
  }
}

embed_csv embed_csv_read(const char *path)
{
  size_t size = 0, room = 1, number = 0;
  embed_csv csv = {.path = path, .text = embed_read(path, &size)};
  for (size_t i = 0; i < size; i++)
    room += csv.text[i] == '\n';
  csv.line = embed_alloc(room, sizeof *csv.line);
  for (char *line = csv.text, *next = NULL; line && *line; line = next) {
    char *cell[CELLS_MAX];
    number++;
    if ((next = strchr(line, '\n'))) *next++ = '\0';
    size_t length = strlen(line);
    if (length && line[length - 1] == '\r') line[length - 1] = '\0';
    if (line[0] == '#' || line[0] == '\0') continue;
    size_t n = split(path, number, line, cell);
    if (!csv.cell) {
      csv.n_col = n;
      csv.cell = embed_alloc(room * n, sizeof *csv.cell);
    }
    if (n > csv.n_col) embed_fail(path, number, "%zu cells, the header has %zu", n, csv.n_col);
    csv.line[csv.n_row] = number;
    for (size_t i = 0; i < csv.n_col; i++)
      csv.cell[csv.n_row * csv.n_col + i] = i < n ? cell[i] : line + strlen(line);
    csv.n_row++;
  }
  if (csv.n_row < 1) embed_fail(path, 0, "no header");
  return csv;
}
