/* The tables of reference/, compiled in: every cell as text and, where it is one, as a number. */
#ifndef PANEWRIGHT_TABLE_H
#define PANEWRIGHT_TABLE_H

#include <stddef.h>

typedef struct pw_table {
  const char *name; /* path below reference/ without ".csv", such as "glazing/gas" */
  size_t n_row, n_col;
  const char *const *text; /* header row first: text[(row + 1) * n_col + col] */
  const double *number;    /* number[row * n_col + col], NAN where the cell is no number */
} pw_table;

/* The table of that name, or NULL. */
const pw_table *pw_table_find(const char *name);

/* The index of a column by its header, or -1. */
int pw_table_column(const pw_table *table, const char *header);

/* A cell; "" or NAN when the row or the column is not there (table may be NULL, col may be -1). */
const char *pw_table_text(const pw_table *table, size_t row, int col);
double pw_table_number(const pw_table *table, size_t row, int col);

/* All tables, for a walk. */
extern const pw_table pw_tables[];
extern const size_t pw_table_count;

#endif
