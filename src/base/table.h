/* The tables of reference/, compiled in as typed rows (src/embed, by the schema.csv beside each table).
 *
 * Kernels read the rows themselves: "gen/reference.h" declares a struct a table. What follows looks a
 * table or column up by its name, for published cases and for tests. */
#ifndef BASE_TABLE_H
#define BASE_TABLE_H

#include <stddef.h>

typedef enum pw_column_kind {
  PW_COLUMN_NUMBER, /* double, NAN where nothing is given */
  PW_COLUMN_WORD,   /* const char *, "" where nothing is given */
  PW_COLUMN_ENUM,   /* unsigned char, an index of word[] */
  PW_COLUMN_TABLE,  /* const pw_table *, NULL where nothing is given */
  PW_COLUMN_ROW,    /* short, the row of another table; -1 where nothing is given */
  PW_COLUMN_CHARS,  /* char[], "" where nothing is given */
  PW_COLUMN_FIXED   /* short, `per` to one; SHRT_MIN where nothing is given */
} pw_column_kind;

typedef struct pw_column {
  const char *name;
  pw_column_kind kind;
  int per;                 /* of a fixed one */
  size_t offset;           /* in the row */
  const char *const *word; /* of an enum, ended by NULL */
  const char *table;       /* of a row: the other table's name */
} pw_column;

typedef struct pw_table {
  const char *name; /* path below reference/ without ".csv", such as "glazing/gas" */
  size_t n_row, n_col;
  size_t stride; /* bytes from row to row */
  const pw_column *column;
  const void *row;
} pw_table;

/* The table of that name, or NULL. */
const pw_table *pw_table_find(const char *name);

/* The index of a column by its header, or -1. */
int pw_table_column(const pw_table *table, const char *header);

/* A cell; "" or NAN when the row or the column is not there (table may be NULL, col may be -1) or is of
 * the other kind. */
const char *pw_table_text(const pw_table *table, size_t row, int col);
double pw_table_number(const pw_table *table, size_t row, int col);

/* All tables in the order of their names, for a walk. */
extern const pw_table pw_tables[];
extern const size_t pw_table_count;

#endif
