#include "base/table.h"

#include <limits.h>
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
    if (table->column[c].name[0] == header[0] && strcmp(table->column[c].name, header) == 0)
      return (int)c;
  return -1;
}

static const void *cell(const pw_table *table, size_t row, int col)
{
  if (!table || col < 0 || row >= table->n_row || (size_t)col >= table->n_col) return NULL;
  return (const char *)table->row + row * table->stride + table->column[col].offset;
}

/* The key of another table is taken to be its first column. */
const char *pw_table_text(const pw_table *table, size_t row, int col)
{
  const void *at = cell(table, row, col);
  const pw_table *other = NULL;
  if (!at) return "";
  switch (table->column[col].kind) {
  case PW_COLUMN_WORD:
    return *(const char *const *)at;
  case PW_COLUMN_ENUM:
    return table->column[col].word[*(const unsigned char *)at];
  case PW_COLUMN_TABLE:
    other = *(const pw_table *const *)at;
    return other ? other->name : "";
  case PW_COLUMN_ROW:
    other = pw_table_find(table->column[col].table);
    return *(const short *)at < 0 ? "" : pw_table_text(other, (size_t) * (const short *)at, 0);
  case PW_COLUMN_CHARS:
    return at;
  case PW_COLUMN_NUMBER:
  case PW_COLUMN_FIXED:
    break;
  }
  return "";
}

double pw_table_number(const pw_table *table, size_t row, int col)
{
  const void *at = cell(table, row, col);
  if (at && table->column[col].kind == PW_COLUMN_FIXED && *(const short *)at != SHRT_MIN)
    return (double)*(const short *)at / table->column[col].per;
  return at && table->column[col].kind == PW_COLUMN_NUMBER ? *(const double *)at : (double)NAN;
}
