#include "panewright/table.h"

#include <math.h>
#include <string.h>

const pw_table *pw_table_find(const char *name)
{
  size_t low = 0, high = pw_table_count; /* they stand in the order of their names */
  while (low < high) {
    size_t middle = low + (high - low) / 2;
    int order = strcmp(pw_tables[middle].name, name);
    if (order == 0) return &pw_tables[middle];
    if (order < 0)
      low = middle + 1;
    else
      high = middle;
  }
  return NULL;
}

int pw_table_column(const pw_table *table, const char *header)
{
  for (size_t c = 0; table && c < table->n_col; c++)
    if (table->text[c][0] == header[0] && strcmp(table->text[c], header) == 0) return (int)c;
  return -1;
}

static int inside(const pw_table *table, size_t row, int col)
{
  return table && col >= 0 && row < table->n_row && (size_t)col < table->n_col;
}

const char *pw_table_text(const pw_table *table, size_t row, int col)
{
  return inside(table, row, col) ? table->text[(row + 1) * table->n_col + (size_t)col] : "";
}

double pw_table_number(const pw_table *table, size_t row, int col)
{
  return inside(table, row, col) ? table->number[row * table->n_col + (size_t)col]
                                 : (double)NAN;
}
