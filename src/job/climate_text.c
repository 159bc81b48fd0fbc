/* Lines, cells and numbers of a weather file, fast enough for 600 000 cells in a few ms. */
#include <math.h>
#include <string.h>

#include "job/climate_rows.h"

int climate_cells(climate_text *t, climate_cell cell[], int max)
{
  if (t->at >= t->end) return -1;
  t->line++;
  const char *p = t->at, *end = memchr(p, '\n', (size_t)(t->end - p));
  t->at = end ? end + 1 : t->end;
  if (!end) end = t->end;
  if (end > p && end[-1] == '\r') end--;
  int n = 0;
  for (;;) {
    const char *from = p, *to;
    if (p < end && *p == '"') {
      from = ++p;
      while (p < end && *p != '"')
        p++;
      to = p;
      while (p < end && *p != ',')
        p++;
    } else {
      while (p < end && *p != ',')
        p++;
      to = p;
    }
    if (n < max) cell[n] = (climate_cell){from, (int)(to - from < 4096 ? to - from : 4096)};
    n++;
    if (p >= end) return n;
    p++;
  }
}

int climate_number(climate_cell cell, double *v)
{
  static const double tenth[] = {1.0, 1e-1, 1e-2, 1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9};
  const char *p = cell.at, *end = p + cell.size;
  while (p < end && *p == ' ')
    p++;
  while (end > p && end[-1] == ' ')
    end--;
  *v = NAN;
  if (p == end) return 1;
  int minus = *p == '-', digits = 0, places = 0;
  if (*p == '-' || *p == '+') p++;
  long whole = 0;
  for (; p < end && *p >= '0' && *p <= '9' && digits < 16; p++, digits++)
    whole = whole * 10 + (*p - '0');
  if (p < end && *p == '.')
    for (p++; p < end && *p >= '0' && *p <= '9'; p++) {
      if (places == 9 || digits >= 16) continue; /* finer than any instrument */
      whole = whole * 10 + (*p - '0');
      places++;
      digits++;
    }
  if (p != end || digits == 0) return 0;
  double x = (double)whole * tenth[places];
  *v = minus ? -x : x;
  return 1;
}

int climate_is(climate_cell cell, const char *word)
{
  size_t n = strlen(word);
  return (size_t)cell.size == n && memcmp(cell.at, word, n) == 0;
}

void climate_copy(climate_cell cell, char *to, size_t size)
{
  while (cell.size > 0 && *cell.at == ' ') {
    cell.at++;
    cell.size--;
  }
  size_t n = (size_t)cell.size < size - 1 ? (size_t)cell.size : size - 1;
  for (size_t i = 0; i < n; i++) {
    unsigned char c = (unsigned char)cell.at[i];
    to[i] = c < 32 || c == 127 ? '?' : cell.at[i];
  }
  to[n] = '\0';
}
